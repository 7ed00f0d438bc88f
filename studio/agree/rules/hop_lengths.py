"""The hops or steps that are told beside a hop are as many as it is long, or as many as were made: "We made six hops",
"Four stones back"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import chain

from studio.agree.case import Case
from studio.agree.hops import Way, lengths, told
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.pictures.spans import SpanPicture

NAME = "as many steps as hopped"

_STEPS = re.compile(
    r"(#)(?: (?:more|little|big|small|quiet|long|short|tiny|slow|quick|easy|great|frog|single|other|whole))* "
    r"(?:hops|steps|stones|jumps|leaps|bounces|spaces)(?= )(?! (?:of|that|each|from|off|to go|farther|further) )"
)
_BY = re.compile(
    r" (?:(?:hops?|jumps?|leaps?|steps?|go|goes|went) (?:on|back|up|down|of|by)|"
    r"hops?|jumps?|leaps?|back|forwards?|backwards?|ahead|further) (#)(?= [.,])"
)
_OTHERS = frozenset("can left away from closer reaches side answer".split())  # "six hops away"
_CAME = frozenset("gone walked walks".split())  # "She walked thirty-eight steps", all the way from nothing
_NEAR, _ASKED = 2, 5  # sentences


def find(case: Case) -> Iterator[Finding]:
    for _, number, index, here in chain(told(case, _STEPS), told(case, _BY)):
        sentence = case.sentences[index]
        if not any(
            case.sentence_index(hop.at) - _NEAR <= index <= case.sentence_index(hop.last) + _NEAR for hop in here
        ):
            continue
        if any(moment.counted for moment in case.moments_between(number.start - 1, number.start + 1)):
            continue  # "One hop, two hops."
        if number.value in _told(here) or case.has_word(sentence, _OTHERS):
            continue
        if number.value in _between_what_is_asked(case, index, number.start):
            continue  # "How far is the gate from eleven? Nine hops."
        if case.has_word(sentence, _CAME) and any(number.value in (hop.start, hop.end) for hop in here):
            continue
        one = min(here, key=lambda hop: (abs(case.sentence_index(hop.at) - index), -hop.at))
        yield of_number(NAME, number, "",
                      f"Line {number.line} tells of {number.value}, but from {one.start} to {one.end} it is {one.length}.",
                      f"Say {one.length}, or change the hop.")  # fmt: skip


def _between_what_is_asked(case: Case, index: int, word: int) -> set[int]:
    """How far it is between the numbers of a question before, from where one stands as it is told before that, and to the end of
    the line."""
    first, _ = case.sentences_around(index, _ASKED, 0)
    ends = [seen.picture.end for seen in case.on_screen_at(word) if isinstance(seen.picture, SpanPicture)]
    found: set[int] = set()
    for at in range(first, index):
        asked = case.sentences[at]
        if case.asks(asked):
            stands = case.sentences[max(first, at - 1)].values
            found |= {abs(one - other) for one in asked.values for other in (*stands, *ends, *asked.values)}
    return found


def _told(hops: list[Way]) -> set[int]:
    """How long hops are, alone and one after another, and how many they are; how long their parts before and behind a ten
    are ("Two hops took us to ten")."""
    found = set(range(1, len(hops) + 1)) | lengths(hops)
    for hop in hops:
        found |= {abs(ten - stop) for ten in hop.tens for stop in (hop.start, hop.end)}
    return found
