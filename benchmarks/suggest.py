"""How well directions are suggested for scripts that have only words.

    python benchmarks/suggest.py                      # the lessons in benchmarks/lessons
    python benchmarks/suggest.py --show A.lesson.md   # also prints the script with its directions
    python benchmarks/suggest.py --folder DIR --names "a0"   # lessons of others
    python benchmarks/suggest.py --growth             # how the time grows

Every direction is taken out of each lesson, directions are suggested and put in, and the lesson is checked: there must
be no finding at level error or warning that the bare words did not have. A count is covered when a picture changes with each of its numbers; any other
statement that holds when one picture shows its numbers by the end of its sentence. A claim that she calls false ("Is 4 + 1 the same
as 5 + 2? No.") is not to be shown and is left out.
"""

from __future__ import annotations

import argparse
import re
import time
from collections import Counter
from functools import partial
from pathlib import Path

from studio.agree import check
from studio.agree.reading import case_of, listen_to
from studio.script.model import ChangePicture, Lesson
from studio.script.reader import read
from studio.stage.staging import stage
from studio.suggest import apply, directions_of, ideas_of, suggest
from studio.suggest.ideas import parts_of
from studio.suggest.verifying import counted, troubles, verified
from studio.talk.model import Statement

HERE = Path(__file__).parent


def without_directions(lesson: Lesson) -> str:
    """The script with its words only."""
    text = lesson.text
    lines = [0]
    for line in text.split("\n"):
        lines.append(lines[-1] + len(line) + 1)
    for direction in reversed(lesson.directions):
        start = text.rfind("[", 0, lines[direction.place.line - 1] + direction.place.column)
        end = text.find("]", start) + 1
        before, after = text[:start], text[end:]
        if before.endswith("\n") and after.startswith("\n"):
            after = after[1:]
        text = before + (after.lstrip(" ") if before[-1:] in " \n" else after)
    return text


def covered(lesson: Lesson) -> list[tuple[Statement, bool]]:
    """The counts and true statements of a lesson, and whether pictures show them."""
    case = case_of(lesson)
    talk, staged = case.talk, case.stage
    found = []
    for statement in talk.statements:
        if statement.kind == "question" or statement.holds is not True or statement.expected is False:
            continue
        if statement.kind.startswith("count"):
            moved = {m.word for m in staged.moments
                     if isinstance(m.direction, ChangePicture) and statement.start <= m.word < statement.end}  # fmt: skip
            found.append((statement, len(moved) >= len(statement.values) - 1))
            continue
        wanted = _wanted(statement)
        last = case.sentences[case.sentence_index(statement.end - 1)].end
        seen = any(
            wanted <= set(a.picture.numbers)
            for a in case.pictures
            if a.moment.word < last and a.until > case.sentences[case.sentence_index(statement.start)].start
        )
        found.append((statement, seen))
    return found


def _wanted(statement: Statement) -> set[int]:
    values = statement.values
    if statement.kind == "tens and ones":
        return {values[0]}
    if statement.kind == "groups":
        return {values[-1]}
    if statement.kind in ("one more", "one less"):
        return set(values[1:])
    return set(values)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("lessons", type=Path, nargs="*", help="lesson scripts (all in benchmarks/lessons)")
    parser.add_argument("--folder", type=Path, action="append", default=[], help="a folder with more lesson scripts")
    parser.add_argument("--names", default="", help="of those in folders only these, as a regular expression")
    parser.add_argument("--show", action="store_true", help="print the scripts with their directions")
    parser.add_argument("--dropped", action="store_true", help="print the ideas that were taken back")
    parser.add_argument("--growth", action="store_true", help="also how the time grows with the length of a script")
    options = parser.parse_args()
    lessons = [*options.lessons]
    for folder in options.folder:
        lessons += [path for path in sorted(folder.glob("*.lesson.md")) if re.search(options.names, path.name)]
    if not lessons:
        lessons = sorted((HERE / "lessons").glob("*.lesson.md"))
    judge(lessons, options)
    if options.growth:
        growth()


def judge(lessons: list[Path], options: argparse.Namespace) -> None:
    """Print what is suggested for each lesson, and the figures of all."""
    clean = silent = covered_in_all = told = 0
    kinds: Counter[str] = Counter()
    together: Counter[int] = Counter()
    spent = 0.0
    for path in lessons:
        bare = read(without_directions(read(path.read_text("utf-8"), path.name)), path.name)
        start = time.perf_counter()
        suggestions = suggest(bare)
        spent += time.perf_counter() - start
        text = apply(bare.text, suggestions)
        lesson = read(text, path.name)
        before = counted(check(bare).findings)
        found = [finding for finding in check(lesson).findings if finding.level != "note"]
        new = troubles(found, before)
        parts = covered(lesson)
        missed = [statement for statement, seen in parts if not seen]
        kinds.update(statement.kind for statement in missed)
        together.update(screens(lesson))
        told += len(parts)
        covered_in_all += len(parts) - len(missed)
        clean += not new
        silent += not found
        print(f"{path.name}: {len(suggestions)} directions, {len(new)} new findings, "
              f"{len(parts) - len(missed)} of {len(parts)} covered")  # fmt: skip
        if options.show:
            print(text)
        if options.show or new:
            for finding in new:
                print("  finding", finding.line, finding.rule, finding.message)
        if options.show or options.dropped:
            for statement in missed:
                print("  not covered", statement.line, statement.kind, statement.said)
        if options.dropped:
            for idea in taken_back(bare):
                print("  taken back:", idea)
    print(f"pass the check {clean} of {len(lessons)} ({clean / max(1, len(lessons)):.0%}); "
          f"without any finding {silent}")  # fmt: skip
    print(f"covered {covered_in_all} of {told} ({covered_in_all / max(1, told):.1%}); missed {dict(kinds)}")
    all_screens = sum(together.values())
    shares = ", ".join(f"{number}: {together[number] / max(1, all_screens):.0%}" for number in sorted(together))
    print(f"pictures at once (share of screens): {shares}")
    print(f"{1000 * spent / max(1, len(lessons)):.0f} ms a lesson")


def screens(lesson: Lesson) -> list[int]:
    """How many pictures are on after each word at which something changes."""
    on: set[str] = set()
    found = []
    moments = stage(lesson).moments
    for index, moment in enumerate(moments):
        (on.discard if moment.picture is None else on.add)(moment.name)
        if index + 1 == len(moments) or moments[index + 1].word > moment.word:
            found.append(len(on))
    return found


def taken_back(lesson: Lesson) -> list[str]:
    """The ideas that the check had something against, each with its word."""
    found = []
    for part in parts_of(lesson, listen_to(lesson.words)):
        ideas = ideas_of(part)
        choice = verified(lesson, part, partial(directions_of, part, ideas, ()))
        for number in sorted(choice.dropped & set(range(len(ideas)))):
            idea = ideas[number]
            found.append(f"{idea.kind}: {idea.details} {[change.text for change in idea.changes]} "
                         f"at “{part.text(idea.word, idea.word + 6)}”")  # fmt: skip
    return found


def growth() -> None:
    """The time for a script of 2,500 words and of twice as many, as one lesson and as one single segment."""
    paths = sorted((HERE / "lessons").glob("*.lesson.md"))
    bodies = [without_directions(read(path.read_text("utf-8"), path.name)).split("---\n", 2)[2] for path in paths]
    for name, titles in (("with its segments", True), ("as one segment", False)):
        body = "\n".join(f"# Next\n{text}" for text in bodies)
        if not titles:
            body = "\n".join(line for line in body.split("\n") if not line.startswith("#"))
        times = []
        for copies in (1, 2, 4):
            lesson = read("---\ntitle: Long\n---\n" + "\n".join([body] * copies))
            best = min(timed(lesson) for _ in range(3))
            times.append(best)
            print(f"{name}, {len(lesson.words)} words: {best:.2f} s")
        print(f"{name}: twice as long takes {times[1] / times[0]:.2f} and {times[2] / times[1]:.2f} times as long")


def timed(lesson: Lesson) -> float:
    """Seconds of this process, so that others on the machine do not count."""
    start = time.process_time()
    suggest(lesson)
    return time.process_time() - start


if __name__ == "__main__":
    main()
