"""What stands around a number in a title, as tokens: its words, and where the segment stands in the lesson."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.expect.hints import Bundle, named, tokens_of
from studio.agree.expect.titled.place import TitledPlace

_NEAR = 3  # words
_NUMBERS = 3
_WORDS = 6
_SEGMENTS = 6


def tokens(place: TitledPlace) -> Iterator[str]:
    """The tokens of a place; what is said twice comes twice."""
    for finder in FINDERS:
        yield from tokens_of(finder(place))


def _words(place: TitledPlace) -> Iterator[Bundle]:
    words, number = place.words, place.number
    for at, word in enumerate(words):
        if not number.start <= at < number.end:  # the number would tell itself
            yield named(f"w {word.plain}")
    for step in range(1, _NEAR + 1):
        before, after = number.start - step, number.end + step - 1
        yield named(f"-{step} {words[before].plain if before >= 0 else '^'}")
        yield named(f"+{step} {words[after].plain if after < len(words) else '$'}")
    if not words[number.end - 1].text[-1:].isalnum():
        yield named(f"ends {words[number.end - 1].text[-1:]}")


def _manner(place: TitledPlace) -> Iterator[Bundle]:
    segments = place.book.segments
    yield named(
        f"form {place.number.form}",
        f"numbers {min(_NUMBERS, len(place.numbers))}",
        f"at {min(_NUMBERS, place.index)}",
        f"words {min(_WORDS, len(place.words))}",
        f"segment {min(_SEGMENTS, place.segment)}",
        f"last {place.segment == len(segments) - 1}",
        f"asks {'?' in segments[place.segment].title}",
    )


FINDERS = (_words, _manner)
"""Every sort of token: what yields bundles of them for a place."""
