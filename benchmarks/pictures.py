"""Pictures: the proof over all kinds and values, how alike two renderers are, OCR, contrast and speed.

python benchmarks/pictures.py               # every 40th picture, a minute or two
python benchmarks/pictures.py --every 1     # all of them
"""

from __future__ import annotations

import argparse
import io
import sys
import time
from collections import Counter
from itertools import islice
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

import numpy as np
from PIL import Image

from studio.pictures.draw import picture_of
from studio.pictures.gallery import EXAMPLES as STORIES
from studio.pictures.kinds import CLASSES
from studio.pictures.layout import extent, padded
from studio.pictures.painters import pillow
from studio.pictures.painters.svg import svg
from studio.pictures.themes import contrast, load_theme, pairs, theme_names
from studio.script.model import Count
from tests.pictures.counting import count, on_paper
from tests.pictures.every import pictures
from tests.pictures.made import shown
from tests.pictures.reading import agrees, lines
from tests.pictures.test_painters import EXAMPLES


def truth(every: int) -> None:
    """Marks counted in the pixels against the picture's account."""
    themes = [load_theme(name) for name in ("warm paper", "dark board", "high contrast")]
    started, total, wrong = time.process_time(), 0, Counter[str]()
    for kind in CLASSES:
        seen = 0
        for number, picture in enumerate(islice(pictures([kind]), 0, None, every)):
            theme = themes[number % 3]
            seen += 1
            if count(on_paper(picture, theme), kind, theme) != dict(picture.marks):
                wrong[kind] += 1
                print(f"  WRONG ({theme.name}): {picture!r}")
        total += seen
        print(f"  {kind:18} {seen:6} pictures, {wrong[kind]} wrong", flush=True)
    print(f"truth: {total - wrong.total()} of {total} pictures agree, {time.process_time() - started:.0f} s of CPU")


def alike() -> None:
    """Structural similarity of Pillow's and resvg's pixels, every kind, warm paper."""
    import resvg_py
    from skimage.metrics import structural_similarity

    theme, least = load_theme(), {}
    for kind, example in EXAMPLES.items():
        drawing = shown(*example).drawing()
        text = svg(drawing, theme, ground=True)
        other = Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=text)))).convert("L")
        image = pillow.paint(drawing, theme)
        ours = Image.new("RGB", image.size, theme.colour("paper"))
        ours.paste(image, (0, 0), image)
        box = (0, 0, min(ours.width, other.width), min(ours.height, other.height))
        least[kind] = structural_similarity(np.asarray(ours.convert("L").crop(box)), np.asarray(other.crop(box)))
    kind = min(least, key=least.__getitem__)
    print(f"two renderers: SSIM at least {least[kind]:.4f} ({kind}), over {len(least)} kinds")


def legible() -> None:
    """OCR of the numerals of each kind's example, and the least contrast of each theme."""
    misses, asked = [], 0
    for kind, example in EXAMPLES.items():
        picture = shown(*example)
        if kind in ("five frame", "ten frame", "double ten frame", "dots", "tally", "dice", "base ten", "rekenrek"):
            continue
        asked += 1
        image = on_paper(picture)
        if not agrees(image, picture.numbers):
            misses.append(f"  OCR miss, {kind}: {picture.numbers} read as {lines(image)}")
    print(f"OCR: {asked - len(misses)} of {asked} kinds with numerals read whole", *misses, sep="\n")
    for name in theme_names():
        theme = load_theme(name)
        ratio, ink, ground = min((contrast(theme.colour(a), theme.colour(b)), a, b) for a, b, _ in pairs())
        print(f"contrast, {name}: least {ratio:.2f}:1 ({ink} on {ground})")


def speed() -> None:
    """New 1080p pictures a second on one core: painted from nothing, and as steps that follow each other."""
    theme = load_theme()
    stories = [(spec, [picture.drawing() for picture in picture_of(spec, changes)]) for spec, changes in STORIES]
    for spec in ("double ten frame: 20 dots", "dots: 50", "number path: 0 to 20", "hundred chart: 1 to 120"):
        stories.append((f"{spec}, counted", [step.picture.drawing() for step in shown(spec).steps(Count())]))
    print("speed: new 1080p pictures a second, painted from nothing / as a step after the one before")
    for name, drawings in stories:
        space = extent(drawings)
        scale = min(1920 / space[0], 1080 / space[1])
        drawings = [padded(drawing, space) for drawing in drawings] * 2
        started = time.process_time()
        for drawing in drawings:
            pillow.painted(drawing, theme, scale)
        whole = len(drawings) / (time.process_time() - started)
        steps = drawings[: len(drawings) // 2]
        pillow.paint(steps[0], theme, scale=scale)
        started = time.process_time()
        for drawing in steps[1:]:
            pillow.paint(drawing, theme, scale=scale)
        spent = time.process_time() - started
        print(f"  {name:40} {whole:6.0f}" + (f" / {(len(steps) - 1) / spent:6.0f}" if len(steps) > 1 else ""))
    drawing = shown("hundred chart: 1 to 100").drawing()
    pillow.paint(drawing, theme, scale=1.2)
    started = time.perf_counter()
    for _ in range(1000):
        pillow.paint(drawing, theme, scale=1.2)
    print(f"seen before: {(time.perf_counter() - started) * 1000:.1f} microseconds a picture")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--every", type=int, default=40, help="count every N-th picture (1: all of them)")
    parser.add_argument("--skip-ocr", action="store_true")
    arguments = parser.parse_args()
    speed()
    alike()
    if not arguments.skip_ocr:
        legible()
    truth(arguments.every)


if __name__ == "__main__":
    main()
