"""Finds the weights by which a figure is doubted: `journal/speech/doubting.toml`.

    python fit_doubts.py SOUNDS [SOUNDS ...] --memos MEMOS.jsonl --keep FOLDER [--quiet 0.05] [--noise 0.12] [--kept-only] [--show] [--write]

Logistic regression (ridge, Newton's method) of "this figure is wrong" over the signs of `journal/speech/doubting.py`. What is
printed was worked out for each memo by weights found without it (eight parts). The limits are set so that at most these
shares of the figures are right and doubted, espeak's left out: it is robotic and heard worse than people are. SOUNDS are what
voices.py wrote.
"""

from __future__ import annotations

import argparse
import json
import sys
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from kept import Kept, KeptEngine, KeptOpinion

from journal.speech import doubting
from journal.speech.readings import as_figures, bare_figure, partners, region_of
from journal.speech.second_opinion import speech_above_noise
from journal.speech.sound import load_sound
from journal.speech.spoken_form import spoken_text

PARTS = 8
RIDGE = 3.0


ORDINARY = 0.12
"""From this chance on a doubt is an ordinary one; below, one of the lowest kind."""


class Row(NamedTuple):
    """A figure that was heard."""

    memo: str
    noisy: bool
    wrong: bool
    signs: dict[str, float]
    seen: str


def rows(folders: list[Path], said: dict[str, str], keep: Path, limit: int | None, *, kept_only: bool) -> Iterator[Row]:
    """Every figure that the default engine hears in the sounds."""
    from journal.speech.choose import choose_engine

    checked: Any = choose_engine("moonshine")
    kept = Kept(keep)
    engine, opinion = KeptEngine(checked.engine, kept), KeptOpinion(checked.opinion, kept)
    files = [file for folder in folders for file in sorted(folder.glob("*/*.wav")) if file.stem in said]
    files.sort(key=lambda file: zlib.crc32(str(file).encode()))
    for number, file in enumerate(files[:limit]):
        sound = load_sound(file)
        if kept_only and not kept.has(sound, f"listen {engine.key}"):
            continue
        heard = engine.listen(sound)
        if not heard.text:
            continue
        second = opinion.words(sound)
        clear_by = speech_above_noise(sound.samples)
        words, truth = as_figures(heard.text.split()), as_figures(said[file.stem].split())
        there = partners(words, truth)
        for figure in doubting.figures(heard, second, clear_by):
            meant = truth[slice(*region_of(there, len(truth), figure.first, figure.last))]
            own = words[figure.first : figure.last]
            wrong = bare_figure(own) != bare_figure(meant)
            seen = f"{file.parent.name}: '{' '.join(own)}' was '{' '.join(meant)}'; others {figure.others}"
            yield Row(file.stem, "+" in file.parent.name, wrong, dict(figure.signs), seen)
        if number % 50 == 49:
            print(number + 1, "of", len(files[:limit]), file=sys.stderr, flush=True)


def fitted(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Weights, the constant first, for signs as they are."""
    scale = x.std(axis=0) + 1e-6
    z = np.c_[np.ones(len(x)), x / scale]
    weights, ridge = np.zeros(z.shape[1]), np.full(z.shape[1], RIDGE)
    ridge[0] = 0.01
    for _ in range(60):
        chance = 1 / (1 + np.exp(-np.clip(z @ weights, -30, 30)))
        slope = z.T @ (y - chance) - ridge * weights
        curve = (z.T * (chance * (1 - chance) + 1e-6)) @ z + np.diag(ridge)
        step = np.linalg.solve(curve, slope)
        weights += step
        if np.abs(step).max() < 1e-6:
            break
    return np.r_[weights[0], weights[1:] / scale]


def chances(weights: np.ndarray, x: np.ndarray) -> np.ndarray:
    return 1 / (1 + np.exp(-np.clip(weights[0] + x @ weights[1:], -30, 30)))


def unseen_chances(x: np.ndarray, y: np.ndarray, memos: list[str]) -> np.ndarray:
    """The chance of each figure by weights found without its memo."""
    part = np.array([zlib.crc32(memo.encode()) % PARTS for memo in memos])
    out = np.zeros(len(y))
    for one in range(PARTS):
        out[part == one] = chances(fitted(x[part != one], y[part != one]), x[part == one])
    return out


def trade_off(name: str, chance: np.ndarray, y: np.ndarray, noisy: np.ndarray) -> None:
    """Prints what share of figures is wrong and undoubted for some shares of right and doubted ones."""
    for kind, those in (("quiet", ~noisy), ("noise", noisy)):
        c, wrong = chance[those], y[those] == 1
        right = np.sort(c[~wrong])[::-1]
        shares = []
        for share in (0.02, 0.03, 0.05, 0.08, 0.12, 0.2):
            limit = right[min(len(right) - 1, int(share * len(c)))]
            shares.append(f"{100 * share:.0f}: {100 * ((c <= limit) & wrong).sum() / len(c):.1f} (at {limit:.3f})")
        print(f"{name:22} {kind} {len(c):4} figures, {100 * wrong.mean():4.1f} % wrong | " + ", ".join(shares))


def least_limit(doubted: Callable[[float], np.ndarray], wrong: np.ndarray, share: float) -> float:
    """The lowest limit at which at most this share of the figures is right and doubted."""
    for limit in np.arange(0.02, 1.0, 0.002):
        if (doubted(limit) & ~wrong).mean() <= share:
            return float(limit)
    return 1.0


def main() -> None:
    """Print the trade-off; write the weights if asked."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sounds", type=Path, nargs="+")
    parser.add_argument("--memos", type=Path, required=True)
    parser.add_argument("--keep", type=Path, required=True)
    parser.add_argument("--limit", type=int)
    parser.add_argument("--kept-only", action="store_true", help="only sounds that were heard before")
    parser.add_argument("--quiet", type=float, default=0.05)
    parser.add_argument("--noise", type=float, default=0.12)
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--show", action="store_true")
    given = parser.parse_args()
    lines = given.memos.read_text(encoding="utf-8").splitlines()
    said = {memo["id"]: spoken_text(memo["text"]) for memo in map(json.loads, lines)}
    found = list(rows(given.sounds, said, given.keep, given.limit, kept_only=given.kept_only))
    y, noisy = np.array([row.wrong for row in found], float), np.array([row.noisy for row in found])
    memos = [row.memo for row in found]
    names = list(found[0].signs)
    x = np.array([[row.signs[name] for name in names] for row in found])
    for name, column in zip(names, x.T, strict=True):
        a, b = column[y == 1], column[y == 0]
        area = (a[:, None] > b[None, :]).mean() + 0.5 * (a[:, None] == b[None, :]).mean()
        print(f"  {name:24} area under the curve {area:.2f}")
    alone = [at for at, name in enumerate(names) if not name.startswith("second")]
    trade_off("without second opinion", unseen_chances(x[:, alone], y, memos), y, noisy)
    chance = unseen_chances(x, y, memos)
    trade_off("all signs", chance, y, noisy)
    wrong = y == 1
    fair = np.array([not row.seen.startswith("espeak") for row in found])
    noise = np.array([row.signs["noise"] for row in found])
    quiet_limit = least_limit(lambda limit: chance[~noisy & fair] >= limit, wrong[~noisy & fair], given.quiet)
    noise_limit = least_limit(
        lambda limit: (chance >= quiet_limit + noise * (limit - quiet_limit))[noisy & fair],
        wrong[noisy & fair],
        given.noise,
    )
    doubted = chance >= quiet_limit + noise * (noise_limit - quiet_limit)
    for kind, those in (("quiet", ~noisy & fair), ("noise", noisy & fair)):
        undoubted, needless = wrong[those] & ~doubted[those], ~wrong[those] & doubted[those]
        print(
            f"{kind}: wrong and undoubted {100 * undoubted.mean():.1f} %, right and doubted {100 * needless.mean():.1f} %"
        )
    if given.show:
        for row, one in sorted(zip(found, chance, strict=True), key=lambda pair: pair[1]):
            if row.wrong:
                print(f"{one:.3f} {row.seen}")
    if given.write:
        write(doubting.WEIGHTS, names, fitted(x, y), quiet_limit, noise_limit)


def write(file: Path, names: list[str], weights: np.ndarray, quiet: float, noise: float) -> None:
    """The weights and limits, as data."""
    before = file.read_text(encoding="utf-8")
    lines = [
        "# By what a figure is doubted; written by tests/bench/speech/fit_doubts.py, read by doubting.py.",
        "# The chance that it is wrong is the logistic function of `always` and the weighed signs.",
        "",
        "[weights]",
        f"always = {weights[0]:.4f}",
        *(f"{name} = {weight:.4f}" for name, weight in zip(names, weights[1:], strict=True)),
        "",
        "[limits]",
        f"quiet = {quiet:.3f}",
        f"noise = {noise:.3f}",
        f"ordinary = {ORDINARY}",
        "",
    ]
    file.write_text("\n".join(lines) + "\n" + before[before.index("[mixed_up]") :], encoding="utf-8")


if __name__ == "__main__":
    main()
