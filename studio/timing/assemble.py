"""From a lesson, its stage and a track to the cue sheet.

A film lasts longer than its track: a title card is put in before each segment, and where the script asks for more time
to think than the track leaves, the silence is lengthened. Both are put into the gap between two words, where the track
is cut in the silence. What is put in is whole frames, so that what comes after it is laid on frames as before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.script.model import Camera, Lesson, Wait
from studio.stage.model import Stage
from studio.timing.cuesheet import CameraChange, Cue, CueSheet, Piece, SegmentStart, SpokenWord, WaitTime
from studio.timing.track import Track

CARD_SECONDS = 2.5
_EDGE = 0.3  # seconds of silence kept on the far side of a cut: the start of a word is known to about a tenth
_ENOUGH = 0.3  # a wait shorter by less than this is not lengthened


@dataclass(frozen=True, slots=True)
class _Card:
    segment: int


@dataclass(frozen=True, slots=True)
class _Hold:
    """Something put in at source time `cut`: `length` seconds in which the source stands still."""

    cut: float
    length: float


def assemble(
    lesson: Lesson,
    stage: Stage,
    track: Track,
    *,
    card_seconds: float = CARD_SECONDS,
    fps: int = 30,
    as_recorded: bool = False,
) -> CueSheet:
    """The cue sheet. `card_seconds` is how long each title card stands, to the nearest frame; 0 for none. `fps` are the
    frames a second of the film. `as_recorded`: nothing is put in, all times are those of the track."""
    card_seconds = 0.0 if as_recorded else round(card_seconds * fps) / fps
    gaps = _gaps(lesson)
    holds: list[_Hold] = []
    segments: list[SegmentStart] = []
    waits: list[WaitTime] = []
    put_in = 0.0  # seconds put in before the gap that is looked at
    shift_before: list[float] = []  # what is put in before each word
    for index in range(len(lesson.words) + 1):
        before = track.words[index - 1][1] if index else 0.0
        after = track.words[index][0] if index < len(lesson.words) else track.duration
        before = min(before, after)
        if index in gaps:
            put_in = _fill_gap(
                lesson, gaps[index], before, after, put_in, card_seconds, fps, as_recorded, holds, segments, waits
            )
        shift_before.append(put_in)
    segments = _grow(segments)
    shifts = _Shifts(holds)
    spoken = tuple(SpokenWord(word.word, word.text, *_moved(word, shift_before, shifts)) for word in track.spoken)
    ends = [track.words[i][0] + shift_before[i] for i in range(len(lesson.words))]
    end = track.duration + put_in
    finish = max((wait.end for wait in waits), default=0.0)
    if track.words:
        finish = max(finish, track.words[-1][1] + shift_before[len(lesson.words) - 1])
    starts = [*ends, min(end, finish)]
    card_at = {lesson.segments[s.segment].words[0].index: s.start for s in segments if lesson.segments[s.segment].words}
    cues = sorted(
        (Cue(card_at.get(m.word, starts[m.word]) if m.picture is None else starts[m.word], m) for m in stage.moments),
        key=lambda cue: cue.time,
    )
    return CueSheet(
        duration=end,
        words=_in_order(spoken),
        cues=tuple(cues),
        segments=tuple(segments),
        waits=tuple(waits),
        cameras=_cameras(lesson, starts, card_at),
        pieces=_pieces(holds, track),
        recorded=track.recorded,
    )


def _gaps(lesson: Lesson) -> dict[int, list[_Card | Wait]]:
    """What is put in before each word, in the order in which it is written."""
    gaps: dict[int, list[_Card | Wait]] = {}
    following = 0
    for segment in lesson.segments:
        if segment.words:
            following = segment.words[0].index
        gaps.setdefault(following, []).append(_Card(segment.index))
        for direction in segment.directions:
            if isinstance(direction, Wait):
                gaps.setdefault(direction.at, []).append(direction)
        if segment.words:
            following = segment.words[-1].index + 1
    return gaps


def _fill_gap(
    lesson: Lesson,
    content: Sequence[_Card | Wait],
    before: float,
    after: float,
    put_in: float,
    card_seconds: float,
    fps: int,
    as_recorded: bool,
    holds: list[_Hold],
    segments: list[SegmentStart],
    waits: list[WaitTime],
) -> float:
    """Lay out one gap; returns the seconds put in up to the gap's end."""
    natural = after - before
    asked = sum(item.seconds for item in content if isinstance(item, Wait))
    edge = min(_EDGE, natural / 2)
    # A wait takes the silence that is there; a card stands directly before the words of its segment.
    cut = before + edge if isinstance(content[0], _Card) and asked else after - edge
    if isinstance(content[0], _Card) and before == 0.0 and put_in == 0.0:
        cut = 0.0  # the film opens with its first card
    silence = 0.0  # what the waits have of the silence that is there
    if isinstance(content[0], Wait):
        silence += cut - before
    if isinstance(content[-1], Wait):
        silence += after - cut
    missing = asked - silence if asked - silence > _ENOUGH and not as_recorded else 0.0
    now = before + put_in  # film time at which the item begins
    reached = before  # source time that has been used up
    for position, item in enumerate(content):
        last = position == len(content) - 1
        if isinstance(item, _Card):
            now = max(now, cut + put_in)
            reached = cut
            segments.append(SegmentStart(item.segment, lesson.segments[item.segment].title, now, card_seconds))
            if card_seconds:
                holds.append(_Hold(cut, card_seconds))
                put_in += card_seconds
            now += card_seconds
            continue
        share = round(missing * item.seconds / asked * fps) / fps if asked else 0.0
        if share:
            holds.append(_Hold(cut, share))
            put_in += share
        later_wait = any(isinstance(other, Wait) for other in content[position + 1 :])
        until = reached + (cut - reached if not last and not later_wait else 0.0)
        end = after + put_in if last else max(now + item.seconds if later_wait else until + put_in, now)
        end = min(end, after + put_in)
        waits.append(WaitTime(now, end, item.words))
        now = end
    return put_in


class _Shifts:
    """How far a source time that lies in no gap is moved."""

    def __init__(self, holds: Sequence[_Hold]) -> None:
        self._holds = holds

    def at(self, time: float) -> float:
        return time + sum(hold.length for hold in self._holds if hold.cut <= time)


def _moved(word: SpokenWord, shift_before: Sequence[float], shifts: _Shifts) -> tuple[float, float]:
    if word.word is not None:
        shift = shift_before[word.word]
        return word.start + shift, word.end + shift
    start = shifts.at(word.start)
    return start, start + word.end - word.start


def _in_order(words: Sequence[SpokenWord]) -> tuple[SpokenWord, ...]:
    """Starts never go back, and no word lasts beyond the start of the next."""
    fixed: list[SpokenWord] = []
    now = 0.0
    for index, word in enumerate(words):
        start = max(now, word.start)
        end = max(start, word.end)
        if index + 1 < len(words):
            end = max(start, min(end, words[index + 1].start))
        fixed.append(SpokenWord(word.word, word.text, start, end))
        now = start
    return tuple(fixed)


def _grow(segments: Sequence[SegmentStart]) -> list[SegmentStart]:
    """Chapters need starts that grow: segments without words and without cards are set a moment apart."""
    grown: list[SegmentStart] = []
    for segment in segments:
        start = 0.0 if not grown else max(segment.start, grown[-1].start + 0.1)
        grown.append(SegmentStart(segment.segment, segment.title, start, segment.card))
    return grown


def _cameras(lesson: Lesson, starts: Sequence[float], card_at: dict[int, float]) -> tuple[CameraChange, ...]:
    """Her picture stands beside the pictures unless the script says otherwise. A change at the start of a segment
    happens behind its title card."""
    changes = [CameraChange(0.0, "beside")]
    for direction in lesson.directions:
        if isinstance(direction, Camera):
            time = 0.0 if direction.at == 0 else card_at.get(direction.at, starts[direction.at])
            if time <= changes[-1].time:
                changes.pop()
            changes.append(CameraChange(time, direction.mode))
    return tuple(changes)


def _pieces(holds: Sequence[_Hold], track: Track) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    now = source = 0.0
    for hold in holds:
        if hold.cut > source:
            pieces.append(Piece(now, hold.cut - source, source if track.recorded else None))
            now += hold.cut - source
            source = hold.cut
        if hold.length:
            pieces.append(Piece(now, hold.length, None))
            now += hold.length
    if track.duration > source:
        pieces.append(Piece(now, track.duration - source, source if track.recorded else None))
    return tuple(pieces)
