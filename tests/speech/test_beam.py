"""The search finds the likeliest text, favours phrases only when they are finished, and ends."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from journal.speech.beam import Favoured, Scores, search

END, SIZE = 0, 12
NOTHING = Favoured([], 1.0)


class Chain:
    """A model whose next piece depends on the last one only."""

    def __init__(self, table: np.ndarray) -> None:
        self.table = np.log(table / table.sum(axis=1, keepdims=True)).astype(np.float32)
        self.last: list[int] = []

    def start(self) -> Scores:
        return self.table[1][None, :]

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        return self.table[list(pieces)]


def _table(seed: int) -> np.ndarray:
    return np.random.default_rng(seed).dirichlet(np.ones(SIZE) * 0.3, size=SIZE) + 1e-6


@given(st.integers(0, 10**6))
def test_scores_add_up(seed: int) -> None:
    """Every reading is a different text, without the end in it, scored with what the model gives its pieces; best first."""
    table = _table(seed)
    logs = np.log(table / table.sum(axis=1, keepdims=True))
    found = search(Chain(table), end=END, longest=8, favoured=NOTHING, nothing_above=1.0)
    assert found
    assert len({reading.pieces for reading in found}) == len(found)
    assert [r.score for r in found] == sorted((r.score for r in found), reverse=True)
    for reading in found:
        path = [1, *reading.pieces, *([END] if len(reading.sure) > len(reading.pieces) else [])]
        steps = [float(logs[a, b]) for a, b in itertools.pairwise(path)]
        assert END not in reading.pieces
        assert np.allclose(reading.sure, steps, atol=1e-3)
        assert abs(reading.score - sum(steps)) < 1e-3


def test_better_than_greedy() -> None:
    """A text whose first piece is the second choice is found where it is likelier as a whole."""
    table = np.full((SIZE, SIZE), 1e-6)
    table[1, 2], table[1, 3] = 0.6, 0.4
    table[2, 4:10] = 1 / 6
    table[4:10, END] = 1.0
    table[3, END] = 1.0
    found = search(Chain(table), end=END, longest=8, favoured=NOTHING)
    assert found[0].pieces == (3,)


def test_nothing_said() -> None:
    """No reading where the end is likelier than a half at once; where it is less likely, never the empty one."""
    table = np.full((SIZE, SIZE), 0.01)
    table[1, END] = 1.0
    assert search(Chain(table), end=END, longest=8, favoured=NOTHING) == []
    table[1, END] = 0.1
    found = search(Chain(table), end=END, longest=8, favoured=NOTHING)
    assert found
    assert all(reading.pieces for reading in found)


def test_favoured_when_finished() -> None:
    """A phrase gains by its pieces when it is finished, and nothing by its beginning."""
    favoured = Favoured([(3, 4, 5)], 2.0)
    node, gained = favoured.root, 0.0
    for piece in (3, 4, 5, 6):
        weighed = favoured.weigh(node, np.zeros(SIZE, np.float32))
        gained += float(weighed[piece])
        node = favoured.after(node, piece)
    assert gained == 6.0
    node, gained = favoured.root, 0.0
    for piece in (3, 4, 6):
        gained += float(favoured.weigh(node, np.zeros(SIZE, np.float32))[piece])
        node = favoured.after(node, piece)
    assert gained == 0.0


def test_favoured_inside_a_longer_one() -> None:
    """A phrase that begins a longer one keeps its gain when the longer one breaks off."""
    favoured = Favoured([(3, 4), (3, 4, 5, 6)], 1.0)
    node, gained = favoured.root, 0.0
    for piece in (3, 4, 5, 7):
        gained += float(favoured.weigh(node, np.zeros(SIZE, np.float32))[piece])
        node = favoured.after(node, piece)
    assert gained == 2.0


def test_going_round_ends() -> None:
    """A model that says the same over and over is stopped."""
    table = np.full((SIZE, SIZE), 1e-4)
    table[1, 2] = table[2, 3] = table[3, 2] = 1.0
    found = search(Chain(table), end=END, longest=1000, favoured=NOTHING)
    assert found
    assert all(len(reading.pieces) < 40 for reading in found)
