"""A cue in round brackets is told, once for a lesson; an aside is not."""

from __future__ import annotations

import pytest

from studio.agree import check
from studio.agree.rules import cues
from studio.findings import Finding
from studio.script.reader import read
from tests.agree.minded import HEAD


def told(text: str) -> list[Finding]:
    return [finding for finding in check(read(HEAD + text)).findings if finding.rule == cues.NAME]


def test_the_first_cue_is_told_with_its_line_and_what_to_write() -> None:
    (found,) = told("Seven frogs sit.\nHow many? (pause) Look. (hold up\nfive fingers) Five. (wait)")
    assert (found.level, found.line, found.said) == ("note", HEAD.count("\n") + 2, "(pause)")
    assert "2 more cues" in found.message
    assert "[note: pause]" in found.help


def test_a_direction_in_curly_brackets_is_told() -> None:
    (found,) = told("{show ten frame: 5 dots}\nFive frogs.")
    assert found.said == "{show ten frame: 5 dots}"


@pytest.mark.parametrize(
    "text",
    [
        "Seven frogs (they were wet) sat. I saw them (all of them).",
        "Look at the frogs. [note: hold up five fingers] Five.",
        "Eight (8) frogs (hold",
        "(hold on, this is a long tale about a frog and a duck and a lily pad by the pond)",
    ],
)
def test_what_is_said_in_brackets_is_left_alone(text: str) -> None:
    assert told(text) == []
