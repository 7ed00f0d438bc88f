"""Memory that was freed goes back to the system: frames are large, and the C library keeps what it might need again."""

from __future__ import annotations

import contextlib
import ctypes
import sys
from functools import lru_cache
from typing import Any


@lru_cache(maxsize=1)
def _library() -> Any:
    return ctypes.CDLL(None) if sys.platform.startswith("linux") else None


def lean() -> None:
    """Let every block as large as a frame be one of its own (glibc's M_MMAP_THRESHOLD), which is free when it is freed;
    else the library raises its limit as it sees such blocks, and keeps them."""
    with contextlib.suppress(AttributeError, OSError):
        if _library() is not None:
            _library().mallopt(-3, 1_000_000)


def give_back() -> None:
    """Return what is free (glibc's malloc_trim); nothing elsewhere."""
    with contextlib.suppress(AttributeError, OSError):
        if _library() is not None:
            _library().malloc_trim(0)
