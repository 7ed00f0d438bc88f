"""The nearest right word for a word that was mistyped."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice that `word` was most likely meant to be, or None where none is near.

    Letter case, spaces and hyphens do not count ("tenframe" is "ten frame").
    """
    squeezed: dict[str, str] = {}
    for choice in choices:
        squeezed.setdefault(_squeeze(choice), choice)
    found = difflib.get_close_matches(_squeeze(word)[:60], squeezed, n=1, cutoff=0.6)
    return squeezed[found[0]] if found else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """ " Did you mean 'ten frame'?" with a space before it, or "" where nothing is near."""
    found = nearest(word, choices)
    return f" Did you mean '{found}'?" if found else ""


def _squeeze(word: str) -> str:
    return "".join(word.lower().split()).replace("-", "")
