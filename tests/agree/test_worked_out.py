"""What is asked of a picture and answered by what follows from its numbers need not be said itself; a slip in it is found."""

from __future__ import annotations

import pytest

from studio.agree.check import rules_findings
from tests.agree.minded import HEAD, case_of

NAME = "shown number is said"


def minded(text: str) -> bool:
    """Whether the rule minds a number of a picture."""
    return any(finding.rule == NAME for finding in rules_findings(case_of(HEAD + text)))


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        ("[show ten frame: 6 dots] Every dot is a frog. How many pads are free? [wait 5 s] Four.", "6 dots", "5 dots"),
        ("[show rekenrek: 7 and 2] Tell me how many beads that is, top and bottom. Nine.", "7 and 2", "7 and 4"),
        ("[show bar: 9 is 4 and ?] Find out how long the empty piece is. [wait 5 s] Five.", "9 is 4", "9 is 3"),
        ("[show number sentence: 14 - 6 = ? as sum] What belongs there? [wait 5 s] Eight.", "14 - 6", "14 - 5"),
        ("[show dice: 6 and 4] What is the difference? [wait 5 s] Two.", "6 and 4", "6 and 3"),
        ("[show compare bars: 8 and 5] How far does the long one stick out? [wait 5 s] Three.", "8 and 5", "9 and 5"),
        ("[show number path: 0 to 10, mark 7] How far is it to the end? [wait 5 s] Three squares.", "mark 7", "mark 6"),
    ],
)
def test_a_picture_is_told_by_the_answer_to_a_question_about_it(text: str, right: str, wrong: str) -> None:
    assert right in text
    assert not minded(text)
    assert minded(text.replace(right, wrong))


def test_without_a_question_the_numbers_must_be_said() -> None:
    assert minded("[show rekenrek: 7 and 2] Look at the beads. Nine frogs swim in the pond.")
