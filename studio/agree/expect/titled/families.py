"""Families of the clues of a number in a title: the one that adds most is the reason that is told."""

from __future__ import annotations

from studio.agree.expect.families import NAMED, SHOWN, finder

SAID = "it is said in this segment"
ABOUT = "this segment is about it"
ELSEWHERE = "it stands in other titles"
BESIDE = "it goes with the rest of the title"

FAMILIES: dict[str, tuple[str, str]] = {
    "said": (r"said|rank|most (?:alone|shared)|greatest|least|first \d|last \d", SAID),
    "shown": (r"shows|whole |part |first shown|last shown|times shown|most shown|becomes|so many", SHOWN),
    "stated": (r"in |ends|starts|how many|step of|is whole|mostly|is part", ABOUT),
    "topic": (r"topic|partners of|lesson|header", ABOUT),
    "thing": (r"with its|behind its", NAMED),
    "titles": (r"title|after title", ELSEWHERE),
    "beside": (r"beside", BESIDE),
    "habit": (r"v|step \d", ""),
}
"""By name: how the names of its clues begin, and the reason as it is told ("": none that would convince)."""

family = finder(FAMILIES)
