"""What a lesson is about, as its pictures and its words tell: the whole, the number of the day, what is used, the answers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.handout.named import number_of_the_day, partners_of, titles_and_words
from studio.pictures.base import CannotShow, Picture
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.script.model import Amount, Equation, FillIn, Lesson, Marks, NumberList, Parts, Phrase, Show
from studio.stage.model import Stage
from studio.stage.staging import stage as stage_of
from studio.talk.numbers import number_words

# Kinds of picture that show one number in their own way: a part of a lesson that uses several is about that number.
_WAYS = frozenset({"word", "tally", "base ten", "more and less", "dots", "dice", "ten frame", "double ten frame"})
_OF_ONE_NUMBER = frozenset({"word", "more and less"})
_ANSWERS = frozenset({"number bond", "number sentence", "bar", "compare bars", "more and less"})
LARGEST_WHOLE = 20


@dataclass(frozen=True, slots=True)
class LessonFacts:
    """`whole`: the whole whose partners are worked on, at most 20 (None: there is none). `number`: the number of the day
    (None: there is none). `cards`: the greatest of the number cards from 0 on that the child needs (None: none).
    `shows`: every `[show ...]` in order. `kinds`: the kinds of picture in order of first use. `answers`: bonds, sentences,
    bars, one less and one more as they stand in the end, each `?` worked out, in words, with the segment's title."""

    whole: int | None
    number: int | None
    cards: int | None
    shows: tuple[Show, ...]
    kinds: tuple[str, ...]
    answers: tuple[tuple[str, str], ...]

    @property
    def partners(self) -> tuple[tuple[int, int], ...]:
        """The pairs of parts of the whole, the smaller first, each once."""
        whole = self.whole
        return () if whole is None else tuple((part, whole - part) for part in range(whole // 2 + 1))


def lesson_facts(lesson: Lesson, stage: Stage | None = None) -> LessonFacts:
    """What the pictures and the words of a lesson tell about it. `stage`: that of the lesson, if it is known already."""
    stage = stage_of(lesson) if stage is None else stage
    shows = tuple(direction for direction in lesson.directions if isinstance(direction, Show))
    said = titles_and_words(lesson)
    whole = _whole(partners_of(said), shows, stage)
    laid = [
        show.details.values[-1] for show in shows if isinstance(show.details, NumberList) and _from_nought(show.details)
    ]
    return LessonFacts(
        whole, _number(number_of_the_day(said), shows), max((*laid, *([] if whole is None else [whole])), default=None), shows,
        tuple(dict.fromkeys(show.kind for show in shows)), tuple(_answers(lesson, stage)),
    )  # fmt: skip


def _from_nought(details: NumberList) -> bool:
    """Whether these are cards from 0 to a number that can be cut out."""
    return details.values == tuple(range(len(details.values))) and 2 < len(details.values) <= LARGEST_WHOLE + 1


def _whole(spoken_of: Sequence[int], shows: tuple[Show, ...], stage: Stage) -> int | None:
    """The whole whose partners are spoken of; else that of which most pairs, two at least, are put together."""
    pairs: dict[int, set[frozenset[int]]] = {}
    for show in shows:
        if isinstance(show.details, Parts) or (isinstance(show.details, Equation) and _adds(show.details)):
            picture = _last(stage, show)
            numbers = sorted(_solved(picture).numbers) if picture is not None else []
            if len(numbers) == 3 and numbers[0] + numbers[1] == numbers[2]:
                pairs.setdefault(numbers[2], set()).add(frozenset(numbers[:2]))
    named = [whole for whole in spoken_of if 0 < whole <= LARGEST_WHOLE]
    if named:
        return max(named, key=lambda whole: len(pairs.get(whole, ())))
    several = [whole for whole, found in pairs.items() if 0 < whole <= LARGEST_WHOLE and len(found) > 1]
    return max(several, key=lambda whole: len(pairs[whole]), default=None)


def _adds(details: Equation) -> bool:
    return all(term.sign == "+" for side in details.sides for term in side)


def _number(named: int | None, shows: tuple[Show, ...]) -> int | None:
    """The number that is called that of the day; else the one that a part of the lesson shows in most ways: three, or two
    of which one is of a number by itself."""
    if named is not None:
        return named
    ways: dict[tuple[int, int], set[str]] = {}
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
            ways.setdefault((show.segment, value), set()).add(show.kind)
    many = {key: kinds for key, kinds in ways.items() if len(kinds) > 2 - bool(kinds & _OF_ONE_NUMBER)}
    best = max(many, key=lambda key: len(many[key]), default=None)
    return best[1] if best is not None else None


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
                found.append((lesson.segments[direction.segment].title, _answer(_solved(picture))))
    return list(dict.fromkeys(found))


def _answer(picture: Picture) -> str:
    """What a picture answers, for a reader who does not see it."""
    match picture:
        case NumberSentence():
            return picture.written
        case MoreAndLess(value, less, more):
            return f"One less than {value} is {less}. One more than {value} is {more}."
        case CompareBars(first, second):
            return f"{first} and {second}: the difference is {abs(first - second)}"
        case _:
            return picture.description().split(": ", 1)[-1].split(";")[0]


def _solved(picture: Picture) -> Picture:
    """The picture with every `?` that can be worked out."""
    while picture.marks.get("unknowns"):
        try:
            picture = picture.steps(FillIn())[-1].picture
        except CannotShow:
            break
    return picture
