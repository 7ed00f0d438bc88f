"""How many story problems are answered, and how many of the answers are right.

    python benchmarks/stories.py --data ../shared/data/stories/asdiv-grades-1-2.jsonl

Reads a file with one story a line (JSON: `id`, `story`, `question`, `answer`), such as one-step stories of ASDiv (Miao,
Liang and Su, ACL 2020, CC BY-NC 4.0), which is not shipped. `--part` takes the stories that were looked at while the
rules were written (`seen`, three fifths by the hash of the id) or those that were kept for the end (`unseen`).
"""

from __future__ import annotations

import argparse
import hashlib
import json
import time
from pathlib import Path

from studio.talk.numbers import find_numbers, words_of
from studio.talk.stories import find_stories, solve


def is_seen(name: str) -> bool:
    """Whether a story is in the part that was looked at."""
    return int(hashlib.sha1(name.encode()).hexdigest(), 16) % 5 < 3


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", type=Path, required=True, help="stories, one JSON object a line")
    parser.add_argument("--part", choices=("all", "seen", "unseen"), default="all")
    parser.add_argument("--speed", action="store_true", help="time for texts of growing length, as a ratio")
    options = parser.parse_args()
    stories = [json.loads(line) for line in options.data.read_text("utf-8").splitlines() if line.strip()]
    if options.part != "all":
        stories = [story for story in stories if is_seen(story["id"]) == (options.part == "seen")]
    wrong, unanswered = [], []
    for story in stories:
        answer = solve(story["story"], story["question"]).answer
        if answer is None:
            unanswered.append(story["id"])
        elif answer != story["answer"]:
            wrong.append(story["id"])
    answered = len(stories) - len(unanswered)
    right = answered - len(wrong)
    print(f"stories {len(stories)} ({options.part})")
    print(f"answered {answered} ({answered / max(1, len(stories)):.1%})")
    print(f"right {right} ({right / max(1, answered):.1%} of the answered)")
    print("wrong:", " ".join(wrong) or "none")
    print("not answered:", " ".join(unanswered) or "none")
    if options.speed:
        _speed([f"{story['story']} {story['question']}" for story in stories])


def _speed(texts: list[str]) -> None:
    for factor in (1, 4, 16):
        words = words_of(" ".join(texts * factor))
        numbers = find_numbers(words)
        start = time.perf_counter()
        found = find_stories(words, numbers)
        spent = time.perf_counter() - start
        print(f"{len(words):7} words, {len(found):5} stories: {spent * 1e6 / len(words):6.1f} µs a word")


if __name__ == "__main__":
    main()
