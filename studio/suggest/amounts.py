"""The number of the day and other amounts that are named with their picture: word, frame, tally, dots, path, line."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import Sentence
from studio.agree.wording import spelled
from studio.pictures.kinds.tally import Tally
from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import dots, frame_kind, mark_words, row_of_numbers
from studio.talk.numbers import find_numbers, words_of

_FRAMES = frozenset("frame frames counters counter".split())
_SEEN = frozenset("see here there look are is has have this these show".split())
_FETCHED = frozenset("get take need grab bring fetch find out ready paper want".split())
_TO = ("to", "through", "up to", "all the way to")
_ROWS = frozenset("path line chart".split())
_DICE = frozenset("dice die rolled roll".split())
_LABELS = frozenset("seat lesson job part number day step round question story page team game clue task turn".split())
_WRITTEN = frozenset("word writing spell spelled spells letters".split())
_DOTTED = frozenset("dots dot counters counter spots".split())


def propose(part: Part) -> Iterator[Idea]:
    """Pictures for amounts that are named."""
    yield from _day(part)
    full = -1  # the paragraph with a frame of more than ten: what is said of its halves is not shown again
    for index, sentence in enumerate(part.sentences):
        if not sentence.numbers:
            continue
        pair = _pair(part, sentence)
        if pair is not None:
            yield _idea(sentence, *pair, frozenset(sentence.values), f"{pair[0]}: {pair[1]}")
        if (cards := _cards(part, sentence)) is not None:
            yield _idea(sentence, *cards, frozenset(sentence.values), "the cards are laid out")
        if (row := _row(part, sentence)) is not None:
            yield _idea(sentence, *row, frozenset(sentence.values), "the numbers in a row")
        if len(set(sentence.values)) != 1 or _is_counted(part, index):
            continue
        named = _named(part, sentence)
        if named is None or (sentence.paragraph == full and named[0] == "ten frame"):
            continue
        if named[0] == "double ten frame":
            full = sentence.paragraph
        value = sentence.values[0]
        yield _idea(sentence, *named, frozenset({value}), f"{value} {named[0]} is told")
        if named[0] == "hundred chart":
            yield from _on_chart(part, index)


def _on_chart(part: Part, index: int) -> Iterator[Idea]:
    """The next places on a chart that are named."""
    for sentence in part.sentences[index + 1 : index + 4]:
        for number in sentence.numbers:
            if part.words[number.start - 1].plain in ("on", "at", "to", "is", "sits", "stands"):
                yield Idea(sentence.start, "hundred chart", "", (Change(number.start, f"mark {number.value}"),),
                           sentence.end, frozenset({number.value}), "another place on the chart", 1, joins=True)  # fmt: skip


def _day(part: Part) -> Iterator[Idea]:
    """The number of the day as a word, from where it is called so."""
    titled = _titled(part)
    for value in sorted(part.topics | titled):
        if value > 120:
            continue
        for index, sentence in enumerate(part.sentences):
            named = value in titled or part.plain(sentence.start, sentence.end) & {"number", "today", "today's"}
            if value in sentence.values and named:
                last = part.sentences[min(index + 3, len(part.sentences) - 1)].end
                yield Idea(sentence.start, "word", spelled(value), (), last, frozenset({value}),
                           f"the number of the day is {value}", 2)  # fmt: skip
                break


def _titled(part: Part) -> frozenset[int]:
    """The number that a title calls the number of the day."""
    if "number of the day" not in part.segment.title.lower():
        return frozenset()
    numbers = find_numbers(words_of(part.segment.title))
    return frozenset(number.value for number in numbers if number.form in ("word", "digits"))


def _pair(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """Kind and details of a picture that is named with two numbers ("9 dots and 5 crosses")."""
    if len(sentence.numbers) != 2:
        return None
    a, b = sentence.values
    plain = part.plain(sentence.start, sentence.end)
    if plain & {"bead", "beads"} and 0 < a <= 10 and 0 <= b <= 10:
        return "rekenrek", f"{a} and {b}"
    first, second = sentence.numbers
    joined = part.text(first.end, second.start) == "and"
    if joined and 1 <= a <= 6 and 1 <= b <= 6 and part.around(sentence.start, 1) & _DICE:
        return "dice", f"{a} and {b}"
    if {"dots", "crosses"} <= plain and a and b and a + b <= 50:
        kind = frame_kind(part, sentence.start, a + b)
        return (kind or "dots"), f"{dots(a)} and {mark_words(b, 'crosses')}"
    return None


def _row(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """A path, line or chart that is named with its ends ("a number line from 0 to 20")."""
    plain = part.plain(sentence.start, sentence.end)
    ends = next((pair for pair in pairwise(sentence.numbers) if part.text(pair[0].end, pair[1].start) in _TO), None)
    if ends is None:
        return None
    if not plain & _ROWS and plain & {"goes", "runs", "reaches", "starts"}:
        plain = part.around(sentence.start, 1)
    kind = "number path" if "path" in plain else "number line" if "line" in plain else "hundred chart"
    if kind == "hundred chart" and "chart" not in plain:
        return None
    low, high = ends[0].value, ends[1].value
    if not low < high <= 120:
        return None
    index = part.sentence_index(sentence.start)
    before = part.numbers_in(part.sentences[max(0, index - 4)].start, sentence.start)
    own = {number.value for number in sentence.numbers if number not in ends and low <= number.value <= high}
    own -= {number.value for number in sentence.numbers if part.words[number.start - 1].plain in _LABELS}
    told = own or ({number.value for number in before} if kind == "hundred chart" else set())
    mark = f", mark {told.pop()}" if len(told) == 1 else ""
    return kind, f"{low} to {high}{mark}"


def _cards(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """Number cards that are laid out ("my cards from zero to ten")."""
    plain = part.plain(sentence.start, sentence.end)
    if len(sentence.numbers) != 2 or "cards" not in plain or not plain & {"to", "through"}:
        return None
    low, high = sentence.values
    return ("cards", f"{low} to {high}") if low < high <= low + 12 else None


def _named(part: Part, sentence: Sentence) -> tuple[str, str] | None:
    """Kind and details of the picture that a sentence with one number names."""
    value = sentence.values[0]
    number = sentence.numbers[0]
    after = part.plain(number.end, min(number.end + 2, sentence.end))
    plain = part.plain(sentence.start, sentence.end)
    near = part.around(sentence.start, 1, 1)
    label = part.words[number.start - 1].plain if number.start > sentence.start else ""
    if plain & _FETCHED or not value or label in _LABELS:
        return None
    if plain & _WRITTEN and value <= 120:
        return "word", spelled(value)
    if "chart" in plain and value <= 100:
        return "hundred chart", f"1 to {50 if value <= 40 else 100}, mark {value}"
    if {"frame", "full"} <= plain and plain & {"other", "second", "next"} and value < 10 and after & _DOTTED:
        return "double ten frame", dots(10 + value)
    if plain & {"tally", "tallies"} and value <= Tally.high and not after & {"mark", "bundles", "groups"}:
        return "tally", str(value)
    if after & {"frame", "frames", "box", "boxes", "row", "rows", "empty", "more", "crosses"}:
        return None
    dotted = bool(after & _DOTTED)
    if value <= 20 and (dotted or (plain & _SEEN and plain & {"frame", "frames"})) and near & (_FRAMES | {"boxes"}):
        kind = frame_kind(part, sentence.start, value)
        return None if kind is None else (kind, dots(value))
    if dotted and 1 < value <= 50:
        return (
            "dots" if part.frame_named(number.start) == "" else frame_kind(part, number.start, value) or "dots"
        ), dots(value)
    if value <= 20 and (plain & {"path"} or {"number", "line"} <= plain):
        kind, span = row_of_numbers(part, sentence.start, 0, value)
        return kind, f"{span}, mark {value}"
    return None


def _idea(sentence: Sentence, kind: str, details: str, topic: frozenset[int], reason: str) -> Idea:
    return Idea(sentence.start, kind, details, (), sentence.end, topic, reason, 0)


def _is_counted(part: Part, index: int) -> bool:
    """Whether a count in this sentence or the next two will have its own picture."""
    last = part.sentences[min(index + 2, len(part.sentences) - 1)]
    inside = part.statements_in(part.sentences[index].start, last.end)
    return any(s.kind.startswith("count") for s in inside)
