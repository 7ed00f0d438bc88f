"""Why a direction cannot be read: one sentence with the nearest right word."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from studio.script.directions import VERBS, Mistake, tidy
from studio.script.kinds import KINDS
from studio.script.nearest import did_you_mean, nearest

if TYPE_CHECKING:
    from lark.exceptions import UnexpectedInput

CHANGES = (
    "add 3 dots",
    "add 3 crosses",
    "take away 2",
    "fill in",
    "fill in 2",
    "circle 2",
    "hop 7 to 9",
    "turn over 5",
    "mark 9",
    "count",
    "count by 5",
)
_CHANGE_VERBS = ("add", "take away", "fill in", "circle", "hop", "turn over", "mark", "count")
_FORMS = {
    "hide": "Write which picture goes: [hide NAME].",
    "clear": "[clear] stands alone; for one picture write [hide NAME].",
    "wait": "A wait is written [wait 5 s] or [wait 5 s: words to show].",
    "note": "Write your note after a colon: [note: words].",
    **dict.fromkeys(
        ("pause", "stop", "think", "break", "silence"),
        "Time to think is written [wait 5 s] or [wait 5 s: words to show].",
    ),
}
# Words of the grammar that can be mistyped, by the terminal that they belong to.
_WORDS = {
    "MARK": ("dots", "crosses"),
    "EMPTY": ("empty",),
    "_IS": ("is",),
    "_EQUALS": ("=",),
    "_AND": ("and",),
    "_JOIN": ("and",),
    "_TO": ("to",),
    "MARKING": ("mark",),
    "COUNTING": ("counting",),
    "_BY": ("by",),
    "GROUPS": ("twos", "fives", "tens"),
    "UNIT": ("seconds",),
    "_AS": ("as",),
}
_LARGE = re.compile(r"\d{7,}")
_WORD = re.compile(r"[^\W\d_]+|\d+|\S")


def explain(start: str, text: str, error: UnexpectedInput) -> Mistake:
    """The mistake in a text that the grammar refused when reading a `start` ("direction", "picture" or "change")."""
    if large := _LARGE.search(text):
        return Mistake("This number is too large; a picture can have numbers up to 999,999.", large.start())
    if start == "picture":
        return _picture(text, 0, error)
    if start == "change":
        return _change(text, 0, error)
    if not text.strip():
        return Mistake("There is nothing between the brackets.")
    offset = len(text) - len(text.lstrip())
    match = re.match(r"[^\s:,]*", text[offset:])
    first = match[0] if match else ""
    verb = first.lower()
    if verb == "show":
        return _picture(text, offset + len(first), error)
    if verb == "camera":
        rest = text[offset + len(first) :].strip(" :\n\t")
        return Mistake(
            "The camera can be 'full', 'beside' or 'off'."
            + (did_you_mean(rest, ("full", "beside", "off")) if rest else ""),
            offset,
        )
    if verb in _FORMS:
        return Mistake(_FORMS[verb], offset)
    meant = nearest(first, VERBS)
    if ":" in text and meant is None:
        return _change(text, text.index(":") + 1, error)
    if meant is not None:
        return Mistake(f"There is no direction '{first}'. Did you mean '{meant}'?", offset)
    if nearest(first, _CHANGE_VERBS) or nearest(tidy(text)[:10], _CHANGE_VERBS):
        return Mistake(f"Write which picture changes: [NAME: {tidy(text)[:40]}].", offset)
    return Mistake(
        f"There is no direction '{_short(text)}'. A direction is show, hide, clear, wait, camera, note or "
        "NAME: CHANGE; what is for you alone goes into [note: ...].",
        offset,
    )


def _picture(text: str, start: int, error: UnexpectedInput) -> Mistake:
    rest = text[start:]
    offset = start + len(rest) - len(rest.lstrip())
    written, colon, details = rest.partition(":")
    name = tidy(written).lower()
    if not name:
        message = "Write which picture comes on, for example [show ten frame: 7 dots]."
        return Mistake(message, offset if colon else start)
    kind = KINDS.get(name)
    if kind is None:
        begins = [known for known in KINDS if name.startswith(known + " ")]
        if begins and not colon:
            known = max(begins, key=len)
            return Mistake(f"Put a colon after '{known}': [show {known}: {KINDS[known].examples[0]}].", offset)
        said = did_you_mean(name, KINDS)
        if not said:
            said = f" The pictures are: {', '.join(KINDS)}."
        return Mistake(f"There is no picture '{_short(written)}'.{said}", offset)
    if not details.strip():
        return Mistake(f"Write what to show after a colon: [show {name}: {kind.examples[0]}].", offset)
    where, said = _nearest_word(text, error, offset + len(written.strip()) + 1)
    message = f"'{_short(details)}' cannot be shown after '{name}:'.{said} Write it like {_either(kind.examples)}."
    return Mistake(message, where)


def _change(text: str, start: int, error: UnexpectedInput) -> Mistake:
    rest = text[start:]
    offset = start + len(rest) - len(rest.lstrip())
    written = tidy(rest).lower()
    if not written:
        return Mistake("Write how the picture changes, for example [frame: add 3 crosses].", max(start - 1, 0))
    verb = next((verb for verb in _CHANGE_VERBS if re.match(rf"{verb}\b", written)), None)
    if verb is None:
        # Look at two words first ("tak away 2"), then at one ("ad 3 dots").
        words = written.split()
        two = " ".join(words[:2])
        meant = nearest(two, [v for v in _CHANGE_VERBS if " " in v]) or nearest(words[0], _CHANGE_VERBS)
        if meant:
            shown = two if " " in meant and len(words) > 1 else words[0]
            return Mistake(f"There is no change '{_short(shown)}'. Did you mean '{meant}'?", offset)
        return Mistake(f"There is no change '{_short(rest)}'. A picture can change by {_either(CHANGES)}.", offset)
    if "counting" in written and verb not in ("add", "take away", "hop"):
        return Mistake(
            "Only 'add', 'take away' and 'hop' can be followed by ', counting'.", start + rest.lower().index("counting")
        )
    where, said = _nearest_word(text, error, offset)
    examples = [change for change in CHANGES if change.startswith(verb)]
    return Mistake(f"'{_short(rest)}' cannot be read as a change.{said} Write it like {_either(examples)}.", where)


def _nearest_word(text: str, error: UnexpectedInput, least: int) -> tuple[int, str]:
    """Where the grammar stopped, and the word that could have stood there, as far as one is near."""
    at = getattr(error, "pos_in_stream", None)
    if at is None or at < least or at > len(text):
        at = least if at is None or at < least else len(text)
    while at < len(text) and text[at].isspace():
        at += 1
    word = _WORD.match(text, at)
    if word is None:
        return min(at, max(len(text.rstrip()) - 1, 0)), ""
    expected = next((found for name in ("accepts", "expected", "allowed") if (found := getattr(error, name, None))), ())
    choices = [known for terminal in sorted(expected) for known in _WORDS.get(terminal, ())]
    if len(word[0]) < 2 or word[0].isdigit():
        return at, ""
    return at, did_you_mean(word[0], choices)


def _either(examples: tuple[str, ...] | list[str]) -> str:
    quoted = [f"'{example}'" for example in examples]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + f" or {quoted[-1]}"


def _short(text: str) -> str:
    text = tidy(text)
    return text if len(text) <= 40 else text[:37].rstrip() + "..."
