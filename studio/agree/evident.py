"""Whether a number tells plainly what stands on the screen: the first number said after a picture came on is how many there are in
it (also where it was taken away at once: "Look. How many? Nineteen!"), or after a change by how much it was changed; a row that is
read aloud; what stands written there. Of what is doubted such numbers are hardly ever slips: of 360 lessons that nothing was learned
from, 6 of 55 right numbers over the threshold, and 4 of 2,166 slips."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from studio.agree.case import Case
from studio.agree.expect.place import Place
from studio.agree.expect.writing import Writing
from studio.agree.looks import amount
from studio.agree.written_questions import WrittenQuestions
from studio.pictures.base import Picture
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.script.model import Add, ChangePicture, Clear, Hide, Hop, Show, TakeAway

_PAIR, _ROW = 2, 3  # numbers
_PICTURES = frozenset("pictures drawings".split())


def just_seen(case: Case, place: Place) -> bool:
    """Whether it is how many there are in the picture that came on or changed last, and the first number said since."""
    moments, number = case.stage.moments, place.number
    at = place.book.moment_from(number.start + 1) - 1
    while at >= 0 and isinstance(moments[at].direction, Hide | Clear):
        at -= 1
    if at < 0 or not isinstance(moments[at].direction, Show) or moments[at].direction.segment != place.segment:
        return False
    shown = moments[at].picture
    return shown is not None and amount(shown) == number.value and not _said_since(place, moments[at].word)


def just_done(case: Case, place: Place) -> bool:
    """Whether it is by how much the last picture step changed its picture, and the first number said since that is not counted."""
    moments, number = case.stage.moments, place.number
    at = place.book.moment_from(number.start + 1) - 1
    if at < 0:
        return False
    direction = moments[at].direction
    if not isinstance(direction, ChangePicture) or direction.segment != place.segment:
        return False
    while at and moments[at - 1].direction is direction:
        at -= 1
    match direction.change:
        case Add(count=count) | TakeAway(count=count):
            much = count
        case Hop(start=start, end=end):
            much = abs(end - start)
        case _:
            return False
    return much == number.value and not _said_since(place, moments[at].word)


def _said_since(place: Place, word: int) -> bool:
    """Whether another number, not one that a picture counts, was said from a word on to the place."""
    said = place.book.case.numbers_between(word, place.number.start)
    return any(number.start not in place.book.counted_at for number in said)


def read_aloud(case: Case, place: Place) -> bool:
    """Whether its sentence reads out a row that stands on the screen: three numbers or more in their order, as on cards, or the
    two that a number sentence begins with."""
    values = place.sentence.values
    seen = [one.picture for one in case.on_screen(place.sentence.start, place.sentence.end)]
    if len(values) >= _ROW and any(_holds(picture.numbers, values) for picture in seen):
        return True
    at = place.index - bisect_left(case.number_starts, place.sentence.start)
    return any(begins_a_sentence(pair, seen) for pair in (values[at - 1 : at + 1], values[at : at + 2]))


def begins_a_sentence(pair: tuple[int, ...], seen: Sequence[Picture]) -> bool:
    """Whether one of these pictures is a number sentence that begins with two numbers."""
    return len(pair) == _PAIR and any(
        isinstance(picture, NumberSentence) and picture.numbers[:2] == pair for picture in seen
    )


def stands_written(case: Case, place: Place) -> bool:
    """Whether it stands in a text on the screen behind the number that was said before it, or before the one that is said after
    it; or in the words of a wait that say the same as its sentence."""
    writing, value = place.book.once(Writing), place.number.value
    if any(near.like and value in near.written.values for near in writing.near(place)):
        return True
    pairs = [(last, value) for last in place.preceding[-1:]] + [(value, first) for first in place.following[:1]]
    return any(pair in pairwise(text.values) for text in writing.texts(place) for pair in pairs)


def answers_what_is_written(case: Case, place: Place) -> bool:
    """Whether it is the right answer to a question that stood written on the screen before it."""
    return place.number.start in place.book.once(WrittenQuestions).right


def counts_pictures(case: Case, place: Place) -> bool:
    """Whether it tells how many pictures are on the screen ("Three pictures. Which of them show the same?")."""
    if place.after.word not in _PICTURES:
        return False
    return len(case.on_screen_at(place.number.start)) == place.number.value


def _holds(row: Sequence[int], values: Sequence[int]) -> bool:
    size = len(values)
    return any(tuple(row[at : at + size]) == tuple(values) for at in range(len(row) - size + 1))
