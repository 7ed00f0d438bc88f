"""Any text at all is read or refused in plain sentences; every word that is read stands where it says."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from studio.errors import UnusableInput
from studio.script import model as m
from studio.script.kinds import KINDS
from studio.script.reader import read, read_change, read_picture
from studio.script.write import insert

HEADER = "---\ntitle: Pond\n---\n"
_PIECES = [
    "seven", "Nine.", "*eight*", "*two", "three*", "7+2=9", "7 + ? = 9", "9-7", "3-2-1", "?", "—", "-", "...", "…", " ", "\n",
    "\n\n", "\r\n", "# Pond", "\n# Pond\n", "#", "[", "]", "[clear]", "[show dots: 3]", "[show ten frame: 7 dots as frame]",
    "[frame: add 2 crosses, counting]", "[dots: count]", "[hide dots]", "[wait 3 s]", "[wait 3 s: think\nnow]", "[note: x]",
    "[show", "dots:", "as", "counting", ",", "“go”", "ﬁ", "\u200b", "\u00ad", "🐸", "&", "1.", "2)", "`", "\u2028", "\x00", "(", "---", "_", "<", "->", "**",
    "title: x", "---\n", "1,000", "3,5", "nine,ten", "’s", "isn't", "twenty-one",
]  # fmt: skip
bodies = st.lists(st.sampled_from(_PIECES) | st.text(max_size=4), max_size=40).flatmap(
    lambda parts: st.sampled_from(["", " "]).map(lambda gap: gap.join(parts))
)
spaced_bodies = st.lists(st.sampled_from(_PIECES), max_size=40).map(" ".join)
whole_texts = st.one_of(st.text(max_size=200), bodies, bodies.map(lambda body: HEADER + body))


def attempt(text: str) -> m.Lesson | None:
    try:
        return read(text)
    except UnusableInput as refused:
        assert all(problem.message.endswith((".", "?", "!")) for problem in refused.problems)
        last = text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        assert all(0 <= problem.line <= last for problem in refused.problems)
        return None


SIGNS = {"−": "-", "–": "-", "-": "-", "_": "?", "?": "?", "&": "and"}
"""What is said for a sign."""
UNSPOKEN = "[\\s`\u200b\ufeff\u2600-\u27bf\u2b00-\u2bff\ufe0f\u200d\U0001f000-\U0001faff]"
"""Spaces, emoji and marks of code."""


@settings(max_examples=700, deadline=None)
@given(whole_texts)
def test_any_text_is_read_or_refused_in_sentences(text: str) -> None:
    attempt(text)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=60) | st.lists(st.sampled_from(_PIECES + list(KINDS)), max_size=8).map(" ".join))
def test_any_picture_or_change_is_read_or_refused(text: str) -> None:
    for reader in (read_picture, read_change):
        try:
            reader(text)
        except UnusableInput as refused:
            assert refused.problems[0].message


@settings(max_examples=500, deadline=None)
@given(bodies)
def test_every_word_stands_where_its_place_says(body: str) -> None:
    lesson = attempt(HEADER + body)
    if lesson is None:
        return
    lines = lesson.text.split("\n")
    for position, word in enumerate(lesson.words):
        assert word.index == position
        written = re.sub(rf"\[[^\[\]]*(\]|\Z)|\*|{UNSPOKEN}", "", lines[word.place.line - 1][word.place.column - 1 :])
        core = re.sub(UNSPOKEN, "", word.text).rstrip(".,!?;:")  # punctuation may stand on the next line
        assert written.startswith(core)
        assert word.plain in word.text.lower().replace("’", "'").replace("\u00ad", "") or word.plain in SIGNS.get(
            word.text[0], ""
        )
    places = [word.place for word in lesson.words]
    assert places == sorted(places)
    for key in ("sentence", "paragraph", "segment"):
        numbers = [getattr(word, key) for word in lesson.words]
        assert numbers == sorted(numbers)
        assert set(numbers) == set(range(max(numbers) + 1)) or key == "segment"
    for index, segment in enumerate(lesson.segments):
        assert segment.index == index
        assert all(part.segment == index for part in [*segment.words, *segment.directions])
    for direction in lesson.directions:
        assert lines[direction.place.line - 1][direction.place.column - 1] == "["
        following = [w.index for w in lesson.words if w.place > direction.place]
        assert direction.at == (following[0] if following else len(lesson.words))


@settings(max_examples=300, deadline=None)
@given(spaced_bodies, st.data())
def test_directions_put_in_stand_before_their_words_and_change_nothing_else(body: str, data: st.DataObject) -> None:
    text = HEADER + body
    lesson = attempt(text)
    if lesson is None:
        return
    chosen = data.draw(st.lists(st.sampled_from(lesson.words), max_size=4, unique=True)) if lesson.words else []
    put = [(word.place, f"note: before word {word.index}") for word in chosen]
    written = insert(text, put)
    kept = iter(written)
    assert all(letter in kept for letter in text)  # all that was there is there, in its order
    assert len(written) <= len(text) + sum(len(direction) + 4 for _, direction in put)
    again = read(written)
    added = [d for d in again.directions if isinstance(d, m.Note) and d.words.startswith("before word")]
    assert sorted(d.at for d in added) == sorted(word.index for word in chosen)
    assert all(d.words == f"before word {d.at}" for d in added)
    assert [w.text for w in again.words] == [w.text for w in lesson.words]
    assert [(w.sentence, w.paragraph, w.segment, w.stressed) for w in again.words] == [
        (w.sentence, w.paragraph, w.segment, w.stressed) for w in lesson.words
    ]
    untouched = [word.index for word in lesson.words if word not in chosen]
    assert [again.words[i].glued for i in untouched] == [lesson.words[i].glued for i in untouched]
