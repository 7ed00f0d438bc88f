"""The programs in `benchmarks`, for tests of what they work out."""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType

import pytest

from tests.conftest import ROOT

BENCHMARKS = ROOT / "benchmarks"


def program(name: str, *needs: str) -> ModuleType:
    """A program as a module; the test is skipped where a package of the extra bench is missing that it needs."""
    for need in needs:
        pytest.importorskip(need, reason=f"{need} is in the extra bench")
    sys.path.insert(0, str(BENCHMARKS))
    try:
        return import_module(name)
    finally:
        sys.path.remove(str(BENCHMARKS))
