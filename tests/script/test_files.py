"""Script files as they come: what can be read is read, everything else gets one sentence."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from studio.errors import UnusableInput
from studio.script.files import load

SCRIPT = "---\ntitle: Pond\n---\n# Warm-up\nSeven, eight, nine.\n"


def refused(path: Path) -> str:
    with pytest.raises(UnusableInput) as caught:
        load(path)
    assert len(caught.value.problems) == 1
    return str(caught.value)


def test_a_script_is_loaded_with_its_name(tmp_path: Path) -> None:
    path = tmp_path / "pond.lesson.md"
    path.write_bytes(b"\xef\xbb\xbf" + SCRIPT.replace("\n", "\r\n").encode())
    lesson = load(path)
    assert lesson.source == str(path)
    assert [word.plain for word in lesson.words] == ["seven", "eight", "nine"]


def test_a_missing_file_is_named_with_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "pond-09.lesson.md").write_text(SCRIPT)
    sentence = refused(tmp_path / "pond-9.lesson.md")
    assert sentence == f"{tmp_path}/pond-9.lesson.md: there is no such file. Did you mean 'pond-09.lesson.md'?"
    assert refused(tmp_path / "no" / "where.md").endswith("there is no such file.")


def test_a_folder_an_empty_file_and_a_binary_file_are_refused(tmp_path: Path) -> None:
    assert "this is a folder" in refused(tmp_path)
    empty, binary, wide = tmp_path / "empty.md", tmp_path / "film.md", tmp_path / "wide.md"
    empty.write_bytes(b"")
    binary.write_bytes(bytes(range(256)) * 10)
    wide.write_text(SCRIPT, encoding="utf-16")
    assert "The script is empty" in refused(empty)
    assert "is not text" in refused(binary)
    assert "UTF-16" in refused(wide)


def test_text_that_is_not_utf8_says_where(tmp_path: Path) -> None:
    path = tmp_path / "old.md"
    path.write_bytes(SCRIPT.encode() + "é and caf\u00e9".encode("utf-8") + b" caf\xe9")
    sentence = refused(path)
    assert "line 6, column 15" in sentence
    assert "0xE9" in sentence


@pytest.mark.parametrize(
    "filling", [b"x", b"word ", b"[", b"[a ", b"*", b"* ", b"]", b"7+", b"-", b"[show dots: 3] ", b"#"]
)
def test_a_gigantic_line_is_refused_or_read_without_hanging(tmp_path: Path, filling: bytes) -> None:
    huge = tmp_path / "huge.md"
    huge.write_bytes(SCRIPT.encode() + filling * (10_000_000 // len(filling)))
    started = time.process_time()
    assert "more than 8,000,000 bytes" in refused(huge)
    # Just within the limit it is worked through; far from quadratic.
    huge.write_bytes(SCRIPT.encode() + filling * (200_000 // len(filling)))
    try:
        load(huge)
    except UnusableInput as sentence:
        assert len(sentence.problems) <= 101
    assert time.process_time() - started < 30  # a hang, not a figure
