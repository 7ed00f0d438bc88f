"""Groups told with a count by twos, fives or tens are as many as the count has numbers."""

from __future__ import annotations

import pytest

from studio.agree.rules.groups_counted import NAME
from tests.agree.minded import rules

TALLY = "[show tally: 20 as t]\n[t: count by 5] Five, ten, fifteen, twenty. "
DUCKS = "[show dots: 8 as ducks]\n"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (TALLY + "There are four gates.", "four", "three"),
        (TALLY + "Twenty herons! How many bundles was that? Four bundles of five.", "Four", "Seven"),
        (TALLY + "Twenty herons! How many bundles was that? Four bundles of five.", "of five", "of six"),
        (DUCKS + "Four pairs, ducklings. Two, four, six, eight.", "Four pairs", "Five pairs"),
        (DUCKS + "Two, four, six, eight. So that is four pairs.", "four pairs", "two pairs"),
    ],
)  # fmt: skip
def test_groups_are_as_many_as_were_counted(text: str, right: str, wrong: str) -> None:
    assert right in text
    assert NAME not in rules(text)
    assert NAME in rules(text.replace(right, wrong, 1))


@pytest.mark.parametrize(
    "text",
    [
        # some of them
        TALLY + "Two bundles are mine, and two are for the otter.",
        TALLY + "Two bundles of five make ten.",
        # by ones, and from another number
        DUCKS + "One, two, three, four, five, six, seven, eight. Four pairs.",
        "[show number line: 0 to 50 as line]\nThirty, forty, fifty. Two tens on from thirty.",
        # more is counted in the same sentence
        "[show tally: 17]\nFive, ten, fifteen, and two more makes seventeen. Three bundles, and a few.",
    ],
)  # fmt: skip
def test_look_alikes_are_left_in_peace(text: str) -> None:
    assert NAME not in rules(text)
