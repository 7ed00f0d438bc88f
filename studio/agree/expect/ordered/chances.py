"""The chances of numbers at the places of a lesson, by what is read in its order. A segment is read when one of its numbers is asked about."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

import numpy as np
import numpy.typing as npt

from studio.agree.case import Case
from studio.agree.expect.ordered.offers import GREATEST, values_of
from studio.agree.expect.ordered.reader import reader
from studio.agree.expect.ordered.stream import Stream, Streams
from studio.agree.expect.place import Book, book_of
from studio.script.model import Place

Chances = npt.NDArray[np.float64]
Key = int | tuple[Place, int]
"""A number that is said by its word; one that is shown by the place of its direction and its index in it."""


class Told:
    """A segment as it is read in order."""

    def __init__(self, stream: Stream) -> None:
        self.stream = stream

    @cached_property
    def chances(self) -> Chances:
        """For each number of the stream the chance of each number to `GREATEST`; for those before its segment all are 1."""
        values = values_of(self.stream)
        found = np.ones((len(values), GREATEST + 1))
        for offered in reader().offered(self.stream):
            told = offered.piece.told
            found[offered.piece.mentions[told]] = offered.chances(values)[told]
        return found

    def surprises(self) -> Chances:
        """How much each number surprises, in nats; those before the segment do not."""
        values = np.minimum(values_of(self.stream), GREATEST)
        return -np.log(self.chances[np.arange(len(values)), values])

    @cached_property
    def where(self) -> Mapping[Key, int]:
        """The index of each number of the segment."""
        own = list(enumerate(self.stream.mentions))[self.stream.first :]
        return {one.word if one.place is None else (one.place, one.index): at for at, one in own}


class _InOrder:
    """The segments of a lesson that were asked about."""

    def __init__(self, book: Book) -> None:
        assert book.case.lesson is not None
        self._streams = Streams(book.case.lesson)
        self._told: dict[int, Told] = {}

    def told(self, segment: int) -> Told:
        if segment not in self._told:
            self._told[segment] = Told(self._streams.of(segment))
        return self._told[segment]


def chances(case: Case, segment: int, key: Key) -> Chances | None:
    """The chance of each number to `GREATEST` where one is said or shown in a segment of a lesson; None where it is within a count."""
    told = book_of(case).once(_InOrder).told(segment)
    at = told.where.get(key)
    return None if at is None else told.chances[at]
