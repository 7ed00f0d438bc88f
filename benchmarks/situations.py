"""What is learned of the situations of stories (`studio/talk/stories/likely.py`), and how well they are told.

    python benchmarks/situations.py measure   # five folds: the stories of each author are judged by what the others taught
    python benchmarks/situations.py fit       # learn from all, write studio/talk/stories/likely.npz

The stories in benchmarks/stories are invented, one JSON object a line: `kind` is the situation by CCSSM Table 1 (`KINDS` in
`likely.py`; X: neither sum nor difference answers), `story`, `question`, `answer`, `sentence`. Each file is by another hand.
`benchmarks/stories.py` tells how many of other stories are answered right. Needs the extra "bench".
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import warnings
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.sparse import csr_matrix
from sklearn.exceptions import ConvergenceWarning
from sklearn.neural_network import MLPClassifier

from studio.talk.stories import told_in
from studio.talk.stories.likely import KINDS, NEITHER, Guesser
from studio.talk.stories.signs import Told, pairs, signs

HERE = Path(__file__).parent
LEARNED = HERE.parent / "studio" / "talk" / "stories" / "likely.npz"
FOLDS = 5
RARE = 8  # a sign that fewer pairs of numbers have is not learned
MEMBERS = 3
UNITS = 32
ROUNDS = 8  # with more of them the stories are known by heart
COST = 0.01  # of large weights
LIMITS = (0.4, 0.5, 0.55, 0.6, 0.65, 0.7, 0.8, 0.9)


@dataclass(frozen=True)
class Labelled:
    """A labelled story as it is read, and the two numbers that answer it, in order of size (None: no two do)."""

    author: str
    kind: str
    answer: int | None
    told: Told
    two: tuple[int, ...] | None

    def kind_of(self, pair: Sequence[int]) -> str:
        """The situation that two of its numbers tell."""
        return self.kind if tuple(sorted(pair)) == self.two else NEITHER


def labelled(folder: Path) -> Iterator[Labelled]:
    """The labelled stories of a folder, by author."""
    for path in sorted(folder.glob("*.jsonl")):
        for line in path.read_text(encoding="utf-8").splitlines():
            story = json.loads(line)
            told = told_in(story["story"], story["question"])
            if told is None:
                continue
            numbers = [int(number) for number in re.findall(r"\d+", story["sentence"] or "")]
            plain = story["kind"] != NEITHER and len(numbers) == 3
            two = tuple(sorted(numbers[:2])) if plain else None
            yield Labelled(path.stem, story["kind"], story["answer"], told, two)


def learn(stories: Sequence[Labelled]) -> Guesser:
    """The networks that find the labels of these stories likeliest, for every two of their numbers."""
    rows, kinds = [], []
    for story in stories:
        for pair in pairs(story.told.tokens):
            rows.append({*signs(story.told, pair)})
            kinds.append(KINDS.index(story.kind_of([token.number or 0 for token in pair])))
    seen = Counter(sign for row in rows for sign in row)
    index = {sign: at for at, sign in enumerate(sorted(sign for sign, count in seen.items() if count >= RARE))}
    found = [sorted(index[sign] for sign in row if sign in index) for row in rows]
    ends = np.cumsum([0, *map(len, found)])
    table = csr_matrix((np.ones(ends[-1], np.float32), np.concatenate(found), ends), shape=(len(rows), len(index)))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", ConvergenceWarning)  # it is stopped early
        members = [
            MLPClassifier((UNITS,), alpha=COST, batch_size=256, max_iter=ROUNDS, random_state=seed).fit(table, kinds)
            for seed in range(MEMBERS)
        ]
    assert all([*member.classes_] == [*range(len(KINDS))] for member in members), (
        "every situation must be among the stories"
    )
    first, last = (np.array([member.coefs_[layer] for member in members], np.float32) for layer in (0, 1))
    first_bias, last_bias = (
        np.array([member.intercepts_[layer] for member in members], np.float32) for layer in (0, 1)
    )
    return Guesser(index, first, first_bias, last, last_bias)


def report(judged: Sequence[tuple[Labelled, float, int | None]]) -> None:
    """How many stories are answered and how many of the answers are right, for several chances; of those that the sum or the
    difference answers, and how many of the others are answered wrongly."""
    plain = [one for one in judged if one[0].kind != NEITHER]
    others = [one for one in judged if one[0].kind == NEITHER]
    for limit in LIMITS:
        answered = [one for one in plain if one[1] > limit]
        right = sum(answer == story.answer for story, _, answer in answered)
        wrong = sum(answer != story.answer for story, chance, answer in others if chance > limit)
        print(f"chance over {limit:.2f}: {100 * len(answered) / len(plain):.1f} % of {len(plain)} answered, "
              f"{100 * right / max(1, len(answered)):.1f} % of the answers right; {wrong} of {len(others)} others answered wrongly")  # fmt: skip


def judge(learned: Guesser, stories: Sequence[Labelled]) -> Iterator[tuple[Labelled, float, int | None]]:
    """Each story with the chance of its likelier answer, and that answer."""
    for story in stories:
        guess = learned.guess(story.told)
        yield (
            (story, 0.0, None) if guess is None else (story, guess.chance, guess.reading(story.told.quantities).answer)
        )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", choices=("measure", "fit"))
    parser.add_argument("--stories", type=Path, default=HERE / "stories", help="a folder of labelled stories")
    options = parser.parse_args()
    stories = [*labelled(options.stories)]
    if options.what == "fit":
        learn(stories).write(LEARNED)
        print(f"Learned from {len(stories)} stories, written to {LEARNED}")
        return 0
    authors = sorted({story.author for story in stories})
    judged: list[tuple[Labelled, float, int | None]] = []
    for fold in range(FOLDS):
        out = {*authors[fold::FOLDS]}
        learned = learn([story for story in stories if story.author not in out])
        judged += judge(learned, [story for story in stories if story.author in out])
    report(judged)
    return 0


if __name__ == "__main__":
    sys.exit(main())
