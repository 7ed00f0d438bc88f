"""What is known of a place beside how well its number was to be expected: whether a statement holds with it, how often
the number is said and shown, in which manner it is said. From these `doubt.py` tells a slip from an odd way of talking."""

from __future__ import annotations

from bisect import bisect_left

from studio.agree import manners
from studio.agree.expect.expectation import Expectation
from studio.agree.expect.families import FAMILIES
from studio.agree.expect.groups import Groups
from studio.agree.expect.place import Place
from studio.agree.looks import counts, essential
from studio.agree.minded import NAMES as MINDED
from studio.agree.minded import minded
from studio.stage.model import Moment

NAMES = (
    "surprise", "lead", "second lead", "likeliest", "value", "statements that do not",
    "questions", "words covered", "story", "told by the story", "answers after the story", "said in the segment",
    "share of the segment", "said in the lesson", "shown in the segment", "numbers since", "numbers until",
    "can be counted on the screen", "shown around", "words to the next change", "words since the last picture",
    "words to the nearest change", "pictures in the segment", "numbers in the sentence", "words in the sentence",
    "asked", "after a question", "label", "denied", "supposed", "looks back", "aside", "guess", "alone", "taken back",
    "place in the segment", "sort of word before", "sort of word after", "link to the number before",
    "in the title", "of structure", "link to the next number",
    *(f"{sort} for {what}" for sort in (*FAMILIES, "together") for what in ("it", "the other")), "other value", "digits",
    "own words", "part of own words", "part of own words before", "part of own words after", "of herself",
    "as the groups", "other as the groups", "against the groups", "idle", *MINDED,
)  # fmt: skip
_NEVER = 40  # numbers
_FAR = 120  # words


def traits(place: Place, expectation: Expectation) -> tuple[float, ...]:
    """The traits of a place in the order of `NAMES`."""
    book, case, number, sentence = place.book, place.book.case, place.number, place.sentence
    value = number.value
    covering = case.covering.get(number.start, ())
    words = book.words
    asked = "?" in words[sentence.end - 1].text
    at = place.sentence_index
    asked_before = at > 0 and "?" in words[case.sentences[at - 1].end - 1].text
    story, told, answered = _story(place)
    said = case.times_said_in(place.segment)
    since, until = _nearest(place)
    now = book.screen(number.start, number.start + 1)
    first, last = case.sentences_around(at, 1, 2)
    around = book.screen(case.sentences[first].start, case.sentences[last].end + 1)
    following, nearest = _changes(place)
    others = sorted((score for _, score in expectation.likely), reverse=True)
    return (
        expectation.surprise,
        expectation.lead,
        others[1] if len(others) > 1 else 0.0,
        others[0],
        min(value, 25),
        sum(statement.holds is False for statement in covering),
        sum(statement.holds is None for statement in covering),
        max((len(statement.values) for statement in covering), default=0),
        story,
        told,
        answered,
        said[value] - 1,
        (said[value] - 1) / max(1, said.total() - 1),
        case.times_said[value] - 1,
        book.shown_in(place.segment)[value],
        since,
        until,
        any(value in counts(seen.picture) for seen in now),
        sum(value in essential(seen.picture) for seen in around),
        following,
        min(200, number.start - now[0].moment.word) if now else 300,
        nearest,
        any(seen.moment.direction.segment == place.segment for seen in (now or around)),
        len(sentence.numbers) - 1,
        min(40, sentence.end - sentence.start),
        asked,
        asked_before,
        manners.labelled(case, number),
        manners.denied(case, number),
        book.says(at, manners.SUPPOSING),
        book.says(at, manners.LOOKING_BACK),
        manners.aside(case, number),
        manners.guessed(case, sentence, number),
        manners.is_lone(case, sentence, number),
        manners.taken_back(case, at),
        (number.start - place.start) / max(1, place.end - place.start),
        _sort(place.before.sort),
        _sort(place.after.sort),
        _LINKS.index(place.link(-1)),
        value in book.titles.get(place.segment, ()),
        manners.of_structure(case, number),
        _LINKS.index(place.link(0)),
        *(share for pair in expectation.shares for share in pair),
        min(expectation.likely[0][0], 25),
        number.form == "digits",
        *_kinship(place),
        *_in_groups(place, expectation.likely[0][0]),
        expectation.idle,
        *minded(case, number.line, number.column, number.text),
    )


_LINKS = ("-", "0", "S", "SS", "X", "x", "A", "AE", "E", "M", "ME", "R", "RE", "F", "O")


_HERSELF = frozenset("i i'm i've i'd me my mine myself he she he's she's his her him us our".split())
"""Words with which a teacher tells of herself and of people she knows."""


def _kinship(place: Place) -> tuple[float, ...]:
    """How many words of the sentence, and which part of them, are said nowhere else in the lesson; which part of those of the
    sentences beside it; how many words tell of herself."""
    case, at = place.book.case, place.sentence_index
    first, last = case.sentences_around(at, 1, 1)
    own = case.own_words
    here, before, after = (own[index][0] / max(1, own[index][1]) for index in (at, first, last))
    told = sum(word.plain in _HERSELF for word in place.book.words[place.sentence.start : place.sentence.end])
    return own[at][0], here, before, after, told


def _in_groups(place: Place, other: int) -> tuple[int, int, int]:
    """How many other groups of a drill let expect the number, how many the one that was rather expected, how many any but it."""
    same = place.book.once(Groups).same[place.index]
    value = place.number.value
    fits = max((one.others for one in same if one.value == value), default=0)
    mends = max((one.others for one in same if one.value == other), default=0)
    return fits, mends, max((one.others for one in same if one.value != value), default=0)


def _sort(sort: str) -> float:
    return {".": 40.0, ",": 41.0, "": 42.0}.get(sort) or float(sort)


def _story(place: Place) -> tuple[int, int, int]:
    """Whether the place is in a story (1), one with an answer (2) that is said after it (4); how often the story tells this
    number beside it; how often its answer is said after it (-1: no story)."""
    case = place.book.case
    stories = case.talk.stories
    before = bisect_left(stories, place.number.start + 1, key=lambda story: story.start)
    if not before or stories[before - 1].end <= place.number.start:
        return 0, 0, -1
    story = stories[before - 1]
    said = place.book.answers_after(story, place.end)
    told = story.told.count(place.number.value) - 1  # itself
    return 1 + (story.answer is not None) + 2 * (said > 0), told, said


def _nearest(place: Place) -> tuple[int, int]:
    """How many numbers back and on in its segment the same number is said."""
    return _steps_to_same(place, -1), _steps_to_same(place, 1)


def _steps_to_same(place: Place, way: int) -> int:
    """How many numbers it is to the same one, on (1) or back (-1); so many as are looked at where there is none."""
    numbers = place.book.numbers
    for step in range(1, _NEVER):
        at = place.index + way * step
        if not 0 <= at < len(numbers) or not place.start <= numbers[at].start < place.end:
            break
        if numbers[at].value == place.number.value:
            return step
    return _NEVER


def _changes(place: Place) -> tuple[int, int]:
    """How many words it is to the next picture step of the segment, and to the nearest."""
    moments = place.book.case.stage.moments
    at = bisect_left(place.book.case.moment_words, place.number.start + 1)

    def away(moment: Moment) -> int:
        return min(_FAR, abs(moment.word - place.number.start)) if moment.direction.segment == place.segment else _FAR

    following = away(moments[at]) if at < len(moments) else _FAR
    last = away(moments[at - 1]) if at else _FAR
    return following, min(following, last)
