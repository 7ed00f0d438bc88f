"""Files at the edge: finding what is shipped, and writing so that a half-written file never stands under its name."""

from __future__ import annotations

import contextlib
import ctypes
import errno
import glob
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


def media_name(path: Path) -> str:
    """The name by which FFmpeg opens a file. A relative one with a colon ("9:30.mp4") it takes for an address."""
    return os.path.abspath(path)


def say_os_error(error: OSError, path: Path, elsewhere: str = "choose another {}") -> UnusableInput:
    """The plain sentence for a file or folder that could not be written or read. `elsewhere` says how another place (a
    folder, for {}) is chosen."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        message = "the disk is full; free some space and run the same command again. What stood there is as it was."
    elif error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        other = elsewhere.format("folder")
        message = f"this place may not be written to; {other}, or copy this one to a place of your own."
    elif error.errno in (errno.ENOTDIR, errno.EEXIST):
        message = f"a file stands where a folder is needed; {elsewhere.format('place')}."
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


MANIFEST = ".kit"
"""The file in a kit folder that lists what the studio wrote there; everything else in the folder is the teacher's."""


@contextmanager
def whole_folder(path: Path) -> Iterator[Path]:
    """A new folder to fill; it takes the place of the folder `path` only when the block ends well.

    What stood at `path` stays there until then, whatever happens. A folder that the studio did not write is refused,
    and files that the teacher put into a kit are carried over. Raises UnusableInput.
    """
    temporary: Path | None = None
    try:
        path = Path(os.path.realpath(path))  # Path.resolve raises RuntimeError where links go round in a ring
        path.parent.mkdir(parents=True, exist_ok=True)
        _clear_up(path)
        if path.exists() and not path.is_dir():
            raise UnusableInput("a file stands where the folder should go; choose another place with --out.", str(path))
        if path.is_dir() and any(path.iterdir()) and not (path / MANIFEST).is_file():
            raise UnusableInput(
                "this folder holds other things and was not written by the studio; choose a new one with --out.",
                str(path),
            )
        temporary = Path(tempfile.mkdtemp(prefix=f".{path.name[:40]}-{os.getpid()}-", dir=path.parent))
        os.chmod(temporary, 0o777 & ~_umask())
        yield temporary
        written = sorted(file.relative_to(temporary).as_posix() for file in temporary.rglob("*") if file.is_file())
        (temporary / MANIFEST).write_text("\n".join([MANIFEST, *written]) + "\n", encoding="utf-8")
        if path.is_dir():
            _bring_over(path, temporary)
            _exchange(temporary, path)
        else:
            os.rename(temporary, path)
    except OSError as error:
        raise say_os_error(error, path, "choose another {} with --out") from error
    except UnusableInput as unusable:
        if temporary is None or not unusable.source.startswith(str(temporary)):
            raise
        # She knows the folder by its own name.
        raise UnusableInput(unusable.problems, str(path) + unusable.source[len(str(temporary)) :]) from unusable
    finally:
        if temporary is not None:
            shutil.rmtree(temporary, ignore_errors=True)


def _exchange(new: Path, final: Path) -> None:
    """Let two folders change names, at one stroke where the system can (Linux: renameat2)."""
    with contextlib.suppress(OSError, AttributeError):
        libc = ctypes.CDLL(None, use_errno=True)
        if libc.renameat2(-100, os.fsencode(new), -100, os.fsencode(final), 2) == 0:
            return
    aside = new.with_name(new.name + "-old")
    os.rename(final, aside)
    try:
        os.rename(new, final)
    except OSError:
        os.rename(aside, final)
        raise
    os.rename(aside, new)


def _bring_over(old: Path, new: Path) -> None:
    """Put what the teacher put into the old kit into the new one as well, before it takes the old one's place: whenever
    this is broken off, one of the two has everything. Raises UnusableInput."""
    # A manifest that is damaged names nothing of ours: then everything is hers.
    ours: set[str] = set()
    with contextlib.suppress(FileNotFoundError):  # an empty folder has none
        ours |= set((old / MANIFEST).read_bytes().decode("utf-8", "replace").splitlines())
    for here, folders, files in os.walk(old, onerror=_raise):
        links = [name for name in folders if os.path.islink(os.path.join(here, name))]
        names = [*files, *links] if files or folders else [""]  # of a folder that is empty, itself
        for name in names:
            source = Path(here, name)
            inside = source.relative_to(old)
            if inside.as_posix() in ours or os.path.lexists(new / inside):
                continue
            try:
                _put(source, new / inside)
            except OSError as error:
                raise UnusableInput(
                    f"'{inside}' is not the studio's and cannot be brought into the new kit "
                    f"({error.strerror or error}); the old kit stays as it is. Move that away and build again.",
                    str(old),
                ) from error


def _put(source: Path, target: Path) -> None:
    """Have a file, a link or an empty folder at another place of the same disk too."""
    target.parent.mkdir(parents=True, exist_ok=True)
    if source.is_symlink():
        target.symlink_to(os.readlink(source))
    elif source.is_dir():
        target.mkdir()
    else:
        try:
            os.link(source, target)  # takes no time and no room
        except OSError:
            shutil.copy2(source, target)


def _raise(error: OSError) -> None:
    raise error


def _clear_up(path: Path) -> None:
    """Remove what killed builds left beside `path`; bring the kit back if one was killed while it changed names."""
    for folder in path.parent.glob(f".{glob.escape(path.name[:40])}-*-*"):
        owner = folder.name.removeprefix(f".{path.name[:40]}-").split("-")[0]
        if not owner.isdigit() or _lives(int(owner)):
            continue
        if folder.name.endswith("-old") and not path.exists():
            os.rename(folder, path)
        else:
            shutil.rmtree(folder, ignore_errors=True)


def _lives(process: int) -> bool:
    if os.name != "posix":  # there is no harmless way to ask
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
