"""The words of the command line: their order, and one plain sentence where they are wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.cli import _parser, main

COMMANDS = [
    [
        "build",
        ["pond.lesson.md"],
        ["--recording", "one.mp4", "two.mp4"],
        ["--out", "kit"],
        ["--fps", "24"],
        ["--audit"],
    ],
    ["check", ["frogs.lesson.md"], ["ducks.lesson.md"], ["--json"]],
    ["listen", ["one.mp4"], ["two.mp4"], ["--lesson", "pond.lesson.md"], ["--json"]],
    ["draw", ["ten frame: 5 dots"], ["add 3 crosses"], ["-o", "frame.svg"], ["--theme", "calm paper"]],
    ["fill", ["doubles"], ["--set", "n=-3"], ["-o", "frogs.lesson.md"]],
    ["handout", ["pond.lesson.md"], ["-o", "pond.pdf"], ["--paper", "a4"]],
    ["series find", ["7 + 2"], ["SERIES"], ["--page"], ["--json"]],
    ["series fill", ["SERIES"], ["--only", "1", "12"]],
    ["series build", ["SERIES"], ["--only", "1", "frogs"], ["--theme", "calm paper"], ["--json"]],
    ["series save", ["frogs"], ["SERIES"], ["--picture", "dots: {{ n }}"], ["--blank", "n=0 to 9"]],
    ["series save", ["frogs"], ["SERIES"], ["--segment", "pond.lesson.md", "Warm-up"]],
]


@pytest.fixture(scope="module")
def series(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pond")
    (folder / "series.yaml").write_text("title: Pond\n")
    return folder


@given(command=st.sampled_from(COMMANDS), data=st.data())
def test_the_order_of_options_makes_no_difference(series: Path, command: list[list[str]], data: st.DataObject) -> None:
    verb, *parts = command
    parts = [[str(series) if word == "SERIES" else word for word in part] for part in parts]
    words = [word for part in parts for word in part]
    free = [part for part in parts if not part[0].startswith("-")]
    mixed = data.draw(st.permutations(parts))
    # What stands free keeps its own order: that is its meaning.
    rest = iter(free)
    mixed = [next(rest) if not part[0].startswith("-") else part for part in mixed]
    parse = _parser().parse_args
    assert parse([*str(verb).split(), *(word for part in mixed for word in part)]) == parse(
        [*str(verb).split(), *words]
    )


def test_a_take_that_is_named_again_is_one_more() -> None:
    found = _parser().parse_args(["build", "--recording", "one.mp4", "--recording", "two.mp4", "pond.lesson.md"])
    assert [path.name for path in found.recording] == ["one.mp4", "two.mp4"]
    assert found.lesson.name == "pond.lesson.md"


@pytest.mark.parametrize(
    ("command", "words"),
    [
        ("", "what to do: demo, check"),
        ("chek pond.lesson.md", "no verb 'chek'. Did you mean 'check'?"),
        ("series fil", "no verb 'fil'. Did you mean 'fill'?"),
        ("check --jsn pond.lesson.md", "no '--jsn' here. Did you mean '--json'?"),
        ("build", "LESSON is missing."),
        ("build --recording one.mp4 two.mp4", "LESSON is missing. Write it before --recording."),
        ("build pond.lesson.md --recording", "after --recording"),
        ("build pond.lesson.md --format wied", "--format cannot be 'wied'. Did you mean 'wide'?"),
        ("build pond.lesson.md --fps 29", "--fps cannot be '29'. Choose from: 24"),
        ("build pond.lesson.md --fps ten", "--fps takes a whole number, not 'ten'"),
        ("build pond.lesson.md ducks.lesson.md", "'ducks.lesson.md' is one too many"),
        ("build pond.lesson.md --model large", "--model goes with a recording"),
        ("draw -o frame.svg", '"KIND: DETAILS" is missing'),
        ("handout pond.lesson.md", "-o is missing"),
        ("series save frogs", "--picture or --segment is missing"),
        ("series save frogs --picture dots --segment a b", "do not go together"),
        ("series save frogs --segment a", "--segment takes 2"),
        ("series routines nowhere", "nowhere: there is no such folder"),
        ("fill ring.md", "ring.md"),
    ],
)
def test_wrong_words_are_one_plain_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], command: str, words: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "ring.md").symlink_to("ring.md")
    assert main(command.split()) == 2
    told = capsys.readouterr()
    assert told.out == "" and words in told.err and len(told.err.splitlines()) == 1
    assert "CHANGE" not in told.err


def test_help_ends_with_0(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "--help"]) == 0
    assert "LESSON" in capsys.readouterr().out
