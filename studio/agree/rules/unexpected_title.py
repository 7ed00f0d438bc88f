"""A number in the title of a segment fits what is said and shown in it. What was to be expected was learned from right
lessons (`studio/agree/expect/titled`). Where it is only likely that it does not fit, the finding is a note."""

from __future__ import annotations

from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.expect.network import network
from studio.agree.expect.titled.families import FAMILIES
from studio.agree.expect.titled.place import TitledPlace
from studio.agree.expect.titled.suspects import suspects
from studio.agree.rules.unexpected import instead
from studio.agree.wording import ZERO
from studio.findings import Finding
from studio.pictures.kinds.cards import Cards
from studio.script.model import Show

NAME = "title fits its segment"
DOUBTS = True
CERTAIN = 6.5
"""The surprise, in nats, from which a finding is an error; from `titled.suspects.LIKELY` on it is a note."""
NEVER_SAID = 5.5
"""The same where the segment never says the number, and it is not so small that it may count its parts or ways. Of 2,160 right lessons
two more are minded than with the other, of 1,790 changed titles 67 more are found."""
_SMALL = 4
_NEARLY = frozenset("almost nearly not".split())
_CLOSE = frozenset("close near next".split())
_NO = frozenset("no without not".split())
_BEYOND = frozenset("than past beyond over".split())
_PAIR, _TEN = 2, 10
_SHARES = {"half": 2, "third": 3, "quarter": 4}
_SHARED_BEFORE = 3  # words
_ORDER = frozenset("first then start begin".split())
_GREAT = 21
"""From here on hardly any number is said in a segment by chance."""


def _counts_cards(place: TitledPlace) -> bool:
    """ "Six cards on the rug" """
    pictures = place.book.case.pictures_of(place.segment)
    return any(isinstance(seen.picture, Cards) and len(seen.picture.faces) == place.value for seen in pictures)


def _comes_first(place: TitledPlace) -> bool:
    """Whether the title tells what comes first, and it is the first number that is said ("Partners of nine first", "Ten, then bigger")."""
    orders = any(word.plain in _ORDER for word in place.words)
    return orders and bool(place.said) and place.said[0].value == place.value


def _counts_pictures(place: TitledPlace) -> bool:
    """Whether the title says in how many ways something is shown, and so many pictures come on ("Twenty-eight in six coats")."""
    at = place.number.start
    if at == 0 or place.words[at - 1].plain != "in":
        return False
    shown = [seen for seen in place.book.case.pictures_of(place.segment) if isinstance(seen.moment.direction, Show)]
    return len(shown) == place.value


def _is_said_so(place: TitledPlace) -> bool:
    """Whether a sentence of the segment says it with all words of the title ("I can see six": "Six rolls I can see."), or it
    is great and said at all."""
    case = place.book.case
    saying = [case.sentences[case.sentence_index(number.start)] for number in place.said if number.value == place.value]
    if place.value >= _GREAT:
        return bool(saying)
    named = {word.plain for at, word in enumerate(place.words) if at != place.number.start}
    return bool(named) and any(
        named <= {word.plain for word in case.talk.words[sentence.start : sentence.end]} for sentence in saying
    )


def _is_nearly(place: TitledPlace) -> bool:
    """Whether it is only nearly the number of the segment ("Almost twenty", "So close to twenty", "More than ten"), is not there ("No ten in
    seven"), or a nought that is not called one ("Is there none?")."""
    at, value = place.number.start, place.value
    if value == 0 and place.words[at].plain not in ZERO:
        return True
    near = {number.value - value for number in place.said}
    if at == 0:
        return False
    before = [word.plain for word in place.words[max(0, at - _PAIR) : at]]
    if before[-1] in _NEARLY or (before[-1] == "to" and before[0] in _CLOSE):
        return not near.isdisjoint((-1, 1))
    if before[-1] in _NO and value == _TEN:
        return True
    return before[-1] in _BEYOND and not near.isdisjoint(range(1, _TEN))


def _is_step(place: TitledPlace) -> bool:
    """Whether it is the one by which the number of the segment is before or after another ("One before twenty": nineteen)."""
    at = place.number.start
    if place.value != 1 or len(place.numbers) < _PAIR or place.index or at + 1 >= len(place.words):
        return False
    step = {"before": -1, "after": 1}.get(place.words[at + 1].plain)
    return step is not None and place.numbers[1].value + step in {number.value for number in place.said}


def _is_shared(place: TitledPlace) -> bool:
    """Whether the title names a share of it, and that much is said ("Half of a hundred": fifty)."""
    before = [word.plain for word in place.words[max(0, place.number.start - _SHARED_BEFORE) : place.number.start]]
    shares = {place.value // _SHARES[word] for word in before if word in _SHARES and "of" in before}
    return bool(shares & {number.value for number in place.said})


def _is_product(place: TitledPlace) -> bool:
    """Whether the title tells another of its numbers as a product with it ("Twenty-seven, three times nine")."""
    others = [number.value for at, number in enumerate(place.numbers) if at != place.index]
    return any(word.plain == "times" for word in place.words) and any(place.value * one in others for one in others)


def _is_on_a_side(place: TitledPlace) -> bool:
    """Whether the title tells between which numbers one of the segment lies ("Between ten and twenty": seventeen)."""
    if len(place.numbers) != _PAIR or all(word.plain != "between" for word in place.words):
        return False
    low, high = sorted(number.value for number in place.numbers)
    return any(low < number.value < high for number in place.said)


def _counts_all(place: TitledPlace) -> bool:
    """Whether it is said of so few that are all there, and said in the segment ("Hello to all three": "Today I say three hellos.")."""
    at = place.number.start
    is_all = at > 0 and place.words[at - 1].plain == "all"
    return is_all and place.value <= _SMALL and place.value in {number.value for number in place.said}


_ACCOUNTS = (
    _counts_all, _counts_cards, _counts_pictures, _comes_first, _is_said_so, _is_nearly, _is_shared, _is_step, _is_product, _is_on_a_side
)  # fmt: skip
"""What accounts for a number in a title that was not to be expected."""


def find(case: Case) -> Iterator[Finding]:
    if case.lesson is None:
        return
    for suspect in suspects(case, network("titled")):
        place, surprise = suspect.place, suspect.expectation.surprise
        if any(accounts(place) for accounts in _ACCOUNTS):
            continue
        segment = place.book.segments[place.segment]
        line = segment.place.line
        is_never_said = place.value > _SMALL and place.value not in {number.value for number in place.said}
        yield Finding(
            NAME,
            "error" if surprise > (NEVER_SAID if is_never_said else CERTAIN) else "note",
            line,
            segment.place.column,
            segment.title,
            "",
            f"The title on line {line} says {place.value}, and that does not fit what is said and shown in this segment.",
            instead(suspect.expectation, FAMILIES),
        )
