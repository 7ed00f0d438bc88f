"""A number that is said has something to do with what is said or shown around it: it stands in a true statement, a count or a question, it can be seen on the screen, or it is
said again. A number that nothing explains is a slip; where nothing is on the screen then or the sentence only supposes or
asks something ("If I gave you two more"), it may be one, and the finding is a note."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.looks import counts, essential, visible
from studio.agree.rules.goals import number_rows
from studio.agree.wording import SUPPOSED, UNITS, evaluate, row
from studio.findings import Finding, Level
from studio.talk.model import Number

NAME = "number is explained"
_LABELS = frozenset(
    "lesson grade page day number step part unit week chapter question problem room year age aged episode level".split()
)
_INTERJECTIONS = frozenset(
    "yes yep right good great so and oh wow now look hooray hmm okay see well ready exactly correct there it's that's "
    "that is it makes we have get got the answer is i again together altogether in all super nice".split()
)


def find(case: Case) -> Iterator[Finding]:
    if not case.pictures:
        return
    bound = {moment.word for moment in case.stage.moments if moment.counted}
    counting = {
        position
        for statement in case.talk.statements
        if statement.kind.startswith("count")
        for position in range(statement.start, statement.end)
    }
    for numbers in number_rows(case):
        for before, after in itertools.pairwise(numbers):
            if abs(after.value - before.value) in (1, 2, 5, 10) and len(numbers) <= 3:
                counting |= {before.start, after.start}
    in_stories = {  # what a story tells is laid against its question, pictures and answer by the rules about stories
        number.start
        for story in case.talk.stories
        if story.answer is not None
        for number in case.counted[
            bisect_left(case.number_starts, story.start) : bisect_left(case.number_starts, story.end)
        ]
        if number.value in story.told
    }
    shown_in: dict[int, bool] = {}
    for appearance in case.pictures:
        shown_in[appearance.moment.direction.segment] = True
    for index, sentence in enumerate(case.sentences):
        if not sentence.numbers or not shown_in.get(sentence.segment):
            continue
        if case.is_excused(sentence.start, sentence.end):
            continue
        for number in sentence.numbers:
            if (
                number.start in bound
                or number.start in counting
                or number.start in in_stories
                or _labelled(case, number)
            ):
                continue
            covering = [s for s in case.covering.get(number.start, ()) if s.kind not in ("greater", "less", "unequal")]
            if any(s.holds is not None or s.answered is not None for s in covering):
                continue
            if _lone(case, sentence, number):
                allowed = _seen_or_echoed(case, index)
                allowed |= case.topics.get(sentence.segment, set())
                if number.value in allowed or not allowed:
                    continue
            else:
                if (number.value <= 1 and not covering) or _said_near(case, index, number):
                    continue
                allowed = _visible(case, index)
                if number.value in allowed or _one_step(case, index, number):
                    continue
            if _digit(case, index, number):
                continue
            certain = bool(case.on_screen(sentence.start, sentence.end)) and not any(
                case.talk.words[at].plain in SUPPOSED for at in range(sentence.start, sentence.end)
            )
            certain = certain and not (guessed(case, sentence) or _bridges(case, sentence, number))
            yield _finding(case, number, allowed, "error" if certain else "note")


def guessed(case: Case, sentence: Sentence) -> bool:
    """Whether it asks if a number is right ("Is it six?")."""
    words = case.talk.words
    return "?" in words[sentence.end - 1].text and words[sentence.start].plain in _GUESSES


def _bridges(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether it is the step from a number on the screen to another in its sentence ("Take away 2 to get to ten")."""
    seen = {
        value for appearance in case.on_screen(sentence.start, sentence.end) for value in essential(appearance.picture)
    }
    return any(
        abs(value - other.value) == number.value for value in seen for other in sentence.numbers if other is not number
    )


_GUESSES = frozenset("is are was could can might may do does would or".split())


def _digit(case: Case, index: int, number: Number) -> bool:
    """Whether it is the tens or the ones of a number that is said or seen near it ("It has six tens")."""
    words = case.talk.words
    thing = words[number.end].plain if number.end < len(words) else ""
    if thing not in ("tens", "ones"):
        return False
    segment = case.sentences[index].segment
    near = set(_visible(case, index))
    for other in case.sentences[max(0, index - _NEAR) : index + _NEAR + 1]:
        if other.segment == segment:
            near |= set(other.values)
    return any((value // 10 if thing == "tens" else value % 10) == number.value for value in near if value > 9)


def _said_near(case: Case, index: int, number: Number) -> bool:
    """Whether the same number is said again in the four sentences before or after."""
    segment = case.sentences[index].segment
    return any(
        other.value == number.value and other is not number
        for sentence in case.sentences[max(0, index - _NEAR) : index + _NEAR + 1]
        if sentence.segment == segment
        for other in sentence.numbers
    )


_NEAR = 4


def _labelled(case: Case, number: Number) -> bool:
    """A number of minutes, of a lesson, of ways to do it: it counts nothing that is shown."""
    words = case.talk.words
    after = words[number.end].plain if number.end < len(words) and words[number.end - 1].text[-1:].isalnum() else ""
    second = words[number.end + 1].plain if after and number.end + 1 < len(words) else ""
    before = words[number.start - 1].plain if number.start else ""
    return after in UNITS or (second in UNITS and after not in ("more", "and", "is")) or before in _LABELS


def _lone(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether the sentence says nothing but this number ("Fourteen!", "Yes, fourteen.")."""
    words = case.talk.words
    return len(sentence.numbers) == 1 and all(
        words[position].plain in _INTERJECTIONS
        for position in range(sentence.start, sentence.end)
        if not number.start <= position < number.end
    )


def _seen_or_echoed(case: Case, index: int) -> set[int]:
    sentence = case.sentences[index]
    found: set[int] = set()
    end = sentence.end + 1
    for appearance in case.on_screen(sentence.start, end):
        found |= counts(appearance.picture)
    for other in (index - 2, index - 1, index + 1):
        if 0 <= other < len(case.sentences) and case.sentences[other].segment == sentence.segment:
            found |= set(case.sentences[other].values)
    position = bisect_left(case.talk.statements, sentence.start, key=lambda statement: statement.start)
    for statement in case.talk.statements[max(0, position - 3) : position]:
        found |= {
            value for side in re.split("[=<>≠]", statement.written) if (value := evaluate(side.strip())) is not None
        }
    return found


def _visible(case: Case, index: int) -> set[int]:
    """What can be seen during the sentence, the one before and the two after it."""
    segment = case.sentences[index].segment
    first, last = index, index
    if index and case.sentences[index - 1].segment == segment:
        first = index - 1
    while last < min(index + 2, len(case.sentences) - 1) and case.sentences[last + 1].segment == segment:
        last += 1
    found: set[int] = set()
    for appearance in case.on_screen(case.sentences[first].start, case.sentences[last].end + 1):
        found |= visible(appearance.picture)
    return found


def _one_step(case: Case, index: int, number: Number) -> bool:
    """Whether the number is the sum or the difference of two that are said in its sentence or the one before."""
    sentence = case.sentences[index]
    around: list[int] = []
    for other in (index - 1, index, index + 1):
        if 0 <= other < len(case.sentences) and case.sentences[other].segment == sentence.segment:
            around += [n.value for n in case.sentences[other].numbers if n is not number]
    return any(number.value in (a + b, abs(a - b)) for i, a in enumerate(around) for b in around[i + 1 :])


def _finding(case: Case, number: Number, allowed: set[int], level: Level) -> Finding:
    return Finding(
        NAME,
        level,
        number.line,
        number.column,
        number.text,
        "",
        f"Line {number.line} says {number.value}, and nothing that is said or shown around it is {number.value}.",
        f"Check it: around it there is {row(sorted(allowed)[:8], 'or')}." if allowed else "Check this number.",
    )
