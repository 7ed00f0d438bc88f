"""Files at the edge: finding what is shipped, and writing so that a half-written file never stands under its name."""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from studio.errors import UnusableInput

_HERE = Path(__file__).resolve().parent


def _shipped(inside: str, beside: str) -> Path:
    """A folder inside the installed package, or beside it in a checkout."""
    installed = _HERE / inside
    return installed if installed.is_dir() else _HERE.parent / beside


def shared_dir() -> Path:
    """The folder of what lessons share: `themes/`, `routines/`."""
    return _shipped("_shared", "shared")


def demo_dir() -> Path:
    """The folder of the demo lessons and their recordings."""
    return _shipped("_demo", "assets_demo")


def say_os_error(error: OSError, path: Path) -> UnusableInput:
    """The plain sentence for a file or folder that could not be written or read."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        message = "the disk is full; free some space and run the same command again. What stood there is as it was."
    elif error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        message = "this place may not be written to; choose another folder with --out."
    elif error.errno in (errno.ENOTDIR, errno.EEXIST):
        message = "a file stands where a folder is needed; choose another place with --out."
    elif error.errno == errno.EISDIR:
        message = "a folder stands where a file is needed; choose another name."
    elif error.errno == errno.ENAMETOOLONG:
        message = "the name is too long; choose a shorter one."
    else:
        message = f"it could not be written ({error.strerror or error})."
    return UnusableInput(message, str(path))


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """A path to write to; it takes the name `path` only when the block ends well. Raises UnusableInput."""
    temporary: Path | None = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.stem[:40]}-", suffix=path.suffix, dir=path.parent)
        os.close(handle)
        temporary = Path(name)
        os.chmod(temporary, 0o666 & ~_umask())
        yield temporary
        os.replace(temporary, path)
        temporary = None
    except OSError as error:
        raise say_os_error(error, path) from error
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def write_text(path: Path, text: str) -> None:
    """Write a text file whole or not at all (UTF-8, Unix line ends)."""
    with whole_file(path) as temporary:
        temporary.write_bytes(text.encode("utf-8"))


@contextmanager
def whole_folder(path: Path) -> Iterator[Path]:
    """A new folder to fill; it takes the place of the folder `path` only when the block ends well.

    What stood at `path` is set aside, and brought back if the swap fails. Raises UnusableInput.
    """
    temporary: Path | None = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and not path.is_dir():
            raise UnusableInput("a file stands where the folder should go; choose another place with --out.", str(path))
        temporary = Path(tempfile.mkdtemp(prefix=f".{path.name[:40]}-", dir=path.parent))
        os.chmod(temporary, 0o777 & ~_umask())
        yield temporary
        _swap(temporary, path)
    except OSError as error:
        raise say_os_error(error, path) from error
    finally:
        if temporary is not None:
            shutil.rmtree(temporary, ignore_errors=True)


def _swap(new: Path, final: Path) -> None:
    if not final.exists():
        os.rename(new, final)
        return
    aside = Path(tempfile.mkdtemp(prefix=f".{final.name[:40]}-old-", dir=final.parent))
    os.rename(final, aside / "kit")
    try:
        os.rename(new, final)
    except OSError:
        os.rename(aside / "kit", final)
        raise
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
