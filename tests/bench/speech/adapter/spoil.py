"""Sound as a microphone on a site gives it: pace, room, noises, bands cut off, clipping, level. Other at every call."""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from scipy.signal import butter, resample_poly, sosfilt

sys.path.append(str(Path(__file__).parents[1]))

from voices import NOISES, RATE, _coloured, _in_a_bare_room

Samples = np.ndarray
Numbers = np.random.Generator
LEVEL = 0.5
"""Of the loud parts, as the journal's engine levels what it hears."""
PADDING = int(0.2 * RATE)
TRADE_CLEAN, PLAIN_CLEAN = 0.3, 0.5


def saw(size: int, random_numbers: Numbers) -> Samples:
    """A circular saw: a motor's harmonics that sink while it cuts, and the cut's hiss."""
    t = np.arange(size) / RATE
    corners = np.arange(0, t[-1] + 2, 0.7)
    cut = np.clip(np.interp(t, corners, random_numbers.normal(0.3, 0.6, size=len(corners))), 0, 1)
    phase = 2 * np.pi * np.cumsum(random_numbers.uniform(90, 420) * (1 - 0.2 * cut)) / RATE
    y = sum(np.sin(k * phase + random_numbers.uniform(0, 6)) * random_numbers.uniform(0.2, 1) for k in range(1, 20))
    band = sorted(random_numbers.uniform(600, 7000, size=2))
    hiss = sosfilt(
        butter(2, [band[0], band[1] + 500], "bandpass", fs=RATE, output="sos"), random_numbers.normal(size=size)
    )
    return y / y.std() * (0.4 + cut) + hiss / hiss.std() * cut


def compressor(size: int, random_numbers: Numbers) -> Samples:
    """A piston's thumps, 8 to 25 a second, over a rumble."""
    t = np.arange(size) / RATE
    beat = np.abs(np.sin(np.pi * random_numbers.uniform(8, 25) * t)) ** random_numbers.uniform(2, 12)
    rough = _coloured(size, random_numbers, random_numbers.uniform(0.3, 1.5))
    hum = np.sin(2 * np.pi * random_numbers.uniform(45, 130) * t)
    return rough / rough.std() * (0.2 + beat) + hum * random_numbers.uniform(0, 1.5)


def generator(size: int, random_numbers: Numbers) -> Samples:
    """An engine's harmonics at a steady pitch, some of them beating, under broad noise."""
    t = np.arange(size) / RATE
    pitch = random_numbers.uniform(25, 130)
    y = np.zeros(size)
    for k in range(1, 30):
        depth = random_numbers.uniform(0, 0.5)
        swell = 1 + depth * np.sin(2 * np.pi * random_numbers.uniform(0.5, 6) * t)
        y += (
            swell
            * np.sin(2 * np.pi * k * pitch * t + random_numbers.uniform(0, 6))
            / k ** random_numbers.uniform(0.3, 1)
        )
    rough = _coloured(size, random_numbers, random_numbers.uniform(0, 2))
    return y / y.std() + random_numbers.uniform(0.2, 1) * rough / rough.std()


def rain(size: int, random_numbers: Numbers) -> Samples:
    """Drops on a roof over a steady hiss."""
    drops = (random_numbers.random(size) < random_numbers.uniform(5, 80) / RATE) * random_numbers.exponential(1, size)
    fall = np.exp(-np.arange(400) / random_numbers.uniform(20, 120)) * np.sin(
        np.arange(400) * random_numbers.uniform(0.3, 2)
    )
    hiss = _coloured(size, random_numbers, random_numbers.uniform(-0.5, 1))
    return np.convolve(drops, fall)[:size] * 8 + hiss / hiss.std()


def broad(size: int, random_numbers: Numbers) -> Samples:
    """Noise of any slope in any band, steady or in swells."""
    y = _coloured(size, random_numbers, random_numbers.uniform(-1, 2.5))
    if random_numbers.random() < 0.5:
        low = random_numbers.uniform(60, 3000)
        high = min(low * random_numbers.uniform(2, 12), 7800)
        y = sosfilt(butter(2, [low, high], "bandpass", fs=RATE, output="sos"), y)
    corners = np.arange(0, size + 8000, int(random_numbers.uniform(1000, 8000)))
    return y * np.interp(np.arange(size), corners, random_numbers.uniform(0.1, 1, size=len(corners)))


def blows(size: int, random_numbers: Numbers) -> Samples:
    """Nail guns, mallets, boards let fall: clicks and rings of every length, now and then."""
    y = np.zeros(size)
    at = int(random_numbers.uniform(0, 0.6) * RATE)
    ring, rough = random_numbers.uniform(100, 4500), random_numbers.uniform(0.001, 0.03)
    while at < size:
        t = np.arange(int(random_numbers.uniform(0.05, 0.3) * RATE)) / RATE
        blow = random_numbers.normal(size=len(t)) * np.exp(-t / rough) * random_numbers.uniform(0.3, 2)
        for _ in range(3):
            pitch = ring * random_numbers.uniform(0.5, 2)
            blow += (
                np.sin(2 * np.pi * pitch * t)
                * np.exp(-t / random_numbers.uniform(0.01, 0.08))
                * random_numbers.random()
            )
        length = min(len(blow), size - at)
        y[at : at + length] += blow[:length] * random_numbers.uniform(0.3, 1)
        at += int(random_numbers.uniform(0.1, 1.2) * RATE)
    return y + 1e-3 * random_numbers.normal(size=size)


KINDS: list[tuple[Callable[[int, Numbers], Samples], int]] = [
    (NOISES["hammer"], 4),
    (NOISES["wind"], 4),
    (NOISES["grinder"], 6),
    (NOISES["hum"], 1),
    (saw, 5),
    (compressor, 3),
    (generator, 3),
    (rain, 3),
    (broad, 5),
    (blows, 3),
]
BABBLE = 4
"""How often talk of others comes, beside the weights above."""


def with_noise(samples: Samples, noise: Samples, decibels: float) -> Samples:
    """Speech over noise that is so many dB below it, measured as in voices.noisy."""
    frames = samples[: len(samples) // 320 * 320].reshape(-1, 320)
    power = (frames**2).mean(1)
    speech = power[power > power.max() * 1e-3].mean()
    return (samples + noise * np.sqrt(speech / max(float((noise**2).mean()), 1e-12) / 10 ** (decibels / 10))).astype(
        np.float32
    )


def babble(size: int, others: Sequence[Samples], chance: random.Random) -> Samples:
    """Several of the other sounds at once."""
    y = np.zeros(size)
    for other in chance.sample(others, chance.randrange(3, 7)):
        turn = np.tile(other, 1 + size // len(other))[:size]
        y += np.roll(turn, chance.randrange(size)) * chance.uniform(0.3, 1)
    return y


def noise_of(size: int, others: Sequence[Samples], chance: random.Random) -> Samples:
    """A noise of a random kind, now and then two."""
    numbers = np.random.default_rng(chance.randrange(2**31) + 10**6)
    makers = [kind for kind, _ in KINDS]
    weights = [weight for _, weight in KINDS]
    y = np.zeros(size)
    for _ in range(2 if chance.random() < 0.15 else 1):
        if others and chance.random() < BABBLE / (BABBLE + sum(weights)):
            one = babble(size, others, chance)
        else:
            one = chance.choices(makers, weights)[0](size, numbers)
        y += one / max(float(one.std()), 1e-9) * chance.uniform(0.4, 1)
    return y


def varied(clean: Samples, chance: random.Random) -> Samples:
    """The clean sound (int16) at another pace, with pauses at both ends."""
    x = clean.astype(np.float32) / 32768
    if chance.random() < 0.4 and (percent := chance.randrange(90, 112)) != 100:
        x = resample_poly(x, 100, percent).astype(np.float32)
    before, after = (np.zeros(int(chance.uniform(0.0, 0.35) * RATE), np.float32) for _ in range(2))
    x = np.concatenate([before, x, after])
    hiss = np.random.default_rng(chance.randrange(2**31)).normal(size=len(x))
    return (x + 10 ** chance.uniform(-5, -2.7) * hiss).astype(np.float32)


def spoiled(x: Samples, others: Sequence[Samples], chance: random.Random) -> Samples:
    """A sound in a room, in noise, its bands cut, clipped: some of these."""
    done = False
    if chance.random() < 0.25:
        numbers = np.random.default_rng(chance.randrange(2**31) + 10**6)
        x = _in_a_bare_room(x, numbers, chance.uniform(0.15, 0.8))
        done = True
    if not done or chance.random() < 0.75:
        decibels = chance.choice([chance.uniform(0, 20), chance.uniform(4, 14), chance.uniform(7, 13)])
        x = with_noise(x, noise_of(len(x), others, chance), decibels)
    if chance.random() < 0.12:
        top = chance.choice([3400, 4500, 6000])
        x = sosfilt(butter(4, top, "lowpass", fs=RATE, output="sos"), x).astype(np.float32)
    if chance.random() < 0.12:
        x = sosfilt(butter(2, chance.uniform(120, 400), "highpass", fs=RATE, output="sos"), x).astype(np.float32)
    if chance.random() < 0.06:
        top = float(np.abs(x).max()) * chance.uniform(0.2, 0.6)
        x = np.clip(x, -top, top)
    return x


def level(x: Samples, loud: float = LEVEL) -> Samples:
    """At the journal's level, with its silence around."""
    even = x * np.float32(min(loud / max(float(np.percentile(np.abs(x), 99.9)), 1e-6), 50.0))
    silence = np.zeros(PADDING, np.float32)
    return np.concatenate([silence, np.clip(even, -1, 1).astype(np.float32), silence])
