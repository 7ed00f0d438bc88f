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
    else the library raises its limit as it sees such blocks, and keeps them. For moving pictures, of which a film holds
    many at a time."""
    _allow(block=1_000_000, free=128_000)


def roomy() -> None:
    """Keep what was freed for what comes next (M_TRIM_THRESHOLD). Still pictures are few and soon done; a third of their
    time would go to the system's making new pages for each."""
    _allow(block=32_000_000, free=64_000_000)


def _allow(block: int, free: int) -> None:
    with contextlib.suppress(AttributeError, OSError):
        if _library() is not None:
            _library().mallopt(-3, block)
            _library().mallopt(-1, free)


def give_back() -> None:
    """Return what is free (glibc's malloc_trim); nothing elsewhere."""
    with contextlib.suppress(AttributeError, OSError):
        if _library() is not None:
            _library().malloc_trim(0)
