"""The numbers of titles that were hardly to be expected."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.agree.case import Case
from studio.agree.expect.network import Network, Pointing
from studio.agree.expect.pointing import point
from studio.agree.expect.suspicion import Suspect, suspected
from studio.agree.expect.titled import clues, surroundings
from studio.agree.expect.titled.place import TitledPlace, places

LIKELY = 3.0
"""The least surprise, in nats, at which a number is told of."""


def pointing(places: Sequence[TitledPlace], network: Network) -> Pointing:
    """The clues and the surroundings of places that the network knows."""
    return point(network, places, [place.value for place in places], clues.FINDERS, surroundings.FINDERS)


def suspects(case: Case, learned: Network) -> Iterator[Suspect[TitledPlace]]:
    """The suspects of a lesson; a title is short, and they are told by how well they were to be expected alone."""
    return suspected(places(case), learned, pointing, lambda place, expectation: (), LIKELY)
