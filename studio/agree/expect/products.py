"""Products of matrices, worked out by one thread."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float32]
_FEW = 8  # rows: products of more of them are shared between threads where the matrices are wide


def product(rows: Floats, matrix: Floats) -> Floats:
    """`rows @ matrix`, a few rows at a time: such products are worked out by one thread. Threads that share a large one wait
    for each other, and on a busy machine ten times as long as it takes."""
    found = np.empty((len(rows), *matrix.shape[1:]), dtype=np.float32)
    even = len(rows) - len(rows) % _FEW
    parts = rows[:even].reshape(-1, _FEW, rows.shape[1])
    np.matmul(parts, matrix, out=found[:even].reshape(len(parts), _FEW, *matrix.shape[1:]))
    np.matmul(rows[even:], matrix, out=found[even:])
    return found
