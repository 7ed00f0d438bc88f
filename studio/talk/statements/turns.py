"""Partners that are said in turns: "Partners of ten. I say nine, you say one. I say six, you say four.", "I throw a 5, you throw
back a 2.", "I say a number, you say its partner to make 8. Five. Three! Six. Two!", "Its partner to ten, please. Nine! You shout... one.",
"Partners of nine. Eight... one! Six... three!"

Values: part, part, whole. The whole is the last one named in the same segment, or the only one, where all turns but one come to it; else
the one that all turns but one of three or more come to. Turns that do not are another game ("I say five, you say six"). Where three turns
come to the same number and another whole was named, it is the whole that is wrong.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from studio.talk.model import Number, Statement
from studio.talk.numbers import said
from studio.talk.speech import Speech
from studio.talk.statements.partner_questions import named_wholes, whole_at

_DOES = r" (?!(?:am|are|was|were) )[a-z]+(?: (?:up|back|out|me|you|down))? (?:, (?:\. ¶ )?)?(?:a |an |the |only )?#"
_HIDES = r"how many (?:are|do i) (?:hiding|hidden|hide) \? (?:¶ )?#"
_TURN = re.compile(
    rf"(?<=[.?,¶§] )(?:(?:if|when|and|so|now|next|,) )*(?P<me>i|we|you){_DOES}"
    rf"(?: (?![a-z]+ing )[a-z]+(?= , so how ))?(?: [,.?])? (?:¶ )?(?:(?:and|so|hmm|,) )*(?:(?P<you>you|i){_DOES}|{_HIDES})"
    r"(?= (?:[.,?]|as well|too|(?:are|is) hiding|and (?:i|if) ))"
)
_PAUSED = re.compile(
    r"(?<=[.?¶§] )(?:(?:and|then|so|now|next|first) )*# (?:and )?, #(?= (?:, [a-z]+(?: [a-z]+)? )?[.])"
)
_ALONE = re.compile(r"(?<=[.?,¶§] )#(?: again| too)? [.?](?: ¶)?(?= )")
_CALLED = re.compile(  # "Nine! You shout... one.", "Six! Four, well done.", "Seven. Two claps."
    r"# (?:\. (?:\. )?(?:¶ )?(?:(?:and )?you [a-z]+ (?:, (?:\. ¶ )?)?|that is )?|\? (?:¶ )?(?:and )?you [a-z]+ (?:, )?)#(?: [a-z]+)?(?= [.,])"
)
_TO_NEXT = re.compile(r"[^.#?§]{0,40}\.(?: \.)?(?: ¶)? (?=#)")
_CALLS = re.compile(r"[^#?§]{0,120}?[.?](?: ¶)? (?=#)")
_ASKED = re.compile(r" (?:(?:its|their) partners?|lacks|and you) ")
_LONGEST = 40  # numbers said one after another
_FEWEST = 3  # turns, of which a whole can be told that nobody names


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    drills = [*_in_turns(speech)] if " you " in text or " how many " in text else []
    if " partner" in text:
        drills += _alone(speech)
    if " , # " in text:
        drills += _paused(speech)
    named = named_wholes(speech) if drills or " partner" in text or " lacks " in text else []
    drills += _called(speech, named)
    told: set[int] = set()
    for turns in drills:
        turns = [turn for turn in turns if turn[0] not in told]
        if turns:
            told |= {turn[0] for turn in turns}
            yield from _drill(speech, turns, named)


def _drill(speech: Speech, turns: list[_Turn], named: list[tuple[int, int]]) -> Iterator[Statement]:
    totals = Counter(one.value + other.value for _, _, one, other in turns)
    (most, votes), *_ = totals.most_common(1)
    whole = _whole(speech, named, turns)
    if whole is None and len(turns) < _FEWEST:
        return
    if whole is not None and whole != most and len(turns) == votes >= _FEWEST:
        yield from _wrong_whole(speech, named, turns)
        return
    if (whole or most) not in totals or totals[whole or most] < len(turns) - 1 or len(turns) < 2:
        return
    if votes == 1 and whole is None:
        return
    whole = whole or most
    for start, end, one, other in turns:
        values = (one.value, other.value, whole)
        written = f"{one.value} + {other.value} = {whole}"
        yield speech.statement("partners", values, one.value + other.value == whole, start, end, written)


def _whole(speech: Speech, named: list[tuple[int, int]], turns: list[_Turn]) -> int | None:
    """The whole that is named last before the turns, else the only one that their segment names."""
    first = turns[0][2].start
    before = whole_at(speech, named, first)
    if before is not None:
        return before
    segment = speech.words[first].segment
    values = {value for start, value in named if speech.words[start].segment == segment}
    return values.pop() if len(values) == 1 else None


def _wrong_whole(speech: Speech, named: list[tuple[int, int]], turns: list[_Turn]) -> Iterator[Statement]:
    """The whole of turns that all come to another number, which their segment does not name."""
    _, _, one, other = turns[0]
    total = one.value + other.value
    segment = speech.words[one.start].segment
    here = [(start, value) for start, value in named if speech.words[start].segment == segment]
    if total in {value for _, value in here} or len({value for _, value in here}) > 1:
        return
    if len({*(turn[2].value for turn in turns)}) < _FEWEST:
        return
    number = speech.number_at[speech.offset_of[here[0][0]]]
    phrase = said(speech.words, max(0, number.start - 2), number.end).rstrip(" .,;:!?")
    written = f"{one.value} + {other.value} = {number.value}"
    yield Statement("partners", (one.value, other.value, number.value), False, number.start, number.end, number.line,
                    number.column, phrase, written)  # fmt: skip


_Turn = tuple[int, int, Number, Number]


def _in_turns(speech: Speech) -> Iterator[list[_Turn]]:
    """The turns of each segment in which one says a number and the other one says another."""
    found: dict[int, list[_Turn]] = {}
    for match in _TURN.finditer(speech.text):
        if match["you"] and (match["me"] == "you") == (match["you"] == "you"):
            continue  # both are the same
        one, other = speech.numbers_in(*match.span())
        found.setdefault(speech.words[one.start].segment, []).append((*match.span(), one, other))
    yield from found.values()


def _paused(speech: Speech) -> Iterator[list[_Turn]]:
    """The turns of three or more that follow one another in a segment, without other numbers between."""
    text = speech.text
    rows: list[list[_Turn]] = []
    for match in _PAUSED.finditer(text):
        numbers = speech.numbers_in(*match.span())
        turn = (*match.span(), numbers[0], numbers[-1])
        between = text[rows[-1][-1][1] : match.start()] if rows else "#"
        if "#" in between or "§" in between or len(rows[-1]) == _LONGEST:
            rows.append([])
        rows[-1].append(turn)
    return (row for row in rows if len(row) >= _FEWEST)


def _alone(speech: Speech) -> Iterator[list[_Turn]]:
    """Rows of numbers that stand alone, two by two, in which a partner is looked for."""
    rows: list[list[re.Match[str]]] = []
    for match in _ALONE.finditer(speech.text):
        if rows and rows[-1][-1].end() + 1 == match.start() and len(rows[-1]) < _LONGEST:
            rows[-1].append(match)
        else:
            rows.append([match])
    for row in rows:
        if len(row) < 2 * _FEWEST or len(row) % 2:
            continue
        pairs: Sequence[tuple[re.Match[str], re.Match[str]]] = [
            pair for at, pair in enumerate(pairwise(row)) if at % 2 == 0
        ]
        yield [
            (one.start(), other.start() + 1, speech.number_at[one.start()], speech.number_at[other.start()])
            for one, other in pairs
        ]


def _called(speech: Speech, named: list[tuple[int, int]]) -> Iterator[list[_Turn]]:
    """Numbers that are called out, each with its partner in the next sentence, after a whole was named whose partners are asked for."""
    text = speech.text
    for position, whole in named:
        offset = speech.offset_of[position]
        begin = _CALLS.match(text, offset + 1)
        turns: list[_Turn] = []
        while begin is not None and len(turns) < _LONGEST and (match := _CALLED.match(text, begin.end())):
            one, other = speech.numbers_in(*match.span())
            turns.append((*match.span(), one, other))
            begin = _TO_NEXT.match(text, match.end() + 1)
        start = max(text.rfind(" . ", 0, offset), text.rfind("§", 0, offset), 0)
        if len(turns) < 2 or not _ASKED.search(text, start, turns[0][1]):
            continue
        if not any(one.value == other.value and 2 * one.value != whole for _, _, one, other in turns):
            yield turns  # else it is an echo
