"""What is said to be left, or to be there now, right after a picture changed is what the picture shows then ("[frogs: take away
5] Four frogs are left.", "[ducks: add 3] Now there are eight."); and what a story says is left is what the picture comes to
("Now there are only five left. How many flew away? [ducks: take away 4]")."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.looks import amount, visible
from studio.agree.manners import claims
from studio.agree.wording import of_direction, of_number
from studio.findings import Finding
from studio.script.model import Add, TakeAway
from studio.talk.model import Number

NAME = "left as shown"
_LEFT = re.compile(
    r" (?:(#)(?: [a-z]+)? (?:is|are) (?:still )?left|(?:there is|there are|we have|that leaves|it leaves) (?:only |now )?(#)(?: [a-z]+)? left)(?= [.,] )"
)
_NOW = re.compile(r" (?:now )?(?:there is|there are|we have) (?:now )?(#)(?: [a-z]+)?(?: now)?(?= [.,] )")
_OF_OTHERS = frozenset(
    "pair pairs row rows group groups ten tens one ones bundle bundles box boxes more less fewer extra space spaces empty place "
    "places spot spots hole holes room free gone away outside inside behind hidden way ways choice choices missing".split()
)
"""What is counted there otherwise than thing by thing, or is not what is there."""
_SOON = 2  # sentences
_LATER = 4  # sentences


def find(case: Case) -> Iterator[Finding]:
    if not any(isinstance(step.change, Add | TakeAway) for step in case.pictures):
        return
    yield from _comes_to(case)
    for pattern, sorts in ((_LEFT, (TakeAway,)), (_NOW, (Add, TakeAway))):
        for match, number, sentence in _told(case, pattern):
            step = _changed(case, sentence, number)
            if pattern is _NOW and " now " not in match[0] + " ":
                continue
            if step is None or not isinstance(step.change, sorts) or not _is_claimed(case, sentence, number):
                continue
            now = amount(step.picture)
            if now is None or number.value in _seen(case, sentence):
                continue
            direction = step.moment.direction
            yield of_number(NAME, number, direction.text,
                            f"Line {number.line} says {number.value} after [{direction.text}] of line {direction.place.line}, but "
                            f"the picture shows {now} then.",
                            f"Say {now}, or change the direction.")  # fmt: skip


def _comes_to(case: Case) -> Iterator[Finding]:
    """Of pictures from which is taken only after it was said how many are left."""
    taken: dict[int, list[Appearance]] = {}
    for step in case.pictures:
        if isinstance(step.change, TakeAway):
            taken.setdefault(step.moment.direction.segment, []).append(step)
    of_one = {segment: steps for segment, steps in taken.items() if len({step.moment.name for step in steps}) == 1}
    for _, number, sentence in _told(case, _LEFT):
        if sentence.segment not in of_one or of_one[sentence.segment][0].moment.word <= number.start:
            continue
        first, last = of_one[sentence.segment][0], of_one[sentence.segment][-1]
        there, left = None if first.before is None else amount(first.before), amount(last.picture)
        late = case.sentence_index(first.moment.word) - case.sentence_index(number.start) > _LATER
        if (
            late
            or there is None
            or left is None
            or not left != number.value < there
            or not _is_claimed(case, sentence, number)
        ):
            continue
        line = first.moment.direction.place.line
        yield of_direction(NAME, first.moment.direction,
                           f"Line {number.line} says that {number.value} are left, and after line {line} the picture shows {left}.",
                           f"Take away {there - number.value}, or say {left}.")  # fmt: skip


def _told(case: Case, pattern: re.Pattern[str]) -> Iterator[tuple[re.Match[str], Number, Sentence]]:
    """Where a pattern stands, with its number and the sentence."""
    for match in pattern.finditer(case.talk.speech.text):
        number = case.talk.speech.number_at[match.start(match.lastindex or 0)]
        yield match, number, case.sentences[case.sentence_index(number.start)]


def _is_claimed(case: Case, sentence: Sentence, number: Number) -> bool:
    if case.says(number.end, number.end + 1, _OF_OTHERS):
        return False  # "Fourteen. Now there are seven pairs.", "Now there is one more."
    return len(sentence.numbers) == 1 and not case.asks(sentence) and claims(case, sentence, number)


def _changed(case: Case, sentence: Sentence, number: Number) -> Appearance | None:
    """The last change before a number, if it came in its sentence or close before and no other picture came or changed since
    in its segment."""
    steps = case.pictures_of(sentence.segment)
    at = bisect_right(steps, number.start, key=lambda step: step.moment.word)
    if not at:
        return None
    step = steps[at - 1]
    near = case.sentence_index(number.start) - case.sentence_index(step.moment.word) <= _SOON
    return step if near and isinstance(step.change, Add | TakeAway) else None


def _seen(case: Case, sentence: Sentence) -> set[int]:
    """All that can be told of what is on the screen from the sentence before to the end of the one behind."""
    index = case.sentence_index(sentence.start)
    first, last = case.sentences_around(index, 0, 1)
    found: set[int] = set()
    for seen in case.on_screen(case.sentences[first].start, case.sentences[last].end + 1):
        found |= visible(seen.picture) | {amount(seen.picture) or 0}
    return found
