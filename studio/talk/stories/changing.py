"""Add to and take from: result, change or start unknown."""

from __future__ import annotations

from studio.talk.stories import lexicon as lex
from studio.talk.stories.clauses import Quantity
from studio.talk.stories.readings import Asked, CannotTell, Reading, add_to, take_from


def read(asked: Asked) -> Reading | None:
    """Something happens to an amount; None where nothing does."""
    question = asked.question
    known = asked.known
    if question.goal is not None or question.need or question.must:
        needed = _needed(asked)
        if needed is not None:
            return needed
        if question.need and question.more:
            raise CannotTell
    if len(known) != 2:
        return None
    first, second = known
    if first.value is None or second.value is None or question.negative:
        return None
    if {first.verb, second.verb} == {"win", "lose"} and question.verb not in ("have", "be"):
        return None
    if question.missing and first.nouns & second.nouns:
        return add_to(min(first.value, second.value), None, max(first.value, second.value))
    if question.head == "change" and question.measure == "much":
        return take_from(max(first.value, second.value), min(first.value, second.value), None)
    ends = [quantity for quantity in known if _is_end(quantity, asked)]
    if any(quantity.rest for quantity in asked.unknown):
        return None
    if question.start_asked or _asks_start(asked):
        return _start(asked, first, second)
    if len(ends) == 1 and not question.total and not (question.left and not _asks_change(asked) and ends[0] is first):
        end = ends[0]
        other = second if end is first else first
        if end.value is None or other.value is None:
            return None
        if not _asks_change(asked) and not asked.unknown and sign(other, asked) and other is first:
            return _start(asked, first, second)
        if question.now and not _asks_change(asked):
            raise CannotTell
        events = {_certain_sign(quantity, asked) for quantity in asked.unknown} - {0}
        if events == {1}:
            return add_to(other.value, None, end.value)
        if events == {-1}:
            return take_from(other.value, None, end.value)
        if end.value >= other.value and (end.value > other.value or sign(other, asked) >= 0):
            return add_to(other.value, None, end.value)
        return take_from(other.value, None, end.value)
    if question.left:
        if second.of_whole or first.value >= second.value or (sign(second, asked) < 0 and second.is_subject):
            return take_from(first.value, second.value, None)
        if first.of_whole or _whole_of(second):
            return take_from(second.value, first.value, None)
        raise CannotTell
    if question.total or ends:
        return None
    return _result(asked, first, second)


def _certain_sign(quantity: Quantity, asked: Asked) -> int:
    """The sign where it is beyond doubt, so that a story that goes the other way cannot be."""
    which = sign(quantity, asked)
    outward = quantity.is_subject and which < 0 and bool(quantity.moves & lex.OUTWARD)
    if outward or (which > 0 and quantity.more) or quantity.verb in ("give", "eat", "lose", "sell", "drop"):
        return which
    return 0


def _whole_of(quantity: Quantity) -> bool:
    return quantity.verb in lex.STATES or quantity.verb in ("need", "have", "be", "")


def _is_end(quantity: Quantity, asked: Asked) -> bool:
    """Whether it tells what there is afterwards: it says so, or what is told before it changed by "some"."""
    if quantity.afterwards:
        return True
    if quantity.verb not in ("have", "be") or quantity.more:
        return False
    before = asked.quantities[: asked.quantities.index(quantity)]
    if any(not q.known and sign(q, asked) for q in before):
        return True
    verb = asked.question.verb
    event = verb in lex.GAINS | lex.LOSSES | lex.COMES | lex.MOVES and verb not in lex.STATES
    return bool(
        event
        and len(before) == 1
        and before[0].verb in ("have", "be")
        and before[0].nouns & quantity.nouns
        and not asked.question.total
    )


def _needed(asked: Asked) -> Reading | None:
    """ "How many more does it need to have nine?" """
    question = asked.question
    known = asked.known
    if question.goal is not None and question.measure in ("old", "tall", "long") and len(known) == 1:
        if known[0].value is not None and "ago" in question.words:
            return take_from(known[0].value, question.goal, None)
        if known[0].value is not None and question.now:
            return add_to(known[0].value, question.goal, None)
    if question.goal is not None and len(known) == 1 and (question.more or question.need or question.left):
        value = known[0].value
        if value is None:
            raise CannotTell
        if known[0].value is not None and question.goal < value:
            if question.left:
                return take_from(value, None, question.goal)
            raise CannotTell
        return add_to(value, None, question.goal)
    lacks = question.need and question.verb in ("need", "want") and question.more
    if question.goal is None and len(known) == 2 and (lacks or (question.must and not question.left)):
        wanted = [q for q in known if q.verb in ("need", "want") or q.wanted or q.whole]
        if len(wanted) == 1 and known[0].nouns & known[1].nouns:
            other = known[0] if wanted[0] is known[1] else known[1]
            if other.value is not None and wanted[0].value is not None:
                return add_to(other.value, None, wanted[0].value)
    return None


def _asks_start(asked: Asked) -> bool:
    """Whether the question is for an amount that was told as "some" before anything happened."""
    if not asked.quantities or asked.quantities[0].known:
        return False
    first = asked.quantities[0]
    question = asked.question
    if first.more or first.rest or question.left or question.now:
        return False
    if len(asked.unknown) > 1 and question.verb != first.verb:
        return False
    return bool(question.verb) and question.verb == first.verb and _signed_event(asked)


def _signed_event(asked: Asked) -> bool:
    return any(sign(quantity, asked) for quantity in asked.known)


def _asks_change(asked: Asked) -> bool:
    """Whether the question's verb says what happened ("how many did she give away")."""
    verb = asked.question.verb
    return bool(verb) and verb not in ("have", "be", "can", "do", "stay")


def _start(asked: Asked, first: Quantity, second: Quantity) -> Reading | None:
    signs = [(sign(quantity, asked), quantity) for quantity in (first, second)]
    ends = [quantity for quantity in (first, second) if quantity.afterwards]
    if len(ends) == 1:
        end = ends[0]
        change = second if end is first else first
    else:
        moving = [quantity for value, quantity in signs if value]
        if len(moving) == 1:
            change = moving[0]
            end = second if change is first else first
        elif len(moving) == 2:
            change, end = first, second
            if not second.afterwards and second.verb not in ("have", "be"):
                raise CannotTell
        else:
            raise CannotTell
    which = sign(change, asked)
    order = asked.quantities.index
    if not end.afterwards and order(end) < order(change):
        raise CannotTell  # what was there at first is told
    if asked.quantities[0].known and asked.unknown:
        raise CannotTell
    if not which or change.value is None or end.value is None:
        raise CannotTell
    if which > 0:
        return add_to(None, change.value, end.value)
    return take_from(None, change.value, end.value)


def _result(asked: Asked, first: Quantity, second: Quantity) -> Reading | None:
    if first.value is None or second.value is None:
        return None
    verb = asked.question.verb
    event = verb not in ("", "have", "be", "can", "do", "will", "need")
    if event and first.verb == second.verb == verb and not (second.of_whole or first.is_subject != second.is_subject):
        return add_to(first.value, second.value, None) if second.more else None
    if question_is_for_part(asked, second):
        return None
    if event and verb == second.verb and first.verb not in (verb, "") and not asked.question.now:
        raise CannotTell
    which = sign(second, asked)
    if which == 0:
        which = sign(first, asked) if sign(first, asked) < 0 else 0
        if which and _whole_of(second) and second.value >= first.value and not asked.question.now:
            return None
        if which:
            return None
    question = asked.question
    other_holder = (
        question.subject
        and not question.pronoun
        and not question.subject & (first.words | first.target | second.target | second.words)
    )
    if other_holder and question.verb == "have" and not question.now and len(question.subject) == 1:
        return None
    if which > 0:
        return add_to(first.value, second.value, None)
    if which < 0 and not verb and second.named and not second.of_whole and second.value > first.value:
        return None  # "Seven otters float. Eight otters dive. How many otters?"
    if which < 0:
        return take_from(first.value, second.value, None)
    return None


def question_is_for_part(asked: Asked, part: Quantity) -> bool:
    """ "Four of the eggs are spotted. How many are plain?" """
    new = asked.question.words - part.words - frozenset().union(*(q.words for q in asked.known))
    return bool(
        part.of_whole and part.is_subject and part.passive and part.verb not in lex.LOSSES | {"take", "remove"}
        and asked.question.verb == "be" and new and not asked.question.now
    )  # fmt: skip


def sign(quantity: Quantity, asked: Asked) -> int:
    """Whether it makes what is asked about more (1) or fewer (-1), or tells only what there is (0)."""
    verb = quantity.verb
    holder = asked.question.subject | (asked.question.words - asked.question.nouns)
    if quantity.afterwards and verb in ("have", "be", ""):
        return 0
    if quantity.is_subject and not quantity.passive:
        return _sign_of_coming(quantity, asked)
    if quantity.passive:
        if verb in lex.GAINS | {"put", "place", "give", "send", "take"}:
            inward = "in" in quantity.moves and verb != "take"  # "some were washed in from the stream"
            if verb == "take" or (quantity.source and not quantity.target and not inward):
                return -1
            if verb == "pick" or "away" in quantity.moves or "out" in quantity.moves:
                return -1
            if verb in lex.LOSSES and not (quantity.target & holder or "<it>" in quantity.target):
                return -1
            return 1
        if verb in lex.LOSSES or verb == "remove":
            return -1
        if verb in lex.MOVES:
            return -1 if quantity.moves & lex.OUTWARD else 1 if quantity.moves & lex.INWARD else 0
        return 1 if quantity.more else 0
    return _sign_of_doing(quantity, asked, holder)


def _sign_of_coming(quantity: Quantity, asked: Asked) -> int:
    verb = quantity.verb
    first = asked.quantities[0]
    outward = bool(quantity.moves & lex.OUTWARD) or bool(quantity.source)
    if verb in lex.MOVES and not quantity.progressive:
        if quantity.of_whole and not quantity.target & asked.question.words and quantity is not first:
            return -1  # "Later, thirty of the 54 fish swim back to the stream."
        place = first.place | first.target if first is not quantity else frozenset()
        asked_place = asked.question.words - asked.question.nouns
        if "<it>" in quantity.target and not quantity.source:
            return 1
        if quantity.source and quantity.target & asked_place:
            return 1
        if quantity.more and not quantity.source and quantity.moves & lex.OUTWARD == {"down"}:
            return 1  # "three more flew down"
        if outward and not ("from" in quantity.moves and quantity.more):
            return -1
        goal = quantity.target - frozenset({verb})
        if goal & (place | asked_place | first.nouns - quantity.nouns):
            return 1
        if quantity.more or ("on" in quantity.moves and not goal) or ("over" in quantity.moves and not goal):
            return 1
        if goal and first is not quantity:
            return -1
        return 1 if quantity.moves & lex.INWARD else -1 if first is not quantity else 0
    if verb in lex.COMES:
        return 1
    if verb in lex.LOSSES and verb not in lex.STATES:
        if verb in _DONE_TO_OTHERS and quantity.more:
            return 1
        return -1 if verb not in _DONE_TO_OTHERS or quantity.of_whole else 0
    return 1 if quantity.more else 0


_FROM_OTHERS = frozenset("take buy borrow steal grab adopt snatch".split())
"""What somebody else gets this way comes from the one who had it ("A heron took two fish")."""

_DONE_TO_OTHERS = frozenset(
    "eat give lose sell use spend drop throw drink send pay share forget finish serve feed deliver donate cut "
    "nibble munch gobble bite hand steal".split()
)
"""Losses that the number's own things do not suffer when they are the subject ("three ducks eat bread")."""


def _sign_of_doing(quantity: Quantity, asked: Asked, holder: frozenset[str]) -> int:
    verb = quantity.verb
    question = asked.question
    subject = question.subject
    first = asked.quantities[0]
    if question.verb == verb and quantity is not first and verb not in ("have", "be"):
        subject = first.owner  # "did she give": she is who does it, not who is asked about
    receives = bool(quantity.target & subject) or (
        "<it>" in quantity.target and not (quantity.owner & subject) and bool(quantity.owner) and quantity is not first
    )
    asks_owner = bool(quantity.owner & subject)
    stranger = bool(quantity.owner) and not asks_owner and not quantity.owner & asked.quantities[0].owner
    if stranger and verb in _FROM_OTHERS and not receives and not quantity.more:
        return -1
    if verb == "take":
        if quantity.moves & {"away", "out", "off"} or (quantity.source and not asks_owner):
            return -1
        return 1
    if verb in ("get", "throw", "give", "let") and quantity.moves & {"rid", "away", "out", "off"}:
        return -1
    if verb == "get" and "off" in quantity.place | quantity.moves:
        return -1
    if verb in ("put", "place", "add", "pour", "load", "set"):
        if quantity.source and not quantity.target:
            return -1
        if "away" in quantity.moves:
            return -1
        return 1
    if verb in ("pick", "pull", "gather", "collect") and quantity.source & (holder | subject):
        return -1
    if verb in lex.LOSSES:
        if receives and not asks_owner:
            return 1
        return -1
    if quantity.of_whole and quantity is not asked.quantities[0]:
        return -1
    if verb in lex.GAINS:
        if quantity.source & subject and not asks_owner:
            return -1
        return 1
    if verb in lex.MOVES and quantity.moves:
        return -1 if quantity.moves & lex.OUTWARD else 1
    return 1 if quantity.more else 0
