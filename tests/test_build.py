"""What `build` says of a recording; that a whole kit is built is told in tests/kit and tests/whole."""

from __future__ import annotations

import json
from pathlib import Path

from studio.build import SILENCED, Kit, build_kit
from studio.listen.model import Retake
from studio.script.reader import read

RETAKE = Retake(
    3.0, 5.0, 14, "Six, seven, eight.", "six, eight, nine.", "The script says “seven” and “eight” is heard."
)


def kit(retakes: tuple[Retake, ...] = (), noticed: tuple[str, ...] = ()) -> Kit:
    return Kit(Path("pond-kit"), 60.0, (), retakes, noticed, 4, 0, None, ())


def test_a_place_to_record_again_is_something_to_mend() -> None:
    assert kit((RETAKE,)).has_errors and not kit().has_errors
    assert "mend one place" in kit((RETAKE,)).lines()[1] and "mend 2 places" in kit((RETAKE, RETAKE)).lines()[1]


def test_a_place_to_record_again_is_told_with_its_line_and_both_wordings() -> None:
    text = "\n".join(kit((RETAKE,)).lines())
    assert "0:03–0:05, line 14: " in text
    assert f"script: {RETAKE.script}" in text and f"heard:  {RETAKE.heard}" in text


def test_what_listening_noticed_is_told_and_asks_for_no_mending() -> None:
    noticed = ("take.wav: the sound is clipped.", "Not sure, listen yourself: “eight” at 0:06.")
    built = kit(noticed=noticed)
    assert not built.has_errors and built.as_json()["noticed"] == list(noticed)
    assert all(sentence in built.lines() for sentence in noticed)


def test_how_to_record_again_is_told_where_something_is_to_be() -> None:
    assert any("trim the take" in line for line in kit((RETAKE,)).lines())
    assert not any("trim the take" in line for line in kit().lines())


def test_a_silent_film_in_the_place_of_one_with_her_voice_is_told(tmp_path: Path) -> None:
    lesson = read("---\ntitle: Pond\n---\nThree frogs.\n")
    out = tmp_path / "kit"
    assert not build_kit(lesson, out=out).silenced
    report = json.loads((out / "report.json").read_text(encoding="utf-8"))
    assert report["recorded"] is False
    (out / "report.json").write_text(json.dumps({**report, "recorded": True}), encoding="utf-8")
    built = build_kit(lesson, out=out)
    assert built.silenced and SILENCED in built.lines()


def test_a_kit_without_a_recording_says_nothing_of_one() -> None:
    assert not any("record" in line for line in kit().lines())
