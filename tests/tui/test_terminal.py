"""The screens in a real terminal (tmux): start, correct a figure by keys, quit, ask the database."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from journal.session import Session
from tests.tui.jobs import bunkhouse

needs_tmux = pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not here")


class Terminal:
    """A terminal of 80 by 24 on a server of its own."""

    def __init__(self, socket: Path, command: list[str], environment: dict[str, str]) -> None:
        self._tmux = ["tmux", "-S", str(socket), "-f", "/dev/null"]
        self._environment = environment
        self._run("new-session", "-d", "-x", "80", "-y", "24", "-s", "job", *command)
        self._run("set-option", "-g", "remain-on-exit", "on")

    def _run(self, *words: str) -> str:
        done = subprocess.run([*self._tmux, *words], env=self._environment, capture_output=True, text=True, timeout=20)
        return done.stdout

    def keys(self, *names: str) -> None:
        self._run("send-keys", "-t", "job", *names)

    @property
    def text(self) -> str:
        return self._run("capture-pane", "-p", "-t", "job")

    def wait(self, seen: Callable[[str], bool], seconds: float = 30) -> str:
        end = time.monotonic() + seconds
        while not seen(text := self.text):
            assert time.monotonic() < end, f"not seen in time:\n{text}"
            time.sleep(0.1)
        return text

    def wait_for_the_end(self, seconds: float = 30) -> None:
        end = time.monotonic() + seconds
        while self._run("display-message", "-p", "-t", "job", "#{pane_dead}").strip() != "1":
            assert time.monotonic() < end, f"it did not end:\n{self.text}"
            time.sleep(0.1)

    def close(self) -> None:
        self._run("kill-server")


@pytest.fixture
def terminal(job: Path, tmp_path: Path) -> Iterator[Terminal]:
    """`journal review` on the bunkhouse in a terminal of sixteen colours."""
    with Session.open(job) as session:
        bunkhouse(session)
    journal = "from journal.cli import main; main()"
    command = [sys.executable, "-c", journal, "--job", str(job), "review", "2026-07-13"]
    environment = {**os.environ, "TERM": "screen", "LC_ALL": "C.UTF-8"}
    environment.pop("COLORTERM", None)
    opened = Terminal(tmp_path / "t", command, environment)
    yield opened
    opened.close()


def test_without_a_terminal_it_says_what_to_do(job: Path) -> None:
    """Where there is no terminal to draw in, nothing is drawn: one line says so and the next names what else there is."""
    with Session.open(job) as session:
        bunkhouse(session)
    command = [sys.executable, "-m", "journal", "--job", str(job), "review"]
    done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "the screens need a terminal to be shown in\n"
        "Run journal review by itself in one. For scripts: journal day, about, todo, stock and find, with --json.\n"
    )


@needs_tmux
def test_correct_a_figure_and_ask_the_database(terminal: Terminal, job: Path) -> None:
    """A figure corrected by keys in a real terminal stands in the measures view after quitting, and what it was beside it."""
    terminal.wait(lambda text: "6 memos · 2 doubts left" in text)
    terminal.keys("Down", "Down", "Right")
    terminal.wait(lambda text: "memo 3" in text)
    terminal.keys("Enter")
    terminal.wait(lambda text: "Keep" in text)
    terminal.keys("3", "1", "Space", "1", "/", "2")
    terminal.wait(lambda text: "Enter keeps it" in text and "31 1/2 x 42 1/4" in text)
    terminal.keys("Enter")
    terminal.wait(lambda text: "1 doubt left" in text)
    terminal.keys("q")
    terminal.wait_for_the_end()
    with closing(sqlite3.connect(job / "journal.db")) as db:
        now = db.execute("SELECT inches, doubtful, confirmed FROM measures WHERE memo = 3 AND fact = 1").fetchall()
        rows = db.execute(
            "SELECT ticks FROM facts f JOIN memos m ON m.uuid = f.memo WHERE m.number = 3 AND f.number = 1"
        )
        assert now == [(31.5, 0, 1)]
        assert sorted(ticks for (ticks,) in rows) == [int(30.5 * 8128), int(31.5 * 8128)]
