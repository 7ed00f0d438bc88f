"""Questions are paired with their answers: in the next words, or after a wait.

A question whose answer is heard becomes a statement that holds or not; an answer is a short sentence with one number
("Three.", "It needs three more."), a number said with "yes" or "that is", or "yes", "no", "true", "false" where the
question was whether something is so.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from studio.talk.expressions import NOUN
from studio.talk.model import Number, Statement
from studio.talk.speech import Speech

_SENTENCES = 8
_OPENERS = (
    r"(?:(?:yes|yep|right|good|great|correct|perfect|wonderful|super|well done|that is right|you are right|you got it|of course|"
    r"so|oh|hmm|ready|let us (?:see|check|count)|wow|now|hooray|yay|and|well|look|there|good job|good thinking|nice|nice work|"
    r"great job|great thinking|exactly|clever|friends|everyone|children|lovely|bravo|all right|ah|aha|did you (?:say|get|find|think)|was it|is it|"
    r"i hope you said|you said|i (?:got|get|think|say|see|count|hear|heard|found)|if you said|"
    r"we (?:got|get|need|have|say|see|know|found|find|can say|add|counted)|you (?:need|have|get|see|got|add)|it (?:is|needs|makes|was|takes|gives)|they (?:are|make|have|need)|"
    r"there (?:are|is|were)|that (?:is|was|makes|gives us|gives|leaves)|this is|it was|they were|the answer is|the (?:missing|unknown|other) (?:part|number|partner|one) is|the unknown is|he needs|she needs|"
    r"(?:it|he|she) (?:has|had)|the whole is|the total is|altogether|in all) ,? ?(?:\. )?)*"
)
_BARE = re.compile(
    rf"(?:¶ |§ )*{_OPENERS}(?:only |another )?#(?P<noun>{NOUN})(?: more| less| fewer| hops?| steps?| jumps?| away| in all| altogether| left| together| too| now)*(?: [a-z]+)?(?= [.,?])"
)
# "What is double seven? And one more?"
_ONE_MORE_THEN = re.compile(r"(?:¶ )?(?:and|plus|with|or) # (?:more|less|fewer) \?")
_YES_NO = re.compile(
    r"(?:¶ |§ )*(?:(?:well|so|hmm|oh|and|is it|let us see|let us check|ready|that is|it is|this is|this one is|the answer is|i say|they are|did you say) ,? ?(?:\. )?)*"
    r"(?P<word>yes|yep|true|right|correct|no|nope|false|not true|not the same|not equal|wrong)(?= [.,?]| it| they| that| \.)|"
    # "Do five and eight make thirteen? They do!"
    r"(?:¶ )?(?:(?:well|so|oh|ah|hmm|why) , )?(?:it|that|they|those|this|there|we) "
    r"(?:(?:certainly|surely) )?(?P<agreed>(?:is|are|was|were|does|do|did|would|will)(?: not)?)(?= [.])"
)
_RIGHT = re.compile(
    r"\. (?:is (?:that|this|he|she|it|the frog)|was (?:that|he|she)|do you agree|true or false|are they)(?: sentence| number sentence)?(?: right| true| correct| the truth)?(?: or (?:false|wrong|not))?(?: with (?:him|her|me|that))? \? "
)
_TRUE_OR = re.compile(r"true or (?:false|not true)(?: ?[,.?:])? $")
_NOT_SO = re.compile(
    r"(?:#|[a-z]+) , (?:no , )?(?:that|this|which) is (?:not (?:true|right|so|correct)|false|wrong) [.,]|"
    # "you would be claiming four plus three is the same as nine, and that is rubbish"
    r"(?:#|[a-z]+) , and (?:that|this|which) is "
    r"(?:rubbish|nonsense|untrue|a lie|a fib|false|wrong|not (?:true|right|so)) [.,]"
)
_CHECKS = re.compile(r"(?:did you|is it|was it|do you|ready|got it|yes|right|okay|can you)")
_POSITIVE = frozenset({"yes", "yep", "true", "right", "correct"})


def pair(speech: Speech, statements: Sequence[Statement]) -> tuple[Statement, ...]:
    """The statements with every question's answer laid against what it asks for."""
    starts = _offsets(speech)
    run = {
        position
        for statement in statements
        if statement.kind.startswith("count")
        for position in range(statement.start, statement.end)
    }
    found = []
    for statement in statements:
        if statement.kind == "question" and statement.expected is not None:
            found.append(_number_answer(speech, statement, statements, starts, run))
        elif statement.holds is None and isinstance(statement.expected, bool):
            found.append(_truth_answer(speech, statement, starts))
        elif statement.holds is not None and not statement.kind.startswith("count"):
            found.append(_judged(speech, statement, starts))
        else:
            found.append(statement)
    return tuple(found)


def _offsets(speech: Speech) -> dict[int, int]:
    """The offset in the text at which each word's first token starts."""
    found: dict[int, int] = {}
    for offset, position in zip(speech.offsets, speech.positions, strict=True):
        found.setdefault(position, offset)
    return found


def _after(speech: Speech, statement: Statement, starts: dict[int, int]) -> int:
    """The offset just behind the statement's last word."""
    position = statement.end - 1
    while position > statement.start and position not in starts:
        position -= 1
    return starts.get(position, 0)


def _number_answer(
    speech: Speech, question: Statement, statements: Sequence[Statement], starts: dict[int, int], run: set[int]
) -> Statement:
    text = speech.text
    ended = _END.search(text, _after(speech, question, starts))
    if ended is None:
        return question
    begun = ended.start()
    at = ended.end()
    for _ in range(_SENTENCES):
        while text[at : at + 1] == " " or text[at : at + 1] in ("¶", "§", ".", ","):
            if text[at] == "§":
                return question
            at += 1
        if at >= len(text):
            return question
        end = _END.search(text, at)
        stop = end.start() if end else len(text)
        numbers = speech.numbers_in(at, stop)
        goes_on = _EXPRESSION.search(text, begun, at) or _ONE_MORE_THEN.match(text, at)
        if goes_on or _works_on(statements, question, speech.word_at(at)):
            return _somewhere(speech, question, statements)
        if match := _BARE.match(text, at):
            number = speech.number_at[match.end() - len(match[0]) + match[0].index("#")] if "#" in match[0] else None
            if number is not None and number.start not in run and not _says_again(question, text, match.end()):
                lone = len(speech.numbers_in(at, stop)) == 1
                known = number.value in question.values and number.value != question.expected
                opened = match[0].lstrip("¶§ ").startswith("#")
                if (
                    lone
                    and not match["noun"].startswith(
                        (" ten", " one", " rod", " long", " line", " stick", " cube", " square")
                    )
                    and (not known or (opened and not match["noun"] and not _counts_on(speech, number)))
                ):
                    return _settled(question, number.value, number.end)
        if numbers:
            told = _told(speech, question, statements, at, stop)
            if told is not None:
                return replace(question, answered=told)
            answer = next((number for number in numbers if number.value == question.expected), None)
            if answer is not None and {number.value for number in numbers} <= {answer.value, *question.values}:
                return replace(question, answered=answer.start)  # "Ten and what is nine and nine? Ten and eight."
        asks = end is not None and end[0] == "?" and not _CHECKS.match(text, at, stop)
        if asks and numbers:
            return _somewhere(speech, question, statements)
        at = stop + 1
    return _somewhere(speech, question, statements)


def _says_again(question: Statement, text: str, offset: int) -> bool:
    """ "What comes after ten? It is one more." asks once more."""
    return question.written.endswith((" + 1 = ?", " - 1 = ?")) and text[:offset].endswith((" more", " less", " fewer"))


def _counts_on(speech: Speech, number: Number) -> bool:
    """Whether the next number is its neighbour ("Four. Here they come, five!")."""
    at = bisect_left(speech.numbers, number.end, key=lambda other: other.start)
    return at < len(speech.numbers) and abs(speech.numbers[at].value - number.value) == 1


def _works_on(statements: Sequence[Statement], question: Statement, position: int) -> bool:
    """Whether something else has been asked between the question and the word at `position`."""
    index = bisect_left(statements, question.end, key=lambda statement: statement.start)
    return any(
        statement.kind == "question" and statement.end <= position and statement.expected != question.expected
        for statement in statements[index : index + 4]
    )


def _somewhere(speech: Speech, question: Statement, statements: Sequence[Statement]) -> Statement:
    """The question with a later statement or number, in the same segment, that tells its answer."""
    segment = speech.words[question.start].segment
    index = bisect_left(statements, question.end, key=lambda statement: statement.start)
    for statement in statements[index:]:
        if speech.words[statement.start].segment != segment:
            break
        if statement.kind != "question" and question.expected in statement.values:
            return replace(question, answered=statement.start)
    for number in speech.numbers[bisect_left(speech.numbers, question.end, key=lambda n: n.start) :]:
        if speech.words[number.start].segment != segment:
            break
        if number.value == question.expected:
            return replace(question, answered=number.start)
    return question


def _told(speech: Speech, question: Statement, statements: Sequence[Statement], start: int, stop: int) -> int | None:
    """The first word of a whole statement, in text[start:stop], that tells the answer with the numbers asked about."""
    first, last = speech.word_at(start), speech.word_at(stop)
    index = bisect_left(statements, first, key=lambda statement: statement.start)
    for statement in statements[index:]:
        if statement.start > last:
            break
        if statement.kind != "question" and set(question.values) <= set(statement.values) | {1, 10}:
            return statement.start
    return None


def _settled(question: Statement, value: int, position: int) -> Statement:
    written = question.written.replace("?", str(value), 1)
    return replace(question, holds=value == question.expected, answered=position - 1, written=written)


_END = re.compile(r"[.?]")
_EXPRESSION = re.compile(r"[.?¶] (?:¶ )?# (?:plus|minus|take away) # \.")


def _says_yes(match: re.Match[str]) -> bool:
    """Whether a match of `_YES_NO` is a yes."""
    return match["word"] in _POSITIVE if match["word"] else not match["agreed"].endswith(" not")


def _truth_answer(speech: Speech, statement: Statement, starts: dict[int, int]) -> Statement:
    text = speech.text
    at = text.find(" ?", _after(speech, statement, starts))
    if at < 0:
        return statement
    for _ in range(3):
        at += 2
        if match := _YES_NO.match(text, at + (text[at : at + 1] == " ")):
            said = _says_yes(match)
            return replace(statement, holds=said is statement.expected, answered=speech.word_at(match.end() - 1))
        end = _END.search(text, at + 1)
        if end is None:
            break
        at = end.start() - 1
    return statement


def _judged(speech: Speech, statement: Statement, starts: dict[int, int]) -> Statement:
    """ "True or false: 4 + 1 = 5 + 2. False." is true as it is said; so is "Is that right? No!" after a wrong claim."""
    text = speech.text
    begin = starts.get(statement.start, 0)
    after = _after(speech, statement, starts)
    end = _END.search(text, after)
    if end is None:
        return statement
    if _NOT_SO.match(text, after):  # "If someone says twenty-eight and ten makes forty-eight, that is not true"
        return replace(statement, holds=not statement.holds, expected=statement.holds)
    follows = end.start()
    judged = _RIGHT.match(text, follows)
    if judged:
        match = _YES_NO.match(text, judged.end())
    elif _TRUE_OR.search(text[max(0, begin - 20) : begin]):
        match = _YES_NO.match(text, follows + 2)
    else:
        match = re.compile(r"(?P<word>true|false)(?= [.?])").match(text, follows + 2)
    if match is None:
        if judged or _TRUE_OR.search(text[max(0, begin - 20) : begin]):
            return replace(statement, holds=None, expected=statement.holds)
        return statement
    said = _says_yes(match)
    return replace(
        statement, holds=said is statement.holds, expected=statement.holds, answered=speech.word_at(match.end() - 1)
    )
