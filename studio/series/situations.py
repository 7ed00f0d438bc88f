"""The situations of story problems in the order in which they are taught.

The situations are those of CCSSM Table 1; the grades are those of its footnotes and of the Progressions for the Common
Core (K, Counting and Cardinality; K-5, Operations and Algebraic Thinking): kindergarten masters the four that follow
the action, grade 1 works on all but the hardest four, grade 2 masters all. From memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio.script.model import Grade

GRADES: tuple[Grade, ...] = ("K", "1", "2")


@dataclass(frozen=True, slots=True)
class Situation:
    """A situation: its name as in Table 1, the routine on the shelf that tells it, the grade that masters it."""

    name: str
    routine: str
    grade: Grade


SITUATIONS: tuple[Situation, ...] = (
    Situation("add to, result unknown", "story add to result unknown", "K"),
    Situation("take from, result unknown", "story take from result unknown", "K"),
    Situation("put together, total unknown", "story put together total unknown", "K"),
    Situation("take apart, both addends unknown", "story both addends unknown", "K"),
    Situation("add to, change unknown", "story add to change unknown", "1"),
    Situation("take from, change unknown", "story take from change unknown", "1"),
    Situation("put together, addend unknown", "story put together addend unknown", "1"),
    Situation("compare, difference unknown (more)", "story compare difference unknown more", "1"),
    Situation("compare, difference unknown (fewer)", "story compare difference unknown fewer", "1"),
    Situation("compare, bigger unknown (more)", "story compare bigger unknown more", "1"),
    Situation("compare, smaller unknown (fewer)", "story compare smaller unknown fewer", "1"),
    Situation("add to, start unknown", "story add to start unknown", "2"),
    Situation("take from, start unknown", "story take from start unknown", "2"),
    Situation("compare, bigger unknown (fewer)", "story compare bigger unknown fewer", "2"),
    Situation("compare, smaller unknown (more)", "story compare smaller unknown more", "2"),
)


def situations_for(grade: Grade) -> tuple[Situation, ...]:
    """The situations that a grade works on, easier ones first."""
    return tuple(s for s in SITUATIONS if GRADES.index(s.grade) <= GRADES.index(grade))
