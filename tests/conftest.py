"""What all tests share."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent

settings.register_profile("studio", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("studio")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What one process must do for all comes first: at the end the other would wait for it."""
    items.sort(key=lambda item: item.get_closest_marker("xdist_group") is None)


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
