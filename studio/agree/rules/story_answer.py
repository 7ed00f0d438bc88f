"""What is said to answer a story must be its answer: the words right after the question ("Two."), "The answer is …",
and a closing sentence that says what was asked ("So two more frogs hopped on.")."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from studio.agree.case import Case, Sentence
from studio.agree.looks import amount, relation
from studio.agree.tellings import Telling, tellings
from studio.findings import Finding
from studio.script.model import Add, Show, TakeAway
from studio.talk.numbers import PLURALS, said
from studio.talk.stories import Memory, Quantity, Question, Token, read_sentence, read_story, tokens_of
from studio.talk.stories.question import find_question, read_question

NAME = "answer fits story"

_STEPS = 2  # changes of a drawing that one story can have
_MOST_TOLD = 4  # numbers of a story that are looked at where not all were read
_REACH = 60
"""Sentences after the question that are looked at."""

_ANSWERING = frozenset(
    "yes right so that is that's it it's the answer was there are were and altogether in all left more now fewer still "
    "they have has we you he she exactly".split()
)
_WORKING_OUT = frozenset(
    "count draw start began begin first take away plus minus add put let's let us know whole part parts bond sentence".split()
)
_NEARLY = frozenset("under over below above".split())
_BEING = frozenset("be sit stay swim rest live stand float play wait".split())
"""Verbs that tell no more than that one is there: who asks "how many are there?" may be answered with "eight swim"."""
_SIGNS = (
    ("left", frozenset("left remain remaining still".split())),
    ("now", frozenset(("now",))),
    ("total", frozenset("altogether total together".split())),
)


def find(case: Case) -> Iterator[Finding]:
    starts = [sentence.start for sentence in case.sentences]
    for telling in tellings(case):
        changes = {id(step.moment.direction) for step in telling.pictures if isinstance(step.change, Add | TakeAway)}
        if len(changes) > _STEPS:
            continue  # a song of five frogs that go one by one
        at = bisect_left(starts, telling.story.end)
        after = [s for s in case.sentences[at : at + _REACH] if s.start < telling.until]
        words = case.talk.words[telling.story.start : telling.story.end]
        told, question = read_story(_tokens(case, telling.story.start, telling.story.end), words)
        if question is None:
            continue
        for sentence in _wrong(case, telling, after, told, question):
            if case.is_excused(sentence.start, sentence.end):
                continue
            number = sentence.numbers[-1]
            if _is_of_all(case, telling, number.value):
                continue
            text = said(case.talk.words, sentence.start, sentence.end)
            yield Finding(
                NAME, "error", number.line, number.column, text, "",
                f"The story on line {telling.story.line} is {telling.story.sentence}, and its answer is "
                f"{telling.answer}. Line {number.line} says {number.value}.",
                f"Say {telling.answer}, or change the story so that it fits.",
            )  # fmt: skip


def _is_of_all(case: Case, telling: Telling, value: int) -> bool:
    """Whether a number is what all that the story tells makes, where that is more than was read of it ("Four get off and two get on")."""
    told = [number.value for number in case.numbers_between(telling.story.start, telling.story.end)]
    if not len(telling.story.told) < len(told) <= _MOST_TOLD:
        return False
    reached = {told[0]}
    for step in told[1:]:
        reached = {total + sign * step for total in reached for sign in (1, -1)}
    return value in reached


def _wrong(
    case: Case, telling: Telling, after: Sequence[Sentence], told: Sequence[Quantity], question: Question
) -> Iterator[Sentence]:
    """The sentences that answer the story with another number."""
    answered = found = False
    again: Question | None = None
    for index, sentence in enumerate(after):
        if found and _goes_to_another(case, telling, sentence):
            return
        if not found and _tells_new_picture(case, telling, sentence):
            return
        tokens = _tokens(case, sentence.start, sentence.end)
        same = _asked_again(tokens, question)
        if found and sentence.numbers and same is not None:
            return  # "I hold up two, so how many are hiding?": the same is asked of other numbers
        found = found or telling.answer in sentence.values
        plain = [token.plain for token in tokens]
        if again is not None and sentence.numbers and not tokens[-1].asks:
            asked, again = again, None
            if _is_bare(tokens, asked) and not _goes_on(case, after, index):
                if sentence.values[0] != telling.answer:
                    yield sentence
                continue
        again = same or (None if sentence.numbers else again)
        if not answered and (sentence.numbers or _WORKING_OUT & set(plain)):
            answered = True
            if _is_bare(tokens, question) and not _goes_on(case, after, index):
                if sentence.values[0] != telling.answer and not _tells_again(telling, sentence, index):
                    yield sentence
                continue
        if len(sentence.numbers) != 1 or sentence.values[0] == telling.answer or tokens[-1].asks:
            continue
        if case.talk.words[max(sentence.start, sentence.numbers[0].start - 1)].plain in _NEARLY:
            continue  # "The answer will be under fourteen."
        if _on_the_way(case, telling, sentence) or _over_from_groups(case, after, index):
            continue
        if _says_answer(plain) or _closes(tokens, told, question) or _sums_up(case, after, index, tokens, question):
            yield sentence


def _goes_to_another(case: Case, telling: Telling, sentence: Sentence) -> bool:
    """Whether a picture of other numbers has come on since: then another problem has begun."""
    return any(
        isinstance(appearance.moment.direction, Show)
        and appearance.moment.word <= sentence.start
        and (shown := relation(appearance.picture)) is not None
        and (shown.whole, tuple(sorted(shown.parts))) != (telling.whole, telling.parts)
        for appearance in telling.pictures
    )


def _tells_new_picture(case: Case, telling: Telling, sentence: Sentence) -> bool:
    """Whether it begins with how many there were in a picture that has come on and gone since the story was told: then that is
    what was asked ("Eight. Five on top and three below. [show rekenrek: 10 and 2 as b] Look. [hide b] How many? Twelve.")."""
    if not sentence.numbers or sentence.numbers[0].start != sentence.start:
        return False
    moments = case.moments_between(telling.story.start, sentence.start + 1)
    gone = {moment.name for moment in moments if moment.picture is None}
    seen = [moment.picture for moment in moments if moment.picture is not None and moment.name in gone]
    return bool(seen) and amount(seen[-1]) == sentence.values[0] != telling.answer


def _tokens(case: Case, start: int, end: int) -> list[Token]:
    """The words from `start` to before `end` as the reader of stories sees them."""
    first = bisect_left(case.talk.numbers, start, key=lambda number: number.start)
    last = bisect_left(case.talk.numbers, end, key=lambda number: number.start)
    return tokens_of(case.talk.words[start:end], case.talk.numbers[first:last], start)


def _is_bare(tokens: Sequence[Token], question: Question) -> bool:
    """Whether a sentence is an answer of one number and nothing else of weight ("Yes, two frogs!")."""
    if sum(token.number is not None for token in tokens) != 1 or tokens[-1].asks:
        return False
    nouns = question.nouns | {question.head}
    return all(token.number is not None or token.plain in _ANSWERING or token.lemma in nouns for token in tokens)


def _goes_on(case: Case, after: Sequence[Sentence], index: int) -> bool:
    """Whether the next sentence counts on or works on with the number."""
    if index + 1 >= len(after):
        return False
    following = after[index + 1]
    if following.paragraph != after[index].paragraph:
        return False
    plain = {word.plain for word in case.talk.words[following.start : following.end]}
    alone = bool(following.numbers) and following.numbers[0].start == following.start
    return alone or bool(plain & _WORKING_OUT)


def _on_the_way(case: Case, telling: Telling, sentence: Sentence) -> bool:
    """Whether it tells what a drawing shows that still changes ("Take six away. Ten are left. Take one more away")."""
    later = any(
        seen.moment.word >= sentence.end - 1 and isinstance(seen.change, Add | TakeAway) for seen in telling.pictures
    )
    return later and any(
        amount(seen.picture) == sentence.values[0] for seen in case.on_screen(sentence.start, sentence.end)
    )


def _over_from_groups(case: Case, after: Sequence[Sentence], index: int) -> bool:
    """Whether it tells what is left over from groups ("Nine can't march in twos. One is left over.")."""
    words, sentence = case.talk.words, after[index]
    plain = [word.plain for word in words[sentence.start : sentence.end]]
    around = words[after[max(0, index - 1)].start : sentence.end]
    return ("left", "over") in pairwise(plain) and any(word.plain in PLURALS for word in around)


def _tells_again(telling: Telling, sentence: Sentence, index: int) -> bool:
    """Whether a number that the story told may be told once more: further on, or while it is drawn."""
    drawn = any(telling.story.end <= seen.moment.word <= sentence.start for seen in telling.pictures)
    return sentence.values[0] in telling.story.told and (index > 0 or drawn)


def _asked_again(tokens: Sequence[Token], question: Question) -> Question | None:
    """The question of a sentence that asks what the story asked ("So how many otters came?"); else None."""
    begin = find_question(tokens) if tokens[-1].asks else None
    if begin is None:
        return None
    again = read_question(tokens, begin)
    alike = again.verb == question.verb and (not again.nouns or not question.nouns or again.nouns & question.nouns)
    signs = ("more", "left", "total", "start_asked", "goal", "rest")
    same = alike and question.verb and all(getattr(again, sign) == getattr(question, sign) for sign in signs)
    return again if same else None


def _sums_up(case: Case, after: Sequence[Sentence], index: int, tokens: Sequence[Token], question: Question) -> bool:
    """ "So fourteen fish." as the last that is said of the story."""
    sentence = after[index]
    return (
        tokens[0].plain == "so"
        and len(tokens) > 2
        and _is_bare(tokens, question)
        and not any(other.numbers for other in after[index + 1 :])
        and after[0].segment == sentence.segment
    )


def _says_answer(plain: Sequence[str]) -> bool:
    """ "The answer is two." """
    for position, word in enumerate(plain[:-1]):
        if word == "answer" and plain[position + 1] in ("is", "was"):
            return not {"not", "isn't", "than", "bigger", "smaller", "greater", "less"} & set(plain)
    return False


def _closes(tokens: Sequence[Token], told: Sequence[Quantity], question: Question) -> bool:
    """Whether a sentence says what was asked, with one number."""
    plain = frozenset(token.plain for token in tokens)
    if plain & {"if", "not", "would", "could", "or", "first", "than"} and not (question.has_than and "than" in plain):
        return False
    memory = Memory(owner=question.subject, noun=question.nouns, head=question.head)
    found = [quantity for quantity in read_sentence(tokens, 0, memory) if quantity.known]
    if len(found) != 1 or not question.verb:
        return False
    said_of = found[0]
    alike = said_of.verb == question.verb or {said_of.verb, question.verb} <= _BEING
    if not alike or (question.nouns and not question.nouns & said_of.nouns):
        return False
    if question.has_than:
        return bool(said_of.reference) and bool(said_of.owner & question.words)
    if said_of.compare and said_of.reference:
        return False
    if question.verb not in _BEING | {"have"}:
        known = {quantity.value for quantity in told if quantity.known}
        return said_of.value not in known or all(quantity.verb != question.verb for quantity in told)
    signs = {"left": question.left, "now": question.now, "total": question.total}
    asked = {name for name, value in signs.items() if value}
    here = {name for name, words in _SIGNS if words & plain} | ({"total"} if {"in", "all"} <= plain else set())
    if asked & here and not question.start_asked:
        return not any(quantity.afterwards or quantity.whole for quantity in told if quantity.known)
    owners = question.subject & said_of.owner
    return bool(owners) and not asked and not any(owners & quantity.owner for quantity in told if not quantity.compare)
