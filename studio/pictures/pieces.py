"""Shapes that several kinds draw alike: a numeral or its question mark, a ring, the light behind what is counted."""

from __future__ import annotations

from math import inf

from studio.pictures.metrics import CAPITAL, text_width
from studio.pictures.shapes import Box, Disc, Ink, Ring, Words

THREE_DIGITS = 0.72
"""How large a number of three digits is set beside those of two, so that it fits the same place."""


CLEAR = 5.0
"""The least space between a ring and the box of the numeral that it is round, in units."""
FILLED = 0.93
"""How much of a ring's reach the numeral takes at most, with that space: a ring that is filled to its sides is a box."""


def numeral(
    key: str,
    value: int | None,
    x: float,
    y: float,
    size: float,
    *,
    fill: Ink = "ink",
    three: float = THREE_DIGITS,
    room: float = inf,
) -> Words:
    """A number with its middle at (`x`, `y`), no wider than `room`; None is `?`, which counts as an unknown."""
    em = size * three if value is not None and value >= 100 else size
    em = min(em, room / text_width("?" if value is None else str(value), 1.0))
    return Words(
        role="unknown" if value is None else "numeral",
        key=key,
        counts="unknowns" if value is None else "",
        x=x,
        y=y + CAPITAL / 2 * em,
        text="?" if value is None else str(value),
        size=em,
        fill="quiet" if value is None else fill,
        face="numeral",
    )


def square(number: int, x: float, y: float, side: float, line: float, counts: str = "") -> Box:
    """A square with its middle at (`x`, `y`), for the number or mark of that place; neighbours share their line."""
    return Box(
        role="place",
        key=f"place {number}",
        counts=counts,
        x=x - side / 2 - line / 2,
        y=y - side / 2 - line / 2,
        width=side + line,
        height=side + line,
        fill="card",
        outline="ink",
        line=line,
    )


def ring(place: int, number: Words, rx: float, ry: float, width: float = 9.0) -> Ring:
    """The ring round the numeral at a place: it reaches `rx` and `ry` from its middle, farther where these are too small
    for it, and is as round as clears its box by `CLEAR`."""
    half = text_width(number.text, number.size) / 2 + CLEAR + width / 2
    high = CAPITAL / 2 * number.size + CLEAR + width / 2
    rx, ry = max(rx, half / FILLED), max(ry, high / FILLED)
    squareness = 2.0
    while (half / rx) ** squareness + (high / ry) ** squareness > 1:
        squareness += 0.25
    return ring_at(place, number.x, number.y - CAPITAL / 2 * number.size, rx, ry, width, squareness)


def ring_at(place: int, x: float, y: float, rx: float, ry: float, width: float = 9.0, squareness: float = 2.0) -> Ring:
    """A ring with its middle at (`x`, `y`), for the number at a place."""
    return Ring(
        role="ring",
        key=f"ring {place}",
        counts="rings",
        x=x,
        y=y,
        rx=rx,
        ry=ry,
        fill="ring",
        width=width,
        squareness=squareness,
    )


def light(key: str, x: float, y: float, width: float, height: float, corner: float) -> Box:
    """A light of `width` × `height` with its middle at (`x`, `y`), behind a thing that is counted."""
    return Box(
        role="light",
        key=f"light {key}",
        x=x - width / 2,
        y=y - height / 2,
        width=width,
        height=height,
        fill="light",
        outline="quiet",
        line=4,
        corner=corner,
    )


def round_light(key: str, x: float, y: float, radius: float) -> Disc:
    """The same, round."""
    return Disc(role="light", key=f"light {key}", x=x, y=y, radius=radius, fill="light", outline="quiet", width=4)
