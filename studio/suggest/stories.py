"""Stories: a drawing that changes as the story does, the sentence with its unknown, the bond, a ring on the answer."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from studio.agree.case import Sentence
from studio.agree.tellings import family
from studio.suggest.ideas import Change, Idea, Part
from studio.suggest.kinds import dots, mark_words, marks_kind
from studio.talk.model import Number, Statement, Story

_SIGNS = frozenset("plus minus equals equal + - − = ".split())
_TALK_OF_PARTS = frozenset("whole part parts bond total".split())
_PARTS = frozenset({"parts", "parts of a whole", "partners", "unknown part"})
_RINGS = frozenset("ring rings ringed circle circled".split())
_AFTER = 20
"""Sentences that a story's pictures are kept for after its question."""


def windows(part: Part) -> Iterator[tuple[Story, int, int]]:
    """Every story with one answer that is said after its question, from its first word to before the next story, or to
    where it is done with."""
    for index, story in enumerate(part.stories):
        end = part.stories[index + 1].start if index + 1 < len(part.stories) else part.end
        last = min(part.sentence_index(story.end - 1) + _AFTER, len(part.sentences) - 1)
        end = min(end, part.sentences[last].end)
        if story.answer is not None and story.sentence and _said(part, story.end, end, story.answer) is not None:
            yield story, story.start, end


def told_by_stories(part: Part) -> Callable[[Statement, tuple[int, tuple[int, ...]]], bool]:
    """Tells whether a story's own pictures show a fact that is told."""
    spans = [
        (start, end, family(story.sentence.replace("?", str(story.answer)))) for story, start, end in windows(part)
    ]
    starts = [start for start, _, _ in spans]

    def told(statement: Statement, key: tuple[int, tuple[int, ...]]) -> bool:
        at = bisect_right(starts, statement.start) - 1
        return at >= 0 and statement.start < spans[at][1] and key == spans[at][2]

    return told


def propose(part: Part) -> Iterator[Idea]:
    """The pictures of every story; the first of them begins with a clean screen."""
    for story, _start, end in windows(part):
        whole, parts = family(story.sentence.replace("?", str(story.answer)))
        if whole > 1000:
            continue
        answer = _answer_word(part, story, end)
        found = [_sentence(part, story, end, answer)]
        if len(parts) == 2 and (drawing := _drawing(part, story, end, whole, answer)) is not None:
            found.append(drawing)
        if (bond := _bond(part, story, end, whole, parts)) is not None:
            found.append(bond)
        found.sort(key=lambda idea: idea.word)
        yield replace(found[0], fresh=True)
        yield from found[1:]


def _answer_word(part: Part, story: Story, end: int) -> Number | None:
    """Where the answer is first said after the question, outside a count."""
    found = part.said(story.end, end, story.answer or 0)
    return None if found is None or found.start in part.counted else found


def _said(part: Part, start: int, end: int, value: int) -> Number | None:
    return next((number for number in part.numbers_in(start, end) if number.value == value), None)


@dataclass(frozen=True, slots=True)
class _Run:
    """Numbers that are said one after the other, other words between them or not."""

    start: int
    end: int
    first: int


def _count(part: Part, story: Story, end: int, first: int, last: int) -> _Run | None:
    """The count from `first` to `last` after the story's question; the first number may be left out."""
    step = 1 if last > first else -1
    wanted = list(range(first, last + step, step))
    numbers = part.numbers_in(story.end, end)
    values = [number.value for number in numbers]
    if len(wanted) < 2:
        return None
    for goal in (wanted, wanted[1:]):
        for at in range(len(values) - len(goal) + 1):
            if values[at : at + len(goal)] == goal and (len(goal) > 1 or numbers[at].start in part.counted):
                return _Run(numbers[at].start, numbers[at + len(goal) - 1].end, goal[0])
    return None


def _sentence_start(part: Part, word: int) -> int:
    return part.sentence_of(word).start


def _drawing(part: Part, story: Story, end: int, whole: int, answer: Number | None) -> Idea | None:
    a, b = story.told[0], story.told[1]
    topic = frozenset((a, b, story.answer or 0))
    if story.situation.startswith("compare"):
        return _compared(part, story, end, answer, topic)
    cue = part.plain(story.end, end) | frozenset({"dots"})
    kind = marks_kind(whole, cue if not cue & {"frame", "frames"} else cue - {"dots"})
    if kind is None:
        return None
    if story.situation.startswith("take from"):
        return _taking(part, story, end, kind, topic)
    return _adding(part, story, end, kind, topic)


def _compared(part: Part, story: Story, end: int, answer: Number | None, topic: frozenset[int]) -> Idea | None:
    """Bars for what is told; how many more is ? until it is said."""
    a, b = story.told[0], story.told[1]
    if story.situation != "compare, difference unknown" or not (1 <= a <= 20 and 1 <= b <= 20):
        return None
    numbers = part.numbers_in(story.start, story.end)
    word = _sentence_start(part, numbers[1].start if len(numbers) > 1 else story.start)
    changes = () if answer is None else (Change(answer.start, f"fill in {story.answer}"),)
    return Idea(word, "compare bars", f"{a} and {b}", changes, end, topic, "the story compares", 4)


def _adding(part: Part, story: Story, end: int, kind: str, topic: frozenset[int]) -> Idea | None:
    """Dots for what was there, crosses for what comes."""
    a, b = story.told[0], story.told[1]
    answer = story.answer or 0
    if story.unknown in ("result", "total"):
        first, more = a, b
    elif story.unknown == "change":
        first, more = a, answer
    elif story.unknown == "addend":
        first, more = b, answer
    else:  # the start is asked: it is drawn when it is known
        first, more = answer, a
    come = _said(part, story.start if story.unknown != "start" else story.end, end, first)
    if come is None or not more or (story.unknown == "start" and come.start in part.counted):
        return None
    show = _sentence_start(part, come.start)
    count = _count(part, story, end, first, first + more)
    if count is not None and (count.start > show or count.first == first):
        change = Change(count.start, f"add {mark_words(more, 'crosses')}, counting", count.end)
    else:
        said = _said(part, max(show, come.end), end, more)
        if said is None:
            return None
        word = max(_sentence_start(part, said.start), come.end)
        if part.sentence_of(said.start).start == show or story.unknown not in ("result", "total"):
            word = said.start
        change = Change(word, f"add {mark_words(more, 'crosses')}")
    return Idea(show, kind, dots(first), (change,), end, topic, "a drawing of the story", 4)


def _taking(part: Part, story: Story, end: int, kind: str, topic: frozenset[int]) -> Idea | None:
    a, b = story.told[0], story.told[1]
    answer = story.answer or 0
    if story.unknown == "result":
        first, less = a, b
    elif story.unknown == "change":
        first, less = a, answer
    else:
        first, less = answer, a
    come = _said(part, story.start if story.unknown != "start" else story.end, end, first)
    if come is None or not less or (story.unknown == "start" and come.start in part.counted):
        return None
    show = _sentence_start(part, come.start)
    count = _count(part, story, end, first, first - less)
    if count is not None and count.start >= show:
        change = Change(count.start, f"take away {less}, counting", count.end)
    else:
        said = _said(part, max(story.end, come.end), end, less) or _said(part, come.end, end, less)
        if said is None:
            return None
        change = Change(max(said.start, come.end), f"take away {less}")
    return Idea(show, kind, dots(first), (change,), end, topic, "a drawing of the story", 4)


def _sentence(part: Part, story: Story, end: int, answer: Number | None) -> Idea:
    """The story's sentence comes on with its question, is filled in when the answer is said, and gets its ring."""
    question = _sentence_start(part, story.end - 1)
    topic = frozenset((*story.told, story.answer or 0))
    changes: list[Change] = []
    told: Number | None = None
    if answer is not None:
        told = _whole_sentence_told(part, story, end)
        found = told or answer
        changes.append(Change(found.start, f"fill in {story.answer}"))
        following = part.sentence_index(found.start) + 1
        after = [s for s in part.sentences[following : following + 5] if s.start < end]
        named = next((s for s in after if part.plain(s.start, s.end) & _RINGS), None)
        ring = named.start if named is not None else after[0].start if after else found.start
        changes.append(Change(ring, f"circle {story.answer}"))
    idea = Idea(
        question, "number sentence", story.sentence, tuple(changes), end, topic, f"the story is “{story.situation}”", 5
    )
    if told is None:
        return idea
    return replace(idea, instead=replace(idea, word=_sentence_start(part, told.start), weight=2))  # when it is solved


def _whole_sentence_told(part: Part, story: Story, end: int) -> Number | None:
    """The answer's number in the statement that tells the whole sentence after the question."""
    values = sorted((*story.told, story.answer or 0))
    inside = part.statements_in(story.end, end)
    for statement in sorted(inside, key=lambda s: s.kind in _PARTS and not part.plain(s.start, s.end) & _SIGNS):
        if statement.kind.startswith("count") or statement.kind == "question":
            continue
        if sorted(statement.values) == values:
            numbers = part.numbers_in(statement.start, statement.end)
            return next((number for number in numbers if number.value == story.answer), None)
    return None


def _bond(part: Part, story: Story, end: int, whole: int, parts: tuple[int, ...]) -> Idea | None:
    """The bond, where whole and parts are talked of after the question."""
    index = part.sentence_index(story.end - 1) + 1
    after = [s for s in part.sentences[index : index + _AFTER] if story.end <= s.start < end]
    talk = next((s for s in after if s.numbers and _speaks_of_parts(part, s)), None)
    if talk is None or len(parts) > 4 or whole > 120:
        return None
    asked = story.answer
    if asked in parts and len(parts) == 2:  # what was told comes first
        parts = (whole - asked, asked)
    shown: tuple[int | None, ...] = parts
    top: int | None = whole
    if asked == whole and story.unknown in ("result", "total", "bigger", "start") and asked not in story.told:
        top = None
    elif asked in parts:
        place = len(parts) - 1 - parts[::-1].index(asked)
        shown = tuple(None if at == place else p for at, p in enumerate((*parts[:place], asked, *parts[place + 1 :])))
    details = bond_details(top, shown)
    found = next((n for n in part.numbers_in(talk.start, end) if n.value == asked), None)
    changes = (Change(found.start, f"fill in {asked}"),) if found is not None else ()
    return Idea(talk.start, "number bond", details, changes, end, frozenset((whole, *parts)),
                "whole and parts of the story", 4)  # fmt: skip


def bond_details(whole: int | None, parts: tuple[int | None, ...]) -> str:
    """Details of a bond; None stands for ?."""
    written = ["?" if part is None else str(part) for part in parts]
    return f"{'?' if whole is None else whole} is {' and '.join(written)}"


def _speaks_of_parts(part: Part, sentence: Sentence) -> bool:
    return bool(part.plain(sentence.start, sentence.end) & _TALK_OF_PARTS)
