"""Memos from a microphone, hands-free: each pause ends one. The only module that knows miniaudio.

Sound is on disk as it comes: a memo is a WAV file in the job that grows while it is said, so that what was said before a
crash or an unplugged microphone is still there.
"""

from __future__ import annotations

import os
import queue
import threading
import wave
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import SoundError
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.pauses import CHUNK, SpeechDetector

PAUSE_SECONDS = 1.2
LONGEST_MEMO_SECONDS = 300.0
_BEFORE_SECONDS = 0.5
_AFTER_SECONDS = 0.4
_BEGINS, _GOES_ON = 0.5, 0.35
"""How likely speech must be for a memo to begin, and to go on: its quiet endings belong to it."""
_SILENT_DEVICE_SECONDS = 3.0
_UNFINISHED = ".part"

Chunk = NDArray[np.float32]
Level = Callable[[float], None]


class Microphone:
    """An open microphone; iterating gives 32 ms of sound at a time until it is closed. Use it in a `with`."""

    def __init__(self, device: Any, arriving: queue.Queue[bytes]) -> None:
        self._device = device
        self._arriving = arriving
        self._closed = threading.Event()

    def __enter__(self) -> Microphone:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Stops listening; what has arrived is still given."""
        self._closed.set()
        self._device.close()

    def __iter__(self) -> Iterator[Chunk]:
        """SoundError when no sound arrives any more though the microphone was not closed."""
        rest = b""
        while True:
            try:
                rest += self._arriving.get(timeout=0.1 if self._closed.is_set() else _SILENT_DEVICE_SECONDS)
            except queue.Empty:
                if self._closed.is_set():
                    return
                raise SoundError(
                    "the microphone stopped giving sound",
                    hint="Plug it in again and start anew: journal take. What was said until then is kept.",
                ) from None
            while len(rest) >= 2 * CHUNK:
                yield np.frombuffer(rest[: 2 * CHUNK], np.int16).astype(np.float32) / np.float32(32768)
                rest = rest[2 * CHUNK :]


def open_microphone() -> Microphone:
    """The system's own microphone, listening. SoundError where there is none."""
    import miniaudio

    arriving: queue.Queue[bytes] = queue.Queue()

    def collect() -> Any:
        while True:
            arriving.put(bytes((yield)))

    collector = collect()
    next(collector)
    # miniaudio falls back to a device that gives silence for ever, which would listen to nobody
    real = [backend for backend in miniaudio.Backend if backend != miniaudio.Backend.NULL]
    try:
        with _quiet_stderr():
            device = miniaudio.CaptureDevice(
                input_format=miniaudio.SampleFormat.SIGNED16,
                nchannels=1,
                sample_rate=SAMPLE_RATE,
                buffersize_msec=50,
                backends=real,
                app_name="journal",
            )
            device.start(collector)
    except miniaudio.MiniaudioError:
        raise SoundError(
            "no microphone was found",
            hint="Plug one in, or take recordings from a phone: journal take FILE. Or type: journal take --say '…'",
        ) from None
    return Microphone(device, arriving)


def memos_spoken(
    chunks: Iterable[Chunk],
    folder: Path,
    *,
    pause_seconds: float = PAUSE_SECONDS,
    level: Level | None = None,
    now: Callable[[], datetime] = datetime.now,
) -> Iterator[Sound]:
    """Each memo as soon as its pause is over, in a WAV file in the folder that is named for the time it began.

    `level` is told the loudness of every chunk (0 to 1). The memo in hand is given before an error of the microphone is
    passed on.
    """
    detect = SpeechDetector()
    before: deque[Chunk] = deque(maxlen=int(_BEFORE_SECONDS * SAMPLE_RATE / CHUNK))
    growing: _Growing | None = None
    source = iter(chunks)
    failure: SoundError | None = None
    while failure is None:
        try:
            chunk = next(source)
        except StopIteration:
            break
        except SoundError as error:
            failure = error
            break
        if level is not None:
            level(float(np.sqrt(np.mean(chunk**2))))
        likely = detect(chunk)
        if growing is None:
            before.append(chunk)
            if likely >= _BEGINS:
                growing = _Growing(folder, now())
                for earlier in before:
                    growing.add(earlier)
                before.clear()
            continue
        growing.add(chunk)
        growing.quiet_seconds = 0.0 if likely >= _GOES_ON else growing.quiet_seconds + CHUNK / SAMPLE_RATE
        if growing.quiet_seconds >= pause_seconds or growing.seconds >= LONGEST_MEMO_SECONDS:
            yield growing.finish()
            growing = None
    if growing is not None:
        yield growing.finish()
    if failure is not None:
        raise failure


def unfinished_memos(folder: Path) -> list[Path]:
    """Memos that were being said when the journal last stopped without warning, made whole; their new names."""
    saved = []
    for part in sorted(folder.glob(f"*.wav{_UNFINISHED}")):
        whole = part.with_name(part.name.removesuffix(_UNFINISHED))
        part.replace(whole)
        saved.append(whole)
    return saved


class _Growing:
    """A memo while it is said: the file on disk is a whole WAV after every chunk."""

    def __init__(self, folder: Path, began: datetime) -> None:
        self.quiet_seconds = 0.0
        self._chunks: list[Chunk] = []
        self._path = _free_name(folder, began)
        self._part = self._path.with_name(self._path.name + _UNFINISHED)
        try:
            folder.mkdir(parents=True, exist_ok=True)
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
        return len(self._chunks) * CHUNK / SAMPLE_RATE

    def add(self, chunk: Chunk) -> None:
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


def _free_name(folder: Path, began: datetime) -> Path:
    name = began.strftime("%Y-%m-%d_%H%M%S")
    path = folder / f"{name}.wav"
    count = 1
    while path.exists() or path.with_name(path.name + _UNFINISHED).exists():
        count += 1
        path = folder / f"{name}_take{count}.wav"
    return path


@contextmanager
def _quiet_stderr() -> Iterator[None]:
    """Keeps the system's sound library from writing its search for devices over the screen."""
    try:
        kept = os.dup(2)
        nowhere = os.open(os.devnull, os.O_WRONLY)
    except OSError:
        yield
        return
    try:
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)
