"""Rows of different lengths, kept one behind the other in one array."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_matrix

Indices = npt.NDArray[np.int32]


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """`items` are the items of all rows; row `at` has those from `ends[at]` to before `ends[at + 1]`."""

    items: Indices
    ends: Indices

    @classmethod
    def of(cls, items: Sequence[int], ends: Sequence[int]) -> Rows:
        return cls(np.array(items, dtype=np.int32), np.array(ends, dtype=np.int32))

    def __len__(self) -> int:
        return len(self.ends) - 1

    def row(self, at: int) -> Indices:
        """The items of one row."""
        return self.items[self.ends[at] : self.ends[at + 1]]

    def part(self, first: int, last: int) -> Rows:
        """The rows from `first` to before `last`, or to the end."""
        ends = self.ends[first : last + 1]
        return Rows(self.items[ends[0] : ends[-1]], ends - ends[0])

    def where(self, rows: Indices) -> Rows:
        """The indices of the items of these rows, each row's in a row; a row may be asked for more than once."""
        counts = (self.ends[1:] - self.ends[:-1])[rows]
        ends = np.zeros(len(rows) + 1, dtype=np.int32)
        np.cumsum(counts, out=ends[1:])
        at = np.repeat(self.ends[:-1][rows] - ends[:-1], counts)
        at += np.arange(len(at), dtype=np.int32)
        return Rows(at, ends)

    def some(self, rows: Indices) -> Rows:
        """These rows; one may be asked for more than once."""
        found = self.where(rows)
        return Rows(self.items[found.items], found.ends)

    def summing(self, size: int) -> csr_matrix:
        """The matrix that sums rows of another, one that has `size` rows, by the indices in each row of this."""
        ones = np.ones(len(self.items), dtype=np.float32)
        return csr_matrix((ones, self.items, self.ends), shape=(len(self), size))
