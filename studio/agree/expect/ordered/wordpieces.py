"""Tokens as a pretrained reader knows them: whole words where they are common, else their longest known beginning and what is left of
them, piece by piece (WordPiece: Wu and others 2016, section 4.1)."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

import numpy as np
import numpy.typing as npt

from studio.agree.expect.ordered.stream import NUMBER

PADDING, UNKNOWN, MASK, INNER = "[PAD]", "[UNK]", "[MASK]", "##"
_PARTS = re.compile(r"\w+|[^\w\s]")
_LONGEST = 30
"""Characters of a word; longer ones are no words."""
_MOST = 512
"""Pieces that are read at once."""

Indices = npt.NDArray[np.int32]


def is_direction(token: str) -> bool:
    """Whether a token of a stream is no word but tells of a direction, or of a part of the stream ("<segment>")."""
    return token[0] == "<" and token[-1] == ">" and len(token) > len("<>")


class Wordpieces:
    """Pieces by their index. A direction ("<show ten frame>") is one piece, and a number is the mask of the reader."""

    def __init__(self, names: Iterable[str]) -> None:
        self.names: Mapping[str, int] = {name: at for at, name in enumerate(names)}

    def of(self, token: str) -> tuple[int, ...]:
        """The pieces of a token, one at least."""
        unknown = self.names[UNKNOWN]
        if token == NUMBER:
            return (self.names[MASK],)
        if is_direction(token):
            return (self.names.get(token, unknown),)
        parts = _PARTS.findall(token.lower().replace("’", "'").replace("_", " "))
        return tuple(piece for part in parts for piece in self._of_word(part)) or (unknown,)

    def all_of(self, tokens: Sequence[str]) -> tuple[Indices, Indices]:
        """The pieces of all tokens, and which of them is the first of each. Where they would be too many, each token has its first
        piece alone."""
        found = [self.of(token) for token in tokens]
        if sum(map(len, found)) > _MOST:
            found = [pieces[:1] for pieces in found]
        ends = np.cumsum([0, *map(len, found)], dtype=np.int32)
        return np.fromiter((piece for pieces in found for piece in pieces), np.int32, int(ends[-1])), ends[:-1]

    def _of_word(self, word: str) -> tuple[int, ...]:
        found: list[int] = []
        start = 0
        while start < len(word) <= _LONGEST:
            sign = INNER if start else ""
            end = next((at for at in range(len(word), start, -1) if sign + word[start:at] in self.names), None)
            if end is None:
                break
            found.append(self.names[sign + word[start:end]])
            start = end
        return tuple(found) if start == len(word) else (self.names[UNKNOWN],)
