"""Beam search over a speech model's word pieces, with words to favour. Knows no model: it is given one step at a time."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

Scores = NDArray[np.float32]


class Stepper(Protocol):
    """A model in the middle of writing: several texts side by side, one piece at a time."""

    def start(self) -> Scores:
        """Log probabilities of the first piece, as one row."""
        ...

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        """Log probabilities after piece `pieces[i]` is added to the text that stood in row `origins[i]`."""
        ...


class Fitting(Protocol):
    """What is known of how words follow each other, asked a piece at a time; `begin` is where an empty text stands."""

    begin: Any

    def after(self, place: Any, piece: int) -> tuple[float, Any]:
        """What a text that stands at `place` gains by a piece, in log probability, and where it stands then."""
        ...


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read a sound: its pieces, the log probability of each (favour left out), and the score it won with."""

    score: float
    pieces: tuple[int, ...]
    sure: tuple[float, ...]


@dataclass(slots=True, eq=False)
class _Node:
    """A beginning of a favoured phrase; `bonus` so far, `kept` of it when the text goes on otherwise."""

    bonus: float = 0.0
    kept: float = 0.0
    onward: dict[int, _Node] = field(default_factory=dict)


class Favoured:
    """Phrases, as pieces, that get `boost` a piece on top of what the model gives them; all of it only when finished."""

    def __init__(self, phrases: Sequence[Sequence[int]], boost: float) -> None:
        self.boost = boost
        self.root = _Node()
        for phrase in phrases:
            node = self.root
            for piece in phrase:
                node = node.onward.setdefault(piece, _Node(node.bonus + boost, node.kept))
            node.kept = node.bonus
        self._carry(self.root)
        self._begins = np.array(sorted(self.root.onward), np.int64)

    def _carry(self, node: _Node) -> None:
        for after in node.onward.values():
            after.kept = max(after.kept, node.kept)
            self._carry(after)

    def weigh(self, node: _Node, scores: Scores) -> Scores:
        """The scores with what each piece gains by going on in a favoured phrase, or loses by breaking one off."""
        weighed = scores + np.float32(node.kept - node.bonus)
        weighed[self._begins] += np.float32(self.boost)
        for piece in node.onward:
            weighed[piece] = scores[piece] + self.boost
        return weighed

    def after(self, node: _Node, piece: int) -> _Node:
        """Where a text stands among the phrases after one more piece."""
        return node.onward.get(piece) or self.root.onward.get(piece) or self.root


@dataclass(slots=True)
class _Text:
    score: float
    pieces: tuple[int, ...]
    sure: tuple[float, ...]
    node: _Node
    place: Any = None


_CONSIDERED = 10
"""The likeliest next pieces of a text that are looked at where words are expected besides."""


def search(
    model: Stepper,
    *,
    end: int,
    longest: int,
    favoured: Favoured,
    width: int = 4,
    nothing_above: float = 0.5,
    give_up: float = 6.0,
    fitting: Fitting | None = None,
) -> list[Reading]:
    """The likeliest readings, best first; none where the model says with more than `nothing_above` that nothing was said.

    A beam by itself likes the empty text, one factor, better than any sentence; so the empty text is asked about once and
    then left out. A text is dropped once it is `give_up` behind the best finished one.
    """
    first = model.start()[0]
    if float(np.exp(first[end])) > nothing_above:
        return []
    first = first.copy()
    first[end] = -np.inf
    live = [_Text(0.0, (), (), favoured.root, fitting.begin if fitting else None)]
    scores = first[None, :]
    done: list[Reading] = []
    considered = max(_CONSIDERED if fitting else 0, width + 1)
    for _ in range(longest):
        candidates: list[tuple[float, int, int]] = []
        places: dict[tuple[int, int], Any] = {}
        for row, text in enumerate(live):
            weighed = favoured.weigh(text.node, scores[row])
            for piece in map(int, np.argpartition(-weighed, considered)[:considered]):
                score = text.score + float(weighed[piece])
                if fitting and piece != end:
                    gain, places[row, piece] = fitting.after(text.place, piece)
                    score += gain
                candidates.append((score, row, piece))
        grown: list[_Text] = []
        origins: list[int] = []
        for score, row, piece in heapq.nlargest(len(candidates), candidates):
            text = live[row]
            sure = (*text.sure, float(scores[row, piece]))
            if piece == end:
                done.append(Reading(score, text.pieces, sure))
                continue
            place = places.get((row, piece))
            grown.append(_Text(score, (*text.pieces, piece), sure, favoured.after(text.node, piece), place))
            origins.append(row)
            if len(grown) == width:
                break
        done.sort(key=lambda reading: -reading.score)
        del done[2 * width :]
        live = grown
        if _repeats(live[0].pieces):
            break
        if done and (
            live[0].score < done[0].score - give_up or (len(done) >= width and live[0].score < done[width - 1].score)
        ):
            break
        scores = model.step(origins, [text.pieces[-1] for text in live])
    if not done:
        done = [Reading(text.score, text.pieces, text.sure) for text in live]
    return done


def _repeats(pieces: tuple[int, ...], times: int = 4) -> bool:
    """Whether a text has run into saying the same over and over, as these models do on sound that is no speech."""
    for size in range(1, 9):
        tail = pieces[-size * times :]
        if len(tail) == size * times and tail == tail[:size] * times:
            return True
    return False
