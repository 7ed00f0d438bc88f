"""The numbers on both sides of one that is told or marked ("Before eight comes seven. After eight comes nine.", "One
step back is four. One step on is six.", "To the left, 14. To the right, 16."): both lie one from it. Where one of
them does and the other does not, or where they lie around another number than the one that is named, there is a
slip. Likewise the number above or below on a chart, which is ten less or ten more, and a number that is said to
lie between two others and does not."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from studio.agree.case import Appearance, Case
from studio.agree.looks import picked_out
from studio.agree.rules.relative import relatives
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.pictures.kinds.hundred_chart import HundredChart
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.spans import SpanPicture
from studio.talk.model import Number

NAME = "neighbours fit"
_SIDES = {
    "before": -1, "front": -1, "left": -1, "left's": -1, "back": -1, "down": -1,
    "after": 1, "behind": 1, "right": 1, "right's": 1, "on": 1, "past": 1, "forward": 1, "forwards": 1, "ahead": 1,
    "up": 1, "below": -1, "above": 1, "next": 1,
}  # fmt: skip
_AT = r"(?:in )?(before|after|front|behind)"
_BY = r"to (?:the|its|his|her) (left|right|left's|right's)"
_HERE = r"(?:it|that|this|him|her|of it|of that)"
_BE = r"(?: (?:is|was|comes|lives|sits|stands|lies|we (?:have|find|see|get)|you (?:have|find|see|get)|there is|,))"
_IS, _IS_NOW = _BE + "*", rf"(?:{_BE}+|(?= \?)|(?<='s))"
_SO = r"(?:(?:yes|it is|that is|right|the) )*"
_END = r"(?= [.,?¶§])"
_GO = r"(?:step|hop|jump|lean|look|move|go|skip|stride|tiptoe|stretch|stepping|leaning)"
_LED = (
    r"(?:(?:and|but|so|now|if|when|i|we|you|a|small|tiny|little|big|single|what|who|which|number|is|comes|lives|right|"
    r"straight) )*"
)
# with the groups: the amount (where it is said), the side, the number it is of (where it is said), the number there
_PATTERNS = (
    # "Before eight comes seven", "And after it? 18", "What comes before? Fifteen", "To the left, 14"
    re.compile(
        rf"(?<=[.,?¶§] ){_LED}(?P<amount>#)? ?(?:{_AT}|{_BY})"
        rf"(?:(?: {_HERE}| (?P<of>#)){_IS}|{_IS_NOW})(?: \?(?: ¶)?)? {_SO}(?P<there>#){_END}"
    ),
    # "One below eleven is ten", "Who lives just below thirty-four? It's thirty-three": not on a chart
    re.compile(
        rf"(?<=[.,?¶§] ){_LED}(?P<amount>#)? ?(below|above)(?: {_HERE}| (?P<of>#))?{_IS_NOW}"
        rf"(?: \?(?: ¶)?)? {_SO}(?P<there>#){_END}"
    ),
    # "nine comes next", "Nineteen is the step before"
    re.compile(rf"(?<=[.,?¶§] )(?:and )?(?P<there>#) (?:comes|is|sits|stands|lives) (next){_END}"),
    re.compile(
        rf"(?<=[.,?¶§] )(?:and )?(?P<there>#) is the (?:step|stone|number|card|pad|one) "
        rf"(before|after)(?: {_HERE})?{_END}"
    ),
    # "Eight comes before", "Nine in front", "11 to the left of it"
    re.compile(rf"(?<=[.,?¶§] )(?:and )?(?P<there>#){_IS}(?: right| straight)? (?:{_AT}|{_BY})(?: {_HERE})?{_END}"),
    # "Small step back, seven", "If I step on by one I land on ten", "Lean forward, 14"
    re.compile(
        rf"(?<=[.,?¶§] ){_LED}(?P<amount>#)? ?(?:small |little |tiny )?"
        rf"{_GO} (back|on|past|forwards?|ahead|down|up)(?: by (?P<by>#))?"
        rf"(?: (?:is|makes|gives|to|lands? on|gets? to|and|i|we|you|are on|am on|that is|,))* {_SO}(?P<there>#){_END}"
    ),
)
_BOTH = re.compile(
    r" neighbou?rs?(?: of (?P<of>#))?(?: \?(?: ¶)?| are| ,| it has)* (?P<one>#) and (?P<other>#)(?= [.,?¶§])|"
    r"(?<=[.,?¶§] )(?P<this>#) (?:lives|is|sits|stands) on (?:this|one) side "
    r"(?:of (?:it|him|her|that) )?(?:[.,] )?(?:¶ )?(?:and )?"
    r"(?P<that>#) (?:lives |is |sits |stands )?on (?:that|the other)(?: side)?(?: of (?:it|him|her|that))?(?= [.,?¶§])"
)
_NAMED = re.compile(
    r" (?:next to|neighbou?rs of|either side of|both sides of|next door to|beside) (#)(?= [.,?]| in the | on the )|"
    r" (#) has (?:a|two|#) neighbou?rs?(?= )|"
    r" (?:right|lives|comes|straight|numbers) (?:below|above|before|after) (#) \?"
)
_VERTICAL = re.compile(
    rf"(?<=[.,?¶§] )(?:(?:and|what|what is|who is|so|which number is|now) )*"
    rf"(?:straight |directly |right )?(?P<way>above|below|under|underneath)"
    rf"(?: (?:it|that|this|(?P<of>#))(?: (?:is|sits|lives|stands|comes|,))*| ,| is| \?)"
    rf"(?: \?)?(?: ¶)? {_SO}(?P<there>#){_END}"
)
_UNDER = re.compile(
    r" (?P<this>#|it|that|he|she) (?:is|sits|lives|stands|comes) (?:right |straight |directly )?"
    r"(?P<way>above|over|below|under|underneath|beneath) (?:the )?(?P<there>#)(?= [.,?¶§]| on the )"
)
_OVER = frozenset(("above", "over"))
_IN_BETWEEN = r"(?:between (#) and (#)|after (#) and (?:right |it is )?before (#))(?= [.,?¶§]| on the )"
_BETWEEN = re.compile(
    r"(?<=[.,?¶§] )(?:and |so |now )?(?:it|this|that) (?:is|sits|lives|stands|lies|comes|goes) "
    rf"(?:right )?{_IN_BETWEEN}"
)
_WHERE = re.compile(
    r" where (?:does|is|will) (?:the )?(?:number )?(?P<of>#) (?:sit|live|stand|belong|lie|go)?"
    r"(?: on the [a-z]+(?: [a-z]+)?)? ?\? (?:¶ )?"
    rf"(?:it is |right |it (?:sits|lives|stands|belongs) )*{_IN_BETWEEN}"
)
_GAP = 6  # words between two sides that are told one after the other
_FAR = 30  # words before them in which the number is named
_NEIGHBOURS = "neighbo"
_STEPS = (1, 2, 5, 10)
_ROUND = 5


@dataclass(frozen=True, slots=True)
class _Side:
    """A number on one side (-1 or 1) of another, which is named (`of`) or not, so far from it (`amount`)."""

    side: int
    there: Number
    of: Number | None
    amount: int
    start: int
    end: int

    @property
    def base(self) -> int:
        """The number that it is beside."""
        return self.there.value - self.side * self.amount


def find(case: Case) -> Iterator[Finding]:
    sides = _sides(case)
    told: set[int] = set()
    for one, other in pairwise(sides):
        if one.side == other.side or not _one_after_the_other(case, one, other):
            continue
        finding = _pair(case, one, other)
        if finding is not None and not {one.there.start, other.there.start} & told:
            told |= {one.there.start, other.there.start}
            yield finding
    yield from _both(case)
    yield from _vertical(case)
    yield from _between(case)


def _sides(case: Case) -> list[_Side]:
    speech = case.talk.speech
    found: dict[int, _Side] = {}
    for pattern in _PATTERNS:
        for match in pattern.finditer(speech.text):
            way = next(word for word in match.groups() if word in _SIDES)
            side, groups = _SIDES[way], match.groupdict()
            there = speech.number_at[match.start("there")]
            if way in ("below", "above", "down", "up") and _charts(case, there):
                continue
            of = speech.number_at[match.start("of")] if groups.get("of") else None
            amount = 1
            for group in ("amount", "by"):
                if groups.get(group):
                    amount = speech.value_at(match.start(group))
            numbers = speech.numbers_in(*match.span())
            found.setdefault(there.start, _Side(side, there, of, amount, numbers[0].start, max(n.end for n in numbers)))
    for relative in relatives(case):
        low, high = sorted((relative.amount, relative.result), key=lambda number: number.start)
        found.setdefault(
            relative.result.start,
            _Side(relative.sign, relative.result, None, relative.amount.value, low.start, high.end),
        )
    return sorted(found.values(), key=lambda side: side.start)


def _one_after_the_other(case: Case, one: _Side, other: _Side) -> bool:
    """Whether two sides are told in one sentence or in two that follow each other, with no number between."""
    return (
        0 <= other.start - one.end <= _GAP
        and not case.numbers_between(one.end, other.start)
        and case.sentence_index(other.start) - case.sentence_index(one.end - 1) <= 2
        and case.talk.words[one.start].segment == case.talk.words[other.start].segment
    )


def _pair(case: Case, one: _Side, other: _Side) -> Finding | None:
    low, high = sorted((one, other), key=lambda side: side.side)
    named = {side.of.value for side in (one, other) if side.of is not None} | _named_before(case, one)
    marked = _marked(case, one.start, other.end)
    bases = {low.base, high.base}
    if len(bases) == 1 and (not named or named == bases):
        return None
    if len(bases) > 1 and (_around(low, high, named | marked) or other.base == one.there.value):
        # "Before it 20, after it 30", on stones of five; "One step on is nine, one back is eight"
        return None
    if len({one.amount, other.amount}) > 1 and not bases & marked:
        return None
    known = named or marked
    if len(bases) == 1:
        (base,) = bases
        (wrong,) = sorted(named - bases)[:1]
        if len(named) > 1 or base in marked or not marked:
            number = next((side.of for side in (one, other) if side.of and side.of.value == wrong), None)
            return _finding(case, number or one.there, f"{low.there.value} and {high.there.value} are the neighbours "
                            f"of {base}, but they are said to be those of {wrong}.", f"Say {base}.")  # fmt: skip
        return None
    fitting = known & bases
    if len(fitting) != 1:
        return None
    (base,) = fitting
    wrong_side = high if low.base == base else low
    right = base + wrong_side.side * wrong_side.amount
    return _finding(case, wrong_side.there, f"{wrong_side.there.value} is told beside {base}, with "
                    f"{(one if wrong_side is other else other).there.value} on its other side; it would be {right}.",
                    f"Say {right}.")  # fmt: skip


def _around(low: _Side, high: _Side, known: set[int]) -> bool:
    """Whether the two lie equally far, by an even step, around a number that is known."""
    middle, odd = divmod(low.there.value + high.there.value, 2)
    return (
        not odd and low.amount == high.amount and high.there.value - middle in _STEPS and (middle in known or not known)
    )


def _named_before(case: Case, side: _Side) -> set[int]:
    """The number whose neighbours the sentence before, or this one, says are told."""
    speech = case.talk.speech
    index = case.sentence_index(side.start)
    first, _ = case.sentences_around(index, 1, 0)
    offset = speech.offset_of.get(case.sentences[index].numbers[0].start if case.sentences[index].numbers else -1)
    if offset is None:
        return set()
    found: set[int] = set()
    for sentence in case.sentences[first : index + 1]:
        for number in sentence.numbers:
            if not side.start - _FAR < number.start < side.start:
                continue
            at = speech.offset_of[number.start]
            if any(at in (match.start(1), match.start(2), match.start(3))
                   for match in _NAMED.finditer(speech.text, max(0, at - 40), at + 30)):  # fmt: skip
                found.add(number.value)
    return found


def _marked(case: Case, start: int, end: int) -> set[int]:
    """The numbers that stand out on the rows of numbers that are on the screen."""
    found: set[int] = set()
    for seen in case.on_screen(start, end):
        picture = seen.picture
        if isinstance(picture, MoreAndLess):
            found.add(picture.value)
        elif isinstance(picture, SpanPicture):
            found |= {*picked_out(picture), *(picture.hops[-1] if picture.hops else ())}
        elif isinstance(picture, Cards):
            found |= {*picture.ringed}
    return found


def _both(case: Case) -> Iterator[Finding]:
    """ "Neighbours? 11 and 13." """
    speech = case.talk.speech
    if _NEIGHBOURS not in speech.text and " side " not in speech.text:
        return
    for match in _BOTH.finditer(speech.text):
        names = ("one", "other") if match["one"] else ("this", "that")
        pair = [speech.number_at[match.start(name)] for name in names]
        low, high = sorted(number.value for number in pair)
        known = {speech.value_at(match.start("of"))} if match["of"] else _marked(case, pair[0].start, pair[1].end)
        bases = {low + 1, high - 1}
        if len(bases) == 1 and (not match["of"] or known == bases):
            continue
        one, other = (_Side(side, number, None, 1, number.start, number.end)
                      for side, number in zip((-1, 1), sorted(pair, key=lambda n: n.value), strict=True))  # fmt: skip
        if _around(one, other, known) or len(known) != 1:
            continue
        (base,) = known
        wrong = [number for number in pair if abs(number.value - base) != 1]
        if len(wrong) == 1 or match["of"]:
            yield _finding(case, wrong[0], f"{row([low, high])} are told as neighbours of {base}; they are {base - 1} "
                           f"and {base + 1}.", f"Say {base - 1} and {base + 1}.")  # fmt: skip


def _charts(case: Case, number: Number) -> list[Appearance]:
    """The charts that are on the screen with a number."""
    return [
        seen
        for seen in case.on_screen(number.start, number.end)
        if isinstance(seen.picture, HundredChart) and seen.moment.word <= number.start
    ]


def _vertical(case: Case) -> Iterator[Finding]:
    """What stands above or below on a chart."""
    speech = case.talk.speech
    for match in (*_VERTICAL.finditer(speech.text), *_UNDER.finditer(speech.text)):
        there = speech.number_at[match.start("there")]
        charts = _charts(case, there)
        if not charts or len(case.on_screen(there.start, there.end)) > len(charts):
            continue
        named = match.start("of" if match.re is _VERTICAL else "this")
        known = {speech.value_at(named)} if named in speech.number_at else _marked(case, there.start, there.end)
        if len(known) != 1:
            continue
        (base,) = known
        step = -10 if match["way"] in _OVER else 10
        if match.re is _VERTICAL:
            if base + step != there.value and base + step > 0:
                yield _finding(case, there, f"{there.value} is told {match['way']} {base}; on the chart it is "
                               f"{base + step}.", f"Say {base + step}.")  # fmt: skip
        elif there.value + step != base and base - step > 0:
            yield _finding(case, there, f"{base} is told to be {match['way']} {there.value}; on the chart it is "
                           f"{match['way']} {base - step}.", f"Say {base - step}.")  # fmt: skip


def _between(case: Case) -> Iterator[Finding]:
    """ "It is between fifteen and seventeen on the line.", "Where does ten sit? Between nine and eleven." """
    speech = case.talk.speech
    if " between " not in speech.text and " after # and " not in speech.text:
        return
    for match in (*_BETWEEN.finditer(speech.text), *_WHERE.finditer(speech.text)):
        pair = speech.numbers_in(*match.span())[-2:]
        named = match.groupdict().get("of")
        known = {speech.value_at(match.start("of"))} if named else _marked(case, pair[0].start, pair[1].end)
        if len(known) != 1:
            continue
        (base,) = known
        low, high = sorted(number.value for number in pair)
        near = [number for number in pair if abs(number.value - base) == 1]
        far = [number for number in pair if number not in near]
        if named and not near and high - low == 2 and base != low + 1:
            number = speech.number_at[match.start("of")]
            yield _finding(case, number, f"{low} and {high} are told around {base}; {low + 1} is between them.",
                           f"Say {low + 1}.")  # fmt: skip
        elif len(near) == 1 and (not low < base < high or _out_of_place(near[0].value, far[0].value)):
            yield _finding(case, far[0], f"{base} is told between {pair[0].value} and {pair[1].value}; its neighbours are "
                           f"{base - 1} and {base + 1}.", f"Say {base - 1} and {base + 1}.")  # fmt: skip


def _out_of_place(near: int, far: int) -> bool:
    """Whether nobody would say of a number that it is between these two: one is its neighbour and no ten or five, the
    other is neither its neighbour nor a ten or five."""
    return near % _ROUND > 0 and (far % _ROUND > 0 or far == 0)


def _finding(case: Case, number: Number, message: str, instead: str) -> Finding:
    place = f"Line {number.line}: " if number.line else ""
    return of_number(NAME, number, "", place + message, instead)
