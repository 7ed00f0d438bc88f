"""Amounts that are said to be the same, or to be more or less than one another: sums, differences, parts, chains.

Where words can be read in more than one way ("six is two and four and five is two and three"), every reading is tried:
a statement is false only if it is false in all of them.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.talk.expressions import ADDED, WORD, Join, Sequence_, Term, sequences
from studio.talk.model import Statement
from studio.talk.speech import Speech
from studio.talk.statements.digits import of_digit

_EQUALS = ("=", "!=", ">", "<", "fragment")
_SIGNS = {"=": "=", "!=": "≠", ">": ">", "<": "<", "fragment": "="}
_COMPARES = (">", "<")
_OF_ONE = ("more than", "less than", "one more", "one less")
_SENTENCE_END = re.compile(r"[.?]")


@dataclass(frozen=True, slots=True)
class Side:
    """Terms with the joins between them."""

    terms: tuple[Term, ...]
    joins: tuple[Join, ...]

    @property
    def known(self) -> bool:
        return all(term.value is not None for term in self.terms)

    @property
    def value(self) -> int:
        total = self.terms[0].value or 0
        for join, term in zip(self.joins, self.terms[1:], strict=True):
            total += -(term.value or 0) if join == "minus" else (term.value or 0)
        return total

    @property
    def written(self) -> str:
        text = self.terms[0].written
        for join, term in zip(self.joins, self.terms[1:], strict=True):
            text += (" - " if join == "minus" else " + ") + term.written
        return text

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(part for term in self.terms for part in term.parts)

    @property
    def single(self) -> bool:
        """Whether it is one plain number."""
        return len(self.terms) == 1 and self.terms[0].shape in ("number", "unknown")

    def cut(self, at: int) -> tuple[Side, Side]:
        """The terms before `at` and those from `at` on."""
        return Side(self.terms[:at], self.joins[: at - 1]), Side(self.terms[at:], self.joins[at:])

    def groups(self) -> tuple[Side, ...]:
        """The side taken apart at its commas."""
        found, start = [], 0
        for index, join in enumerate(self.joins):
            if join == ",":
                found.append(Side(self.terms[start : index + 1], self.joins[start:index]))
                start = index + 1
        found.append(Side(self.terms[start:], self.joins[start:]))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Claim:
    """Sides and the signs between them, read from one sequence."""

    sides: tuple[Side, ...]
    signs: tuple[Join, ...]

    def broken(self) -> int | None:
        """The index of the first sign that is wrong; None where all hold."""
        for index, sign in enumerate(self.signs):
            left, right = self.sides[index].value, self.sides[index + 1].value
            fits = {"=": left == right, "fragment": left == right, "!=": left != right, ">": left > right,
                    "<": left < right}[sign]  # fmt: skip
            if not fits:
                return index
        return None

    @property
    def written(self) -> str:
        text = self.sides[0].written
        for sign, side in zip(self.signs, self.sides[1:], strict=True):
            text += f" {_SIGNS[sign]} {side.written}"
        return text


def split(sequence: Sequence_) -> tuple[list[Side], list[Join]]:
    """The sides of a sequence and the signs between them."""
    sides, signs = [], []
    start = 0
    for index, join in enumerate(sequence.joins):
        if join in _EQUALS:
            sides.append(Side(sequence.terms[start : index + 1], sequence.joins[start:index]))
            signs.append(join)
            start = index + 1
    sides.append(Side(sequence.terms[start:], sequence.joins[start:]))
    return sides, signs


def _is_list(side: Side) -> bool:
    """ "zero and six, one and five": every part between commas is a pair of its own."""
    groups = side.groups()
    return len(groups) > 1 and all(len(group.terms) > 1 for group in groups)


def readings(sides: list[Side], signs: list[Join], closed: bool) -> Iterator[list[Claim]]:
    """The ways to read a sequence, the plainest first; a reading is a list of claims. `closed`: a pause follows."""
    yield [Claim(tuple(sides), tuple(signs))]
    # A comma before the first amount parts it from what was said before.
    first = sides[0].groups()
    if len(first) > 1:
        for start in range(1, len(first)):
            at = sum(len(group.terms) for group in first[:start])
            yield [Claim((sides[0].cut(at)[1], *sides[1:]), tuple(signs))]
    last = sides[-1]
    if len(sides) == 2 and last.terms[0].shape == "half" and len({term.value for term in sides[0].terms}) == 1:
        yield [Claim((sides[0].cut(1)[0], last), tuple(signs))]  # "Six and six. That is half of twelve.": each of them
    if len(last.terms) > 1 and all(term.shape in _OF_ONE for term in last.terms):
        # "twenty is one more than nineteen and one less than twenty-one"
        yield [Claim((*sides[:-1], Side((term,), ())), tuple(signs)) for term in last.terms]
    groups = last.groups()
    if len(groups) > 1:
        if _is_list(last):  # "six is zero and six, one and five": each is a claim
            yield [Claim((*sides[:-1], groups[0]), tuple(signs))] + [
                Claim((sides[-2], group), (signs[-1],)) for group in groups[1:]
            ]
        else:
            for stop in range(len(groups) - 1, 0, -1):
                at = sum(len(group.terms) for group in groups[:stop])
                head, tail = last.cut(at)
                if len(tail.terms) == 1 or not closed or not tail.single:
                    yield [Claim((*sides[:-1], head), tuple(signs))]
    tens = last.terms[0]
    if len(last.terms) == 1 and tens.shape == "tens and ones" and all(map(_of_tens, sides[0].terms)):
        # "Two tens and two tens are four tens, and six.": the ones are told beside
        alone = Term(10 * tens.parts[0], (tens.parts[0], 10), "groups", f"{tens.parts[0]} × 10", tens.start, tens.end)
        yield [Claim((*sides[:-1], Side((alone,), ())), tuple(signs))]
    if not closed and len(last.terms) > 1 and (len(sides[0].terms) > 1 or sides[0].terms[0].fact):
        for at in range(1, len(last.terms)):
            yield [Claim((*sides[:-1], last.cut(at)[0]), tuple(signs))]
    # "36 - 10 = 26, 36 - 20 = 16, 36 - 30 = 6": every comma parts two claims.
    if len(sides) > 3:
        parted: list[Claim] = []
        begun, its_signs = [sides[0]], []
        for index in range(1, len(sides)):
            its_signs.append(signs[index - 1])
            side = sides[index]
            at = max((at for at, join in enumerate(side.joins, 1) if join == ","), default=0)
            if at and index < len(sides) - 1:
                head, tail = side.cut(at)
                parted.append(Claim((*begun, head), tuple(its_signs)))
                begun, its_signs = [tail], []
            else:
                begun.append(side)
        if len(parted) > 1:
            yield [*parted, Claim(tuple(begun), tuple(its_signs))]
    # In the middle, one claim may end and the next begin.
    for index in range(1, len(sides) - 1):
        middle = sides[index]
        for at in range(1, len(middle.terms)):
            head, tail = middle.cut(at)
            if middle.joins[at - 1] not in ("and", ",") and not (middle.joins[at - 1] == "plus" and tail.terms[0].more):
                continue
            before = Claim((*sides[:index], head), tuple(signs[:index]))
            if tail.terms[0].more or (head.single and tail.single and sides[index + 1].single):
                # "eight and two is ten, and four more is fourteen", "ten and five is fifteen and one is sixteen"
                for rest in readings([middle, *sides[index + 1 :]], signs[index:], closed):
                    yield [before, *rest]
                    break
                continue
            after_sides, after_signs = [tail, *sides[index + 1 :]], signs[index:]
            for rest in readings(after_sides, after_signs, closed):
                yield [before, *rest]
                break
            if len(after_sides) > 1 and _is_list(after_sides[-1]):
                for rest in list(readings(after_sides, after_signs, closed))[1:2]:
                    yield [before, *rest]


def _of_tens(term: Term) -> bool:
    return term.shape == "groups" and term.parts[1:] == (10,)


def _is_row(side: Side) -> bool:
    """ "eight, nine" is a count and no sum, and so is "five, ten, and then eleven"."""
    if len(side.terms) < 2 or any(term.fact for term in side.terms):
        return False
    if all(join == "," for join in side.joins):
        return True
    values = [term.value or 0 for term in side.terms]
    steps = [after - before for before, after in itertools.pairwise(values)]
    return (
        len(steps) > 1
        and all(join == "," for join in side.joins[:-1])
        and steps[0] in (5, 10)
        and values[0] == steps[0]
        and all(step in (1, steps[0]) for step in steps)
    )


_THINGS = re.compile(
    r"#(?: [a-z]+){0,2} (?:frames?|rows?|bundles?|groups?|lines?|sticks?|rods?|boxe?s?|towers?|stacks?|hands?|blocks?|bars?|strips?)$"
)


_SHARED = re.compile(r"# for [a-z]+ and # for ")  # "Four and two, there's one for me and one for you"


def _is_thing(side: Side, text: str) -> bool:
    """ "One line is one ten", "One full frame and four more is ten and four": what is counted is worth more than one."""
    return any(term.shape == "number" and _THINGS.fullmatch(text, term.start, term.end) for term in side.terms)


def _trivial(sides: list[Side], signs: list[Join], text: str) -> bool:
    """ "Frog five is three years old": two plain numbers that only "is" joins are no arithmetic."""
    if len(signs) == 1 and signs[0] in _COMPARES and _is_thing(sides[0], text) != _is_thing(sides[1], text):
        return True  # "One line is more than four squares"
    if any(sign not in ("=", "fragment") for sign in signs):
        return False
    if any(_is_thing(side, text) or _SHARED.match(text, side.terms[0].start) for side in sides):
        return True
    if len(sides) == 2 and sides[0].single and of_digit(text, sides[0].terms[0].start, sides[0].terms[0].end):
        return True  # "The one means one ten": what a digit is worth is told for itself
    if not all(side.single for side in sides):
        return False
    between = text[sides[0].terms[-1].end : sides[1].terms[0].start]
    return not any(word in between for word in (" equal", " same ", " equals "))


_CHANGES = re.compile(
    r" (?:takes?|took|taking|taken|gives?|gave|giving|adds?|added|adding|lose|loses|lost|puts?|removed?|trades?|traded|trading|swap|swapped|eats?|ate|shared?)"
    r"(?: (?!and )[a-z'’]+){0,4} $"
)
_HAVING = re.compile(
    r" , (?:(?:then )?(?:it is|there are|that is) |[a-z'’]+ (?:[a-z'’]+ ){0,2}(?:have|has|had|get|gets|got|see|find|end up with) )"
)


_OPENS = re.compile(
    r" (?:opens?|opened|opening|breaks?|broke|breaking|unpacks?|unpacked|unties?|untied|unwraps?|unwrapped|trades?|traded|swaps?|swapped)"
    r" (?:up )?(?:a|one|the|another) $"
)
_SWAPS = re.compile(r" (?:swap|swapped|swaps|swapping|switch|switched|switching) (?:round |around |over )?(?:the )?$")
_LONGEST_SWAP = 26  # characters
_AND_HAS = re.compile(
    r" (?:, )?and (?:(?:we|you|i|they|he|she|it) )?(?:now )?(?:have|has|had|get|gets|got|see|end up with) #"
)


_MAKES_WITH = re.compile(r"(?:what|which number|how many) (?:makes|make|gives) #(?: [a-z]+)? with ")
_ONE_LESS = re.compile(
    r" (?:less|fewer|before|back)(?: than #)?(?: it| that)? (?:is|be|comes|are|makes) # $|"
    r" (?:less|fewer|before|back)(?: than #)?(?: it| that)? (?:is|be|comes|are|makes) $"
)
_GOES_ON = re.compile(r"(?: (?:minus|plus|without|take away|and a|and another) | [.] (?:¶ )?and )$")
_AIM = re.compile(r" (?:just )?to (?:get|make|build|reach) ")


def _changed(sides: list[Side], text: str) -> bool:
    """ "If I took away all 4 ones, you would have 60", "Take away 2 to get to ten": the amount is done to something
    else, which is not told here."""
    start, end = sides[0].terms[0].start, sides[0].terms[-1].end
    if sides[0].terms[-1].more and _ONE_LESS.search(text[max(0, start - 30) : start]):
        return True  # "One less is thirteen, and one more is fifteen": both of the same number
    if _SWAPS.search(text[max(0, start - _LONGEST_SWAP) : start]):
        return True  # "If I swap the two and the five I get two hundred and fifty-six"
    if len(sides[0].terms) > 1 or sides[0].terms[0].shape in ("difference", "sum"):
        return False
    if _GOES_ON.search(text[max(0, start - 12) : start]):
        return True  # "smudge minus twelve equals fourteen", "Ten, twenty, thirty. And 4 ones make 34"
    if sides[0].single and _AIM.match(text, end):
        return True
    if sides[0].terms[0].value == 10 and _AND_HAS.match(text, end) and _OPENS.search(text[max(0, start - 48) : start]):
        return True  # "We open a ten and have five tens and thirteen ones"
    return _HAVING.match(text, end) is not None and _CHANGES.search(text[max(0, start - 48) : start]) is not None


_MOVES = re.compile(r"# (?:drops?|jumps?|hops?|steps?|leaps?|strides?|skips?)")
_TENS_IN_MOVES = re.compile(r"# tens , # (?:drops|hops|jumps|leaps|steps|moves)(?= )")


def _in_moves(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether it is told in how many moves an amount goes on ("Thirty-two and twenty more. That's two drops down the chart.")."""
    if len(signs) != 1:
        return False
    left, right = sides
    start = right.terms[0].start
    if _TENS_IN_MOVES.match(text, start):
        return True  # "Thirty-four add twenty. That's two tens, two drops."
    return left.terms[-1].more and right.single and _MOVES.match(text, start) is not None


_IS_THE = re.compile(r" (?:#|one) (?:is|means|are) the $")
_THE_IS_THE = re.compile(r"# (?:is|means|are) the # ")
_LONGEST_IS_THE = 15  # characters


def _each_names_one(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether each digit is named by what it stands for ("look, the one is the ten and the two is the two")."""
    left = sides[0]
    start = left.terms[0].start
    return (
        signs == ["="]
        and left.joins == ("and",)
        and _IS_THE.search(text, max(0, start - _LONGEST_IS_THE), start) is not None
        and _THE_IS_THE.match(text, left.terms[1].start) is not None
    )


_HOW_MANY = re.compile(r" how many [^.?¶§]*$")
_LONGEST_HOW_MANY = 60  # characters


def _ends_how_many(sides: list[Side], text: str) -> bool:
    """Whether tens end a question that asks how many others there are ("How many more tens make ten tens? Three.")."""
    left = sides[0]
    start, end = left.terms[0].start, left.terms[-1].end
    return (
        len(left.terms) == 1
        and _of_tens(left.terms[0])
        and text.startswith(" ?", end)
        and _HOW_MANY.search(text, max(0, start - _LONGEST_HOW_MANY), start) is not None
    )


_THAN = ("more than", "less than")


def _which_is(sides: list[Side], signs: list[Join], text: str) -> list[Side] | None:
    """The sides of what is told of the sum with which something is compared ("It is one more than seven plus seven, which is
    fourteen")."""
    left, right = sides[0], sides[1]
    if signs != ["="] or len(left.terms) < 2 or left.terms[0].shape not in _THAN:
        return None
    if " which " not in text[left.terms[-1].end : right.terms[0].start]:
        return None
    base, end = left.terms[0].parts[-1], left.terms[0].end
    told = Side((Term(base, (base,), "number", str(base), end - 1, end), *left.terms[1:]), left.joins)
    return [told, right] if told.value == right.value else None


_BY = re.compile(r" by (?:only |just )?$")
_LONGEST_BY = 9  # characters


def _grown_by(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether its first number only tells by how much something changes ("If both grow by two cubes they'll be eighteen and
    eleven")."""
    start = sides[0].terms[0].start
    return signs == ["="] and sides[0].single and _BY.search(text, max(0, start - _LONGEST_BY), start) is not None


_IN_TURN = re.compile(r"#(?: \. #)+(?= [.¶§])")
_ENDS = re.compile(r" [.?¶§](?: [.?¶§])* ")
_LONGEST_IN_TURN = 200  # characters


def _answered_in_turn(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether its last number is the first of the answers to several sums ("Three and five. Nine take away one. Four and
    three. [wait 5 s] Eight. Eight. Seven.")."""
    answers = _IN_TURN.match(text, sides[-1].terms[0].start)
    if signs != ["fragment"] or answers is None:
        return False
    many, start = answers[0].count("#"), sides[0].terms[0].start
    asked = _ENDS.split(text[max(0, start - _LONGEST_IN_TURN) : start])[:-1][1 - many :]
    return len(asked) == many - 1 and all(sentence.count("#") > 1 for sentence in asked)


_NEXT_IN_ALL = re.compile(r" \. (?:and |so )?(?:in all|altogether) ")
_THE = re.compile(r" the # [^#.?¶§]*$")


def _named_before(sides: list[Side], signs: list[Join], speech: Speech) -> bool:
    """Whether the parts are told of a number in their own sentence, and the next sentence begins with how many there are
    in all ("So the four crosses are split: two and two. In all there are twelve.")."""
    if len(signs) != 1 or not _NEXT_IN_ALL.match(speech.text, sides[0].terms[-1].end):
        return False
    start = sides[0].terms[0].start
    named = _THE.search(speech.text, max(0, start - _LONGEST_NAMED), start)
    return named is not None and speech.value_at(named.start() + 5) == sides[0].value


def _called_before(sides: list[Side], signs: list[Join], speech: Speech) -> bool:
    """Whether the number that the parts make was called out before them, and the next one is called after them ("Six! Five
    and one. Nine! Five and four.")."""
    start, end = sides[0].terms[0].start, sides[0].terms[-1].end
    if len(signs) != 1 or not _CALLED.search(speech.text, max(0, start - _LONGEST_CALL), start):
        return False
    return _CALLS.match(speech.text, end) is not None and speech.value_at(start - len("# . ")) == sides[0].value


def _part_again(sides: list[Side], signs: list[Join], speech: Speech) -> bool:
    """Whether one of the parts was asked for and is told once more ("Ten and what? Ten and four. Four.")."""
    start = sides[0].terms[0].start
    asked = _ASKED_PART.search(speech.text, max(0, start - _LONGEST_ASKED), start)
    return len(signs) == 1 and asked is not None and sides[1].single and sides[1].value == sides[0].terms[-1].value


def _each_again(sides: list[Side], signs: list[Join], speech: Speech) -> bool:
    """Whether what was named together is told once more, one after the other ("Just three and four. Three. Four.")."""
    left, right = sides[0], sides[-1]
    again = _CALLS_ON.match(speech.text, right.terms[-1].end)
    return (
        signs == ["fragment"]
        and left.joins == ("and",)
        and again is not None
        and (right.value, speech.value_at(again.end() - 1)) == left.numbers
    )


_CALLS_ON = re.compile(r" [.,] (?:¶ )?(?:and )?#(?= [.,?¶§])")
_LONGEST_NAMED = 60  # characters
_ASKED_PART = re.compile(r" and what \? (?:¶ )?$")
_CALLED = re.compile(r" [.?] (?:[¶§] )?# \. $")
_LONGEST_CALL = 10  # characters
_LONGEST_ASKED = 16  # characters
_CALLS = re.compile(r" \. (?:¶ )?# \. # ")
_CLAUSE = re.compile(r" (?:there (?:are|is)|(?:we|you|i|they|he|she|it) (?:have|has|see|got)) (?:only )?$")
_LONGEST_CLAUSE = 24  # characters


def _after_a_clause(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether what is compared stands behind "and", and what is before it has a verb of its own ("There are seven ones
    and five is less than seven")."""
    if len(signs) != 1 or signs[0] not in _COMPARES or sides[0].joins != ("and",) or not sides[0].cut(1)[1].single:
        return False
    start = sides[0].terms[0].start
    return _CLAUSE.search(text[max(0, start - _LONGEST_CLAUSE) : start]) is not None


_AND_GOES_ON = re.compile(r" , and ")


def _running(sides: list[Side], signs: list[Join], sequence: Sequence_, text: str) -> list[Side] | None:
    """What was named before is added up one after the other, and this is the first step of it ("Three berries, two nuts
    and one bit of carrot. That's three and two, five, and with the carrot, six."): that step's sides."""
    groups = sides[-1].groups()
    if signs != ["="] or len(groups) != 2 or len(groups[0].terms) < 2 or not groups[1].single:
        return None
    parts = sides[0].numbers[: len(groups[0].terms)]
    if parts != groups[0].numbers or len(sides[0].numbers) <= len(parts) or not _AND_GOES_ON.match(text, sequence.end):
        return None
    return list(groups)


_SHARES = re.compile(
    r"(#) (?:[a-z]+ )?(?:shared|split|cut|divided|parted|broken|sorted)(?: up| out| evenly| fairly| equally)* "
    r"(?:in|into|between|among|by|over) $"
)
_LONGEST_SHARING = 48  # characters


def _shared(sides: list[Side], signs: list[Join], speech: Speech) -> list[Side] | None:
    """The sides where the first number tells in how many shares the one before it is told ("Eight shared in two is four
    and four"): that one and the shares."""
    start = sides[0].terms[0].start
    found = _SHARES.search(speech.text, max(0, start - _LONGEST_SHARING), start)
    if found is None or signs != ["="] or not sides[0].single or len(sides[1].terms) != sides[0].value:
        return None
    whole = speech.value_at(found.start(1))
    term = Term(whole, (whole,), "number", str(whole), found.start(1), found.start(1) + 1)
    return [Side((term,), ()), sides[1]]


_IS_A = re.compile(r" (?:is|are|was|(?!(?:it|that|what|here|there)['’])[a-z]+['’]s)(?: only)? (?:a |an |worth )$")
_LONGEST_IS_A = 24  # characters


def _each_is_a(sides: list[Side], signs: list[Join], text: str) -> list[Side] | None:
    """The sides without what the words before say of each ("Every bundle's a five and ten fives make fifty")."""
    start = sides[0].terms[0].start
    if signs != ["="] or sides[0].joins != ("and",) or sides[0].terms[1].shape != "groups":
        return None
    unit, groups = sides[0].terms
    if groups.parts[-1:] != unit.parts or not _IS_A.search(text, max(0, start - _LONGEST_IS_A), start):
        return None
    return [sides[0].cut(1)[1], sides[1]]


_WITH_TENS = re.compile(r" (?:with|having) (?:only )?$")
_LONGEST_WITH = 13  # characters
_THERE_IS = re.compile(r" (?:, )?there (?:is|are) ")


def _has_so_many_tens(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether it names a number that has so many tens ("With four tens there is only forty-five")."""
    start, end = sides[0].terms[0].start, sides[0].terms[-1].end
    if signs != ["="] or len(sides[0].terms) > 1 or not sides[1].single or sides[0].terms[0].parts[1:] != (10,):
        return False
    return (
        _WITH_TENS.search(text, max(0, start - _LONGEST_WITH), start) is not None
        and _THERE_IS.match(text, end) is not None
        and sides[1].value // 10 == sides[0].terms[0].parts[0]
    )


_AND_LOOSE = re.compile(
    rf"#{WORD} (?:, )?(?:and|with|plus) # (?:loose|singles?|odd|separate|spares?|extras?|left over|leftovers?)(?: [a-z]+)?(?: ones?)? "
)


def _loose_beside_tens(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether it names a number by its tens, whatever they are called, and by what is loose beside them ("Three strings
    and four loose, thirty-four")."""
    left = sides[0]
    if len(signs) != 1 or signs[0] not in ("=", "fragment") or left.joins != ("and",) or not sides[1].single:
        return False
    tens, loose = (term.value or 0 for term in left.terms)
    return 10 * tens + loose == sides[1].value and _AND_LOOSE.match(text, left.terms[0].start) is not None


_LEFT = re.compile(r"(?:^|[.?¶§]| the) left (?:, |is |has |side (?:, |is |has )?|pan (?:, |is |has )?)?$")
_RIGHT = re.compile(r" . (?:¶ )?right ,? ?$")
_LONGEST_LEFT = 20  # characters


def _on_the_right(sides: list[Side], signs: list[Join], text: str) -> bool:
    """Whether the left and the right of something are told one after the other ("Left, 6 plus 2. Right, 9.")."""
    start, end = sides[0].terms[0].start, sides[0].terms[-1].end
    return (
        signs == ["fragment"]
        and _LEFT.search(text, max(0, start - _LONGEST_LEFT), start) is not None
        and _RIGHT.fullmatch(text, end, sides[1].terms[0].start) is not None
    )


def find(speech: Speech) -> Iterator[Statement]:
    """Statements in which amounts are set equal or compared, and questions that ask for one of them."""
    for sequence in sequences(speech):
        sides, signs = split(sequence)
        if not signs:
            continue
        if (
            _trivial(sides, signs, speech.text)
            or _is_row(sides[0])
            or (len(sides[0].terms) == 1 and sides[0].terms[0].more)
        ):
            continue
        if _changed(sides, speech.text):
            continue
        if (
            _named_before(sides, signs, speech)
            or _called_before(sides, signs, speech)
            or _part_again(sides, signs, speech)
            or _each_again(sides, signs, speech)
            or _loose_beside_tens(sides, signs, speech.text)
            or _in_moves(sides, signs, speech.text)
            or _ends_how_many(sides, speech.text)
            or _answered_in_turn(sides, signs, speech.text)
            or _grown_by(sides, signs, speech.text)
            or _each_names_one(sides, signs, speech.text)
        ):
            continue
        if _has_so_many_tens(sides, signs, speech.text) or _on_the_right(sides, signs, speech.text):
            continue
        sides = (
            _running(sides, signs, sequence, speech.text)
            or _shared(sides, signs, speech)
            or _each_is_a(sides, signs, speech.text)
            or _which_is(sides, signs, speech.text)
            or sides
        )
        if _after_a_clause(sides, signs, speech.text):
            sides = [sides[0].cut(1)[1], *sides[1:]]
        if _BROKEN_OFF.match(speech.text, sequence.end) or _INSIDE.search(
            speech.text[max(0, sequence.start - 6) : sides[1].terms[0].start]
        ):
            continue
        closed = speech.text[sequence.end : sequence.end + 2].strip() in (".", ",", "?", "¶", "§", "")
        unknown = sum(term.value is None for side in sides for term in side.terms)
        if unknown == 1:
            pieces = sides[0].groups()
            if len(pieces) > 1 and len(pieces[-1].terms) > 1:  # "one for your head: six and what make ten?"
                sides = [pieces[-1], *sides[1:]]
                unknown = sum(not side.known for side in sides)  # "Do you remember what, four and four make eight?"
        if unknown:
            if unknown == 1 and not (
                all(side.single for side in sides) or _MAKES_WITH.match(speech.text, sequence.start)
            ):
                yield _question(speech, sequence, sides, signs)
            continue
        asked = _asked(speech, sequence)
        chosen: list[Claim] | None = None
        tried: list[Claim] | None = None
        for reading in readings(sides, signs, closed):
            if tried is None or (len(tried) == 1 and _better(reading, tried)):
                tried = reading
            if all(claim.broken() is None for claim in reading):
                chosen = reading
                break
        if chosen is None:
            parted = parted_at_pauses(sequence, speech.text)
            if parted is not None and (asked or not parted or _fewer_broken(parted, tried or [])):
                tried = parted
        for claim in chosen or tried or []:
            yield _statement(speech, sequence, claim, asked)


_BROKEN_OFF = re.compile(
    r" (?:plus|minus|and|take away) (?:[,.?¶§]|(?:which|what|how|some|something) )"
)  # "Nine equals six plus..."
_INSIDE = re.compile(r" in #(?: [a-z]+)? ,? ?there (?:is|are) $")  # "In eleven there is one ten, …"
_MOST_CUTS = 12
_ANOTHER = re.compile(r" (?:another|an extra) ")  # "… is ten, and another five and five makes twenty"
_ALL = re.compile(
    r" (?:they|these|those|all|each|both)(?: of them)?(?: all| both| each)? (?:make|makes|are|equal|come to) "
)
_WEAK = re.compile(r" [.,] (?:¶ )?(?:and |so |now )*(?:we|you|i|he|she|there|they) ")


def parted_at_pauses(sequence: Sequence_, text: str) -> list[Claim] | None:
    """The sequence read as several sayings parted by pauses ("seven is three and four, thirteen is one ten and three
    ones"): the claims among them in the parting that leaves the fewest false ones; None where no pause parts it. A
    saying without a sign, or of two plain numbers, claims nothing."""
    terms, joins = sequence.terms, sequence.joins
    opens = text[max(0, sequence.start - 2)] in " .?¶§"  # "Twenty-one, less ten, is eleven."
    cuts = [
        at
        for at in range(1, len(terms))
        if _may_part(joins[at - 1], text[terms[at - 1].end : terms[at].start], terms, joins, at)
        and not (joins[at - 1] in ("plus", "minus") and opens and ADDED.issuperset(joins[: at - 1]))
    ][:_MOST_CUTS]
    if not cuts:
        return None
    pieces = _fewest_false(terms, joins, [0, *cuts, len(terms)], text)
    if len(pieces) == 1:
        return None
    claims = [claim for _, claim in pieces if claim is not None]
    if claims and _ALL.search(text[terms[0].start : terms[-1].end]):
        unsigned = [at for at, claim in pieces[:-1] if claim is None]
        inner = [[at.start, *(cut for cut in cuts if at.start < cut < at.stop), at.stop] for at in unsigned]
        pairs = [(terms[a:b], joins[a : b - 1]) for ends in inner for a, b in pairwise(ends)]
        claims = [claim for pair in pairs if (claim := _of_all(pair, claims[-1])) is not None] + claims
    return claims


def _fewest_false(
    terms: tuple[Term, ...], joins: tuple[Join, ...], ends: list[int], text: str
) -> list[tuple[slice, Claim | None]]:
    """The parting at some of `ends` with the fewest false claims, of those the one with the fewest pieces (dynamic
    programming over the places where it may part)."""
    best: list[tuple[int, int, list[tuple[slice, Claim | None]]]] = [(0, 0, [])]
    for index in range(1, len(ends)):
        found: tuple[int, int, list[tuple[slice, Claim | None]]] | None = None
        for before in range(index):
            at = slice(ends[before], ends[index])
            again = at.start and _ANOTHER.search(text, terms[at.start - 1].end, terms[at.start].start)
            claim = None if again else _claim(terms[at], joins[at.start : at.stop - 1], text)
            false, many, pieces = best[before]
            false += claim is not None and claim.broken() is not None
            if found is None or (false, many + 1) < found[:2]:
                found = (false, many + 1, [*pieces, (at, claim)])
        assert found is not None
        best.append(found)
    return best[-1][2]


def _of_all(piece: tuple[tuple[Term, ...], tuple[Join, ...]], last: Claim) -> Claim | None:
    """ "Six with six, and nine with three, they all make twelve": the earlier pairs have the last one's whole."""
    terms, joins = piece
    if len(terms) < 2 or any(join in _EQUALS for join in joins):
        return None
    return Claim((Side(terms, joins), last.sides[-1]), (last.signs[-1],))


def _may_part(join: Join, between: str, terms: Sequence[Term], joins: Sequence[Join], at: int) -> bool:
    """Whether one saying may end before term `at`: at a pause, but not between an amount that is worked out and its
    result ("eight and two, that is ten")."""
    if not any(f" {mark} " in f" {between} " for mark in (",", ".", "?")):
        return False
    if join not in _EQUALS:
        return True
    start = max((index for index in range(1, at) if joins[index - 1] in _EQUALS), default=0)
    plain = at - start == 1 and terms[start].shape == "number"
    weak = _WEAK.match(between) is not None
    if start or at - start == 1:  # something has been set equal already, or one amount stands alone
        worked_out = terms[start].fact and terms[start].shape in ("difference", "sum") and terms[at].shape == "number"
        # "I take away 5 from 38, and I have 33" is one saying
        return plain or (weak and not worked_out) or " . " in between
    return plain or (weak and " . " in between)


def _claim(terms: tuple[Term, ...], joins: tuple[Join, ...], text: str) -> Claim | None:
    sides, signs = split(Sequence_(terms, joins, terms[0].start, terms[-1].end))
    if not signs or _trivial(sides, signs, text) or _is_row(sides[0]):
        return None
    if sides[0].terms[0].more:
        return None  # "five and five is ten, and another five and five makes twenty"
    for reading in readings(sides, signs, True):
        if len(reading) == 1 and reading[0].broken() is None:
            return reading[0]
    return Claim(tuple(sides), tuple(signs))


def _fewer_broken(claims: list[Claim], than: list[Claim]) -> bool:
    return _broken(claims) < _broken(than)


def _broken(claims: list[Claim]) -> int:
    return sum(claim.broken() is not None for claim in claims)


def _better(reading: list[Claim], than: list[Claim]) -> bool:
    """Whether a false reading tells the teacher more: a list of partners is told pair by pair."""
    return len(reading) > len(than)


_TAG = re.compile(
    r"(?: [a-z’']+){0,2}? ,"
    r" (?:(?:is|are|was|were|does|do|did|has|have|can|will|would) not (?:it|that|they|we|you|there|she|he)(?: (?:see|know|think|agree))?|"
    r"(?:wouldn't|won't|haven't|hasn't|couldn't|weren't) (?:it|that|they|we|you|there|she|he)|"
    r"(?:(?:do )?you )?see|right|yes|eh|hey|of course|remember|true)? \?"
)
_DENIES = re.compile(r" (?:[¶§] )?(?:oh ,? ?|well ,? ?|hmm ,? ?|is it \? |really \? )*(?:no|nope|not|wrong|false) ")
_ASKING = re.compile(r" (?:is|are|was|were|does|do|did|can|could|would|will|what|which|who|how) $")
_IF = re.compile(r" if $")
_NEXT_ASKED = re.compile(  # "Six and four is ten, so what is sixteen and four?"
    r" , (?:so |and |but |and so )?(?:what (?!do you (?:think|say)|about )|how (?!about )|where |why |which |# (?:and|plus) # (?:is|are|makes?) \?)"
)
_IF_ASKED = re.compile(r" , (?:is|are|does|do|can|could|would|will|what|how|where|why|which) ")
_TAKEN_AS_SO = re.compile(  # "Did you notice that six and four make ten?", "Why do six and four make ten?"
    r" (?:(?:see|notice|noticed|remember|chance|forget) (?:that|how)|why (?:do|does|is|are|did)) $"
)


def _asked(speech: Speech, sequence: Sequence_) -> bool:
    """Whether the sentence that holds the sequence asks if it is so. One that only ends in a tag ("…, isn't it?", "…, see?"), asks
    something else after it ("If six and four make ten, …?") or takes it as known ("Why do …?") says it, unless it is denied
    at once."""
    text = speech.text
    end = _SENTENCE_END.search(text, sequence.end)
    if end is None or end[0] != "?":
        return False
    start = max(0, sequence.start - _LONGEST_ASKING)
    if _TAKEN_AS_SO.search(text, start, sequence.start):
        said = text.startswith("?", sequence.end + 1)
    elif _ASKING.search(text, start, sequence.start):
        said = False
    elif _IF.search(text, start, sequence.start):
        said = _IF_ASKED.match(text, sequence.end) is not None
    else:
        said = _TAG.match(text, sequence.end) is not None or _NEXT_ASKED.match(text, sequence.end) is not None
    return not said or _DENIES.match(text, end.end()) is not None


_LONGEST_ASKING = 16  # characters


def _statement(speech: Speech, sequence: Sequence_, claim: Claim, asked: bool) -> Statement:
    start, end = claim.sides[0].terms[0].start, claim.sides[-1].terms[-1].end
    kind, values = classify(claim)
    true = claim.broken() is None
    return speech.statement(kind, values, None if asked else true, start, end, claim.written, true if asked else None)


def _question(speech: Speech, sequence: Sequence_, sides: list[Side], signs: list[Join]) -> Statement:
    claim = Claim(tuple(sides), tuple(signs))
    values = tuple(number for side in sides for number in side.numbers)
    return speech.statement("question", values, None, sequence.start, sequence.end, claim.written, wanted(claim))


def wanted(claim: Claim) -> int | None:
    """The number that a claim with one unknown asks for; None where the signs between do not settle it."""
    if any(sign not in ("=", "fragment") for sign in claim.signs):
        return None
    known = [side.value for side in claim.sides if side.known]
    if not known:
        return None
    side = next(side for side in claim.sides if not side.known)
    index = next(at for at, term in enumerate(side.terms) if term.value is None)
    rest = side.value  # an unknown term counts as nothing here
    sign = -1 if index and side.joins[index - 1] == "minus" else 1
    return sign * (known[0] - rest)


def classify(claim: Claim) -> tuple[str, tuple[int, ...]]:
    """The kind of a claim and its values in the order of that kind."""
    values = tuple(number for side in claim.sides for number in side.numbers)
    if any(sign in _COMPARES for sign in claim.signs):
        return ("greater" if ">" in claim.signs else "less"), values
    if "!=" in claim.signs:
        return "unequal", values
    if len(claim.sides) > 2:
        return "chain", values
    left, right = claim.sides
    whole, other = (left, right) if left.single else (right, left)
    if not whole.single:
        return "equal", values
    result = whole.value
    if len(other.terms) == 1:
        term = other.terms[0]
        match term.shape:
            case "more than" | "less than":
                amount, base = term.parts
                one = {"more than": "one more", "less than": "one less"}[term.shape]
                return (one if amount == 1 else term.shape), (amount, base, result)
            case "one more" | "one less":
                return term.shape, (1, term.parts[-1], result)
            case "double" | "half" | "groups":
                return term.shape, (*term.parts, result)
            case "tens and ones":
                return term.shape, (result, *term.parts)
            case "sum" | "difference":
                if term.shape == "difference":
                    return term.shape, (max(term.parts), min(term.parts), result)
                return term.shape, (*term.parts, result)
            case _:
                return "equal", values
    if any(term.shape == "double" for term in other.terms):
        return "near double", (*other.numbers, result)
    if any(term.shape == "tens and ones" for term in other.terms):
        return "tens and ones", (result, *other.numbers)
    if "minus" in other.joins:
        return "difference", (*other.numbers, result)
    if left.single and len(right.terms) > 1:
        return "parts", (result, *other.numbers)
    return "sum", (*other.numbers, result)
