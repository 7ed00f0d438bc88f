"""From a lesson script and a recording to a film whose pictures agree with the words.

Every verb of the command line is a function here (named so that none hides a room of the package); each is imported
when it is first used.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

# Nothing is sent anywhere by this program, so the libraries that it brings may not do so either, nor write down an
# identifier for it: onnxruntime (telemetry, on by default) and huggingface_hub (telemetry, looking for updates). They
# read this when they are first loaded; every way into the package, also that of `studio.apart`, comes by here before.
os.environ.update(ORT_DISABLE_TELEMETRY="1", HF_HUB_DISABLE_TELEMETRY="1", HF_HUB_DISABLE_UPDATE_CHECK="1")

if TYPE_CHECKING:
    from studio.agree import check as check_lesson
    from studio.audit.audit import audit as audit_kit
    from studio.build import BuildOptions as BuildOptions
    from studio.build import build_kit as build_kit
    from studio.check import check_file as check_file
    from studio.demo import demo as run_demo
    from studio.handout import make_handout as make_handout
    from studio.hear import listen as listen_to
    from studio.pictures.draw import draw as draw_picture
    from studio.script.reader import read as read_lesson
    from studio.series.api import fill_routine as fill_routine
    from studio.series.library import load_lesson as load_lesson
    from studio.suggest import suggest as suggest_directions

_PLACES = {
    "BuildOptions": ("studio.build", "BuildOptions"),
    "audit_kit": ("studio.audit.audit", "audit"),
    "build_kit": ("studio.build", "build_kit"),
    "check_file": ("studio.check", "check_file"),
    "check_lesson": ("studio.agree", "check"),
    "draw_picture": ("studio.pictures.draw", "draw"),
    "fill_routine": ("studio.series.api", "fill_routine"),
    "listen_to": ("studio.hear", "listen"),
    "load_lesson": ("studio.series.library", "load_lesson"),
    "make_handout": ("studio.handout", "make_handout"),
    "read_lesson": ("studio.script.reader", "read"),
    "run_demo": ("studio.demo", "demo"),
    "suggest_directions": ("studio.suggest", "suggest"),
}

__all__ = [
    "BuildOptions",
    "audit_kit",
    "build_kit",
    "check_file",
    "check_lesson",
    "draw_picture",
    "fill_routine",
    "listen_to",
    "load_lesson",
    "make_handout",
    "read_lesson",
    "run_demo",
    "suggest_directions",
]


def __getattr__(name: str) -> Any:
    if name not in _PLACES:
        raise AttributeError(f"module 'studio' has no attribute {name!r}")
    from importlib import import_module

    module, function = _PLACES[name]
    return getattr(import_module(module), function)
