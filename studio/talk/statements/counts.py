"""Counts: "five, six, seven, eight", forward or back, by ones, twos, fives or tens.

Values: the numbers of the run. A run that slips ("five, six, nine, eight") does not hold; a short row of numbers that may be a list
("three, five, eight") is not taken for a count.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence

from studio.talk.model import Number, Statement
from studio.talk.numbers import PLURALS
from studio.talk.speech import Speech

_ROW = re.compile(r"#(?: (?:, |\. )?(?:and |then |next |now )?#)+")
_BY = re.compile(r" by (twos|threes|fives|tens|ones|hundreds|#)(?= )")
_LABEL = re.compile(
    r"(?:^| )(?:cards?|numbers?|partners?|parts?|rolled|roll|dice|bond|ways?|digits?|pairs?|between|either|or|and) [^#.?¶§]{0,20}$"
)
_ADDED = re.compile(r" (?:add|adds|added|adding) [^#.?¶§]*$")
_LONGEST_ADDED = 40  # characters
_COUNTS = re.compile(
    r" (?:count|counts|counting|counted|hop|hops|hopping|tap|touch|point|from # (?:up |on |back |down )?to #) "
)
_STEPS = (1, -1, 2, -2, 5, -5, 10, -10, 3, -3)
_LONGEST = 150  # numbers of one count: keeps the time in proportion to the length
_PAIRED = re.compile(r" and #")
_SUM_BEHIND = re.compile(r"[.¶§] # and #(?= (?:makes?|made|are|is|equals?|gives?) )")
"""A sum that begins a sentence behind a count ("Five, six. Four and two make six.")."""
_LENGTH_OF_SUM = len(". # and #")
_STRONG = (1, -1, 2, -2, 5, -5, 10, -10)


def step_of(values: Sequence[int]) -> int | None:
    """The step of a run of three or more numbers; None where it has none."""
    step = values[1] - values[0]
    same = all(b - a == step for a, b in itertools.pairwise(values))
    return step if same and step != 0 else None


def repaired(values: Sequence[int], wanted: int | None = None) -> tuple[int, ...] | None:
    """The run that was meant, where one number is wrong, left out or too many; None where that cannot be told.

    >>> repaired((5, 6, 9, 8))
    (5, 6, 7, 8)
    """
    found = [run for run in _runs(values, wanted) if _differ(run, values) <= 1]
    if not found:
        for step in (wanted,) if wanted else _STRONG:
            for at in range(1, len(values)):  # one is left out before `at`
                longer = (*values[:at], values[at - 1] + step, *values[at:])
                if step_of(longer) == step:
                    found.append(longer)
            for at in range(1, len(values) - 1):  # one is too many
                shorter = (*values[:at], *values[at + 1 :])
                if len(shorter) > 2 and step_of(shorter) == step:
                    found.append(shorter)
    return min(found, key=lambda run: abs(len(run) - len(values))) if found else None


def _differ(run: Sequence[int], values: Sequence[int]) -> int:
    return sum(a != b for a, b in zip(run, values, strict=True))


def _runs(values: Sequence[int], wanted: int | None) -> Iterator[tuple[int, ...]]:
    """Even runs of the same length that go through one of the first two numbers or the last; and those that go by tens
    or fives first and then by ones, as tallies and tens are counted."""
    size = len(values)
    for at in (0, 1, size - 1):
        for step in (wanted,) if wanted else _STRONG:
            start = values[at] - step * at
            if start >= 0 and start + step * (size - 1) >= 0:
                yield tuple(start + step * i for i in range(size))
    if size > _LONGEST_MIXED:
        return
    for big in (5, 10):
        if wanted not in (None, big):
            continue
        for many in range(2 if wanted is None and big == 10 else 1, size):
            shape = [big * min(i, many - 1) + max(0, i - many + 1) for i in range(size)]
            for at in {0, 1, size - 1}:
                start = values[at] - shape[at]
                if start == big or (start > 0 and start % big == 0 and many > 1):
                    yield tuple(start + part for part in shape)


_LONGEST_MIXED = 40
_LEAPS = frozenset("steps hops jumps leaps moves strides".split())
_SAID_NEXT = re.compile(r"# \. (?:¶ )?#(?= [.,¶§])")


def _caught(speech: Speech, last: Number, values: Sequence[int]) -> bool:
    """Whether what is said next is the one number that was left out ("Twenty, nineteen, seventeen. [wait 3 s] Eighteen!")."""
    found = _SAID_NEXT.match(speech.text, speech.offset_of[last.start])
    if found is None:
        return False
    missing = speech.value_at(found.end() - 1)
    return any(step_of(row) is not None for row in filled(values, missing))


def filled(values: Sequence[int], missing: int) -> Iterator[tuple[int, ...]]:
    """A row with a number that it leaves out in each of its gaps, one after the other."""
    return ((*values[:at], missing, *values[at:]) for at in range(1, len(values)))


def find(speech: Speech) -> Iterator[Statement]:
    """Counts of three or more numbers."""
    text = speech.text
    counted = 0
    for match in _ROW.finditer(text):
        row = speech.numbers_in(match.start(), match.end())
        if match[0].count(" and ") > 1 or _PAIRED.match(text, match.end()):
            continue  # "four and three, six and one, or two and five"
        if " and " in match[0] and _ADDED.search(text, max(0, match.start() - _LONGEST_ADDED), match.start()):
            continue  # "We add up all the hops: three, three and two."
        if _SUM_BEHIND.match(text, max(match.start(), match.end() - _LENGTH_OF_SUM)):
            row = row[:-2]
        if text.endswith((" a ", " an ", " another ", " all "), 0, match.start()):
            row = row[1:]  # "changed for a ten, twenty-one, twenty-two", "all five, three, four, five, six, seven"
        elif len(row) > 1 and row[0].value == row[1].value and text.endswith(" from ", 0, match.start()):
            row = row[1:]  # "go up from six, six, and then seven, eight, nine"
        if len(row) < 3:
            continue
        # "Up by ten, thirty-three. And then by four: thirty-four, thirty-five, thirty-six, thirty-seven."
        by = None if text.endswith(" by ", 0, match.start()) else _by(speech, match.start(), counted)
        counted = match.end()
        pieces = [_without_bundle(speech, _without_rest(speech, piece)) for piece in _pieces(speech, row)]
        for piece in (part[at : at + _LONGEST] for part in pieces for at in range(0, len(part), _LONGEST)):
            if len(piece) >= 3:
                statement = _count(speech, piece, by, match)
                if statement is not None:
                    yield statement


def _without_rest(speech: Speech, piece: list[Number]) -> list[Number]:
    """Without what is left over and only joined to a count ("ten, twenty, thirty, and seven", "five, ten, fifteen, and
    then three more", "nine, ten, eleven, and three crosses are there")."""
    if len(piece) < 4:
        return piece
    *count, rest = piece
    step = step_of([number.value for number in count])
    words = speech.words
    joined = "and" in (words[rest.start - 1].plain, words[rest.start - 2].plain)
    more = rest.end < len(words) and words[rest.end].plain in ("more", "left", "over")
    if step is None:
        return piece
    names = words[rest.end - 1].text[-1:].isalnum()
    told = names and words[rest.start - 1].text[-1:] == ","
    if rest.end < len(words) and (words[rest.end].plain in _LEAPS or told) and rest.value == len(count):
        return count  # "Fourteen to ten: thirteen, twelve, eleven, ten, four steps", "Eight, nine, ten, three good neighbours"
    if not joined:
        return piece
    back = rest.value < count[0].value < count[-1].value and names
    pairs = abs(step) == 2 and words[rest.end - 1].text[-1:] == "."  # "two, four, six, eight and ten."
    return count if more or back or rest.value < abs(step) or (abs(step) > 1 and not pairs) else piece


def _without_bundle(speech: Speech, piece: list[Number]) -> list[Number]:
    """Without a number that is only joined to a count from one ("a bundle of five, and one, two, three")."""
    if len(piece) < 4:
        return piece
    first, *count = piece
    joined = first.value != 0 and "and" in {word.plain for word in speech.words[first.end : count[0].start]}
    return count if joined and count[0].value == 1 and step_of([number.value for number in count]) == 1 else piece


def _pieces(speech: Speech, row: list[Number]) -> list[list[Number]]:
    """A row taken apart where a sentence ends and the count does not go on ("Two. Five, six, seven. Seven.",
    "Hop back four: nine, eight, seven, six.")."""
    pieces: list[list[Number]] = [[row[0]]]
    for index in range(1, len(row)):
        before, number = row[index - 1], row[index]
        ends = speech.words[before.end - 1].text.rstrip("\"'”’)*_")[-1:] in (".", "!", "?", ":")
        goes_on = _goes_on(row, index)
        if ends and not goes_on:
            pieces.append([number])
        else:
            pieces[-1].append(number)
    return pieces


def _goes_on(row: Sequence[Number], index: int) -> bool:
    """Whether a count goes on over the end of a sentence between `index - 1` and `index`: before it or after it, two
    numbers follow one another by the same step as across it."""
    step = row[index].value - row[index - 1].value
    if step == 0:
        return False
    before = index >= 2 and row[index - 1].value - row[index - 2].value == step
    after = index + 1 < len(row) and row[index + 1].value - row[index].value == step
    if before or after:
        return abs(step) in (1, 2, 5, 10)
    if index >= 3 and index + 1 < len(row):  # one number inside a long count slipped
        ones = row[index - 2].value - row[index - 3].value
        wrong = row[index + 1].value - row[index - 1].value == 2 * ones
        return abs(ones) in (1, 2, 5, 10) and wrong
    return False


def _by(speech: Speech, offset: int, counted: int) -> int | None:
    """The step that is announced before a row ("count by fives:", "count back"), and behind the row before it, which
    ends at `counted`."""
    text = speech.text
    start = max(text.rfind("¶", 0, offset), text.rfind("§", 0, offset), offset - 90, counted)
    announced = {
        speech.value_at(match.start(1)) if match[1] == "#" else PLURALS[match[1]]
        for match in _BY.finditer(text, start, offset)
        if (match[1] != "#" or speech.value_at(match.start(1)) in _STRONG)
        and not text.startswith(" ?", match.end())  # "Count by ones? No way."
    }
    found = announced.pop() if len(announced) == 1 else None
    if found is not None and re.search(r" (?:back|backwards?|down) ", text[start:offset]):
        return -found
    return found


def _are_digits(text: str, start: int, values: Sequence[int]) -> bool:
    """Whether they are the last digits of a count ("What do you notice about the last digits? Two, four, six, eight,
    zero.")."""
    if max(values) > 9 or not _DIGITS.search(text, max(0, start - _LONGEST_DIGITS), start):
        return False
    return len({(after - before) % 10 for before, after in itertools.pairwise(values)}) == 1


_DIGITS = re.compile(r" (?:digits?|(?:end|ends|ending) (?:in|with)|the ones) [^#]*$")
_LONGEST_DIGITS = 60  # characters
_ADDED_UP = re.compile(r"# and # , #(?= [.,¶§])")


def _count(speech: Speech, piece: list[Number], by: int | None, match: re.Match[str]) -> Statement | None:
    values = tuple(number.value for number in piece)
    step = step_of(values)
    text = speech.text
    start = match.start()
    holds: bool
    if step is not None and abs(step) <= 10 and (step in _STEPS or by):
        holds = by is None or abs(step) == abs(by)
        wanted: tuple[int, ...] | None = None
        if not holds and by is not None:
            wanted = tuple(values[0] + (by if step > 0 else -abs(by)) * i for i in range(len(values)))
    elif step is None and (by in (None, 5, 10)) and any(run == values for run in _runs(values, by)):
        holds, wanted = True, None
    else:
        wanted = repaired(values, by)
        if wanted is None or _LABEL.search(text[max(0, start - 40) : start]) or _are_digits(text, start, values):
            return None
        if _caught(speech, piece[-1], values):
            return None
        if len(values) == 3:
            if values[0] + values[1] == values[2] and _ADDED_UP.match(text, speech.offset_of[piece[0].start]):
                return None  # "From ten to thirteen is a three, four and three, seven again!"
            cue = _COUNTS.search(text[max(0, start - 60) : start + 2]) is not None
            neighbours = abs(values[1] - values[0]) == 1 or abs(values[2] - values[1]) == 1
            if len(set(values)) < 3 and not cue:
                return None
            low, middle, high = sorted(values)
            parted = all(speech.words[number.end - 1].text[-1:] == "," for number in piece[:-1])
            # "five, two, seven" may be parts and their whole; "Eight, nine, seven. Ten!" tells to where it was counted
            closed = _SAID_NEXT.match(text, speech.offset_of[piece[-1].start])
            if (
                closed is not None
                and speech.value_at(closed.end() - 1) == wanted[-1]
                and abs(values[1] - values[0]) == 1
            ):
                cue = True
            if not cue or not (neighbours or (parted and low + middle != high)):
                return None
            holds = False
        else:
            holds = False
    first, last = piece[0].start, piece[-1].end
    down = (step if step is not None else (wanted or values)[-1] - (wanted or values)[0]) < 0
    size = abs(step) if step is not None else abs((wanted or values)[1] - (wanted or values)[0])
    kind = "count back" if down else "count on"
    if size != 1:
        kind += f" by {size}"
    word = speech.words[first]
    said = " ".join(word.text for word in speech.words[first:last]).rstrip(" ,;:.!")
    written = ", ".join(map(str, wanted if wanted and not holds else values))
    return Statement(kind, values, holds, first, last, word.place.line, word.place.column, said, written)
