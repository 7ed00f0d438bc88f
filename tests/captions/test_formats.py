"""The caption files, read back by readers that are not ours: webvtt-py, pysubs2 and Chromium's own track parser."""

from __future__ import annotations

import io

import pysubs2
import pytest
import webvtt
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.captions import Caption, Chapter, make_captions, make_chapters
from studio.captions.chapters_txt import write_chapters_txt
from studio.captions.chapters_vtt import write_chapters_vtt
from studio.captions.descriptions import Description
from studio.captions.descriptions_vtt import write_descriptions_vtt
from studio.captions.srt import write_srt
from studio.captions.vtt import write_vtt
from tests.captions.making import POND, spoken_lesson
from tests.kit.browsing import chromium

NASTY = [
    'Frogs & "ducks"', "7 --> 9", "3 < 5 > 2", "<b>bold</b>", "&amp; <v otter>", "ضفادع البركة", "🐸🦆", "{\\an8}top",
    "00:00:01.000 --> 00:00:02.000", "WEBVTT", "NOTE this", "1", "STYLE", "a\u2028b", "</script>", "\\N", "x\x00y",
]  # fmt: skip
TEXTS = st.one_of(st.sampled_from(NASTY), st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30))


def rows(texts: list[str]) -> list[Caption]:
    return [Caption(2.5 * n, 2.5 * n + 2.25, (text,), 1) for n, text in enumerate(texts)]


def seconds(clock: str) -> float:
    hours, minutes, rest = clock.split(":")
    return int(hours) * 3600 + int(minutes) * 60 + float(rest)


def with_letters(texts: list[str]) -> list[str]:
    """A cue of nothing but marks or blanks is none; captions never are."""
    return [f"w{text}w" for text in texts]


@settings(max_examples=80, deadline=None)
@given(st.lists(TEXTS, min_size=1, max_size=6).map(with_letters))
def test_no_text_breaks_out_of_a_cue(texts):
    captions = rows(texts)
    vtt = webvtt.from_buffer(io.StringIO(write_vtt(captions)))
    assert [(seconds(c.start), seconds(c.end)) for c in vtt] == [(c.start, c.end) for c in captions]
    srt = pysubs2.SSAFile.from_string(write_srt(captions), format_="srt")
    assert [(e.start, e.end) for e in srt] == [(round(c.start * 1000), round(c.end * 1000)) for c in captions]


def test_subrip_keeps_the_words_and_numbers_the_cues():
    lesson, sheet = spoken_lesson(*POND)
    captions = make_captions(lesson, sheet).captions
    srt = pysubs2.SSAFile.from_string(write_srt(captions), format_="srt")
    assert [event.plaintext for event in srt] == ["\n".join(c.lines) for c in captions]
    assert write_srt(captions).startswith("1\n00:00:02,000 --> ")


def test_chromium_reads_every_cue_with_its_text_and_times():
    lesson, sheet = spoken_lesson(*POND)
    captions = [*make_captions(lesson, sheet).captions]
    captions += [Caption(c.start + 3600, c.end + 3600, c.lines, 1) for c in rows(NASTY)]
    chapters = [*make_chapters(sheet), *(Chapter(t, 3600 + n, 3601 + n) for n, t in enumerate(NASTY[:9]))]
    described = [Description(n, n + 0.5, text) for n, text in enumerate(NASTY[:9])]
    with chromium() as browser:
        page = browser.new_page()
        page.set_content("<video></video>")
        for kind, text, expected in (
            ("captions", write_vtt(captions), [(c.start, c.end, "\n".join(c.lines)) for c in captions]),
            ("chapters", write_chapters_vtt(chapters), [(c.start, c.end, c.title) for c in chapters]),
            ("descriptions", write_descriptions_vtt(described), [(d.start, d.end, d.text) for d in described]),
        ):
            read = page.evaluate(READ_TRACK, {"kind": kind, "text": text})
            assert [(s, e) for s, e, _, _ in read] == [(pytest.approx(s), pytest.approx(e)) for s, e, _ in expected]
            shown = [t for _, _, _, t in read]
            plain = [t.replace("\x00", "").replace("\u2028", " ") for _, _, t in expected]
            assert shown == plain


READ_TRACK = """async ({kind, text}) => {
  const track = document.createElement('track');
  track.kind = kind;
  track.src = URL.createObjectURL(new Blob([text], {type: 'text/vtt'}));
  document.querySelector('video').append(track);
  track.track.mode = 'hidden';
  await new Promise((done, fail) => { track.onload = done; track.onerror = fail; });
  return [...track.track.cues].map(c => [c.startTime, c.endTime, c.text, c.getCueAsHTML().textContent]);
}"""


def test_chapters_start_at_nought_and_follow_without_a_gap():
    _, sheet = spoken_lesson(("Warm-up", ["Hello."]), ("The number of the day", ["Nine."]), ("Good bye", ["Bye."]))
    chapters = make_chapters(sheet)
    assert [c.title for c in chapters] == ["Warm-up", "The number of the day", "Good bye"]
    assert chapters[0].start == 0.0 and chapters[-1].end == sheet.duration
    assert [c.end for c in chapters[:-1]] == [c.start for c in chapters[1:]]


def test_chapter_lines_can_be_pasted():
    chapters = [Chapter("Warm-up", 0, 61.9), Chapter('Frogs & "ducks"', 61.9, 3700.2), Chapter("End", 3700.2, 3800)]
    assert write_chapters_txt(chapters) == '0:00 Warm-up\n1:01 Frogs & "ducks"\n1:01:40 End\n'


def test_a_title_of_300_characters_stays_one_chapter():
    _, sheet = spoken_lesson(("x" * 300, ["Hello."]), ("  a\n\nb ", ["Bye."]))
    chapters = make_chapters(sheet)
    assert [c.title for c in chapters] == ["x" * 300, "a b"]
    assert len(webvtt.from_buffer(io.StringIO(write_chapters_vtt(chapters)))) == 2
