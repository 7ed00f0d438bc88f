"""One less and one more: the number with its neighbours, each ? until it is said."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from studio.suggest.ideas import Change, Idea, Part
from studio.talk.model import Statement

_REACH = 60  # words
_BESIDE = re.compile(r"(?:.* )?(?:just|comes|next|right) (?P<way>before|after)(?: \S+)?$")
_BOTH_SIDES = frozenset({"right before", "right after", "between"})
_SOON = 8  # words
_LARGEST = 119


@dataclass(slots=True)
class _Base:
    value: int
    start: int
    end: int
    found: dict[int, int] = field(default_factory=dict)


def propose(part: Part) -> Iterator[Idea]:
    """One picture for all that is said within some sentences about one more and one less than a number."""
    on: _Base | None = None
    for start, begin, base, neighbour, word in sorted([*_statements(part), *_short(part), *_beside(part)]):
        if on is None or on.value != base or start - on.end > _REACH:
            if on is not None:
                yield _idea(on)
            on = _Base(base, begin, start)
        on.end = max(on.end, part.sentence_of(start).end)
        if neighbour not in on.found and word >= 0:
            on.found[neighbour] = word
            on.end = max(on.end, word + 1)
    if on is not None:
        yield _idea(on)


def _statements(part: Part) -> Iterator[tuple[int, int, int, int, int]]:
    """First word, where the picture comes on, number, neighbour, and the word of that (-1: it is not said)."""
    for statement in part.statements:
        if statement.kind in _BOTH_SIDES and statement.holds is True and part.row_named(statement.start) is None:
            yield from _placed(part, statement)
            continue
        told = _told(part, statement)
        if told is not None:
            word = _word(part, statement, told[1])
            yield statement.start, part.begin(statement), *told, -1 if word is None else word


def _placed(part: Part, statement: Statement) -> Iterator[tuple[int, int, int, int, int]]:
    """ "Eighteen comes after seventeen and before nineteen." """
    base, *others = statement.values
    if len(others) == 1 and base not in part.topics:
        base, others = others[0], [base]
    if not 1 <= base <= _LARGEST or any(abs(other - base) != 1 for other in others):
        return
    for other in others:
        said = part.said(statement.start, statement.end, other)
        yield statement.start, part.begin(statement), base, other, -1 if said is None else said.start


def _short(part: Part) -> Iterator[tuple[int, int, int, int, int]]:
    """ "1 less is 12, and 1 more is 14." and "Fifteen, which is one less" where the number itself was said before."""
    for place, number in enumerate(part.numbers):
        way = part.words[number.end].plain if number.value == 1 and number.end < part.end else ""
        if way not in ("more", "less"):
            continue
        after = part.numbers[place + 1] if place + 1 < len(part.numbers) else None
        before = part.numbers[place - 1] if place else None
        if (
            before is not None
            and after is not None
            and abs(after.value - before.value) == 1
            and (part.text(before.end, number.start) == "and")
        ):
            continue  # "nineteen and one more is twenty" is a sum
        if (after is not None and part.text(number.end + 1, after.start) in ("is", "makes", "would be")) or (
            after is not None and "?" in part.words[number.end].text and after.start - number.end <= _SOON
        ):
            neighbour = after
        elif before is not None and part.text(before.end, number.start) in ("is", "which is", "that is", "that's"):
            neighbour = before
        elif before is not None and before.end == number.start and part.sentence_of(number.start).end <= number.end + 1:
            neighbour = before  # "46. One less."
        else:
            continue
        base = neighbour.value + (1 if way == "less" else -1)
        start = part.sentence_of(neighbour.start).start
        said = {n.value for n in part.numbers_in(max(part.start, start - _REACH), start)} | part.topics
        if base in said and 1 <= base <= _LARGEST:
            yield neighbour.start, start, base, neighbour.value, neighbour.start


def _told(part: Part, statement: Statement) -> tuple[int, int] | None:
    """The number and its neighbour."""
    values = statement.values
    if statement.kind in ("one more", "one less") and statement.holds is True and len(values) == 3:
        return (values[1], values[2]) if 1 <= values[1] <= _LARGEST else None
    if statement.kind != "question" or len(values) != 2 or values[0] != 1 or not 1 <= values[1] <= _LARGEST:
        return None
    words = part.plain(statement.start, statement.end)
    asks = words & {"more", "less"} and "than" in words
    expected = statement.expected
    if not asks or not isinstance(expected, int) or abs(expected - values[1]) != 1:
        return None
    return values[1], expected


def _beside(part: Part) -> Iterator[tuple[int, int, int, int, int]]:
    """ "What comes just before 47? ... 46." """
    for index, sentence in enumerate(part.sentences[:-1]):
        way = _BESIDE.match(part.text(sentence.start, sentence.end)) if part.asks(sentence) else None
        following = part.sentences[index + 1]
        if way is None or not following.numbers:
            continue
        neighbour = following.numbers[0]
        base = neighbour.value + (1 if way["way"] == "before" else -1)
        said = {n.value for n in part.numbers_in(max(part.start, sentence.start - _REACH), sentence.end)} | part.topics
        if base in said and 1 <= base <= _LARGEST:
            yield sentence.start, sentence.start, base, neighbour.value, neighbour.start


def _word(part: Part, statement: Statement, neighbour: int) -> int | None:
    """Where the neighbour is said: in the statement, or behind the question."""
    if statement.kind != "question":
        said = [n for n in part.numbers_in(statement.start, statement.end) if n.value == neighbour]
        return said[-1].start if said else statement.start
    behind = part.said(statement.end, min(statement.end + _REACH, part.end), neighbour)
    return None if behind is None else behind.start


def _idea(base: _Base) -> Idea:
    changes = tuple(
        Change(word, f"fill in {value}") for value, word in sorted(base.found.items(), key=lambda item: item[1])
    )
    return Idea(base.start, "more and less", str(base.value), changes, base.end, frozenset({base.value}),
                f"one less and one more than {base.value}", 2)  # fmt: skip
