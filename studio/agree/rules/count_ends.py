"""A count starts with what is there and ends with what is said after it: "Five. Six, seven, eight. Eight!", "one, two,
three. There are three frogs.", "… thirteen, fourteen. Fourteen goals, and listen to that crowd!" """

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from studio.agree.case import BoundCount, Case
from studio.agree.hops import ways_around
from studio.agree.looks import counts
from studio.agree.manners import denied, of_structure
from studio.agree.wording import SUPPOSED, of_number, row
from studio.findings import Finding
from studio.pictures.spans import SpanPicture
from studio.script.model import Circle, MarkNumber
from studio.talk.expressions import WORD
from studio.talk.model import Number
from studio.talk.numbers import PLURALS

NAME = "count starts and ends right"
_MOVES = r"(?:we|i|you) (?:slid|hopped|jumped|stepped|walked|moved|climbed|swam|leapt)"
_ECHO = re.compile(r" (?:¶ )?(?:[a-z]+ ){1,3}#(?= \. )")  # "Splash at twelve! We slid eight."
_MOVED = re.compile(rf" (?:¶ )?{_MOVES} (#)(?P<noun>{WORD})?(?P<tail>) [.]")
_RESULT = re.compile(
    rf" (?:¶ )?(?:(?:so|yes|and|look|wow|now|good|right|great|there|altogether|in all|,) )*"
    rf"(?:(?:that is|there are|there is|we have|we see|i see|it is|that makes|that was|we get|you have|i have|we got|they are|these are|we found|we counted|i counted|"
    rf"that is how many|we hopped|we added|we took|we went|i hopped|you hopped|{_MOVES}|it took|we made|there were) )?(?:all )?(#)(?P<noun>{WORD})?"
    rf"(?P<tail> (?:in all|altogether|more|left|hops?|times|steps?|jumps?|now|together|too|dots|crosses|of them|after the start|since the start))* [.]"
)
_ASKED = re.compile(r" \.(?: ¶)?(?: how many [^.?#¶§]*\?)?")
_AMOUNT = re.compile(  # "Fourteen goals, and …", "So we have six frogs on …": whatever follows
    rf" (?:¶ )?(?:(?:so|yes|and|look|wow|good|right|great|but|only|all|both|,) )*"
    rf"(?:(?:that is|there are|we have|we see|i see|it is|that makes|that was|we get|you have|these are|that leaves) )?"
    rf"(?:the |my |our |these |all )*(#)(?= (?:are|stay|stayed|left) |{WORD})(?! of the # )"
)
_LONGEST_END = 40  # characters from the last number of a count to the end of its sentence
_MARKS = ("dots", "crosses")  # see said_of_picture
_LATER = frozenset("now then further".split())  # "Now two of them swim away"
_EACH = 3  # sentences
_STEPS = re.compile(r"(?:hops?|times|steps?|jumps?|more|crosses|the start)")


def find(case: Case) -> Iterator[Finding]:
    yield from _starts(case)
    yield from _results(case)
    yield from _amounts(case)


def _starts(case: Case) -> Iterator[Finding]:
    """The number just before the first step is the number that is there."""
    starts = case.number_starts
    for count in case.bound_counts:
        if not count.words:
            continue
        index = bisect_left(starts, count.words[0])
        if not index or index >= len(case.counted) or case.counted[index].value != count.values[0]:
            continue
        number = case.counted[index - 1]
        if number.start < count.direction.at or number.end != case.counted[index].start or number.value == count.base:
            continue
        words = case.talk.words
        alone = number.start == 0 or not words[number.start - 1].text[-1:].isalnum()
        earlier = case.counted[index - 2] if index >= 2 else None
        inside = (
            earlier is not None
            and earlier.end == number.start
            and words[earlier.start].sentence == words[number.start].sentence
        )
        if not alone or inside or case.is_excused(number.start, count.words[-1]):
            continue
        if number.value in (len(count.values), count.values[-1]) and words[number.end - 1].text[-1:] in "!?":
            continue
        yield of_number(NAME, number, count.direction.text,
                      f"Line {number.line} starts the count with {number.value}, but {count.base} "
                      f"{'is' if count.base == 1 else 'are'} there.",
                      f"Start with {count.base}, or go straight on with {count.values[0]}.")  # fmt: skip


def _results(case: Case) -> Iterator[Finding]:
    """The number said right after a count is its end, or how many steps it had."""
    speech = case.talk.speech
    spans: list[tuple[int, tuple[int, ...]]] = []
    for count in case.bound_counts:
        if len(count.words) == len(count.values):
            spans.append((count.words[-1], (count.base, *count.values)))
    for statement in case.talk.statements:
        if statement.holds and statement.kind.startswith("count"):
            last = max(n.start for n in case.numbers_between(statement.start, statement.end))
            spans.append((last, statement.values))
    offsets = speech.offset_of
    told: set[int] = set()
    for last, values in spans:
        offset = offsets.get(last)
        if offset is None or offset in told:
            continue
        told.add(offset)
        if not speech.text.startswith(" .", offset + 1):
            continue
        match = _RESULT.match(speech.text, offset + 3)
        echo = _ECHO.match(speech.text, offset + 3)
        if echo is not None and speech.value_at(echo.end() - 1) == values[-1]:
            match = _MOVED.match(speech.text, echo.end() + 2)
        if match is None:
            continue
        number = speech.number_at[match.start(1)]
        if case.talk.words[number.start].segment != case.talk.words[last].segment:
            continue
        steps = {len(values) - 1, len(values)}
        of_steps = _STEPS.search((match["noun"] or "") + (match["tail"] or "")) is not None
        allowed = steps if of_steps else {values[-1], *steps, abs(values[-1] - values[0])}
        if of_structure(case, number) and "start" not in (match["tail"] or ""):
            continue
        if values[0] in (0, 1) and not of_steps:
            allowed = {values[-1]}
        if match["noun"] and values[-1] - values[-2] > 1 and _of_so_many_each(case, number):
            allowed |= {len(values) - (values[0] == 0)}  # "five to a plate: five, ten, fifteen. Three plates."
        if match["noun"] and values[-1] - values[-2] > 1 and _told_next(case, number, values[-1]):
            allowed |= {len(values) - (values[0] == 0)}  # "Five, ten, fifteen. There are three gates. Fifteen ducks."
        if " and " in match[0] and values[-1] - values[-2] in (5, 10):
            allowed.add(values[-1] + 1)  # "Ten, twenty, thirty. And thirty-one."
        unit = PLURALS.get((match["noun"] or "").strip(), 0)
        if unit > 1 and unit == values[-1] - values[-2]:
            allowed = {len(values) - (values[0] == 0)}  # "Five, ten, fifteen. So three fives."
        if not of_steps:
            allowed |= _gone(case, values[-1], number)
        if _names_what_comes(case, last, number) or _is_there_now(case, last, number):
            continue
        if number.value in allowed or _goes_on(case, number) or case.is_excused(number.start, number.end):
            continue
        yield of_number(NAME, number, "",
                      f"Line {number.line} says {number.value} after a count that ends with {values[-1]}.",
                      f"Say {row(sorted(allowed), 'or')}.")  # fmt: skip


def _amounts(case: Case) -> Iterator[Finding]:
    """An amount of things that is told right after a count which a picture follows is one that the count or the picture has."""
    speech = case.talk.speech
    offsets = speech.offset_of
    for count in case.bound_counts:
        offset = offsets.get(count.words[-1]) if len(count.words) == len(count.values) else None
        if offset is None:
            continue
        end = speech.text.find(" .", offset, offset + _LONGEST_END)
        asked = _ASKED.match(speech.text, end) if end > 0 else None
        match = _AMOUNT.match(speech.text, asked.end()) if asked else None
        if match is None or asked is None or "#" in speech.text[offset + 1 : asked.end()]:
            continue
        if _RESULT.match(speech.text, asked.end()) and "?" not in asked[0]:
            continue  # a whole sentence: see above
        number = speech.number_at[match.start(1)]
        sentence = case.sentences[case.sentence_index(number.start)]
        if sentence.segment != case.talk.words[count.words[-1]].segment or case.covering.get(number.start):
            continue
        if of_structure(case, number) or denied(case, number) or case.says(number.end, number.end + 2, _MARKS):
            continue
        if case.has_word(sentence, _LATER) or case.has_word(sentence, SUPPOSED):
            continue
        if case.is_excused(sentence.start, sentence.end):
            continue
        allowed = _had(case, count, number)
        if number.value not in allowed and not _names_what_comes(case, count.words[-1], number):
            yield of_number(NAME, number, count.direction.text,
                          f"Line {number.line} says {number.value} after a count that ends with {count.values[-1]}.",
                          f"Say {row(sorted(allowed), 'or')}.")  # fmt: skip


def _had(case: Case, count: BoundCount, number: Number) -> set[int]:
    """What was there, what there is and how much was counted; and what else the screen shows by then."""
    found = {count.base, count.values[-1], len(count.values), abs(count.values[-1] - count.base)}
    for seen in case.on_screen(number.start, number.end):
        found |= counts(seen.picture)
    return found


def _of_so_many_each(case: Case, number: Number) -> bool:
    """Whether what a number counts holds so many each, by what is said before ("five to a plate", "ten in each nest")."""
    words = case.talk.words
    first, _ = case.sentences_around(case.sentence_index(number.start), _EACH, 0)
    thing = words[number.end].plain.removesuffix("s") if number.end < len(words) else ""
    return any(
        words[at].plain.removesuffix("s") == thing
        and (
            words[at - 1].plain in ("each", "every", "per")
            or (words[at - 1].plain in ("a", "an", "one") and words[at - 2].plain in ("to", "in", "on", "for"))
        )
        for at in range(case.sentences[first].start + 2, number.start)
    )


def _told_next(case: Case, number: Number, end: int) -> bool:
    """Whether the sentence after that of a number tells only the end of the count before: then the number is of something else, as
    of the groups by which was counted."""
    index = case.sentence_index(number.start)
    _, last = case.sentences_around(index, 0, 1)
    return last > index and case.sentences[last].values == (end,)


def _gone(case: Case, end: int, number: Number) -> set[int]:
    """How far the hops before a number have gone, one after another up to `end` ("Sixty-four. … Fifty-four. …
    Forty-four. That makes thirty gone.")."""
    found: set[int] = set()
    here = end
    for hop in reversed(ways_around(case, number.start)):
        if hop.last > number.start:
            continue
        if hop.end != here:
            break
        here = hop.start
        found.add(abs(here - end))
    return found


def _is_there_now(case: Case, last: int, number: Number) -> bool:
    """Whether a count that ends with word `last` was of what came or went, and a number tells what is there now ("Two hop off: one,
    two. Three stay.")."""
    return any(moment.counted and moment.number == number.value for moment in case.moments_between(last - 1, last + 1))


def _names_what_comes(case: Case, last: int, number: Number) -> bool:
    """Whether a picture of this number comes on between the count and it ("10, 11, 12. [show word: eleven] Eleven."),
    so many come or go there ("Five, six. [mice: add 2 dots] Two cousins squeeze in."), or it is picked out on a path, a line
    or a chart ("28, 30. [chart: circle 17] 17. Did we land?")."""
    if number.value in case.changed_by(last, number.start + 1):
        return True
    return any(
        last < seen.moment.word <= number.start
        and number.value in seen.shows
        and (
            seen.change is None
            or (
                isinstance(seen.change, Circle | MarkNumber)
                and isinstance(seen.picture, SpanPicture)
                and seen.change.value == number.value
            )
        )
        for seen in case.on_screen(number.start, number.end)
    )


def _goes_on(case: Case, number: Number) -> bool:
    """Whether the number begins another count or stands in a statement of its own."""
    return any(s.holds is not None and not s.kind.startswith("question") for s in case.covering.get(number.start, ()))
