"""The chances of numbers at the places of a lesson, by what is read in its order. A segment is read when one of its numbers is asked about."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

import numpy as np
import numpy.typing as npt

from studio.agree.case import Case
from studio.agree.expect.ordered.offers import GREATEST, values_of
from studio.agree.expect.ordered.reader import reader
from studio.agree.expect.ordered.stream import Stream, streams
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


def chances(case: Case, key: Key) -> Chances | None:
    """The chance of each number to `GREATEST` where one is said or shown; None where it is within a count."""
    found = _told(case).get(key)
    return None if found is None else found[0].chances[found[1]]


def _told(case: Case) -> Mapping[Key, tuple[Told, int]]:
    """For every number of a lesson its segment and its index there."""
    found: dict[Key, tuple[Told, int]] | None = case.__dict__.get("_told_in_order")
    if found is None:
        found = case.__dict__["_told_in_order"] = {}
        for stream in streams(case.lesson) if case.lesson is not None else ():
            told = Told(stream)
            for at in range(stream.first, len(stream.mentions)):
                one = stream.mentions[at]
                found[one.word if one.place is None else (one.place, one.index)] = told, at
    return found
