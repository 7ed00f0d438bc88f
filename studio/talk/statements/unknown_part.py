"""The unknown part: "five needs three more to get to eight", "from seven to nine is two", "seven is two away from nine".

Values: part, what is needed, whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.expressions import NOUN
from studio.talk.model import Statement
from studio.talk.numbers import PLURALS
from studio.talk.speech import Speech

_GET = (
    r"to (?:get (?:all the way )?(?:up )?to|make|reach|be|become|have|equal|fill up to|fill|complete|get|come to|go to|"
    r"build|land on|count to|finish|match|catch up (?:to|with))(?: (?:a|an|the|up to|exactly|a full|the whole|number|all))*"
)
_GAP = r"[^#.?¶§]{0,60}?"
_MORE = r"(?: (?:more|extra|other))?"
_HOPS = r"(?:more|hops?|steps?|jumps?|spaces?|numbers?|away|further|apart)"

_NEEDS = re.compile(
    rf"#(?! ones){NOUN}{_GAP} (?:needs?|needed|wants?|is missing|are missing|takes|must have|has to have|need) (?:only )?#{NOUN}{_MORE}{NOUN} "
    rf"(?:{_GET}|for|until) #"
)
_LACKING = re.compile(r" (?:is|are) (?:still )?(?:empty|free|missing|left|blank) ")
_OF = re.compile(rf"# ({'|'.join(PLURALS)})(?= )")
_FROM_TO = re.compile(
    rf"from (?:the )?#{NOUN} (?:up |back |on |down |all the way |, )*to #{NOUN}(?: ,)?(?: so| that| it| we| you| there| i)* "
    rf"(?:is|are|takes?|needs?|makes?|hop|hops|hopped|jump|jumps|count|counted|have|go|add|see|was|were|took|needed|means) "
    rf"(?:a |only |another |it |needs? |takes? |jump of |hop of |a jump of |steps of )*#(?! {NOUN}(?:and|plus|,) #)"
)
_TO_IS = re.compile(r"(?<=[.,?:¶§] )# (?:up |on |back |down )?to # equals #(?= [.,?¶§])")
_SECOND = re.compile(r"(?: [a-z]+)? , and #(?= )")
_EACH_NAMED = re.compile(r" (?:numbers|cards|pages|days|doors|stones|names)(?= )")
_STEPS = re.compile(r" (?:steps?|jumps?|hops?|leaps?|rows?)")
_EACH_OF = re.compile(r" (?:each|every|any|all|the|most|many|some|both) (?:of )?(?:the )?(?:[a-z]+ )?numbers? $")
_LONGEST_EACH_OF = 30  # characters
_EQUAL_STEPS = (2, 5, 10)
_NO_LENGTHS = re.compile(r" (?:nights?|weeks?|goes|tries|turns?|rounds?|minutes?|doublings|halvings)(?= )")
_HOURS = 12
_SO_FAR = re.compile(
    rf"#{NOUN} (?:{_HOPS}{NOUN} )(?:up |back |forward |forwards )?(?:to (?:get|go|hop|jump|come|travel) |"
    rf"take(?:s)? (?:us|you|me|it|him|her) |get(?:s)? (?:us|you|me|it) |bring(?:s)? (?:us|you|me) |)"
    rf"from (?:the )?#{NOUN} (?:up |back |down |all the way )*to #"
)
_AWAY = re.compile(
    rf"#{NOUN} (?:is|are|was|sits|stands) (?:only )?#{NOUN} (?:hops?|steps?|jumps?|spaces?|numbers?)?(?: )?(?:away|apart|off)? ?from #"
)
_APART = re.compile(r"# and # (?:is|are) (?:only )?# (?:hops?|steps?|jumps?|spaces?|numbers?)?(?: )?(?:apart|away)")
_THERE = r"#(?! on the way| more | (?:big |little )?(?:leaps?|hops?|jumps?|steps?|drops?|tens?) )"
_START = re.compile(
    rf"(?:start|starting|begin|beginning|started|stand) (?:at|with|from|on) (?:the )?#{_GAP}(?: ,| \.)?{_GAP} "
    rf"(?:add|count on|count up|hop|jump|go up|go|move|take|put|hop on|hop forward|adds?|hops) (?:on |forward |up )?#{NOUN}"
    rf"(?: (?:more|times|hops|steps|jumps|forward|on|up))*(?: ,| \.)?{_GAP} "
    rf"(?:land on|lands? on|reach|get to|gets? to|stop at|stop on|end at|end on|end up (?:at|on|with)|are at|are on|arrive at|come to|makes|is|have) {_THERE}"
)
_START_BACK = re.compile(
    rf"(?:start|starting|begin|beginning|started|stand) (?:at|with|from|on) (?:the )?#{_GAP}(?: ,| \.)?{_GAP} "
    rf"(?:count back|hop back|jump back|go back|move back|take away|go down|hops? back) #{NOUN}(?: (?:times|hops|steps|jumps))*(?: ,| \.)?{_GAP} "
    rf"(?:land on|lands? on|reach|get to|gets? to|stop at|stop on|end at|end on|end up (?:at|on|with)|are at|are on|arrive at|come to|is|have) {_THERE}"
)
_WHOLE_PART = re.compile(
    rf"whole (?:number )?(?:is|was) #{_GAP}(?: ,| \.)?{_GAP} (?:part|one part|part we know|known part)(?: (?:is|was|we know is|that we know is)) #"
    rf"{_GAP}(?: ,| \.)?{_GAP} (?:part|number) (?:is|must be|has to be|was) #"
)
_PARTS_WHOLE = re.compile(rf"parts? (?:are|is) #{NOUN} and #{_GAP}(?: ,| \.)?{_GAP} whole (?:number )?(?:is|must be) #")
_PARTNERS = re.compile(
    r"# and # (?:are|make|is)(?: both| also)? (?:partners?|friends|parts|a pair|a way|another way|one way|ways|a partner pair|a bond|buddies)"
    r"(?: of| to| for| that make| to make| which make| in| adding up to| making)(?: the (?:number|whole))? #"
)
_GOES_WITH = re.compile(
    rf"# (?:goes|go|works|belongs|fits|pairs) with # {_GET} #|#(?: is)? (?:the partner of|the partner for|the friend of) # "
    rf"(?:{_GET}|in|for|to) #"
)
_SO_THAT = re.compile(r"# (?:more )?(?:added |put )?(?:to|with|onto) # (?:makes|gives|is|gets (?:us|you) to|make) #")


def _make(
    speech: Speech, match: re.Match[str], part: int, need: int, whole: int, kind: str = "unknown part"
) -> Statement:
    return speech.statement(
        kind, (part, need, whole), part + need == whole, match.start(), match.end(), f"{part} + {need} = {whole}"
    )


def _unit(text: str, match: re.Match[str]) -> int:
    """What each of the second number of a match is worth ("go up four tens"): 1 where it counts no tens or the like."""
    of = _OF.match(text, text.index("#", text.index("#", match.start()) + 1))
    return PLURALS[of[1]] if of is not None else 1


def asked_after(speech: Speech, offset: int) -> bool:
    """Whether the sentence that goes on at `offset` is a question."""
    end = _END.search(speech.text, offset)
    return end is not None and end[0] == "?"


_END = re.compile(r"[.?]")


def find(speech: Speech) -> Iterator[Statement]:
    """Statements about what is missing from a part to its whole."""
    for statement, end in _all(speech):
        if not asked_after(speech, end):
            yield statement


def _all(speech: Speech) -> Iterator[tuple[Statement, int]]:
    text = speech.text

    def values(match: re.Match[str]) -> list[int]:
        return [number.value for number in speech.numbers_in(match.start(), match.end())]

    if " need" in text or " missing " in text or " takes " in text or " want" in text or " has to " in text:
        for match in _NEEDS.finditer(text):
            part, need, whole = values(match)
            if part == need and _LACKING.search(match[0]):
                continue  # "Two places are empty, so we need two more to reach twenty."
            of = _OF.match(text, text.index("#", match.start() + 1)) if " it takes " in match[0] else None
            if part + need != whole and of is not None:
                # "Every ten was hit by a five as well, because it takes two fives to make a ten."
                start, unit = of.start(), PLURALS[of[1]]
                written = f"{need} × {unit} = {whole}"
                yield (
                    speech.statement("groups", (need, unit, whole), need * unit == whole, start, match.end(), written),
                    match.end(),
                )
                continue
            if part + need != whole:
                before = _before(speech, match.start())
                if before and sum(before) + part + need == whole:
                    part += sum(before)
                elif " it " in match[0] and whole - need in before:
                    part = whole - need  # "Seven is five and two, and it needs three to be ten."
            yield _make(speech, match, part, need, whole), match.end()
    for match in _TO_IS.finditer(text):  # "18 to 20 = 2"
        start, end, apart = values(match)
        yield _make(speech, match, min(start, end), apart, max(start, end)), match.end()
    if " from " in text:
        for match in _FROM_TO.finditer(text):
            start, end, apart = values(match)
            small, big = sorted((start, end))
            if _STEPS.match(text, match.end()) and big - small in [step * apart for step in _EQUAL_STEPS]:
                continue  # "From eight to forty-eight I took four steps": they were tens
            if big - small != apart and _NO_LENGTHS.match(text, match.end()):
                continue  # "From one to sixteen it took four nights": each night it doubled
            if end < start <= _HOURS and (end - start) % _HOURS == apart:
                continue  # "From twelve to three is three more": on a clock
            if big - small + 1 == apart and (" there are " in match[0] or _EACH_NAMED.match(text, match.end())):
                continue  # "From eleven to seventeen there are seven numbers": the first is one of them
            if apart == 1 < big - small and " there is only " in match[0]:
                continue  # "From ten to twenty there's only one number for which …"
            if big - small != apart and _EACH_OF.search(text, max(0, match.start() - _LONGEST_EACH_OF), match.start()):
                continue  # "In every number from eleven to nineteen there is a ten"
            second = _SECOND.match(text, match.end())
            if second is not None and big - small == apart + values(second)[0]:
                continue  # "From six to fourteen I go four, and then four again."
            yield _make(speech, match, small, apart, big), match.end()
        for match in _SO_FAR.finditer(text):
            apart, start, end = values(match)
            small, big = sorted((start, end))
            yield _make(speech, match, small, apart, big), match.end()
        for match in _AWAY.finditer(text):
            one, apart, other = values(match)
            small, big = sorted((one, other))
            yield _make(speech, match, small, apart, big), match.end()
    if " apart " in text or " away " in text:
        for match in _APART.finditer(text):
            one, other, apart = values(match)
            small, big = sorted((one, other))
            yield _make(speech, match, small, apart, big), match.end()
    if " start" in text or " begin" in text or " stand " in text:
        backs = set()
        for match in _START_BACK.finditer(text):
            start, less, end = values(match)
            less *= _unit(text, match)
            backs.add(match.start())
            yield _make(speech, match, end, less, start), match.end()
        for match in _START.finditer(text):
            start, more, end = values(match)
            more *= _unit(text, match)
            if match.start() not in backs:
                if start - more == end and " back" in match[0]:
                    start, end = end, start
                yield _make(speech, match, start, more, end), match.end()
    if " whole " in text:
        for match in _WHOLE_PART.finditer(text):
            whole, part, other = values(match)
            yield _make(speech, match, part, other, whole), match.end()
        for match in _PARTS_WHOLE.finditer(text):
            one, other, whole = values(match)
            yield _make(speech, match, one, other, whole, "parts of a whole"), match.end()
    for match in _PARTNERS.finditer(text):
        one, other, whole = values(match)
        yield _make(speech, match, one, other, whole, "partners"), match.end()
    if " with " in text or " partner" in text or " friend" in text:
        for match in _GOES_WITH.finditer(text):
            one, other, whole = values(match)
            yield _make(speech, match, one, other, whole, "partners"), match.end()


def _before(speech: Speech, offset: int) -> list[int]:
    """The numbers in the same sentence before `offset`."""
    start = max(speech.text.rfind(mark, 0, offset) for mark in (".", "?"))
    return [number.value for number in speech.numbers_in(max(start, 0), offset)]
