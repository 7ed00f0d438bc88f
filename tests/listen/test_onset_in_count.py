"""The demo's own count: a mark may not land early or late because a word has a closure in it ("six")."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from studio.listen.ear import TimedWord
from studio.listen.onset import refine
from studio.listen.recording import RATE

DEMO = Path(__file__).parents[2] / "assets_demo"


def test_the_closure_inside_a_word_is_no_pause_before_it() -> None:
    """The times are those that tiny.en gives for "Five. Six, seven, eight." in the demo recording; the true starts were
    read off its sound by eye (5 ms steps of its level and its high frequencies): 0.15 s are allowed, as in captions."""
    samples = _sound(DEMO / "pond-09.take.mp4")[round(0.546 * RATE) :]
    words = [TimedWord("Five", 19.92, 20.76, 0.9), TimedWord("six", 20.76, 21.26, 0.9),
             TimedWord("seven", 21.26, 21.8, 0.9), TimedWord("eight.", 21.8, 23.06, 0.9)]  # fmt: skip
    found = [word.start for word in refine(words, samples)]
    for start, true in zip(found, (20.144, 20.604, 21.134, 21.85), strict=True):
        assert abs(start - true) <= 0.15


def _sound(path: Path) -> NDArray[np.float32]:
    import av

    with av.open(str(path)) as media:
        resampler = av.AudioResampler(format="flt", layout="mono", rate=RATE)
        parts = [out.to_ndarray().ravel() for frame in media.decode(audio=0) for out in resampler.resample(frame)]
    return np.concatenate(parts)
