"""A script in which a line is a thought needs no full stops; text that is broken at a margin has none to lose."""

from __future__ import annotations

import re
import textwrap
from pathlib import Path

import pytest

from studio.agree import check
from studio.script.line_ends import line_ends
from studio.script.reader import read

LESSONS = sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))[11::130]
DIRECTION = re.compile(r"(\[[^\]]*\])")


def sentences(text: str) -> list[tuple[str, ...]]:
    """The words of every sentence."""
    found: dict[int, list[str]] = {}
    for word in read(text).words:
        found.setdefault(word.sentence, []).append(word.plain)
    return [*map(tuple, found.values())]


def in_lines(text: str) -> str:
    """A line for a sentence, without a full stop."""
    head, body = text[4:].split("---\n", 1)
    parts = [
        part if part[:1] == "[" else re.sub(r"(?<=\w\w)\.(?: |$)", "\n", re.sub(r"(?<=[!?]) ", "\n", part), flags=re.M)
        for part in DIRECTION.split(body)
    ]
    return f"---\n{head}---\n" + "".join(parts)


def wrapped(text: str, width: int) -> str:
    head, body = text[4:].split("---\n", 1)
    return f"---\n{head}---\n" + "\n".join(
        line if line[:1] in "#[" else textwrap.fill(line, width, break_on_hyphens=False) for line in body.split("\n")
    )


def lines_of(text: str) -> tuple[list[str], int]:
    """The lines of a script, and where its body begins."""
    lines = text.split("\n")
    return lines, lines.index("---", 1) + 1


def is_unbroken(text: str) -> bool:
    """Whether every line is a paragraph, a title or directions."""
    lines, start = lines_of(text)
    return not re.search(r"^[^\[\]#\n]+[^\[\]#\n.!?:\"]\n[a-z]", "\n".join(lines[start:]), flags=re.M)


def test_sentences_in_lines_of_their_own_need_no_full_stop() -> None:
    texts = [text for path in LESSONS if is_unbroken(text := path.read_text(encoding="utf-8"))]
    pairs = [(sentences(text), sentences(in_lines(text))) for text in texts]
    wanted = sum(len(by_stops) for by_stops, _ in pairs)
    kept = sum(len({*by_stops} & {*by_lines}) for by_stops, by_lines in pairs)
    assert len(texts) > 60
    assert kept > 0.96 * wanted  # the others are said twice, or go on in the next line ("Three and four. Is seven.")


@pytest.mark.parametrize("width", [46, 60, 72, 80, 100, 120])
def test_text_that_is_broken_at_a_margin_ends_no_sentence_there(width: int) -> None:
    for path in LESSONS:
        lines, start = lines_of(wrapped(path.read_text(encoding="utf-8"), width))
        assert not line_ends(lines, start), path.name


HEAD = "---\ntitle: Eggs\n---\n# Eggs\n"
EGGS = """look in the nest & there are {}
[show double ten frame: 13 dots as nest] 13 eggs in the nest
4 more come down the hill in the rain
[nest: add 4 crosses]
13 and 4
is {}
17 eggs & no more room
that's a double
8 + 8 is 16 & one more is 17
goodbye from all the hens
"""


def errors(text: str) -> set[int]:
    """The lines in which the check finds an error."""
    return {finding.line for finding in check(read(text)).findings if finding.level == "error"}


def test_a_line_is_a_thought_and_slips_in_it_are_found() -> None:
    assert not errors(HEAD + EGGS.format(13, 17))
    assert errors(HEAD + EGGS.format(13, 18))
    assert errors(HEAD + EGGS.replace("8 + 8 is 16", "8 + 8 is 15").format(13, 17)) == {13}


def test_an_unfinished_line_goes_on_in_the_next() -> None:
    typed = HEAD + EGGS.format(13, 17)
    assert ("13", "and", "4", "is", "17") in sentences(typed)
    assert ("that's", "a", "double") in sentences(typed)
