"""The hops that a lesson makes on its paths and lines."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from studio.agree.case import Case
from studio.agree.manners import claims
from studio.script.model import Hop, TakeAway
from studio.talk.model import Number


@dataclass(frozen=True, slots=True)
class Way:
    """A hop that a direction asks for: the picture's name, the hop's ends, the word at which the direction stands, and the words with
    which the hop begins and comes to its end."""

    name: str
    start: int
    end: int
    at: int
    first: int
    last: int

    @property
    def length(self) -> int:
        """How many numbers it goes on."""
        return abs(self.end - self.start)

    @property
    def tens(self) -> range:
        """The tens that it passes."""
        low, high = sorted((self.start, self.end))
        return range(10 * (low // 10 + 1), high, 10)


def ways(case: Case) -> dict[int, list[Way]]:
    """The hops of every segment that has some, in order. Found once."""
    cached: dict[int, list[Way]] | None = case.__dict__.get("_ways")
    if cached is None:
        found: dict[int, dict[int, Way]] = {}
        for seen in case.pictures:
            direction = seen.moment.direction
            if isinstance(seen.change, Hop):
                here = found.setdefault(direction.segment, {})
                begun = here.get(id(direction))
                first = seen.moment.word if begun is None else begun.first
                change, moment = seen.change, seen.moment
                here[id(direction)] = Way(moment.name, change.start, change.end, direction.at, first, moment.word)
        cached = case.__dict__["_ways"] = {segment: list(hops.values()) for segment, hops in found.items()}
    return cached


def ways_around(case: Case, word: int) -> Sequence[Way]:
    """The hops of the segment of a word, in order."""
    return ways(case).get(case.talk.words[word].segment, ())


def lengths(hops: Sequence[Way]) -> set[int]:
    """How long hops are, alone and one after another."""
    return {length for first in range(len(hops)) for length in accumulate(hop.length for hop in hops[first:])}


def further_down(case: Case, amount: Number, result: Number) -> bool:
    """Whether so many more are so many further back or off: with these words a hop goes back so far, or so much is taken away, and it
    ends at the result ("31, 30. [line: hop 30 to 27] Three more is 27.")."""
    first, last = sorted((amount, result), key=lambda number: number.start)
    index = case.sentence_index(first.start)
    for seen in case.on_screen(case.sentences[index].start, last.end + 1):
        match seen.change:
            case Hop(start, end, _) if (start - end, end) == (amount.value, result.value):
                return True
            case TakeAway(count, _) if count == amount.value and result.value in seen.shows:
                return True
            case _:
                pass
    return False


def told(case: Case, pattern: re.Pattern[str]) -> Iterator[tuple[re.Match[str], Number, int, list[Way]]]:
    """Where a pattern tells of the hops of its segment as they are: each with its number (the first group), the index of its
    sentence and these hops. What is supposed, denied, excused or stands in a statement is left out."""
    hops = ways(case)
    speech = case.talk.speech
    for match in pattern.finditer(speech.text) if hops else ():
        number = speech.number_at[match.start(1)]
        index = case.sentence_index(number.start)
        sentence = case.sentences[index]
        here = hops.get(sentence.segment, [])
        if here and claims(case, sentence, number):
            yield match, number, index, here
