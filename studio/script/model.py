"""The values that a lesson script is read into. Nothing here knows how they are written or drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

Grade = Literal["K", "1", "2"]
Mark = Literal["dots", "crosses"]
CameraMode = Literal["full", "beside", "off"]


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands in the script; line and column count from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word (or a sign that is spoken: `+ - = < >`).

    `index` counts the spoken words of the lesson from 0. `text` is the word as it is to be read, with its punctuation
    and without stress asterisks ("nine,"); `plain` is lower case without outer punctuation ("nine"). "7+2=9" is five
    words, the later ones `glued` (no space before). `sentence`, `paragraph` and `segment` count from 0 through the
    whole lesson.
    """

    index: int
    text: str
    plain: str
    place: Place
    sentence: int
    paragraph: int
    segment: int
    stressed: bool = False
    glued: bool = False


# --- what a picture is shown with -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Marks:
    """Details of frames and dots: `7 dots and 2 crosses`, `empty`."""

    dots: int
    crosses: int = 0


@dataclass(frozen=True, slots=True)
class Parts:
    """Details of a number bond or a bar: `9 is 7 and ?`; None stands for `?`."""

    whole: int | None
    parts: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Term:
    """A number (None: `?`) and the sign before it; the first term of a side has "+" and it is not written."""

    sign: Literal["+", "-"]
    value: int | None


@dataclass(frozen=True, slots=True)
class Equation:
    """Details of a number sentence: the sides between the equals signs, two or more."""

    sides: tuple[tuple[Term, ...], ...]


@dataclass(frozen=True, slots=True)
class NumberList:
    """Details of cards (`0 to 8`, `3, 5, 8`), dice, compare bars and the rekenrek."""

    values: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Amount:
    """Details of a tally, base ten, more and less: one number."""

    value: int


@dataclass(frozen=True, slots=True)
class Span:
    """Details of a number path, number line or hundred chart: `0 to 10, mark 7`."""

    start: int
    end: int
    mark: int | None = None


@dataclass(frozen=True, slots=True)
class Phrase:
    """Details of a word or a text: the words as written."""

    text: str


Details = Marks | Parts | Equation | NumberList | Amount | Span | Phrase


# --- how a picture changes ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Add:
    """`add 3 crosses`; `mark` None where it is not said. `counting` ties each step to the number words spoken next."""

    count: int
    mark: Mark | None = None
    counting: bool = False


@dataclass(frozen=True, slots=True)
class TakeAway:
    """`take away 2`."""

    count: int
    counting: bool = False


@dataclass(frozen=True, slots=True)
class FillIn:
    """`fill in` (the number that fits) or `fill in 2` (that number, right or wrong)."""

    value: int | None = None


@dataclass(frozen=True, slots=True)
class Circle:
    """`circle 2`: a ring round the found number."""

    value: int


@dataclass(frozen=True, slots=True)
class Hop:
    """`hop 7 to 9`."""

    start: int
    end: int
    counting: bool = False


@dataclass(frozen=True, slots=True)
class TurnOver:
    """`turn over 5`: that card shows its other side."""

    value: int


@dataclass(frozen=True, slots=True)
class MarkNumber:
    """`mark 9`."""

    value: int


@dataclass(frozen=True, slots=True)
class Count:
    """`count`, `count by 5`: each item lights as its number word is spoken (always counting)."""

    by: int = 1


Change = Add | TakeAway | FillIn | Circle | Hop | TurnOver | MarkNumber | Count


# --- directions -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Direction:
    """Something in square brackets. `at` is the index of the spoken word with which it takes effect
    (the number of words of the lesson: at the end). `text` is what stood between the brackets."""

    place: Place
    at: int
    segment: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Show(Direction):
    """`[show KIND: DETAILS as NAME]`; `name` is the kind unless given. Names are lower case."""

    name: str
    kind: str
    details: Details


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangePicture(Direction):
    """`[NAME: CHANGE]`; the reader has checked that a picture of that name is on."""

    name: str
    change: Change


@dataclass(frozen=True, slots=True, kw_only=True)
class Hide(Direction):
    """`[hide NAME]`."""

    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Clear(Direction):
    """`[clear]`: all pictures go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait(Direction):
    """`[wait 5 s: words]`: `seconds` of silence before word `at`; `words` ("" for none) stand on the screen."""

    seconds: float
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera(Direction):
    """`[camera full|beside|off]`."""

    mode: CameraMode


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Direction):
    """`[note: words]`, for the teacher alone. A note that begins "on purpose" excuses its line (see `agree`)."""

    words: str

    @property
    def on_purpose(self) -> bool:
        return self.words.lower().startswith("on purpose")


# --- the lesson -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Header:
    """The header; `lines` maps each key that was given to its line. `pace` is in words a minute."""

    title: str
    number: int | None = None
    grade: Grade | None = None
    series: str = ""
    pace: float = 110.0
    needs: tuple[str, ...] = ()
    standards: tuple[str, ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Segment:
    """A part of the lesson under one title; every segment is a chapter. It may have no words."""

    index: int
    title: str
    place: Place
    words: tuple[Word, ...]
    directions: tuple[Direction, ...]


@dataclass(frozen=True)
class Lesson:
    """A whole lesson. `source` is what the person knows the file by; `text` is the script as it was read."""

    header: Header
    segments: tuple[Segment, ...]
    source: str = ""
    text: str = ""

    @cached_property
    def words(self) -> tuple[Word, ...]:
        """All spoken words in order; `words[i].index == i`."""
        return tuple(word for segment in self.segments for word in segment.words)

    @cached_property
    def directions(self) -> tuple[Direction, ...]:
        """All directions in the order in which they are written."""
        return tuple(direction for segment in self.segments for direction in segment.directions)
