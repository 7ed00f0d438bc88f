"""Where a number of a direction stands, with everything around it that can tell what it will be: what is said before and
after it takes effect, the other numbers of its direction, the pictures before and after."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from typing import Any

from studio.agree.expect.hints import Bundle
from studio.agree.expect.place import Book
from studio.agree.expect.shown.slots import Slot, slots
from studio.script.model import Show
from studio.talk.model import Number

_FAR = 60  # words
_AFTER = 10
_BEFORE = 6
"""Numbers said after a direction and before it that are looked at."""
_OFTEN = 12  # numbers of a segment


class ShownBook:
    """What is the same for all numbers in the directions of a lesson."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.groups: list[Sequence[Slot]] = [] if book.case.lesson is None else list(slots(book.case.lesson))
        self.starts = book.case.number_starts
        self.times: dict[int, Counter[int]] = {}
        self.around: dict[int, tuple[tuple[Any, ...], ...]] = {}
        self.everywhere: dict[int, Bundle] = {}
        """What points to all numbers of a direction, and of a segment; kept by `shown/clues.py`."""
        self.tokens: dict[int, Bundle] = {}
        """The tokens that are the same for all numbers of a direction, kept by `shown/surroundings.py`."""
        self._most_shown: dict[int, list[tuple[int, int]]] = {}
        for group in self.groups:
            self.times.setdefault(group[0].direction.segment, Counter()).update(slot.value for slot in group)
        shows = [group[0].at for group in self.groups if isinstance(group[0].direction, Show)]
        self._shows = sorted(set(shows))

    def most_shown(self, segment: int) -> list[tuple[int, int]]:
        """The numbers that the directions of a segment show most, with how often."""
        kept = self._most_shown.get(segment)
        if kept is None:
            kept = self._most_shown[segment] = self.times[segment].most_common()[:_OFTEN]
        return kept

    def next_show(self, word: int) -> int:
        """The word with which the next picture comes on after `word`."""
        at = bisect_left(self._shows, word + 1)
        return self._shows[at] if at < len(self._shows) else len(self.book.words)

    def last_show(self, word: int) -> int:
        """The word with which the last picture came on before `word`."""
        at = bisect_left(self._shows, word)
        return self._shows[at - 1] if at else 0


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
