"""What the rule "number fits its place" has learned, and how well it does on lessons it has not learned from.

    python benchmarks/expect.py measure    # three folds: each lesson is judged by what the other folds taught
    python benchmarks/expect.py fit        # learn from all lessons, write studio/agree/expect/*.npz and *.json

Both take hours; with --work FOLDER what is done is kept, and the same command goes on from there.

Two things are learned, both from the lessons in benchmarks/lessons (needs the extra "bench"):

1. Three networks (`network.py`): every number that is said in a right lesson, every number in its directions, and every one
   in a title, is one example. No wrong number is needed for that.
2. The trees, for numbers that are said or shown: gradient boosting (scikit-learn) that tells numbers that were changed from
   numbers that are only said in an odd manner. The lessons are taken as they are, and with one number changed; their
   surprises come from networks that learned from the other folds, so that the trees see surprises as they are in new lessons.
"""

from __future__ import annotations

import argparse
import json
import os
import pickle
import random
import sys
import tempfile
import zlib
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("XLA_FLAGS", "--xla_cpu_multi_thread_eigen=false")

import numpy as np
from agreement import Spot, changed, free, segment_lines, spots, takes_part
from bare import bare_lessons
from network import Example, Recipe, Told, learn
from sklearn.ensemble import HistGradientBoostingClassifier

from studio.agree.case import Case
from studio.agree.check import rules_findings
from studio.agree.expect.clues import clues
from studio.agree.expect.company import Company, of_said, of_shown
from studio.agree.expect.hints import tokens_of
from studio.agree.expect.network import FAMILY, Network, load
from studio.agree.expect.place import Place, book_of
from studio.agree.expect.pointing import COMMON, EDGE, itself, point
from studio.agree.expect.relations import GREATEST, within
from studio.agree.expect.shown.clues import clues as shown_clues
from studio.agree.expect.shown.slots import slots
from studio.agree.expect.shown.surroundings import tokens as shown_tokens
from studio.agree.expect.shown.suspects import TRAITS as SHOWN_TRAITS
from studio.agree.expect.shown.suspects import places
from studio.agree.expect.shown.suspects import suspects as shown_suspects
from studio.agree.expect.surroundings import tokens
from studio.agree.expect.suspects import TRAITS as SAID_TRAITS
from studio.agree.expect.suspects import suspects
from studio.agree.expect.titled import clues as titled_clues
from studio.agree.expect.titled import surroundings as titled_surroundings
from studio.agree.expect.titled.place import places as titled_places
from studio.agree.reading import case_of as case_of_lesson
from studio.errors import UnusableInput
from studio.files import whole_file
from studio.findings import Finding
from studio.script.model import Lesson
from studio.script.reader import read
from studio.series.library import Library, fill_routine_text

HERE = Path(__file__).parent
LEARNED = HERE.parent / "studio" / "agree" / "expect"
FOLDS = 3
BLOCK = 36
"""Lessons of one writer stand side by side and mostly go to one fold, so that none is judged by what its neighbours taught."""
FILLINGS = 12
EVERY = 3  # of the fillings, every third is enough for the networks
BARE = 5  # every fifth lesson is learned from without its pictures, too: that is how it is first written
SPARSE = 4  # to learn the trees every fourth number of a lesson is changed, to measure every one
NAMES = {"said": SAID_TRAITS, "shown": SHOWN_TRAITS}
WHAT = tuple(FAMILY)
RECIPES = {
    # with twelve rounds the lessons of new hands were less well foreseen, for it knew its own by heart
    "said": Recipe(
        dimensions=128,
        units=320,
        rounds=8,
        members=3,
        rare_clue=3 / 10_000,
        rare_token=1 / 5000,
        clues_out=0.4,
        tokens_out=0.5,
        company=64,
    ),
    "shown": Recipe(company=64),
    "titled": Recipe(rounds=40, members=3, tokens_out=0.3),  # there are few titles
}
Traits = tuple[float, ...]


@dataclass(frozen=True)
class Change:
    """A lesson with one number changed: what other rules caught, and the traits of the suspects in that segment among the
    numbers that are said and those that are shown, with the indices of the changed number among each."""

    caught: bool
    suspects: tuple[list[Traits], list[Traits]]
    own: tuple[list[int], list[int]]


@dataclass(frozen=True)
class Sample:
    name: str
    clean: tuple[list[Traits], list[Traits]]
    changes: list[Change]


def case_of(text: str, name: str) -> Case:
    return case_of_lesson(read(text, name))


def examples(path: Path) -> tuple[Told, ...]:
    """Every number that is said, every number that is shown and every number in a title, with the clues for all numbers that
    might stand there, its own first. What a picture counts is left out: there the screen goes by what is said, and it is not
    asked about."""
    text = path.read_text(encoding="utf-8")
    case = case_of(text, path.name)
    book = book_of(case)
    idle = _idle(path, text, case)
    said = [Place(book, at) for at, number in enumerate(book.numbers) if number.start not in book.counted_at]
    shown = places(case)
    return (
        _told(
            [
                _example(
                    place.number.value, clues(place), tokens(place), (place.number.line, place.number.column) in idle
                )
                for place in said
            ],
            of_said(said) if said else None,
        ),
        _told(
            [_example(place.value, shown_clues(place), shown_tokens(place)) for place in shown],
            of_shown(shown) if shown else None,
        ),
        Told(
            [
                _example(place.value, titled_clues.clues(place), titled_surroundings.tokens(place))
                for place in titled_places(case)
            ]
        ),
    )


def _told(examples: Sequence[Example], company: Company | None) -> Told:
    """The examples of a lesson with the numbers around them."""
    if company is None:
        return Told([])
    of_each = zip(examples, company.own.tolist(), company.near, company.away, strict=True)
    return Told(
        [replace(one, own=own, near=near, away=away) for one, own, near, away in of_each],
        company.numbers,
        [[*tokens_of(bundles)] for bundles in company.around],
    )


def _idle(path: Path, text: str, case: Case) -> set[tuple[int, int]]:
    """Line and column of the numbers that are said and take no part in a lesson."""
    assert case.lesson is not None
    left_out = free(path)
    return {
        line_and_column(text, spot)
        for spot in (spots(text, case.lesson) if left_out else ())
        if spot.where == "said" and not takes_part(text, spot, left_out)
    }


def line_and_column(text: str, spot: Spot) -> tuple[int, int]:
    return spot.line, spot.start - text.rfind("\n", 0, spot.start)


def _example(value: int, pointed: Iterable[tuple[int, str]], around: Iterable[str], idle: bool = False) -> Example:
    pointing: dict[int, list[str]] = {value: [] for value in (value, *COMMON)}
    for other, clue in pointed:
        if 0 <= other <= GREATEST:
            pointing.setdefault(other, []).append(clue)
    for other, names in pointing.items():
        names.append(itself(other))
    return Example(list(pointing.values()), within(np.array([*pointing])), [EDGE, *around], idle)


@dataclass(frozen=True)
class Work:
    """What is learned from, and the folder that keeps what has been worked out: the lessons of our shelf (always learned
    from), lesson scripts, some of them bare, with the fold of each, and lessons that are only judged."""

    folder: Path
    shelf: tuple[Path, ...]
    lessons: tuple[tuple[Path, int], ...]
    unseen: tuple[Path, ...]
    values: int
    measured: bool

    def learned(self, fold: int) -> Path:
        """The folder of the networks that learned from all lessons but those of a fold."""
        return self.folder / str(fold)


def _keep(path: Path, write: Callable[[Path], Any]) -> None:
    """A file that is there only when it is whole; what is there already stays."""
    if not path.exists():
        with whole_file(path) as whole:
            write(whole)


def _dump(value: Any, path: Path) -> None:
    path.write_bytes(pickle.dumps(value))


def _kept(path: Path, made: Callable[[], Any]) -> Any:
    """What a file keeps, worked out only where there is none."""
    _keep(path, lambda whole: _dump(made(), whole))
    return pickle.loads(path.read_bytes())


def _interned(lesson: tuple[Told, ...]) -> tuple[Told, ...]:
    """The same with every name kept once in the memory."""

    def kept(names: Iterable[str]) -> list[str]:
        return [*map(sys.intern, names)]

    return tuple(
        Told(
            [replace(one, clues=[*map(kept, one.clues)], tokens=kept(one.tokens)) for one in part.places],
            part.numbers,
            [*map(kept, part.around)],
        )
        for part in lesson
    )


def learn_from(work: Work, fold: int, what: int) -> None:
    """Learn the network for said (0), shown (1) or titled (2) numbers from all lessons but those of a fold. One member is
    enough for a fold."""
    name = WHAT[what]
    target = work.learned(fold) / f"{name}.npz"
    if target.exists():
        return
    taught: list[tuple[int, Told]] = pickle.loads((work.folder / name).read_bytes())
    known = [told for own, told in taught if own != fold]
    recipe = RECIPES[name] if fold == FOLDS else replace(RECIPES[name], members=1)
    target.parent.mkdir(exist_ok=True)
    _keep(target, learn(known, FAMILY[name], recipe).write)


def _number(path: Path) -> int:
    """The number of a lesson, with which its name begins: those of one writer follow each other."""
    return int(path.name.partition("-")[0])


def _fold(at: int) -> int:
    """The fold of a lesson, by its place in the row."""
    return at // BLOCK % FOLDS


def sample(path: Path, learned: Path, values: int, other_rules: bool, every: int = 1) -> Sample:
    """A lesson as it is and with its numbers (every so many of them) changed to some other values."""
    text = path.read_text(encoding="utf-8").replace("\r\n", "\n")
    lesson = read(text, path.name)
    length = text.count("\n") + 1
    clean = right_ones(path, learned)
    chance = random.Random(zlib.crc32(path.name.encode()))
    left_out = free(path)
    before = _shown_values(lesson)
    changes = []
    taking_part = [spot for spot in spots(text, lesson) if takes_part(text, spot, left_out)]
    for spot in taking_part[chance.randrange(every) :: every]:
        within = segment_lines(lesson, spot.segment, length)
        for value in chance.sample([value for value in range(21) if value != spot.value], values):
            try:
                case = case_of(changed(text, spot, value), path.name)
            except UnusableInput as unusable:
                caught = any(problem.line in within for problem in unusable.problems)
                changes.append(Change(caught, ([], []), ([], [])))
                continue
            minded = rules_findings(case)  # the traits tell what they mind, too
            caught = other_rules and is_caught(case, minded, within)
            said = [one for one in suspects(case, _network(learned, "said")) if one.place.segment == spot.segment]
            shown = [one for one in shown_suspects(case, _network(learned, "shown"))
                     if one.place.segment == spot.segment]  # fmt: skip
            own = [index for index, suspect in enumerate(said)
                   if (suspect.place.number.line, suspect.place.number.column) == line_and_column(text, spot)]  # fmt: skip
            assert case.lesson is not None
            after = _shown_values(case.lesson)
            differ = {at for at, _ in set(after.items()) - set(before.items())} if len(before) == len(after) else set()
            own_shown = [index for index, suspect in enumerate(shown)
                         if (suspect.place.group, suspect.place.index) in differ]  # fmt: skip
            changes.append(
                Change(caught, ([one.traits for one in said], [one.traits for one in shown]), (own, own_shown))
            )
    return Sample(path.name, clean, changes)


def _shown_values(lesson: Lesson) -> dict[tuple[int, int], int]:
    """The numbers in directions, by the index of the direction and their own."""
    return {(group, index): slot.value for group, row in enumerate(slots(lesson)) for index, slot in enumerate(row)}


def is_caught(case: Case, minded: Iterable[Finding], lines: range) -> bool:
    """Whether a rule other than the learned ones minds something within these lines."""
    return any(f.level == "error" and f.line in lines and f.line not in case.excused for f in minded)


def right_ones(path: Path, learned: Path) -> tuple[list[Traits], list[Traits]]:
    """The traits of the suspects of a lesson that is right."""
    case = case_of(path.read_text(encoding="utf-8"), path.name)
    rules_findings(case)  # the traits tell what they mind
    return (
        [suspect.traits for suspect in suspects(case, _network(learned, "said"))],
        [suspect.traits for suspect in shown_suspects(case, _network(learned, "shown"))],
    )


@lru_cache(maxsize=4)
def _network(learned: Path, what: str) -> Network:
    return load(learned / f"{what}.npz", FAMILY[what])


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


def title_surprises(path: Path, learned: Path) -> tuple[list[float], list[float]]:
    """The surprises of the numbers in the titles of a lesson as they are, and of all other numbers to 20 in their places;
    0 where a number is the likeliest."""
    places = titled_places(case_of(path.read_text(encoding="utf-8"), path.name))
    if not places:
        return [], []
    network = _network(learned, "titled")

    def surprises(values: Sequence[int]) -> list[float]:
        pointed = point(network, places, values, titled_clues.FINDERS, titled_surroundings.FINDERS)
        found = network.scores(pointed)
        return [surprise if lead >= 0 else 0.0
                for surprise, lead in zip(found.surprises(pointed.values), found.leads(pointed.values), strict=True)]  # fmt: skip

    right = [place.value for place in places]
    others = [surprise for step in range(1, 21) for surprise in surprises([(value + step) % 21 for value in right])]
    return surprises(right), others


def report_titles(judged: Sequence[tuple[list[float], list[float]]]) -> None:
    """False alarms and other numbers found in titles, for several surprises."""
    right, others = ([one for pair in judged for one in pair[at]] for at in (0, 1))
    for limit in (3.0, 4.0, 5.0, 6.0):
        print(f"titles, surprise over {limit:.1f}: {sum(one > limit for one in right)} false alarms in {len(right)}; "
              f"{100 * sum(one > limit for one in others) / max(1, len(others)):.1f} % of other numbers found")  # fmt: skip


def learn_trees(samples: Sequence[Sample], what: int, trees: int, leaves: int) -> Any:
    """Gradient boosting on the numbers of right lessons against changed numbers, of those that are said (0) or shown (1)."""
    return boosted(
        [traits for one in samples for traits in one.clean[what]],
        [change.suspects[what][index] for one in samples for change in one.changes for index in change.own[what]],
        max_iter=trees,
        max_leaf_nodes=leaves,
        learning_rate=0.05,
        l2_regularization=2.0,
        max_features=0.3,
    )


def boosted(right: Sequence[Traits], slips: Sequence[Traits], **settings: float) -> Any:
    """Trees that tell slips from right numbers by their traits; `settings` are those of scikit-learn."""
    model = HistGradientBoostingClassifier(min_samples_leaf=40, early_stopping=False, random_state=1, **settings)
    return model.fit(np.array([*right, *slips], dtype=float), np.arange(len(right) + len(slips)) >= len(right))


def doubts(model: Any, rows: Sequence[Traits]) -> Any:
    return model.decision_function(np.array(rows, dtype=float)) if rows else np.array([])


def greatest_doubts(model: Any, what: int, one: Sample) -> list[float]:
    """For every change the greatest doubt in its segment; all suspects of a lesson are asked about at once."""
    all_doubts = iter(doubts(model, [traits for change in one.changes for traits in change.suspects[what]]))
    return [max((float(next(all_doubts)) for _ in change.suspects[what]), default=-99.0) for change in one.changes]


def report(judged: Sequence[tuple[Sample, Sequence[Any]]]) -> None:
    """False alarms and changes found, for several thresholds; `judged` has the trees for said and for shown numbers."""
    tried = sum(len(one.changes) for one, _ in judged)
    print(f"{len(judged)} lessons, {tried} changes; other rules alone find "
          f"{100 * sum(change.caught for one, _ in judged for change in one.changes) / tried:.2f} %")  # fmt: skip
    alarms = [[doubts(models[what], one.clean[what]) for what in (0, 1)] for one, models in judged]
    greatest = [[greatest_doubts(models[what], what, one) for what in (0, 1)] for one, models in judged]
    for limit in (1.5, 2.0, 2.25, 2.5, 2.75, 3.0, 3.25, 3.5, 4.0):
        found = sum(change.caught or max(said, shown) > limit
                    for (one, _), rows in zip(judged, greatest, strict=True)
                    for change, said, shown in zip(one.changes, *rows, strict=True))  # fmt: skip
        false = [[int((one > limit).sum()) for one in pair] for pair in alarms]
        print(f"doubt over {limit:.2f}: {sum(said for said, _ in false)} false alarms on said and "
              f"{sum(shown for _, shown in false)} on shown numbers, in {sum(any(pair) for pair in false)} lessons; "
              f"{100 * found / tried:.2f} % of changes found")  # fmt: skip


def write(model: Any, what: str, names: Sequence[str]) -> None:
    """The learned trees as the studio reads them, with the names of the traits they look at."""
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
    (LEARNED / f"{what}_trees.json").write_text(
        json.dumps({"traits": names, "start": start, "trees": trees}, separators=(",", ":")) + "\n",
        encoding="utf-8",
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
    parser.add_argument("--work", type=Path, help="a folder to keep what is worked out on the way, to go on from there")
    options = parser.parse_args()
    paths = options.lessons or sorted((HERE / "lessons").glob("*.lesson.md"), key=_number)
    with tempfile.TemporaryDirectory() as made, ProcessPoolExecutor(options.jobs) as pool:
        folder = options.work or Path(made)
        folder.mkdir(exist_ok=True)
        folds = {path.name: _fold(at) for at, path in enumerate(paths)}
        bare = bare_lessons(paths[::BARE], folder / "bare")
        work = Work(folder, tuple(shelf_lessons(folder)), tuple((path, folds[path.name]) for path in [*paths, *bare]),
                    tuple(options.unseen), options.values, options.what == "measure")  # fmt: skip
        _learn_networks(work, pool)
        samples, own, unseen, titles = _samples(work, pool)
    if work.measured:
        judged = []
        for fold in range(FOLDS):
            models = _trees([*own, *(one for at, one in samples if at != fold)], options)
            judged += [(one, models) for at, one in samples if at == fold]
        print("Each lesson judged by what the others taught:")
        report(judged)
        report_titles(titles)
    if unseen or not work.measured:
        models = _trees([*own, *(one for _, one in samples)], options)
    if unseen:
        print("Lessons that nothing was learned from:")
        report([(one, models) for one in unseen])
    if not work.measured:
        for name in WHAT:
            (LEARNED / f"{name}.npz").write_bytes((work.learned(FOLDS) / f"{name}.npz").read_bytes())
        for name, model in zip(WHAT, models, strict=False):
            write(model, name, NAMES[name])
        print(f"Networks and {options.trees} trees each for {' and '.join(NAMES)} numbers written to {LEARNED}")
    return 0


def _learn_networks(work: Work, pool: ProcessPoolExecutor) -> None:
    """Learn every network, those that take longest first; the last fold is none: its networks learn from all lessons."""
    if not all((work.folder / name).exists() for name in WHAT):
        taught = work.shelf[::EVERY]
        lessons = [*map(_interned, pool.map(examples, [*taught, *(path for path, _ in work.lessons)], chunksize=8))]
        own = [*(-1 for _ in taught), *(fold for _, fold in work.lessons)]
        for what, name in enumerate(WHAT):
            told = [(fold, lesson[what]) for fold, lesson in zip(own, lessons, strict=True)]
            _keep(work.folder / name, partial(_dump, told))
    jobs = [(work, fold, what) for what in range(len(WHAT)) for fold in reversed(range(FOLDS + 1))]
    list(pool.map(learn_from, *zip(*jobs, strict=True)))


def _samples(
    work: Work, pool: ProcessPoolExecutor
) -> tuple[list[tuple[int, Sample]], list[Sample], list[Sample], list[tuple[list[float], list[float]]]]:
    """Of the lessons, with their folds, judged by networks that have not learned from them; of our own shelf, which is right,
    too, and whose routines come again and again; of lessons that are only judged; and the surprises in titles."""
    last = work.learned(FOLDS)

    def of(paths: Iterable[Path], folds: Iterable[int], other_rules: bool, every: int) -> list[Sample]:
        jobs = [
            (path, work.learned(fold), work.values, other_rules, every) for path, fold in zip(paths, folds, strict=True)
        ]
        return list(pool.map(sample, *zip(*jobs, strict=True), chunksize=4)) if jobs else []

    paths, folds = zip(*work.lessons, strict=True)
    name = "samples measured" if work.measured else "samples"  # they are not the same
    samples = _kept(work.folder / name, lambda: of(paths, folds, work.measured, 1 if work.measured else SPARSE))
    own = _kept(work.folder / "own", lambda: [
        Sample(path.name, right, []) for path, right in
        zip(work.shelf, pool.map(right_ones, work.shelf, [last] * len(work.shelf)), strict=True)
    ])  # fmt: skip
    unseen = of(work.unseen, [FOLDS] * len(work.unseen), True, 1)
    titles = list(pool.map(title_surprises, paths, map(work.learned, folds))) if work.measured else []
    return list(zip(folds, samples, strict=True)), own, unseen, titles


def _trees(samples: Sequence[Sample], options: argparse.Namespace) -> list[Any]:
    """The trees for said and shown numbers that learn from these."""
    return [learn_trees(samples, what, options.trees, options.leaves) for what in (0, 1)]


if __name__ == "__main__":
    sys.exit(main())
