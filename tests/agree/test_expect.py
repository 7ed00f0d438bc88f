"""What number is to be expected at a place, and when another is a slip."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import softmax

from studio.agree import check, second_opinion
from studio.agree.expect import suspicion, trial
from studio.agree.expect.clues import clues
from studio.agree.expect.company import PAIRS
from studio.agree.expect.doubt import FIRST, Judge, Tree, judge
from studio.agree.expect.expectation import Expectation, expectation, pointing
from studio.agree.expect.families import FAMILIES
from studio.agree.expect.network import FAMILY, SURE, Network, Pointing, load, network
from studio.agree.expect.oddness import oddness
from studio.agree.expect.place import Book, Place, link
from studio.agree.expect.pointing import COMMON, EDGE, itself
from studio.agree.expect.relations import GREATEST, NONE, TO_ONE, to_one, to_two
from studio.agree.expect.rows import Rows
from studio.agree.expect.shown import families as shown_families
from studio.agree.expect.shown import suspects as shown
from studio.agree.expect.shown.slots import slots
from studio.agree.expect.spoken import HEADS
from studio.agree.expect.surroundings import tokens
from studio.agree.expect.suspects import TRAITS as SAID_TRAITS
from studio.agree.expect.suspects import judged, suspects
from studio.agree.expect.titled import suspects as titled
from studio.agree.expect.titled.place import places as titled_places
from studio.agree.reading import listen_to
from studio.agree.rules import echoes, unexpected, unexpected_shown
from studio.agree.second_opinion import asked_twice
from studio.findings import Finding
from studio.script.reader import read
from tests.agree.minded import case_of
from tests.programs import program

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
    learned = network("said")
    pointed = pointing([place], learned)
    return expectation(learned, pointed, learned.scores(pointed), 0)


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


STORY = """---
title: Frogs on a log
---
# Partners of {0}
[show number bond: 8 is 6 and 2]
The number of the day is {1}. Eight is six and two.
# A story
[clear]
Six frogs sat on a log. {2} more frogs joined them. How many frogs are on the log now? [wait 4 s]
[show dots: 6 dots as log] Six frogs. [log: add 2 crosses, counting] Seven, eight. {3} frogs are on the log.
"""


@pytest.mark.parametrize(("blank", "wrong"), [(1, "five"), (2, "Nine"), (3, "Zero")])
def test_no_number_speaks_for_itself(blank: int, wrong: str) -> None:
    """What points to a number at a place is the same whether it stands there or another."""
    words = ["eight", "eight", "Two", "Eight"]
    slipped = [*words[:blank], wrong, *words[blank + 1 :]]
    as_it_is, changed = (Book(case_of(STORY.format(*said))) for said in (words, slipped))
    assert len(as_it_is.numbers) == len(changed.numbers)
    index = next(at for at, (one, other) in enumerate(zip(as_it_is.numbers, changed.numbers, strict=True))
                 if one.value != other.value)  # fmt: skip
    stated = {"true", "last", "expc", "expd", "sans"}  # no statement of it may be left
    before, after = ({(value, name) for value, name in clues(Place(book, index)) if name.split(":")[0] not in stated}
                     for book in (as_it_is, changed))  # fmt: skip
    assert after - before == set()


@pytest.mark.parametrize(
    "talk", ["Five, {}, nine.", "I see {} frogs and two ducks.", "It is {}!", "Two and {} and four ducks."]
)
@pytest.mark.parametrize(("said", "slip"), [("three", "zero"), ("seventeen", "six"), ("Zero", "Eleven")])
def test_the_words_around_a_number_do_not_tell_it(talk: str, said: str, slip: str) -> None:
    """Once its own word was one of those of its sentence, and a slip was expected because it was said."""
    around = []
    for word in (said, slip):
        book = Book(case_of(f"---\ntitle: Pond\n---\n# Frogs\nWe look. {talk.format(word)} Good.\n"))
        index = [number.start for number in book.numbers].index(
            2 + talk.split().index(next(w for w in talk.split() if "{}" in w))
        )
        stated = ("in ", "statements ")  # statements that the number makes true, or hides
        around.append(sorted(name for name in tokens(Place(book, index)) if not name.startswith(stated)))
    assert around[0] == around[1]


def test_a_slip_is_an_error_that_names_what_was_to_be_expected() -> None:
    assert not [finding for finding in check(read(POND.format("nine"))).findings if finding.level == "error"]
    found = [f for f in check(read(POND.format("sixteen"))).findings if f.rule == unexpected.NAME]
    assert [(finding.level, finding.said, finding.line) for finding in found] == [("error", "sixteen", 6)]
    assert "says 16" in found[0].message
    assert "9" in found[0].help


def test_a_note_on_purpose_leaves_a_slip_alone() -> None:
    text = POND.format("sixteen").replace("Two more ducks", "[note: on purpose: who sees it?] Two more ducks")
    assert not [f for f in check(read(text)).findings if f.rule == unexpected.NAME and f.level == "error"]


def test_the_probability_is_the_softmax_of_the_scores() -> None:
    """Against scipy.special.softmax; the model is a conditional logit (McFadden 1974)."""
    place = place_of(POND.format("sixteen"), 16)
    pointed = pointing([place], network("said"))
    chances = dict(zip(pointed.values.items.tolist(), softmax(network("said").scores(pointed).scores), strict=True))
    found = expected(place)
    assert set(COMMON) < set(chances)
    assert found.surprise == pytest.approx(-np.log(chances[16]), rel=1e-4)
    assert dict(found.likely)[9] == pytest.approx(chances[9], rel=1e-4)


def test_places_are_scored_alike_together_and_one_by_one() -> None:
    case = case_of(POND.format("nine"))
    book = Book(case)
    places = [Place(book, index) for index in range(len(book.numbers))] * 20
    pointed = pointing(places, network("said"))
    together = network("said").scores(pointed)
    for at, found in enumerate(np.split(together.scores, pointed.values.ends[1:-1])[: len(book.numbers) + 1]):
        one = pointing([places[at]], network("said"))
        assert network("said").scores(one).scores == pytest.approx(found, abs=1e-3)


@pytest.mark.parametrize("text", [POND.format("sixteen"), POND.format("999,999,999,999,999,999,999,999")])
def test_a_network_reads_of_each_number_the_clues_that_it_knows(text: str) -> None:
    """The numbers of all places together against each place by itself; a number may be of any size."""
    learned = network("said")
    names, words = list(learned.clue), list(learned.token)
    book = Book(case_of(text))
    places = [Place(book, index) for index in range(len(book.numbers))]
    pointed = pointing(places, learned)
    for at, place in enumerate(places):
        own = place.number.value
        wanted = {value: Counter([itself(value)]) for value in (own, *COMMON)}
        for value, name in clues(place):
            if value == own or 0 <= value <= GREATEST:
                wanted.setdefault(value, Counter([itself(value)])).update([name] if name in learned.clue else [])
        numbers = range(*pointed.values.ends[at : at + 2])
        found = [Counter(names[clue] for clue in pointed.clues.row(number)) for number in numbers]
        assert found[0] == wanted.pop(own)
        read = dict(zip(pointed.values.row(at)[1:].tolist(), found[1:], strict=True))
        assert read == {value: wanted[value] for value in read}
        assert all(list(rest) == [itself(value)] for value, rest in wanted.items() if value not in read)
        around = Counter(name for name in (EDGE, *tokens(place)) if name in learned.token)
        assert Counter(words[token] for token in pointed.tokens.row(at)) == around


@pytest.mark.parametrize("what", ["said", "shown", "titled"])
def test_numbers_are_scored_as_the_formula_says(what: str) -> None:
    """The sums and products of `studio/agree/expect/network.py` and `spoken.py` written out for one number after the other."""
    learned = network(what)
    case = case_of(SHOWN.format(6))
    book = Book(case)
    pointed = {
        "said": lambda: pointing([Place(book, index) for index in range(len(book.numbers))], learned),
        "shown": lambda: shown.pointing(shown.places(case), learned),
        "titled": lambda: titled.pointing(
            titled_places(case_of(SHOWN.format(6).replace("number", "number 5"))), learned
        ),
    }[what]()
    found = np.split(learned.scores(pointed).scores, pointed.values.ends[1:-1])
    all_of = [np.split(_scores(member, pointed), pointed.values.ends[1:-1]) for member in learned.members]
    for of_place, *scores in zip(found, *all_of, strict=True):
        first = scores[0]
        sure = first[0] - max(first[1:]) >= SURE
        assert of_place == pytest.approx(first if sure else np.mean(scores, axis=0), abs=1e-3)


def test_all_members_are_asked_about_a_number_that_the_first_does_not_expect() -> None:
    text = POND.format("sixteen") * 2
    book = Book(case_of(text))
    places = [Place(book, index) for index in range(len(book.numbers))]
    asked = network("said").scores(pointing(places, network("said"))).asked.tolist()
    members = len(network("said").members)
    assert set(asked) == {1, members}
    assert all(many == members for place, many in zip(places, asked, strict=True) if place.number.value == 16)


def _scores(member: dict[str, Any], pointed: Pointing) -> list[float]:
    a = {name: array.astype(float) for name, array in member.items()}
    wanted = []
    for place in range(len(pointed.values)):
        around = a["tokens"][pointed.tokens.row(place)].sum(axis=0)
        around = around + np.maximum(around @ a["mix"] + a["mix_bias"], 0) @ a["mixed"]
        spoken = _spoken(a, pointed, place, around)
        for number in range(*pointed.values.ends[place : place + 2]):
            clues = pointed.clues.row(number)
            summed = a["clues"][clues].sum(axis=0)
            first = summed @ a["clue_layer"] + around @ a["token_layer"] + a["bias"]
            score = a["worth"][clues].sum() + summed @ (around @ a["gate"])
            for (value, relation), said in spoken.items():
                if value == pointed.values.items[number]:
                    first = first + said * a["relation_layer"][relation]
                    score += said * a["relation_worth"][relation]
            first = np.maximum(first, 0)
            second = first + np.maximum(first @ a["second"] + a["second_bias"], 0)
            wanted.append(score + second @ a["last"])
    return wanted


def _spoken(a: dict[str, Any], pointed: Pointing, place: int, around: Any) -> Counter[tuple[int, int]]:
    """What the company of a place says for each number, by relation."""
    spoken: Counter[tuple[int, int]] = Counter()
    company, tokens = pointed.company, pointed.near_tokens
    if company is None or tokens is None:
        return spoken

    def vector(at: int) -> Any:
        summed = a["near_tokens"][tokens.row(at)].sum(axis=0)
        return summed + np.maximum(summed @ a["near_mix"] + a["near_mix_bias"], 0) @ a["near_mixed"]

    own = vector(company.own[place])
    seats = company.near[place].tolist()
    numbers = company.numbers[seats]
    for seat, (at, away) in enumerate(zip(seats, company.away[place].tolist(), strict=True)):
        asked = around @ a["one_place"] + a["one_bias"] + own @ a["one_own"]
        units = np.maximum(asked + vector(at) @ a["one_near"] + a["one_seat"][seat] + a["one_away"][away], 0)
        ask, answer = ((one @ a[name]).reshape(HEADS, -1) for one, name in ((own, "ask"), (vector(at), "answer")))
        says = units @ a["one"] + (ask * answer).sum(axis=1) / np.sqrt(ask.shape[1]) @ a["one_alike"]
        for relation, value in enumerate(to_one(numbers[seat : seat + 1])[0].tolist()):
            spoken[value, relation] += says[relation] * (value != NONE)
    for pair, (one, other) in enumerate(zip(*PAIRS, strict=True)):
        units = around @ a["two_place"] + a["two_seats"][pair]
        units = units + vector(seats[one]) @ a["two_first"] + a["two_first_away"][company.away[place, one]]
        units = units + vector(seats[other]) @ a["two_second"] + a["two_second_away"][company.away[place, other]]
        says = np.maximum(units, 0) @ a["two"]
        for relation, value in enumerate(to_two(numbers[one : one + 1], numbers[other : other + 1])[0].tolist()):
            spoken[value, len(TO_ONE) + relation] += says[relation] * (value != NONE)
    return spoken


@given(st.lists(st.lists(st.integers(0, 99), max_size=5), min_size=1, max_size=8), st.data())
def test_rows_are_taken_as_from_a_list_of_lists(lists: list[list[int]], data: st.DataObject) -> None:
    rows = Rows.of([item for row in lists for item in row], np.cumsum([0, *map(len, lists)]).tolist())
    which = data.draw(st.lists(st.integers(0, len(lists) - 1), max_size=9))
    where = rows.where(np.array(which, dtype=np.int32))
    assert [rows.items[where.row(at)].tolist() for at in range(len(where))] == [lists[at] for at in which]
    first = data.draw(st.integers(0, len(lists)))
    part = rows.part(first, first + 3)
    assert [part.row(at).tolist() for at in range(len(part))] == lists[first : first + 3]
    some = rows.some(np.array(which, dtype=np.int32))
    assert [some.row(at).tolist() for at in range(len(some))] == [lists[at] for at in which]
    summed = rows.summing(100) @ np.arange(100, dtype=np.float32)
    assert summed.tolist() == [sum(row) for row in lists]


def test_every_family_of_clues_was_learned() -> None:
    assert set(network("said").families.tolist()) == set(range(len(FAMILIES)))
    assert set(network("shown").families.tolist()) == set(range(len(shown_families.FAMILIES)))


def test_the_shares_add_up_to_the_lead() -> None:
    found = expected(place_of(POND.format("sixteen"), 16))
    assert len(found.shares) == len(FAMILIES) + 1
    assert sum(other - own for own, other in found.shares) == pytest.approx(found.lead, abs=1e-2)


def test_a_network_is_read_as_it_was_written(tmp_path: Path) -> None:
    network("shown").write(tmp_path / "n.npz")
    again = load(tmp_path / "n.npz", FAMILY["shown"])
    assert (again.clue, again.token) == (network("shown").clue, network("shown").token)
    for one, other in zip(network("shown").members, again.members, strict=True):
        assert all(np.array_equal(array, other[name]) for name, array in one.items())


def test_the_numbers_of_all_directions_are_in_their_slots() -> None:
    text = """---
title: T
---
[show ten frame: 4 dots and 2 crosses as frame] [frame: add 3 crosses] [frame: take away 1]
[show number bond: 9 is 7 and ?] [show number sentence: 8 + 6 = 10 + ?] [show cards: 3, 5, 8] [cards: turn over 5]
[show number line: 0 to 20, mark 12 as line] [line: hop 12 to 15] [line: mark 16] [show tally: 15] [tally: count by 5]
[show text: Day 7] [number bond: fill in 2] [number bond: circle 2]
Five, ten, fifteen.
"""
    found = [(slot.kind, slot.name, slot.value) for group in slots(read(text)) for slot in group]
    assert found == [
        ("ten frame", "dots", 4), ("ten frame", "crosses", 2), ("ten frame", "add crosses", 3), ("ten frame", "take away", 1),
        ("number bond", "whole", 9), ("number bond", "part 0", 7), ("number sentence", "term 0 0 +2", 8),
        ("number sentence", "term 0 1 +2", 6), ("number sentence", "term 1 0 +2", 10), ("cards", "item 0", 3),
        ("cards", "item 1", 5), ("cards", "item 2", 8), ("cards", "turn over", 5), ("number line", "start", 0),
        ("number line", "end", 20), ("number line", "mark", 12), ("number line", "hop from", 12), ("number line", "hop to", 15),
        ("number line", "mark", 16), ("tally", "amount", 15), ("tally", "count by", 5), ("text", "written 0", 7),
        ("number bond", "fill in", 2), ("number bond", "ring", 2),
    ]  # fmt: skip


SHOWN = """---
title: Fifteen on the pond
---
# The number of the day
[show base ten: {} as blocks] Fifteen is one ten and five ones. Ten and five make fifteen.
[hide blocks] [show tally: 15 as marks] In tallies it is three bundles. Count with me. [marks: count by 5] Five, ten, fifteen.
"""


def test_a_slip_in_a_direction_is_an_error_on_its_line() -> None:
    assert not [f for f in check(read(SHOWN.format(15))).findings if f.level == "error"]
    found = [f for f in check(read(SHOWN.format(6))).findings if f.rule == unexpected_shown.NAME]
    assert [(f.level, f.line, f.shown) for f in found] == [("error", 5, "show base ten: 6 as blocks")]
    assert "15" in found[0].help


def test_a_note_on_purpose_leaves_a_slip_in_a_direction_alone() -> None:
    text = SHOWN.format(6).replace("[show base", "[note: on purpose: who sees it?] [show base")
    assert not [f for f in check(read(text)).findings if f.rule == unexpected_shown.NAME]


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
    assert {suspect.place.number.value for suspect in suspects(case, network("said"))} <= {2, 16}


def test_the_trees_were_learned_with_the_traits_there_are_now() -> None:
    """`benchmarks/expect.py fit` must be run again when a trait or a sort of clue is added, then `benchmarks/trials.py fit`."""
    for what, names in (
        ("said", SAID_TRAITS),
        ("shown", shown.TRAITS),
        ("tried", trial.NAMES),
        ("tried_shown", trial.SHOWN_NAMES),
    ):
        learned = json.loads(files("studio.agree.expect").joinpath(f"{what}_trees.json").read_text(encoding="utf-8"))
        assert tuple(learned["traits"]) == names
    for suspect, _ in judged(case_of(POND.format("sixteen"))):
        assert len(suspect.traits) == len(SAID_TRAITS)
    for other, _ in shown.judged(case_of(SHOWN.format(6))):
        assert len(other.traits) == len(shown.TRAITS)


@given(st.lists(st.floats(-50, 400), min_size=len(SAID_TRAITS), max_size=len(SAID_TRAITS)))
def test_a_doubt_is_a_sum_over_trees_and_always_finite(traits: list[float]) -> None:
    said = judge("said")
    found = said.doubt(traits)
    first = said.start + sum(tree.worth(traits) for tree in said.trees[:FIRST])
    rest = sum(tree.worth(traits) for tree in said.trees[FIRST:])
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


def test_the_surprises_of_a_lesson_are_those_of_its_places() -> None:
    learned, book = network("said"), Book(case_of(POND.format("sixteen")))
    pointed = pointing([Place(book, at) for at in range(len(book.numbers))], learned)
    found = learned.scores(pointed)
    each = [expectation(learned, pointed, found, at).surprise for at in range(len(book.numbers))]
    assert list(found.surprises(pointed.values)) == pytest.approx(each, abs=1e-4)


def test_how_odd_the_others_are_is_told_of_each_number() -> None:
    surprises = np.array([0.1, 4.0, 2.0, 0.1, 0.1, 0.1, 0.2, 5.0])
    second, first = oddness(surprises, [1, 0])
    assert second == pytest.approx((7.6 / 7, 2 / 8, 1, 8, 1, 2.3))
    assert first == pytest.approx((11.5 / 7, 3 / 8, 2, 8, 2, 6.1))
    assert [*oddness(surprises[:1], [0])] == [(0.0, 0.0, 0, 1, 0, 0.0)]  # nothing beside it


def test_an_error_that_no_doubtful_number_supports_is_a_note() -> None:
    right, wrong = (case_of(POND.format(word)) for word in ("nine", "sixteen"))
    finding = Finding(echoes.NAME, "error", 6, 1, "", "", "two places differ", "")
    certain = [
        Finding("true arithmetic", "error", 6, 1, said, "", "not true", "")
        for said in ("7 + 2 = 8", "Seven and two make eight")
    ]
    assert [found.level for found in asked_twice(right, [finding, *certain])] == ["note", "error", "error"]
    assert [found.level for found in asked_twice(wrong, [finding, *certain])] == ["error", "error", "error"]


@pytest.mark.parametrize(
    ("doubt", "levels"), [(3.0, ["error", "note", "note"]), (4.5, ["error", "error", "note"]), (6.0, ["error"] * 3)]
)
def test_rules_that_mind_odd_manners_need_more_doubt_beside_them(
    doubt: float, levels: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    case = case_of(POND.format("nine"))
    monkeypatch.setattr(second_opinion, "_doubtful_lines", lambda case: [(6, doubt)])
    findings = [
        Finding(rule, "error", 6, 1, "7 and 9. 17", "", "two places differ", "")
        for rule in (echoes.NAME, "true arithmetic", "shown number is said")
    ]
    assert [found.level for found in asked_twice(case, findings)] == levels


def test_arithmetic_is_only_certain_in_one_sentence() -> None:
    """ "24 + 9. [hop] 34. [hop] 33." is said step by step; what it means cannot be told for certain."""
    right, wrong = (case_of(POND.format(word)) for word in ("nine", "sixteen"))
    steps = Finding("true arithmetic", "error", 6, 1, "7 + 9. 17. 16", "", "not true", "")
    assert [found.level for found in asked_twice(right, [steps])] == ["note"]
    assert [found.level for found in asked_twice(wrong, [steps])] == ["error"]


def test_an_aside_has_words_that_the_lesson_has_nowhere_else() -> None:
    case = case_of(POND.format("nine") + "My old neighbour has a goat that turned twelve yesterday.\n")
    *_, (own, long) = case.own_words
    assert own == long >= 4
    told = [case.own_words[at] for at, sentence in enumerate(case.sentences) if sentence.values == (9, 7, 2)]
    assert told and all(own == 0 for own, _ in told)


def test_the_words_of_an_aside_do_not_tell_its_number() -> None:
    """A number word is no word of its own, else a number that is said once would look like an aside."""
    right, wrong = (case_of(POND.format(word)) for word in ("nine", "seventeen"))
    assert right.own_words == wrong.own_words


def test_in_a_few_words_nothing_is_certain() -> None:
    text = "---\ntitle: T\n---\n[show dots: 5 dots]\nFive frogs. And sixteen frogs. Five frogs.\n"
    assert [f.level for f in check(read(text)).findings if f.rule == unexpected.NAME and f.level == "error"] == []


def test_the_written_trees_judge_as_scikit_learn_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Against `HistGradientBoostingClassifier.decision_function` of scikit-learn, on invented traits."""
    module = program("expect", "sklearn", "jax")
    chance = np.random.default_rng(3)
    rows = chance.normal(size=(600, len(SAID_TRAITS)))
    slips = rows[:, 0] + rows[:, 1] * rows[:, 2] > 0.3
    sample = module.Sample(
        "x",
        ([tuple(row) for row in rows[~slips]], []),
        [module.Change(False, ([tuple(row)], []), ([0], [])) for row in rows[slips]],
    )
    model = module.learn_trees([sample], 0, trees=12, leaves=6)
    monkeypatch.setattr(module, "LEARNED", tmp_path)
    module.write(model, "said", SAID_TRAITS)
    told = json.loads((tmp_path / "said_trees.json").read_text(encoding="utf-8"))
    mine = Judge(told["start"], tuple(Tree(*(tuple(column) for column in tree)) for tree in told["trees"]))
    assert [mine.doubt(row) for row in rows[:50]] == pytest.approx(list(model.decision_function(rows[:50])), abs=2e-2)


def _surprise(learned: Network, example: Any) -> tuple[float, float]:
    """How surprising the number of an example is, and the log-odds that it takes no part."""
    clues = [learned.clue[name] for names in example.clues for name in names]
    ends = np.cumsum([0, *(len(names) for names in example.clues)]).tolist()
    tokens = [learned.token[name] for name in example.tokens]
    numbers = range(len(example.clues))
    pointed = Pointing(Rows.of(numbers, [0, len(numbers)]), Rows.of(clues, ends), Rows.of(tokens, [0, len(tokens)]))
    scores = learned.scores(pointed)
    found = scores.scores
    return float(np.log(np.exp(found - found[0]).sum())), float(scores.idle[0])


def test_a_long_lesson_is_judged_alike_in_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    """A few places at a time, so that a long script needs no more memory; each keeps its company over the seams."""
    text = STORY.format("eight", "five", "Two", "Zero") + POND.format("sixteen").partition("---\n# ")[2].join(
        ["# ", ""]
    )
    assert len(Book(case_of(text)).numbers) > 10
    whole = [(one.place.number.start, one.traits) for one, _ in judged(case_of(text))]
    monkeypatch.setattr(suspicion, "_AT_ONCE", 3)
    pieces = [(one.place.number.start, one.traits) for one, _ in judged(case_of(text))]
    assert whole
    assert [at for at, _ in pieces] == [at for at, _ in whole]
    for (_, one), (_, other) in zip(whole, pieces, strict=True):
        assert one == pytest.approx(other, abs=1e-3)


def _loss(module: Any, lessons: list[Any], learned: Network, recipe: Any) -> float:
    """What the network costs in one batch, by jax, where nothing is left out."""
    parts = module.code(lessons, list(learned.clue), list(learned.token))
    (batch,) = module._batches(parts, np.random.default_rng(0), recipe)
    weights = {name: module.jnp.asarray(array) for name, array in learned.members[0].items()}
    # compiled as a whole: one operation after the other takes longer
    loss = module.jax.jit(module._loss, static_argnums=3)
    return float(loss(weights, batch, module.jax.random.PRNGKey(0), recipe))


def in_small_batches(module: Any, monkeypatch: pytest.MonkeyPatch, places: int) -> None:
    """What is learned from a few examples needs no large arrays."""
    for name in ("MOST_NUMBERS", "MOST_NEAR", "MOST_CLUES", "MOST_TOKENS", "MOST_NEAR_TOKENS"):
        monkeypatch.setattr(module, name, getattr(module, name) // module.BATCH * places)
    monkeypatch.setattr(module, "BATCH", places)


def test_the_network_reads_as_it_was_learned(monkeypatch: pytest.MonkeyPatch) -> None:
    """The scores with numpy against those with jax, by which it was learned, where nothing is left out; what is always
    right comes to be trusted, and where numbers always take no part that is foreseen."""
    module = program("network", "sklearn", "jax")
    in_small_batches(module, monkeypatch, 64)
    recipe = module.Recipe(clues_out=0, tokens_out=0, sums_out=0)
    examples = [
        module.Example(
            [["v1", "far1"], ["v2", "seg"], ["v3", "seg", "seg"]],
            np.array([1, 2, 3]),
            ["place", "asks" if turn % 2 else "tells"],
            turn % 2 == 0,
        )
        for turn in range(40)
    ]
    learned = module.learn([module.Told(examples)], FAMILY["said"], recipe)
    loss = _loss(module, [module.Told(examples)], learned, recipe)
    mine, odds = np.transpose([_surprise(learned, example) for example in examples])
    idle = np.array([example.idle for example in examples])
    unforeseen = np.log1p(np.exp(odds)) - idle * odds
    assert loss == pytest.approx(np.mean(mine) + module.IDLE * np.mean(unforeseen), rel=1e-3)
    assert np.mean(mine) < 0.5 < np.log(3)
    assert odds[idle].min() > odds[~idle].max()

    swapped = [
        replace(one, clues=[one.clues[at] for at in (1, 0, 2)], values=one.values[[1, 0, 2]]) for one in examples
    ]
    others = [module.Told(swapped)]
    names = list(learned.clue), list(learned.token)
    arrays = module.further(module.code(others, *names) * 60, learned.members[0], 1, recipe)
    further = Network.of(*names, [arrays], FAMILY["said"])
    assert _loss(module, others, further, recipe) < _loss(module, others, learned, recipe)


def test_the_company_is_read_as_it_was_learned(monkeypatch: pytest.MonkeyPatch) -> None:
    """Real lessons, read with numpy and learned with jax, in parts and whole; it learns to foresee them."""
    expect = program("expect", "sklearn", "jax")
    module = program("network", "sklearn", "jax")
    in_small_batches(module, monkeypatch, 160)
    recipe = module.Recipe(
        dimensions=16, units=16, rounds=30, rare_clue=1e-3, rare_token=1e-3, clues_out=0, tokens_out=0, sums_out=0,
        company=16, units_out=0.0, seats_out=0.0,
    )  # fmt: skip
    paths = sorted((Path(expect.HERE) / "lessons").glob("*.lesson.md"))[:2]
    lessons = [expect.examples(path)[0] for path in paths]
    for at_once in (20, 120):  # both by the same step, which takes long to compile
        monkeypatch.setattr(module, "AT_ONCE", at_once)
        learned = module.learn(lessons, FAMILY["said"], recipe)
        assert learned.has_company
        surprises, unforeseen = [], []
        for path, lesson in zip(paths, lessons, strict=True):
            book = Book(case_of(path.read_text(encoding="utf-8")))
            places = [Place(book, at) for at, number in enumerate(book.numbers) if number.start not in book.counted_at]
            pointed = pointing(places, learned)
            scores = learned.scores(pointed)
            surprises += scores.surprises(pointed.values).tolist()
            idle = np.array([one.idle for one in lesson.places])
            unforeseen += (np.log1p(np.exp(scores.idle)) - idle * scores.idle).tolist()
        wanted = np.mean(surprises) + module.IDLE * np.mean(unforeseen)
        assert _loss(module, lessons, learned, recipe) == pytest.approx(wanted, rel=2e-3)
        assert np.mean(surprises) < 1.0 < np.log(21)


def test_a_sum_that_may_be_read_as_a_count_is_looked_at() -> None:
    text = (
        "---\ntitle: T\n---\n# Twenty\nThe number of the day is twenty. [show rekenrek: 10 and 10 as beads] Ten red beads on top, and ten "
        "below. Ten and {}, twenty. [show base ten: 20] Two tens and no ones. By fives: five, ten, fifteen, twenty. One less than twenty "
        "is nineteen. Ten and ten make twenty."
    )
    assert not [one for one in check(read(text.format("ten"))).findings if one.level == "error"]
    assert [one.rule for one in check(read(text.format("fifteen"))).findings if one.level == "error"] == [
        "true arithmetic"
    ]
