"""Parts and builds: what is saved is used elsewhere, a change is seen, what is there is not made again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from studio.build import BuildOptions
from studio.cli import main
from studio.errors import UnusableInput
from studio.pictures.themes import load_theme
from studio.series import api
from studio.series.library import load_lesson
from studio.series.saving import save_picture, save_segment
from tests.kit.browsing import chromium

SMALL = BuildOptions(shape="square", fps=24)
LESSON = """---
title: Ducks
number: {number}
---
# Hello

[show ten frame: {dots} dots as pond]
Here are {dots} ducks.
[clear]

# Goodbye

[show ten frame: 5 dots as pond]
Five ducks swim home. Goodbye!
[clear]
"""


def lesson(folder: Path, number: int, dots: int, name: str = "") -> Path:
    path = folder / "lessons" / f"{name or f'ducks-{number}'}.lesson.md"
    path.write_text(LESSON.format(number=number, dots=dots))
    return path


def states(folder: Path) -> dict[str, tuple[str, str]]:
    return {s.file.removesuffix(".lesson.md"): (s.state, s.why) for s in api.series_status(folder).lessons
            if s.state != "planned"}  # fmt: skip


@pytest.fixture
def pond(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("STUDIO_CACHE", str(tmp_path / "cache"))
    folder = tmp_path / "pond"
    api.new_series(folder, "Pond Days", lessons=2)
    return folder


def test_a_second_lesson_and_an_edit_reuse_the_film_of_what_is_the_same(pond: Path) -> None:
    first, second = lesson(pond, 1, 4), lesson(pond, 2, 7)
    for script in (first, second):  # title cards tell the number of the lesson, so without it they are the same
        script.write_text("".join(line for line in script.read_text().splitlines(True) if "number:" not in line))
    kept = second.read_text()
    done = api.build_series(pond, options=SMALL).outcomes
    assert [outcome.state for outcome in done] == ["built", "built"]
    assert done[0].reused == 0 < done[1].reused < done[1].spans
    assert [outcome.state for outcome in api.build_series(pond, options=SMALL).outcomes] == ["fresh", "fresh"]
    # A sentence more at the beginning moves everything after it, and the second segment is there all the same.
    first.write_text(first.read_text().replace("Here are 4", "Good morning, pond. Here are 4"))
    edited, untouched = api.build_series(pond, options=SMALL).outcomes
    assert (edited.state, untouched.state) == ("built", "fresh")
    assert edited.reused > 0
    status = "\n".join(api.series_status(pond).lines())
    assert f"({100 * edited.reused // edited.spans} % reused)" in status
    assert second.read_text() == kept


def test_a_renamed_renumbered_or_deleted_lesson_is_told_and_nothing_is_lost(pond: Path) -> None:
    first, second = lesson(pond, 1, 4), lesson(pond, 2, 5)
    api.build_series(pond, options=SMALL)
    assert states(pond) == {"ducks-1": ("built", ""), "ducks-2": ("built", "")}
    first.rename(first.with_name("morning.lesson.md"))
    second.write_text(second.read_text().replace("number: 2", "number: 1"))
    notes = " ".join(api.series_status(pond).notes)
    assert states(pond) == {"morning": ("written", ""), "ducks-2": ("out of date", "the script changed")}
    assert "'ducks-1' has no lesson any more; its script is now called 'morning'" in notes
    assert "2 lessons have the number 1" in notes
    (renamed,) = api.build_series(pond, ["morning"], SMALL).outcomes
    assert renamed.reused == renamed.spans
    second.unlink()
    assert "The kit 'ducks-2' has no lesson any more. Nothing was deleted." in api.series_status(pond).notes
    assert (pond / "kits" / "ducks-2" / "lesson.mp4").is_file()


def test_a_saved_segment_and_picture_are_used_elsewhere_and_their_change_is_seen(pond: Path) -> None:
    saved = save_segment(pond, "goodbye", lesson(pond, 1, 4), "Goodbye")
    save_picture(pond, "pond frame", "ten frame: {{ n }} dots as pond", {"n": "0 to 10"})
    mine = pond / "lessons" / "mine.lesson.md"
    mine.write_text(
        '---\ntitle: Mine\nnumber: 2\n---\n# Hello\n\n[show {{ use("pond frame", n=3) }}]\nThree ducks swim.\n\n'
        '{{ use("goodbye") }}\n'
    )
    read = load_lesson(mine)
    assert [segment.title for segment in read.segments] == ["Hello", "Goodbye"]
    assert "swim home" in " ".join(word.text for word in read.words)
    api.build_series(pond, ["mine"], SMALL)
    assert states(pond)["mine"] == ("built", "")
    assert next(s for s in api.series_status(pond).lessons if s.number == 2).parts == ("goodbye", "pond frame")
    for part, old, new in (
        (saved, "swim home", "hop home"),
        (pond / "parts" / "pond-frame.part.md", "dots", "crosses"),
    ):
        part.write_text(part.read_text().replace(old, new))
        assert states(pond)["mine"] == (
            "out of date",
            f"the part '{part.name.split('.')[0].replace('-', ' ')}' changed",
        )
        api.build_series(pond, ["mine"], SMALL)
        assert states(pond)["mine"] == ("built", "")
    assert "hop home" in (pond / "kits" / "mine" / "captions.srt").read_text().replace("\n", " ")
    with pytest.raises(UnusableInput, match="nothing was overwritten"):
        save_picture(pond, "Pond  Frame", "ten frame: 3 dots", {})


@pytest.mark.parametrize("width", [390, 1280])
def test_the_overview_shows_every_lesson_and_axe_finds_no_violation(pond: Path, width: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    lesson(pond, 1, 4)
    broken = pond / "lessons" / "broken.lesson.md"
    broken.write_text("---\ntitle: </li><script>window.broken = 1</script>\n---\n")
    page = api.write_overview(pond)
    with chromium() as browser:
        tab = browser.new_page(viewport={"width": width, "height": 800})
        tab.goto(page.as_uri())
        assert tab.locator(".lessons > li").count() == 2
        assert "cannot be read" in tab.inner_text("main") and tab.evaluate("window.broken") is None
        assert tab.evaluate("document.documentElement.scrollWidth") <= width
        assert [violation["id"] for violation in axe.Axe().run(tab).response["violations"]] == []


def test_what_is_found_is_shown_on_a_page_with_each_picture_once_and_its_direction(
    pond: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    lesson(pond, 1, 4)
    lesson(pond, 2, 7)
    assert main(["series", "find", "ten frame", str(pond), "--page"]) == 0
    assert "The pictures are in" in capsys.readouterr().out
    with chromium() as browser:
        tab = browser.new_page(viewport={"width": 390, "height": 800})
        tab.goto((pond / "found.html").as_uri())
        directions = tab.locator("code").all_inner_texts()
        assert directions == ["[show ten frame: 4 dots]", "[show ten frame: 5 dots]", "[show ten frame: 7 dots]"]
        labels = [svg.get_attribute("aria-label") for svg in tab.locator("svg").all()]
        assert labels == ["Ten frame: 4 dots", "Ten frame: 5 dots", "Ten frame: 7 dots"]
        assert tab.locator(".places").nth(1).locator("li").count() == 2
        link = tab.locator(".places a").first.get_attribute("href")
        assert link is not None and (pond / link).is_file()
        assert tab.evaluate("document.documentElement.scrollWidth") <= 390
        assert [violation["id"] for violation in axe.Axe().run(tab).response["violations"]] == []
    reused = pond / "lessons" / "reused.lesson.md"
    reused.write_text(f"---\ntitle: Reused\n---\n{directions[2]}\nSeven ducks swim.\n")
    assert main(["check", str(reused)]) == 0


def test_lessons_that_are_linked_follow_a_change_to_the_routine(pond: Path) -> None:
    path = pond / "series.yaml"
    path.write_text(path.read_text().replace("linked: no", "linked: yes"))
    (linked, _) = api.fill_series(pond).written
    assert '{{ use("partners warm up", whole=' in linked.read_text() and "welcome" not in linked.read_text()
    before = load_lesson(linked).text
    shelf, _ = api.find_routine("partners warm up")
    (pond / "parts" / "partners-warm-up.part.md").write_text(shelf.text.replace("welcome to the pond", "good morning"))
    after = load_lesson(linked)
    assert "good morning" in after.text and "good morning" not in before
    assert api.find_in_series(pond, "good morning").hits[0].file == linked.name


def test_messages_name_a_file_and_never_a_dot(
    pond: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(pond)
    tried = [
        ["series", "new", ".", "--title", "Again"], ["series", "fill", "--only", "77"],
        ["series", "build", "--only", "99"], ["series", "save", "x", "--picture", "tin frame: 3 dots"],
        ["series", "save", "x", "--picture", "ten frame: {{ n }} dots"], ["fill", "number of the day", "--set", "n=300"],
    ]  # fmt: skip
    (pond / "empty").mkdir()
    tried += [["series", verb, "empty"] for verb in ("plan", "fill", "build", "status", "overview")]
    for words in tried:
        assert main(words) == 2, words
        told = capsys.readouterr().err
        assert told.strip() and not told.startswith("."), words
        assert "Line " not in told  # nothing that was given here has lines
    monkeypatch.chdir(pond / "empty")
    assert main(["series", "status"]) == 2
    assert capsys.readouterr().err.startswith("series.yaml: ")


def test_the_command_line_says_how_much_was_there(pond: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lesson(pond, 1, 4)
    settings = pond / "series.yaml"  # what the series sets is kept to, but for what the command says
    settings.write_text(settings.read_text().replace("numerals: as said", "numerals: digits").replace("letter ", "a4 "))
    build = ["series", "build", str(pond), "--format", "square", "--fps", "24", "--paper", "letter"]
    assert main(build) == 0
    assert "0 % of its film was there already" in capsys.readouterr().out
    assert main([*build, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["lessons"][0]["state"] == "fresh"
    kit = pond / "kits" / "ducks-1"
    assert "5 ducks" in (kit / "captions.srt").read_text()
    assert float(PdfReader(kit / "handout.pdf").pages[0].mediabox.width) == 612


def test_an_error_stands_in_every_build_and_on_every_page_until_it_is_mended(pond: Path) -> None:
    script = lesson(pond, 1, 4)
    right = script.read_text()
    script.write_text(right.replace("Here are 4 ducks", "Here are 4 ducks. Two plus two equals five"))
    first, again = (api.build_series(pond, options=SMALL) for _ in range(2))
    assert first.has_errors and again.has_errors
    assert [done.outcomes[0].state for done in (first, again)] == ["built", "fresh"]
    assert "ducks-1.lesson.md: up to date, to mend: 1 error" in "\n".join(again.lines())
    assert states(pond)["ducks-1"][0] == "built, to mend" and states(pond)["ducks-1"][1].startswith("1 error;")
    assert "built, to mend: 1 error" in (pond / "overview.html").read_text(encoding="utf-8")
    script.write_text(right)
    assert not api.build_series(pond, options=SMALL).has_errors
    assert states(pond) == {"ducks-1": ("built", "")}


@pytest.mark.parametrize(
    ("old", "new", "name"), [("warm paper", "dark board", "theme"), ("letter ", "a4 ", "paper"),
                             ("as said ", "digits ", "numerals")],
)  # fmt: skip
def test_a_kit_is_out_of_date_when_the_settings_of_the_series_change(pond: Path, old: str, new: str, name: str) -> None:
    lesson(pond, 1, 4)
    api.build_series(pond, options=SMALL)
    assert states(pond) == {"ducks-1": ("built", "")}
    settings = pond / "series.yaml"
    before = settings.read_text()
    settings.write_text(before.replace(f"{name}: {old}", f"{name}: {new}"))
    assert settings.read_text() != before
    assert states(pond) == {"ducks-1": ("out of date", f"it is built with other settings ({name})")}


def test_a_theme_of_her_own_is_known_by_what_is_in_it_and_not_by_where_it_lies(pond: Path) -> None:
    lesson(pond, 1, 4)
    settings, theme = pond / "series.yaml", pond / "mine.toml"
    settings.write_text(settings.read_text().replace("theme: warm paper", "theme: mine.toml"))
    theme.write_text('name = "mine"\nlike = "warm paper"\n')
    api.build_series(pond)
    moved = pond.rename(pond.with_name("lake"))
    assert states(moved) == {"ducks-1": ("built", "")}
    assert api.build_series(moved).outcomes[0].state == "fresh"
    (moved / theme.name).write_text('name = "mine"\nlike = "dark board"\n')
    load_theme.cache_clear()  # as the next command begins
    assert states(moved) == {"ducks-1": ("out of date", "it is built with other settings (theme)")}


def test_a_saved_part_is_checked_as_what_it_is(pond: Path, capsys: pytest.CaptureFixture[str]) -> None:
    segment = save_segment(pond, "goodbye", lesson(pond, 1, 4), "Goodbye")
    picture = save_picture(pond, "pond frame", "ten frame: {{ n }} dots as pond", {"n": "0 to 10"})
    one = save_picture(pond, "a log", "dots: 4 as frogs", {})
    for part in (segment, picture, one):
        assert main(["check", str(part)]) == 0, part
        assert "nothing to mend" in capsys.readouterr().out
    segment.write_text(segment.read_text().replace("Five ducks", "Six ducks"))
    picture.write_text(picture.read_text().replace("0 to 10", "0 to 12"))
    one.write_text(one.read_text().replace("dots:", "dtos:"))
    for part, told in ((segment, "Line 7 says 6"), (picture, "not 11. A double ten frame shows up to 20. (with n = 11, and 1"),
                       (one, "error: line 4: There is no picture 'dtos'")):  # fmt: skip
        assert main(["check", str(part)]) == 1, part
        assert told in capsys.readouterr().out


def test_a_segment_that_cannot_be_a_part_is_told_at_its_line_of_the_lesson(pond: Path) -> None:
    script = lesson(pond, 1, 4)
    script.write_text(script.read_text().replace("Five ducks", "{{ n }} ducks"))
    with pytest.raises(UnusableInput) as error:
        save_segment(pond, "goodbye", script, "Goodbye")
    assert str(error.value).startswith(f"{script}, line 14: There is no blank 'n'.")
    script.write_text(script.read_text().replace("{{ n }} ducks", '\n{{ use("doubles", n=4) }}\nDucks'))
    assert 'use("doubles", n=4)' in save_segment(pond, "goodbye", script, "Goodbye").read_text()


@pytest.mark.parametrize(
    "words", ["Listen: five and two make seven.", "Otters: four!", "Look: two frogs", "Tell: why?"]
)
def test_one_line_of_words_with_a_colon_is_no_picture(
    pond: Path, capsys: pytest.CaptureFixture[str], words: str
) -> None:
    part = pond / "parts" / "look.part.md"
    part.write_text(f'---\nabout: "Words."\n---\n{words}\n')
    assert main(["check", str(part)]) == 0
    assert "nothing to mend" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("picture", "blanks", "told"),
    [("ten frame: {{ n }} dots", {"n": "0 to 40"}, "With n = 40: A ten frame can show 0 to 10, not 40."),
     ("ten frame: {{ n }} dots and {{ m }} crosses", {"n": "0 to 5", "m": "0 to 300"}, "With n = 0, m = 300: "),
     ("ten frame: 50 dots", {}, "A ten frame can show 0 to 10, not 50.")],
)  # fmt: skip
def test_a_picture_that_cannot_show_its_numbers_is_not_saved(
    pond: Path, picture: str, blanks: dict[str, str], told: str
) -> None:
    with pytest.raises(UnusableInput) as error:
        save_picture(pond, "pond frame", picture, blanks)
    assert str(error.value).startswith(told) and not list((pond / "parts").iterdir())
    save_picture(pond, "pond frame", "ten frame: {{ n }} dots and {{ m }} crosses", {"n": "0 to 10", "m": "0 to 10"})
