"""One direction: from what stands between the brackets to its value.

`grammar.lark` says what can be written; this module turns what was read into values and keeps what it has read, since
lessons repeat themselves. What cannot be read is explained in `mistakes.py`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.script.kinds import KINDS
from studio.script.model import (
    Add,
    Amount,
    Camera,
    Change,
    ChangePicture,
    Circle,
    Clear,
    Count,
    Details,
    Direction,
    Equation,
    FillIn,
    Hide,
    Hop,
    Mark,
    MarkNumber,
    Marks,
    Note,
    NumberList,
    Parts,
    Phrase,
    Show,
    Span,
    TakeAway,
    Term,
    TurnOver,
    Wait,
)
from studio.script.numberwords import to_number

if TYPE_CHECKING:
    from lark import Lark

VERBS = ("show", "hide", "clear", "wait", "camera", "note")
LONGEST_WAIT = 600.0  # seconds
LONGEST_DIRECTION = 5_000  # letters
LONGEST_LIST = 200  # numbers in a set of cards
_LONGEST_NAME = 60
_GROUPS = {"ones": 1, "twos": 2, "threes": 3, "fours": 4, "fives": 5, "tens": 10, "hundreds": 100}

# What a direction is once it is read, but for its place: call it with place, at, segment and text.
Unplaced = Callable[..., Direction]
Picture = tuple[str, Details, str]


@dataclass(frozen=True, slots=True)
class Mistake:
    """Why a text cannot be read, in a sentence; `offset` is where in the text, from 0."""

    message: str
    offset: int = 0


class Unfit(Exception):
    """Read, but not possible: the message is a sentence for the teacher."""

    def __init__(self, message: str, offset: int = 0) -> None:
        super().__init__(message)
        self.mistake = Mistake(message, offset)


def tidy(text: str) -> str:
    """A name, kind or phrase with each run of spaces or line ends made one space."""
    return " ".join(text.split())


@lru_cache(maxsize=4096)
def parse_direction(text: str) -> Unplaced | Mistake:
    """Read the text between two brackets."""
    if len(text) > LONGEST_DIRECTION:
        return Mistake(f"A direction can have at most {LONGEST_DIRECTION:,} letters. Is an earlier bracket not closed?")
    found = _parse("direction", text)
    return found if isinstance(found, Mistake) else _fit(found)


@lru_cache(maxsize=4096)
def parse_picture(text: str) -> Picture | Mistake:
    """Read `KIND: DETAILS` or `KIND: DETAILS as NAME`."""
    found: Picture | Mistake = _parse("picture", text)
    return found


@lru_cache(maxsize=4096)
def parse_change(text: str) -> Change | Mistake:
    """Read a CHANGE."""
    found: Change | Mistake = _parse("change", text)
    return found


def _fit(found: Any) -> Unplaced:
    # Frozen values are made many times from one reading: keep the arguments, not the value.
    kind, values = found
    return partial(kind, **values)


def _parse(start: str, text: str) -> Any:
    from lark.exceptions import UnexpectedInput

    from studio.script.mistakes import explain

    try:
        return _grammar().parse(text, start=start)
    except Unfit as unfit:
        return unfit.mistake
    except UnexpectedInput as error:
        return explain(start, text, error)


@cache
def _grammar() -> Lark:
    """The grammar, loaded when the first direction is read (about 50 ms)."""
    from lark import Lark

    shapes: dict[str, list[str]] = {}
    for kind in KINDS.values():
        shapes.setdefault(kind.shape, []).append(re.escape(kind.name).replace("\\ ", r"\s+"))
    terminals = [
        # The longest name first, so that no kind hides another that begins like it.
        f"{shape.upper()}_KIND: /({'|'.join(sorted(names, key=len, reverse=True))})\\b/i"
        for shape, names in shapes.items()
    ]
    rules = Path(__file__).with_name("grammar.lark").read_text(encoding="utf-8")
    return Lark(
        rules + "\n".join(terminals) + "\n",
        parser="lalr",
        start=["direction", "picture", "change"],
        transformer=_Inline(_Values()),
        maybe_placeholders=True,
    )


class _Inline:
    """Gives the grammar a callback for each method of `_Values`, with the children as its arguments."""

    def __init__(self, values: _Values) -> None:
        self._values = values

    def __getattr__(self, rule: str) -> Callable[[list[Any]], Any]:
        method = getattr(self._values, rule)
        return lambda children: method(*children)


def _name(token: Any) -> str:
    name = tidy(token).lower()
    if name.split()[0] in VERBS:
        raise Unfit(
            f"A picture cannot be called '{name}', because '{name.split()[0]}' begins another direction.",
            token.start_pos,
        )
    if len(name) > _LONGEST_NAME:
        raise Unfit(f"A picture's name can have at most {_LONGEST_NAME} letters.", token.start_pos)
    return name


def _value(token: Any) -> int | None:
    """A number, or None for the unknown."""
    return None if token is None or token.type == "UNKNOWN" else to_number(token)


def _number(token: Any) -> int:
    return to_number(token)


def _mark(token: Any) -> Mark | None:
    if token is None:
        return None
    return "crosses" if token.lower().startswith("cross") else "dots"


def _numbers(tokens: Sequence[Any]) -> NumberList:
    if len(tokens) > LONGEST_LIST:
        raise Unfit(f"A picture can have at most {LONGEST_LIST} numbers.", tokens[0].start_pos)
    return NumberList(tuple(_number(token) for token in tokens))


# A phrase may hold " as " itself: only a last single word is a name, and quotation marks keep everything.
_PHRASE_NAME = re.compile(r"(?P<words>.*\S)\s+as\s+(?P<name>[^\s:]*[^\W_])\s*\Z", re.IGNORECASE | re.DOTALL)
_QUOTED = re.compile(r"[\"“](?P<words>[^\"“”]+)[\"”](?:\s+as\s+(?P<name>[^:]*\S))?\s*\Z", re.IGNORECASE | re.DOTALL)


class _Values:
    """What each rule of the grammar means. The first argument of most is the keyword itself."""

    # directions: the class and its own fields

    def show(self, _verb: Any, picture: Picture) -> tuple[type[Direction], dict[str, Any]]:
        kind, details, name = picture
        return Show, {"name": name, "kind": kind, "details": details}

    def change_picture(self, name: Any, change: Change) -> tuple[type[Direction], dict[str, Any]]:
        return ChangePicture, {"name": tidy(name[:-1]).lower(), "change": change}

    def hide(self, _verb: Any, name: Any) -> tuple[type[Direction], dict[str, Any]]:
        return Hide, {"name": tidy(name).lower()}

    def clear(self, _verb: Any) -> tuple[type[Direction], dict[str, Any]]:
        return Clear, {}

    def wait(self, _verb: Any, number: Any, unit: Any, words: Any) -> tuple[type[Direction], dict[str, Any]]:
        seconds = float(number) if number.type == "DECIMAL" else float(_number(number))
        if unit is not None and unit.lower().startswith("m"):
            seconds *= 60
        if not 0 < seconds <= LONGEST_WAIT:
            raise Unfit(f"A wait lasts more than 0 and at most {LONGEST_WAIT:.0f} seconds.", number.start_pos)
        return Wait, {"seconds": seconds, "words": tidy(words or "")}

    def camera(self, _verb: Any, mode: Any) -> tuple[type[Direction], dict[str, Any]]:
        return Camera, {"mode": mode.lower()}

    def note(self, _verb: Any, words: Any) -> tuple[type[Direction], dict[str, Any]]:
        return Note, {"words": tidy(words)}

    # pictures

    def picture(self, kind: Any, details: Details, name: Any) -> Picture:
        kind_name = tidy(kind).lower()
        return kind_name, details, _name(name) if name is not None else kind_name

    def phrase_picture(self, kind: Any, text: Any) -> Picture:
        kind_name = tidy(kind).lower()
        found = _QUOTED.match(text) or _PHRASE_NAME.match(text)
        if found is None:
            return kind_name, Phrase(tidy(text)), kind_name
        given = found["name"]
        name = kind_name
        if given is not None:
            token = type(text)("NAME", given, start_pos=text.start_pos + found.start("name"))
            name = _name(token)
        return kind_name, Phrase(tidy(found["words"])), name

    def empty(self, _word: Any) -> Marks:
        return Marks(0)

    def plain_marks(self, number: Any) -> Marks:
        return Marks(_number(number))

    def marked(self, number: Any, mark: Any) -> tuple[Any, Mark]:
        return number, "crosses" if mark.lower().startswith("cross") else "dots"

    def marks(self, *marked: tuple[Any, Mark]) -> Marks:
        found: dict[str, int] = {}
        for number, mark in marked:
            if mark in found:
                raise Unfit(f"The {mark} are given twice; write how many there are once.", number.start_pos)
            found[mark] = _number(number)
        return Marks(found.get("dots", 0), found.get("crosses", 0))

    def parts(self, whole: Any, *parts: Any) -> Parts:
        return Parts(_value(whole), tuple(_value(part) for part in parts))

    def side(self, first: Any, *rest: Any) -> tuple[Term, ...]:
        terms = [Term("+", _value(first))]
        for sign, number in zip(rest[::2], rest[1::2], strict=True):
            terms.append(Term("+" if sign.lower() in ("+", "plus") else "-", _value(number)))
        return tuple(terms)

    def equation(self, *sides: tuple[Term, ...]) -> Equation:
        return Equation(sides)

    def card_range(self, first: Any, last: Any) -> NumberList:
        start, end = _number(first), _number(last)
        if abs(end - start) >= LONGEST_LIST:
            raise Unfit(f"A set of cards can have at most {LONGEST_LIST} cards.", first.start_pos)
        step = 1 if end >= start else -1
        return NumberList(tuple(range(start, end + step, step)))

    def numbers(self, *numbers: Any) -> NumberList:
        return _numbers(numbers)

    def amount(self, number: Any) -> Amount:
        return Amount(_number(number))

    def span(self, first: Any, last: Any, _marking: Any = None, marked: Any = None) -> Span:
        start, end = _number(first), _number(last)
        if start > end:
            raise Unfit(f"It begins with the smaller number: write '{end} to {start}'.", first.start_pos)
        return Span(start, end, _value(marked))

    # changes

    def add(self, _verb: Any, number: Any, mark: Any, counting: Any) -> Change:
        return Add(_number(number), _mark(mark), counting is not None)

    def take_away(self, _verb: Any, number: Any, counting: Any) -> Change:
        return TakeAway(_number(number), counting is not None)

    def fill_in(self, _verb: Any, number: Any) -> Change:
        return FillIn(_value(number))

    def circle(self, _verb: Any, number: Any) -> Change:
        return Circle(_number(number))

    def hop(self, _verb: Any, first: Any, last: Any, counting: Any) -> Change:
        return Hop(_number(first), _number(last), counting is not None)

    def turn_over(self, _verb: Any, number: Any) -> Change:
        return TurnOver(_number(number))

    def mark_number(self, _verb: Any, number: Any) -> Change:
        return MarkNumber(_number(number))

    def count(self, _verb: Any, by: Any = None) -> Change:
        step = 1 if by is None else _GROUPS[by.lower()] if by.type == "GROUPS" else _number(by)
        if step < 1:
            raise Unfit("Counting goes by 1 or more.", by.start_pos)
        return Count(step)
