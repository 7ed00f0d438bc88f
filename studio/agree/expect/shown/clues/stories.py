"""The last stories that were told in the segment, and their answers."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.expect.hints import Hint, named
from studio.agree.expect.shown.place import ShownPlace


def around(place: ShownPlace) -> Iterator[Hint]:
    """The last stories that were told in the segment, and their answers."""
    stories = place.book.book.case.talk.stories
    for story in stories[: bisect_left(stories, place.slot.at + 1, key=lambda story: story.start)][-2:]:
        if story.start < place.start:
            continue
        if story.answer is not None:
            yield story.answer, named("sans")
        for at, value in enumerate(story.told[:4]):
            yield value, named(f"stold{at}")
