"""The store: results kept by the content of everything that went into them, with a limit on its size.

Safe for several builds at once: an entry appears whole under its name (rename), readers touch what they use, and the
oldest entries go first when the store is over its limit. Losing the store costs time, never work: an entry's name ends
in the checksum of its content, and what is not what was written (a disk that fails, a computer that was switched off) is
no entry and is made anew. So nothing needs to be forced to the disk before it takes its name.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
import shutil
import tempfile
import time
import zlib
from pathlib import Path
from typing import Any

DEFAULT_LIMIT = 4 * 1024**3  # bytes
_OURS = re.compile(r"[0-9a-f]{64}[.-]|\.part-")


def default_folder() -> Path:
    """`STUDIO_CACHE`, or the user's cache folder (XDG Base Directory Specification; LOCALAPPDATA on Windows)."""
    if named := os.environ.get("STUDIO_CACHE"):
        return Path(named)
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    return (Path(base) if base else Path.home() / ".cache") / "say-and-show-studio"


def content_key(*parts: Any) -> str:
    """A name (hex SHA-256) for the content of `parts`: bytes, or anything that JSON can hold."""
    digest = hashlib.sha256()
    for part in parts:
        data = part if isinstance(part, bytes) else json.dumps(part, sort_keys=True, ensure_ascii=False).encode()
        digest.update(len(data).to_bytes(8, "big"))
        digest.update(data)
    return digest.hexdigest()


def file_key(path: Path) -> str:
    """The SHA-256 of a file's content."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


class Store:
    """Entries are files named by kind (a suffix such as ".mp4") and key."""

    def __init__(self, folder: Path | None = None, limit: int = DEFAULT_LIMIT) -> None:
        self.folder = (folder or default_folder()).absolute()
        self.limit = limit

    def get(self, key: str, suffix: str) -> Path | None:
        """The entry's file with the content that was put there, or None. A file that is used is the last to go."""
        with contextlib.suppress(OSError):
            for path in sorted((self.folder / key[:2]).glob(f"{key}-*{suffix}")):
                with contextlib.suppress(OSError):
                    if path.name == _name(key, _checksum(path), suffix):
                        os.utime(path)
                        return path
        return None

    def put(self, key: str, suffix: str, source: Path) -> Path:
        """Move the file `source` into the store. Raises OSError (disk full) with nothing half-written."""
        path = self._place(_name(key, _checksum(source), suffix))
        try:
            os.replace(source, path)
        except OSError:
            handle, name = tempfile.mkstemp(dir=path.parent, prefix=".part-")
            os.close(handle)
            try:
                shutil.copyfile(source, name)
                os.replace(name, path)
            except OSError:
                Path(name).unlink(missing_ok=True)
                raise
            source.unlink(missing_ok=True)
        return path

    def put_bytes(self, key: str, suffix: str, data: bytes) -> Path:
        """Keep `data` as an entry. Raises OSError (disk full) with nothing half-written."""
        path = self._place(_name(key, zlib.crc32(data), suffix))
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".part-")
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(data)
            os.replace(name, path)
        except OSError:
            Path(name).unlink(missing_ok=True)
            raise
        return path

    def _place(self, name: str) -> Path:
        """The path for an entry, with room for it."""
        path = self.folder / name[:2] / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.is_dir():
            shutil.rmtree(path)  # nobody else's: no folder has such a name but by an accident to the store
        return path

    def work_folder(self) -> Path:
        """A new folder inside the store for files in the making; the caller removes it (`trim` does after a day)."""
        parent = self.folder / "work"
        parent.mkdir(parents=True, exist_ok=True)
        return Path(tempfile.mkdtemp(dir=parent))

    def trim(self) -> None:
        """Remove the entries used longest ago until the store is within its limit, and work left by killed builds."""
        entries = []
        for path in self.folder.glob("??/*"):
            with contextlib.suppress(OSError):
                status = path.stat()
                if _OURS.match(path.name) and not path.is_dir():
                    entries.append((status.st_mtime, status.st_size, path))
        total = sum(size for _, size, _ in entries)
        for _, size, path in sorted(entries):
            if total <= self.limit:
                break
            with contextlib.suppress(OSError):
                path.unlink()
                total -= size
        yesterday = time.time() - 86400
        for folder in (self.folder / "work").glob("*"):
            with contextlib.suppress(OSError):
                if folder.stat().st_mtime < yesterday:
                    shutil.rmtree(folder, ignore_errors=True)


def _name(key: str, checksum: int, suffix: str) -> str:
    return f"{key}-{checksum:08x}{suffix}"


def _checksum(path: Path) -> int:
    """The CRC-32 of a file: against accidents, and fast enough that a film's parts are read twice."""
    checksum = 0
    with path.open("rb") as stream:
        while block := stream.read(1 << 20):
            checksum = zlib.crc32(block, checksum)
    return checksum
