"""`description.txt`: the text to paste where the film is posted."""

from __future__ import annotations

from studio.captions.chapters_txt import write_chapters_txt
from studio.captions.text import tidy
from studio.kit.contents import KitContents
from studio.kit.wording import heading_above
from studio.pictures.base import either

# How a kind is called where it is not its name with an s; "" where it is not worth telling.
_NAMES = {
    "base ten": "tens and ones", "cards": "number cards", "compare bars": "bars to compare", "dice": "dice",
    "dots": "dots",
    "more and less": "one less and one more", "tally": "tally marks", "text": "", "word": "the number as a word",
}  # fmt: skip


def description_text(contents: KitContents) -> str:
    """Plain text with a line end at the end."""
    header = contents.lesson.header
    blocks = ["\n".join(part for part in (tidy(header.title), heading_above(header)) if part)]
    about = _about(contents)
    if about:
        blocks.append(about)
    if header.needs:
        blocks.append("Have ready:\n" + "\n".join(f"- {tidy(need)}" for need in header.needs))
    blocks.append("Chapters:\n" + write_chapters_txt(contents.chapters).rstrip("\n"))
    if header.standards:
        blocks.append("Standards: " + ", ".join(tidy(standard) for standard in header.standards))
    blocks.append("Captions: yes. Transcript and handout: yes.")
    return "\n\n".join(blocks) + "\n"


def _about(contents: KitContents) -> str:
    facts = contents.facts
    found = []
    if facts.number is not None:
        found.append(f"The number of the day is {facts.number}.")
    if facts.whole is not None:
        found.append(f"We find the partners of {facts.whole}.")
    kinds = [_NAMES.get(kind, f"{kind}s") for kind in facts.kinds if _NAMES.get(kind) != ""]
    if kinds:
        found.append(f"You will see {either(kinds)}.")
    return " ".join(found)
