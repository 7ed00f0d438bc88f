"""Writing the parts of a kit."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from studio.captions.chapters_txt import write_chapters_txt
from studio.captions.chapters_vtt import write_chapters_vtt
from studio.captions.descriptions_vtt import write_descriptions_vtt
from studio.captions.srt import write_srt
from studio.captions.vtt import write_vtt
from studio.files import say_os_error
from studio.handout.make import handout_pdf
from studio.kit.contents import KitContents
from studio.kit.description import description_text
from studio.kit.pages import index_page
from studio.kit.pictures import write_pictures
from studio.kit.poster import poster_png
from studio.kit.report import report_page
from studio.kit.report_json import report_json
from studio.kit.transcript import transcript_page

FILM = "lesson.mp4"

# A text file of the kit is one line here, a function from the contents to its text.
TEXTS: dict[str, Callable[[KitContents], str]] = {
    "captions.vtt": lambda contents: write_vtt(contents.captions.captions),
    "captions.srt": lambda contents: write_srt(contents.captions.captions),
    "chapters.vtt": lambda contents: write_chapters_vtt(contents.chapters),
    "chapters.txt": lambda contents: write_chapters_txt(contents.chapters),
    "descriptions.vtt": lambda contents: write_descriptions_vtt(contents.descriptions),
    "description.txt": description_text,
    "transcript.html": transcript_page,
    "index.html": index_page,
    "report.json": report_json,
}
BYTES: dict[str, Callable[[KitContents], bytes]] = {
    "poster.png": poster_png,
    "handout.pdf": lambda contents: handout_pdf(contents.lesson, contents.paper, contents.facts),
}


def write_parts(
    contents: KitContents, folder: Path, progress: Callable[[float, str], None] | None = None
) -> tuple[Path, ...]:
    """Write every part of the kit but the film into `folder`, which is there; gives what was written.

    `progress` is called with how much is done (0 to 1) and what is being done. The report takes its frames from
    `lesson.mp4` where that stands in the folder already. Raises UnusableInput where a file cannot be written.
    """
    tell = progress or (lambda done, what: None)
    steps = len(TEXTS) + len(BYTES) + 2
    written: list[Path] = []

    def write(name: str, make: Callable[[], bytes]) -> None:
        tell(len(written) / steps, name)
        path = folder / name
        data = make()
        try:
            path.write_bytes(data)
        except OSError as error:
            raise say_os_error(error, path) from error
        written.append(path)

    for name, as_bytes in BYTES.items():
        write(name, partial(as_bytes, contents))
    for name, as_text in TEXTS.items():
        write(name, partial(_encoded, as_text, contents))
    write("report.html", lambda: report_page(contents, folder / FILM).encode("utf-8"))
    tell(len(written) / steps, "pictures")
    try:
        write_pictures(contents, folder / "pictures")
    except OSError as error:
        raise say_os_error(error, folder / "pictures") from error
    tell(1.0, "kit")
    return tuple(written)


def _encoded(as_text: Callable[[KitContents], str], contents: KitContents) -> bytes:
    return as_text(contents).encode("utf-8")
