"""Whatever is said about numbers, and however a script was muddled while it was written, the check answers. Wordings: common practice, no
source; the scripts are those of `benchmarks/unlearned`, muddled."""

from __future__ import annotations

import random
import re
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from studio.agree.check import rules_findings
from studio.agree.reading import case_of
from studio.errors import UnusableInput
from studio.script.reader import read
from studio.talk.numbers import find_numbers, words_of
from studio.talk.statements import find_statements

SCRIPTS = sorted((Path(__file__).parents[2] / "benchmarks" / "unlearned").glob("*.lesson.md"))[::25]

NUMBERS = st.sampled_from(
    [
        *"zero one two three seven ten eleven twenty twenty-one fifty 0 3 7 12 48 none".split(),
        "a hundred",
        "a dozen",
        "a pair",
    ]
)
THINGS = "||| frogs| tens| ones| ten| one| dots| more| more frogs| fives| little otters| left".split("|")
TERMS = st.one_of(
    st.tuples(NUMBERS, st.sampled_from(THINGS)).map("".join),
    st.tuples(NUMBERS, NUMBERS, st.sampled_from((
        "double {}", "half of {} tens", "another {}", "{} tens and {} ones", "one ten and {} ones", "one more than {}", "{} less than {}",
        "the difference between {} and {}", "the sum of {} and {}", "{} from {}", "what", "some number", "how many", "the missing part",
        "the number after {}", "{} short of {}", "{} groups of {}", "{} plates with {} each", "take {} from {}", "add {} to {}", "{} {}",
    ))).map(lambda made: made[2].format(*made[:2])),
)  # fmt: skip
JOINS = st.sampled_from(" and | plus | minus |, | take away | with | less |. | and the new | and another |, and | or |; |: | … | + | - ".split("|"))  # fmt: skip
SIGNS = st.sampled_from(
    (" is | are | makes | equals |, that is |. That makes |? | leaves | is not | is more than | is the same as | means |, so it is |"
     " becomes | turns into |, which is |, and those are | needs | goes with | gets to | has | and there is | and I have |, because |"
     " differs from | comes between ").split("|")
)  # fmt: skip
STARTS = st.sampled_from(
    "||So |If |How many is |What is |Is |With |From |The |Partners of ten: |The family of ".split("|")
)
ENDS = st.sampled_from(
    ".|?|!|| in all.| is what?| and one more is what?| apart.| each.|, isn't it?|? No.|. Right!".split("|")
)


def joined(parts: list[str], between: list[str]) -> str:
    return "".join(part + join for part, join in zip(parts, [*between, ""], strict=False))


SIDES = st.tuples(st.lists(TERMS, min_size=1, max_size=5), st.lists(JOINS, min_size=4, max_size=4)).map(
    lambda made: joined(*made)
)
SENTENCES = st.tuples(
    STARTS,
    st.tuples(st.lists(SIDES, min_size=1, max_size=4), st.lists(SIGNS, min_size=3, max_size=3)).map(
        lambda made: joined(*made)
    ),
    ENDS,
).map("".join)


@given(st.lists(SENTENCES, min_size=1, max_size=4).map(" ".join))
@example("Five plus five is eight plus one plus one more is what?")
@example("Five is less than ten more is what?")
@settings(max_examples=600, deadline=None)
def test_any_arithmetic_is_read(text: str) -> None:
    words = words_of(text)
    for statement in find_statements(words, find_numbers(words)):
        assert 0 <= statement.start < statement.end <= len(words)


def muddled(chance: random.Random, text: str) -> str:
    """A script some of whose lines were lost, doubled, changed about, or taken from another, or have other numbers or words in them."""
    _, head, body = text.split("---\n", 2)
    lines = body.split("\n")
    for _ in range(chance.choice((1, 3, 8, 20))):
        at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(6):
            case 0 if len(lines) > 1:
                del lines[at]
            case 1:
                lines.insert(other, lines[at])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                words = lines[at].split(" ")
                words[chance.randrange(len(words))] = chance.choice(
                    "zero one two seven ten twenty hundred a what none".split()
                )
                lines[at] = " ".join(words)
            case 4:
                lines[at] = re.sub(
                    r"\b\d+\b", lambda _: str(chance.choice((0, 1, 5, 10, 11, 20, 40, 100, 120))), lines[at]
                )
            case _:
                lines.insert(
                    at,
                    chance.choice(chance.choice(SCRIPTS).read_text(encoding="utf-8").split("---\n", 2)[2].split("\n")),
                )
    return f"---\n{head}---\n" + "\n".join(lines)


@given(st.integers(0, 2**32))
@settings(max_examples=150, deadline=None)
def test_a_muddled_script_is_checked(seed: int) -> None:
    chance = random.Random(seed)
    try:
        lesson = read(muddled(chance, chance.choice(SCRIPTS).read_text(encoding="utf-8")))
    except UnusableInput as unusable:
        assert all(problem.line for problem in unusable.problems)
        return
    for finding in rules_findings(case_of(lesson)):
        assert finding.line


def test_a_number_ends_with_its_paragraph() -> None:
    """ "twenty" and "Seven" of the next paragraph are no twenty-seven."""
    lesson = read(
        "---\ntitle: Pond\n---\n\n# Frogs\n\nWe have counted to twenty\n\nSeven frogs are left on a hundred\n\n# More\n\nFive come."
    )
    assert [number.value for number in find_numbers(lesson.words)] == [20, 7, 100, 5]
