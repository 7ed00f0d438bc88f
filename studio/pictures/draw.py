"""One picture as a file: SVG, PNG, PDF or a short GIF. The edge of the room: everything else here is pure or paints."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from math import dist
from pathlib import Path
from textwrap import shorten
from typing import TYPE_CHECKING

from studio.errors import UnusableInput
from studio.files import whole_file, write_text
from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds import make
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.layout import extent, padded
from studio.pictures.motion import DURATION, between
from studio.pictures.shapes import Drawing
from studio.pictures.spans import SpanPicture
from studio.pictures.themes import Theme, load_theme
from studio.script.reader import read_change, read_picture

if TYPE_CHECKING:
    from PIL import Image

WIDTH = 1200
"""How many pixels a picture is wide unless it is said."""
WIDEST = 8000
GIF_WIDTH = 640
GIF_RATE = 20
"""Frames a second of a GIF."""
HOLD = 0.7
"""How long a GIF rests after each step, and three times as long at its end, in seconds."""
MOST_STEPS = 40
LANDING = ("dots", "crosses", "tallies", "pips", "tens", "ones", "upper", "lower")
"""What lands one after another in a GIF without changes: the things that tell an amount."""
NEAR = 20.0
"""A colour of a GIF that is no farther than this from one of the theme's, in RGB, becomes that one."""


def picture_of(spec: str, changes: Sequence[str] = ()) -> tuple[Picture, ...]:
    """The picture that `KIND: DETAILS` (or a whole `[show KIND: DETAILS]`) asks for, and then what each step of the
    changes (or of whole `[NAME: CHANGE]`) makes of it.

    Raises UnusableInput with a plain sentence for what cannot be read or shown.
    """
    written = re.fullmatch(r"\s*\[\s*show\s+(.*)\]\s*", spec, re.IGNORECASE | re.DOTALL)
    spec = written[1] if written else spec
    kind, details, _ = read_picture(spec)
    try:
        pictures = [make(kind, details)]
        for change in changes:
            whole = re.fullmatch(r"\s*\[[^:\]]*:(.*)\]\s*", change, re.DOTALL)
            pictures += [step.picture for step in pictures[-1].steps(read_change(whole[1] if whole else change))]
    except CannotShow as error:
        raise UnusableInput(str(error), shorten(spec, 60, placeholder=" ...")) from error
    return tuple(pictures)


def draw(
    spec: str,
    out: Path | str,
    *,
    theme: Theme | str = "warm paper",
    size: int | None = None,
    changes: Sequence[str] = (),
) -> Path:
    """Draw `KIND: DETAILS`, after `changes`, into a file whose ending says what it is; gives its path.

    SVG, PNG (transparent ground), PDF (drawn, not photographed; numerals are text), or GIF, in which the changes
    happen, or, without any, the things that tell its amount land one after another. `size` is the width in pixels (in a PDF of 96
    to the inch). Raises UnusableInput; a file that stood there stays until the new one is whole.
    """
    path = Path(out)
    writers: dict[str, Callable[[Path, Sequence[Picture], Theme, int | None], None]] = {
        ".svg": _write_svg,
        ".png": _write_png,
        ".pdf": _write_pdf,
        ".gif": _write_gif,
    }
    if path.suffix.lower() not in writers:
        raise UnusableInput(
            "a picture is written as .svg, .png, .pdf or .gif; give the file one of these endings.", str(path)
        )
    if size is not None and not 16 <= size <= WIDEST:
        raise UnusableInput(f"a picture can be 16 to {WIDEST} pixels wide, not {size}.", str(path))
    chosen = theme if isinstance(theme, Theme) else load_theme(theme)
    writers[path.suffix.lower()](path, picture_of(spec, changes), chosen, size)
    return path


def _write_svg(path: Path, pictures: Sequence[Picture], theme: Theme, size: int | None) -> None:
    from studio.pictures.painters.svg import svg

    picture = pictures[-1]
    write_text(path, svg(picture.drawing(), theme, description=picture.description(), width=size))


def _write_png(path: Path, pictures: Sequence[Picture], theme: Theme, size: int | None) -> None:
    from PIL.PngImagePlugin import PngInfo

    from studio.pictures.painters.pillow import paint

    about = PngInfo()
    about.add_itxt("Description", pictures[-1].description())
    image = paint(pictures[-1].drawing(), theme, width=size or WIDTH)
    with whole_file(path) as temporary:
        image.save(temporary, "PNG", pnginfo=about)


def _write_pdf(path: Path, pictures: Sequence[Picture], theme: Theme, size: int | None) -> None:
    from studio.pictures.painters.pdf import pdf

    picture = pictures[-1]
    made = pdf(picture.drawing(), theme, description=picture.description(), width=size)
    with whole_file(path) as temporary:
        temporary.write_bytes(made)


def _write_gif(path: Path, pictures: Sequence[Picture], theme: Theme, size: int | None) -> None:
    from PIL import Image

    from studio.pictures.painters.pillow import paint

    drawings = [picture.drawing() for picture in pictures]
    if len(drawings) == 1:
        drawings = landing(pictures[0])
    space = extent(drawings)
    scale = (size or GIF_WIDTH) / space[0]
    frames: list[tuple[Image.Image, int]] = []

    def add(drawing: Drawing, seconds: float) -> None:
        image = paint(padded(drawing, space), theme, scale=scale)
        frame = Image.new("RGB", image.size, theme.colour("paper"))
        frame.paste(image, (0, 0), image)
        frames.append((frame, round(seconds * 1000)))

    count = 1 if theme.calm else round(DURATION * GIF_RATE)
    add(drawings[0], HOLD)
    for before, after in pairwise(drawings):
        for number in range(1, count):
            add(between(before, after, number / count), 1 / GIF_RATE)
        add(after, HOLD)
    frames[-1] = (frames[-1][0], round(3 * HOLD * 1000))
    # One palette for all frames: the colours stay where they are, and nothing flickers.
    sheet = Image.new("RGB", (frames[-1][0].width, 3 * frames[-1][0].height), theme.colour("paper"))
    for place, at in enumerate((0, len(frames) // 2, len(frames) - 1)):
        sheet.paste(frames[at][0], (0, place * frames[-1][0].height))
    palette = _palette(sheet, theme)
    indexed = [frame.quantize(palette=palette, dither=Image.Dither.NONE) for frame, _ in frames]
    with whole_file(path) as temporary:
        indexed[0].save(
            temporary,
            "GIF",
            save_all=True,
            append_images=indexed[1:],
            loop=0,
            duration=[time for _, time in frames],
            comment=pictures[-1].description().encode(),
        )


def _palette(sheet: Image.Image, theme: Theme) -> Image.Image:
    """The theme's colours as they are, so that paper stays paper, and then the blends between them."""
    from PIL import Image

    own = [colour for _, colour in theme.colours]
    parts = sheet.quantize(64 - len(own), method=Image.Quantize.MEDIANCUT).getpalette() or []
    blends = zip(parts[::3], parts[1::3], parts[2::3], strict=True)
    apart = [blend for blend in blends if min(dist(blend, colour) for colour in own) > NEAR]
    palette = Image.new("P", (1, 1))
    palette.putpalette([part for colour in (*own, *apart) for part in colour])
    return palette


def landing(picture: Picture) -> list[Drawing]:
    """The picture without the marks, beads, pips and squares that tell its amount, and then with one after another of them (in
    at most forty steps). Beads are pushed; a marked number is there before it is marked. What shows numerals only is
    there at once."""
    match picture:
        case Rekenrek(upper):
            return [Rekenrek(min(pushed, upper), max(0, pushed - upper)).drawing() for pushed in _landed(picture.total)]
        case SpanPicture(marked=marked):
            return [replace(picture, marked=marked[:count]).drawing() for count in _landed(len(marked))]
        case _:
            drawing = picture.drawing()
    counting = [shape.key for shape in drawing.shapes if shape.counts in LANDING]
    return [
        replace(drawing, shapes=tuple(s for s in drawing.shapes if s.key not in counting[count:]))
        for count in _landed(len(counting))
    ]


def _landed(many: int) -> list[int]:
    """How many have landed after each step, from none to all."""
    return [*range(0, many, max(1, -(-many // MOST_STEPS))), many]
