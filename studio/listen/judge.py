"""What the sound itself says about the number words of a script.

A recogniser writes down the likeliest words, and a likely number can hide the number that was said. So a number word
that was written down otherwise, or with little confidence, is weighed: the phrase as it was heard is compared, on the
same sound, with the phrase that has another number word in its place (log probabilities of the model, forced onto each
text; see CTranslate2's `Whisper.align`). The number of the script must win clearly to be as written, and lose clearly
to be different; between the two it is unsure.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from studio.listen.align import Alignment, Pair
from studio.listen.ear import LONGEST, Ear
from studio.listen.model import Heard, HeardWord
from studio.listen.recording import Sound
from studio.listen.take import MATTERS, Judged, misheard
from studio.listen.tokens import ALIKE, ONES, TENS, VALUE, alike, sound_alike, tokens
from studio.progress import Progress, silent
from studio.script.model import Word

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SETTINGS = "judge 7"
"""Changed with everything that changes a verdict; part of the name under which results are kept."""

SURE_AGREED = 2.0
"""Nats by which another number must win before a number that was also written down is doubted."""

WRONG_UNWRITTEN = 6.0
"""Nats by which a number that was not written down must win to be called the one that was said."""

SURE = 2.0
"""Nats by which the script's number must win where another number was written down."""

SURE_UNHEARD = 0.5
"""Nats by which the script's number must win where something else than a number was written down."""

WRONG = 0.0
"""Nats by which another number must win to be called different where it was written down as well."""

CLEAR = 0.6
"""Confidence from which a number that was written down as in the script is believed. Measured: of 200 slips of four
voices 195 were written down as another number, 5 as another word or not at all, none as the script's number."""

OTHER_WORD = 10.0
"""Nats by which a word that is no number must win over every number: where the script has one, a number is likely."""

OTHER_WORDS = 4.0
"""Nats by which the heard phrase must win over the script's before its other words are called different."""

OTHER_WORDS_ALIKE = 10.0
"""The same where a word is written nearly as in the script ("ribs" for "reeds")."""

OTHER_WORDS_MATTER = 3.0
"""The same where a word changes the arithmetic ("more" and "less": measured 5 to 8 on flite's voices)."""

_PAUSE = 0.12
_LONG_PAUSE = 0.5
_SHORT = 1.6
_LONG = 9.0
_MARGIN = 0.15


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


@dataclass(frozen=True, slots=True)
class _Context:
    """A text for a phrase, and where in it the words of the script stand."""

    texts: tuple[str, ...]
    slots: Mapping[int, int]

    def with_word(self, word: int, candidate: str) -> str:
        """The text with `candidate` in the place of a script word, keeping the punctuation."""
        at = self.slots[word]
        bare = self.texts[at].strip(".,!?;:\"'")
        changed = self.texts[at].replace(bare, candidate, 1) if bare else candidate
        return " ".join([*self.texts[:at], changed, *self.texts[at + 1 :]])

    def text(self) -> str:
        return " ".join(self.texts)


def judge(
    script: Sequence[Word], heard: Heard, alignment: Alignment, sound: Sound, ear: Ear, gain: float = 1.0,
    progress: Progress = silent,
) -> dict[int, Judged]:  # fmt: skip
    """What the sound says about the number words of the script, and about words that were written down otherwise."""
    import numpy as np

    found: dict[int, Judged] = {}
    phrases = list(cut(heard.words, sound.duration))
    extras = set(alignment.extras)
    starting: dict[int, list[int]] = {}
    for pair in alignment.pairs:
        if pair.found:
            starting.setdefault(pair.first, []).append(pair.word)
    for count, phrase in enumerate(phrases):
        mine = [word for at in range(phrase.first, phrase.last) for word in starting.get(at, ())]
        if not mine:
            continue
        span = range(min(mine), max(mine) + 1)
        exact = all(alignment.pairs[word].equal for word in span) and extras.isdisjoint(
            range(phrase.first, phrase.last)
        )
        doubted = [word for word in span if _doubted(script[word].text, alignment.pairs[word], heard)]
        if exact and not doubted:
            continue
        part = sound.part(phrase.start, phrase.end)
        encoded = ear.encode([np.clip(part * np.float32(gain), -1, 1)], whole=False)
        contexts = _contexts(script, heard, alignment, phrase, span, doubted if exact else None)
        found.update(_judge_phrase(script, heard, alignment, span, contexts, encoded, ear, phrase.start))
        progress((count + 1) / len(phrases), "comparing numbers")
    return found


def _contexts(
    script: Sequence[Word], heard: Heard, alignment: Alignment, phrase: Phrase, span: range,
    doubted: Sequence[int] | None,
) -> list[_Context]:  # fmt: skip
    """The phrase as it was heard and, where that differs, as it is in the script with the numbers that were heard.

    `doubted`, of a phrase that was heard as written, are the words that need a place in one of the two.
    """
    texts = tuple(word.text.lower() for word in heard.words[phrase.first : phrase.last])
    slots = {
        word: alignment.pairs[word].first - phrase.first
        for word in span
        if alignment.pairs[word].last - alignment.pairs[word].first == 1 and alignment.pairs[word].last <= phrase.last
    }
    contexts = [_Context(texts, slots)]
    if doubted is None or not slots.keys() >= set(doubted):
        written: list[str] = []
        places: dict[int, int] = {}
        dropped = _long_skips(alignment, span)
        for word in span:
            text = script[word].text.lower()
            pair = alignment.pairs[word]
            if word in dropped:
                continue
            number = _number(text)
            pieces: tuple[str, ...]
            if number:
                pieces = ((pair.found and _heard_number(heard.words[pair.first : pair.last])) or number,)
            else:
                pieces = tokens(text) if any(sign in text for sign in "+-=<>0123456789") else (text,)
            places[word] = len(written)
            written += pieces
        contexts.append(_Context(tuple(written), places))
    return contexts


def _long_skips(alignment: Alignment, span: range) -> set[int]:
    """Script words in runs of three or more that were not heard at all: they were skipped, not misheard."""
    dropped: set[int] = set()
    run: list[int] = []
    for word in span:
        if not alignment.pairs[word].found:
            run.append(word)
            continue
        if len(run) >= 3:
            dropped.update(run)
        run = []
    return dropped


def _judge_phrase(
    script: Sequence[Word], heard: Heard, alignment: Alignment, span: range, contexts: Sequence[_Context],
    encoded: NDArray[np.float32], ear: Ear, start: float,
) -> dict[int, Judged]:  # fmt: skip
    found: dict[int, Judged] = {}
    as_script = False
    if len(contexts) > 1:
        as_heard, as_script_score = ear.weigh(encoded, [context.text() for context in contexts])
        as_script = as_script_score > as_heard - _tolerance(script, heard, alignment, span)
    for word in span:
        number = _number(script[word].text)
        pair = alignment.pairs[word]
        if number and pair.found:
            if not _doubted(script[word].text, pair, heard):
                continue
            judged = _weigh(ear, encoded, contexts, word, number, heard.words[pair.first : pair.last])
            if judged is not None:
                found[word] = judged
        elif not pair.equal and as_script and word in contexts[-1].slots:
            found[word] = Judged("as-written", script[word].text)
    return found


def _tolerance(script: Sequence[Word], heard: Heard, alignment: Alignment, span: range) -> float:
    """By how much the heard phrase may win and the script's words still be the ones that were said: more for a word
    that was written down nearly as the script has it, less for one that changes the arithmetic."""
    allowed = OTHER_WORDS
    for word in span:
        pair = alignment.pairs[word]
        if pair.equal or _number(script[word].text):
            continue
        own = tokens(script[word].text)
        written = [token for at in range(pair.first, pair.last) for token in tokens(heard.words[at].text)]
        if MATTERS.intersection(written) - set(own):
            return OTHER_WORDS_MATTER
        if alike("".join(own), "".join(written)) >= 0.5:
            allowed = max(allowed, OTHER_WORDS_ALIKE)
    return allowed


def _number(text: str) -> str:
    """The number word of a word that is one number from zero to ninety-nine ("twenty-three"), else ""."""
    return _numeral(tokens(text))


def _numeral(found: tuple[str, ...]) -> str:
    if len(found) == 1 and found[0] in VALUE and found[0] != "hundred":
        return found[0]
    if len(found) == 2 and VALUE.get(found[0], 0) in TENS and 0 < VALUE.get(found[1], 0) < 10:
        return "-".join(found)
    return ""


def _heard_number(words: Sequence[HeardWord]) -> str:
    """The same for heard words, which may be spelled as others that sound alike ("for")."""
    return _numeral(tuple(ALIKE.get(token, token) for word in words for token in tokens(word.text)))


def _doubted(text: str, pair: Pair, heard: Heard) -> bool:
    """Whether a number of the script is to be weighed: it was not written down so, or with little confidence."""
    words = heard.words[pair.first : pair.last]
    number = _number(text)
    if not number:
        return False
    return _heard_number(words) != number or min(word.confidence for word in words) < CLEAR


def _others(number: str) -> tuple[str, ...]:
    """The numbers that a number may be mistaken for: of a number of two words, those that share one of the two.

    Fewer words always weigh less, so a number of one word is no rival of one of two, unless it was written down.
    """
    ten, _, one = number.partition("-")
    if not one:
        return _EVERY
    return (
        *(f"{ten}-{other}" for other in ONES[1:10]),
        *(f"{other}-{one}" for other in TENS.values()),
    )


def _weigh(
    ear: Ear, encoded: NDArray[np.float32], contexts: Sequence[_Context], word: int, number: str,
    heard: Sequence[HeardWord],
) -> Judged | None:  # fmt: skip
    usable = [context for context in contexts if word in context.slots]
    if not usable:
        return None
    written = _heard_number(heard)
    bare = " ".join(each.text for each in heard).strip(".,!?;:").lower()
    agreed = written == number
    others = _NEAR[number] if agreed and number in _NEAR else _others(number)
    if written and written not in others:
        others = (*others, written)
    candidates = [number, *dict.fromkeys(other for other in others if other != number)]
    texts = [context.with_word(word, candidate) for context in usable for candidate in candidates]
    scores = ear.weigh(encoded, [*texts, contexts[0].text()])
    as_heard = scores.pop()
    count = len(candidates)
    best_of = [max(scores[at::count]) for at in range(count)]
    best = max(range(1, count), key=lambda at: best_of[at])
    rival, margin = candidates[best], best_of[0] - best_of[best]
    if agreed:
        if margin > -SURE_AGREED:
            return Judged("as-written", number)
        # A number that was also written down is never called different: a model that would rather write numerals
        # gives the words from ten on too little (seen with base: "ten" against "seven").
        return Judged("unsure", rival)
    if not written and max(best_of[0], best_of[best]) < as_heard - OTHER_WORD:
        return Judged("unsure" if misheard(number, heard) else "different", bare)
    if margin > (SURE if written else SURE_UNHEARD):
        return Judged("as-written", number)
    # Where the other number was also written down, less is enough.
    enough = WRONG if rival == written else WRONG_UNWRITTEN
    if not written and sound_alike(number, "".join(tokens(bare))):
        return Judged("unsure", rival)
    return Judged("different" if margin < -enough else "unsure", rival)


def cut(words: Sequence[HeardWord], duration: float) -> Iterator[Phrase]:
    """Cut heard words at pauses into phrases long enough to be weighed and short enough to be cheap."""
    first = 0
    for at in range(1, len(words) + 1):
        length = words[at - 1].end - words[first].start
        last = at == len(words)
        gap = 0.0 if last else words[at].start - words[at - 1].end
        ends = words[at - 1].text.endswith((".", "?", "!"))
        too_long = not last and words[at].end - words[first].start > LONGEST - 2
        pause = gap >= _LONG_PAUSE or (gap >= _PAUSE and (length >= _SHORT or (ends and length >= _SHORT / 2)))
        if last or too_long or (pause and length >= _SHORT / 2) or (gap > 0.02 and length >= _LONG) or gap > 2.0:
            before = words[first - 1].end if first else 0.0
            after = words[at].start if not last else duration
            start = max(words[first].start - _MARGIN - 0.1, (before + words[first].start) / 2 - 0.02, 0.0)
            end = min(words[at - 1].end + _MARGIN + 0.1, (words[at - 1].end + after) / 2 + 0.02, duration)
            yield Phrase(first, at, start, end)
            first = at
