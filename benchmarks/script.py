"""How long reading a script takes: the grammar once, then a 20-minute script, then one forty times as long.

    python benchmarks/script.py

Every script is new, so that no direction was read before; the ratio says how far the time grows with the length.
"""

from __future__ import annotations

import argparse
import itertools
import time

from studio.script.reader import read

_PARAGRAPH = """\
[show ten frame: {a} dots as frame] {A} frogs sit on the lily pads. Look at them now!

How many more does the pond need to get to {c}? [wait 5 s: whisper it] Count on with me. \
[frame: add {b} crosses, counting] {A}, *{c}*, and that is all. [show number bond: {c} is {a} and ?] {a} + {b} = {c}.

"""


def script(words: int, start: int) -> str:
    """About `words` words; the numbers in it begin at `start`, so that its directions differ from other scripts'."""
    parts = ["---\ntitle: Benchmark\n---\n# One\n"]
    count = 0
    for i in itertools.count(start):
        if count >= words:
            return "".join(parts)
        a, b = i, 1 + i % 9
        parts.append(_PARAGRAPH.format(a=a, A=a, b=b, c=a + b))
        count += 43
    raise AssertionError


def main() -> None:
    argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter).parse_args()
    started = time.perf_counter()
    read("---\ntitle: x\n---\n[show dots: 3] Three.")
    print(f"first script, with lark and the grammar: {1000 * (time.perf_counter() - started):.0f} ms")
    read(script(2_500, 900_000))  # the regular expressions of every state are compiled on first use
    figures = []
    for words, repeats, start in ((2_500, 9, 1_000), (100_000, 2, 10_000)):
        best = float("inf")
        for i in range(repeats):
            text = script(words, start + 10_000 * i)
            started = time.perf_counter()
            lesson = read(text)
            best = min(best, time.perf_counter() - started)
        figures.append(best / len(lesson.words))
        print(
            f"{len(lesson.words):,} words, {len(lesson.directions):,} new directions: "
            f"{1000 * best:.1f} ms (best of {repeats}), {1e6 * figures[-1]:.1f} µs a word"
        )
    print(f"time for a word in the long script / in the short one: {figures[1] / figures[0]:.2f}")


if __name__ == "__main__":
    main()
