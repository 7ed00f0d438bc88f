"""How much it hurts to part two words of speech: the cost of breaking a line or a caption between them.

0 is the end of a sentence, 10 the inside of a name such as "ten frame", 16 the inside of a number sentence in signs.
Break at punctuation and where speech pauses (Captioning Key, BBC subtitle guidelines); keep an article with its noun, a
preposition with what follows it, a number with what it counts, a pronoun with its verb.
"""

from __future__ import annotations

from studio.captions.numerals import SIGNS
from studio.captions.tokens import Token
from studio.talk.numbers import TENS, UNITS, plain_of

SENTENCE, CLAUSE, BEFORE_LINK, PLAIN, PRONOUN, TIGHT, NAME, EQUATION = 0.0, 1.0, 2.5, 4.5, 6.5, 8.0, 10.0, 16.0

# A pause of this many seconds or more ends a phrase whatever the words are.
PHRASE_PAUSE = 0.5

_LINKS = frozenset(  # a phrase may well begin with these
    "and or but so because when if that which who then than while until where as after before "
    "in on with from at by into onto under over for to like".split()
)
_LEADS = frozenset(  # these belong to what follows
    "a an the this that these those my your our his her its their one's each every some any no another other "
    "in on of with from at by into onto under over for to than as like about between "
    "and or but so because if when while "
    "is are was were be am can could will would shall should may might must do does did has have had don't doesn't "
    "not let's very how many much what which whose".split()
)
_PRONOUNS = frozenset("i we you he she it they there here who that's it's we're you're they're let let's".split())
_NAMES = frozenset(
    {
        ("ten", "frame"), ("ten", "frames"), ("five", "frame"), ("five", "frames"), ("double", "ten"),
        ("number", "bond"), ("number", "bonds"), ("number", "sentence"), ("number", "sentences"),
        ("number", "path"), ("number", "line"), ("hundred", "chart"), ("base", "ten"), ("warm", "up"),
        ("how", "many"), ("how", "much"), ("lily", "pad"), ("lily", "pads"), ("one", "less"), ("one", "more"),
    }
)  # fmt: skip
_NUMBERS = frozenset(UNITS) | frozenset(TENS)


def part_cost(left: Token, right: Token) -> float:
    """The cost of a break between two tokens that follow each other."""
    if right.glued:
        return NAME
    if right.new_segment or right.after_wait or right.new_sentence or left.ends_sentence:
        return SENTENCE
    pause = (right.start - left.end) / 1000
    cost = _by_words(left, right)
    if pause >= PHRASE_PAUSE:
        return min(cost, CLAUSE)
    return max(min(cost, CLAUSE), cost - 2.0 * max(0.0, pause))


def _by_words(left: Token, right: Token) -> float:
    if left.text[-1:] in ",;:–—":
        return CLAUSE
    before, after = plain_of(left.text), plain_of(right.text)
    if (before, after) in _NAMES or (before in TENS and after in UNITS):
        return NAME
    if left.text in SIGNS or right.text in SIGNS:
        return EQUATION
    number_before = before in _NUMBERS or before.isdigit()
    if number_before and after in _LINKS:
        return BEFORE_LINK
    if before in _LEADS:
        return TIGHT
    if number_before:
        return PLAIN if after in _NUMBERS or after.isdigit() else TIGHT - 1.0
    if before in _PRONOUNS:
        return PRONOUN
    if after in _LINKS:
        return BEFORE_LINK
    return PLAIN
