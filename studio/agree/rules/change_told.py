"""What is told right with a step of a picture: how many are taken or added ("[dots: take away 5] Cross out five."), what
there is then ("[blocks: take away 20] Thirty-six."), how far a hop goes ("Jump back thirty. [line: hop 40 to 10]"), from
where ("Start on eight and go up") and to where ("hop to seven from five")."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from itertools import accumulate

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.hops import Way, lengths, told, ways
from studio.agree.looks import amount, counts
from studio.agree.manners import claims, is_lone
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.spans import SpanPicture
from studio.script.model import Add, TakeAway
from studio.talk.model import Number

NAME = "change as told"
_TAKEN = re.compile(
    r" (?:(?:takes?|took|taking|cross|crosses|crossed|rub|rubs|rubbed) (?:away |out |off |back )?(?:the |just |only |another )?(#)"
    r"(?= )(?! #)(?! (?:from|more|of|at|and|or|by|steps?|hops?|jumps?) )|"
    r"(?:after|once|without) the (#)(?: [a-z]+){0,2} (?:have |has |had )?"
    r"(?:jumped|gone|left|flown|hopped|eaten|taken|swum|run|away|hidden)(?= ))"
)
_ADDED = re.compile(
    r" (?:adds?|added) (?:on |in )?(?:just |only )?(#)(?= )(?! #)(?! (?:to|at|and|or|by|of) )(?! [a-z]+ (?:and|to) )"
)
_WISHED = frozenset("want wants wanted asked need needs told wish like how instead should shall first".split())
_VERB = (
    r"(?:jump|hop|step|slide|walk|move|skip|leap|crawl|climb|go|fly|swim)(?:s|ed|ped)?|"
    r"slid|went|goes|flew|swam|leapt|moved"
)
_BY = tuple(
    re.compile(pattern)
    for pattern in (
        rf" (?:{_VERB})(?: (?:back|on|forwards?|backwards?|ahead|along|up|down))? (?:by )?(#)(?= (?:more )?[.,] )",
        r" (?:back|backwards|forward|forwards) (#)(?= [.,] )",
    )
)
_NEED = re.compile(
    r" (?:needs?|goes|go|hops?|jumps?|makes?) (?:only |just |exactly )?(#) (?:[a-z]+ )?"
    r"(?:hops|jumps|steps|leaps|times) [.,] "
)
_BY_TO = re.compile(r" (?:up|down|back|on) (#) to (?:the )?(#)(?= [.,] )")
_START = re.compile(
    r" (?:start|starts|begin|begins|starting|beginning) (?:on|at|from) (?:the )?(?:number )?(#)(?= (?:[.,]|and) )"
)
_TO_FROM = re.compile(r" to (?:the )?(?:number )?(#) from (?:the )?(?:number )?(#) ")
_FROM_TO = re.compile(r" from (?:the )?(?:number )?(#) to (?:the )?(?:number )?(#) ")
_GROUPS = frozenset(
    "row rows frame frames hand hands column columns pair pairs bundle bundles box boxes group groups line lines".split()
)
_STEPS = 12  # picture steps that may be told together
_NEAR = 1  # sentences
_SOON = 2  # sentences


def find(case: Case) -> Iterator[Finding]:
    yield from _changes(case)
    yield from _results(case)
    yield from _hops(case)


# --- so many more, so many less -------------------------------------------------------------------------------------


def _changes(case: Case) -> Iterator[Finding]:
    speech = case.talk.speech
    for pattern, sort in ((_TAKEN, TakeAway), (_ADDED, Add)):
        for match in pattern.finditer(speech.text):
            number = speech.number_at[match.start(match.lastindex or 0)]
            sentence = case.sentences[case.sentence_index(number.start)]
            if len(sentence.numbers) != 1 or not _is_told(case, sentence, number):
                continue
            step = _only_change(case, sentence)
            change = None if step is None else step.change
            if step is None or not isinstance(change, Add | TakeAway) or not isinstance(change, sort):
                continue
            unit = 10 if case.says(number.end, number.end + 1, ("ten", "tens")) else 1
            # "She takes two sticks away", of ten each; "Take away seven. [frame: take away 5] First five. …"
            allowed = {10 * number.value, unit * number.value}
            if change.count not in allowed and number.value not in _one_after_another(case, step):
                yield _finding(number, step, f"this step changes the picture by {change.count}", [change.count])


def _is_told(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether a sentence tells what is done, and does not wish, ask or suppose it, or speak of rows."""
    if case.asks(sentence) or case.has_word(sentence, _WISHED) or not claims(case, sentence, number):
        return False
    return not case.says(number.end, number.end + 1, _GROUPS)  # "Take one row away"


def _only_change(case: Case, sentence: Sentence) -> Appearance | None:
    """The step that comes in a sentence, right before or right behind it, if nothing else changes there."""
    steps = case.pictures_of(sentence.segment)
    first = bisect_left(steps, sentence.start, key=lambda step: step.moment.word)
    last = bisect_right(steps, sentence.end, key=lambda step: step.moment.word)
    found = [step for step in steps[first:last] if isinstance(step.change, Add | TakeAway)]
    directions = {id(step.moment.direction) for step in found}
    return found[0] if len(directions) == 1 else None


def _one_after_another(case: Case, step: Appearance) -> set[int]:
    """By how much a step and those that follow it in its segment change the picture together."""
    steps = case.pictures_of(step.moment.direction.segment)
    at = bisect_left(steps, step.moment.word, key=lambda one: one.moment.word)
    directions = {id(one.moment.direction): one.change for one in steps[at : at + _STEPS]
                  if one.moment.name == step.moment.name and isinstance(one.change, type(step.change))}  # fmt: skip
    return set(accumulate(change.count for change in directions.values() if isinstance(change, Add | TakeAway)))


def _results(case: Case) -> Iterator[Finding]:
    """A number alone right after a change: what there is now, or how many came or went."""
    for step in case.pictures:
        change = step.change
        if not isinstance(change, Add | TakeAway) or change.counting:
            continue
        word = step.moment.word
        index = _first_with_numbers(case, word)
        sentence = case.sentences[index]
        now = amount(step.picture)
        if now is None or sentence.segment != step.moment.direction.segment or not sentence.numbers:
            continue
        number = sentence.numbers[0]
        if sentence.start < word or not is_lone(case, sentence, number) or case.asks(sentence):
            continue
        allowed = {now, change.count}
        if case.question_before(index) is not None:
            allowed |= counts(step.picture) | {change.count // 10}
        if number.value in allowed or _said_around(case, index, now) or case.is_excused(sentence.start, sentence.end):
            continue
        yield _finding(number, step, f"there are {now} then", [now])


def _first_with_numbers(case: Case, word: int) -> int:
    """The sentence of a step, or the next one where that says no number ("What's left is a full frame. Ten.")."""
    index = case.sentence_index(word)
    _, last = case.sentences_around(index, 0, 1)
    sentence = case.sentences[index]
    silent = not sentence.numbers and sentence.start == word and not case.asks(sentence)
    return last if silent and not case.moments_between(word, case.sentences[last].start + 1) else index


def _said_around(case: Case, index: int, value: int) -> bool:
    """Whether a number is said right before or right after a sentence."""
    first, last = case.sentences_around(index, 1, 1)
    return any(value in sentence.values for sentence in case.sentences[first : last + 1])


# --- hops -----------------------------------------------------------------------------------------------------------


def _hops(case: Case) -> Iterator[Finding]:
    if not ways(case):
        return
    yield from _lengths_told(case)
    yield from _begun(case)
    yield from _by_and_to(case)
    yield from _both_ends(case)


def _lengths_told(case: Case) -> Iterator[Finding]:
    """How far it goes: "Jump back thirty", "I need eight hops"."""
    for pattern in _BY:
        for _, number, index, here in told(case, pattern):
            beside = _beside(case, case.sentences[index], here)
            if not beside or len(case.sentences[index].numbers) != 1:
                continue
            if number.value not in lengths(_around(here, number.start)):
                yield _of_hop(number, beside[0], f"it goes on by {beside[0].length}", beside[0].length)
    for _, number, _index, here in told(case, _NEED):
        coming = _coming(case, number, here, _SOON)
        if coming and number.value not in {len(here), *lengths(_around(here, number.start))}:
            yield _of_hop(number, coming, f"that takes {coming.length}", coming.length)


def _begun(case: Case) -> Iterator[Finding]:
    """Where the next hop begins: "Start on eight and go up"."""
    for _, number, index, here in told(case, _START):
        coming = None if case.asks(case.sentences[index]) else _coming(case, number, here, _NEAR)
        if coming and number.value not in {coming.start, *_marked(case, number)}:
            yield _of_hop(number, coming, f"it begins on {coming.start}", coming.start)


def _by_and_to(case: Case) -> Iterator[Finding]:
    """How far and to where it goes: "[line: hop 20 to 40] Up twenty to forty."."""
    for match, number, index, here in told(case, _BY_TO):
        sentence = case.sentences[index]
        made = [hop for hop in _around(here, sentence.start) if hop.at == sentence.start]
        end = case.talk.speech.number_at[match.start(2)]
        if len(made) == 1 and len(sentence.numbers) == 2 and (end.value, number.value) != (made[0].end, made[0].length):
            wrong, right = (number, made[0].length) if end.value == made[0].end else (end, made[0].end)
            yield _of_hop(wrong, made[0], f"it goes on by {made[0].length} to {made[0].end}", right)


def _both_ends(case: Case) -> Iterator[Finding]:
    """From where to where it goes: "hop to seven from five"."""
    for pattern, back in ((_TO_FROM, True), (_FROM_TO, False)):
        for match, number, index, here in told(case, pattern):
            other = case.talk.speech.number_at[match.start(2)]
            sentence = case.sentences[index]
            beside = _beside(case, sentence, here)
            first, last = (other, number) if back else (number, other)
            ends = (first.value, last.value)
            if len(beside) != 1 or len(sentence.numbers) != 2 or case.asks(sentence) or case.covering.get(other.start):
                continue
            hop = beside[0]
            if (first.value == hop.start) == (last.value == hop.end) or ends in _spans(case, sentence):
                continue  # both are right, or another way is told
            wrong, right = (last, hop.end) if first.value == hop.start else (first, hop.start)
            if any(wrong.value in (stop.start, stop.end) for stop in _around(here, number.start)):
                continue  # several hops lead there
            yield _of_hop(wrong, hop, f"it goes from {hop.start} to {hop.end}", right)


def _around(here: list[Way], word: int) -> list[Way]:
    """The hops of a segment around a word."""
    at = bisect_left(here, word, key=lambda hop: hop.at)
    return here[max(0, at - _STEPS) : at + _STEPS]


def _beside(case: Case, sentence: Sentence, here: list[Way]) -> list[Way]:
    """The hops that are made in a sentence or right before or behind it; where none is, the one that is made
    close by, if there is only one."""
    hops = _around(here, sentence.start)
    close = [hop for hop in hops if sentence.start <= hop.at <= sentence.end]
    if close:
        return close
    index = case.sentence_index(sentence.start)
    near = [
        hop for hop in hops if case.sentence_index(hop.first) - _NEAR <= index <= case.sentence_index(hop.last) + _SOON
    ]
    return near if len(near) == 1 else []


def _coming(case: Case, number: Number, here: list[Way], reach: int) -> Way | None:
    """The first hop behind a number, if it comes within so many sentences."""
    at = bisect_left(here, number.end, key=lambda hop: hop.at)
    last = case.sentence_index(number.start) + reach + 1
    return here[at] if at < len(here) and case.sentence_index(here[at].at) <= last else None


def _marked(case: Case, number: Number) -> set[int]:
    """What is marked on the paths and lines around a number, and where these begin."""
    found: set[int] = set()
    for seen in case.on_screen_at(number.start):
        if isinstance(seen.picture, SpanPicture):
            found |= {*seen.picture.marked, seen.picture.start}
    return found


def _spans(case: Case, sentence: Sentence) -> set[tuple[int, int]]:
    """From where to where the paths and lines around a sentence go."""
    return {(seen.picture.start, seen.picture.end) for seen in case.on_screen(sentence.start, sentence.end + 1)
            if isinstance(seen.picture, SpanPicture)}  # fmt: skip


def _of_hop(number: Number, hop: Way, why: str, right: int) -> Finding:
    return of_number(NAME, number, "",
                   f"Line {number.line} says {number.value} of the hop from {hop.start} to {hop.end}, but {why}.",
                   f"Say {right}, or change the hop.")  # fmt: skip


def _finding(number: Number, step: Appearance, why: str, values: list[int]) -> Finding:
    direction = step.moment.direction
    return of_number(NAME, number, direction.text,
                   f"Line {number.line} says {number.value} with [{direction.text}] of line "
                   f"{direction.place.line}, but {why}.",
                   f"Say {row(values, 'or')}, or change the direction.")  # fmt: skip
