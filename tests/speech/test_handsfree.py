"""Memos without hands: the loop at the microphone, with an engine of scripted texts and with the real one on a sound card."""

from __future__ import annotations

import os
import queue
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result

from journal.cli import main
from journal.errors import SoundError
from journal.fields import describe
from journal.paths import sample_audio_folder
from journal.records import Doubt, Heard, Span
from journal.session import Session
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.memo_files import memos_left
from journal.speech.pauses import CHUNK
from journal.speech.sound import load_sound

LISTENING = "Listening. A pause of 0.5 s ends a memo; say 'stop listening', or press q or Ctrl-C to stop.\n"
STOPPED = "stopped; what was said is kept\n"


class Site:
    """A builder and a microphone: each text is said, as a sample of speech and a pause, once the last one was answered."""

    def __init__(self, *texts: str | Heard | Exception) -> None:
        self.texts = list(texts)
        self.name, self.version = "scripted", "1"
        self._answered = threading.Semaphore(1)
        self._closed = threading.Event()
        self._speech = load_sound(sample_audio_folder() / "2026-07-13_0748_sill.flac").samples[: 2 * SAMPLE_RATE]
        self.ends: Callable[[], None] = lambda: None
        self.waits = 0.1

    def __enter__(self) -> Site:
        return self

    def __exit__(self, *_: object) -> None:
        self._closed.set()

    def __iter__(self) -> Iterator[np.ndarray]:
        pause = np.zeros(SAMPLE_RATE, np.float32)
        for count in range(len(self.texts)):
            while not self._answered.acquire(timeout=0.05):
                if self._closed.is_set():
                    return
            time.sleep(self.waits)  # the answer is on the screen, or spoken
            # no two sounds are the same, or the second would be known already
            yield from _chunks(np.concatenate([self._speech * (1 - count / 50), pause]))
        while not self._answered.acquire(timeout=0.05):
            if self._closed.is_set():
                return
        self.ends()
        while not self._closed.is_set():
            yield np.zeros(CHUNK, np.float32)
            time.sleep(0.01)

    def listen(self, sound: Sound, vocabulary: object = None) -> Heard:
        self._answered.release()
        heard = self.texts.pop(0)
        if isinstance(heard, Exception):
            raise heard
        return heard if isinstance(heard, Heard) else Heard(heard, engine="scripted", weighed=True)


def _chunks(samples: np.ndarray) -> Iterator[np.ndarray]:
    for start in range(0, len(samples) - CHUNK + 1, CHUNK):
        yield samples[start : start + CHUNK]


def doubted(text: str, words: str, *other: str) -> Heard:
    start = text.index(words)
    doubt = Doubt("second opinion", f"'{words}' may be wrong", Span(start, start + len(words)), other)
    return Heard(text, doubts=(doubt,), engine="scripted", weighed=True)


@pytest.fixture
def at_site(job: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Runs `journal take` with a site in place of the microphone and the engine."""

    def run(site: Site, *options: str) -> Result:
        monkeypatch.setattr("journal.speech.microphone.open_microphone", lambda: site)
        monkeypatch.setattr("journal.speech.choose.choose_engine", lambda *_, **__: site)
        return CliRunner().invoke(main, ["--job", str(job), "take", "--pause", "0.5", *options])

    return run


def on_file(job: Path) -> list[str]:
    with Session.open(job) as session:
        return [
            f"{filed.memo}.{filed.number} {filed.fact.place} {describe(filed.fact)}" for filed in session.store.facts()
        ]


def test_a_conversation(at_site: Callable[..., Result], job: Path) -> None:
    """Said, said back, taken back, put right, asked for again and answered; until told to stop."""
    site = Site(
        "lake gable centre board long point fifty six and seven eighths",
        "scratch that",
        "lake gable centre board long point fifty six and a half",
        "make that fifty seven",
        doubted("window on wall a is thirteen wide", "thirteen", "thirty"),
        "thirty",
        "stop at the third course",
        "stop listening",
    )
    result = at_site(site)
    assert (result.exit_code, result.exception) == (0, None)
    assert result.stderr == (
        LISTENING + "→ lake gable, centre board, long point, fifty six and seven eighths\n"
        "→ scratched: lake gable, centre board, long point, fifty six and seven eighths\n"
        "→ lake gable, centre board, long point, fifty six and a half\n"
        "→ lake gable, centre board, long point, fifty seven\n"
        "→ wall a, window, width, thirteen\n"
        "? thirteen or thirty?\n"
        "→ wall a, window, width, thirty\n" + STOPPED
    )
    assert on_file(job) == ['4.1 lake gable centre board long point 57"', '6.1 wall A window width 30"']
    with Session.open(job) as session:
        answered = session.store.memo(6)
        assert answered is not None
        assert (answered.source, answered.text) == ("microphone", "thirty")
        assert answered.recording is not None
        (filed,) = session.store.facts(memo=6)
        assert [(old.memo, describe(old.fact)) for old in filed.was] == [(5, 'window width 13"')]
    assert len(list((job / "recordings").glob("*.wav"))) == 8
    assert memos_left(job / "recordings") == []


def test_a_memo_without_speech_goes_by(at_site: Callable[..., Result], job: Path) -> None:
    """What the engine hears no words in is told and kept, and the next memo is taken; the command says that not all was."""
    result = at_site(Site("", "wall a height is ninety", "stop listening"))
    assert result.exit_code == 1
    name = min(path.name for path in (job / "recordings").glob("*.wav"))
    assert result.stderr == (
        LISTENING + f"{name}: no speech was heard in it\n"
        f"The sound is kept as recordings/{name}. Say it again nearer to the microphone, or type it: --say '…'\n"
        "→ wall a, height, ninety\n" + STOPPED
    )
    assert on_file(job) == ['1.1 wall A height 90"']


def test_ctrl_c_ends_it(at_site: Callable[..., Result], job: Path) -> None:
    """Ctrl-C stops listening; what was said before it is filed."""
    site = Site("wall a height is ninety")
    site.ends = lambda: os.kill(os.getpid(), signal.SIGINT)
    result = at_site(site)
    assert (result.exit_code, result.stderr) == (0, LISTENING + "→ wall a, height, ninety\n" + STOPPED)
    assert on_file(job) == ['1.1 wall A height 90"']


def test_an_unplugged_microphone(at_site: Callable[..., Result], job: Path) -> None:
    """The memo that was being said is filed before the command gives up, with the next step."""
    site = Site("wall a height is ninety")

    def unplugged() -> None:
        raise SoundError("the microphone stopped giving sound", hint="Plug it in again and start anew: journal take.")

    site.ends = unplugged
    result = at_site(site)
    assert result.exit_code == 1
    assert result.stderr == (
        LISTENING + "→ wall a, height, ninety\n"
        "the microphone stopped giving sound\nPlug it in again and start anew: journal take.\n"
    )
    assert on_file(job) == ['1.1 wall A height 90"']


class Speaker:
    """A voice that remembers what it said, and what the microphone would have heard of it."""

    name = "test"

    def __init__(self, site: Site) -> None:
        self.said: list[str] = []

    def sound(self, text: str) -> Sound:
        self.said.append(text)
        return Sound(np.zeros(SAMPLE_RATE // 10, np.float32))


def test_aloud(at_site: Callable[..., Result], job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With --aloud what is shown is spoken too, the question last."""
    site = Site(
        doubted("window on wall a is thirteen wide", "thirteen", "thirty"), "thirteen", "nothing much", "stop listening"
    )
    speaker, site.waits = Speaker(site), 1.5
    monkeypatch.setattr("journal.speech.aloud.find_voice", lambda: speaker)
    monkeypatch.setattr("journal.speech.aloud.play", lambda sound, until: None)
    result = at_site(site, "--aloud")
    assert (result.exit_code, result.exception) == (0, None)
    assert speaker.said == [
        "wall a, window, width, thirteen. thirteen or thirty?",
        "wall a, window, width, thirteen",
    ]


def test_aloud_without_a_voice(at_site: Callable[..., Result], monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a voice the command stops before anything is said, and names what to install."""
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    result = at_site(Site(), "--aloud")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        "there is no voice here to speak aloud with\n"
        "Install one: pip install 'journal[aloud]' (on Debian also: apt install espeak-ng), or go on without --aloud.\n"
    )


def test_a_voice_that_fails_costs_no_memo(
    at_site: Callable[..., Result], job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No loudspeaker: it is told once, and the conversation goes on in text."""
    site = Site("wall a height is ninety", "wall b height is ninety", "stop listening")
    site.waits = 1.0

    def no_loudspeaker(sound: Sound, until: Callable[[], bool]) -> None:
        raise SoundError("nothing can be played here: no loudspeaker was found", hint="What is said is shown as well.")

    monkeypatch.setattr("journal.speech.aloud.find_voice", lambda: Speaker(site))
    monkeypatch.setattr("journal.speech.aloud.play", no_loudspeaker)
    result = at_site(site, "--aloud")
    assert result.stderr == (
        LISTENING + "→ wall a, height, ninety\n"
        "nothing can be played here: no loudspeaker was found; it goes on without a voice\n"
        "What is said is shown as well.\n"
        "→ wall b, height, ninety\n" + STOPPED
    )
    assert len(on_file(job)) == 2


def test_typed_memos_are_answered_alike(job: Path) -> None:
    """`journal take --type`: the same conversation, a memo a line, until an empty line."""
    lines = (
        "wall a length thirty foot height two inches\nno\nninety eight\nmake that ninety nine\n\nwall b height ten\n"
    )
    result = CliRunner().invoke(main, ["--job", str(job), "take", "--type"], input=lines)
    assert result.exit_code == 0
    assert result.stderr == (
        "Type a memo and press Enter; an empty line stops.\n"
        "→ wall a, length, thirty foot even\n"
        "→ wall a, height, two\n"
        "? wall a, height, two: is that right?\n"
        "→ scratched: wall a, height, two\n"
        "? what is it, then?\n"
        "→ wall a, height, ninety eight\n"
        "→ wall a, height, ninety nine\n"
    )
    assert on_file(job) == ["1.1 wall A length 30' 0\"", '4.1 wall A height 99"']


def test_typed_memos_put_the_last_one_right(job: Path) -> None:
    """`--say "make that …"` is about the memo just typed, in the same command or the next one."""
    runner = CliRunner()
    first = runner.invoke(
        main, ["--job", str(job), "take", "--say", "wall a height is ninety", "--say", "make that ninety one"]
    )
    assert (first.exit_code, first.stderr) == (0, "→ wall a, height, ninety one\n")
    second = runner.invoke(main, ["--job", str(job), "take", "--say", "scratch that"])
    assert (second.exit_code, second.stderr) == (0, "→ scratched: wall a, height, ninety one\n")
    assert on_file(job) == []


# ---- on a sound card -----------------------------------------------------------------------------------------------


class OnTheCard:
    """`journal take` as a process of its own, its microphone a virtual sound card that speech is played to."""

    def __init__(self, job: Path, *options: str, **environment: str) -> None:
        command = [sys.executable, "-m", "journal", "--job", str(job), "take", *options]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env={**os.environ, **environment}
        )
        self.shown: list[str] = []
        self._lines: queue.Queue[str] = queue.Queue()
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def _read(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            self._lines.put(line.rstrip("\n"))

    def waits_for(self, beginning: str, seconds: float = 180) -> str:
        """The next line that begins so."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            try:
                line = self._lines.get(timeout=0.5)
            except queue.Empty:
                continue
            self.shown.append(line)
            if line.startswith(beginning):
                return line
        raise AssertionError(f"no line begins with {beginning!r}: {self.shown}")

    def hears(self, text: str, folder: Path) -> None:
        """The text, spoken by flite, at its microphone."""
        path = folder / "said.wav"
        subprocess.run(["flite", "-voice", "awb", "-t", text, "-o", str(path)], check=True)
        subprocess.run(["paplay", "--device=memo", str(path)], check=True)


@pytest.mark.usefixtures("virtual_card", "moonshine")
def test_a_conversation_on_a_sound_card(job: Path, tmp_path: Path) -> None:
    """The whole of it, spoken: a memo said back, taken back, a doubted figure asked for and answered, told to stop."""
    if shutil.which("flite") is None:
        pytest.skip("flite is not installed")
    journal = OnTheCard(job, "--pause", "1")
    try:
        journal.waits_for("Listening.")
        journal.hears("north wall length thirty foot", tmp_path)
        assert journal.waits_for("→ ") == "→ north wall, length, thirty foot even"
        journal.hears("lake gable centre board long point fifty six and seven eighths", tmp_path)
        assert "long point, fifty six and seven eighths" in journal.waits_for("→ ")
        journal.hears("scratch that", tmp_path)
        assert journal.waits_for("→ ").startswith("→ scratched: lake gable, cent")
        journal.hears("north wall length thirteen foot", tmp_path)
        assert journal.waits_for("? ") == "? thirteen foot even or thirty foot even?"
        journal.hears("thirty", tmp_path)
        assert journal.waits_for("→ ") == "→ north wall, length, thirty foot even"
        journal.hears("stop listening", tmp_path)
        assert journal.waits_for("stopped") == "stopped; what was said is kept"
        assert journal.process.wait(30) == 0
    finally:
        journal.process.kill()
    facts = on_file(job)
    assert "5.1 north wall length 30' 0\"" in facts
    assert not any("13'" in fact or "centre board" in fact for fact in facts)
    assert memos_left(job / "recordings") == []


@pytest.mark.usefixtures("virtual_card", "moonshine")
def test_a_killed_run_loses_no_memo(job: Path, tmp_path: Path) -> None:
    """Killed in the middle of a memo, without warning: what was said until then is taken at the next start, and told."""
    if shutil.which("flite") is None:
        pytest.skip("flite is not installed")
    recordings = job / "recordings"
    journal = OnTheCard(job, "--pause", "20")
    try:
        journal.waits_for("Listening.")
        journal.hears("wall a height is ninety eight", tmp_path)
        assert list(recordings.glob("*.wav.part"))
    finally:
        journal.process.kill()
        journal.process.wait(10)
    (part,) = recordings.glob("*.wav.part")
    name = part.name.removesuffix(".part")
    journal = OnTheCard(job)
    try:
        shown = f"{name} was being said or heard when the journal last stopped; it is taken now"
        assert journal.waits_for("20") == shown
        journal.waits_for("Listening.")
        journal.process.send_signal(signal.SIGINT)
        assert journal.process.wait(30) == 0
    finally:
        journal.process.kill()
    assert on_file(job) == ['1.1 wall A height 98"']
    assert memos_left(recordings) == []
