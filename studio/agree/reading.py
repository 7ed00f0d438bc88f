"""From a lesson to everything that is found in its words and on its stage."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from studio.agree.case import Case, Talk
from studio.script.model import Lesson, Word
from studio.stage.staging import stage
from studio.talk.labels import spoken_numbers
from studio.talk.model import Number, Story
from studio.talk.speech import speech
from studio.talk.statements import find_statements
from studio.talk.stories import find_stories


def listen_to(words: Sequence[Word]) -> Talk:
    """Everything that is found in words alone."""
    numbers = spoken_numbers(words)
    spoken = speech(words, numbers)
    statements = find_statements(words, numbers, spoken)
    return Talk(words, numbers, spoken, statements, _stories(words, numbers))


def _stories(words: Sequence[Word], numbers: Sequence[Number]) -> tuple[Story, ...]:
    """The stories of all segments, their positions counted through the lesson."""
    found: list[Story] = []
    start = taken = 0
    for end in range(1, len(words) + 1):
        if end < len(words) and words[end].segment == words[start].segment:
            continue
        first = taken
        while taken < len(numbers) and numbers[taken].start < end:
            taken += 1
        for story in find_stories(words[start:end], numbers[first:taken], start):
            found.append(replace(story, start=story.start + start, end=story.end + start))
        start = end
    return tuple(found)


def case_of(lesson: Lesson) -> Case:
    """A lesson with everything that is found in its words and on its stage."""
    talk = listen_to(lesson.words)
    return Case(talk, lesson, stage(lesson, talk.numbers))
