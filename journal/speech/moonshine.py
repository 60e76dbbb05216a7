"""The default engine: Moonshine, whose model comes with pip, run by onnxruntime. The only module that knows onnxruntime."""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError
from journal.records import Heard, Word
from journal.speech.base import NO_VOCABULARY, SAMPLE_RATE, Sound, Vocabulary
from journal.speech.beam import Favoured, Reading, Scores, search
from journal.speech.model_cache import Merge, Progress, ShippedModel, rebuilt, shipped_model
from journal.speech.pauses import cut_at_pauses, speech_stretches
from journal.speech.phrasing import Phrasing
from journal.speech.spoken_form import spoken_words
from journal.speech.tokens import END, START, Tokens
from journal.speech.words import trade_words

if TYPE_CHECKING:
    import onnxruntime

BEAM_WIDTH = 4
BOOST = 1.5
"""What a favoured word gains a piece, in log probability."""
LONGEST_PIECE_SECONDS = 24.0
NOTHING_WHERE_NONE, NOTHING_WHERE_SPEECH = 0.5, 0.9
"""How sure the model must be that nothing was said: where the speech detector agrees, and where it found speech."""
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
        files = rebuilt(self.model, merge=merge, progress=progress)
        self.version = f"{self.model.kind} {self.model.package_version}" + (f" {merge.key}" if merge else "")
        self._tokens = Tokens.load(self.model.tokens)
        self._phrasing = Phrasing(self._tokens.pieces)
        self._encoder = _session(files["encoder_model"])
        self._decoder = _session(files["decoder_model_merged"])
        self._encoder_inputs = {i.name for i in self._encoder.get_inputs()}
        self._unspoken = self._tokens.other_than_words()
        self._favoured: tuple[Vocabulary, Favoured] | None = None

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What was said, with next-best readings; empty text where there is no speech."""
        favoured = self._favour(vocabulary)
        # the model stops at a pause; so each stretch of speech is heard by itself
        stretches = speech_stretches(sound.samples)
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
        stepper = _Decoder(self._decoder, self._encode(prepared), len(prepared), self._unspoken)
        return search(
            stepper,
            end=END,
            longest=longest,
            favoured=favoured,
            width=BEAM_WIDTH,
            nothing_above=nothing_above,
            fitting=self._phrasing,
        )

    def _encode(self, samples: NDArray[np.float32]) -> NDArray[np.float32]:
        feed: dict[str, Any] = {"input_values": samples[None, :]}
        if "attention_mask" in self._encoder_inputs:
            feed["attention_mask"] = np.ones((1, len(samples)), np.int64)
        hidden: NDArray[np.float32] = self._encoder.run(None, feed)[0]
        return hidden

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
            meant = (right for _, right in vocabulary.doubted)
            for phrase in (*trade_words(), *vocabulary.favoured, *meant):
                # the model writes sentences: a favoured word may begin one
                for written in dict.fromkeys((phrase, phrase[:1].upper() + phrase[1:])):
                    if (numbers := self._tokens.numbers(written)) is not None:
                        phrases.append(numbers)
            self._favoured = (vocabulary, Favoured(phrases, BOOST))
        return self._favoured[1]


class _Decoder:
    """The decoder as a beam search drives it: the rows of the last step and what they attend to."""

    def __init__(
        self, session: onnxruntime.InferenceSession, hidden: NDArray[np.float32], samples: int, unspoken: list[int]
    ) -> None:
        self.session = session
        self.hidden = hidden
        self.samples = samples
        self.unspoken = unspoken
        self.inputs = {i.name: i for i in session.get_inputs()}
        self.outputs = [o.name for o in session.get_outputs()]
        self.past_names = [name for name in self.inputs if name.startswith("past_key_values")]
        _, heads, _, size = self.inputs[self.past_names[0]].shape
        empty = np.zeros((1, heads, 0, size), np.float32)
        self.past: dict[str, NDArray[np.float32]] = dict.fromkeys(self.past_names, empty)
        self.of_sound: dict[str, NDArray[np.float32]] = {}

    def start(self) -> Scores:
        """Log probabilities of the first piece."""
        scores = self._run([START], self.hidden, later=False)
        self.of_sound = {name: self.past[name] for name in self.past_names if ".encoder." in name}
        return scores

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        """Log probabilities after one more piece for each row."""
        rows = list(origins)
        for name in self.past_names:
            if ".encoder." not in name:
                self.past[name] = self.past[name][rows]
            elif len(self.past[name]) != len(rows):
                # what a row hears is the same for all rows: copied only when their number changes
                self.past[name] = np.repeat(self.of_sound[name], len(rows), axis=0)
        if len(self.hidden) != len(rows):
            self.hidden = np.repeat(self.hidden[:1], len(rows), axis=0)
        return self._run(pieces, self.hidden, later=True)

    def _run(self, pieces: Sequence[int], hidden: NDArray[np.float32], *, later: bool) -> Scores:
        feed: dict[str, Any] = {
            "input_ids": np.asarray(pieces, np.int64)[:, None],
            "encoder_hidden_states": hidden,
            **self.past,
        }
        if "use_cache_branch" in self.inputs:
            feed["use_cache_branch"] = np.array([later])
        if "encoder_attention_mask" in self.inputs:
            feed["encoder_attention_mask"] = np.ones((len(hidden), self.samples), np.int64)
        out = dict(zip(self.outputs, self.session.run(None, feed), strict=True))
        for name in self.past_names:
            if not (later and ".encoder." in name):
                self.past[name] = out[name.replace("past_key_values", "present")]
        logits = out["logits"][:, -1]
        logits = logits - logits.max(axis=-1, keepdims=True)
        scores: Scores = logits - np.log(np.exp(logits).sum(axis=-1, keepdims=True))
        # "72 1/2, 5/8" and "seventy two and a half five eighths" are one reading: written in words only, the beam has room
        # for readings that differ, and a figure is not squeezed into digits that were not said ("92 by 6")
        scores[:, self.unspoken] -= UNSPOKEN
        return scores


def _session(path: Path) -> onnxruntime.InferenceSession:
    import onnxruntime

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = min(4, os.cpu_count() or 1)
    options.inter_op_num_threads = 1
    # threads that wait without sleeping would take the core from whatever else runs
    options.add_session_config_entry("session.intra_op.allow_spinning", "0")
    options.log_severity_level = 3
    try:
        return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])
    except Exception as error:
        # onnxruntime's exceptions share no public base class
        raise EngineError(
            f"the speech model {path} cannot be loaded: {str(error).splitlines()[0]}",
            hint=f"Delete the folder {path.parent}; it is made again at the next start.",
        ) from error


def _prepared(samples: NDArray[np.float32]) -> NDArray[np.float32]:
    """The sound at an even level, by its loud parts rather than by one knock, with a little silence around it."""
    loud = float(np.percentile(np.abs(samples), 99.9)) if len(samples) else 0.0
    even = samples * np.float32(min(_LEVEL / loud, 50.0)) if loud > 0 else samples
    return np.concatenate([_PADDING, np.clip(even, -1.0, 1.0), _PADDING])
