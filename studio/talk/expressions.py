"""The grammar of spoken arithmetic: terms, the words that join them, and the words that say two amounts are the same.

`sequences` finds every stretch of talk in which terms are joined ("seven frogs and two more make nine"). A term is a
number with its noun, or something that is worth a number by itself: "one ten and four ones", "double six", "two more
than five", "the difference between 9 and 7", "three fives". What a sequence says is worked out in
`talk.statements.equation`.

Sources: the trade's common wordings (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from studio.talk.numbers import PLURALS
from studio.talk.speech import Speech

# Words that end a noun phrase: after a number, up to three other words belong to it ("7 little green frogs").
STOP = (
    "and|plus|minus|take|takes|taking|subtract|add|adds|added|is|are|was|were|be|been|am|make|makes|made|making|equal|"
    "equals|give|gives|gave|get|gets|got|have|has|had|leave|leaves|left|become|becomes|more|less|fewer|greater|bigger|"
    "larger|smaller|longer|shorter|taller|than|not|no|or|but|so|if|when|because|while|that|which|who|this|these|those|"
    "it|they|we|you|i|he|she|there|here|need|needs|needed|to|from|for|with|by|as|same|on|in|at|of|up|down|off|out|away|"
    "over|into|onto|under|after|before|together|altogether|what|how|many|much|where|now|do|does|did|can|will|the|a|an|"
    "my|your|our|his|her|their|its|one's|yes|true|false|same|join|joins|come|comes|came|hop|hops|hopped|go|goes|went|"
    "could|would|should|must|let|see|look|say|says|said|know|plus|equals|again|still|count|counts|show|shows|both|all|"
    "fills?|means|reach|reaches|fit|fits|sit|sits|stay|stays|swim|swims|swam|fly|flies|flew|jump|jumps|jumped|too|except"
)
WORD = rf" (?!(?:{STOP}) )[a-z][a-z'’-]*"
NOUN = rf"(?:{WORD}){{0,3}}"
_WHERE = (
    r"(?: (?:on|in|at|under|by|near|inside|beside|behind|of|from|for) (?:the |a |an |this |that |each |my |your |our |"
    rf"his |her |their |)(?:(?!(?:{STOP}) )[a-z][a-z'’-]*)(?:{WORD})?){{0,2}}"
)
NOT_A_TERM = (  # "two numbers that make eight", "one of the parts", "two more", "one way", "three in a row", "one greater."
    r"(?! (?:more |other |different |equal |new |)(?:numbers?|parts?|partners?|ways?|addends?|digits?|cards?|dice|sides?|"
    r"groups?|rows?|names?|kinds?|pictures?|steps?|stories|story|questions?|facts?|pairs?|sentences?|colou?rs?|words?|"
    r"times?|o'clock|minutes?|seconds?|years?|days?|weeks?|hours?|examples?|problems?|answers?|legs?|bonds?|combinations?) )"
    r"(?! of (?:the|my|your|our|these|those|them|his|her) )"
    r"(?! (?:greater|bigger|higher|larger|smaller|lower|less|fewer|under|over|above|below) (?:[.,?]|double) )"
)


@dataclass(frozen=True, slots=True)
class Term:
    """Something worth `value` (None: asked for). `parts` are the numbers said in it, `shape` its kind, `written` the
    same in signs; `more` tells "two more", an amount that is added to what was said before."""

    value: int | None
    parts: tuple[int, ...]
    shape: str
    written: str
    start: int
    end: int
    more: bool = False
    fact: bool = False
    """Whether the term alone is already arithmetic ("double six")."""


Join = Literal["plus", "minus", "and", ",", "=", "!=", ">", "<", "fragment"]


@dataclass(frozen=True, slots=True)
class Sequence_:
    """Terms and the joins between them: `len(joins) == len(terms) - 1`."""

    terms: tuple[Term, ...]
    joins: tuple[Join, ...]
    start: int
    end: int


Reader = Callable[["re.Match[str]", Speech], Term | None]
_TERMS: list[tuple[re.Pattern[str], Reader]] = []
_N = "#"
_SIMPLE = rf"{_N}(?! #){NOUN}"


def _term(pattern: str) -> Callable[[Reader], Reader]:
    def keep(reader: Reader) -> Reader:
        _TERMS.append((re.compile(pattern), reader))
        return reader

    return keep


def _values(match: re.Match[str], speech: Speech) -> list[int]:
    return [number.value for number in speech.numbers_in(match.start(), match.end())]


_FRAME = r"(?:(?:a|one|#)(?: whole| full)* )?(?:frame|row|line|stick|rod|bundle|loaf|tray|tower|stack|string)s?(?: of| , (?:worth|so|that is))? #"


@_term(rf"{_FRAME}(?: dots| ones)?(?: ,)? (?:and|plus|with) # more(?= )")
def _frame_and_more(match: re.Match[str], speech: Speech) -> Term | None:
    *many, ten, more = _values(match, speech)
    if ten not in (5, 10) or many not in ([], [1]):
        return None
    return Term(ten + more, (ten, more), "tens and ones", f"{ten} + {more}", *match.span())


_TEN_THINGS = r"(?: (?:rods?|longs?|sticks?|strips?|bundles?|lines?|bars?|towers?|trains?|stacks?))?"
_ONES = (
    r"(?: (?:more|extra|single|loose|left over|leftover|small|little))*"
    r"(?: (?:ones?|squares?|cubes?|units?|dots|extras?|singles?|sticks|beads|more(?! #))(?= ))"
)


_WITH = r"(?: [,.])?(?: (?:and|plus|with))?"


@_term(rf"(?:a )?# #{_TEN_THINGS}{_WITH} #{_ONES}")
def _one_ten_and_ones(match: re.Match[str], speech: Speech) -> Term:
    many, unit, ones = _values(match, speech)
    return Term(many * unit + ones, (many, unit, ones), "tens and ones", f"{many} × {unit} + {ones}", *match.span())


# "2 tens and 1 ten make 3 tens. 3 ones and 4 ones make 7 ones": the ones are worked out for themselves
_ONES_ADDED = r"(?! (?:[,.] )?(?:and )?# ones? (?:, )?(?:and|plus|with|less|minus|take away|take off|without) (?:another )?# ones? )"


@_term(rf"# tens?{_TEN_THINGS}{_ONES_ADDED}(?:{_WITH} #{_ONES}|(?: ,)? (?:and|plus|with) #(?! tens?| more| #))")
def _tens_and_ones(match: re.Match[str], speech: Speech) -> Term | None:
    tens, ones = _values(match, speech)
    if ones > 9 and " one" not in match[0]:  # "five tens, and forty-five has four tens"
        return None
    return Term(10 * tens + ones, (tens, ones), "tens and ones", f"{tens} × 10 + {ones}", *match.span())


@_term(
    rf"# (?:longs?|rods?|sticks?|lines?|strips?){_WITH} #(?: (?:little|small|single|loose))*(?: (?:ones?|cubes?|units?|squares?))(?= )"
)
def _rods_and_ones(match: re.Match[str], speech: Speech) -> Term | None:
    tens, ones = _values(match, speech)
    return Term(10 * tens + ones, (tens, ones), "tens and ones", f"{tens} × 10 + {ones}", *match.span())


@_term(r"# tens (?:and|plus) # #(?= (?:[.,?]|is|are|make|makes|equals|equal))")
def _tens_and_one_ten(match: re.Match[str], speech: Speech) -> Term | None:
    tens, one, ten = _values(match, speech)
    return (
        Term(10 * (tens + 1), (tens, 10), "groups", f"{tens} × 10 + 10", *match.span())
        if (one, ten) == (1, 10)
        else None
    )


@_term(rf"# tens?{_TEN_THINGS}(?: ,)? (?:and|plus|with) a one(?= )")
def _tens_and_a_one(match: re.Match[str], speech: Speech) -> Term:
    (tens,) = _values(match, speech)
    return Term(10 * tens + 1, (tens, 1), "tens and ones", f"{tens} × 10 + 1", *match.span())


@_term(rf"(?:a|full|another) #{_TEN_THINGS}{_WITH} #{_ONES}")
def _a_ten_and_ones(match: re.Match[str], speech: Speech) -> Term:
    ten, ones = _values(match, speech)
    return Term(ten + ones, (1, ten, ones), "tens and ones", f"{ten} + {ones}", *match.span())


@_term(r"# hundreds?(?: ,)?(?: and)? # tens?(?: ,)? (?:and|plus) # ones?")
def _hundreds_tens_ones(match: re.Match[str], speech: Speech) -> Term:
    hundreds, tens, ones = _values(match, speech)
    value = 100 * hundreds + 10 * tens + ones
    return Term(value, (hundreds, tens, ones), "tens and ones", str(value), *match.span())


@_term(rf"(?:a )?# #(?={_TEN_THINGS} (?:[.,?¶§]|(?:is|are|makes?|equals?|leaves?|gives?|and|plus) # tens? ))")
def _one_ten(match: re.Match[str], speech: Speech) -> Term | None:
    many, unit = _values(match, speech)
    if many != 1 and unit not in (5, 10, 100):  # "Is four and five eight?"
        return None
    return Term(many * unit, (many, unit), "groups", f"{many} × {unit}", *match.span())


@_term(r"# more (tens?|fives?|twos?|hundreds?|#)(?= (?:[.,?]|and|is|are|make|makes))")
def _more_tens(match: re.Match[str], speech: Speech) -> Term | None:
    values = _values(match, speech)
    unit = PLURALS.get(match[1] if match[1].endswith("s") else match[1] + "s", 10)
    if len(values) == 2:
        if values[1] not in (1, 5, 10, 100):
            return None
        unit = values[1]
    return Term(values[0] * unit, (values[0], unit), "groups", f"{values[0]} × {unit}", *match.span(), more=True)


@_term(r"# (fives|twos|tens|ones|threes|fours|sixes|sevens|eights|nines|hundreds|ten|groups? of #|rows? of #|"
       r"sets? of #|stacks? of #|towers? of #|bunch(?:es)? of #|bundles? of #|gates? of #|lots of #|piles? of #|jumps? of #|"
       r"hops? of #|pairs? of #|teams? of #|bags? of #|boxes of #|times #|hands of #)(?= )")  # fmt: skip
def _so_many_of(match: re.Match[str], speech: Speech) -> Term:
    values = _values(match, speech)
    unit = values[1] if len(values) == 2 else PLURALS.get(match[1].split()[0], 10)
    return Term(values[0] * unit, (values[0], unit), "groups", f"{values[0]} × {unit}", *match.span(), fact=True)


@_term(
    rf"#{NOUN}(?: ,)? (?:with|of|have|has|hold|holds|and) #(?:{WORD}){{0,2}}? "
    r"(?:each|apiece|(?:on|in|inside|under|at|for|to) (?:each|every) [a-z]+)(?= )"
)
def _so_many_with_each(match: re.Match[str], speech: Speech) -> Term:
    """ "four dice with five dots each", "four plates with two cookies on every plate" """
    many, each = _values(match, speech)
    return Term(many * each, (many, each), "groups", f"{many} × {each}", *match.span())


@_term(r"(?:a |(?<=the )|(?<=our ))double # and #(?= [.,?]| is| are| makes?| equals)")
def _double_by_both(match: re.Match[str], speech: Speech) -> Term | None:
    """ "the double six and six", "a double: four and four" """
    half, other = _values(match, speech)
    if half != other:
        return None
    return Term(2 * half, (half,), "double", f"{half} + {half}", *match.span(), fact=True)


_OF_TENS = " # tens"


@_term(r"# doubled(?= )")
@_term(r"(?:a )?(?:double|doubles|twice) #(?= and| or)")
@_term(r"(?:a )?(?:double(?: of)?|doubles|twice|doubling) #(?: tens(?= )|(?! and| or))")
def _double(match: re.Match[str], speech: Speech) -> Term:
    (half,) = _values(match, speech)
    half *= 10 if _OF_TENS in match[0] else 1
    return Term(2 * half, (half,), "double", f"{half} + {half}", *match.span(), fact=True)


@_term(rf"(?:half of (?:(?:the|these|those|my|our|all|your) )*|halving )#{NOUN}(?= )")
def _half(match: re.Match[str], speech: Speech) -> Term:
    (whole,) = _values(match, speech)
    whole *= 10 if _OF_TENS in match[0] else 1
    value = whole // 2 if whole % 2 == 0 else -1
    return Term(value, (whole,), "half", f"half of {whole}", *match.span(), fact=True)


_MORE = r"(?:more|greater|bigger|larger|taller|longer|higher|up|after|further|older|heavier|above)"
_TWICE = re.compile(r" (?:double|twice) #")
_LESS = r"(?:less|fewer|smaller|shorter|lower|before|below|younger|back|lighter)"


@_term(rf"#{NOUN} {_MORE}{NOUN} (?:than|from)(?: the (?:number|card|part|bar))?(?: (?:double|twice))? #{NOUN}")
def _more_than(match: re.Match[str], speech: Speech) -> Term:
    more, base = _values(match, speech)
    base *= 1 + (_TWICE.search(match[0]) is not None)
    return Term(base + more, (more, base), "more than", f"{base} + {more}", *match.span(), fact=True)


@_term(rf"#{NOUN} short of(?: (?:a|the))? #{NOUN}")
@_term(rf"#{NOUN} {_LESS}{NOUN} (?:than|from)(?: the (?:number|card|part|bar))?(?: (?:double|twice))? #{NOUN}")
def _less_than(match: re.Match[str], speech: Speech) -> Term:
    less, base = _values(match, speech)
    base *= 1 + (_TWICE.search(match[0]) is not None)
    return Term(base - less, (less, base), "less than", f"{base} - {less}", *match.span(), fact=True)


@_term(r"(?:the )?(?:next )?number(?: that)?(?: comes)?(?: right| straight| directly)? (after|before) #")
def _neighbour(match: re.Match[str], speech: Speech) -> Term:
    (base,) = _values(match, speech)
    step = 1 if match[1] == "after" else -1
    shape = "one more" if step == 1 else "one less"
    return Term(base + step, (1, base), shape, f"{base} {'+' if step == 1 else '-'} 1", *match.span(), fact=True)


@_term(rf"(?:the )?(?:sum|total) of #{NOUN} (?:and|plus) #{NOUN}")
def _sum_of(match: re.Match[str], speech: Speech) -> Term:
    one, other = _values(match, speech)
    return Term(one + other, (one, other), "sum", f"{one} + {other}", *match.span(), fact=True)


@_term(r"from # to #(?= (?:is|are|takes?|makes?) (?:only |just )?# (?:jumps?|hops?) of # )")
@_term(r"(?:the )?(?:difference|space|gap|distance) (?:between|of|from) # (?:and|to) #")
def _difference_of(match: re.Match[str], speech: Speech) -> Term:
    one, other = _values(match, speech)
    big, small = max(one, other), min(one, other)
    return Term(big - small, (one, other), "difference", f"{big} - {small}", *match.span(), fact=True)


@_term(rf"(?:take|taking|takes|subtract|subtracting|subtracts)(?: away)? #{NOUN}(?: away| off| out)? from #{NOUN}")
def _take_from(match: re.Match[str], speech: Speech) -> Term:
    less, base = _values(match, speech)
    return Term(base - less, (less, base), "difference", f"{base} - {less}", *match.span(), fact=True)


_FORWARD = r"(?: [a-z]+)? (?:forwards?|ahead|further|farther)"


@_term(rf"#{_FORWARD} from #{NOUN}(?! to )")
def _forward_from(match: re.Match[str], speech: Speech) -> Term:
    more, base = _values(match, speech)
    return Term(base + more, (more, base), "sum", f"{base} + {more}", *match.span())


@_term(rf"#(?!{_FORWARD} )(?P<things>{NOUN}) (?:taken |taken away )?from #{NOUN}(?! to )")
def _from(match: re.Match[str], speech: Speech) -> Term | None:
    less, base = _values(match, speech)
    if match["things"] and less > base:
        return None  # "five and five makes ten bowls from one pot"
    return Term(base - less, (less, base), "difference", f"{base} - {less}", *match.span())


@_term(rf"(?:add|adding|put|putting|join|joining|combine|combining|adds) #{NOUN} (?:to|and|with|onto|on) #{NOUN}"
       r"(?: together)?")  # fmt: skip
def _add_to(match: re.Match[str], speech: Speech) -> Term:
    one, other = _values(match, speech)
    return Term(one + other, (one, other), "sum", f"{other} + {one}", *match.span(), fact=True)


@_term(rf"(?:another|an extra) #{NOUN}")
def _another(match: re.Match[str], speech: Speech) -> Term:
    (value,) = _values(match, speech)
    return Term(value, (value,), "number", str(value), *match.span(), more=True)


@_term(rf"#(?! #){NOUN} more(?! than){NOUN}(?:{_WHERE})")
def _so_many_more(match: re.Match[str], speech: Speech) -> Term:
    (value,) = _values(match, speech)
    return Term(value, (value,), "number", str(value), *match.span(), more=True)


# "one more than that": worth something, but of what was said before
_THAN_BEFORE = rf"(?! (?:{_MORE[3:-1]}|{_LESS[3:-1]}){NOUN} than )"


@_term(rf"#{NOT_A_TERM}{_THAN_BEFORE}(?:{NOUN})(?:{_WHERE})")
def _number(match: re.Match[str], speech: Speech) -> Term | None:
    number = speech.number_at[match.start()]
    if number.text.lower().startswith("none"):
        return None  # "with none left over"
    return Term(number.value, (number.value,), "number", str(number.value), *match.span())


_PLAIN = _TERMS[-1:]


@_term(
    r"(?:what number|which number|what amount|how many more|how many|how much|what|something|some number|a number|"
    r"a mystery number|an unknown number|the unknown number|unknown number|an unknown(?= [.,?])|a certain number|some(?: more)? [a-z]+(?= (?:makes?|equals?|is|gives?))|"
    r"blank|the missing (?:number|part))(?= )"
)
def _unknown(match: re.Match[str], speech: Speech) -> Term:
    return Term(None, (), "unknown", "?", *match.span())


_HEADS = re.compile(
    r"#|(?<= )(?:a #|from #|full #|another #|an extra #|a double|double|doubles|twice|doubling|halving|half of (?:(?:the|these|those|my|our|all|your) )*#|the number (?:that|right|after|before|comes)|"
    r"number (?:after|before)|the sum|sum of|the total of|total of|the difference|difference (?:between|of)|take|taking|"
    r"subtract|subtracting|add|adding|adds|put|putting|join|joining|combine|combining|what|which number|how many|how much|"
    r"something|some|blank|a number|a mystery number|an unknown|the unknown|unknown|a certain|the missing) "
)

_PRONOUNS = (
    r"(?:that|which|it|this|these|those|they|we|you|i|he|she|there|both|all|and|so|now|together|altogether|in all)"
)
_RESULT = (
    r"(?:is not|are not|does not|do not|did not|can not|is|are|was|were|will be|would be|must be|equals?|makes?|making|"
    r"made|will (?:make|build|give|equal)|gives?|gave|gets?|got|leaves?|becomes?|means|be|comes? to|adds? up to|reach(?:es)?|brings?|turns? into|takes(?! #[a-z ]* from )|"
    r"the same as|the same amount as|equal to|totals?|lands? on|lands?|comes? out (?:as|to)|shows?|builds?|names?|(?:can be |is |are )?(?:breaks?|splits?|broken|"
    r"split|taken|pulled|comes?|goes|go)(?: up| apart)? into|into|can be|to make|to get|to build)"
)
_OWN = r"(?:we|you|they|i|he|she|it|that|which|there|and|so|now) (?:will |would |can |now |all |both )?(?:have|has|had|see|count|got|get|end up with|find|know)"
_FILL = (
    r"(?: (?:the same (?:amount|number|value|total)?(?: )?(?:as|to)?|the same as|equal to|equals?|as much as|as many as|a total of|"
    r"in all|altogether|together|us to|you to|me to|up to|us|you|me|to|too|left with|left|with|all the way|"
    r"made (?:up )?of|made (?:from|with|by)|built (?:from|of|with)|broken into|split into|"
    r"the|a|an|another name for|another way to (?:make|say)|a way to make|a name for|up|a full|full|whole|total|already|always|now|not|make|makes|equal|be|back|get|there|called|"
    r"number|answer|of|number of|worth|only|for))*"
)
_EQ = re.compile(
    rf"(?! \. which means # and # )"  # "Two moves add 20. Which means 24 and 20 makes 44": the next claim
    r"(?! , give #(?: of)? (?:from|to|away) )"  # "Nine and six: give one from the six to the nine": what is to be done
    r"(?! , (?:i|we|you|he|she|they) (?:will )?gives? )"  # "For fifty-eight plus five, I give two to reach sixty"
    r"(?! ,? ?and there (?:is|are) # (?:left|over|spare) )"  # "Four and four, and there is one left over"
    rf" (?:(?:, |\. )(?:{_PRONOUNS} )+|\? (?:they|those) |(?:, )?)(?:{_PRONOUNS} )*(?:{_RESULT}|{_OWN}){_FILL} (?=#|a #|frames? of #|frame , |row of #|one|double|twice|half|what|the|another|how|which|some|blank)"
)
_CROSSES = re.compile(
    r" \. (?:and |so |now |all |yes )*(?:that|which|this|together|altogether|in all|they|these|those|we|you)(?= )"
)
_COMPARE = re.compile(
    r" (?:is|are|was|has|have|makes|be)(?P<not> not)?(?: much| a lot| also| a)? "
    r"(?P<word>greater|more|bigger|larger|higher|longer|taller|less|fewer|smaller|lower|shorter)(?: number)?(?: (?!letters|syllables|sounds)[a-z]+)?"
    r" than(?: the number)? (?=#|double|what)"
)
_PLUS = re.compile(
    r" (?:, )?(?:and )?(?:plus|add|added to|adding|joins?|meets?|joined by|joined with|together with|put with|with|combined with)(?: another| an extra| the)? (?=#|double|what|some|an? |the unknown|unknown|blank)"
)
_PLUS_WAITS = re.compile(r" (?:, )?plus , (?=# (?:is|equals?|makes?|gives) )")  # "Two plus... three equals five!"
_AND = re.compile(
    r"(?! ,? ?and the # (?:means|stands for|is (?:just|worth)) )"  # "the 5 means fifty and the 7 means seven"
    r" (?:, |\. )?and(?: another| an extra| the(?: other| next| second)?|(?P<new> (?:the|that|our|my|this) (?:new|extra|carried|traded)))?"
    r" (?=#|double|what|something|some|a |another|how|blank)"
)
_AND_THERE = re.compile(
    r" (?:, )?and (?:there (?:are|is|were|was) |(?:i|we|you) (?:see|saw|have|had|got) )?(?:only )?(?=# (?:ones?|single|loose|little|small|squares?|cubes?|units?) )"
)
_AND_GOT = re.compile(  # "We had 2 tens and we got 1 more ten"
    r" (?:, )?and (?:then )?(?:we|you|i|they|he|she|it) (?:got|get|gets|have|has|made|make|makes) (?=# more )"
)
_WITH_GONE = re.compile(  # "A bundle of ten with four gone leaves six", "three crates and one gone is two crates"
    rf" (?:, )?(?:with (?=#(?:{WORD}){{0,2}}? (?:gone|missing|taken|removed|eaten|lost|off|away|out) )|"
    rf"and (?=#(?:{WORD}){{0,2}}? (?:gone|eaten|lost) ))"
)
_STANDS = re.compile(  # "six and six is twelve, and eleven sits between them"
    rf"#(?:{WORD})?? (?:sits|lies|lives|stands|stays|waits|hides|comes|falls|belongs|rests) (?:right |just |exactly |straight )?"
    r"(?:between|in between|before|after|beside|next|alone|on|under|behind|near|inside|in the) "
)
_ANOTHER_SENTENCE = re.compile(r"# (?:plus|minus) # equals #")
_SO_IT = re.compile(r" , (?:and )?so (?:it|that|this) ")
_MINUS = re.compile(
    r" (?:, )?(?:and )?(?:minus|takes? away|taking away|take off|subtract|less)(?: another)? (?=#|double|what|some|blank)"
)
_COMMA = re.compile(r" (?:,|\.) (?=#|double)")
_FRAGMENT = re.compile(
    r" [,?.] (?:¶ )?(?:(?:yes|so|right|good|wow|hooray|it is|that is|we get|you get|the answer is) ,? ?)*(?=#)"
)
_NO_THAT = re.compile(
    r" \? no , (?:(?:that is|that makes|it is|they make) )?(?=#)"
)  # "Four and five? No, that's nine."
_SO = re.compile(
    r" [,.] (?:(?:that is|that makes|makes|so) )?(?=#)"
)  # "Ten and four. Fourteen.", "Eight and two, ten."
_HAS_TENS = re.compile(r" (?:has|have|needs?|is|shows?) (?:a |one )?(?=#)")
_TOTAL = re.compile(rf" [,.] (?:¶ )?(?=#(?:{NOUN}) (?:altogether|in all|together|in total) [.,?¶§])")
_ALONE = re.compile(rf"#(?:{NOUN})(?<! back)(?: (?:altogether|in all|together|left|now))? [.¶§]")
_BECAUSE = re.compile(r"# , (?:because|since) ")  # "Ten take away three? Seven, because …"
_BARE = re.compile(r"#(?: (?:altogether|in all|together|left|now))? [.¶§]")
_BETWEEN = re.compile(r"(?:between|either|from) $|between # and $")
_BESIDE = re.compile(r" (?:beside|besides|next to) the $")  # "Beside the forty there are three ones"
_EACH_HAS = re.compile(r" (?:both|each) (?:have|has|had) (?:a|an|the) ")  # "18 and 8, they both have an eight"
_OVER = re.compile(r"#(?: (?:left|more))? over(?= [.,?¶§])")
_THEY_HAVE = re.compile(r" (?:, )?they (?:all )?have ")  # "90 and 91, they have nine tens"
_NO_RESULT = re.compile(rf"(?:{NOUN}) (?:away|hops?|steps?|jumps?|more|less|fewer|apart|times)(?= )")


_BRING = re.compile(r" (?:bring|get|give)s?(?: the)? $")  # "do 40 plus 30, and bring the 2 back after"
ADDED = frozenset(("plus", "minus"))
_ADDS = ADDED | {"and", ","}
_LONGEST_BESIDE = 14  # characters
_AT_NUMBER = [term for term in _TERMS if not term[0].pattern[0].isalpha()]
_AT_WORD = [term for term in _TERMS if not term[0].pattern.startswith("#")]
_LONE = re.compile(r"# (?:[.,?¶§]|is|are|equals|plus|minus|makes?) ")


def term_at(speech: Speech, offset: int) -> Term | None:
    """The longest term that starts at `offset`. A number before a pause or such a word can only be itself."""
    number = speech.text[offset : offset + 1] == "#"
    for pattern, reader in (_PLAIN if _LONE.match(speech.text, offset) else _AT_NUMBER) if number else _AT_WORD:
        if (match := pattern.match(speech.text, offset)) and (term := reader(match, speech)) is not None:
            return term
    return None


def sequences(speech: Speech) -> tuple[Sequence_, ...]:
    """All stretches of terms with two or more terms, in order; they do not overlap. Found once for each speech."""
    found: tuple[Sequence_, ...] | None = speech.__dict__.get("_sequences")
    if found is None:
        found = speech.__dict__["_sequences"] = tuple(_sequences(speech))
    return found


_LONGEST = 40  # terms of one saying: keeps the time in proportion to the length


def _same_tens(terms: Sequence[Term]) -> bool:
    """Whether all are numbers with the same digit for their tens."""
    return all(t.shape == "number" and t.value is not None and t.value > 9 for t in terms) and (
        len({(t.value or 0) // 10 for t in terms}) == 1
    )


def _of_such(groups: Term, term: Term, more: bool) -> Term:
    """A number with which so many tens are compared counts tens, too, where it is only right so ("five tens are fewer than
    six")."""
    if groups.shape != "groups" or term.shape != "number" or groups.value is None or term.value is None:
        return term
    many, unit = groups.parts[0], groups.parts[-1]
    if (groups.value > term.value) == more or (many > term.value) != more or many == term.value:
        return term
    return replace(term, value=term.value * unit, parts=(term.value, unit), shape="groups",
                   written=f"{term.value} × {unit}")  # fmt: skip


def _of_one_size(terms: Sequence[Term]) -> bool:
    """Whether all are groups of the same size ("8 tens take away 5 tens, 3 tens")."""
    return all(t.shape == "groups" for t in terms) and len({t.parts[-1] for t in terms}) == 1


def _sequences(speech: Speech) -> Iterator[Sequence_]:
    text = speech.text
    position = 0
    while head := _HEADS.search(text, position):
        offset = head.start()
        first = term_at(speech, offset)
        if first is None or _BETWEEN.search(text[max(0, offset - 14) : offset]):
            position = offset + 1
            continue
        terms: list[Term] = [first]
        joins: list[Join] = []
        while len(terms) < _LONGEST:
            joined = _join(speech, terms, joins)
            if joined is None:
                break
            join, term = joined
            joins.append(join)
            terms.append(term)
        position = max(terms[-1].end, offset + 1)
        if joins:
            yield Sequence_(tuple(terms), tuple(joins), terms[0].start, terms[-1].end)


def _begins(text: str, offset: int) -> bool:
    """Whether a saying begins at `offset`."""
    return text[max(0, offset - 2) : offset].strip() in (".", "?", "¶", "§", "")


def _of_something_else(terms: list[Term], joins: list[Join]) -> bool:
    """Whether "so it is" goes on from what was said before the terms ("8 and 8 would be 16. 7 is one less than 8, so it is 15", "a
    ten beside the 6 ones, so it is 16")."""
    last = terms[-1]
    if not joins:
        return last.shape == "groups" and last.parts[-1:] == (1,)
    return joins[-1] == "=" and last.shape in ("more than", "less than")


def _join(speech: Speech, terms: list[Term], joins: list[Join]) -> tuple[Join, Term] | None:
    """The next join and term after the terms so far."""
    text = speech.text
    end = terms[-1].end
    if match := _COMPARE.match(text, end):
        term = term_at(speech, match.end())
        if term is not None:
            more = match["word"] in ("greater", "more", "bigger", "larger", "higher", "longer", "taller")
            if match["not"]:
                return None
            return (">" if more else "<"), _of_such(terms[-1], term, more)
    for pattern, join in (
        (_WITH_GONE, "minus"),
        (_PLUS, "plus"),
        (_PLUS_WAITS, "plus"),
        (_MINUS, "minus"),
        (_AND, "and"),
    ):
        if match := pattern.match(text, end):
            if join == "and" and "=" in joins and _ANOTHER_SENTENCE.match(text, match.end()):
                return None  # "12 - 3 = 9 and 12 - 9 = 3"
            if join == "and" and not _ADDS.issuperset(joins) and _STANDS.match(text, match.end()):
                return None  # a clause of its own, which tells where a number stands
            term = term_at(speech, match.end())
            if term is None and join == "and" and terms[-1].fact and (over := _OVER.match(text, match.end())):
                value = speech.value_at(over.start())  # "Eight and seven, that is double seven and one over"
                term = Term(value, (value,), "number", str(value), *over.span(), more=True)
            if term is not None and join == "and" and match["new"]:
                term = replace(
                    term, more=True
                )  # "Two tens and three tens are five tens, and the new ten makes six tens"
            if term is not None and not (join == "and" and ". " in match[0] and not term.more):
                return join, term  # type: ignore[return-value]
    if (terms[-1].shape == "groups" or terms[-1].value == 10) and (match := _AND_THERE.match(text, end)):
        term = term_at(speech, match.end())
        if term is not None:
            return "and", term
    if match := _AND_GOT.match(text, end):
        term = term_at(speech, match.end())
        if term is not None and term.more and term.shape == "groups":
            return "plus", term
    if match := _EQ.match(text, end):
        term = term_at(speech, match.end())
        if _SO_IT.match(match[0]) and _of_something_else(terms, joins):
            return None
        if _BRING.search(match[0]) and text.startswith(" back ", match.end() + 1):
            return None
        if match[0].startswith(" .") and (not _CROSSES.match(match[0]) or _NO_RESULT.match(text, match.end() + 1)):
            term = None
        if term is not None and (_EACH_HAS.search(match[0]) or text.endswith(" in common", 0, term.end)):
            term = None
        if term is not None and _THEY_HAVE.fullmatch(match[0]) and _same_tens(terms):
            term = None
        if term is not None and not joins and " there " in match[0]:
            start = terms[0].start
            if _BESIDE.search(text[max(0, start - _LONGEST_BESIDE) : start]):
                return "and", term
        if term is not None and not (term.more and term.shape == "number"):
            negated = " not " in match[0] + " "
            return ("!=" if negated else "="), term
    if (match := _HAS_TENS.match(text, end)) and not joins and terms[0].shape == "number":
        term = term_at(speech, match.end())
        if term is not None and term.shape == "tens and ones":
            return "=", term
    if "=" not in joins and joins and (match := _TOTAL.match(text, end)):
        term = term_at(speech, match.end())
        if term is not None and term.shape == "number":
            return "fragment", term
    if joins == ["and"] and _begins(text, terms[0].start) and (match := _SO.match(text, end)):
        term = term_at(speech, match.end()) if _BARE.match(text, match.end()) else None
        if term is not None and term.shape == "number":
            return "fragment", term
    told = any(t.fact or t.shape == "tens and ones" for t in terms) or "plus" in joins or "minus" in joins
    named = terms[-1].shape == "groups" and joins[-1:] == ["fragment"]  # "…, 3 tens. 38": the result was named
    if told and "=" not in joins and not named and (match := _FRAGMENT.match(text, end)):
        rest = _ALONE if "?" in match[0] or any(t.fact for t in terms) else _BARE
        whole = rest.match(text, match.end()) or (joins and "?" in match[0] and _BECAUSE.match(text, match.end()))
        term = term_at(speech, match.end()) if whole else None
        if term is not None and (
            term.shape == "number" or (joins and ADDED.issuperset(joins) and _of_one_size([*terms, term]))
        ):
            return "fragment", term
    if joins == ["and"] and (match := _NO_THAT.match(text, end)):
        term = term_at(speech, match.end())
        if term is not None and term.shape == "number":
            return "fragment", term
    if match := _COMMA.match(text, end):
        term = term_at(speech, match.end())
        if term is not None and (text[end + 1] == "," or term.more):
            return ",", term
    return None
