"""The journal's own voice: which one is taken, and what is told where there is none."""

from __future__ import annotations

import sys
import types
import wave
from pathlib import Path

import numpy as np
import pytest

from journal.errors import EngineError, SoundError
from journal.speech.aloud import SystemVoice, find_voice, play
from journal.speech.base import SAMPLE_RATE, Sound


class FakeEngine:
    """Stands in for pyttsx3's engine: writes a second of a tone for each sentence."""

    def __init__(self, *, fails: bool = False) -> None:
        self.set: dict[str, object] = {}
        self._fails = fails

    def getProperty(self, name: str) -> list[types.SimpleNamespace]:  # noqa: N802 - pyttsx3's own name
        assert name == "voices"
        return [
            types.SimpleNamespace(id="gmw/af", name="Afrikaans", languages=["af"]),
            types.SimpleNamespace(id="gmw/en-US", name="English", languages=["en-us"]),
        ]

    def setProperty(self, name: str, value: object) -> None:  # noqa: N802
        self.set[name] = value

    def save_to_file(self, text: str, path: str) -> None:
        if self._fails:
            raise RuntimeError("no voice data")
        print("Audio saved")  # as its driver does
        tone = (8000 * np.sin(np.arange(22050) * 0.1)).astype("<i2")
        with wave.open(path, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(22050)
            file.writeframes(tone.tobytes())

    def runAndWait(self) -> None:  # noqa: N802
        pass


@pytest.fixture
def engine(monkeypatch: pytest.MonkeyPatch) -> FakeEngine:
    """pyttsx3 as if it were installed."""
    fake = FakeEngine()
    module = types.ModuleType("pyttsx3")
    module.init = lambda: fake  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "pyttsx3", module)
    return fake


def test_the_system_speaks_english_and_writes_nothing(engine: FakeEngine, capsys: pytest.CaptureFixture[str]) -> None:
    """Its first voice may be of any language: an English one is taken; its remarks do not get among the rows."""
    sound = SystemVoice().sound("lake gable, long point, fifty six")
    assert sound.seconds == pytest.approx(1.0, abs=0.05)
    assert engine.set == {"rate": 160, "voice": "gmw/en-US"}
    assert capsys.readouterr().out == ""


def test_a_voice_that_says_nothing(engine: FakeEngine) -> None:
    """What the voice cannot say is told, and shown instead."""
    engine._fails = True
    with pytest.raises(SoundError) as caught:
        SystemVoice().sound("lake gable")
    assert str(caught.value) == "the system's voice could not say 'lake gable'\nIt is shown instead."


def test_no_voice_on_the_system(monkeypatch: pytest.MonkeyPatch) -> None:
    """The package is there and the system has no voice: what to install."""
    module = types.ModuleType("pyttsx3")

    def init() -> None:
        raise OSError("libespeak.so.1: cannot open shared object file")

    module.init = init  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "pyttsx3", module)
    with pytest.raises(EngineError) as caught:
        SystemVoice()
    assert caught.value.message == "the system has no voice: libespeak.so.1: cannot open shared object file"
    assert caught.value.hint.startswith("Install one: pip install 'journal[aloud]'")


def test_a_piper_voice_that_is_not_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """JOURNAL_VOICE names a file: without piper-tts, and without the file, the next step is told."""
    monkeypatch.setenv("JOURNAL_VOICE", str(tmp_path / "joe.onnx"))
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(EngineError) as caught:
        find_voice()
    assert str(caught.value) == "a Piper voice needs the package piper-tts\npip install 'journal[piper]'"
    monkeypatch.setattr("importlib.util.find_spec", lambda name: True)
    with pytest.raises(EngineError) as caught:
        find_voice()
    assert caught.value.message == f"{tmp_path / 'joe.onnx'} is no Piper voice, or its joe.onnx.json is missing"


def test_a_real_voice() -> None:
    """Where pyttsx3 and a system voice are installed, a sentence becomes a second or more of sound."""
    pytest.importorskip("pyttsx3")
    try:
        voice = SystemVoice()
    except EngineError:
        pytest.skip("the system has no voice")
    sound = voice.sound("lake gable, long point, fifty six and seven eighths")
    assert 1.5 < sound.seconds < 10
    assert float(np.abs(sound.samples).max()) > 0.05


@pytest.mark.usefixtures("virtual_card")
def test_it_is_played_on_the_sound_card() -> None:
    """Playing takes as long as the sound lasts."""
    play(Sound(np.zeros(SAMPLE_RATE // 5, np.float32)))


def test_no_loudspeaker(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing to play on is told."""
    import miniaudio

    def absent(**_: object) -> None:
        raise miniaudio.MiniaudioError("no device")

    monkeypatch.setattr(miniaudio, "PlaybackDevice", absent)
    with pytest.raises(SoundError) as caught:
        play(Sound(np.zeros(10, np.float32)))
    assert caught.value.message == "nothing can be played here: no loudspeaker was found"
