"""Where a count or a need is announced, what follows must get there: "count on from seven to nine", "how many more to get
to eight?", "we need three more to make ten", "one less is thirteen"."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.hops import further_down
from studio.agree.looks import counts
from studio.agree.wording import row
from studio.findings import Finding
from studio.talk.expressions import NOUN
from studio.talk.model import Number, Statement
from studio.talk.numbers import PLURALS

NAME = "gets where it is to go"

_FROM = re.compile(
    r"(?:count|counting|counted|counts|start|starting|begin|beginning|go|hop|jump|go on|keep going|carry on) "
    r"(?:(?:on|up|back|backwards?|down|forward|forwards|with me|again|together|by ones|by fives|by twos|by tens|counting|at|,) )*"
    r"(?:from|at|with|on) (?:the )?(?:number )?(#)(?! (?:fives|tens|twos|bundles|groups) )(?: [a-z]+)?(?: (?:(?:all the way |up |back |down |on |until |we |you |get )*to|(?:, )?(?:and )?(?:go |keep going |count )?(?:until|till)(?: we| you)?(?: get to| reach| are at| land on)?) (?:the )?(?:number )?(#))?(?= [.,?¶])"
)
_FROM_TO = re.compile(  # "From thirty, by fives, to fifty.", "by tens, from ten up to sixty", "From eight to twelve is nine, ten, ..."
    r"(?:(?<=[.?¶§] )|(?<=by ones , )|(?<=by twos , )|(?<=by fives , )|(?<=by tens , ))from (#)(?: ,)?(?: by (?:ones|twos|fives|tens) ,)?"
    r" (?:all the way |up |on |back |down )*to (#)(?= [.,]| is # , # )"
)
_AT_A_TIME = re.compile(r"(#)(?: [a-z]+)? at a time(?= [.,])")
_SUPPOSING = 4  # words
_DENIED = re.compile(r" (?:not|never|no need|without|instead of)(?: (?:need|have|want|going))?(?: to)? $")
_TAKEN = re.compile(r"#(?: [a-z]+s)?(?: (?:must|will|can|should|have to|has to|need to|are to))? $")
_LONGEST_DENIAL = 24  # characters
_FEWEST = 3  # numbers of a count
_COUNT_ON = re.compile(r"(?:count\w*|hop|jump|go) on #")
_TO = re.compile(
    r"count(?:ing)?(?: (?:on|up|with me|together|all the way|by ones|by fives|by twos|by tens))* to (#)(?= [.,?¶])"
)
_GOAL = re.compile(
    rf"how many more(?:{NOUN}| do| does| we| you| i| it| to| need| must| will| are| needed| the| would| frogs| can| she| he| they| for| until| add| draw| fill| put| in| have| should| take| there| get| make| is| be| come| hop| on| order)*?"
    rf" (?:to get to|to make|to reach|to fill|to have|get to|make|reach|until we have|until we get to|to become|to be|for)(?: (?:a|an|the|up to|a full|all))* (#)(?:{NOUN})(?= [?.,])"
)
_NEED = re.compile(
    rf"(?:it|we|you|i|he|she|they|that|frame|this|row|there|just|so|still|frogs|ducks) (?:still |only |will |would )?(?:needs?|takes|is missing|are missing|want|must add|have to add|must have) (?:only |another )?(#)(?! and){NOUN}(?: more)?{NOUN} "
    rf"(?:to (?:get (?:up )?to|make|reach|have|fill|fill up|be|get|become)|for|until (?:it has|we have|there are|we get to))(?: (?:a|an|the|up to|a full|all))* (#)(?= [.,])"
)
_MORE_MAKES = re.compile(
    rf"[.,¶§] (?:and |so |but |now |yes |right |good |, )*(#)(?: more| others?) (?:{NOUN} )?(?:makes?|will make|would make|gets (?:us|you) to|fills?|makes it|is) (?:a |the |up |full )*(#)(?= [.,])"
)


_MOVES = frozenset("hop hops jump jumps leap leaps step steps skip skips more on back forward".split())


def find(case: Case) -> Iterator[Finding]:
    yield from _counts(case)
    yield from _goals(case)
    yield from _needs(case)


def number_rows(case: Case) -> list[list[Number]]:
    """Rows of two or more number words with nothing but pauses between them."""
    cached = case.__dict__.get("_rows_of_numbers")
    if cached is not None:
        return cached  # type: ignore[no-any-return]
    found: list[list[Number]] = []
    for number in case.counted:
        if found and found[-1][-1].end == number.start:
            found[-1].append(number)
        else:
            found.append([number])
    rows = [trimmed for numbers in found if len(trimmed := _trimmed(case, numbers)) > 1]
    case.__dict__["_rows_of_numbers"] = rows
    return rows


def _trimmed(case: Case, numbers: list[Number]) -> list[Number]:
    """Without a last number that begins another sentence ("nine, ten. Six and four ...")."""
    words = case.talk.words
    last = numbers[-1]
    if len(numbers) > 1 and last.end < len(words) and words[last.end - 1].text[-1:].isalnum():
        before = words[numbers[-2].end - 1]
        if before.sentence != words[last.start].sentence:
            return numbers[:-1]
    return numbers


def _next_row(case: Case, position: int, sentences: int) -> list[Number] | None:
    """The first row of two or more numbers from word `position` on, within so many sentences of the same segment."""
    rows = number_rows(case)
    index = bisect_left(rows, position, key=lambda numbers: numbers[-1].start)
    for numbers in rows[index : index + 2]:
        rest = [number for number in numbers if number.start >= position]
        if len(rest) < 2:
            continue
        here, there = case.sentence_index(position - 1), case.sentence_index(rest[0].start)
        same = case.sentences[there].segment == case.sentences[here].segment
        return rest if same and there - here <= sentences else None
    return None


def _counts(case: Case) -> Iterator[Finding]:
    text = case.talk.speech.text
    yield from _from_to(case)
    yield from _at_a_time(case)
    if "count" not in text and " from #" not in text and " at #" not in text and " hop" not in text:
        return
    for match in _FROM.finditer(text):
        begin = case.talk.speech.number_at[match.start(1)]
        end = case.talk.speech.number_at[match.start(2)] if match[2] else None
        last = end or begin
        if _COUNT_ON.match(match[0]) or case.asks(case.sentences[case.sentence_index(begin.start)]):
            continue  # "Start at four and count on three", "Hop on four", "Do I start on two?"
        if case.says(begin.start - _SUPPOSING, begin.start, ("could", "might", "would", "needn't")):
            continue  # "You could count from one. I start at five."
        if _DENIED.search(text[max(0, match.start() - _LONGEST_DENIAL) : match.start()]):
            continue  # "We do not need to begin at one"
        found = _next_row(case, last.end, 3)
        if found is None:
            continue
        values = [number.value for number in found]
        if len(values) == 2 and abs(values[1] - values[0]) not in (1, 2, 5, 10):
            continue
        if _by_a_step(case, found, begin.value) or _for_themselves(case, begin, found):
            continue
        # a row may begin with an answer or an echo: look for the start in it
        step = values[-1] - values[-2]
        if abs(step) not in (1, 2, 5, 10):
            continue
        base = _base(case, found)
        ones = (values[0] - step if base is None else base) % 10
        before = text[max(0, match.start() - _LONGEST_DENIAL) : match.start()]
        if begin.value == ones and match[0].startswith("go from") and _TAKEN.search(before):
            continue  # "Sixteen is ten and six. Five must go from the six, fifteen, fourteen, …": they are taken
        if base is not None and end is None and begin.value not in ({base} if base else {0, 1}):
            yield _finding(case, begin, f"You say to count from {begin.value}, but the picture goes on from {base}.",
                           f"Count from {base}.")  # fmt: skip
            continue
        firsts = {values[0], values[1], values[0] - step, values[1] - step, values[1] - 2 * step}
        if begin.value not in firsts:
            yield _finding(case, begin, f"You say to count from {begin.value}, and the count is {_told(values)}.",
                           f"Count from {values[0]}, or say {begin.value} first.")  # fmt: skip
        elif end is not None and end.value not in values[-2:]:
            yield _finding(case, end, f"You say to count to {end.value}, and the count is {_told(values)}.",
                           f"Count to {end.value}, or say {values[-1]}.")  # fmt: skip
    for match in _TO.finditer(text):
        end = case.talk.speech.number_at[match.start(1)]
        found = _next_row(case, end.end, 2)
        if found is None or len(found) < 3:
            continue
        values = [number.value for number in found]
        if end.value not in values[-2:] and end.value < 21:
            yield _finding(case, end, f"You say to count to {end.value}, and the count is {_told(values)}.",
                           f"Count to {end.value}, or say {values[-1]}.")  # fmt: skip


def _for_themselves(case: Case, begin: Number, numbers: list[Number]) -> bool:
    """Whether hops or what comes is counted from one, perhaps after how many they are ("Start at seven. Jump three: one, two,
    three.")."""
    values = [number.value for number in numbers]
    if values[0] == values[-1] and len(values) > 2:
        values = values[1:]
    return values == [*range(1, len(values) + 1)] and case.says(begin.end, numbers[0].start, _MOVES)


def _by_a_step(case: Case, numbers: list[Number], begin: int) -> bool:
    """Whether the first of two numbers is by how much the second is away from `begin` ("I start from ten and bump it up
    by one. Eleven.")."""
    step, *rest = numbers
    by = case.says(step.start - 1, step.start, ("by",))
    return by and len(rest) == 1 and abs(rest[0].value - begin) == step.value


def _from_to(case: Case) -> Iterator[Finding]:
    """The two ends of a count that is announced without a word for counting, and follows at once."""
    speech = case.talk.speech
    for match in _FROM_TO.finditer(speech.text):
        begin, end = speech.number_at[match.start(1)], speech.number_at[match.start(2)]
        found = _next_row(case, end.end, 2)
        if found is None or len(found) < _FEWEST or case.numbers_between(end.end, found[0].start):
            continue
        values = [number.value for number in found]
        step = _steady(values)
        if step is None:
            continue
        right_end = end.value == values[-1]
        if begin.value not in (values[0], values[0] - step) and right_end:
            yield _finding(case, begin, f"You say to count from {begin.value}, and the count is {_told(values)}.",
                           f"Count from {values[0]}, or say {begin.value} first.")  # fmt: skip
        elif begin.value in (values[0], values[0] - step) and not right_end and end.value != values[-1] + step:
            yield _finding(case, end, f"You say to count to {end.value}, and the count is {_told(values)}.",
                           f"Count to {end.value}, or say {values[-1]}.")  # fmt: skip


def _steady(values: list[int]) -> int | None:
    """The step of a count by ones, twos, fives or tens; None where its steps differ."""
    step = values[1] - values[0]
    even = abs(step) in (1, 2, 5, 10) and all(b - a == step for a, b in itertools.pairwise(values))
    return step if even else None


def _at_a_time(case: Case) -> Iterator[Finding]:
    """ "Two at a time. Two, four, six, eight." """
    speech = case.talk.speech
    if " at a time " not in speech.text:
        return
    for match in _AT_A_TIME.finditer(speech.text):
        number = speech.number_at[match.start(1)]
        found = _next_row(case, number.end, 1)
        if number.value < 2 or found is None or len(found) < _FEWEST:
            continue  # things are put down one at a time, whatever each of them is worth
        values = [other.value for other in found]
        step = _steady(values)
        if step is None:
            continue
        if number.value != abs(step) and not (abs(step) == 1 and number.value < len(values)):
            yield _finding(case, number, f"You say {number.value} at a time, and the count is {_told(values)}.",
                           f"Say {abs(step)} at a time, or count by {number.value}.")  # fmt: skip


def _base(case: Case, numbers: list[Number]) -> int | None:
    """What was there before a count that a picture follows; None where none follows it."""
    for count in case.bound_counts:
        if count.words and numbers[0].start <= count.words[0] <= numbers[-1].start:
            return count.base
    return None


def _told(values: list[int]) -> str:
    return ", ".join(map(str, values if len(values) < 9 else [*values[:4], "…", *values[-3:]]))


def _goals(case: Case) -> Iterator[Finding]:
    """ "How many more to get to eight?" is followed by a count that ends there, or a statement with that whole."""
    text = case.talk.speech.text
    for match in _GOAL.finditer(text):
        goal = case.talk.speech.number_at[match.start(1)]
        if case.covering.get(goal.start):
            continue
        following = case.talk.words[goal.end].plain if goal.end < len(case.talk.words) else ""
        aim = goal.value * PLURALS.get(following, 1)  # "until we have four tens"
        reached = _reached(case, goal)
        if reached is None or aim in reached[0] or _answered(case, goal, aim):
            continue
        yield _finding(case, goal, f"You ask how many more to get to {aim}, and what follows gets to "
                       f"{row(sorted(reached[0]), 'or')} (“{reached[1]}”).",
                       f"Ask how many more to get to {min(reached[0])}.")  # fmt: skip


def _answered(case: Case, goal: Number, aim: int) -> bool:
    """Whether the first number said after it leads from what is there to the goal; where what is missing is counted
    ("How many more for twenty? Count the empty boxes. One, two, three, four."), the last of the count."""
    index = case.sentence_index(goal.start)
    seen = _there(case, goal)
    for sentence in case.sentences[index + 1 : index + 5]:
        if sentence.numbers:
            values = sentence.values
            counted = values == tuple(range(1, len(values) + 1))
            return any(there + values[-1 if counted else 0] == aim for there in seen)
    return False


def _reached(case: Case, goal: Number) -> tuple[set[int], str] | None:
    """Where the next count or the next statement about a whole gets to."""
    segment = case.talk.words[goal.start].segment
    here = case.sentence_index(goal.start)
    statements = case.talk.statements
    index = bisect_left(statements, goal.end, key=lambda statement: statement.start)
    row_ = _next_row(case, goal.end, 6)
    for statement in statements[index : index + 8]:
        if case.talk.words[statement.start].segment != segment or case.sentence_index(statement.start) - here > 8:
            break
        if row_ is not None and row_[0].start < statement.start:
            break
        if statement.holds is None:
            continue
        found = whole_of(statement)
        if found is not None:
            return found, statement.said
    if row_ is not None:
        values = [number.value for number in row_]
        step = values[-1] - values[-2]
        if step in (1, 2, 5, 10) and all(b - a == step for a, b in itertools.pairwise(values)):
            return {values[-1]}, _told(values)
        if len(values) > 2 and values[-2] - values[-3] in (1, 2, 5, 10):
            return {values[-1], values[-2]}, _told(values)
    return None


def whole_of(statement: Statement) -> set[int] | None:
    """The whole that a statement is about; None where it is about none."""
    match statement.kind:
        case "unknown part" | "partners" | "parts of a whole" | "sum":
            return {statement.values[-1]}
        case "parts":
            return {statement.values[0]}
        case kind if kind.startswith("count on"):
            return {statement.values[-1]}
        case _:
            return None


def _needs(case: Case) -> Iterator[Finding]:
    """ "We need three more to make ten": seven must be there."""
    speech = case.talk.speech
    for pattern in (_NEED, _MORE_MAKES):
        for match in pattern.finditer(speech.text):
            need, goal = speech.number_at[match.start(1)], speech.number_at[match.start(2)]
            if need.value == 1 and " less " in speech.text[max(0, match.start() - 40) : match.start()]:
                continue  # "one less is thirteen, and one more is fifteen": both of a third number
            if any(s.holds is not None and s.kind != "question" for s in case.covering.get(goal.start, ())):
                continue
            there = goal.value - need.value
            known = _there(case, need)
            if not known or there in known or further_down(case, need, goal):
                continue
            if there < 0:
                yield _finding(case, need, f"{need.value} more is already more than {goal.value}.",
                               "Change one of the two numbers.")  # fmt: skip
                continue
            yield _finding(case, need, f"{need.value} more to make {goal.value} needs {there} to be there; there is "
                           f"{row(sorted(known)[:4], 'or')}.",
                           f"From {max(known)} to {goal.value} it is {goal.value - max(known)}."
                           if goal.value >= max(known) else "Change one of the two numbers.")  # fmt: skip


def _there(case: Case, number: Number) -> set[int]:
    """What is there: on the screen, or said in this sentence before the number or in the two sentences before."""
    index = case.sentence_index(number.start)
    sentence = case.sentences[index]
    known: set[int] = set()
    for appearance in case.on_screen(sentence.start, sentence.end):
        known |= counts(appearance.picture)
    for earlier in case.sentences[max(0, index - 2) : index]:
        if earlier.segment == sentence.segment:
            known |= set(earlier.values)
    known |= {other.value for other in sentence.numbers if other.start < number.start}
    return known


def _finding(case: Case, number: Number, message: str, instead: str) -> Finding:
    sentence = case.sentences[case.sentence_index(number.start)]
    level = "note" if case.is_excused(sentence.start, sentence.end) else "error"
    place = f"Line {number.line}: " if number.line else ""
    return Finding(NAME, level, number.line, number.column, number.text, "", place + message, instead)  # type: ignore[arg-type]
