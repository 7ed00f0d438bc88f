"""Questions that ask for a number ("How many more does five need to get to eight?", "What comes after nine?").

Their kind is "question", `values` are the numbers told, `expected` is what is asked for. Those that are put as an
equation with an unknown ("What is seven plus two?") are found in `equation`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from studio.talk.claims import Side
from studio.talk.expressions import NOUN, sequences
from studio.talk.model import Statement
from studio.talk.speech import Speech

_TO = (
    r"(?: in order)?(?: to)? (?:get (?:all the way )?(?:up )?to|make|makes|reach|be|become|have|fill up to|fill|complete|come to|go to|"
    r"for|until|land on|finish)(?: (?:a|an|the|up to|exactly|a full|the whole|number|all))*"
)
_NEED = r"(?:need|needs|needed|want|have to (?:add|put|get|draw|have)|must (?:we|you|i)|add|put|draw|take|takes|get|missing|hop|go)"

Answer = Callable[[list[int]], int | None]
_BEFORE = "{0} - 1 = ?"
_ANSWERED = re.compile(r" \?(?: [¶,.]| [a-z]+){0,3} #")
_PATTERNS: list[tuple[re.Pattern[str], Answer, str]] = [
    (  # how many more does five need to get to eight
        re.compile(
            rf"how (?:many|much)(?: more)?{NOUN}(?: more)? (?:does|do|would|will|must|should|did|can|is|are)(?: the| a)? #{NOUN}"
            rf"(?: have to)? {_NEED}(?: to)?{NOUN}{_TO} #"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # from seven, how many more to nine; how many more from seven to nine
        re.compile(
            rf"how (?:many|far|much)[^#.?¶§]{{0,60}} (?:from|between) #{NOUN} (?:up |back |on |down )?(?:to|and){NOUN}(?: get to| make| reach)? #"
        ),
        lambda v: abs(v[1] - v[0]),
        "{0} + ? = {1}",
    ),
    (  # how many more do we need to get from seven to nine
        re.compile(rf"how many(?: more)?[^#.?¶§]{{0,40}} to get from #{NOUN} (?:up |back )?to #"),
        lambda v: abs(v[1] - v[0]),
        "{0} + ? = {1}",
    ),
    (  # from seven to nine, how many
        re.compile(rf"from #{NOUN} (?:up |back |on )?to #{NOUN}(?: ,)? (?:is |are |it is )?how many"),
        lambda v: abs(v[1] - v[0]),
        "{0} + ? = {1}",
    ),
    (  # if you have seven, how many more to make ten
        re.compile(
            rf"(?:have|has|had|with|is|are|got|at|see|know|from) #{NOUN}[^#.?¶§]{{0,40}}(?: ,)?(?: and| so)? how many more[^#.?¶§]{{0,40}}{_TO} #"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # if I show you four, what do you need to make six
        re.compile(
            rf"(?:show|give|shows|gives|have|has|had|got|with|at|see) (?:you |us |me )?#{NOUN} , (?:then )?what (?:do|does|would|will) (?:you|we|i|she|he|it) (?:still |also )?need{_TO} #"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # if I say five, and the whole is nine, what do you say
        re.compile(
            r"(?:if|when) (?:i|we|you) (?:say|give|show|throw|sing|have) #(?: ,)? and (?:the|our|my) whole is # , (?:then )?what "
            r"(?:do|does|will|would|must|should) (?:you|i|we) (?:say|give|show|throw|sing|have|need|add)"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # what goes with seven to make nine; what do I add to seven to get nine
        re.compile(
            rf"(?:what|which)(?: number| part)?(?: do i| do we| do you| can we| can you| must we| should we| should i| would you)?"
            rf" (?:goes|go|works|belongs|fits|add|put|added|is added|joins|need)(?: up| together)? (?:with|to|and) #{NOUN}(?: to)? "
            rf"(?:make|makes|get|gets|reach|gives|equal|have|become)(?: us| you| a| an| to)* #"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # what makes nine with seven
        re.compile(
            rf"(?:what|which number|how many) (?:makes|make|gives) #{NOUN} (?:with|when (?:it is |you |we )?(?:added to|add it to|put with)) #"
        ),
        lambda v: v[0] - v[1],
        "{1} + ? = {0}",
    ),
    (  # what is the partner of two to make six
        re.compile(
            r"(?:what|which number|who) is (?:the )?(?:partner|friend|other part) (?:of|for|to) # (?:to make|in|to get to|for|when we make|if we make) #"
        ),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (  # what comes after nine
        re.compile(
            rf"(?:what|who|which)(?: number| card)? (?:comes|is|goes|do you say|do we say|do i say)(?: right| next| straight| directly)? (?:after|following) #{NOUN}(?= [.?,])"
        ),
        lambda v: v[0] + 1,
        "{0} + 1 = ?",
    ),
    (
        re.compile(
            rf"(?:what|who|which)(?: number| card)? (?:comes|is|goes|do you say|do we say|do i say)(?: right| straight| directly)? before #{NOUN}(?= [.?,])"
        ),
        lambda v: v[0] - 1,
        _BEFORE,
    ),
    (
        re.compile(r"(?:what|which)(?: number| card)? (?:comes|is|goes|lives|fits)(?: right| in)? between # and #"),
        lambda v: (v[0] + v[1]) // 2 if abs(v[0] - v[1]) == 2 else None,
        "{0}, ?, {1}",
    ),
    (  # one lives between four and six: which number
        re.compile(r"#(?: [a-z]+){1,2} between # and # [.,] (?:[¶§] )?(?:so |and )?(?:which|what) (?:number|card) \?"),
        lambda v: (v[0] + v[1]) // 2 if abs(v[0] - v[1]) == 2 else None,
        "{0}, ?, {1}",
    ),
    (  # how much bigger is nine than seven
        re.compile(
            rf"how (?:many|much) (?:more|bigger|greater|longer|larger|taller|fewer|less|smaller|shorter|further){NOUN} (?:is|are|does|do) (?:the )?#{NOUN}(?: have)? than (?:the )?#"
        ),
        lambda v: abs(v[0] - v[1]),
        "{1} + ? = {0}",
    ),
    (
        re.compile(rf"how (?:many|much) (?:more|bigger|greater|longer|larger|taller){NOUN} than #{NOUN} is #"),
        lambda v: v[1] - v[0],
        "{0} + ? = {1}",
    ),
    (re.compile(r"how many tens (?:are |is )?(?:there )?(?:in|does|make) #"), lambda v: v[0] // 10, "{0} = ? tens"),
    (re.compile(r"how many ones (?:are |is )?(?:there )?(?:in|does) #"), lambda v: v[0] % 10, "{0} = ? ones"),
    (
        re.compile(
            rf"(?:which|what|who)(?: number| card| one| bar| side| part)?(?: is| has| shows)? (?:the )?(?:more|greater|bigger|larger|longer|taller|higher|most|biggest|greatest|greater number|bigger number)(?: one| number)? (?:,|\?) (?:the )?#{NOUN} or #"
        ),
        lambda v: max(v[0], v[1]),
        "{0} or {1}",
    ),
    (
        re.compile(
            rf"(?:which|what|who)(?: number| card| one| bar| side| part)?(?: is| has| shows)? (?:the )?(?:less|fewer|smaller|shorter|lower|least|smallest|fewest|smaller number)(?: one| number)? (?:,|\?) (?:the )?#{NOUN} or #"
        ),
        lambda v: min(v[0], v[1]),
        "{0} or {1}",
    ),
]
_HOW = re.compile(r" (?:how (?:many|much|far)|what|which|who|from #) ")
_ASKS = re.compile(
    r"(?:^|[.?¶§,]) (?:(?:so|and|now|but|ready|friends|okay) ,? ?)*(?:what|how (?:much|many)) (?:do|does|is|are|would|will|did|can)(?: the number| you get if you| you get when you| we get if we| we get when we| i get if i| you have if you)? $"
)
_MAKE = re.compile(
    r" (?:make|makes|equal|equals|get|gets|give|gives|become|have|total|together|altogether|in all|add up to|come to)?(?: (?:in all|altogether|together|to|now))? ?\?"
)


# "When we count back, what comes after nine?"
_BACK = re.compile(r" (?:count|counting|counted) (?:back|backwards?|down)(?= )")


def find(speech: Speech) -> Iterator[Statement]:
    """Questions put in words that are no equation."""
    text = speech.text
    if "?" not in text:
        return
    taken: set[int] = set()
    for pattern, answer, written in _PATTERNS:
        for match in pattern.finditer(text):
            if match.start() in taken or not _is_question(text, match.end()):
                continue
            values = [number.value for number in speech.numbers_in(match.start(), match.end())]
            if len(values) > 2:
                values = values[-2:]
            expected = answer(values)
            if expected is None:
                continue
            taken.add(match.start())
            if (
                len(values) == 1
                and expected == values[0] + 1
                and _BACK.search(text, max(0, speech.sentence_before(match.start())), match.start())
            ):
                expected, written = values[0] - 1, _BEFORE
            if expected < 0 and written == _BEFORE and not _ANSWERED.match(text, match.end()):
                continue  # "What comes before zero? We land!"
            if expected < 0:  # five cannot need more to get to four
                asked = _question(speech, match.start(), match.end(), tuple(values), written.format(*values), 0)
                yield replace(asked, kind="unknown part", holds=False, expected=None)
                continue
            yield _question(speech, match.start(), match.end(), tuple(values), written.format(*values), expected)
    for sequence in sequences(speech):
        if any(join in ("=", "fragment", ">", "<", "!=") for join in sequence.joins):
            continue
        if any(term.value is None for term in sequence.terms):
            continue
        if _ASKS.search(text[max(0, sequence.start - 60) : sequence.start]) and _MAKE.match(text, sequence.end):
            side = Side(sequence.terms, sequence.joins)
            yield _question(speech, sequence.start, sequence.end, side.numbers, f"{side.written} = ?", side.value)


def _is_question(text: str, offset: int) -> bool:
    end = _END.search(text, max(0, offset - 1))
    return end is not None and end[0] == "?"


_END = re.compile(r"[.?]")


def _question(speech: Speech, start: int, end: int, values: tuple[int, ...], written: str, expected: int) -> Statement:
    return speech.statement("question", values, None, start, end, written, expected)
