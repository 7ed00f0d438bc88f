"""Whether a number tells plainly what has just happened on the screen: the first number said after a picture came on is how many
there are in it (also where it was taken away at once: "Look. How many? Nineteen!"), or after a change by how much it was changed."""

from __future__ import annotations

from studio.agree.case import Case
from studio.agree.expect.place import Place
from studio.agree.looks import amount
from studio.script.model import Add, ChangePicture, Clear, Hide, Hop, Show, TakeAway


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
    book, at = place.book, place.index - 1
    while at >= 0 and book.numbers[at].start >= word:
        if book.numbers[at].start not in book.counted_at:
            return True
        at -= 1
    return False
