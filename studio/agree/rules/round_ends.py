"""A line, a path, a chart and a row of cards begin and end where one would expect it: at zero, one or a round number, in the rows
of ten of a chart, or at a number that is spoken of. Of the lines, paths and charts in 13,107 right lessons, 7,300 or so, six are minded."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import Appearance, Case
from studio.agree.looks import picked_out
from studio.agree.wording import of_direction
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.hundred_chart import HundredChart
from studio.pictures.spans import SpanPicture
from studio.script.model import Show

NAME = "round ends"
_DOZEN, _TEN, _FIVE = 12, 10, 5
_LARGE = 21
"""From here on a chart may be of something with an end of its own, as the days of a month."""
_FEWEST_CARDS = 4


def find(case: Case) -> Iterator[Finding]:
    used = _used(case)
    for seen in case.pictures:
        direction = seen.moment.direction
        if isinstance(direction, Show) and direction.place.line not in case.excused:
            for end, value, better in _odd_ends(case, seen, used.get((direction.segment, seen.moment.name), set())):
                yield of_direction(
                    NAME,
                    direction,
                    f"[{direction.text}] on line {direction.place.line} {end} at {value}, and nothing is said of {value} there.",
                    f"Let it {end.removesuffix('s')} at {better}, or say what is at {value}.",
                )


def _odd_ends(case: Case, seen: Appearance, used: set[int]) -> Iterator[tuple[str, int, int]]:
    """Each end that is not to be expected: "begins" or "ends", the number there, and a better one. `used` are the
    numbers on the picture that something is done with."""
    said = case.said_in(seen.moment.direction.segment)
    match seen.picture:
        case HundredChart(start=start, end=end):
            if end % _TEN and end < _LARGE:
                yield "ends", end, end + _TEN - end % _TEN
            if start % _TEN not in (0, 1):
                yield "begins", start, start - start % _TEN + 1
        case SpanPicture(start=start, end=end) if (end - start) % _TEN:
            known = used | said
            if _is_odd(end) and known.isdisjoint((end, end - 1)) and (start == 1 or not start % _FIVE):
                yield "ends", end, end + _FIVE - end % _FIVE
            odd = _is_odd(start) or (start % _FIVE > 0 and end % _TEN == 0 and start != _DOZEN)
            if odd and start % _TEN != 1 and start not in known:
                yield "begins", start, start - start % _FIVE
        case Cards(faces=faces) if len(faces) >= _FEWEST_CARDS and all(b - a == 1 for a, b in pairwise(faces)):
            if faces[0] in (0, 1) and _TEN < faces[-1] != 2 * _TEN and faces[-1] not in said:
                yield "ends", faces[-1], _TEN
        case _:
            pass


def _is_odd(value: int) -> bool:
    """Whether a line hardly begins or ends there by itself; an even number may be chosen for what lies in its middle."""
    return value % 2 == 1 and value != 1 and value % _FIVE > 0


def _used(case: Case) -> dict[tuple[int, str], set[int]]:
    """The numbers of lines and paths that are marked, or hopped from or to, by segment and name."""
    used: dict[tuple[int, str], set[int]] = {}
    for seen in case.pictures:
        if isinstance(seen.picture, SpanPicture):
            numbers = used.setdefault((seen.moment.direction.segment, seen.moment.name), set())
            numbers.update(picked_out(seen.picture), (end for hop in seen.picture.hops for end in hop))
    return used
