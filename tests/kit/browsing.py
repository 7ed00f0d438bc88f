"""A headless Chromium for tests: the installed one, or the one that the tests' browser library knows; else a skip."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest


@contextmanager
def chromium() -> Iterator[Any]:
    """A running browser without a network (every request but file:, data: and blob: fails)."""
    api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    with api.sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(
                executable_path=path, args=["--no-sandbox", "--autoplay-policy=no-user-gesture-required"]
            )
        except api.Error as error:
            pytest.skip(f"no Chromium can be started: {str(error).splitlines()[0]}")
        try:
            yield browser
        finally:
            browser.close()
