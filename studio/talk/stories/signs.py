"""Signs by which the words of a story tell its situation: what stands around its two numbers, between and behind them, and in
its question; how each number is told, and what the readers of Table 1 make of it. Names and the noun that is asked for
are told apart from other words, so that it does not matter who has what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from studio.talk.stories import lexicon as lex
from studio.talk.stories.clauses import COMPARATIVES, Quantity, Token, is_label
from studio.talk.stories.question import Question
from studio.talk.stories.readings import Reading

MOST_NUMBERS = 4
"""A story with more numbers is not read by its signs."""
_WINDOW = 5  # words on each side of a number
_FLAGS = (
    "is_subject", "passive", "progressive", "more", "of_whole", "compare", "back", "afterwards", "whole", "rest", "each",
    "of_any", "negated", "wanted",
)  # fmt: skip
_ASKED = (
    "more", "has_than", "difference", "measure", "start_asked", "left", "total", "now", "need", "rest", "negative", "each",
    "both_parts", "passive", "as_many", "missing", "must",
)  # fmt: skip
_OTHER = "Nx"
_BONES = (
    lex.FUNCTION_WORDS
    | COMPARATIVES
    | frozenset("N1 N2 Nx P1 P2 P3 Qn <Q> . , left altogether total together some rest other remain still".split())
)


@dataclass(frozen=True, slots=True)
class Told:
    """Everything that is read of a story: its words with the question, which begins at word `question.start`, what is
    told, and what the readers make of it."""

    tokens: Sequence[Token]
    quantities: Sequence[Quantity]
    question: Question
    reading: Reading | None


Pair = tuple[Token, Token]


def pairs(tokens: Sequence[Token]) -> list[Pair]:
    """The pairs of numbers in a story, in order, but for those that only name something ("Class Two"); none where there are
    too many numbers."""
    numbers = [token for at, token in enumerate(tokens) if token.number is not None and not _names(tokens, at)]
    return list(combinations(numbers, 2)) if len(numbers) <= MOST_NUMBERS else []


def _names(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is a name or a part of one."""
    within = at > 0 and not tokens[at - 1].full_stop
    return within and (tokens[at].capital or is_label(tokens, at))


def signs(story: Told, pair: Pair) -> Iterator[str]:
    """The signs of a story as it is told of two of its numbers."""
    words = _normed(story, pair)
    at = [index for index, word in enumerate(words) if word in ("N1", "N2")]
    begin = words.index("<Q>") if "<Q>" in words else len(words)
    one, other = pair
    assert one.number is not None and other.number is not None and len(at) == 2
    yield f"sizes {(one.number > other.number) - (one.number < other.number)}"
    yield f"numbers {sum(token.number is not None for token in story.tokens)}"
    yield f"asked from {sum(index > begin for index in at)}"
    yield f"apart {words[at[0] : at[1]].count('.')}"
    yield from _rows("s", words[:begin])
    yield from _rows("q", words[begin:])
    yield from _bones(words)
    yield from (f"q{index} {word}" for index, word in enumerate(words[begin : begin + 8]))
    yield from _rows("between", words[at[0] + 1 : at[1]])
    yield from _rows("before", words[: at[0]])
    yield from _rows("behind", words[at[1] + 1 : begin])
    for name, place in zip(("N1", "N2"), at, strict=True):
        yield from _around(name, words, place)
    yield from _told(story, pair)


def _normed(story: Told, pair: Pair) -> list[str]:
    """The words with the two numbers, the names in the order of their coming, and the noun that is asked for."""
    names: dict[str, str] = {}
    found: list[str] = []
    first, asking = True, False
    tokens, question = story.tokens, story.question
    capitals = {token.plain for before, token in pairwise(tokens)
                if token.capital and not before.full_stop and token.number is None}  # fmt: skip
    for token in tokens:
        if token.start >= question.start and not asking:
            asking = True
            found.append("<Q>")
        if token.number is not None:
            word = "N1" if token is pair[0] else "N2" if token is pair[1] else _OTHER
        elif token.plain in capitals or (first and token.capital and _may_be_name(token)):
            name = token.plain.removesuffix("'s").removesuffix("’s")
            word = names.setdefault(name, f"P{min(len(names) + 1, 3)}")
        elif token.lemma in question.nouns:
            word = "Qn"
        else:
            word = token.verb or token.lemma or token.plain
        found.append(word)
        if token.stop:
            found.append("." if token.full_stop else ",")
        first = token.full_stop
    return found


def _may_be_name(token: Token) -> bool:
    """Whether the first word of a sentence may be a name."""
    return not token.verb and token.plain not in lex.FUNCTION_WORDS and token.plain == token.lemma


def _rows(zone: str, words: Sequence[str]) -> Iterator[str]:
    """Words, pairs and triples of words that follow one another."""
    yield from (f"{zone} {word}" for word in words)
    yield from (f"{zone} {one} {other}" for one, other in pairwise(words))
    yield from (f"{zone} {a} {b} {c}" for a, b, c in zip(words, words[1:], words[2:], strict=False))


def _bones(words: Sequence[str]) -> Iterator[str]:
    """Three to five words that follow one another; of words that only name or describe ("w") one stands for all."""
    plain = [word if word in _BONES or word in lex.VERBS else "w" for word in words]
    bones = [word for at, word in enumerate(plain) if word != "w" or plain[at - 1 : at] != ["w"]]
    for size in (3, 4, 5):
        yield from (f"bones {' '.join(bones[at : at + size])}" for at in range(len(bones) - size + 1))


def _around(name: str, words: Sequence[str], at: int) -> Iterator[str]:
    for step in range(-_WINDOW, _WINDOW + 1):
        if step and 0 <= at + step < len(words):
            yield f"{name} {step} {words[at + step]}"
    for start, end in ((-2, 0), (-3, 0), (1, 3), (1, 4), (-1, 2), (-2, 2), (-1, 3)):
        if at + start >= 0 and at + end <= len(words):
            yield f"{name} {start}: {' '.join(words[at + start : at + end])}"


def _told(story: Told, pair: Pair) -> Iterator[str]:
    """How the two numbers are told and what is asked, as it was read."""
    question = story.question
    told = [next((one for one in story.quantities if one.start == token.start), None) for token in pair]
    flags = [f"{name} {value}" for name in _ASKED if (value := getattr(question, name))]
    yield from (f"asks {flag}" for flag in flags)
    yield f"asks verb {question.verb}"
    verbs = []
    shorts = []
    for name, quantity in zip(("N1", "N2"), told, strict=True):
        if quantity is None:
            yield f"{name} not read"
            verbs.append("-")
            shorts.append("-")
            continue
        is_flags = [f"{flag} {value}" for flag in _FLAGS if (value := getattr(quantity, flag))]
        is_flags += [
            f"asked noun {bool(question.nouns & quantity.nouns)}", f"asked owner {bool(question.subject & quantity.owner)}",
            f"refers {bool(quantity.reference)}", f"other asked {bool(question.words & quantity.words)}",
            f"moves {' '.join(sorted(quantity.moves))}", f"sort {_sort(quantity.verb)}", f"pointed {bool(quantity.target)}",
            f"same verb {quantity.verb == question.verb}",
        ]  # fmt: skip
        yield from (f"{name} {flag}" for flag in is_flags)
        yield from (f"{name} {flag} asks {other}" for flag in is_flags for other in flags)
        yield f"{name} verb {quantity.verb}"
        yield f"{name} verb {quantity.verb} asks {question.verb}"
        verbs.append(quantity.verb)
        shorts.append(
            " ".join((_sort(quantity.verb), quantity.compare, "more" * quantity.more, "after" * quantity.afterwards))
        )
    yield f"verbs {' '.join(verbs)}"
    yield f"verbs {' '.join(verbs)} asks {question.verb}"
    yield f"sorts {' / '.join(shorts)}"
    yield f"sorts {' / '.join(shorts)} asks {_sort(question.verb)} {question.left} {question.total} {question.more} {question.start_asked}"
    one, other = told
    if one is not None and other is not None:
        yield f"same owner {one.owner == other.owner} noun {bool(one.nouns & other.nouns)} verb {one.verb == other.verb}"
    unknown = [quantity for quantity in story.quantities if not quantity.known]
    yield f"some {len(unknown)}"
    for quantity in unknown:
        yield f"some {_sort(quantity.verb)} {quantity.more} {quantity.rest} {(quantity.start > pair[0].start) + (quantity.start > pair[1].start)}"
    yield from _read(story, pair, flags, shorts)


def _read(story: Told, pair: Pair, flags: Sequence[str], shorts: Sequence[str]) -> Iterator[str]:
    """What the readers make of it, alone and with what is asked and how the numbers are told."""
    reading = story.reading
    if reading is None:
        found = "nothing"
    else:
        same = sorted(reading.told) == sorted(token.number or 0 for token in pair)
        found = f"{reading.situation if reading.answer is not None else 'no answer'} {same}"
    yield f"read: {found}"
    yield f"read: {found} asks {_sort(story.question.verb)}"
    yield f"read: {found} asks {' '.join(flags)}"
    yield f"read: {found} sorts {' / '.join(shorts)}"
    yield from (f"read: {found} asks {flag}" for flag in flags)
    yield from (f"read: {found} {name} {short}" for name, short in zip(("N1", "N2"), shorts, strict=True))


def _sort(verb: str) -> str:
    """What a verb does, by the lists of the lexicon."""
    lists = (lex.GAINS, lex.LOSSES, lex.COMES, lex.MOVES, lex.STATES)
    return "".join(str(int(verb in some)) for some in lists)
