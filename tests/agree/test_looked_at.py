"""Answers and differences that are read off a picture: what is right is left in peace, one wrong number is found. (Texts
of ten numbers or more are asked twice, so these have fewer.) Wordings: common practice, no source."""

from __future__ import annotations

import pytest

from tests.agree.minded import rules


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        ("[show ten frame: 7 dots]\nHow many frogs do you see? [wait 3 s] Seven.", "Seven.", "Nine.", "how many as shown"),
        ("[show dice: 4 and 5]\nLook at the dice. How many dots? [wait 3 s] Tell me. I see nine dots.", "nine dots",
         "eleven dots", "how many as shown"),
        ("[show rekenrek: 8 and 5 as beads]\nHow many ducks? Thirteen.", "Thirteen.", "Seventeen.", "how many as shown"),
        # what is left empty, what came
        ("[show ten frame: 6 dots as pad]\nSix frogs. How many pads are empty? [wait 3 s] Four.", "Four.", "Three.",
         "how many as shown"),
        ("[show compare bars: 12 and 8 as bars]\nTwelve otters and eight ducks. Look at both bars. They begin together. The "
         "difference is four.", "difference is four", "difference is five", "difference as shown"),
        ("[show compare bars: 16 and 12 as bars]\nThe otter dived for 16 seconds, the duck for 12 seconds. We could also say "
         "that the duck dived 4 seconds less than the otter.", "4 seconds", "7 seconds", "difference as shown"),
        ("[show compare bars: 12 and 8 as bars]\nTwelve otters and eight ducks. Look where the short bar ends. Yes, four more "
         "otters!", "four more", "six more", "difference as shown"),
    ],
)  # fmt: skip
def test_what_is_read_off_the_picture_is_in_the_picture(text: str, right: str, wrong: str, rule: str) -> None:
    assert text.count(right) == 1
    assert rule not in rules(text)
    assert rule in rules(text.replace(right, wrong))


@pytest.mark.parametrize(
    "text",
    [
        # told before, asked of something else, supposed, nearly
        "[show ten frame: 7 dots]\nNine ducks are on the far bank. Here are seven frogs. How many ducks? Nine.",
        "[show ten frame: 7 dots]\nSeven frogs. How many fingers did I use? Nine.",
        "[show ten frame: 7 dots]\nSeven frogs. How many would there be if two more came? Nine.",
        "[show text: Pond]\nHow many frogs do you see? Nine.",
        "[show compare bars: 19 and 11]\nNineteen frogs, eleven ducks. So the difference is close to 10.",
        "[show compare bars: 12 and 8]\nTwelve frogs, eight ducks. Is the difference five?",
        "[show compare bars: 12 and 8]\nTwelve frogs, eight ducks. The bar of twelve is longer. Suppose two more ducks come.",
    ],
)
def test_what_is_not_read_off_the_picture_is_left_in_peace(text: str) -> None:
    assert not {"how many as shown", "difference as shown"} & rules(text)
