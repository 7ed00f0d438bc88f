"""What rules mind is told to those that doubt."""

from __future__ import annotations

from studio.agree.check import rules_findings
from studio.agree.minded import NAMES, minded
from tests.agree.minded import case_of

POND = "---\ntitle: Pond\n---\n# Ducks\nFive and two make {}.\n[show dots: 7 dots as ducks]\nSeven ducks.\n"


def test_a_number_in_a_false_sum_is_minded_where_it_stands() -> None:
    case = case_of(POND.format("nine"))
    rules_findings(case)
    nine = next(number for number in case.counted if number.value == 9)
    here, shown, near, _, _ = minded(case, nine.line, nine.column, nine.text)
    assert (here, shown) == (1, 0)
    assert near >= 1
    elsewhere = case.counted[-1]
    assert minded(case, elsewhere.line, elsewhere.column, elsewhere.text)[0] == 0
    assert minded(case, elsewhere.line, elsewhere.column, elsewhere.text)[2] >= 1  # two lines on


def test_in_a_right_lesson_nothing_is_minded() -> None:
    case = case_of(POND.format("seven"))
    rules_findings(case)
    assert all(minded(case, n.line, n.column, n.text) == (0,) * len(NAMES) for n in case.counted)


def test_a_slip_meant_on_purpose_is_not_minded() -> None:
    case = case_of(POND.format("nine").replace("Five and", "[note: on purpose, they will see] Five and"))
    rules_findings(case)
    nine = next(number for number in case.counted if number.value == 9)
    assert minded(case, nine.line, nine.column, nine.text)[0] == 0


def test_before_the_rules_are_asked_nothing_is_minded() -> None:
    assert minded(case_of(POND.format("nine")), 5) == (0,) * len(NAMES)
