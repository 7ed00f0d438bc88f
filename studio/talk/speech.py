"""What is said in a form that patterns can be laid on: one plain text with `#` for each number.

    "Five, six. That's 7 frogs!"   ->   " § # , # . that is # frogs . "

Every token has a space on both sides. `,` stands for any pause inside a sentence, `.` ends one, `?` ends a question,
`¶` begins a paragraph and `§` a segment. Contractions are written out; words that carry nothing for arithmetic
("just", "then") are left out; signs become words ("plus", "minus", "equals"). An unknown ("?", "what number",
"how many") inside arithmetic stays a word. Every token knows its word, so a match leads back to line and column.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from studio.script.model import Word
from studio.talk.model import Number, Statement
from studio.talk.numbers import said, verb_of

CONTRACTIONS = {
    "that's": "that is", "that’s": "that is", "it's": "it is", "it’s": "it is", "there's": "there is",
    "there’s": "there is", "here's": "here is", "here’s": "here is", "what's": "what is", "what’s": "what is",
    "we've": "we have", "we’ve": "we have", "you've": "you have", "you’ve": "you have", "i've": "i have",
    "i’ve": "i have", "they've": "they have", "they’ve": "they have", "they're": "they are", "they’re": "they are",
    "we're": "we are", "we’re": "we are", "you're": "you are", "you’re": "you are", "i'm": "i am", "i’m": "i am",
    "let's": "let us", "let’s": "let us", "isn't": "is not", "isn’t": "is not", "aren't": "are not",
    "aren’t": "are not", "doesn't": "does not", "doesn’t": "does not", "don't": "do not", "don’t": "do not",
    "didn't": "did not", "didn’t": "did not", "he's": "he is", "she's": "she is", "where's": "where is",
    "who's": "who is", "how's": "how is", "we'll": "we will", "you'll": "you will", "it'll": "it will",
    "that'll": "that will", "can't": "can not", "can’t": "can not", "won't": "will not", "wasn't": "was not",
    "today's": "today is",
}  # fmt: skip
SIGNS = {
    "+": "plus", "-": "minus", "−": "minus", "–": "minus", "=": "equals", "<": "is less than",
    ">": "is greater than", "≠": "is not equal to", "?": "what", "_": "what", "__": "what", "___": "what",
    "□": "what", "☐": "what", "×": "times", "*": "times", "÷": "divided by", "/": "divided by", "&": "and",
}  # fmt: skip
SAME = {
    "plus": "plus", "minus": "minus", "subtract": "subtract", "equal": "equal", "altogether": "altogether",
    "fewer": "fewer", "okay": "", "ok": "", "um": "", "uh": "", "er": "", "just": "", "then": "", "really": "",
    "exactly": "", "also": "", "very": "", "please": "", "again": "", "even": "", "still": "", "indeed": "",
    "actually": "", "simply": "", "ever": "", "maybe": "maybe",
}  # fmt: skip
_PAUSES = frozenset(",;:—–…")
_QUOTES = "\"'”’»)]*_"


@dataclass(frozen=True)
class Speech:
    """`text` as told above; `words` and `numbers` are what it was made from. `offsets` are where its tokens start and
    `positions` their words; `number_at` gives the number of each `#` by its offset."""

    words: Sequence[Word]
    numbers: tuple[Number, ...]
    text: str
    offsets: tuple[int, ...]
    positions: tuple[int, ...]
    number_at: dict[int, Number]

    @cached_property
    def offset_of(self) -> dict[int, int]:
        """The offset of each `#` by the first word of its number."""
        return {number.start: offset for offset, number in self.number_at.items()}

    def word_at(self, offset: int) -> int:
        """The word that the token at or before `offset` belongs to; a mark belongs to the word before it, the first to the first."""
        if not self.offsets:
            return 0
        return max(0, self.positions[max(0, bisect_right(self.offsets, offset) - 1)])

    def offset_at(self, word: int) -> int:
        """The offset of the first token of a word, or of the next word that has one; the end where none has."""
        at = bisect_left(self.positions, word)
        return self.offsets[at] if at < len(self.offsets) else len(self.text)

    def sentence_before(self, offset: int, longest: int | None = None) -> int:
        """The offset of the mark behind which the sentence at `offset` begins, looked for in the `longest` characters before
        it if that is given; -1 where there is none."""
        first = 0 if longest is None else max(0, offset - longest)
        return max(self.text.rfind(mark, first, offset) for mark in ".?¶§")

    def value_at(self, offset: int) -> int:
        """The value of the `#` at `offset`."""
        return self.number_at[offset].value

    def numbers_in(self, start: int, end: int) -> list[Number]:
        """The numbers whose `#` stands in text[start:end]."""
        found = []
        offset = self.text.find("#", start, end)
        while offset >= 0:
            found.append(self.number_at[offset])
            offset = self.text.find("#", offset + 1, end)
        return found

    def said(self, start: int, end: int) -> str:
        """The words from offset `start` to before offset `end`, as they are read, without punctuation at the end."""
        return self._said(*self.span(start, end))

    def _said(self, first: int, last: int) -> str:
        return said(self.words, first, last).rstrip(" ,;:.!")

    def statement(
        self,
        kind: str,
        values: tuple[int, ...],
        holds: bool | None,
        start: int,
        end: int,
        written: str,
        expected: int | bool | None = None,
    ) -> Statement:
        """A statement that is said from offset `start` to before offset `end`."""
        first, last = self.span(start, end)
        place = self.words[first].place
        return Statement(
            kind, values, holds, first, last, place.line, place.column, self._said(first, last), written, expected
        )

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Positions of the words (half-open) that text[start:end] comes from; its edges may be spaces."""
        while start < end - 1 and self.text[start] == " ":
            start += 1
        while end > start + 1 and self.text[end - 1] in " .,?¶§":
            end -= 1
        first = self.word_at(start)
        number = self.number_at.get(start)
        last = self.word_at(end - 1)
        closing = self.number_at.get(end - 1)
        return (number.start if number else first), (closing.end if closing else last + 1)


def speech(words: Sequence[Word], numbers: Sequence[Number]) -> Speech:
    """The plain text of what is said. Time grows with the number of words."""
    # the first segment begins with its mark, too; no word stands before it
    tokens, offsets, positions = (["§"], [1], [-1]) if words else ([], [], [])
    number_at: dict[int, Number] = {}
    counted = {number.start: number for number in numbers if number.form in ("word", "digits")}
    length = 1 + 2 * len(tokens)
    position = 0
    count = len(words)
    previous: Word | None = None
    while position < count:
        word = words[position]
        if previous is not None and word.paragraph != previous.paragraph:
            mark = "§" if word.segment != previous.segment else "¶"
            if tokens and tokens[-1] not in (".", "?"):
                mark = ". " + mark
            for part in mark.split():
                tokens.append(part)
                offsets.append(length)
                positions.append(position - 1)
                length += len(part) + 1
        number = counted.get(position)
        if number is not None:
            tokens.append("#")
            offsets.append(length)
            positions.append(position)
            number_at[length] = number
            length += 2
            position = number.end
            if verb := verb_of(words[position - 1].plain):
                tokens.append(verb)
                offsets.append(length)
                positions.append(position - 1)
                length += len(verb) + 1
        else:
            plain = "×" if word.plain == "x" and tokens[-1:] == ["#"] and position + 1 in counted else word.plain
            spelled = CONTRACTIONS.get(plain) or SIGNS.get(plain)
            if spelled is None:
                spelled = SAME.get(plain, plain) if "#" not in plain and "¶" not in plain and "§" not in plain else "*"
                if " " in spelled or not spelled.isprintable():
                    spelled = "*"
            if spelled:
                for part in spelled.split():
                    tokens.append(part)
                    offsets.append(length)
                    positions.append(position)
                    length += len(part) + 1
            position += 1
        last = words[position - 1]
        mark = _mark(last, words[position] if position < count else None)
        if mark and tokens and not (mark == "," and tokens[-1] in (",", ".", "?")):
            tokens.append(mark)
            offsets.append(length)
            positions.append(position - 1)
            length += 2
        previous = last
    if tokens and tokens[-1] not in (".", "?"):
        tokens.append(".")
        offsets.append(length)
        positions.append(count - 1)
    text = " " + " ".join(tokens) + " "
    return Speech(words, tuple(numbers), text, tuple(offsets), tuple(positions), number_at)


def _mark(word: Word, following: Word | None) -> str:
    """The punctuation token after a word ("" for none)."""
    text = word.text
    last = text[-1:]
    if last.isalnum():
        if following is not None and following.sentence == word.sentence:
            return ""
        return "." if following is not None else ""
    stripped = text.rstrip(_QUOTES)
    last = stripped[-1:]
    if len(stripped) > 1 or text in (".", "!", ",", ";", ":", "…"):
        if last == "?":
            return "?"
        if stripped.endswith(".."):
            return ","
        if last in (".", "!"):
            return "."
        if last in _PAUSES:
            return ","
    if following is not None and following.sentence != word.sentence:
        return "."
    return "," if text in ("—", "–", "--") and word.plain != "-" else ""  # "9 – 7" takes away
