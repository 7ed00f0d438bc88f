"""The quantities that a story tells: how many of what, whose, and what happens to them.

A small grammar without a parser: sentences are split into clauses at punctuation and joining words; a quantity takes
the words after it as its noun ("four more pond snails"), the clause's verb as what happens to it, and the words before
that verb as whose it is. A clause without a verb of its own goes on with the one before ("and two ducks").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from studio.script.model import Word
from studio.talk.model import Number
from studio.talk.stories import lexicon as lex

_PAUSES = frozenset(",;:.!?–—…")
_ABBREVIATIONS = frozenset("mr mrs ms dr st".split())
_PERSONAL = frozenset("he she it they".split())
_BACK = frozenset("that this which it".split())
_VAGUE = frozenset("bag box bunch group lot number family pack jar bowl pile flock few couple collection".split())
_BIGGER = frozenset(
    "more longer taller bigger older heavier higher farther further faster wider deeper greater larger extra over above"
    .split()
)  # fmt: skip
_SMALLER = frozenset("fewer less shorter smaller younger lighter lower cheaper slower narrower under below".split())
COMPARATIVES = (_BIGGER | _SMALLER) - {"over", "under", "above", "below", "extra"}
_BEFORE_A_SIDE = frozenset("the a your my our his her their its this that far".split())
_AFTERWARDS = frozenset("now left still remain remained remaining remains".split())
_THEM = frozenset("it them him her us me".split())
_WANTING = frozenset("want wants wanted need needs needed hope hopes hoped plan plans planned goal must".split())
_AFTER = ("after", "when", "once")
_NEVER_NOUNS = frozenset("needs wants makes gets gives goes comes takes says means becomes equals adds eats".split())
_WHOLE = ("altogether", "total", "together")
_DAYTIMES = ("morning", "afternoon", "evening")
_TIMES = frozenset("last this in on at by one later after before tonight today yesterday once tomorrow".split())
_PARTS_OF_TIME = frozenset(
    "night morning evening afternoon noon midday lunchtime midnight first end start day week today tonight yesterday "
    "dawn dusk sunset sunrise teatime bedtime monday tuesday wednesday thursday friday saturday sunday".split()
)
_SHORT = 6  # words of a sentence that says what a story is about
_BEGINNINGS = frozenset("there upon a in on by at".split())
_ENDS = (("in", "the", "end"), ("at", "the", "end"), ("in", "the", "evening"), ("at", "last"))
_DIRECTED = frozenset("over off away into onto out along down back across to".split())
_AT = frozenset("at by until till since before after past".split())


@dataclass(frozen=True, slots=True)
class Token:
    """A word, or a number of one or more words. `start` and `end` are positions in the words that were read."""

    plain: str
    lemma: str
    verb: str
    number: int | None
    start: int
    end: int
    stop: bool
    full_stop: bool
    asks: bool
    capital: bool


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity of a story; `value` None where it is not told ("some more frogs").

    `nouns` are the words of its noun phrase, `owner` those of the clause's subject, `place` the other words of the
    clause. `of_any`: any one of a sort has so many ("a frog has four legs"). `moves` is the set of words of direction by the verb; `target` and `source` what they point at.
    """

    value: int | None
    sentence: int
    start: int
    end: int
    head: str = ""
    nouns: frozenset[str] = frozenset()
    owner: frozenset[str] = frozenset()
    place: frozenset[str] = frozenset()
    verb: str = ""
    is_subject: bool = False
    passive: bool = False
    progressive: bool = False
    more: bool = False
    of_whole: bool = False
    compare: str = ""
    reference: frozenset[str] = frozenset()
    back: bool = False
    moves: frozenset[str] = frozenset()
    target: frozenset[str] = frozenset()
    source: frozenset[str] = frozenset()
    afterwards: bool = False
    whole: bool = False
    rest: bool = False
    each: bool = False
    of_any: bool = False
    named: bool = False
    negated: bool = False
    wanted: bool = False

    @property
    def known(self) -> bool:
        return self.value is not None

    @property
    def words(self) -> frozenset[str]:
        """Everything that says which quantity this is."""
        return self.nouns | self.owner | self.place


@dataclass(slots=True)
class Memory:
    """What the next clause may point back to."""

    owner: frozenset[str] = frozenset()
    noun: frozenset[str] = frozenset()
    head: str = ""
    timed: bool = False
    quantities: list[Quantity] = field(default_factory=list)


def tokens_of(words: Sequence[Word], numbers: Sequence[Number], offset: int = 0) -> list[Token]:
    """The words with each number as one token; ordinals and the pronoun *one* stay words. The positions of the numbers
    are by `offset` greater than those of the words."""
    at = {
        number.start - offset: number
        for number in numbers
        if number.form in ("word", "digits") and not _of_the_clock(words, number.start - offset, number.end - offset)
    }
    found: list[Token] = []
    position = 0
    while position < len(words):
        number = at.get(position)
        end = number.end - offset if number else position + 1
        last = words[end - 1]
        text = last.text.rstrip("\"'”’)»")
        plain = words[position].plain
        if plain == "left" and position and words[position - 1].plain in _BEFORE_A_SIDE:
            plain = "left-hand"  # "on the left bank": nothing is left
        short = plain in _ABBREVIATIONS and text.endswith(".")
        stop = text[-1:] in _PAUSES and len(text) > 1 and not short
        found.append(
            Token(
                plain.replace("’", "'"),
                "" if number else lex.singular(plain),
                "" if number or (plain == "leaves" and _counted(found)) else lex.VERBS.get(plain, ""),
                number.value if number else None,
                position,
                end,
                stop,
                stop and text[-1] in ".!?…",
                text.endswith("?"),
                words[position].text[:1].isupper(),
            )
        )
        position = end
    return found


def _of_the_clock(words: Sequence[Word], start: int, end: int) -> bool:
    """Whether a number is a time of the day ("at four in the morning", but "she ate four in the morning")."""
    after = [word.plain for word in words[end : end + 3]]
    in_the_day = (after[:2] == ["in", "the"] and after[2:] and after[2] in _DAYTIMES) or after[:2] == ["at", "night"]
    return start > 0 and bool(in_the_day) and words[start - 1].plain in _AT


def _counted(before: Sequence[Token]) -> bool:
    """Whether a number stands right before: then "leaves" are counted, and nobody leaves."""
    return bool(before) and before[-1].number is not None and not before[-1].stop


def sentences_of(tokens: Sequence[Token], words: Sequence[Word]) -> list[list[Token]]:
    """The tokens sentence by sentence; a new paragraph begins a new sentence, "Mr." does not end one."""
    found: list[list[Token]] = []
    paragraph = -1
    fresh = True
    for token in tokens:
        if fresh or words[token.start].paragraph != paragraph:
            found.append([])
            paragraph = words[token.start].paragraph
        found[-1].append(token)
        fresh = token.full_stop
    return found


def content(tokens: Sequence[Token]) -> frozenset[str]:
    """The words that name or describe: no joining words, no numbers."""
    return frozenset(
        token.lemma for token in tokens if token.lemma and token.number is None and token.plain not in _EMPTY
    )


_EMPTY = (lex.FUNCTION_WORDS - lex.DAYS) | frozenset("some several few many lot rest how much number there's".split())


@dataclass(frozen=True, slots=True)
class Phrase:
    """A noun phrase after a number or after "how many"."""

    end: int
    head: str = ""
    nouns: frozenset[str] = frozenset()
    more: bool = False
    compare: str = ""
    of_whole: bool = False
    plural: bool = False


def noun_phrase(tokens: Sequence[Token], start: int, limit: int, single: bool = False) -> Phrase:
    """The noun phrase that begins at `start`: "more big frogs", "pieces of candy", "of them", "" (elided).

    With a plural number a word in -s is a noun and a bare verb form a verb ("3 plants", "3 plant"); with one it is the
    other way round ("1 plant", "1 plants").
    """
    position = start
    more, compare, whole = False, "", False
    nouns: list[str] = []
    head = ""
    plural = False
    while position < limit:
        token = tokens[position]
        if token.number is not None:
            break
        word = token.plain
        if word in ("more", "extra", "additional", "other", "others", "new") and not head:
            more = True
            compare = "more" if word == "more" else compare
            position += 1
            if token.stop:
                break
            continue
        if word in COMPARATIVES and (not head or word not in ("more", "less")):
            compare = "more" if word in _BIGGER else "fewer"
            position += 1
            if token.stop:
                break
            continue
        if word == "of" and position + 1 < limit:
            following = tokens[position + 1]
            if following.plain in lex.DETERMINERS or following.plain in ("them", "us", "those"):
                whole = True
                rest = noun_phrase(tokens, position + 2, limit, single)
                if following.plain not in ("them", "us"):
                    nouns.extend(rest.nouns)
                    head = head or rest.head
                    position = rest.end
                else:
                    position += 2
                break
            if head:
                rest = noun_phrase(tokens, position + 1, limit, single)
                nouns.extend(rest.nouns)
                head = rest.head or head
                position = rest.end
                break
            break
        if word in lex.FUNCTION_WORDS and not (word == "left" and _adjective(tokens, position, limit)):
            break
        if token.verb and not _is_noun(tokens, position, limit, single, bool(nouns)):
            break
        nouns.append(token.lemma)
        head = token.lemma
        position += 1
        if lex.is_plural(word) and not single:
            plural = True
            if position < limit and not token.stop and lex.is_plural(tokens[position].plain):
                following = tokens[position]
                if not following.verb and following.plain not in lex.FUNCTION_WORDS:
                    continue
            if position < limit and tokens[position].plain == "of" and not token.stop:
                continue
            if position < limit and tokens[position].plain in COMPARATIVES and not token.stop:
                continue
            break
        if token.stop:
            break
    return Phrase(position, head, frozenset(nouns), more, compare, whole, plural)


def _adjective(tokens: Sequence[Token], position: int, limit: int) -> bool:
    """Whether a verb form stands before a noun ("three broken shells")."""
    if tokens[position].stop or position + 1 >= limit:
        return False
    following = tokens[position + 1]
    return (
        following.number is None
        and following.plain not in lex.FUNCTION_WORDS
        and not following.plain.endswith("ly")
        and (lex.is_plural(following.plain) and lex.VERBS.get(following.plain) != following.plain)
    )


def _is_noun(tokens: Sequence[Token], position: int, limit: int, single: bool, after_noun: bool) -> bool:
    token = tokens[position]
    word = token.plain
    ends_in_s = lex.is_plural(word) or word in lex.SAME_IN_PLURAL
    bare = token.verb == word
    if word in _NEVER_NOUNS:
        return False
    if single:
        return (bare and not after_noun and not ends_in_s) or _adjective(tokens, position, limit)
    if ends_in_s:
        return not (after_noun and lex.is_plural(tokens[position - 1].plain))
    return _adjective(tokens, position, limit)


def _split(tokens: Sequence[Token]) -> list[tuple[int, int, str]]:
    """The clauses of a sentence as (start, end, the word that joins it)."""
    found: list[tuple[int, int, str]] = []
    start, joiner = 0, ""
    for position, token in enumerate(tokens):
        if token.plain == "but" and position and tokens[position - 1].plain == "all":
            continue
        following = tokens[position + 1].plain if position + 1 < len(tokens) else ""
        if token.plain == "once" and not position and (token.stop or following in _BEGINNINGS):
            if token.stop:
                start = 1
            continue  # "Once, on a misty morning, ...", "Once there was ..."
        if token.plain in lex.CONJUNCTIONS and position > start and token.number is None:
            found.append((start, position, joiner))
            start, joiner = position, token.plain
        elif token.plain in lex.CONJUNCTIONS and position == start and not joiner:
            joiner = token.plain
        elif (
            token.plain == "the"
            and position > start
            and position + 1 < len(tokens)
            and tokens[position + 1].plain in ("rest", "others")
            and not tokens[position - 1].verb
            and tokens[position - 1].plain not in lex.PREPOSITIONS
        ):
            found.append((start, position, joiner))
            start, joiner = position, ""
        if token.stop and position + 1 < len(tokens):
            found.append((start, position + 1, joiner))
            start, joiner = position + 1, ""
    if start < len(tokens):
        found.append((start, len(tokens), joiner))
    return found


def is_label(tokens: Sequence[Token], position: int) -> bool:
    """Whether a number names a thing and counts nothing ("game two", "page 12")."""
    return bool(position) and tokens[position - 1].plain in _LABELLED and not tokens[position - 1].stop


_LABELLED = frozenset(
    "day game room page grade week level chapter number bus route lane track lesson step class".split()
)


def _quantity_starts(tokens: Sequence[Token], start: int, end: int) -> list[tuple[int, int, int | None, str]]:
    """(position, where its noun starts, value, sort) of the quantities in a clause; sort "rest" or ""."""
    found: list[tuple[int, int, int | None, str]] = []
    position = start
    while position < end:
        token = tokens[position]
        after = tokens[position + 1].plain if position + 1 < end else ""
        if token.number is not None and is_label(tokens, position):
            pass
        elif token.number is not None:
            found.append((position, position + 1, token.number, ""))
        elif token.plain in ("some", "several", "many", "none") and (position == start or token.plain != "many"):
            if after not in ("time", "times", "day", "days", "people's"):
                found.append((position, position + 1, None, ""))
        elif token.plain == "another" and position + 1 < end and tokens[position + 1].number is None:
            found.append((position, position + 1, 1, "one"))
        elif token.plain in ("a", "an") and after in _VAGUE and position + 1 < end:
            follows = tokens[position + 2].plain if position + 2 < end else ""
            if follows == "of" or after == "few":
                begin = position + (3 if follows == "of" else 2)
                found.append((position, begin, None, ""))
                position = begin - 1
        elif (token.plain == "rest" and position > start and tokens[position - 1].plain == "the") or (
            token.plain in ("other", "others")
            and position > start
            and tokens[position - 1].plain == "the"
            and (token.plain == "others" or lex.is_plural(after))
        ):
            found.append((position, position + 1, None, "rest"))
        elif token.plain == "more" and position == start:
            found.append((position, position, None, ""))
        position += 1
    return found


def read_sentence(tokens: Sequence[Token], sentence: int, memory: Memory) -> list[Quantity]:
    """The quantities of one sentence, in order; `memory` is carried on to the next one."""
    found: list[Quantity] = []
    last_verb: tuple[str, bool, bool, frozenset[str], bool] | None = None
    waiting: list[int] = []
    after_clause = False
    plain = [token.plain for token in tokens]
    after_words = frozenset(plain)
    timed = _is_timed(plain)
    at_the_end = tuple(plain[:3]) in _ENDS or tuple(plain[:2]) in _ENDS or (timed and memory.timed)
    for start, end, joiner in _split(tokens):
        starts = _quantity_starts(tokens, start, end)
        spans: list[tuple[int, int]] = []
        phrases: list[Phrase] = []
        for at, begin, value, _sort in starts:
            phrase = (
                Phrase(begin)
                if begin and begin <= len(tokens) and tokens[begin - 1].stop and begin > at
                else noun_phrase(tokens, begin, end, value == 1)
            )
            phrases.append(phrase)
            spans.append((at, max(phrase.end, at + 1)))
        verbs = _verbs(tokens, start, end, spans)
        owner, back = _owner(tokens, start, end, verbs, spans, memory)
        first_verb = verbs[0] if verbs else None
        there = any(token.plain in ("there", "there's") for token in tokens[start : (first_verb or start) + 2])
        body = _outside(tokens, start, end, spans)
        if joiner in _AFTER:
            after_clause = True
        for index, (at, _begin, value, sort) in enumerate(starts):
            phrase = phrases[index]
            before = [verb for verb in verbs if verb < at]
            later = [verb for verb in verbs if verb >= spans[index][1]]
            is_subject = False
            passive = progressive = False
            chosen: int | None = None
            if before:
                chosen = before[-1]
                passive, progressive = _voice(tokens, chosen, start)
                if passive and not there:
                    passive = False
                verb = tokens[chosen].verb
            elif later:
                is_subject = True
                chosen = _main(tokens, later)
                passive, progressive = _voice(tokens, chosen, start)
                verb = tokens[chosen].verb
            elif last_verb is not None:
                verb, is_subject, passive, _, there = last_verb
                if not any(token.lemma for token in tokens[start:at] if token.plain not in _EMPTY):
                    owner = last_verb[3]
            else:
                verb = ""
            moves, target, source = _directions(tokens, start, end, chosen, spans[index], is_subject)
            nouns, head = phrase.nouns, phrase.head
            named = bool(nouns)
            if not nouns:
                nouns, head = memory.noun, memory.head
            compare, reference = _comparison(tokens, at, phrase, end, memory)
            whole = any(word in plain[start:end] for word in _WHOLE) or _in_all(plain[start:end])
            stative = not verb or verb in lex.STATES or verb in lex.HAVE or verb in ("be", "see", "count", "find")
            more = phrase.more or sort == "one" or (at > start and plain[at - 1] in ("another", "other", "extra"))
            more = more or "more" in plain[spans[index][1] - 1 : spans[index][1] + 1]
            stative = stative and not more and not (verb in lex.MOVES and bool(moves & _DIRECTED))
            resting = stative or (progressive and not more and not moves & _DIRECTED)
            afterwards = (
                ("left" in plain[start:end] and verb != "leave")
                or bool(after_words & {"remain", "remained", "remaining", "remains", "still"})
                or (
                    resting
                    and ("now" in after_words or ("then" in plain[:1] and verb != "find") or "soon" in plain[:1])
                )
                or (stative and plain[start] == "by")
                or (resting and at_the_end and bool(memory.quantities))
                or (
                    joiner == "until"
                    and (progressive or (stative and verb in ("be", "have")))
                    and bool(found or memory.quantities)
                )
                or (
                    after_clause
                    and bool(found or memory.quantities)
                    and (joiner not in _AFTER or end == len(tokens))
                    and (stative or "could" in plain[start:end])
                )
                or plain[max(at - 2, 0) : at] == ["all", "but"]
            )
            quantity = Quantity(
                value=value,
                sentence=sentence,
                start=tokens[at].start,
                end=tokens[max(phrase.end, at + 1) - 1].end,
                head=head,
                nouns=nouns,
                owner=(nouns if is_subject or there else owner),
                place=body - owner - reference,
                verb=verb,
                is_subject=is_subject,
                passive=passive,
                progressive=progressive,
                more=more and not reference,
                of_whole=phrase.of_whole,
                compare=compare if reference or compare == "fewer" or not more else "",
                reference=reference,
                back=back,
                moves=moves,
                target=target,
                source=source,
                afterwards=afterwards,
                whole=whole,
                rest=sort == "rest",
                each="each" in plain[start:end]
                or "every" in plain[start:end]
                or "per" in plain[start:end]
                or (at >= 2 and plain[at - 1] == "of" and lex.is_plural(plain[at - 2])),
                of_any=plain[start] in ("a", "an") and bool(before) and verb in lex.HAVE,
                named=named,
                negated=any(word in ("not", "never") or word.endswith("n't") for word in plain[start:end]),
                wanted=any(word in _WANTING for word in plain[start:at]) or _wishes(plain[start:at]),
            )
            found.append(quantity)
            if not verb:
                waiting.append(len(found) - 1)
            else:
                last_verb = (verb, is_subject, passive, quantity.owner, there)
            if named:
                memory.noun, memory.head = nouns, head
        if verbs and waiting and starts:
            for index in waiting:
                first = found[index]
                model = found[-1]
                found[index] = replace(
                    first, verb=model.verb, is_subject=True, passive=model.passive, owner=first.nouns,
                    moves=model.moves, target=model.target, source=model.source, place=first.place | model.place,
                )  # fmt: skip
            waiting.clear()
        if verbs and not starts:
            main = _main(tokens, verbs)
            last_verb = (tokens[main].verb, False, False, owner, False)
            moves, target, source = _directions(tokens, start, end, main, (start, start), False)
        if owner:
            memory.owner = owner
    if not found and not memory.noun and len(tokens) <= _SHORT:
        memory.noun, memory.head = _only_named(tokens)
    memory.timed = memory.timed or (timed and bool(found))
    found = _wholes_first(found)
    memory.quantities.extend(found)
    return found


def _is_timed(plain: Sequence[str]) -> bool:
    """Whether a sentence begins with when it was ("last night", "in the evening", "at first")."""
    return plain[0] in _TIMES and any(word in _PARTS_OF_TIME for word in plain[:3])


def _only_named(tokens: Sequence[Token]) -> tuple[frozenset[str], str]:
    """What a sentence without a number is about ("Frogs on a raft.", "They dived for clams."): its last plural."""
    first = tokens[0].plain
    if first not in ("the", "they", "some", "a", "there") and not lex.is_plural(first):
        return frozenset(), ""
    for token in reversed(tokens):
        if lex.is_plural(token.plain) and not token.verb and token.plain not in lex.FUNCTION_WORDS:
            return frozenset({token.lemma}), token.lemma
    return frozenset(), ""


def _wholes_first(found: list[Quantity]) -> list[Quantity]:
    """ "Five of the eighteen worms have wriggled out": there are eighteen, and five of them do something."""
    for position, (part, whole) in enumerate(pairwise(found)):
        if (
            part.known
            and whole.known
            and part.of_whole
            and part.is_subject
            and whole.start <= part.end + 2
            and not part.named
        ):
            of = replace(part, nouns=whole.nouns, head=whole.head, named=whole.named, owner=whole.nouns)
            return [
                *found[:position], replace(whole, verb="be", is_subject=False, of_whole=False, moves=frozenset()), of,
                *found[position + 2 :],
            ]  # fmt: skip
    return found


def _wishes(plain: Sequence[str]) -> bool:
    """ "has to have", "would like to have"."""
    return any(
        (a in ("has", "have", "had") and b == "to") or ((a == "would" or a.endswith("'d")) and b == "like")
        for a, b in pairwise(plain)
    )


def _in_all(plain: Sequence[str]) -> bool:
    return any(a == "in" and b == "all" for a, b in pairwise(plain))


def _verbs(tokens: Sequence[Token], start: int, end: int, spans: Sequence[tuple[int, int]]) -> list[int]:
    """Where the verbs of a clause stand; a word after "the" or inside a quantity's noun phrase is none."""
    inside = {position for first, last in spans for position in range(first, last)}
    found: list[int] = []
    for position in range(start, end):
        token = tokens[position]
        if not token.verb or position in inside or token.number is not None:
            continue
        previous = tokens[position - 1].plain if position > start else ""
        if previous in lex.DETERMINERS and previous not in ("that", "all", "both", "this", "those", "these", "each"):
            continue
        if previous.endswith(("'s", "’s")) and previous not in ("it's", "he's", "she's", "there's", "that's"):
            continue
        if previous in ("of", "in", "on", "for", "with") and not token.plain.endswith("ing"):
            continue
        if token.plain == "like" and previous not in lex.PRONOUNS and previous not in lex.AUXILIARIES:
            continue
        if token.plain == token.verb and tokens[start].plain in lex.PREPOSITIONS and spans and position < spans[0][0]:
            continue  # "at a bus stop five ducks ..."
        if token.plain == "left" and found and tokens[found[-1]].verb in ("have", "be"):
            continue
        found.append(position)
    return found


def _main(tokens: Sequence[Token], verbs: Sequence[int]) -> int:
    """The verb that says what happens: the first that is no auxiliary, "be" or "have" where there is no other."""
    for position in verbs:
        if tokens[position].plain not in lex.AUXILIARIES and tokens[position].verb not in ("start", "begin", "decide"):
            return position
    return verbs[0]


def _voice(tokens: Sequence[Token], verb: int, start: int) -> tuple[bool, bool]:
    """(passive, progressive): "were eaten", "were eating"."""
    for position in range(verb - 1, max(start, verb - 4) - 1, -1):
        if tokens[position].plain in lex.BE or tokens[position].plain in ("get", "got"):
            if tokens[verb].plain in lex.BE:
                return False, False
            progressive = tokens[verb].plain.endswith("ing")
            return not progressive, progressive
        if tokens[position].plain not in ("then", "also", "now", "all", "being", "already", "later", "soon"):
            break
    return False, False


def _owner(
    tokens: Sequence[Token],
    start: int,
    end: int,
    verbs: Sequence[int],
    spans: Sequence[tuple[int, int]],
    memory: Memory,
) -> tuple[frozenset[str], bool]:
    """Whose the clause is: the words before its verb, or what the pronoun there points at."""
    limit = verbs[0] if verbs else (spans[0][0] if spans else end)
    if spans and spans[0][0] < limit:
        limit = spans[0][0]
    region = tokens[start:limit]
    first_comma = 0
    for position, token in enumerate(region):
        if token.plain in ("on", "in", "at", "for", "during") and position == 0:
            first_comma = len(region)
    names = content(region) - lex.DAYS if not first_comma else frozenset()
    back = any(token.plain in _BACK for token in region) and not names
    if back and region[0].plain == "it" and (not verbs or tokens[verbs[0]].verb != "be"):
        back = False
    if names:
        return names, back
    return memory.owner, back


def _outside(tokens: Sequence[Token], start: int, end: int, spans: Sequence[tuple[int, int]]) -> frozenset[str]:
    inside = {position for first, last in spans for position in range(first, last)}
    return content([tokens[position] for position in range(start, end) if position not in inside])


def _directions(
    tokens: Sequence[Token],
    start: int,
    end: int,
    verb: int | None,
    span: tuple[int, int],
    is_subject: bool,
) -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
    """Words of direction after the verb, where to, and where from."""
    begin = start if verb is None else verb + 1
    moves: set[str] = set()
    target: set[str] = set()
    source: set[str] = set()
    position = begin
    while position < end:
        word = tokens[position].plain
        if span[0] <= position < span[1]:
            position += 1
            continue
        if word == "out" and "up" in moves:  # "climbed up out of the water": they come
            position += 1
            continue
        if word in lex.OUTWARD or word in lex.INWARD or word in ("in", "at", "for"):
            if word in lex.OUTWARD or word in lex.INWARD:
                moves.add(word)
            following: list[Token] = []
            probe = position + 1
            if probe < end and tokens[probe].plain == "of" and word in ("out", "off"):
                probe += 1
            while probe < end and tokens[probe].plain not in lex.PREPOSITIONS and not tokens[probe - 1].stop:
                if not span[0] <= probe < span[1]:
                    following.append(tokens[probe])
                probe += 1
            names = content(following)
            if not names and any(token.plain in _THEM for token in following[:1]):
                names |= {"<it>"}
            (source if word in ("from", "off", "out") else target).update(names)
        position += 1
    if verb is not None and not is_subject:
        between = tokens[verb + 1 : span[0]]
        target.update(content(between))
        if between and between[-1].plain in _THEM:
            target.add("<it>")
    return frozenset(moves), frozenset(target), frozenset(source)


def _comparison(
    tokens: Sequence[Token], at: int, phrase: Phrase, end: int, memory: Memory
) -> tuple[str, frozenset[str]]:
    """("more" or "fewer", with whom): "three more shells than the duck"."""
    compare = phrase.compare
    than = next((p for p in range(at, len(tokens)) if tokens[p].plain == "than"), None)
    if than is None or (tokens[at].stop and than > at + 1):
        return compare, frozenset()
    if any(token.number is not None for token in tokens[at + 1 : than]):
        return compare, frozenset()
    if not compare:
        between = {token.plain for token in tokens[at:than]}
        if between & _BIGGER:
            compare = "more"
        elif between & _SMALLER:
            compare = "fewer"
    limit = than + 1
    while limit < len(tokens) and not tokens[limit - 1].stop:
        if tokens[limit].plain in ("and", "but", "so"):
            break
        limit += 1
    names = content([token for token in tokens[than + 1 : limit] if not token.verb or token.capital])
    if not names:
        names = frozenset({"<before>"})
    return compare, names
