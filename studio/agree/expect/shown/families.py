"""Families of the clues of a shown number that say the same sort of thing; what each adds tells a slip from an odd manner
of showing, and the family that adds most is the reason that is told."""

from __future__ import annotations

from studio.agree.expect.families import finder

SAID = "it is said when the picture comes"
BEFORE = "it is said before the picture comes"
FROM_SAID = "it goes with what is said when the picture comes"
MATES = "it goes with the other numbers of the picture"
OTHER = "other pictures near it show it"

FAMILIES: dict[str, tuple[str, str]] = {
    "said": (r"a\d?w$|a[abwud]", SAID),
    "said later": (r"a\d?o$", ""),
    "from what is said": (r"a\d|at|ao|aX", FROM_SAID),
    "said before": (r"b\d?[wo]$|b[abw]:", BEFORE),
    "from what was said": (r"b\d|b[to]$", FROM_SAID),
    "of mates": (r"q", MATES),
    "of mates and words": (r"Q", MATES),
    "companion": (r"c[np]", FROM_SAID),
    "stated": (r"s[tx][np]", FROM_SAID),
    "shown": (r"g[np]\d=?$|g[np]\d=?:|shown", OTHER),
    "from what is shown": (r"g", OTHER),
    "on the screen": (r"on", OTHER),
    "segment": (r"seg|all|title|heading|topic|topt|topo|wholes$", ""),
    "of the whole": (r"topm|wholem", MATES),
    "story": (r"sans|stold", ""),
    "room": (r"rm", "that is how far the picture has to reach"),
    "balance": (r"bl", "with it the picture is true"),
    "of siblings": (r"wb", OTHER),
    "count": (r"rn", "it goes with the count that is said"),
    "rest": (r"re", FROM_SAID),
    "chosen": (r"ri", FROM_SAID),
    "habit": (r"v", ""),
}
"""By name: how the names of its clues begin, and the reason as it is told ("": none that would convince)."""

family = finder(FAMILIES)
