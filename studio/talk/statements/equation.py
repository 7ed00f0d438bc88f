"""Amounts that are said to be the same, or to be more or less than one another: sums, differences, parts, chains.

Where words can be read in more than one way ("six is two and four and five is two and three"), every reading is tried:
a statement is false only if it is false in all of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from studio.talk.claims import COMPARES, EQUALS, Claim, Saying, Side, is_row, of_tens, split, trivial
from studio.talk.expressions import ADDED, Join, Sequence_, Term, sequences
from studio.talk.model import Statement
from studio.talk.no_claims import claims_nothing
from studio.talk.retold import retold
from studio.talk.speech import Speech

_OF_ONE = ("more than", "less than", "one more", "one less")
_SENTENCE_END = re.compile(r"[.?]")


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
    tens = sides[1].terms[0]
    if len(sides[1].terms) == 1 and tens.shape == "tens and ones" and all(map(of_tens, sides[0].terms)):
        # "Two tens and two tens are four tens, and six.": the ones are told beside
        alone = Term(10 * tens.parts[0], (tens.parts[0], 10), "groups", f"{tens.parts[0]} × 10", tens.start, tens.end)
        rest = [Claim(tuple(sides[1:]), tuple(signs[1:]))] if len(sides) > 2 else []
        yield [Claim((sides[0], Side((alone,), ())), tuple(signs[:1])), *rest]
    if not closed and len(last.terms) > 1 and (len(sides[0].terms) > 1 or sides[0].terms[0].fact or last.terms[0].fact):
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
    yield from _later_readings(sides, signs)
    # In the middle, one claim may end and the next begin.
    for index in range(1, len(sides) - 1):
        middle = sides[index]
        for at in range(1, len(middle.terms)):
            head, tail = middle.cut(at)
            if middle.joins[at - 1] not in ("and", ",") and not (middle.joins[at - 1] == "plus" and tail.terms[0].more):
                continue
            before = Claim((*sides[:index], head), tuple(signs[:index]))
            if tail.terms[0].more or (
                head.single and tail.single and sides[index + 1].single and signs[index] not in COMPARES
            ):
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


def _later_readings(sides: list[Side], signs: list[Join]) -> Iterator[list[Claim]]:
    """Readings in which the first side is not all that is set equal."""
    first = sides[0]
    if len(first.terms) < 3:
        return
    if first.terms[0].more and first.joins[0] == "and":  # "I said seven more numbers, and nine minus seven is two"
        yield [Claim((first.cut(1)[1], *sides[1:]), tuple(signs))]
    told = first.joins[0]
    steps = [step for side in sides for step in zip(side.joins, side.terms[1:], strict=True)][1:]
    by_steps = told in ADDED and bool(steps) and all(join == told for join, _ in steps)
    if by_steps and sum(term.value or 0 for _, term in steps) == first.terms[1].value:
        # "Thirty minus fourteen: minus ten is twenty, minus four is sixteen"
        told_steps = [Side((first.terms[0], *first.terms[2:]), first.joins[1:]), *sides[1:]]
        yield [
            Claim((step, Side(result.terms[:1], ())), (sign,))
            for (step, result), sign in zip(pairwise(told_steps), signs, strict=True)
        ]


_MAKES_WITH = re.compile(r"(?:what|which number|how many) (?:makes|make|gives) #(?: [a-z]+)? with ")


def find(speech: Speech) -> Iterator[Statement]:
    """Statements in which amounts are set equal or compared, and questions that ask for one of them."""
    for sequence in sequences(speech):
        sides, signs = split(sequence)
        if not signs:
            continue
        if (
            trivial(sides, signs, speech.text)
            or is_row(sides[0])
            or (len(sides[0].terms) == 1 and sides[0].terms[0].more)
        ):
            continue
        saying = Saying(sides, signs, sequence, speech)
        if claims_nothing(saying):
            continue
        sides = retold(saying)
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
        middle = sides[-2].terms
        if unknown == 1 and len(sides) > 2 and not sides[-1].known and len(middle) > 1 and middle[-1].more:
            told, _ = sides[-2].cut(len(middle) - 1)  # "Five plus five is ten, and one more is what?"
            yield _statement(speech, sequence, Claim((*sides[:-2], told), tuple(signs[:-1])), False)
            sides, signs = sides[-2:], signs[-1:]
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
            if tried is None or (len(tried) == 1 and _better(reading, tried, speech.text)):
                tried = reading
            if all(claim.broken() is None for claim in reading):
                chosen = reading
                break
        if chosen is None and _of_both(sides, speech.text):
            left, right = sides
            tried = [Claim((half, right), tuple(signs)) for half in left.cut(len(left.terms) // 2)]
        elif chosen is None:
            parted = parted_at_pauses(sequence, speech.text)
            if parted is not None and (asked or not parted or _fewer_broken(parted, tried or [])):
                tried = parted
        for claim in chosen or tried or []:
            yield _statement(speech, sequence, claim, asked)


_BROKEN_OFF = re.compile(
    r" (?:plus|minus|and|take away) (?:[,.?¶§]|(?:which|what|how|some|something|a (?:little |tiny )?(?:bit|something)|an? (?:addend|number|part)) )|"
    r" (?:plus|minus) (?:the|my|our|your|his|her|its) (?!#|other|same|last|first|next|new|old|second)[a-z]+ "  # "Ten equals eight plus the bag."
)  # "Nine equals six plus...", "Six plus seven is the same as twelve plus a little bit. Which bit?"
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
    if len(terms) < 2 or any(join in EQUALS for join in joins):
        return None
    return Claim((Side(terms, joins), last.sides[-1]), (last.signs[-1],))


def _may_part(join: Join, between: str, terms: Sequence[Term], joins: Sequence[Join], at: int) -> bool:
    """Whether one saying may end before term `at`: at a pause, but not between an amount that is worked out and its
    result ("eight and two, that is ten")."""
    if not any(f" {mark} " in f" {between} " for mark in (",", ".", "?")):
        return False
    if join not in EQUALS:
        return True
    start = max((index for index in range(1, at) if joins[index - 1] in EQUALS), default=0)
    plain = at - start == 1 and terms[start].shape == "number"
    weak = _WEAK.match(between) is not None
    if start or at - start == 1:  # something has been set equal already, or one amount stands alone
        worked_out = terms[start].fact and terms[start].shape in ("difference", "sum") and terms[at].shape == "number"
        # "I take away 5 from 38, and I have 33" is one saying
        return plain or (weak and not worked_out) or " . " in between
    return plain or (weak and " . " in between)


def _claim(terms: tuple[Term, ...], joins: tuple[Join, ...], text: str) -> Claim | None:
    sides, signs = split(Sequence_(terms, joins, terms[0].start, terms[-1].end))
    if not signs or trivial(sides, signs, text) or is_row(sides[0]):
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


def _of_both(sides: Sequence[Side], text: str) -> bool:
    """Whether two sums are told to come to the same ("Seven plus five and five plus seven both come to twelve")."""
    left, right = sides[0], sides[-1]
    return (
        len(sides) == 2
        and len(left.terms) > 2
        and len(left.terms) % 2 == 0
        and " both " in text[left.terms[-1].end : right.terms[0].start]
    )


def _better(reading: list[Claim], than: list[Claim], text: str) -> bool:
    """Whether a false reading tells the teacher more: a list of partners is told pair by pair, and what comes behind a sum and a comma
    is told beside it ("Six and six make eight, and eight can stay.")."""
    if len(reading) != len(than):
        return len(reading) > len(than)
    (one,), (other,) = reading, than
    left, last = other.sides[0], other.sides[-1]
    return (
        one.sides[:-1] == other.sides[:-1]
        and (len(left.terms) > 1 or left.terms[0].fact)
        and len(last.terms) > 1
        and " , " in text[last.terms[0].end : last.terms[1].start]
        and one.sides[-1] == last.cut(1)[0]
        and one.sides[-1].single
    )


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
    if any(sign in COMPARES for sign in claim.signs):
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
