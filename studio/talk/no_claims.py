"""Manners of talk that set amounts beside each other and claim nothing of them: something is done to an amount told elsewhere, a
number is named by its digits or its tens, several sums are answered in turn. One function each; a new manner is one more
in `MANNERS`."""

from __future__ import annotations

import re
from itertools import pairwise

from studio.talk.claims import MEANS, Saying, of_tens
from studio.talk.expressions import WORD

_CHANGES = re.compile(
    r" (?:takes?|took|taking|taken|gives?|gave|giving|adds?|added|adding|lose|loses|lost|puts?|removed?|trades?|traded|trading|swap|swapped|eats?|ate|shared?)"
    r"(?: (?!and )[a-z'’]+){0,4} $"
)
_HAVING = re.compile(
    r" , (?:(?:then )?(?:it is|there are|that is) |[a-z'’]+ (?:[a-z'’]+ ){0,2}(?:have|has|had|get|gets|got|see|find|end up with) )"
)
_OPENS = re.compile(
    r" (?:opens?|opened|opening|breaks?|broke|breaking|unpacks?|unpacked|unties?|untied|unwraps?|unwrapped|trades?|traded|swaps?|swapped)"
    r" (?:up )?(?:a|one|the|another) $"
)
_SWAPS = re.compile(r" (?:swap|swapped|swaps|swapping|switch|switched|switching) (?:round |around |over )?(?:the )?$")
_LONGEST_SWAP = 26  # characters
_TAKES = re.compile(r" (?:take|takes|took|taking|taken)(?: away| off)? (?:the )?$")
_LONGEST_TAKE = 20  # characters
_LANDING = re.compile(r" , (?:and )?(?:so )?(?:i|we|you|he|she|they|it) (?:lands?|am|are|is|stands?|sits?) (?:on|at) ")
_AND_HAS = re.compile(
    r" (?:, )?and (?:(?:we|you|i|they|he|she|it) )?(?:now )?(?:have|has|had|get|gets|got|see|end up with) #"
)
_ONE_LESS = re.compile(
    r" (?:less|fewer|before|back)(?: than #)?(?: it| that)? (?:is|be|comes|are|makes) # $|"
    r" (?:less|fewer|before|back)(?: than #)?(?: it| that)? (?:is|be|comes|are|makes) $"
)
_GOES_ON = re.compile(r"(?: (?:minus|plus|without|take away|and a|and another) | [.] (?:¶ )?and )$")
_AIM = re.compile(r" (?:just )?to (?:get|make|build|reach) ")


def _changed(saying: Saying) -> bool:
    """ "If I took away all 4 ones, you would have 60", "Take away 2 to get to ten": the amount is done to something
    else, which is not told here."""
    left = saying.left
    if left.terms[-1].more and saying.before(_ONE_LESS, 30):
        return True  # "One less is thirteen, and one more is fifteen": both of the same number
    if saying.before(_SWAPS, _LONGEST_SWAP):
        return True  # "If I swap the two and the five I get two hundred and fifty-six"
    if saying.before(_TAKES, _LONGEST_TAKE) and saying.behind(_LANDING):
        return True  # "Down, we take three and then four, and we land on six"
    if len(left.terms) > 1 or left.terms[0].shape in ("difference", "sum"):
        return False
    if saying.before(_GOES_ON, 12):
        return True  # "smudge minus twelve equals fourteen", "Ten, twenty, thirty. And 4 ones make 34"
    if left.single and saying.behind(_AIM):
        return True
    if left.terms[0].value == 10 and saying.behind(_AND_HAS) and saying.before(_OPENS, 48):
        return True  # "We open a ten and have five tens and thirteen ones"
    return bool(saying.behind(_HAVING) and saying.before(_CHANGES, 48))


_NEXT_IN_ALL = re.compile(r" \. (?:and |so )?(?:in all|altogether) ")
_THE = re.compile(r" the # [^#.?¶§]*$")
_LONGEST_NAMED = 60  # characters


def _named_before(saying: Saying) -> bool:
    """Whether the parts are told of a number in their own sentence, and the next sentence begins with how many there are
    in all ("So the four crosses are split: two and two. In all there are twelve.")."""
    if len(saying.signs) != 1 or not saying.behind(_NEXT_IN_ALL):
        return False
    named = saying.before(_THE, _LONGEST_NAMED)
    return named is not None and saying.speech.value_at(named.start() + 5) == saying.left.value


_CALLED = re.compile(r" [.?] (?:[¶§] )?# \. $")
_LONGEST_CALL = 10  # characters
_CALLS = re.compile(r" \. (?:¶ )?# \. # ")


def _called_before(saying: Saying) -> bool:
    """Whether the number that the parts make was called out before them, and the next one is called after them ("Six! Five
    and one. Nine! Five and four.")."""
    if len(saying.signs) != 1 or not saying.before(_CALLED, _LONGEST_CALL) or not saying.behind(_CALLS):
        return False
    return saying.speech.value_at(saying.start - len("# . ")) == saying.left.value


_ASKED_PART = re.compile(r" and what \? (?:¶ )?$")
_LONGEST_ASKED = 16  # characters


def _part_again(saying: Saying) -> bool:
    """Whether one of the parts was asked for and is told once more ("Ten and what? Ten and four. Four.")."""
    if len(saying.signs) != 1 or not saying.before(_ASKED_PART, _LONGEST_ASKED):
        return False
    return saying.right.single and saying.right.value == saying.left.terms[-1].value


_CALLS_ON = re.compile(r" [.,] (?:¶ )?(?:and )?#(?= [.,?¶§])")


def _each_again(saying: Saying) -> bool:
    """Whether what was named together is told once more, one after the other ("Just three and four. Three. Four.")."""
    left, right = saying.left, saying.sides[-1]
    again = _CALLS_ON.match(saying.text, right.terms[-1].end)
    return (
        saying.signs == ["fragment"]
        and left.joins == ("and",)
        and again is not None
        and (right.value, saying.speech.value_at(again.end() - 1)) == left.numbers
    )


_AND_LOOSE = re.compile(
    rf"#{WORD} (?:, )?(?:and|with|plus) # (?:loose|singles?|odd|separate|spares?|extras?|left over|leftovers?)(?: [a-z]+)?(?: ones?)? "
)


_AND_A_THING = re.compile(
    r" (?:, )?(?:and|with) an? (?!pair |couple |dozen |half |bit |few )(?:[a-z'’]+ ){1,2}(?=[.,;:?!¶] )"
)


def _one_beside(saying: Saying) -> bool:
    """Whether one more is named beside, without its number ("Nine is four and four and a spare")."""
    right = saying.sides[-1]
    return right.joins == ("and",) and _AND_A_THING.match(saying.text, right.terms[-1].end) is not None


def _loose_beside_tens(saying: Saying) -> bool:
    """Whether it names a number by its tens, whatever they are called, and by what is loose beside them ("Three strings
    and four loose, thirty-four")."""
    left, right = saying.left, saying.right
    if len(saying.signs) != 1 or saying.signs[0] not in ("=", "fragment") or left.joins != ("and",) or not right.single:
        return False
    tens, loose = (term.value or 0 for term in left.terms)
    return 10 * tens + loose == right.value and _AND_LOOSE.match(saying.text, saying.start) is not None


def _by_digits(saying: Saying) -> bool:
    """Whether a number of two digits is named by them, and nothing says that they make it ("Thirty-six? Three and six.", "One bucket
    and seven lying about. Seventeen.")."""
    if len(saying.signs) != 1 or saying.signs[0] != "fragment":
        return False
    left, right = saying.sides
    named, digits = (right, left) if right.single else (left, right)
    if not named.single or digits.joins != ("and",) or len(digits.terms) != 2:
        return False
    tens, ones = (term.value or 0 for term in digits.terms)
    return 0 < tens < 10 and ones < 10 and 10 * tens + ones == named.value


_MOVES = re.compile(r"# (?:drops?|jumps?|hops?|steps?|leaps?|strides?|skips?)")
_TENS_IN_MOVES = re.compile(r"# tens , # (?:drops|hops|jumps|leaps|steps|moves)(?= )")


def _in_moves(saying: Saying) -> bool:
    """Whether it is told in how many moves an amount goes on ("Thirty-two and twenty more. That's two drops down the chart.")."""
    if len(saying.signs) != 1:
        return False
    left, right = saying.sides
    start = right.terms[0].start
    if _TENS_IN_MOVES.match(saying.text, start):
        return True  # "Thirty-four add twenty. That's two tens, two drops."
    if right.single and right.value is not None and 10 * right.value == left.terms[-1].value:
        return _MOVES.match(saying.text, start) is not None  # "Six and forty, that is four leaps"
    return left.terms[-1].more and right.single and _MOVES.match(saying.text, start) is not None


_HOW_MANY = re.compile(r" how many [^.?¶§]*$")
_LONGEST_HOW_MANY = 60  # characters


def _ends_how_many(saying: Saying) -> bool:
    """Whether tens end a question that asks how many others there are ("How many more tens make ten tens? Three.")."""
    terms = saying.left.terms
    if len(terms) > 1 or not of_tens(terms[0]) or not saying.text.startswith(" ?", saying.end):
        return False
    return saying.before(_HOW_MANY, _LONGEST_HOW_MANY) is not None


_IN_TURN = re.compile(r"#(?: \. #)+(?= [.¶§])")
_ENDS = re.compile(r" [.?¶§](?: [.?¶§])* ")
_LONGEST_IN_TURN = 200  # characters


def answered_in_turn(text: str, start: int, answer: int) -> bool:
    """Whether the number at offset `answer` is the first of the answers to several sums, the last of which begins at `start` ("Three and
    five. Nine take away one. Four and three. [wait 5 s] Eight. Eight. Seven.")."""
    answers = _IN_TURN.match(text, answer)
    if answers is None:
        return False
    many = answers[0].count("#")
    asked = _ENDS.split(text[max(0, start - _LONGEST_IN_TURN) : start])[:-1][1 - many :]
    return len(asked) == many - 1 and all(sentence.count("#") > 1 for sentence in asked)


def _answered_in_turn(saying: Saying) -> bool:
    first = saying.right.terms[0].start
    return {*saying.signs} == {"fragment"} and answered_in_turn(saying.text, saying.start, first)


_BY = re.compile(r" by (?:only |just )?$")
_LONGEST_BY = 9  # characters


def _grown_by(saying: Saying) -> bool:
    """Whether its first number only tells by how much something changes ("If both grow by two cubes they'll be eighteen and
    eleven")."""
    return saying.signs == ["="] and saying.left.single and saying.before(_BY, _LONGEST_BY) is not None


_IS_THE = re.compile(r" (?:#|one) (?:is|means|are) the $")
_THE_IS_THE = re.compile(r"# (?:is|means|are) the # ")
_LONGEST_IS_THE = 15  # characters


def _each_names_one(saying: Saying) -> bool:
    """Whether each digit is named by what it stands for ("look, the one is the ten and the two is the two")."""
    left = saying.left
    if saying.signs != ["="] or left.joins != ("and",) or not saying.before(_IS_THE, _LONGEST_IS_THE):
        return False
    return _THE_IS_THE.match(saying.text, left.terms[1].start) is not None


_WITH_TENS = re.compile(r" (?:with|having) (?:only )?$")
_LONGEST_WITH = 13  # characters
_THERE_IS = re.compile(r" (?:, )?there (?:is|are) ")


def _has_so_many_tens(saying: Saying) -> bool:
    """Whether it names a number that has so many tens ("With four tens there is only forty-five")."""
    left, right = saying.left, saying.right
    if saying.signs != ["="] or len(left.terms) > 1 or not of_tens(left.terms[0]) or not right.single:
        return False
    if not saying.before(_WITH_TENS, _LONGEST_WITH) or not saying.behind(_THERE_IS):
        return False
    return right.value // 10 == left.terms[0].parts[0]


_AHEAD = re.compile(r"(?: (?!takes? |taken )[a-z]+){0,2} (?:ahead|behind|away|further on|to the (?:left|right))(?= )")


def _lies_away(saying: Saying) -> bool:
    """Whether it is told how far away a number lies ("Ten is six squares behind me and twenty is four squares ahead.")."""
    start = saying.right.terms[0].start
    is_told = saying.text.endswith((" is ", " are "), saying.end, start)
    return {*saying.signs} == {"="} and is_told and _AHEAD.match(saying.text, start + 1) is not None


_LEFT = re.compile(r"(?:^|[.?¶§]| the) left (?:, |is |has |side (?:, |is |has )?|pan (?:, |is |has )?)?$")
_RIGHT = re.compile(r" . (?:¶ )?right ,? ?$")
_LONGEST_LEFT = 20  # characters


def _on_the_right(saying: Saying) -> bool:
    """Whether the left and the right of something are told one after the other ("Left, 6 plus 2. Right, 9.")."""
    if saying.signs != ["fragment"] or not saying.before(_LEFT, _LONGEST_LEFT):
        return False
    return _RIGHT.fullmatch(saying.text, saying.end, saying.right.terms[0].start) is not None


_OR_SUM = re.compile(r"# (?:plus|and|minus|take away) #(?: [a-z]+)? (?:, )?or $")
_LONGEST_OR_SUM = 40  # characters
_TWO_ANSWERS = re.compile(r" \? (?:¶ )?# [.,] #(?= [.,¶§])")


def _either_answered(saying: Saying) -> bool:
    """Whether it is the last of two sums that are asked together and answered in turn ("Two plus three, or four plus two? Five.
    Six.")."""
    return bool(len(saying.left.terms) > 1 and saying.before(_OR_SUM, _LONGEST_OR_SUM) and saying.behind(_TWO_ANSWERS))


_AS_ONE_KNOWS = re.compile(r" , (?:i|we|you) (?:know|remember) ")


def _from_a_known_one(saying: Saying) -> bool:
    """Whether it is worked out from another sum that is told next ("Six and five: I know six and four make ten")."""
    return saying.behind(_AS_ONE_KNOWS) is not None


_EACH_SAID = re.compile(r" # [.?] (?:¶ )?# [.] $")
_LONGEST_EACH = 12  # characters
_NEXT_CALL = re.compile(r"# [.?] (?:¶ )?#(?= )")


def _pair_again(saying: Saying) -> bool:
    """Whether a number that was called and its answer are said once more together before the next is called ("Seven! Three.
    Seven and three. Five! Five again.")."""
    called = saying.before(_EACH_SAID, _LONGEST_EACH)
    if {*saying.signs} != {"fragment"} or saying.left.joins != ("and",) or called is None:
        return False
    pair = tuple(number.value for number in saying.speech.numbers_in(called.start(), saying.start))
    return pair == saying.left.numbers and _NEXT_CALL.match(saying.text, saying.right.terms[0].start) is not None


_NONE_OF = re.compile(r" no (?:#|ten|[a-z]+) (?:made|built) (?:up )?(?:of|from|by|with) $")
_LONGEST_NONE_OF = 40  # characters


def _is_none(saying: Saying) -> bool:
    """Whether it is said that there is none ("There is no ten made of two and five")."""
    start = saying.sides[-1].terms[0].start
    return _NONE_OF.search(saying.text, max(0, start - _LONGEST_NONE_OF), start) is not None


_BECOME = re.compile(r" (?:becomes?|became|turn(?:s|ed)? into) ")


def _and_a_one(saying: Saying) -> bool:
    """Whether a single one that is no number is told behind it ("The eleven ones turn into a ten and a one.")."""
    is_one_more = saying.left.known and saying.right.known and saying.left.value == saying.right.value + 1
    return is_one_more and saying.text.startswith(" and a one ", saying.right.terms[-1].end)


def _becomes_other(saying: Saying) -> bool:
    """Whether an amount becomes another of the same kind, as when a ten is opened or an addend moved over ("The four tens become three
    tens", "Then the nine becomes ten and the six becomes five")."""
    one, other = saying.left.terms[-1], saying.right.terms[0]
    return (
        {*saying.signs} == {"="}
        and (one.shape, one.parts[1:]) == (other.shape, other.parts[1:])
        and (one.shape == "groups" or (saying.left.single and (saying.right.single or len(saying.sides) > 2)))
        and saying.behind(_BECOME) is not None
    )


_TRADED, _IT_BECOMES = re.compile(r"# for (?:#|ones)"), re.compile(r" and it (?:becomes|is|makes) ")


def _is_traded(saying: Saying) -> bool:
    """Whether what is traded is no side of an equation ("Trade a ten for ones and it becomes thirty plus seventeen")."""
    traded = _TRADED.match(saying.text, saying.start, saying.end)
    return traded is not None and saying.behind(_IT_BECOMES) is not None


_BACK = re.compile(r"# (?:back|less) (?:#|one)(?= )")


def _comes_back(saying: Saying) -> bool:
    """Whether what a sum comes to is taken back a step at once ("Twenty-five and nine is thirty-five back one, thirty-four")."""
    return len(saying.signs) == 1 and _BACK.match(saying.text, saying.right.terms[-1].start) is not None


_LEAVES = re.compile(r"[^#.?¶§]* leaves? (?:a |an |the )?# behind(?= )")


def _leaves_its_ones(saying: Saying) -> bool:
    """Whether it is told of a sum what it ends in ("Eight and seven always leave a five behind")."""
    if len(saying.signs) != 1 or not saying.right.single or saying.left.value % 10 != saying.right.value:
        return False
    return _LEAVES.match(saying.text, saying.left.terms[-1].end) is not None


_MOVES_OVER = re.compile(
    r" (?:slides?|moves?|pushes|push|shifts?|carry|carries|brings?|passes|pass|hands?|lends?) (?:the )?$"
)
_LONGEST_MOVE = 14  # characters
_AND_GETS = re.compile(
    r" (?:[a-z]+ ){0,3}and (?:(?:i|you|we|that|it) )?(?:gets?|got|have|has|makes?|is) # (?:plus|and) #"
)


def _moved_over(saying: Saying) -> bool:
    """Whether so many are moved from one addend to the other, and the new sum is named ("I slide three across and get sixty plus
    thirty-three")."""
    return bool(saying.left.single and saying.before(_MOVES_OVER, _LONGEST_MOVE) and saying.behind(_AND_GETS))


_OF_ANOTHER = re.compile(r"(?:# (?:up |on |back |down )?to| neighbou?rs of(?: the)?) $")
_LONGEST_OF_ANOTHER = 20  # characters


def _of_what_lies_by_it(saying: Saying) -> bool:
    """Whether it is told how far it is from one number to another, or what is next to it ("18 to 20 = 2", "The neighbours of twenty are
    nineteen and twenty-one")."""
    return bool(saying.left.single and saying.before(_OF_ANOTHER, _LONGEST_OF_ANOTHER))


_APART = re.compile(r"# apart(?= )")


def _how_far_apart(saying: Saying) -> bool:
    """Whether it is told how far two numbers are from each other ("Six and one are five apart")."""
    return len(saying.signs) == 1 and _APART.match(saying.text, saying.right.terms[-1].start) is not None


_AND_THEN = re.compile(r"#(?: [a-z]+){0,3} \. (?:¶ )?and (?:then )?$")
_LONGEST_AND_THEN = 50  # characters


def _with_the_one_before(saying: Saying) -> bool:
    """Whether a sentence that begins with "And" adds to the number of the one before ("Four green socks. And two blue and two striped makes
    eight.")."""
    before = saying.before(_AND_THEN, _LONGEST_AND_THEN)
    if len(saying.signs) != 1 or before is None or not saying.right.single:
        return False
    numbers = saying.speech.numbers_in(before.start(), saying.start)
    return bool(numbers) and numbers[-1].value + saying.left.value == saying.right.value


_THE_NEW = re.compile(r" (?:the|that|our|my|this|your) (?:new|extra|carried|traded|spare|borrowed) $")
_LONGEST_NEW = 16  # characters


def _with_the_new_one(saying: Saying) -> bool:
    """Whether what is new comes to what was told before ("And the new ten makes four tens")."""
    return len(saying.left.terms) == 1 and saying.before(_THE_NEW, _LONGEST_NEW) is not None


_GOES_BACK = 60  # characters


def _comes_to_the_last(saying: Saying) -> bool:
    """Whether it is the last number before it to which an amount comes ("From fifty, three tens bring us to eighty")."""
    left, right = saying.left, saying.right
    if saying.signs != ["="] or len(left.terms) > 1 or len(right.terms) > 1 or not left.known or not right.known:
        return False
    before = saying.speech.numbers_in(max(0, saying.start - _GOES_BACK), saying.start)
    unit = 10 if of_tens(left.terms[0]) and of_tens(right.terms[0]) else 1
    return bool(before) and right.value in (before[-1].value * unit + left.value, before[-1].value + left.value)


_SO_MANY = re.compile(r" (?:[,.] )?(?:and |so )?(?:that|those|which|these|they) (?:is|are|makes?) ")


def _are_so_many(saying: Saying) -> bool:
    """Whether it is told how many numbers were listed ("The others are six, seven, eight and nine, and those are four goats")."""
    left, right = saying.left, saying.right
    steps = {after - before for before, after in pairwise(left.numbers)}
    return (
        saying.signs == ["="]
        and len(left.terms) > 2
        and all(term.shape == "number" for term in left.terms)
        and len(steps) == 1
        and right.single
        and right.value == len(left.terms)
        and saying.behind(_SO_MANY) is not None
    )


_FROM = re.compile(r"# from #")


def _as_far_from_both(saying: Saying) -> bool:
    """Whether it is told how far something is from two numbers ("It is five from fifty, and it's five from sixty")."""
    terms = [side.terms[0] for side in saying.sides]
    return {*saying.signs} == {"="} and all(_FROM.fullmatch(saying.text, term.start, term.end) for term in terms)


_EACH_WORTH = re.compile(r"(?: [a-z]+)? (?:that|which) (?:is|are) worth ")
_THINGS = re.compile(r"#((?: [a-z]+)+)$")


def _is_worth(saying: Saying) -> bool:
    """Whether things are set against other things that they are worth ("three coins that are worth ten each", "Four wins equal twelve
    points")."""
    if saying.behind(_EACH_WORTH):
        return True
    left, right = saying.left, saying.right
    if saying.signs != ["="] or not left.single or not right.single:
        return False
    one, other = (_THINGS.fullmatch(saying.text, side.terms[0].start, side.terms[0].end) for side in (left, right))
    return one is not None and other is not None and one[1] != other[1]


_LEAVE = re.compile(r"(?: [a-z]+)? leaves? ")


def _leaves_the_rest(saying: Saying) -> bool:
    """Whether some of an amount are told beside it, and how many that leaves ("Five buttons with two in hiding leave three outside")."""
    left, right = saying.left, saying.right
    return (
        saying.signs == ["="]
        and len(left.terms) == 2
        and saying.text.endswith(" with ", left.terms[0].end, left.terms[1].start)
        and left.terms[0].value == right.value + (left.terms[1].value or 0)
        and _LEAVE.search(saying.text, saying.end - 1, right.terms[0].start) is not None
    )


_EACH = re.compile(r" (?:each|apiece|every) ")


def _so_many_each(saying: Saying) -> bool:
    """Whether it is told how many each has, and how many there are ("Four slices with two on each, that's eight olives")."""
    left, right = saying.left, saying.right
    if {*saying.signs} - {"=", "fragment"} or len(saying.signs) != 1 or len(left.terms) != 2 or not right.single:
        return False
    many, of_each = (term.value or 0 for term in left.terms)
    told = _EACH.search(saying.text, left.terms[1].start, right.terms[0].start)
    return many * of_each == right.value and told is not None


_MAKES_WITH = re.compile(r"# (?:makes?|gives?) # with #")


def _makes_it_with(saying: Saying) -> bool:
    """Whether what is made stands between the two that make it ("Eight makes ten with two")."""
    made = _MAKES_WITH.match(saying.text, saying.start)
    if made is None:
        return False
    one, whole, other = (number.value for number in saying.speech.numbers_in(made.start(), made.end()))
    return one + other == whole


_AND_THERE_IS = re.compile(r" (?:, )?and (?:then )?there is ")


def _and_one_over(saying: Saying) -> bool:
    """Whether it is told beside what holds that there is one more ("Eight and eight give sixteen and there is one frog over")."""
    if len(saying.sides) < 3 or saying.sides[-1].value != 1:
        return False
    start, end = saying.sides[-2].terms[-1].end, saying.sides[-1].terms[0].start
    told = len({side.value for side in saying.sides[:-1]}) == 1
    return told and _AND_THERE_IS.fullmatch(saying.text, start, end) is not None


_MEANING = re.compile(rf"(?: [a-z]+){{0,3}} (?:only |just )?(?:{MEANS}|tells us)(?= )")
_A_DIGIT = re.compile(r" (?:the|this|that|first|second|other|digit|one|each|# in|in) $")
_LONGEST_DIGIT = 10  # characters


def _means_its_place(saying: Saying) -> bool:
    """Whether it is told what a digit means ("The two in twenty-four means two tens", "This three means three tens, thirty")."""
    found = saying.before(_A_DIGIT, _LONGEST_DIGIT)
    if found is None or not saying.left.single or saying.behind(_MEANING) is None:
        return False
    return saying.left.value < 10 or found[0].endswith(" in ")


def _result_at_a_comma(saying: Saying) -> bool:
    """Whether tens or ones are told with what they come to, and the whole number is named next ("Four ones and two ones, six ones.
    Ninety-six.")."""
    left = saying.left
    if saying.signs != ["fragment"] or left.joins != ("and", ",") or {term.shape for term in left.terms} != {"groups"}:
        return False
    one, other, both = (term.value or 0 for term in left.terms)
    return one + other == both


MANNERS = (
    _result_at_a_comma,
    _of_what_lies_by_it,
    _with_the_new_one,
    _comes_to_the_last,
    _are_so_many,
    _as_far_from_both,
    _is_worth,
    _leaves_the_rest,
    _so_many_each,
    _makes_it_with,
    _and_one_over,
    _means_its_place,
    _how_far_apart,
    _with_the_one_before,
    _leaves_its_ones,
    _moved_over,
    _becomes_other,
    _and_a_one,
    _is_traded,
    _comes_back,
    _changed,
    _named_before,
    _called_before,
    _part_again,
    _each_again,
    _one_beside,
    _loose_beside_tens,
    _by_digits,
    _in_moves,
    _ends_how_many,
    _answered_in_turn,
    _either_answered,
    _pair_again,
    _is_none,
    _from_a_known_one,
    _grown_by,
    _each_names_one,
    _has_so_many_tens,
    _on_the_right,
    _lies_away,
)


def claims_nothing(saying: Saying) -> bool:
    """Whether it is said in one of these manners."""
    return any(manner(saying) for manner in MANNERS)
