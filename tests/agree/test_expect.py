"""What number is to be expected at a place, and when another is a slip."""

from __future__ import annotations

import importlib.util
import json
import sys
from collections import Counter
from importlib.resources import files
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import softmax

from studio.agree import check
from studio.agree.case import Case
from studio.agree.check import listen_to
from studio.agree.expect.doubt import FIRST, Judge, Tree, judge
from studio.agree.expect.expectation import BIG, COMMON, GREATEST, Expectation, clues, expect, pointers, shares, weights
from studio.agree.expect.families import FAMILIES, family
from studio.agree.expect.place import Book, Place, link
from studio.agree.expect.suspects import judged, suspects
from studio.agree.expect.traits import NAMES
from studio.agree.rules import echoes, unexpected
from studio.agree.second_opinion import asked_twice
from studio.findings import Finding
from studio.script.reader import read
from studio.stage.staging import stage

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"
POND = """---
title: Ducks and frogs
---
# Partners of nine
[show ten frame: 7 dots as frame]
Seven ducks swim on the pond. [frame: add 2 crosses, counting] Eight, nine. Two more ducks came, and now there are {} ducks.
[show number bond: 9 is 7 and 2]
Nine is seven and two. Seven and two make nine.
"""


def expected(place: Place) -> Expectation:
    return expect(place, pointers(place, weights()), weights())


def case_of(text: str) -> Case:
    lesson = read(text)
    talk = listen_to(lesson.words)
    return Case(talk, lesson, stage(lesson, talk.numbers))


def place_of(text: str, value: int, occurrence: int = 1) -> Place:
    book = Book(case_of(text))
    found = [index for index, number in enumerate(book.numbers) if number.value == value]
    return Place(book, found[occurrence - 1])


def test_the_number_that_fits_is_expected_and_another_is_not() -> None:
    right = expected(place_of(POND.format("nine"), 9, 2))
    wrong = expected(place_of(POND.format("sixteen"), 16))
    assert right.surprise + 3 < wrong.surprise
    assert 9 in [value for value, chance in wrong.likely if chance > 0.1]
    assert wrong.lead > right.lead


def test_a_slip_is_an_error_that_names_what_was_to_be_expected() -> None:
    assert not [finding for finding in check(read(POND.format("nine"))).findings if finding.level == "error"]
    found = [f for f in check(read(POND.format("sixteen"))).findings if f.rule == unexpected.NAME]
    assert [(finding.level, finding.said, finding.line) for finding in found] == [("error", "sixteen", 6)]
    assert "says 16" in found[0].message
    assert "9" in found[0].help


def test_a_note_on_purpose_leaves_a_slip_alone() -> None:
    text = POND.format("sixteen").replace("Two more ducks", "[note: on purpose: who sees it?] Two more ducks")
    assert not [f for f in check(read(text)).findings if f.rule == unexpected.NAME and f.level == "error"]


def test_the_probability_is_the_softmax_of_the_weights_of_the_clues() -> None:
    """Against scipy.special.softmax; the model is the conditional logit (McFadden 1974)."""
    place = place_of(POND.format("sixteen"), 16)
    scores = dict.fromkeys((*COMMON, 16), 0.0)
    for value, name in clues(place):
        if value <= GREATEST and name in weights():
            scores[value] = scores.get(value, 0.0) + weights().get(name, 0.0)
    for value in scores:
        scores[value] += weights().get(BIG, 0.0) if value > COMMON[-1] else 0.0
    values = [value for value in scores if value >= 0]
    chances = dict(zip(values, softmax([scores[value] for value in values]), strict=True))
    found = expected(place)
    assert found.surprise == pytest.approx(-np.log(chances[16]))
    assert dict(found.likely)[9] == pytest.approx(chances[9])


def test_every_learned_clue_belongs_to_a_family() -> None:
    assert {family(name) for name in weights()} == set(range(len(FAMILIES)))


def test_the_shares_of_the_families_add_up_to_the_lead() -> None:
    place = place_of(POND.format("sixteen"), 16)
    found = expected(place)
    parts = shares(pointers(place, weights()), 16, found.likely[0][0])
    assert len(parts) == len(FAMILIES)
    assert sum(other - own for own, other in parts) == pytest.approx(found.lead)


@pytest.mark.parametrize(
    ("text", "joined"),
    [
        ("Three and four.", "A"), ("Three, four.", "0"), ("Nine take away four.", "M"), ("Three and four make seven.", "A"),
        ("Three. Four.", "0"), ("Three is one more than two.", "E"), ("From three to four.", "F"), ("Three or four.", "O"),
        ("Three frogs sat. Four swam.", "S"),
    ],
)  # fmt: skip
def test_how_two_numbers_are_joined(text: str, joined: str) -> None:
    talk = listen_to(read(f"---\ntitle: T\n---\n{text}\n").words)
    one, other = [number for number in talk.numbers if number.form == "word"][:2]
    assert link(talk.words, one.end, other.start) == joined


def test_what_holds_is_counted_or_is_seen_is_never_a_suspect() -> None:
    case = case_of(POND.format("sixteen"))
    assert {suspect.place.number.value for suspect in suspects(case, weights())} <= {2, 16}


def test_the_trees_were_learned_with_the_traits_there_are_now() -> None:
    """`benchmarks/expect.py fit` must be run again when a trait or a sort of clue is added."""
    learned = json.loads(files("studio.agree.expect").joinpath("trees.json").read_text(encoding="utf-8"))
    assert tuple(learned["traits"]) == NAMES
    for suspect, _ in judged(case_of(POND.format("sixteen"))):
        assert len(suspect.traits) == len(NAMES)


@given(st.lists(st.floats(-50, 400), min_size=len(NAMES), max_size=len(NAMES)))
def test_a_doubt_is_a_sum_over_trees_and_always_finite(traits: list[float]) -> None:
    found = judge().doubt(traits)
    first = judge().start + sum(tree.worth(traits) for tree in judge().trees[:FIRST])
    rest = sum(tree.worth(traits) for tree in judge().trees[FIRST:])
    assert found == pytest.approx(first if first < 0 else first + rest)
    assert abs(found) < 60


def test_a_tree_goes_left_up_to_its_limit() -> None:
    tree = Tree((1, -1, -1), (2.5, 0, 0), (1, 0, 0), (2, 0, 0), (0, -1.0, 4.0))
    assert [Judge(0.5, (tree,)).doubt((9, value)) for value in (2.5, 2.6)] == [-0.5, 4.5]


def test_the_last_trees_are_only_asked_where_the_first_find_a_slip_likely() -> None:
    first = Tree((0, -1, -1), (0.0, 0.0, 0.0), (1, 0, 0), (2, 0, 0), (0.0, -1.0, 1.0))
    last = Tree((-1,), (0.0,), (0,), (0,), (5.0,))
    asked = Judge(0.5, (*[first] * FIRST, last))
    assert asked.doubt((-1.0,)) == 0.5 - FIRST
    assert asked.doubt((1.0,)) == 0.5 + FIRST + 5.0


def test_an_error_that_no_doubtful_number_supports_is_a_note() -> None:
    right, wrong = (case_of(POND.format(word)) for word in ("nine", "sixteen"))
    finding = Finding(echoes.NAME, "error", 6, 1, "", "", "two places differ", "")
    certain = Finding("true arithmetic", "error", 6, 1, "", "", "not true", "")
    assert [found.level for found in asked_twice(right, [finding, certain])] == ["note", "error"]
    assert [found.level for found in asked_twice(wrong, [finding, certain])] == ["error", "error"]


def test_in_a_few_words_nothing_is_certain() -> None:
    text = "---\ntitle: T\n---\n[show dots: 5 dots]\nFive frogs. And sixteen frogs. Five frogs.\n"
    assert [f.level for f in check(read(text)).findings if f.rule == unexpected.NAME and f.level == "error"] == []


def _benchmark() -> ModuleType:
    pytest.importorskip("sklearn", reason="scikit-learn is in the extra bench")
    sys.path.insert(0, str(BENCHMARKS))
    try:
        spec = importlib.util.spec_from_file_location("expect_benchmark", BENCHMARKS / "expect.py")
        assert spec is not None and spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[spec.name] = module
        spec.loader.exec_module(module)
        return module
    finally:
        sys.path.remove(str(BENCHMARKS))


def test_the_written_trees_judge_as_scikit_learn_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Against `HistGradientBoostingClassifier.decision_function` of scikit-learn, on invented traits."""
    module = _benchmark()
    chance = np.random.default_rng(3)
    rows = chance.normal(size=(600, len(NAMES)))
    slips = rows[:, 0] + rows[:, 1] * rows[:, 2] > 0.3
    sample = module.Sample(
        "x",
        [tuple(row) for row in rows[~slips]],
        [module.Change(False, [tuple(row)], 0) for row in rows[slips]],
    )
    model = module.learn_trees([sample], trees=12, leaves=6)
    monkeypatch.setattr(module, "LEARNED", tmp_path)
    module.write({"far1": 0.5}, model)
    told = json.loads((tmp_path / "trees.json").read_text(encoding="utf-8"))
    mine = Judge(told["start"], tuple(Tree(*(tuple(column) for column in tree)) for tree in told["trees"]))
    assert [mine.doubt(row) for row in rows[:50]] == pytest.approx(list(model.decision_function(rows[:50])), abs=2e-2)


def test_the_learned_weights_favour_what_is_always_right() -> None:
    """Two clues, one that always points to the number that is said and one that never does."""
    module = _benchmark()
    places = [(value, {value: Counter(["good"]), value + 1: Counter(["bad"]), 20: Counter()}) for value in range(12)]
    learned = module.learn_weights(places)
    assert learned["good"] > 0.5 > -0.5 > learned["bad"]
