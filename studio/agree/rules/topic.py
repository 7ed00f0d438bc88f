"""The number of the day (or the whole whose partners are looked for) is one and the same: in the title, in the words, and
in the pictures that show just that number."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Appearance, Case
from studio.agree.looks import essential, relation
from studio.agree.rules.goals import number_rows
from studio.agree.wording import UNITS
from studio.findings import Finding
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.word import Word
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Segment, Show, TakeAway
from studio.talk.expressions import STOP
from studio.talk.model import Number, Statement
from studio.talk.numbers import find_numbers, words_of
from studio.talk.relations import relations

NAME = "number of the day"
_LABELS = re.compile(
    r"(?:lesson|day|part|segment|grade|week|unit|step|story|problem|question|page|round|game|job|seat|clue|puzzle|case|"
    r"station|stop|task|riddle|mission|item|exercise|rule|turn|team|trick|scene|act|verse|try|secret|idea|stage|chapter|"
    r"challenge|level|test|number)\s*$",
    re.I,
)


_BEFORE = ("yesterday", "earlier", "remember", "last")
_CALLED = 4  # words before a number in which it is called something
_FEW = 4  # "The two jugs"
_STEPS = (1, 2, 5, 10, 100)  # by which one counts
_BY = re.compile(r"\b(?:steps|jumps|hops|leaps|skips) of\s*$", re.I)
_A_TEN = re.compile(
    r"\b(?:across|past|over|through|fill|under|below|up to|make|making|trade)(?: the| a| to)?(?: next)?\s*$",
    re.I,
)
_NOT_LABELS = re.compile(
    r"(?:about|number|numbers|meet|make|makes|making|hello|hi|counting|count|to|the|today|our|my|just|only|all|why|is|day|"
    r"partners|pairs|ways|building|finding|find|exploring|partners of|up|until|from|double|doubles|half|is it|welcome|goodbye|and)\W*$",
    re.I,
)


def _ends(words: list[str], end: int) -> bool:
    """Whether a title ends behind the number, or pauses there."""
    return end >= len(words) or not words[end - 1][-1:].isalnum()


@dataclass(frozen=True, slots=True)
class _Vote:
    value: int
    line: int
    column: int
    said: str
    shown: str
    weight: int


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    days: dict[int, list[_Vote]] = {}
    partners: dict[int, list[_Vote]] = {}
    for segment, told_of in case.topic_numbers.items():
        numbers = told_of[:1] + [number for number in told_of[1:] if not _of_changed_picture(case, number)]
        if len({number.value for number in numbers}) > 1 and all(_one_of_some(case, number) for number in numbers):
            continue  # "My number is seven. … My number is nine."
        days[segment] = [_vote(number, 3) for number in numbers]
    for segment, numbers in case.whole_numbers.items():
        partners[segment] = [_vote(number, 1) for number in numbers if not _of_before(case, number)]
    shown: dict[int, list[Appearance]] = {}
    for appearance in case.pictures:
        if isinstance(appearance.moment.direction, Show) and id(appearance) not in case.growing:
            shown.setdefault(appearance.moment.direction.segment, []).append(appearance)
    told: dict[int, list[Statement]] = {}
    for statement in case.talk.statements:
        told.setdefault(case.talk.words[statement.start].segment, []).append(statement)
    for part in case.lesson.segments:
        yield from _segment(case, part, days.get(part.index, []), partners.get(part.index, []),
                            shown.get(part.index, []), told.get(part.index, []))  # fmt: skip


def _of_changed_picture(case: Case, number: Number) -> bool:
    """Whether it is what a picture has become just before ("[blocks: add 3] Now there are 7 ones. … So the number is 17.")."""
    sentence = case.sentences[case.sentence_index(number.start)]
    if not case.says(sentence.start, number.start, ("so", "now")):
        return False
    return any(
        isinstance(seen.change, Add | TakeAway)
        and seen.moment.word <= number.start
        and number.value in essential(seen.picture)
        for seen in case.on_screen(number.start, number.end)
    )


def _vote(number: Number, weight: int) -> _Vote:
    return _Vote(number.value, number.line, number.column, number.text, "", weight)


def _of_before(case: Case, number: Number) -> bool:
    """ "Yesterday it was partners of 20, so today we'll stretch it to partners of 30" """
    return case.says(case.sentences[case.sentence_index(number.start)].start, number.start, _BEFORE)


def _one_of_some(case: Case, number: Number) -> bool:
    """Whether it is called "my number" or "the next number": one of several that are given to be answered."""
    words = {word.plain for word in case.talk.words[max(0, number.start - _CALLED) : number.start]}
    return bool(words & {"my", "first", "second", "third", "next"}) and not words & {"day", "today"}


def _parts(picture: WholePicture) -> tuple[int, ...]:
    """The parts of a bond or a bar, one that is unknown worked out."""
    found = relation(picture)
    return tuple(part for part in picture.parts if part is not None) if found is None else found.parts


def _said_with(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number is said in the sentence with which a picture comes on or in the next: then it is meant, though it
    is not the number of the day ("And what about thirty-nine?")."""
    index = case.sentence_index(appearance.moment.word)
    first, last = case.sentences_around(index, 0, 3)
    return any(value in sentence.values for sentence in case.sentences[first : last + 1])


def _segment(
    case: Case, segment: Segment, days: list[_Vote], partners: list[_Vote], shown: list[Appearance],
    told: list[Statement],
) -> Iterator[Finding]:  # fmt: skip
    header_title = case.lesson.header.title if case.lesson is not None else ""
    for vote in _titles(segment):
        if segment.index == 0 and segment.title == header_title:
            continue  # the title of the lesson stands over its welcome
        if not _unsaid(case, segment, vote, shown) or (
            vote.weight == 0 and (vote.value < _FEW or not _counted_alike(case, segment))
        ):
            continue  # "Two beavers and their sticks": who is in a story need not be counted
        if vote.value == 10 and _NEXT_TEN.search(segment.title):
            continue
        if _ALL.fullmatch(segment.title.strip()) and _so_many_told(case, segment, vote.value):
            continue
        yield Finding(NAME, "error", vote.line, vote.column, vote.said, "",
                      f"The title on line {vote.line} says {vote.value}, and {vote.value} is neither said nor shown "
                      "in this segment.", "Change the title or the segment.")  # fmt: skip
    title = _title(segment)
    of_partners = title is not None and re.search(r"partner|pairs|bond|parts|ways|make|friends", segment.title, re.I)
    if days or (title is not None and not of_partners):
        votes = [*days]
        for appearance in shown:
            seen = _day_shown(appearance)
            if seen is not None and (
                not days or seen.value in {day.value for day in days} or not _said_with(case, appearance, seen.value)
            ):
                votes.append(seen)
        distinct = {vote.value for vote in votes if vote.shown}
        if not days and len(distinct) > 1:
            votes = []
        if title is not None and title.weight and votes and _is_day(segment, title.value):
            votes.append(title)
        yield from _dissent(votes, "the number of the day")
    if partners or of_partners:
        votes = [*partners]
        if title is not None and title.weight and of_partners:
            votes.append(title)
        for appearance in shown:
            if isinstance(appearance.picture, WholePicture) and appearance.picture.whole is not None:
                place = appearance.moment.direction.place
                votes.append(_Vote(appearance.picture.whole, place.line, place.column, "",
                                   appearance.moment.direction.text, 2))  # fmt: skip
        for statement in told:
            if statement.holds and statement.kind in ("partners", "parts", "unknown part"):
                whole = statement.values[0] if statement.kind == "parts" else statement.values[-1]
                votes.append(_Vote(whole, statement.line, statement.column, statement.said, "", 1))
        parts_shown = {
            part
            for appearance in shown
            if isinstance(appearance.picture, WholePicture)
            for part in _parts(appearance.picture)
        }
        if title is not None and title.value in parts_shown:
            votes = [vote for vote in votes if vote is not title]  # "Zero in a bond"
            title = None
        put_together = {found.whole for statement in told if statement.holds for found in relations(statement)}
        wholes_shown = {vote.value for vote in votes if vote.shown or not vote.said or vote.weight == 1}
        if (title is not None and title.value not in wholes_shown - {title.value}) or len(wholes_shown) <= 2:
            told_of = [vote for vote in votes if vote in partners or vote is title or vote.shown]
            if not all(
                vote.value in put_together for vote in told_of
            ):  # "It works like partners of ten: two and eight."
                yield from _dissent(told_of, "the whole")


_ALL = re.compile(r"all \w+\W*", re.I)
_NOT_OF_A_DAY = (["and"], ["by"], ["up"], ["down"])
_NEXT_TEN = re.compile(r"\b(?:next|nearest|last) (?:ten|10)\b", re.I)
_DAY = re.compile(r"(?:^|number of the day|all about|about|today|the number|day number|our number|meet)\W*$", re.I)


def _is_day(segment: Segment, value: int) -> bool:
    """Whether the number in a title is what the segment is about ("Number of the day: 14", "Fourteen")."""
    words = words_of(segment.title)
    numbers = [n for n in find_numbers(words) if n.form in ("word", "digits") and n.value == value]
    if not numbers:
        return False
    title = segment.title.split()
    if [word.lower().strip(".,:;!?") for word in title[numbers[0].end : numbers[0].end + 1]] in _NOT_OF_A_DAY:
        return False  # "Ten and some more", "Two by two", "Ten up, ten down"
    return _DAY.search(" ".join(title[: numbers[0].start])) is not None


def _so_many_told(case: Case, segment: Segment, value: int) -> bool:
    """Whether so many numbers are told in a row, or stand in one picture, in a segment ("All three": "six, seven, eight")."""
    told = (len(numbers) for numbers in number_rows(case)
            if case.talk.words[numbers[0].start].segment == segment.index)  # fmt: skip
    return value in told or any(len(seen.picture.numbers) == value for seen in case.pictures_of(segment.index))


def _counted_alike(case: Case, segment: Segment) -> bool:
    """Whether the things of its title are counted in a segment, always with the same number."""
    things = {word.lower().strip(".,:;!?").removesuffix("s") for word in segment.title.split()} - {""}
    values = set()
    for sentence in case.sentences:
        if sentence.segment == segment.index:
            for number in sentence.numbers:
                following = case.talk.words[number.end : min(number.end + 3, sentence.end)]
                if things & {word.plain.removesuffix("s") for word in following}:
                    values.add(number.value)
    return len(values) == 1


def _unsaid(case: Case, segment: Segment, title: _Vote, shown: list[Appearance]) -> bool:
    """Whether the number in a title is neither said nor shown in its segment."""
    words = segment.words
    if not words:
        return False
    said = case.numbers_between(words[0].index, words[-1].index + 1)
    return title.value not in {number.value for number in said} and all(
        title.value not in essential(appearance.picture) for appearance in shown
    )


def _titles(segment: Segment) -> list[_Vote]:
    """The numbers in a title; without weight those that count things ("Nine sleepy frogs"), left out those that count
    parts of the lesson ("Two stories") or name one ("Round two")."""
    found: list[_Vote] = []
    words = segment.title.split()
    for number in find_numbers(words_of(segment.title)):
        before = " ".join(words[: number.start])
        if number.form not in ("word", "digits"):
            continue
        if not before and number.end < len(words) and words[number.end - 1][-1:] in (".", ")", ":"):
            continue  # "3. Before and after"
        if len(words[: number.start]) == 1 and not _NOT_LABELS.match(before) and _ends(words, number.end):
            continue  # "Event one: hopping"
        if _LABELS.search(before) and not re.search(r"of the day\s*$", before, re.I):
            continue
        last, *after = words[number.end - 1 : number.end + 3] or [""]
        if after and after[0].lower().strip(".,:;!?") in ("more", "less", "fewer"):
            continue  # "One more, one less", "Four more frogs"
        if "?" in segment.title or last.lower() == "pair" or (after and after[0].lower() == "in" and "row" in after):
            continue  # "Or was it seventy-one?", "I am a pair", "Three in a row"
        if re.search(r"\b(?:with|from)$", before, re.I):
            continue  # "A story with three", "Steps of ten, from zero"
        if number.value in _STEPS and (_BY.search(before) or _A_TEN.search(before)):
            continue  # "Steps of ten", "Across the ten"
        if (
            number.value == 1
            and after
            and re.match(rf"(?:{STOP})\b", after[0], re.I)
            and after[0].lower() not in ("and", "plus")
        ):
            continue  # "One for you"
        if after and UNITS & {word.lower().strip(".,:;!?") for word in after[:2]}:
            continue
        of_things = bool(after and re.match(rf"(?!(?:{STOP})\b)[a-z]", after[0], re.I) and last[-1:].isalnum())
        if of_things and UNITS & {word.lower().strip(".,:;!?") for word in after}:
            continue
        place = segment.place
        found.append(_Vote(number.value, place.line, place.column, segment.title, "", 0 if of_things else 1))
    return found


def _title(segment: Segment) -> _Vote | None:
    """The number in a title that has only one."""
    found = _titles(segment)
    return found[0] if len({vote.value for vote in found}) == 1 else None


def _day_shown(appearance: Appearance) -> _Vote | None:
    picture = appearance.picture
    if isinstance(picture, BaseTen | Tally | MoreAndLess):
        value = picture.value
    elif isinstance(picture, Word) and picture.numbers:
        value = picture.numbers[0]
    else:
        return None
    place = appearance.moment.direction.place
    return _Vote(value, place.line, place.column, "", appearance.moment.direction.text, 2)


def _dissent(votes: list[_Vote], what: str) -> Iterator[Finding]:
    """The votes against the number that most agree on."""
    if len({vote.value for vote in votes}) < 2:
        return
    counted: Counter[int] = Counter()
    for vote in votes:
        counted[vote.value] += vote.weight
    (value, _), *_ = counted.most_common(1)
    for vote in votes:
        if vote.value == value or (vote.shown == "" and sum(other.value == vote.value for other in votes) > 1):
            continue
        if vote.shown and any(other.value == vote.value and not other.shown for other in votes):
            continue  # "If you know the partners of ten, you know those of twenty": both are said and shown
        place = f"Line {vote.line} shows {vote.value}" if vote.shown else f"Line {vote.line} says {vote.value}"
        yield Finding(NAME, "error", vote.line, vote.column, vote.said, vote.shown,
                      f"{place}, but {what} in this segment is {value}.",
                      f"Use {value} here, or change the others.")  # fmt: skip
