"""The default engine: Moonshine, whose model comes with pip, heard with our own beam search."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from journal.records import Heard, Word
from journal.speech.base import NO_VOCABULARY, SAMPLE_RATE, Sound, Vocabulary
from journal.speech.beam import Favoured, Reading, Scores, Stepper, search
from journal.speech.model_cache import Merge, Progress, ShippedModel, rebuilt, shipped_model
from journal.speech.old_models import InUse, clear_superseded
from journal.speech.pauses import cut_at_pauses, speech_stretches
from journal.speech.phrasing import Phrasing
from journal.speech.spoken_form import spoken_words
from journal.speech.steps import load_graphs
from journal.speech.tokens import END, Tokens
from journal.speech.words import trade_words

BEAM_WIDTH = 4
BOOST = 1.5
"""What a favoured word gains a piece, in log probability."""
LONGEST_PIECE_SECONDS = 24.0
NOTHING_WHERE_NONE, NOTHING_WHERE_SPEECH = 0.5, 0.9
"""How sure the model must be that nothing was said: where the speech detector agrees, and where it found speech."""
TALKS_OF_NOTHING = ("tiny",)
"""Models that never say that nothing was said ("you", on silence): there the speech detector alone decides."""
UNSPOKEN = 30.0
"""What digits and marks lose, in log probability."""
_PIECES_A_SECOND = 6.5
_READINGS = 8
_LEVEL = 0.5
_PADDING = np.zeros(int(0.2 * SAMPLE_RATE), np.float32)


class Moonshine:
    """Moonshine base or tiny with our own beam search. Takes a second to load; then it hears at several times real time."""

    name = "moonshine"

    def __init__(
        self, model: ShippedModel | None = None, *, merge: Merge | None = None, progress: Progress | None = None
    ) -> None:
        self.model = model or shipped_model()
        folder = rebuilt(self.model, merge=merge, progress=progress)
        self._in_use = InUse(folder)
        self._graphs = load_graphs(folder)
        clear_superseded(folder, f"{self.model.kind}{' adapted' if merge else ''}", progress or (lambda _what: None))
        self.version = f"{self.model.kind} {self.model.package_version}" + (f" {merge.key}" if merge else "")
        self._tokens = Tokens.load(self.model.tokens)
        self._phrasing = Phrasing(self._tokens.pieces)
        self._unspoken = self._tokens.other_than_words()
        self._favoured: tuple[Vocabulary, Favoured] | None = None

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What was said, with next-best readings; empty text where there is no speech."""
        favoured = self._favour(vocabulary)
        # the model stops at a pause; so each stretch of speech is heard by itself
        stretches = speech_stretches(sound.samples)
        if not stretches and self.model.kind in TALKS_OF_NOTHING:
            return Heard("", engine=self.name, engine_version=self.version, seconds=sound.seconds, weighed=True)
        nothing_above = NOTHING_WHERE_SPEECH if stretches else NOTHING_WHERE_NONE
        pieces = cut_at_pauses(sound.samples, stretches, LONGEST_PIECE_SECONDS)
        spoken = [readings for piece in pieces if (readings := self._read(piece, favoured, nothing_above))]
        words = tuple(word for readings in spoken for word in self._words(readings[0]))
        others = self._next_best(spoken)
        return Heard(
            " ".join(word.word for word in words),
            words,
            readings=tuple(others),
            engine=self.name,
            engine_version=self.version,
            seconds=sound.seconds,
            weighed=True,  # its word probabilities tell right words from wrong ones poorly
            behind=tuple(others.values()),
        )

    def _read(self, samples: NDArray[np.float32], favoured: Favoured, nothing_above: float) -> list[Reading]:
        prepared = _prepared(samples)
        longest = int(len(prepared) / SAMPLE_RATE * _PIECES_A_SECOND) + 8
        return search(
            _InWords(self._graphs.begin(prepared), self._unspoken),
            end=END,
            longest=longest,
            favoured=favoured,
            width=BEAM_WIDTH,
            nothing_above=nothing_above,
            fitting=self._phrasing,
        )

    def _words(self, reading: Reading) -> list[Word]:
        """The reading's words in the journal's form, each as sure as the least sure piece of the word written for it."""
        written = self._tokens.words(list(reading.pieces))
        sure = [math.exp(min(reading.sure[position] for position in positions)) for _, positions in written]
        spoken = spoken_words([word for word, _ in written])
        return [Word(s.word, confidence=round(sure[s.written], 3)) for s in spoken]

    def _next_best(self, spoken: list[list[Reading]]) -> dict[str, float]:
        """Texts that differ from the best by one stretch of speech read otherwise, likeliest first, and how far behind."""
        best = [" ".join(word.word for word in self._words(readings[0])) for readings in spoken]
        others: list[tuple[float, str]] = []
        for at, readings in enumerate(spoken):
            for reading in readings[1:]:
                text = " ".join(word.word for word in self._words(reading))
                whole = " ".join([*best[:at], text, *best[at + 1 :]])
                others.append((reading.score - readings[0].score, whole))
        distinct: dict[str, float] = {}
        for behind, whole in sorted(others, reverse=True):
            distinct.setdefault(whole, behind)
        distinct.pop(" ".join(best), None)
        return dict(list(distinct.items())[:_READINGS])

    def _favour(self, vocabulary: Vocabulary) -> Favoured:
        if self._favoured is None or self._favoured[0] != vocabulary:
            phrases = []
            for phrase in (*trade_words(), *vocabulary.favoured):
                # the model writes sentences: a favoured word may begin one
                for written in dict.fromkeys((phrase, phrase[:1].upper() + phrase[1:])):
                    if (numbers := self._tokens.numbers(written)) is not None:
                        phrases.append(numbers)
            self._favoured = (vocabulary, Favoured(phrases, BOOST))
        return self._favoured[1]


class _InWords:
    """A model that is held to words.

    "72 1/2, 5/8" and "seventy two and a half five eighths" are one reading: written in words only, the beam has room for
    readings that differ, and a figure is not squeezed into digits that were not said ("92 by 6").
    """

    def __init__(self, model: Stepper, unspoken: list[int]) -> None:
        self.model = model
        self.unspoken = unspoken

    def start(self) -> Scores:
        """Log probabilities of the first piece."""
        return self._held(self.model.start())

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        """Log probabilities after one more piece for each text."""
        return self._held(self.model.step(origins, pieces))

    def _held(self, scores: Scores) -> Scores:
        scores[:, self.unspoken] -= UNSPOKEN
        return scores


def _prepared(samples: NDArray[np.float32]) -> NDArray[np.float32]:
    """The sound at an even level, by its loud parts rather than by one knock, with a little silence around it."""
    loud = float(np.percentile(np.abs(samples), 99.9)) if len(samples) else 0.0
    even = samples * np.float32(min(_LEVEL / loud, 50.0)) if loud > 0 else samples
    return np.concatenate([_PADDING, np.clip(even, -1.0, 1.0), _PADDING])
