"""What takes long is told on a terminal while it goes on, and only there."""

from __future__ import annotations

import io
import os
import shutil
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from journal.cli import doing
from journal.cli.doing import Doing
from journal.paths import sample_audio_folder
from journal.records import Heard
from journal.session import Session
from journal.speech.base import NO_VOCABULARY, SAMPLE_RATE, Sound, Vocabulary
from journal.speech.sound import load_sound, save_sound

CLEAR = "\r\x1b[K"


class Terminal(io.StringIO):
    """A stderr that says it is a terminal, or that it is none."""

    def __init__(self, *, is_one: bool) -> None:
        super().__init__()
        self._is_one = is_one

    def isatty(self) -> bool:
        return self._is_one


def stderr(monkeypatch: pytest.MonkeyPatch, *, is_terminal: bool = True) -> Terminal:
    """Another stderr, where waiting is told at once."""
    there = Terminal(is_one=is_terminal)
    monkeypatch.setattr(sys, "stderr", there)
    monkeypatch.setattr(doing, "AFTER", 0.0)
    return there


def until(true: Callable[[], bool]) -> None:
    """Wait for another thread."""
    end = time.monotonic() + 10
    while not true():
        assert time.monotonic() < end
        time.sleep(0.001)


def test_shown_and_gone(monkeypatch: pytest.MonkeyPatch) -> None:
    """The line is there while it is done, changes as told, and leaves nothing behind; an inner one takes its place."""
    terminal = stderr(monkeypatch)
    with Doing("taking 1 of 2 …") as outer:
        until(lambda: terminal.getvalue() == f"{CLEAR}taking 1 of 2 …")
        with Doing("loading …"):
            until(lambda: terminal.getvalue().endswith(f"{CLEAR}loading …"))
            outer.say("taking 2 of 2 …")
            assert terminal.getvalue().endswith(f"{CLEAR}loading …")
        assert terminal.getvalue().endswith(f"{CLEAR}{CLEAR}taking 2 of 2 …")
    assert terminal.getvalue().endswith(f"taking 2 of 2 …{CLEAR}")


def test_too_long_for_the_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """A line that does not fit is cut, as one that wraps could not be taken away again."""
    terminal = stderr(monkeypatch)
    monkeypatch.setattr(shutil, "get_terminal_size", lambda: os.terminal_size((20, 24)))
    with Doing("listening to 2026-07-13_0740.m4a …"):
        until(lambda: bool(terminal.getvalue()))
    assert terminal.getvalue() == f"{CLEAR}listening to 2026-…{CLEAR}"


def test_what_is_quick_is_not_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is written for what is done at once."""
    there = stderr(monkeypatch)
    monkeypatch.setattr(doing, "AFTER", 60.0)
    with Doing("adding …"):
        pass
    assert there.getvalue() == ""


def test_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where stderr is a file or a pipe nothing is written, however long it takes."""
    piped = stderr(monkeypatch, is_terminal=False)
    with Doing("listening …") as listening:
        time.sleep(0.05)
        listening.say("still listening …")
    assert piped.getvalue() == ""


def test_a_long_recording_tells_how_far_it_is(session: Session, tmp_path: Path) -> None:
    """While a recording of several memos is heard, the share that was heard goes up; a short one tells nothing."""

    class Listener:
        name, version = "listener", "1"

        def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
            return Heard("wall a height eight foot two")

    one = load_sound(next(sample_audio_folder().glob("*_door.flac")))
    pause = np.zeros(3 * SAMPLE_RATE, np.float32)
    path = tmp_path / "2026-07-13_0800.flac"
    save_sound(Sound(np.concatenate([one.samples, pause] * 3)), path)
    shares: list[float] = []
    taken = session.take_sound(path, Listener, progress=shares.append)
    assert len(taken.memos) == 3
    assert shares == sorted(shares)
    assert [round(3 * share) for share in shares] == [1, 2]
    session.take_sound(next(sample_audio_folder().glob("*_door.flac")), Listener, progress=shares.append)
    assert len(shares) == 2
