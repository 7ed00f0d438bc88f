"""Hops on a number path or line that are told and not counted: "Start at 15. Hop back 5 to 10." """

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Sentence
from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import row_of_numbers

_HOPS = frozenset("hop hops hopped hopping jump jumps jumped leap leaps land lands landed".split())
_AT = frozenset("start starts sit sits sitting stand stands standing finger begin begins is back go".split())
_ROW = frozenset("path line finger start starts land lands".split())
_REACH = 8  # sentences


def propose(part: Part) -> Iterator[Idea]:
    """One row of numbers for each run of hops; the hop is drawn when the number is said where it ends."""
    row: list[tuple[int, int, int]] = []  # word, from, to
    place: tuple[int, int] | None = None  # a number that is stood on and the word where that is told
    begun = last = -1
    for index, sentence in enumerate(part.sentences):
        words = part.plain(sentence.start, sentence.end)
        if row and index - last > _REACH:
            yield _idea(part, row, begun)
            row = []
        reached = _landed(part, sentence, words, place) or _hopped(part, index, place)
        if reached is not None and place is not None:
            if not row:
                begun = place[1]
            row.append((reached[0], place[0], reached[1]))
            place, last = (reached[1], sentence.start), index
            continue
        if (
            len(sentence.numbers) == 1
            and words & _AT
            and part.around(sentence.start, 2, 3) & _ROW
            and words & ({"on", "at", "to"})
        ):
            value = sentence.values[0]
            if row and value != row[-1][2]:
                pass
            if place is None or place[0] != value or not row:
                place = (value, sentence.start)
    if row:
        yield _idea(part, row, begun)


def _landed(
    part: Part, sentence: Sentence, words: frozenset[str], place: tuple[int, int] | None
) -> tuple[int, int] | None:
    """The word and the number on which a hop in a sentence ends."""
    if place is None or not sentence.numbers or not words & _HOPS or not part.around(sentence.start, 8, 1) & _ROW:
        return None
    number = sentence.numbers[-1]
    before = part.words[number.start - 1].plain if number.start > sentence.start else ""
    if number.start in part.counted or before not in ("to", "on", "at", "onto"):
        return None
    if number.value == place[0] or not 0 <= number.value <= 120 or abs(number.value - place[0]) > 20:
        return None
    told = [n.value for n in sentence.numbers[:-1]]
    if any(value not in (place[0], abs(number.value - place[0])) for value in told):
        return None
    return number.start, number.value


def _hopped(part: Part, index: int, place: tuple[int, int] | None) -> tuple[int, int] | None:
    """The same where hop and number are said one after the other ("Five. Hop! Six. Hop! Seven.")."""
    sentence, before = part.sentences[index], part.sentences[max(0, index - 1)]
    if (
        place is None
        or len(sentence.numbers) != 1
        or sentence.end - sentence.start != 1
        or before.end - before.start > 2
    ):
        return None
    if not part.plain(before.start, before.end) & _HOPS or abs(sentence.values[0] - place[0]) != 1:
        return None
    number = sentence.numbers[0]
    return None if number.start in part.counted else (number.start, number.value)


def _idea(part: Part, row: list[tuple[int, int, int]], begun: int) -> Idea:
    values = [value for _, a, b in row for value in (a, b)]
    low, high = min(values), max(values)
    kind, span = row_of_numbers(part, begun, low, high)
    changes = tuple(Change(word, f"hop {a} to {b}") for word, a, b in row)
    until = part.sentence_of(row[-1][0]).end
    return Idea(begun, kind, f"{span}, mark {row[0][1]}", changes, until, frozenset((row[0][1], row[-1][2])),
                "hops are told", 3)  # fmt: skip
