"""From a lesson script and a recording to a film whose pictures agree with the words.

Every verb of the command line is a function here; each is imported when it is first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from studio.agree import check
    from studio.audit import audit
    from studio.build import BuildOptions, build_kit
    from studio.check import check_file
    from studio.demo import demo
    from studio.handout import make_handout
    from studio.hear import listen
    from studio.pictures.draw import draw
    from studio.script.files import load
    from studio.script.reader import read
    from studio.suggest import suggest

_PLACES = {
    "BuildOptions": "studio.build",
    "audit": "studio.audit",
    "build_kit": "studio.build",
    "check": "studio.agree",
    "check_file": "studio.check",
    "demo": "studio.demo",
    "draw": "studio.pictures.draw",
    "listen": "studio.hear",
    "load": "studio.script.files",
    "make_handout": "studio.handout",
    "read": "studio.script.reader",
    "suggest": "studio.suggest",
}

__all__ = [
    "BuildOptions",
    "audit",
    "build_kit",
    "check",
    "check_file",
    "demo",
    "draw",
    "listen",
    "load",
    "make_handout",
    "read",
    "suggest",
]


def __getattr__(name: str) -> Any:
    if name not in _PLACES:
        raise AttributeError(f"module 'studio' has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(_PLACES[name]), name)
