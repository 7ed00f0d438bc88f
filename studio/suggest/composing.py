"""From ideas to directions: what is on the screen when, and what goes so that it stays tidy.

The screen is played through with the pictures themselves, so that a picture which shows an idea already is not shown
again, and nothing is written that a picture cannot do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from studio.errors import UnusableInput
from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds import make
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.marks import MarkPicture
from studio.pictures.spans import SpanPicture
from studio.pictures.wholes import WholePicture
from studio.script.reader import read_change, read_picture
from studio.suggest.ideas import MARKS, Change, Idea

MOST = 3
"""Pictures at a time."""
_SHORTEST = 10
"""Words that a picture stays for at least, where there is room."""
_BRIEF = 2
"""Words that a picture stays for before another of its kind."""
_LATER = 3
"""Words that a picture may come late where another of its kind is still worked at."""
_STALE = 60
"""Words after which a picture that is no longer needed goes when another comes."""


@dataclass(frozen=True, slots=True)
class Line:
    """A direction before word `word`; `group` is the number of the idea that it belongs to (-1: of none)."""

    word: int
    text: str
    reason: str
    group: int


@dataclass(slots=True)
class _On:
    """A picture that is on: `now` is what it looks like when its changes are done, before word `busy`."""

    now: Picture
    topic: frozenset[int]
    needed: int
    busy: int
    since: int


def compose(ideas: Iterable[tuple[int, Idea]], clears: Iterable[int] = ()) -> list[Line]:
    """The directions of one segment's ideas (each with its group); those for one word are in the order in which they
    are to be written. At the words `clears` something else is talked about: the screen is cleared."""
    lines: list[Line] = []
    on: dict[str, _On] = {}
    waiting = sorted(clears, reverse=True)
    for group, idea in sorted(ideas, key=lambda item: (item[1].word, -item[1].weight)):
        while waiting and waiting[-1] <= idea.word:
            lines = _cleared(lines, on, waiting.pop())
        if idea.joins:
            lines += _join(on, idea, group)
        else:
            lines += _come(on, idea, group)
    while waiting:
        lines = _cleared(lines, on, waiting.pop())
    return lines


def _cleared(lines: list[Line], on: dict[str, _On], word: int) -> list[Line]:
    """The directions so far, and those with which all pictures go that have nothing left to do. What would happen to them with
    this word is nothing to wait for: it could not be seen."""
    leaving = [name for name, here in on.items() if here.busy <= word + 1]
    kept = [line for line in lines if line.word != word or line.text.partition(":")[0] not in leaving]
    going = ["clear"] if leaving and len(leaving) == len(on) else [f"hide {name}" for name in leaving]
    for name in leaving:
        del on[name]
    return [*kept, *(Line(word, text, "something else is talked about", -1) for text in going)]


def _come(on: dict[str, _On], idea: Idea, group: int) -> Iterator[Line]:
    played = _played(idea)
    if played is None:
        return
    first, last = played
    here = on.get(idea.kind)
    if here is not None and here.busy > idea.word:
        if _says(here.now, last):  # told again while it is worked at
            here.needed = max(here.needed, idea.until)
            return
        next_ = min((change.word for change in idea.changes), default=idea.until)
        if here.busy >= next_ or here.busy > idea.word + _LATER:
            return
        idea = replace(idea, word=here.busy)
    if here is not None and here.since < idea.word < here.since + _BRIEF:
        return  # it would be gone before it is seen
    if idea.fresh and on and all(other.busy <= idea.word for other in on.values()):
        on.clear()
        yield Line(idea.word, "clear", "a new story begins", group)
        here = None
    if here is not None and (going := _goes_on(here.now, first, last, idea)) is not None:
        yield from _on_with(here, going, idea, group)
        return
    if idea.again and (on if here is None else _says(here.now, last)):
        return
    if (
        not idea.weight
        and isinstance(first, MarkPicture)
        and any(
            isinstance(other.now, MarkPicture) and (other.now.total == first.total or other.busy > idea.word)
            for other in on.values()
        )
    ):
        return  # it is on as another picture
    leaving = _leaving(on, idea)
    if leaving is None:
        return
    staying = [name for name in on if name not in leaving and name != idea.kind]
    if leaving and not staying:
        yield Line(idea.word, "clear", "something new begins", group)
    else:
        for name in leaving:
            yield Line(idea.word, f"hide {name}", "it is no longer talked about", group)
    for name in leaving:
        del on[name]
    yield Line(idea.word, f"show {idea.kind}: {idea.details}", idea.reason, group)
    for change in idea.changes:
        yield Line(change.word, f"{idea.kind}: {change.text}", idea.reason, group)
    on[idea.kind] = _On(last, idea.topic, idea.until, idea.busy, idea.word)


def _on_with(here: _On, changes: tuple[Change, ...], idea: Idea, group: int) -> Iterator[Line]:
    """The changes that a picture which is on still needs."""
    for change in changes:
        here.now = _changed(here.now, change.text) or here.now
        here.busy = max(here.busy, change.end)
        yield Line(change.word, f"{idea.kind}: {change.text}", idea.reason, group)
    here.needed = max(here.needed, idea.until)
    here.topic |= idea.topic


def _join(on: dict[str, _On], idea: Idea, group: int) -> Iterator[Line]:
    """The changes of an idea for the picture on the screen that looks like its details."""
    for name, here in on.items():
        if here.busy > idea.word or (idea.kind != MARKS and name != idea.kind):
            continue
        if idea.kind == MARKS and not (
            isinstance(here.now, MarkPicture) and not here.now.crosses and str(here.now.total) == idea.details
        ):
            continue
        now: Picture | None = here.now
        for change in idea.changes:
            now = None if now is None else _changed(now, change.text)
        if now is not None:
            yield from _on_with(here, idea.changes, replace(idea, kind=name), group)
            return


def _leaving(on: dict[str, _On], idea: Idea) -> list[str] | None:
    """The pictures that go when this one comes: those of another topic, and the oldest where there are too many. None
    where there is no room because all are still needed for their changes."""
    others = {name: here for name, here in on.items() if name != idea.kind}
    leaving = [
        name
        for name, here in others.items()
        if here.busy <= idea.word
        and here.needed <= idea.word
        and here.since + _SHORTEST <= idea.word
        and (here.needed + _STALE < idea.word or not _belong(here.topic, idea.topic))
    ]
    staying = [name for name in others if name not in leaving]
    while len(staying) >= MOST:
        free = [name for name in staying if on[name].busy <= idea.word]
        if not free:
            return None
        oldest = min(free, key=lambda name: (on[name].needed, on[name].busy))
        staying.remove(oldest)
        leaving.append(oldest)
    return leaving


def _belong(one: frozenset[int], other: frozenset[int]) -> bool:
    """Whether two pictures are about the same thing: all numbers of one are in the other, or two at least are."""
    return one <= other or other <= one or len(one & other) > 1


def _goes_on(now: Picture, first: Picture, last: Picture, idea: Idea) -> tuple[Change, ...] | None:
    """The changes that are left to do where the picture that is on can go on; None where it is to be shown anew."""
    counting = any(change.until > change.word for change in idea.changes)
    if _says(now, last) and not counting:
        return ()
    if isinstance(now, MarkPicture) and isinstance(first, MarkPicture):
        adds = any(change.text.startswith("add") for change in idea.changes)
        same = now.total == first.total and (not adds or now.crosses == first.crosses)
        return idea.changes if same and (idea.changes or now.dots == first.dots) else None
    if isinstance(now, SpanPicture) and isinstance(first, SpanPicture):
        if (now.start, now.end) != (first.start, first.end):
            return None
        if not now.hops and not now.marked and not now.lit:
            marks = tuple(Change(idea.word, f"mark {value}") for value in first.marked)
            return (*marks, *idea.changes)
        ends = now.hops[-1][1] if now.hops else now.marked[-1] if now.marked else None
        return idea.changes if ends is not None and first.marked in ((), (ends,)) and idea.changes else None
    if isinstance(now, MoreAndLess) and isinstance(first, MoreAndLess) and now.value == first.value:
        return tuple(change for change in idea.changes if int(change.text.split()[-1]) not in now.numbers)
    if _plain(now) == _plain(first):
        return idea.changes
    left = tuple(change for change in idea.changes if _changed(now, change.text) is not None)
    if left and len(left) == len(idea.changes) and not counting:
        ended = now
        for change in left:
            ended = _changed(ended, change.text) or ended
        return left if _plain(ended) == _plain(last) else None
    return None


def _says(now: Picture, wanted: Picture) -> bool:
    """Whether a picture that is on tells all that another would."""
    if type(now) is not type(wanted):
        return False
    if isinstance(now, WholePicture) and isinstance(wanted, WholePicture):
        known = [part for part in now.parts if part is not None]
        return (
            None not in now.values
            and now.whole == wanted.whole
            and sorted(known) == sorted(part for part in wanted.parts if part is not None)
        )
    if isinstance(now, NumberSentence) and isinstance(wanted, NumberSentence):
        return now.sides == wanted.sides
    if isinstance(now, BaseTen) and isinstance(wanted, BaseTen):
        return now.value == wanted.value or (not wanted.ones and now.tens == wanted.tens and now.ones > 0)
    if isinstance(now, CompareBars) and isinstance(wanted, CompareBars):
        same = {now.upper, now.lower} == {wanted.upper, wanted.lower}
        return same and wanted.difference in (None, now.difference)
    if isinstance(now, Cards) and isinstance(wanted, Cards):
        return set(now.values) == set(wanted.values) and not now.turned
    if isinstance(now, MarkPicture) and isinstance(wanted, MarkPicture):
        return now.total == wanted.total and (not wanted.crosses or now.crosses == wanted.crosses)
    return _plain(now) == _plain(wanted)


def _plain(picture: Picture) -> tuple[object, ...]:
    """What a picture shows, however it came to it."""
    values = getattr(picture, "values", None) or picture.numbers
    more = getattr(picture, "hops", ()), getattr(picture, "marked", ()), getattr(picture, "sides", ())
    return picture.kind, values, *more, getattr(picture, "text", "")


@lru_cache(maxsize=1024)
def _shown(kind: str, details: str) -> Picture | None:
    try:
        kind, read, _ = read_picture(f"{kind}: {details}")
        return make(kind, read)
    except (UnusableInput, CannotShow):
        return None


def _changed(picture: Picture, text: str) -> Picture | None:
    """The picture after a change; None where it cannot do that."""
    try:
        return picture.steps(read_change(text))[-1].picture
    except (UnusableInput, CannotShow):
        return None


def _played(idea: Idea) -> tuple[Picture, Picture] | None:
    """The picture of an idea when it comes on and when its changes are done; None where it cannot be shown."""
    first = _shown(idea.kind, idea.details)
    last = first
    for change in idea.changes:
        last = None if last is None else _changed(last, change.text)
    return None if first is None or last is None else (first, last)
