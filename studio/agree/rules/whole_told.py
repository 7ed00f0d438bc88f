"""A bond or a bar, and how its whole and its parts are told with it: "the ten sits at the top", "a bar twelve long", "I
want six flies. How many more?", "a piece for the two who are home". While its unknown is looked for, what is told with it
are the two numbers that are known; where one of them is told with another number, one of the two is a slip."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import chain

from studio.agree.case import Appearance, Case
from studio.agree.looks import relation, structure
from studio.agree.manners import claims, labelled
from studio.agree.wording import of_number, row
from studio.findings import Finding
from studio.pictures.kinds.compare_bars import CompareBars
from studio.pictures.kinds.rekenrek import Rekenrek
from studio.pictures.marks import MarkPicture
from studio.pictures.wholes import WholePicture
from studio.script.model import Show
from studio.talk.model import Number

NAME = "whole and parts as told"
_TOP = r"(?:at the top|on top|on the top|along the top|across the top|up top)"
_GOES = r"(?:goes|go|sits|sit|stands|stand|is|are|lives|belongs)"
_END = r"(?= [.,?¶§])"
_WHOLE = tuple(
    re.compile(pattern)
    for pattern in (
        r"(?<!# is)(?<! make)(?<! makes) the whole , (?:which is )?(#)(?= (?:[.,]|with) )(?! , #)",
        rf" (?:the|our|my) whole [a-z]+ (?:is|has) (#)(?: [a-z]+)?{_END}",
        rf" (?:bar|strip)(?: is| of| for| for all| for the)* (#)(?: [a-z]+)?(?: long| in length)?{_END}",
        r" (?:break|breaks|split|splits|broke|crack) (?:the )?(#) (?:into|in) ",
    )
)
_ABOVE = tuple(
    re.compile(pattern)
    for pattern in (
        rf" (#)(?: (?!and|more|less)[a-z]+)? (?:{_GOES} )?(?:up )?{_TOP}{_END}",
        rf" the (#) (?:sits|stands|goes|lives) (?:above|on its own up there){_END}",
    )
)
"""Said of a bond or a bar only where nothing else on the screen has a top."""
_WANTED = tuple(
    re.compile(pattern)
    for pattern in (
        rf" (?:i|we|you|he|she|they) wants? (#)(?: (?!more)[a-z]+)?{_END}",
        r" how many (?:more )?(?:[a-z]+ )?(?:will |would |do i need to |do we need to |must i add to )?"
        r"(?:make it|make|get to|reach) (#)(?: [a-z]+)? \? ",
    )
)
"""Said of a whole that is known, while a part is looked for."""
_KNOWN = tuple(
    re.compile(pattern)
    for pattern in (
        r" (?:a|one|this|the first|the known) (?:piece|part|bit) (?:is |for |holds )+(?:the |all )*(#)(?= )",
        rf" (#)(?: [a-z]+)? (?:goes |go |sits )?in (?:this|one|a|the first) (?:piece|part|bit|circle){_END}",
        rf" (?:in|on) (?:this|one|my left|my right) hand(?: ,)?(?: (?:i have|there are|there is|are|is|it is))? (#){_END}",
        rf" (#)(?: of (?:it|them|those|these))? (?:is|are) (?:shaded|done){_END}",
        r" (#) (?:[a-z]+ )?here [.,] (?:¶ )?and (?:how many )?(?:over )?there \? ",
    )
)
_HANDLED = re.compile(
    r" (?:slide|slides|fold|folds|cover|covers|hide|hides|cross|push) (?:off |away |down |out |aside )*(?:the )?(#)"
    r"(?: (?!more)[a-z]+)?(?: (?:away|down|off|aside|out))?(?= (?:[.,]|and|with) )"
)
_THINGS = (MarkPicture, Rekenrek, CompareBars)
_BY_HOW_MUCH = frozenset("more less fewer extra another".split())
_BEFORE = 6  # sentences
_AFTER = 5  # sentences
_STORY = 80  # words


def find(case: Case) -> Iterator[Finding]:
    if not any(isinstance(seen.picture, WholePicture) for seen in case.pictures):
        return
    minded: set[int] = set()
    for finding in (*_in_their_place(case), *_with_the_unknown(case)):
        if finding.line not in minded:
            minded.add(finding.line)
            yield finding


def _in_their_place(case: Case) -> Iterator[Finding]:
    """What is told of the whole or of a part by its place."""
    for patterns, is_meant in _WHOLES:
        for number, seen, picture in chain.from_iterable(_told(case, pattern) for pattern in patterns):
            found = relation(picture)
            if found is None or number.value == found.whole or picture.whole is None:
                continue  # with an unknown whole: "One bar is eight, and then five more"
            if is_meant(case, number, seen):
                yield _finding(number, seen, "the whole", [found.whole])
    for patterns, is_meant in _PARTS:
        for number, seen, picture in chain.from_iterable(_told(case, pattern) for pattern in patterns):
            known = [value for value in picture.parts if value is not None]
            if not known or len(known) == len(picture.parts) or picture.whole is None or number.value in known:
                continue
            if is_meant(case, number, seen):
                yield _finding(number, seen, "the part that is known", known)


def _told(case: Case, pattern: re.Pattern[str]) -> Iterator[tuple[Number, Appearance, WholePicture]]:
    """Where a pattern tells of the only bond or bar that is on the screen, as it is."""
    speech = case.talk.speech
    for match in pattern.finditer(speech.text):
        number = speech.number_at[match.start(1)]
        sentence = case.sentences[case.sentence_index(number.start)]
        seen = [(one, one.picture) for one in case.on_screen_at(number.start) if isinstance(one.picture, WholePicture)]
        if len(seen) != 1 or not claims(case, sentence, number):
            continue
        ((one, picture),) = seen
        if one.moment.direction.segment == sentence.segment:
            yield number, one, picture


def _of_bond(case: Case, number: Number, seen: Appearance) -> bool:
    """Whether what is at the top can only be of a bond or a bar: it is named, or nothing else has a top ("Seven otters are
    at the top of the slide")."""
    sentence = case.sentences[case.sentence_index(number.start)]
    if case.has_word(sentence, ("bond",)):
        return True
    if case.has_word(sentence, ("piece", "part")) or any(
        isinstance(one.picture, _THINGS) for one in case.on_screen_at(number.start)
    ):
        return False
    start, _ = case.segment_around(number.start)
    word = seen.moment.word
    return not case.says(max(start, word - _STORY), word, ("top", "bottom", "above", "below"))


def _values(seen: Appearance) -> set[int]:
    """All numbers of a bond or a bar, with its unknown."""
    found = relation(seen.picture)
    return set(seen.picture.numbers) | (set() if found is None else {found.whole, *found.parts})


def _always(case: Case, number: Number, seen: Appearance) -> bool:
    return True


def _lacks_a_part(case: Case, number: Number, seen: Appearance) -> bool:
    return isinstance(seen.picture, WholePicture) and None in seen.picture.parts


def _is_no_answer(case: Case, number: Number, seen: Appearance) -> bool:
    """Whether nothing is asked from the coming of the picture to the number ("How many are here? [wait 3 s] Four are done")."""
    first, last = case.sentence_index(seen.moment.word), case.sentence_index(number.start)
    return not any(case.asks(sentence) for sentence in case.sentences[first : last + 1])


def _is_not_found(case: Case, number: Number, seen: Appearance) -> bool:
    """Whether it is not the part that was found ("Cover five")."""
    return number.value not in _values(seen)


_Told = tuple[tuple[tuple[re.Pattern[str], ...], Callable[[Case, Number, Appearance], bool]], ...]
_WHOLES: _Told = ((_WHOLE, _always), (_ABOVE, _of_bond), (_WANTED, _lacks_a_part))
_PARTS: _Told = ((_KNOWN, _is_no_answer), ((_HANDLED,), _is_not_found))
"""How the whole and the part that is known are told, and what must be so then."""


def _with_the_unknown(case: Case) -> Iterator[Finding]:
    """One of the two known numbers is told with the picture, and another number in place of the other."""
    for seen in case.pictures:
        picture, direction = seen.picture, seen.moment.direction
        if not isinstance(direction, Show) or not isinstance(picture, WholePicture) or len(picture.parts) != 2:
            continue
        known = [value for value in picture.values if value is not None]
        if len(known) != 2 or picture.whole is None or relation(picture) is None:
            continue
        told = _told_with(case, seen)
        missing = [value for value in known if value not in {number.value for number in told}]
        others = [number for number in told if number.value not in known]
        if len(missing) != 1 or len(others) != 1 or len(told) > len(known) + 1:
            continue
        (number,) = others
        sentence = case.sentences[case.sentence_index(number.start)]
        if {number.value, 10 * number.value} & (_values(seen) | structure(picture)):
            continue  # "Six tens, though?", over a part of sixty
        if labelled(case, number) or case.has_word(sentence, _BY_HOW_MUCH) or not claims(case, sentence, number):
            continue
        if missing[0] in _told_before(case, seen):
            continue
        if direction.place.line in case.excused:
            continue
        yield _finding(number, seen, "what is known", known)


def _told_with(case: Case, seen: Appearance) -> tuple[Number, ...]:
    """The numbers told from the picture's coming to its next step, in a few sentences of its segment."""
    index = case.sentence_index(seen.moment.word)
    if case.sentences[index].segment != seen.moment.direction.segment:
        return ()
    _, last = case.sentences_around(index, 0, _AFTER)
    return case.numbers_between(case.sentences[index].start, min(seen.until, case.sentences[last].end))


def _told_before(case: Case, seen: Appearance) -> set[int]:
    """The numbers told in the segment shortly before the picture comes on."""
    index = case.sentence_index(seen.moment.word)
    first, _ = case.sentences_around(index, _BEFORE, 0)
    return {number.value for number in case.numbers_between(case.sentences[first].start, case.sentences[index].start)}


def _finding(number: Number, seen: Appearance, role: str, values: list[int]) -> Finding:
    line = seen.moment.direction.place.line
    return of_number(NAME, number, seen.moment.direction.text,
                   f"Line {number.line} tells {number.value} as {role}, but line {line} shows "
                   f"{seen.picture.description()}.",
                   f"Say {row(values, 'or')} there, or show the number that you say.")  # fmt: skip
