"""Each module of the talk can be imported first: none waits for another in a ring."""

from __future__ import annotations

import subprocess
import sys

import pytest


@pytest.mark.parametrize("module", ["claims", "no_claims", "retold", "answers", "stories", "statements"])
def test_a_module_can_be_imported_first(module: str) -> None:
    subprocess.run([sys.executable, "-c", f"import studio.talk.{module}"], check=True)
