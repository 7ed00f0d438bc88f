"""From spoken words to captions: breaks chosen together, not one after the other.

Every caption is a run of words; the best row of runs is found by dynamic programming over the cost of parting phrases
(`phrases`), of captions that are too short or too fast to read, that run on over a silence, a question or the moment a
picture gives the answer (and so tell it before it is said) and of uneven lines. A wait and a new segment always end a
caption.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from studio.captions.model import TIME_TO_THINK, Caption, Captions, CaptionStyle
from studio.captions.numerals import write_numerals
from studio.captions.phrases import part_cost
from studio.captions.tokens import Token, cut_long, make_tokens
from studio.findings import Finding
from studio.script.model import Lesson
from studio.timing.cuesheet import CueSheet

# Weights against the cost of parting a phrase, which is 0 to 10.
_CAPTION = 0.8
_LINE_BREAK = 0.7
_UNEVEN = 0.02
_TOO_SHORT = 10.0
_OVER_LIMIT = 7.0
_TOO_FAST = 2.0
_SILENCE = 8.0
_ANSWER = 5.0
_AFTER_QUESTION = 1.5
_THOUGHT = 2.5

# A silence inside a caption costs from here on, and always ends a caption from there on (seconds).
_SILENCE_FROM = 0.8
_SILENCE_ENDS = 3.0


@dataclass(frozen=True, slots=True)
class Run:
    """Tokens `first` to before `end`, broken after each position in `breaks`; `until` is when it goes (ms)."""

    first: int
    end: int
    breaks: tuple[int, ...]
    until: int


def make_captions(lesson: Lesson, sheet: CueSheet, style: CaptionStyle | None = None) -> Captions:
    """The captions of a lesson: the words where they were said, every wait as "(time to think)"."""
    style = style or CaptionStyle()
    tokens = cut_long(write_numerals(make_tokens(lesson, sheet), style.numerals), style.line_length)
    end = max(round(sheet.duration * 1000), tokens[-1].end if tokens else 0)
    spoken = [(caption_of(tokens, run), tokens[run.first].line) for run in best_runs(tokens, end, style)]
    captions, lines = _with_waits(spoken, sheet, style)
    return Captions(tuple(captions), tuple(_notes(captions, lines, style)))


def best_runs(tokens: Sequence[Token], film_end: int, style: CaptionStyle) -> list[Run]:
    """The row of captions that costs least. Time grows with the number of tokens; `film_end` is in milliseconds."""
    count = len(tokens)
    parting = [0.0, *(part_cost(left, right) for left, right in pairwise(tokens)), 0.0]
    reach = [0]
    for token in tokens:
        reach.append(reach[-1] + len(token.text) + (0 if token.glued else 1))
    best = [0.0] + [float("inf")] * count
    chosen: list[Run | None] = [None] * (count + 1)
    for first in range(count):
        words, early = 0, 0.0
        for end in range(first + 1, count + 1):
            last = tokens[end - 1]
            if end - 1 > first:
                if last.new_segment or last.after_wait:
                    break
                gap = (last.start - tokens[end - 2].end) / 1000
                if gap >= _SILENCE_ENDS:
                    break
                early += _SILENCE * max(0.0, gap - _SILENCE_FROM)
                early += _THOUGHT * last.new_thought + _ANSWER * last.reveals
                early += _AFTER_QUESTION * tokens[end - 2].text.endswith("?")
            words += last.words
            split = _best_lines(tokens, reach, parting, first, end, style)
            if split is None:
                break
            line_cost, breaks = split
            until = _goes(tokens, first, end, words, film_end, style)
            seconds = max(0.001, (until - tokens[first].start) / 1000)
            hurry = words * 60 / seconds / style.fastest - 1.0
            cost = best[first] + _CAPTION + parting[end] + line_cost + early
            if seconds < style.shortest - 0.0005:
                cost += _OVER_LIMIT + _TOO_SHORT * (style.shortest - seconds)
            if hurry > 0.0004:
                cost += _OVER_LIMIT + _TOO_FAST * min(hurry, 1.0)
            if cost < best[end]:
                best[end], chosen[end] = cost, Run(first, end, breaks, until)
    runs: list[Run] = []
    position = count
    while position:
        run = chosen[position]
        assert run is not None  # one token always fits: longer ones have been cut
        runs.append(run)
        position = run.first
    return runs[::-1]


def _best_lines(
    tokens: Sequence[Token], reach: list[int], parting: list[float], first: int, end: int, style: CaptionStyle
) -> tuple[float, tuple[int, ...]] | None:
    """The cheapest way to set tokens in one line or two, and where they break; None where they do not fit."""

    def length(start: int, stop: int) -> int:
        return reach[stop] - reach[start] - (0 if tokens[start].glued else 1)

    if length(first, end) <= style.line_length:
        return 0.0, ()
    if style.lines < 2:
        return None
    found: tuple[float, tuple[int, ...]] | None = None
    for middle in range(end - 1, first, -1):
        lower = length(middle, end)
        if lower > style.line_length:
            break
        upper = length(first, middle)
        if upper <= style.line_length:
            cost = _LINE_BREAK * parting[middle] + _UNEVEN * abs(upper - lower)
            if found is None or cost < found[0]:
                found = cost, (middle,)
    return found


def _goes(tokens: Sequence[Token], first: int, end: int, words: int, film_end: int, style: CaptionStyle) -> int:
    """When a caption goes: with its last word, or as much later as its reader needs and the next caption allows."""
    begins = tokens[first].start
    needed = begins + ceil(1000 * max(style.shortest, words * 60 / style.fastest))
    room = tokens[end].start if end < len(tokens) else film_end
    return max(begins + 1, min(room, max(tokens[end - 1].end, needed)))


def run_of(
    tokens: Sequence[Token], first: int, end: int, breaks: tuple[int, ...], film_end: int, style: CaptionStyle
) -> Run:
    """The run of tokens `first` to before `end`, staying as long as its reader needs."""
    words = sum(token.words for token in tokens[first:end])
    return Run(first, end, breaks, _goes(tokens, first, end, words, film_end, style))


def caption_of(tokens: Sequence[Token], run: Run) -> Caption:
    """The caption that a run makes."""
    borders = [run.first, *run.breaks, run.end]
    lines = tuple(join(tokens[start:stop]) for start, stop in pairwise(borders))
    words = sum(token.words for token in tokens[run.first : run.end])
    return Caption(tokens[run.first].start / 1000, run.until / 1000, lines, words)


def join(tokens: Sequence[Token]) -> str:
    """The text of tokens on one line."""
    text = ""
    for token in tokens:
        text += token.text if token.glued or not text else " " + token.text
    return text


def _with_waits(
    spoken: list[tuple[Caption, int]], sheet: CueSheet, style: CaptionStyle
) -> tuple[list[Caption], list[int]]:
    """The captions with those of the waits between them, and the script line of each (0: a wait).

    A wait that is too short for a caption of its own goes under the words before it, if there is a line free.
    """
    found: list[Caption] = []
    lines: list[int] = []
    rest = list(reversed(spoken))

    def take(until: float) -> None:
        while rest and rest[-1][0].start < until:
            caption, line = rest.pop()
            found.append(caption)
            lines.append(line)

    for wait in sheet.waits:
        middle = (wait.start + wait.end) / 2
        take(middle)
        begins = max([round(wait.start, 3), *(caption.end for caption in found[-1:])])
        ends = min([round(wait.end, 3), *(caption.start for caption, _ in rest[-1:])])
        if ends - begins >= style.shortest:
            found.append(Caption(begins, ends, (TIME_TO_THINK,)))
            lines.append(0)
        elif found and found[-1].words and len(found[-1].lines) < style.lines and ends > found[-1].start:
            before = found[-1]
            end = max(before.end, ends)
            found[-1] = Caption(before.start, end, (*before.lines, TIME_TO_THINK), before.words)
    take(float("inf"))
    return found, lines


def _notes(captions: Sequence[Caption], lines: Sequence[int], style: CaptionStyle) -> list[Finding]:
    notes = []
    for position, (caption, line) in enumerate(zip(captions, lines, strict=True)):
        seconds = caption.end - caption.start
        reasons = []
        if caption.words and caption.rate > style.fastest + 0.05:
            reasons.append(
                f"it is spoken at {caption.rate:.0f} words a minute, and captions for young readers run at "
                f"{style.fastest:.0f} at most"
            )
        if seconds < style.shortest - 0.0005:
            why = "the film ends" if position + 1 == len(captions) else "the next words follow at once"
            reasons.append(f"it stands for {seconds:.1f} seconds instead of {style.shortest:.0f}, because {why}")
        if reasons:
            notes.append(
                Finding(
                    "caption-limits", "note", line, 0, caption.text, "",
                    f"The caption is hard to read along: {'; '.join(reasons)}.",
                    "Speak this line more slowly, or leave a pause after it.",
                    caption.start,
                )
            )  # fmt: skip
    return notes
