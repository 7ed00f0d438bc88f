"""Facts about a whole and its parts: a bond or a number sentence, with a ? for what is asked until it is said.

Everything that is said about one fact within some sentences is one telling: its question, its answer, its statement. A
telling has at most one bond (for talk of parts) and one number sentence (for plus, minus, equals).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from studio.suggest.comparing import pair_of
from studio.suggest.ideas import MARKS, Change, Idea, Part
from studio.suggest.stories import bond_details, told_by_stories
from studio.suggest.waits import is_asked
from studio.talk.model import Number, Statement

SIGNS = frozenset("plus minus equals equal + - − = ".split())
_REACH = 70
"""Words within which a fact that is said again belongs to the same telling."""
_LARGEST = 120
_COMPARED = frozenset({"more than", "less than"})
_JOINS = frozenset({"+", "-", "−", "plus", "minus", "and", "take away"})
_ALONE = 3
"""Words of a sentence that says a number and nothing else."""
_LOOK_BACK = 40
"""Words before a sum within which it may be asked for ("8 + 6.")."""
_KINDS = frozenset(
    {
        "sum", "difference", "unknown part", "partners", "parts", "parts of a whole", "near double", "half", "question",
        "more than", "less than", "equal", "groups",
    }
)  # fmt: skip
_FACT = re.compile(r"\d+(?: [+-] \d+)* = \d+|\d+ = \d+(?: [+-] \d+)*")


@dataclass(frozen=True, slots=True)
class Fact:
    """`whole` and `parts` in the order said; `sentence` in signs, with the side that has the sign first ("7 + 2 = 9")."""

    whole: int
    parts: tuple[int, ...]
    sentence: str
    takes: bool

    @property
    def key(self) -> tuple[int, tuple[int, ...]]:
        """The same for every way to say the fact."""
        return self.whole, tuple(sorted(self.parts))


@dataclass(slots=True)
class _Telling:
    key: tuple[int, tuple[int, ...]]
    said: list[tuple[Statement, Fact]] = field(default_factory=list)


def fact_of(statement: Statement) -> Fact | None:
    """The fact that a statement or a question with its answer tells; None for any other."""
    if statement.kind not in _KINDS or isinstance(statement.expected, bool) or statement.holds is False:
        return None
    written = statement.written
    if statement.kind == "question":
        if statement.expected is None:
            return None
        written = written.replace("?", str(statement.expected))
    elif statement.kind == "half" and len(statement.values) == 2:
        written = f"{statement.values[1]} + {statement.values[1]} = {statement.values[0]}"
    elif statement.kind == "groups" and len(statement.values) == 3 and 2 <= statement.values[0] <= 5:
        many, size, whole = statement.values
        if size in (5, 10):
            return None  # tallies and lines of ten show it
        written = f"{' + '.join([str(size)] * many)} = {whole}"
    elif statement.holds is not True:
        return None
    return _read(written.replace(" × 1 ", " ").removesuffix(" × 1"))


def _read(written: str) -> Fact | None:
    if not _FACT.fullmatch(written):
        return None
    left, right = written.split(" = ")
    alone, terms = (left, right) if left.isdigit() and not right.isdigit() else (right, left)
    tokens = terms.split(" ")
    numbers = [int(token) for token in tokens[::2]]
    result, signs = int(alone), set(tokens[1::2])
    if not 2 <= len(numbers) <= 4 or max(*numbers, result) > _LARGEST:
        return None
    if signs == {"+"} and sum(numbers) == result:
        return Fact(result, tuple(numbers), f"{terms} = {alone}", False)
    if signs == {"-"} and len(numbers) == 2 and numbers[0] - numbers[1] == result:
        return Fact(numbers[0], (numbers[1], result), f"{terms} = {alone}", True)
    return None


def propose(part: Part) -> Iterator[Idea]:
    """Pictures for every fact that is told."""
    tellings = list(_tellings(part))
    wholes: dict[int, int] = {}
    for telling in tellings:
        if not telling.said[0][1].takes:
            wholes[telling.key[0]] = wholes.get(telling.key[0], 0) + 1
    for telling in tellings:
        yield from _pictures(part, telling, wholes.get(telling.key[0], 0) > 2)


def _tellings(part: Part) -> Iterator[_Telling]:
    open_ones: dict[tuple[int, tuple[int, ...]], _Telling] = {}
    told = told_by_stories(part)
    for statement in part.statements:
        fact = fact_of(statement)
        if fact is None or _is_neighbour(part, statement) or told(statement, fact.key):
            continue
        if statement.kind in _COMPARED and pair_of(part, statement) is not None:
            continue
        telling = open_ones.get(fact.key)
        if telling is None or statement.start - telling.said[-1][0].end > _REACH:
            if telling is not None:
                yield telling
            telling = open_ones[fact.key] = _Telling(fact.key)
        telling.said.append((statement, fact))
    yield from open_ones.values()


def _is_neighbour(part: Part, statement: Statement) -> bool:
    """ "What is one less than 17?" has a picture of its own."""
    return (
        statement.kind == "question"
        and statement.values[:1] == (1,)
        and len(statement.values) == 2
        and bool(part.plain(statement.start, statement.end) & {"more", "less", "before", "after"})
        and "than" in part.plain(statement.start, statement.end)
    )


def _pictures(part: Part, telling: _Telling, common: bool) -> Iterator[Idea]:
    first, fact = telling.said[0]
    asked = first if first.kind == "question" else None
    end = telling.said[-1][0].end
    topic = frozenset((fact.whole, *fact.parts))
    answer = _answer(part, asked, end) if asked is not None else None
    plain = next((item for item in telling.said if not _signed(part, *item)), None)
    signed = next((item for item in telling.said if _signed(part, *item)), None)
    if (joined := _drawn(part, telling, asked, answer, topic)) is not None:
        yield joined
    for item in (plain, signed):
        if item is None:
            continue
        statement, here = item
        until = part.sentence_of(end - 1).end
        if statement is first and asked is not None:
            if answer is None or not isinstance(asked.expected, int):
                continue
            hidden, found = asked.expected, answer.start
            start = part.begin(statement)
        else:
            start = _begin(part, statement, here)
            hidden, found = _last_said(part, statement, here, common)
            before = _asked_before(part, statement, here) if item is signed and len(here.parts) == 2 else None
            if before is not None:
                result = int(here.sentence.split(" = ")[1])
                said = part.numbers_in(part.sentence_of(before).end, statement.end)
                told = [number for number in said if number.value == result and number.start not in part.counted]
                if told:
                    alone = part.sentence_of(told[0].start)
                    early = told[0].start < statement.start and alone.end - alone.start <= _ALONE
                    start, hidden, found = before, result, told[0].start if early else told[-1].start
            elif statement is first and (wondered := _wondered(part, statement, here)) is not None:
                start, hidden, found = wondered
        shown, finished = (_bond if item is plain else _sentence)(here, hidden if found > start else None)
        changes = () if shown == finished else (Change(found, f"fill in {hidden}"),)
        if "-" in here.sentence and item is not plain:
            reason = "a difference is told"
        else:
            reason = f"the parts of {here.whole} are told" if item is plain else "a sum is told"
        kind = "number bond" if item is plain else "number sentence"
        idea = Idea(start, kind, shown, changes, until, topic, reason, 2)
        if item is plain and len(here.parts) <= 3:
            written, complete = _sentence(here, hidden if found > start else None)
            changes = () if written == complete else changes
            reason = "a sum is told"
            idea = replace(idea, instead=Idea(start, "number sentence", written, changes, until, topic, reason, 2))
        if start < part.begin(statement) and statement.kind != "question":  # where that does not do, without a question
            complete = finished if idea.kind == kind else shown
            idea = replace(idea, instead=replace(idea, word=part.begin(statement), details=complete, changes=()))
        yield idea
    for statement, here in telling.said:
        if statement.kind == "question":
            continue
        signs = _signed(part, statement, here)
        finished = here.sentence if signs else bond_details(here.whole, here.parts)
        yield Idea(_begin(part, statement, here), "number sentence" if signs else "number bond", finished, (),
                   part.sentence_of(statement.end - 1).end, topic, "it is told again", 1, again=True)  # fmt: skip
    if "cards" in part.heard and not fact.takes and len(fact.parts) == 2 and {"turn", "flip"} & part.heard:
        yield from _turned(part, telling, topic)


def _begin(part: Part, statement: Statement, fact: Fact) -> int:
    """Where the picture of a statement comes on; in a list of pairs ("seven is one and six, two and five") with its own
    pair."""
    said = part.numbers_in(statement.start, statement.end)
    if len(said) > len(fact.parts) + 1 and not fact.takes:
        return said[-len(fact.parts)].start
    return part.begin(statement)


def _signed(part: Part, statement: Statement, fact: Fact) -> bool:
    """Whether a statement is to be a number sentence: it is said with signs, takes away, or adds to a number."""
    if fact.takes or statement.kind in _COMPARED or statement.kind in ("near double", "groups"):
        return True
    words = part.plain(statement.start, statement.end)
    return bool(words & SIGNS) or (statement.kind == "sum" and "more" in words)


def _answer(part: Part, question: Statement, end: int) -> Number | None:
    """Where the answer to a question is said: where it is told, else the first time outside a count."""
    if not isinstance(question.expected, int):
        return None
    if question.answered is not None:
        for number in part.numbers_in(question.answered, question.answered + 1):
            if number.value == question.expected and number.start not in part.counted:
                return number
    ask = part.sentence_of(question.end - 1).end if part.asks(part.sentence_of(question.end - 1)) else question.end
    return part.said(ask, max(end, min(ask + _REACH, part.end)), question.expected)


def _last_said(part: Part, statement: Statement, fact: Fact, common: bool) -> tuple[int, int]:
    """The number that is to be ? until it is said, and the word where it is said."""
    said = part.numbers_in(statement.start, statement.end)
    values = (fact.whole, *fact.parts)
    last = next((number for number in reversed(said) if number.value in values), None)
    if last is None:
        return fact.whole, -1
    if statement.kind == "unknown part" and len(statement.values) == 3:
        needed = next((number for number in said[1:] if number.value == statement.values[1]), last)
        return needed.value, needed.start
    if statement.kind in _COMPARED:
        return (last.value, last.start) if not fact.takes and last.value == fact.whole else (last.value, -1)
    if fact.whole not in [number.value for number in said]:  # "9 + 5." or "three and seven"
        if statement.kind != "partners" or not _signed(part, statement, fact):
            return (last.value, last.start) if common or _is_known(part, statement, fact.whole) else (fact.whole, -1)
        later = part.said(statement.end, min(statement.end + _REACH, part.end), fact.whole)
        return (fact.whole, -1) if later is None else (fact.whole, later.start)
    if last.value != fact.whole or fact.takes:
        return last.value, -1 if _is_known(part, statement, last.value) else last.start
    common = (common or statement.kind == "partners") and not _signed(part, statement, fact)
    if not common and not _is_known(part, statement, fact.whole):
        return last.value, last.start
    parts = [number for number in said if number.value == fact.parts[-1] and number.start < last.start]
    if _signed(part, statement, fact) or not parts or parts[-1] is said[0]:
        return fact.whole, -1
    return parts[-1].value, -1 if _is_known(part, statement, parts[-1].value) else parts[-1].start


def _is_known(part: Part, statement: Statement, value: int) -> bool:
    """Whether a number is told just before the statement."""
    index = part.sentence_index(statement.start)
    begin = part.sentences[max(0, index - 2)].start
    return any(number.value == value for number in part.numbers_in(begin, statement.start))


def _asked_before(part: Part, statement: Statement, fact: Fact) -> int | None:
    """The sentence in which a sum stands alone before it is worked out ("15 - 7. Start at 15. ...")."""
    first, second = (int(token) for token in fact.sentence.split(" ")[:3:2])
    begin = max(part.start, statement.start - _LOOK_BACK)
    said = part.numbers_in(begin, statement.start)
    for one, other in pairwise(said):
        between_them = part.text(one.end, other.start)
        if (one.value, other.value) != (first, second) or between_them not in _JOINS:
            continue
        sentence = part.sentence_of(one.start)
        alone = other.end == sentence.end and len(sentence.numbers) == 2
        between = [fact_of(s) for s in part.statements_in(one.start, statement.start) if not s.kind.startswith("count")]
        if alone and not any(other_ is not None and other_.key != fact.key for other_ in between):
            return sentence.start
    return None


def _wondered(part: Part, statement: Statement, fact: Fact) -> tuple[int, int, int] | None:
    """A question just before that the statement sums up ("Who goes with 1? ... 6, of course. 1 and 6 make 7."): where it
    is asked, the number asked for, and where that is said."""
    index = part.sentence_index(statement.start)
    values = {fact.whole, *fact.parts}
    for sentence in reversed(part.sentences[max(0, index - 3) : index]):
        if set(sentence.values) - values:
            return None
        if not part.asks(sentence):
            continue
        said = [n for n in part.numbers_in(sentence.end, statement.start) if n.start not in part.counted]
        if not is_asked(part, sentence) or any(number.value not in values for number in said):
            return None
        found = next((number for number in said if number.value not in sentence.values), None)
        if found is None or (fact.takes and found.value != fact.parts[1]):
            return None
        return sentence.start, found.value, found.start
    return None


def _turned(part: Part, telling: _Telling, topic: frozenset[int]) -> Iterator[Idea]:
    """The cards of a pair are turned over as they are named."""
    statement, fact = telling.said[0]
    said = part.numbers_in(statement.start, part.sentence_of(statement.end - 1).end)
    changes = []
    for value in dict.fromkeys(fact.parts):
        word = next((number.start for number in said if number.value == value), None)
        if word is not None:
            changes.append(Change(word, f"turn over {value}"))
    if changes:
        changes.sort(key=lambda change: change.word)
        yield Idea(statement.start, "cards", "", tuple(changes), statement.end, topic, "the cards are used up", 1,
                   joins=True)  # fmt: skip


def _bond(fact: Fact, hidden: int | None) -> tuple[str, str]:
    """The bond as it comes on, with ? for what is hidden, and when it is finished."""
    finished = bond_details(fact.whole, fact.parts)
    if hidden is None:
        return finished, finished
    if hidden == fact.whole and hidden not in fact.parts:
        return bond_details(None, fact.parts), finished
    return bond_details(fact.whole, tuple(_without(fact.parts, hidden))), finished


def _without(parts: Sequence[int], hidden: int) -> list[int | None]:
    """The parts with ? for the last one of that number."""
    place = len(parts) - 1 - list(reversed(parts)).index(hidden) if hidden in parts else -1
    return [None if at == place else value for at, value in enumerate(parts)]


def _sentence(fact: Fact, hidden: int | None) -> tuple[str, str]:
    terms, result = fact.sentence.split(" = ")
    if hidden is None:
        return fact.sentence, fact.sentence
    if hidden == int(result):
        return f"{terms} = ?", fact.sentence
    tokens = terms.split(" ")
    places = [at for at, token in enumerate(tokens) if token == str(hidden)]
    if not places:
        return fact.sentence, fact.sentence
    tokens[places[-1]] = "?"
    return f"{' '.join(tokens)} = {result}", fact.sentence


def _drawn(
    part: Part, telling: _Telling, asked: Statement | None, answer: Number | None, topic: frozenset[int]
) -> Idea | None:
    """The part that comes or goes, in the frame or the dots that show what was there."""
    statement, fact = telling.said[0]
    if len(fact.parts) != 2 or fact.whole > 50:
        return None
    until = part.sentence_of(telling.said[-1][0].end - 1).end
    if any(
        s.kind.startswith("count") and fact.whole in (s.values[0], s.values[-1])
        for s in part.statements_in(statement.start, telling.said[-1][0].end)
    ):
        return None  # the count draws it
    if fact.takes:
        more = fact.parts[0]
        there, change = fact.whole, f"take away {more}"
        number = part.said(statement.start, statement.end, fact.parts[0])
    else:
        more = fact.parts[-1]
        if asked is not None and isinstance(asked.expected, int) and asked.expected in fact.parts:
            more = asked.expected
        there, change = fact.whole - more, f"add {more} {'cross' if more == 1 else 'crosses'}"
        number = answer if asked is not None and asked.expected == more else None
        if number is None and asked is None:
            found = [n for n in part.numbers_in(statement.start, statement.end) if n.value == more]
            if there == more:
                found = found[1:]
            if statement.kind == "unknown part":
                found = found[:1]
            number = found[-1] if found else None
    if number is None or not there or not more or number.start in part.counted:
        return None
    return Idea(statement.start, MARKS, str(there), (Change(number.start, change),), until, topic,
                "what is told is drawn", 3, joins=True)  # fmt: skip
