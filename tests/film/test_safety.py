"""Nothing is lost: killed at any moment, without room on the disk, two builds at once, a store that is full."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from studio.errors import UnusableInput
from studio.film.settings import FilmSettings
from studio.store import Store
from tests.film.material import COUNTING, film_of, record
from tests.film.test_whole import ROOT, SIZE, TEXT, make

KILLS = 12

KILLED = """
import os, random, shutil, signal, sys, time
from pathlib import Path
import av, numpy, scipy.signal, pydub, PIL.Image
from tests.film.test_whole import make

folder, take, length, kills = Path(sys.argv[1]), Path(sys.argv[2]), float(sys.argv[3]), int(sys.argv[4])
old, film = b"the last good film", folder / "lesson.mp4"
moments = random.Random(20)
for number in range(kills):
    if number % 4 == 0:  # from the beginning; else what the last build left is there
        shutil.rmtree(folder / "store", ignore_errors=True)
    film.write_bytes(old)
    child = os.fork()
    if not child:
        make(folder, take)
        os._exit(0)
    time.sleep(moments.uniform(0, length))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    print(os.WIFSIGNALED(status), film.read_bytes() == old, len(film.read_bytes()))
"""
"""A process with everything loaded makes the film in a child again and again, and kills it (SIGKILL) at some moment."""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork, which this system has not")
def test_a_build_killed_at_many_moments_and_finished_is_the_same(tmp_path: Path) -> None:
    take = record(tmp_path / "take.mp4", 20, size=(320, 180))
    alone, killed = tmp_path / "alone", tmp_path / "killed"
    alone.mkdir()
    killed.mkdir()
    import time

    start = time.monotonic()
    wanted = make(alone, take).read_bytes()
    length = 1.1 * (time.monotonic() - start)
    command = [sys.executable, "-c", KILLED, str(killed), str(take), str(length), str(KILLS)]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=True)
    rows = [line.split() for line in done.stdout.splitlines()]
    assert len(rows) == KILLS
    for died, as_it_was, size in rows:
        assert as_it_was == "True" or int(size) == len(wanted), "half a film stood under its name"
        assert died == "True" or as_it_was == "False"
    # A build that goes on where the last one stopped soon ends before it is killed; some must have died half-way.
    assert sum(died == "True" and as_it_was == "True" for died, as_it_was, _ in rows) >= 2
    assert make(killed, take).read_bytes() == wanted


@pytest.fixture
def tiny_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 1 MB."""
    folder = tmp_path / "disk"
    folder.mkdir()
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        pytest.skip("only the superuser may mount a small disk")
    command = ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(folder)]
    if subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("this system does not let a small disk be mounted")
    try:
        yield folder
    finally:
        subprocess.run(["umount", str(folder)], check=False)


@pytest.mark.parametrize("full", ["film", "store"])
def test_a_full_disk_is_told_in_one_sentence(tmp_path: Path, tiny_disk: Path, full: str) -> None:
    film = tiny_disk / "lesson.mp4" if full == "film" else tmp_path / "lesson.mp4"
    film.write_bytes(b"the last good film")
    (tiny_disk / "filling").write_bytes(bytes(960_000))
    store = Store((tmp_path if full == "film" else tiny_disk) / "store")
    take = record(tmp_path / "take.mp4", 20, size=(320, 180))
    with pytest.raises(UnusableInput) as told:
        film_of(film.parent, TEXT, [take], SIZE, store)
    assert "the disk is full; free some space" in str(told.value)
    assert "\n" not in str(told.value)
    assert film.read_bytes() == b"the last good film"
    assert not [path for path in tiny_disk.rglob("*") if path.is_file() and path.name.startswith(".")]
    (tiny_disk / "filling").unlink()
    if full == "film":
        assert film_of(film.parent, TEXT, [take], SIZE, store).frames > 100


def test_two_builds_at_once_do_not_harm_each_other(tmp_path: Path) -> None:
    """The same lesson, the same store, the same film, in two processes; and each makes room in the store as it ends."""
    take = record(tmp_path / "take.mp4", 20, size=(320, 180))
    (tmp_path / "alone").mkdir()
    wanted = make(tmp_path / "alone", take).read_bytes()
    code = (
        "import sys; from pathlib import Path; from studio.store import Store; from tests.film.test_whole import *\n"
        "folder = Path(sys.argv[1])\n"
        "for _ in range(2): film_of(folder, TEXT, [Path(sys.argv[2])], SIZE, Store(folder / 'store', limit=1000))\n"
    )
    command = [sys.executable, "-c", code, str(tmp_path), str(take)]
    builds = [subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE, text=True) for _ in range(2)]
    for build in builds:
        _, errors = build.communicate(timeout=300)
        assert build.returncode == 0, errors
    assert (tmp_path / "lesson.mp4").read_bytes() == wanted


def test_a_part_that_goes_while_the_film_is_made_is_made_again(tmp_path: Path) -> None:
    """Another build takes the spans away between their making and their joining."""
    store = Store(tmp_path / "store")
    gone: list[Path] = []

    def take_away(done: float, what: str) -> None:
        if done >= 0.92 and not gone:
            gone.extend(store.folder.glob("??/*.span"))
            for path in gone:
                path.unlink()

    from studio.film.api import make_film
    from tests.film.material import SMALL, lesson_of, paced

    lesson = lesson_of(COUNTING)
    out = tmp_path / "lesson.mp4"
    film = make_film(lesson, paced(lesson), out, settings=SMALL, store=store, progress=take_away)
    assert gone and film.encoded >= 2 * len(gone)
    assert film_of(tmp_path, name="again.mp4", store=store).path.read_bytes() == out.read_bytes()


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a take, the film of it and the store it left."""
    folder = tmp_path_factory.mktemp("made")
    make(folder, record(folder / "take.mp4", 20, size=(320, 180)))
    return folder


@pytest.mark.parametrize("damage", ["scribbled", "emptied", "halved", "folders", "swapped"])
def test_a_damaged_store_gives_the_same_film(tmp_path: Path, made: Path, damage: str) -> None:
    shutil.copytree(made / "store", tmp_path / "store")
    entries = sorted((tmp_path / "store").glob("??/*"))
    contents = [entry.read_bytes() for entry in entries]
    assert {entry.name.partition(".")[2] for entry in entries} >= {"span", "sound.m4a", "seen.json", "key"}
    for entry, content, other in zip(entries, contents, contents[1:] + contents[:1], strict=True):
        if damage == "scribbled":
            middle = len(content) // 2
            entry.write_bytes(content[:middle] + bytes(byte ^ 0x55 for byte in content[middle:]))
        elif damage == "folders":
            entry.unlink()
            entry.mkdir()
        else:
            entry.write_bytes({"emptied": b"", "halved": content[: len(content) // 2], "swapped": other}[damage])
    film = make(tmp_path, made / "take.mp4")
    assert film.read_bytes() == (made / "lesson.mp4").read_bytes()


def test_the_store_keeps_to_its_limit_and_drops_what_was_used_longest_ago(tmp_path: Path) -> None:
    store = Store(tmp_path / "store", limit=150_000)
    for number in range(12):
        os.utime(store.put_bytes(f"{number:064x}", ".span", bytes(20_000)), (1000 + number, 1000 + number))
    assert store.get(f"{0:064x}", ".span") is not None  # used now
    store.trim()
    kept = {path.name[:64] for path in store.folder.glob("??/*")}
    assert kept == {f"{number:064x}" for number in (0, 6, 7, 8, 9, 10, 11)}
    film_of(tmp_path, store=store, settings=FilmSettings(width=640, height=360))
    assert sum(path.stat().st_size for path in store.folder.glob("??/*")) <= 150_000


def test_threads_that_make_the_same_film_share_their_spans(tmp_path: Path) -> None:
    store = Store(tmp_path / "store")
    errors: list[BaseException] = []

    def build(name: str) -> None:
        try:
            film_of(tmp_path, store=store, name=name)
        except BaseException as error:
            errors.append(error)

    threads = [threading.Thread(target=build, args=(f"{number}.mp4",)) for number in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not errors
    assert len({(tmp_path / f"{number}.mp4").read_bytes() for number in range(3)}) == 1
