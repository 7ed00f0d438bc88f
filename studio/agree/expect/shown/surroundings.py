"""What stands around a number of a direction, as tokens: what it is in which picture, the words that are spoken before and
after, what happens next on the screen."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from studio.agree.expect.hints import Bundle, named, tokens_of
from studio.agree.expect.shown.place import ShownPlace
from studio.agree.expect.shown.slots import Slot
from studio.script.model import Show

_AFTER = 12  # words
_NEXT = 4
_BEFORE = 8
_MATES = 5


def tokens(place: ShownPlace) -> Iterator[str]:
    """The tokens of a place; what is said twice comes twice."""
    return tokens_of(chain.from_iterable(finder(place) for finder in FINDERS))


def _slot(place: ShownPlace) -> Iterator[Bundle]:
    """What the number is in its picture, with the other numbers of the direction."""
    slot = place.slot
    yield named(f"is {slot.kind}.{slot.name}", f"kind {slot.kind}", f"name {slot.name}")
    yield named(f"mates {len(place.mates)}", *[f"mate {mate.name}" for mate in place.mates[:_MATES]])


def _direction(place: ShownPlace) -> Iterator[Bundle]:
    """What is the same for all numbers of a direction, worked out once."""
    book = place.book
    kept = book.tokens.get(place.group)
    if kept is None:
        kept = book.tokens[place.group] = named(*_around(place))
    yield kept
    yield book.book.title_tokens(place.segment)


def _around(place: ShownPlace) -> Iterator[str]:
    """What stands around a direction."""
    slot, book = place.slot, place.book.book
    direction = slot.direction
    words = book.words
    yield f"counting {getattr(getattr(direction, 'change', None), 'counting', False)}"
    for where, word in words_around(place):
        yield f"{where} {words[word].plain}"
    yield f"said after {len([at for at in place.after if place.number(at).start < place.until])}"
    yield f"said at once {bool(place.after) and place.number(place.after[0]).start - slot.at < _NEXT}"
    yield f"ends {slot.at == 0 or words[slot.at - 1].text[-1:] in '.?!'}"
    if slot.at and slot.at <= len(words):
        yield f"asked {'?' in words[slot.at - 1].text}"
    for way in (-1, 1):
        for step in (1, 2):
            at = place.group + way * step
            if 0 <= at < len(place.book.groups) and place.book.groups[at][0].direction.segment == place.segment:
                other = place.book.groups[at][0]
                yield f"{way * step} {_manner(other)}"
                yield f"{way * step} words {min(6, abs(other.at - slot.at) // 3)}"
                yield f"{way * step} same {other.direction.name == direction.name}"
    yield f"place {int(4 * (slot.at - place.start) / max(1, place.end - place.start))}"


def words_around(place: ShownPlace) -> Iterator[tuple[str, int]]:
    """Where the words around a direction stand, as the beginning of a token, each with its index: "+" after it and "-" before
    it, the nearest once more with how many words lie between."""
    at = place.slot.at
    after, before = range(at, min(place.end, at + _AFTER)), range(at - 1, max(place.start, at - _BEFORE) - 1, -1)
    for side, words in (("+", after), ("-", before)):
        for step, word in enumerate(words):
            yield side, word
            if step < _NEXT:
                yield f"{side}{step}", word


def _manner(slot: Slot) -> str:
    return f"{'show' if isinstance(slot.direction, Show) else 'change'} {slot.kind}.{slot.name}"


FINDERS = (_slot, _direction)
"""Every sort of token: what yields bundles of them for a place."""
