"""What is told of a blank that cannot be read, in a teacher's words and at the line where it is to be mended.

The template engine says what it expected and where it gave up; she is to know which sign is missing and where.
"""

from __future__ import annotations

import re

from jinja2 import nodes

from studio.errors import Problem
from studio.script.nearest import did_you_mean
from studio.series.talk import FILTERS

_OPEN = re.compile(r"\{\{|\{%|\{#")
_CLOSE = {"{{": "}}", "{%": "%}", "{#": "#}"}
_TAGS = ("if", "elif", "else", "endif", "for", "endfor", "set")
_QUOTED = re.compile(r"\"[^\"\n]*\"|'[^'\n]*'")
_EMPTY = {
    "if": "needs what is asked: {% if n > 3 %}",
    "elif": "needs what is asked: {% elif n > 3 %}",
    "for": "needs what it goes through: {% for k in range(n) %}",
    "set": "needs what it is: {% set m = n + 1 %}",
}
_OPERATORS = ("and", "or", "not", "in", "is", "if", "else")
_BRACKETS = {")": "(", "]": "[", "}": "{"}
_REFUSED: dict[type[nodes.Node], str] = {
    nodes.Div: "'/' cannot be used here; '//' divides and leaves out the rest.",
    nodes.Pow: "'**' cannot be used here; write the product with '*'.",
    nodes.Concat: "'~' cannot be used here; write the two side by side: {{ n }}{{ m }}.",
    nodes.Dict: "Curly brackets cannot be used inside a blank.",
    nodes.Pair: "Curly brackets cannot be used inside a blank.",
    nodes.Slice: "':' cannot be used here; only one item of a list can be taken.",
}


def refused(node: nodes.Node) -> str:
    """What is told of something that the engine knows and a routine cannot use."""
    return _REFUSED.get(
        type(node), "This cannot be used in a routine. It can use blanks, filters, 'if', 'for', 'set' and 'use'."
    )


def syntax_problem(text: str, line: int) -> Problem:
    """The first mistake in the blanks of a text that cannot be read; `line` is where the reading broke off."""
    waiting: list[tuple[str, str, int]] = []  # what is open: its word, as it is written, its line
    at = 0
    tags: list[tuple[int, str]] = []
    while found := _OPEN.search(text, at):
        sign, close = found[0], _CLOSE[found[0]]
        here = text.count("\n", 0, found.start()) + 1
        end = text.find(close, found.end())
        following = _OPEN.search(text, found.end())
        if end < 0 or (sign != "{#" and following is not None and following.start() < end):
            return Problem(f"'{sign}' is not closed here. Write '{close}' where it ends.", here)
        at = end + len(close)
        if sign == "{#":
            continue
        inside = text[found.end() : end].removeprefix("-").removesuffix("-").strip()
        tag = f"{sign} {' '.join(inside.split())[:60]} {close}"
        tags.append((here, tag))
        message = _inside(inside, sign, close, tag)
        if not message and sign == "{%":
            message = _block(inside.split()[0], tag, here, waiting)
        if message:
            return Problem(message, here)
    if waiting:
        word, tag, here = waiting[-1]
        return Problem(f"'{tag}' is not ended. Write '{{% end{word} %}}' where it ends.", here)
    last = next((tag for here, tag in reversed(tags) if here <= line), "")
    what = f"'{last}'" if last else "This"
    return Problem(
        f'{what} cannot be read. A blank is written like {{{{ n }}}}, {{{{ n|words }}}} or {{{{ n|counted("frog") }}}}.',
        line,
    )


def _inside(inside: str, sign: str, close: str, tag: str) -> str:
    """What is wrong with what stands between the signs; "" where nothing is that can be told."""
    if not inside:
        return f"There is nothing between '{sign}' and '{close}'."
    plain = _QUOTED.sub(lambda quoted: quoted[0][0] + "_" * (len(quoted[0]) - 2) + quoted[0][0], inside)
    bare = _QUOTED.sub(lambda quoted: "_" * len(quoted[0]), inside)
    if '"' in bare or "'" in bare:
        return f"A quotation mark is missing in '{tag}'. Put a word between two of them: \"frog\"."
    if brackets := _unbalanced(bare):
        return f"A bracket is missing in '{tag}': '{brackets}' has no partner."
    if odd := re.search(r"[$?@#&^;\\]|!(?!=)", bare):
        return f"'{odd[0]}' cannot be used in '{tag}'."
    word = inside.split()[0]
    if word in ("if", "elif") and re.search(r"(?<![=!<>])=(?!=)", re.sub(r"\([^()]*\)", "", bare)):
        return f"Write '==' for 'is the same as' in '{tag}'."
    for found in re.finditer(r"(?<=[\w)\]])\s+([a-z_]+)\b", bare):
        before = bare[: found.start()].split()[-1] if bare[: found.start()].split() else ""
        if found[1] in FILTERS and before not in (*_OPERATORS, *_TAGS):
            mended = f"{sign} {inside[: found.start()]}|{inside[found.start(1) :]} {close}"
            return f"Put '|' before '{found[1]}': {mended}"
    if (found_filter := re.search(r"\|\s*(\w+)\s+(\w+|\"|')", plain)) and found_filter[2] not in _OPERATORS:
        name = found_filter[1]
        return f"Put what '{name}' is given in brackets: {name}(...)."
    return ""


def _unbalanced(bare: str) -> str:
    """The bracket that has no partner; "" where each has."""
    waiting = []
    for sign in bare:
        if sign in _BRACKETS.values():
            waiting.append(sign)
        elif sign in _BRACKETS and (not waiting or waiting.pop() != _BRACKETS[sign]):
            return sign
    return waiting[-1] if waiting else ""


def _block(word: str, tag: str, line: int, waiting: list[tuple[str, str, int]]) -> str:
    """What is wrong with a statement where it stands; what it opens or ends is noted in `waiting`."""
    if word not in _TAGS:
        return f"There is no '{tag}'.{did_you_mean(word, _TAGS) or ' A routine can use if, for and set.'}"
    if word in _EMPTY and (tag == f"{{% {word} %}}" or (word == "set" and "=" not in tag)):
        return f"'{tag}' {_EMPTY[word]}."
    if word in ("if", "for"):
        waiting.append((word, tag, line))
    elif not waiting and word != "set":
        return f"'{tag}' has no '{{% {'for' if word == 'endfor' else 'if'} %}}' before it."
    elif word.startswith("end"):
        opened, written, before = waiting.pop()
        if opened != word[3:]:
            return f"'{tag}' stands where '{written}' of line {before} is to end. Write '{{% end{opened} %}}' there."
    return ""
