"""Manners of talk in which a number claims nothing of a picture or a sum, or only supposes it: "lesson three", "for two
minutes", "not seven", "if I gave you two more", "Is it six?", "Fourteen!"."""

from __future__ import annotations

import re

from studio.agree.case import Appearance, Case, Sentence
from studio.agree.wording import SUPPOSED, UNITS
from studio.pictures.kinds.text import Text
from studio.pictures.kinds.word import Word as Written
from studio.talk.expressions import STOP
from studio.talk.model import Number

LABELS = frozenset(
    "lesson grade page day number step part unit week chapter question problem room year age aged episode level job seat "
    "round story clue puzzle case station stop task riddle mission item exercise rule turn team trick scene act verse "
    "game try secret idea stage challenge lane line test sum picture past quarter".split()
)
_INTERJECTIONS = frozenset(
    "yes yep right good great so and oh wow now look hooray hmm okay see well ready exactly correct there it's that's "
    "that is it makes we have get got the answer is i again together altogether in all super nice only just".split()
)
_STRUCTURE = frozenset(  # what a number can be of in a picture that is made of rows, frames and groups
    "row rows frame frames box boxes space spaces square squares place places side sides part parts ten tens one ones group "
    "groups mark marks bundle bundles bead beads full dot dots top bottom row's line lines stick sticks across column "
    "columns pip pips die dice card cards picture pictures sum pair pairs hand hands each every more less between beside next after before "
    "step steps down up".split()
)
_NOT = frozenset(
    "mistaken like too not isn't aren't wasn't never no nor don't can't cannot without instead than".split()
)
LOOKING_BACK = frozenset(
    "today met found learned learnt remember earlier yesterday seen saw did worked practised practiced".split()
)
"""Words of a sentence that tells what the lesson had ("We have met nineteen")."""
SUPPOSING = frozenset("if would wouldn't you'd expect imagine suppose pretend".split())
"""Words of a sentence that only supposes something ("If I gave you two more")."""
_GUESSES = frozenset("is are was could can might may do does would or".split())
_YES = frozenset("yes yep yeah right correct true".split())
_IT = frozenset("it that this they there we".split())
_IS = frozenset("is are was were does do did would".split())
_FUNCTION = re.compile(
    rf"{STOP}|only|just|another|number|add|hop|count|say|find|put|draw|nearly|almost|one|two|three|four|five|six|seven|"
    r"eight|nine|ten|like|about|first|every|each|back|start|them|him|were|you|always|until|than|between|double|dots?|cards?"
)


def of_structure(case: Case, number: Number) -> bool:
    """Whether words for rows, frames, groups stand near it."""
    return case.says(number.start - 4, number.end + 4, _STRUCTURE)


def denied(case: Case, number: Number) -> bool:
    """ "not seven"."""
    return case.says(number.start - 3, number.start, _NOT)


def claims(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether it tells something by itself: it is not denied, supposed or excused, and no statement tells it."""
    return not (
        denied(case, number)
        or case.covering.get(number.start)
        or case.is_excused(sentence.start, sentence.end)
        or case.has_word(sentence, SUPPOSED)
    )


def only_picture(case: Case, start: int, end: int) -> Appearance | None:
    """The only picture that is on the screen from word `start` to before word `end`, written words aside; None where there
    are several, or it is excused."""
    on = [seen for seen in case.on_screen(start, end) if not isinstance(seen.picture, Text | Written)]
    return on[0] if len(on) == 1 and on[0].moment.direction.place.line not in case.excused else None


def taken_back(case: Case, index: int) -> bool:
    """Whether sentence `index` is a guess that is answered with no ("Seventeen? Oh no, you went up.")."""
    words = case.talk.words
    if "?" not in words[case.sentences[index].end - 1].text or index + 1 >= len(case.sentences):
        return False
    following = case.sentences[index + 1]
    return case.says(following.start, following.start + 4, ("no", "nope", "nay", "not"))


def says_yes(case: Case, position: int) -> bool:
    """Whether the word at `position` is a yes."""
    return case.says(position, position + 1, _YES)


def affirmed(case: Case, index: int) -> bool:
    """Whether sentence `index` asks and is answered with yes at once ("Was it fourteen? It was!")."""
    if not case.asks(case.sentences[index]) or index + 1 >= len(case.sentences):
        return False
    following = case.sentences[index + 1]
    words = [case.talk.words[at].plain for at in range(following.start, min(following.end, following.start + 3))]
    if says_yes(case, following.start):
        return True
    return len(words) == 2 and following.end - following.start == 2 and words[0] in _IT and words[1] in _IS


def aside(case: Case, number: Number) -> bool:
    """Whether it counts things that the lesson names nowhere else ("It gave me two kisses")."""
    words = case.talk.words
    things = []
    for position in range(number.end, min(number.end + 3, len(words))):
        if not words[position - 1].text[-1:].isalnum() or _FUNCTION.fullmatch(words[position].plain):
            break
        things.append(words[position].plain)
    if not things or set(things) & _STRUCTURE:
        return False
    return all(case.word_counts[thing.removesuffix("s")] < 2 for thing in things)


def guessed(case: Case, sentence: Sentence, number: Number | None = None) -> bool:
    """Whether it asks if a number is right ("Is it six?")."""
    words = case.talk.words
    asked = case.asks(sentence)
    if asked and number is not None and number.start > 1 and words[number.start - 1].plain in ("it", "be", "that"):
        return words[number.start - 2].plain in _GUESSES or words[sentence.start].plain in _GUESSES
    return asked and words[sentence.start].plain in _GUESSES


def is_lone(case: Case, sentence: Sentence, number: Number) -> bool:
    """Whether the sentence says nothing but this number ("Fourteen!", "Yes, fourteen.")."""
    words = case.talk.words
    return len(sentence.numbers) == 1 and all(
        words[position].plain in _INTERJECTIONS
        for position in range(sentence.start, sentence.end)
        if not number.start <= position < number.end
    )


def labelled(case: Case, number: Number) -> bool:
    """A number of minutes, of a lesson, of ways to do it, "a hundred times": it counts nothing that is shown."""
    words = case.talk.words
    after = words[number.end].plain if number.end < len(words) and words[number.end - 1].text[-1:].isalnum() else ""
    second = words[number.end + 1].plain if after and number.end + 1 < len(words) else ""
    before = words[number.start - 1].plain if number.start and words[number.start - 1].text[-1:].isalnum() else ""
    if before in _series(case):
        return True
    if (number.value >= 100 and number.text[:2].lower() == "a ") or number.value > 1000:
        return True  # "a hundred times", "Counting Machine 3000"
    return after in UNITS or (second in UNITS and after not in ("more", "and", "is")) or before in LABELS


def _series(case: Case) -> frozenset[str]:
    """The words that number things in this lesson: they stand before one and before two ("Lot one! … Lot two!")."""
    cached: frozenset[str] | None = case.__dict__.get("_series")
    if cached is None:
        found: dict[str, set[int]] = {}
        words = case.talk.words
        for number in case.counted:
            if number.start and words[number.start - 1].text[-1:].isalnum() and number.value < 9:
                found.setdefault(words[number.start - 1].plain, set()).add(number.value)
        cached = frozenset(
            word
            for word, values in found.items()
            if {1, 2} <= values and not _FUNCTION.fullmatch(word) and len(word) > 2
        )
        case.__dict__["_series"] = cached
    return cached
