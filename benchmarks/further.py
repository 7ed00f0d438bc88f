"""Go on learning the network for numbers that are said, from lessons of new hands.

    python benchmarks/further.py FOLDER ...    # half an hour for five hundred lessons, with two processors

To learn from all lessons anew takes hours (`expect.py fit`). This takes the network that the studio has and goes on from there: each lesson
script in the folders is gone through three times, among as many lessons of benchmarks/lessons as two thirds of them, so that it forgets
nothing. With new lessons alone, or by greater steps, it foresaw lessons of still other hands less well than before. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
from collections.abc import Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

from bare import bare_lessons
from expect import BARE, HERE, LEARNED, RECIPES, examples
from network import code, further

from studio.agree.expect.network import FAMILY, Network, load
from studio.files import whole_file

WHAT = "said"
FILE = LEARNED / f"{WHAT}.npz"
TIMES = 3
OLD = 0.63  # of benchmarks/lessons
SEED = 100


@lru_cache(maxsize=1)
def learned() -> Network:
    return load(FILE, FAMILY[WHAT])


def parts_of(path: Path) -> list[Any]:
    """A lesson with the clues and tokens that the network knows."""
    said, _, _ = examples(path)
    return code([said], [*learned().clue], [*learned().token])


def coded(pool: ProcessPoolExecutor, paths: Sequence[Path], folder: Path) -> list[Any]:
    """Lessons, and every few of them without their pictures, too."""
    folder.mkdir()
    bare = bare_lessons(paths[::BARE], folder)
    return [part for parts in pool.map(parts_of, [*paths, *bare], chunksize=8) for part in parts]


def scripts(folders: Iterable[Path]) -> list[Path]:
    return sorted(path for folder in folders for path in folder.glob("*.lesson.md"))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+", help="folders with right lesson scripts and their free.csv")
    parser.add_argument(
        "--old", type=float, default=OLD, help="the share of benchmarks/lessons that is gone through again"
    )
    options = parser.parse_args()
    known = scripts([HERE / "lessons"])
    again = random.Random(SEED).sample(known, round(options.old * len(known)))
    with tempfile.TemporaryDirectory() as made, ProcessPoolExecutor(2) as pool:
        new = coded(pool, scripts(options.folders), Path(made) / "new")
        parts = new * TIMES + coded(pool, again, Path(made) / "old")
        members = learned().members
        seeds = range(SEED, SEED + len(members))
        found = list(pool.map(partial(further, recipe=RECIPES[WHAT]), [parts] * len(members), members, seeds))
    with whole_file(FILE) as whole:
        Network.of([*learned().clue], [*learned().token], found, FAMILY[WHAT]).write(whole)
    print(
        f"{len(new)} parts of new lessons learned, {len(parts) - TIMES * len(new)} gone through again; {FILE} written"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
