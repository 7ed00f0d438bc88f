"""What other numbers near by account for a number that was not to be expected: it lies in their middle, has their digits, tells how many
they are, or what is left of a task. One function each, listed in `accounts.ACCOUNTS`."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio.agree.case import Case
from studio.agree.expect.place import Place
from studio.agree.expect.writing import written
from studio.pictures.kinds.cards import Cards
from studio.script.model import Wait
from studio.talk.model import Number

_MIDDLE = frozenset("halfway midway".split())
_BOTH = frozenset(("both",))
_TEN, _TWO_DIGITS = 10, range(12, 100)
_FEW = range(2, 7)
_OF = ("of", "all")
_NAMED_BEFORE = 3  # sentences
_TOLD_BY = (("that", "is"), ("that's",), ("that", "makes"), ("those", "are"), ("these", "are"))
_FROM, _TO = ("from",), ("to",)
_SOON = 30  # words


def lies_in_the_middle(case: Case, place: Place) -> bool:
    """Whether it lies halfway between the last two numbers ("Which number is halfway from six to eight? Seven.", "The nine lends to the seven
    until both are eight.")."""
    first, _ = case.sentences_around(place.sentence_index, 1, 0)
    is_middle = case.says(case.sentences[first].start, place.sentence.end, _MIDDLE)
    two = place.preceding[-2:]
    return (
        (is_middle or case.has_word(place.sentence, _BOTH))
        and len(two) == 2
        and two[0] != two[1]
        and sum(two) == 2 * place.number.value
    )


def has_their_digits(case: Case, place: Place) -> bool:
    """Whether a number next to it has its two digits the other way round ("Seventeen and seventy-one.")."""
    value = place.number.value
    tens, ones = divmod(value, _TEN)
    other = _TEN * ones + tens
    return value in _TWO_DIGITS and other != value and other in (*place.preceding[-1:], *place.following[:1])


def tells_how_many_were_named(case: Case, place: Place) -> bool:
    """Whether it is said of so many numbers of a sentence before it, or so many cards on the screen ("Five, eight and seven apples.
    … Eight is the biggest of the three.")."""
    value, start = place.number.value, place.number.start
    words = [word.plain for word in case.talk.words[max(place.sentence.start, start - 2) : start]]
    if value not in _FEW or not ((words[-2:-1] == ["of"] and words[-1] == "the") or words[-1:] == ["all"]):
        return False
    first, _ = case.sentences_around(place.sentence_index, _NAMED_BEFORE, 0)
    if any(len(set(sentence.values)) == value for sentence in case.sentences[first : place.sentence_index]):
        return True
    seen = case.on_screen(place.sentence.start, place.sentence.end)
    return any(isinstance(one.picture, Cards) and len(one.picture.faces) == value for one in seen)


def counts_those_before(case: Case, place: Place) -> bool:
    """Whether so many numbers, one as far from the next as the other, are named before it in its sentence ("Down to twenty-three, down
    to thirty-three, so that is two.")."""
    start = place.number.start
    words = tuple(word.plain for word in case.talk.words[max(place.sentence.start, start - 2) : start])
    if not any(words[-len(told) :] == told for told in _TOLD_BY):
        return False
    before = [number.value for number in _before(place)]
    return len(before) == place.number.value and len({other - one for one, other in pairwise(before)}) == 1


def counts_what_is_added(case: Case, place: Place) -> bool:
    """Whether so many of one number are added behind it in its sentence ("Two more, since four and four is eight.")."""
    return any(
        statement.holds
        and len(statement.values) == place.number.value + 1
        and len(set(statement.values[:-1])) == 1
        and statement.values[-1] == place.number.value * statement.values[0]
        for statement in case.statements_between(place.number.end, place.sentence.end)
    )


def counts_from_one_to_the_other(case: Case, place: Place) -> bool:
    """Whether so many numbers go from one to another ("You want every card from zero to ten, so that's eleven cards.")."""
    return any(
        other.value - one.value + 1 == place.number.value and _goes(case, one, other)
        for one, other in pairwise(_before(place))
    )


def _before(place: Place) -> Sequence[Number]:
    """The numbers before it in its sentence."""
    return place.sentence.numbers[: place.sentence.numbers.index(place.number)]


def _goes(case: Case, one: Number, other: Number) -> bool:
    """Whether words go from one number to the other."""
    return case.says(one.start - 1, one.start, _FROM) and case.says(one.end, other.start, _TO)


def is_left_of_a_task(case: Case, place: Place) -> bool:
    """Whether a number that was said last was taken from one that stands in the words of a wait ("[wait 15 s: lay ten sticks in a row]
    Carry two off. How many remain? Eight remain.")."""
    lesson, start = case.lesson, place.number.start
    if lesson is None:
        return False
    tasks = [
        one for one in lesson.directions if isinstance(one, Wait) and one.words and start - _SOON < one.at <= start
    ]
    if not tasks or tasks[-1].segment != place.segment:
        return False
    said = {number.value for number in case.numbers_between(tasks[-1].at, start)}
    return any(value - place.number.value in said for value in written(tasks[-1].words).values)
