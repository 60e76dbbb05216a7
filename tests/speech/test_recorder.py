"""The microphone listened to in a thread of its own, and not while the journal speaks."""

from __future__ import annotations

import subprocess
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from journal.errors import SoundError
from journal.paths import sample_audio_folder
from journal.speech.aloud import play
from journal.speech.base import Sound
from journal.speech.memo_files import memos_left
from journal.speech.microphone import open_microphone
from journal.speech.pauses import CHUNK
from journal.speech.recorder import Recorder
from journal.speech.sound import load_sound, save_sound


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


@pytest.fixture(scope="module")
def other() -> np.ndarray:
    return load_sound(sample_audio_folder() / "2026-07-14_0752_slope.flac").samples


PAUSE = np.zeros(16_000, np.float32)


def test_its_own_voice_is_no_memo(tmp_path: Path, speech: np.ndarray) -> None:
    """What reaches the microphone while the journal speaks is not taken; what is said after it is."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        with recorder.deaf(Sound(speech)):
            microphone.hears(np.concatenate([speech, PAUSE]))
            assert not recorder.speaking
        assert not list(tmp_path.glob("*.wav"))
        microphone.hears(np.concatenate([speech, PAUSE]))
        spoken = next(recorder.memos())
        assert len(speech) - CHUNK < len(spoken.sound.samples) <= len(speech) + len(PAUSE)
        microphone.given.release()  # the end of the sound
        assert list(recorder.memos()) == []


def test_what_is_said_over_its_voice_is_a_memo_where_it_is_heard_alone(
    tmp_path: Path, speech: np.ndarray, other: np.ndarray
) -> None:
    """At an earpiece the microphone has none of the voice: what is said meanwhile is a memo whole, its end after the voice's too."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        half = len(other) // 2 // CHUNK * CHUNK
        with recorder.deaf(Sound(speech)) as somebody_speaks:
            microphone.hears(PAUSE)
            assert not somebody_speaks()
            microphone.hears(other[:half])
            assert somebody_speaks()
        microphone.hears(np.concatenate([other[half:], PAUSE]))
        spoken = next(recorder.memos())
        assert not spoken.over
        assert len(other) - 2 * CHUNK < len(spoken.sound.samples) < len(other) + 2 * len(PAUSE)
        microphone.given.release()
        assert list(recorder.memos()) == []


def test_what_cannot_be_told_from_its_voice_is_kept_and_told(
    tmp_path: Path, speech: np.ndarray, other: np.ndarray
) -> None:
    """Beside a loudspeaker both are in the sound: no memo is made of it, all of it is on disk until the pause, and it is told."""
    microphone = Fed()
    both = 0.25 * np.concatenate([speech, np.zeros(len(other), np.float32)])
    late = len(speech) - len(other) // 2
    both[late : late + len(other)] += other
    cut = len(speech) // CHUNK * CHUNK
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        with recorder.deaf(Sound(speech)) as somebody_speaks:
            microphone.hears(both[:cut])
            assert somebody_speaks()
        microphone.hears(np.concatenate([both[cut:], PAUSE, PAUSE]))
        spoken = next(recorder.memos())
        assert spoken.over
        assert spoken.sound.path is not None
        assert spoken.sound.path.name.endswith("_spoken_over.wav")
        assert load_sound(spoken.sound.path).seconds > (late + len(other)) / 16_000
        microphone.hears(np.concatenate([speech, PAUSE]))
        assert not next(recorder.memos()).over
    assert memos_left(tmp_path) != [spoken.sound.path]


def test_a_builder_who_speaks_is_not_spoken_over(tmp_path: Path, speech: np.ndarray) -> None:
    """While a memo is being said, or waits to be heard, it is known; a memo in hand is never cut by the journal's voice."""
    microphone = Fed()
    with Recorder(microphone, tmp_path, pause_seconds=0.5) as recorder:
        half = len(speech) // 2
        microphone.hears(speech[:half])
        assert recorder.speaking
        with recorder.deaf(Sound(speech)):
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


@pytest.mark.parametrize(("speaks", "found"), [("nobody", False), ("builder", True)])
def test_on_a_sound_card(
    virtual_card: None, tmp_path: Path, speech: np.ndarray, other: np.ndarray, speaks: str, found: bool
) -> None:
    """Played to the card that the microphone listens to, the voice makes no memo; somebody who speaks over it stops it and is kept."""
    ours, theirs = Sound(0.2 * np.tile(speech, 2)), tmp_path / "theirs.wav"
    save_sound(Sound(np.clip(1.5 * other, -1, 1)), theirs)
    with open_microphone() as microphone, Recorder(microphone, tmp_path / "job", pause_seconds=0.6) as recorder:
        time.sleep(0.5)
        builder = threading.Timer(1.0, subprocess.run, [["paplay", "--device=memo", str(theirs)]])
        if found:
            builder.start()
        began = time.monotonic()
        with recorder.deaf(ours) as somebody_speaks:
            play(ours, somebody_speaks)
        lasted = time.monotonic() - began
        if found:
            spoken = next(recorder.memos())
            builder.join()
            assert spoken.sound.seconds > 0.9 * len(other) / 16_000
            assert lasted < len(ours.samples) / 16_000
        else:
            time.sleep(1.5)
            assert not recorder.speaking
            assert not (tmp_path / "job").exists()
