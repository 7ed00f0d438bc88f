"""Counts that are announced without a word for counting, and steps that are told after a count."""

from __future__ import annotations

import pytest

from studio.agree.rules import count_ends, goals
from tests.agree.minded import assert_only_the_slip_is_minded, rules

LINE = "[show number line: 0 to 50 as line]\nHere we go. "
PATH = "[show number path: 0 to 20 as path]\n"


@pytest.mark.parametrize(
    ("text", "right", "wrong", "rule"),
    [
        (LINE + "From thirty, by fives, to fifty. Squat each time.\n[wait 6 s]\nThirty, thirty-five, forty, forty-five, fifty.", "From thirty", "From ten",
         goals.NAME),
        (LINE + "Let us croak by tens, from ten up to fifty, to wake the newts. Ten, twenty, thirty, forty, fifty.", "to fifty", "to thirty", goals.NAME),
        (PATH + "Otter strides go two at a time. Two, four, six, eight, ten.", "two at", "five at", goals.NAME),
        (LINE + "Thirty, thirty-five, forty, forty-five, fifty. That's four squats after the start.", "four squats", "seven squats", count_ends.NAME),
        (PATH + "[path: hop 20 to 16, counting]\nNineteen, eighteen, seventeen, sixteen. We slid four.", "slid four", "slid seven", count_ends.NAME),
    ],
)  # fmt: skip
def test_counts_are_as_announced(text: str, right: str, wrong: str, rule: str) -> None:
    assert_only_the_slip_is_minded(text, right, wrong, rule)


@pytest.mark.parametrize(
    "text",
    [
        LINE + "I put the bundles down one at a time. Ten, twenty, thirty.",
        PATH + "The frogs come two at a time. One, two, three, four, five, six.",
        PATH + "Start at seven. [path: hop 7 to 10, counting] Hop one, two, three. You land on ten.",
        "Start at five. Jump three: one... two... three... You are on eight!",
        PATH + "From seven to ten is three. Then we hop on from ten: eleven, twelve, thirteen.",
    ],
)  # fmt: skip
def test_look_alikes_are_left_in_peace(text: str) -> None:
    assert not rules(text) & {goals.NAME, count_ends.NAME}
