"""The numbers that are said: number words, digits, ordinals, "a dozen", "a pair", "none", and *one* where it counts.

    >>> find_numbers(words_of("Twenty-one frogs, one hundred and five ducks"))   # 21 and 105

A number may be several words ("one hundred and five"); punctuation ends it, so "five, six" and "Twenty. One" are two
numbers each. What looks like a number and is the name of a thing is left out: "ten frame", "hundred chart",
"base ten". "Double six" is the number six; doubling is a statement (`talk.statements`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from studio.script.model import Place, Word
from studio.talk.model import Form, Number

UNITS = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen".split()
    )
}
TENS = {
    word: 10 * value
    for value, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), start=2)
}
SPELLINGS = {"fourty": "forty", "fourtythree": "forty-three", "ninty": "ninety", "nought": "zero"}
NUMBER_WORDS = UNITS | TENS
PLURALS = {
    "ones": 1, "twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9,
    "tens": 10, "twenties": 20, "hundreds": 100,
}  # fmt: skip
"""Plurals name a unit ("count by fives", "4 ones"); they are not numbers that are said."""

_IRREGULAR = {
    "first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12,
}  # fmt: skip
ORDINALS = (
    {word + "th": value for word, value in UNITS.items() if value not in _IRREGULAR.values()}
    | {word[:-1] + "ieth": value for word, value in TENS.items()}
    | {"hundredth": 100, "thousandth": 1000}
    | _IRREGULAR
)
HOMOPHONES = {"won": 1, "to": 2, "too": 2, "for": 4, "fore": 4, "ate": 8}
"""What a recogniser may write for a number word; believed only inside a count of heard words ("one to three for")."""

_DIGITS = re.compile(r"[$£€]?(\d{1,6}|\d{1,3}(?:,\d{3})+)(?:¢|c|cm|kg|p)?")
_DIGITS_ORDINAL = re.compile(r"(\d{1,4})(?:st|nd|rd|th)")
_ENDS = frozenset(".,;:!?…)]”—–")
_QUOTES = "\"'”’»"

_THINGS_AFTER = frozenset({"frame", "frames"})  # "ten frame", "five frames"
_CHARTS = frozenset({"chart", "charts", "board", "square", "grid", "rack"})  # "hundred chart"
_DETERMINERS = frozenset(
    "the this that next last other another each every any which whichever no same new right wrong only first second "
    "third fourth fifth final previous bottom top middle big small little green red blue yellow old tricky hard easy "
    "harder easier bigger smaller longer shorter good better best extra loose single favourite favorite nice".split()
)
_ARTICLES = frozenset({"the", "a", "an", "this", "that", "another", "your", "my", "our", "each", "every", "any"})
_NAMES_A_NUMBER = frozenset(  # "the number one", "card one": the word before a numeral
    "number numeral digit card part whole total sum answer word lesson step page grade picture day than to from".split()
)
_AFTER_PRONOUN = frozenset(  # "the one that ..."
    "that who which you we i they he she it with on in at to from of is was has looks goes comes shows makes and "
    "or but did do does can will we're you're".split()
)
_IDIOMS_AFTER = frozenset({"another", "day", "morning", "evening", "afternoon", "night", "time"})
_DAYS = _IDIOMS_AFTER | frozenset("monday tuesday wednesday thursday friday saturday sunday".split())
_OF_PEOPLE = frozenset("makes make made does did".split())
_HERE = frozenset("here's there's is that's isn't".split())
_SPEAKERS = frozenset("i we you".split())
_PEOPLE_DO = frozenset("want do feel think wonder smile".split())
_OF_SEVERAL = frozenset("my your our his her their its these those the us you them".split())  # "one of my favourites"
_OF_TWO = frozenset({"gets", "has", "takes", "goes", "holds", "is", "shows"})
_NEAR = 12  # words
_SOON = 7  # words
_JOINING = frozenset("plus minus less take away".split())
_LEFT = frozenset("left gone missing".split())
_BEFORE_UNITS = frozenset("by in of many more".split())  # "count by 10's"
_LONGEST = 6  # digits
_SHARES_AFTER = frozenset({"part", "side", "way", "addend", "end"})  # "one part is seven"


def ends_here(word: Word) -> bool:
    """Whether punctuation after the word parts it from the next one."""
    text = word.text.rstrip(_QUOTES)
    return bool(text) and text[-1] in _ENDS and len(text) > 1


def said(words: Sequence[Word], start: int, end: int) -> str:
    """The words from `start` to `end` as they are read."""
    text = ""
    for word in words[start:end]:
        text += word.text if word.glued or not text else " " + word.text
    return text


def number_words(text: str) -> int | None:
    """The value of number words ("twenty-one", "one hundred and five") or digits; None where it is no number.

    >>> number_words("fourteen")
    14
    """
    words = words_of(text)
    found = find_numbers(words)
    if len(found) == 1 and (found[0].start, found[0].end) == (0, len(words)) and found[0].form in ("word", "digits"):
        return found[0].value
    return None


def words_of(text: str) -> tuple[Word, ...]:
    """Words without a script, as they are heard: place (0, 0), one sentence after each full stop."""
    words: list[Word] = []
    sentence = 0
    for index, part in enumerate(text.split()):
        words.append(Word(index, part, plain_of(part), Place(0, 0), sentence, 0, 0))
        if len(part) > 1 and part.rstrip(_QUOTES)[-1:] in (".", "?", "!"):
            sentence += 1
    return tuple(words)


def plain_of(text: str) -> str:
    """A word in lower case without the punctuation round it; a lone sign stays."""
    plain = text.lower().strip(".,;:!?…()[]{}\"'“”‘’«»*_—–")
    return plain or text.lower()


def _simple(plain: str) -> tuple[int, bool] | None:
    """The value of one word that is a number below 100 and whether it is an ordinal."""
    plain = SPELLINGS.get(plain, plain)
    if (value := NUMBER_WORDS.get(plain)) is not None:
        return value, False
    if (value := ORDINALS.get(plain)) is not None:
        return value, True
    if "-" in plain:
        first, _, rest = plain.partition("-")
        tens = TENS.get(SPELLINGS.get(first, first))
        if tens is not None:
            if 1 <= UNITS.get(rest, 0) <= 9:
                return tens + UNITS[rest], False
            if 1 <= ORDINALS.get(rest, 0) <= 9:
                return tens + ORDINALS[rest], True
    return None


def _in_digits(word: Word) -> tuple[int, bool] | None:
    plain = word.plain
    if not plain or not ("0" <= plain[0] <= "9" or plain[0] in "$£€"):
        return None
    if plain.isascii() and plain.isdigit() and len(plain) <= _LONGEST:
        return int(plain), False
    if (match := _DIGITS.fullmatch(plain)) and match[1].isascii():
        return int(re.sub(r"[^0-9]", "", match[1])), False
    if match := _DIGITS_ORDINAL.fullmatch(plain):
        return (int(match[1]), True) if match[1].isascii() else None
    return None


_VERBS = {"'s": "is", "'re": "are", "'ll": "will", "'d": "would", "'ve": "have"}
_WITH_VERB = frozenset(word + mark + end[1:] for word in NUMBER_WORDS for end in _VERBS for mark in "'’")
_STARTS = (
    frozenset(NUMBER_WORDS) | frozenset(ORDINALS) | frozenset(SPELLINGS) | frozenset(HOMOPHONES) | _WITH_VERB
    | frozenset({"a", "an", "dozen", "pair", "none", "half", "hundred", "one-hundred", "a-hundred"})
)  # fmt: skip


def counting_numbers(words: Sequence[Word]) -> tuple[Number, ...]:
    """The numbers in the words that count something: no ordinals, no pronouns."""
    return tuple(number for number in find_numbers(words) if number.form in ("word", "digits"))


def find_numbers(words: Sequence[Word]) -> tuple[Number, ...]:
    """All numbers in the words, in order; `start` and `end` are positions in `words`. Time grows with the length."""
    found: list[Number] = []
    position = 0
    count = len(words)
    while position < count:
        plain = words[position].plain
        if plain not in _STARTS and "-" not in plain and not plain[:1].isdigit() and plain[:1] not in "$£€":
            position += 1
            continue
        first = words[position]
        read = _read(words, position)
        if read is not None and words[read[1] - 1].paragraph != first.paragraph:
            # "We are at twenty ¶ Five frogs come."
            read = _read(_to_the_end_of_its_paragraph(words, position), position)
        if read is None:
            position += 1
            continue
        value, end, form = read
        found.append(
            Number(value, position, end, form, said(words, position, end), first.place.line, first.place.column)
        )
        position = end
    if any(word.plain in HOMOPHONES and word.place.line == 0 for word in words):
        return _with_homophones(words, found)
    return tuple(found)


def _to_the_end_of_its_paragraph(words: Sequence[Word], position: int) -> Sequence[Word]:
    end = position + 1
    while end < len(words) and words[end].paragraph == words[position].paragraph:
        end += 1
    return words[:end]


def _plain(words: Sequence[Word], position: int) -> str:
    return words[position].plain if 0 <= position < len(words) else ""


def _read(words: Sequence[Word], position: int) -> tuple[int, int, Form] | None:
    """Value, end and form of the number that starts at `position`."""
    plain, verb = _apart(words[position].plain)
    if verb:
        return _read_with_verb(words, position, plain)
    joined = not ends_here(words[position])
    after = _plain(words, position + 1) if joined else ""
    if plain in ("a", "an", "half"):
        return _read_after_article(words, position) if joined else None
    if plain == "none":
        return 0, position + 1, "word"
    if plain == "dozen":
        return 12, position + 1, "word"
    if plain == "pair":
        return (2, position + 1, "word") if after == "of" and _plain(words, position + 2) != "dice" else None
    if (digits := _in_digits(words[position])) is not None:
        value, ordinal = digits
        if after in _THINGS_AFTER:
            return None
        if after == "dozen":
            return 12 * value, position + 2, "word"
        return value, position + 1, "ordinal" if ordinal else "digits"
    if plain == "one-hundred":
        return _after_hundreds(words, position + 1, 100, joined)
    simple = _simple(plain)
    if simple is None:
        return None
    value, ordinal = simple
    if ordinal:
        return value, position + 1, "ordinal"
    if after in _THINGS_AFTER and value in (5, 10, 20):
        return None
    if value == 10 and _plain(words, position - 1) == "base" and not ends_here(words[position - 1]):
        return None
    if plain == "one" and _is_pronoun(words, position):
        return 1, position + 1, "pronoun"
    value, end, ordinal = _below_hundred(words, position, value)
    if ordinal:
        return value, end, "ordinal"
    if ends_here(words[end - 1]):
        return value, end, "word"
    after = _plain(words, end)
    if after == "dozen":
        return 12 * value, end + 1, "word"
    if after == "hundred" and 1 <= value <= 9:
        if not ends_here(words[end]) and _plain(words, end + 1) in _CHARTS:
            return None
        return _after_hundreds(words, end + 1, 100 * value, not ends_here(words[end]))
    if after == "thousand" and value:
        return _after_thousands(words, end + 1, 1000 * value, not ends_here(words[end]))
    return value, end, "word"


def verb_of(plain: str) -> str:
    """The verb that makes one word with a number ("seven and three's ten", "Six'll do"; "" for none)."""
    return _apart(plain)[1]


def _apart(plain: str) -> tuple[str, str]:
    """A word without the verb at its end, and that verb ("three's": three, is); the word and "" where there is none."""
    first, mark, end = plain.replace("’", "'").rpartition("'")
    verb = _VERBS.get(mark + end, "")
    return (first, verb) if verb else (plain, "")


def _read_with_verb(words: Sequence[Word], position: int, plain: str) -> tuple[int, int, Form] | None:
    """ "three's", of which `plain` is "three"; of "one's" only what is joined to another number or left ("six less one's
    five", not "this one's easy")."""
    if plain.isascii() and plain.isdigit() and len(plain) <= _LONGEST:
        before = _plain(words, position - 1)
        if before in _BEFORE_UNITS or before.isdigit() or before in UNITS:
            return None
        return int(plain), position + 1, "digits"
    simple = _simple(plain)
    if simple is None or simple[1]:
        return None
    if plain == "one":
        joined = position > 0 and words[position - 1].plain in _JOINING and not ends_here(words[position - 1])
        if not joined and _plain(words, position + 1) not in _LEFT:
            return None
    return simple[0], position + 1, "word"


def _below_hundred(words: Sequence[Word], position: int, value: int) -> tuple[int, int, bool]:
    """A number word together with the unit that follows its tens: value, end, whether it ends as an ordinal."""
    if value >= 20 and value % 10 == 0 and not ends_here(words[position]):
        after = _plain(words, position + 1)
        if 1 <= UNITS.get(after, 0) <= 9:
            return value + UNITS[after], position + 2, False
        if 1 <= ORDINALS.get(after, 0) <= 9 and after != "second" and not _says_when(words, position, after):
            return value + ORDINALS[after], position + 2, True
    return value, position + 1, False


def _says_when(words: Sequence[Word], position: int, after: str) -> bool:
    """ "Sixty first. Then one more." """
    before = _plain(words, position - 1) if position and not ends_here(words[position - 1]) else ""
    return after == "first" and ends_here(words[position + 1]) and before not in _ARTICLES


def _rest(words: Sequence[Word], position: int, joined: bool) -> tuple[int, int] | None:
    """The part below a hundred that goes on a number: "(and) five", "twenty-one"."""
    if not joined:
        return None
    start = position
    if _plain(words, start) == "and" and not ends_here(words[start]):
        start += 1
        if _plain(words, start) == "one" and not ends_here(words[start]) and _plain(words, start + 1) in _SHARES_AFTER:
            return None  # "the whole is one hundred and one part is sixty"
    simple = _simple(_plain(words, start))
    if simple is None or simple[1] or simple[0] == 0:
        return None
    value, end, ordinal = _below_hundred(words, start, simple[0])
    return None if ordinal else (value, end)


def _after_hundreds(words: Sequence[Word], position: int, value: int, joined: bool) -> tuple[int, int, Form]:
    if rest := _rest(words, position, joined):
        return value + rest[0], rest[1], "word"
    if joined and _plain(words, position) == "thousand":
        return 1000 * value, position + 1, "word"
    return value, position, "word"


def _after_thousands(words: Sequence[Word], position: int, value: int, joined: bool) -> tuple[int, int, Form]:
    if not joined:
        return value, position, "word"
    hundreds = UNITS.get(_plain(words, position), 0)
    if 1 <= hundreds <= 9 and not ends_here(words[position]) and _plain(words, position + 1) == "hundred":
        return _after_hundreds(words, position + 2, value + 100 * hundreds, not ends_here(words[position + 1]))
    if rest := _rest(words, position, joined):
        return value + rest[0], rest[1], "word"
    return value, position, "word"


_PAIRING = frozenset(("are", "make", "makes", "made"))


def _read_after_article(words: Sequence[Word], position: int) -> tuple[int, int, Form] | None:
    """ "a dozen", "half a dozen", "a pair", "a hundred (and five)", "a thousand"."""
    if words[position].plain == "half":
        if _plain(words, position + 1) in ("a", "the") and _plain(words, position + 2) == "dozen":
            return 6, position + 3, "word"
        return None
    after = _plain(words, position + 1)
    if after == "dozen":
        return 12, position + 2, "word"
    if after == "pair" and _plain(words, position + 3) != "dice":
        before = words[position - 1].plain if position else ""
        if before == "is" or (before in _PAIRING and _plain(words, position + 2) != "of"):
            return None  # "Four and one is a pair", "Three and seven are a pair for ten": of partners
        return 2, position + 2, "word"
    if after in ("hundred", "thousand"):
        joined = not ends_here(words[position + 1])
        if joined and _plain(words, position + 2) in _CHARTS:
            return None
        value = 100 if after == "hundred" else 1000
        reader = _after_hundreds if after == "hundred" else _after_thousands
        return reader(words, position + 2, value, joined)
    return None


def _another_one(words: Sequence[Word], position: int, verb: str) -> bool:
    """Whether "one" is said with the same verb twice near by, of one and of another."""
    near = range(max(0, position - _NEAR), min(position + _NEAR, len(words) - 1))
    return any(words[at].plain == "one" and words[at + 1].plain == verb for at in near if at != position)


def _is_pronoun(words: Sequence[Word], position: int) -> bool:
    """Whether *one* stands for a thing ("the next one", "this one", "the red one") and counts nothing."""
    before = _plain(words, position - 1)
    if ends_here(words[position]) and [_plain(words, position + step) for step in (1, 2)] == ["two", "three"]:
        return False  # "And this has one, two, three."
    if position and ends_here(words[position - 1]):
        before = ""
    after = "" if ends_here(words[position]) else _plain(words, position + 1)
    if after in ("ten", "tens", "more", "less", "fewer", "hundred", "dozen", "thousand", "and"):
        if before == "the" and after == "and":  # "six on the one and two on the other"
            return any(words[at].plain == "other" for at in range(position + 2, min(position + _SOON, len(words))))
        return before in ("this", "that", "another", "next", "each", "which", "every") and after in ("and", "more")
    if (
        after in _OF_TWO
        and not before
        and any(words[at].plain == "other" for at in range(position + 2, min(position + _NEAR, len(words))))
    ):
        return True  # "One gets twelve, and what is for the other?"
    if after in _OF_TWO and after != "is" and _another_one(words, position, after):
        return True  # "one shows four and one shows three"
    if before == "of" and _plain(words, position - 2) == "half":
        return True  # "half of one"
    if after in _SHARES_AFTER and before not in ("only", "just"):
        return True
    if after in _IDIOMS_AFTER and before not in ("only", "just"):
        return True
    if not before and (after in _DAYS or (after.isalpha() and _plain(words, position + 2) in _DAYS)):
        return True  # "One misty Monday the tadpoles woke up."
    if before in _HERE and after in _SPEAKERS:
        return True  # "Here's one I like better."
    if before in _OF_PEOPLE and after in _PEOPLE_DO:
        return True  # "It makes one want to clap", "What does one do with it?"
    if after == "like" and _plain(words, position + 2) in ("that", "this", "these", "those"):
        return True  # "Thirteen minus five is one like that."
    if after == "by" and _plain(words, position + 2) == "one":
        return True
    if before == "by" and _plain(words, position - 2) == "one":
        return True
    if after == "of" and _plain(words, position + 2) in _OF_SEVERAL:
        return True
    if after == "at" and _plain(words, position + 2) == "a" and _plain(words, position + 3) == "time":
        return True
    if before in ("no", "which", "any", "every", "each", "another", "next", "last", "other"):
        return True
    if before == "the" or before in _ARTICLES:
        return after == "" or after in _AFTER_PRONOUN
    if before in _DETERMINERS or (
        before and _plain(words, position - 2) in _ARTICLES and before not in _NAMES_A_NUMBER
    ):
        if position >= 2 and ends_here(words[position - 2]):
            return False
        if _plain(words, position - 2) not in _ARTICLES and before in ("only", "first", "second", "right", "same"):
            return False
        return (after == "" or after in _AFTER_PRONOUN) and before not in NUMBER_WORDS
    return False


def _with_homophones(words: Sequence[Word], found: Iterable[Number]) -> tuple[Number, ...]:
    """Adds "to", "for", "won", "ate" where heard words count: the numbers just before and after are its neighbours."""
    numbers = list(found)
    by_start = {number.start: number for number in numbers}
    by_end = {number.end: number for number in numbers}
    for position, word in enumerate(words):
        value = HOMOPHONES.get(word.plain)
        if value is None or word.place.line or position in by_start:
            continue
        before, after = by_end.get(position), by_start.get(position + 1)
        if before is None:
            continue
        forward, back = before.value == value - 1, before.value == value + 1
        range_said = _plain(words, before.start - 1) in ("from", "is", "are", "count")
        fits = after is not None and after.value == (value + 1 if forward else value - 1)
        ends = after is None and ends_here(word) and len(by_end) > 1 and _counts(numbers, before)
        if (forward or back) and (fits or ends) and not range_said:
            number = Number(value, position, position + 1, "word", word.text, 0, 0)
            numbers.append(number)
            by_start[position] = by_end[position + 1] = number
    return tuple(sorted(numbers, key=lambda number: number.start))


def _counts(numbers: Sequence[Number], last: Number) -> bool:
    """Whether `last` is the end of a count: the number just before it is its neighbour in value and in place."""
    return any(n.end == last.start and abs(n.value - last.value) == 1 for n in numbers)
