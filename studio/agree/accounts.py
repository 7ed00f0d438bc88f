"""What accounts for a number that was not to be expected where it is said: what is seen, what was asked, arithmetic that it
closes. One function each; a new account is one more in `ACCOUNTS`."""

from __future__ import annotations

import re
from bisect import bisect_left
from itertools import combinations, pairwise

from studio.agree.case import Case
from studio.agree.claimed import begins_with_no
from studio.agree.derived import (
    counts_from_one_to_the_other,
    counts_those_before,
    counts_what_is_added,
    has_their_digits,
    is_left_of_a_task,
    lies_in_the_middle,
    tells_how_many_were_named,
)
from studio.agree.evident import (
    answers_what_is_written,
    counts_pictures,
    just_done,
    just_seen,
    read_aloud,
    stands_written,
)
from studio.agree.expect.place import Book, Place
from studio.agree.pictured import (
    in_a_frame,
    in_each_row,
    is_done_next,
    of_all_pictures,
    of_bundles,
    of_tens,
    on_some_dice,
    to_a_hundred,
    what_is_empty,
    with_what_is_seen,
    would_be_reached,
)
from studio.agree.wording import spelled
from studio.talk.numbers import number_words

_REFUSING = frozenset("no nope nay".split())
_LETTER = re.compile(r"[A-D][,:)]\Z")
_LAST = 4  # words
_LONGEST_CHOICE, _NEXT_CHOICE = 4, 14  # words
_PAIR, _TEN = 2, 10
_GUESSED = frozenset("guess guesses guessed".split())
_ROWS = frozenset("above below under underneath".split())
_JOINED = frozenset(("0", "A", "AE"))
"""Links of two numbers with nothing or "and" between them."""
_FEWEST_ADDED = 3
_THAN_DOUBLE = re.compile(r"(more|less|fewer) than (?:double|twice|two times) (\S+)")
_BEHIND = 5  # words
_TENS = frozenset(("tens",))
_BETWEEN = frozenset(("between",))
_ONES = frozenset("ones one cubes units singles".split())
_GOES = frozenset("came come comes went goes was were left fell".split())
_BESIDE = re.compile(r"(?:is |are |comes )?(?:one|1) (less|more)")
_SO = frozenset(("so",))
_LIKE = frozenset(("like",))
_WANTS = frozenset("wants needs lacks takes".split())
_NAMED_BY_NUMBER = frozenset("page pages chapter room platform channel grade".split())
_HOUR = re.compile(r"in the (?:morning|afternoon|evening)|at night|o'clock")
_THE = frozenset("the these those".split())
_ALIKE = frozenset("alike same similar different differ differs agree match".split())


def _is_guessed(case: Case, place: Place) -> bool:
    """Whether it is only guessed, or the last of what is refused at once ("I guess nine.", "Duck wanted nine. No way!")."""
    if case.says(place.number.start - 2, place.number.start, _GUESSED):
        return True
    words, end = case.talk.words, place.sentence.end
    return (
        end + 1 < place.end
        and place.number.end > end - _LAST
        and words[end].plain in _REFUSING
        and (words[end + 1].plain == "way" or not words[end].text[-1:].isalnum())
    )


def _is_asked_and_refused(case: Case, place: Place) -> bool:
    """Whether the next sentence asks whether it is so, and that is denied at once ("Thirteen! Is thirteen one less than twelve? Oh
    no.")."""
    following = case.sentences[place.sentence_index + 1 :][:2]
    return (
        len(following) == 2
        and following[1].segment == place.segment
        and case.asks(following[0])
        and place.number.value in following[0].values
        and begins_with_no(case, following[1])
    )


def _is_choice(case: Case, place: Place) -> bool:
    """Whether it is one of the answers to choose from, each with its letter ("A, six. B, five. C, eleven.", "A: six and five.")."""
    words, start = case.talk.words, place.number.start
    near = range(start - 1, max(0, start - _LONGEST_CHOICE) - 1, -1)
    at = next((at for at in near if _LETTER.match(words[at].text)), None)
    if at is None or words[at].sentence != words[start].sentence:
        return False
    letter = words[at].text[0]
    before = [word.text[0] for word in words[max(0, at - _NEXT_CHOICE) : at] if _LETTER.match(word.text)]
    after = [word.text[0] for word in words[at + 1 : at + _NEXT_CHOICE] if _LETTER.match(word.text)]
    return before[-1:] == [chr(ord(letter) - 1)] or after[:1] == [chr(ord(letter) + 1)]


def _of_letters(case: Case, place: Place) -> bool:
    """Whether a number named close by is written with so many letters ("It has seven letters: sixteen")."""
    first, last = case.sentences_around(place.sentence_index, 1, 1)
    return place.after.word == "letters" and any(
        len(spelled(value)) == place.number.value for near in case.sentences[first : last + 1] for value in near.values
    )


def _in_the_rows(case: Case, place: Place) -> bool:
    """Whether it answers what is above or below one of the last numbers ("26. What is above it? 16."), or is ten more than another that
    is above it ("Three is straight above thirteen, for thirteen is ten more.")."""
    asked = case.question_before(place.sentence_index)
    value = place.number.value
    if case.has_word(place.sentence, _ROWS) and not {value - 10, value + 10}.isdisjoint(place.sentence.values):
        return True
    return (
        asked is not None
        and len(place.sentence.numbers) == 1
        and case.has_word(asked, _ROWS)
        and not {value - 10, value + 10}.isdisjoint(place.preceding)
    )


def _counted_on(case: Case, place: Place) -> bool:
    """Whether it is where a count of one step was to get to ("Let us count on from thirteen to fourteen. Thirteen. Fourteen.")."""
    value, before = place.number.value, place.preceding
    step = abs(value - before[-1]) if before else 0
    return step == 1 and before[-3:] == [before[-1], value, before[-1]] and len(place.sentence.numbers) == 1


def _sums_the_question(case: Case, place: Place) -> bool:
    """Whether it is the sum of all the numbers of a question, three or more ("Seven and two and eight claws? Seventeen!")."""
    asked = case.question_before(place.sentence_index)
    return (
        asked is not None
        and len(place.sentence.numbers) == 1
        and len(asked.values) >= _FEWEST_ADDED
        and sum(asked.values) == place.number.value
    )


def _behind(place: Place) -> str:
    """The next words behind the number."""
    end = place.number.end
    return " ".join(word.plain for word in place.book.words[end : end + _BEHIND])


def _from_a_double(case: Case, place: Place) -> bool:
    """Whether it is by how much the number before it is more or less than the double that is named next ("Twice eight, sixteen. It is two
    more than double seven.")."""
    match = _THAN_DOUBLE.match(_behind(place))
    half = number_words(match[2]) if match else None
    if match is None or half is None or not place.preceding:
        return False
    by = place.number.value if match[1] == "more" else -place.number.value
    return place.preceding[-1] == 2 * half + by


def _counts_the_list(case: Case, place: Place) -> bool:
    """Whether so many numbers are named behind it ("Seven: twelve, fourteen, sixteen, eighteen, twenty, twenty-two and twenty-four.")."""
    sentence = place.sentence
    return (
        place.number.start == sentence.start
        and case.talk.words[place.number.end - 1].text.endswith(":")
        and len(sentence.numbers) == place.number.value + 1
    )


def _is_tens_digit(case: Case, place: Place) -> bool:
    """Whether it is the tens of one of the last numbers, and tens are spoken of ("Twenty-six. Only the tens have dropped, from three to
    two.")."""
    tens = {value // _TEN for value in place.preceding if value >= _TEN}
    return place.number.value in tens and case.says(place.sentence.start, place.number.start, _TENS)


def _behind_first_words(book: Book) -> dict[str, list[int]]:
    """The indices of the numbers right behind the first word of their sentence, by that word."""
    found: dict[str, list[int]] = {}
    for at, number in enumerate(book.numbers):
        first = book.case.sentences[book.sentence_of[at]].start
        if number.start == first + 1 and book.before[at].word == book.words[first].plain:
            found.setdefault(book.words[first].plain, []).append(at)
    return found


def _next_of_a_row(case: Case, place: Place) -> bool:
    """Whether it goes on from the last number behind the same first word ("Way six. ... Way seven. ...")."""
    if place.number.start != place.sentence.start + 1:
        return False
    row = place.book.once(_behind_first_words).get(place.before.word, [])
    at = bisect_left(row, place.index)
    return 0 < at < len(row) and row[at] == place.index and place.book.said[row[at - 1]] == place.number.value - 1


def _adds_up(case: Case, place: Place) -> bool:
    """Whether it is one of some numbers that are named in a row and make what is said then ("The house has eighteen and fourteen and
    ten and one. Thirty-two and ten is forty-two, and one is forty-three.")."""
    book, numbers = place.book, place.sentence.numbers
    own = numbers.index(place.number)
    index = place.index - own
    first = last = own
    while first and book.links[index + first - 1] in _JOINED:
        first -= 1
    while last + 1 < len(numbers) and book.links[index + last] in _JOINED:
        last += 1
    added = [number.value for number in numbers[first : last + 1]]
    _, then = case.sentences_around(place.sentence_index, 0, 1)
    after = case.numbers_between(numbers[last].end, case.sentences[then].end)
    return len(added) >= _FEWEST_ADDED and sum(added) in [number.value for number in after]


def _lies_between(case: Case, place: Place) -> bool:
    """Whether it is one of all the numbers between two others, which are told in their order ("Between five and eight there are
    two: six and seven.")."""
    values, own = place.sentence.values, place.sentence.numbers.index(place.number)
    if not case.has_word(place.sentence, _BETWEEN):
        return False
    for low, (one, other) in enumerate(pairwise(values)):
        many, before = other - one - 1, place.number.value - one - 1  # numbers between the two, and of these before it
        first = own - before
        if (
            0 <= before < many <= len(values)
            and first > low + 1
            and values[first : first + many] == tuple(range(one + 1, other))
        ):
            return True
    return False


def _regrouped(case: Case, place: Place) -> bool:
    """Whether it is the ones of a number with a ten less than it has ("eight tens and thirteen ones", for ninety-three)."""
    tens = place.preceding[-1:]
    return (
        place.after.word in _ONES
        and bool(tens)
        and place.number.value >= _TEN
        and case.has_word(place.sentence, _TENS)
        and (whole := _TEN * tens[0] + place.number.value) in case.said_in(place.segment) | set(case.header_numbers)
        and whole > _TEN
    )


def _nothing_comes(case: Case, place: Place) -> bool:
    """Whether it tells that nothing came or went ("No shell was lost, and none came in.")."""
    return place.number.value == 0 and place.after.word in _GOES


def _on_both_sides(case: Case, place: Place) -> bool:
    """Whether one less and one more of the same number are told with it ("sixteen is one less and eighteen is one more")."""
    match, value = _BESIDE.match(_behind(place)), place.number.value
    if match is None:
        return False
    far = value + 2 if match[1] == "less" else value - 2
    return far in place.sentence.values


def _is_so_many(case: Case, place: Place) -> bool:
    """Whether it is concluded from numbers before it in its sentence, two of which make it ("Five lead to seventy and two go further, so
    seven is correct.")."""
    start, sentence = place.number.start, place.sentence
    if not case.says(max(sentence.start, start - 2), start, _SO):
        return False
    before = sentence.values[: sentence.numbers.index(place.number)]
    return any(one + other == place.number.value for one, other in combinations(before, 2))


def _is_likened(case: Case, place: Place) -> bool:
    """Whether something is only like what it tells of ("Like partners of five, with a zero tied on.")."""
    return case.says(max(place.sentence.start, place.number.start - 3), place.number.start, _LIKE)


def _wants_to_be_ten(case: Case, place: Place) -> bool:
    """Whether the number before it in its sentence wants so many to the next ten ("A nineteen wants one to be happy.")."""
    before = place.preceding[-1:]
    return (
        place.before.word in _WANTS
        and place.number is not place.sentence.numbers[0]
        and bool(before)
        and (before[0] + place.number.value) % _TEN == 0 < place.number.value < _TEN
    )


def _is_label(case: Case, place: Place) -> bool:
    """Whether it only names a page, a room or the like ("Open the log book at page nine!")."""
    return place.before.word in _NAMED_BY_NUMBER


def _is_hour(case: Case, place: Place) -> bool:
    """Whether it is a time of the day ("by eleven in the morning")."""
    return _HOUR.match(_behind(place)) is not None


def _both(case: Case, place: Place) -> bool:
    """Whether two that were spoken of are compared ("Why are the two so alike?")."""
    return place.number.value == _PAIR and place.before.word in _THE and case.has_word(place.sentence, _ALIKE)


SEEN = (just_seen, read_aloud)
"""What is seen accounts for a number that is likely a slip, not for one that is surely one by its trial."""
ACCOUNTS = (
    just_done,
    stands_written,
    answers_what_is_written,
    counts_pictures,
    _is_guessed,
    _is_asked_and_refused,
    _is_choice,
    of_tens,
    to_a_hundred,
    _of_letters,
    _in_the_rows,
    of_all_pictures,
    _sums_the_question,
    _from_a_double,
    _counts_the_list,
    _is_tens_digit,
    _counted_on,
    _next_of_a_row,
    _adds_up,
    _lies_between,
    of_bundles,
    is_done_next,
    _regrouped,
    _nothing_comes,
    what_is_empty,
    _on_both_sides,
    would_be_reached,
    with_what_is_seen,
    _is_so_many,
    _is_likened,
    in_a_frame,
    on_some_dice,
    in_each_row,
    _wants_to_be_ten,
    _is_label,
    _is_hour,
    _both,
    lies_in_the_middle,
    has_their_digits,
    tells_how_many_were_named,
    counts_those_before,
    counts_what_is_added,
    counts_from_one_to_the_other,
    is_left_of_a_task,
)
