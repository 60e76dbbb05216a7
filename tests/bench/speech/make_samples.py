"""Makes the recordings of `sample_audio/` from the texts beside them: run in the environment that voices.py asks for.

    python make_samples.py ../../../sample_audio [NAME ...]

Only the named ones are made when names are given. Piper's takes differ from run to run: listen to a new one before it is kept.
"""

from __future__ import annotations

import sys
from pathlib import Path

import soundfile
from voices import RATE, VOICES, noisy

SPOKEN_BY = {
    "2026-07-13_0735_testing": ("flite_slt", ""),
    "2026-07-13_0740_wall-a": ("hts", ""),
    "2026-07-13_0744_door": ("flite_rms", ""),
    "2026-07-13_0746_window": ("hts", ""),
    "2026-07-13_0748_sill": ("hts", ""),
    "2026-07-13_0830_pine": ("flite_rms", ""),
    "2026-07-13_0920_shed": ("espeak", ""),
    "2026-07-14_0750_base": ("hts", ""),
    "2026-07-14_0752_slope": ("piper", ""),
    "2026-07-14_1130_to-buy": ("hts", ""),
    "2026-07-15_0820_gap": ("flite_rms", "hammer10"),
    "2026-07-16_0745_base-again": ("hts", ""),
    "2026-07-16_1140_board-three": ("flite_rms", ""),
    "2026-07-16_1642_hours": ("espeak", ""),
    "2026-07-17_1520_oil": ("flite_rms", ""),
    "2026-07-21_0745_stack": ("flite_rms", ""),
}
AS_OGG = {"2026-07-13_0830_pine", "2026-07-13_0920_shed", "2026-07-15_0820_gap", "2026-07-16_1140_board-three"}
"""The longer and noisier ones, which flac keeps large."""


def main() -> None:
    """Speak, add the noise, write."""
    folder, names = Path(sys.argv[1]), sys.argv[2:]
    for name, (voice, noise) in SPOKEN_BY.items():
        if names and name not in names:
            continue
        said = VOICES[voice]((folder / f"{name}.txt").read_text(encoding="utf-8").strip())
        sound = noisy(said, noise, seed=8) if noise else said
        if name in AS_OGG:
            soundfile.write(folder / f"{name}.ogg", sound, RATE, subtype="VORBIS")
        else:
            soundfile.write(folder / f"{name}.flac", sound, RATE, subtype="PCM_16")


if __name__ == "__main__":
    main()
