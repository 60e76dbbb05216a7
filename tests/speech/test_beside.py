"""The second opinion in a process of its own: the same answers, errors that surface, and no harm when it dies."""

from __future__ import annotations

import io
import os
import pickle
import signal
from collections.abc import Iterator

import pytest

from journal.errors import EngineError
from journal.paths import sample_audio_folder
from journal.records import Heard, Word
from journal.speech import beside, second_opinion
from journal.speech.base import NO_VOCABULARY, Sound, Vocabulary
from journal.speech.beside import OpinionBeside
from journal.speech.checked import CheckedRecogniser
from journal.speech.second_opinion import SecondOpinion
from journal.speech.sound import load_sound

SLOPE, SHED = "2026-07-14_0752_slope.flac", "2026-07-13_0920_shed.ogg"


@pytest.fixture(scope="module")
def here() -> SecondOpinion:
    """The second engine in this process."""
    return SecondOpinion()


@pytest.fixture
def apart() -> Iterator[OpinionBeside]:
    """The second engine in a process of its own."""
    opinion = OpinionBeside()
    yield opinion
    opinion.close()


def _sound(name: str) -> Sound:
    return load_sound(sample_audio_folder() / name)


def test_the_same_answers(here: SecondOpinion, apart: OpinionBeside) -> None:
    """It hears what it hears in this process, expected before or not; what nobody asks for is passed over."""
    slope, shed = _sound(SLOPE), _sound(SHED)
    apart.expect(slope)
    assert apart.words(slope) == here.words(slope)
    assert apart.words(shed) == here.words(shed)
    apart.expect(shed)
    apart.expect(slope)
    words = tuple(Word(word) for word in here.words(slope).split())
    assert apart.timed(slope, words) == here.timed(slope, words)
    assert apart.words(shed) == here.words(shed)
    assert apart.version == here.version


def test_it_dies(here: SecondOpinion, apart: OpinionBeside) -> None:
    """Where the other process is gone, before a question or while it is answered, this one answers."""
    slope = _sound(SLOPE)
    assert apart.words(slope) == here.words(slope)
    assert apart._process is not None
    os.kill(apart._process.pid, signal.SIGTERM)
    apart._process.wait()
    assert apart.words(slope) == here.words(slope)
    assert apart._process is None
    other = OpinionBeside()
    other.expect(slope)
    other._process.kill()
    assert other.words(slope) == here.words(slope)


def test_it_ends_with_the_journal(apart: OpinionBeside) -> None:
    """When nobody can ask any more the other process ends by itself."""
    assert apart._process is not None
    apart._process.stdin.close()
    assert apart._process.wait(20) == 0


def test_ctrl_c_is_not_for_it(here: SecondOpinion, apart: OpinionBeside) -> None:
    """Ctrl-C at the terminal reaches it too; it goes on answering."""
    slope = _sound(SLOPE)
    assert apart.words(slope) == here.words(slope)
    assert apart._process is not None
    os.kill(apart._process.pid, signal.SIGINT)
    assert apart.words(slope) == here.words(slope)
    assert apart._process is not None


def test_an_error_surfaces(monkeypatch: pytest.MonkeyPatch) -> None:
    """An error in the other process is raised in this one, word for word."""

    def damaged(self: SecondOpinion) -> None:
        raise EngineError("the second engine cannot be started", hint="Install the journal again.")

    monkeypatch.setattr(second_opinion.SecondOpinion, "__init__", damaged)
    questions = io.BytesIO(pickle.dumps((1, "words", (_sound(SLOPE),))))
    answers = io.BytesIO()
    beside._serve(questions, answers)

    class Served:
        stdin, stdout = io.BytesIO(), io.BytesIO(answers.getvalue())

        def kill(self) -> None: ...

        def wait(self) -> None: ...

    monkeypatch.setattr(beside, "_started", Served)
    with pytest.raises(EngineError) as caught:
        OpinionBeside().words(_sound(SLOPE))
    assert str(caught.value) == "the second engine cannot be started\nInstall the journal again."


def test_no_process(monkeypatch: pytest.MonkeyPatch, here: SecondOpinion) -> None:
    """Where no process can be started, this one answers."""

    def refused(*_: object, **__: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr(beside.subprocess, "Popen", refused)
    slope = _sound(SLOPE)
    opinion = OpinionBeside()
    opinion.expect(slope)
    assert opinion.words(slope) == here.words(slope)


def test_it_begins_before_the_engine() -> None:
    """The second engine begins before the first one listens, and is not waited for where nothing is heard."""
    order: list[str] = []

    class Deaf:
        name, version = "deaf", "1"

        def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
            order.append("listen")
            return Heard("")

    class Opinion:
        name, version = "opinion", "1"

        def expect(self, sound: Sound) -> None:
            order.append("expect")

        def words(self, sound: Sound) -> str:
            raise AssertionError("asked for nothing")

        def timed(self, sound: Sound, words: object) -> tuple[Word, ...]:
            raise AssertionError("asked for nothing")

    assert CheckedRecogniser(Deaf(), Opinion()).listen(_sound(SLOPE)).text == ""
    assert order == ["expect", "listen"]
