"""What is being done, on the last line of a terminal, where it takes longer than a person waits without wondering."""

from __future__ import annotations

import shutil
import sys
import threading
from types import TracebackType

AFTER = 0.5
"""Seconds that may pass in silence."""
_CLEAR = "\r\x1b[K"


class Doing:
    """A line on stderr from half a second on, gone when the work is done. Nothing is written where that is no terminal.

    Inside another one it takes its place until it is done.
    """

    _lock = threading.RLock()
    _going: list[Doing] = []  # noqa: RUF012 - there is one terminal

    def __init__(self, what: str) -> None:
        self._what = what
        self._shown = False
        self._timer = threading.Timer(AFTER, self._show)
        self._timer.daemon = True

    def __enter__(self) -> Doing:
        with self._lock:
            self._going.append(self)
            if sys.stderr.isatty():
                self._timer.start()
        return self

    def __exit__(self, *_: type[BaseException] | BaseException | TracebackType | None) -> None:
        with self._lock:
            self._timer.cancel()
            self._going.remove(self)
            if self._shown:
                _write(_CLEAR)
            if self._going and self._going[-1]._shown:
                self._going[-1]._draw()

    def say(self, what: str) -> None:
        """Another line from now on."""
        with self._lock:
            self._what = what
            if self._shown and self._going[-1] is self:
                self._draw()

    @classmethod
    def clear(cls) -> None:
        """Make room for a line that stays; what is being done is shown again below it when it changes."""
        with cls._lock:
            if cls._going and cls._going[-1]._shown:
                _write(_CLEAR)

    def _show(self) -> None:
        with self._lock:
            if self in self._going:
                self._shown = True
                if self._going[-1] is self:
                    self._draw()

    def _draw(self) -> None:
        room = shutil.get_terminal_size().columns - 1
        _write(f"{_CLEAR}{self._what if len(self._what) <= room else self._what[: room - 1] + '…'}")


def _write(text: str) -> None:
    sys.stderr.write(text)
    sys.stderr.flush()
