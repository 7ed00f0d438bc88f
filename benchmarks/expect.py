"""What the rule "number fits its place" has learned, and how well it does on lessons it has not learned from.

    python benchmarks/expect.py measure    # five folds: each lesson is judged by what the other folds taught
    python benchmarks/expect.py fit        # learn from all lessons, write studio/agree/expect/*.json

Two things are learned, both from the lessons in benchmarks/lessons (needs the extra "bench"):

1. The weights of the clues: a conditional logit (McFadden 1974) over the numbers that may be said at a place; every number
   that is said in a right lesson is one choice. No wrong number is needed for that.
2. The trees: gradient boosting (scikit-learn) that tells numbers that were changed from numbers that are only said in an
   odd manner. The lessons are taken as they are, and with one number changed; their surprises come from weights that were
   learned from the other folds, so that the trees see surprises as they are in new lessons.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import sys
import tempfile
import zlib
from collections import Counter
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

os.environ.setdefault("OMP_NUM_THREADS", "2")

import numpy as np
from agreement import changed, free, segment_lines, spots, takes_part
from scipy.optimize import minimize
from scipy.sparse import csr_matrix
from sklearn.ensemble import HistGradientBoostingClassifier

from studio.agree.case import Case
from studio.agree.check import listen_to
from studio.agree.expect.expectation import BIG, COMMON, GREATEST, clues
from studio.agree.expect.place import Book, Place
from studio.agree.expect.suspects import suspects
from studio.agree.expect.traits import NAMES
from studio.agree.rules import RULES, unexpected
from studio.errors import UnusableInput
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text
from studio.stage.staging import stage

HERE = Path(__file__).parent
LEARNED = HERE.parent / "studio" / "agree" / "expect"
FOLDS = 5
RARE = 4  # a clue that is seen less often has no weight
SMALL = 0.02  # a weight below this is left out
FILLINGS = 12
ROUNDS = 3
MARGIN = unexpected.CERTAIN - 0.4
Weights = Mapping[str, float]


@dataclass(frozen=True)
class Change:
    """A lesson with one number changed: what other rules caught, and the traits of the suspects in that segment, with the
    index of the changed number among them (-1: it is none)."""

    caught: bool
    suspects: list[tuple[float, ...]]
    own: int


@dataclass(frozen=True)
class Sample:
    name: str
    clean: list[tuple[float, ...]]
    changes: list[Change]


def case_of(text: str, name: str) -> Case:
    lesson = read(text, name)
    talk = listen_to(lesson.words)
    return Case(talk, lesson, stage(lesson, talk.numbers))


def choices(path: Path) -> list[tuple[int, dict[int, Counter[str]]]]:
    """For every number that is said: its value, and the clues for all that might be said there."""
    case = case_of(path.read_text(encoding="utf-8"), path.name)
    book = Book(case)
    found = []
    for index, number in enumerate(book.numbers):
        pointing: dict[int, Counter[str]] = {value: Counter() for value in (*COMMON, number.value)}
        for value, clue in clues(Place(book, index)):
            if 0 <= value <= GREATEST:
                pointing.setdefault(value, Counter())[clue] += 1
        for value, names in pointing.items():
            if value > COMMON[-1]:
                names[BIG] += 1
        found.append((number.value, pointing))
    return found


def learn_weights(places: Sequence[tuple[int, dict[int, Counter[str]]]], penalty: float = 1.0) -> Weights:
    """The weights under which the numbers that were said are likeliest, with a ridge penalty."""
    seen = Counter(name for _, pointing in places for names in pointing.values() for name in names)
    columns = {name: at for at, name in enumerate(sorted(name for name, count in seen.items() if count >= RARE))}
    rows, cols, data, starts, said = [], [], [], [], []
    row = 0
    for value, pointing in places:
        starts.append(row)
        for other, names in pointing.items():
            for name, count in names.items():
                if name in columns:
                    rows.append(row)
                    cols.append(columns[name])
                    data.append(float(count))
            said.append(other == value)
            row += 1
    matrix = csr_matrix((data, (rows, cols)), shape=(row, len(columns)))
    chosen = np.array(said)
    begin = np.array(starts)
    lengths = np.diff(np.r_[begin, row])

    def loss(weights: Any) -> tuple[float, Any]:
        scores = matrix @ weights
        top = np.maximum.reduceat(scores, begin)
        shifted = np.exp(scores - np.repeat(top, lengths))
        total = np.add.reduceat(shifted, begin)
        chance = shifted / np.repeat(total, lengths)
        likelihood = (scores[chosen] - top - np.log(total)).sum()
        return penalty / 2 * weights @ weights - likelihood, matrix.T @ (chance - chosen) + penalty * weights

    found = minimize(loss, np.zeros(len(columns)), jac=True, method="L-BFGS-B", options={"maxiter": 150}).x
    return {name: round(float(found[at]), 3) for name, at in columns.items() if abs(found[at]) > SMALL}


def sample(path: Path, weights: Weights, values: int, other_rules: bool) -> Sample:
    """A lesson as it is and with every number changed to some other values."""
    text = path.read_text(encoding="utf-8").replace("\r\n", "\n")
    lesson = read(text, path.name)
    lines = text.split("\n")
    offsets = [0]
    for line in lines:
        offsets.append(offsets[-1] + len(line) + 1)
    clean = right_ones(path, weights)
    chance = random.Random(zlib.crc32(path.name.encode()))
    left_out = free(path)
    changes = []
    for spot in spots(text, lesson):
        if not takes_part(text, spot, left_out):
            continue
        for value in chance.sample([value for value in range(21) if value != spot.value], values):
            try:
                case = case_of(changed(text, spot, value), path.name)
            except UnusableInput as unusable:
                within = segment_lines(lesson, spot.segment, len(lines))
                changes.append(Change(any(problem.line in within for problem in unusable.problems), [], -1))
                continue
            caught = other_rules and _caught(case, segment_lines(lesson, spot.segment, len(lines)))
            found = list(suspects(case, weights, spot.segment))
            column = spot.start - offsets[spot.line - 1] + 1
            own = [index for index, suspect in enumerate(found)
                   if (suspect.place.number.line, suspect.place.number.column) == (spot.line, column)]  # fmt: skip
            changes.append(Change(caught, [suspect.traits for suspect in found], own[0] if own else -1))
    return Sample(path.name, clean, changes)


def _caught(case: Case, lines: range) -> bool:
    """Whether a rule other than the learned one finds an error within these lines."""
    found = [
        *case.stage.findings,
        *(finding for rule in RULES if rule is not unexpected.find for finding in rule(case)),
    ]
    return any(f.level == "error" and f.line in lines and f.line not in case.excused for f in found)


def right_ones(path: Path, weights: Weights) -> list[tuple[float, ...]]:
    """The traits of the suspects of a lesson that is right."""
    return [suspect.traits for suspect in suspects(case_of(path.read_text(encoding="utf-8"), path.name), weights)]


def shelf_lessons(folder: Path) -> list[Path]:
    """Lessons of our own shelf, every routine filled a few times: they are right, too, and must stay in peace."""
    library = Library.of()
    paths = []
    for name in sorted(library.names()):
        routine = library.get(name)
        fillings = list(routine.fillings())
        for index, values in enumerate(random.Random(name).sample(fillings, min(FILLINGS, len(fillings)))):
            paths.append(folder / f"{name}-{index}.lesson.md")
            paths[-1].write_text(fill_routine_text(routine, values, library), encoding="utf-8")
    return paths


def learn_trees(
    samples: Sequence[Sample], trees: int, leaves: int, more_right: Sequence[tuple[float, ...]] = ()
) -> Any:
    """Gradient boosting on the numbers of right lessons against changed numbers. Those of `more_right` (numbers of right
    lessons as they are seen by weights that know them) only count where they would be doubted: as they are easier to
    tell, all of them would spoil the odds for lessons that are new."""
    rows = [*more_right, *(traits for one in samples for traits in one.clean)]
    right = len(rows)
    rows += [change.suspects[change.own] for one in samples for change in one.changes if change.own >= 0]
    model = HistGradientBoostingClassifier(max_iter=trees, learning_rate=0.05, max_leaf_nodes=leaves, min_samples_leaf=40,
                                           l2_regularization=2.0, early_stopping=False, random_state=1)  # fmt: skip
    slips = np.arange(len(rows)) >= right
    data = np.array(rows, dtype=float)
    known = np.arange(len(rows)) < len(more_right)
    weight = np.where(known, 0.0, 1.0)
    model.fit(data, slips, sample_weight=weight)
    for _ in range(ROUNDS if more_right else 0):
        doubted = known & (model.decision_function(data) > MARGIN)
        if not doubted.any():
            break
        weight[doubted] = np.maximum(1.0, 3 * weight[doubted])
        model.fit(data, slips, sample_weight=weight)
    return model


def doubts(model: Any, rows: Sequence[tuple[float, ...]]) -> Any:
    return model.decision_function(np.array(rows, dtype=float)) if rows else np.array([])


def greatest_doubts(model: Any, one: Sample) -> list[float]:
    """For every change the greatest doubt in its segment; all suspects of a lesson are asked about at once."""
    all_doubts = iter(doubts(model, [traits for change in one.changes for traits in change.suspects]))
    return [max((float(next(all_doubts)) for _ in change.suspects), default=-99.0) for change in one.changes]


def report(judged: Sequence[tuple[Sample, Any]]) -> None:
    """False alarms and changes found, for several thresholds."""
    tried = sum(len(one.changes) for one, _ in judged)
    print(f"{len(judged)} lessons, {tried} changes; other rules alone find "
          f"{100 * sum(change.caught for one, _ in judged for change in one.changes) / tried:.2f} %")  # fmt: skip
    alarms = [doubts(model, one.clean) for one, model in judged]
    greatest = [greatest_doubts(model, one) for one, model in judged]
    for limit in (1.5, 2.0, 2.25, 2.5, 2.75, 3.0, 3.25, 3.5, 4.0):
        found = sum(change.caught or doubt > limit
                    for (one, _), row in zip(judged, greatest, strict=True)
                    for change, doubt in zip(one.changes, row, strict=True))  # fmt: skip
        print(f"doubt over {limit:.2f}: {sum(int((one > limit).sum()) for one in alarms)} false alarms of this rule in "
              f"{sum(bool((one > limit).any()) for one in alarms)} lessons; {100 * found / tried:.2f} % of changes found")  # fmt: skip


def write(weights: Weights, model: Any) -> None:
    """The learned values as the studio reads them."""
    trees = []
    for (grown,) in model._predictors:
        nodes = grown.nodes
        leaf = nodes["is_leaf"].astype(bool)
        trees.append([
            [-1 if end else int(trait) for end, trait in zip(leaf, nodes["feature_idx"], strict=True)],
            [0 if end else float(limit) for end, limit in zip(leaf, nodes["num_threshold"], strict=True)],
            nodes["left"].tolist(), nodes["right"].tolist(),
            [round(float(worth), 4) if end else 0 for end, worth in zip(leaf, nodes["value"], strict=True)],
        ])  # fmt: skip
    start = round(float(np.ravel(model._baseline_prediction)[0]), 4)
    (LEARNED / "weights.json").write_text(json.dumps(dict(sorted(weights.items())), indent=0) + "\n", encoding="utf-8")
    (LEARNED / "trees.json").write_text(
        json.dumps({"traits": NAMES, "start": start, "trees": trees}, separators=(",", ":")) + "\n", encoding="utf-8"
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    parser.add_argument("--lessons", type=Path, nargs="*", help="lesson scripts (default: benchmarks/lessons)")
    parser.add_argument(
        "--unseen", type=Path, nargs="*", default=[], help="lessons to judge that nothing is learned from"
    )
    parser.add_argument("--values", type=int, default=1, help="how many other values to try for each number")
    parser.add_argument("--trees", type=int, default=300)
    parser.add_argument("--leaves", type=int, default=16)
    parser.add_argument("--jobs", type=int, default=2)
    options = parser.parse_args()
    paths = options.lessons or sorted((HERE / "lessons").glob("*.lesson.md"))
    measured = options.what == "measure"
    with tempfile.TemporaryDirectory() as folder, ProcessPoolExecutor(options.jobs) as pool:
        shelf = shelf_lessons(Path(folder))
        filled = [place for one in pool.map(choices, shelf) for place in one]
        places = list(pool.map(choices, paths))
        parts = [[p for at, one in enumerate(places) if at % FOLDS != fold for p in one] for fold in range(FOLDS)]
        *by_fold, weights = pool.map(
            learn_weights, [*(part + filled for part in parts), [*filled, *(place for one in places for place in one)]]
        )
        count = len(paths)
        samples = list(pool.map(sample, paths, [by_fold[at % FOLDS] for at in range(count)], [options.values] * count,
                                [measured] * count))  # fmt: skip
        # The lessons as they will be met when they are checked: by weights that know them.
        known = {fold: list(pool.map(right_ones, paths, [learned] * count))
                 for fold, learned in enumerate([*by_fold, weights]) if measured or fold == FOLDS}  # fmt: skip
        right = {fold: [traits for one in pool.map(right_ones, shelf, [learned] * len(shelf)) for traits in one]
                 for fold, learned in enumerate([*by_fold, weights])}  # fmt: skip
        unseen = list(pool.map(sample, options.unseen, [weights] * len(options.unseen), [options.values] * len(options.unseen),
                               [True] * len(options.unseen)))  # fmt: skip
    if measured:
        judged = []
        for fold in range(FOLDS):
            rest = [one for at, one in enumerate(samples) if at % FOLDS != fold]
            met = right[fold] + [traits for at, one in enumerate(known[fold]) if at % FOLDS != fold for traits in one]
            model = learn_trees(rest, options.trees, options.leaves, met)
            judged += [(one, model) for at, one in enumerate(samples) if at % FOLDS == fold]
        print("Each lesson judged by what the others taught:")
        report(judged)
    model = learn_trees(
        samples, options.trees, options.leaves, right[FOLDS] + [traits for one in known[FOLDS] for traits in one]
    )
    if unseen:
        print("Lessons that nothing was learned from:")
        report([(one, model) for one in unseen])
    if not measured:
        write(weights, model)
        print(f"{len(weights)} weights, {options.trees} trees written to {LEARNED}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
