"""The numbers of a lesson that were hardly to be expected where they are said, with what is known of them."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.expect.expectation import pointing
from studio.agree.expect.network import Network
from studio.agree.expect.oddness import NAMES as ODDNESS
from studio.agree.expect.place import INEQUALITIES, Book, Place, book_of
from studio.agree.expect.suspicion import Suspect, suspected, with_doubts
from studio.agree.expect.traits import NAMES, traits

LOOKED_AT = 1.5
"""The least surprise, in nats, at which a number is looked at more closely."""
TRAITS = (*NAMES, *ODDNESS)
"""The names of the traits of a suspect."""


def suspects(case: Case, learned: Network) -> Iterator[Suspect[Place]]:
    """The suspects of a lesson."""
    book = book_of(case)
    places = [Place(book, index) for index in range(len(book.numbers)) if _open(book, index)]
    return suspected(places, learned, pointing, traits, LOOKED_AT)


def _open(book: Book, index: int) -> bool:
    """Whether a number may be a slip at all. What stands in a true statement and in no false one, or is counted by a picture,
    hardly ever is ("Ten and fifteen, twenty" may be a count by fives, or a sum)."""
    start = book.numbers[index].start
    covering = book.case.covering.get(start, ())
    if start in book.counted_at:
        return False
    return any(statement.holds is False for statement in covering) or not any(
        statement.holds and statement.kind not in INEQUALITIES for statement in covering
    )


def judged(case: Case) -> list[tuple[Suspect[Place], float]]:
    """The suspects of a lesson, each with its doubt."""
    return with_doubts(case, "said", suspects)
