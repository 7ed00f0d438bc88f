"""Manners of talk in which a number on the screen is told without its own word: by the count that goes on from it, by a
full frame and the rest, by what is missing from a frame, by the cards before the one that is missing, by a row of marks that
has only to come, by its digits, by its tens and its ones, by what it comes to with the next in a number sentence, by what all
pictures make together."""

from __future__ import annotations

from itertools import pairwise

from studio.agree.case import Appearance, BoundCount, Case, Sentence
from studio.agree.looks import amount
from studio.agree.manners import of_structure
from studio.agree.worked_out import is_worked_out, told_with
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.script.model import Show

_FRAME = 10  # boxes
_OF_DIGITS = frozenset(
    "stay stays stayed keep keeps turn turns turned become becomes change changes changed digit digits".split()
)
_EMPTY = frozenset("missing empty free".split())
LACKS = frozenset("lack lacks lacking".split())
TO_COME = frozenset("go goes fit fits".split())
"""What is told of the places of a frame, not of what is there ("Five go in the bottom row")."""
_SHORT = LACKS | frozenset("short missing needs need wants want to".split())
_LOST = frozenset(
    "missing gone lost took taken stole stolen dropped drop hid hidden hides hiding swallowed ate eaten fell fallen blew blown "
    "skipped forgot forgotten carried".split()
)


def is_implied(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number that comes on with a picture is told in one of these ways."""
    return (
        _comes_yet(case, appearance, value)
        or _counted_on(case, appearance, value)
        or _full_and_rest(case, appearance, value)
        or _around_a_gap(case, appearance)
        or _by_its_digits(case, appearance, value)
        or _by_tens_and_ones(case, appearance, value)
        or _by_a_first_sum(case, appearance, value)
        or by_what_is_empty(case, appearance)
        or by_all_together(case, appearance)
        or by_the_last_row(case, appearance)
        or is_worked_out(case, appearance)
    )


def amounts_on_screen(case: Case, word: int) -> list[int | None]:
    """How many things each picture shows that is on the screen at a word; None for one that shows no things."""
    return [amount(seen.picture) for seen in case.on_screen_at(word)]


def by_all_together(case: Case, appearance: Appearance) -> bool:
    """Whether the things in all pictures on the screen make a number that is said with the last of them ("[show ten frame: 10 dots as
    one] Ten. [show ten frame: 10 dots as two] I fill another, twenty.")."""
    if not isinstance(appearance.moment.direction, Show):
        return False
    word = appearance.moment.word
    together = [many for many in amounts_on_screen(case, word) if many is not None]
    sentence = case.sentences[case.sentence_index(word)]
    return len(together) > 1 and sum(together) in sentence.values and amount(appearance.picture) != sum(together)


def by_the_last_row(case: Case, appearance: Appearance) -> bool:
    """Whether a frame shows only the ones of a greater number that is said in the segment, as is the next ten ("[show ten frame: 2 dots]
    Seventy-two fish: two lie in the last crate. What would it still take? Eight, then there would be eighty.")."""
    picture = appearance.picture
    if not (isinstance(picture, MarkPicture) and picture.framed and picture.capacity == _FRAME):
        return False
    said = case.said_in(appearance.moment.direction.segment)
    return any(value > _FRAME and value % _FRAME == picture.total and value + picture.empty in said for value in said)


def _comes_yet(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether nothing is there yet, and something comes to it: as with an empty frame, nobody needs to say zero."""
    return value == 0 and isinstance(appearance.picture, Tally | BaseTen) and id(appearance) in case.growing


def _counts_of(case: Case, appearance: Appearance) -> list[BoundCount]:
    """The counts that a picture follows in the segment where it comes on."""
    cached: dict[tuple[int, str], list[BoundCount]] | None = case.__dict__.get("_counts_of")
    if cached is None:
        names = {id(moment.direction): moment.name for moment in case.stage.moments}
        cached = {}
        for count in case.bound_counts:
            key = (count.direction.segment, names[id(count.direction)])
            cached.setdefault(key, []).append(count)
        case.__dict__["_counts_of"] = cached
    return cached.get((appearance.moment.direction.segment, appearance.moment.name), [])


def _counted_on(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether the next that happens to the picture is a count that is spoken and goes on from the number ("[show path: 0 to
    5, mark 2] … [path: hop 2 to 5, counting] Three, four, five."), and nothing else is counted before it: only by how
    much and up to what, and rows."""
    for count in _counts_of(case, appearance):
        if not count.words or len(count.words) < len(count.values) or count.words[0] != appearance.until:
            continue
        first, _ = case.sentences_around(case.sentence_index(appearance.moment.word), 1, 0)
        expected = {value, count.values[-1], abs(count.values[-1] - value)}
        return count.base == value and all(
            number.value in expected or of_structure(case, number)
            for number in case.numbers_between(case.sentences[first].start, count.words[0])
        )
    return False


def _full_and_rest(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether frames or rows are told by what is full and what is in the next ("one full frame, and two dots in the other")."""
    picture = appearance.picture
    if not isinstance(picture, MarkPicture) or not picture.framed or picture.crosses or value != picture.total:
        return False
    unit = picture.capacity // 2
    if not unit < value < picture.capacity:
        return False
    return any(
        value - unit in sentence.values and case.has_word(sentence, ("full",))
        for sentence in told_with(case, appearance)
    )


def by_what_is_empty(case: Case, appearance: Appearance) -> bool:
    """Whether it is asked how much is missing from a frame that comes on, and that is the answer ("[show ten frame: 9 dots] What
    is missing? [wait 2 s] One!", "Short of ten by? [wait 2 s] One.")."""
    picture = appearance.picture
    if not (isinstance(picture, MarkPicture) and picture.framed and isinstance(appearance.moment.direction, Show)):
        return False
    return any(
        answer.values == (picture.empty,) and asks_what_is_missing(case, question, answer, picture)
        for question, answer in pairwise(told_with(case, appearance))
    )


def asks_what_is_missing(case: Case, question: Sentence, answer: Sentence, frame: MarkPicture) -> bool:
    """Whether a sentence asks how much is missing from a frame, or tells to look, and there is time to do so."""
    if case.asks(question) and question.values == (frame.capacity,):
        return case.has_word(question, _SHORT)
    asks = case.asks(question) or answer.start in case.waited
    return asks and not question.numbers and case.has_word(question, _EMPTY)


def _around_a_gap(case: Case, appearance: Appearance) -> bool:
    """Whether cards go in even steps but for one that is missing on purpose, which is named, as are all before it
    or, where they go by ones, the ends of the row and the cards beside the gap."""
    if not isinstance(appearance.picture, Cards):
        return False
    values = appearance.picture.numbers
    steps = [after - before for before, after in pairwise(values)]
    if len(steps) < 3:
        return False
    step = min(steps, key=abs)
    if step == 0 or steps.count(step) != len(steps) - 1 or 2 * step not in steps:
        return False
    gap = steps.index(2 * step) + 1
    segment = appearance.moment.direction.segment
    start, end = case.segments[segment]
    said = case.said_in(segment)
    told = {*values[:gap]} <= said or (abs(step) == 1 and {values[0], *values[gap - 1 : gap + 1], values[-1]} <= said)
    return told and values[gap - 1] + step in said and case.says(start, end, _LOST)


def _by_its_digits(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether one of the next sentences tells what its digits do, one by one ("the 5 stays and the 2 turns into a 3")."""
    if not 10 < value < 100 or value % 11 == 0:
        return False
    words = case.talk.words
    return any(
        case.has_word(sentence, _OF_DIGITS)
        and set(divmod(value, 10))
        <= {number.value for number in sentence.numbers if words[max(0, number.start - 1)].plain == "the"}
        for sentence in told_with(case, appearance)
    )


def _by_tens_and_ones(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number of a number sentence is told in the next sentences by its tens and by its ones ("20 and 10 make 30, and the
    ones, 3 and 4, do not make a ten", for 23 + 14)."""
    tens, ones = value - value % 10, value % 10
    if not (isinstance(appearance.picture, NumberSentence) and 10 < value < 100 and ones):
        return False
    return {tens, ones} <= {said for sentence in told_with(case, appearance) for said in sentence.values}


def _by_a_first_sum(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a longer number sentence begins with the number, and what it comes to with the next is told in the next sentences
    ("Add ten instead: forty-six", for 36 + 10 - 1)."""
    if not isinstance(appearance.picture, NumberSentence):
        return False
    terms = appearance.picture.sides[0]
    if len(terms) < 3 or terms[0].value != value or terms[1].value is None:
        return False
    together = value - terms[1].value if terms[1].sign == "-" else value + terms[1].value
    return any(together in sentence.values for sentence in told_with(case, appearance))
