"""Every rule, one file each: `NAME`, what it looks for in its docstring, and `find(case)`. A new rule is one new file:
it is found by itself. Rules that need pictures find none where only words were heard, and so say nothing. A rule with
`DOUBTS` weighs what the others mind, and is asked after them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

from studio.agree.case import Case
from studio.findings import Finding

Rule = Callable[[Case], Iterable[Finding]]
_MODULES: list[Any] = [
    import_module(f"{__name__}.{module.name}")
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
]
RULES: tuple[Rule, ...] = tuple(
    module.find for module in _MODULES if hasattr(module, "find") and not hasattr(module, "DOUBTS")
)
DOUBTING: tuple[Rule, ...] = tuple(module.find for module in _MODULES if hasattr(module, "DOUBTS"))
"""Those that are asked last."""
