"""The pages of a series: their templates, and links that work from the series folder with no server."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from studio.series.lessons import LESSONS

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("studio.series"), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True,
    )  # fmt: skip


def render(name: str, **values: Any) -> str:
    """A page from its template; whatever a person wrote is escaped."""
    return _environment().get_template(name).render(**values)


def script_link(file: str) -> str:
    """The address of a lesson's script."""
    return f"{LESSONS}/{quote(file)}"
