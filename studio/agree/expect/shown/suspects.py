"""The numbers of directions that were hardly to be expected, with what is known of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.agree.case import Case
from studio.agree.expect.company import of_shown
from studio.agree.expect.network import Network, Pointing
from studio.agree.expect.oddness import NAMES as ODDNESS
from studio.agree.expect.place import book_of
from studio.agree.expect.pointing import point
from studio.agree.expect.shown import clues, surroundings
from studio.agree.expect.shown.place import ShownBook, ShownPlace
from studio.agree.expect.shown.traits import NAMES, traits
from studio.agree.expect.suspicion import Suspect, suspected, with_doubts

LOOKED_AT = 1.0
"""The least surprise, in nats, at which a number is looked at more closely."""
TRAITS = (*NAMES, *ODDNESS)
"""The names of the traits of a suspect."""


def places(case: Case) -> list[ShownPlace]:
    """All numbers in the directions of a lesson."""
    return book_of(case).once(ShownBook).places


def pointing(places: Sequence[ShownPlace], network: Network) -> Pointing:
    """The clues and the surroundings of places that the network knows."""
    values = [place.value for place in places]
    return point(network, places, values, clues.FINDERS, surroundings.FINDERS, of_shown)


def suspects(case: Case, learned: Network) -> Iterator[Suspect[ShownPlace]]:
    """The suspects of a lesson."""
    return suspected(places(case), learned, pointing, traits, LOOKED_AT)


def judged(case: Case) -> list[tuple[Suspect[ShownPlace], float]]:
    """The suspects of a lesson, each with its doubt."""
    return with_doubts(case, "shown", suspects)
