"""What is left, or there now, after a picture changed."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.script.reader import read

NINE = "[show dots: 9 dots as frogs]\nNine frogs.\n"
THREE = "[show ten frame: 3 dots as ducks]\nThree ducks swim.\n"


def errors(body: str) -> list[str]:
    return [f.rule for f in check(read(f"---\ntitle: Pond\n---\n{body}\n")).errors]


@pytest.mark.parametrize(
    "body",
    [
        NINE + "[frogs: take away 4]\nFive frogs hop away. Four frogs are left. 9 - 5 = 4.",
        NINE + "[frogs: take away 4]\nThey hop away. Four are left.",
        THREE + "[ducks: add 3]\nFive more come. Now there are eight. Three and five make eight.",
        THREE + "[ducks: add 3]\nFive more come. There are eight ducks now.",
    ],
)
def test_the_picture_shows_what_is_said_to_be_left_or_to_be_there_now(body: str) -> None:
    assert errors(body)


STORY = (
    NINE
    + "Some hop away. Now there are only 5 frogs left. How many hopped away?\n[frogs: take away {}]\nFour hopped away."
)


def test_a_picture_comes_to_what_the_story_says_is_left() -> None:
    assert errors(STORY.format(5)) == ["left as shown"]
    assert errors(STORY.format(4)) == []


@pytest.mark.parametrize(
    "body",
    [
        NINE + "[frogs: take away 5]\nFive frogs hop away. Four frogs are left. 9 - 5 = 4.",
        NINE + "Five will go. Four are left then. [frogs: take away 5] See? Four.",
        NINE + "[frogs: take away 1]\nOne hops away. Now there are four pairs. Eight frogs.",
        THREE + "[ducks: add 1]\nOne comes. Now there is one more.",
        THREE + "[ducks: add 5]\nFive come. Now there are two spaces.",
        THREE + "[ducks: add 5]\nFive come. Now there are two empty.",
        NINE + "[frogs: take away 2]\nTwo go. Now there are two fewer.",
        THREE + "[ducks: add 5]\nFive more come. Now there are eight. Three and five make eight.",
        THREE + "[ducks: add 3]\nThree more come. Are there eight now? No. Now there are six.",
    ],
)
def test_what_is_left_as_shown_is_left_in_peace(body: str) -> None:
    assert "left as shown" not in errors(body)
