"""How many there are is asked of a picture, and the answer that follows at once is a number that can be found in it ("How
many dots do you see? [wait] Nine.")."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import counts, essential, structure, visible
from studio.agree.manners import SUPPOSING, affirmed, guessed, is_lone
from studio.findings import Finding
from studio.pictures.base import Picture
from studio.pictures.kinds.base_ten import BaseTen
from studio.pictures.kinds.dice import Dice
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.kinds.tally import Tally
from studio.pictures.marks import MarkPicture
from studio.script.model import Add, TakeAway
from studio.talk.model import Number
from studio.talk.numbers import said

NAME = "how many as shown"
_THINGS = (BaseTen, Dice, MarkPicture, Rekenrek, Tally)  # what children count in
_REACH = 4  # sentences before the question in which the answer may be told
_SHORT = 5  # words
_SEEING = frozenset(
    "was were be yes right i we you they there see saw count counted is are it that's it's got found have".split()
)
_NOT_ALL = frozenset(
    "more less make makes need needs want another would if or plus hundred new break broken missing empty".split()
)
_BODY = frozenset("legs eyes feet ears wings".split())
_IN_PAIRS = _BODY | frozenset("wheels paws shoes boots socks mittens".split())
_PUT = frozenset("used put placed given laid dealt shared far".split())
_OTHER = (
    SUPPOSING
    | _BODY
    | frozenset("times ways fingers toes hands letters minutes seconds days pictures steps hops jumps".split())
)


def find(case: Case) -> Iterator[Finding]:
    for index, question in enumerate(case.sentences):
        answer = _answer(case, index) if _asks(case, question) else _guess(case, index)
        if answer is None:
            continue
        number = answer.numbers[0]
        if not _bare(case, answer, number) or case.covering.get(number.start) or _of_sums(case, question):
            continue
        first, last = case.sentences_around(index, 1, 3)
        shown = case.on_screen(case.sentences[first].start, case.sentences[last].end)
        there = _asked_for(case, question, case.on_screen(question.start, answer.end))
        if there is not None and number.value != there and not case.is_excused(question.start, answer.end):
            yield Finding(NAME, "error", number.line, number.column, said(case.talk.words, question.start, answer.end), "",
                          f"Line {number.line} answers {number.value}, and the picture has {there}.",
                          f"Say {there}, or show a picture with {number.value}.")  # fmt: skip
            continue
        if not number.value:
            continue
        if not any(isinstance(seen.picture, _THINGS) for seen in shown):
            continue
        if number.value in _seen(shown) | _told(case, index, answer) | _changed(case, index) or case.is_excused(
            question.start, answer.end
        ):
            continue
        if number.value in _up_to(case, question, shown):
            continue
        if number.value in _put_so_far(case, index) | _with_more(case, index, shown) | _by_pairs(case, index, shown):
            continue
        if any(len(sentence.values) == number.value for sentence in case.sentences[first : index + 1]):
            continue  # "Two, four, six, eight. How many ducks is that? Four." (of legs that are counted by twos)
        yield Finding(NAME, "error", number.line, number.column, said(case.talk.words, question.start, answer.end), "",
                      f"Line {number.line} answers {number.value}, and that is nowhere in the picture.",
                      "Say what the picture has, or show what is said.")  # fmt: skip


def _asks(case: Case, sentence: Sentence) -> bool:
    words = case.talk.words
    if not case.asks(sentence) or case.has_word(sentence, _OTHER):
        return False
    return any(
        words[at].plain == "how" and words[at + 1].plain == "many" for at in range(sentence.start, sentence.end - 1)
    )


def _of_sums(case: Case, question: Sentence) -> bool:
    """Whether it asks for a number of a sum ("Two and how many is ten?"), not of a picture."""
    return any(
        statement.kind == "question" for number in question.numbers for statement in case.covering.get(number.start, ())
    )


def _guess(case: Case, index: int) -> Sentence | None:
    """A sentence that asks if there is one number and is answered with yes ("Was it fourteen? It was!")."""
    sentence = case.sentences[index]
    return sentence if len(sentence.numbers) == 1 and guessed(case, sentence) and affirmed(case, index) else None


def _asked_for(case: Case, question: Sentence, shown: Sequence[Appearance]) -> int | None:
    """How many full rows, bundles, tens, ones or single sticks the only picture has, where just these are asked for."""
    if len(shown) != 1 or shown[0].change is not None or case.has_word(question, _NOT_ALL):
        return None
    picture = shown[0].picture
    match picture:
        case MarkPicture() if picture.framed and case.has_word(question, ("full",)):
            return picture.total // 5 if case.has_word(question, ("row", "rows")) else None
        case Tally() if case.has_word(question, ("bundles",)):
            return picture.value // 5
        case Tally() if case.has_word(question, ("over", "loose", "single")):
            return picture.value % 5 if case.has_word(question, ("sticks", "marks", "strokes")) else None
        case BaseTen():
            tens, ones = case.has_word(question, ("tens",)), case.has_word(question, ("ones",))
            return None if tens == ones else picture.tens if tens else picture.ones
    return None


def _answer(case: Case, index: int) -> Sentence | None:
    """The next sentence, or the one after a short one without a number ("Tell me."), if it says one number. A guess is none,
    unless the answer to it is yes."""
    _, last = case.sentences_around(index, 0, 2)
    for at in range(index + 1, last + 1):
        answer = case.sentences[at]
        if answer.numbers:
            guess = case.asks(answer) and not affirmed(case, at)  # "Is it six?"
            return answer if len(answer.numbers) == 1 and not guess else None
        if answer.end - answer.start > _SHORT:
            return None
    return None


def _bare(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether it says the number and no more than one word for what is counted ("Nine.", "I see nine dots.")."""
    words = case.talk.words
    after = sentence.end - number.end
    return is_lone(case, sentence, number) or (
        after <= 1 and all(words[at].plain in _SEEING for at in range(sentence.start, number.start))
    )


def _seen(shown: Sequence[Appearance]) -> set[int]:
    """Every number that can be found in the pictures, those they were before, and between them."""
    pictures: list[Picture] = [seen.picture for seen in shown] + [seen.before for seen in shown if seen.before]
    found: set[int] = set()
    amounts: set[int] = set()
    for picture in pictures:
        found |= visible(picture) | structure(picture)
        if isinstance(picture, _THINGS):
            amounts |= counts(picture)
    found |= {abs(one - other) for one, other in combinations(amounts, 2)}
    return found


def _changed(case: Case, index: int) -> set[int]:
    """By how much the pictures changed shortly before ("Eleven, ten, nine. Stop there. How many came off? Three.")."""
    first, _ = case.sentences_around(index, _REACH, 0)
    steps = case.on_screen(case.sentences[first].start, case.sentences[index].end)
    return {step.change.count for step in steps if isinstance(step.change, Add | TakeAway)}


def _up_to(case: Case, question: Sentence, shown: Sequence[Appearance]) -> set[int]:
    """What there has to come up to a number that the question names ("How many more tens to a hundred?")."""
    if not case.has_word(question, ("more", "missing")) or len(question.numbers) != 1:
        return set()
    unit = 10 if case.has_word(question, ("tens",)) else 1
    gaps = {question.values[0] - value for seen in shown for value in essential(seen.picture)}
    return {gap // unit for gap in gaps if gap > 0 and gap % unit == 0}


def _told(case: Case, index: int, answer: Sentence) -> set[int]:
    """The numbers told before the answer."""
    first, _ = case.sentences_around(index, _REACH, 0)
    before = (sentence for sentence in case.sentences[first : index + 1] if sentence.start < answer.start)
    return {value for sentence in before for value in sentence.values}


def _sentence_before(case: Case, index: int) -> Sentence | None:
    """The sentence before one, in its segment."""
    first, _ = case.sentences_around(index, 1, 0)
    return case.sentences[first] if first < index else None


def _with_more(case: Case, index: int, shown: Sequence[Appearance]) -> set[int]:
    """What there are with the ones more that the sentence before tells ("Six more loose. How many then? Thirty.")."""
    before = _sentence_before(case, index)
    if before is None or len(before.values) != 1 or not case.has_word(before, ("more", "another")):
        return set()
    return {count + before.values[0] for seen in shown for count in counts(seen.picture)}


def _by_pairs(case: Case, index: int, shown: Sequence[Appearance]) -> set[int]:
    """How many have the feet or wheels that are shown ("Eight feet in the reeds. How many ducks? Four."), or how many pairs they are."""
    if case.has_word(case.sentences[index], ("pairs",)):
        return {count // 2 for seen in shown for count in counts(seen.picture)}
    before = _sentence_before(case, index)
    if before is None or not case.has_word(before, _IN_PAIRS):
        return set()
    return {count // each for seen in shown for count in counts(seen.picture) for each in (2, 4) if count % each == 0}


def _put_so_far(case: Case, index: int) -> set[int]:
    """What the amounts of the sentence before come to, where it is asked how many were put down ("I put 4 on this
    plate, 4 on that plate. How many have I used? 8.")."""
    before = _sentence_before(case, index)
    if before is None or len(before.values) < 2 or not case.has_word(case.sentences[index], _PUT):
        return set()
    return {sum(before.values)}
