"""Three numbers that belong together, one of them made by the other two: "Nine, seven and sixteen belong to a family."

Values: the whole and its parts. A family of facts: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.talk.model import Statement
from studio.talk.speech import Speech

_THREE = re.compile(r"(?<!# , )(?<!# and )# , # (?:, )?and #(?= (?!and # |, #))")
_FAMILY = re.compile(r" family | fact families ")
_END = re.compile(r"[.?¶§]")
_NO_CLAIM = re.compile(r" (?:not|no|never|if|or|which|whether) ")


def find(speech: Speech) -> Iterator[Statement]:
    text = speech.text
    if " famil" not in text:
        return
    for match in _THREE.finditer(text):
        start, end = speech.sentence_before(match.start()) + 1, _END.search(text, match.end())
        sentence = text[start : end.end() if end else len(text)]
        if "?" in sentence or not _FAMILY.search(sentence) or _NO_CLAIM.search(sentence):
            continue
        *parts, whole = sorted(number.value for number in speech.numbers_in(match.start(), match.end()))
        written = f"{parts[1]} + {parts[0]} = {whole}"
        yield speech.statement("parts", (whole, *parts), sum(parts) == whole, match.start(), match.end(), written)
