"""Every number that a picture is there to show is said around it, or follows from what is said by one step."""

from __future__ import annotations

import itertools
from bisect import bisect_left
from collections.abc import Container, Iterator

from studio.agree.case import Appearance, Case
from studio.agree.expect.place import book_of
from studio.agree.implied import is_implied
from studio.agree.looks import answer_of, counts, essential, relation
from studio.agree.wording import TEN_THINGS, of_direction, row
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Circle, Count, FillIn, Hop, MarkNumber, Show, TakeAway, TurnOver
from studio.stage.staging import is_counting
from studio.talk.numbers import PLURALS

NAME = "shown number is said"
_SENTENCES = 3
_ROW = 10  # beads
_WORDS = 25
"""So many sentences and words after a picture comes on are around it in any case."""
_SOON = 12
"""So many words after a change are around it in any case, in sentences of a word or two."""
_SINGLE = frozenset("single lonely lone alone solitary".split())
_OFTEN = 4  # times that the number which a lesson is about is said in it at least
_FEWEST_IN_ROW = 5  # cards
_STEPS = 60  # picture steps that are looked at for the count of a picture


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        wanted = _wanted(appearance)
        if not wanted or appearance.until == appearance.moment.word < len(case.talk.words):
            continue  # what changes at once is never seen so
        said = around(case, appearance)
        missing = [value for value in wanted if value not in said and not _seen(case, appearance, value)]
        if isinstance(appearance.moment.direction, Show):
            missing = [value for value in missing if not is_implied(case, appearance, value)]
        if missing and (
            _picked_from(case, appearance, said) or _by_fives(appearance, said) or _counted_up(appearance, said)
        ):
            missing = []
        if missing and _follows(case, appearance, set(wanted) - set(missing), missing, said):
            missing = []
        if not missing:
            continue
        direction = appearance.moment.direction
        if direction.place.line in case.excused:
            continue
        index = case.sentence_index(appearance.moment.word)
        if case.is_excused(case.sentences[index].start, case.sentences[index].end):
            continue
        yield of_direction(
            NAME,
            direction,
            f"Line {direction.place.line} puts {row(missing)} on the screen ({appearance.picture.description()}), but "
            f"{'that is' if len(missing) == 1 else 'they are'} not said around it.",
            f"Say {row(missing)} there, or show the number that you say.",
        )


_FIVE = 5  # beads of a colour


def _by_fives(appearance: Appearance, said: set[int]) -> bool:
    """Whether two rows of beads that come on are told by their colours and all together ("I see five and five, and two and two.
    Fourteen!")."""
    picture = appearance.picture
    return (
        isinstance(picture, Rekenrek)
        and isinstance(appearance.moment.direction, Show)
        and min(picture.upper, picture.lower) > _FIVE
        and {picture.total, _FIVE, picture.upper - _FIVE, picture.lower - _FIVE} <= said
    )


def _counted_up(appearance: Appearance, said: set[int]) -> bool:
    """Whether what cards come to is told one after the other ("[show cards: 10, 5, 1, 1] Ten, fifteen, sixteen, seventeen.")."""
    picture = appearance.picture
    return (
        isinstance(picture, Cards) and len(picture.faces) > 2 and said.issuperset(itertools.accumulate(picture.faces))
    )


_CHOOSING = frozenset(
    "which find where less more fewer smaller bigger greater larger smallest biggest greatest largest".split()
)


def _picked_from(case: Case, appearance: Appearance, said: set[int]) -> bool:
    """Whether one of the cards that come on is asked for ("Which card is our number today?"), some are picked by their names, or some
    of a row without a gap are named ("It was the card between 41 and 43"): the others need no name."""
    picture = appearance.picture
    if not isinstance(picture, Cards):
        return False
    named = len(said.intersection(picture.numbers))
    if any(
        other.moment.name == appearance.moment.name
        and isinstance(other.change, Circle)
        and (named > 1 or other.change.value in said)
        for other in case.pictures_of(appearance.moment.direction.segment)
    ):
        return True  # "The dragonfly picks the two", and one stays on the table; "The middle card is our answer."
    if named > 1 and len(_card_ends(picture.numbers)) < len(picture.numbers):
        return True
    if _is_row_with_gaps(picture.numbers, said):
        return True
    first, last = case.sentences_around(case.sentence_index(appearance.moment.word), 0, 2)
    asked = any(case.has_word(sentence, _CHOOSING) for sentence in case.sentences[first : last + 1])
    return asked and named > 0


def _seen(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number need not be said, for it is plain to see: another picture of the segment shows it, its title names it, or it is the
    ten of a path or a line."""
    if isinstance(appearance.picture, SpanPicture) and value == 10:
        return True
    if value == 1 and _says_beside(case, appearance, _SINGLE):
        return True  # "Then the grey hen found a single grain."
    if isinstance(appearance.picture, NumberSentence) and _is_mirrored(appearance.picture):
        return True
    if isinstance(appearance.change, MarkNumber) and case.times_said[value] >= _OFTEN:
        return True
    if (
        isinstance(appearance.change, Hop)
        and value == appearance.change.start
        and _worked_with(case, appearance, value)
    ):
        return True
    picture = appearance.picture
    if (
        isinstance(picture, MarkPicture)
        and picture.framed
        and picture.total == picture.capacity
        and _says_beside(case, appearance, ("full",))
    ):
        return True  # "I am a full frame and four more"
    if isinstance(picture, WholePicture | NumberSentence) and _whole_again(case, appearance, value):
        return True
    if isinstance(picture, CompareBars) and value in case.times_said:  # what was compared before is looked at again
        return abs(picture.upper - picture.lower) in around(case, appearance)
    if not isinstance(appearance.moment.direction, Show) or len(essential(appearance.picture)) > 1:
        return False
    segment = appearance.moment.direction.segment
    return (
        value in case.topics_of_lesson
        or _is_counted_later(case, appearance, value)
        or value in book_of(case).headings
        or value in book_of(case).titles.get(segment, ())
        or any(
            other.moment.direction.segment == segment
            and other.moment.name != appearance.moment.name
            and value in essential(other.picture)
            for other in case.pictures_of(segment)
        )
    )


def _is_mirrored(sentence: NumberSentence) -> bool:
    """Whether both sides add the same numbers in another order ("6 + 3 = 3 + 6"): no other number could stand there."""
    first, *others = [sorted((term.sign, term.value or 0) for term in side) for side in sentence.sides]
    return None not in sentence.side_values and len(first) > 1 and all(other == first for other in others)


def _is_counted_later(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether it is counted in a later segment how many there are, and told there ("Here are all the boots. # Jumping by twos
    [boots: count by 2] Two, four, six, …")."""
    segment, name = appearance.moment.direction.segment, appearance.moment.name
    near = (*case.pictures_of(segment), *case.pictures_of(segment + 1))
    after = (seen for seen in near if seen.moment.name == name and seen.moment.word > appearance.moment.word)
    following = next(after, None)
    return (
        following is not None
        and isinstance(following.change, Count)
        and following.moment.direction.segment == segment + 1
        and value in case.said_in(segment + 1)
    )


def _worked_with(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number was said before in the segment and stands in a number sentence there: a hop may start from it without
    a word ("Thirty-eight plus five. … [line: hop 38 to 40] Two hops to forty.")."""
    start, _ = case.segment_around(appearance.moment.word)
    return any(number.value == value for number in case.numbers_between(start, appearance.moment.word)) and any(
        isinstance(other.picture, NumberSentence)
        and value in other.picture.numbers
        and other.moment.word <= appearance.moment.word
        for other in case.pictures_of(appearance.moment.direction.segment)
    )


def _whole_again(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number is the whole of a bond or of a number sentence, and another of the same sort in the segment has the
    same whole: one after another ("5 + ? = 10", "3 + ? = 10")."""
    sort = WholePicture if isinstance(appearance.picture, WholePicture) else NumberSentence
    direction = appearance.moment.direction
    others = [other for other in case.pictures_of(direction.segment)
              if other.moment.direction is not direction and isinstance(other.moment.direction, Show)]  # fmt: skip
    wholes = [
        found.whole
        for seen in (appearance, *others)
        if isinstance(seen.picture, sort) and (found := relation(seen.picture)) is not None
    ]
    return wholes[:1] == [value] and value in wholes[1:]


def _wanted(appearance: Appearance) -> list[int]:
    """The numbers that are new with this step and have to be said."""
    picture, direction = appearance.picture, appearance.moment.direction
    if isinstance(direction, Show):
        if isinstance(picture, SpanPicture):
            return list(essential(picture))
        if isinstance(picture, MarkPicture) and picture.dots and picture.crosses:
            return [picture.dots, picture.crosses]
        found = relation(picture)
        if isinstance(picture, Rekenrek) and picture.upper == _ROW > picture.lower:
            return [picture.total]  # a full row and the rest: the number as it lies there
        if found is not None and picture.kind in ("rekenrek", "dice"):
            return list(found.parts)
        if picture.kind == "cards":
            return _card_ends(picture.numbers)
        return list(dict.fromkeys(essential(picture)))
    change = appearance.change
    if is_counting(change) if change is not None else False:  # type: ignore[arg-type]
        return []
    match change:
        case Add(count, _, _) | TakeAway(count, _):
            return [count]
        case FillIn():
            new = list(picture.numbers)
            for value in appearance.before.numbers if appearance.before else ():
                new.remove(value)
            return new
        case Hop(start, end, _):
            before = appearance.before
            known = (
                {before.start, *before.marked, *(to for _, to in before.hops)}
                if isinstance(before, SpanPicture)
                else set()
            )
            return [end] if start in known else [start, end]
        case TurnOver(value):
            return [value] if value in picture.numbers else []
        case MarkNumber(value):
            return [value]
        case Circle() | Count():
            return []
        case _:
            return []


def _card_ends(values: tuple[int, ...]) -> list[int]:
    """A row of cards without a gap may be named by its ends."""
    if len(values) > 3 and all(b - a == 1 for a, b in itertools.pairwise(values)):
        return [value for value in (values[0], values[-1]) if value not in (0, 1, 10, 20)]
    return list(values)


def _is_row_with_gaps(values: tuple[int, ...], said: set[int]) -> bool:
    """Whether cards lie in order, up or down, and both ends and what is left out between them are said ("From ten down to nought.
    Who slipped away? Six.")."""
    low, high = sorted((values[0], values[-1]))
    if len(values) < _FEWEST_IN_ROW or values not in (tuple(sorted(values)), tuple(sorted(values, reverse=True))):
        return False
    left_out = set(range(low, high + 1)) - set(values)
    return bool(left_out) and len(left_out) < len(values) // 2 and {low, high, *left_out} <= said


def _follows(case: Case, appearance: Appearance, there: set[int], missing: list[int], said: set[int]) -> bool:
    """Whether what is missing follows by one step: what was added from what there was and what there is now."""
    if _comes_by_tens(case, appearance, said):
        return True
    match appearance.change:
        case Add(1) | TakeAway(1) if _another(case, appearance):
            return True
        case Add() | TakeAway():
            before, now = (
                max(counts(picture), default=0) for picture in (appearance.before, appearance.picture) if picture
            )
            segment = appearance.moment.direction.segment  # the picture may have come before it
            return now in said | {0} and before in case.said_in(segment) | case.said_in(segment - 1) | {0}
        case FillIn() if isinstance(appearance.picture, MoreAndLess):
            return False
        case Hop(start=start) if missing == [start] and start in case.said_in(appearance.moment.direction.segment):
            return True  # where one stands was told before the story asked for more
        case Hop(start=start, end=end) if (
            abs(end - start) in case.sentences[case.sentence_index(appearance.moment.word)].values
        ):
            return start not in missing or start in case.times_said  # "[line: hop 60 to 80] Twenty."
    if isinstance(picture := appearance.picture, BaseTen) and picture.tens:
        return {picture.tens, picture.ones} - {0} <= said and (
            picture.ones > 0 or _says_beside(case, appearance, TEN_THINGS)
        )
    if isinstance(picture, MoreAndLess):
        return {picture.value - 1, picture.value + 1} <= said
    found = relation(appearance.picture) if isinstance(appearance.moment.direction, Show) else None
    if (
        isinstance(appearance.picture, Dice)
        and found is not None
        and found.whole in said
        and (not there or len(found.parts) > 2)
    ):
        return True  # "Sum? Ten.", "Three sixes and a single pip, nineteen."
    if found is not None and len(missing) == 1 and len(appearance.picture.numbers) > 2:
        return {found.whole, *found.parts} - set(missing) <= said
    if isinstance(appearance.moment.direction, Show) and len(missing) == 1 and _is_answered(picture, there, said):
        return True
    if isinstance(picture, NumberSentence) and isinstance(appearance.moment.direction, Show):
        return _balanced(picture, missing, said) or _goes_on(case, appearance, missing, said)
    return False


def _is_answered(picture: Picture, there: set[int], said: set[int]) -> bool:
    """Whether what is asked in a bond, a bar or a number sentence is said, and all other numbers but one: that is clear then ("Eighteen have
    gone! [bar: 53 is 18 and ?] … Thirty-five logs held.")."""
    if not there or (isinstance(picture, NumberSentence) and min(map(len, picture.sides)) > 1):
        return False  # of two sums, see `_balanced`
    return answer_of(picture) in said


def _balanced(picture: NumberSentence, missing: list[int], said: set[int]) -> bool:
    """Whether both sides are sums, and what they come to and the answer are said, so that one number is clear from the others, or
    one side from what it comes to ("The left is eight. … Six and two is also eight", for 7 + 1 = 6 + ?)."""
    answer = answer_of(picture)
    if len(picture.sides) != 2 or min(map(len, picture.sides)) < 2 or answer not in said:
        return False
    whole = next(value for value in picture.side_values if value is not None)
    if whole not in said:
        return False
    sides = [{term.value for term in side} - {None} for side in picture.sides]
    return len(missing) == 1 or any(set(missing) == side and not side & other for side, other in (sides, sides[::-1]))


def _goes_on(case: Case, appearance: Appearance, missing: list[int], said: set[int]) -> bool:
    """Whether a number sentence with which a segment begins writes down what was told: its answer is said with it, and what is not
    was said last in the segment before or comes later in its own ("Forty-nine sticks! … She needed one more. … Fifty sticks.")."""
    picture = appearance.picture
    found = relation(picture)
    start, end = case.segment_around(appearance.moment.word)
    if (
        found is None
        or not start
        or answer_of(picture) not in said
        or case.numbers_between(start, appearance.moment.word)
    ):
        return False
    begin, _ = case.segment_around(start - 1)
    numbers = case.numbers_between(begin, start)
    told = set(case.sentences[case.sentence_index(numbers[-1].start)].values) if numbers else set()
    later = {number.value for number in case.numbers_between(start, end)}
    return set(missing) <= told | later and bool(told & set(picture.numbers))


def _comes_by_tens(case: Case, appearance: Appearance, said: set[int]) -> bool:
    """Whether tens come or go that are called by their number ("Two sticks more", "a rod goes")."""
    change = appearance.change
    if not (isinstance(appearance.picture, BaseTen) and isinstance(change, Add | TakeAway) and change.count % 10 == 0):
        return False
    return (change.count == 10 or change.count // 10 in said) and _says_beside(case, appearance, TEN_THINGS)


def _says_beside(case: Case, appearance: Appearance, words: Container[str]) -> bool:
    """Whether one of `words` is said with a picture step, in the sentence before or in the one after."""
    first, last = case.sentences_around(case.sentence_index(appearance.moment.word), 1, 1)
    return case.says(case.sentences[first].start, case.sentences[last].end, words)


def _another(case: Case, appearance: Appearance) -> bool:
    """Whether "one" or "another" is said with the change, without being a number ("another one has hopped off")."""
    index = case.sentence_index(appearance.moment.word)
    start, end = case.sentences[max(0, index - 1)].start, case.sentences[min(len(case.sentences) - 1, index + 1)].end
    return case.says(start, end, ("one", "another", "a"))


def _counted_until(case: Case, appearance: Appearance) -> int:
    """The word at which the picture changes or goes; where it is counted or filled in first, the end of that."""
    until = appearance.until
    at = bisect_left(case.pictures, appearance.moment.word, key=lambda other: other.moment.word)
    for other in case.pictures[at : at + _STEPS]:
        if (
            other.moment.name == appearance.moment.name
            and isinstance(other.change, Count | FillIn)
            and other.moment.word >= until
        ):
            until = other.until
    return until


def around(case: Case, appearance: Appearance) -> set[int]:
    """The numbers said around a picture step: from the paragraph before it to where the picture changes, and at least
    some sentences of its segment."""
    sentences = case.sentences
    if not sentences:
        return set()
    index = case.sentence_index(appearance.moment.word)
    segment = appearance.moment.direction.segment
    if isinstance(appearance.change, TurnOver) or isinstance(
        appearance.picture, Cards
    ):  # it is asked for, and found later
        last = case.sentences[case.sentence_index(max(0, appearance.until - 1))].segment
        return case.topics.get(segment, set()).union(
            *(case.said_in(one) for one in range(segment, max(segment, last) + 1))
        )
    if appearance.change is not None:  # a change comes with the words that tell it
        reach = {Add: 3, TakeAway: 3, MarkNumber: 3, Hop: 3}.get(type(appearance.change), 2)
        last = index + reach
        soon = min(appearance.until, appearance.moment.word + _SOON)
        while last + 1 < len(sentences) and sentences[last + 1].start < soon:
            last += 1  # short ones: "Tens? Still five. Ones? Five now. Number? Fifty-five."
        return {
            value
            for sentence in sentences[max(0, index - reach) : last + 1]
            if sentence.segment == segment
            for value in sentence.values
        }
    here = sentences[index].paragraph
    first = index
    while first and sentences[first - 1].segment == segment and sentences[first - 1].paragraph >= here - 1:
        first -= 1
    last = index
    until = _counted_until(case, appearance)
    its = {segment, sentences[index].segment}  # at the end of a segment a picture comes on with the words of the next
    while last + 1 < len(sentences) and sentences[last + 1].segment in its:
        near = last + 1 - index <= _SENTENCES or sentences[last + 1].start < appearance.moment.word + _WORDS
        if not near and sentences[last + 1].start >= until:
            break
        last += 1
    begin, end = sentences[first].start, sentences[last].end
    numbers = case.numbers_between(begin, end)
    said = {number.value for number in numbers}
    said |= {10 * number.value for number in numbers if case.says(number.end, number.end + 1, ("tens",))}
    said |= {
        PLURALS[word.plain] for word in case.talk.words[begin:end] if word.plain in PLURALS
    }  # "two sixes and a five"
    return said | case.topics.get(segment, set()) | case.named_wholes.get(segment, set())
