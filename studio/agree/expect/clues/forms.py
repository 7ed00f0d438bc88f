"""Forms of a number: what the words name of the newest picture, also where they ask for it in the sentence before ("How many
full bundles? Two."); what is the same always (five fingers on a hand, a gate of five, a row, a full frame); five and the rest;
the faces of a die; and the pieces of a sum that goes over a ten ("eight wants two, up to ten")."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from studio.agree.expect.clues.places_of_value import Said, answered, sources_of
from studio.agree.expect.hints import Hint, named
from studio.agree.expect.place import Book, Place, by_word
from studio.pictures.base import Picture
from studio.pictures.kinds.dice import Dice

_REACH = 8  # words on either side of a number
_HALF = 5
_FULL = 10
_NEAR = 5  # words before a number
_MOST = 99

_FORMS: Mapping[str, str] = by_word(
    {
        "row": "row rows",
        "frame": "frame frames full",
        "empty": "empty missing gap gaps space spaces waiting nothing hole holes room free fill need needs",
        "over": "over spilling extra extras besides beside leftover stray strays left",
        "gate": "gate gates bundle bundles bunch bunches",
        "loose": "loose single singles lonely marks mark strokes",
        "top": "top upper above first",
        "bottom": "bottom lower below underneath beneath second other hangs",
        "ten": "tens stick sticks rod rods longs line lines",
        "one": "ones squares square cubes little",
        "hop": "hop hops jump jumps step steps",
        "hand": "hand hands finger fingers",
        "die": "dice die face",
    }
)

_PARTS: Mapping[str, tuple[str, ...]] = {
    "row": ("fo", "f5", "fa"),
    "frame": ("fT",),
    "empty": ("fe", "fT", "fV", "fM", "rmis"),
    "over": ("fo", "fB", "tr", "bo"),
    "gate": ("tb", "tf"),
    "loose": ("tr", "bo"),
    "top": ("fa", "fA", "ru", "vu"),
    "bottom": ("fb", "fB", "rl", "vl"),
    "ten": ("bt", "bT"),
    "one": ("bo",),
    "hop": ("ph", "pd"),
    "die": ("dn", "ds"),
}
"""By form: the parts of a picture, as `expect/parts.py` calls them, that it can mean."""

_BEHIND = frozenset(("bt", "tb", "tr", "ph", "pd", "dn", "ds"))
"""Parts whose number stands right before their name ("two sticks")."""
_ELSEWHERE = frozenset(("bT", "tf"))
"""Parts whose number does not."""

_ALWAYS: Mapping[str, tuple[int, ...]] = {
    "row": (_HALF, _FULL),
    "frame": (_FULL,),
    "gate": (_HALF,),
    "hand": (_HALF, _FULL),
}

_STEPS: Mapping[str, str] = by_word(
    {
        "G": "give gives gave giving take takes took put borrow borrows push lend move split break broke slide",
        "W": "want wants need needs lacks short wish",
        "U": "up to down back reach reaches forward",
    }
)


class Seen(NamedTuple):
    """What can be read off a picture, made once: its parts, whether it is of dice, the two parts of its sum."""

    picture: Picture
    parts: tuple[tuple[str, int], ...]
    dice: Dice | None
    pair: tuple[int, int] | None
    formed: dict[tuple[str, str], tuple[Hint, ...]]


def find(place: Place) -> Iterator[Hint]:
    book, start = place.book, place.number.start
    seen = [_seen(book, appearance.picture) for appearance in book.screen(start, start + 1)[:2]]
    form, where = _form(place)
    if form:
        if form in _ALWAYS and (where in "bm" or (form == "hand" and where == "a")):
            for value in _ALWAYS[form]:
                yield value, named(f"Vfc{value}{form}")
        if seen and form in _PARTS:
            manner = where if where in "nq" else "m"
            kept = seen[0].formed.get((form, manner))
            if kept is None:
                kept = seen[0].formed[form, manner] = tuple(_formed(seen[0], form, manner))
            yield from kept
    if seen and seen[0].dice is not None:
        yield from _faces(place, seen[0].dice)
    yield from _fives(place)
    yield from _over_ten(place, seen)


def _pictures(book: Book) -> dict[int, Seen]:
    """What is kept for pictures, by their identity."""
    return {}


def _forms_said(book: Book) -> Said:
    return Said(book.words, _FORMS)


def _steps_said(book: Book) -> Said:
    return Said(book.words, _STEPS)


def _seen(book: Book, picture: Picture) -> Seen:
    kept = book.once(_pictures)
    found = kept.get(id(picture))
    if found is None:
        dice = picture if isinstance(picture, Dice) else None
        found = kept[id(picture)] = Seen(picture, book.parts(picture), dice, _pair(book, picture), {})
    return found


def _formed(seen: Seen, form: str, manner: str) -> Iterator[Hint]:
    """The parts of a picture that a form can mean."""
    wanted = _PARTS[form]
    other, right = (_ELSEWHERE, ":n") if manner == "n" else (_BEHIND, "")
    for part, value in seen.parts:
        if part in wanted and part not in other:
            yield value, named(f"Vfs{part}{right}", f"Vff{form}:{manner}")


def _form(place: Place) -> tuple[str, str]:
    """The nearest word that names a form: "a" behind the number, "n" right behind it, "b" before it, "m" right before it,
    "q" in the sentence before, where the place's is a short answer."""
    number, sentence = place.number, place.sentence
    forms = place.book.once(_forms_said)
    behind, form = forms.behind(number.end, min(number.end + _REACH, sentence.end))
    ahead, other = forms.before(number.start, max(number.start - _REACH, sentence.start))
    if form and (not other or behind - number.end < number.start - ahead):
        return form, "n" if behind - number.end < 2 else "a"
    if other:
        return other, "m" if number.start - ahead <= 2 else "b"
    before = answered(place)
    if before is None:
        return "", ""
    _, form = forms.before(before.end, max(before.start, before.end - 2 * _REACH))
    return form, "q" if form else ""


def _faces(place: Place, picture: Dice) -> Iterator[Hint]:
    """The dice that are not said next to the place; the halves of the face of a single die."""
    if len(picture.values) == 1:
        face = picture.values[0]
        yield (face + 1) // 2, named("Vfdh")
        return
    rest = list(picture.values)
    for mate in (*place.preceding[-1:], *place.following[:1]):
        if mate in rest:
            rest.remove(mate)
    if len(rest) < len(picture.values):
        for value in dict.fromkeys(rest[:3]):
            yield value, named("Vfdr")


def _fives(place: Place) -> Iterator[Hint]:
    """Five and the rest of a number up to ten, where one of the two is said next to the place; whether they are joined closely."""
    for side, mates, steps in (("p", place.preceding[-1:], -1), ("n", place.following[:1], 0)):
        if not mates or not 0 < mates[0] <= _HALF:
            continue
        mate, joined = mates[0], place.link(steps) in ("0", "A")
        for source, whole in sources_of(place):
            if not _HALF < whole < _FULL:
                continue
            if mate == _HALF:
                yield whole - _HALF, named(f"Vf5r{side}j:{source}" if joined else f"Vf5r{side}x")
            elif mate == whole - _HALF:
                yield _HALF, named(f"Vf5f{side}j:{source}" if joined else f"Vf5f{side}x")


def _pair(book: Book, picture: Picture) -> tuple[int, int] | None:
    """The two parts of the sum of a picture."""
    roles = book.look(picture).roles
    parts = [value for role, value in roles if role in ("par", "dot", "cro")]
    if len(parts) == 1 and next((value for role, value in roles if role in ("who", "tot")), None) == 2 * parts[0]:
        parts *= 2
    return (parts[0], parts[1]) if len(parts) == 2 else None


def _sum(place: Place, seen: list[Seen]) -> tuple[str, int, int] | None:
    """The sum that the place may be a step of: of the newest picture ("g"), else of the two numbers before ("s")."""
    for picture in seen:
        if picture.pair:
            return "g", *picture.pair
    return ("s", place.preceding[-2], place.preceding[-1]) if len(place.preceding) > 1 else None


def _over_ten(place: Place, seen: list[Seen]) -> Iterator[Hint]:
    """The steps of a sum that goes over a ten, where a word names one: what the first needs to the next ten, and the ten."""
    start = place.number.start
    _, step = place.book.once(_steps_said).before(start, max(start - _NEAR, place.sentence.start))
    found = _sum(place, seen) if step else None
    if found is None:
        return
    source, one, other = found
    for first, second in ((one, other), (other, one))[: 1 if one == other else 2]:
        need = -first % _FULL
        if not 0 < need <= second or first > _MOST:
            continue
        if step in "GW":
            yield need, named(f"Vftn{source}:{step}")
        if step == "U":
            yield first + need, named(f"Vftt{source}")
