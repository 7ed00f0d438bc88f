"""The kinds of pictures by name: how the details of each are written, by example.

A new kind whose details have one of these shapes is one more line here; a new shape is also a rule in `grammar.lark`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """`shape` is the rule of the grammar that reads the details; `examples` are details that can be read."""

    name: str
    shape: str
    examples: tuple[str, ...]


_MARKS = ("7 dots", "7 dots and 2 crosses", "empty")

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("five frame", "marks", ("3 dots", "3 dots and 2 crosses", "empty")),
        Kind("ten frame", "marks", _MARKS),
        Kind("double ten frame", "marks", ("14 dots", "9 dots and 4 crosses", "empty")),
        Kind("dots", "marks", ("12", "12 dots", "7 dots and 2 crosses")),
        Kind("number bond", "parts", ("9 is 7 and ?", "8 is 5 and 3", "10 is 2 and 3 and 5")),
        Kind("number sentence", "equation", ("7 + ? = 9", "9 - 7 = 2", "8 + 6 = 10 + 4")),
        Kind("cards", "cards", ("0 to 8", "3, 5, 8")),
        Kind("tally", "amount", ("12",)),
        Kind("dice", "numbers", ("6 and 6", "5 and 3 and 4")),
        Kind("base ten", "amount", ("12",)),
        Kind("word", "phrase", ("fourteen",)),
        Kind("number path", "span", ("0 to 10", "0 to 10, mark 7")),
        Kind("number line", "span", ("0 to 10", "0 to 10, mark 7")),
        Kind("more and less", "amount", ("12",)),
        Kind("bar", "parts", ("9 is 7 and ?",)),
        Kind("compare bars", "numbers", ("9 and 7",)),
        Kind("rekenrek", "numbers", ("7 and 2",)),
        Kind("hundred chart", "span", ("1 to 30", "1 to 30, mark 12")),
        Kind("text", "phrase", ("any words",)),
    )
}
