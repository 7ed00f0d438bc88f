"""What somebody only claims, and is told that it is not so ("Owl says six and six is thirteen. Rubbish, Owl; six and six is twelve.", "A
claim: eight and eight make eighteen. [wait 5 s] That won't do.")."""

from __future__ import annotations

from collections.abc import Set

from studio.agree.case import Case, Sentence

CLAIMS = frozenset(
    "claim claims claimed declare declares declared says said thinks thought believes believed swears swore guesses guessed".split()
)
UNTRUE = frozenset("false untrue wrong fib mistake".split())
NO = UNTRUE | frozenset("no nope nay never tut impostor silly cheat cheats cheating oops".split())
NO_AT_FIRST = NO | {"not"}
NOT = frozenset("not isn't doesn't don't".split())
_CALLS = CLAIMS | frozenset(
    "say think bet bets reckons reckoned yells yelled shouts shouted cries cried calls called hoots hooted insists insisted announces "
    "announced answers answered tells told".split()
)
_BEING = frozenset("is was".split())
_SURE = frozenset("sure certain convinced".split())
_PRAISING = frozenset("yes right correct true exactly indeed well clever bravo good".split())
_AGREEING = frozenset("yes yep right correct true exactly indeed holds agree agreed stands honest up tick".split())
_ABOUT_TRUTH = frozenset(
    "claim claims claimed fib fibs fibbing judge judges judging untrue mistaken mistake mistakes boast boasts miscounted verdict".split()
)
_TRUE_OR_NOT = (("true", "false"), ("true", "wrong"))
_SIGHS = frozenset("oh ah ha hm hmm well um uh er hey".split())
_ADDRESSED_SOON, _CLAIMED_BEFORE = 7, 30  # words
_RIGHT_SOON = 3  # sentences


def is_only_claimed(case: Case, position: int) -> bool:
    """Whether what is said at word `position` is a claim that is refused."""
    return _is_contradicted(case, position) or _is_judged(case, case.sentence_index(position))


def is_put_right(case: Case, position: int, right: Set[int]) -> bool:
    """Whether what is said at word `position` is a claim that is refused, and one of the right numbers is said soon after ("Owl bets
    on nine. You lose, Owl. It is eight.")."""
    if not is_only_claimed(case, position):
        return False
    index = case.sentence_index(position)
    _, last = case.sentences_around(index, 0, _RIGHT_SOON)
    after = case.numbers_between(case.sentences[index].end, case.sentences[last].end)
    return any(number.value in right for number in after)


def begins_with_no(case: Case, sentence: Sentence) -> bool:
    """Whether a sentence begins with a no ("Oh no, ...", "Not so, ..."): farther on it may deny anything."""
    start = sentence.start + case.says(sentence.start, sentence.start + 1, _SIGHS)
    return start < sentence.end and case.says(start, start + 1, NO_AT_FIRST)


def _is_contradicted(case: Case, position: int) -> bool:
    """Whether somebody only claims it before word `position`, and is told at once that it is not so ("Owl bets on nine. You lose,
    Owl.", "Owl is sure it is nine. Stop, Owl, ..."): addressed by name without praise, or with a no."""
    index = case.sentence_index(position)
    name = _claimant(case, max(case.sentences[index].start, position - _CLAIMED_BEFORE), position)
    if name is None or index + 1 >= len(case.sentences):
        return False
    following = case.sentences[index + 1]
    if begins_with_no(case, following):
        return True
    words, end = case.talk.words, min(following.end, following.start + _ADDRESSED_SOON)
    addressed = any(
        words[at].plain == name and not (words[at].text[-1:].isalnum() and words[at - 1].text[-1:].isalnum())
        for at in range(following.start, end)
    )
    return addressed and (case.says(following.start, end, NO | NOT) or not case.says(following.start, end, _PRAISING))


def _claimant(case: Case, start: int, position: int) -> str | None:
    """Who claims something, by a verb between words `start` and `position` of a sentence; None where nobody does."""
    words = case.talk.words
    for at in range(position - 1, start, -1):
        sure = words[at].plain in _BEING and case.says(at + 1, min(at + 4, position), _SURE)
        if sure or words[at].plain in _CALLS:
            return words[at - 1].plain
    return None


def _is_judged(case: Case, index: int) -> bool:
    """Whether there is time to judge sentence `index`, in a lesson about what is true and what is not, and no yes after it."""
    sentence = case.sentences[index]
    if sentence.end not in case.waited or index + 1 >= len(case.sentences) or case.asks(sentence):
        return False
    if not _is_about_truth(case):
        return False
    following = case.sentences[index + 1]
    return not case.has_word(following, _AGREEING) or case.has_word(following, NO | NOT)


def _is_about_truth(case: Case) -> bool:
    """Whether a lesson is about claims that may be false."""
    kept: bool | None = case.__dict__.get("_is_about_truth")
    if kept is None:
        named = {*case.word_counts, *(word.plain for title in case.title_words for word in title)}
        kept = not _ABOUT_TRUTH.isdisjoint(named) or any(named.issuperset(pair) for pair in _TRUE_OR_NOT)
        case.__dict__["_is_about_truth"] = kept
    return kept
