"""A number that is said has something to do with what is said or shown around it: it stands in a true statement, a count
or a question, it can be seen on the screen, or it is said again. A number that nothing explains is a slip; where nothing
is on the screen then, or the sentence only supposes something ("If I gave you two more"), it may be one, and the finding
is a note, unless the number comes nowhere else in the lesson."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import Case, Sentence
from studio.agree.looks import counts, essential, structure, visible
from studio.agree.rules.goals import number_rows
from studio.agree.rules.relative import relatives
from studio.agree.wording import UNITS, evaluate, row
from studio.findings import Finding, Level
from studio.pictures.kinds.text import Text
from studio.talk.expressions import STOP, term_at
from studio.talk.model import Number, Story

NAME = "number is explained"
_REACH = 6  # sentences of the same segment in which a number may be said or shown again
_MOST = 60  # numbers on either side
_LABELS = frozenset(
    "lesson grade page day number step part unit week chapter question problem room year age aged episode level job seat "
    "round story clue puzzle case station stop task riddle mission item exercise rule turn team trick scene act verse "
    "game try secret idea stage challenge lane line test sum picture past quarter".split()
)
_INTERJECTIONS = frozenset(
    "yes yep right good great so and oh wow now look hooray hmm okay see well ready exactly correct there it's that's "
    "that is it makes we have get got the answer is i again together altogether in all super nice only just".split()
)
_STRUCTURE = frozenset(  # what a number can be of in a picture that is made of rows, frames and groups
    "row rows frame frames box boxes space spaces square squares place places side sides part parts ten tens one ones group "
    "groups mark marks bundle bundles bead beads full dot dots top bottom row's line lines stick sticks across column "
    "columns pip pips die dice card cards picture pictures sum pair pairs hand hands each every more less between beside next after before "
    "step steps down up".split()
)


def find(case: Case) -> Iterator[Finding]:
    if not case.pictures:
        return
    settled = _settled(case)
    shown_in = {appearance.moment.direction.segment for appearance in case.pictures}
    everywhere = _everywhere(case)
    for index, sentence in enumerate(case.sentences):
        if not sentence.numbers or case.is_excused(sentence.start, sentence.end):
            continue
        # A welcome or a look back: its numbers come from the rest of the lesson.
        bare = sentence.segment not in shown_in
        for number in sentence.numbers:
            if number.start in settled or labelled(case, number) or case.talk.words[number.start].plain == "none":
                continue
            covering = [s for s in case.covering.get(number.start, ()) if s.kind not in ("greater", "less", "unequal")]
            if any(s.holds is not None or s.answered is not None or s.expected is True for s in covering):
                continue
            if bare and everywhere.get(number.value, 0) > 1:
                continue
            allowed = _allowed(case, index, sentence, number)
            if number.value in allowed or (number.value == 1 and _counts_something(case, number)):
                continue
            if number.value == 0 and _nothing(case, sentence):
                continue
            if (
                _digit(case, index, number)
                or _in_tens_and_ones(sentence, number)
                or _pair_of_whole(case, index, number)
            ):
                continue
            if _result_of_before(case, index, number):
                continue
            if is_lone(case, sentence, number) and (not allowed or _answers(case, index, number)):
                continue
            seen = any(
                not isinstance(appearance.picture, Text) and appearance.moment.direction.segment == sentence.segment
                for appearance in case.on_screen(sentence.start, sentence.end)
            )
            certain = not _denied(case, number) and not _conditional(case, sentence)
            novel = everywhere.get(number.value, 0) < 4 and not (bare and not _looks_back(case, sentence))
            certain = certain and (seen or novel)
            certain = certain and not _aside(case, number)
            certain = certain and not (_looks_back(case, sentence) and everywhere.get(number.value, 0) > 1)
            certain = certain and not _taken_back(case, index, sentence)
            certain = certain and not (guessed(case, sentence, number) or _bridges(case, sentence, number))
            yield _finding(case, number, allowed, "error" if certain else "note")


def _settled(case: Case) -> set[int]:
    """The first words of the numbers that other rules look at: steps of pictures, counts, stories, "one more is nine"."""
    found = {moment.word for moment in case.stage.moments if moment.counted}
    for statement in case.talk.statements:
        if statement.kind.startswith("count"):
            found.update(range(statement.start, statement.end))
    for numbers in number_rows(case):
        steps = {after.value - before.value for before, after in itertools.pairwise(numbers)}
        for before, after in itertools.pairwise(numbers):
            if abs(after.value - before.value) == 1 and len(numbers) <= 3:
                found |= {before.start, after.start}
        if len(steps) == 1 and steps <= ({1, -1, 10, -10} if len(numbers) == 2 else {1, -1, 2, -2, 5, -5, 10, -10}):
            found |= {number.start for number in numbers}
    for story in case.talk.stories:
        if story.answer is not None and _answered(case, story):
            inside = case.numbers_between(story.start, story.end)
            found.update(number.start for number in inside if number.value in story.told)
    for relative in relatives(case):
        found |= {relative.amount.start, relative.result.start}
    found |= _in_terms(case)
    return found


def _answered(case: Case, story: Story) -> bool:
    """Whether its answer is said or shown in its segment after it: then the rules about stories look after it."""
    segment = case.talk.words[story.start].segment
    end = case.segments[segment][1] if segment < len(case.segments) else len(case.talk.words)
    return any(number.value == story.answer for number in case.numbers_between(story.end, end)) or any(
        story.answer in essential(appearance.picture) for appearance in case.on_screen(story.start, end)
    )


def _in_terms(case: Case) -> set[int]:
    """The tens and the ones of a number that is said or shown near them ("we can trade: then it is 2 tens and 16 ones")."""
    speech = case.talk.speech
    found: set[int] = set()
    for offset, number in speech.number_at.items():
        if " ten" not in speech.text[offset : offset + 24] and " #" not in speech.text[offset + 1 : offset + 3]:
            continue
        term = term_at(speech, offset)
        if term is None or term.shape != "tens and ones" or term.value is None:
            continue
        inside = {other.start for other in speech.numbers_in(term.start, term.end)}
        if term.value in _near(case, case.sentence_index(number.start), number):
            found |= inside
    return found


def _everywhere(case: Case) -> dict[int, int]:
    """How often each number is said or shown in the whole lesson."""
    found: dict[int, int] = {}
    for number in case.counted:
        found[number.value] = found.get(number.value, 0) + 1
    for appearance in case.pictures:
        for value in appearance.shows:
            found[value] = found.get(value, 0) + 1
    return found


def _allowed(case: Case, index: int, sentence: Sentence, number: Number) -> set[int]:
    """The numbers that may be said here."""
    if is_lone(case, sentence, number):
        allowed = _seen_or_echoed(case, index)
    else:
        allowed = _near(case, index, number)
        for appearance in case.on_screen(*_around(case, index, 1, 2)):
            allowed |= visible(appearance.picture)
            if of_structure(case, number):
                allowed |= structure(appearance.picture)
    allowed |= case.topics.get(sentence.segment, set())
    if number.value == 0 and 0 not in _said_near(case, index, number) and not _zero_seen(case, index):
        allowed.discard(0)
    return allowed


def _nothing(case: Case, sentence: Sentence) -> bool:
    return case.has_word(sentence, ("no", "none", "nothing", "nobody", "empty"))


def _zero_seen(case: Case, index: int) -> bool:
    return any(0 in _zeros(appearance.picture) for appearance in case.on_screen(*_around(case, index, 2, 2)))


def _zeros(picture: object) -> tuple[int, ...]:
    """Where a zero can be read in a picture: in its numerals, or at the start of a path or a line."""
    return (*getattr(picture, "numbers", ()), getattr(picture, "start", 1))


def _around(case: Case, index: int, before: int, after: int) -> tuple[int, int]:
    """First and behind-last word of so many sentences around one, in its segment."""
    first, last = case.sentences_around(index, before, after)
    return case.sentences[first].start, case.sentences[last].end + 1


def _near(case: Case, index: int, number: Number) -> set[int]:
    """The other numbers said near it, and what the pictures near it are there to show."""
    start, end = _around(case, index, _REACH, _REACH)
    found = _said_near(case, index, number)
    for statement in case.statements_between(start, end):
        if statement.kind == "partners" and statement.holds:
            found.add(statement.values[-1])
    for appearance in case.on_screen(start, end):
        found |= appearance.shows
    return found


def _said_near(case: Case, index: int, number: Number) -> set[int]:
    """The other numbers said near it, at most so many on either side: in a sentence without an end, too, the time stays
    in proportion to the length."""
    start, end = _around(case, index, _REACH, _REACH)
    starts = case.number_starts
    at = bisect_left(starts, number.start)
    inside = case.counted[max(bisect_left(starts, start), at - _MOST) : min(bisect_left(starts, end - 1), at + _MOST)]
    return {other.value for other in inside if other is not number}


def _counts_something(case: Case, number: Number) -> bool:
    """Whether *one* stands before a word that it may belong to ("one poor frog"): more is not asked of it."""
    words = case.talk.words
    return number.end < len(words) and words[number.end - 1].text[-1:].isalnum()


def of_structure(case: Case, number: Number) -> bool:
    words = case.talk.words
    return any(word.plain in _STRUCTURE for word in words[max(0, number.start - 4) : number.end + 4])


def _denied(case: Case, number: Number) -> bool:
    """ "not seven"."""
    return any(word.plain in _NOT for word in case.talk.words[max(0, number.start - 3) : number.start])


_NOT = frozenset(
    "mistaken like too not isn't aren't wasn't never no nor don't can't cannot without instead of than".split()
)


def _conditional(case: Case, sentence: Sentence) -> bool:
    return case.has_word(sentence, ("if", "would", "wouldn't", "you'd", "expect", "imagine", "suppose", "pretend"))


def _looks_back(case: Case, sentence: Sentence) -> bool:
    """Whether it tells what the lesson had ("We have met nineteen")."""
    return case.has_word(sentence, _BACK)


_BACK = frozenset(
    "today met found learned learnt remember earlier yesterday seen saw did worked practised practiced".split()
)


def _taken_back(case: Case, index: int, sentence: Sentence) -> bool:
    """Whether it is a guess that is answered with no ("Seventeen? Oh no, you went up.")."""
    words = case.talk.words
    if "?" not in words[sentence.end - 1].text or index + 1 >= len(case.sentences):
        return False
    following = case.sentences[index + 1]
    return any(word.plain in ("no", "nope", "nay", "not") for word in words[following.start : following.start + 4])


def _aside(case: Case, number: Number) -> bool:
    """Whether it counts things that the lesson names nowhere else ("It gave me two kisses")."""
    words = case.talk.words
    things = []
    for position in range(number.end, min(number.end + 3, len(words))):
        if not words[position - 1].text[-1:].isalnum() or _FUNCTION.fullmatch(words[position].plain):
            break
        things.append(words[position].plain)
    if not things or set(things) & _STRUCTURE:
        return False
    return all(case.word_counts[thing.removesuffix("s")] < 2 for thing in things)


def _result_of_before(case: Case, index: int, number: Number) -> bool:
    """Whether it is what the question before it comes to ("And eight and nine? An extra note, therefore seventeen.")."""
    sentence = case.sentences[index]
    if not index or sentence.numbers[0] is not number:
        return False
    before = case.sentences[index - 1]
    if before.segment != sentence.segment or len(before.numbers) != 2:
        return False
    one, other = before.numbers
    between = {word.plain for word in case.talk.words[one.end : other.start]}
    if between & {"and", "plus", "+"}:
        return one.value + other.value == number.value
    return bool(between & {"minus", "-", "away"}) and one.value - other.value == number.value


def guessed(case: Case, sentence: Sentence, number: Number | None = None) -> bool:
    """Whether it asks if a number is right ("Is it six?")."""
    words = case.talk.words
    asked = "?" in words[sentence.end - 1].text
    if asked and number is not None and number.start > 1 and words[number.start - 1].plain in ("it", "be", "that"):
        return words[number.start - 2].plain in _GUESSES or words[sentence.start].plain in _GUESSES
    return asked and words[sentence.start].plain in _GUESSES


def _bridges(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether it is the step from a number on the screen to another in its sentence ("Take away 2 to get to ten")."""
    if not case.has_word(sentence, _STEPS):
        return False
    seen = {
        value for appearance in case.on_screen(sentence.start, sentence.end) for value in essential(appearance.picture)
    }
    return any(
        abs(value - other.value) == number.value for value in seen for other in sentence.numbers if other is not number
    )


_STEPS = frozenset("more less fewer away to from get take takes add".split())
_GUESSES = frozenset("is are was could can might may do does would or".split())


def _digit(case: Case, index: int, number: Number) -> bool:
    """Whether it is the tens or the ones of a number that is said or seen near it ("It has six tens")."""
    words = case.talk.words
    if any(word.plain in _PLACES for word in words[number.end : number.end + 4]):
        near = _near(case, index, number)
        return any(value > 9 and value % 10 == number.value for value in near)
    thing = next((word.plain for word in words[number.end : number.end + 4] if word.plain in ("tens", "ones")), "")
    if not thing:
        return False
    near = _near(case, index, number)
    return any((value // 10 if thing == "tens" else value % 10) == number.value for value in near if value > 9)


_PLACES = frozenset("end ends last digit digits place".split())  # "There is always a four at the end"


def _in_tens_and_ones(sentence: Sentence, number: Number) -> bool:
    """ "So is twelve: one ten and two ones"."""
    values = sentence.values
    return any(number.value == tens * ten + ones and ten == 10
               for tens, ten, ones in zip(values, values[1:], values[2:], strict=False))  # fmt: skip


def _pair_of_whole(case: Case, index: int, number: Number) -> bool:
    """Whether it makes with the number next to it one that is said or seen near them ("Eight and two, we know.")."""
    sentence = case.sentences[index]
    words = case.talk.words
    near: set[int] | None = None
    for one, other in itertools.pairwise(sentence.numbers):
        if number not in (one, other) or words[one.end : other.start] == ():
            continue
        between = [word.plain for word in words[one.end : other.start]]
        if len(between) > 3 or not {"and", "plus", "with"} & set(between):
            continue
        near = _near(case, index, number) | case.topics.get(sentence.segment, set()) if near is None else near
        if one.value + other.value in near:
            return True
    return False


def labelled(case: Case, number: Number) -> bool:
    """A number of minutes, of a lesson, of ways to do it, "a hundred times": it counts nothing that is shown."""
    words = case.talk.words
    after = words[number.end].plain if number.end < len(words) and words[number.end - 1].text[-1:].isalnum() else ""
    second = words[number.end + 1].plain if after and number.end + 1 < len(words) else ""
    before = words[number.start - 1].plain if number.start and words[number.start - 1].text[-1:].isalnum() else ""
    if before in _series(case):
        return True
    if (number.value >= 100 and number.text[:2].lower() == "a ") or number.value > 1000:
        return True  # "a hundred times", "Counting Machine 3000"
    return after in UNITS or (second in UNITS and after not in ("more", "and", "is")) or before in _LABELS


def _series(case: Case) -> frozenset[str]:
    """The words that number things in this lesson: they stand before one and before two ("Lot one! … Lot two!")."""
    cached: frozenset[str] | None = case.__dict__.get("_series")
    if cached is None:
        found: dict[str, set[int]] = {}
        words = case.talk.words
        for number in case.counted:
            if number.start and words[number.start - 1].text[-1:].isalnum() and number.value < 9:
                found.setdefault(words[number.start - 1].plain, set()).add(number.value)
        cached = frozenset(
            word
            for word, values in found.items()
            if {1, 2} <= values and not _FUNCTION.fullmatch(word) and len(word) > 2
        )
        case.__dict__["_series"] = cached
    return cached


_FUNCTION = re.compile(
    rf"{STOP}|only|just|another|number|add|hop|count|say|find|put|draw|nearly|almost|one|two|three|four|five|six|seven|"
    r"eight|nine|ten|like|about|first|every|each|back|start|them|him|were|you|always|until|than|between|double|dots?|cards?"
)


def is_lone(case: Case, sentence: Sentence, number: Number) -> bool:
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
        found |= {abs(there - here) for here, there in getattr(appearance.picture, "hops", ())}
    for other in (index - 2, index - 1, index + 1):
        if 0 <= other < len(case.sentences) and case.sentences[other].segment == sentence.segment:
            found |= set(case.sentences[other].values)
    position = bisect_left(case.talk.statements, sentence.start, key=lambda statement: statement.start)
    for statement in case.talk.statements[max(0, position - 3) : position]:
        found |= {
            value for side in re.split("[=<>≠]", statement.written) if (value := evaluate(side.strip())) is not None
        }
    return found


_OF_PICTURE = _STRUCTURE - set("more less each every between beside next after before one ones".split()) | {
    "empty",
    "left",
}


def _answers(case: Case, index: int, number: Number) -> bool:
    """Whether a lone number answers what was just asked: what is left of the number that is wanted ("Wanted: ten beads.
    Missing? Four."), or something that is there to be looked at ("How many boxes? Ten.")."""
    sentence = case.sentences[index]
    first = index
    while first and index - first < 3 and case.sentences[first - 1].segment == sentence.segment:
        first -= 1
    before = case.sentences[first:index]
    words = case.talk.words
    if not any("?" in words[other.end - 1].text for other in before):
        return False
    of_picture = any(
        case.talk.words[at].plain in _OF_PICTURE for other in before for at in range(other.start, other.end)
    )
    seen: set[int] = set()
    for appearance in case.on_screen(case.sentences[first].start, sentence.end + 1):
        if of_picture and number.value in visible(appearance.picture) | structure(appearance.picture):
            return True
        seen |= counts(appearance.picture)
    said = {value for other in before[-2:] for value in other.values}
    known = seen | said
    if any({there + step, there - step} & {number.value} for step in said for there in _results(case, first, index)):
        return True  # "Six and six is twelve. But one more frog came. What do I get? Thirteen."
    return any(abs(wanted - there) == number.value for wanted in said for there in known if wanted != there)


def _results(case: Case, first: int, index: int) -> set[int]:
    """What the statements of some sentences come to."""
    found: set[int] = set()
    for statement in case.statements_between(case.sentences[first].start, case.sentences[index].start):
        if statement.holds and statement.values:
            found.add(statement.values[-1])
    return found


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
