"""The words of a command line: in the order that comes naturally, and one plain sentence where they are wrong."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Callable, Sequence
from typing import Any, NoReturn

from studio.errors import UnusableInput
from studio.script.nearest import did_you_mean

# What argparse says, and how it is said to a teacher.
_PLAIN = (
    (r"argument (\S+?)(?:/\S+)?: invalid int value: (.*)", r"\1 takes a whole number, not \2."),
    (r"argument (\S+?)(?:/\S+)?: expected (?:one|at least one) argument", r"write what is meant after \1."),
    (r"argument (\S+?)(?:/\S+)?: expected (\d+) arguments", r"\1 takes \2 words, each in quotation marks."),
    (r"argument (\S+?)(?:/\S+)?: ignored explicit argument (.*)", r"\1 stands by itself, without \2."),
    (r"argument (\S+?)(?:/\S+)?: not allowed with argument (\S+)", r"\1 and \2 do not go together."),
    (r"one of the arguments (\S+) (\S+) is required", r"\1 or \2 is missing."),
    (r"ambiguous option: (\S+) could match (.*)", r"'\1' may be \2; write it out."),
)


class Parser(argparse.ArgumentParser):
    """An argument parser that raises UnusableInput. `free` tells which word behind an option that takes several is none
    of its values but the argument that is still missing."""

    _given: Sequence[str] = ()
    free: Callable[[str], bool] = staticmethod(lambda word: False)

    def parse_known_args(  # type: ignore[override]
        self, args: Sequence[str] | None = None, namespace: Any = None
    ) -> tuple[Any, list[str]]:
        given = self._given = list(sys.argv[1:] if args is None else args)
        if self._subparsers is not None:
            return super().parse_known_args(given, namespace)
        found, unknown = super().parse_known_args(self._in_order(given), namespace)
        if unknown:
            word = unknown[0].partition("=")[0]
            if word.startswith("-"):
                self.error(f"there is no '{word[:60]}' here.{did_you_mean(word, self._option_string_actions)}")
            self.error(f"'{word[:60]}' is one too many.")
        return found, unknown

    def error(self, message: str) -> NoReturn:
        if required := re.fullmatch(r"the following arguments are required: (.*)", message):
            message = self._missing([name.split("/")[0] for name in required[1].split(", ")])
        for pattern, plain in _PLAIN:
            message = re.sub(rf"^{pattern}$", plain, message, flags=re.DOTALL)
        raise UnusableInput(f"{message} '{self.prog} --help' says how it is written.", self.prog)

    def _missing(self, names: list[str]) -> str:
        from studio.pictures.base import is_or_are

        if self._subparsers is not None:
            verbs = [str(verb) for action in self._get_positional_actions() for verb in action.choices or ()]
            return f"write after it what to do: {', '.join(verbs)}."
        took = [word for word in self._given if getattr(self._option(word), "nargs", None) == "+"]
        where = f" Write it before {took[0]}." if took else ""
        return f"{' and '.join(names)} {is_or_are(len(names))} missing.{where}"

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        if action.choices is None or value in action.choices:
            return
        choices, written = [str(choice) for choice in action.choices], str(value)[:60]
        near = did_you_mean(written, choices) or f" Choose from: {', '.join(choices)}."
        if action.option_strings:
            self.error(f"{action.option_strings[0]} cannot be '{written}'.{near}")
        self.error(f"there is no verb '{written}'.{near}")

    def _in_order(self, given: list[str]) -> list[str]:
        """The arguments that stand free, then the options with theirs. argparse gives an option that takes several
        values whatever follows it, and finds no free argument behind an option once one was left out before it."""
        free: list[str] = []
        rest: list[str] = []
        spare: tuple[int, str] | None = None  # the last value of an option that takes several
        at = 0
        while at < len(given):
            word = given[at]
            at += 1
            if word == "--":  # she says herself where the options end
                return given
            if not word.startswith("-") or word == "-" or " " in word:
                free.append(word)
                continue
            rest.append(word)
            action = self._option(word)
            count = 0 if action is None or "=" in word else 1 if action.nargs is None else action.nargs
            end = at
            while end < len(given) and (end - at < count if isinstance(count, int) else given[end][:1] != "-"):
                end += 1
            rest += given[at:end]
            if not isinstance(count, int) and end - at > 1:
                spare = len(rest) - 1, rest[-1]
            at = end
        if spare is not None and len(free) < len(self._get_positional_actions()) and self.free(spare[1]):
            del rest[spare[0]]
            free.append(spare[1])
        return free + rest

    def _option(self, word: str) -> argparse.Action | None:
        """The option that `word` names, whole or by its beginning."""
        name = word.partition("=")[0]
        known = self._option_string_actions
        if name in known:
            return known[name]
        found = [action for option, action in known.items() if len(name) > 2 and option.startswith(name)]
        return found[0] if len(found) == 1 else None
