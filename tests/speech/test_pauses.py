"""Speech is told from noise, and long recordings are cut only where nobody speaks."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.paths import sample_audio_folder
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.pauses import cut_at_pauses, memos_in, speech_stretches
from journal.speech.sound import load_sound


def _speech(name: str) -> np.ndarray:
    return load_sound(sample_audio_folder() / name).samples


def _quiet(seconds: float) -> np.ndarray:
    return np.zeros(int(seconds * SAMPLE_RATE), np.float32)


def test_stretches() -> None:
    """Two sentences with a pause are two stretches, each where its speech is; a speck between words is none."""
    one, two = _speech("2026-07-14_0752_slope.flac"), _speech("2026-07-16_1642_hours.flac")
    stretches = speech_stretches(np.concatenate([_quiet(1), one, _quiet(1.5), two, _quiet(1)]))
    assert len(stretches) == 2
    (a, b), (c, d) = ((start / SAMPLE_RATE, end / SAMPLE_RATE) for start, end in stretches)
    assert 1.0 <= a < 1.7
    assert 1.0 + len(one) / SAMPLE_RATE - 0.8 < b < 1.0 + len(one) / SAMPLE_RATE + 0.1
    assert c > b + 1.5
    assert d <= 3.5 + (len(one) + len(two)) / SAMPLE_RATE


@pytest.mark.parametrize("seed", range(3))
def test_noise_has_no_stretch(seed: int) -> None:
    """Hiss is no speech."""
    hiss = (0.2 * np.random.default_rng(seed).normal(size=3 * SAMPLE_RATE)).astype(np.float32)
    assert speech_stretches(hiss) == []


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(1, 400), st.integers(1, 400)), max_size=6), st.integers(2, 30))
def test_nothing_spoken_is_cut_away(gaps: list[tuple[int, int]], longest: int) -> None:
    """Every sample of every stretch is in a piece, and no piece is longer than asked for."""
    stretches, at = [], 0
    for gap, length in gaps:
        start = at + gap * 100
        at = start + length * 100
        stretches.append((start, at))
    samples = np.arange(1, at + 2000, dtype=np.float32)
    pieces = cut_at_pauses(samples, stretches, float(longest))
    assert all(0 < len(piece) <= longest * SAMPLE_RATE for piece in pieces)
    kept = set(np.concatenate(pieces).tolist())
    for start, end in stretches:
        assert {samples[start], samples[end - 1]} <= kept


def test_memos_in_a_long_recording() -> None:
    """A recording of minutes is cut into its memos with the time at which each begins; a short one stays one memo."""
    one, two = _speech("2026-07-14_0752_slope.flac"), _speech("2026-07-16_1642_hours.flac")
    long = Sound(np.concatenate([one, _quiet(10), two, _quiet(10), one, _quiet(3)]), note="very quiet")
    memos = memos_in(long)
    assert len(memos) == 3
    for begin, memo in memos:
        assert memo.note == "very quiet"
        first = int(begin * SAMPLE_RATE)
        assert np.array_equal(memo.samples, long.samples[first : first + len(memo.samples)])
        assert memo.seconds < 5
    short = Sound(np.concatenate([one, _quiet(3), two]))
    assert memos_in(short) == [(0.0, short)]
    silent = Sound(_quiet(25))
    assert memos_in(silent) == [(0.0, silent)]
