"""The reader: from the text of a script to a `Lesson`, or all its mistakes at once.

What the language leaves open is decided here, once:

- Lines end with a line feed (Windows and old Macintosh line ends are read as such); columns count characters from 1.
- A picture that is shown under a name that is on takes its place. Pictures stay on from segment to segment until
  `[hide NAME]` or `[clear]`. To change or hide a picture that is not on is a mistake, also when it was on before.
- Directions before the first `#` with no spoken word before it belong to the first segment.
- A direction may run over several lines, but not over an empty line or a title.
- A list bullet, a `>` or the mark of a numbered list (`1.`, `1)`, `a)`) at the start of a line is not spoken, nor is a line
  of dashes; it ends the paragraph. Digits in brackets behind their own words ("five (5)") are not spoken again.
- A sentence ends with `.`, `!` or `?`, at the end of its paragraph, and after an ellipsis if a capital letter follows.
- `&` is read as "and"; an emoji is not spoken, nor does it stand in the captions; so with the marks of code (`7 + 2`).
- Punctuation that stands alone belongs to the word before it ("Look — frogs": "Look —").
- Dashes between digits are minus signs ("9 - 7", "9–7"), except in a chain without an equals sign ("3-2-1"), which is
  a count. Between number words a dash is a pause, except before an equals sign ("Eight - 3 = 5"); U+2212 is always a minus sign.
- `?` (or `__`) next to a sign is the unknown and counts as a word: "7 + ? = 9" is five words.
- `*stress*` covers one word or several of one paragraph; `**` does the same; an asterisk without a partner means
  nothing.
- A script needs at least one spoken word.
"""

from __future__ import annotations

from studio.errors import Problem, UnusableInput
from studio.script import directions
from studio.script.directions import Mistake
from studio.script.header import find_header, read_header, unix_text
from studio.script.model import Change, Details, Lesson
from studio.script.scan import scan

LARGEST = 2_000_000  # characters; about 300,000 words, two days of speech
_MOST_PROBLEMS = 100


def read(text: str, source: str = "") -> Lesson:
    """Read a script. `source` is what the person knows it by (mostly a file name).

    Raises UnusableInput with every mistake of the script (the first 100 of more), in order.
    """
    if len(text) > LARGEST:
        raise UnusableInput(f"the script has {len(text):,} characters; a lesson can have at most {LARGEST:,}.", source)
    text = unix_text(text)
    lines = text.split("\n")
    block = find_header(lines)
    if isinstance(block, Problem):
        raise UnusableInput(block, source)
    problems: list[Problem] = []
    header = read_header(lines, block, problems)
    segments = scan(lines, block.body, header.title, problems)
    if not problems and not any(segment.words for segment in segments):
        problems.append(
            Problem(
                "There is nothing to say yet. Write what you will say under the header.",
                min(block.body + 1, len(lines)),
                1,
            )
        )
    if problems:
        problems.sort(key=lambda problem: (problem.line, problem.column))
        if len(problems) > _MOST_PROBLEMS:
            more = len(problems) - _MOST_PROBLEMS
            problems[_MOST_PROBLEMS:] = [Problem(f"There are {more} more mistakes like these.")]
        raise UnusableInput(problems, source)
    return Lesson(header, segments, source, text)


def read_picture(text: str) -> tuple[str, Details, str]:
    """Read `KIND: DETAILS` or `KIND: DETAILS as NAME` into kind, details and name. Raises UnusableInput."""
    found = directions.parse_picture(text[:LARGEST])
    if isinstance(found, Mistake):
        raise _unusable(text, found)
    return found


def read_change(text: str) -> Change:
    """Read a CHANGE, as it stands in `[NAME: CHANGE]`. Raises UnusableInput."""
    found = directions.parse_change(text[:LARGEST])
    if isinstance(found, Mistake):
        raise _unusable(text, found)
    return found


def _unusable(text: str, mistake: Mistake) -> UnusableInput:
    before = text[: mistake.offset]
    line = before.count("\n") + 1
    column = len(before) - (before.rfind("\n") + 1) + 1
    return UnusableInput(Problem(mistake.message, line, column))
