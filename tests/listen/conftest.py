"""One loaded model for all listening tests, and a cache that is thrown away."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from studio.listen.api import Ears


@pytest.fixture(scope="session")
def ears() -> Ears:
    return Ears()


@pytest.fixture(autouse=True)
def own_store(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("STUDIO_CACHE", str(tmp_path_factory.mktemp("store")))
    yield
