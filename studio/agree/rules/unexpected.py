"""A number that is said fits its place: it was to be expected from what is said and shown around it. What was to be
expected, and how sure one can be that another number is a slip, was learned from right lessons and from the same lessons
with one number changed (`studio/agree/expect`). Where it is only likely, the finding is a note."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from studio.agree.case import Case
from studio.agree.denials import denied, one_is_looked_for, refused
from studio.agree.evident import (
    answers_what_is_written,
    counts_pictures,
    just_done,
    just_seen,
    read_aloud,
    stands_written,
)
from studio.agree.expect.expectation import Expectation
from studio.agree.expect.families import FAMILIES
from studio.agree.expect.place import Place
from studio.agree.expect.suspects import judged
from studio.agree.manners import denied as not_so
from studio.agree.wording import row, spelled
from studio.findings import Finding
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.marks import MarkPicture
from studio.script.model import Add, ChangePicture, TakeAway

NAME = "number fits its place"
DOUBTS = True
CERTAIN = 3.25
LIKELY = 1.5
"""The doubts (log-odds) from which a finding is an error, and a note."""
BOUND = 1.0
"""By how much more one must doubt a number where many would do ("it is smaller than 18")."""
FEWEST = 10
"""Numbers that are said in a lesson: in a few sentences there is too little to tell what is to be expected."""
_REFUSING = frozenset("no nope nay".split())
_LETTER = re.compile(r"[A-D][,:)]\Z")
_LONGEST_CHOICE, _NEXT_CHOICE = 4, 14  # words
_TEN, _HUNDRED = 10, 100
_ZERO = frozenset("zero 0 nought".split())
_GUESSED = frozenset("guess guesses guessed".split())
_COMPARING = frozenset("than before after above below over under".split())
_ROWS = frozenset("above below under underneath".split())


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:  # words that were heard: nothing need be read that was learned
        return
    for suspect, doubt in judged(case):
        number, sentence = suspect.place.number, suspect.place.sentence
        if doubt <= LIKELY or case.is_excused(sentence.start, sentence.end) or _denied(case, suspect.place):
            continue
        if any(accounts(case, suspect.place) for accounts in ACCOUNTS):
            continue
        certain = CERTAIN + BOUND * _is_loose(case, suspect.place)
        yield Finding(
            NAME,
            "error" if doubt > certain and len(case.counted) >= FEWEST else "note",
            number.line,
            number.column,
            number.text,
            "",
            f"Line {number.line} says {number.value}, and that does not fit what is said and shown around it.",
            instead(suspect.expectation, FAMILIES),
        )


def _denied(case: Case, place: Place) -> bool:
    """Whether it stands in something false that is said only to be told apart from what is true."""
    return any(
        (statement.expected is False and refused(case, statement))
        or (statement.holds is False and denied(case, statement.values, statement.start))
        or (statement.holds is False and statement.kind.startswith("count") and one_is_looked_for(case, statement))
        for statement in case.covering.get(place.number.start, ())
    )


def _is_loose(case: Case, place: Place) -> bool:
    """Whether many numbers would do: it is only compared with, in a sentence without another number ("Clue: it comes before
    thirteen"), it says what is not so ("Five hops, not six"), or it is a nought that is not called one ("None is left over")."""
    number = place.number
    if place.before.word in _COMPARING:
        return len(place.sentence.numbers) == 1
    return not_so(case, number) or (number.value == 0 and number.text.lower().rstrip(" .,;:!?") not in _ZERO)


def _is_guessed(case: Case, place: Place) -> bool:
    """Whether it is only guessed, or refused at once ("I guess nine.", "Duck wanted nine. No way!")."""
    if case.says(place.number.start - 2, place.number.start, _GUESSED):
        return True
    words, end = case.talk.words, place.sentence.end
    return (
        end + 1 < place.end
        and words[end].plain in _REFUSING
        and (words[end + 1].plain == "way" or not words[end].text[-1:].isalnum())
    )


def _is_choice(case: Case, place: Place) -> bool:
    """Whether it is one of the answers to choose from, each with its letter ("A, six. B, five. C, eleven.", "A: six and five.")."""
    words, start = case.talk.words, place.number.start
    near = range(start - 1, max(0, start - _LONGEST_CHOICE) - 1, -1)
    at = next((at for at in near if _LETTER.match(words[at].text)), None)
    if at is None or words[at].sentence != words[start].sentence:
        return False
    letter = words[at].text[0]
    before = [word.text[0] for word in words[max(0, at - _NEXT_CHOICE) : at] if _LETTER.match(word.text)]
    after = [word.text[0] for word in words[at + 1 : at + _NEXT_CHOICE] if _LETTER.match(word.text)]
    return before[-1:] == [chr(ord(letter) - 1)] or after[:1] == [chr(ord(letter) + 1)]


def _of_tens(case: Case, place: Place) -> bool:
    """Whether it counts the tens by which a picture of tens and ones is changed close by ("Two more sticks." where 20 are added)."""
    moments, at = case.stage.moments, place.book.moment_from(place.number.start + 1)
    return any(
        isinstance(moment.picture, BaseTen)
        and isinstance(moment.direction, ChangePicture)
        and isinstance(moment.direction.change, Add | TakeAway)
        and moment.direction.change.count == _TEN * place.number.value
        and moment.direction.segment == place.segment
        for moment in moments[max(0, at - 1) : at + 1]
    )


def _to_a_hundred(case: Case, place: Place) -> bool:
    """Whether so many tens are missing from a hundred that was asked for ("How many more tens to a hundred? Three.")."""
    asked = case.question_before(place.sentence_index)
    return (
        asked is not None
        and _HUNDRED in asked.values
        and any(
            isinstance(seen.picture, BaseTen) and seen.picture.value + _TEN * place.number.value == _HUNDRED
            for seen in case.on_screen(place.number.start, place.number.start + 1)
        )
    )


def _of_letters(case: Case, place: Place) -> bool:
    """Whether a number named close by is written with so many letters ("It has seven letters: sixteen")."""
    first, last = case.sentences_around(place.sentence_index, 1, 1)
    return place.after.word == "letters" and any(
        len(spelled(value)) == place.number.value for near in case.sentences[first : last + 1] for value in near.values
    )


def _in_the_rows(case: Case, place: Place) -> bool:
    """Whether it answers what is above or below one of the last numbers ("26. What is above it? 16.")."""
    asked = case.question_before(place.sentence_index)
    value = place.number.value
    return (
        asked is not None
        and len(place.sentence.numbers) == 1
        and case.has_word(asked, _ROWS)
        and not {value - 10, value + 10}.isdisjoint(place.preceding)
    )


def _counted_on(case: Case, place: Place) -> bool:
    """Whether it is where a count of one step was to get to ("Let us count on from thirteen to fourteen. Thirteen. Fourteen.")."""
    value, before = place.number.value, place.preceding
    step = abs(value - before[-1]) if before else 0
    return step == 1 and before[-3:] == [before[-1], value, before[-1]] and len(place.sentence.numbers) == 1


def _of_both_pictures(case: Case, place: Place) -> bool:
    """Whether the dots of the two pictures on the screen make it ("a full frame and four more. I am fourteen")."""
    seen = case.on_screen(place.number.start, place.number.start + 1)
    totals = [one.picture.total for one in seen if isinstance(one.picture, MarkPicture)]
    return len(seen) == len(totals) == 2 and sum(totals) == place.number.value


ACCOUNTS = (
    just_seen,
    just_done,
    read_aloud,
    stands_written,
    answers_what_is_written,
    counts_pictures,
    _is_guessed,
    _is_choice,
    _of_tens,
    _to_a_hundred,
    _of_letters,
    _in_the_rows,
    _of_both_pictures,
    _counted_on,
)
"""What accounts for a number that was not to be expected."""


def instead(expectation: Expectation, families: Mapping[str, tuple[str, str]]) -> str:
    """What was rather to be expected, and why; `families` are those of the clues, with the reasons."""
    likely = [value for value, chance in expectation.likely if chance > 0.1] or [expectation.likely[0][0]]
    gains: dict[str, float] = {}
    for (_, reason), (own, other) in zip(families.values(), expectation.shares[:-1], strict=True):
        if reason:
            gains[reason] = gains.get(reason, 0.0) + other - own
    best = max(gains, key=lambda reason: gains[reason])
    because = f": {best}" if gains[best] > 0 and len(likely) == 1 else ""
    return f"Check it. One would expect {row(likely, 'or')} here{because}."
