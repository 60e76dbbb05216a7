"""Playing a stretch of a recording, in a process of its own: what a sound system writes to the terminal stays off the screen.

Run as a module it plays raw 32-bit floats from stdin.
"""

from __future__ import annotations

import subprocess
import sys
from threading import Lock
from typing import TYPE_CHECKING

from journal.errors import SoundError
from journal.speech.loudspeaker import play_samples

if TYPE_CHECKING:
    from journal.speech.base import Sound

_NO_DEVICE = 3
_AROUND = 0.15  # seconds played before and after a stretch, so that its first and last sounds are whole


def stretch(sound: Sound, start: float, end: float, rate: int) -> bytes:
    """The samples of a stretch in seconds, a little before and after it, as bytes."""
    first, last = max(0, int((start - _AROUND) * rate)), int((end + _AROUND) * rate)
    return sound.samples[first:last].tobytes()


class Player:
    """Plays one thing at a time; `stop` ends it from another thread."""

    def __init__(self, *, silent: bool = False) -> None:
        self._silent = silent
        self._lock = Lock()
        self._running: subprocess.Popen[bytes] | None = None

    @property
    def playing(self) -> bool:
        """Whether something is being played."""
        running = self._running
        return running is not None and running.poll() is None

    def play(self, samples: bytes, rate: int) -> None:
        """Play and return when it is over or was stopped. SoundError where there is no loudspeaker."""
        self.stop()
        how = [sys.executable, "-m", "journal.tui.playback", str(rate), *(["silent"] if self._silent else [])]
        with self._lock:
            running = subprocess.Popen(how, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            self._running = running
        try:
            running.communicate(samples)
        except BrokenPipeError:
            running.wait()
        if running.returncode == _NO_DEVICE:
            raise SoundError(
                "no loudspeaker was found to play it on",
                hint="Plug one in or switch the sound on; the recording itself is safe in the job folder.",
            )
        if running.returncode > 0:
            raise SoundError(
                "the recording could not be played", hint="Try it with another player; it is in recordings/."
            )

    def stop(self) -> None:
        """Stop what is being played, if anything."""
        with self._lock:
            if self._running is not None and self._running.poll() is None:
                self._running.terminate()
            self._running = None


def main(arguments: list[str]) -> int:
    """Plays stdin at a sample rate; exit code 3 where no device can be opened."""
    rate, silent = int(arguments[0]), "silent" in arguments[1:]
    return 0 if play_samples(sys.stdin.buffer.read(), rate, silent=silent) else _NO_DEVICE


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
