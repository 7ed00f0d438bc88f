"""Files of learned numbers: arrays by name, and lists of names among them (numpy's npz, with nothing pickled)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from studio.files import whole_file


def packed(names: Iterable[str]) -> npt.NDArray[np.uint8]:
    """Names (none holds the end of a line) as an array."""
    return np.frombuffer("\n".join(names).encode(), dtype=np.uint8)


def unpacked(array: npt.NDArray[np.uint8]) -> list[str]:
    """The names again."""
    return array.tobytes().decode().split("\n")


def write_arrays(path: Path, arrays: Mapping[str, npt.NDArray[Any]]) -> None:
    """A file with these arrays, whole or not at all."""
    with whole_file(path) as temporary, temporary.open("wb") as file:
        np.savez_compressed(file, allow_pickle=False, **arrays)
