from __future__ import annotations

from studio.listen.chapters import from_pauses
from studio.listen.model import Heard, HeardWord


def spoken(*stretches: tuple[str, ...], pause: float = 2.0) -> Heard:
    """Sentences with half a second between them, and `pause` seconds between stretches."""
    words, at = [], 0.0
    for stretch in stretches:
        for sentence in stretch:
            for text in sentence.split():
                words.append(HeardWord(text, at, at + 0.35))
                at += 0.4
            at += 0.5
        at += pause
    return Heard(tuple(words), at, "none")


FILLER = ("We look at the water and wait for the frogs to come back to the big green lily pad again.",) * 3


def test_without_a_script_a_chapter_begins_behind_a_long_pause_and_is_named_by_its_first_sentence() -> None:
    chapters = from_pauses(spoken(("Partners of six.", *FILLER), ("The number of the day.", *FILLER)))
    assert [chapter.title for chapter in chapters] == ["Partners of six", "The number of the day"]
    assert chapters[0].start == 0.0 and chapters[1].start > 20


def test_a_title_is_not_given_twice_where_there_is_another() -> None:
    chapters = from_pauses(
        spoken(("Hello frogs, sit down.", *FILLER), ("Hello frogs, sit down.", "Count the ducks with me.", *FILLER))
    )
    assert [chapter.title for chapter in chapters] == ["Hello frogs, sit down", "Count the ducks with me"]


def test_short_pauses_and_short_stretches_make_no_chapters() -> None:
    assert len(from_pauses(spoken(("Partners of six.", *FILLER), ("Then more.", *FILLER), pause=0.4))) == 1
    assert len(from_pauses(spoken(("Partners of six.",), ("The number of the day.",)))) == 1


def test_a_recording_without_words_has_no_chapters() -> None:
    assert from_pauses(Heard((), 10.0, "none")) == []
