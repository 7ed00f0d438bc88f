"""Every rule, one file each: `NAME`, what it looks for in its docstring, and `find(case)`. A new rule is one new file:
it is found by itself. Rules that need pictures find none where only words were heard, and so say nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from importlib import import_module
from pkgutil import iter_modules

from studio.agree.case import Case
from studio.findings import Finding

RULES: tuple[Callable[[Case], Iterable[Finding]], ...] = tuple(
    rule
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
    if (rule := getattr(import_module(f"{__name__}.{module.name}"), "find", None)) is not None
)
