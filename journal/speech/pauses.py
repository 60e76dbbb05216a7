"""Where a long sound may be cut. Knows sound only, no words."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from journal.speech.base import SAMPLE_RATE

_FRAME = SAMPLE_RATE // 50


def cut_at_pauses(samples: NDArray[np.float32], longest_seconds: float) -> list[NDArray[np.float32]]:
    """The sound in pieces of at most this many seconds, cut where it is quietest in the second half of each piece."""
    longest = int(longest_seconds * SAMPLE_RATE)
    pieces = []
    while len(samples) > longest:
        cut = longest // 2 + _quietest(samples[longest // 2 : longest])
        pieces.append(samples[:cut])
        samples = samples[cut:]
    return [*pieces, samples]


def _quietest(samples: NDArray[np.float32]) -> int:
    """The middle of the quietest 0.3 s."""
    frames = samples[: len(samples) // _FRAME * _FRAME].reshape(-1, _FRAME)
    power = (frames.astype(np.float64) ** 2).mean(axis=1)
    window = 15
    smooth = np.convolve(power, np.ones(window) / window, mode="valid")
    return (int(np.argmin(smooth)) + window // 2) * _FRAME
