"""The pages of the kit. They need no server, no network and no other file to be read; the film stands beside them."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from markupsafe import Markup

from studio.captions.chapters_vtt import write_chapters_vtt
from studio.captions.descriptions_vtt import write_descriptions_vtt
from studio.captions.text import short_clock, tidy
from studio.captions.vtt import write_vtt
from studio.kit.contents import KitContents
from studio.kit.font import font_face
from studio.kit.wording import heading_above

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("studio.kit"), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True,
    )  # fmt: skip


def render(name: str, contents: KitContents, **values: Any) -> str:
    """A page from its template; whatever a person wrote is escaped."""
    header = contents.lesson.header
    template = _environment().get_template(name)
    return template.render(
        title=tidy(header.title), above=heading_above(header), font_face=Markup(font_face()), **values
    )


def index_page(contents: KitContents) -> str:
    """The page to watch the film on.

    A browser does not let a page from a folder read a caption file beside it, so the tracks are in the page.
    """
    return render(
        "index.html",
        contents,
        shape=f"{contents.extras.get('width', 16)} / {contents.extras.get('height', 9)}",
        captions_url=_track(write_vtt(contents.captions.captions)),
        chapters_url=_track(write_chapters_vtt(contents.chapters)),
        descriptions_url=_track(write_descriptions_vtt(contents.descriptions)),
        chapters=[{"title": c.title, "start": c.start, "clock": short_clock(c.start)} for c in contents.chapters],
        needs=[tidy(need) for need in contents.lesson.header.needs],
    )


def _track(text: str) -> str:
    return "data:text/vtt;charset=utf-8," + quote(text, safe="-_.!~*'(),;:@+/?")
