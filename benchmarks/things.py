"""The words that name many things ("mushrooms"), learned for the rule `studio/agree/rules/one_and_many.py`.

    python benchmarks/things.py measure   # learn from one half of the lessons, look for "one mushrooms" in the other
    python benchmarks/things.py fit       # learn from all, write studio/agree/things.txt

The lessons in benchmarks/lessons and benchmarks/unlearned are right, so a word with an s at its end that stands behind numbers again and
again, and never behind "one", names many things. Words that are as often something that someone does ("it hops") are left out.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

from studio.agree.reading import case_of
from studio.agree.rules.one_and_many import THINGS, named_behind, odd_ones
from studio.files import write_text
from studio.script.reader import read
from studio.talk.model import Number

HERE = Path(__file__).parent
LESSONS = 2  # in which a thing is counted at least
DOING = 0.15  # how often at most it is something that someone does, for each time that it is counted
_HE = frozenset("it which who he she what i".split())
_WE = frozenset("we you they i let's can will would could must who don't".split())
_SHORT = 3  # letters


@dataclass
class Seen:
    """Of a lesson: its file, its numbers with the words behind them, how often a word with an s at its end is something done."""

    name: str
    named: list[tuple[Number, str]]
    done: Counter[str] = field(default_factory=Counter)


def seen(path: Path) -> Seen:
    case = case_of(read(path.read_text(encoding="utf-8"), path.name))
    found = Seen(path.name, [*named_behind(case)])
    for before, word in pairwise(word.plain for word in case.talk.words):
        if before in _WE:
            found.done[word + "s"] += 1
        if before in _HE:
            found.done[word] += 1
    return found


def _is_plural(word: str) -> bool:
    return len(word) > _SHORT and word.isalpha() and word.endswith("s") and not word.endswith(("ss", "us", "is"))


def _many(lesson: Seen) -> list[str]:
    """The plurals behind numbers over one."""
    return [word for number, word in lesson.named if number.value != 1 and _is_plural(word)]


def things(lessons: Iterable[Seen]) -> frozenset[str]:
    """The words that name many things."""
    times, within, done, one = Counter[str](), Counter[str](), Counter[str](), set[str]()
    for lesson in lessons:
        many = _many(lesson)
        times.update(many)
        within.update(set(many))
        done.update(lesson.done)
        one.update(word for number, word in lesson.named if number.value == 1)
    return frozenset(
        word
        for word, lessons_with in within.items()
        if lessons_with >= LESSONS and word not in one and done[word] <= DOING * times[word]
    )


def measure(lessons: Sequence[Seen]) -> None:
    """How many of the things of lessons are known from other lessons, and what is minded there."""
    for at in range(2):
        known, others = things(lessons[at::2]), lessons[1 - at :: 2]
        plurals = [word for lesson in others for word in _many(lesson)]
        share = sum(word in known for word in plurals) / len(plurals)
        print(f"{len(known)} things; {100 * share:.1f} % of {len(plurals)} in other lessons are known")
        for lesson in others:
            for number, thing in odd_ones(lesson.named, known):
                print(f"{lesson.name}:{number.line} {number.text} {thing}")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    options = parser.parse_args()
    paths = sorted(path for folder in ("lessons", "unlearned") for path in (HERE / folder).glob("*.lesson.md"))
    with ProcessPoolExecutor(2) as pool:
        lessons = list(pool.map(seen, paths, chunksize=16))
    if options.what == "measure":
        measure(lessons)
    else:
        found = things(lessons)
        write_text(THINGS, "\n".join(sorted(found)) + "\n")
        print(f"{len(found)} things; {THINGS} written")
    return 0


if __name__ == "__main__":
    sys.exit(main())
