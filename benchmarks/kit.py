"""How long the parts of a kit take, all but the film, for a lesson of 20 minutes, each in a share of the whole.

python benchmarks/kit.py [--minutes 20] [--runs 3] [--profile]
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
import statistics
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from captions import pond_lesson


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--minutes", type=float, default=20.0, help="length of the lesson")
    arguments.add_argument("--runs", type=int, default=3)
    arguments.add_argument("--profile", action="store_true", help="say where the time goes")
    given = arguments.parse_args()

    from studio.captions import make_captions
    from studio.script.reader import read
    from studio.stage.staging import stage
    from studio.timing.assemble import assemble
    from studio.timing.pace import pace_track

    lesson = read(pond_lesson(given.minutes))
    staged = stage(lesson)
    sheet = assemble(lesson, staged, pace_track(lesson))

    totals, processor = [], []
    for run in range(given.runs):
        if run == 0 and given.profile:
            profile = cProfile.Profile()
            profile.enable()
        began, worked = time.perf_counter(), time.process_time()
        from studio.kit import KitContents, write_parts

        captions = make_captions(lesson, sheet)
        done = time.perf_counter()
        steps: list[tuple[float, str]] = []
        with tempfile.TemporaryDirectory() as folder:
            contents = KitContents(lesson, sheet, captions, staged.findings)

            def note(share: float, what: str, own: list[tuple[float, str]] = steps) -> None:
                own.append((time.perf_counter(), what))

            write_parts(contents, Path(folder), note)
            size = sum(path.stat().st_size for path in Path(folder).rglob("*") if path.is_file())
            files = sum(path.is_file() for path in Path(folder).rglob("*"))
        totals.append(time.perf_counter() - began)
        processor.append(time.process_time() - worked)
        if run == 0 and given.profile:
            profile.disable()
            pstats.Stats(profile).sort_stats("cumulative").print_stats(25)
        if run == 0:
            print(
                f"{sheet.duration / 60:.1f} minutes, {len(sheet.words)} words, {len(sheet.cues)} picture steps, "
                f"{len(captions.captions)} captions; {files} files, {size / 1e6:.1f} MB"
            )
            print(f"  captions {done - began:6.2f} s")
            for (start, what), (end, _) in pairwise(steps):
                if end - start > 0.01:
                    print(f"  {what:<18} {end - start:6.2f} s")
    print(
        f"first run {totals[0]:.2f} s ({processor[0]:.2f} s of the processor), later runs {statistics.median(totals[1:] or totals):.2f} s; "
        f"{sheet.duration / totals[0]:.0f} × faster than the lesson lasts"
    )


if __name__ == "__main__":
    main()
