"""Every kind of picture, one file each. A new kind is one new file here: it is found by itself."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from studio.pictures.base import CannotShow, Picture
from studio.script.model import Details


def _found() -> dict[str, type[Picture]]:
    classes: dict[str, type[Picture]] = {}
    for module in iter_modules(__path__):
        name = f"{__name__}.{module.name}"
        for value in vars(import_module(name)).values():
            if isinstance(value, type) and issubclass(value, Picture) and value.__module__ == name:
                classes[value.kind] = value
    return classes


CLASSES: Mapping[str, type[Picture]] = MappingProxyType(_found())
"""The class of each kind."""

KINDS: Mapping[str, str] = MappingProxyType({kind: picture.about for kind, picture in CLASSES.items()})
"""What each kind of picture is, in one line."""


def make(kind: str, details: Details) -> Picture:
    """The picture of that kind with those details. Raises CannotShow with what the picture can show."""
    if kind not in CLASSES:
        raise CannotShow(f"There is no picture '{kind}' yet; there are {', '.join(sorted(CLASSES))}.")
    return CLASSES[kind].of(details)
