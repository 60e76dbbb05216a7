"""The microphone listened to in a thread of its own, and not while the journal speaks."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from journal.errors import SoundError
from journal.paths import sample_audio_folder
from journal.speech.pauses import CHUNK
from journal.speech.recorder import Recorder
from journal.speech.sound import load_sound


class Fed:
    """A microphone that hears what a test gives it, chunk by chunk."""

    def __init__(self) -> None:
        self.given = threading.Semaphore(0)
        self.heard = threading.Semaphore(0)
        self.samples: list[np.ndarray] = []
        self.fails: SoundError | None = None

    def __iter__(self) -> Iterator[np.ndarray]:
        while True:
            self.given.acquire()
            if self.fails is not None:
                raise self.fails
            if not self.samples:
                return
            yield self.samples.pop(0)
            self.heard.release()

    def hears(self, samples: np.ndarray) -> None:
        """Returns when all of it has been taken."""
        for start in range(0, len(samples) - CHUNK + 1, CHUNK):
            self.samples.append(samples[start : start + CHUNK])
            self.given.release()
            assert self.heard.acquire(timeout=10)


@pytest.fixture(scope="module")
def speech() -> np.ndarray:
    return load_sound(sample_audio_folder() / "2026-07-13_0748_sill.flac").samples


PAUSE = np.zeros(16_000, np.float32)


def test_its_own_voice_is_no_memo(tmp_path: Path, speech: np.ndarray) -> None:
    """What reaches the microphone while the journal speaks is not taken; what is said after it is."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        with recorder.deaf():
            microphone.hears(np.concatenate([speech, PAUSE]))
            assert not recorder.speaking
        assert not list(tmp_path.glob("*.wav"))
        microphone.hears(np.concatenate([speech, PAUSE]))
        spoken = next(recorder.memos())
        assert len(speech) - CHUNK < len(spoken.sound.samples) <= len(speech) + len(PAUSE)
        microphone.given.release()  # the end of the sound
        assert list(recorder.memos()) == []


def test_a_builder_who_speaks_is_not_spoken_over(tmp_path: Path, speech: np.ndarray) -> None:
    """While a memo is being said, or waits to be heard, it is known; a memo in hand is never cut by the journal's voice."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        half = len(speech) // 2
        microphone.hears(speech[:half])
        assert recorder.speaking
        with recorder.deaf():
            microphone.hears(np.concatenate([speech[half:], PAUSE]))
        spoken = next(recorder.memos())
        assert len(spoken.sound.samples) > len(speech) - 2 * CHUNK
        assert not recorder.speaking
        recorder.stop()
        microphone.samples.append(PAUSE[:CHUNK])
        microphone.given.release()


def test_a_microphone_that_fails(tmp_path: Path, speech: np.ndarray) -> None:
    """The memo that was being said comes first, then the error."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        microphone.hears(speech)
        microphone.fails = SoundError("the microphone stopped giving sound")
        microphone.given.release()
        memos = recorder.memos()
        assert next(memos).sound.seconds > 1
        with pytest.raises(SoundError, match=r"^the microphone stopped giving sound$"):
            next(memos)
