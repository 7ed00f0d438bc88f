"""From an alignment to a take: a verdict for every word, and the places to record again, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from studio.listen.align import Alignment, Moved, Pair, Repeat, lay
from studio.listen.model import Elsewhere, Heard, HeardWord, Retake, SaidWord, Take, Verdict
from studio.listen.tokens import ALIKE, FILLERS, NUMBER_WORD, VALUE, sound_alike, tokens
from studio.script.model import Word

MATTERS = frozenset(
    "more less fewer before after bigger smaller most least same equal equals plus minus add take away left both all "
    "none no not some each half double part whole ten tens one ones altogether together".split()
)
"""Words that change the arithmetic when they are changed."""


_HARDLY = 0.3
"""Confidence below which a word that was written down tells little."""

_FEW = 2
"""Words in which one number can be hidden."""


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
    again = {index: text for each in alignment.repeats for index, text in _as_script(script, heard, each)}

    def add_extras(before: int) -> None:
        nonlocal used, clock
        while used < before:
            if used in extras:
                word = heard.words[used]
                start = max(clock, word.start)
                text = again.get(used, word.text)
                said.append(SaidWord(None, text, start, max(start, word.end), "extra", word.text))
                clock = start
            used += 1

    for pair in alignment.pairs:
        word = script[pair.word]
        if pair.found:
            add_extras(pair.first)
            used = max(used, pair.last)
        said_word = _said(word, pair, heard, judged.get(pair.word), clock)
        if said_word.verdict == "skipped" and _number_words(word.text):
            beside = _misheard_beside(script, alignment.pairs, pair.word, heard)
            if beside is not None:
                start = max(clock, beside)
                said_word = SaidWord(word.index, word.text, start, start, "unsure", "", word.place.line)
        clock = said_word.start
        said.append(said_word)
    add_extras(len(heard.words))
    ordered = _over_unclear(_timed_skips(said, heard.duration), heard)
    matched = sum(word.verdict in ("as-written", "unsure") for word in ordered if word.word is not None)
    return Take(
        tuple(ordered),
        tuple(_retakes(script, ordered, heard, alignment)),
        heard.duration,
        matched / len(script) if script else 0.0,
        tuple(
            Elsewhere(heard.words[each.first].start, heard.words[each.last - 1].end, each.word)
            for each in alignment.moved
        ),
    )


def _as_script(script: Sequence[Word], heard: Heard, repeat: Repeat) -> list[tuple[int, str]]:
    """The heard words of a saying that does not count, each as the script writes it, except where another number, or
    a word that changes the arithmetic, was said."""
    mine = script[repeat.word : repeat.end]
    found: dict[int, list[str]] = {}
    last = -1
    for pair in lay(mine, heard.words[repeat.first : repeat.last]).pairs:
        if pair.found:
            last = repeat.first + pair.first
            written = {token for at in range(pair.first, pair.last) for token in _told(heard.words[repeat.first + at])}
            if not pair.equal and written - set(tokens(mine[pair.word].text)):
                last = -1
                continue
            found[last] = [mine[pair.word].text]
            for at in range(pair.first + 1, pair.last):
                found[repeat.first + at] = []
        elif (
            last >= 0
            and not heard.words[last].text.endswith((".", "?", "!"))
            and not _number_words(mine[pair.word].text)
        ):
            found[last].append(mine[pair.word].text)
    return [(index, " ".join(texts)) for index, texts in found.items() if texts]


def _told(word: HeardWord) -> set[str]:
    """The number words and the words that change the arithmetic in a heard word."""
    said = {ALIKE.get(token, token) for token in tokens(word.text)}
    return {token for token in said if token in VALUE or token in MATTERS}


def _number_words(text: str) -> list[str]:
    return [token for token in tokens(text) if token in VALUE]


def _misheard_beside(script: Sequence[Word], pairs: Sequence[Pair], at: int, heard: Heard) -> float | None:
    """When something beside this word was said that was hardly made out ("sidewalks" for "five ducks"): the word can be
    in its sound. None where there is nothing like it."""
    before = next((pairs[other].last for other in range(at - 1, -1, -1) if pairs[other].found), 0)
    after = next((pairs[other].first for other in range(at + 1, len(pairs)) if pairs[other].found), len(heard.words))
    between = heard.words[before:after]
    if 0 < len(between) <= _FEW and sum(word.confidence for word in between) < 0.5 * len(between):
        return between[0].start
    for other in (at + 1, at - 1):
        if not 0 <= other < len(pairs) or script[other].sentence != script[at].sentence:
            continue
        pair = pairs[other]
        words = heard.words[pair.first : pair.last]
        if words and not pair.equal and sum(word.confidence for word in words) < 0.5 * len(words):
            return words[0].start
    return None


def _over_unclear(said: Sequence[SaidWord], heard: Heard) -> list[SaidWord]:
    """Words that were not heard share out the speech that could not be made out where they should come."""
    result = list(said)
    at = 0
    while at < len(result):
        end = at
        while end < len(result) and result[end].verdict == "skipped":
            end += 1
        if end > at and (stretch := _unclear_between(result, at, end, heard)):
            start, length = stretch[0], (stretch[1] - stretch[0]) / (end - at)
            for place in range(at, end):
                begin = start + (place - at) * length
                result[place] = replace(result[place], start=begin, end=begin + length)
        at = end + 1
    return result


def _unclear_between(said: Sequence[SaidWord], first: int, end: int, heard: Heard) -> tuple[float, float] | None:
    """The speech that could not be made out between the words around a run of words."""
    before = said[first - 1].end if first else 0.0
    after = said[end].start if end < len(said) else heard.duration
    inside = [(a, b) for a, b in heard.unclear if b > before and a < after]
    return (max(inside[0][0], before), min(inside[-1][1], after)) if inside else None


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
    elif verdict == "different" and len(numbers := _number_words(word.text)) == 1 and misheard(numbers[0], words):
        verdict = "unsure"
    shown = text if verdict == "different" else word.text
    return SaidWord(word.index, shown, start, end, verdict, text, line)


def misheard(number: str, words: Sequence[HeardWord]) -> bool:
    """Whether the script's number may have been said where no number was written down: what was written has its
    sound, or was hardly made out."""
    written = [ALIKE.get(token, token) for word in words for token in tokens(word.text)]
    if any(token in VALUE for token in written):
        return False
    return sound_alike(number, "".join(written)) or sum(word.confidence for word in words) < _HARDLY * len(words)


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


def _retakes(script: Sequence[Word], said: Sequence[SaidWord], heard: Heard, alignment: Alignment) -> list[Retake]:
    by_word = {word.word: at for at, word in enumerate(said) if word.word is not None}
    sentences: dict[int, list[Word]] = {}
    for word in script:
        sentences.setdefault(word.sentence, []).append(word)
    found = [_out_of_order(script, heard, alignment, moved) for moved in alignment.moved]
    elsewhere = {word for moved in alignment.moved for word in range(moved.word, moved.end)}
    for words in sentences.values():
        positions = [by_word[word.index] for word in words]
        stretch = said[positions[0] : positions[-1] + 1]
        mine = [said[at] for at in positions]
        if all(word.verdict == "skipped" for word in mine) and any(word.index in elsewhere for word in words):
            continue
        reason = _unmade_out(mine, heard) or _reason(words, mine)
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
    found += [_said_again(script, heard, repeats) for repeats in _together(alignment.repeats)]
    for run in _asides(said, heard, alignment):
        numbers = list(dict.fromkeys(token for word in run for token in _number_words(word.text)))
        if numbers:
            it = ("is heard here and is", "it") if len(numbers) == 1 else ("are heard here and are", "them")
            reason = f"“{_list(numbers)}” {it[0]} not in the script, so no picture shows {it[1]}."
            text = " ".join(word.text for word in run)
            found.append(Retake(round(run[0].start, 3), round(run[-1].end, 3), None, "", text, reason))
    return sorted(found, key=lambda retake: (retake.start, retake.end))


def _out_of_order(script: Sequence[Word], heard: Heard, alignment: Alignment, moved: Moved) -> Retake:
    """The place where words are said that stand elsewhere in the script."""
    lines = (script[moved.word].place.line, script[moved.end - 1].place.line)
    which = f"Line {lines[0]} is" if lines[0] == lines[1] else f"Lines {lines[0]} to {lines[1]} are"
    before = [pair.word for pair in alignment.pairs if pair.found and pair.last <= moved.first]
    after = [pair.word for pair in alignment.pairs if pair.found and pair.first >= moved.last]
    if before and before[-1] > moved.word:
        where = f"after line {script[before[-1]].place.line}"
    else:
        where = f"before line {script[after[0]].place.line}" if after else "at another place"
    words = heard.words[moved.first : moved.last]
    return Retake(
        round(words[0].start, 3),
        round(words[-1].end, 3),
        lines[0],
        _join(script[moved.word : moved.end]),
        " ".join(word.text for word in words),
        f"{which} said here, {where}, so the pictures would come at the wrong time. Give the takes, or record the "
        "parts, in the order of the script.",
    )


def _together(repeats: Sequence[Repeat]) -> list[list[Repeat]]:
    """Sayings of the same words that follow one another."""
    groups: list[list[Repeat]] = []
    for repeat in sorted(repeats, key=lambda each: each.first):
        if groups:
            last = groups[-1][-1]
            if repeat.first - last.last <= 2 and repeat.word < last.end and last.word < repeat.end:
                groups[-1].append(repeat)
                continue
        groups.append([repeat])
    return groups


def _said_again(script: Sequence[Word], heard: Heard, repeats: Sequence[Repeat]) -> Retake:
    """The sayings that do not count."""
    again = heard.words[repeats[0].first : repeats[-1].last]
    first = script[repeats[0].word]
    if len(repeats) == 1:
        reason = (
            "This was said more than once. The last complete saying is used; the children hear both unless this one "
            "is cut out."
        )
    else:
        times = NUMBER_WORD.get(len(repeats) + 1, str(len(repeats) + 1))
        reason = (
            f"This was said {times} times. The last complete saying is used; the children hear all {times} unless the "
            "others are cut out."
        )
    return Retake(
        round(again[0].start, 3),
        round(again[-1].end, 3),
        first.place.line,
        _join(script[repeats[0].word : repeats[0].end]),
        " ".join(word.text for word in again),
        reason,
    )


def _unmade_out(said: Sequence[SaidWord], heard: Heard) -> str:
    """What is told of a sentence none of which could be made out although someone speaks, "" of any other."""
    if any(word.verdict != "skipped" for word in said):
        return ""
    start, end = said[0].start, said[-1].end
    if not any(b > start and a < end for a, b in heard.unclear):
        return ""
    return (
        "Someone speaks here and no word can be made out. Listen yourself, and say it again if it is not this sentence."
    )


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


def _asides(said: Sequence[SaidWord], heard: Heard, alignment: Alignment) -> list[list[HeardWord]]:
    explained: tuple[Repeat | Moved, ...] = (*alignment.repeats, *alignment.moved)
    repeated = {heard.words[at].start for each in explained for at in range(each.first, each.last)}
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
