"""The sandbox in which routines are filled: Jinja2's own, and only the part of its language that a routine needs.

A routine may come from anywhere. It cannot reach files, the network or Python (Jinja2's sandbox); beyond that every
statement and expression that is not on a short list is refused, so that nothing can grow without end, and loops, time
and the size of what comes out are limited.
"""

from __future__ import annotations

import time
import traceback
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import jinja2
from jinja2 import nodes
from jinja2.sandbox import SandboxedEnvironment

from studio.errors import Problem, UnusableInput
from studio.script.nearest import did_you_mean
from studio.series.mistakes import refused, syntax_problem
from studio.series.talk import FILTERS

LARGEST_TEMPLATE = 200_000  # characters
LARGEST_RESULT = 1_000_000  # characters
_LARGEST_VALUE = 10_000  # items of a list or letters of a text
_LARGEST_NUMBER = 10**9
_MOST_ROUNDS = 50_000  # of all loops together
_SECONDS = 5.0

_ALLOWED: tuple[type[nodes.Node], ...] = (
    nodes.Template, nodes.Output, nodes.TemplateData, nodes.Name, nodes.Const, nodes.List, nodes.Tuple, nodes.If,
    nodes.CondExpr, nodes.For, nodes.Assign, nodes.Compare, nodes.Operand, nodes.Add, nodes.Sub, nodes.Mul,
    nodes.FloorDiv, nodes.Mod, nodes.Neg, nodes.Pos, nodes.And, nodes.Or, nodes.Not, nodes.Filter, nodes.Test,
    nodes.Call, nodes.Keyword, nodes.Getattr, nodes.Getitem,
)  # fmt: skip
_FUNCTIONS = ("range", "use")
_TESTS = ("even", "odd", "divisibleby", "defined", "in")


class _TooMuch(Exception):
    """A limit was passed; the message is a sentence."""


class _Environment(SandboxedEnvironment):
    intercepted_binops = frozenset(["+", "-", "*", "//", "%"])

    def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
        if operator in "*%" and not (isinstance(left, int) and isinstance(right, int)):
            raise _TooMuch(f"'{operator}' stands between two numbers.")
        value = super().call_binop(context, operator, left, right)
        if isinstance(value, int) and abs(value) > _LARGEST_NUMBER:
            raise _TooMuch("A number becomes too large here.")
        if isinstance(value, str | list | tuple) and len(value) > _LARGEST_VALUE:
            raise _TooMuch("A text or list becomes too long here.")
        return value

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        return type(obj).__name__ == "LoopContext" and super().is_safe_attribute(obj, attr, value)


@dataclass(frozen=True)
class Script:
    """A template that was checked; `names` are the blanks that it uses. Made by `compile_script`."""

    template: Any
    names: frozenset[str]
    source: str


@cache
def _environment() -> _Environment:
    environment = _Environment(
        undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True,
        autoescape=False, cache_size=0,
    )  # fmt: skip
    environment.filters = dict(FILTERS)
    environment.globals = {}
    return environment


def compile_script(text: str, source: str, known: frozenset[str] | None = None) -> Script:
    """Check and compile a template; `known` are the names that it may use (None: any).

    Raises UnusableInput with every mistake that can be told without filling it.
    """
    if len(text) > LARGEST_TEMPLATE:
        raise UnusableInput(
            f"the routine has {len(text):,} characters; at most {LARGEST_TEMPLATE:,} can be filled.", source
        )
    environment = _environment()
    try:
        tree = environment.parse(text)
        problems = list(dict.fromkeys(_refused(tree, known)))
        if problems:
            raise UnusableInput(problems, source)
        names = frozenset(node.name for node in tree.find_all(nodes.Name) if node.ctx == "load") - set(_FUNCTIONS)
        for loop in list(tree.find_all(nodes.For)):
            tick = nodes.Call(nodes.Name("_tick", "load"), [], [], None, None)
            loop.body.insert(0, nodes.ExprStmt(tick, lineno=loop.lineno))
        return Script(environment.from_string(tree), names, source)
    except jinja2.TemplateSyntaxError as error:
        raise UnusableInput(syntax_problem(text, error.lineno), source) from None
    except (RecursionError, SyntaxError, MemoryError):
        raise UnusableInput("the blanks of the routine are nested too deeply.", source) from None


def fill_script(script: Script, values: Mapping[str, Any], use: Callable[..., str] | None = None) -> str:
    """Fill a template. `use` is what `use(...)` calls inside it. Raises UnusableInput with the line."""
    started = time.monotonic()
    rounds = 0

    def tick() -> str:
        nonlocal rounds
        rounds += 1
        if rounds > _MOST_ROUNDS or (rounds % 256 == 0 and time.monotonic() - started > _SECONDS):
            raise _TooMuch("The loops of this routine run too often.")
        return ""

    context = {"range": _range, "_tick": tick, "use": use or _no_use, **values}
    pieces: list[str] = []
    size = 0
    try:
        for piece in script.template.generate(context):
            pieces.append(piece)
            size += len(piece)
            if size > LARGEST_RESULT:
                raise _TooMuch(f"The routine becomes longer than {LARGEST_RESULT:,} characters.")
    except UnusableInput:
        raise
    except _TooMuch as limit:
        raise _unusable(script, limit, str(limit)) from None
    except jinja2.UndefinedError as error:
        raise _unusable(script, error, _plain(error.message or "")) from None
    except jinja2.TemplateRuntimeError as error:
        raise _unusable(script, error, _plain(error.message or "")) from None
    except ZeroDivisionError as error:
        raise _unusable(script, error, "A number is divided by zero here.") from None
    except (TypeError, ValueError, ArithmeticError, LookupError, RecursionError) as error:
        message = str(error) if isinstance(error, ValueError) and str(error).endswith(".") else ""
        raise _unusable(script, error, message or "This cannot be worked out with these numbers.") from None
    return "".join(pieces)


def compile_condition(text: str, source: str, line: int, known: frozenset[str]) -> Callable[..., bool]:
    """A condition such as `part < whole` as a function of the blanks (by name). Raises UnusableInput."""
    try:
        script = compile_script("{% if " + text + " %}yes{% endif %}", source, known)
    except UnusableInput as error:
        told = [Problem(problem.message.replace(f"{{% if {text} %}}", text), line) for problem in error.problems]
        raise UnusableInput(told, source) from None

    def holds(**values: Any) -> bool:
        try:
            return fill_script(script, values) == "yes"
        except UnusableInput as error:
            raise UnusableInput([Problem(problem.message, line) for problem in error.problems], source) from None

    return holds


def _refused(tree: nodes.Template, known: frozenset[str] | None) -> Iterator[Problem]:
    inside = {node.name for node in tree.find_all(nodes.Name) if node.ctx == "store"} | {"loop"}
    called = {id(call.node) for call in tree.find_all(nodes.Call)}
    for node in _walk(tree):
        line = node.lineno or 1
        if not isinstance(node, _ALLOWED):
            yield Problem(refused(node), line)
        elif isinstance(node, nodes.Name) and node.ctx == "load":
            if id(node) in called:  # told there, where it is none that can be called
                continue
            if known is not None and node.name not in known | inside:
                if node.name in _FUNCTIONS:
                    yield Problem(f"'{node.name}' needs what it is given in brackets: {node.name}(...).", line)
                    continue
                hint = did_you_mean(node.name, known | set(_FUNCTIONS))
                hint = hint or f' A word that is to be said stands in quotation marks: "{node.name}".'
                yield Problem(f"There is no blank '{node.name}'.{hint}", line)
        elif isinstance(node, nodes.Name) and node.name.startswith("_"):
            yield Problem(f"The name '{node.name}' cannot be used; begin it with a letter.", line)
        elif isinstance(node, nodes.Call):
            if isinstance(node.node, nodes.Name) and node.node.name in FILTERS:
                name = node.node.name
                yield Problem(f"'{name}' stands behind what it changes: {{{{ n|{name} }}}}.", line)
            elif not isinstance(node.node, nodes.Name) or node.node.name not in _FUNCTIONS:
                yield Problem("A routine can call only range(...) and use(...).", line)
            elif node.dyn_args is not None or node.dyn_kwargs is not None:
                yield Problem("Write out what is given to range(...) or use(...).", line)
        elif isinstance(node, nodes.Getattr):
            if not isinstance(node.node, nodes.Name) or node.node.name != "loop":
                hint = f"Write '|{node.attr}'." if node.attr in FILTERS else "Only 'loop' has such names."
                yield Problem(f"'.{node.attr}' cannot be used here. {hint}", line)
        elif isinstance(node, nodes.Filter) and node.name not in FILTERS:
            meant = did_you_mean(node.name, FILTERS) or f" There are: {', '.join(FILTERS)}."
            yield Problem(f"There is no filter '{node.name}'.{meant}", line)
        elif isinstance(node, nodes.Test) and node.name not in _TESTS:
            meant = did_you_mean(node.name, _TESTS) or f" There are: {', '.join(_TESTS)}."
            yield Problem(f"There is no test '{node.name}'.{meant}", line)
        elif isinstance(node, nodes.For) and node.recursive:
            yield Problem("A loop cannot call itself.", line)


def _walk(node: nodes.Node) -> Iterator[nodes.Node]:
    waiting = [node]
    while waiting:
        current = waiting.pop()
        yield current
        waiting.extend(current.iter_child_nodes())


def _range(*arguments: int) -> range:
    found = range(*arguments)
    if len(found) > _MOST_ROUNDS:
        raise _TooMuch("The loops of this routine run too often.")
    return found


def _no_use(*_names: Any, **_values: Any) -> str:
    raise _TooMuch("use(...) works only in a lesson or routine of a series.")


def _unusable(script: Script, error: BaseException, message: str) -> UnusableInput:
    lines = [frame.lineno for frame in traceback.extract_tb(error.__traceback__) if frame.filename == "<template>"]
    return UnusableInput(Problem(message, (lines[-1] or 0) if lines else 0), script.source)


def _plain(message: str) -> str:
    """Jinja2's message as a sentence."""
    message = " ".join(message.split())[:200].replace("is undefined", "has no value here")
    return message[:1].upper() + message[1:] + ("" if message.endswith((".", "?", "!")) else ".")
