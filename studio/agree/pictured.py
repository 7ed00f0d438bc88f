"""What accounts for a number that was not to be expected: what the pictures around it show, or how they change. One function each,
named in `ACCOUNTS` of `accounts.py`."""

from __future__ import annotations

from collections.abc import Container

from studio.agree.case import Case
from studio.agree.expect.place import Place
from studio.agree.implied import LACKS, TO_COME, amounts_on_screen, asks_what_is_missing
from studio.agree.mentions import told_by
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.script.model import Add, ChangePicture, TakeAway

_OF_BUNDLES, _TEN, _HUNDRED = 5, 10, 100
_OVER = frozenset("over loose beside besides extra".split())
_IF = frozenset(("if",))
_HIDDEN = frozenset("dark hidden hiding hides hide under inside rest other others missing left".split())
_ROW = frozenset("row rows".split())
_PLACES_IN_FRAMES = ("top left", "bottom left")
_FRAMES_AND_ROWS = _ROW | {"frame", "frames"}
_PARTS_OF_FRAMES = (
    "top", "bottom", "dots", "top dots", "bottom dots", "top of frame 1", "top of frame 2", "bottom of frame 1", "bottom of frame 2",
)  # fmt: skip


def _says_lately(case: Case, place: Place, words: Container[str]) -> bool:
    """Whether one of `words` is said in its sentence or in the one before it in its segment."""
    first, _ = case.sentences_around(place.sentence_index, 1, 0)
    return case.says(case.sentences[first].start, place.sentence.end, words)


def of_tens(case: Case, place: Place) -> bool:
    """Whether it counts the tens by which a picture of tens and ones is changed close by ("Two more sticks." where 20 are added)."""
    moments, at = case.stage.moments, place.book.moment_from(place.number.start + 1)
    return any(
        isinstance(moment.picture, BaseTen)
        and isinstance(moment.direction, ChangePicture)
        and isinstance(moment.direction.change, Add | TakeAway)
        and moment.direction.change.count == _TEN * place.number.value
        and moment.direction.segment == place.segment
        for moment in moments[max(0, at - 1) : at + 1]
    )


def to_a_hundred(case: Case, place: Place) -> bool:
    """Whether so many tens are missing from a hundred that was asked for ("How many more tens to a hundred? Three.")."""
    asked = case.question_before(place.sentence_index)
    return (
        asked is not None
        and _HUNDRED in asked.values
        and any(
            isinstance(seen.picture, BaseTen) and seen.picture.value + _TEN * place.number.value == _HUNDRED
            for seen in case.on_screen_at(place.number.start)
        )
    )


def of_all_pictures(case: Case, place: Place) -> bool:
    """Whether the things in the pictures on the screen, two or more of them, make it ("a full frame and four more. I am fourteen")."""
    amounts = amounts_on_screen(case, place.number.start)
    together = [many for many in amounts if many is not None]
    return len(together) == len(amounts) > 1 and sum(together) == place.number.value


def of_bundles(case: Case, place: Place) -> bool:
    """Whether it is how many strokes are beside the bundles of a tally on the screen ("Two bundles. Left over, one.")."""
    sentence = place.sentence
    return case.has_word(sentence, _OVER) and any(
        isinstance(seen.picture, Tally) and place.number.value == seen.picture.value % _OF_BUNDLES
        for seen in case.on_screen_at(place.number.start)
    )


def is_done_next(case: Case, place: Place) -> bool:
    """Whether it is by how much the picture is changed in the next sentence ("We take four in. How many hang longer? [take away 4]")."""
    _, last = case.sentences_around(place.sentence_index, 0, 1)
    return place.number.value in case.changed_by(place.number.start, case.sentences[last].end + 1)


def what_is_empty(case: Case, place: Place) -> bool:
    """Whether it is what is missing from a frame on the screen, as an answer ("Short of ten by? Two.") or told ("It lacks two dots.")."""
    start = place.number.start
    if case.says(max(place.sentence.start, start - 2), start, LACKS):
        return any(
            isinstance(seen.picture, MarkPicture) and seen.picture.empty == place.number.value
            for seen in case.on_screen_at(place.number.start)
        )
    asked, _ = case.sentences_around(place.sentence_index, 1, 0)
    question, answer = case.sentences[asked], place.sentence
    return (
        asked < place.sentence_index
        and answer.values == (place.number.value,)
        and any(
            isinstance(frame := seen.picture, MarkPicture)
            and frame.framed
            and frame.empty == place.number.value
            and (
                asks_what_is_missing(case, question, answer, frame)
                or (answer.start in case.waited and not question.numbers)
            )
            for seen in case.on_screen_at(place.number.start)
        )
    )


def would_be_reached(case: Case, place: Place) -> bool:
    """Whether it is only supposed that there were so many, and as many more or fewer are told as it takes from what a picture shows
    ("If I wanted ten I would have to look for three.", where there are seven)."""
    others = {number.value for number in place.sentence.numbers if number is not place.number}
    return case.says(place.sentence.start, place.number.start, _IF) and any(
        many is not None and abs(many - place.number.value) in others
        for many in amounts_on_screen(case, place.number.start)
    )


def with_what_is_seen(case: Case, place: Place) -> bool:
    """Whether it is hidden, and with what a picture shows it makes a number that is said in the segment ("Now one is outside, so what
    sits in the dark? Four.", of five)."""
    if place.number.value == 0 or place.sentence.numbers != (place.number,) or not _says_lately(case, place, _HIDDEN):
        return False
    return any(
        many is not None and many + place.number.value in case.said_in(place.segment)
        for many in amounts_on_screen(case, place.number.start)
    )


def in_each_row(case: Case, place: Place) -> bool:
    """Whether so many are in each row of a frame on the screen with a full row ("Each row of this frame has five dots.")."""
    return _says_lately(case, place, _ROW) and any(
        isinstance(frame := seen.picture, MarkPicture)
        and frame.framed
        and place.number.value * 2 == frame.capacity <= 2 * frame.total
        for seen in case.on_screen_at(place.number.start)
    )


def in_a_frame(case: Case, place: Place) -> bool:
    """Whether so many are in one of two frames, or in one of the rows of a frame, or so many fit into a row, and rows or frames are
    spoken of ("Ten dots fill the first frame. In the second, the bottom row has four. One more goes in the bottom row.")."""
    if not case.has_word(place.sentence, _FRAMES_AND_ROWS):
        return False
    parts = _PLACES_IN_FRAMES if case.has_word(place.sentence, TO_COME) else _PARTS_OF_FRAMES
    return any(
        place.number.value in amounts
        for seen in case.on_screen_at(place.number.start)
        for of in parts
        if (amounts := told_by(seen.picture, of)) is not None
    )


def on_some_dice(case: Case, place: Place) -> bool:
    """Whether it is what the first or the last of the dice on the screen make together, and the sentence says of how many ("Eighteen
    pips on three dice and four on the last")."""
    return any(
        place.number.value == sum(some)
        for seen in case.on_screen_at(place.number.start)
        if isinstance(seen.picture, Dice)
        for many in place.sentence.values
        for some in (seen.picture.values[:many], seen.picture.values[-many:])
        if 1 < many <= len(seen.picture.values)
    )
