"""Words that name many things do not stand behind "one"."""

from __future__ import annotations

import pytest

from studio.agree.rules.one_and_many import NAME, things
from tests.agree.minded import advice


def minded(talk: str) -> list[str]:
    return advice(talk, NAME)


@pytest.mark.parametrize(
    "talk",
    [
        "My basket holds one mushrooms and no more.",
        "I put one more nuts into the bag.",
        "The rope has 1 knots.",
        "Find one big spoons.",
    ],
)
def test_many_things_behind_one_are_minded(talk: str) -> None:
    assert len(minded(talk)) == 1


@pytest.mark.parametrize(
    "talk",
    [
        "My basket holds one mushroom and no more.",
        "Twenty-one mushrooms are in the basket.",
        "You have two baskets. This one beans jump into, look.",
        "One. Mushrooms are next.",
        "Only one rolls away. One sits, one sleeps, and one makes a splash.",
        "Six minus one leaves five, and four plus one equals five.",
        "You are my number one singers.",
    ],
)
def test_one_thing_and_what_it_does_are_let_be(talk: str) -> None:
    assert not minded(talk)


def test_what_to_say_is_told() -> None:
    assert minded("My basket holds one mushrooms.") == ['Say another number, or "mushroom".']


def test_the_things_are_plain_words_in_order() -> None:
    assert sorted(things()) == [word for word in sorted(things()) if word.isalpha() and word.endswith("s")]
    assert len(things()) > 500
