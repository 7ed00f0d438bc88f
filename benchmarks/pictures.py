"""Pictures: the proof over all kinds and values, how alike two renderers are, OCR, contrast and speed.

python benchmarks/pictures.py                       # a sample of everything, some minutes
python benchmarks/pictures.py truth --every 1       # the marks of all pictures counted, about half an hour
python benchmarks/pictures.py ocr --each 40         # more pictures read
"""

from __future__ import annotations

import argparse
import io
import random
import sys
import time
from collections import Counter
from collections.abc import Sequence
from itertools import islice
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

import numpy as np
from PIL import Image

from studio.pictures.base import Picture
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
from tests.pictures.reading import framed, look
from tests.pictures.test_painters import EXAMPLES

THEMES = ("warm paper", "dark board", "high contrast")
SCALES = (0.7, 0.85, 1.0)


def truth(every: int, kinds: Sequence[str]) -> None:
    """Marks counted in the pixels against the picture's account, in three themes and three sizes."""
    themes = [load_theme(name) for name in THEMES]
    started, total, wrong = time.process_time(), 0, Counter[str]()
    for kind in kinds:
        seen = 0
        for number, picture in enumerate(islice(pictures([kind]), 0, None, every)):
            theme = themes[number % 3]
            seen += 1
            if count(on_paper(picture, theme, SCALES[number // 3 % 3]), kind, theme) != dict(picture.marks):
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


NUMERALS = (
    "number bond",
    "number sentence",
    "cards",
    "more and less",
    "word",
    "number path",
    "number line",
    "bar",
    "compare bars",
    "hundred chart",
    "text",
)
"""The kinds in which there is something to read."""


def legible(each: int, seed: int, kinds: Sequence[str]) -> None:
    """Every numeral and word of many pictures read by an OCR: in a 1080p frame shrunk to 360p, and for every fourth in
    the frame as it is, which is easier."""
    totals: Counter[str] = Counter()
    for kind in [kind for kind in kinds if kind in NUMERALS]:
        found = list(pictures([kind]))
        sample = random.Random(f"{seed} {kind}").sample(found, min(each, len(found)))
        counts: Counter[str] = Counter(pictures=len(sample))
        for number, picture in enumerate(sample):
            theme, drawing = load_theme(THEMES[number % 3]), picture.drawing()
            for height in (360, 1080)[: 1 if number % 4 else 2]:
                seen = look(framed(drawing, theme, height))
                counts.update({"written": seen.whole + seen.alone + len(seen.missed), "in the page": seen.whole})
                counts.update({"alone": seen.alone, "missed": len(seen.missed), "extra": len(seen.extra)})
                for text, read in seen.missed:
                    print(f"  MISSED at {height}p ({theme.name}): {text!r} read as {read!r} in {picture.description()}")
                for piece in seen.extra:
                    print(
                        f"  read where it is not, at {height}p: {piece!r} in {picture.description()}: {_why(piece, picture)}"
                    )
        totals += counts
        print(f"  {kind:16}", ", ".join(f"{name} {count}" for name, count in counts.items()), flush=True)
    print("OCR, all kinds:", ", ".join(f"{name} {count}" for name, count in totals.items()))


def _why(piece: str, picture: Picture) -> str:
    """What makes the OCR read a number where there is none."""
    rest = piece
    for number in sorted(map(str, picture.numbers), key=len, reverse=True):
        rest = rest.replace(number, "")
    if not rest:
        return "numbers of a row read in one go"
    if set(rest) <= set("01"):
        return "drawn things in a row (units, cards, ticks) taken for 0 or 1"
    if picture.marks.get("unknowns") and rest in ("2", "7", "8"):
        return "the ? taken for a numeral"
    return "to be looked at"


def contrasts() -> None:
    """The least contrast of each theme."""
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
    started = time.process_time()
    for _ in range(1000):
        pillow.paint(drawing, theme, scale=1.2)
    print(f"seen before: {(time.process_time() - started) * 1000:.1f} microseconds a picture")


PARTS = ("speed", "alike", "contrast", "ocr", "truth")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"what to measure, of {', '.join(PARTS)} (all)")
    parser.add_argument("--every", type=int, default=40, help="count every N-th picture (1: all of them)")
    parser.add_argument("--each", type=int, default=8, help="how many pictures of a kind the OCR reads")
    parser.add_argument("--kind", action="append", choices=list(CLASSES), help="only this kind (may be said again)")
    parser.add_argument("--seed", type=int, default=1, help="which pictures these are")
    arguments = parser.parse_args()
    unknown = set(arguments.parts) - set(PARTS)
    if unknown:
        parser.error(f"there is no part {', '.join(sorted(unknown))}; there are {', '.join(PARTS)}")
    wanted = arguments.parts or PARTS
    if "speed" in wanted:
        speed()
    if "alike" in wanted:
        alike()
    if "contrast" in wanted:
        contrasts()
    if "ocr" in wanted:
        legible(arguments.each, arguments.seed, arguments.kind or list(CLASSES))
    if "truth" in wanted:
        truth(arguments.every, arguments.kind or list(CLASSES))


if __name__ == "__main__":
    main()
