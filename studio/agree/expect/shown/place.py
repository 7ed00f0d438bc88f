"""Where a number of a direction stands, with everything around it that can tell what it will be: what is said before and
after it takes effect, the other numbers of its direction, the pictures before and after."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from functools import cached_property
from typing import Any

from studio.agree.expect.hints import Bundle, Hint
from studio.agree.expect.place import Book
from studio.agree.expect.shown.courses import Courses
from studio.agree.expect.shown.runs import Run, run_from
from studio.agree.expect.shown.slots import Slot, slots
from studio.script.model import Show, Span
from studio.talk.model import Number

_FAR = 60  # words
_AFTER = 10
_BEFORE = 6
"""Numbers said after a direction and before it that are looked at."""
_OFTEN = 12  # numbers of a segment
_TOPICS = 3


class ShownBook:
    """What is the same for all numbers in the directions of a lesson."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.groups: list[Sequence[Slot]] = [] if book.case.lesson is None else list(slots(book.case.lesson))
        self.starts = book.case.number_starts
        self.times: dict[int, Counter[int]] = {}
        self.around: dict[int, tuple[tuple[Any, ...], ...]] = {}
        self.everywhere: dict[int, Bundle] = {}
        """What points to all numbers of a direction, and of a segment; kept by `shown/clues`."""
        self.tokens: dict[int, Bundle] = {}
        """The tokens that are the same for all numbers of a direction, kept by `shown/surroundings.py`."""
        self.balances: dict[int, list[list[Hint]]] = {}
        """What balances the sides of a direction, for each of its numbers; kept by `shown/clues/balance.py`."""
        self.most_spans: dict[tuple[bool, str], list[tuple[int, int]]] = {}
        """The most frequent starts and ends, kept by `shown/clues/room.py`."""
        self._runs: dict[int, Run] = {}
        self._topics: dict[int, list[int]] = {}
        self._most_shown: dict[int, list[tuple[int, int]]] = {}
        for group in self.groups:
            self.times.setdefault(group[0].direction.segment, Counter()).update(slot.value for slot in group)
        shows = [group[0].at for group in self.groups if isinstance(group[0].direction, Show)]
        self._shows = sorted(set(shows))

    @cached_property
    def places(self) -> list[ShownPlace]:
        """All numbers in the directions of the lesson."""
        return [
            ShownPlace(self, group, index) for group, slots in enumerate(self.groups) for index in range(len(slots))
        ]

    @cached_property
    def courses(self) -> Courses:
        """What becomes of each picture."""
        return Courses(() if self.book.case.lesson is None else self.book.case.lesson.directions)

    def run(self, at: int) -> Run:
        """The count that begins with the number that is said at an index."""
        kept = self._runs.get(at)
        if kept is None:
            kept = self._runs[at] = run_from(self.book.numbers, at)
        return kept

    @cached_property
    def spans(self) -> list[tuple[int, Show, Span]]:
        """The pictures with a start and an end, each with the index of its direction."""
        return [
            (group, slots[0].direction, slots[0].direction.details)
            for group, slots in enumerate(self.groups)
            if isinstance(slots[0].direction, Show) and isinstance(slots[0].direction.details, Span)
        ]

    def topics(self, segment: int) -> list[int]:
        """What a segment says that it is about, numbers and wholes; a few."""
        kept = self._topics.get(segment)
        if kept is None:
            case = self.book.case
            found = case.topics.get(segment, set()) | case.named_wholes.get(segment, set())
            kept = self._topics[segment] = sorted(found)[:_TOPICS]
        return kept

    def most_shown(self, segment: int, but: int) -> list[tuple[int, int]]:
        """The numbers that the directions of a segment show most, with how often; one that shows `but` is left out."""
        kept = self._most_shown.get(segment)
        if kept is None:
            times = sorted(self.times[segment].items(), key=_often)
            kept = self._most_shown[segment] = times[: _OFTEN + 1]
        found = [(value, count - (value == but)) for value, count in kept]
        return found if len(found) <= _OFTEN else sorted(found, key=_often)[:_OFTEN]

    def next_show(self, word: int) -> int:
        """The word with which the next picture comes on after `word`."""
        at = bisect_left(self._shows, word + 1)
        return self._shows[at] if at < len(self._shows) else len(self.book.words)

    def last_show(self, word: int) -> int:
        """The word with which the last picture came on before `word`."""
        at = bisect_left(self._shows, word)
        return self._shows[at - 1] if at else 0


def _often(times: tuple[int, int]) -> tuple[int, int]:
    """The order of numbers with how often they are shown: the most frequent first."""
    return -times[1], times[0]


class ShownPlace:
    """One number of a direction: `group` is the index of its direction, `index` its own among the numbers of it. `after`
    and `before` are the indices of the numbers that are said, the nearest first; those from `until` on belong to the next picture."""

    __slots__ = ("after", "before", "book", "end", "group", "index", "mates", "segment", "slot", "start", "until")

    def __init__(self, book: ShownBook, group: int, index: int) -> None:
        slots = book.groups[group]
        self.book = book
        self.group = group
        self.index = index
        self.slot: Slot = slots[index]
        self.mates = [slot for at, slot in enumerate(slots) if at != index]
        self.segment = self.slot.direction.segment
        case = book.book.case
        self.start, self.end = case.segments[self.segment]
        at = self.slot.at
        self.until = min(self.end, book.next_show(at), at + _FAR)
        first = bisect_left(book.starts, at)
        last = bisect_left(book.starts, min(self.end, at + _FAR))
        self.after = range(first, min(last, first + _AFTER))
        earliest = bisect_left(book.starts, max(self.start, at - _FAR))
        self.before = range(first - 1, max(earliest, first - _BEFORE) - 1, -1)

    @property
    def value(self) -> int:
        return self.slot.value

    def number(self, index: int) -> Number:
        return self.book.book.numbers[index]
