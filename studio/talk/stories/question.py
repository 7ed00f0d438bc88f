"""What a story asks: "how many … are left", "how many more … than", "what is the difference", and the like."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.script.model import Word
from studio.talk.stories import lexicon as lex
from studio.talk.stories.clauses import COMPARATIVES, Token, content, is_label, noun_phrase

_BEGINNINGS = frozenset(("how", "what", "what's", "what’s", "find"))
_SUMMED = frozenset("difference total sum combined".split())
_ASKED_FOR = frozenset("cost weigh pay score price length height weight age temperature".split())
_MAY_ASK = _SUMMED | _ASKED_FOR | {"number"}
_MEASURES = frozenset("long tall old far heavy high big wide deep hot cold fast large short young small".split())
_LISTENERS = frozenset("you we i your our".split())
_NUMBER_OF = ("number", "of")
_TOTAL_NOUNS = frozenset("total sum combined".split())
_HOW = COMPARATIVES | _MEASURES | {"many", "much"}
_SMALLER = frozenset("fewer less shorter smaller younger lighter lower cheaper slower narrower".split())
_TOTAL = frozenset("total altogether combined sum together both".split())
_THEN = frozenset("now then will would finally eventually".split())


@dataclass(frozen=True, slots=True)
class Question:
    """`nouns` is of what is asked, `subject` whose, `verb` what happens to it; the rest are signs of what is unknown.

    `more` is "more" or "fewer" where a comparison or a lack is asked; `than` with whom; `start` at first, `left` what
    remains, `total` all together, `now` afterwards, `goal` the number to reach.
    """

    start: int
    end: int
    opening: int
    nouns: frozenset[str] = frozenset()
    head: str = ""
    subject: frozenset[str] = frozenset()
    pronoun: str = ""
    verb: str = ""
    words: frozenset[str] = frozenset()
    halves: tuple[frozenset[str], frozenset[str]] | None = None
    more: str = ""
    than: frozenset[str] = frozenset()
    has_than: bool = False
    difference: bool = False
    measure: str = ""
    start_asked: bool = False
    left: bool = False
    total: bool = False
    now: bool = False
    need: bool = False
    goal: int | None = None
    rest: bool = False
    negative: bool = False
    each: bool = False
    both_parts: bool = False
    passive: bool = False
    as_many: bool = False
    missing: bool = False
    must: bool = False


def last_question(words: Sequence[Word]) -> int | None:
    """The word behind the last paragraph that may ask for a number; None where none does. Quick, and never too early."""
    for position in range(len(words) - 1, -1, -1):
        plain = words[position].plain
        if plain not in _BEGINNINGS:
            continue
        ahead = [word.plain for word in words[position + 1 : position + 9]]  # a number may be several words
        after = ahead[0] if ahead else ""
        if after in _HOW if plain == "how" else not _MAY_ASK.isdisjoint(ahead):
            paragraph = words[position].paragraph
            while position < len(words) and words[position].paragraph == paragraph:
                position += 1
            return position
    return None


def find_question(tokens: Sequence[Token]) -> int | None:
    """Where a question for a number begins in a sentence; None where there is none."""
    for position, token in enumerate(tokens):
        after = tokens[position + 1].plain if position + 1 < len(tokens) else ""
        if token.plain == "how" and after in _HOW and not _tells(tokens, position):
            return position
        if token.plain in ("what", "what's", "find") and not token.stop:
            near = [other.plain for other in tokens[position + 1 : position + 7]]
            ahead = {*near}
            if ahead & _SUMMED and "equals" not in ahead:
                return position
            if _NUMBER_OF in pairwise(near) or (ahead & _ASKED_FOR and not _you(near)):
                return position
    return None


def _you(words: Sequence[str]) -> bool:
    """Whether the child is asked ("What do you think of his score?")."""
    return not _LISTENERS.isdisjoint(words)


def _tells(tokens: Sequence[Token], position: int) -> bool:
    """Whether "how many" at a position tells what was found and asks nothing ("That's how much fuller it is:
    three.")."""
    before = [token.plain for token in tokens[max(0, position - 2) : position]]
    return not tokens[-1].asks and (before[-1:] == ["that's"] or before in (["that", "is"], ["this", "is"]))


def read_question(tokens: Sequence[Token], begin: int) -> Question:
    """The question that begins at token `begin` of its sentence."""
    start, end = tokens[begin].start, tokens[-1].end
    asked = tokens[begin].plain
    plain = [token.plain for token in tokens]
    position = begin + 1
    more = measure = ""
    if asked != "how" or position == len(tokens):
        words = content(tokens[begin + 1 :]) - {"difference", "number", "total", "sum"}
        ahead = frozenset(plain[begin + 1 :])
        if "difference" in ahead:
            return Question(
                start, end, begin, words=words, difference=True, halves=_halves(tokens[begin + 1 :]),
                nouns=words,
            )  # fmt: skip
        return Question(start, end, begin, words=words, total=True, nouns=words, subject=words)
    if plain[position] in COMPARATIVES:
        more = "fewer" if plain[position] in _SMALLER else "more"
        position += 1
    elif plain[position] in _MEASURES:
        measure = plain[position]
        position += 1
    else:
        measure = "much" if plain[position] == "much" else ""
        position += 1
    if position < len(tokens) and plain[position] in COMPARATIVES:
        more = "fewer" if plain[position] in _SMALLER else "more"
        position += 1
    total = False
    if position < len(tokens) and plain[position] in ("total", "other", "of"):
        total = plain[position] == "total"
        if plain[position] != "of":
            position += 1
    by = begin > 0 and plain[begin - 1] == "by"
    phrase = noun_phrase(tokens, position, len(tokens))
    nouns, head = phrase.nouns, phrase.head
    if measure == "much" and not head and plain[position : position + 1] == ["change"]:
        head = "change"  # money back
    if not more and phrase.compare:
        more = phrase.compare
    tail_start = max(phrase.end, position)
    if tail_start < len(tokens) and plain[tail_start] in COMPARATIVES and not more:
        more = "fewer" if plain[tail_start] in _SMALLER else "more"
        tail_start += 1
    elif tail_start < len(tokens) and plain[tail_start] in _MEASURES:
        tail_start += 1
    tail = list(tokens[tail_start:])
    tail_plain = [token.plain for token in tail]
    goal = next((t.number for i, t in enumerate(tail) if t.number is not None and not is_label(tail, i)), None)
    aux = next((i for i, token in enumerate(tail) if token.plain in lex.AUXILIARIES), None)
    verb, subject, pronoun, passive = _verb_and_subject(tail, aux)
    tail_set = frozenset(tail_plain)
    text = " " + " ".join(tail_plain) + " "
    than_at = tail_plain.index("than") if "than" in tail_set else None
    left = ("left" in tail_set and (aux is not None) and verb != "leave") or bool(
        tail_set & {"remain", "remains", "remained", "remaining", "still"} or {"left", "remaining"} & nouns
    )
    start_asked = (
        any(
            phrase_text in text
            for phrase_text in (
                " at first ", " begin with ", " began with ", " start with ", " started with ", " in the beginning ",
                " originally ", " initially ", " at the start ", " at the beginning ", " to start ", " to begin ",
                " starting with ", " start out ", " started out ", " start off ", " before that ", " first have ",
                " at the very start ", " in the first place ",
            )
        )
        or ("before" in tail_set and than_at is None and not _of_time(tail, tail_plain.index("before")))
    )  # fmt: skip
    total = total or bool(tail_set & _TOTAL) or " in all " in text or " all in all " in text or "total" in nouns
    return Question(
        start=start,
        end=end,
        opening=begin,
        nouns=nouns - {"total", "left", "remaining"},
        head=head,
        subject=subject,
        pronoun=pronoun,
        verb=verb,
        words=content(tail) | nouns,
        halves=_halves(tail),
        more=more,
        than=content(tail[than_at + 1 :]) if than_at is not None else frozenset(),
        has_than=than_at is not None,
        difference=by,
        as_many=" as many " in text or " as much " in text,
        measure=measure,
        start_asked=start_asked,
        left=left,
        total=total,
        now=bool(tail_set & _THEN),
        need=verb in ("need", "want")
        or "needed" in tail_set
        or "missing" in tail_set
        or bool(tail_set & {"have", "has"} and "to" in tail_set and goal is not None),
        goal=goal,
        rest="other" in plain[begin:tail_start] or " the rest " in text or bool(tail_set & {"others", "other"}),
        negative=bool(tail_set & {"not", "isn't", "aren't", "didn't", "weren't", "without", "don't", "wasn't"}),
        each=bool(tail_set & {"each", "every", "per"}),
        both_parts=" how many " in text or " how much " in text or {"could", "each"} <= tail_set,
        passive=passive,
        missing="missing" in tail_set,
        must=bool(tail_set & {"must", "should"}) and verb not in ("have", "be") and not tail_set & lex.OUTWARD,
    )


def _of_time(tail: Sequence[Token], at: int) -> bool:
    """Whether "before" at a position names no start ("the day before", "How long before twelve?")."""
    after = tail[at + 1].number if at + 1 < len(tail) else None
    return (after is not None and at + 2 == len(tail)) or (at > 0 and tail[at - 1].plain == "day")


def _halves(tokens: Sequence[Token]) -> tuple[frozenset[str], frozenset[str]] | None:
    """The words before and after the last "and" or "than"."""
    for joiner in ("than", "and", "or"):
        places = [position for position, token in enumerate(tokens) if token.plain == joiner]
        if places:
            middle = places[-1] if joiner == "than" or len(places) == 1 else places[0]
            return content(tokens[:middle]), content(tokens[middle + 1 :])
    return None


def _verb_and_subject(tail: Sequence[Token], aux: int | None) -> tuple[str, frozenset[str], str, bool]:
    """(main verb, subject's words, pronoun, passive) of the words after the noun of "how many"."""
    if aux is None:
        verb = next((token.verb for token in tail if token.verb), "")
        return verb, frozenset(), "", False
    position = aux + 1
    region: list[Token] = []
    main = ""
    while position < len(tail):
        token = tail[position]
        if token.verb and token.plain != "left" and not _names(tail, position):
            main = token.verb
            break
        if token.plain in ("left", "than"):
            break
        region.append(token)
        position += 1
    helper = tail[aux].plain
    passive = False
    if helper in lex.BE:
        passive = bool(main) and not tail[position].plain.endswith("ing")
        verb = main or "be"
    elif helper in lex.HAVE:
        for_doing = bool(main) and position > aux + 2 and tail[position - 1].plain == "to"  # "had something to eat"
        verb = "have" if for_doing else main or "have"
    else:
        verb = main or helper
    pronoun = next((token.plain for token in region if token.plain in lex.PRONOUNS), "")
    return verb, content(region), pronoun, passive


def _names(tail: Sequence[Token], position: int) -> bool:
    """Whether a word that could be a verb is a noun here ("does the duck have")."""
    previous = tail[position - 1].plain if position else ""
    return previous in lex.DETERMINERS or previous.endswith("'s")
