"""A whole that is asked about, and its parts as the answer: "So what is fourteen? Ten and four.", "Which two numbers make
eight? Five and three."

Values: whole, parts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.expressions import NOUN
from studio.talk.model import Statement
from studio.talk.speech import Speech

_SORT = r"(?:numbers?|parts?|partners?|pairs?|cards?|dice|doubles?|friends?|addends?|sums?|facts?|bond|bars?|dots|beads|way)"
_VERB = r"(?:make|makes|made|give|gives|build|builds|show|shows|add up to|adds up to|equals?|is|are|fit|fits)"
_DO = r"(?:can|could|do|did|would|might|should|will|shall)"
_SPLIT = r"(?:make|build|split|break|get|show|take|pull|cut|write)(?: up| apart)?"
_END = r"(?: (?:up|apart|here|today|this time|in|into|like that|that way|with|on|two|dice|parts|together|made|of|from|out))*"
_ASKED = re.compile(
    rf"(?:what|who)(?: else)? (?:is|was|are|makes?|made|gives?)(?: the)? (?P<a>#)(?:{_END}| the same as| equal to) \? |"
    rf"(?:which|what)(?: #)?(?: other| of the| of these)? {_SORT}(?: together| again)?(?: that| {_DO}| go(?:es)?(?: together)?)?"
    rf"(?: (?:we|you|i|to))? {_VERB}(?: up)?(?: to)? (?P<b>#){_END} \? |"
    rf"(?:how|what|who)(?: else)? {_DO}(?: (?:we|you|i))? {_SPLIT} (?:the )?(?P<c>#){NOUN}{_END} \? |"
    rf"(?:which|what) (?:are|is|were|was)(?: the| my| our)?(?: #)? {_SORT} (?:of|in|for|that make|to make) (?P<d>#) \? |"
    rf"(?<= )(?:makes?|equals?|partners (?:of|for)|friends (?:of|for)|pairs of|parts of|could we share|ways to make)(?: up)? (?P<f>#){_END} \? |"
    r"(?<=[.?¶§,] )(?P<g>#) (?:is|equals|makes) # (?:and|plus) (?:what|how many|which number|who)(?: more)? \? |"
    r"(?<=[.?¶§,] )(?:and |so |now )*(?P<e>#)(?: is| means| makes)?(?: (?:made of )?what(?: and what)?)?(?: ,)? \? "
)
_ANSWER = re.compile(
    r"(?:¶ )?(?:(?:yes|right|it is|that is|they are|so|and|yep|well|say|we have|you said|i (?:hear|see|say|can see|would say|think of)|you might say|for one|one way is|there is) ,? ?(?:\. )?)*"
    r"(?P<parts># (?:and|plus) #(?: (?:and|plus) #)*)(?: \.| , (?!and |plus |with |that |then |one |so ))"
)

_TEN = 10


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    if " ? " not in text:
        return
    for match in _ASKED.finditer(text):
        answer = _ANSWER.match(text, match.end())
        if answer is None:
            continue
        at = match.start(match.lastgroup or 0)
        whole = speech.value_at(at)
        parts = tuple(number.value for number in speech.numbers_in(*answer.span("parts")))
        if parts == divmod(whole, 10):
            continue  # "Thirty-six? Three and six.": the digits
        if " think of " in answer[0] and not whole % _TEN and whole // _TEN in (sum(parts), *parts):
            continue  # "Eighty? I think of eight and two.": eight tens, and two to a hundred
        yield speech.statement(
            "parts",
            (whole, *parts),
            sum(parts) == whole,
            at,
            answer.end("parts"),
            f"{whole} = {' + '.join(map(str, parts))}",
        )
