"""From ideas to directions: what is on the screen when, and what goes so that it stays tidy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from studio.suggest.ideas import Idea

MOST = 4
"""Pictures at a time."""


@dataclass(frozen=True, slots=True)
class Line:
    """A direction before word `word`; `group` is the number of the idea that it belongs to."""

    word: int
    text: str
    reason: str
    group: int


@dataclass(slots=True)
class _On:
    kind: str
    state: str
    after: str
    topic: frozenset[int]
    needed: int
    busy: int
    done: set[str]
    group: int


def compose(ideas: Iterable[tuple[int, Idea]]) -> Iterator[Line]:
    """The directions of one segment's ideas (each with its group), in order of their words."""
    on: dict[str, _On] = {}
    ordered = sorted(ideas, key=lambda item: (item[1].word, -item[1].weight))
    for group, idea in ordered:
        if idea.fresh and on and all(other.busy <= idea.word for other in on.values()):
            on.clear()
            yield Line(idea.word, "clear", "a new story begins", group)
        here = on.get(idea.kind)
        last = max((change.word for change in idea.changes), default=idea.word)
        if here is not None and here.busy > idea.word:
            if here.state == idea.state and idea.kind == "more and less":
                yield from _changes(here, idea, group)
            continue  # its own changes are still to come
        if here is not None and _same(here, idea):
            here.group = group
            here.needed = max(here.needed, idea.until)
            here.busy = max(here.busy, last)
            yield from _changes(here, idea, group)
            here.after = idea.after
            continue
        for name in _in_the_way(on, idea):
            del on[name]
            yield Line(idea.word, f"hide {name}", "it is no longer talked about", group)
        yield Line(idea.word, f"show {idea.kind}: {idea.details}", idea.reason, group)
        on[idea.kind] = _On(idea.kind, idea.state, idea.after, idea.topic, idea.until, last, set(), group)
        yield from _changes(on[idea.kind], idea, group)


def _changes(here: _On, idea: Idea, group: int) -> Iterator[Line]:
    for change in idea.changes:
        if not change.text.endswith("counting") and not change.text.startswith("count"):
            if change.text in here.done:
                continue
            here.done.add(change.text)
        yield Line(change.word, f"{idea.kind}: {change.text}", idea.reason, group)


def _same(here: _On, idea: Idea) -> bool:
    """Whether the picture that is on looks as the idea wants it already."""
    if idea.kind == "more and less":
        return here.state == idea.state
    if not idea.changes and idea.kind in ("tally", "base ten", "word", "compare bars", "dice"):
        return here.state == idea.state
    if here.after == idea.after and not any(change.text.endswith("counting") for change in idea.changes):
        idea_changes_nothing = idea.kind in ("number bond", "number sentence")
        return idea_changes_nothing and _mark_done(here, idea)
    return here.after == idea.state and idea.kind not in ("number bond", "number sentence")


def _mark_done(here: _On, idea: Idea) -> bool:
    here.done.update(change.text for change in idea.changes)
    return True


def _in_the_way(on: dict[str, _On], idea: Idea) -> list[str]:
    """The pictures that go when this one comes: those of another topic, and the oldest where there are too many."""
    leaving = [
        name
        for name, here in on.items()
        if name != idea.kind and here.busy <= idea.word and here.needed <= idea.word and not here.topic & idea.topic
    ]
    staying = [name for name in on if name not in leaving and name != idea.kind]
    while len(staying) >= MOST:
        oldest = min(staying, key=lambda name: (on[name].needed, on[name].busy))
        staying.remove(oldest)
        leaving.append(oldest)
    return leaving
