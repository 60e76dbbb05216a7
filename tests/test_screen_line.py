"""The last line of the terminal while the journal listens."""

from __future__ import annotations

import io
import sys

import numpy as np
import pytest

from journal.cli.screen_line import ScreenLine, line_of, stop_keys


class Terminal(io.StringIO):
    """A stderr that says it is a terminal."""

    def isatty(self) -> bool:
        return True


class Following:
    """Words that grow with the sound."""

    def __init__(self) -> None:
        self.chunks = 0

    def add(self, samples: np.ndarray) -> str:
        self.chunks += 1
        return " ".join(["lake", "gable", "long", "point"][: self.chunks // 3])


@pytest.mark.parametrize(
    ("loudness", "words", "speaking", "line"),
    [
        (0.0, "", False, "○ ············  listening"),
        (1.0, "", True, "● ████████████  …"),
        (0.0316, "lake gable", True, "● ██████······  lake gable"),
        (0.0, "wall a window rough opening thirty", True, "● ············  …ugh opening thirty"),
    ],
)
def test_the_line(loudness: float, words: str, speaking: bool, line: str) -> None:
    """Loudness as a bar over 60 dB (half of it at -30 dB), whether a memo is being said, the end of its words."""
    assert line_of(loudness, words, 36, speaking=speaking) == line


def test_words_are_shown_while_they_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each memo is followed anew; between memos no words are shown; printing clears the line first."""
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    followed: list[Following] = []

    def follow() -> Following:
        followed.append(Following())
        return followed[-1]

    line = ScreenLine(follow, width=60)
    chunk = np.full(512, 0.1, np.float32)
    for speaking in (*[False] * 3, *[True] * 9, *[False] * 3, *[True] * 3):
        line.heard(chunk, speaking=speaking)
    shown = [part[16:].strip() for part in terminal.getvalue().split("\r\x1b[K") if part]
    assert shown == ["listening", "lake", "lake gable", "lake gable long", "listening", "lake"]
    assert len(followed) == 2
    with line.away():
        terminal.write("memo 1\n")
    assert terminal.getvalue().endswith("\r\x1b[Kmemo 1\n")


def test_nothing_is_drawn_where_stderr_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    """In a script or a log there is no line, and no engine works for it."""
    line = ScreenLine(lambda: pytest.fail("nobody looks at it"))
    for _ in range(9):
        line.heard(np.zeros(512, np.float32), speaking=True)
    with line.away():
        pass
    assert capsys.readouterr().err == ""


def test_keys_without_a_keyboard() -> None:
    """Where stdin is no terminal no key stops it."""
    with stop_keys() as pressed:
        assert not pressed()
