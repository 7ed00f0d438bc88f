"""Rounds of calls, each answered with its partner."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.agree.rules.rounds import NAME
from studio.agree.wording import spelled
from tests.agree.minded import advice

WAIT = "[wait 3 s] "


def minded(talk: str) -> list[str]:
    return advice(talk.replace("…", WAIT), NAME)


@pytest.mark.parametrize(
    ("talk", "better"),
    [
        ("Partners of ten. Nine! … One. Three! … Seven. Eight! … Four. Good.", "Say two, or change what you call."),
        ("I hide some of my seven shells. Five lie here; how many in the sack? … Two. I see three. How many are hidden? … "
         "One. I see six. … One.", "Say four, or change what you call."),
        ("Ten toes. Wiggle one. Who keeps still? … Nine. Hide four under the rug. What is out? … Six. Hide seven of the "
         "ten. … Five are out.", "Say three, or change what you call."),
        ("Find the partner in nine! Two? … Seven. Four? … Fourteen!", "Say five, or change what you call."),
    ],
)  # fmt: skip
def test_an_answer_that_is_no_partner_is_minded(talk: str, better: str) -> None:
    assert minded(talk) == [better]


@pytest.mark.parametrize(
    "talk",
    [
        "Partners of ten. Nine! … One. Three! … Seven. Eight! … Two. Good.",
        # two rounds, of five and of ten
        "Make five. Four? … One. Two? … Three. Now make ten. Three? … Seven. Nine? … One. Five? … Five.",
        # doubles, neighbours and counts between partners
        "Partners of ten. Nine! … One. Three! … Seven. And double four? … Eight.",
        "Partners of ten. Nine! … One. Three! … Seven. What is one more than ten? … Eleven.",
        "Partners of ten. Nine! … One. Three! … Seven. Count on from six! … Seven, eight, nine, ten.",
        "Partners of ten. Nine! … One. Three! … Seven. On by twos from two! … Four, six, eight, ten.",
        # both parts are told
        "Partners of ten. Nine! … One. Three! … Seven. Two parts? … I notice six and four.",
        # what goes away, and groups
        "Partners of ten. Nine! … One. Three! … Seven. Take away two more! … Five.",
        "Partners of ten. Nine! … One. Three! … Seven. How many groups of two? … Four.",
        # the partner comes a little later
        "Partners of ten. Nine! … One. Three! … Seven. Eight! … Three? No. Two.",
        # nothing tells of what whole the round is
        "Two frogs hop in. … Five frogs. Four ducks swim. … Three ducks. One otter. … Nine fish.",
    ],
)
def test_other_answers_between_partners_are_let_be(talk: str) -> None:
    assert not minded(talk)


def test_a_round_that_is_answered_wrongly_on_purpose_is_let_be() -> None:
    talk = "Partners of ten. Nine! … One. Three! … Seven.\n\n[note: on purpose, they correct me] Eight! … Four.\n"
    assert not minded(talk)


@given(st.integers(4, 20), st.data())
def test_of_all_rounds_none_is_minded_until_an_answer_is_too_much(whole: int, data: st.DataObject) -> None:
    called = data.draw(st.lists(st.integers(1, whole - 1), min_size=3, max_size=6, unique=True))
    asked = [f"{spelled(one).capitalize()}! … {spelled(whole - one).capitalize()}." for one in called]
    assert not minded(f"Partners of {spelled(whole)}. {' '.join(asked)}")
    asked[-1] = f"{spelled(called[-1]).capitalize()}! … {spelled(101)}."
    assert minded(f"Partners of {spelled(whole)}. {' '.join(asked)}")
