"""What the sound itself says about the number words of a script.

A recogniser writes down the likeliest words, and a likely number can hide the number that was said. So each number
word is weighed: the phrase as it was heard is compared, on the same sound, with the phrase that has another number
word in its place (log probabilities of the model, forced onto each text; see CTranslate2's `Whisper.align`). The
number of the script must win clearly to be as written, and lose clearly to be different; between the two it is unsure.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from studio.listen.align import Alignment
from studio.listen.ear import LONGEST, Ear
from studio.listen.model import Heard, HeardWord
from studio.listen.recording import Sound
from studio.listen.take import Judged
from studio.listen.tokens import ALIKE, VALUE, tokens
from studio.progress import Progress, silent
from studio.script.model import Word

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SETTINGS = "judge 1"
"""Changed with everything that changes a verdict; part of the name under which results are kept."""

SURE_AGREED = 2.0
"""Nats by which another number must win before a number that was also written down is doubted."""

WRONG_AGREED = 6.0
"""Nats by which another number must win before a number that was also written down is called different."""

SURE = 1.0
"""Nats by which the script's number must win where another one was written down."""

WRONG = 2.0
"""Nats by which another number must win to be called different where it was written down as well."""

OTHER_WORD = 8.0
"""Nats by which a word that is no number must win over every number: where the script has one, a number is likely."""

_PAUSE = 0.18
_SHORT = 1.6
_LONG = 9.0
_MARGIN = 0.15

DEBUG: list[object] = []

_TEENS = ("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_TIES = ("thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_NEAR: dict[str, tuple[str, ...]] = {
    "zero": ("four", "two"),
    "one": ("nine", "two", "ten"),
    "two": ("ten", "three", "twelve"),
    "three": ("eight", "two", "thirteen", "thirty"),
    "four": ("five", "fourteen", "forty", "one"),
    "five": ("nine", "four", "fifteen", "one"),
    "six": ("sixteen", "seven", "sixty"),
    "seven": ("eleven", "seventeen", "six"),
    "eight": ("eighteen", "eighty", "three", "ten"),
    "nine": ("five", "one", "nineteen"),
    "ten": ("two", "eight", "seven"),
    "eleven": ("seven", "twelve"),
    "twelve": ("twenty", "eleven", "two"),
    "twenty": ("twelve", "thirty"),
    **{teen: (*(other for other in _TEENS if other != teen), tie) for teen, tie in zip(_TEENS, _TIES, strict=True)},
    **{
        tie: (teen, *_TIES[max(0, at - 1) : at], *_TIES[at + 1 : at + 2])
        for at, (teen, tie) in enumerate(zip(_TEENS, _TIES, strict=True))
    },
}
"""Number words that are mistaken for one another (by their sounds; common practice, no source)."""

_EVERY = tuple(word for word in VALUE if word != "hundred")


@dataclass(frozen=True, slots=True)
class Phrase:
    """Heard words from `first` to `last`, with the time of their sound."""

    first: int
    last: int
    start: float
    end: float


def judge(
    script: Sequence[Word], heard: Heard, alignment: Alignment, sound: Sound, ear: Ear, gain: float = 1.0,
    progress: Progress = silent,
) -> dict[int, Judged]:  # fmt: skip
    """A verdict for every number word of the script that was heard as one word; the others stay as they were laid."""
    import numpy as np

    targets: dict[int, tuple[int, str]] = {}
    for pair in alignment.pairs:
        number = _number(script[pair.word].text)
        if number and pair.last - pair.first == 1:
            targets[pair.first] = (pair.word, number)
    found: dict[int, Judged] = {}
    phrases = [
        phrase
        for phrase in cut(heard.words, sound.duration)
        if any(at in targets for at in range(phrase.first, phrase.last))
    ]
    for count, phrase in enumerate(phrases):
        part = sound.part(phrase.start, phrase.end)
        encoded = ear.encode([np.clip(part * np.float32(gain), -1, 1)], whole=False)
        texts = [word.text.lower() for word in heard.words[phrase.first : phrase.last]]
        for at in range(phrase.first, phrase.last):
            if at not in targets:
                continue
            word, number = targets[at]
            found[word] = _weigh(ear, encoded, texts, at - phrase.first, number)
        progress((count + 1) / len(phrases), "comparing numbers")
    return found


def _number(text: str) -> str:
    """The number word of a script word that is one number word, else ""."""
    found = tokens(text)
    return found[0] if len(found) == 1 and found[0] in VALUE and found[0] != "hundred" else ""


def _weigh(ear: Ear, encoded: NDArray[np.float32], texts: Sequence[str], at: int, number: str) -> Judged:
    said = tokens(texts[at])
    written = ALIKE.get(said[0], said[0]) if len(said) == 1 else ""
    agreed = written == number
    others = list(_NEAR.get(number, _EVERY)) if agreed else [word for word in _EVERY if word != number]
    bare = texts[at].strip(".,!?;:")
    scores = ear.weigh(encoded, [_with(texts, at, candidate) for candidate in (number, *others, bare)])
    own, heard = scores[0], scores[-1]
    best = max(range(len(others)), key=lambda index: scores[1 + index])
    rival, margin = others[best], own - scores[1 + best]
    DEBUG.append((number, bare, round(own - heard, 1), rival, round(margin, 1), ' '.join(texts)))
    if agreed:
        if margin > -SURE_AGREED:
            return Judged("as-written", number)
        return Judged("different" if margin < -WRONG_AGREED else "unsure", rival)
    if written not in VALUE and max(own, scores[1 + best]) < heard - OTHER_WORD:
        return Judged("different", bare)
    if margin > SURE:
        return Judged("as-written", number)
    # Where the other number was also written down, less is enough.
    enough = WRONG if rival == written else WRONG_AGREED
    return Judged("different" if margin < -enough else "unsure", rival)


def _with(texts: Sequence[str], at: int, candidate: str) -> str:
    """The phrase with another word at `at`, keeping the punctuation."""
    bare = texts[at].strip(".,!?;:\"'")
    word = texts[at].replace(bare, candidate, 1) if bare else candidate
    return " ".join([*texts[:at], word, *texts[at + 1 :]])


def cut(words: Sequence[HeardWord], duration: float) -> Iterator[Phrase]:
    """Cut heard words at pauses into phrases long enough to be weighed and short enough to be cheap."""
    first = 0
    for at in range(1, len(words) + 1):
        length = words[at - 1].end - words[first].start
        last = at == len(words)
        gap = 0.0 if last else words[at].start - words[at - 1].end
        too_long = not last and words[at].end - words[first].start > LONGEST - 2
        if last or too_long or (gap >= _PAUSE and length >= _SHORT) or (gap > 0.02 and length >= _LONG) or gap > 2.0:
            before = words[first - 1].end if first else 0.0
            after = words[at].start if not last else duration
            start = max(words[first].start - _MARGIN - 0.1, (before + words[first].start) / 2 - 0.02, 0.0)
            end = min(words[at - 1].end + _MARGIN + 0.1, (words[at - 1].end + after) / 2 + 0.02, duration)
            yield Phrase(first, at, start, end)
            first = at
