"""The verb `listen`: hearing a recording, laying it against the script, checking the arithmetic as it was spoken."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.check import clock, finding_lines
from studio.findings import Finding
from studio.progress import Progress, silent
from studio.script.model import Header, Lesson, Place, Segment, Word
from studio.talk.numbers import plain_of

if TYPE_CHECKING:
    from studio.listen.api import Listening
    from studio.listen.model import Retake, Take
    from studio.timing.cuesheet import CueSheet


_PAUSE = 0.8
"""Seconds of quiet that end a sentence where the recogniser wrote no full stop."""

_GOES_ON = frozenset(
    "a an and are at equal equals for from how in is make makes many minus of on or plus take the to".split()
)
"""Words that no sentence ends with: what follows after a pause is what was waited for."""

# Without a script only this rule is sure of itself: a recogniser leaves out commas and stops, and counts run together.
_ARITHMETIC = "true arithmetic"


@dataclass(frozen=True)
class Heard:
    """A recording that was listened to. `lesson` is the script's, or one made of what was heard; `findings` are about
    the arithmetic as it was spoken, with times in the recording."""

    listening: Listening
    lesson: Lesson
    take: Take
    findings: tuple[Finding, ...]
    scripted: bool

    @property
    def has_errors(self) -> bool:
        return bool(self.listening.take and self.listening.take.retakes) or any(
            finding.level == "error" for finding in self.findings
        )

    def as_json(self) -> dict[str, Any]:
        """The value of `listen --json`, and what was found in the arithmetic as it was spoken."""
        return {**self.listening.as_json(), "findings": [finding.as_json() for finding in self.findings]}

    def lines(self) -> list[str]:
        """What is printed for a person."""
        lines = list(self.listening.notes)
        if not self.scripted:
            lines += [f"{clock(chapter.start):>6}  {chapter.title}" for chapter in self.listening.chapters]
            text = " ".join(word.text for word in self.listening.heard.words)
            return [*lines, "", text, *finding_lines(self.findings)]
        words = [said for said in self.take.said if said.word is not None]
        as_written = sum(said.verdict == "as-written" for said in words)
        lines.append(f"{as_written} of {len(words)} words of the script are heard as they are written.")
        lines += [*retake_lines(self.take.retakes), *self.unsure]
        return [*lines, *finding_lines(self.findings)]

    @property
    def unsure(self) -> tuple[str, ...]:
        """A sentence on the words of the script of which it is not sure whether they were said; none, no sentence."""
        words = [said for said in self.take.said if said.word is not None and said.verdict == "unsure"]
        if not words:
            return ()
        places = ", ".join(f"“{said.text.strip('.,!?;:')}” at {clock(said.start)}" for said in words)
        return (f"Not sure, listen yourself: {places}.",)


def retake_lines(retakes: Sequence[Retake]) -> list[str]:
    """What is to be recorded again, as it is printed; times are those of the recording."""
    lines = [f"To record again: {len(retakes) or 'nothing'}."]
    for retake in retakes:
        line = f", line {retake.line}" if retake.line else ""
        lines.append(f"  {clock(retake.start)}–{clock(retake.end)}{line}: {retake.reason}")
        lines += [f"      script: {retake.script}"] if retake.script else []
        lines += [f"      heard:  {retake.heard}"] if retake.heard else []
    if any(retake.line for retake in retakes):
        lines.append(AGAIN)
    return lines


AGAIN = (
    "  How: trim the take so that it ends before the first of these, record from there to the end, and give both in order "
    "(--recording one.mp4 two.mp4). What is recorded later is not put in an earlier place."
)


def listen(
    recordings: Sequence[Path],
    lesson: Path | None = None,
    out: Path | None = None,
    *,
    model: str | None = None,
    progress: Progress = silent,
) -> Heard:
    """Listen to a recording (one file, or takes in order), with its lesson or without.

    With `out`, captions, chapters and the words with their times are written to that folder. Raises UnusableInput.
    """
    from studio.series.library import load_lesson

    heard = hear(recordings, load_lesson(lesson) if lesson else None, model=model, progress=progress)
    if out is not None:
        _write(heard, out)
    return heard


def hear(
    recordings: Sequence[Path], lesson: Lesson | None, *, model: str | None = None, progress: Progress = silent
) -> Heard:
    """The same for a lesson that is read already, with nothing written."""
    from studio.listen.api import listen as listen_to

    listening = listen_to([Path(path) for path in recordings], lesson, model, progress)
    if listening.take is not None and lesson is not None:
        return Heard(listening, lesson, listening.take, spoken_findings(lesson, listening.take), True)
    made, take = lesson_from(listening)
    return Heard(listening, made, take, spoken_findings(made, take, scripted=False), False)


def spoken_findings(lesson: Lesson, take: Take, scripted: bool = True) -> tuple[Finding, ...]:
    """What is false in the arithmetic as it was spoken. Where the words are the script's, the script's own check has
    said it already; so only findings that touch a word that was said otherwise are told."""
    from studio.agree import check_talk

    words, times, changed = _spoken(lesson, take)
    before = set()
    if scripted:
        _, script_findings = check_talk(lesson.words)
        before = {(finding.rule, finding.line, finding.said) for finding in script_findings}
    _, findings = check_talk(words)
    told = []
    for finding in findings:
        # The column carries the position among the words spoken; see _spoken.
        index = min(max(finding.column - 1, 0), len(words) - 1)
        if scripted and ((finding.rule, finding.line, finding.said) in before or not _near(changed, index)):
            continue
        if finding.level == "note" or (not scripted and finding.rule != _ARITHMETIC):
            continue
        message = finding.message.replace("Line 0 says", "You say")
        told.append(replace(finding, message=message, column=1 if finding.line else 0, time=round(times[index], 3)))
    return tuple(told)


def _near(changed: Sequence[bool], index: int, reach: int = 24) -> bool:
    return any(changed[max(0, index - reach) : index + reach])


def _spoken(lesson: Lesson, take: Take) -> tuple[list[Word], list[float], list[bool]]:
    """The words as they were spoken, as words of a script; `place.column` is their position, counted from 1."""
    words: list[Word] = []
    times: list[float] = []
    changed: list[bool] = []
    last = lesson.words[0] if lesson.words else None
    for said in take.said:
        if said.verdict == "skipped":
            if changed:
                changed[-1] = True
            continue
        if said.verdict == "extra" and any(each.start <= said.start < each.end for each in take.moved):
            continue  # it stands elsewhere in the script, and its arithmetic with it
        own = lesson.words[said.word] if said.word is not None else None
        last = own or last
        line = last.place.line if last else 0
        as_written = own is not None and said.verdict in ("as-written", "unsure")
        text = own.text if own is not None and as_written else said.text
        base = last or Word(0, "", "", Place(0, 0), 0, 0, 0)
        words.append(
            replace(
                base, index=len(words), text=text, plain=plain_of(text),
                place=Place(line, len(words) + 1), glued=False, stressed=False,
            )
        )  # fmt: skip
        times.append(said.start)
        changed.append(not as_written)
    return words, times, changed


def lesson_from(listening: Listening) -> tuple[Lesson, Take]:
    """A lesson made of what was heard, with a segment for each chapter, and the take that belongs to it."""
    from studio.listen.model import SaidWord, Take

    heard = listening.heard
    starts = [chapter.start for chapter in listening.chapters] or [0.0]
    titles = [chapter.title for chapter in listening.chapters] or ["Recording"]
    segments: list[list[Word]] = [[] for _ in starts]
    said = []
    segment = sentence = 0
    for index, word in enumerate(heard.words):
        while segment + 1 < len(starts) and word.start >= starts[segment + 1] - 1e-6:
            segment += 1
            sentence += 1
        segments[segment].append(Word(index, word.text, plain_of(word.text), Place(0, 0), sentence, sentence, segment))
        said.append(SaidWord(index, word.text, word.start, word.end, "as-written", word.text))
        after = heard.words[index + 1].start if index + 1 < len(heard.words) else heard.duration
        rests = after - word.end >= _PAUSE and plain_of(word.text) not in _GOES_ON
        if word.text[-1:] in ".?!" or rests:
            sentence += 1
    parts = tuple(
        Segment(i, title, Place(0, 0), tuple(words), ())
        for i, (title, words) in enumerate(zip(titles, segments, strict=True))
    )
    name = listening.recording.takes[0].path.name
    return Lesson(Header(title=name), parts, name), Take(tuple(said), (), heard.duration, 1.0)


def cue_sheet(heard: Heard) -> CueSheet:
    """The cue sheet in the time of the recording: nothing is put in."""
    from studio.stage.model import Stage
    from studio.stage.staging import stage
    from studio.timing.assemble import assemble
    from studio.timing.recorded import recorded_track

    staged = stage(heard.lesson) if heard.scripted else Stage((), ())
    return assemble(heard.lesson, staged, recorded_track(heard.lesson, heard.take), as_recorded=True)


def _write(heard: Heard, out: Path) -> None:
    from studio.captions import make_captions, make_chapters
    from studio.captions.chapters_txt import write_chapters_txt
    from studio.captions.chapters_vtt import write_chapters_vtt
    from studio.captions.srt import write_srt
    from studio.captions.vtt import write_vtt
    from studio.files import whole_folder

    sheet = cue_sheet(heard)
    captions = make_captions(heard.lesson, sheet).captions
    chapters = make_chapters(sheet)
    texts = {
        "captions.vtt": write_vtt(captions),
        "captions.srt": write_srt(captions),
        "chapters.vtt": write_chapters_vtt(chapters),
        "chapters.txt": write_chapters_txt(chapters),
        "words.json": json.dumps(heard.as_json(), ensure_ascii=False, indent=1) + "\n",
    }
    with whole_folder(out) as folder:
        for name, text in texts.items():
            (folder / name).write_bytes(text.encode("utf-8"))
