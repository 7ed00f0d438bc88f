"""From a lesson to its stage: which picture is what from which word on."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice, pairwise

from studio.findings import Finding
from studio.pictures.base import CannotShow, Picture, Step
from studio.pictures.kinds import make
from studio.pictures.kinds.cards import Cards
from studio.script.model import (
    Change,
    ChangePicture,
    Clear,
    Count,
    Direction,
    Hide,
    Hop,
    Lesson,
    Show,
    TakeAway,
    Wait,
)
from studio.stage.counting import Binding, bind, bind_changed
from studio.stage.model import Moment, Stage
from studio.talk.labels import spoken_numbers
from studio.talk.model import Number


def stage(lesson: Lesson, numbers: Sequence[Number] | None = None) -> Stage:
    """Put the directions of a lesson on the stage. `numbers`: those of `lesson.words`, if they are known already.

    A picture that cannot show what is asked stays as it was, and that is a finding; so is a count whose number words
    do not fit its steps. Its steps then happen with the words that come nearest. What is written behind a count, before any
    of it is spoken, happens when the picture is counted.
    """
    spoken = spoken_numbers(lesson.words) if numbers is None else numbers
    starts = [number.start for number in spoken]
    directions = lesson.directions
    on: dict[str, Picture] = {}
    counted: dict[str, int] = {}  # the word behind the last counted step of each picture
    cleared = 0  # the word with which the last clearing happens
    moments: list[Moment] = []
    findings: list[Finding] = []
    for order, direction in enumerate(directions):
        begins = max(direction.at, cleared, counted.get(getattr(direction, "name", ""), 0))
        match direction:
            case Show():
                try:
                    picture = make(direction.kind, direction.details)
                except CannotShow as reason:
                    findings.append(_cannot(direction, direction.kind, reason))
                    continue
                on[direction.name] = picture
                moments.append(Moment(begins, direction.name, picture, direction))
            case ChangePicture():
                before = on.get(direction.name)
                if before is None:  # it could not be shown, and that is a finding already
                    continue
                try:
                    steps = before.steps(direction.change)
                except CannotShow as reason:
                    findings.append(_cannot(direction, before.kind, reason))
                    continue
                on[direction.name] = steps[-1].picture
                if not is_counting(direction.change):
                    moments.append(Moment(begins, direction.name, steps[-1].picture, direction))
                    continue
                end = _count_end(lesson, order, direction)
                at = bisect_left(starts, begins)
                said = spoken[at : bisect_left(starts, end)]
                before_it = spoken[max(0, at - _SAID_BEFORE) : at + 1]
                bound, finding = _bound(lesson, direction, begins, steps, said, before_it, moments)
                if finding is not None:
                    for counting, some, numbers in _otherwise(lesson, order, direction, before, steps, said, end):
                        again, still = _bound(lesson, counting, begins, some, numbers)
                        if still is None:
                            bound, finding = again, None
                            on[direction.name] = some[-1].picture
                            break
                moments.extend(bound)
                counted[direction.name] = bound[-1].word + 1
                if finding is not None:
                    findings.append(finding)
            case Hide():
                if on.pop(direction.name, None) is not None:
                    moments.append(Moment(begins, direction.name, None, direction))
            case Clear():
                cleared = max([begins, *(counted.get(name, 0) for name in on)])
                moments.extend(Moment(cleared, name, None, direction) for name in on)
                on.clear()
            case _:
                pass
    findings.extend(_before_waits(lesson))
    findings.extend(_never_seen(lesson))
    return Stage(tuple(sorted(moments, key=lambda moment: moment.word)), tuple(findings))


def _otherwise(
    lesson: Lesson,
    order: int,
    direction: ChangePicture,
    picture: Picture,
    steps: Sequence[Step],
    said: Sequence[Number],
    end: int,
) -> Iterator[tuple[ChangePicture, Sequence[Step], Sequence[Number]]]:
    """Other ways to read a count: what is counted, its steps, and the numbers that may be it. `said` are those before `end`."""
    # The numbers may belong to a count of another picture ("Five. Four. [wren: add 1, counting] Three.").
    other = _other_count(lesson, order, direction, end)
    yield direction, steps, said[: bisect_left(said, other, key=lambda number: number.start)]
    if _goes_on(lesson, order, direction):
        for many in (len(steps), len(steps) + 1):  # the number that is there may be said first
            yield direction, steps, said[:many]
    for counting, fewer in _other_counts(picture, direction):
        yield counting, fewer, said


def _other_counts(picture: Picture, direction: ChangePicture) -> Iterator[tuple[ChangePicture, Sequence[Step]]]:
    """Other ways in which things are counted by fives or tens: all that is over at once ("five, ten, and three more make
    thirteen"). Tallies and tens and ones, whose bundles can be seen, also by bundles and then by ones where only "count" is
    written, and the bundles only. Cards are also counted for how many there are, whatever is on them. Nothing for other
    changes."""
    if not isinstance(direction.change, Count):
        return
    if isinstance(picture, Cards) and direction.change.by == 1:
        yield direction, picture.each()
        return
    seen = _BUNDLES.get(picture.kind)
    by = seen or direction.change.by
    if by not in _BUNDLES.values() or direction.change.by not in (1, by):
        return
    bundled = replace(direction, change=replace(direction.change, by=by))
    steps = picture.steps(bundled.change)
    bundles = [step for step in steps if step.number is not None and step.number % by == 0]
    if seen and direction.change.by == 1:
        yield bundled, steps
    if len(bundles) > 1 and len(bundles) < len(steps):
        yield bundled, [*bundles, steps[-1]]
        if seen:
            yield bundled, bundles


_BUNDLES = {"tally": 5, "base ten": 10}
_WRITTEN_TOGETHER = 8  # directions
_SAID_BEFORE = 40  # numbers: keeps the time in proportion to the length


def is_counting(change: Change) -> bool:
    """Whether the steps of a change are bound to number words."""
    return isinstance(change, Count) or bool(getattr(change, "counting", False))


def _count_end(lesson: Lesson, order: int, direction: ChangePicture) -> int:
    """The word before which a count must be over: the next direction for the same picture, or the segment's end."""
    for later in lesson.directions[order + 1 :]:
        if later.segment != direction.segment:
            break
        if later.at > direction.at and (
            isinstance(later, Clear)
            or (isinstance(later, Show | ChangePicture | Hide) and later.name == direction.name)
        ):
            return later.at
    words = lesson.segments[direction.segment].words
    return words[-1].index + 1 if words else direction.at


def _other_count(lesson: Lesson, order: int, direction: ChangePicture, end: int) -> int:
    """The word from which another picture is counted; `end` where none is."""
    for later in islice(lesson.directions, order + 1, None):
        if later.at >= end:
            break
        if later.at > direction.at and isinstance(later, ChangePicture) and is_counting(later.change):
            return later.at
    return end


def _goes_on(lesson: Lesson, order: int, direction: ChangePicture) -> bool:
    """Whether another count of the same picture is written behind this one before any of it is spoken."""
    return any(
        later.at == direction.at
        and isinstance(later, ChangePicture)
        and later.name == direction.name
        and is_counting(later.change)
        for later in islice(lesson.directions, order + 1, order + 1 + _WRITTEN_TOGETHER)
    )


def _is_known(
    lesson: Lesson, direction: ChangePicture, there: int, before: Sequence[Number], moments: Sequence[Moment]
) -> bool:
    """Whether how many are there was said in the segment, at the latest as the first number behind the direction, or the picture
    was counted to it before: then what comes or goes may be counted for itself. A one behind it is the first of the count."""
    if isinstance(direction.change, Count):
        return False
    near = islice(reversed(moments), _SAID_BEFORE)
    last = next((moment for moment in near if moment.name == direction.name), None)
    return (last is not None and last.number == there) or any(
        number.value == there
        and lesson.words[number.start].segment == direction.segment
        and (number.value != 1 or number.start < direction.at)
        for number in before
    )


def _bound(
    lesson: Lesson,
    direction: ChangePicture,
    begins: int,
    steps: Sequence[Step],
    said: Sequence[Number],
    before: Sequence[Number] = (),
    moments: Sequence[Moment] = (),
) -> tuple[list[Moment], Finding | None]:
    wanted = [step.number if step.number is not None else 0 for step in steps]
    there = _already_there(direction.change, wanted)
    starts = {number.start for number in said}

    def counted(number: Number) -> bool:
        last = lesson.words[number.end - 1].text
        return not last[-1:].isalnum() or number.end == len(lesson.words) or number.end in starts

    def closing(number: Number) -> bool:
        return (
            number.end < len(lesson.words) and lesson.words[number.end].sentence != lesson.words[number.start].sentence
        )

    binding = bind(there, wanted, said, counted, closing)
    if not binding.fits and _is_known(lesson, direction, there, before, moments):
        changed = bind_changed(there, len(wanted), said)
        if changed is not None and (changed.fits or len(changed.run) > len(binding.run)):
            binding = changed
    moments = []
    word = begins
    for index, step in enumerate(steps):
        word = max(word, _word_of(binding, index, word))
        moments.append(Moment(word, direction.name, step.picture, direction, step.number, True))
    return moments, None if binding.fits else _misfit(direction, wanted, binding)


def _word_of(binding: Binding, index: int, otherwise: int) -> int:
    """The word of a step; where nothing is said for it, it comes with the step before."""
    word = binding.words[index]
    return otherwise if word is None else word


def _already_there(change: Change, wanted: Sequence[int]) -> int:
    """The number before the first that is counted."""
    if len(wanted) > 1:
        even = len({after - before for before, after in pairwise(wanted)}) == 1
        return 2 * wanted[0] - wanted[1] if even or not isinstance(change, Count) else wanted[0] - change.by
    down = isinstance(change, TakeAway) or (isinstance(change, Hop) and change.end < change.start)
    return wanted[0] + (1 if down else -1)


def _misfit(direction: ChangePicture, wanted: Sequence[int], binding: Binding) -> Finding:
    needed = _row(wanted)
    steps = f"{len(wanted)} step{'s' if len(wanted) != 1 else ''}"
    if not binding.run:
        message = (
            f"The picture {direction.name!r} is to change in {steps} as you count {needed}, but no such count is said."
        )
        return Finding(
            "count fits picture",
            "error",
            direction.place.line,
            direction.place.column,
            "",
            direction.text,
            message,
            f"Count {needed} after this direction, or take out “counting”.",
        )
    heard = _row([number.value for number in binding.run])
    place = binding.wrong or binding.run[-1]
    message = f"You count {heard}, but the picture {direction.name!r} changes in {steps}: {needed}."
    return Finding(
        "count fits picture",
        "error",
        place.line or direction.place.line,
        place.column,
        heard,
        direction.text,
        message,
        f"Say {needed}, or change the direction on line {direction.place.line} so that it fits.",
    )


def _row(values: Sequence[int]) -> str:
    shown = [str(value) for value in values]
    return ", ".join(shown) if len(shown) <= 12 else ", ".join([*shown[:5], "…", *shown[-3:]])


def _cannot(direction: Direction, kind: str, reason: CannotShow) -> Finding:
    return Finding(
        "picture can show that",
        "error",
        direction.place.line,
        direction.place.column,
        "",
        direction.text,
        str(reason),
        f"Change the direction so that the {kind} can show it.",
    )


def _before_waits(lesson: Lesson) -> list[Finding]:
    """A picture written directly before a wait comes on with the next spoken word, which is after the wait."""
    findings = []
    previous: Direction | None = None
    for direction in lesson.directions:
        if (
            isinstance(direction, Wait)
            and isinstance(previous, Show | ChangePicture)
            and previous.at == direction.at
            and previous.segment == direction.segment
        ):
            findings.append(
                Finding(
                    "picture before wait",
                    "note",
                    previous.place.line,
                    previous.place.column,
                    "",
                    previous.text,
                    "This comes on when the next word is spoken, which is after the wait.",
                    "To have it on the screen while they think, write it before the last words before the wait.",
                )
            )
        previous = direction
    return findings


def _replaced(first: Show, second: Show) -> Finding:
    """Two pictures of one name before a word is spoken: only the second is seen."""
    return Finding(
        "picture is seen",
        "error",
        first.place.line,
        first.place.column,
        "",
        first.text,
        f"The next picture is called {second.name!r} too and takes this one's place before a word is spoken, so this one is "
        "never on the screen.",
        f"To have both, give one a name of its own: [{first.text} as first]."
        if first.name == first.kind
        else "To have both, give one another name; else take this one out.",
    )


def _never_seen(lesson: Lesson) -> list[Finding]:
    """A picture that goes before another word is spoken is never on the screen, also where a wait lies between: a quick
    look ("[show …] [wait 2 s] [hide …]") needs a word."""
    findings = []
    fresh: dict[str, Show] = {}
    for direction in lesson.directions:
        fresh = {name: shown for name, shown in fresh.items() if shown.at == direction.at}
        match direction:
            case ChangePicture() if is_counting(direction.change):
                gone = []
                fresh.pop(direction.name, None)  # it is seen while it is counted
            case Clear():
                gone = list(fresh.values())
                fresh.clear()
            case Hide():
                gone = [fresh.pop(direction.name)] if direction.name in fresh else []
            case Show():
                gone = []
                if direction.name in fresh:
                    findings.append(_replaced(fresh.pop(direction.name), direction))
            case _:
                gone = []
        for shown in gone:
            findings.append(
                Finding(
                    "picture is seen",
                    "error" if isinstance(direction, Hide) else "note",  # a last picture before a clear is a small loss
                    shown.place.line,
                    shown.place.column,
                    "",
                    shown.text,
                    "Nothing is spoken before this picture goes again, so it is never on the screen.",
                    "Say a word between, such as “Look.”: the picture comes on with it.",
                )
            )
        if isinstance(direction, Show):
            fresh[direction.name] = direction
    return findings
