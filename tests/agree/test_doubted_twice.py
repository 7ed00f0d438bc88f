"""What is said and what is shown, both doubted, speak for one another."""

from __future__ import annotations

from pathlib import Path

from studio.agree import check
from studio.script.reader import read

LESSONS = Path(__file__).parents[2] / "benchmarks" / "unlearned"


def test_a_number_that_is_shown_and_one_that_is_said_each_expected_for_the_other_make_an_error() -> None:
    text = next(LESSONS.glob("15024-*")).read_text(encoding="utf-8")
    assert not check(read(text)).errors
    slip = text.replace("[show compare bars: 16 and 9]", "[show compare bars: 16 and 11]", 1)
    assert slip != text
    line = 1 + slip[: slip.index("16 and 11")].count("\n")
    assert line in {finding.line for finding in check(read(slip)).errors}
