"""What stands around a place, as tokens: the words before and after the number, in its sentence and the ones beside it, how
it is joined to the other numbers, what is on the screen and what happens next there, the title of the segment. They say
which clues are to be trusted at the place ("one less than" trusts others than "in all")."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.place import Place

_NEAR = 4  # words
_SENTENCE = 20  # words
_BEFORE = 8  # words of the sentence before
_BEHIND = 6  # words of the sentence after
_NUMBERS = 4
_PICTURES = 2
_STEP = 4  # words
_STEPS = 5


def tokens(place: Place) -> Iterator[str]:
    """The tokens of a place; what is said twice comes twice."""
    yield from _words(place)
    yield from _sentences(place)
    yield from _numbers(place)
    yield from _screen(place)
    yield from place.book.title_tokens(place.segment)
    yield f"place {int(4 * (place.number.start - place.start) / max(1, place.end - place.start))}"
    covering = place.book.case.covering.get(place.number.start, ())
    yield f"statements {min(3, len(covering))}"
    for statement in covering:
        yield f"in {statement.kind}"


def _words(place: Place) -> Iterator[str]:
    words, number, sentence = place.book.words, place.number, place.sentence
    for step in range(1, _NEAR + 1):
        at = number.start - step
        if at >= sentence.start:
            yield f"-{step} {words[at].plain}"
            yield f"- {words[at].plain}"
        else:
            yield f"-{step} ^"
        at = number.end + step - 1
        if at < sentence.end:
            yield f"+{step} {words[at].plain}"
            yield f"+ {words[at].plain}"
        else:
            yield f"+{step} $"
    yield "--" + "_".join(word.plain for word in words[max(sentence.start, number.start - 2) : number.start])
    yield "++" + "_".join(word.plain for word in words[number.end : min(sentence.end, number.end + 2)])
    yield f"form {number.form}"
    yield f"before {place.before.sort}"
    yield f"after {place.after.sort}"


def _sentences(place: Place) -> Iterator[str]:
    """The words of the sentence, of the one before it and the one after it, and whether they ask."""
    words, sentences, at = place.book.words, place.book.case.sentences, place.sentence_index
    sentence = place.sentence
    for word in words[sentence.start : min(sentence.end, sentence.start + _SENTENCE)]:
        yield f"s {word.plain}"
    yield f"asks {'?' in words[sentence.end - 1].text}"
    yield f"numbers {min(_NUMBERS, len(place.others))}"
    if at and sentences[at - 1].start >= place.start:
        earlier = sentences[at - 1]
        for word in words[max(earlier.start, earlier.end - _BEFORE) : earlier.end]:
            yield f"p {word.plain}"
        yield f"p asks {'?' in words[earlier.end - 1].text}"
        yield f"p numbers {min(_NUMBERS, len(earlier.numbers))}"
    else:
        yield "p ^"
    if at + 1 < len(sentences) and sentences[at + 1].end <= place.end:
        later = sentences[at + 1]
        for word in words[later.start : min(later.end, later.start + _BEHIND)]:
            yield f"n {word.plain}"
        yield f"n numbers {min(_NUMBERS, len(later.numbers))}"


def _numbers(place: Place) -> Iterator[str]:
    """How the place is joined to the numbers beside it, and the words next to those."""
    book = place.book
    for step in (-2, -1, 0, 1):
        yield f"link {step} {place.link(step)}"
    for step in (-2, -1, 1, 2):
        at = place.index + step
        if 0 <= at < len(book.numbers):
            yield f"{step} after {book.before[at].word}"
            yield f"{step} before {book.after[at].word}"
            yield f"{step} {book.numbers[at].form}"


def _screen(place: Place) -> Iterator[str]:
    book, number = place.book, place.number
    now = book.screen(number.start, number.start + 1)
    yield f"pictures {min(3, len(now))}"
    for seen in now[:_PICTURES]:
        yield f"shows {seen.picture.kind}"
    yield f"counts {number.start in book.counted_at}"
    moments = book.case.stage.moments
    at = book.moment_from(number.start)
    if at < len(moments):
        yield f"next {type(moments[at].direction).__name__} {min(_STEPS, (moments[at].word - number.start) // _STEP)}"
    if at:
        yield f"last {type(moments[at - 1].direction).__name__} {min(_STEPS, (number.start - moments[at - 1].word) // _STEP)}"
