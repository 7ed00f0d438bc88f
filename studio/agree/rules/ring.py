"""In a finished bond or number sentence the ring is round the number that was found, not round one that was told."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Appearance, Case
from studio.agree.wording import row
from studio.findings import Finding
from studio.script.model import Circle

NAME = "ring round what was found"
_WHOLE = frozenset("whole whole's total top".split())


def find(case: Case) -> Iterator[Finding]:
    for appearance in case.pictures:
        change = appearance.change
        if not isinstance(change, Circle):
            continue
        filled: tuple[int, ...] = getattr(appearance.picture, "filled", ())
        rings: tuple[int, ...] = getattr(appearance.picture, "rings", ())
        if not filled or not rings or rings[-1] in filled:
            continue
        direction = appearance.moment.direction
        if direction.place.line in case.excused:
            continue
        values = getattr(appearance.picture, "values", None) or [
            t.value for t in getattr(appearance.picture, "terms", ())
        ]
        if change.value == max(value or 0 for value in values) and told_whole(case, appearance, change.value):
            continue
        found = [values[place] for place in filled if place < len(values)]
        yield Finding(NAME, "error", direction.place.line, direction.place.column, "", direction.text,
                      f"Line {direction.place.line} rings {change.value}, which was told; {row(found)} was found.",
                      f"Write circle {row(found, 'or')}.")  # fmt: skip


def told_whole(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether the words with the ring, or those just before it, say that it is the whole that is ringed ("[bond: circle 9]
    Whole's nine.")."""
    at = case.sentence_index(appearance.moment.word)
    first = case.sentences_around(at, 1, 0)[0] if case.sentences[at].start >= appearance.moment.word else at
    return any(
        value in sentence.values and case.has_word(sentence, _WHOLE) for sentence in case.sentences[first : at + 1]
    )
