"""A count that skips a number, turns round or changes its step."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import BoundCount, Case
from studio.agree.denials import one_is_looked_for
from studio.agree.hops import ways_around
from studio.agree.looks import amount
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.script.model import Add, TakeAway
from studio.talk.model import Number, Statement

NAME = "count goes on"
_NAMED_SOON = 3  # sentences
_SUM = 3  # numbers
_ENDS = frozenset("ends end endings digits".split())


def find(case: Case) -> Iterator[Finding]:
    for statement in case.talk.statements:
        if statement.holds is not False or not statement.kind.startswith("count"):
            continue
        if case.is_excused(statement.start, statement.end) or one_is_looked_for(case, statement):
            continue
        if any(is_meant(case, statement) for is_meant in _MEANT):
            continue
        told = f"Line {statement.line} counts" if statement.line else "You count"
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"{told} “{statement.said}”; that does not go on evenly.",
                      f"Count {statement.written}.")  # fmt: skip


def _are_answers(case: Case, statement: Statement) -> bool:
    """Whether they are the answers, one after the other, to what was asked before in the segment ("Two and two. Six and one. Ten
    take away two. Double five. Check: four, seven, eight, ten.")."""
    index, many = case.sentence_index(statement.start), len(statement.values)
    first, _ = case.sentences_around(index, 2 * many, 0)
    asked = [one.values for one in case.sentences[first:index] if one.values][-many:]
    return len(asked) == many and all(
        len(pair) in (1, 2) and answer in (pair[0] + pair[-1], abs(pair[0] - pair[-1]))
        for pair, answer in zip(asked, statement.values, strict=True)
    )


def _are_so_many(case: Case, statement: Statement) -> bool:
    """Whether they are listed behind how many there are ("Four throws: three, four, two and one."): no count that begins with one or ends
    with how many."""
    many = len(statement.values)
    if (
        statement.values[0] == 1
        or statement.values[-1] == many
        or not case.talk.words[statement.start - 1].text.endswith(":")
    ):
        return False
    start = case.sentences[case.sentence_index(statement.start)].start
    told = case.numbers_between(start, statement.start)[-1:]
    return any(one.value == many and not case.says(one.end, one.end + 1, ("more",)) for one in told)


def _are_ends(case: Case, statement: Statement) -> bool:
    """Whether they are what numbers end in ("Look at the ends: four, six, eight, zero.")."""
    start = case.sentences[case.sentence_index(statement.start)].start
    return case.says(start, statement.start, _ENDS)


def _begins_with_a_sum(case: Case, statement: Statement) -> bool:
    """Whether the first two are added before it is counted on from their sum by as much ("Five and five, ten, then fifteen, then twenty.")."""
    numbers = case.numbers_between(statement.start, statement.end)
    if len(numbers) < _SUM:
        return False
    one, other, whole, *_ = numbers
    along = [number.value for number in numbers[2:]]
    return (
        one.value == other.value
        and one.value + other.value == whole.value
        and case.says(one.end, other.start, ("and",))
        and all(after - before == one.value for before, after in pairwise(along))
    )


def _is_put_in_order(case: Case, statement: Statement) -> bool:
    """Whether a sentence beside it tells the same numbers in another order ("Put in order: twelve, twenty, two. Two, twelve,
    twenty.")."""
    index = case.sentence_index(statement.start)
    return any(
        one.values != statement.values and sorted(one.values) == sorted(statement.values)
        for one in case.sentences[max(0, index - 1) : index + 2]
    )


def _counts_behind_the_first(case: Case, statement: Statement) -> Iterator[tuple[Number, BoundCount]]:
    """The first number with each count of a picture that the others are."""
    first, second, *_ = case.numbers_between(statement.start, statement.end)
    for count in case.bound_counts:
        if count.words[:1] == (second.start,) and count.values == statement.values[1:]:
            yield first, count


def _comes_behind_its_ones(case: Case, statement: Statement) -> bool:
    """Whether the first number is the ones of what is there, from which is counted back ("Sixteen is a ten and six.
    Five must go from the six, [left: take away 5, counting] fifteen, fourteen, thirteen.")."""
    return any(
        count.base > 10
        and count.base % 10 == first.value
        and case.says(first.start - 1, first.start, ("the", "its", "those", "these"))
        for first, count in _counts_behind_the_first(case, statement)
    )


def _tells_the_end(case: Case, statement: Statement) -> bool:
    """Whether the first number tells where a picture's count will end, or how many are counted, and the others are that count ("This leaves
    ten, [straw: take away 3, counting] twelve, eleven, ten.")."""
    return any(
        first.value in (count.values[-1], len(count.values))
        for first, count in _counts_behind_the_first(case, statement)
    )


def _goes_over_a_ten(case: Case, statement: Statement) -> bool:
    """Whether it tells what there was before the picture changed, the ten on the way and what there is now ("Wind takes
    5. [pads: take away 5] 12, 10, 7.")."""
    if len(statement.values) != 3:
        return False
    begin, ten, end = statement.values
    return (begin - ten) * (ten - end) > 0 == ten % 10 and any(
        isinstance(seen.change, Add | TakeAway)
        and seen.before is not None
        and amount(seen.before) == begin
        and amount(seen.picture) == end
        for seen in case.on_screen(statement.start, statement.end)
    )


def _are_cards_around_a_gap(case: Case, statement: Statement) -> bool:
    """Whether it reads aloud all the cards on the screen ("Two, four, seven, eight. Who does not belong?"), or some that lie
    side by side, and the next sentences name those that are missing ("Five, six, seven, and then nine. Stop! After seven
    comes eight.")."""
    size = len(statement.values)
    rows = [
        seen.picture.numbers
        for seen in case.on_screen(statement.start, statement.end)
        if isinstance(seen.picture, Cards)
        and statement.values in (seen.picture.numbers[at : at + size] for at in range(len(seen.picture.numbers)))
    ]
    if statement.values in rows:
        return True
    if not rows:
        return False
    low, high = min(statement.values), max(statement.values)
    index = case.sentence_index(statement.end - 1)
    _, last = case.sentences_around(index, 0, _NAMED_SOON)
    named = {value for sentence in case.sentences[index + 1 : last + 1] for value in sentence.values}
    missing = set(range(low, high + 1)) - set(statement.values)
    return len(missing) == 1 and missing <= named


def _are_stops(case: Case, statement: Statement) -> bool:
    """Whether it names the stops of the hops that were made before in the segment, in order ("Thirteen, ten, eight: that was
    our way back")."""
    stops: list[int] = []
    for hop in ways_around(case, statement.start):
        if hop.first <= statement.start:
            stops += [stop for stop in (hop.start, hop.end) if stops[-1:] != [stop]]
    return tuple(stops[-len(statement.values) :]) == statement.values


def _are_last_digits(case: Case, statement: Statement) -> bool:
    """Whether they are what even or odd numbers end in, the nought often last."""
    return set(statement.values) in ({0, 2, 4, 6, 8}, {1, 3, 5, 7, 9})


_MEANT = (
    _are_stops, _are_cards_around_a_gap, _comes_behind_its_ones, _goes_over_a_ten, _tells_the_end, _is_put_in_order, _are_ends,
    _begins_with_a_sum, _are_answers, _are_last_digits, _are_so_many,
)  # fmt: skip
"""What makes numbers in a row no count that should go on evenly."""
