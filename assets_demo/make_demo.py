"""Makes the demo recordings: a synthetic voice that reads the demo lesson, over a drawn moving picture of a pond.

Run from a checkout with flite (a Debian package) installed: `python assets_demo/make_demo.py`. It writes
`pond-09.take.mp4`, read as written, and `pond-09-slips.take.mp4`, read with three slips, each with a `.truth.json` that
says when each sentence starts and which slips were made. The voice is flite's slt (free to use); the picture stands in
for a teacher.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import re
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from PIL import Image, ImageDraw
from pydub import AudioSegment
from pydub.generators import WhiteNoise

from studio.script.files import load
from studio.script.model import Lesson, Wait

HERE = Path(__file__).parent
WIDTH, HEIGHT, FPS, RATE = 960, 540, 25, 48000
PADDING = 20  # milliseconds of silence kept before and after each stretch of speech

# What is said in place of what is written, by the start of the sentence.
SLIPS = {
    "Ten and four make fourteen.": ("Ten and four make thirteen.", "a wrong number"),
    "Five. Six, seven, eight.": ("Five. Six, eight.", "a count that skips"),
    "Eight is the whole.": ("Eight is the whole. Eight is the whole.", "a sentence said twice"),
}


@dataclass(frozen=True)
class Said:
    """One stretch of speech: what the script has, what is spoken, the silence after it in milliseconds."""

    written: str
    spoken: str
    pause: int


def sentences(lesson: Lesson) -> list[Said]:
    """What is to be read, a paragraph's sentences apart where she would breathe."""
    waits = {d.at: d.seconds for d in lesson.directions if isinstance(d, Wait)}
    found: list[Said] = []
    words = lesson.words
    start = 0
    for end in range(1, len(words) + 1):
        if end < len(words) and words[end].sentence == words[start].sentence and end not in waits:
            continue
        text = " ".join(word.text for word in words[start:end])
        new_paragraph = end < len(words) and words[end].paragraph != words[end - 1].paragraph
        new_segment = end < len(words) and words[end].segment != words[end - 1].segment
        pause = 1600 if new_segment else 1000 if new_paragraph else 600
        if end in waits:
            # She does not always wait as long as she wrote; the studio lengthens the silence.
            pause = int(min(waits[end], 2.5) * 1000)
        found.append(Said(text, text, pause))
        start = end
    return join_short(found)


def join_short(found: list[Said]) -> list[Said]:
    """A sentence of one word ("Five.") is read in one breath with the next."""
    joined: list[Said] = []
    for said in found:
        if joined and len(joined[-1].written.split()) == 1 and joined[-1].pause < 1000:
            before = joined.pop()
            said = Said(f"{before.written} {said.written}", f"{before.spoken} {said.spoken}", said.pause)
        joined.append(said)
    return joined


def speak(text: str, voice: str, folder: Path) -> AudioSegment:
    """One stretch of speech by flite, a little slower than it would."""
    out = folder / "said.wav"
    plain = re.sub(r"[“”\"]", "", text)
    subprocess.run(
        ["flite", "-voice", voice, "--setf", "duration_stretch=1.4", "-t", plain, "-o", str(out)], check=True
    )
    return (
        AudioSegment.from_wav(out)
        .set_frame_rate(RATE)
        .strip_silence(silence_len=30, silence_thresh=-50, padding=PADDING)
    )


def record(lesson: Lesson, slips: bool, voice: str) -> tuple[AudioSegment, list[dict[str, object]]]:
    """The sound of a take and its truth."""
    sound = AudioSegment.silent(900, frame_rate=RATE)
    truth: list[dict[str, object]] = []
    with tempfile.TemporaryDirectory() as name:
        for said in sentences(lesson):
            spoken, slip = said.spoken, ""
            if slips and said.written in SLIPS:
                spoken, slip = SLIPS[said.written]
            truth.append(
                {
                    "start": round((len(sound) + PADDING) / 1000, 3),
                    "written": said.written,
                    "spoken": spoken,
                    "slip": slip,
                }
            )
            sound += speak(spoken, voice, Path(name)) + AudioSegment.silent(said.pause, frame_rate=RATE)
    sound += AudioSegment.silent(900, frame_rate=RATE)
    random.seed(9)
    room = WhiteNoise(sample_rate=RATE).to_audio_segment(duration=len(sound), volume=-62).low_pass_filter(900)
    return sound.set_channels(1).overlay(room), truth


def pond(time: float, loudness: float) -> Image.Image:
    """The moving picture: water with slow ripples, a lily pad, and a frog whose mouth follows the sound."""
    image = Image.new("RGB", (WIDTH, HEIGHT), (206, 226, 220))
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 210, WIDTH, HEIGHT), fill=(122, 172, 176))
    draw.ellipse((-120, 120, 420, 330), fill=(150, 176, 128))
    draw.ellipse((520, 140, 1120, 320), fill=(138, 166, 120))
    draw.rectangle((0, 226, WIDTH, HEIGHT), fill=(122, 172, 176))
    for ring in range(3):
        size = (time * 12 + ring * 60) % 180
        shade = int(40 * (1 - size / 180))
        colour = (122 + shade, 172 + shade // 2, 176 + shade // 2)
        draw.ellipse((480 - size * 2.2, 430 - size * 0.6, 480 + size * 2.2, 430 + size * 0.6), outline=colour, width=3)
    bob = 5 * math.sin(time * 1.1)
    draw.ellipse((300, 395 + bob, 660, 495 + bob), fill=(84, 140, 88))
    draw.polygon([(480, 445 + bob), (660, 400 + bob), (668, 440 + bob)], fill=(122, 172, 176))
    body = (100, 164, 84)
    draw.ellipse((372, 250 + bob, 588, 452 + bob), fill=body)
    draw.ellipse((345, 395 + bob, 430, 455 + bob), fill=(88, 150, 74))
    draw.ellipse((530, 395 + bob, 615, 455 + bob), fill=(88, 150, 74))
    for x in (425, 535):
        draw.ellipse((x - 40, 205 + bob, x + 40, 285 + bob), fill=body)
        if (time % 4.3) < 0.14:
            draw.line((x - 22, 246 + bob, x + 22, 246 + bob), fill=(40, 50, 40), width=5)
        else:
            draw.ellipse((x - 25, 221 + bob, x + 25, 271 + bob), fill=(250, 248, 236))
            draw.ellipse((x - 11, 235 + bob, x + 11, 259 + bob), fill=(40, 50, 40))
    draw.ellipse((420, 330 + bob, 540, 440 + bob), fill=(206, 214, 150))
    opening = 4 + 26 * loudness
    draw.ellipse((435, 318 - opening / 2 + bob, 525, 322 + opening / 2 + bob), fill=(120, 62, 60))
    return image


def loudness(samples: np.ndarray, time: float) -> float:
    """How far the mouth is open, 0 to 1."""
    part = samples[int(time * RATE) : int((time + 0.08) * RATE)]
    return min(1.0, float(np.sqrt(np.mean(part**2))) * 7) if len(part) else 0.0


def write_take(sound: AudioSegment, path: Path) -> None:
    """The recording as a camera would give it: H.264 and AAC, 25 frames a second."""
    samples = np.array(sound.get_array_of_samples(), dtype=np.float32) / 32768
    with av.open(str(path), "w") as container:
        picture = container.add_stream("libx264", rate=FPS, options={"crf": "27", "preset": "slow"})
        picture.width, picture.height, picture.pix_fmt = WIDTH, HEIGHT, "yuv420p"
        voice = container.add_stream("aac", rate=RATE, layout="mono")
        voice.bit_rate = 96000
        for index in range(int(len(samples) / RATE * FPS)):
            frame = av.VideoFrame.from_image(pond(index / FPS, loudness(samples, index / FPS)))
            container.mux(picture.encode(frame))
            chunk = samples[index * RATE // FPS : (index + 1) * RATE // FPS]
            sound_frame = av.AudioFrame.from_ndarray(chunk[None, :].copy(), format="fltp", layout="mono")
            sound_frame.sample_rate, sound_frame.pts = RATE, index * RATE // FPS
            container.mux(voice.encode(sound_frame))
        container.mux(picture.encode())
        container.mux(voice.encode())


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--voice", default="slt", help="a voice of flite (default: slt)")
    parser.add_argument("--out", type=Path, default=HERE, help="the folder to write to")
    options = parser.parse_args()
    lesson = load(HERE / "pond-09.lesson.md")
    for name, slips in (("pond-09", False), ("pond-09-slips", True)):
        sound, truth = record(lesson, slips, options.voice)
        write_take(sound, options.out / f"{name}.take.mp4")
        text = json.dumps({"duration": len(sound) / 1000, "sentences": truth}, indent=1)
        (options.out / f"{name}.truth.json").write_text(text + "\n")
        print(f"{name}: {len(sound) / 1000:.1f} s")


if __name__ == "__main__":
    main()
