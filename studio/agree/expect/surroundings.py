"""What stands around a place, as tokens: the words before and after the number, alone and in their order, in its sentence and
the ones beside it, how it is joined to the other numbers, what is on the screen and what happens next there, the title of the
segment. They say which clues are to be trusted at the place ("one less than" trusts others than "in all")."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import chain

from studio.agree.expect.hints import KEPT, Bundle, named, tokens_of
from studio.agree.expect.patterns import NUMBER, as_said, patterns
from studio.agree.expect.place import Book, Place
from studio.agree.expect.writing import Writing

_NEAR = 4  # words
_SENTENCE = 20  # words
_BEFORE = 8  # words of the sentence before
_BEHIND = 6  # words of the sentence after
_NUMBERS = 4
_OWN = 5  # words
_PICTURES = 2
_STEP = 4  # words
_STEPS = 5
_WAIT = 10  # words
_ROUND = 5  # numbers


def tokens(place: Place) -> Iterator[str]:
    """The tokens of a place; what is said twice comes twice."""
    return tokens_of(chain.from_iterable(finder(place) for finder in FINDERS))


def _where(place: Place) -> Iterator[Bundle]:
    """The part of the segment and its title; the statements it stands in."""
    yield place.book.title_tokens(place.segment)
    quarter = int(4 * (place.number.start - place.start) / max(1, place.end - place.start))
    covering = place.book.case.covering.get(place.number.start, ())
    yield named(f"place {quarter}", f"statements {min(3, len(covering))}", *[f"in {one.kind}" for one in covering])


def _words(place: Place) -> Iterator[Bundle]:
    words, number, sentence = place.book.words, place.number, place.sentence
    for step in range(1, _NEAR + 1):
        before, after = number.start - step, number.end + step - 1
        yield _word("-", step, words[before].plain) if before >= sentence.start else named(f"-{step} ^")
        yield _word("+", step, words[after].plain) if after < sentence.end else named(f"+{step} $")
    yield _manner(number.form, place.before.sort, place.after.sort)


@lru_cache(maxsize=KEPT)
def _word(side: str, step: int, plain: str) -> Bundle:
    return named(f"{side}{step} {plain}", f"{side} {plain}")


@lru_cache(maxsize=KEPT)
def _manner(form: str, before: str, after: str) -> Bundle:
    return named(f"form {form}", f"before {before}", f"after {after}")


def _sentence(place: Place) -> Iterator[Bundle]:
    """What is the same for all numbers of a sentence, worked out once."""
    book, at = place.book, place.sentence_index
    kept = book.sentence_tokens.get(at)
    if kept is None:
        kept = book.sentence_tokens[at] = named(*_sentences(book, at))
    yield kept


def _sentences(book: Book, at: int) -> Iterator[str]:
    """The words of a sentence, of the one before it and the one after it, and whether they ask."""
    words, sentences = book.words, book.case.sentences
    sentence = sentences[at]
    start, end = book.case.segment_around(sentence.start)
    yield from sentence_words(book, at)
    yield f"asks {'?' in words[sentence.end - 1].text}"
    yield f"numbers {min(_NUMBERS, len(sentence.numbers) - 1)}"  # beside one of them
    own_words = book.case.own_words
    yield f"own {min(_OWN, own_words[at][0])}"
    yield f"own part {_part(own_words[at])}"
    if at and sentences[at - 1].start >= start:
        earlier = sentences[at - 1]
        for word in words[max(earlier.start, earlier.end - _BEFORE) : earlier.end]:
            yield f"p {word.plain}"
        yield f"p asks {'?' in words[earlier.end - 1].text}"
        yield f"p numbers {min(_NUMBERS, len(earlier.numbers))}"
        yield f"p own part {_part(own_words[at - 1])}"
    else:
        yield "p ^"
    if at + 1 < len(sentences) and sentences[at + 1].end <= end:
        later = sentences[at + 1]
        for word in words[later.start : min(later.end, later.start + _BEHIND)]:
            yield f"n {word.plain}"
        yield f"n numbers {min(_NUMBERS, len(later.numbers))}"
        yield f"n own part {_part(own_words[at + 1])}"


def sentence_words(book: Book, at: int) -> Iterator[str]:
    """The words of a sentence without its numbers: a number would tell itself."""
    sentence = book.case.sentences[at]
    words = as_said(book)[sentence.start : min(sentence.end, sentence.start + _SENTENCE)]
    return (f"s {word}" for word in words if word != NUMBER)


def _part(own: tuple[int, int]) -> int:
    """In quarters, how many of the longer words of a sentence are said nowhere else."""
    return -(-4 * own[0] // max(1, own[1]))


def _numbers(place: Place) -> Iterator[Bundle]:
    """How the place is joined to the numbers beside it, and the words next to those."""
    book = place.book
    yield _links(place.link(-2), place.link(-1), place.link(0), place.link(1))
    for step in (-2, -1, 1, 2):
        at = place.index + step
        if 0 <= at < len(book.numbers):
            other = book.numbers[at]
            before = "#" if other.start == place.number.end else book.before[at].word  # the number would tell itself
            after = "#" if other.end == place.number.start else book.after[at].word
            yield _number(step, before, after, other.form)


@lru_cache(maxsize=KEPT)
def _links(*links: str) -> Bundle:
    return named(*[f"link {step} {link}" for step, link in enumerate(links, -2)])


@lru_cache(maxsize=KEPT)
def _number(step: int, before: str, after: str, form: str) -> Bundle:
    return named(f"{step} after {before}", f"{step} before {after}", f"{step} {form}")


def _screen(place: Place) -> Iterator[Bundle]:
    book, start = place.book, place.number.start
    now = book.screen(start, start + 1)
    yield named(f"pictures {min(3, len(now))}", *[f"shows {seen.picture.kind}" for seen in now[:_PICTURES]])
    yield named(f"counts {start in book.counted_at}")
    moments = book.case.stage.moments
    at = book.moment_from(start)
    if at < len(moments):
        yield named(f"next {type(moments[at].direction).__name__} {min(_STEPS, (moments[at].word - start) // _STEP)}")
    if at:
        earlier = moments[at - 1]
        yield named(f"last {type(earlier.direction).__name__} {min(_STEPS, (start - earlier.word) // _STEP)}")


def _writing(place: Place) -> Iterator[Bundle]:
    """Whether one waits next to the place, and the words that stand on the screen then."""
    for near in place.book.once(Writing).near(place):
        yield _wait(near.where, near.like, near.written.words[:_WAIT])


def _rounds(place: Place) -> Iterator[Bundle]:
    """How many numbers are said since the last wait and until the next, before and after the place in its line of the script."""
    book, index = place.book, place.index
    since, until = book.once(Writing).numbers_between_waits(place)
    line = place.number.line
    before = next((step for step in range(1, _ROUND) if not _in_line(book, index - step, line)), _ROUND) - 1
    after = next((step for step in range(1, _ROUND) if not _in_line(book, index + step, line)), _ROUND) - 1
    yield _round(min(_ROUND, since), min(_ROUND, until), before, after)


def _in_line(book: Book, index: int, line: int) -> bool:
    return 0 <= index < len(book.numbers) and book.numbers[index].line == line


@lru_cache(maxsize=KEPT)
def _round(since: int, until: int, before: int, after: int) -> Bundle:
    return named(
        f"since {since}", f"until {until}", f"round {since} {until}", f"line {before} {after}", f"line {before}"
    )


@lru_cache(maxsize=KEPT)
def _wait(where: str, like: bool, words: tuple[str, ...]) -> Bundle:
    return named(
        f"wait {where}", *([f"wait {where} like"] if like else []), *[f"wait {where} {word}" for word in words]
    )


FINDERS = (_words, patterns, _sentence, _numbers, _screen, _where, _writing, _rounds)
"""Every sort of token: what yields bundles of them for a place."""
