"""What the check minds, for tests: small texts and scripts without their pictures."""

from __future__ import annotations

import re

from studio.agree import check
from studio.agree.case import Case
from studio.agree.reading import case_of as case_of_lesson
from studio.script.reader import read

HEAD = "---\ntitle: Pond\n---\n\n# Frogs\n\n"


def case_of(text: str) -> Case:
    """A script with everything that is found in it."""
    return case_of_lesson(read(text))


def rules(text: str) -> set[str]:
    """The rules that have something against a text, as an error or a warning."""
    return {finding.rule for finding in check(read(HEAD + text)).findings if finding.level != "note"}


def advice(text: str, rule: str) -> list[str]:
    """What a rule advises where it has an error against a text."""
    return [one.help for one in check(read(HEAD + text)).findings if one.rule == rule and one.level == "error"]


def assert_only_the_slip_is_minded(text: str, right: str, wrong: str, rule: str) -> None:
    """Nothing is minded in a text, and the rule finds the slip where `right` in it becomes `wrong`."""
    assert right in text
    assert rules(text) == set()
    assert rule in rules(text.replace(right, wrong, 1))


def without_directions(text: str) -> str:
    """What is said in a lesson script."""
    return re.sub(r"(?m)^(?:\[[^\]]*\] ?)+\n|\[[^\]]*\] ?", "", text)
