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
from studio.agree.rules.one_and_many import THINGS, named_behind
from studio.files import write_text
from studio.script.reader import read

HERE = Path(__file__).parent
LESSONS = 2  # in which a thing is counted at least
DOING = 0.15  # how often at most it is something that someone does, for each time that it is counted
_HE = frozenset("it which who he she what i".split())
_WE = frozenset("we you they i let's can will would could must who don't".split())
_SHORT = 3  # letters


@dataclass
class Seen:
    """Of a lesson: the words behind numbers over one, those behind "one", how often a word with an s is something done."""

    many: Counter[str] = field(default_factory=Counter)
    one: set[str] = field(default_factory=set)
    done: Counter[str] = field(default_factory=Counter)


def seen(path: Path) -> Seen:
    lesson = read(path.read_text(encoding="utf-8").replace("\r\n", "\n"), path.name)
    case, found = case_of(lesson), Seen()
    for number, word in named_behind(case):
        if _is_plural(word):
            if number.value == 1:
                found.one.add(word)
            else:
                found.many[word] += 1
    words = [word.plain for word in case.talk.words]
    for before, word in pairwise(words):
        if before in _WE:
            found.done[word + "s"] += 1
        if before in _HE:
            found.done[word] += 1
    return found


def _is_plural(word: str) -> bool:
    return len(word) > _SHORT and word.isalpha() and word.endswith("s") and not word.endswith(("ss", "us", "is"))


def things(lessons: Iterable[Seen]) -> frozenset[str]:
    """The words that name many things."""
    times, within, done, one = Counter[str](), Counter[str](), Counter[str](), set[str]()
    for lesson in lessons:
        times.update(lesson.many)
        within.update(lesson.many.keys())
        done.update(lesson.done)
        one |= lesson.one
    return frozenset(
        word
        for word, many in within.items()
        if many >= LESSONS and word not in one and done[word] <= DOING * times[word]
    )


def odd(path: Path, known: frozenset[str]) -> tuple[int, int, list[str]]:
    """How many plurals stand behind numbers in a lesson, how many of them are known, and what the rule minds."""
    case = case_of(read(path.read_text(encoding="utf-8").replace("\r\n", "\n"), path.name))
    plurals = [word for number, word in named_behind(case) if number.value > 1 and _is_plural(word)]
    minded = [
        f"{path.name}:{number.line} {number.text} {thing}"
        for number, thing in named_behind(case)
        if number.value == 1 and thing in known
    ]
    return len(plurals), sum(word in known for word in plurals), minded


def measure(paths: Sequence[Path], pool: ProcessPoolExecutor) -> None:
    """How many of the things of lessons are known from other lessons, and what is minded there."""
    lessons = list(pool.map(seen, paths, chunksize=16))
    for at in range(2):
        known, others = things(lessons[at::2]), paths[1 - at :: 2]
        found = list(pool.map(odd, others, [known] * len(others), chunksize=16))
        of, many = sum(one[0] for one in found), sum(one[1] for one in found)
        print(f"{len(known)} things; {100 * many / of:.1f} % of {of} in other lessons are known")
        print("\n".join(text for one in found for text in one[2]))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("what", choices=("measure", "fit"))
    options = parser.parse_args()
    paths = sorted(path for folder in ("lessons", "unlearned") for path in (HERE / folder).glob("*.lesson.md"))
    with ProcessPoolExecutor(2) as pool:
        if options.what == "measure":
            measure(paths, pool)
        else:
            found = things(pool.map(seen, paths, chunksize=16))
            write_text(THINGS, "\n".join(sorted(found)) + "\n")
            print(f"{len(found)} things; {THINGS} written")
    return 0


if __name__ == "__main__":
    sys.exit(main())
