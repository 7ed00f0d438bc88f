"""The body of a script: titles, spoken words and directions, each with its place, in one pass over the lines."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from studio.errors import Problem
from studio.script.directions import VERBS, Mistake, Unplaced, parse_direction, tidy
from studio.script.kinds import KINDS
from studio.script.line_ends import line_ends
from studio.script.lists import list_marks
from studio.script.model import ChangePicture, Clear, Direction, Hide, Place, Segment, Show, Word
from studio.script.nearest import did_you_mean, nearest
from studio.script.numberwords import ONES, TENS, to_number

# Nothing that is spoken: spaces of every width, emoji
_GAP = r"\s\u200b\ufeff\u2600-\u27bf\u2b00-\u2bff\ufe0f\u200d\U0001f000-\U0001faff"
_IS_GAP = re.compile(f"[{_GAP}]")
_PIECE = re.compile(rf"[\[\]]|[^\[\]{_GAP}]+")
_LONGEST_WORD = 60  # letters, as far as signs behind a word are taken into it
_BRACKET = re.compile(r"[\[\]]")
_PLAIN_CHUNK = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*[.,!?;:]*\Z")
_RULE = re.compile(r"\s{0,3}(?:-\s*){3,}\Z|\s{0,3}(?:\*\s*){3,}\Z|\s{0,3}(?:_\s*){3,}\Z")
_SENTENCE_END = re.compile(r"(?P<end>[.!?…]+)[\"'”’)*]*\Z")
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1b\x7f\ud800-\udfff]")
_TITLE = re.compile(r"#(?P<more>#*)(?P<space>\s*)(?P<title>.*?)\s*\Z")
_MARKUP = re.compile(r"<!--|</?[a-zA-Z][^\s<>]*>")

# Signs inside a chunk. A minus is a dash between two digits or unknowns; arrows and rules of signs are punctuation.
_TIMES = re.compile(r"(?<=\d)\*(?=\d)")
_SIGN = re.compile(r"(?<![-+=<>])[+=<>](?![-+=<>])|(?:\A|(?<=[\d?_□)]))[-−–](?=[\d?_□(£$€])|−|[×÷]|" + _TIMES.pattern)
_MINUS = "-−–"
_SIGNS = frozenset("+-=<>×÷*/")
_SAME_SIGN = {
    0x2010: "-",
    0x2011: "-",
    **dict.fromkeys((0x2610, 0x2B1C, 0x25FB, 0x25A2), "□"),
}  # as office programs and telephones write them
_COUNT_CHAIN = re.compile(r"\d+(?:[-–]\d+){2,}[.,!?;:…]*\Z")
# Directions may stand inside what is written without a space ("9-[dots: take away 7]7").
_RUN = re.compile(r"(?:\[[^\[\]]*\]|[^\s\[\]])+")
_DIRECTION = re.compile(r"\[[^\[\]]*\]")
_MINUS_AT_END = re.compile(r"[\d?_□)][-–]\Z")
_DIGITS_BEHIND = re.compile(r"(?:\[[^\[\]]*\])+[(]?[\d?_□]")
# Where words were written without a space between them.
_JOINT = re.compile(
    r"(?<=[^\W_])(?:—|…|\.{2,}|--+)(?=[\"“‘'(]*[^\W_])"  # Look—frogs
    r"|(?<=[^\W\d_])–(?=[^\W_])"
    r"|(?<=[^\W_])[,;!?](?=[^\W\d_])|(?<=[^\W\d_])[,;!?:](?=\d)"  # nine,ten
    r"|(?<=[a-z]{2})\.(?=[A-Z])"
)
_ALL = frozenset(("all", "everything", "pictures", "all pictures", "screen"))
_LIST = re.compile(r"\d+(?:,\d+)+")
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+\Z")
_UNKNOWN = re.compile(r"(?:[?□]|_+)[.,!?;:…\"”’)]*\Z")
_NUMERIC_END = re.compile(r"(?:[\d?_□)]|\d(?:p|c|¢|mm|cm|m|km|g|kg|ml|l))\Z")
_NUMERIC_START = re.compile(r"\s*(?:\[[^\[\]]*\]\s*)*[(]?\**[£$€]?[\d?_□]")
_NUMBER = rf"(?:[\d?_□]+|(?:{'|'.join(TENS)})(?:-(?:{'|'.join(ONES[1:10])}))?\b|(?:{'|'.join(reversed(ONES))})\b)"
_NUMBER_END = re.compile(rf"(?:\A|(?<=\W)){_NUMBER}\Z", re.IGNORECASE)
_AMOUNT = rf"\**{_NUMBER}\**(?:\s+[a-z]+)?"  # with what is counted: "9 frogs - 4 frogs = 5 frogs"
_UP_TO_EQUALS = re.compile(rf"(?:\s*{_AMOUNT}\s*[-+−–]){{0,3}}\s*{_AMOUNT}\s*=", re.IGNORECASE)
_CODE = "`"
_AND = "&"
_AGAIN = re.compile(r"\((?:(?P<digits>\d{1,3})|(?P<word>[A-Za-z]+(?:-[A-Za-z]+)?))\)(?P<end>[.,!?;:…\"'”’]*)\Z")
_LONGEST_NUMBER = 5  # words: "one hundred and twenty five"
_SIGN_START = re.compile(r"\s*(?:\[[^\[\]]*\]\s*)*\**[-+=<>−–]\**(?=[\s\d?_□(*]|\Z)")


@dataclass(slots=True)
class _Open:
    """A segment in the making."""

    title: str
    place: Place
    words: list[Word]
    directions: list[Direction]


def scan(lines: list[str], start: int, opening: str, problems: list[Problem]) -> tuple[Segment, ...]:
    """The segments in `lines[start:]`; `opening` is the title of what stands before the first `#`."""
    return _Scanner(lines, start, opening, problems).run()


class _Scanner:
    def __init__(self, lines: list[str], start: int, opening: str, problems: list[Problem]) -> None:
        self.lines = [line.translate(_SAME_SIGN) for line in lines]
        self.marks = list_marks(lines, start)
        self.ends = line_ends(lines, start)
        self.row = start
        self.problems = problems
        self.segments = [_Open(opening, Place(min(start + 1, len(lines)), 1), [], [])]
        self.in_opening = True
        self.spoken = 0  # words so far
        self.sentence = -1
        self.paragraph = -1
        self.new_sentence = True
        self.new_paragraph = True
        self.perhaps_ended = False  # after an ellipsis
        self.spaced = True  # was there a space since the last word?
        self.stress_from: int | None = None  # index, in the segment, of the first word under an open asterisk
        self.run_here = (-1, 0, 0, False)  # row, start, stop, whether it is a chain of counts
        self.on: dict[str, str] = {}  # pictures that are on, by name: their kind
        self.gone: dict[str, int] = {}  # pictures that were on, by name: the line on which they went
        self.unread: set[str] = set()  # names whose direction could not be read

    def run(self) -> tuple[Segment, ...]:
        while self.row < len(self.lines):
            line = self.lines[self.row]
            if _CONTROL.search(line):
                self._control(line)
            if not line or line.isspace():
                self._end_paragraph()
                self.row += 1
            elif line.lstrip()[0] == "#":
                self._end_paragraph()
                self._heading(line.lstrip())
                self.row += 1
            elif _RULE.match(line):
                self._end_paragraph()
                self.row += 1
            else:
                self._line(line)
        self._end_paragraph()
        return self._finished()

    def _finished(self) -> tuple[Segment, ...]:
        return tuple(
            Segment(index, segment.title, segment.place, tuple(segment.words), tuple(segment.directions))
            for index, segment in enumerate(self.segments)
        )

    def _problem(self, message: str, row: int, column: int) -> None:
        """`row` and `column` count from 0."""
        self.problems.append(Problem(message, row + 1, column + 1))

    def _control(self, line: str) -> None:
        found = _CONTROL.search(line)
        assert found is not None
        message = f"There is a sign here that cannot be read (U+{ord(found[0]):04X}). Delete it."
        self._problem(message, self.row, found.start())

    # --- titles and paragraphs ---

    def _heading(self, line: str) -> None:
        match = _TITLE.match(line)
        assert match is not None
        title = tidy(match["title"])
        if match["more"]:
            self._problem("A segment's title begins with one '#'.", self.row, 0)
        elif not title:
            self._problem("This segment has no title. Write it after the '#'.", self.row, 0)
        elif not match["space"]:
            self._problem(f"Put a space after the '#': '# {title[:40]}'.", self.row, 0)
        if (bracket := _BRACKET.search(title)) is not None:
            self._problem(
                "A direction cannot stand in a title. Put it on the next line.", self.row, line.index(bracket[0])
            )
        title = title.replace("*", "") or title
        segment = _Open(title, Place(self.row + 1, 1), [], [])
        if self.in_opening and not self.segments[0].words:
            # Nothing is said before the first title: there is no opening segment.
            segment.directions = self.segments.pop().directions
        self.in_opening = False
        self.segments.append(segment)

    def _end_paragraph(self) -> None:
        self.new_paragraph = self.new_sentence = self.spaced = True
        if self.stress_from is not None:
            words = self.segments[-1].words
            for i in range(self.stress_from, len(words)):
                words[i] = replace(words[i], stressed=False)
            self.stress_from = None

    # --- a line of words and directions ---

    def _line(self, line: str) -> None:
        position = 0
        if self.row in self.marks:
            position = self.marks[self.row]
            self._end_paragraph()
        self.spaced = True
        while True:
            piece = _PIECE.search(line, position)
            if piece is None:
                self.new_sentence |= self.row in self.ends
                self.row += 1
                return
            begin, position = piece.span()
            if begin > 0 and line[begin - 1] not in "[]" and not self.spaced:
                self.spaced = _IS_GAP.match(line, begin - 1) is not None
            chunk = piece[0]
            if chunk == "[":
                closed = self._direction(line, begin)
                if closed is None:
                    return  # the rest of the line is lost; the row has moved on
                self.row, position = closed
                line = self.lines[self.row]
            elif chunk == "]":
                message = "This bracket was never opened. Put a [ before the direction, or delete it."
                self._problem(message, self.row, begin)
            else:
                self._chunk(chunk, begin, line, position)

    def _chunk(self, chunk: str, begin: int, line: str, end: int) -> None:
        if _PLAIN_CHUNK.match(chunk):
            self._word(chunk, begin, glued=not self.spaced and self._after_sign())
            self.spaced = False
            return
        begin += len(chunk) - len(chunk.lstrip(_CODE))
        chunk = chunk.strip(_CODE)
        if not chunk:
            return
        if _MARKUP.match(chunk):
            self._problem("A script has no HTML in it. What is for you alone goes into [note: ...].", self.row, begin)
            self.spaced = False
            return
        if (again := _AGAIN.match(chunk)) is not None and (
            self._was_said(int(again["digits"])) if again["digits"] else self._was_written(again["word"])
        ):
            self._punctuation(again["end"], begin + again.start("end"), line)
            self.spaced = False
            return
        glued = not self.spaced
        for offset, text, sign in self._items(chunk, line, end):
            if not sign and text != _AND and not any(map(str.isalnum, text)):
                self._punctuation(text, begin + offset, line)
                continue
            joined = glued and (offset > 0 or sign or text[0].isdigit() or self._after_sign())
            self._word(text, begin + offset, joined, sign)
            glued = True
        self.spaced = False

    def _after_sign(self) -> bool:
        words = self.segments[-1].words
        return bool(words) and (words[-1].plain in _SIGNS or words[-1].plain == "?")

    def _was_said(self, value: int) -> bool:
        """Do the number words just before say this number? "Five (5)" is one number, written twice."""
        if self.new_paragraph:
            return False
        said: list[str] = []
        for word in reversed(self.segments[-1].words[-_LONGEST_NUMBER:]):
            if said and not word.text[-1].isalnum():
                break
            said.insert(0, word.plain)
        return any(
            _value_of(said[at:]) == value and _value_of(said[at - 1 : at]) in (None, *range(20))
            for at in range(len(said))
        )

    def _was_written(self, word: str) -> bool:
        """Are the digits just before this number? "5 (five)" is one number, written twice."""
        before = self._last_text()
        return before is not None and before.isdecimal() and _value_of([word.lower()]) == int(before)

    def _items(self, chunk: str, line: str, end: int) -> Iterator[tuple[int, str, bool]]:
        """The words of a chunk: offset, text without asterisks, whether it is a sign. Stress is noted on the way."""
        if "*" in chunk and chunk != "*":
            yield from self._stressed_items(chunk, line, end)
        else:
            yield from self._cut(chunk, line, end)

    def _stressed_items(self, chunk: str, line: str, end: int) -> Iterator[tuple[int, str, bool]]:
        runs = [run for run in re.finditer(r"\*+", chunk) if not _TIMES.match(chunk, run.start())]
        clean: list[str] = []
        offsets: list[int] = []
        changes: list[tuple[int, bool]] = []  # position in the clean text, and whether stress begins
        previous = 0
        is_open = self.stress_from is not None
        for run in runs:
            clean.append(chunk[previous : run.start()])
            offsets.extend(range(previous, run.start()))
            previous = run.end()
            if is_open and run.start() > 0:
                changes.append((len(offsets), False))
                is_open = False
            elif not is_open and run.end() < len(chunk):
                changes.append((len(offsets), True))
                is_open = True
        clean.append(chunk[previous:])
        offsets.extend(range(previous, len(chunk)))
        text = "".join(clean)
        for at, piece, sign in self._cut(text, line, end):
            while changes and changes[0][0] <= at and (changes[0][1] or changes[0][0] < at or at == 0):
                self._stress(changes.pop(0)[1])
            yield offsets[at], piece, sign
        for _, begins in changes:
            self._stress(begins)

    def _stress(self, begins: bool) -> None:
        self.stress_from = len(self.segments[-1].words) if begins else None

    def _cut(self, chunk: str, line: str, end: int) -> Iterator[tuple[int, str, bool]]:
        """Cut a chunk at its signs and at the joints of words written together."""
        if len(chunk) == 1 and chunk in _MINUS and not self._in_count_chain(line, end - 1):
            yield 0, chunk, chunk == "−" or self._takes_away(line, end)
            return
        if chunk == "--":
            yield 0, chunk, self._takes_away(line, end) and _UP_TO_EQUALS.match(line, end) is not None
            return
        if chunk in ("*", "/"):
            yield 0, chunk, self._between_digits(line, end)
            return
        if self._in_count_chain(line, end - len(chunk)):
            cut = 0
            for dash in re.finditer("[-–]", chunk):
                yield cut, chunk[cut : dash.end()], False
                cut = dash.end()
            if cut < len(chunk):
                yield cut, chunk[cut:], False
            return
        cut = 0
        signs = [match.span() for match in _SIGN.finditer(chunk)]
        if _MINUS_AT_END.search(chunk) and (_DIGITS_BEHIND.match(line, end) or _UP_TO_EQUALS.match(line, end)):
            signs.append((len(chunk) - 1, len(chunk)))
        for begin, stop in [*signs, (len(chunk), len(chunk))]:
            if begin > cut:
                text = chunk[cut:begin]
                near_sign = cut > 0 or begin < len(chunk) or self._after_operator() or _SIGN_START.match(line, end)
                if near_sign and _UNKNOWN.match(text):
                    yield cut, text, True
                else:
                    yield from _parts(text, cut)
            if stop > begin:
                yield begin, chunk[begin:stop], True
            cut = stop

    def _takes_away(self, line: str, end: int) -> bool:
        """Is a dash behind the last word a minus sign? Between digits, and before an equals sign between amounts, too."""
        if self._between_digits(line, end):
            return True
        if self.new_paragraph or not _UP_TO_EQUALS.match(line, end):
            return False
        near = [word.text for word in self.segments[-1].words[-2:]]
        return any(_NUMBER_END.search(text) for text in near) and bool(near[-1][-1:].isalnum())

    def _between_digits(self, line: str, end: int) -> bool:
        before = self._last_text()
        return before is not None and bool(_NUMERIC_END.search(before)) and bool(_NUMERIC_START.match(line, end))

    def _in_count_chain(self, line: str, begin: int) -> bool:
        """Does what is written here without a space, directions left out, count ("3-2-1")?"""
        row, start, stop, chain = self.run_here
        if row != self.row or not start <= begin < stop:
            run = _RUN.match(line, begin)
            stop = run.end() if run is not None else begin + 1
            chain = run is not None and bool(_COUNT_CHAIN.match(_DIRECTION.sub("", run[0]).replace("*", "")))
            self.run_here = (self.row, begin, stop, chain)
        return chain

    def _after_operator(self) -> bool:
        words = self.segments[-1].words
        return bool(words) and not self.new_paragraph and words[-1].plain in _SIGNS

    def _last_text(self) -> str | None:
        words = self.segments[-1].words
        return words[-1].text if words and not self.new_paragraph else None

    def _word(self, text: str, column: int, glued: bool = False, sign: bool = False) -> None:
        segment = self.segments[-1]
        if self.perhaps_ended:
            self.perhaps_ended = False
            self.new_sentence |= text.lstrip("\"'“‘(")[:1].isupper()
        if self.new_paragraph:
            self.paragraph += 1
            self.new_paragraph = False
        if self.new_sentence:
            self.sentence += 1
            self.new_sentence = False
        segment.words.append(
            Word(
                self.spoken,
                text,
                _plain_sign(text) if sign else _plain(text),
                Place(self.row + 1, column + 1),
                self.sentence,
                self.paragraph,
                len(self.segments) - 1,
                self.stress_from is not None,
                glued,
            )
        )
        self.spoken += 1
        if not text[-1].isalnum():
            self._note_end(text, unknown=sign)

    def _note_end(self, text: str, unknown: bool = False) -> None:
        if unknown:
            # "7 + ? = 9": the unknown ends no sentence by itself; "7 + 2 = ?" does.
            self.perhaps_ended = text[0] in "?_□"
            return
        match = _SENTENCE_END.search(text)
        if match is not None:
            if match["end"] in ("…",) or re.fullmatch(r"\.{2,}", match["end"]):
                self.perhaps_ended = True
            else:
                self.new_sentence = True

    def _punctuation(self, text: str, column: int, line: str) -> None:
        """Signs that are not spoken belong to the word before them in their paragraph."""
        words = self.segments[-1].words
        if not text or not words or self.new_paragraph:
            return
        last = words[-1]
        if len(last.text) + len(text) > _LONGEST_WORD:
            return
        between = ""
        if last.place.line == self.row + 1:
            written = line[last.place.column - 1 : column]
            if written.startswith(last.text):
                between = written[len(last.text) :]
                if between.strip():  # a direction, perhaps
                    between = " " if between[-1].isspace() else ""
        elif text not in (".", ",", "!", "?", ";", ":"):
            return
        words[-1] = replace(last, text=last.text + between + text)
        self._note_end(text)

    # --- directions ---

    def _direction(self, line: str, begin: int) -> tuple[int, int] | None:
        """Read the direction that opens at `begin`; where it is closed (row, column after it), or None."""
        row, parts, position = self.row, [], begin + 1
        if line[position : position + 1] == "[":
            self._problem("One bracket is enough: take the second [ and its ] out.", row, position)
            doubled = len(line) - begin - len(line[begin:].lstrip("[")) - 1
            closed = self._direction(line, begin + doubled)
            if closed is None:
                return None
            row, end = closed
            while doubled and self.lines[row][end : end + 1] == "]":
                doubled, end = doubled - 1, end + 1
            return row, end
        while True:
            current = self.lines[row]
            found = _BRACKET.search(current, position)
            if found is not None and found[0] == "]":
                parts.append(current[position : found.start()])
                self._place("\n".join(parts), begin)
                return row, found.end()
            parts.append(current[position:])
            following = self.lines[row + 1] if row + 1 < len(self.lines) else ""
            if found is not None or not following.strip() or following[0] == "#":
                break
            row, position = row + 1, 0
        self._problem("This bracket is not closed. Put a ] after the direction.", self.row, begin)
        self._remember_unread(line[begin + 1 : begin + 200])
        # Go on behind the words of this line that may belong to it.
        again = line.find("[", begin + 1)
        if again >= 0:
            return self.row, again
        self.row += 1
        return None

    def _place(self, text: str, begin: int) -> None:
        found: Unplaced | Mistake = parse_direction(text)
        if isinstance(found, Mistake):
            before = text[: found.offset]
            lines_down = before.count("\n")
            column = found.offset - (before.rfind("\n") + 1) + (0 if lines_down else begin + 1)
            self._problem(found.message, self.row + lines_down, column)
            self._remember_unread(text)
            return
        place, segment = Place(self.row + 1, begin + 1), len(self.segments) - 1
        direction = found(place=place, at=self.spoken, segment=segment, text=text)
        if isinstance(direction, Show):
            self.on[direction.name] = direction.kind
        elif isinstance(direction, Clear):
            self.gone.update(dict.fromkeys(self.on, self.row + 1))
            self.on.clear()
        elif isinstance(direction, ChangePicture | Hide):
            if direction.name not in self.on:
                self._unknown_name(direction, begin)
            elif isinstance(direction, Hide):
                del self.on[direction.name]
                self.gone[direction.name] = self.row + 1
        self.segments[-1].directions.append(direction)

    def _unknown_name(self, direction: ChangePicture | Hide, begin: int) -> None:
        name = direction.name
        if name in self.unread:
            return
        column = begin + 1 + max(direction.text.lower().find(name), 0)
        if name in self.gone:
            message = f"The picture '{name}' is no longer on; it went on line {self.gone[name]}. " + (
                "Take this direction out." if isinstance(direction, Hide) else "Show it again first."
            )
        elif isinstance(direction, Hide) and name in _ALL:
            message = "To take all pictures away, write [clear]."
        elif near := did_you_mean(name, [*self.on, *self.unread]):
            message = f"There is no picture called '{name}' on.{near}"
        elif isinstance(direction, ChangePicture) and (verb := nearest(name.split()[0], VERBS)) and " " in name:
            message = f"There is no direction '{name.split()[0]}'. Did you mean '{verb}'?"
        elif self.on:
            message = f"There is no picture called '{name}' on. On are: {', '.join(self.on)}."
        elif isinstance(direction, Hide):
            message = f"There is no picture called '{name}' on, so none can go. Take this direction out."
        else:
            message = f"There is no picture called '{name}' on. Show it first: [show KIND: DETAILS as {name}]."
        self._problem(message, self.row, column)

    def _remember_unread(self, text: str) -> None:
        """A picture whose `show` could not be read still has a name, so that its changes are not reported as well."""
        written = tidy(text)
        if (shown := re.match(r"(?i)\s*\w+\s+([^:]*)", written)) is None:
            return
        if (named := re.search(r"(?i)\sas\s+([^:]+)\Z", written)) is not None:
            self.unread.add(named[1].lower())
        kind = shown[1].lower()
        if (known := nearest(kind, KINDS)) is not None:
            self.unread.add(known)
        self.unread.add(kind)


def _value_of(words: list[str]) -> int | None:
    """The number that these words say, if they say one."""
    if not words or words[0] == "and" or words[-1].isdecimal():
        return None
    try:
        return to_number(" ".join(words))
    except ValueError:
        return None


def _parts(text: str, base: int) -> Iterator[tuple[int, str, bool]]:
    """Cut "Look—frogs", "nine,ten" and "3,5,8" (not "1,000") into words; their punctuation stays with the first."""
    cuts = [match.end() for match in _JOINT.finditer(text)]
    for listed in _LIST.finditer(text):
        if not _THOUSANDS.match(listed[0]):
            cuts.extend(listed.start() + comma.end() for comma in re.finditer(",", listed[0]))
    cut = 0
    for at in [*sorted(cuts), len(text)]:
        if at > cut:
            yield base + cut, text[cut:at], False
            cut = at


def _plain(text: str) -> str:
    if text == _AND:
        return "and"
    start, end = 0, len(text)
    while start < end and not text[start].isalnum():
        start += 1
    while end > start and not text[end - 1].isalnum():
        end -= 1
    return text[start:end].lower().replace("’", "'").replace("\u00ad", "")


def _plain_sign(text: str) -> str:
    if text[0] in "?_□":
        return "?"
    return "-" if text in _MINUS or text == "--" else text
