"""`pictures/`: every picture of the lesson as it stands in the end, as SVG and PNG."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from studio.kit.contents import KitContents
from studio.pictures.base import Picture
from studio.pictures.painters.svg import svg
from studio.script.model import Show
from studio.timing.cuesheet import CueSheet

WIDTH, HEIGHT = 960, 720
"""The most pixels that a PNG has across and down."""


@dataclass(frozen=True, slots=True)
class FinalPicture:
    """A picture as it stands before it goes. `name` is the file's name without its ending, `first` the picture as it came
    on."""

    name: str
    picture: Picture
    first: Picture

    @property
    def untold(self) -> Picture:
        """The picture without an answer: as it came on, if a number was to be found then, else as it stands in the end."""
        return self.first if self.first.marks.get("unknowns") else self.picture


def final_pictures(sheet: CueSheet) -> tuple[FinalPicture, ...]:
    """Every picture that is shown, in the order in which they come on, each in its last state."""
    order: list[tuple[str, Picture, Picture]] = []
    current: dict[str, int] = {}
    for cue in sheet.cues:
        name, picture = cue.moment.name, cue.moment.picture
        if picture is None:
            current.pop(name, None)
        elif name not in current or isinstance(cue.moment.direction, Show):
            current[name] = len(order)
            order.append((name, picture, picture))
        else:
            order[current[name]] = (name, picture, order[current[name]][2])
    digits = max(2, len(str(len(order))))
    return tuple(
        FinalPicture(f"{number:0{digits}d}-{slug(name)}", picture, first)
        for number, (name, picture, first) in enumerate(order, 1)
    )


def slug(name: str) -> str:
    """A name for a file, in small plain letters: "ten-frame"."""
    plain = unicodedata.normalize("NFKD", name.lower()).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60] or "picture"


def write_pictures(contents: KitContents, folder: Path) -> None:
    """Write all of them into `folder`. A picture that looks the same as another is painted once."""
    from studio.pictures.painters.pillow import paint

    finals = final_pictures(contents.sheet)
    if not finals:
        return
    folder.mkdir(exist_ok=True)
    painted: dict[Picture, bytes] = {}
    for final in finals:
        drawing = final.picture.drawing()
        text = svg(drawing, contents.theme, description=final.picture.description(), ground=True)
        (folder / f"{final.name}.svg").write_text(text, encoding="utf-8")
        if final.picture not in painted:
            scale = min(WIDTH / drawing.width, HEIGHT / drawing.height)
            painted[final.picture] = _png(paint(drawing, contents.theme, scale=scale), contents.theme.colour("paper"))
        (folder / f"{final.name}.png").write_bytes(painted[final.picture])


def _png(image: object, ground: tuple[int, int, int]) -> bytes:
    """The picture on its paper as PNG."""
    import io

    from PIL import Image

    assert isinstance(image, Image.Image)
    page = Image.new("RGB", image.size, ground)
    page.paste(image, mask=image)
    buffer = io.BytesIO()
    page.save(buffer, "PNG", compress_level=6)
    return buffer.getvalue()
