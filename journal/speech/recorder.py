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

import numpy as np

from journal.errors import JournalError
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.memo_files import Chunk, free_name
from journal.speech.microphone import GOES_ON, PAUSE_SECONDS, Hearing, memos_spoken
from journal.speech.overheard import Overheard, spoken_over
from journal.speech.pauses import CHUNK, SpeechDetector
from journal.speech.sound import save_sound

_ECHO_SECONDS = 0.4
"""What a loudspeaker and a room go on with after the voice has stopped."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A memo and the moment that it began, by `time.monotonic`.

    `over`: it was said while the journal itself spoke, and is not to be told from that; its sound is kept.
    """

    sound: Sound
    began: float
    over: bool = False


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
        self._folder = folder
        self._now = now
        self._pause_seconds = pause_seconds
        self._deaf = threading.Event()
        self._meanwhile: list[Chunk] = []
        self._again: queue.SimpleQueue[Chunk] = queue.SimpleQueue()
        self._over: _SpokenOver | None = None
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
    def deaf(self, to: Sound) -> Iterator[Callable[[], bool]]:
        """The journal itself speaks inside: its voice, and its echo after it, make no memo.

        What somebody else says meanwhile is not lost: where it can be told from the voice it is a memo like any other, else
        one that was said `over` it. Gives a function that tells whether somebody is speaking.
        """
        if self.speaking:
            yield lambda: True
            return
        self._meanwhile = []
        began = self._now()
        self._deaf.set()
        try:
            yield lambda: self._overheard(to) is not None
            time.sleep(_ECHO_SECONDS)
        finally:
            found = self._overheard(to)
            heard = list(self._meanwhile)
            if found is not None and found.clear:
                first = max(0, found.begins - SAMPLE_RATE // 2) // CHUNK
                for chunk in heard[first:]:
                    self._again.put(chunk)
            elif found is not None:
                self._over = _SpokenOver(heard, began, self._pause_seconds)
            self._deaf.clear()

    def _overheard(self, to: Sound) -> Overheard | None:
        heard = list(self._meanwhile)
        return spoken_over(np.concatenate(heard), to.samples) if heard else None

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
                self._keep_over()
                return
            if self._deaf.is_set() and not self._speaking.is_set():
                self._meanwhile.append(chunk)
                continue
            if self._over is not None:
                if self._over.goes_on(chunk):
                    continue
                self._keep_over()
            while not self._again.empty():
                yield self._again.get()
            yield chunk
        self._keep_over()

    def _keep_over(self) -> None:
        """What was said over the journal's voice, on disk and given to be told of."""
        over, self._over = self._over, None
        if over is not None:
            path = free_name(self._folder, over.began, "_spoken_over")
            sound = Sound(np.concatenate(over.chunks), path)
            path.parent.mkdir(parents=True, exist_ok=True)
            save_sound(sound, path)
            self._said.put(Spoken(sound, time.monotonic(), over=True))

    def heard(self, chunk: Chunk, *, speaking: bool) -> None:
        """Passed on to whoever looks on."""
        if speaking and not self._speaking.is_set():
            self._began = time.monotonic()
            self._speaking.set()
        if self._hearing is not None:
            self._hearing.heard(chunk, speaking=speaking)


class _SpokenOver:
    """What is being said over the journal's voice, until its pause."""

    def __init__(self, chunks: list[Chunk], began: datetime, pause_seconds: float) -> None:
        self.chunks = chunks
        self.began = began
        self._pause_seconds = pause_seconds
        self._quiet_seconds = 0.0
        self._detect = SpeechDetector()

    def goes_on(self, chunk: Chunk) -> bool:
        """Whether it is still being said; the sound belongs to it as long as it is."""
        self.chunks.append(chunk)
        self._quiet_seconds = 0.0 if self._detect(chunk) >= GOES_ON else self._quiet_seconds + CHUNK / SAMPLE_RATE
        return self._quiet_seconds < self._pause_seconds
