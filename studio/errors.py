"""The one way in which the studio says that an input cannot be used."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake in an input, in one plain sentence that says what to do.

    `line` and `column` count from 1; 0 means that the place is not known.
    """

    message: str
    line: int = 0
    column: int = 0


class UnusableInput(Exception):
    """An input cannot be used. The command line prints it and exits with 2.

    `source` is what the person knows the input by (mostly a file name).
    """

    def __init__(self, problems: str | Problem | Sequence[Problem], source: str = "") -> None:
        if isinstance(problems, str):
            problems = Problem(problems)
        if isinstance(problems, Problem):
            problems = (problems,)
        self.problems: tuple[Problem, ...] = tuple(problems)
        self.source = source
        super().__init__(str(self))

    def __reduce__(self) -> tuple[type[UnusableInput], tuple[tuple[Problem, ...], str]]:
        return UnusableInput, (self.problems, self.source)

    def __str__(self) -> str:
        return "\n".join(self.sentences())

    def sentences(self) -> list[str]:
        """One sentence a problem: source, line, column, message."""
        found = []
        for problem in self.problems:
            where = self.source
            if problem.line:
                where += (", " if where else "") + f"line {problem.line}"
                if problem.column:
                    where += f", column {problem.column}"
            where = where[:1].upper() + where[1:] if where.startswith("line") else where
            found.append(f"{where}: {problem.message}" if where else problem.message)
        return found
