"""The film as a whole: broken off and finished, as loud as it should be, and played in a browser."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pyloudnorm
import pytest

from studio.film.settings import FilmSettings
from studio.store import Store
from tests.film.material import COUNTING, RATE, film_of, record, sound_of
from tests.kit.browsing import chromium

TEXT = COUNTING + "[camera full] Look at me now.\n[camera beside] And here they are.\n"
ROOT = Path(__file__).resolve().parents[2]
SIZE = FilmSettings(width=320, height=180, workers=1)

MAKE = """
import os, signal, sys
from pathlib import Path
from tests.film.test_whole import make

folder, take, last = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
seen = 0

def watch(event, arguments):
    global seen
    if event in ("open", "os.rename") and str(arguments[0]).startswith(str(folder)):
        seen += 1
        if seen == last:
            os.kill(os.getpid(), signal.SIGKILL)

sys.addaudithook(watch)
make(folder, take)
print(seen)
"""
"""Makes the film, and dies as it opens or renames its file number `last`."""


def make(folder: Path, take: Path) -> Path:
    return film_of(folder, TEXT, [take], SIZE, Store(folder / "store")).path


def test_a_film_broken_off_at_any_moment_and_finished_is_the_same(tmp_path: Path) -> None:
    """The process is killed (SIGKILL, nothing can be tidied) as it opens or renames some file; under the film's name
    stands the last good film all the time, and the build that is left alone finishes the new one."""
    take = record(tmp_path / "take.mp4", 20, size=(320, 180))
    alone, killed = tmp_path / "alone", tmp_path / "killed"
    alone.mkdir()
    killed.mkdir()
    film = killed / "lesson.mp4"

    def run(folder: Path, last: int) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-c", MAKE, str(folder), str(take), str(last)]
        return subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)

    files = int(run(alone, 0).stdout)
    wanted = (alone / "lesson.mp4").read_bytes()
    film.write_bytes(b"the last good film")
    moments = random.Random(6)
    broken = 0
    for _ in range(5):
        done = run(killed, moments.randint(1, files // 2))
        broken += done.returncode == -signal.SIGKILL
        assert done.returncode in (0, -signal.SIGKILL), done.stderr
        assert film.read_bytes() == (wanted if done.returncode == 0 else b"the last good film")
        film.write_bytes(b"the last good film")
    assert broken >= 3
    assert make(killed, take).read_bytes() == wanted


@pytest.mark.parametrize("level", [0.02, 0.6])
def test_a_quiet_and_a_loud_recording_become_equally_loud(tmp_path: Path, level: float) -> None:
    """ITU-R BS.1770 by pyloudnorm: -16 LUFS within 0.5; EBU Tech 3341: true peak by four times oversampling."""
    from scipy.signal import resample_poly

    take = record(tmp_path / "take.mp4", 20, size=(320, 180), level=level)
    sound = sound_of(make(tmp_path, take)).T
    assert pyloudnorm.Meter(RATE).integrated_loudness(sound) == pytest.approx(-16, abs=0.5)
    peak = 20 * np.log10(np.abs(resample_poly(sound, 4, 1, axis=0)).max())
    assert peak <= -1.0 + 0.1  # a tenth for the resampler


def test_chromium_plays_the_film_to_its_end_and_seeks_exactly(tmp_path: Path) -> None:
    film = film_of(tmp_path, TEXT, [record(tmp_path / "take.mp4", 20, size=(320, 180))], SIZE)
    page_file = tmp_path / "play.html"
    page_file.write_text('<video src="lesson.mp4" muted preload="auto"></video>', encoding="utf-8")
    with chromium() as browser:
        page = browser.new_page()
        page.goto(page_file.as_uri())
        length, sought, ended, error = page.evaluate(
            """async () => {
                const video = document.querySelector("video");
                const event = name => new Promise((done, no) => {
                    video.addEventListener(name, done, {once: true});
                    video.addEventListener("error", () => no(new Error(video.error.message)), {once: true});
                });
                if (video.readyState < 2) await event("loadeddata");
                const seeked = event("seeked");
                video.currentTime = 5.5;
                await seeked;
                const sought = video.currentTime;
                const end = event("ended");
                video.playbackRate = 4;
                await video.play();
                await end;
                return [video.duration, sought, video.currentTime, video.error];
            }"""
        )
    assert error is None
    assert sought == pytest.approx(5.5, abs=0.001)
    assert length == pytest.approx(film.duration, abs=0.05)
    assert ended == pytest.approx(length, abs=0.05)
