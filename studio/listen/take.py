"""From an alignment to a take: a verdict for every word, and the places to record again, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from studio.listen.align import Alignment, Pair, Repeat
from studio.listen.model import Heard, HeardWord, Retake, SaidWord, Take, Verdict
from studio.listen.tokens import FILLERS, VALUE, tokens
from studio.script.model import Word

MATTERS = frozenset(
    "more less fewer before after bigger smaller most least same equal equals plus minus add take away left both all "
    "none no not some each half double part whole ten tens one ones altogether together".split()
)
"""Words that change the arithmetic when they are changed."""


@dataclass(frozen=True, slots=True)
class Judged:
    """What the sound itself says about a script word: the verdict and the word that was heard."""

    verdict: Verdict
    heard: str


def make_take(
    script: Sequence[Word], heard: Heard, alignment: Alignment, judged: Mapping[int, Judged] | None = None
) -> Take:
    """The recording laid against the script; what the sound says (`judged`) goes before what was written down."""
    judged = judged or {}
    said: list[SaidWord] = []
    clock = 0.0
    used = 0
    extras = set(alignment.extras)

    def add_extras(before: int) -> None:
        nonlocal used, clock
        while used < before:
            if used in extras:
                word = heard.words[used]
                start = max(clock, word.start)
                said.append(SaidWord(None, word.text, start, max(start, word.end), "extra", word.text))
                clock = start
            used += 1

    for pair in alignment.pairs:
        word = script[pair.word]
        if pair.found:
            add_extras(pair.first)
            used = max(used, pair.last)
        said_word = _said(word, pair, heard, judged.get(pair.word), clock)
        clock = said_word.start
        said.append(said_word)
    add_extras(len(heard.words))
    ordered = _timed_skips(said, heard.duration)
    matched = sum(word.verdict in ("as-written", "unsure") for word in ordered if word.word is not None)
    return Take(
        tuple(ordered),
        tuple(_retakes(script, ordered, heard, alignment.repeats)),
        heard.duration,
        matched / len(script) if script else 0.0,
    )


def _said(word: Word, pair: Pair, heard: Heard, judged: Judged | None, clock: float) -> SaidWord:
    line = word.place.line
    if not pair.found:
        if judged is not None and judged.verdict == "as-written":
            return SaidWord(word.index, word.text, clock, clock, "as-written", word.text, line)
        if pair.equal:
            return SaidWord(word.index, word.text, clock, clock, "as-written", "", line)
        return SaidWord(word.index, "", clock, clock, "skipped", "", line)
    words = heard.words[pair.first : pair.last]
    text = " ".join(each.text for each in words)
    start = max(clock, words[0].start)
    end = max(start, words[-1].end)
    verdict: Verdict = "as-written" if pair.equal else "different"
    if judged is not None:
        verdict = judged.verdict
        # The word that the sound speaks for; as it was written down where that is the same.
        text = text if not judged.heard or tokens(judged.heard) == tokens(text) else judged.heard
    shown = text if verdict == "different" else word.text
    return SaidWord(word.index, shown, start, end, verdict, text, line)


def _timed_skips(said: Sequence[SaidWord], duration: float) -> list[SaidWord]:
    """A skipped word gets the time at which the word before it ended; times only grow."""
    result: list[SaidWord] = []
    for word in said:
        floor = result[-1].start if result else 0.0
        start, end = word.start, word.end
        if word.verdict == "skipped" and result:
            start = end = max(floor, min(result[-1].end, duration))
        start = max(floor, start)
        result.append(SaidWord(word.word, word.text, start, max(start, end), word.verdict, word.heard, word.line))
    # A skipped word may not begin after the word that follows it.
    ceiling = duration
    for at in range(len(result) - 1, -1, -1):
        word = result[at]
        if word.start > ceiling:
            result[at] = SaidWord(
                word.word, word.text, ceiling, max(ceiling, word.end), word.verdict, word.heard, word.line
            )
        ceiling = result[at].start
    return result


# --- where to record again -------------------------------------------------------------------------------------------


def _retakes(script: Sequence[Word], said: Sequence[SaidWord], heard: Heard, repeats: Sequence[Repeat]) -> list[Retake]:
    by_word = {word.word: at for at, word in enumerate(said) if word.word is not None}
    sentences: dict[int, list[Word]] = {}
    for word in script:
        sentences.setdefault(word.sentence, []).append(word)
    found: list[Retake] = []
    for words in sentences.values():
        positions = [by_word[word.index] for word in words]
        stretch = said[positions[0] : positions[-1] + 1]
        mine = [said[at] for at in positions]
        reason = _reason(words, mine)
        if reason:
            spoken = [word for word in stretch if word.verdict != "skipped"] or stretch
            found.append(
                Retake(
                    round(spoken[0].start, 3),
                    round(max(word.end for word in spoken), 3),
                    words[0].place.line,
                    _join(words),
                    " ".join(word.heard or word.text for word in stretch if word.verdict != "skipped"),
                    reason,
                )
            )
    for repeat in repeats:
        again = heard.words[repeat.first : repeat.last]
        first = script[repeat.word]
        found.append(
            Retake(
                round(again[0].start, 3),
                round(again[-1].end, 3),
                first.place.line,
                _join(script[repeat.word : repeat.end]),
                " ".join(word.text for word in again),
                "This was said more than once. The last complete saying is used; the children hear both unless "
                "this one is cut out.",
            )
        )
    for run in _asides(said, heard, repeats):
        numbers = [token for word in run for token in tokens(word.text) if token in VALUE]
        if numbers:
            it = ("is heard here and is", "it") if len(numbers) == 1 else ("are heard here and are", "them")
            reason = f"“{_list(numbers)}” {it[0]} not in the script, so no picture shows {it[1]}."
            text = " ".join(word.text for word in run)
            found.append(Retake(round(run[0].start, 3), round(run[-1].end, 3), None, "", text, reason))
    return sorted(found, key=lambda retake: (retake.start, retake.end))


def _reason(words: Sequence[Word], said: Sequence[SaidWord]) -> str:
    """Why a sentence should be said again, "" when it need not be."""
    reasons = []
    for word, heard in zip(words, said, strict=True):
        script = tokens(word.text)
        numbers = [token for token in script if token in VALUE]
        if heard.verdict == "different" and (numbers or any(token in VALUE for token in tokens(heard.heard))):
            reasons.append(
                f"The script says {_plain(word)} and {_quoted(heard.heard)} is heard: "
                f"the picture would show {_plain(word)} while the children hear {_quoted(heard.heard)}."
            )
        elif heard.verdict == "skipped" and numbers:
            reasons.append(f"The number {_plain(word)} is not heard, so its picture would come without its word.")
        elif heard.verdict == "different" and (
            MATTERS.intersection(script) or MATTERS.intersection(tokens(heard.heard))
        ):
            reasons.append(
                f"The script says {_plain(word)} and {_quoted(heard.heard)} is heard, "
                "which changes what is done with the numbers."
            )
        elif heard.verdict == "skipped" and MATTERS.intersection(script):
            reasons.append(f"The word {_plain(word)} is not heard, which changes what is done with the numbers.")
    missing = sum(word.verdict == "skipped" for word in said)
    if missing and missing >= max(2, 0.6 * len(said)):
        what = "This sentence is" if missing == len(said) else "Most of this sentence is"
        numbers = [_plain(word) for word in words if any(token in VALUE for token in tokens(word.text))]
        why = f" Its numbers ({_list(numbers)}) are shown and never said." if numbers else " It was skipped."
        return f"{what} not heard.{why}"
    return " ".join(dict.fromkeys(reasons))


def _asides(said: Sequence[SaidWord], heard: Heard, repeats: Sequence[Repeat]) -> list[list[HeardWord]]:
    repeated = {heard.words[at].start for repeat in repeats for at in range(repeat.first, repeat.last)}
    runs: list[list[HeardWord]] = []
    open_run = False
    for word in said:
        extra = word.verdict == "extra" and word.start not in repeated and not FILLERS.issuperset(tokens(word.text))
        if extra:
            if not open_run:
                runs.append([])
            runs[-1].append(HeardWord(word.text, word.start, word.end))
        open_run = extra
    return runs


def _join(words: Sequence[Word]) -> str:
    return "".join(("" if word.glued or at == 0 else " ") + word.text for at, word in enumerate(words))


def _plain(word: Word) -> str:
    return f"“{word.plain or word.text}”"


def _quoted(text: str) -> str:
    return f"“{text.strip(' .,!?;:').lower()}”"


def _list(words: Sequence[str]) -> str:
    unique = list(dict.fromkeys(words))
    return unique[0] if len(unique) == 1 else ", ".join(unique[:-1]) + " and " + unique[-1]
