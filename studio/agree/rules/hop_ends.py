"""After a hop, who is told to land, stop or stand on a number is where the hop ends or began, or where a mark is: "We end
on eight", "Now the snail is on four", "That brings us to ten"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.hops import Way, told
from studio.agree.looks import picked_out
from studio.agree.manners import taken_back
from studio.agree.wording import of_number
from studio.findings import Finding
from studio.pictures.spans import SpanPicture

NAME = "lands where the hop ends"

_THING = r"(?:stone|number|square|spot|pad|tile|card|post|log|leaf|rock)"
_WAY = r"(?: (?:up|back|down|right|safely|home|now|there|here|softly|happily|out|over|him|her|it|us|me|you))*"
_THE = rf"(?: (?:the|{_THING}))*"
_END = r"(?= (?:[.,?¶§]|and|so|because|where|with|too|already|for|now|in|after|at last) )"
_NO_REST = r"(?! (?:there (?:is|are) )?#(?: [a-z]+){0,2} (?:left|remains?) )"  # "From five, two are left"
_LANDED = (
    re.compile(
        r" (?:lands?|landed|landing|ends?|ended|stops?|stopped|arrives?|arrived|stands?|stood|standing|rests?|rested|sits?|sat)"
        rf"{_WAY} (?:on|at){_THE} (#){_END}"
    ),
    re.compile(
        rf" (?:now [a-z']+(?: [a-z']+)? (?:is|are|am)|(?:we|i|you|he|she|it|they) (?:is|are|am)){_WAY} (?:on|at){_THE} (#){_END}"
    ),
    re.compile(rf" (?:is|are|am)(?: now| back)? on (?:the )?{_THING} (#){_END}"),
    re.compile(
        r" (?:brings?|brought|takes?|took|gets?|got|carry|carries|carried|leads?|led) "
        rf"(?:us|me|you|him|her|it|them|(?:the|our|my) [a-z]+){_WAY} (?:to|on|onto){_THE} (#){_END}"
    ),
    re.compile(
        r" where (?:is|are|am|was|did|does|do|will) [a-z' ]{1,30} \? (?:¶ )?(?:(?:yes|right|good|,) )*"
        rf"(?:(?:on|at){_THE} )?(#)(?= [.,])"
    ),
)
_GOES = (  # "I started at nine", "jump from twenty to thirty": said close to the hop
    re.compile(rf" (?:start|starts|started|starting|begin|begins|began|beginning) (?:at|on|from|with){_THE} (#){_END}"),
    re.compile(rf"(?<! steps)(?<! hops)(?<! jumps) from{_THE} (#)(?= (?:to{_THE} #|[.¶§]|,{_NO_REST}) )"),
    re.compile(rf"(?<! added)(?<! add)(?<! equal)(?<! close)(?<! closer)(?<! next) to{_THE} (#)(?= [.,¶§] )"),
)
_WOULD = frozenset("would i'd we'd you'd he'd she'd they'd it'd".split())
_NEVER = frozenset("don't not never needn't".split())
_REACH = 6  # words: "don't go all the way to one"
_UNTIL = frozenset("to until till".split())
_ON_THE_WAY = ("first", "second", "next")
_SOON = 1  # sentences


def find(case: Case) -> Iterator[Finding]:
    counted = {word for count in case.bound_counts for word in count.words}
    for pattern in (*_LANDED, *_GOES):
        goes = pattern in _GOES
        for match, number, index, here in told(case, pattern):
            sentence = case.sentences[index]
            soon = [hop for hop in here if case.sentence_index(hop.at) - _SOON <= index]
            if not soon or not (_close(case, index, here) if goes else any(hop.at < sentence.end for hop in here)):
                continue
            if number.start in counted or taken_back(case, index):
                continue  # "Did we land on eight? No, we landed on seven."
            if not goes and _asks_how_far(case, index):
                continue  # "Now I stand on six. How many hops until eleven?"
            if goes and case.says(max(sentence.start, number.start - _REACH), number.start, _NEVER):
                continue
            if goes and (case.asks(sentence) or (match[0].endswith(" the #") and number.value == 10)):
                continue  # "First jump to the ten": to the next one
            if goes and case.has_word(sentence, _WOULD) and case.has_word(sentence, ("another",)):
                continue  # "I'd need to take another, to nine": a hop that is not taken
            allowed = _stops(here if goes else soon)
            allowed |= _on_picture(case, number.start, ends=goes)
            if case.has_word(sentence, _ON_THE_WAY) or len(sentence.numbers) > 2:  # "Hop to 7, hop to 6, hop to 5"
                allowed |= {value for hop in soon for value in range(min(hop.start, hop.end), max(hop.start, hop.end))}
            if number.value in allowed:
                continue
            last = ([hop for hop in here if hop.at < sentence.end] or here)[-1]
            yield of_number(NAME, number, "",
                          f"Line {number.line} speaks of being on {number.value}, but the hop goes from {last.start} to "
                          f"{last.end}.",
                          f"Say {last.start if goes else last.end}, or change the hop.")  # fmt: skip


def _close(case: Case, index: int, hops: list[Way]) -> bool:
    """Whether sentence `index` stands beside a hop, or is said with it."""
    return any(case.sentence_index(hop.at) - _SOON <= index <= case.sentence_index(hop.last) + _SOON for hop in hops)


def _stops(hops: list[Way]) -> set[int]:
    """Where hops begin and end, and the tens that they pass ("Two hops took us to ten")."""
    return {stop for hop in hops for stop in (hop.start, hop.end, *hop.tens)}


def _asks_how_far(case: Case, index: int) -> bool:
    """Whether the next sentence asks how far it is from there to a number."""
    _, last = case.sentences_around(index, 0, 1)
    following = case.sentences[last]
    return last > index and case.asks(following) and bool(following.numbers) and case.has_word(following, _UNTIL)


def _on_picture(case: Case, word: int, *, ends: bool) -> set[int]:
    """The marks on the paths and lines that the segment of `word` shows; with `ends`, where these begin and end as well;
    and what other pictures show with that word ("Add two: now we are at ten")."""
    found: set[int] = set()
    for seen in case.on_screen_at(word):
        found |= frozenset() if isinstance(seen.picture, SpanPicture) else seen.shows
    for seen in case.on_screen(*case.segment_around(word)):
        if isinstance(seen.picture, SpanPicture):
            found |= {*picked_out(seen.picture)}
            found |= {seen.picture.start, seen.picture.end} if ends else set()
    return found
