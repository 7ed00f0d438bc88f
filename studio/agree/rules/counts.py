"""A count that skips a number, turns round or changes its step."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.denials import one_is_looked_for
from studio.findings import Finding
from studio.script.model import Hop
from studio.talk.model import Statement

NAME = "count goes on"


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not False or not statement.kind.startswith("count"):
            continue
        if case.is_excused(statement.start, statement.end) or one_is_looked_for(case, statement):
            continue
        if _are_stops(case, statement):
            continue
        told = f"Line {statement.line} counts" if statement.line else "You count"
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"{told} “{statement.said}”; that does not go on evenly.",
                      f"Count {statement.written}.")  # fmt: skip


def _are_stops(case: Case, statement: Statement) -> bool:
    """Whether it names the stops of the hops that were made before in the segment, in order ("Thirteen, ten, eight: that was
    our way back")."""
    hops = {
        id(seen.moment.direction): seen.change
        for seen in case.pictures_of(case.talk.words[statement.start].segment)
        if isinstance(seen.change, Hop) and seen.moment.word <= statement.start
    }
    stops: list[int] = []
    for hop in hops.values():
        stops += [stop for stop in (hop.start, hop.end) if stops[-1:] != [stop]]
    return tuple(stops[-len(statement.values) :]) == statement.values
