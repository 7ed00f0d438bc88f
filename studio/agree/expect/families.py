"""Families of clues that say the same sort of thing: "it is said close by", "the picture changes by it". What each family
adds for the number that is said and for the one that was rather expected tells a slip from an odd manner of talk; and
the family that adds most is the reason that is told."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

SAID = "it is said close by"
NEXT_TO = "it goes with the numbers next to it"
SHOWN = "the screen shows it"
CHANGED = "the picture changes by it"
CLAIMED = "it is what was asked or what makes the statement true"
ELSEWHERE = "the other numbers here go with it elsewhere"
NAMED = "so many of them are named close by"

FAMILIES: dict[str, tuple[str, str]] = {
    "same sentence": (r"same", SAID),
    "sentence beside": (r"s-?1:", SAID),
    "sentence near": (r"s-?2:", SAID),
    "around": (r"far", SAID),
    "segment": (r"seg", SAID),
    "lesson": (r"all", ""),
    "other segments": (r"x[sh]", ""),
    "digits": (r"dig|to10|top[to]:", ""),
    "nought": (r"zw", ""),
    "again": (r"[pn]0:", NEXT_TO),
    "count": (r"[pn]-?1:", NEXT_TO),
    "leap": (r"[pn]-?(?:2|5|10):", NEXT_TO),
    "double": (r"[pn][*/]2:", NEXT_TO),
    "sum": (r"(?:pp|nn|pn)\+", NEXT_TO),
    "difference": (r"(?:pp|nn|pn)-", NEXT_TO),
    "even": (r"ppc|nnc|pnm", NEXT_TO),
    "tens and ones": (r"ppt|nnt", NEXT_TO),
    "digits beside": (r"[pn]d[to]", NEXT_TO),
    "pairs": (r"pr4|nx3|mx", NEXT_TO),
    "how many": (r"run|list|times|heap", NEXT_TO),
    "on the screen": (r"pic0", SHOWN),
    "on the screen for longer": (r"pic1", SHOWN),
    "with its word": (r"role|rw", SHOWN),
    "behind its word": (r"rolp|rb", SHOWN),
    "with its mates": (r"picc", SHOWN),
    "structure": (r"str", ""),
    "near what is shown": (r"e-?\d|edt|edo|letters", ""),
    "before": (r"bef", SHOWN),
    "part": (r"md[01]", SHOWN),
    "part with its word": (r"md", SHOWN),
    "part behind its word": (r"mb", SHOWN),
    "thing": (r"noun", NAMED),
    "phrase": (r"fr[ab]", NAMED),
    "true": (r"true", CLAIMED),
    "asked": (r"exp|last", CLAIMED),
    "topic": (r"topic", ""),
    "whole": (r"wholes|partner", ""),
    "title": (r"title|heading", ""),
    "story": (r"sans|stold", ""),
    "companion": (r"com", ELSEWHERE),
    "stated": (r"cst", ELSEWHERE),
    "comes on": (r"next", CHANGED),
    "changes": (r"ch[nb]", CHANGED),
    "changes in all": (r"sum|end|many", CHANGED),
    "later": (r"later", ""),
    "parallel talk": (r"Pa[A-Zdt]", NEXT_TO),
    "partners of a whole": (r"Pa[uw]", NEXT_TO),
    "groups": (r"Gr", NEXT_TO),
    "confirmed": (r"Cf", SAID),
    "beside": (r"Be", NEXT_TO),
    "value of places": (r"Vp", ""),
    "forms": (r"Vf", ""),
    "to come": (r"Tc", CHANGED),
    "remaining": (r"Rm", SHOWN),
    "fact": (r"Fa", "it goes with the numbers next to it in a fact that is known here"),
    "habit": (r"b\d|v", ""),
}
"""By name: how the names of its clues begin, and the reason as it is told ("": none that would convince)."""


def finder(families: Mapping[str, tuple[str, str]]) -> Callable[[str], int]:
    """What tells the index of a clue's family: the first that its name begins like."""
    begins = re.compile("|".join(f"({begin})" for begin, _ in families.values()))

    def family(clue: str) -> int:
        found = begins.match(clue)
        if found is None or found.lastindex is None:
            raise KeyError(clue)
        return found.lastindex - 1

    return family


family = finder(FAMILIES)
