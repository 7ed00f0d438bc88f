"""Counting drawn things by their colour and shape, as somebody would who sees only the frame.

A new sort of mark is one function here and a line in `COUNTERS`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType

import numpy as np
from scipy import ndimage

from studio.audit.view import Array, Blob, View, blobs_of


def _round(blob: Blob) -> bool:
    """A disc covers π/4 of its bounding box."""
    return 0.8 < blob.width / blob.height < 1.25 and 0.68 < blob.fill < 0.88


def _crossed(blob: Blob) -> bool:
    """Two strokes that cross: the middles of the edges of the box are empty, its corners are not."""
    if not 0.75 < blob.width / blob.height < 1.33 or blob.width < 6:
        return False
    w, h = blob.width // 4, blob.height // 4
    mask = blob.mask
    mid_x, mid_y = blob.width // 2, blob.height // 2
    across: Array = np.asarray(mask[:, mid_x - 1 : mid_x + 2].all(axis=1))
    empty = not (across[:h].any() or across[-h:].any())
    corners = [mask[:h, :w], mask[:h, -w:], mask[-h:, :w], mask[-h:, -w:]]
    return empty and bool(mask[mid_y, mid_x]) and all(corner.any() for corner in corners)


def _framed(blob: Blob) -> bool:
    """The outline of a card, a die or a disc: mostly hole."""
    return blob.solid > 0.6 and blob.fill < 0.45


def dots(view: View) -> int:
    return sum(_round(blob) for blob in view.blobs("first", least=0.3))


def crosses(view: View) -> int:
    return sum(_crossed(blob) for blob in view.blobs("second", least=0.3))


def tallies(view: View) -> int:
    """Upright strokes, and one slanted stroke for each group that it holds together. Where they cross, either may be
    cut in pieces by the other."""
    strokes: list[Blob] = []
    for blob in view.blobs("first", least=0.1):
        near = max(4.0, 0.5 * blob.width)
        pieces = [s for s in strokes if abs(s.middle[0] - blob.middle[0]) < near and _reach(s, blob) < blob.width * 2]
        if not pieces:
            strokes.append(blob)
    slanted = ndimage.binary_opening(view.of("second"), np.ones((3, 3), bool))
    both = np.pad(view.of("first", "second"), 4)
    groups = blobs_of(ndimage.binary_closing(both, np.ones((7, 7), bool))[4:-4, 4:-4])
    fifths = sum(
        bool((slanted[g.y : g.bottom, g.x : g.right] & g.mask).sum() > 0.02 * g.area) for g in groups if g.area > 40
    )
    return len(strokes) + fifths


def _reach(one: Blob, other: Blob) -> int:
    """How far two blobs stand apart up and down."""
    return max(one.y, other.y) - min(one.bottom, other.bottom)


def dice(view: View) -> int:
    return sum(_framed(blob) and 0.85 < blob.width / blob.height < 1.18 for blob in view.blobs("ink", least=0.3))


def pips_by_die(view: View) -> list[int]:
    """The pips of each die in reading order."""
    frames = [blob for blob in view.blobs("ink", least=0.3) if _framed(blob)]
    pips = [blob for blob in view.blobs("first", least=0.3) if _round(blob)]
    frames.sort(key=lambda blob: (round(blob.y / max(1, blob.height)), blob.x))
    return [sum(f.x < p.middle[0] < f.right and f.y < p.middle[1] < f.bottom for p in pips) for f in frames]


def cards(view: View) -> int:
    # Where a card is small its edge is a line of about a pixel, and has gaps at the corners.
    edges = ndimage.binary_dilation(np.pad(view.of("ink"), 4), np.ones((3, 3), bool), iterations=2)
    found = [blob for blob in blobs_of(edges) if _framed(blob)]
    largest = max((blob.width * blob.height for blob in found), default=0)
    return sum(blob.width * blob.height > 0.5 * largest for blob in found)


def solid_blocks(view: View) -> int:
    """Filled blocks or discs of the first colour; a numeral may be cut out of them."""
    return sum(blob.solid > 0.68 and 0.5 < blob.width / blob.height < 2 for blob in view.blobs("first", least=0.4))


def rings(view: View) -> int:
    """Closed lines of the ring's colour."""
    mask = ndimage.binary_closing(np.pad(view.of("ring"), 4), np.ones((5, 5), bool))[4:-4, 4:-4]
    found = [blob for blob in blobs_of(mask) if blob.area > 60]
    if not found:
        return 0
    largest = max(blob.width * blob.height for blob in found)
    return sum(blob.width * blob.height > 0.15 * largest and blob.solid > 0.6 and blob.fill < 0.5 for blob in found)


def tens(view: View) -> int:
    return sum(blob.height > 3.5 * blob.width for blob in view.blobs("first", least=0.3))


def ones(view: View) -> int:
    return sum(blob.fill > 0.8 and 0.8 < blob.width / blob.height < 1.25 for blob in view.blobs("second", least=0.3))


def upper_bar(view: View) -> int:
    return len(view.blobs("first", least=0.3))


def lower_bar(view: View) -> int:
    return len(view.blobs("second", least=0.3))


def bars(view: View) -> int:
    """Whole bars; one of a hundred may be short beside the other."""
    return len(view.blobs("first", least=0.004)) + len(view.blobs("second", least=0.004))


def hops(view: View) -> int:
    """Arcs with an arrow head: each begins where the one before it ended. One of one number may be under one of many."""
    return len(view.blobs("second", thick=False, least=0.02))


def ticks(view: View) -> int:
    """Strokes that stand on the longest line: the most that are seen at any height above it."""
    # The seam round a point is as dark as ink in some themes.
    points = ndimage.binary_opening(view.of("first"), np.ones((3, 3), bool))
    ink = view.of("ink") & ~ndimage.binary_dilation(points, np.ones((1, 5), bool))
    along = ink.sum(axis=1)
    line = int(np.flatnonzero(along > 0.8 * along.max())[0])
    found = 0
    for row in ink[:line][::-1]:
        seen = int(np.diff(row.astype(np.int8), prepend=0).clip(min=0).sum())
        if not seen:
            break
        found = max(found, seen)
    return found


def beads(view: View) -> list[tuple[int, int]]:
    """For each rod of a rekenrek, from above: beads pushed to the left, and beads waiting at the right."""
    rims = ndimage.binary_opening(view.of("first", "second"), np.ones((2, 2), bool))
    filled = ndimage.binary_fill_holes(rims)
    rows = [blob for blob in blobs_of(filled) if blob.area > 40]
    if not rows:
        return []
    size = float(np.median([blob.height for blob in rows]))
    lines: list[list[Blob]] = []
    for blob in sorted(rows, key=lambda item: item.middle[1]):
        if lines and abs(lines[-1][0].middle[1] - blob.middle[1]) < size / 2:
            lines[-1].append(blob)
        else:
            lines.append([blob])
    posts = [blob for blob in view.blobs("ink") if blob.height > 2 * size]
    left = min((post.right for post in posts), default=0)
    right = max((post.x for post in posts), default=view.pixels.shape[1])
    return [_pushed(sorted(line, key=lambda blob: blob.x), size, left, right) for line in lines]


def _pushed(line: Sequence[Blob], size: float, left: int, right: int) -> tuple[int, int]:
    middles: list[float] = []
    for blob in line:
        count = max(1, round(blob.width / size))
        middles += [blob.x + blob.width * (index + 0.5) / count for index in range(count)]
    gaps = [other - one for one, other in pairwise(middles)]
    if gaps and max(gaps) > 1.7 * size:
        cut = gaps.index(max(gaps)) + 1
        return cut, len(middles) - cut
    if middles[0] - left < right - middles[-1]:
        return len(middles), 0
    return 0, len(middles)


def _upper(view: View) -> int:
    return beads(view)[0][0]


def _lower(view: View) -> int:
    return beads(view)[1][0]


def _waiting(view: View) -> int:
    return sum(waiting for _, waiting in beads(view))


COUNTERS: Mapping[tuple[str, str], Callable[[View], int]] = MappingProxyType(
    {
        ("", "dots"): dots,
        ("", "crosses"): crosses,
        ("", "tallies"): tallies,
        ("", "pips"): dots,
        ("", "dice"): dice,
        ("", "cards"): cards,
        ("", "turned"): solid_blocks,
        ("", "marked"): solid_blocks,
        ("", "rings"): rings,
        ("", "tens"): tens,
        ("", "ones"): ones,
        ("", "hops"): hops,
        ("compare bars", "upper"): upper_bar,
        ("compare bars", "lower"): lower_bar,
        ("compare bars", "bars"): bars,
        ("number line", "places"): ticks,
        ("rekenrek", "upper"): _upper,
        ("rekenrek", "lower"): _lower,
        ("rekenrek", "waiting"): _waiting,
    }
)
"""How each sort of mark is counted: by kind of picture and mark, or by mark alone."""


def count(view: View, kind: str, mark: str) -> int | None:
    """How many of a mark are seen; None where there is no way to count it."""
    counter = COUNTERS.get((kind, mark)) or COUNTERS.get(("", mark))
    if counter is None:
        return None
    try:
        return counter(view)
    except (IndexError, ValueError, ZeroDivisionError):
        return -1  # nothing of the sort is to be seen
