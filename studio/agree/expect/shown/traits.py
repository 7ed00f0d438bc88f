"""What is known of a number in a direction beside how well it was to be expected. From these the trees tell a slip from an
odd manner of showing."""

from __future__ import annotations

from studio.agree.expect.expectation import Expectation
from studio.agree.expect.shown.families import FAMILIES
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.minded import NAMES as MINDED
from studio.agree.minded import minded
from studio.script.model import Show

_SORTS = (
    "dots", "crosses", "whole", "part 0", "part 1", "part 2", "item 0", "item 1", "item 2", "amount", "start", "end", "mark",
    "written 0", "add dots", "add crosses", "add ", "take away", "fill in", "ring", "hop from", "hop to", "turn over",
    "count by",
)  # fmt: skip
NAMES = (
    "surprise", "lead", "second lead", "likeliest", "value", "other value", "sort", "term", "comes on", "mates",
    "numbers said with it", "said with it", "other said with it", "said in the segment", "other said in the segment",
    "said before", "other said before", "shown in the segment", "other shown in the segment", "in the title",
    "other in the title", "words with it", "place in the segment", "same as a mate", "counting", "topic", "other is topic",
    *(f"{sort} for {what}" for sort in (*FAMILIES, "together") for what in ("it", "the other")), *MINDED,
)  # fmt: skip


def traits(place: ShownPlace, expectation: Expectation) -> tuple[float, ...]:
    """The traits of a place in the order of `NAMES`."""
    book = place.book
    case = book.book.case
    slot, value = place.slot, place.value
    other = expectation.likely[0][0]
    said = [place.number(at).value for at in place.after if place.number(at).start < place.until]
    before = [place.number(at).value for at in place.before]
    in_segment = case.times_said_in(place.segment)
    shown = book.times[place.segment]
    titles = book.book.titles.get(place.segment, ())
    topics = case.topics.get(place.segment, ())
    chances = sorted((chance for _, chance in expectation.likely), reverse=True)
    return (
        expectation.surprise,
        expectation.lead,
        chances[1] if len(chances) > 1 else 0.0,
        chances[0],
        min(value, 25),
        min(other, 25),
        _SORTS.index(slot.name) if slot.name in _SORTS else len(_SORTS),
        slot.name.startswith("term"),
        isinstance(slot.direction, Show),
        len(place.mates),
        len(said),
        said.count(value),
        said.count(other),
        in_segment[value],
        in_segment[other],
        before.count(value),
        before.count(other),
        shown[value] - 1,
        shown[other],
        value in titles,
        other in titles,
        min(80, place.until - slot.at),
        (slot.at - place.start) / max(1, place.end - place.start),
        any(mate.value == value for mate in place.mates),
        getattr(getattr(slot.direction, "change", None), "counting", False),
        value in topics,
        other in topics,
        *(share for pair in expectation.shares for share in pair),
        *minded(case, slot.direction.place.line),
    )
