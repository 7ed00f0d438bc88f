"""One more, one less, ten more, ten less without the number they start from ("46 is 1 more", "What is 10 less? 28.",
"fifteen, which is one less"): that number must be there, on the screen or in the words before."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from studio.agree.case import Case, Sentence
from studio.agree.hops import further_down
from studio.agree.looks import essential
from studio.agree.wording import row
from studio.findings import Finding
from studio.pictures.kinds.more_and_less import MoreAndLess
from studio.script.model import Add, Hop, TakeAway
from studio.talk.model import Number
from studio.talk.numbers import PLURALS

NAME = "more and less fit"
_WAY = r"(more|less|fewer)"
_STEP = r"(?: (?:steps?|hops?|jumps?|stones?|spaces?))"
_STEPS = re.compile(_STEP)
_SIZES = (2, 5, 10)
_MOST_NEXT = 4  # numbers
_MOVE = r"(back|down|on|forwards?|up)"
_UP = frozenset(("more", "on", "forward", "forwards", "up", "after"))
_END = r"(?= [.,?¶§])"
_PATTERNS = (  # (pattern, group of the amount, of the way, of the result)
    (re.compile(rf"(#) is (#) {_WAY}{_END}"), 2, 3, 1),
    (re.compile(rf"(#) , (?:and )?(?:which|that|it|this) is (?:only |just )?(#) {_WAY}{_END}"), 2, 3, 1),
    # "Twelve, one less, eleven."
    (re.compile(rf"(?<=# , )(#) {_WAY} , (?:that is |it is |so )?(#)(?= [.?¶§])"), 1, 2, 3),
    (re.compile(rf"(#) , (#) {_WAY}{_END}"), 2, 3, 1),
    (re.compile(rf"(#) {_WAY} (?:is|was|makes|gives|lives)(?: ,| the| number| card)* (#){_END}"), 1, 2, 3),
    (re.compile(rf"(#) {_WAY} , (?:that is |that would be |it is |that makes |so )?(?:only )?(#){_END}"), 1, 2, 3),
    (re.compile(rf"(#) {_WAY} \? (?:¶ )?(?:(?:yes|it|is|that|right|good|the|answer|,) )*(#){_END}"), 1, 2, 3),
    (
        re.compile(
            rf"(#) {_WAY} \? (?:¶ )?(?:take |hop |go |step |jump )?# (?:steps?|hops?|jumps?) (?:back|on|forwards?|down|up) \. (?:¶ )?(#){_END}"
        ),
        1,
        2,
        3,
    ),
    # "Less by one: eight. More by one: ten.", "Ten less is right above, twenty-five."
    (re.compile(rf"(?<=[.,?¶§] )(?:and )?{_WAY} by (#) (?:, |is |makes |gives )+(#){_END}"), 2, 1, 3),
    (
        re.compile(
            rf"(#) {_WAY} (?:is|sits|lives|stands)(?: right| straight| directly)? (?:above|below|under|underneath) , (#){_END}"
        ),
        1,
        2,
        3,
    ),
    # "One step back is four, one step on is six.", "One before it is nine.", "Up five to twenty. Up twenty to forty."
    (re.compile(rf"(?<=[.,?¶§] )(?:and )?(#){_STEP} {_MOVE} (?:is|makes|lands on)(?: the)? (#){_END}"), 1, 2, 3),
    (
        re.compile(rf"(?<=[.,?¶§] )(?:and )?(#) (before|after) (?:it|that) (?:is|comes|lives)(?: the)? (#){_END}"),
        1,
        2,
        3,
    ),
    (re.compile(rf"(?<=[.,?¶§] )(?:and )?{_MOVE} (#) (?:to|is|makes)(?: the)? (#){_END}"), 2, 1, 3),
)
_REACH = 4  # sentences before


@dataclass(frozen=True, slots=True)
class Relative:
    """So many (`amount`) more (`sign` 1) or less (-1) than a number that is not named make `result`."""

    amount: Number
    sign: int
    result: Number
    steps: bool = False
    """Whether steps are told, which may be of more than one each."""

    @property
    def base(self) -> int:
        """The number it starts from."""
        return self.result.value - self.sign * self.amount.value


def relatives(case: Case) -> tuple[Relative, ...]:
    """All such sayings of a lesson, in order. Found once."""
    cached: tuple[Relative, ...] | None = case.__dict__.get("_relatives")
    if cached is None:
        cached = case.__dict__["_relatives"] = tuple(_relatives(case))
    return cached


def _relatives(case: Case) -> Iterator[Relative]:
    speech = case.talk.speech
    text = speech.text
    if not any(
        f" {word}" in text
        for word in ("more", "less", "fewer", "before", "after", "back", "down", "on ", "up ", "forward")
    ):
        return
    taken: set[int] = set()
    for pattern, amount, way, result in _PATTERNS:
        for match in pattern.finditer(text):
            one, other = speech.number_at[match.start(amount)], speech.number_at[match.start(result)]
            if text[: match.start(result)].endswith("# and ") and "," in match[0]:
                continue  # "five and five, that's ten, and one and one, that's two more"
            if case.says(min(one.end, other.end), max(one.start, other.start), ("then",)):
                continue  # "a full row of five, then three more"
            if case.says(one.start - 1, one.start, ("without", "minus", "less")) or not other.value:
                continue  # "ten without two more is eight", "and the zero is one more"
            if re.search(r"# (?:and|plus) $", text[max(0, match.start() - 8) : match.start()]):
                continue  # "five and five is ten, and six and five is one more"
            following = case.numbers_between(other.end, other.end + 1)
            if one.value > 1 and len(following) == 1 and following[0].value - other.value in (1, -1):
                continue  # "It is two more: 20, 21."
            if further_down(case, one, other):
                continue  # "One step back is 30, three more is 27"
            if {one.start, other.start} & taken or _told(case, one) or _told(case, other):
                continue
            taken |= {one.start, other.start}
            yield Relative(one, 1 if match[way] in _UP else -1, other, _STEPS.search(match[0]) is not None)


def _told(case: Case, number: Number) -> bool:
    return any(s.holds is not None or s.answered is not None for s in case.covering.get(number.start, ()))


def find(case: Case) -> Iterator[Finding]:
    agreed = _agreed(case)
    for relative in relatives(case):
        first, last = sorted((relative.amount, relative.result), key=lambda number: number.start)
        if case.is_excused(first.start, last.end):
            continue
        base = relative.base
        if (case.sentence_index(first.start), base) in agreed:
            continue
        if _starts_a_sum(case, relative):
            continue
        known = _known(case, first, last)
        if not known or base in known or (relative.steps and _steps_of_more(case, relative, known)):
            continue
        way = "more" if relative.sign > 0 else "less"
        wanted = sorted({value + relative.sign * relative.amount.value for value in known} - {-1})[:4]
        yield Finding(NAME, "error", last.line, last.column, relative.result.text, "",
                      f"Line {last.line} says that {relative.amount.value} {way} is {relative.result.value}; that is so "
                      f"from {base}, and {base} is not there.",
                      f"From {row(sorted(known)[:4], 'or')} it is {row(wanted, 'or')}.")  # fmt: skip


def _starts_a_sum(case: Case, relative: Relative) -> bool:
    """Whether the number is the one to start from, and what it comes to is told next ("Seventeen, one less. Sixteen.",
    "Twenty, five more, three more. That's my twenty-eight")."""
    if relative.result.start > relative.amount.start:
        return False
    total = relative.result.value + relative.sign * relative.amount.value
    index = case.sentence_index(relative.amount.start)
    _, last = case.sentences_around(index, 0, 1)
    words = case.talk.words
    if any(
        isinstance(seen.change, Add | TakeAway | Hop) and seen.moment.word >= case.sentences[index].start
        for seen in case.on_screen(case.sentences[index].start, case.sentences[last].end)
    ):
        return False  # the picture goes along: "[frame: add 1] Fifteen, one more. [frame: add 1] Sixteen."
    for number in case.numbers_between(relative.amount.end, case.sentences[last].end)[:_MOST_NEXT]:
        after = words[number.end].plain if number.end < len(words) else ""
        if after not in ("more", "less", "fewer"):
            return number.value == total
        total += number.value if after == "more" else -number.value
    return False


def _steps_of_more(case: Case, relative: Relative, known: set[int]) -> bool:
    """Whether the steps go by twos, fives or tens, as is told in the segment ("We step by tens from 40. One step back is 30.")."""
    start, end = case.segment_around(relative.result.start)
    told = {PLURALS[word.plain] for word in case.talk.words[start:end] if word.plain in PLURALS}
    told |= {number.value for number in case.numbers_between(start, end)}
    gone = relative.sign * relative.amount.value
    return any(relative.result.value - gone * size in known for size in _SIZES if size in told)


def _agreed(case: Case) -> set[tuple[int, int]]:
    """Sentence and base of sayings that start from the same number ("One less is 13, and one more is 15")."""
    found = Counter((case.sentence_index(relative.result.start), relative.base) for relative in relatives(case))
    return {key for key, times in found.items() if times > 1}


def _known(case: Case, first: Number, last: Number) -> set[int]:
    """The numbers that the saying may start from: that of a more-and-less picture and what is said with it, else what
    is said or shown just before."""
    index = case.sentence_index(first.start)
    sentence = case.sentences[index]
    inside = {other.value for other in sentence.numbers if other not in (first, last)}
    seen = case.on_screen(sentence.start, sentence.end + 1)
    middles = {
        other.picture.value
        for other in seen
        if isinstance(other.picture, MoreAndLess) and other.moment.word <= last.start
    }
    if middles:
        return middles | inside
    known = inside | case.topics.get(sentence.segment, set())
    begin, _ = case.sentences_around(index, _REACH, 0)
    known |= {number.value for number in case.numbers_between(case.sentences[begin].start, first.start)}
    for other in seen:
        known |= other.shows
    return known | _had_before(case, sentence) if known else known


def _had_before(case: Case, sentence: Sentence) -> set[int]:
    """What somebody may have had that has one less now ("She has one less, so six."): what was both said and shown in the
    segment before."""
    if not case.has_word(sentence, ("has", "have", "had")):
        return set()
    before = sentence.segment - 1
    shown = {value for other in case.pictures_of(before) for value in essential(other.picture)}
    return shown & case.said_in(before)
