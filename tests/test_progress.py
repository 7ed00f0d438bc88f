"""The bar: seen on a terminal, silent elsewhere."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

CODE = """
import time
from studio.progress import bar
with bar("build") as progress:
    for step in range(6):
        progress(step / 6, "encoding pictures")
        time.sleep(0.15)
print("the kit is made")
"""


def test_a_terminal_sees_what_is_being_done_and_the_time_left() -> None:
    pty = pytest.importorskip("pty", reason="this system has no terminals of that kind")
    ours, its = pty.openpty()
    done = subprocess.run([sys.executable, "-c", CODE], stderr=its, stdout=subprocess.PIPE, check=True)
    os.close(its)
    seen = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "encoding pictures" in seen and "left" in seen and "50%" in seen
    assert done.stdout == b"the kit is made\n"


def test_elsewhere_it_is_quiet() -> None:
    done = subprocess.run([sys.executable, "-c", CODE], capture_output=True, check=True)
    assert (done.stderr, done.stdout) == (b"", b"the kit is made\n")
