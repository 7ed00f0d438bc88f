"""How likely it is that a number is a slip: a sum of small decision trees over the traits of its place, learned from right
lessons and from the same lessons with one number changed (`benchmarks/expect.py`)."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

FIRST = 60
"""Trees that are asked first: of all numbers of right lessons that they thought unlikely to be slips, none came to a doubt
of more than a half in the end."""


@dataclass(frozen=True, slots=True)
class Tree:
    """A decision tree as columns, one entry a node: the trait that is looked at (-1: a leaf), up to which value one goes
    left, the nodes to the left and to the right, the value of a leaf."""

    trait: tuple[int, ...]
    limit: tuple[float, ...]
    left: tuple[int, ...]
    right: tuple[int, ...]
    value: tuple[float, ...]

    def worth(self, traits: Sequence[float]) -> float:
        node = 0
        while (trait := self.trait[node]) >= 0:
            node = self.left[node] if traits[trait] <= self.limit[node] else self.right[node]
        return self.value[node]


@dataclass(frozen=True, slots=True)
class Judge:
    """`start` is the log-odds before anything is known, each tree adds to it."""

    start: float
    trees: tuple[Tree, ...]

    def doubt(self, traits: Sequence[float]) -> float:
        """The log-odds that the number at a place with these traits is a slip, as often as slips were in the lessons
        it was learned from. Where the first trees find none likely, the others are not asked."""
        doubt = self.start + sum([tree.worth(traits) for tree in self.trees[:FIRST]])
        if doubt < 0:
            return doubt
        return doubt + sum([tree.worth(traits) for tree in self.trees[FIRST:]])


@lru_cache(maxsize=4)
def judge(what: str) -> Judge:
    """The learned trees for numbers that are "said" or "shown", and for those of them that were tried, "tried" and "tried_shown" (`trial.py`)."""
    text = files(__package__).joinpath(f"{what}_trees.json").read_text(encoding="utf-8")
    told = json.loads(text)
    return Judge(told["start"], tuple(Tree(*(tuple(column) for column in tree)) for tree in told["trees"]))
