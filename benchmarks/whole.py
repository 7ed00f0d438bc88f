"""The whole job: how long the demo kit takes against the length of its lesson, and how fast the small verbs answer.

    python benchmarks/whole.py            # all figures
    python benchmarks/whole.py --no-kit   # without building the kit

Every figure is taken in a new process with an empty store.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "assets_demo"

CHECK = """
import sys, time
import studio.cli
start = time.perf_counter()
from studio.check import check_file
from pathlib import Path
checked = check_file(Path(sys.argv[1]))
first = time.perf_counter() - start
start = time.perf_counter()
check_file(Path(sys.argv[1]))
print(first, time.perf_counter() - start, len(checked.value["statements"]), len(checked.value["shown"]))
"""


def wall(command: list[str], **more: str) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env={**os.environ, **more})
    return time.perf_counter() - start


def long_script(words: int) -> str:
    """The demo lesson again and again, to the length of a long lesson."""
    text = (DEMO / "pond-09.lesson.md").read_text(encoding="utf-8")
    _, header, body = text.split("---\n", 2)
    spoken = len([w for line in body.splitlines() if not line.startswith(("[", "#")) for w in line.split()])
    return f"---\n{header}---\n" + "\n[clear]\n".join([body] * max(1, round(words / spoken)))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--no-kit", action="store_true", help="leave the kit out")
    options = parser.parse_args()

    bare = statistics.median(wall([sys.executable, "-c", "pass"]) for _ in range(7))
    shown = statistics.median(wall([sys.executable, "-m", "studio", "--help"]) for _ in range(7))
    print(f"studio --help: {shown:.3f} s (an empty Python process: {bare:.3f} s)")

    with tempfile.TemporaryDirectory() as name:
        script = Path(name) / "long.lesson.md"
        script.write_text(long_script(2500), encoding="utf-8")
        runs = [
            [float(value) for value in subprocess.run(
                [sys.executable, "-c", CHECK, str(script)], check=True, capture_output=True, text=True
            ).stdout.split()]
            for _ in range(5)
        ]  # fmt: skip
        first, second = (statistics.median(run[i] for run in runs) for i in (0, 1))
        print(
            f"studio check, 2,500 words ({runs[0][2]:.0f} statements, {runs[0][3]:.0f} picture steps): {first:.3f} s with "
            f"everything it has to import, {second:.3f} s when that is loaded"
        )
        if options.no_kit:
            return
        for round_ in ("first", "second"):
            out = Path(name) / "kit"
            seconds = wall([sys.executable, "-m", "studio", "demo", "--out", str(out)], STUDIO_CACHE=f"{name}/store")
            length = json.loads((out / "report.json").read_text())["duration"]
            print(
                f"studio demo, {round_} time (listening to both recordings, film, kit, audit): {seconds:.1f} s for a "
                f"lesson of {length:.1f} s, ratio {seconds / length:.2f}"
            )


if __name__ == "__main__":
    main()
