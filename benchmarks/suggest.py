"""How well directions are suggested for scripts that have only words.

    python benchmarks/suggest.py                      # the lessons in benchmarks/lessons
    python benchmarks/suggest.py --show A.lesson.md   # also prints the script with its directions

Every direction is taken out of each lesson, directions are suggested and put in, and the lesson is checked: there must
be no finding at level error or warning. A count is covered when a picture changes with each of its numbers; any other
statement that holds when one picture shows its numbers by the end of its sentence.
"""

from __future__ import annotations

import argparse
import time
from collections import Counter
from pathlib import Path

from studio.agree import check
from studio.agree.case import Case
from studio.agree.check import listen_to
from studio.script.model import Lesson
from studio.script.reader import read
from studio.stage.staging import stage
from studio.suggest import apply, suggest
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
    talk = listen_to(lesson.words)
    staged = stage(lesson, talk.numbers)
    case = Case(talk, lesson, staged)
    found = []
    for statement in talk.statements:
        if statement.kind == "question" or statement.holds is not True:
            continue
        if statement.kind.startswith("count"):
            moved = {m.word for m in staged.moments if m.counted and statement.start <= m.word < statement.end}
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
    parser.add_argument("--show", action="store_true", help="print the scripts with their directions")
    options = parser.parse_args()
    lessons = options.lessons or sorted((HERE / "lessons").glob("*.lesson.md"))
    clean = covered_in_all = told = 0
    kinds: Counter[str] = Counter()
    spent = 0.0
    for path in lessons:
        bare = read(without_directions(read(path.read_text("utf-8"), path.name)), path.name)
        start = time.perf_counter()
        suggestions = suggest(bare)
        spent += time.perf_counter() - start
        text = apply(bare.text, suggestions)
        lesson = read(text, path.name)
        findings = [finding for finding in check(lesson).findings if finding.level != "note"]
        parts = covered(lesson)
        missed = [statement for statement, seen in parts if not seen]
        kinds.update(statement.kind for statement in missed)
        told += len(parts)
        covered_in_all += len(parts) - len(missed)
        clean += not findings
        print(f"{path.name}: {len(suggestions)} directions, {len(findings)} findings, "
              f"{len(parts) - len(missed)} of {len(parts)} covered")  # fmt: skip
        if options.show:
            print(text)
            for finding in findings:
                print("  finding", finding.line, finding.rule, finding.message)
            for statement in missed:
                print("  not covered", statement.line, statement.kind, statement.said)
    print(f"clean {clean} of {len(lessons)} ({clean / max(1, len(lessons)):.0%})")
    print(f"covered {covered_in_all} of {told} ({covered_in_all / max(1, told):.1%}); missed {dict(kinds)}")
    print(f"{1000 * spent / max(1, len(lessons)):.0f} ms a lesson")


if __name__ == "__main__":
    main()
