"""What the command line and other programs call: routines and series as plain functions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from studio.errors import UnusableInput
from studio.files import write_text
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text, series_of
from studio.series.routine import Routine, Value, parse_value


def find_routine(routine: str | Path) -> tuple[Routine, Library]:
    """A routine by its file or by its name on the shelf (or in the parts of the series in this folder)."""
    path = Path(routine)
    if path.suffix == ".md" or path.is_file():
        library = Library.of(series_of(path))
        return library.load(path), library
    library = Library.of(series_of(Path.cwd() / "x"))
    return library.get(str(routine)), library


def fill_routine(routine: str | Path, values: Sequence[str] | Mapping[str, Value], out: Path | None = None) -> str:
    """A lesson's script from a routine. `values` are "NAME=VALUE" or a mapping; with `out` the lesson is written there,
    unless another file stands there. Raises UnusableInput."""
    found, library = find_routine(routine)
    text = fill_routine_text(found, values if isinstance(values, Mapping) else _pairs(values), library)
    read(text, found.source)
    if out is not None:
        write_new(out, text)
    return text


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet; the same text again is fine. Raises UnusableInput rather than overwrite."""
    try:
        same = path.read_bytes() == text.encode()
    except FileNotFoundError:
        write_text(path, text)
        return
    except OSError:
        same = False
    if not same:
        raise UnusableInput(
            "this is there already and nothing you wrote is overwritten; choose another name.", str(path)
        )


def _pairs(values: Sequence[str]) -> dict[str, Value]:
    pairs: dict[str, Value] = {}
    for pair in values:
        name, equals, value = pair.partition("=")
        if not equals or not name.strip():
            raise UnusableInput(f"'{pair[:60]}' cannot be read; write it like --set n=14.")
        pairs[name.strip().lower()] = parse_value(value)
    return pairs
