"""Partners that are said in turns: "Partners of ten. I say nine, you say one. I say six, you say four.", "I throw a 5, you throw
back a 2.", "I say a number, you say its partner to make 8. Five. Three! Six. Two!"

Values: part, part, whole. The whole is the last one named in the same segment, where all turns but one come to it; else the one that
all turns but one of three or more come to. Turns that do not are another game ("I say five, you say six").
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from studio.talk.model import Number, Statement
from studio.talk.speech import Speech
from studio.talk.statements.partner_questions import named_wholes, whole_at

_DOES = r" (?!(?:am|are|was|were) )[a-z]+(?: (?:up|back|out|me|you|down))? (?:, )?(?:a |an |the |only )?#"
_TURN = re.compile(
    rf"(?<=[.?,¶§] )(?:(?:if|when|and|so|now|next|,) )*(?P<me>i|we|you){_DOES}(?: [,.?])? (?:¶ )?(?:(?:and|so|hmm|,) )*(?P<you>you|i){_DOES}"
    r"(?= (?:[.,?]|as well|too|and (?:i|if) ))"
)
_ALONE = re.compile(r"(?<=[.?,¶§] )#(?: again| too)? [.?](?: ¶)?(?= )")
_LONGEST = 40  # numbers said one after another
_FEWEST = 3  # turns, of which a whole can be told that nobody names


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    drills = [*_in_turns(speech)] if " you " in text else []
    if " partner" in text:
        drills += _alone(speech)
    named = named_wholes(speech) if drills else []
    for turns in drills:
        totals = Counter(one.value + other.value for _, _, one, other in turns)
        (most, votes), *_ = totals.most_common(1)
        whole = whole_at(speech, named, turns[0][2].start)
        if whole is None and len(turns) < _FEWEST:
            continue
        if (whole or most) != most or votes < len(turns) - 1 or len(turns) < 2 or (votes == 1 and whole is None):
            continue
        for start, end, one, other in turns:
            yield speech.statement(
                "partners",
                (one.value, other.value, most),
                one.value + other.value == most,
                start,
                end,
                f"{one.value} + {other.value} = {most}",
            )


_Turn = tuple[int, int, Number, Number]


def _in_turns(speech: Speech) -> Iterator[list[_Turn]]:
    """The turns of each segment in which one says a number and the other one says another."""
    found: dict[int, list[_Turn]] = {}
    for match in _TURN.finditer(speech.text):
        if (match["me"] == "you") == (match["you"] == "you"):
            continue  # both are the same
        one, other = speech.numbers_in(*match.span())
        found.setdefault(speech.words[one.start].segment, []).append((*match.span(), one, other))
    yield from found.values()


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
