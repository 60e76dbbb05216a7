"""The last line of a terminal while the journal listens: how loud it is, and what is being said. And the keys that stop it."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from journal.speech.base import Partial
    from journal.speech.memo_files import Chunk

_CELLS = 12
_QUIETEST_DB = -60.0
_CLEAR = "\r\x1b[K"
_STOPPING = ("q", "Q", "\r", "\n", "\x1b", "\x04")


class ScreenLine:
    """Shows the sound as it comes on the last line of stderr; nothing where that is no terminal.

    `follow` gives a listener for the words of a memo while it is said, None where the engine has none.
    """

    def __init__(self, follow: Callable[[], Partial | None] = lambda: None, *, width: int = 80) -> None:
        self.shown = sys.stderr.isatty()
        self._follow = follow
        self._width = width
        self._lock = threading.Lock()
        self._partial: Partial | None = None
        self._speaking = False
        self._words = ""
        self._chunks = 0
        self._loudest = 0.0

    def heard(self, chunk: Chunk, *, speaking: bool) -> None:
        """The line with this sound in it, some ten times a second."""
        if not self.shown:
            return
        if speaking and not self._speaking:
            self._partial, self._words = self._follow(), ""
        self._speaking = speaking
        if speaking and self._partial is not None:
            self._words = self._partial.add(chunk)
        self._loudest = max(self._loudest, float(np.sqrt(np.mean(chunk**2))))
        self._chunks += 1
        if self._chunks % 3 == 0:
            self._draw(line_of(self._loudest, self._words if speaking else "", self._width, speaking=speaking))
            self._loudest = 0.0

    @contextmanager
    def away(self) -> Iterator[None]:
        """The line is out of the way of what is printed inside."""
        with self._lock:
            if self.shown:
                sys.stderr.write(_CLEAR)
                sys.stderr.flush()
            yield

    def _draw(self, line: str) -> None:
        with self._lock:
            sys.stderr.write(f"{_CLEAR}{line}")
            sys.stderr.flush()


def line_of(loudness: float, words: str, width: int, *, speaking: bool) -> str:
    """The line: a bar for the loudness (root mean square, 0 to 1), then the end of the words that fit."""
    decibels = 20 * np.log10(max(loudness, 1e-6))
    full = round(_CELLS * float(np.clip(1 - decibels / _QUIETEST_DB, 0, 1)))
    bar = "█" * full + "·" * (_CELLS - full)
    told = words or ("…" if speaking else "listening")
    room = width - _CELLS - 5
    return f"{'●' if speaking else '○'} {bar}  {told if len(told) <= room else '…' + told[1 - room :]}"


@contextmanager
def stop_keys() -> Iterator[Callable[[], bool]]:
    """Gives a function that says whether q, Enter, Esc or Ctrl-C was pressed. A second Ctrl-C interrupts as usual."""
    interrupted = threading.Event()

    def interrupt(number: int, frame: FrameType | None) -> None:
        if interrupted.is_set():
            raise KeyboardInterrupt
        interrupted.set()

    before = signal.signal(signal.SIGINT, interrupt) if threading.current_thread() is threading.main_thread() else None
    try:
        with _keyboard() as pressed:
            yield lambda: interrupted.is_set() or pressed()
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)


@contextmanager
def _keyboard() -> Iterator[Callable[[], bool]]:
    if not sys.stdin.isatty():
        yield lambda: False
        return
    try:
        import termios
        import tty
    except ImportError:  # Windows
        yield _pressed_on_windows
        return
    import select

    keyboard = sys.stdin.fileno()
    before = termios.tcgetattr(keyboard)

    def pressed() -> bool:
        return bool(select.select([keyboard], [], [], 0)[0]) and sys.stdin.read(1) in _STOPPING

    try:
        tty.setcbreak(keyboard)
        yield pressed
    finally:
        with suppress(termios.error):
            termios.tcsetattr(keyboard, termios.TCSADRAIN, before)


def _pressed_on_windows() -> bool:
    import msvcrt

    waiting: Callable[[], bool] = getattr(msvcrt, "kbhit")  # noqa: B009 - not there when checked elsewhere
    read: Callable[[], str] = getattr(msvcrt, "getwch")  # noqa: B009
    return waiting() and read() in _STOPPING
