"""How sure one can be of a slip once a doubted number was tried (`studio/agree/expect/trial.py`).

    python benchmarks/trials.py measure          # the lessons of each hand are judged by what those of the others taught
    python benchmarks/trials.py fit              # learn from all, write tried_trees.json and tried_shown_trees.json in studio/agree/expect
    python benchmarks/trials.py measure FOLDER   # from lessons in another folder

Learned from right lessons and from the same with one number changed, as the trees of `expect.py` are, but from lessons that the
networks have not learned (benchmarks/unlearned, with the list of numbers that take no part): there they doubt as they do in new ones.
Takes ten minutes for 2,000 lessons, with two processors. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import random
import sys
import zlib
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from agreement import changed, free, segment_lines, spots, takes_part
from expect import Traits, boosted, is_caught, line_and_column, write

from studio.agree.case import Case
from studio.agree.check import rules_findings
from studio.agree.expect.trial import NAMES, SHOWN_NAMES, tried, tried_as_shown
from studio.agree.reading import case_of
from studio.agree.rules import unexpected, unexpected_shown
from studio.errors import UnusableInput
from studio.script.model import Place
from studio.script.reader import read

HERE = Path(__file__).parent
LEAST, LEAST_SHOWN = 0.5, 0.0  # of the doubts that are learned from: there are few in right lessons
FOLDS = 8
HAND = 24  # lessons, about: those of one hand go to one fold, or to two


@dataclass(frozen=True)
class Trials:
    """Of the lesson of a number the trials of its own doubted numbers and of changed ones that no rule found, and how many were
    changed."""

    number: int
    right: list[Traits]
    slips: list[Traits]
    changed: int


def of_said(case: Case, line: int = 0, column: int = 0) -> Iterator[Traits]:
    """The trials of all doubted numbers that are said, or of the one at a place."""
    for suspect, doubt in unexpected.doubtful(case, LEAST):
        number = suspect.place.number
        if not line or (number.line, number.column) == (line, column):
            traits = tried(case, suspect, doubt, unexpected.is_loose(case, suspect.place))
            if traits is not None:
                yield traits


def of_shown(case: Case, line: int = 0, column: int = 0) -> Iterator[Traits]:
    """The trials of all doubted numbers that are shown, or of the most doubted one of the direction that begins last before a place."""
    found = [*unexpected_shown.doubtful(case, LEAST_SHOWN)]
    if line:
        assert case.lesson is not None
        at = max(one.place for one in case.lesson.directions if one.place <= Place(line, column))
        found = [(suspect, doubt) for suspect, doubt in found if suspect.place.slot.direction.place == at]
        found = sorted(found, key=lambda one: -one[1])[:1]
    for suspect, doubt in found:
        traits = tried_as_shown(case, suspect, doubt, unexpected_shown.is_loose(suspect))
        if traits is not None:
            yield traits


WHERE: tuple[tuple[str, int, Callable[..., Iterator[Traits]]], ...] = (("said", 5, of_said), ("shown", 4, of_shown))
"""Where numbers stand that are changed, every how manieth, and what comes of their trial."""


def sample(path: Path) -> tuple[Trials, ...]:
    """What a lesson, and the same with every few of its numbers changed to some other value, tell of what is said and of what is shown."""
    text = path.read_text(encoding="utf-8").replace("\r\n", "\n")
    lesson = read(text, path.name)
    case = case_of(lesson)
    rules_findings(case)  # the traits tell what they mind
    chance, left_out = random.Random(zlib.crc32(path.name.encode())), free(path)
    found: list[Trials] = []
    for where, every, trials in WHERE:
        taking = [spot for spot in spots(text, lesson) if spot.where == where and takes_part(text, spot, left_out)]
        slips: list[Traits] = []
        many = 0
        for spot in taking[chance.randrange(every) :: every]:
            value = chance.choice([value for value in range(21) if value != spot.value])
            try:
                slip = case_of(read(changed(text, spot, value), path.name))
            except UnusableInput:
                continue
            many += 1
            within = segment_lines(lesson, spot.segment, text.count("\n") + 1)
            if not is_caught(slip, rules_findings(slip), within):
                slips += trials(slip, *line_and_column(text, spot))
        found.append(Trials(int(path.name.partition("-")[0]), [*trials(case)], slips, many))
    return tuple(found)


def learned(samples: Sequence[Trials]) -> Any:
    return boosted(
        [traits for one in samples for traits in one.right],
        [traits for one in samples for traits in one.slips],
        max_iter=200,
        max_leaf_nodes=4,
        learning_rate=0.04,
        l2_regularization=5.0,
        max_features=0.5,
    )


def measure(name: str, rule: Any, samples: Sequence[Trials]) -> None:
    """False alarms and slips found, by the doubt alone and by the trial."""
    by_doubt: tuple[list[float], list[float]] = [], []
    by_trial: tuple[list[float], list[float]] = [], []
    for fold in range(FOLDS):
        model = learned([one for one in samples if one.number // HAND % FOLDS != fold])
        for one in samples:
            if one.number // HAND % FOLDS == fold:
                for at, rows in enumerate((one.right, one.slips)):
                    kept = [row for row in rows if row[0] > rule.LIKELY]
                    by_doubt[at].extend(row[0] - rule.BOUND * row[1] for row in kept)
                    by_trial[at].extend(model.decision_function(np.array(kept)) if kept else [])
    changes = sum(one.changed for one in samples)
    print(f"{len(samples)} lessons, {changes} changes of what is {name}")
    for what, (right, slips), usual in (("doubt", by_doubt, rule.CERTAIN), ("trial", by_trial, rule.TRIED)):
        for limit in sorted({usual, *np.arange(1.0, 6.1, 0.25)}):
            print(f"{what} over {limit:.2f}: {sum(one > limit for one in right)} false alarms; "
                  f"{100 * sum(one > limit for one in slips) / changes:.2f} % of the changes found by it alone")  # fmt: skip


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    parser.add_argument("folders", type=Path, nargs="*", default=[HERE / "unlearned"])
    options = parser.parse_args()
    paths = sorted(path for folder in options.folders for path in folder.glob("*.lesson.md"))
    with ProcessPoolExecutor(2) as pool:
        said, shown = zip(*pool.map(sample, paths, chunksize=8), strict=True)
    if options.what == "measure":
        measure("said", unexpected, said)
        measure("shown", unexpected_shown, shown)
    else:
        write(learned(said), "tried", NAMES)
        write(learned(shown), "tried_shown", SHOWN_NAMES)
    return 0


if __name__ == "__main__":
    sys.exit(main())
