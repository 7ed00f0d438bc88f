"""How sure one can be of a slip once a doubted number was tried (`studio/agree/expect/trial.py`).

    python benchmarks/trials.py measure          # the lessons of each hand are judged by what those of the others taught
    python benchmarks/trials.py fit              # learn from all, write studio/agree/expect/tried_trees.json
    python benchmarks/trials.py measure FOLDER   # from lessons in another folder

Learned from right lessons and from the same with one number changed, as the trees of `expect.py` are, but from lessons that the
networks have not learned (benchmarks/unlearned, with the list of numbers that take no part): there they doubt as they do in new ones.
Takes five minutes for 1,400 lessons, with two processors. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import random
import sys
import zlib
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from agreement import changed, free, segment_lines, spots, takes_part
from expect import Traits, boosted, is_caught, line_and_column, write

from studio.agree.case import Case
from studio.agree.check import rules_findings
from studio.agree.expect.trial import NAMES, tried
from studio.agree.reading import case_of
from studio.agree.rules.unexpected import BOUND, CERTAIN, LIKELY, TRIED, doubtful, is_loose
from studio.errors import UnusableInput
from studio.script.reader import read

HERE = Path(__file__).parent
LEAST = 0.5  # of the doubts that are learned from: there are few in right lessons
EVERY = 5  # of the numbers that are said, every fifth is changed
FOLDS = 8
HAND = 24  # lessons, about: those of one hand go to one fold, or to two


@dataclass(frozen=True)
class Sample:
    """Of a lesson the trials of its own doubted numbers and of changed ones that no rule found, and how many were changed."""

    number: int
    right: list[Traits]
    slips: list[Traits]
    changed: int


def trials(case: Case, line: int = 0, column: int = 0) -> Iterator[Traits]:
    """The trials of all doubted numbers, or of the one at a place."""
    for suspect, doubt in doubtful(case, LEAST):
        number = suspect.place.number
        if not line or (number.line, number.column) == (line, column):
            traits = tried(case, suspect, doubt, is_loose(case, suspect.place))
            if traits is not None:
                yield traits


def sample(path: Path) -> Sample:
    """A lesson, and the same with every few of its numbers changed to some other value."""
    text = path.read_text(encoding="utf-8").replace("\r\n", "\n")
    lesson = read(text, path.name)
    case = case_of(lesson)
    rules_findings(case)  # the traits tell what they mind
    right = [*trials(case)]
    chance, left_out = random.Random(zlib.crc32(path.name.encode())), free(path)
    said = [spot for spot in spots(text, lesson) if spot.where == "said" and takes_part(text, spot, left_out)]
    slips: list[Traits] = []
    many = 0
    for spot in said[chance.randrange(EVERY) :: EVERY]:
        value = chance.choice([value for value in range(21) if value != spot.value])
        try:
            case = case_of(read(changed(text, spot, value), path.name))
        except UnusableInput:
            continue
        many += 1
        within = segment_lines(lesson, spot.segment, text.count("\n") + 1)
        if not is_caught(case, rules_findings(case), within):
            slips += trials(case, *line_and_column(text, spot))
    return Sample(int(path.name.partition("-")[0]), right, slips, many)


def learned(samples: Sequence[Sample]) -> Any:
    return boosted(
        [traits for one in samples for traits in one.right],
        [traits for one in samples for traits in one.slips],
        max_iter=200,
        max_leaf_nodes=4,
        learning_rate=0.04,
        l2_regularization=5.0,
        max_features=0.5,
    )


def measure(samples: Sequence[Sample]) -> None:
    """False alarms and slips found, by the doubt alone and by the trial."""
    by_doubt: tuple[list[float], list[float]] = [], []
    by_trial: tuple[list[float], list[float]] = [], []
    for fold in range(FOLDS):
        model = learned([one for one in samples if one.number // HAND % FOLDS != fold])
        for one in samples:
            if one.number // HAND % FOLDS == fold:
                for at, rows in enumerate((one.right, one.slips)):
                    kept = [row for row in rows if row[0] > LIKELY]
                    by_doubt[at].extend(row[0] - BOUND * row[1] for row in kept)
                    by_trial[at].extend(model.decision_function(np.array(kept)) if kept else [])
    changes = sum(one.changed for one in samples)
    print(f"{len(samples)} lessons, {changes} changes")
    for name, (right, slips), usual in (("doubt", by_doubt, CERTAIN), ("trial", by_trial, TRIED)):
        for limit in sorted({usual, *np.arange(1.25, 5.1, 0.25)}):
            print(f"{name} over {limit:.2f}: {sum(one > limit for one in right)} false alarms; "
                  f"{100 * sum(one > limit for one in slips) / changes:.2f} % of the changes found by it alone")  # fmt: skip


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    parser.add_argument("folders", type=Path, nargs="*", default=[HERE / "unlearned"])
    options = parser.parse_args()
    paths = sorted(path for folder in options.folders for path in folder.glob("*.lesson.md"))
    with ProcessPoolExecutor(2) as pool:
        samples = list(pool.map(sample, paths, chunksize=8))
    if options.what == "measure":
        measure(samples)
    else:
        write(learned(samples), "tried", NAMES)
    return 0


if __name__ == "__main__":
    sys.exit(main())
