"""How a bond or a bar is told: its whole by its place, its parts, and what is known while the rest is looked for."""

from __future__ import annotations

import pytest

from tests.agree.minded import assert_only_the_slip_is_minded, rules

RULE = "whole and parts as told"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (
            "[show number bond: 7 is 3 and 4 as bond]\nThree newts went and four stayed. Here's the whole, seven, with the three that went and the four that stayed.",
            "whole, seven",
            "whole, four",
        ),
        (
            "[show number bond: 10 is 6 and 4 as bond]\nSix frogs and four frogs make ten frogs. In a bond, the ten sits above.",
            "the ten sits",
            "the four sits",
        ),
        (
            "[show number bond: 7 is 6 and ? as drops]\nSix drops on the lily pad. We want seven drops. How many must fall? [wait 3 s] [drops: fill in] One.",
            "want seven",
            "want five",
        ),
        (
            "[show number bond: 10 is 6 and ? as pebbles]\nTen pebbles. In this hand, six. [wait 3 s] [pebbles: fill in] In that hand, four.",
            "hand, six",
            "hand, two",
        ),
        (
            "[show number bond: 6 is 1 and ? as flies]\nOne fly. I want six flies. How many more? [wait 3 s] [flies: fill in] Five more.",
            "want six",
            "want one",
        ),
        (
            "[show number bond: 7 is 1 and ? as hops]\nThe frog makes one hop. How many hops will make it seven? [wait 3 s] [hops: fill in] Six.",
            "make it seven",
            "make it nine",
        ),
        (
            "[show bar: 8 is 6 and ? as bar]\nA long bar for all eight ducks, of which six are home. A piece for the six who are home. The other piece is our question. [bar: fill in] Two.",
            "for the six",
            "for the two",
        ),
        (
            "[show number bond: 9 is 6 and ? as bond]\nNine dragonflies, and six are blue. Use your buttons. Slide six away and look at what is left. [wait 5 s] [bond: fill in] Three.",
            "Slide six",
            "Slide seven",
        ),
    ],
)
def test_the_wrong_number_is_found_and_the_right_one_is_not_minded(text: str, right: str, wrong: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, RULE)


@pytest.mark.parametrize(
    "text",
    [
        "[show bar: 14 is 7 and ? as bar]\nFourteen otters. Seven are at the top of the slide. This piece is for the seven at the top. [bar: fill in] Seven.",
        "[show bar: ? is 8 and 5 as bar]\nThe otter's bar is eight, and then five more. [bar: fill in] Thirteen.",
        "[show number bond: 13 is 7 and ? as bond]\nThirteen newts. Suppose only seven had gone. More would stay, for one less went. [bond: fill in] Six.",
        "[show number bond: 100 is 60 and ? as bond]\nSix tens, though? How many tens make a hundred with them? [bond: fill in] Four tens.",
        "[show number bond: 10 is 8 and ? as bond]\nEight in a part, ten for the whole. Say the other part. [wait 3 s] [bond: fill in] Two.",
        "[show number bond: 8 is 3 and 5 as bond]\nPart and part make the whole: five and three make eight.",
    ],
)
def test_talk_that_only_looks_like_it_is_left_in_peace(text: str) -> None:
    assert RULE not in rules(text)
