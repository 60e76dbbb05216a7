"""Memos from a microphone: each pause ends one, every one is on disk while it is said, and a lost microphone loses none."""

from __future__ import annotations

import subprocess
import threading
import time
import wave
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import numpy as np
import pytest

from journal.errors import SoundError
from journal.paths import sample_audio_folder
from journal.speech.base import SAMPLE_RATE
from journal.speech.memo_files import memo_filed, memos_left
from journal.speech.microphone import memos_spoken, open_microphone
from journal.speech.pauses import CHUNK
from journal.speech.said_time import time_in_name
from journal.speech.sound import load_sound, save_sound

MORNING = datetime(2026, 7, 13, 7, 40, 12)


def _speech(name: str = "2026-07-14_0752_slope.flac") -> np.ndarray:
    return load_sound(sample_audio_folder() / name).samples


def _pause(seconds: float) -> np.ndarray:
    return (1e-3 * np.random.default_rng(3).normal(size=int(seconds * SAMPLE_RATE))).astype(np.float32)


def _chunks(*parts: np.ndarray) -> Iterator[np.ndarray]:
    whole = np.concatenate(parts)
    for start in range(0, len(whole) - CHUNK + 1, CHUNK):
        yield whole[start : start + CHUNK]


def test_a_pause_ends_a_memo(tmp_path: Path) -> None:
    """Two memos with a pause between them are two files, each with all of its sound, named for the time it began."""
    heard = Looking()
    memos = list(
        memos_spoken(
            _chunks(_pause(1), _speech(), _pause(2), _speech(), _pause(2)),
            tmp_path,
            hearing=heard,
            now=lambda: MORNING,
        )
    )
    assert [memo.path.name for memo in memos if memo.path] == ["2026-07-13_074012.wav", "2026-07-13_074012_take2.wav"]
    length = len(_speech()) / SAMPLE_RATE
    for memo in memos:
        assert memo.path is not None
        assert length - 0.3 < memo.seconds < length + 1.3
        # the file has the pause too: it is what came, not what was kept
        assert load_sound(memo.path).seconds >= memo.seconds
        assert time_in_name(memo.path.name) == MORNING
    assert not list(tmp_path.glob("*.part"))
    # whoever looks on hears all of both memos, from the half second before each begins
    for memo, said in zip(memos, heard.said, strict=True):
        assert 0 <= said - memo.seconds < 1.3


class Looking:
    """Adds up the seconds of each memo as they are told."""

    def __init__(self) -> None:
        self.said: list[float] = []
        self._speaking = False

    def heard(self, chunk: np.ndarray, *, speaking: bool) -> None:
        if speaking and not self._speaking:
            self.said.append(0.0)
        self._speaking = speaking
        if speaking:
            self.said[-1] += len(chunk) / SAMPLE_RATE


def test_settable_pause(tmp_path: Path) -> None:
    """A pause shorter than the set one does not end a memo."""
    parts = (_speech(), _pause(1.5), _speech(), _pause(4))
    assert len(list(memos_spoken(_chunks(*parts), tmp_path, pause_seconds=3.0))) == 1
    assert len(list(memos_spoken(_chunks(*parts), tmp_path, pause_seconds=1.0))) == 2


def test_noise_is_no_memo(tmp_path: Path) -> None:
    """Hiss and knocks begin no memo."""
    random = np.random.default_rng(5)
    t = np.arange(5 * SAMPLE_RATE) / SAMPLE_RATE
    knocks = (0.5 * random.normal(size=len(t)) * np.exp(-(t % 0.7) / 0.01)).astype(np.float32)
    hiss = (0.1 * random.normal(size=len(t))).astype(np.float32)
    assert list(memos_spoken(_chunks(hiss, knocks), tmp_path)) == []
    assert list(tmp_path.glob("*.wav*")) == []


def test_on_disk_while_it_is_said(tmp_path: Path) -> None:
    """In the middle of a memo the file on disk already plays; after a crash it is found and made whole."""
    source = _chunks(_speech())
    seen: list[float] = []

    def watched() -> Iterator[np.ndarray]:
        for number, chunk in enumerate(source):
            if number == 60:
                (part,) = tmp_path.glob("*.wav.part")
                with wave.open(str(part), "rb") as file:
                    seen.append(file.getnframes() / SAMPLE_RATE)
                raise KeyboardInterrupt
            yield chunk

    with pytest.raises(KeyboardInterrupt):
        list(memos_spoken(watched(), tmp_path, now=lambda: MORNING))
    assert 1.0 < seen[0] < 2.0
    whole = tmp_path / "2026-07-13_074012.wav"
    (tmp_path / "0123456789abcdef.wav.part").touch()  # a recording that was being copied is none of ours
    assert memos_left(tmp_path) == [whole]
    assert load_sound(whole).seconds == pytest.approx(seen[0], abs=0.05)
    assert memos_left(tmp_path) == [whole]  # until it is filed
    memo_filed(whole)
    assert memos_left(tmp_path) == []


def test_a_memo_that_was_said_and_not_filed_is_found(tmp_path: Path) -> None:
    """A memo whose pause was over, but which nobody came to hear, is left for the next start; a lost one leaves nothing."""
    folder = tmp_path / "recordings"
    (memo,) = memos_spoken(_chunks(_speech(), _pause(2)), folder, now=lambda: MORNING)
    assert memos_left(folder) == [memo.path]
    assert memo.path is not None
    memo.path.unlink()
    assert memos_left(folder) == []
    assert list(folder.iterdir()) == []


def test_unplugged(tmp_path: Path) -> None:
    """A microphone that goes in mid-memo costs nothing that was said before; then it is told."""

    def unplugged() -> Iterator[np.ndarray]:
        yield from _chunks(_speech())
        raise SoundError("the microphone stopped giving sound", hint="Plug it in again.")

    memos = memos_spoken(unplugged(), tmp_path)
    assert next(memos).seconds > 1
    with pytest.raises(SoundError, match=r"^the microphone stopped giving sound\nPlug it in again\.$"):
        next(memos)


def test_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """A folder that cannot be made is told before anything is said into the void."""
    (tmp_path / "job").touch()
    with pytest.raises(SoundError) as caught:
        list(memos_spoken(_chunks(_speech()), tmp_path / "job" / "recordings", now=lambda: MORNING))
    assert caught.value.message == (
        f"cannot write {tmp_path / 'job' / 'recordings' / '2026-07-13_074012.wav.part'}: Not a directory"
    )
    assert caught.value.hint == "Check that the job folder may be written and has room, then say the memo again."


def test_no_microphone(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Without a device: one message with the two other ways to take a memo."""
    monkeypatch.setenv("PULSE_SERVER", f"unix:{tmp_path / 'nothing'}")
    monkeypatch.setenv("PULSE_RUNTIME_PATH", str(tmp_path))
    if Path("/proc/asound/pcm").exists() and Path("/proc/asound/pcm").read_text().strip():
        pytest.skip("this machine has a sound card")
    with pytest.raises(SoundError) as caught:
        open_microphone()
    assert caught.value.message == "no microphone was found"
    assert caught.value.hint == (
        "Plug one in, or take recordings from a phone: journal take FILE. Or type, a memo a line: journal take --type"
    )


def test_through_a_sound_card(virtual_card: None, tmp_path: Path) -> None:
    """What is played into a virtual sound card comes out as one memo of that length."""
    path = tmp_path / "said.wav"
    save_sound(load_sound(sample_audio_folder() / "2026-07-14_0752_slope.flac"), path)
    with open_microphone() as microphone:

        def play() -> None:
            time.sleep(0.5)
            subprocess.run(["paplay", "--device=memo", str(path)], check=True)
            time.sleep(1.5)
            microphone.close()

        playing = threading.Thread(target=play)
        playing.start()
        memos = list(memos_spoken(microphone, tmp_path / "job", pause_seconds=0.8))
        playing.join()
    assert len(memos) == 1
    assert memos[0].seconds == pytest.approx(len(_speech()) / SAMPLE_RATE, abs=1.0)
