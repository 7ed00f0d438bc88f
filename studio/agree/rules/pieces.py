"""Working that is told in pieces comes out piece by piece: "9 up to 10 is 1, then 10 up to 15 is 5. 1 and 5 is 6",
"Fourteen is four above ten", "Give it 1 of the 7, which leaves 6", "She took out four of its ten, and six were left",
"Tens: twenty and thirty, fifty". The way from one number to the next is as long as told, what is given away and what is
left make what was there, and the sum at the end puts together the pieces that were told."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import row
from studio.findings import Finding
from studio.talk.model import Number

NAME = "pieces fit"
_IS = r"(?:(?:,|is|it is|that is|takes|needs|which takes|which is|that takes) )+(?:only |another )?"
_STEP = re.compile(
    rf"(?:(?P<from>#) )?(?P<by>up |on )?to (?:the )?(?P<to>#) (?:first )?{_IS}(?P<way>#) (?:more )?"
    r"(?:[.,](?! (?:and )?# [.,])|and (?!#))"
)
# "From 6 up to 9: seven, eight, nine" is a count, so no number follows at once.
_BETWEEN = r"(?:¶ )?(?:(?:and|so|now|next|from) )*"
_START = re.compile(r"(?:up|on|start|begin|starting) (?:from|at) (#) [.,] (?:¶ )?$|(#) and what \? (?:¶ )?$|from $")
_PUT = re.compile(r"(?<! from) the $")
_AWAY = re.compile(r"(?<=[.?¶§,] )(#) is (?:only )?(#) (above|below|short of|past|beyond) (#) (?=[.,])")
_SUM = re.compile(r"(?:¶ )?(?:so |and )?(#) and (#) (?:is|are|makes?|,)")
_GIVEN = re.compile(
    r"(?:give|lend|pass|hand|take) (?:it |him |her |them |the # |# )?(?:its )?(?P<part>#) "
    r"(?:of|out of|from) the (?P<whole>#) (?:, (?:which|that|and that)|\. (?:¶ )?that) leaves (?P<rest>#) (?=[.,])|"
    r"(?:give|lend) (?:the )?# its (?P<part2>#) \. (?:¶ )?that leaves (?P<rest2>#) of the (?P<whole2>#) (?=[.,])|"
    r"(?<=[.?¶§] )(?:the )?(?P<whole3>#) (?:gives|lends) (?:away )?(?P<part3>#) , (?:and |so )?(?P<rest3>#) "
    r"(?:stay|stays|remain|remains|are left|is left)(?= )|"
    r"(?P<part4>#|one) of (?:the|its|his|her|their|these|those) (?P<whole4>#) (?:(?!of)[a-z]+ ){0,4}(?:the # )?"
    r"[.,] (?:¶ )?"
    r"(?:and |so |that )*(?P<rest4>#) (?:are|is|were|was) (?:still )?left(?= )"
)
_PLACES = re.compile(r"(?<=[.?¶§] )(?:tens|ones) , (#) and (#) , (#) (?=[.])")


def find(case: Case) -> Iterator[Finding]:
    yield from _ways(case)
    yield from _sums(case)


def _number(case: Case, match: re.Match[str], group: int | str) -> Number:
    return case.talk.speech.number_at[match.start(group)]


def _finding(case: Case, number: Number, message: str, instead: str) -> Iterator[Finding]:
    if not case.is_excused(number.start, number.end):
        line, column = number.line, number.column
        yield Finding(NAME, "error", line, column, number.text, "", f"Line {line} says that {message}.", instead)


def _ways(case: Case) -> Iterator[Finding]:
    """Ways from one number to another, and the sum of two that follow one another."""
    text = case.talk.speech.text
    for pattern in (_STEP, _AWAY):
        last: tuple[int, int, int] | None = None  # where the last way ends, how long it is, and the number it comes to
        for match in pattern.finditer(text):
            joined = last is not None and re.fullmatch(_BETWEEN, text[last[0] : match.start()]) is not None
            told = _way(case, match, last[2] if last and joined else None)
            if told is None:
                last = None
                continue
            begin, way, end = told
            apart = abs(begin - end)
            if way.value != apart and _put_on(match):
                if way.value != begin + end:
                    yield from _finding(case, way, f"{begin} and {end} make {way.value}",
                                        f"{begin} and {end} make {begin + end}.")  # fmt: skip
                last = None
                continue
            if way.value != apart and 10 * way.value != apart:
                yield from _finding(case, way, f"from {begin} to {end} it is {way.value}",
                                    f"From {begin} to {end} it is {apart}; say that.")  # fmt: skip
            elif joined and last and (sums := _SUM.match(text, match.end() + 1)):
                yield from _put_together(case, sums, last[1], way.value)
            last = match.end() + 1, way.value, end


def _put_on(match: re.Match[str]) -> bool:
    """Whether an amount is put on a number ("Bolt the thirty on to forty-six, seventy-six")."""
    start = match.start()
    if match.re is not _STEP or match["by"] != "on ":
        return False
    return _PUT.search(match.string, max(0, start - len(" from the ")), start) is not None


def _put_together(case: Case, match: re.Match[str], one: int, other: int) -> Iterator[Finding]:
    parts = [_number(case, match, group) for group in (1, 2)]
    if sorted(part.value for part in parts) != sorted((one, other)):
        yield from _finding(case, parts[0], f"{row([part.value for part in parts])} are put together, but the two ways "
                            f"told before are {row([one, other])}", f"Put together {row([one, other])}.")  # fmt: skip


def _way(case: Case, match: re.Match[str], before: int | None) -> tuple[int, Number, int] | None:
    """From where a way goes, how long it is, and where to."""
    if match.re is _AWAY:
        return _number(case, match, 4).value, _number(case, match, 2), _number(case, match, 1).value
    way, end = _number(case, match, "way"), _number(case, match, "to").value
    if match["from"]:
        return (_number(case, match, "from").value, way, end) if match["by"] else None
    if before is not None:
        return before, way, end
    lead = _START.search(case.talk.speech.text, max(0, match.start() - 40), match.start())
    if lead is None or lead[0] == "from ":
        return None
    return _number(case, lead, 1 if lead[1] else 2).value, way, end


def _sums(case: Case) -> Iterator[Finding]:
    text = case.talk.speech.text
    for match in _GIVEN.finditer(text):
        group = next(end for end in ("", "2", "3", "4") if match[f"whole{end}"])
        rest, whole = (_number(case, match, name + group) for name in ("rest", "whole"))
        part = 1 if match[f"part{group}"] == "one" else _number(case, match, f"part{group}").value
        if part + rest.value != whole.value:
            yield from _finding(case, rest, f"{whole.value} gives {part} and keeps {rest.value}",
                                f"{part} and {rest.value} make {part + rest.value}.")  # fmt: skip
    for match in _PLACES.finditer(text):
        one, other, total = (_number(case, match, group) for group in (1, 2, 3))
        if one.value + other.value != total.value:
            yield from _finding(case, total, f"{one.value} and {other.value} make {total.value}",
                                f"{one.value} and {other.value} make {one.value + other.value}.")  # fmt: skip
