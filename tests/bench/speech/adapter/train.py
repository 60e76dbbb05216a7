"""Trains low-rank adapters for the decoder on the encoded sounds of make_sound.py.

    python train.py SOUND DEV OUT.npz [--rank 8] [--parts all|attention|cross] [--hold 1.0] [--minutes 8] [--lr 5e-4]

Trade sentences are learnt (cross entropy on targets.py's pieces); on plain sentences and on nothing the adapted model is
held to the plain one (Kullback-Leibler divergence over all pieces, times --hold). Every --every steps the adapter is
written beside OUT with its step in the name, for measure.py to choose from.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import time
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import torch
import torch.nn.functional as F  # noqa: N812 - torch's own way to name it
from targets import target
from torch import Tensor
from torch_decoder import SETS, Decoder, without_adapters

from journal.speech.model_cache import rebuilt, shipped_model
from journal.speech.tokens import END, START, Tokens

Row = dict[str, Any]
HELD = ("plain", "nothing")
WARM_UP_STEPS = 40


class Batch(NamedTuple):
    """Rows side by side, padded."""

    sound: Tensor
    heard: Tensor
    pieces: Tensor
    goals: Tensor
    """The next piece at each place; -100 where there is none."""
    held: Tensor
    """True for the rows on which the plain model is the teacher."""


def read(folder: Path) -> list[Row]:
    """The sounds of make_sound.py."""
    rows = []
    for file in sorted(folder.glob("part*.npz")):
        with np.load(file) as packed:
            states, at = packed["h"], 0
            for row in json.loads(str(packed["rows"])):
                rows.append({**row, "h": states[at : at + row["n"]]})
                at += row["n"]
    return rows


def batches(rows: list[Row], frames: int, chance: random.Random | None = None) -> list[list[Row]]:
    """Neighbours in length, about this many encoder frames together; in random order where a chance is given."""
    ordered = sorted(rows, key=lambda row: row["n"] * (1 + chance.uniform(-0.06, 0.06)) if chance else row["n"])
    out: list[list[Row]] = [[]]
    for row in ordered:
        if out[-1] and row["n"] * (len(out[-1]) + 1) > frames:
            out.append([])
        out[-1].append(row)
    if chance:
        chance.shuffle(out)
    return out


def sounds(rows: list[Row]) -> tuple[Tensor, Tensor]:
    """Encoder states side by side and where they are no padding."""
    longest = max(row["n"] for row in rows)
    sound = torch.zeros(len(rows), longest, rows[0]["h"].shape[1])
    heard = torch.zeros(len(rows), longest, dtype=torch.bool)
    for at, row in enumerate(rows):
        sound[at, : row["n"]] = torch.from_numpy(row["h"].astype(np.float32))
        heard[at, : row["n"]] = True
    return sound, heard


def batch_of(rows: list[Row]) -> Batch:
    """The rows as tensors."""
    longest = 1 + max(len(row["pieces"]) for row in rows)
    pieces = torch.full((len(rows), longest), END)
    goals = torch.full((len(rows), longest), -100)
    for at, row in enumerate(rows):
        size = len(row["pieces"]) + 1
        pieces[at, :size] = torch.tensor([START, *row["pieces"]])
        goals[at, :size] = torch.tensor([*row["pieces"], END])
    return Batch(*sounds(rows), pieces, goals, torch.tensor([row["kind"] in HELD for row in rows]))


def add_targets(rows: list[Row], decoder: Decoder, tokens: Tokens, frames: int, kept: Path) -> None:
    """Gives each row its pieces, from what the plain model writes for the clean sound of its sentence (kept in a file)."""
    written: dict[int, list[int]] = {}
    if kept.is_file():
        written = {int(number): pieces for number, pieces in json.loads(kept.read_text()).items()}
    clean = [row for row in rows if row["how"] == "clean" and row["id"] not in written]
    for rows_together in batches(clean, 2 * frames) if clean else []:
        found = decoder.write(*sounds(rows_together), START, END)
        written.update((row["id"], pieces) for row, pieces in zip(rows_together, found, strict=True))
    kept.write_text(json.dumps(written), encoding="utf-8")
    for row in rows:
        plain = written.get(row["id"], [])
        row["pieces"] = plain if row["kind"] in HELD else target(plain, row["text"], tokens)[0]


def losses(decoder: Decoder, batch: Batch) -> tuple[Tensor, Tensor]:
    """Cross entropy of each piece of the trade rows and divergence at each place of the held rows."""
    places = batch.goals >= 0
    states = decoder(batch.pieces, batch.sound, batch.heard)
    held = places & batch.held[:, None]
    learnt = places & ~batch.held[:, None]
    entropy = F.cross_entropy(decoder.scores(states[learnt]), batch.goals[learnt], reduction="none")
    divergence = torch.zeros(0)
    if held.any():
        rows = batch.held
        with without_adapters():
            teacher = decoder(batch.pieces[rows], batch.sound[rows], batch.heard[rows])
            plain = decoder.scores(teacher[places[rows]]).log_softmax(-1)
        adapted = decoder.scores(states[held]).log_softmax(-1)
        divergence = F.kl_div(adapted, plain, reduction="none", log_target=True).sum(-1)
    return entropy, divergence


def judged(decoder: Decoder, rows: list[Row], frames: int) -> str:
    """Mean loss of the trade rows, clean and spoiled, and mean divergence of the held ones."""
    decoder.eval()
    sums = {name: [0.0, 0] for name in ("clean", "spoiled", "held")}
    with torch.no_grad():
        for name, wanted in (
            ("clean", [r for r in rows if r["kind"] not in HELD and r["how"] == "clean"]),
            ("spoiled", [r for r in rows if r["kind"] not in HELD and r["how"] != "clean"]),
            ("held", [r for r in rows if r["kind"] in HELD]),
        ):
            for together in batches(wanted, 2 * frames) if wanted else []:
                entropy, divergence = losses(decoder, batch_of(together))
                values = divergence if name == "held" else entropy
                sums[name][0] += values.sum().item()
                sums[name][1] += len(values)
    decoder.train()
    return " ".join(f"{name} {total / max(count, 1):.4f}" for name, (total, count) in sums.items())


def main() -> None:
    """Train one adapter."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sound", type=Path)
    parser.add_argument("dev", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--kind", default="base", choices=["base", "tiny"])
    parser.add_argument("--rank", type=int, default=8)
    parser.add_argument("--parts", default="all", choices=list(SETS))
    parser.add_argument("--hold", type=float, default=1.0)
    parser.add_argument("--decay", type=float, default=0.05)
    parser.add_argument("--lr", type=float, default=5e-4)
    parser.add_argument("--steps", type=int, default=400)
    parser.add_argument("--every", type=int, default=100)
    parser.add_argument("--frames", type=int, default=3600, help="encoder frames a batch")
    parser.add_argument("--threads", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--start", type=Path, help="an adapter of the same rank and parts to go on from")
    given = parser.parse_args()
    torch.set_num_threads(given.threads)
    torch.manual_seed(given.seed)
    chance = random.Random(given.seed)
    model = shipped_model(given.kind)
    tokens = Tokens.load(model.tokens)
    decoder = Decoder(rebuilt(model)["decoder_model_merged"])
    rows, dev = read(given.sound), read(given.dev)
    for several, folder in ((rows, given.sound), (dev, given.dev)):
        add_targets(several, decoder, tokens, given.frames, folder / "written.json")
    trained = decoder.adapt(given.rank, SETS[given.parts])
    if given.start is not None:
        decoder.load_adapters(given.start)
    numbers = sum(p.numel() for p in trained)
    print(f"{len(rows)} sounds, {len(dev)} to judge by, {numbers} numbers to train", flush=True)
    optimizer = torch.optim.AdamW(trained, lr=given.lr, betas=(0.9, 0.98), weight_decay=given.decay)
    print("step 0", judged(decoder, dev, given.frames), flush=True)
    step, started = 0, time.monotonic()
    while step < given.steps:
        if step and len(fresh := read(given.sound)) > len(rows):  # sounds may still be made meanwhile
            rows = fresh
            add_targets(rows, decoder, tokens, given.frames, given.sound / "written.json")
            print(f"step {step}: {len(rows)} sounds", flush=True)
        for together in batches(rows, given.frames, chance):
            warm = min(1.0, (step + 1) / WARM_UP_STEPS)
            falling = max(0.03, 0.5 + 0.5 * math.cos(math.pi * step / given.steps))
            for group in optimizer.param_groups:
                group["lr"] = given.lr * warm * falling
            entropy, divergence = losses(decoder, batch_of(together))
            places = len(entropy) + len(divergence)
            loss = (entropy.sum() + given.hold * divergence.sum()) / places
            optimizer.zero_grad(set_to_none=True)
            loss.backward()
            torch.nn.utils.clip_grad_norm_(trained, 1.0)
            optimizer.step()
            step += 1
            if step % given.every == 0 or step == given.steps:
                file = given.out.with_name(f"{given.out.stem}_{step}.npz")
                np.savez(file, **decoder.adapters())
                spent = time.monotonic() - started
                print(f"step {step} {spent:.0f} s", judged(decoder, dev, given.frames), flush=True)
            if step == given.steps:
                break


if __name__ == "__main__":
    main()
