"""A second engine that listens for figures only, and says when each word was said. The only module with PocketSphinx.

It hears worse than the default engine but makes other mistakes: where the two differ in a figure, the figure is doubted. Its
language model and dictionary come out of the word tables by `tests/bench/speech/make_language.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError
from journal.records import Word
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.spoken_form import spoken_words

LANGUAGE = Path(__file__).parent / "language"
NOISY_BELOW_DB, DROWNED_BELOW_DB = 21.0, 10.0
"""With the speech less than the first above the noise it misses many figures that were said, so that missing one means
nothing; below the second it hears figures that nobody said. Quiet recordings by people lie at 23 and more."""
_FRAMES_A_SECOND = 100
_LEVEL = 0.5


class SecondOpinion:
    """PocketSphinx with the trade's own language model."""

    name = "pocketsphinx"

    def __init__(self) -> None:
        from importlib.metadata import version

        self.version = version("pocketsphinx")
        self._decoder = _decoder(lm=str(LANGUAGE / "trade.lm.bin"))
        self._aligner = _decoder(lm=None)

    def words(self, sound: Sound) -> str:
        """What it makes of the sound, in the journal's form."""
        self._decoder.start_utt()
        self._decoder.process_raw(_pcm(sound.samples), False, True)
        self._decoder.end_utt()
        heard = self._decoder.hyp()
        return " ".join(s.word for s in spoken_words(heard.hypstr.split())) if heard else ""

    def timed(self, sound: Sound, words: Sequence[Word]) -> tuple[Word, ...]:
        """The words with the times at which they were said; as they are where they cannot be found in the sound."""
        if not words or not all(self._knows(word.word) for word in words):
            return tuple(words)
        try:
            self._aligner.set_align_text(" ".join(word.word for word in words))
            self._aligner.start_utt()
            self._aligner.process_raw(_pcm(sound.samples), False, True)
            self._aligner.end_utt()
            segments = [s for s in self._aligner.seg() or () if s.word[0] not in "<[("]
        except (RuntimeError, ValueError):
            return tuple(words)
        if [s.word.partition("(")[0] for s in segments] != [word.word for word in words]:
            return tuple(words)
        return tuple(
            replace(word, start=s.start_frame / _FRAMES_A_SECOND, end=(s.end_frame + 1) / _FRAMES_A_SECOND)
            for word, s in zip(words, segments, strict=True)
        )

    def _knows(self, word: str) -> bool:
        """Whether it knows how a word sounds; one that only the large dictionary has is learnt from there."""
        if self._aligner.lookup_word(word) is not None:
            return True
        phones = large_dictionary().get(word)
        if phones is None:
            return False
        self._aligner.add_word(word, phones, True)
        return True


def speech_above_noise(samples: NDArray[np.float32]) -> float:
    """How far the loud parts of a sound lie above its quiet ones, in decibels; 99 where the quiet ones are silent."""
    frame = SAMPLE_RATE // 50
    frames = samples[: len(samples) // frame * frame].reshape(-1, frame).astype(np.float64)
    if len(frames) < 5:
        return 0.0
    power = (frames**2).mean(axis=1)
    quiet, loud = np.percentile(power, 10), np.percentile(power, 90)
    return 99.0 if quiet <= loud * 1e-9 else float(10 * np.log10(loud / quiet))


def _decoder(lm: str | None) -> Any:
    import pocketsphinx

    try:
        return pocketsphinx.Decoder(lm=lm, dict=str(LANGUAGE / "trade.dict"), loglevel="FATAL")
    except (RuntimeError, ValueError) as error:
        raise EngineError(
            f"the second engine cannot be started: {LANGUAGE} is damaged or missing ({error})",
            hint="Install the journal again.",
        ) from error


@cache
def large_dictionary() -> dict[str, str]:
    """How the words of ordinary English are said: word to phones, the first way of each."""
    import pocketsphinx

    path = Path(pocketsphinx.__file__).parent / "model" / "en-us" / "cmudict-en-us.dict"
    lines = (line.split(maxsplit=1) for line in path.read_text(encoding="utf-8").splitlines())
    return {parts[0]: parts[1] for parts in lines if len(parts) == 2}


def _pcm(samples: NDArray[np.float32]) -> bytes:
    loud = float(np.percentile(np.abs(samples), 99.9)) if len(samples) else 0.0
    even = samples * np.float32(_LEVEL / loud) if loud > 0 else samples
    return (np.clip(even, -1.0, 1.0) * 32767).astype("<i2").tobytes()
