"""The command line: what it prints, how it ends, and that bad input is one plain sentence."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from studio.cli import main
from tests.conftest import ROOT

DEMO = ROOT / "assets_demo"
TRUE = "---\ntitle: Pond\n---\n[show ten frame: 5 dots as frame]\nFive frogs. Five and three make eight.\n"
FALSE = TRUE.replace("make eight", "make nine")


def studio(*arguments: object, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "studio", *map(str, arguments)],
        capture_output=True, text=True, env={**os.environ, **more}, cwd=ROOT,
    )  # fmt: skip


def sentence(done: subprocess.CompletedProcess[str]) -> str:
    """The one plain sentence of an input that cannot be used."""
    assert done.returncode == 2, done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1, done.stderr
    return done.stderr.strip()


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    path = tmp_path / "pond.lesson.md"
    path.write_text(TRUE)
    return path


def test_a_true_lesson_ends_with_0_and_a_false_one_with_1(lesson: Path) -> None:
    assert studio("check", lesson).returncode == 0
    lesson.write_text(FALSE)
    done = studio("check", lesson)
    assert done.returncode == 1
    assert "line 5" in done.stdout and "8" in done.stdout


def test_check_json_has_the_keys_that_programs_read(lesson: Path) -> None:
    lesson.write_text(FALSE)
    value = json.loads(studio("check", "--json", lesson).stdout)
    assert {"lesson", "statements", "shown", "stories", "findings"} <= value.keys()
    assert {"line", "said", "kind", "values", "holds"} <= value["statements"][0].keys()
    assert {"line", "picture", "kind", "numbers"} <= value["shown"][0].keys()
    keys = {"rule", "level", "line", "column", "said", "shown", "message", "help"}
    assert keys <= value["findings"][0].keys()
    several = json.loads(studio("check", "--json", lesson, lesson).stdout)
    assert isinstance(several, list) and len(several) == 2


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (None, "no such file"),
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\x01" * 20, "text"),
        ("---\ntitle: Pond\n---\nDrei Fr\xf6sche.".encode("latin-1"), "UTF-8"),
        (b"---\ntitle: Pond\n---\n" + b"Five frogs. " * 1_000_000, ""),
    ],
    ids=["missing", "empty", "binary", "not UTF-8", "gigantic"],
)
def test_a_script_that_cannot_be_used_is_one_sentence(tmp_path: Path, content: bytes | None, words: str) -> None:
    path = tmp_path / "pond.lesson.md"
    if content is not None:
        path.write_bytes(content)
    said = sentence(studio("check", path))
    assert "pond.lesson.md" in said and words in said


def test_every_mistake_of_a_script_is_told_at_once(lesson: Path) -> None:
    lesson.write_text(TRUE + "[show tenframe: 5 dots]\nFive.\n[fram: add 1 dot]\nSix.\n")
    done = studio("check", lesson)
    assert done.returncode == 2
    first, second = done.stderr.strip().splitlines()
    assert "line 6" in first and "'ten frame'" in first
    assert "line 8" in second and "frame" in second


@pytest.mark.parametrize("name", ["missing.mp4", "text.mp4", "cut.mp4", "silent.wav", "still.mp4"])
def test_a_recording_that_cannot_be_used_is_one_sentence(tmp_path: Path, lesson: Path, name: str) -> None:
    import av
    import numpy as np
    from pydub import AudioSegment

    path = tmp_path / name
    if name == "text.mp4":
        path.write_text("This is no film. " * 100)
    elif name == "cut.mp4":
        path.write_bytes((DEMO / "pond-09.take.mp4").read_bytes()[:400_000])
    elif name == "silent.wav":
        AudioSegment.silent(5000, frame_rate=16000).export(path, format="wav")
    elif name == "still.mp4":
        with av.open(str(path), "w") as container:
            stream = container.add_stream("libx264", rate=25)
            stream.width = stream.height = 64
            stream.pix_fmt = "yuv420p"
            for _ in range(25):
                container.mux(stream.encode(av.VideoFrame.from_ndarray(np.zeros((64, 64, 3), np.uint8))))
            container.mux(stream.encode())
    out = tmp_path / "kit"
    assert name in sentence(studio("build", lesson, "--recording", path, "--out", out))
    assert not out.exists()
    assert sorted(p.name for p in tmp_path.iterdir() if p != path) == ["pond.lesson.md"]


def test_a_recording_of_another_lesson_is_one_sentence(tmp_path: Path) -> None:
    other = tmp_path / "otters.lesson.md"
    other.write_text(
        "---\ntitle: Otters\n---\nToday two otters slide down the muddy river bank into cold shining water. Their "
        "mother calls them home for supper before dark. Everyone sleeps under a tall willow tree beside still reeds.\n"
    )
    said = sentence(studio("listen", DEMO / "pond-09.take.mp4", "--lesson", other))
    assert "another lesson" in said


def test_a_place_that_cannot_be_written_is_one_sentence(tmp_path: Path, lesson: Path) -> None:
    (tmp_path / "file").write_text("hers")
    said = sentence(studio("build", lesson, "--out", tmp_path / "file" / "kit"))
    assert "folder is needed" in said
    said = sentence(studio("build", lesson, "--out", tmp_path))
    assert "other things" in said and lesson.read_text() == TRUE


@pytest.mark.parametrize(
    "arguments", ["handout pond.lesson.md -o pond.lesson.md", "suggest pond.lesson.md -o ./pond.lesson.md"]
)
def test_the_script_is_never_written_over(
    lesson: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], arguments: str
) -> None:
    monkeypatch.chdir(lesson.parent)
    assert main(arguments.split()) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
    assert lesson.read_text() == TRUE


def test_a_lesson_that_cannot_be_used_hides_no_other(lesson: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ducks, otters, frogs = (lesson.with_name(f"{name}.lesson.md") for name in ("ducks", "otters", "frogs"))
    ducks.write_text("")
    frogs.write_text(FALSE)
    names = [str(path) for path in (ducks, lesson, otters, frogs)]
    assert main(["check", *names]) == 2
    told = capsys.readouterr()
    assert str(lesson) in told.out and f"{frogs}: " in told.out and "error" in told.out
    assert [line.split(":")[0] for line in told.err.splitlines()] == [str(ducks), str(otters)]
    assert main(["check", "--json", *names]) == 2
    assert len(json.loads(capsys.readouterr().out)) == 2
    assert main(["check", "--json", str(lesson), str(otters)]) == 2
    assert len(json.loads(capsys.readouterr().out)) == 1  # a list all the same


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
@pytest.mark.parametrize("arguments", ["--help", "series routines"])
def test_a_full_disk_behind_the_output_is_one_sentence_that_says_so(arguments: str) -> None:
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "studio", *arguments.split()],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            cwd=ROOT,
        )
    assert done.returncode == 2
    assert done.stderr.startswith("What was to be printed: the disk is full") and len(done.stderr.splitlines()) == 1


def test_an_output_that_nobody_reads_on_is_no_error() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run([sys.executable, "-m", "studio", "--help"], stdout=writing, stderr=subprocess.PIPE, cwd=ROOT)
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_store_in_a_place_that_cannot_be_is_told_by_its_name(
    lesson: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("STUDIO_CACHE", str(lesson))
    assert main(["build", str(lesson), "--out", str(lesson.with_name("kit"))]) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"{lesson}: ") and "STUDIO_CACHE" in told and "--out" not in told
    assert os.listdir(lesson.parent) == [lesson.name]


def test_a_missing_model_is_one_sentence(tmp_path: Path, lesson: Path) -> None:
    said = sentence(studio("listen", DEMO / "pond-09.take.mp4", "--model", tmp_path / "nowhere"))
    assert "model" in said
