"""Kits for tests, made by the real rooms from a script."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

from studio.captions import make_captions
from studio.kit import KitContents
from studio.script.reader import read
from studio.stage.staging import stage
from studio.timing.assemble import assemble
from studio.timing.pace import pace_track

POND = (Path(__file__).parent / "pond.lesson.md").read_text(encoding="utf-8")

# What people and mischief may put into a title or a line: no file and no page may break on it.
HOSTILE_TITLES = (
    'Frogs & "ducks" <b>& otters</b>',
    "7 --> 9",
    "</script><script>window.broken = 1</script>",
    "{{ 7 * 7 }} {% raw %}",
    "#emph[x] #pagebreak() $a$ *b* \\ \" ' ` //",
    "ضفادع البركة عشرة",
    "🐸 Frogs 👩‍👩‍👧 🦆",
    "x" * 300,
    "Frogs " * 50,
)


def contents_of(text: str, **more: Any) -> KitContents:
    """The contents of a kit for a script, timed by its pace."""
    lesson = read(text, "test.lesson.md")
    staged = stage(lesson)
    sheet = assemble(lesson, staged, pace_track(lesson))
    captions = make_captions(lesson, sheet)
    return KitContents(lesson, sheet, captions, **{"findings": staged.findings, **more})


HOSTILE_WORDS = {
    "apple": "</p><img src=x onerror=window.broken=1>",
    "banana": "-->",
    "cherry": "{{7*7}}",
    "date": "ضفادع",
    "elder": "🐸&amp;",
    "fig": "y" * 90,
}


def hostile_contents(**more: Any) -> KitContents:
    """A lesson in which every text that a person writes is odd, also where the reader of scripts would not let it."""
    header = f"---\ntitle: {json.dumps(HOSTILE_TITLES[2])}\nseries: {json.dumps(HOSTILE_TITLES[0])}\n"
    header += f"needs: {json.dumps(' '.join(HOSTILE_TITLES[3:5]))}\nnumber: 3\n---\n\n"
    said = f"Seven frogs {' '.join(HOSTILE_WORDS)} swim."
    parts = [
        f"# Part {n}\n\n[show text: {n} & 'more' \"so\" as words]\n{said}\n[clear]\n"
        for n in range(len(HOSTILE_TITLES))
    ]
    contents = contents_of(header + "\n".join(parts), **more)
    lesson, sheet = contents.lesson, contents.sheet
    segments = tuple(
        replace(
            segment,
            title=HOSTILE_TITLES[segment.index],
            words=tuple(replace(word, text=HOSTILE_WORDS.get(word.text, word.text)) for word in segment.words),
        )
        for segment in lesson.segments
    )
    sheet = replace(
        sheet,
        words=tuple(replace(word, text=HOSTILE_WORDS.get(word.text, word.text)) for word in sheet.words),
        segments=tuple(replace(start, title=HOSTILE_TITLES[start.segment]) for start in sheet.segments),
    )
    lesson = replace(lesson, segments=segments)
    return replace(contents, lesson=lesson, sheet=sheet, captions=make_captions(lesson, sheet))


def small_film(path: Path, seconds: float, rate: int = 2) -> None:
    """A film of flat grey frames that grow lighter, in the formats of the real one."""
    import av
    import numpy as np

    with av.open(str(path), "w", options={"movflags": "faststart"}) as container:
        stream = container.add_stream("libx264", rate=rate)
        stream.width, stream.height, stream.pix_fmt = 320, 180, "yuv420p"
        count = int(seconds * rate)
        for number in range(count):
            level = int(255 * number / count)
            frame = av.VideoFrame.from_ndarray(np.full((180, 320, 3), level, np.uint8), format="rgb24")
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
