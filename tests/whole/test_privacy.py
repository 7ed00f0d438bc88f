"""Nothing is sent anywhere, and no library writes down an identifier to be sent: a home that was empty holds our own
store afterwards and nothing else."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import islice
from pathlib import Path

import av
import numpy as np
import pytest

from studio.listen.recording import RATE
from tests.conftest import ROOT
from tests.listen.speech import have_model, write_wav

LESSON = "---\ntitle: Pond\n---\n[show number bond: 8 is 5 and 3]\nFive and three make eight.\n"


@pytest.fixture
def speech(tmp_path: Path) -> Path:
    """The first words of the demo recording, about two seconds."""
    resampler = av.AudioResampler("s16", "mono", RATE)
    with av.open(str(ROOT / "assets_demo" / "pond-09.take.mp4")) as source:
        frames = [f for coded in islice(source.decode(audio=0), 100) for f in resampler.resample(coded)]
    return write_wav(tmp_path / "pond.wav", np.concatenate([frame.to_ndarray()[0] for frame in frames]))


@pytest.mark.skipif(os.name != "posix", reason="a home is not named by HOME there")
@pytest.mark.skipif(not have_model(), reason="needs a packaged model (extra: speech)")
def test_building_auditing_and_listening_leave_nothing_in_her_home_but_our_store(tmp_path: Path, speech: Path) -> None:
    home, lesson = tmp_path / "home", tmp_path / "pond.lesson.md"
    home.mkdir()
    lesson.write_text(LESSON)
    hidden = ("STUDIO_CACHE", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
    env = {name: value for name, value in os.environ.items() if name not in hidden} | {"HOME": str(home)}
    for name in ("ORT_DISABLE_TELEMETRY", "HF_HUB_DISABLE_TELEMETRY", "HF_HUB_DISABLE_UPDATE_CHECK"):
        env.pop(name, None)  # importing studio in this process has set them
    for arguments in (["build", lesson, "--audit"], ["listen", speech]):
        done = subprocess.run(
            [sys.executable, "-m", "studio", *map(str, arguments)], capture_output=True, text=True, env=env, cwd=ROOT
        )
        assert done.returncode == 0, done.stderr
    found = {path.relative_to(home).as_posix() for path in home.rglob("*") if path.is_file()}
    ours = {name for name in found if name.startswith(".cache/say-and-show-studio/")}
    assert {Path(name).suffix for name in ours} >= {".span", ".json"}
    assert found == ours


def test_a_job_in_a_process_of_its_own_is_as_quiet() -> None:
    """Whatever the environment says: what starts in `studio.apart` loads the same libraries."""
    code = "import studio.apart, os; print(os.environ['ORT_DISABLE_TELEMETRY'], os.environ['HF_HUB_DISABLE_TELEMETRY'])"
    env = os.environ | {"ORT_DISABLE_TELEMETRY": "0", "HF_HUB_DISABLE_TELEMETRY": "0"}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=env, cwd=ROOT)
    assert done.stdout.split() == ["1", "1"], done.stderr
