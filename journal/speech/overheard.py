"""Whether somebody spoke while the journal's own voice did: what came in at the microphone held against what was played.

The loudness of what was played, late and weaker as the room gives it back, is taken for what the microphone has of it; speech
well above that is somebody else's. Pure.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from journal.speech.base import SAMPLE_RATE
from journal.speech.pauses import CHUNK, SpeechDetector

Samples = NDArray[np.float32]
_FRAME = SAMPLE_RATE // 50
_LATEST_SECONDS = 1.0
"""How far the loudspeaker and the room may be behind."""
_PEAK = 8.0
"""How far the correlation at one delay must stand out for the own voice to be in the microphone at all."""
_SMOOTH = 8
_FADES = 0.8
"""What is left of a sound in a room a frame later: a second and a quarter to a millionth."""
_ABOVE = 10**0.8
"""How far above what is expected of the own voice another must be: 8 dB."""
_CLEAR = 10**1.5
"""How far the other must be above the own voice for an engine to hear it alone: 15 dB."""
_SHORTEST, _GAP = 15, 15
"""Frames that speech must last to be some, and that its words may be apart."""


@dataclass(frozen=True, slots=True)
class Overheard:
    """Speech of somebody else: from which sample on, and whether the own voice beside it is too weak to matter."""

    begins: int
    clear: bool


def spoken_over(heard: Samples, played: Samples) -> Overheard | None:
    """What somebody said while `played` was; None where the microphone heard the own voice only, or nothing."""
    theirs = _power(heard)
    if len(theirs) < _SHORTEST:
        return None
    noise = float(np.percentile(theirs, 10)) + 1e-10
    late = _delay(heard, played)
    own = np.zeros(len(heard), np.float32)
    if late is not None:
        part = played[: len(heard) - late]
        own[late : late + len(part)] = part
    echo = _echo(theirs, _power(own), noise)
    excess = (theirs > _ABOVE * (echo + noise)) & _speech(heard, len(theirs))
    runs = _runs(excess)
    if not runs:
        return None
    level = float(theirs[excess].mean())
    return Overheard(runs[0] * _FRAME, level > _CLEAR * float(echo.max()))


def _delay(heard: Samples, played: Samples) -> int | None:
    """How many samples behind the own voice is in the microphone; None where it is not in there.

    By the phases alone: Knapp and Carter, The generalized correlation method for estimation of time delay (1976).
    """
    size = 1 << (len(heard) + len(played)).bit_length()
    cross = np.fft.rfft(heard, size) * np.conj(np.fft.rfft(played, size))
    together = np.fft.irfft(cross / (np.abs(cross) + 1e-12), size)
    near = np.abs(together[: min(int(_LATEST_SECONDS * SAMPLE_RATE), len(heard) - 1)])
    late = int(near.argmax())
    return late if near[late] > _PEAK * float(np.sqrt((together**2).mean())) else None


def _echo(theirs: NDArray[np.float64], own: NDArray[np.float64], noise: float) -> NDArray[np.float64]:
    """The power that the microphone has of the own voice, a frame at a time."""
    if own.max() <= 0:
        return own
    faded = np.empty_like(own)
    left = 0.0
    for at, power in enumerate(own):
        faded[at] = left = max(float(power), left * _FADES)
    loud = own > 0.02 * own.max()
    gain = float(np.percentile(np.maximum(theirs[loud] - noise, 0) / faded[loud], 25))
    return gain * faded


def _power(samples: Samples) -> NDArray[np.float64]:
    """The power a frame, each with the ones around it."""
    frames = samples[: len(samples) // _FRAME * _FRAME].reshape(-1, _FRAME).astype(np.float64)
    power = (frames**2).mean(axis=1)
    return np.convolve(power, np.ones(_SMOOTH) / _SMOOTH, mode="same") if len(power) >= _SMOOTH else power


def _speech(heard: Samples, count: int) -> NDArray[np.bool_]:
    """The frames in which there is speech, whoever's."""
    detect = SpeechDetector()
    chunks = [heard[at : at + CHUNK] for at in range(0, len(heard) - CHUNK + 1, CHUNK)]
    likely = np.array([detect(chunk) >= 0.5 for chunk in chunks] or [False])
    return likely[np.minimum(np.arange(count) * _FRAME // CHUNK, len(likely) - 1)]


def _runs(excess: NDArray[np.bool_]) -> list[int]:
    """Where stretches begin that are long enough, words a little apart taken together."""
    begins: list[int] = []
    first = last = held = -1
    for at in [*np.flatnonzero(excess).tolist(), len(excess) + _GAP + 1]:
        if first < 0 or at - last > _GAP:
            if first >= 0 and held >= _SHORTEST:
                begins.append(first)
            first, held = at, 0
        last, held = at, held + 1
    return begins
