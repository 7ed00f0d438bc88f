"""Loading a script from a file, whatever is in the file."""

from __future__ import annotations

from pathlib import Path

from studio.errors import Problem, UnusableInput
from studio.script.model import Lesson
from studio.script.reader import LARGEST, read

_LARGEST_FILE = 4 * LARGEST  # bytes: no character takes more than four in UTF-8


def load(path: Path | str) -> Lesson:
    """Read the script in the file `path`. Raises UnusableInput with plain sentences."""
    return read(load_text(path), str(path))


def load_text(path: Path | str) -> str:
    """The text of a UTF-8 file as it stands there (line ends and byte order mark kept). Raises UnusableInput.

    Other programs save text in other ways; where that can be told, the sentence says how to save it instead.
    """
    path, source = Path(path), str(path)
    try:
        if path.is_dir():
            raise UnusableInput("this is a folder; give the script inside it.", source)
        if path.exists() and not path.is_file():
            raise UnusableInput("this is not a file that can be read.", source)
        with path.open("rb") as stream:
            data = stream.read(_LARGEST_FILE + 1)
    except FileNotFoundError:
        raise UnusableInput(_missing(path), source) from None
    except PermissionError:
        raise UnusableInput("this file may not be read; ask its owner, or copy it.", source) from None
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "bad name"
        raise UnusableInput(f"this file cannot be read ({reason}).", source) from None
    if len(data) > _LARGEST_FILE:
        raise UnusableInput(f"the file has more than {_LARGEST_FILE:,} bytes; this is no lesson script.", source)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise UnusableInput("the file is saved as UTF-16; save it again as UTF-8 text.", source)
    if path.suffix.lower() == ".csv" and data[:4] in (b"PK\x03\x04", b"\xd0\xcf\x11\xe0"):
        raise UnusableInput("this is a spreadsheet program's own file; save the table as CSV under this name.", source)
    if b"\0" in data and path.suffix.lower() == ".csv":
        raise UnusableInput("the file is not text; save the table as CSV under this name.", source)
    if b"\0" in data:
        raise UnusableInput("the file is not text; give the script (NAME.lesson.md) itself.", source)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        message = (
            f"The text is not UTF-8 here (byte {error.start + 1} of the file is 0x{data[error.start]:02X}). "
            "Save the file again with the encoding UTF-8."
        )
        raise UnusableInput(Problem(message, line, column), source) from None


def _missing(path: Path) -> str:
    from studio.script.nearest import nearest

    try:
        names = [entry.name for entry in path.parent.iterdir() if entry.is_file()][:1000] if path.name else []
    except OSError:
        names = []
    near = nearest(path.name, names)
    return "there is no such file." + (f" Did you mean '{near}'?" if near else "")
