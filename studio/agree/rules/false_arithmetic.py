"""A statement that is not true ("Five and two make eight"), and an answer that is wrong for its question."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from studio.agree.case import Case
from studio.agree.denials import denied, one_is_odd
from studio.agree.evident import begins_a_sentence
from studio.agree.games import called_out
from studio.agree.hops import ways_around
from studio.agree.wording import why_false
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.pictures.wholes import WholePicture
from studio.script.model import Add, ChangePicture, Hop, TakeAway
from studio.talk.model import Statement
from studio.talk.numbers import PLURALS

NAME = "true arithmetic"
ANSWER = "answer fits question"


def find(case: Case) -> Iterator[Finding]:
    played = called_out(case)
    for statement in case.talk.statements:
        if statement.holds is not False or statement.kind.startswith("count"):
            continue
        if case.is_excused(statement.start, statement.end) or denied(case, statement.values, statement.start):
            continue
        if statement.start in played or _changes_between(case, statement) or _of_three_parts(case, statement):
            continue
        if statement.kind == "partners" and (_is_read_aloud(case, statement) or _odd_one_is_asked(case, statement)):
            continue
        if _goes_on_from_a_slip(case, statement):
            continue
        if _lands_there(case, statement) or _in_so_many_hops(case, statement):
            continue
        if statement.kind == "question":
            if _next_of_count(case, statement) or _in_leaps(case, statement):
                continue
            yield _wrong_answer(case, statement)
            continue
        if isinstance(statement.expected, bool):
            truth = "true" if statement.expected else "not true"
            why, instead = f"In signs that is {statement.written}, and that is {truth}.", f"Say that it is {truth}."
        else:
            why, instead = why_false(statement)
        yield Finding(NAME, "error", statement.line, statement.column, statement.said, "",
                      f"{_place(statement.line)} “{statement.said}”. {why}", instead)  # fmt: skip


def _goes_on_from_a_slip(case: Case, statement: Statement) -> bool:
    """Whether it begins with a number that is minded already, and is right of the number that was meant ("One less than 12 is 10.
    One more is 13.")."""
    if statement.kind not in ("sum", "difference") or len(statement.values) != 3:
        return False
    first, by, result = statement.values
    return any(
        one.holds is False and one.kind in ("one less", "one more") and one.values[2] == first
        and abs(result - one.values[1]) == by
        for one in case.statements_between(statement.start - _BESIDE, statement.start)
    )  # fmt: skip


_BESIDE = 10  # words


def _is_read_aloud(case: Case, statement: Statement) -> bool:
    """Whether one of several sums on the screen is read ("Seven plus three. Six plus four. Five plus three. Which does not
    belong?"): then it is no partner by mistake."""
    seen = [one.picture for one in case.on_screen(statement.start, statement.end)]
    return begins_a_sentence(statement.values[:2], seen)


def _odd_one_is_asked(case: Case, statement: Statement) -> bool:
    """Whether the one that does not belong is looked for near by."""
    return one_is_odd(case, *case.sentences_around(case.sentence_index(statement.start), _ODD_NEAR, _ODD_NEAR))


_ODD_NEAR = 4  # sentences


def _next_of_count(case: Case, statement: Statement) -> bool:
    """Whether "What comes after 20?" asks for the next number of a count by fives or tens ("counting by fives"), or for the
    next card."""
    said = statement.said.lower()
    if len(statement.values) != 1 or statement.answered is None:
        return False
    answers = [number.value for number in case.numbers_between(statement.answered, statement.answered + 1)]
    if "next" in said or "card" in said:
        for seen in case.on_screen(statement.start, statement.end):
            if isinstance(seen.picture, Cards) and [*statement.values, *answers] in map(
                list, pairwise(seen.picture.faces)
            ):
                return True
    sentence = case.sentences[case.sentence_index(statement.start)]
    start, end = statement.end, sentence.end
    if any(answer == statement.values[0] - 1 for answer in answers) and case.has_word(sentence, _BACKWARDS):
        return True  # "What comes after five, if we go back?"
    if "next" in said:
        start, end = case.segment_around(statement.start)
    elif case.says(sentence.start, statement.start, _BY):
        start = sentence.start
    steps = {PLURALS[word.plain] for word in case.talk.words[start:end] if word.plain in PLURALS}
    return any(answer - statement.values[0] in steps - {1} for answer in answers)


_BY = frozenset(("by", "in"))
_BACKWARDS = frozenset("back backward backwards".split())
_LEAPS = frozenset("leaps leap jumps jump hops hop steps step".split())
_LEAP_OF = frozenset((2, 5, 10))


def _in_leaps(case: Case, statement: Statement) -> bool:
    """Whether it asks for leaps from one number to another that each go so far, as was told before in the segment, and the
    answer tells how many ("That is 10 more. … How many leaps were there from 12 to 42? There were 3.")."""
    if statement.answered is None or not case.says(statement.start, statement.start + 4, _LEAPS):
        return False
    start, _ = case.segment_around(statement.start)
    words = case.talk.words
    sizes = {
        number.value
        for number in case.numbers_between(start, statement.start)
        if number.value in _LEAP_OF
        and (
            case.says(number.end, number.end + 1, ("more", "less"))
            or (words[number.start - 1].plain in ("another", "of", "by") and number.start > start)
        )
    }
    return any(
        size * answer.value == statement.expected
        for size in sizes
        for answer in case.numbers_between(statement.answered, statement.answered + 1)
    )


def _of_three_parts(case: Case, statement: Statement) -> bool:
    """Whether it names only two of the three parts that a bond or a bar on the screen has ("The whole is ten. The first
    part is two, the second part is three.")."""
    if statement.kind != "unknown part" or len(statement.values) != 3:
        return False
    one, other, whole = statement.values
    return any(
        isinstance(seen.picture, WholePicture)
        and len(seen.picture.parts) > 2
        and seen.picture.whole == whole
        and {one, other} <= set(seen.picture.parts)
        for seen in case.on_screen(statement.start, statement.end)
    )


def _changes_between(case: Case, statement: Statement) -> bool:
    """Whether the picture changes between two sentences of it ("Seven and two. [beads: add 3] Twelve.")."""
    if case.lesson is None:
        return False
    words = case.talk.words
    return any(
        words[moment.word].sentence != words[moment.word - 1].sentence
        for moment in case.moments_between(statement.start, statement.end)
        if not isinstance(moment.direction, ChangePicture) or isinstance(moment.direction.change, Add | TakeAway)
    )


def _lands_there(case: Case, statement: Statement) -> bool:
    """Whether a hop from elsewhere comes before its last sentence, and that tells only where the hop ends ("Three big
    flicks and two little ones. [line: hop 74 to 64] Sixty-four.")."""
    if len(statement.values) < 2:
        return False
    words = case.talk.words
    *parts, end = statement.values
    for moment in case.moments_between(statement.start, statement.end):
        change = moment.direction.change if isinstance(moment.direction, ChangePicture) else None
        if isinstance(change, Hop) and words[moment.word].sentence != words[moment.word - 1].sentence:
            return change.end == end and change.start not in (0, *parts)
    return False


_LEGS = _LEAPS | frozenset("strides stride bounds bound flicks flick strokes stroke".split())


def _in_so_many_hops(case: Case, statement: Statement) -> bool:
    """Whether it tells in how many hops of the lesson one comes from one number to the other ("[hop 30 to 25] …
    [hop 20 to 15] From thirty to fifteen, that's three strides.")."""
    if statement.kind != "unknown part" or len(statement.values) != 3:
        return False
    if not case.says(statement.end - 2, statement.end + 2, _LEGS):
        return False
    low, many, high = statement.values
    hops = [hop for hop in ways_around(case, statement.start) if hop.first <= statement.start]
    return any(
        {leg[0].start, leg[-1].end} == {low, high} and all(one.end == next_.start for one, next_ in pairwise(leg))
        for leg in (hops[at : at + many] for at in range(len(hops) - many + 1))
        if leg
    )


def _place(line: int) -> str:
    return f"Line {line} says" if line else "You said"


def _wrong_answer(case: Case, statement: Statement) -> Finding:
    word = statement.answered if statement.answered is not None else statement.end
    line, column = case.line_of(word)
    if isinstance(statement.expected, int) and statement.expected < 0:
        why, instead = "has no answer, for that would be less than nothing.", "Change one of its numbers."
    else:
        why = f"asks for {statement.expected}, but the answer makes it {statement.written}."
        instead = f"Answer {statement.expected}, or change the question."
    return Finding(ANSWER, "error", line, column, statement.said, "", f"“{statement.said}” {why}", instead)
