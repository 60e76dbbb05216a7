"""The Vosk engine, for a model folder of the user's own. The only module that knows the vosk package."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError
from journal.records import Doubt, Heard, Span, Word
from journal.speech.base import NO_VOCABULARY, SAMPLE_RATE, Partial, Sound, Vocabulary
from journal.speech.readings import learnt_doubts
from journal.speech.spoken_form import spoken_words
from journal.speech.words import all_words, figure_words

EVERY_MODEL_KNOWS = ("one", "two", "five", "and", "the", "door")
"""English words that any English model holds; one that lacks them all is of another language."""
UNSURE = 0.7
_ALTERNATIVES = 5
_UNKNOWN = "[unk]"
_GET_ONE = "Get an English one with: journal model get vosk-model-small-en-us-0.15"


class VoskEngine:
    """Vosk with a model folder. Word times and how sure it is of each word come with every memo."""

    name = "vosk"

    def __init__(
        self, folder: Path, *, must_know: Sequence[str] = EVERY_MODEL_KNOWS, words: Sequence[str] = ()
    ) -> None:
        """`words` are expected besides those of the word tables; `must_know` tells a model of another language."""
        self._model = _load(folder)
        self.version = folder.name
        if must_know and not any(self._knows(word) for word in must_know):
            raise EngineError(
                f"the Vosk model {folder} knows no English: not one of {', '.join(map(repr, must_know[:3]))}",
                hint=_GET_ONE,
            )
        self._expected = [word for word in dict.fromkeys((*all_words(), *words)) if self._knows(word)]
        # a phrase list needs a graph that is put together while listening, which is stored in two parts
        self.takes_phrases = (folder / "graph" / "Gr.fst").is_file() and bool(self._expected)

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What was said, with word times, confidences and other readings; empty text where there is no speech.

        It listens for the words of the tables first. Where some other word was said, it listens again for any word.
        """
        pcm = _pcm(sound.samples)
        expected = self._hear(pcm, self._phrases(vocabulary)) if self.takes_phrases else []
        # a model without a word for "some other word" forces whatever it hears into the list
        closed = bool(expected) and self._knows(_UNKNOWN) and all(word["word"] != _UNKNOWN for word in expected)
        words = _words(expected if closed else self._hear(pcm, None))
        text = " ".join(word.word for word in words)
        others = [_words(reading) for reading in (*self._alternatives(pcm), expected)]
        readings = dict.fromkeys(" ".join(word.word for word in other) for other in others)
        readings.pop(text, None)
        readings.pop("", None)
        return Heard(
            text,
            words,
            readings=tuple(readings),
            doubts=(*unsure_figures(words), *learnt_doubts(text, vocabulary.doubted)),
            engine=self.name,
            engine_version=self.version,
            seconds=sound.seconds,
        )

    def follow(self, vocabulary: Vocabulary = NO_VOCABULARY) -> Partial:
        """What is being said, word by word while it is said. Its words are for the screen; `listen` has the last one."""
        return _Following(self._recogniser(self._phrases(vocabulary) if self.takes_phrases else None))

    def _knows(self, word: str) -> bool:
        return bool(self._model.vosk_model_find_word(word) != -1)

    def _phrases(self, vocabulary: Vocabulary) -> str:
        own = [word for phrase in vocabulary.favoured for word in phrase.split() if self._knows(word)]
        other = [_UNKNOWN] if self._knows(_UNKNOWN) else []
        return json.dumps([*dict.fromkeys((*self._expected, *own)), *other], ensure_ascii=False)

    def _hear(self, pcm: bytes, phrases: str | None) -> list[dict[str, Any]]:
        recogniser = self._recogniser(phrases)
        recogniser.SetWords(True)
        return [word for result in _results(recogniser, pcm) for word in result.get("result", [])]

    def _recogniser(self, phrases: str | None) -> Any:
        import vosk

        if phrases:
            return vosk.KaldiRecognizer(self._model, SAMPLE_RATE, phrases)
        return vosk.KaldiRecognizer(self._model, SAMPLE_RATE)

    def _alternatives(self, pcm: bytes) -> list[list[dict[str, Any]]]:
        recogniser = self._recogniser(None)
        recogniser.SetMaxAlternatives(_ALTERNATIVES)
        recogniser.SetWords(True)
        pieces = [result.get("alternatives", []) for result in _results(recogniser, pcm)]
        count = max((len(piece) for piece in pieces), default=0)
        # reading n of a memo with pauses is reading n of each stretch, or its last one
        return [
            [word for piece in pieces if piece for word in piece[min(n, len(piece) - 1)].get("result", [])]
            for n in range(count)
        ]


class _Following:
    """The words of a memo so far: what its finished stretches say, and the one that is being said."""

    def __init__(self, recogniser: Any) -> None:
        self._recogniser = recogniser
        self._finished: list[str] = []

    def add(self, samples: NDArray[np.float32]) -> str:
        if self._recogniser.AcceptWaveform(_pcm(samples)):
            self._finished.append(json.loads(self._recogniser.Result()).get("text", ""))
            going_on = ""
        else:
            going_on = json.loads(self._recogniser.PartialResult()).get("partial", "")
        said = " ".join(part for part in (*self._finished, going_on) if part)
        return " ".join(word for word in said.split() if word not in (_UNKNOWN, "<unk>"))


def _pcm(samples: NDArray[np.float32]) -> bytes:
    return (np.clip(samples, -1.0, 1.0) * 32767).astype(np.int16).tobytes()


def unsure_figures(words: Sequence[Word], below: float = UNSURE) -> list[Doubt]:
    """A doubt for each word of a figure that the engine is less sure of than this."""
    doubts = []
    at = 0
    for word in words:
        if word.word in figure_words() and word.confidence is not None and word.confidence < below:
            doubts.append(Doubt("heard", f"'{word.word}' was not heard clearly", Span(at, at + len(word.word))))
        at += len(word.word) + 1
    return doubts


def _load(folder: Path) -> Any:
    if not folder.is_dir():
        raise EngineError(f"there is no Vosk model folder {folder}", hint=_GET_ONE)
    wanted = (
        ("am/final.mdl", "final.mdl"),
        ("conf/mfcc.conf", "mfcc.conf"),
        ("graph/HCLG.fst", "graph/HCLr.fst", "HCLG.fst"),
    )
    for names in wanted:
        if not any((folder / name).is_file() and (folder / name).stat().st_size for name in names):
            raise EngineError(
                f"{folder} is no whole Vosk model: {names[0]} is missing or empty",
                hint=f"Unpack the model again, or give the folder inside it. {_GET_ONE}",
            )
    import vosk

    vosk.SetLogLevel(-1)
    try:
        return vosk.Model(model_path=str(folder))
    except Exception as error:
        # vosk raises the bare Exception
        raise EngineError(f"the Vosk model {folder} is damaged: it cannot be loaded", hint=_GET_ONE) from error


def _results(recogniser: Any, pcm: bytes) -> list[dict[str, Any]]:
    step = SAMPLE_RATE // 2
    results = []
    for start in range(0, len(pcm), step):
        if recogniser.AcceptWaveform(pcm[start : start + step]):
            results.append(json.loads(recogniser.Result()))
    results.append(json.loads(recogniser.FinalResult()))
    return results


def _words(heard: list[dict[str, Any]]) -> tuple[Word, ...]:
    known = [word for word in heard if word["word"] not in (_UNKNOWN, "<unk>")]
    return tuple(
        Word(
            spoken.word, known[spoken.written]["start"], known[spoken.written]["end"], known[spoken.written].get("conf")
        )
        for spoken in spoken_words([word["word"] for word in known])
    )
