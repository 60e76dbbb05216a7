"""A folder that a phone syncs to: new recordings, each once it is whole. Polls, since sync tools write in many ways."""

from __future__ import annotations

import time
import wave
from collections.abc import Callable, Iterator
from pathlib import Path

from journal.recordings import sound_files

POLL_SECONDS = 2.0
STALLED_SECONDS = 60.0
"""A sound that promises more than is there is waited for this long after its last change, where a sync stops midway."""


_NO_LENGTH = 0x7FFFFF00
"""What a recorder that writes to a pipe promises, not knowing how long the sound will be."""


def arriving(
    folder: Path, *, poll_seconds: float = POLL_SECONDS, sleep: Callable[[float], None] = time.sleep
) -> Iterator[Path]:
    """Sound files of a folder, those there already first, each when its size has stood still from one look to the next.

    A WAV file that says in its head that it will be longer is waited for, a minute at most.
    Never ends by itself. A file that is replaced by another of the same name is given again; one that vanishes is forgotten.
    """
    given: dict[Path, tuple[int, int]] = {}
    growing: dict[Path, tuple[int, int]] = {}
    while True:
        there = {path: state for path in sound_files(folder) if (state := _state(path)) is not None}
        for path, state in there.items():
            if given.get(path) == state:
                continue
            if growing.get(path) == state and state[0] > 0 and not _is_expected(path, state):
                given[path] = state
                del growing[path]
                yield path
            else:
                growing[path] = state
        given = {path: state for path, state in given.items() if path in there}
        sleep(poll_seconds)


def _state(path: Path) -> tuple[int, int] | None:
    """Size and time of change; None where the file has gone since it was listed."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns


def _is_expected(path: Path, state: tuple[int, int]) -> bool:
    """Whether more of a sound is on its way: its head promises more, and it changed not long ago."""
    if path.suffix.lower() != ".wav" or time.time() - state[1] / 1e9 > STALLED_SECONDS:
        return False
    try:
        with wave.open(str(path), "rb") as file:
            promised = file.getnframes() * file.getnchannels() * file.getsampwidth()
    except (wave.Error, EOFError, OSError):
        return False
    return state[0] < promised < _NO_LENGTH
