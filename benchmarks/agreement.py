"""How well the agreement check tells right lessons from wrong ones, and how fast it is.

    python benchmarks/agreement.py                    # the lessons in benchmarks/lessons, every change
    python benchmarks/agreement.py --values 4 A.lesson.md B.lesson.md
    python benchmarks/agreement.py --lessons FOLDER   # the lessons of another folder
    python benchmarks/agreement.py --speed

Clean lessons must have no finding at level error or warning. Then every number that is said or shown is changed, one at
a time, to other values from 0 to 20, in the same form (word for word, digits for digits); the check must find an error
in the segment where the change was made. A change after which the script cannot be read counts as found. Numbers that take
no part in arithmetic or a picture ("number one rule", "half past six") are not changed: `free.csv` beside the lessons
lists them (lesson, line, word, which of the same words in that line); it was written by hand, without the checker.
"""

from __future__ import annotations

import argparse
import csv
import random
import re
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from studio.agree import check
from studio.agree.wording import spelled
from studio.errors import UnusableInput
from studio.findings import Finding
from studio.script.model import Lesson, Note, Wait
from studio.script.reader import read
from studio.talk.numbers import find_numbers, number_words

HERE = Path(__file__).parent
VALUES = range(21)


@dataclass(frozen=True)
class Spot:
    """A number in a script: text[start:end] is its form; `where` is "said", "shown" or "title"."""

    start: int
    end: int
    value: int
    where: str
    segment: int
    line: int


_IN_DIRECTION = re.compile(
    r"\d+|\b(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[- ](?:one|two|three|four|five|six|seven|eight|"
    r"nine))?|zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|"
    r"seventeen|eighteen|nineteen)\b",
    re.I,
)


def spots(text: str, lesson: Lesson) -> Iterator[Spot]:
    """Every number in a script that can be changed."""
    lines = text.split("\n")
    offsets = [0]
    for line in lines:
        offsets.append(offsets[-1] + len(line) + 1)
    for number in find_numbers(lesson.words):
        if number.form not in ("word", "digits"):
            continue
        first, last = lesson.words[number.start], lesson.words[number.end - 1]
        start = offsets[first.place.line - 1] + first.place.column - 1
        end = offsets[last.place.line - 1] + last.place.column - 1
        match = re.compile(r"[^\W_]+(?:-[^\W_]+)*").match(text, end)
        if match is None or number_words(text[start : match.end()].replace("\n", " ")) != number.value:
            continue
        yield Spot(start, match.end(), number.value, "said", first.segment, first.place.line)
    for direction in lesson.directions:
        if isinstance(direction, Note | Wait):
            continue
        start = offsets[direction.place.line - 1] + direction.place.column - 1
        opened = text.find(direction.text[:12], start)
        kind = re.compile(r"\s*show\s+[^:\]]*:", re.I).match(text, opened)
        begin = kind.end() if kind else text.find(":", opened)
        stop = opened + len(direction.text)
        named = re.search(r"\bas\b[^\]]*$", text[begin:stop])
        for match in _IN_DIRECTION.finditer(text, max(begin, opened), begin + named.start() if named else stop):
            value = int(match[0]) if match[0].isdigit() else number_words(match[0])
            if value is not None:
                yield Spot(match.start(), match.end(), value, "shown", direction.segment, direction.place.line)
    for segment in lesson.segments:
        if segment.place.line and lines[segment.place.line - 1].startswith("#"):
            for match in _IN_DIRECTION.finditer(lines[segment.place.line - 1]):
                value = int(match[0]) if match[0].isdigit() else number_words(match[0])
                if value is not None:
                    start = offsets[segment.place.line - 1] + match.start()
                    yield Spot(start, start + len(match[0]), value, "title", segment.index, segment.place.line)


def changed(text: str, spot: Spot, value: int) -> str:
    """The script with another number in that spot."""
    old = text[spot.start : spot.end]
    new = str(value) if old[0].isdigit() else spelled(value)
    if old[:1].isupper():
        new = new[:1].upper() + new[1:]
    return text[: spot.start] + new + text[spot.end :]


def segment_lines(lesson: Lesson, segment: int, count: int) -> range:
    starts = [part.place.line for part in lesson.segments]
    end = starts[segment + 1] if segment + 1 < len(starts) else count + 1
    return range(starts[segment] if segment else 0, max(end, starts[segment] + 1))


def caught(text: str, lines: range) -> bool:
    """Whether the check finds an error within these lines."""
    try:
        findings: tuple[Finding, ...] = check(read(text)).findings
    except UnusableInput as unusable:
        return any(problem.line in lines for problem in unusable.problems)
    return any(finding.level == "error" and finding.line in lines for finding in findings)


def free(path: Path) -> set[tuple[int, str, int]]:
    """Line, word and occurrence of the numbers of a lesson that take no part (empty where there is no list)."""
    table = path.parent / "free.csv"
    if not table.exists():
        return set()
    with table.open(encoding="utf-8", newline="") as rows:
        return {
            (int(row["line"]), row["word"].lower(), int(row["occurrence"]))
            for row in csv.DictReader(rows)
            if row["lesson"] == path.name
        }


def takes_part(text: str, spot: Spot, left_out: set[tuple[int, str, int]]) -> bool:
    """Whether a number is not in the list of those that take no part. Words in directions do not count as occurrences."""
    if not left_out or spot.where == "shown":
        return True
    word = text[spot.start : spot.end].lower()
    begin = text.rfind("\n", 0, spot.start) + 1
    before = re.sub(r"\[[^\]]*\]?", "", text[begin : spot.start]).lower()
    occurrence = len(re.findall(rf"(?<![\w-]){re.escape(word)}(?![\w-])", before)) + 1
    return (spot.line, word, occurrence) not in left_out


@dataclass
class Result:
    name: str
    words: int
    alarms: list[str]
    tried: Counter[str]
    found: Counter[str]
    missed: dict[Spot, list[int]]
    text: str


def sweep(path: Path, count: int, seed: int, only_line: int) -> Result:
    """Check a lesson clean, then with every number changed to `count` of the other values."""
    text = path.read_text(encoding="utf-8").replace("\r\n", "\n")
    lesson = read(text, path.name)
    alarms = [
        f"{path.name}:{finding.line}: {finding.level} {finding.rule}: {finding.message}"
        for finding in check(lesson).findings
        if finding.level != "note"
    ]
    result = Result(path.name, len(lesson.words), alarms, Counter(), Counter(), {}, text)
    chance = random.Random(seed)
    left_out = free(path)
    for spot in spots(text, lesson):
        if (only_line and spot.line != only_line) or not takes_part(text, spot, left_out):
            continue
        lines = segment_lines(lesson, spot.segment, text.count("\n") + 1)
        values = [value for value in VALUES if value != spot.value]
        for value in values if count >= len(values) else sorted(chance.sample(values, count)):
            result.tried[spot.where] += 1
            if caught(changed(text, spot, value), lines):
                result.found[spot.where] += 1
            else:
                result.missed.setdefault(spot, []).append(value)
    return result


def speed() -> None:
    """Time of the check for scripts of 2,500 to 100,000 words."""
    texts = [path.read_text(encoding="utf-8") for path in sorted((HERE / "lessons").glob("*.lesson.md"))]
    bodies = [text.split("---\n", 2)[2] for text in texts]
    print(f"{'words':>8} {'seconds':>9} {'ms per 2,500 words':>20}")
    for wanted in (2_500, 5_000, 10_000, 20_000, 50_000, 100_000):
        script, words = "---\ntitle: Speed\n---\n", 0
        while words < wanted:
            for _index, body in enumerate(bodies):
                script += "\n[clear]\n" + body
                words += len(re.sub(r"\[[^\]]*\]", "", body).split())
                if words >= wanted:
                    break
        lesson = read(script)
        best = min(_timed(lesson) for _ in range(3))
        print(f"{len(lesson.words):>8} {best:>9.3f} {best / len(lesson.words) * 2_500_000:>20.1f}")


def _timed(lesson: Lesson) -> float:
    start = time.perf_counter()
    check(lesson)
    return time.perf_counter() - start


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("lessons", nargs="*", type=Path, help="lesson scripts (default: benchmarks/lessons)")
    parser.add_argument("--lessons", dest="folder", type=Path, default=HERE / "lessons",
                        help="a folder of lesson scripts")  # fmt: skip
    parser.add_argument("--values", type=int, default=20, help="how many other values to try for each number (20: all)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--line", type=int, default=0, help="only numbers on this line")
    parser.add_argument("--misses", type=int, default=200, help="how many misses to print")
    parser.add_argument("--speed", action="store_true", help="measure the time of the check instead")
    options = parser.parse_args()
    if options.speed:
        speed()
        return 0
    paths = options.lessons or sorted(options.folder.glob("*.lesson.md"))
    jobs = [(path, options.values, options.seed, options.line) for path in paths]
    with ProcessPoolExecutor(options.jobs) as pool:
        results = list(pool.map(sweep, *zip(*jobs, strict=True)))
    alarms = [alarm for result in results for alarm in result.alarms]
    printed = 0
    for result in results:
        lines = result.text.split("\n")
        for spot, values in result.missed.items():
            if printed < options.misses:
                print(
                    f"MISS {result.name}:{spot.line} {spot.where} {spot.value} -> {values}: {lines[spot.line - 1].strip()}"
                )
            printed += 1
    for alarm in alarms:
        print("ALARM", alarm)
    tried, found = Counter[str](), Counter[str]()
    for result in results:
        tried += result.tried
        found += result.found
        share = 100 * result.found.total() / max(1, result.tried.total())
        print(f"{result.name:40} {result.words:5} words  {result.tried.total():6} changes  {share:6.2f} % found")
    for where in tried:
        print(f"{where}: {found[where]} of {tried[where]} found, {100 * found[where] / tried[where]:.2f} %")
    print(f"{len(results)} lessons, {len(alarms)} false alarms; {found.total()} of {tried.total()} changes found, "
          f"{100 * found.total() / max(1, tried.total()):.2f} %")  # fmt: skip
    return 1 if alarms else 0


if __name__ == "__main__":
    sys.exit(main())
