"""Time to think after a question: three seconds or more give longer, more correct answers (Rowe 1972, 1974)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Sentence
from studio.script.model import Wait
from studio.suggest.ideas import Part
from studio.suggest.stories import windows

_PLAIN = "wait 4 s"
_STORY = "wait 10 s: Draw the story"
_ASKS = re.compile(
    r"(?:^|.* )(?:how many|how much|how far|what number|which number|what part|which part|what is|what's|what are|"
    r"what does|what do|what goes|what comes|which (?:is|one|two|are|card|has|goes|partners?)|who (?:has|goes|is|comes|lives|needs)|where (?:is|does|are)|"
    r"is it|is that|are they|true or false|(?:and|makes?|plus|minus|is|equals?) what)\b.*"
)
_NOT = re.compile(
    r"(?:do|can|could|are|will|shall|have|did|would|were) you .*|.* (?:ready|all right|okay|ok|see|name|know|worth knowing)$"
)
_NO_STORY = re.compile(r"warm|partner|number of the day", re.IGNORECASE)
"""What a title calls a part in which a question about frogs is no story to draw."""
_QUIET = frozenset("yes no right true false".split())
_ANSWER = 3  # sentences


@dataclass(frozen=True, slots=True)
class Pause:
    """A direction before word `word`."""

    word: int
    text: str


def is_asked(part: Part, sentence: Sentence) -> bool:
    """Whether a sentence is a question about numbers for the children."""
    text = part.text(sentence.start, sentence.end)
    asked = bool(_ASKS.match(text)) or bool(sentence.numbers and text.startswith(("is ", "are ", "does ", "do ")))
    return part.asks(sentence) and asked and not _NOT.match(text)


def propose(part: Part) -> Iterator[Pause]:
    """A wait after each question about numbers that she answers herself, where the script has none."""
    stories = {part.sentence_of(story.end - 1).start for story, _, _ in windows(part)}
    waits = [direction.at for direction in part.segment.directions if isinstance(direction, Wait)]
    for index, sentence in enumerate(part.sentences[:-1]):
        following = part.sentences[index + 1]
        if not part.asks(sentence) or any(sentence.start < at <= following.end for at in waits):
            continue
        if sentence.start in stories and following.start not in stories:
            yield Pause(sentence.end, _PLAIN if _NO_STORY.search(part.segment.title) else _STORY)
        elif part.asks(following):
            continue
        elif _is_thought_about(part, index):
            yield Pause(sentence.end, _PLAIN)


def _is_thought_about(part: Part, index: int) -> bool:
    """Whether a question is one for the children, about numbers, and its answer comes soon."""
    sentence = part.sentences[index]
    if not is_asked(part, sentence) or part.words[sentence.end].text[:1].islower():
        return False
    for following in part.sentences[index + 1 : index + 1 + _ANSWER]:
        if following.numbers:
            return True
        if part.asks(following):
            return False
        if part.plain(following.start, following.start + 2) & _QUIET:
            return bool(sentence.numbers)
    return False
