"""What is shown and said about a story must be the story's: one rule at a time, from one lesson that is right."""

from __future__ import annotations

import pytest

from studio.agree.check import check
from studio.findings import Finding
from studio.script.reader import read

RIGHT = """---
title: Frogs on a log
---
# Story
Here is a story. Seven frogs sit on a log. Some more frogs hop on. Now there are nine frogs on the log. How many
frogs hopped on?

[show dots: 7 dots]
I draw seven dots for the frogs that were there. I count on to nine.
[dots: add 2 crosses, counting]
Seven. Eight, nine.
[show number bond: 9 is 7 and ?]
The whole is nine, and one part is seven.
[number bond: fill in 2]
The other part is two.
[show number sentence: 7 + ? = 9]
Seven plus some more is nine.
[number sentence: fill in 2]
Seven plus two equals nine. [number sentence: circle 2] The answer is two. Two frogs hopped on.
"""


def found(text: str) -> list[Finding]:
    return [finding for finding in check(read(text)).findings if finding.level != "note"]


def test_a_story_that_is_shown_right_has_no_finding() -> None:
    assert found(RIGHT) == []


@pytest.mark.parametrize(
    ("right", "wrong", "rule"),
    [
        ("show number sentence: 7 + ? = 9", "show number sentence: 6 + ? = 9", "sentence fits story"),
        ("show number bond: 9 is 7 and ?", "show number bond: 8 is 7 and ?", "bond fits story"),
        ("number sentence: circle 2", "number sentence: circle 7", "ring is on the answer"),
        ("show dots: 7 dots", "show dots: 6 dots", "drawing fits story"),
        ("add 2 crosses", "add 3 crosses", "drawing fits story"),
        ("Two frogs hopped on.", "Three frogs hopped on.", "answer fits story"),
        ("The answer is two.", "The answer is seven.", "answer fits story"),
        ("hopped on?", "hopped on? Three.", "answer fits story"),
        ("Seven frogs sit", "Twelve frogs sit", "story can be"),
        ("Seven frogs sit", "Six frogs sit", "drawing fits story"),
    ],
)
def test_a_wrong_number_is_found_by_its_rule(right: str, wrong: str, rule: str) -> None:
    assert right in RIGHT
    findings = found(RIGHT.replace(right, wrong))
    assert rule in {finding.rule for finding in findings}
    for finding in findings:
        assert finding.level == "error"
        assert finding.line
        assert finding.message.endswith(".") and finding.help.endswith(".")


@pytest.mark.parametrize(
    "clean",
    [
        # a helping fact beside the story's own sentence
        """Eight ducks swim on the pond. Six more ducks land. How many ducks are on the pond now?
[show number sentence: 8 + 2 = 10 as help]
Eight and two make ten.
[show number sentence: 8 + 6 = ?]
Eight plus six is how many? Fourteen.
[number sentence: fill in 14]
Eight plus six equals fourteen. There are fourteen ducks on the pond now.""",
        # two drawings side by side, for a comparison
        """The duck has two worms. The otter has five worms. How many more worms does the otter have than the duck?
[show dots: 2 dots as duck]
Two for the duck.
[show dots: 5 dots as otter]
Five for the otter. The otter has three more worms than the duck.
[show number sentence: 2 + ? = 5]
Two plus how many is five? Three.
[number sentence: fill in 3]
Two plus three equals five.""",
        # told again before it is answered
        """Nine frogs sit on a log. Two hop away. How many frogs are left?
[show ten frame: 9 dots]
Nine frogs were there. Two of them hop away.
[ten frame: take away 2, counting]
Nine. Eight, seven. Seven frogs are left.""",
    ],
)
def test_ways_of_teaching_a_story_have_no_finding(clean: str) -> None:
    assert found(f"---\ntitle: Pond\n---\n# Story\n{clean}\n") == []


def test_a_mistake_on_purpose_is_left_alone() -> None:
    text = RIGHT.replace("Two frogs hopped on.", "\n[note: on purpose, they will object]\nThree frogs hopped on.")
    assert found(text) == []
