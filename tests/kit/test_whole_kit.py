"""Whole kits of odd lessons, film and all, opened by readers that are not ours."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import av
import pysubs2
import pytest
import webvtt
from pypdf import PdfReader

from studio import build
from tests.kit.browsing import chromium
from tests.kit.making import HOSTILE_TITLES

# A script has no HTML, no braces and no brackets in a title; the parts are tested with those elsewhere (`hostile_contents`).
TITLES = [title for title in HOSTILE_TITLES if not set("<{[") & set(title)]
ODD = "".join(f"# {title}\n\n[show ten frame: {n} dots]\nHere are {n} frogs.\n\n[clear]\n\n"
              for n, title in enumerate(TITLES, 1))  # fmt: skip
QUOTED = 'Frogs & "ducks" --> 9'
LESSONS = {
    "odd titles": f"---\ntitle: {json.dumps(QUOTED)}\nseries: {HOSTILE_TITLES[6]}\n---\n{ODD}",
    "a title of 300 letters": f"---\ntitle: {'x' * 300}\n---\nSeven frogs --> swim & hop.\n",
    "right to left": "---\ntitle: ضفادع البركة عشرة\n---\n# الدرس 1\n\nSeven frogs swim, ضفادع.\n",
    "one line": "---\ntitle: Short\n---\nHello.\n",
    "no numbers": "---\ntitle: No numbers\n---\n# The pond\nLook at the frogs. They swim.\n",
}


@pytest.fixture(scope="module", params=list(LESSONS))
def kit(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("odd")
    script = folder / "odd.lesson.md"
    script.write_text(LESSONS[request.param], encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("STUDIO_CACHE", str(folder / "cache"))
        patch.setitem(build.SCREENS, "wide", (320, 180))
        yield build.build_kit(script, options=build.BuildOptions(fps=24)).folder


def seconds(clock: str) -> float:
    return sum(float(part) * scale for part, scale in zip(reversed(clock.split(":")), (1, 60, 3600), strict=False))


def test_caption_files_say_the_same_to_every_reader(kit: Path) -> None:
    vtt = webvtt.read(str(kit / "captions.vtt"))
    srt = pysubs2.load(str(kit / "captions.srt"))
    assert len(vtt) == len(srt) > 0
    for one, other in zip(vtt, srt, strict=True):
        assert (seconds(one.start), seconds(one.end)) == pytest.approx((other.start / 1000, other.end / 1000))
    with av.open(str(kit / "lesson.mp4")) as film:
        assert sum(bool(packet.size > 2) for packet in film.demux(film.streams.subtitles[0])) == len(vtt)


def test_chapters_in_the_film_are_those_of_the_files_with_their_titles_whole(kit: Path) -> None:
    report = json.loads((kit / "report.json").read_text(encoding="utf-8"))
    files = webvtt.read(str(kit / "chapters.vtt"))
    with av.open(str(kit / "lesson.mp4")) as film:
        inside = [(float(c["start"] * c["time_base"]), c["metadata"]["title"]) for c in film.chapters()]
    assert [title for _, title in inside] == [chapter["title"] for chapter in report["chapters"]]
    assert [start for start, _ in inside] == pytest.approx([seconds(c.start) for c in files], abs=0.002)
    lines = (kit / "chapters.txt").read_text(encoding="utf-8").splitlines()
    assert len(lines) == len(inside) and lines[0].startswith("0:00 ")


def test_the_paper_of_an_odd_lesson_is_read(kit: Path) -> None:
    pages = PdfReader(io.BytesIO((kit / "handout.pdf").read_bytes())).pages
    assert len(pages) >= 2 and "For the grown-up" in pages[len(pages) - 1].extract_text()


def test_a_browser_parses_every_track_of_an_odd_lesson(kit: Path, browser: Any) -> None:
    tab = browser.new_page(viewport={"width": 390, "height": 800})
    tab.goto((kit / "index.html").as_uri())
    tab.evaluate("[...document.querySelectorAll('track')].forEach(t => t.track.mode = 'hidden')")
    tab.wait_for_function("[...document.querySelectorAll('track')].every(t => t.readyState === 2)")
    cues = tab.evaluate("[...document.querySelectorAll('track')].map(t => [...t.track.cues].map(c => c.startTime))")
    for found, name in zip(cues, ("captions", "chapters", "descriptions"), strict=True):
        expected = webvtt.read(str(kit / f"{name}.vtt")) if found else []
        assert found == pytest.approx([seconds(cue.start) for cue in expected], abs=0.001)
    assert cues[0] and cues[1]
    assert tab.evaluate("window.broken") is None
    assert tab.evaluate("document.documentElement.scrollWidth") <= 390
    tab.close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as running:
        yield running
