"""However a script is typed, the same is said and the same is found: with numbers or bullets before its paragraphs, with emoji,
in bold, with the quotes, spaces and line ends of a word processor."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from studio.agree import check
from studio.script.reader import read

LESSONS = sorted((Path(__file__).parents[2] / "benchmarks" / "lessons").glob("*.lesson.md"))[7::3001]
DIRECTION = re.compile(r"(\[[^\]]*\])")
NUMBER = re.compile(
    r"\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty(?:-\w+)?)\b", re.I
)


def paragraphs(change: Callable[[str, int], str]) -> Callable[[str], str]:
    """Changes what is spoken in each line that begins with a word; the lines are counted."""

    def changed(text: str) -> str:
        head, body = text[4:].split("---\n", 1)
        lines, count = [], 0
        for line in body.split("\n"):
            spoken = bool(line.strip()) and line[0] not in "#["
            count += spoken
            lines.append(change(line, count) if spoken else line)
        return f"---\n{head}---\n" + "\n".join(lines)

    return changed


def outside(change: Callable[[str], str]) -> Callable[[str], str]:
    """Changes what stands outside of directions."""
    return paragraphs(
        lambda line, _: "".join(part if part[:1] == "[" else change(part) for part in DIRECTION.split(line))
    )


WAYS = {
    "numbers": paragraphs(lambda line, count: f"{count}. {line}"),
    "numbers and brackets": paragraphs(lambda line, count: f"  {count}) {line}"),
    "bullets": paragraphs(lambda line, _: f"• {line}"),
    "quotations": paragraphs(lambda line, _: f"> {line}" if line[0].isalpha() else line),
    "emoji": outside(lambda text: re.sub(r"([.!?])(?=\s|$)", r"\1 🐸", text)),
    "bold": outside(lambda text: NUMBER.sub(r"**\g<0>**", text)),
    "code": outside(lambda text: NUMBER.sub(r"`\g<0>`", text)),
    "curly quotes": outside(lambda text: text.replace("'", "’")),
    "fixed spaces": outside(lambda text: text.replace(" ", "\u00a0")),
    "signs for and": outside(lambda text: re.sub(r" and ", " & ", text)),
    "line ends of Windows": lambda text: text.replace("\n", "\r\n"),
    "spaces at line ends": lambda text: text.replace("\n", "  \n"),
}


def is_long(text: str) -> bool:
    """Whether it has more than one paragraph: one alone is no list."""
    return read(text).words[-1].paragraph > 0


@pytest.mark.parametrize("way", WAYS)
def test_the_same_is_said_and_found_however_it_is_typed(way: str) -> None:
    texts = [path.read_text(encoding="utf-8") for path in LESSONS]
    assert any(WAYS[way](text) != text for text in texts if is_long(text))
    for text in filter(is_long, texts):
        lesson, typed = read(text), read(WAYS[way](text))
        assert [word.plain for word in typed.words] == [word.plain for word in lesson.words]
        assert [(f.rule, f.line, f.level) for f in check(typed).findings] == [
            (f.rule, f.line, f.level) for f in check(lesson).findings
        ]
