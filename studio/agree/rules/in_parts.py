"""What is told to be in parts is the whole of the bond on the screen ("[show number bond: 12 is 5 and 7] The twelve ducklings come in two
parts.")."""

from __future__ import annotations

import re
from collections.abc import Iterator

from studio.agree.case import Case
from studio.agree.wording import of_number, row, spelled
from studio.findings import Finding
from studio.pictures.wholes import WholePicture

NAME = "whole is in parts"
_TOLD = re.compile(r" the (#) (?:[a-z]+ ){1,3}(?:now )?(?:in|into) (?:#|these|both|its) parts ")


def find(case: Case) -> Iterator[Finding]:
    speech = case.talk.speech
    for match in _TOLD.finditer(speech.text):
        number = speech.number_at[match.start(1)]
        wholes = {
            seen.picture.whole for seen in case.on_screen_at(number.start) if isinstance(seen.picture, WholePicture)
        }
        known = sorted(whole for whole in wholes if whole is not None)
        if (
            known
            and len(known) == len(wholes)
            and number.value not in known
            and not case.is_excused(number.start, number.end)
        ):
            yield of_number(
                NAME, number, "",
                f"Line {number.line} says that {number.value} are in parts, but the whole on the screen is {row(known, 'or')}.",
                f"Say {spelled(known[0])}, or change the picture.",
            )  # fmt: skip
