"""What all tests share."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent

settings.register_profile("studio", max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("studio")


TOGETHER = "tests/whole/test_demo.py"
"""The tests of this file share a demo that takes a minute to build: one process does them all."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What one process must do comes first: at the end the other would wait for it."""
    items.sort(key=lambda item: not item.nodeid.startswith(TOGETHER))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Every test is handed out by itself, those of `TOGETHER` as one. (The marks by which pytest-xdist 3.8 groups tests do
    nothing with pytest 9: the names that it gives to tests no longer count.)"""
    from xdist.scheduler import LoadScopeScheduling

    class Scheduling(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return TOGETHER if nodeid.startswith(TOGETHER) else nodeid

    return Scheduling(config, log)


@pytest.fixture(scope="session", autouse=True)
def _own_store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Tests keep their results in a folder of their own, so that nothing from an earlier run is taken for new."""
    before = os.environ.get("STUDIO_CACHE")
    os.environ["STUDIO_CACHE"] = str(tmp_path_factory.mktemp("store"))
    yield
    if before is None:
        del os.environ["STUDIO_CACHE"]
    else:
        os.environ["STUDIO_CACHE"] = before
