"""The number of the day (or the whole whose partners are looked for) is one and the same: in the words, and in the pictures
that show just that number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Appearance, Case
from studio.agree.looks import essential
from studio.findings import Finding
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.pictures.kinds.tally import Tally
from studio.pictures.kinds.word import Word
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, Show, TakeAway
from studio.talk.model import Number, Statement
from studio.talk.relations import relations

NAME = "number of the day"
_BEFORE = ("yesterday", "earlier", "remember", "last", "like")
_ONES = ("ones", "digits")
_CALLED = 4  # words before a number in which it is called something


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
    for segment in sorted({*days, *partners}):
        yield from _segment(
            case, days.get(segment, []), partners.get(segment, []), shown.get(segment, []), told.get(segment, [])
        )


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
    """ "Yesterday it was partners of 20, so today we'll stretch it to partners of 30", "the ones are partners of ten" """
    start = case.sentences[case.sentence_index(number.start)].start
    return case.says(start, number.start, _BEFORE) or case.says(max(start, number.start - _CALLED), number.start, _ONES)


def _one_of_some(case: Case, number: Number) -> bool:
    """Whether it is called "my number" or "the next number": one of several that are given to be answered."""
    words = {word.plain for word in case.talk.words[max(0, number.start - _CALLED) : number.start]}
    return bool(words & {"my", "first", "second", "third", "next"}) and not words & {"day", "today"}


def _said_with(case: Case, appearance: Appearance, value: int) -> bool:
    """Whether a number is said in the sentence with which a picture comes on or in the next: then it is meant, though it
    is not the number of the day ("And what about thirty-nine?")."""
    index = case.sentence_index(appearance.moment.word)
    first, last = case.sentences_around(index, 0, 3)
    return any(value in sentence.values for sentence in case.sentences[first : last + 1])


def _segment(
    case: Case, days: list[_Vote], partners: list[_Vote], shown: list[Appearance], told: list[Statement]
) -> Iterator[Finding]:
    if days:
        votes = [*days]
        for appearance in shown:
            seen = _day_shown(appearance)
            if seen is not None and (
                seen.value in {day.value for day in days} or not _said_with(case, appearance, seen.value)
            ):
                votes.append(seen)
        yield from _dissent(votes, "the number of the day")
    if partners:
        votes = [*partners]
        for appearance in shown:
            if isinstance(appearance.picture, WholePicture) and appearance.picture.whole is not None:
                place = appearance.moment.direction.place
                votes.append(_Vote(appearance.picture.whole, place.line, place.column, "",
                                   appearance.moment.direction.text, 2))  # fmt: skip
        for statement in told:
            if statement.holds and statement.kind in ("partners", "parts", "unknown part"):
                whole = statement.values[0] if statement.kind == "parts" else statement.values[-1]
                votes.append(_Vote(whole, statement.line, statement.column, statement.said, "", 1))
        put_together = {found.whole for statement in told if statement.holds for found in relations(statement)}
        if len({vote.value for vote in votes if vote.shown or not vote.said or vote.weight == 1}) <= 2:
            told_of = [vote for vote in votes if vote in partners or vote.shown]
            if not all(
                vote.value in put_together for vote in told_of
            ):  # "It works like partners of ten: two and eight."
                yield from _dissent(told_of, "the whole")


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
