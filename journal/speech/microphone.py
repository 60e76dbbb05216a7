"""Memos from a microphone, hands-free: each pause ends one. With `aloud`, the only module that knows miniaudio.

Sound is on disk as it comes (`memo_files`), so that what was said before a crash or an unplugged microphone is still there.
"""

from __future__ import annotations

import os
import queue
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Protocol

import numpy as np

from journal.errors import SoundError
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.memo_files import Chunk, GrowingMemo
from journal.speech.pauses import CHUNK, SpeechDetector

PAUSE_SECONDS = 1.2
LONGEST_MEMO_SECONDS = 300.0
_BEFORE_SECONDS = 0.5
BEGINS, GOES_ON = 0.5, 0.35
"""How likely speech must be for a memo to begin, and to go on: its quiet endings belong to it."""
_SILENT_DEVICE_SECONDS = 3.0


class Hearing(Protocol):
    """Is told of the sound as it comes."""

    def heard(self, chunk: Chunk, *, speaking: bool) -> None:
        """32 ms of sound, or with the first of a memo the half second before it; `speaking` while a memo is being said."""
        ...


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
            hint="Plug one in, or take recordings from a phone: journal take FILE. Or type, a memo a line: journal take --type",
        ) from None
    return Microphone(device, arriving)


def memos_spoken(
    chunks: Iterable[Chunk],
    folder: Path,
    *,
    pause_seconds: float = PAUSE_SECONDS,
    hearing: Hearing | None = None,
    now: Callable[[], datetime] = datetime.now,
) -> Iterator[Sound]:
    """Each memo as soon as its pause is over, in a WAV file in the folder that is named for the time it began.

    `hearing` is told of every chunk. The memo in hand is given before an error of the microphone is passed on.
    """
    detect = SpeechDetector()
    before: deque[Chunk] = deque(maxlen=int(_BEFORE_SECONDS * SAMPLE_RATE / CHUNK))
    growing: GrowingMemo | None = None
    source = iter(chunks)
    failure: SoundError | None = None
    while True:
        try:
            chunk = next(source)
        except StopIteration:
            break
        except SoundError as error:
            failure = error
            break
        likely = detect(chunk)
        if growing is None:
            before.append(chunk)
            if likely >= BEGINS:
                growing = GrowingMemo(folder, now())
                for earlier in before:
                    growing.add(earlier)
                chunk = np.concatenate(before)
                before.clear()
        else:
            growing.add(chunk)
            growing.quiet_seconds = 0.0 if likely >= GOES_ON else growing.quiet_seconds + CHUNK / SAMPLE_RATE
        if hearing is not None:
            hearing.heard(chunk, speaking=growing is not None)
        if growing is not None and (growing.quiet_seconds >= pause_seconds or growing.seconds >= LONGEST_MEMO_SECONDS):
            yield growing.finish()
            growing = None
    if growing is not None:
        yield growing.finish()
    if failure is not None:
        raise failure


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
