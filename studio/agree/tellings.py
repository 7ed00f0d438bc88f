"""A story of a lesson with what is said and shown about it, for the rules about stories."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.agree.case import Appearance, Case
from studio.agree.looks import answer_of, counts, relation
from studio.agree.manners import is_lone
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.number_sentence import NumberSentence
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Show
from studio.talk.model import Story
from studio.talk.relations import Relation, relations

_SEGMENTS = 2
"""Segments after its own in which a story may be drawn."""
_BEFORE = 3
"""Sentences before a story in which something of it may be told."""
_COUNT = 3  # numbers with one step that make a sentence a count
_SIGNED = re.compile(r"([+-]?) ?(\d+)")


@dataclass(frozen=True)
class Telling:
    """`whole` and `parts` (sorted) are the story's numbers with its answer; `pictures` are the picture steps from the
    paragraph it begins in to before the next story or the end of its segment (`until`), or of the next segment with
    pictures where nothing is drawn and no answer is said in its own."""

    story: Story
    answer: int
    whole: int
    parts: tuple[int, ...]
    until: int
    pictures: tuple[Appearance, ...]

    @property
    def values(self) -> frozenset[int]:
        """Every number of the story."""
        return frozenset((self.whole, *self.parts))

    @property
    def finished(self) -> str:
        """The sentence with its answer."""
        return self.story.sentence.replace("?", str(self.answer))

    def shown(self, sort: type[object]) -> Iterator[Appearance]:
        """The pictures of a sort that come on while the story is worked at, as they are first shown."""
        for appearance in self.pictures:
            if isinstance(appearance.picture, sort) and isinstance(appearance.moment.direction, Show):
                yield appearance

    def life(self, first: Appearance) -> list[Appearance]:
        """A picture from when it is shown until its name is shown again or hidden."""
        found = [first]
        for appearance in self.pictures:
            if appearance.moment.name != first.moment.name or appearance.moment.word < first.moment.word:
                continue
            if appearance is not first and appearance.before is found[-1].picture:
                found.append(appearance)
        return found


def tellings(case: Case) -> Iterator[Telling]:
    """Every story of the lesson that has one answer."""
    stories = case.talk.stories
    for index, story in enumerate(stories):
        if story.answer is None or not case.talk.words:
            continue
        begin = _begin(case, story, stories[index - 1].end if index else 0)
        last = index + 1 == len(stories)
        until = _until(case, story, len(case.talk.words) if last else _begin(case, stories[index + 1], story.end))
        whole, parts = family(story.sentence.replace("?", str(story.answer)))
        telling = Telling(story, story.answer, whole, parts, until, steps(case, begin, until))
        if not (_asks_of_frame(case, story) or _works_out(case, story) or _read_wrongly(case, telling)):
            yield telling


def _begin(case: Case, story: Story, before: int) -> int:
    """The first word of the paragraph that a story begins in: its picture may come on with the first word of all."""
    words = case.talk.words
    begin = story.start
    while begin > before and words[begin - 1].paragraph == words[story.start].paragraph:
        begin -= 1
    return begin


def _until(case: Case, story: Story, following: int) -> int:
    """Where a story's working ends: with its segment, or where it is only told there, with the next that draws it."""
    until = _segment_end(case, story.start)
    said = [number.value for number in case.numbers_between(story.start, story.end)]
    if sorted(said) != sorted(story.told):
        return min(until, following)  # more was told than was understood
    for _ in range(_SEGMENTS):
        told_only = until < following and not _drawn(case, story.start, until)
        if not told_only or outside_counts(case, story.answer, story.end, until):
            break
        further = _segment_end(case, until)
        if not _goes_on(case, story, until, further):
            break
        until = further
    return min(until, following)


def _goes_on(case: Case, story: Story, start: int, end: int) -> bool:
    """Whether a segment from word `start` to before `end` is still about a story: it names what the story counts, or
    changes a picture that came on with it."""
    words = case.talk.words
    counted = {
        words[position].plain.removesuffix("s")
        for number in case.numbers_between(story.start, story.end)
        for position in range(number.end, min(number.end + 2, story.end))
        if words[position - 1].text[-1:].isalnum() and words[position].plain.endswith("s")
    }
    if any(word.plain.endswith("s") and word.plain.removesuffix("s") in counted for word in words[start:end]):
        return True
    drawn = {seen.moment.name for seen in steps(case, story.start, start)}
    return any(seen.change is not None and seen.moment.name in drawn for seen in steps(case, start, end))


def steps(case: Case, start: int, end: int) -> tuple[Appearance, ...]:
    """The picture steps from word `start` to before word `end`."""
    pictures = case.pictures
    first = bisect_left(pictures, start, key=lambda seen: seen.moment.word)
    return pictures[first : bisect_left(pictures, end, key=lambda seen: seen.moment.word)]


def _drawn(case: Case, start: int, end: int) -> bool:
    """Whether something is worked out in a picture from word `start` to before word `end`: it changes, or shows a whole
    and its parts."""
    return any(
        seen.change is not None or isinstance(seen.picture, CompareBars) or relation(seen.picture) is not None
        for seen in steps(case, start, end)
    )


def _asks_of_frame(case: Case, story: Story) -> bool:
    """Whether the question is about the picture ("How many fill the frame?") and not about the story."""
    return case.has_word(case.sentences[case.sentence_index(story.end - 1)], _OF_PICTURES)


def _works_out(case: Case, story: Story) -> bool:
    """Whether arithmetic is said inside it ("15 plus 5 equals 20"): then it is no telling but a working-out."""
    return any(
        statement.holds is not None and " = " in statement.written and statement.end <= story.end
        for statement in case.statements_between(story.start, story.end)
    )


_OF_PICTURES = frozenset("frame frames row rows box boxes space spaces bond sentence dots crosses".split())


def _read_wrongly(case: Case, telling: Telling) -> bool:
    """Whether the words and pictures after the story put the numbers that it tells together in another way, and never
    come to the answer: then it was not understood, and the teacher is right."""
    if not telling.story.told:
        return False
    if _answered_with_others(case, telling):
        return True
    known = telling.answer in telling.story.told  # then it is no sign that its number is said or shown
    if not known and _answer_said(case, telling):
        return False
    shown = [found for appearance in telling.pictures if (found := relation(appearance.picture)) is not None]
    for appearance in telling.shown(MarkPicture):
        totals = [max(counts(step.picture), default=0) for step in telling.life(appearance)]
        if totals[-1] < totals[0]:
            shown.append(Relation(totals[0], (totals[-1], totals[0] - totals[-1])))
    facts = [(found.whole, tuple(sorted(found.parts))) for found in shown]
    if (telling.whole, telling.parts) in facts:
        return False
    if not known and any(telling.answer in (whole, *parts) for whole, parts in facts):
        return False
    return _answered_otherwise(case, telling, facts) or _put_together(case, telling.story, telling.until, shown)


def _answered_with_others(case: Case, telling: Telling) -> bool:
    """Whether a number sentence or a bond asks for one number, all that it knows was told just before, not all of it was taken for
    the story's, and what is missing in it is said then: so not all that was told belongs to the story ("The clock struck five. …
    He had twelve cookies. I see only four. [12 - ? = 4] Eight cookies.")."""
    story = telling.story
    first, _ = case.sentences_around(case.sentence_index(story.start), _BEFORE, 0)
    told = {number.value for number in case.numbers_between(case.sentences[first].start, story.end)}
    return any(
        (answer := answer_of(shown.picture)) is not None
        and set(shown.picture.numbers) <= told
        and not set(shown.picture.numbers) <= set(story.told)
        and outside_counts(case, answer, story.end, telling.until)
        for shown in (*telling.shown(NumberSentence), *telling.shown(WholePicture))
    )


def _answered_otherwise(case: Case, telling: Telling, facts: list[tuple[int, tuple[int, ...]]]) -> bool:
    """Whether the next number that is said stands alone and answers it, by a picture of another whole that has this number and one that was told."""
    said = case.numbers_between(telling.story.end, telling.until)
    if not said or said[0].value in telling.story.told:
        return False
    if not is_lone(case, case.sentences[case.sentence_index(said[0].start)], said[0]):
        return False
    return any(
        whole != telling.whole and said[0].value in (whole, *parts) and set(telling.story.told) & {whole, *parts}
        for whole, parts in facts
    )


def _said_for_itself(case: Case, telling: Telling, fact: tuple[int, tuple[int, ...]]) -> bool:
    """Whether a true statement after the story has just this whole and these parts: then it is another problem."""
    return any(
        (told.whole, tuple(sorted(told.parts))) == fact
        for statement in case.statements_between(telling.story.end, telling.until)
        if statement.holds
        for told in relations(statement)
    )


def _answer_said(case: Case, telling: Telling) -> bool:
    return outside_counts(case, telling.answer, telling.story.end, telling.until)


def outside_counts(case: Case, value: int | None, start: int, end: int) -> bool:
    """Whether a number is said that is not only passed by in a count ("eleven, ten, nine": nine is said)."""
    for number in case.numbers_between(start, end):
        if number.value != value:
            continue
        values = case.sentences[case.sentence_index(number.start)].values
        gaps = {later - earlier for earlier, later in pairwise(values)}
        if len(values) < _COUNT or len(gaps) > 1 or value == values[-1]:
            return True
    return False


def _put_together(case: Case, story: Story, until: int, shown: list[Relation]) -> bool:
    """Whether a picture of `shown` or a true statement up to word `until` has all numbers that the story tells."""
    told = [found for statement in case.statements_between(story.start, until) if statement.holds
            for found in relations(statement)]  # fmt: skip
    return any(set(story.told) <= {found.whole, *found.parts} for found in (*shown, *told))


def explained_otherwise(case: Case, story: Story) -> bool:
    """Whether a story that seemed impossible has its numbers put together in a picture or a true statement."""
    end = _segment_end(case, story.start)
    shown = [
        found for appearance in case.on_screen(story.start, end) if (found := relation(appearance.picture)) is not None
    ]
    return bool(story.told) and _put_together(case, story, end, shown)


def _segment_end(case: Case, word: int) -> int:
    segment = case.talk.words[word].segment
    for start, end in case.segments:
        if start <= word < end:
            return end
    return next((w.index for w in case.talk.words[word:] if w.segment != segment), len(case.talk.words))


def family(sentence: str) -> tuple[int, tuple[int, ...]]:
    """The whole and the sorted parts of a finished sentence ("9 - 2 = 7": 9, (2, 7))."""
    left, _, right = sentence.partition("=")
    sides = [[(sign == "-", int(value)) for sign, value in _SIGNED.findall(side)] for side in (left, right)]
    return _whole_and_parts(sides)


def _whole_and_parts(sides: Sequence[Sequence[tuple[bool, int]]]) -> tuple[int, tuple[int, ...]]:
    one, other = sorted(sides, key=len)
    alone = one[0][1]
    taken = [value for minus, value in other if minus]
    given = [value for minus, value in other if not minus]
    if taken:
        return given[0], tuple(sorted([alone, *taken, *given[1:]]))
    return alone, tuple(sorted(given))


def family_of(picture: NumberSentence | WholePicture) -> tuple[int, tuple[int, ...]] | None:
    """The whole and the sorted parts that a picture shows, its one `?` worked out; None where that is not one fact
    (two unknowns, a chain, sums on both sides)."""
    if isinstance(picture, WholePicture):
        missing = [place for place, value in enumerate(picture.values) if value is None]
        if len(missing) > 1:
            return None
        values = [value if value is not None else picture.answer(place) for place, value in enumerate(picture.values)]
        known = [value for value in values if value is not None]
        return (known[0], tuple(sorted(known[1:]))) if len(known) == len(values) else None
    if len(picture.sides) != 2 or min(map(len, picture.sides)) != 1:
        return None
    steps = [term for term in picture.terms if term.value is None]
    if len(steps) > 1:
        return None
    sides = [[(term.sign == "-", term.value) for term in side] for side in picture.sides]
    solved = _solve(sides)
    return None if solved is None else _whole_and_parts(solved)


def misfits(
    case: Case, sort: type[NumberSentence] | type[WholePicture]
) -> Iterator[tuple[Telling, Appearance, tuple[int, tuple[int, ...]]]]:
    """Each story for which pictures of a sort are shown and none fits: the story, the first of them, and the whole and
    the parts that it shows. A picture that shares no number with the story is about something else."""
    for telling in tellings(case):
        facts = [
            (appearance, fact)
            for appearance in telling.shown(sort)
            if isinstance(appearance.picture, sort) and (fact := family_of(appearance.picture)) is not None
        ]
        if not facts or any(fact == (telling.whole, telling.parts) for _, fact in facts):
            continue
        appearance, fact = facts[0]
        shared = len(telling.values & {fact[0], *fact[1]})
        if shared > 1 and len(fact[1]) > len(telling.parts) and telling.answer in appearance.picture.numbers:
            continue  # in steps, over the ten: 27 + 3 + 5 = 35 for 27 + 8
        unsaid = set(appearance.picture.numbers) - case.said_in(appearance.moment.direction.segment)
        another = fact[0] == telling.whole or _said_for_itself(case, telling, fact)
        if shared > 1 or (shared and (unsaid or not another or not _answer_said(case, telling))):
            yield telling, appearance, fact


def _solve(sides: list[list[tuple[bool, int | None]]]) -> list[list[tuple[bool, int]]] | None:
    def worth(side: Sequence[tuple[bool, int | None]]) -> int:
        return sum(-(value or 0) if minus else (value or 0) for minus, value in side)

    found: list[list[tuple[bool, int]]] = []
    for index, side in enumerate(sides):
        here: list[tuple[bool, int]] = []
        for minus, value in side:
            if value is None:
                rest = worth(sides[1 - index]) - worth(side)
                value = -rest if minus else rest
            here.append((minus, value))
        found.append(here)
    return found


def drawings(telling: Telling) -> list[Appearance]:
    """The pictures of dots and crosses that come on for the story."""
    return list(telling.shown(MarkPicture))
