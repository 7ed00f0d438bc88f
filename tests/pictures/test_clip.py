"""Pictures as MoviePy clips, laid over a video."""

from __future__ import annotations

import numpy as np
from moviepy import ColorClip, CompositeVideoClip
from PIL import Image

from studio.pictures.clip import clip
from studio.script.model import Add
from tests.pictures.counting import count
from tests.pictures.made import shown


def test_a_mark_lands_in_the_composite_when_its_step_comes() -> None:
    overlay = clip(shown("ten frame: 7 dots"), 6, changes=[(2.0, Add(2, "crosses", True))], width=520, beat=1.0)
    assert overlay.size == (520, 220)
    video = CompositeVideoClip([ColorClip((640, 360), (90, 140, 90), duration=6), overlay.with_position((60, 70))])

    def crosses(t: float) -> dict[str, int]:
        return count(Image.fromarray(video.get_frame(t)[70:290, 60:580]), "ten frame")

    assert crosses(1.9) == {"dots": 7, "crosses": 0}
    assert crosses(2.9) == {"dots": 7, "crosses": 1}
    assert crosses(5.0) == {"dots": 7, "crosses": 2}


def test_the_mask_lets_the_video_through() -> None:
    overlay = clip(shown("dots: 3"), 2, width=400)
    assert overlay.mask is not None
    mask = overlay.mask.get_frame(1.0)
    assert mask.max() == 1.0 and mask.min() == 0.0
    video = CompositeVideoClip([ColorClip((400, 96), (90, 140, 90), duration=2), overlay])
    assert (np.asarray(video.get_frame(1.0)) == (90, 140, 90)).all(axis=-1).mean() > 0.5
