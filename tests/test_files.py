"""Files appear whole or not at all, and nothing of the teacher's is lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.errors import UnusableInput
from studio.files import MANIFEST, whole_file, whole_folder, write_text
from studio.store import Store, content_key


def build(path: Path, content: str) -> None:
    with whole_folder(path) as folder:
        (folder / "lesson.mp4").write_text(content)
        (folder / "pictures").mkdir()
        (folder / "pictures" / f"{content}.svg").write_text(content)


def test_a_file_that_fails_half_way_leaves_the_good_one(tmp_path: Path) -> None:
    good = tmp_path / "captions.vtt"
    write_text(good, "good")
    with pytest.raises(RuntimeError), whole_file(good) as temporary:
        temporary.write_text("half")
        raise RuntimeError
    assert good.read_text() == "good"
    assert os.listdir(tmp_path) == ["captions.vtt"]


def test_a_folder_that_fails_half_way_leaves_the_good_one(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    build(kit, "first")
    with pytest.raises(RuntimeError), whole_folder(kit) as folder:
        (folder / "lesson.mp4").write_text("half")
        raise RuntimeError
    assert (kit / "lesson.mp4").read_text() == "first"
    assert os.listdir(tmp_path) == ["kit"]


def test_a_new_kit_takes_the_place_of_the_old_one_and_keeps_what_the_teacher_put_there(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    build(kit, "first")
    (kit / "letter home.txt").write_text("hers")
    (kit / "pictures" / "drawing.png").write_text("hers")
    build(kit, "second")
    assert (kit / "lesson.mp4").read_text() == "second"
    assert (kit / "letter home.txt").read_text() == (kit / "pictures" / "drawing.png").read_text() == "hers"
    assert not (kit / "pictures" / "first.svg").exists()
    build(kit, "third")
    assert (kit / "letter home.txt").exists()
    assert os.listdir(tmp_path) == ["kit"]


@pytest.mark.parametrize("manifest", [b"\xff\xfe\x00caf\xe9\n", b"", b".kit\nlesson.mp4", bytes(range(256))])
def test_a_damaged_manifest_loses_nothing_of_hers(tmp_path: Path, manifest: bytes) -> None:
    kit = tmp_path / "kit"
    build(kit, "first")
    (kit / "letter home.txt").write_text("hers")
    (kit / "pictures" / "drawing.png").write_text("hers")
    (kit / MANIFEST).write_bytes(manifest)
    build(kit, "second")
    assert (kit / "lesson.mp4").read_text() == "second"
    assert (kit / "letter home.txt").read_text() == (kit / "pictures" / "drawing.png").read_text() == "hers"
    assert os.listdir(tmp_path) == ["kit"]


@pytest.mark.skipif(os.name != "posix", reason="links need a right there")
def test_an_empty_folder_takes_what_is_made(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    kit.mkdir()
    with whole_folder(kit) as new:
        (new / "lesson.txt").write_text("frogs")
    assert (kit / "lesson.txt").read_text() == "frogs"


def test_links_and_empty_folders_of_hers_stay(tmp_path: Path) -> None:
    kit, pond = tmp_path / "kit", tmp_path / "pond"
    build(kit, "first")
    pond.mkdir()
    (pond / "frog.txt").write_text("hers")
    (kit / "to the pond").symlink_to(Path("..") / "pond")
    (kit / "to nowhere").symlink_to("nowhere")
    (kit / "for Monday" / "prints").mkdir(parents=True)
    for content in ("second", "third"):
        build(kit, content)
        assert (kit / "to the pond" / "frog.txt").read_text() == "hers"
        assert (kit / "to nowhere").is_symlink()
        assert (kit / "for Monday" / "prints").is_dir()
    assert (pond / "frog.txt").exists()


def test_what_cannot_be_brought_over_leaves_the_old_kit(tmp_path: Path) -> None:
    """The new kit has a file where she has a folder."""
    kit = tmp_path / "kit"
    build(kit, "first")
    (kit / "poster").mkdir()
    (kit / "poster" / "frog.txt").write_text("hers")
    with pytest.raises(UnusableInput, match=r"frog\.txt"), whole_folder(kit) as folder:
        (folder / "poster").write_text("second")
    assert (kit / "poster" / "frog.txt").read_text() == "hers"
    assert (kit / "lesson.mp4").read_text() == "first"
    assert os.listdir(tmp_path) == ["kit"]


def test_a_build_killed_as_the_folders_change_names_loses_nothing_of_hers(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    build(kit, "first")
    (kit / "letter home.txt").write_text("hers")
    code = (
        "import os, sys; from pathlib import Path; from studio import files\n"
        "change = files._exchange\n"
        "files._exchange = lambda new, final: (change(new, final), os.kill(os.getpid(), 9))\n"
        "with files.whole_folder(Path(sys.argv[1])) as folder: (folder / 'lesson.mp4').write_text('second')\n"
    )
    assert subprocess.run([sys.executable, "-c", code, str(kit)], check=False).returncode != 0
    build(kit, "third")
    assert (kit / "letter home.txt").read_text() == "hers"
    assert os.listdir(tmp_path) == ["kit"]


def test_a_folder_with_other_things_is_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "monday.lesson.md").write_text("hers")
    with pytest.raises(UnusableInput, match="holds other things"):
        build(tmp_path, "kit")
    assert os.listdir(tmp_path) == ["monday.lesson.md"]


def test_a_build_that_is_killed_leaves_the_good_kit_and_its_rest_is_cleared_away(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    build(kit, "first")
    code = (
        "import sys, time; from pathlib import Path; from studio.files import whole_folder\n"
        "with whole_folder(Path(sys.argv[1])) as folder:\n"
        "    (folder / 'lesson.mp4').write_text('half'); print('ready', flush=True); time.sleep(60)\n"
    )
    with subprocess.Popen([sys.executable, "-c", code, str(kit)], stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(signal.SIGKILL)
    time.sleep(0.05)
    assert (kit / "lesson.mp4").read_text() == "first"
    assert len(os.listdir(tmp_path)) == 2
    build(kit, "second")
    assert os.listdir(tmp_path) == ["kit"]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_folder_that_may_not_be_written_is_one_plain_sentence(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(UnusableInput, match="may not be written"):
        build(tmp_path / "kit", "x")


def test_a_file_in_the_way_is_one_plain_sentence(tmp_path: Path) -> None:
    (tmp_path / "kit").write_text("hers")
    for place in (tmp_path / "kit", tmp_path / "kit" / "inside"):
        with pytest.raises(UnusableInput, match="a file stands where"):
            build(place, "x")
    assert (tmp_path / "kit").read_text() == "hers"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_a_full_disk_is_one_plain_sentence(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="the disk is full"), whole_folder(tmp_path / "kit"):
        Path("/dev/full").write_bytes(b"x")
    assert os.listdir(tmp_path) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_a_file_that_finds_no_room_in_a_new_kit_is_known_by_the_name_of_the_kit(tmp_path: Path) -> None:
    with (
        pytest.raises(UnusableInput, match=r"kit/lesson\.mp4: the disk is full"),
        whole_folder(tmp_path / "kit") as new,
        whole_file(new / "lesson.mp4"),
    ):
        Path("/dev/full").write_bytes(b"x")


def test_a_kit_manifest_lists_what_was_written(tmp_path: Path) -> None:
    build(tmp_path / "kit", "first")
    assert (tmp_path / "kit" / MANIFEST).read_text().split() == [MANIFEST, "lesson.mp4", "pictures/first.svg"]


def test_the_store_forgets_what_was_used_longest_ago(tmp_path: Path) -> None:
    store = Store(tmp_path, limit=250)
    keys = [content_key(index) for index in range(3)]
    paths = [store.put_bytes(key, ".bin", b"x" * 100) for key in keys]
    for age, path in enumerate(paths):
        os.utime(path, (age, age))
    assert store.get(keys[0], ".bin") is not None  # used again, so it stays
    store.trim()
    assert [path.exists() for path in paths] == [True, False, True]


def test_the_store_leaves_alone_what_is_not_its_own(tmp_path: Path) -> None:
    """Somebody may have named a folder of her own as the place for it."""
    hers = [tmp_path / "K1" / "frogs.lesson.md", tmp_path / "ab" / "otters.lesson.md"]
    for path in hers:
        path.parent.mkdir()
        path.write_text("hers" * 100)
    store = Store(tmp_path, limit=10)
    store.put_bytes(content_key(1), ".bin", b"x" * 100)
    store.trim()
    assert store.get(content_key(1), ".bin") is None
    assert all(path.exists() for path in hers)


@given(content=st.binary(min_size=1, max_size=4000), data=st.data())
def test_an_entry_that_is_not_what_was_written_is_none_and_can_be_made_anew(
    tmp_path_factory: pytest.TempPathFactory, content: bytes, data: st.DataObject
) -> None:
    store, key = Store(tmp_path_factory.mktemp("store")), content_key("frogs")
    path = store.put_bytes(key, ".bin", content)
    assert store.get(key, ".bin") == path
    other = data.draw(st.one_of(st.binary(max_size=4000), st.just("folder"), st.integers(0, len(content) - 1)))
    if other == "folder":
        path.unlink()
        (path / "inside").mkdir(parents=True)
    elif isinstance(other, int):
        path.write_bytes(content[:other] + bytes([content[other] ^ 0x55]) + content[other + 1 :])
    elif isinstance(other, bytes) and other != content:
        path.write_bytes(other)
    else:
        return
    assert store.get(key, ".bin") is None
    (source := path.parents[1] / "made").write_bytes(content)
    assert store.put(key, ".bin", source).read_bytes() == content
    assert store.get(key, ".bin") is not None


def test_content_keys_tell_parts_apart() -> None:
    assert content_key("ab", "c") != content_key("a", "bc")
    assert content_key({"a": 1, "b": 2}) == content_key({"b": 2, "a": 1})
