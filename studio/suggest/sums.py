"""Sums, parts and comparisons: bonds, number sentences, bars, tens and ones, one more and one less."""

from __future__ import annotations

from collections.abc import Iterator

from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Number, Statement

SIGNS = frozenset("plus minus equals equal + - − = ".split())


def propose(part: Part) -> Iterator[Idea]:
    """A picture for every statement that holds."""
    for statement in part.statements:
        if statement.holds is False or statement.kind.startswith("count"):
            continue
        if statement.kind == "question":
            idea = _asked(part, statement)
        elif statement.holds is None:
            continue
        else:
            idea = for_statement(part, statement)
        if idea is not None:
            yield idea


def for_statement(part: Part, statement: Statement) -> Idea | None:
    """The picture for one statement; None where there is none."""
    values = statement.values
    match statement.kind:
        case "tens and ones" if values and 10 <= values[0] <= 120:
            return _simple(part, statement, "base ten", str(values[0]), f"{values[0]} is told in tens and ones",
                           frozenset({values[0]}))  # fmt: skip
        case "one more" | "one less" if len(values) == 3 and 1 <= values[1] < 120:
            return _more_and_less(part, statement, values[1], values[2])
        case "groups" if len(values) == 3 and values[0] * values[1] == values[2]:
            return _groups(part, statement, values[1], values[2])
        case "greater" | "less" if len(values) == 2 and max(values) > 20:
            return _simple(part, statement, "cards", f"{values[0]}, {values[1]}",
                           f"{values[0]} and {values[1]} are compared", frozenset(values))  # fmt: skip
        case "greater" | "less" | "equal" if len(values) == 2 and all(1 <= value <= 20 for value in values):
            return _simple(part, statement, "compare bars", f"{values[0]} and {values[1]}",
                           f"{values[0]} and {values[1]} are compared", frozenset(values))  # fmt: skip
        case "double" if len(values) == 2 and 1 <= values[0] <= 6:
            return _simple(part, statement, "dice", f"{values[0]} and {values[0]}", f"{values[0]} is doubled",
                           frozenset(values))  # fmt: skip
        case "double" if len(values) == 2 and values[0] <= 10:
            return _simple(part, statement, "rekenrek", f"{values[0]} and {values[0]}", f"{values[0]} is doubled",
                           frozenset(values))  # fmt: skip
        case _:
            pass
    signs = bool(part.plain(statement.start, statement.end) & SIGNS) or "-" in statement.written
    if not signs:
        bond = _bond(part, statement)
        if bond is not None:
            return bond
    return _sentence(part, statement)


def _simple(part: Part, statement: Statement, kind: str, details: str, reason: str, topic: frozenset[int]) -> Idea:
    sentence = part.sentence_of(statement.start)
    until = part.sentence_of(statement.end - 1).end
    return Idea(sentence.start, kind, details, (), until, topic, reason, details, details, 1)


def _groups(part: Part, statement: Statement, size: int, whole: int) -> Idea | None:
    """ "Four tens make forty" """
    topic = frozenset({whole})
    if size == 10 and whole <= 120:
        return _simple(part, statement, "base ten", str(whole), f"{whole} is told in tens", topic)
    if size == 5 and whole <= 50:
        return _simple(part, statement, "tally", str(whole), f"{whole} is told in fives", topic)
    if whole <= 50:
        return _simple(part, statement, "dots", f"{whole} dots", f"{whole} is told in groups", topic)
    return None


def _asked(part: Part, statement: Statement) -> Idea | None:
    """ "What is one less than fourteen?": the picture comes on with the question."""
    if len(statement.values) != 2 or statement.values[0] != 1 or not 1 <= statement.values[1] < 120:
        return None
    base = statement.values[1]
    asks = part.plain(statement.start, statement.end) & {"more", "less"}
    if statement.expected not in (base - 1, base + 1) or not asks:
        return None
    start = part.sentence_of(statement.start).start
    return Idea(start, "more and less", str(base), (), statement.end, frozenset({base}),
                f"one more and one less than {base} are asked", str(base), str(base), 2)  # fmt: skip


def _more_and_less(part: Part, statement: Statement, base: int, result: int) -> Idea:
    start = part.sentence_of(statement.start).start
    said = _last_said(part, statement, result)
    word = said.start if said is not None else statement.start
    return Idea(start, "more and less", str(base), (Change(word, f"fill in {result}"),),
                part.sentence_of(statement.end - 1).end, frozenset({base}),
                f"{statement.kind} than {base} is told", str(base), str(base), 2)  # fmt: skip


def _last_said(part: Part, statement: Statement, value: int) -> Number | None:
    return next(
        (number for number in reversed(part.numbers_in(statement.start, statement.end)) if number.value == value), None
    )


def whole_and_parts(statement: Statement) -> tuple[int, tuple[int, ...]] | None:
    """The whole and its parts of a statement of one fact ("7 + 2 = 9", "9 = 7 + 2"); None for any other."""
    sides = statement.written.split(" = ")
    if len(sides) != 2 or "?" in statement.written:
        return None
    one, other = sorted(sides, key=len)
    if not one.isdigit():
        return None
    terms = other.split(" + ")
    if not all(term.isdigit() for term in terms) or not 2 <= len(terms) <= 4:
        return None
    return int(one), tuple(int(term) for term in terms)


def bond_details(whole: int | None, parts: tuple[int | None, ...]) -> str:
    """Details of a bond; None stands for ?."""
    written = ["?" if part is None else str(part) for part in parts]
    return f"{'?' if whole is None else whole} is {' and '.join(written)}"


def _bond(part: Part, statement: Statement) -> Idea | None:
    fact = whole_and_parts(statement)
    if fact is None:
        return None
    whole, parts = fact
    if sum(parts) != whole or whole > 120:
        return None
    said = part.numbers_in(statement.start, statement.end)
    found = next((number for number in reversed(said) if number.value in (whole, *parts)), None)
    if statement.kind == "unknown part" and len(statement.values) == 3:
        found = next((number for number in reversed(said) if number.value == statement.values[1]), found)
    start = part.sentence_of(statement.start).start
    finished = bond_details(whole, tuple(sorted(parts)))
    open_details = bond_details(whole, parts)
    changes: tuple[Change, ...] = ()
    if found is not None and found.start > start:
        if found.value == whole:
            open_details = bond_details(None, parts)
        else:
            if statement.kind == "unknown part" and len(parts) == 2:
                parts = (whole - found.value, found.value)  # what was there comes first
            place = len(parts) - 1 - parts[::-1].index(found.value)
            open_details = bond_details(whole, tuple(None if at == place else p for at, p in enumerate(parts)))
        changes = (Change(found.start, f"fill in {found.value}"),)
    return Idea(start, "number bond", open_details, changes, part.sentence_of(statement.end - 1).end,
                frozenset((whole, *parts)), f"the parts of {whole} are told", open_details, finished, 2)  # fmt: skip


def _sentence(part: Part, statement: Statement) -> Idea | None:
    written = statement.written
    if " = " not in written or any(sign in written for sign in ("×", "?", ">", "<", "≠", "half", ",")):
        return None
    said = part.numbers_in(statement.start, statement.end)
    start = part.sentence_of(statement.start).start
    changes: tuple[Change, ...] = ()
    shown = written
    last = said[-1] if said else None
    if last is not None and last.start > start and written.endswith(f"= {last.value}") and written.count("=") == 1:
        shown = written[: -len(str(last.value))] + "?"
        changes = (Change(last.start, f"fill in {last.value}"),)
    return Idea(start, "number sentence", shown, changes, part.sentence_of(statement.end - 1).end,
                frozenset(statement.values), "a sum is told" if "+" in written else "a difference is told",
                shown, written, 2)  # fmt: skip
