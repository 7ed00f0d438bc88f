"""Scalable pictures, as SVG.

Letters become outlines, so the file looks the same wherever it is opened and needs no font; with `words=True` they stay
text in the theme's fonts, which then must be at hand (a handout sets them so, and its numerals can be searched).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import assert_never
from xml.sax.saxutils import escape, quoteattr

from studio.pictures.geometry import Point, dashes, path_points, ring_points
from studio.pictures.shapes import AnyShape, Box, Cross, Disc, Drawing, Ink, Line, Path, Ring, Words
from studio.pictures.themes import Theme, hexadecimal, load_theme


def svg(
    drawing: Drawing,
    theme: Theme | None = None,
    *,
    description: str = "",
    width: float | None = None,
    words: bool = False,
    ground: bool = False,
) -> str:
    """The drawing as a whole SVG 1.1 document.

    `description` is read out by screen readers; `width` is the width in CSS pixels (one a unit unless given); `ground`
    puts the theme's paper behind. Each shape carries its role as `class`, and what it counts as in `data-counts`.
    """
    theme = theme or load_theme()
    width = drawing.width if width is None else width
    height = drawing.height * width / drawing.width
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" '
        f'width="{_n(width)}" height="{_n(height)}" role="img" aria-label={quoteattr(description)}>'
    ]
    if description:
        lines.append(f"<title>{escape(description)}</title>")
    if ground:
        lines.append(
            f'<rect width="{_n(drawing.width)}" height="{_n(drawing.height)}" '
            f'fill="{hexadecimal(theme.colour("paper"))}"/>'
        )
    lines += [_group(shape, theme, words) for shape in drawing.shapes if shape.opacity > 0]
    lines.append("</svg>\n")
    return "\n".join(lines)


def _group(shape: AnyShape, theme: Theme, words: bool) -> str:
    counts = f" data-counts={quoteattr(shape.counts)}" if shape.counts else ""
    faint = f' opacity="{_n(shape.opacity)}"' if shape.opacity < 1 else ""
    inside = "".join(_elements(shape, theme, words))
    return f"<g class={quoteattr(shape.role)}{counts}{faint}>{inside}</g>"


def _elements(shape: AnyShape, theme: Theme, words: bool) -> list[str]:
    def colour(ink: Ink) -> str:
        return hexadecimal(theme.colour(ink))

    match shape:
        case Disc():
            line = shape.width if shape.outline is not None else 0.0
            edge = f' stroke="{colour(shape.outline)}" stroke-width="{_n(line)}"' if shape.outline and line else ""
            return [
                f'<circle cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(max(0.0, shape.radius - line / 2))}" '
                f'fill="{colour(shape.fill)}"{edge}/>'
            ]
        case Cross():
            reach = max(0.0, shape.radius - shape.width / 2)
            x, y = shape.x, shape.y
            data = (
                f"M{_n(x - reach)} {_n(y - reach)}L{_n(x + reach)} {_n(y + reach)}"
                f"M{_n(x + reach)} {_n(y - reach)}L{_n(x - reach)} {_n(y + reach)}"
            )
            return [_stroked(data, shape.width, colour(shape.fill))]
        case Line():
            data = "".join(f"M{_n(a[0])} {_n(a[1])}L{_n(b[0])} {_n(b[1])}" for a, b in dashes(shape))
            return [_stroked(data, shape.width, colour(shape.fill))]
        case Box():
            line = shape.line if shape.outline is not None else 0.0
            corner = max(0.0, shape.corner - line / 2)
            fill = colour(shape.fill) if shape.fill is not None else "none"
            edge = f' stroke="{colour(shape.outline)}" stroke-width="{_n(line)}"' if shape.outline and line else ""
            return [
                f'<rect x="{_n(shape.x + line / 2)}" y="{_n(shape.y + line / 2)}" '
                f'width="{_n(max(0.0, shape.width - line))}" height="{_n(max(0.0, shape.height - line))}" '
                f'rx="{_n(corner)}" fill="{fill}"{edge}/>'
            ]
        case Ring():
            if shape.part >= 1 and shape.squareness == 2:
                return [
                    f'<ellipse cx="{_n(shape.x)}" cy="{_n(shape.y)}" rx="{_n(shape.rx)}" ry="{_n(shape.ry)}" '
                    f'fill="none" stroke="{colour(shape.fill)}" stroke-width="{_n(shape.width)}"/>'
                ]
            if shape.part <= 0:
                return []
            whole = shape.part >= 1
            points = ring_points(shape)
            return [_stroked(_data(points[:-1] if whole else points, whole), shape.width, colour(shape.fill))]
        case Path():
            data = _data(path_points(shape), shape.closed)
            return [_stroked(data, shape.width, colour(shape.fill), colour(shape.fill) if shape.closed else "none")]
        case Words():
            return [_words(shape, theme, colour(shape.fill), words)]
        case _:
            assert_never(shape)


def _words(words: Words, theme: Theme, colour: str, as_text: bool) -> str:
    path = theme.font(words.face)
    if as_text:
        anchor = {"left": "start", "middle": "middle", "right": "end"}[words.align]
        return (
            f'<text x="{_n(words.x)}" y="{_n(words.y)}" font-family={quoteattr(family_name(path))} '
            f'font-size="{_n(words.size)}" text-anchor="{anchor}" fill="{colour}" '
            f'style="font-kerning:none">{escape(words.text)}</text>'
        )
    data, advance, units = _outline(words.text, path)
    scale = words.size / units
    left = words.x - {"left": 0.0, "middle": 0.5, "right": 1.0}[words.align] * advance * scale
    return (
        f'<path transform="translate({_n(left)} {_n(words.y)}) scale({scale:.6g} {-scale:.6g})" '
        f'fill="{colour}" data-text={quoteattr(words.text)} d="{data}"/>'
    )


@lru_cache(maxsize=16)
def _font(path: str) -> tuple[object, dict[int, str], object, int]:
    from fontTools.ttLib import TTFont

    font = TTFont(path)
    return font.getGlyphSet(), font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm


@lru_cache(maxsize=16)
def family_name(path: str) -> str:
    """The family that a font file calls itself."""
    from fontTools.ttLib import TTFont

    return str(TTFont(path)["name"].getBestFamilyName())


@lru_cache(maxsize=1024)
def _outline(text: str, path: str) -> tuple[str, float, int]:
    """The letters as path data in font units (y grows up), their whole advance, and the units of the em."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    glyphs, names, advances, units = _font(path)
    pen = SVGPathPen(glyphs)
    across = 0.0
    for letter in text:
        name = names.get(ord(letter), ".notdef")
        glyphs[name].draw(TransformPen(pen, (1, 0, 0, 1, across, 0)))  # type: ignore[index]
        across += advances[name][0]  # type: ignore[index]
    return pen.getCommands(), across, units


def _data(points: Sequence[Point], closed: bool) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + ("Z" if closed else "")


def _stroked(data: str, width: float, colour: str, fill: str = "none") -> str:
    return (
        f'<path d="{data}" fill="{fill}" stroke="{colour}" stroke-width="{_n(width)}" stroke-linecap="round" '
        'stroke-linejoin="round"/>'
    )


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".") if value % 1 else str(int(value))
