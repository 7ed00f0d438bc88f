"""How findings put arithmetic into words for a teacher."""

from __future__ import annotations

from collections.abc import Sequence

from studio.findings import Finding
from studio.script.model import Direction
from studio.talk.model import Number, Statement

_TEENS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
ZERO = frozenset("zero 0 nought".split())
"""The words that call a nought by its name."""
_TENS = "zero ten twenty thirty forty fifty sixty seventy eighty ninety".split()


def of_direction(rule: str, direction: Direction, message: str, instead: str) -> Finding:
    """The error that a direction is wrong."""
    place = direction.place
    return Finding(rule, "error", place.line, place.column, "", direction.text, message, instead)


def of_number(rule: str, number: Number, shown: str, message: str, instead: str) -> Finding:
    """The error that a number is wrong; `shown` is the direction that it is laid against, if any."""
    return Finding(rule, "error", number.line, number.column, number.text, shown, message, instead)


def spelled(value: int) -> str:
    """The number word for 0 to 99, digits beyond."""
    if 0 <= value < 20:
        return _TEENS[value]
    if 20 <= value < 100:
        tens, ones = divmod(value, 10)
        return _TENS[tens] + (f"-{_TEENS[ones]}" if ones else "")
    return str(value)


def row(values: Sequence[int | str], word: str = "and") -> str:
    """ "7, 2 and 9"."""
    texts = [str(value) for value in values]
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} {word} {texts[-1]}"


def of_ones(ones: int) -> str:
    return f"{ones} one" if ones == 1 else f"{ones} ones"


def of_tens(tens: int) -> str:
    return f"{spelled(tens)} ten" if tens == 1 else f"{spelled(tens)} tens"


def counted(value: int, thing: str) -> str:
    """ "1 dot", "2 dots"."""
    plural = thing + ("es" if thing.endswith("ss") else "s")
    return f"{value} {thing if value == 1 else plural}"


def why_false(statement: Statement) -> tuple[str, str]:
    """Why a statement does not hold, and what to say instead."""
    values = statement.values
    match statement.kind:
        case "sum" | "near double" if len(values) >= 3 and "×" not in statement.written and _plain(statement):
            *parts, whole = values
            if statement.kind == "near double":
                return _by_sides(statement)
            return (
                f"{row(parts)} make {sum(parts)}, not {whole}.",
                f"Say {sum(parts)}, or change one of {row(parts)}.",
            )
        case "parts" if _plain(statement):
            whole, *parts = values
            return (
                f"{row(parts)} make {sum(parts)}, not {whole}.",
                f"With {row(parts[:-1])}, the other part of {whole} is {whole - sum(parts[:-1])}."
                if whole >= sum(parts[:-1])
                else f"{row(parts)} make {sum(parts)}.",
            )
        case "difference" if len(values) == 3:
            whole, part, rest = values
            if whole >= part:
                return f"{whole} take away {part} is {whole - part}, not {rest}.", f"Say {whole - part}."
            return (
                f"{whole} is less than {part}, so {part} cannot be taken away from it.",
                f"{part + rest} take away {part} is {rest}.",
            )
        case "unknown part" | "partners" | "parts of a whole" if len(values) == 3:
            part, need, whole = values
            if whole >= part:
                return (
                    f"{part} and {need} make {part + need}, not {whole}; from {part} to {whole} it is {whole - part}.",
                    f"Say {whole - part} instead of {need}, or {part + need} instead of {whole}.",
                )
            return f"{part} is already more than {whole}.", f"{part} and {need} make {part + need}."
        case "tens and ones" if len(values) in (3, 4):
            whole, tens, *_, ones = values
            unit = values[2] if len(values) == 4 else 10
            if unit != 10:
                return (
                    f"{of_tens(whole // 10).capitalize()} and {of_ones(whole % 10)} make {whole}; a ten is 10, not {unit}.",
                    f"Say {of_tens(whole // 10)} and {of_ones(whole % 10)}.",
                )
            return (
                f"{of_tens(tens).capitalize()} and {of_ones(ones)} make {10 * tens + ones}; "
                f"{whole} is {of_tens(whole // 10)} and {of_ones(whole % 10)}.",
                f"Say {whole} is {of_tens(whole // 10)} and {of_ones(whole % 10)}.",
            )
        case "shared digit":
            one, other, digit = values
            return f"{one} and {other} do not both have the digit {digit}.", "Change one of the numbers."
        case "digit":
            digit, worth = values
            return (
                f"The digit {digit} means {of_ones(digit)} or {of_tens(digit)}, not {worth}.",
                "Change one of the two numbers.",
            )
        case "tens" | "ones":
            number, many = values
            tens, ones = divmod(number, 10)
            return (
                f"{number} is {of_tens(tens)} and {of_ones(ones)}, so it does not have {many} {statement.kind}.",
                f"Say {tens if statement.kind == 'tens' else ones}.",
            )
        case "more than" | "one more":
            more, base, result = values
            return f"{more} more than {base} is {base + more}, not {result}.", f"Say {base + more}."
        case "less than" | "one less":
            less, base, result = values
            if base >= less:
                return f"{less} less than {base} is {base - less}, not {result}.", f"Say {base - less}."
            return (
                f"{less} is more than {base}, so there is no {less} less.",
                f"{less} less than {result + less} is {result}.",
            )
        case "between":
            number, one, other = values
            return f"{number} does not come between {one} and {other}.", "Change one of the three numbers."
        case "even row":
            return f"With what is in its gap the row is {statement.written}, and that does not go on evenly.", (
                "Say the number that belongs in the gap, or change the row."
            )
        case "double" if len(values) == 2:
            half, result = values
            return f"Double {half} is {2 * half}, not {result}.", f"Say {2 * half}."
        case "greater" | "less" if len(values) == 2:
            one, other = values
            if one == other:
                return f"{one} and {other} are the same.", "Say that they are equal."
            return (
                f"{one} is {'greater' if one > other else 'less'} than {other}.",
                f"Say {'greater' if one > other else 'less'}, or change one of the numbers.",
            )
        case _:
            return _by_sides(statement)


def _plain(statement: Statement) -> bool:
    return not any(sign in statement.written for sign in ("×", " - ", "half"))


def _by_sides(statement: Statement) -> tuple[str, str]:
    """The sides of what was said with their values ("4 + 1 is 5, and 5 + 2 is 7")."""
    for sign in (" = ", " ≠ ", " > ", " < "):
        if sign in statement.written:
            sides = statement.written.split(sign)
            values = [evaluate(side) for side in sides]
            first = values[0]
            if sign == " = " and len(sides) > 2 and _runs_on(sides, values):
                parted = [f"{side} = {value}" for side, value in zip(sides[:-1], values[:-1], strict=True)]
                return (
                    "What stands on both sides of an equals sign must be the same: "
                    f"{sides[0]} is {first}, and {sides[1]} is {values[1]}.",
                    f"Say each by itself: {'. '.join(parted)}.",
                )
            told = [side if value is None or side == str(value) else f"{side} is {value}"
                    for side, value in zip(sides, values, strict=True)]  # fmt: skip
            if sign == " = " and first is not None and set(values[:-1]) == {first} and _is_result(sides):
                return f"{row(told[:-1], 'and')}, not {sides[-1]}.", f"Say {first}, or change the other numbers."
            signs = (
                ""
                if statement.said == statement.written
                else f"In signs that is {statement.written}, and it is not true: "
            )
            return (
                f"{signs}{row(told, 'but')}.",
                f"Make every side come to {first}." if first is not None else "Change one of the numbers.",
            )
    return f"In signs that is {statement.written}, and it is not true.", "Change one of the numbers."


def _is_result(sides: Sequence[str]) -> bool:
    return sides[-1].isdigit() and not sides[0].isdigit()


def _runs_on(sides: Sequence[str], values: Sequence[int | None]) -> bool:
    """Whether each side goes on from the value of the one before ("7 + 3 = 10 + 2 = 12"), and the last is the result."""
    on = all(side.startswith(f"{value} ") for side, value in zip(sides[1:-1], values, strict=False))
    return on and sides[-1] == str(values[-2]) and None not in values


def evaluate(side: str) -> int | None:
    """The value of "10 + 4", "2 × 5", "8 - 1", "half of 10"; None for anything else."""
    whole = side.removeprefix("half of ")
    if whole != side and whole.isdigit() and int(whole) % 2 == 0:
        return int(whole) // 2
    total = 0
    sign = 1
    for token in side.replace("+", " + ").split(" "):
        if token in ("", "+"):
            sign = 1 if token == "+" else sign
        elif token == "-":
            sign = -1
        elif token.isdigit():
            total += sign * int(token)
        else:
            return _product(side)
    return total


def _product(side: str) -> int | None:
    total = 0
    for term in side.split(" + "):
        factors = term.split(" × ")
        if not all(factor.isdigit() for factor in factors):
            return None
        value = 1
        for factor in factors:
            value *= int(factor)
        total += value
    return total


# What is counted of a lesson and of a day, and not in a picture.
UNITS = frozenset(
    "sentence sentences family families number numbers minute minutes second seconds hour hours day days week weeks year years o'clock time month months am pm "
    "percent degrees metres meters miles feet inches step steps way ways part parts things thing side sides rows row "
    "frame frames question questions story stories picture pictures pieces word words lines line letters rules rule "
    "hands hand eyes ears legs fingers finger toes friends grown-ups pencils colours colors crayons place places sheet sheets page pages strategies strategy facts fact "
    "stars star points point times claps cheers hugs tries turns tasks games rounds breaths".split()
)

# What a ten of a base ten picture is called, and what its ones are.
TEN_THINGS = frozenset(
    "ten tens rod rods long longs line lines stick sticks bundle bundles strip strips bar bars tower towers train trains".split()
)
ONE_THINGS = frozenset(
    "one ones square squares cube cubes unit units single singles loose small little more extra".split()
)

# Words of a sentence that supposes, denies or exchanges something: its numbers need not be on the screen.
SUPPOSED = frozenset(
    "if would could might cannot can't couldn't wouldn't imagine pretend suppose guess guessed maybe perhaps thinking not "
    "too trade trades traded trading swap swapped exchange".split()
)
