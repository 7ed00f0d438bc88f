from __future__ import annotations

import wave
from pathlib import Path

import numpy as np
import pytest
from pydub import AudioSegment

from studio.errors import UnusableInput
from studio.listen.recording import QUIETEST, RATE, load, loudest, open_recording
from tests.listen.media import tone, write_media
from tests.listen.speech import write_wav


def refused(path: Path | list[Path]) -> str:
    with pytest.raises(UnusableInput) as caught:
        load(path)
    (sentence,) = caught.value.sentences()
    assert "\n" not in sentence
    return sentence


@pytest.mark.parametrize("suffix", [".wav", ".mp3", ".m4a", ".mp4", ".mov", ".webm"])
def test_the_usual_kinds_of_file_are_read_at_their_length(tmp_path: Path, suffix: str) -> None:
    picture = suffix in (".mp4", ".mov", ".webm")
    path = write_media(tmp_path / f"take{suffix}", tone(2.0), picture)
    recording, sound = load(path)
    assert sound.duration == pytest.approx(2.0, abs=0.12)
    assert recording.has_video is picture
    # The pitch is that of the tone that was written (a Fourier transform is the independent reader).
    middle = sound.samples[RATE // 2 : RATE // 2 + RATE].astype(float)
    assert np.argmax(np.abs(np.fft.rfft(middle))) == pytest.approx(220, abs=2)


def test_an_upright_picture_of_uneven_frame_rate_is_read(tmp_path: Path) -> None:
    path = write_media(tmp_path / "phone.mp4", tone(2.0), True, (48, 96), uneven=True)
    recording, sound = load(path)
    assert recording.has_video and sound.duration == pytest.approx(2.0, abs=0.12)


def test_sound_that_begins_late_keeps_its_place_against_the_picture(tmp_path: Path) -> None:
    path = write_media(tmp_path / "late.mp4", tone(1.0), True, sound_late=0.8)
    _, sound = load(path)
    loud = np.abs(sound.samples.astype(int)) > 2000
    assert np.argmax(loud) / RATE == pytest.approx(0.8, abs=0.08)


def test_takes_are_joined_in_order(tmp_path: Path) -> None:
    first = write_wav(tmp_path / "a.wav", tone(1.0, pitch=300))
    second = write_media(tmp_path / "b.mp3", tone(1.5, pitch=600))
    recording, sound = load([first, second])
    assert [take.path for take in recording.takes] == [first, second]
    assert recording.takes[1].start == pytest.approx(1.0)
    assert recording.duration == pytest.approx(sound.duration)
    early, late = sound.part(0.2, 0.8), sound.part(1.4, 2.0)
    assert np.argmax(np.abs(np.fft.rfft(early))) / 0.6 == pytest.approx(300, abs=3)
    assert np.argmax(np.abs(np.fft.rfft(late))) / 0.6 == pytest.approx(600, abs=3)


def test_a_dead_channel_is_left_out(tmp_path: Path) -> None:
    left = tone(1.0)
    both = np.stack([left, np.zeros_like(left)], axis=1)
    _, sound = load(write_wav(tmp_path / "dead.wav", both, channels=2))
    assert loudest(sound.samples) == pytest.approx(loudest(left), abs=0.2)
    assert any("right channel" in note for note in sound.notes)


def test_channels_that_cancel_each_other_are_not_added(tmp_path: Path) -> None:
    left = tone(1.0)
    _, sound = load(write_wav(tmp_path / "against.wav", np.stack([left, -left], axis=1), channels=2))
    assert loudest(sound.samples) > -20


def test_clipped_sound_is_used_and_told(tmp_path: Path) -> None:
    hard = np.clip(tone(1.0).astype(int) * 20, -32768, 32767).astype(np.int16)
    _, sound = load(write_wav(tmp_path / "loud.wav", hard))
    assert any("clipped" in note for note in sound.notes)


def test_levels_are_those_of_pydub() -> None:
    samples = tone(0.5, level=0.1)
    segment = AudioSegment(samples.tobytes(), sample_width=2, frame_rate=RATE, channels=1)
    assert loudest(samples) == pytest.approx(segment.dBFS, abs=0.01)


def test_what_is_no_recording_is_refused_in_one_sentence(tmp_path: Path) -> None:
    text = tmp_path / "notes.txt"
    text.write_text("Here are seven frogs.\n" * 50)
    assert "no recording" in refused(text)
    noise = tmp_path / "take.mp4"
    noise.write_bytes(np.random.default_rng(1).bytes(5000))
    assert "damaged" in refused(noise)
    assert "no such file" in refused(tmp_path / "gone.wav")
    assert "folder" in refused(tmp_path)
    empty = tmp_path / "empty.wav"
    empty.touch()
    assert "empty" in refused(empty)


def test_a_picture_without_sound_is_refused(tmp_path: Path) -> None:
    assert "no sound" in refused(write_media(tmp_path / "mute.mp4", None, picture=True))


def test_a_recording_of_no_length_is_refused(tmp_path: Path) -> None:
    assert "no length" in refused(write_wav(tmp_path / "zero.wav", np.zeros(0, np.int16)))


@pytest.mark.parametrize("suffix", [".wav", ".mp4", ".webm"])
def test_a_recording_that_is_cut_off_is_refused(tmp_path: Path, suffix: str) -> None:
    whole = write_media(tmp_path / f"whole{suffix}", tone(8.0), suffix != ".wav", seconds=8.0)
    data = whole.read_bytes()
    cut = tmp_path / f"cut{suffix}"
    cut.write_bytes(data[: len(data) // 2])
    assert "cut off" in refused(cut)


@pytest.mark.parametrize("suffix", [".ogg", ".avi"])
@pytest.mark.parametrize("share", [0.3, 0.62, 0.9])
def test_a_recording_that_states_no_length_and_ends_inside_is_refused(
    tmp_path: Path, suffix: str, share: float
) -> None:
    whole = write_media(tmp_path / f"take{suffix}", tone(6.0))
    assert load(whole)[1].duration == pytest.approx(6.0, abs=0.12)
    data = whole.read_bytes()
    cut = tmp_path / f"cut{suffix}"
    cut.write_bytes(data[: round(share * len(data))])
    assert "cut off" in refused(cut)


def test_a_silent_recording_is_refused(tmp_path: Path) -> None:
    quiet = np.random.default_rng(1).normal(0, 2, 3 * RATE).astype(np.int16)
    assert loudest(quiet) < QUIETEST
    assert "silent" in refused(write_wav(tmp_path / "quiet.wav", quiet))


def test_each_take_is_named_by_its_own_file(tmp_path: Path) -> None:
    good = write_wav(tmp_path / "good.wav", tone(1.0))
    bad = tmp_path / "bad.wav"
    bad.write_bytes(b"no sound here")
    assert "bad.wav" in refused([good, bad])


def test_the_header_of_a_wav_is_believed_over_the_size_of_its_file(tmp_path: Path) -> None:
    path = write_wav(tmp_path / "take.wav", tone(3.0))
    with wave.open(str(path)) as reader:
        assert reader.getnframes() == 3 * RATE
    assert open_recording(path).duration == pytest.approx(3.0)
