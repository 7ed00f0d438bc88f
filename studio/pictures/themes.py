"""Themes: the colours and fonts that pictures are painted with, and the proof that a child can tell them apart.

A theme is a TOML file, shipped in `shared/themes` or anywhere else:

    name = "warm paper"
    like = "dark board"        # a shipped theme that gives whatever is not written here
    motion = "full"            # or "calm": nothing moves, pictures change at once
    monochrome = false         # true: the two fills differ in shape only (for print)

    [colours]
    paper = "#FBF4E6"          # ... one for each ink of `studio.pictures.shapes.Ink`

    [fonts]
    text = "Lexend"            # a family that a font package brings, or the path of a font file
    numeral = "ABeeZee"
    writing = "ABeeZee"
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from math import dist
from pathlib import Path
from typing import Any, get_args

from studio.errors import UnusableInput
from studio.files import shared_dir
from studio.pictures.font_fit import misfit
from studio.pictures.shapes import Face, Ink

Colour = tuple[int, int, int]

INKS: tuple[Ink, ...] = get_args(Ink)
FACES: tuple[Face, ...] = get_args(Face)

TEXT_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3, asked here of marks too, since they are read as numbers."""
SIGN_CONTRAST = 3.0
"""WCAG 2.2, 1.4.11, for what is neither a numeral nor a mark."""
LIGHTNESS_STEP = 1.3
"""The least ratio between the two fills, so that they differ in grey as well."""
TELLING = 60.0
"""The least distance of colours in RGB that are told apart when the marks of a film are counted."""

MEASURED = ("ABeeZee", "Lexend")
"""The fonts from which the widths in `metrics` are."""

_GROUNDS: tuple[Ink, ...] = ("paper", "card", "light")
_READ: tuple[Ink, ...] = ("ink", "quiet", "first", "second")


@dataclass(frozen=True)
class Theme:
    """Colours by ink, font files by face. `calm` turns movement off; `monochrome` is for print in black."""

    name: str
    colours: tuple[tuple[Ink, Colour], ...]
    fonts: tuple[tuple[Face, str], ...]
    calm: bool = False
    monochrome: bool = False

    def colour(self, ink: Ink) -> Colour:
        """The colour of an ink as red, green and blue, 0 to 255."""
        return dict(self.colours)[ink]

    def font(self, face: Face) -> str:
        """The path of the font file of a face."""
        return dict(self.fonts)[face]


def hexadecimal(colour: Colour) -> str:
    """The colour as `#RRGGBB`."""
    return "#{:02X}{:02X}{:02X}".format(*colour)


def luminance(colour: Colour) -> float:
    """Relative luminance from 0 to 1 (WCAG 2.2, its definition of the term)."""
    channels = [part / 255 for part in colour]
    red, green, blue = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio from 1 to 21 (WCAG 2.2, its definition of the term)."""
    dark, bright = sorted((luminance(one), luminance(other)))
    return (bright + 0.05) / (dark + 0.05)


def pairs() -> tuple[tuple[Ink, Ink, float], ...]:
    """Which ink must stand out from which ground, and by what ratio."""
    read = [(ink, ground, TEXT_CONTRAST) for ink in _READ for ground in _GROUNDS]
    rings: list[tuple[Ink, Ink, float]] = [("ring", ground, SIGN_CONTRAST) for ground in _GROUNDS]
    return (*read, *rings)


def faults(theme: Theme) -> list[str]:
    """What makes a theme unfit, each in a plain sentence with the pair and its ratio."""
    found = []
    for ink, ground, least in pairs():
        ratio = contrast(theme.colour(ink), theme.colour(ground))
        if ratio < least:
            found.append(
                f"'{ink}' {hexadecimal(theme.colour(ink))} on '{ground}' {hexadecimal(theme.colour(ground))} has a "
                f"contrast of {ratio:.2f}:1 and needs {least:g}:1; make one darker or the other lighter."
            )
    first, second = theme.colour("first"), theme.colour("second")
    if not theme.monochrome:
        ratio = contrast(first, second)
        if ratio < LIGHTNESS_STEP:
            found.append(
                f"'first' {hexadecimal(first)} and 'second' {hexadecimal(second)} are too alike in lightness "
                f"({ratio:.2f}:1, {LIGHTNESS_STEP}:1 is needed); make one of them darker or lighter."
            )
        for at, one in enumerate(("ink", "first", "second", "ring")):
            for other in ("ink", "first", "second", "ring")[at + 1 :]:
                if dist(theme.colour(one), theme.colour(other)) < TELLING:  # type: ignore[arg-type]
                    found.append(f"'{one}' and '{other}' are too alike to be told apart; change one of them.")
    return found


def theme_names() -> tuple[str, ...]:
    """The names of the themes that are shipped."""
    return tuple(sorted(path.stem.replace("-", " ") for path in (shared_dir() / "themes").glob("*.toml")))


@lru_cache(maxsize=32)
def load_theme(name_or_path: str | Path = "warm paper") -> Theme:
    """A shipped theme by its name, or any by the path of its file. Raises UnusableInput with what to mend."""
    text = str(name_or_path)
    shipped = shared_dir() / "themes" / f"{text.strip().lower().replace(' ', '-')}.toml"
    path = Path(text) if text.endswith(".toml") else shipped
    try:
        raw = path.read_bytes().decode("utf-8")
        values = tomllib.loads(raw)
    except OSError as error:
        names = theme_names()
        near = get_close_matches(text.lower(), names, 1)
        hint = f"Did you mean '{near[0]}'?" if near else f"There are {', '.join(names)}."
        raise UnusableInput(f"there is no theme '{text}'. {hint}") from error
    except UnicodeDecodeError as error:
        raise UnusableInput("this is not a text file in UTF-8, so it is no theme.", str(path)) from error
    except tomllib.TOMLDecodeError as error:
        raise UnusableInput(f"this is not valid TOML: {error}.", str(path)) from error
    theme = _read(values, path)
    found = faults(theme)
    if found:
        raise UnusableInput(f"the theme '{theme.name}' would be hard to read: {' '.join(found)}", str(path))
    return theme


def _read(values: dict[str, Any], path: Path) -> Theme:
    def fail(message: str) -> UnusableInput:
        return UnusableInput(message, str(path))

    known = ("name", "like", "motion", "monochrome", "colours", "fonts")
    for key in values:
        if key not in known:
            near = get_close_matches(key, known, 1)
            raise fail(f"a theme has no '{key}'" + (f"; did you mean '{near[0]}'?" if near else "."))
    colours, fonts = values.get("colours", {}), values.get("fonts", {})
    if not isinstance(colours, dict) or not isinstance(fonts, dict):
        raise fail("'colours' and 'fonts' are tables: [colours], then one line for each.")
    base = load_theme(str(values["like"])) if "like" in values else None
    if base is not None:
        colours = {ink: hexadecimal(colour) for ink, colour in base.colours} | colours
    for key in (*colours, *fonts):
        if key not in (*INKS, *FACES):
            raise fail(
                f"there is no ink or face '{key}'; the inks are {', '.join(INKS)}, the faces {', '.join(FACES)}."
            )
    missing = [ink for ink in INKS if ink not in colours]
    if missing:
        raise fail(f"the colour of '{missing[0]}' is missing from [colours].")
    parsed: list[tuple[Ink, Colour]] = []
    for ink in INKS:
        if not isinstance(colours[ink], str) or not re.fullmatch(r"#[0-9A-Fa-f]{6}", colours[ink]):
            raise fail(f"the colour of '{ink}' must look like \"#FBF4E6\".")
        red, green, blue = bytes.fromhex(colours[ink][1:])
        parsed.append((ink, (red, green, blue)))
    motion = values.get("motion", "calm" if base is not None and base.calm else "full")
    if motion not in ("full", "calm"):
        raise fail('\'motion\' is "full" or "calm".')
    return Theme(
        str(values.get("name", path.stem)),
        tuple(parsed),
        tuple((face, _face(face, fonts, base, path)) for face in FACES),
        motion == "calm",
        bool(values.get("monochrome", base is not None and base.monochrome)),
    )


def _face(face: Face, fonts: dict[str, Any], base: Theme | None, theme: Path) -> str:
    if base is not None and face not in fonts:
        return base.font(face)
    return _font(str(fonts.get(face, "ABeeZee")), theme)


def _font(family: str, theme: Path) -> str:
    path = _font_file(family, theme)
    if family not in MEASURED and (why := misfit(path)):
        raise UnusableInput(why, str(theme))
    return path


def _font_file(family: str, theme: Path) -> str:
    if family.lower().endswith((".ttf", ".otf")):
        file = (theme.parent / family).resolve()
        if not file.is_file():
            raise UnusableInput(f"the font file {family} is not there.", str(theme))
        return str(file)
    import fontpkg

    try:
        return str(fontpkg.path(family, nearest=True))
    except fontpkg.FontpkgError as error:
        raise UnusableInput(
            f"the font '{family}' is not installed; install its font package or use ABeeZee or Lexend.", str(theme)
        ) from error
