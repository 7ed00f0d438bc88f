"""What a series costs: the year's lessons and what the check finds in them, `find`, and how much of a film is reused.

python benchmarks/series.py [--lessons 180] [--grades K 1 2] [--films] [--shelf] [--reading]

`--shelf` proves every routine of the shelf with all its numbers. `--films` builds two small films without a recording
(each lesson is one routine with the camera off), one once more with a new sentence, and both once more unchanged.
"""

from __future__ import annotations

import argparse
import datetime
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

QUERIES = ("seven", "7 + 2", "number bond", "pond")


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--lessons", type=int, default=180, help="lessons of a year")
    arguments.add_argument("--grades", nargs="+", default=["K", "1", "2"], choices=["K", "1", "2"])
    arguments.add_argument("--shelf", action="store_true", help="prove every routine of the shelf")
    arguments.add_argument("--reading", action="store_true", help="measure how hard the routines are to follow")
    arguments.add_argument("--films", action="store_true", help="build two small films and again")
    given = arguments.parse_args()

    with tempfile.TemporaryDirectory() as name:
        # A store of its own, so that nothing of an earlier run is reused.
        os.environ["STUDIO_CACHE"] = str(Path(name) / "cache")
        for grade in given.grades:
            year(Path(name) / f"year-{grade}", grade, given.lessons)
        if given.shelf:
            prove_shelf()
        if given.reading:
            reading()
        if given.films:
            films(Path(name) / "films")


def year(folder: Path, grade: str, lessons: int) -> None:
    """Plan and write a year, check each lesson, look for words."""
    from studio.agree import check
    from studio.series import api
    from studio.series.library import load_lesson

    began = time.perf_counter()
    api.new_series(folder, "Pond Days", grade, datetime.date(2026, 8, 31), lessons)  # type: ignore[arg-type]
    planned = time.perf_counter()
    written = api.fill_series(folder).written
    filled = time.perf_counter()
    levels: Counter[str] = Counter()
    statements = shown = 0
    for path in written:
        agreement = check(load_lesson(path))
        levels.update(finding.level for finding in agreement.findings)
        statements += len(agreement.statements)
        shown += len(agreement.shown)
    checked = time.perf_counter()
    found = ", ".join(f"{levels[level]} {level}s" for level in ("error", "warning", "note"))
    print(
        f"grade {grade}: {len(written)} lessons; plan {planned - began:.2f} s, write {filled - planned:.2f} s, "
        f"check {checked - filled:.2f} s: {statements} statements and {shown} picture steps; {found}"
    )
    print(f"  first index {_seconds(lambda: api.series_status(folder)):.2f} s, "
          f"again unchanged {_seconds(lambda: api.series_status(folder)):.3f} s")  # fmt: skip
    for query in QUERIES:
        began = time.perf_counter()
        hits = len(api.find_in_series(folder, query).hits)
        print(f"  find {query!r}: {hits} places in {1000 * (time.perf_counter() - began):.0f} ms")


def prove_shelf() -> None:
    """Every routine with all its numbers."""
    from studio.series.api import prove_routine, shelf

    began = time.perf_counter()
    proofs = [prove_routine(routine.source) for routine in shelf()]
    print(
        f"shelf: {len(proofs)} routines, {sum(proof.filled for proof in proofs)} lessons tried in "
        f"{time.perf_counter() - began:.1f} s; {sum(len(proof.examples) for proof in proofs)} findings"
    )


def reading(most: int = 100) -> None:
    """How hard the routines are: the greatest of their fillings by two measures, as spoken and with numerals."""
    sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
    from studio.script.reader import read
    from studio.series.library import Library, fill_routine_text
    from studio.series.situations import GRADES
    from tests.series.reading import levels

    library = Library.of()
    print("reading level by textstat, greatest of each routine: Automated Readability Index, Coleman-Liau index")
    above = 0
    for name in sorted(library.names()):
        routine = library.get(name)
        fillings = list(routine.fillings())
        drawn = random.Random(name).sample(fillings, min(most, len(fillings)))
        lessons = [read(fill_routine_text(routine, values, library)) for values in drawn]
        grade = lessons[0].header.grade or "K"
        said = [max(levels(lesson)[i] for lesson in lessons) for i in (0, 1)]
        plain = [max(levels(lesson, numerals=True)[i] for lesson in lessons) for i in (0, 1)]
        above += max(plain) >= GRADES.index(grade) + 1
        print(f"  {name:<40} grade {grade}: {said[0]:5.1f} {said[1]:5.1f} as spoken, {plain[0]:5.1f} {plain[1]:5.1f} "
              "with numerals")  # fmt: skip
    print(f"  {above} routines above their grade with numbers as numerals")


PAIRS: tuple[tuple[str, dict[str, int], dict[str, int]], ...] = (
    ("partners warm up", {"whole": 6, "part": 2}, {"whole": 6, "part": 3}),
    ("partners warm up", {"whole": 8, "part": 5}, {"whole": 9, "part": 5}),
    ("number of the day", {"n": 6}, {"n": 7}),
    ("one more and one less", {"n": 6}, {"n": 7}),
)


def films(folder: Path) -> None:
    """Lessons of a routine with the camera off, the second after the first, then with a sentence more and unchanged.

    First as a teacher builds them, by one command that loads all it needs with the first lesson; then with all that
    loaded, in seconds of the processor, so that what is measured is the making of the film.
    """
    from studio.build import BuildOptions
    from studio.series import api

    api.new_series(folder, "Pond Films", "K", lessons=2)
    small = BuildOptions(shape="square", fps=30)

    def build(name: str) -> tuple[float, str]:
        began = time.process_time()
        done = api.build_series(folder, [name], small).outcomes[0]
        seconds = time.process_time() - began
        return seconds, f"{seconds:.2f} s ({done.reused} of {done.spans} spans there){done.message}"

    def write(name: str, text: str) -> Path:
        path = folder / "lessons" / f"{name}.lesson.md"
        path.write_text(text, encoding="utf-8")
        return path

    one_command(folder.with_name("one-command"))
    write("load", "---\ntitle: Load\n---\n[show tally: 3]\nThree.\n")
    build("load")
    total = [0.0, 0.0]
    path = folder
    for number, (routine, *values) in enumerate(PAIRS):
        told = []
        for which, given in enumerate(values):
            path = write(f"films-{number}-{which}", api.fill_routine(routine, given))
            seconds, text = build(f"films-{number}-{which}")
            total[which] += seconds
            told.append(f"{' '.join(f'{k} {v}' for k, v in given.items())}: {text}")
        print(f"{routine}, {'; '.join(told)}")
    print(f"all loaded: the second lessons took {total[1] / total[0]:.2f} of the time of the first")
    script = path.read_text(encoding="utf-8")
    for where, new in (("end", script + "\nSee you at the pond.\n"),
                       ("beginning", script.replace("[camera", "Good morning, pond.\n\n[camera", 1))):  # fmt: skip
        path.write_text(new, encoding="utf-8")
        print(f"the last with a sentence more at its {where}: {build(path.name.removesuffix('.lesson.md'))[1]}")
    print(f"all unchanged: {_seconds(lambda: api.build_series(folder, (), small)):.3f} s")


def one_command(folder: Path) -> None:
    """Two lessons of a routine by one `studio series build`, with nothing loaded and nothing kept, in seconds of the
    processor: what the command takes for the first alone, and how much more for both."""
    from studio.series import api

    firsts = seconds = 0.0
    for number, (routine, *values) in enumerate(PAIRS):
        pair = folder / str(number)
        api.new_series(pair, "Pond Films", "K", lessons=2)
        taken = []
        for which, given in enumerate(values):
            api.fill_routine(routine, given, pair / "lessons" / f"films-{which}.lesson.md")
            shutil.rmtree(pair / "kits")
            command = [sys.executable, "-m", "studio", "series", "build", str(pair), "--json"]
            environment = {**os.environ, "STUDIO_CACHE": str(pair / f"cache-{which}")}
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            subprocess.run(command, env=environment, capture_output=True, check=True)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            taken.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
        first, second = taken[0], taken[1] - taken[0]
        firsts, seconds = firsts + first, seconds + second
        print(f"one command, {routine}: {first:.2f} s, and {second:.2f} s more for the second")
    print(f"one command: the second lessons took {seconds / firsts:.2f} of the time of the first")


def _seconds(action: object) -> float:
    began = time.perf_counter()
    assert callable(action)
    action()
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
