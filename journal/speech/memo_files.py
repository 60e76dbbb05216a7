"""Memos on disk while they are said: a WAV file that grows with them, and a mark beside it until its memo is filed.

What was said before a crash, in the middle of a memo or while one was being heard, is found again by those marks.
"""

from __future__ import annotations

import os
import wave
from datetime import datetime
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from journal.errors import SoundError
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.pauses import CHUNK

Chunk = NDArray[np.float32]
_AFTER_SECONDS = 0.4
_UNFINISHED = ".part"
_UNTAKEN = ".untaken"
_NAMED = "????-??-??_??????*"
"""As the microphone names memos; a recording that was being copied when the power went has another name."""


def memos_left(folder: Path) -> list[Path]:
    """Memos that the journal last stopped without warning before they were filed, each a whole WAV file again, by time."""
    for part in folder.glob(f"{_NAMED}.wav{_UNFINISHED}"):
        whole = part.with_name(part.name.removesuffix(_UNFINISHED))
        _mark(whole).touch()
        part.replace(whole)
    left = []
    for mark in sorted(folder.glob(f"{_NAMED}.wav{_UNTAKEN}")):
        sound = mark.with_name(mark.name.removesuffix(_UNTAKEN))
        if sound.is_file():
            left.append(sound)
        else:
            mark.unlink()
    return left


def memo_filed(sound: Path) -> None:
    """What was to be done about the sound of a memo is done: it will not be found as left again."""
    _mark(sound).unlink(missing_ok=True)


def _mark(sound: Path) -> Path:
    return sound.with_name(sound.name + _UNTAKEN)


class GrowingMemo:
    """A memo while it is said: the file on disk is a whole WAV after every chunk."""

    def __init__(self, folder: Path, began: datetime) -> None:
        self.quiet_seconds = 0.0
        self._chunks: list[Chunk] = []
        self._path = free_name(folder, began)
        self._part = self._path.with_name(self._path.name + _UNFINISHED)
        try:
            folder.mkdir(parents=True, exist_ok=True)
            _mark(self._path).touch()
            self._raw = self._part.open("wb")
            self._wave: wave.Wave_write = wave.open(self._raw, "wb")  # noqa: SIM115 - closed by finish
            self._wave.setnchannels(1)
            self._wave.setsampwidth(2)
            self._wave.setframerate(SAMPLE_RATE)
        except OSError as error:
            raise SoundError(
                f"cannot write {self._part}: {error.strerror or error}",
                hint="Check that the job folder may be written and has room, then say the memo again.",
            ) from None

    @property
    def seconds(self) -> float:
        """How long it is so far."""
        return len(self._chunks) * CHUNK / SAMPLE_RATE

    def add(self, chunk: Chunk) -> None:
        """32 ms more of it, on disk when this returns."""
        self._chunks.append(chunk)
        try:
            # writeframes, not writeframesraw: the length in the header is right after every chunk
            self._wave.writeframes((np.clip(chunk, -1.0, 1.0) * 32767).astype("<i2").tobytes())
            self._raw.flush()
        except OSError as error:
            raise SoundError(
                f"cannot go on writing {self._part}: {error.strerror or error}",
                hint="Make room on the disk. What was said until then is in that file.",
            ) from None

    def finish(self) -> Sound:
        """The memo, its pause cut short, under its own name."""
        self._wave.close()
        os.fsync(self._raw.fileno())
        self._raw.close()
        self._part.replace(self._path)
        spare = int(max(0.0, self.quiet_seconds - _AFTER_SECONDS) * SAMPLE_RATE / CHUNK)
        return Sound(np.concatenate(self._chunks[: len(self._chunks) - spare]), self._path)


def free_name(folder: Path, began: datetime, ending: str = "") -> Path:
    """A WAV file that is not there yet, named for the time at which its sound began."""
    name = began.strftime("%Y-%m-%d_%H%M%S") + ending
    path = folder / f"{name}.wav"
    count = 1
    while path.exists() or path.with_name(path.name + _UNFINISHED).exists():
        count += 1
        path = folder / f"{name}_take{count}.wav"
    return path
