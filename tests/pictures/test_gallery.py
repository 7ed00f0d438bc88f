"""The gallery shows every kind, small enough for a repository."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from studio.pictures.gallery import gallery
from studio.pictures.kinds import KINDS


def test_every_kind_is_shown_at_every_stage(tmp_path: Path) -> None:
    files = gallery(tmp_path)
    page = files[-1].read_text()
    assert all(f"<h2>{kind}</h2>" in page for kind in KINDS)
    for path in files[:-1]:
        ElementTree.parse(path)
        assert f'src="{path.name}"' in page
    assert len(set(files)) == len(files)
    assert sum(path.stat().st_size for path in files) < 3_000_000
