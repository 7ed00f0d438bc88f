"""Files of learned numbers: arrays by name, and lists of names among them (numpy's npz, with nothing pickled)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt


def packed(names: Iterable[str]) -> npt.NDArray[np.uint8]:
    """Names (none holds the end of a line) as an array."""
    return np.frombuffer("\n".join(names).encode(), dtype=np.uint8)


def unpacked(array: npt.NDArray[np.uint8]) -> list[str]:
    """The names again."""
    return array.tobytes().decode().split("\n")


def write_arrays(path: Path, arrays: Mapping[str, npt.NDArray[Any]]) -> None:
    """A file with these arrays: made whole before it is written."""
    held = BytesIO()
    np.savez_compressed(held, allow_pickle=False, **arrays)
    path.write_bytes(held.getvalue())
