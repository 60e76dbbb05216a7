"""The second opinion in a process of its own, so that it is formed while the engine listens.

PocketSphinx keeps Python's lock for as long as it listens: in a thread it would only take turns with the engine. The two
processes talk in pickles over the second one's standard input and output; it ends when the first one does.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
import subprocess
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path
from typing import Any, BinaryIO

import journal
from journal.records import Word
from journal.speech.base import Sound


class OpinionBeside:
    """A `SecondOpinion` in another process. Where that one dies, one in this process goes on in its place."""

    name = "pocketsphinx"

    def __init__(self) -> None:
        self.version = version("pocketsphinx")
        self._here: Any = None
        self._asked = 0
        self._expected: Sound | None = None
        self._process = _started()

    def expect(self, sound: Sound) -> None:
        """Let it begin with this sound; `words` is asked for it later, or not at all."""
        self._expected = sound
        self._ask("words", sound)

    def words(self, sound: Sound) -> str:
        """What it makes of the sound, in the journal's form; waits for it."""
        if self._expected is not sound:
            self._ask("words", sound)
        self._expected = None
        heard: str = self._answer("words", sound)
        return heard

    def timed(self, sound: Sound, words: Sequence[Word]) -> tuple[Word, ...]:
        """The words with the times at which they were said; as they are where they cannot be found in the sound."""
        self._expected = None
        self._ask("timed", sound, tuple(words))
        found: tuple[Word, ...] = self._answer("timed", sound, tuple(words))
        return found

    def close(self) -> None:
        """End the other process. What is asked from now on is answered in this one."""
        process, self._process = self._process, None
        if process is not None:
            process.kill()
            process.wait()
            for pipe in (process.stdin, process.stdout):
                with contextlib.suppress(OSError):  # what was not sent yet
                    pipe.close()

    def __del__(self) -> None:
        self.close()

    def _ask(self, what: str, *about: Any) -> None:
        self._asked += 1
        if self._process is not None:
            try:
                _send(self._process.stdin, (self._asked, what, about))
            except OSError:
                self.close()

    def _answer(self, what: str, *about: Any) -> Any:
        """The answer to the latest question; earlier ones, that nobody waited for, are passed over."""
        while self._process is not None:
            try:
                number, well, answer = pickle.load(self._process.stdout)
            except (OSError, EOFError, pickle.UnpicklingError):
                self.close()
                break
            if number == self._asked and well:
                return answer
            if number == self._asked:
                raise answer
        if self._here is None:
            from journal.speech.second_opinion import SecondOpinion

            self._here = SecondOpinion()
        return getattr(self._here, what)(*about)


def _started() -> Any:
    """The other process; None where none can be started."""
    above = str(Path(journal.__file__).parent.parent)
    paths = os.pathsep.join(filter(None, [above, os.environ.get("PYTHONPATH")]))
    try:
        return subprocess.Popen(
            [sys.executable, "-P", "-m", "journal.speech.beside"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": paths},
        )
    except OSError:
        return None


def _send(pipe: BinaryIO, what: Any) -> None:
    pickle.dump(what, pipe, protocol=pickle.HIGHEST_PROTOCOL)
    pipe.flush()


def _serve(questions: BinaryIO, answers: BinaryIO) -> None:
    """Answer until nobody asks; an error is an answer too."""
    from journal.speech.second_opinion import SecondOpinion

    opinion: Any = None
    failed: Exception | None = None
    try:
        opinion = SecondOpinion()
    except Exception as error:
        failed = error
    while True:
        try:
            number, what, about = pickle.load(questions)
        except EOFError:
            return
        try:
            if failed is not None:
                raise failed
            answer = (number, True, getattr(opinion, what)(*about))
        except Exception as error:
            answer = (number, False, error)
        _send(answers, answer)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the journal; this one ends with it
    answers = sys.stdout.buffer
    sys.stdout = sys.stderr
    _serve(sys.stdin.buffer, answers)
