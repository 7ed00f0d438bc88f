"""What the numbers around a place (its company) speak for: for what is told by one of them ("one more") or by two ("the sum").
How loudly, is told by what stands around the place and around them, and by how well that goes together (products of
vectors, as in the attention of Bahdanau and others 2015 and Vaswani and others 2017). What is said for a number is summed, for
each relation by itself. Learned with the network (`network.py`)."""

from __future__ import annotations

import numpy as np
from scipy.sparse import csr_matrix

from studio.agree.expect.company import PAIRS, Company
from studio.agree.expect.products import Floats, product
from studio.agree.expect.relations import NONE, Numbers, to_one, to_two, within
from studio.agree.expect.rows import Rows

COMPANY_ARRAYS = (
    "near_tokens", "near_mix", "near_mix_bias", "near_mixed", "one_place", "one_own", "one_near", "one_seat", "one_away", "one_bias",
    "ask", "answer", "one", "one_alike", "two_place", "two_first", "two_second", "two_seats", "two_first_away", "two_second_away",
    "two", "relation_worth", "relation_layer",
)  # fmt: skip
"""The learned arrays of a member of a network, T tokens, W wide, R relations; D and H are as wide as in `network.py`. near_tokens
T x W, near_mix W x 2W with near_mix_bias and near_mixed 2W x W: the vector of each number of the lesson, by what stands around it.
What one of them says: one_place D x W, one_own and one_near W x W, one_seat and one_away with a row for each seat and each class
of `away`, one_bias W; ask and answer W x (heads x width), whose products come under one_alike heads x R; one W x R. What two
of them say: two_place D x W, two_first and two_second W x W, two_seats with a row for each pair, two_first_away and
two_second_away, two W x R. What all of it is worth: relation_worth R, relation_layer R x H, first the relations to one."""
HEADS = 8
_AT_ONCE = 64  # places
_FIRST, _SECOND = (np.array(seats) for seats in PAIRS)


class Spoken:
    """What the company of places speaks for: of each number of each place, what is said for it by relation."""

    def __init__(self, company: Company, tokens: csr_matrix, values: Rows) -> None:
        self._company = company
        self._tokens = tokens
        near = company.numbers[company.near]
        self._one = to_one(near)
        self._two = to_two(near[:, _FIRST], near[:, _SECOND])
        self._ends = values.ends
        self._numbers = within(values.items)

    def spoken(self, a: dict[str, Floats], around: Floats) -> Floats:
        """By one member, a row for each number; `around` are the sums of what stands around the places."""
        vectors = self._tokens @ a["near_tokens"]
        mixed = np.maximum(product(vectors, a["near_mix"]) + a["near_mix_bias"], 0)
        vectors = vectors + product(mixed, a["near_mixed"])
        ask, answer = (product(vectors, a[name]).reshape(len(vectors), HEADS, -1) for name in ("ask", "answer"))
        near, first, second = (product(vectors, a[name]) for name in ("one_near", "two_first", "two_second"))
        asked = product(around, a["one_place"]) + a["one_bias"] + product(vectors, a["one_own"])[self._company.own]
        paired = product(around, a["two_place"])
        found = []
        for at in range(0, len(around), _AT_ONCE):
            some = slice(at, at + _AT_ONCE)
            seats, away, own = self._company.near[some], self._company.away[some], self._company.own[some]
            units = np.maximum(asked[some, None] + near[seats] + a["one_seat"] + a["one_away"][away], 0)
            alike = np.einsum("phw,pshw->psh", ask[own], answer[seats]) / np.sqrt(ask.shape[-1], dtype=np.float32)
            one = units @ a["one"] + alike @ a["one_alike"]
            units = paired[some, None] + (first[seats] + a["two_first_away"][away])[:, _FIRST]
            units += (second[seats] + a["two_second_away"][away])[:, _SECOND] + a["two_seats"]
            found.append(self._by_number(at, one, np.maximum(units, 0) @ a["two"]))
        return np.concatenate(found)

    def _by_number(self, at: int, one: Floats, two: Floats) -> Floats:
        """What is said for each number of the places from `at` on, by relation, summed over all who say it."""
        places, last = len(one), at + len(one)
        relations = one.shape[-1] + two.shape[-1]
        told = _cells(self._one[at:last], 0, relations), _cells(self._two[at:last], one.shape[-1], relations)
        spoken = np.concatenate((one.ravel(), two.ravel()))
        table = np.bincount(np.concatenate(told), spoken, places * (NONE + 1) * relations)
        table = table.reshape(places, NONE + 1, relations)
        table[:, NONE] = 0
        ends = self._ends[at : last + 1]
        place = np.repeat(np.arange(places), np.diff(ends))
        return table[place, self._numbers[ends[0] : ends[-1]]].astype(np.float32)


def _cells(told: Numbers, first: int, relations: int) -> Numbers:
    """The cells of a table (place, number, relation) for what is told at places, the relations from `first` on."""
    place = np.arange(len(told), dtype=np.int32)[:, None, None]
    relation = np.arange(first, first + told.shape[-1], dtype=np.int32)
    return ((place * (NONE + 1) + told) * relations + relation).ravel()
