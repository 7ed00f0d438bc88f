"""How many slips the check finds in small pieces of arithmetic, each worded in another way.

    python benchmarks/sayings.py              # every number of every saying in benchmarks/sayings to one other value
    python benchmarks/sayings.py FILE ...     # those of other files

A line of a file is a kind, a tab, and what is said: one to four sentences, complete in themselves and true ("part", "What must I add to
nine to have twelve? [wait 5 s] Three."). Each file is by another hand. Five of a file are put into one lesson, each in a segment of its
own. What was learned from lessons knows many a wording in a lesson of which it knows the rest; this asks whether the wording is understood.
`benchmarks/ordered.py` learns from these, but for the files whose names begin with "unlearned".
"""

from __future__ import annotations

import argparse
import random
import sys
import zlib
from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from agreement import changed, segment_lines, spots

from studio.agree import check
from studio.errors import UnusableInput
from studio.script.reader import read

FOLDER = Path(__file__).parent / "sayings"
TOGETHER = 5
HEAD = "---\ntitle: At the pond\ngrade: 1\n---\n"
SIGNS = "Frogs", "Ducks", "Otters", "Snails", "Lily pads"
Saying = tuple[str, str]


def sayings(file: Path) -> list[Saying]:
    """The kinds and the words of the sayings in a file."""
    rows = (line.split("\t", 1) for line in file.read_text(encoding="utf-8").splitlines() if "\t" in line)
    return [(kind, said) for kind, said in rows]


def scripts(file: Path, seed: int = 0) -> Iterator[tuple[str, Sequence[Saying]]]:
    """Lesson scripts of a few sayings each, in an order that has nothing to do with that in the file."""
    found = sayings(file)
    random.Random(f"{file.name} {seed}").shuffle(found)
    for at in range(0, len(found), TOGETHER):
        some = found[at : at + TOGETHER]
        yield HEAD + "".join(f"\n# {SIGNS[index]}\n\n[clear] {said}\n" for index, (_, said) in enumerate(some)), some


def found_in(script: tuple[str, Sequence[Saying]]) -> list[tuple[str, bool, int, int, int]]:
    """For each saying of a script its kind, whether it is minded as it is, how many numbers were changed, in how many of them an error
    was found, and in how many at least a note that was not there before."""
    text, some = script
    lesson = read(text, "sayings.lesson.md")
    findings = check(lesson).findings
    chance = random.Random(zlib.crc32(text.encode()))
    all_spots = [spot for spot in spots(text, lesson) if spot.where != "title"]
    rows = []
    for index, (kind, _) in enumerate(some):
        within = segment_lines(lesson, index, text.count("\n") + 1)
        before = [finding for finding in findings if finding.line in within]
        errors = told = many = 0
        for spot in all_spots:
            if spot.segment != index:
                continue
            many += 1
            value = chance.choice([value for value in range(21) if value != spot.value])
            try:
                after = check(read(changed(text, spot, value), "sayings.lesson.md")).findings
            except UnusableInput as unusable:
                found = any(problem.line in within for problem in unusable.problems)
                errors, told = errors + found, told + found
                continue
            after = [finding for finding in after if finding.line in within]
            found = any(finding.level == "error" for finding in after)
            errors, told = errors + found, told + (found or len(after) > len(before))
        rows.append((kind, any(finding.level != "note" for finding in before), many, errors, told))
    return rows


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("files", type=Path, nargs="*", default=sorted(FOLDER.glob("*.txt")))
    options = parser.parse_args()
    with ProcessPoolExecutor(2) as pool:
        work = [script for file in options.files for script in scripts(file)]
        rows = [row for found in pool.map(found_in, work, chunksize=2) for row in found]
    total: dict[str, Counter[str]] = {}
    for kind, minded, many, errors, told in rows:
        for name in (kind, "all"):
            counted = {"sayings": 1, "minded": minded, "changed": many, "errors": errors, "told": told}
            total.setdefault(name, Counter()).update(counted)
    for name, sums in sorted(total.items()):
        print(f"{name}: {sums['sayings']} sayings, {sums['minded']} minded; of {sums['changed']} changed numbers "
              f"{100 * sums['errors'] / max(1, sums['changed']):.1f} % found, {100 * sums['told'] / max(1, sums['changed']):.1f} % with notes")  # fmt: skip
    return 0


if __name__ == "__main__":
    sys.exit(main())
