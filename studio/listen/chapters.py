"""Chapters of a recording: from the segments of the script, or without a script from pauses, titled by their words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Sequence
from dataclasses import dataclass

from studio.listen.model import Heard, HeardWord, Take
from studio.listen.tokens import FILLERS, tokens
from studio.script.model import Lesson

SHORTEST = 20.0
"""Seconds; a chapter without a script is not shorter (common practice, no source)."""

_PAUSE = 1.5
_SMALL_WORDS = frozenset(
    """a an and are as at be been but by can could did do does for from had has have he her here him his how i if in
    into is it its let like me my not now of ok on once or our out over she so some that the their them then there
    these they this to too up us very was we well were what when where which who will with would you your all right
    again please just""".split()
)


@dataclass(frozen=True, slots=True)
class Chapter:
    """A title and where it starts, in seconds."""

    title: str
    start: float


def from_script(lesson: Lesson, take: Take) -> list[Chapter]:
    """Every segment of the script is a chapter; it starts with its first word that was said."""
    segment_of = {word.index: word.segment for word in lesson.words}
    starts: dict[int, float] = {}
    for word in take.said:
        if word.word is not None and word.verdict != "skipped":
            starts.setdefault(segment_of[word.word], word.start)
    found: list[Chapter] = []
    for segment in lesson.segments:
        later = [start for index, start in starts.items() if index >= segment.index]
        start = min(later) if later else take.duration
        # The first chapter begins with the film (the chapter lists of players ask for 0:00).
        start = 0.0 if not found else max(start, found[-1].start)
        if segment.words or segment.directions:
            found.append(Chapter(segment.title, start))
    return found


def from_pauses(heard: Heard) -> list[Chapter]:
    """Chapters cut at long pauses before a new sentence; each is titled by its first words or its own words."""
    words = heard.words
    if not words:
        return []
    starts = [0]
    pauses = sorted((words[at].start - words[at - 1].end, at) for at in range(1, len(words)))
    for pause, at in reversed(pauses):
        if pause < _PAUSE or len(starts) > 24:
            break
        near = [words[start].start if start else 0.0 for start in starts]
        clear = all(abs(words[at].start - other) >= SHORTEST for other in near)
        if clear and heard.duration - words[at].start >= SHORTEST / 2:
            starts.append(at)
    starts.sort()
    chapters: list[Chapter] = []
    for number, start in enumerate(starts):
        end = starts[number + 1] if number + 1 < len(starts) else len(words)
        taken = {chapter.title for chapter in chapters}
        chapters.append(Chapter(title(words[start:end], words, taken), words[start].start if number else 0.0))
    return chapters


def title(words: Sequence[HeardWord], everything: Sequence[HeardWord], taken: Container[str] = ()) -> str:
    """A few words that say what a stretch is about: its first short sentence that is no title yet (`taken`), else its
    own words."""
    first: list[str] = []
    for word in words:
        if not FILLERS.issuperset(tokens(word.text)):
            first.append(word.text)
        if word.text.endswith((".", "?", "!")):
            if len(first) >= 3 and _shown(first) not in taken:
                break
            first = []
    sentence = _shown(first)
    if 3 <= len(first) <= 8:
        return sentence
    here = Counter(token for word in words for token in tokens(word.text) if token not in _SMALL_WORDS | FILLERS)
    overall = Counter(token for word in everything for token in tokens(word.text))
    rich = sorted(here, key=lambda token: (-here[token] * here[token] / overall[token], token))[:3]
    order = {
        token: at for at, token in reversed(list(enumerate(token for word in words for token in tokens(word.text))))
    }
    rich.sort(key=lambda token: order[token])
    return _shown([", ".join(rich) or sentence or "Without words"])


def _shown(words: Sequence[str]) -> str:
    text = " ".join(words).strip(" ,.!?")
    return text[:1].upper() + text[1:]
