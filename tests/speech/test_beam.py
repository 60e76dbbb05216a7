"""The search finds the likeliest text, favours phrases only when they are finished, and ends."""

from __future__ import annotations

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


def _likeliest(table: np.ndarray, longest: int) -> float:
    """The log probability of the best text of up to `longest` pieces, worked out over all of them."""
    logs = np.log(table / table.sum(axis=1, keepdims=True))
    best = np.full(SIZE, -np.inf)
    best[1:] = logs[1][1:]
    answer = float((best + logs[:, END]).max())
    for _ in range(longest - 1):
        best = np.array([(best + logs[:, piece]).max() if piece != END else -np.inf for piece in range(SIZE)])
        answer = max(answer, float((best + logs[:, END]).max()))
    return answer


@given(st.integers(0, 400))
def test_wide_beam_is_exact(seed: int) -> None:
    """With a beam as wide as the table the best reading is the one that working out every text finds."""
    table = _table(seed)
    found = search(Chain(table), end=END, longest=8, favoured=NOTHING, width=SIZE - 2, nothing_above=1.0, give_up=1e9)
    assert abs(found[0].score - _likeliest(table, 7)) < 1e-3 or len(found[0].pieces) >= 7
    assert [r.score for r in found] == sorted((r.score for r in found), reverse=True)
    for reading in found:
        assert END not in reading.pieces


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
