"""The microphone listened to while the journal does other things: hearing the last memo, filing it, answering.

A thread of its own takes the sound, so that all of it is on disk as it comes however long an engine takes.
"""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from journal.errors import JournalError
from journal.speech.base import Sound
from journal.speech.memo_files import Chunk
from journal.speech.microphone import PAUSE_SECONDS, Hearing, memos_spoken

_ECHO_SECONDS = 0.4
"""What a loudspeaker and a room go on with after the voice has stopped."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A memo and the moment that it began, by `time.monotonic`."""

    sound: Sound
    began: float


class Recorder:
    """Memos from an open microphone, taken by a thread of its own. Use it in a `with`."""

    def __init__(
        self,
        microphone: Iterable[Chunk],
        folder: Path,
        *,
        pause_seconds: float = PAUSE_SECONDS,
        hearing: Hearing | None = None,
        now: Callable[[], datetime] = datetime.now,
    ) -> None:
        self._microphone = microphone
        self._hearing = hearing
        self._said: queue.Queue[Spoken | BaseException | None] = queue.Queue()
        self._deaf = threading.Event()
        self._speaking = threading.Event()
        self._stopped = threading.Event()
        self._began = 0.0
        self._thread = threading.Thread(target=self._listen, args=(folder, pause_seconds, now), daemon=True)

    def __enter__(self) -> Recorder:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()
        self._thread.join(5)

    def stop(self) -> None:
        """No more sound is taken. The memo in hand is ended and given as the last one."""
        self._stopped.set()

    @property
    def speaking(self) -> bool:
        """Whether a memo is being said, or one is waiting to be taken."""
        return self._speaking.is_set() or not self._said.empty()

    def memos(self, until: Callable[[], bool] = lambda: False) -> Iterator[Spoken]:
        """The memos as they are said; once `until` says so, no more is listened to and the last ones are given.

        SoundError where the microphone fails, after what was said before that.
        """
        while True:
            if until():
                self.stop()
            try:
                said = self._said.get(timeout=0.1)
            except queue.Empty:
                continue
            if said is None:
                return
            if isinstance(said, BaseException):
                raise said
            yield said

    @contextmanager
    def deaf(self) -> Iterator[None]:
        """Nothing is listened to inside, nor for the length of an echo after it: the journal itself is speaking."""
        self._deaf.set()
        try:
            yield
            time.sleep(_ECHO_SECONDS)
        finally:
            self._deaf.clear()

    # ---- in the thread -----------------------------------------------------------------------------------------

    def _listen(self, folder: Path, pause_seconds: float, now: Callable[[], datetime]) -> None:
        try:
            for sound in memos_spoken(self._sound(), folder, pause_seconds=pause_seconds, hearing=self, now=now):
                self._speaking.clear()
                self._said.put(Spoken(sound, self._began))
        except JournalError as error:
            self._said.put(error)
        except BaseException as error:  # passed on to the thread that asks for memos
            self._said.put(error)
        finally:
            self._said.put(None)

    def _sound(self) -> Iterator[Chunk]:
        for chunk in self._microphone:
            if self._stopped.is_set():
                return
            if not self._deaf.is_set() or self._speaking.is_set():
                yield chunk

    def heard(self, chunk: Chunk, *, speaking: bool) -> None:
        """Passed on to whoever looks on."""
        if speaking and not self._speaking.is_set():
            self._began = time.monotonic()
            self._speaking.set()
        if self._hearing is not None:
            self._hearing.heard(chunk, speaking=speaking)
