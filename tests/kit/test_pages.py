"""The kit's pages in a real browser, opened from the folder: no server, no network.

Accessibility is judged by axe-core (WCAG 2.0 to 2.2, levels A and AA, and its best practices).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from studio.findings import Finding
from studio.kit import KitContents, write_parts
from studio.listen.model import Retake
from tests.kit.browsing import chromium
from tests.kit.making import POND, contents_of, hostile_contents, small_film

LINE = POND.splitlines().index("Nine is seven and two.") + 1
FINDINGS = (
    Finding(
        "false sum", "error", LINE, 1, "nine is seven and three", "", "Seven and three make ten, not nine.", "Say two."
    ),
    Finding("unsaid number", "warning", 13, 1, "", "ten frame: 7 dots", "Nobody says seven.", "Say it.", 12.0),
)
RETAKES = (Retake(3.0, 5.5, 14, "Seven frogs sit", "Seven dogs sit", "A word is different: 'dogs' for 'frogs'."),)
PAGES = ("index.html", "transcript.html", "report.html")


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, KitContents]:
    folder = tmp_path_factory.mktemp("kit")
    contents = contents_of(POND, findings=FINDINGS, retakes=RETAKES)
    small_film(folder / "lesson.mp4", contents.sheet.duration)
    write_parts(contents, folder)
    return folder, contents


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    contents = hostile_contents()
    odd = tuple(replace(f, message=f"<b onclick=x>{f.message}</b>", said="--> & <i>") for f in FINDINGS)
    write_parts(replace(contents, findings=odd), folder)
    return folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as running:
        yield running


def opened(browser: Any, page: Path, width: int = 1280, **options: Any) -> Any:
    tab = browser.new_page(viewport={"width": width, "height": 800}, **options)
    tab.problems = []
    tab.on("pageerror", lambda error: tab.problems.append(str(error)))
    tab.on("console", lambda message: tab.problems.append(message.text) if message.type == "error" else None)
    tab.goto(page.as_uri())
    return tab


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_finds_no_violation(kit, browser, name, width):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    tab = opened(browser, kit[0] / name, width)
    found = axe.Axe().run(tab).response
    assert [(v["id"], [n["html"] for n in v["nodes"]]) for v in found["violations"]] == []
    assert found["passes"] and tab.problems == []
    tab.close()


@pytest.mark.parametrize("name", PAGES)
def test_odd_texts_neither_break_a_page_nor_widen_it(hostile, browser, name):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed")
    tab = opened(browser, hostile / name, 390)
    assert tab.evaluate("window.broken") is None
    assert tab.evaluate("document.querySelectorAll('img[src=x]').length") == 0
    assert tab.evaluate("document.documentElement.scrollWidth") <= 390
    assert "</script><script>window.broken = 1</script>" in tab.inner_text("body")
    assert [v["id"] for v in axe.Axe().run(tab).response["violations"]] == []
    assert [problem for problem in tab.problems if "ERR_FILE_NOT_FOUND" not in problem] == []
    tab.close()


def test_pages_ask_for_nothing_but_the_film_and_its_poster(kit, browser):
    asked: set[str] = set()
    for name in PAGES:
        tab = browser.new_page()
        tab.on("request", lambda request: asked.add(request.url))
        tab.goto((kit[0] / name).as_uri())
        tab.wait_for_timeout(150)
        tab.close()
    beside = {url.rsplit("/", 1)[-1] for url in asked if not url.startswith("data:")}
    assert beside <= {*PAGES, "lesson.mp4", "poster.png"}
    assert all(url.startswith(("file:", "data:")) for url in asked)


def test_the_player_has_every_caption_chapter_and_description(kit, browser):
    folder, contents = kit
    tab = opened(browser, folder / "index.html")
    tab.wait_for_function("[...document.querySelectorAll('track')].slice(0, 1).every(t => t.readyState === 2)")
    tab.evaluate("[...document.querySelectorAll('track')].forEach(t => t.track.mode = 'hidden')")
    tab.wait_for_function("[...document.querySelectorAll('track')].every(t => t.readyState === 2)")
    read = tab.evaluate(
        "[...document.querySelectorAll('track')].map(t => [...t.track.cues].map(c => [c.startTime, c.endTime, c.text]))"
    )
    approx = pytest.approx
    captions = [[approx(c.start), approx(c.end), "\n".join(c.lines)] for c in contents.captions.captions]
    assert read[0] == captions
    assert read[1] == [[approx(c.start), approx(c.end), c.title] for c in contents.chapters]
    assert read[2] == [[approx(d.start), approx(d.end), d.text] for d in contents.descriptions]
    tab.close()


def _at(tab: Any, time: float) -> None:
    tab.evaluate(
        "time => new Promise(done => { const film = document.getElementById('film');"
        "film.addEventListener('seeked', () => setTimeout(done, 120), { once: true }); film.currentTime = time; })",
        time,
    )


def test_captions_stand_under_the_film_when_their_words_are_said(kit, browser):
    folder, contents = kit
    tab = opened(browser, folder / "index.html")
    tab.wait_for_function("document.getElementById('film').readyState > 0")
    for caption in contents.captions.captions[1:8:3]:
        _at(tab, (caption.start + caption.end) / 2)
        assert tab.inner_text("#words").split("\n") == list(caption.lines)
    tab.check("input[value=on]")
    assert tab.evaluate("document.getElementById('captions').track.mode") == "showing"
    assert not tab.is_visible("#words")
    tab.check("#tell")
    _at(tab, contents.descriptions[0].start + 0.3)
    assert tab.inner_text("#told") == contents.descriptions[0].text
    tab.close()


def test_a_browser_that_refuses_the_tracks_gets_the_captions_all_the_same(kit, browser):
    folder, contents = kit
    page = (folder / "index.html").read_text(encoding="utf-8")
    refused = folder / "refused.html"
    # The same text under a type of address that the track loader cannot open.
    refused.write_text(page.replace('src="data:text/vtt', 'src="nothing:text/vtt'), encoding="utf-8")
    tab = opened(browser, refused)
    tab.wait_for_function("document.getElementById('film').readyState > 0")
    tab.wait_for_function("document.getElementById('film').textTracks.length >= 5")
    caption = contents.captions.captions[2]
    _at(tab, (caption.start + caption.end) / 2)
    assert tab.inner_text("#words").split("\n") == list(caption.lines)
    tab.close()
    refused.unlink()


def test_the_player_can_be_used_by_keyboard_alone(kit, browser):
    folder, contents = kit
    tab = opened(browser, folder / "index.html")
    tab.wait_for_function("document.getElementById('film').readyState > 0")
    reached = []
    for _ in range(40):
        tab.keyboard.press("Tab")
        focus = tab.evaluate(
            "(() => { const e = document.activeElement;"
            "const name = e.id || e.getAttribute('href') || e.value || '';"
            "return [e.tagName, name, getComputedStyle(e).outlineStyle]; })()"
        )
        reached.append(focus)
        if focus[1] == "handout.pdf":
            break
    names = {name for _, name, _ in reached}
    assert {"#main", "film", "under", "tell", "transcript.html", "handout.pdf"} <= names
    assert {f"lesson.mp4#t={c.start}" for c in contents.chapters} <= names
    assert all(outline != "none" for tag, _, outline in reached if tag in ("A", "INPUT"))
    third = contents.chapters[2].start
    tab.focus(f'a[data-start="{third}"]')
    tab.keyboard.press("Enter")
    tab.wait_for_function(f"Math.abs(document.getElementById('film').currentTime - {third}) < 2")
    tab.wait_for_function("document.querySelector('[aria-current]') !== null")
    assert contents.chapters[2].title in tab.inner_text("[aria-current]")
    tab.focus("#film")
    running = tab.evaluate("!document.getElementById('film').paused")
    tab.keyboard.press("Space")
    tab.wait_for_function(f"document.getElementById('film').paused === {str(running).lower()}")
    tab.focus("input[value=under]")
    tab.keyboard.press("ArrowRight")
    assert tab.evaluate("document.activeElement.value") == "on" and not tab.is_visible("#words")
    tab.keyboard.press("ArrowLeft")
    assert tab.is_visible("#words")
    tab.focus("#tell")
    tab.keyboard.press("Space")
    assert tab.is_visible("#told")
    tab.close()


def test_a_line_of_captions_is_one_line_on_a_phone(kit, browser):
    tab = opened(browser, kit[0] / "index.html", 390)
    tab.evaluate(
        "line => { const box = document.getElementById('words'); box.hidden = false;"
        "const span = document.createElement('span'); span.textContent = line; box.replaceChildren(span); }",
        "Ten more than twenty is thirty.".ljust(32, "m"),
    )
    height, line = tab.evaluate(
        "(() => { const span = document.querySelector('#words span');"
        "return [span.getBoundingClientRect().height, parseFloat(getComputedStyle(span).lineHeight)]; })()"
    )
    assert height < 1.5 * line
    tab.close()


def test_a_link_with_a_time_opens_the_film_there(kit, browser):
    tab = browser.new_page()
    tab.goto((kit[0] / "index.html").as_uri() + "#t=41.5")
    tab.wait_for_function("Math.abs(document.getElementById('film').currentTime - 41.5) < 0.6")
    tab.close()


def test_the_transcript_is_whole_without_a_script(kit, browser):
    folder, contents = kit
    context = browser.new_context(java_script_enabled=False)
    tab = context.new_page()
    tab.goto((folder / "transcript.html").as_uri())
    words = tab.locator(".said span").all_inner_texts()
    assert words == [word.text for word in contents.sheet.words]
    assert tab.locator("h2").all_inner_texts()[1:] == [c.title for c in contents.chapters]
    labels = [svg.get_attribute("aria-label") for svg in tab.locator("figure svg").all()]
    pictures = [d.text for d in contents.descriptions if not d.text.startswith("On the screen:")]
    assert [f"{label}." for label in labels] == pictures
    assert tab.locator(".think").count() == len(contents.sheet.waits)
    context.close()


def test_a_word_of_the_transcript_leads_to_its_time(kit, browser):
    folder, contents = kit
    tab = opened(browser, folder / "transcript.html")
    word = contents.sheet.words[30]
    tab.locator(".said span").nth(30).click()
    tab.wait_for_url("**/index.html#t=*")
    assert float(tab.url.split("#t=")[1]) == pytest.approx(word.start, abs=0.006)
    tab.close()


def test_the_report_shows_frames_of_the_film_beside_its_findings(kit, browser):
    tab = opened(browser, kit[0] / "report.html")
    sizes = tab.evaluate("[...document.images].map(i => [i.complete ? i.naturalWidth : 0, i.alt])")
    assert len(sizes) == 2 and all(width == 480 for width, _ in sizes)
    text = tab.inner_text("main")
    assert "Seven and three make ten, not nine." in text and "1 thing is wrong" in text
    assert "A word is different: 'dogs' for 'frogs'." in text
    tab.close()
