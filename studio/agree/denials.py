"""Whether something false is shown or said only to be told apart from what is true ("Is nine plus four equal to twelve?
No!", "It is claimed that … It does not equal twelve.")."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from studio.agree.case import Case, Sentence
from studio.agree.claimed import CLAIMS, NO, NO_AT_FIRST, NOT, UNTRUE, begins_with_no, is_only_claimed
from studio.agree.hops import ways_around
from studio.agree.manners import says_yes
from studio.pictures.kinds.cards import Cards
from studio.talk.model import Statement

_REACH = 10  # sentences
_LEFT_OUT = frozenset("missing gap skipped skip forgot forgotten dive".split())
_LOOKED_FOR = 4  # sentences
_CLAIM = frozenset("claim statement".split())
_REFUSED = frozenset("refused refuted fails falls".split())
_TESTED = frozenset("prove proof".split())
_TESTED_SOON = 2  # sentences
_CROSSED_OUT = frozenset("bad strike struck scratch incorrect nonsense".split())
_ANNOUNCED = UNTRUE | frozenset("fibs fibbing mistakes".split())
_LIES = frozenset("lie lies".split())
_A_LIE = frozenset("a one the no two is are".split())
_JUDGING = NO_AT_FIRST | frozenset("he's she's it's that's they're you're i'm he she it that this they you".split())
_ODD_ONES = frozenset("impostor cheat stranger intruder".split())
_BELONG = frozenset("belong fit match".split())
_HUMMED = frozenset("hm hmm hmmm".split())
_TRUE = frozenset("true correct really or not false untrue is it that".split()) | _HUMMED
_FALSE = frozenset("false untrue wrong incorrect".split())
_SOUND = frozenset("true right correct so equal balanced".split())
_VERDICT = NOT | _SOUND.union(
    "it it's this this's that that's is was the a an one claim statement sentence equation balance quite definitely certainly of course".split()
)
_JUDGED_SOON = 5  # sentences
_SHORT_QUESTION = 4  # words: "Is that so?", "Can that be?"
_NEAR = 3  # sentences after it: "not" is said of much else
_REFUSING = NOT | frozenset(
    "no nope nay false wrong untrue aren't never different unequal neither cannot can't question tomorrow wonder homework".split()
)
_COMPARED = frozenset("greater less more fewer bigger smaller".split())
_LEADING = frozenset("so and then but well okay right now".split())
_ANSWERED_SOON = 2  # sentences
_MENDED = frozenset("should meant".split())
_SHORT = 7  # words
_SOON = 4  # words
_FAR = 200  # words


def denied(case: Case, values: tuple[int, ...], position: int) -> bool:
    """Whether what is said or shown with these numbers at word `position` is asked about or denied soon after."""
    index = case.sentence_index(position)
    _, last = case.sentences_around(index, 0, _REACH)
    begin, end = case.sentences[max(0, index - 1)].start, case.sentences[last].end
    right = nearly_right = False
    for other in case.statements_between(begin, end):
        if other.values == values and (
            other.kind == "unequal" or other.holds is None or (other.expected is False and other.holds)
        ):
            return True
        if other.holds and other.values != values:
            right = right or (len(values) == 3 and other.values[:2] == values[:2])
            nearly_right = nearly_right or right or _differ_in_one(other, values)
    near = case.sentences[index : min(last, index + _NEAR) + 1]
    after = {number.value for number in case.numbers_between(near[0].end, min(near[-1].end, near[0].end + _FAR))}
    if right and _is_denied(case, values, position, near, end):
        return True
    if (nearly_right or _is_righted(values, after)) and (
        any(begins_with_no(case, near[at]) and not _answers_another(case, near, at) for at in range(1, len(near)))
        or case.says(near[0].end, near[:2][-1].end, _CROSSED_OUT)
        or is_only_claimed(case, position)
        or (len(values) == 4 and case.says(near[0].end, near[-1].end, UNTRUE))
    ):
        return True
    if _announces(case, case.sentences[index].start, position) or _is_voted_down(case, index):
        return True
    if _is_called_false(case, index, last):
        return True
    if _is_claim_refused(case, position, index):
        return True
    return _wondered_at(case, index) or _claimed_and_tested(case, values, position, last)


def _is_denied(case: Case, values: tuple[int, ...], position: int, near: Sequence[Sentence], end: int) -> bool:
    """Whether what is said at word `position`, in the first of the sentences `near`, is denied there or up to word `end`, or that
    it is false is announced."""
    return (
        case.says(position, end, UNTRUE)
        or case.says(position, near[-1].end, _MENDED)
        or case.says(position, near[0].end, NO)
        or _announced(case, case.sentence_index(position))
        or any(_says_not(case, one, values) and not _answers_another(case, near, at) for at, one in enumerate(near))
    )


def _answers_another(case: Case, near: Sequence[Sentence], at: int) -> bool:
    """Whether one of these sentences answers a question that is asked after what the first says, and about something else ("Four and six
    are ten. Is the jar any fuller that way? Not by a crumb.")."""
    if at <= 1 or near[at].numbers:
        return False
    question = near[at - 1]
    is_long = question.end - question.start > _SHORT_QUESTION
    return is_long and case.asks(question) and not question.numbers and not case.has_word(question, _SOUND | _FALSE)


def _differ_in_one(other: Statement, values: tuple[int, ...]) -> bool:
    """Whether a statement has the same three numbers but for one, in whatever order, or the same double."""
    if len(values) != len(other.values) or not (len(values) == 3 or (len(values) == 2 and other.kind == "double")):
        return False
    return sum((Counter(values) - Counter(other.values)).values()) == 1


def _is_righted(values: tuple[int, ...], said: set[int]) -> bool:
    """Whether among what is said afterwards is what a false sum or difference makes, or, of two sums or differences that are not
    equal, what both make or the last number that would make them so."""
    if len(values) == 3:
        one, other, told = values
        return bool(({one + other, abs(one - other)} - {told}) & said)
    if len(values) == 4:
        one, other, third, fourth = values
        first, second = {one + other, abs(one - other)} & said, {third + fourth, abs(third - fourth)} & said
        return bool(first and second and first != second) or one + other - third in said
    return False


def refused(case: Case, statement: Statement) -> bool:
    """Whether what is asked is answered with no: soon where it is told and only sounds asked ("Five plus three is six, yeah?"),
    some sentences later where children may work it out first ("Is five plus three the same as six?", "It is six. True or false?")."""
    index = case.sentence_index(statement.start)
    words, sentence = case.talk.words, case.sentences[index]
    told = all(word.plain in _LEADING for word in words[sentence.start : statement.start])
    told = told and not _is_asked_then(case, index)
    _, last = case.sentences_around(index, 0, _ANSWERED_SOON if told else _REACH)
    end = case.sentences[last].end
    if case.says(statement.start, end, NO | NOT if told else _REFUSING):
        return True
    return not told and any(
        word.plain in _COMPARED and not case.numbers_between(at + 1, at + 2)
        for at, word in enumerate(words[sentence.end : min(end, sentence.end + _FAR)], sentence.end)
    )


def _is_asked_then(case: Case, index: int) -> bool:
    """Whether the sentence after sentence `index` asks about it ("Five plus one equals four plus three. Is it true?")."""
    following = case.sentences[min(index + 1, len(case.sentences) - 1)]
    return case.asks(following) and not following.numbers


def _says_not(case: Case, sentence: Sentence, values: tuple[int, ...]) -> bool:
    """Whether a sentence says of one of these numbers that it is not so ("does not equal twelve"), or is short and says it of all
    ("That is not right.")."""
    if not case.has_word(sentence, NOT):
        return False
    if not sentence.numbers:
        return sentence.end - sentence.start <= _SHORT
    return any(
        case.says(max(sentence.start, number.start - _SOON), number.end + 1, NOT)
        for number in sentence.numbers
        if number.value in values
    )


def _announced(case: Case, index: int) -> bool:
    """Whether it was said shortly before sentence `index` that something false comes ("One of these is a fib.")."""
    first, _ = case.sentences_around(index, _NEAR, 0)
    return any(_announces(case, case.sentences[at].start, case.sentences[at].end) for at in range(first, index))


def _announces(case: Case, start: int, end: int) -> bool:
    """Whether words from `start`, where a sentence begins, to before `end` announce something false. What begins so or with a
    pronoun only judges what was said before ("Wrong, Owl, ...", "He's fibbing."); eggs lie, too."""
    words = case.talk.words
    if words[start].plain in _JUDGING:
        return False
    return case.says(start, end, _ANNOUNCED) or any(
        words[at].plain in _LIES and words[at - 1].plain in _A_LIE for at in range(start + 1, end)
    )


def _is_voted_down(case: Case, index: int) -> bool:
    """Whether the sentence after sentence `index` tells what the thumbs say ("Four and one is six. [wait] Thumbs down!")."""
    if index + 1 >= len(case.sentences):
        return False
    words, following = case.talk.words, case.sentences[index + 1]
    return [word.plain for word in words[following.start : following.end]][:2] == ["thumbs", "down"]


def _is_called_false(case: Case, index: int, last: int) -> bool:
    """Whether the first verdict after sentence `index`, up to sentence `last`, is that it is false ("Twenty equals ten plus eight. Is
    this one correct? [wait] It is false."): soon after it was asked or time was given, and before more numbers are told; or it stands
    at its end ("Five plus five equals two plus seven: not true.")."""
    sentence = case.sentences[index]
    end = sentence.numbers[-1].end if sentence.numbers else sentence.end
    if case.talk.words[end - 1].text.endswith(":") and _is_false_verdict(case, end, sentence.end):
        return True
    is_open = False
    for at in range(index, min(last, index + _JUDGED_SOON)):
        is_open = is_open or case.asks(case.sentences[at]) or case.sentences[at].end in case.waited
        following = case.sentences[at + 1]
        if not is_open or case.asks(following):
            continue
        if following.numbers:
            return False
        if following.end - following.start > _SHORT:
            continue
        if case.has_word(following, _FALSE):
            return True  # "No, that is false.", "It breaks, it's false."
        if _VERDICT.issuperset(word.plain for word in case.talk.words[following.start : following.end]):
            return _is_false_verdict(case, following.start, following.end)
    return False


def _is_false_verdict(case: Case, start: int, end: int) -> bool:
    """Whether the words from `start` to before `end` say no more than that something is not true."""
    told = {word.plain for word in case.talk.words[start:end]}
    return told <= _VERDICT and not told.isdisjoint(NOT) and not told.isdisjoint(_SOUND)


def _wondered_at(case: Case, index: int) -> bool:
    """Whether the sentence after sentence `index` only asks whether it is so, and is not answered with yes ("A hundred take
    away forty is seventy. True?", "She wrote that 6 + 7 is 14. Hmm.")."""
    if index + 1 >= len(case.sentences):
        return False
    words, following = case.talk.words, case.sentences[index + 1]
    told = [word.plain for word in words[following.start : following.end]]
    if not _TRUE.issuperset(told) or not (case.asks(following) or _HUMMED.issuperset(told)):
        return False
    return not says_yes(case, following.end)


def _is_claim_refused(case: Case, position: int, index: int) -> bool:
    """Whether it is only claimed before word `position` of sentence `index`, and soon that claim is called false ("A claim: eight
    plus two is more than ten. Not more, the same. So the claim is false.")."""
    if not case.says(case.sentences[index].start, position, CLAIMS):
        return False
    _, last = case.sentences_around(index, 0, _NEAR + 1)
    return any(
        case.has_word(sentence, _CLAIM) and case.has_word(sentence, UNTRUE | _REFUSED)
        for sentence in case.sentences[index + 1 : last + 1]
    )


def _claimed_and_tested(case: Case, values: tuple[int, ...], position: int, last: int) -> bool:
    """Whether somebody only claims it, and up to sentence `last` one of its numbers is taken back for the right one ("A frog
    claims that seventeen is four away from twenty. … It is three away, not four.")."""
    sentence = case.sentences[case.sentence_index(position)]
    if not case.says(sentence.start, position, CLAIMS):
        return False
    _, near = case.sentences_around(case.sentence_index(position), 0, _TESTED_SOON)
    if case.says(sentence.end, case.sentences[near].end, _TESTED):
        return True
    if _hopped_to_another(case, values, sentence.end, case.sentences[last].end):
        return True
    words = case.talk.words
    for number in case.numbers_between(sentence.end, case.sentences[last].end):
        if len(values) == 3 and number.value in values and words[number.start - 1].plain == "not":
            at = values.index(number.value)
            one, other = values[:at] + values[at + 1 :]
            if {one + other, abs(one - other)} & {*case.sentences[case.sentence_index(number.start)].values}:
                return True
    return False


def _hopped_to_another(case: Case, values: tuple[int, ...], start: int, end: int) -> bool:
    """Whether hops go from its first number to what is right, from word `start` to before word `end`, and that is said
    there ("The pike claims that 52 minus 18 is 46. … [hop 52 to 42] … [hop 42 to 34] Thirty-four.")."""
    if len(values) != 3:
        return False
    first, other, claimed = values
    hops = [hop for hop in ways_around(case, start - 1) if start <= hop.last < end]
    said = {number.value for number in case.numbers_between(start, end)}
    right = {first + other, first - other} - {claimed}
    return any(hop.start == first for hop in hops) and any(hop.end in right & said for hop in hops)


def one_is_looked_for(case: Case, count: Statement) -> bool:
    """Whether the number that a count leaves out is what is asked for ("11, 12, 14, 15. Which number is under the duck?",
    "Seven, eight, ten. What did I skip?")."""
    first, last = case.sentences_around(case.sentence_index(count.start), 1, _LOOKED_FOR)
    start, end = case.sentences[first].start, case.sentences[last].end
    words = case.talk.words
    if one_is_odd(case, first, last) and not _read_aloud(case, count):
        return True
    if not _leaves_out(count.values):
        return False
    return case.says(start, end, _LEFT_OUT) or any(
        words[at].plain == "which" and words[at + 1].plain in ("number", "card") for at in range(start, end - 1)
    )


def _leaves_out(values: tuple[int, ...]) -> bool:
    """Whether numbers go on evenly but for some that are left out ("Seven, eight, ten")."""
    steps = {after - before for before, after in pairwise(values)}
    least = min(steps, key=abs, default=0)
    return least != 0 and all(step % least == 0 and step // least > 0 for step in steps)


def _read_aloud(case: Case, count: Statement) -> bool:
    """Whether cards are on the screen that a count may read aloud: then it must say what is on them."""
    return any(isinstance(seen.picture, Cards) for seen in case.on_screen(count.start, count.end))


def one_is_odd(case: Case, first: int, last: int) -> bool:
    """Whether one that is not like the others is looked for in the sentences from `first` to `last` ("One of these does not
    belong", "Which is the odd one out?", "Who is the cheat?")."""
    words = case.talk.words
    if case.says(case.sentences[first].start, case.sentences[last].end, _ODD_ONES):
        return True
    return any(
        (words[at].plain in NOT and words[at + 1].plain in _BELONG)
        or (words[at].plain == "odd" and words[at + 1].plain == "one")
        for at in range(case.sentences[first].start, case.sentences[last].end - 1)
    )


def not_meant(case: Case, start: int, end: int) -> bool:
    """Whether what is said from word `start` to before word `end` is only asked, or is taken back near by."""
    first, last = case.sentence_index(start), case.sentence_index(end - 1)
    if any(case.asks(case.sentences[index]) for index in range(first, last + 1)):
        return True
    begin, _ = case.sentences_around(first, 1, 0)
    _, close = case.sentences_around(last, 0, 1)
    return case.says(case.sentences[begin].start, case.sentences[close].end, NO | _LEFT_OUT)
