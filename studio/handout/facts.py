"""What a lesson is about, as far as its pictures tell: the whole, the number of the day, what is used, the answers."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.script.model import Amount, Equation, FillIn, Lesson, Marks, NumberList, Parts, Phrase, Show
from studio.stage.model import Stage
from studio.stage.staging import stage as stage_of
from studio.talk.numbers import number_words

# Kinds of picture that show one number in their own way: a lesson that uses several is about that number.
_WAYS = frozenset({"word", "tally", "base ten", "more and less", "dots", "dice", "ten frame", "double ten frame"})
_ANSWERS = frozenset({"number bond", "number sentence", "bar", "compare bars"})
LARGEST_WHOLE = 20


@dataclass(frozen=True, slots=True)
class LessonFacts:
    """`whole`: the whole whose partners are worked on (None: there is none). `number`: the number that is shown in most
    ways. `shows`: every `[show ...]` in order. `kinds`: the kinds of picture in order of first use. `answers`: bonds,
    sentences and bars as they stand in the end, each `?` worked out, in words, with the segment's title."""

    whole: int | None
    number: int | None
    shows: tuple[Show, ...]
    kinds: tuple[str, ...]
    answers: tuple[tuple[str, str], ...]

    @property
    def partners(self) -> tuple[tuple[int, int], ...]:
        """The pairs of parts of the whole, the smaller first, each once."""
        whole = self.whole
        return () if whole is None else tuple((part, whole - part) for part in range(whole // 2 + 1))


def lesson_facts(lesson: Lesson, stage: Stage | None = None) -> LessonFacts:
    """What the pictures of a lesson tell about it. `stage`: that of the lesson, if it is known already."""
    stage = stage_of(lesson) if stage is None else stage
    shows = tuple(direction for direction in lesson.directions if isinstance(direction, Show))
    return LessonFacts(
        _whole(shows, stage), _number(shows), shows, tuple(dict.fromkeys(show.kind for show in shows)),
        tuple(_answers(lesson, stage)),
    )  # fmt: skip


def _whole(shows: tuple[Show, ...], stage: Stage) -> int | None:
    votes: Counter[int] = Counter()
    for show in shows:
        match show.details:
            case NumberList(values) if show.kind == "cards" and values == tuple(range(len(values))) and len(values) > 2:
                votes[values[-1]] += 100
            case Parts():
                picture = _last(stage, show)
                votes[max(picture.numbers, default=0) if picture else 0] += 3
            case Equation():
                picture = _last(stage, show)
                votes[max(picture.numbers, default=0) if picture else 0] += 1
            case _:
                pass
    found = [value for value, _ in votes.most_common() if 0 < value <= LARGEST_WHOLE]
    return found[0] if found else None


def _number(shows: tuple[Show, ...]) -> int | None:
    ways: dict[int, set[str]] = {}
    for show in shows:
        match show.details:
            case Amount(value):
                pass
            case Marks(dots, crosses):
                value = dots + crosses
            case NumberList(values) if show.kind == "dice":
                value = sum(values)
            case Phrase(text) if show.kind == "word":
                value = number_words(text) or 0
            case _:
                continue
        if value and show.kind in _WAYS:
            ways.setdefault(value, set()).add(show.kind)
    best = max(ways, key=lambda value: len(ways[value]), default=None)
    return best if best is not None and len(ways[best]) > 1 else None


def _last(stage: Stage, show: Show) -> Picture | None:
    """The picture of that name as it stands before it goes or is shown anew."""
    found: Picture | None = None
    for moment in stage.moments:
        if moment.direction is show:
            found = moment.picture
        elif found is not None and moment.name == show.name:
            if moment.picture is None or isinstance(moment.direction, Show):
                break
            found = moment.picture
    return found


def _answers(lesson: Lesson, stage: Stage) -> list[tuple[str, str]]:
    found = []
    for direction in lesson.directions:
        if isinstance(direction, Show) and direction.kind in _ANSWERS:
            picture = _last(stage, direction)
            if picture is not None:
                picture = _solved(picture)
                said = picture.written if isinstance(picture, NumberSentence) else _after_kind(picture)
                found.append((lesson.segments[direction.segment].title, said))
    return list(dict.fromkeys(found))


def _solved(picture: Picture) -> Picture:
    """The picture with every `?` that can be worked out."""
    while picture.marks.get("unknowns"):
        try:
            picture = picture.steps(FillIn())[-1].picture
        except CannotShow:
            break
    return picture


def _after_kind(picture: Picture) -> str:
    """The picture in words, without its kind."""
    return picture.description().split(": ", 1)[-1].split(";")[0]
