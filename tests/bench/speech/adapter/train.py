"""Trains low-rank adapters for encoder and decoder together, on make_sound.py's sound, spoiled anew at every pass.

    python train.py SOUND DEV OUT.npz --minutes 60 [--model base] [--start base.npz] [--rank 16] [--hold 2] [--every 10]

Of the tiny model the decoder alone is trained; its encoder stays as it is shipped.

Trade sentences are learnt in words (cross entropy; the journal's engine writes no digits). On plain sentences the adapted model
is held to what the plain one thinks of the same sound before it was spoiled, and on nothing to what it thinks of that sound
(Kullback-Leibler divergence over all pieces, times --hold; clean plain sentences weigh twice). Every --every minutes the adapter
is written beside OUT with its minute in the name, to choose from.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import time
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import torch
import torch.nn.functional as F  # noqa: N812 - torch's own way to name it
from shipped_encoder import ShippedEncoder
from spoil import PLAIN_CLEAN, RATE, TRADE_CLEAN, level, noise_of, spoiled, varied
from torch import Tensor
from torch_decoder import SETS, Decoder, without_adapters
from torch_encoder import Encoder

from journal.speech.model_cache import PARTS, shipped_model
from journal.speech.ort_graph import onnx_from_ort
from journal.speech.tokens import END, START, Tokens

Row = dict[str, Any]
Ears = Encoder | ShippedEncoder
HELD = ("plain", "nothing")
WARM_UP_STEPS = 15
NOTHING_EVERY = 24
"""One stretch of nothing among so many sounds."""
LONGEST = 12 * RATE


class Heard(NamedTuple):
    """A sound made ready."""

    row: Row
    front: Tensor
    teacher: Tensor | None
    """What the plain model thinks at each place, for a held row."""
    weight: float


def read(folder: Path) -> list[Row]:
    """The clean sounds of make_sound.py."""
    rows = []
    for file in sorted(folder.glob("part*.npz")):
        with np.load(file) as packed:
            samples, at = packed["x"], 0
            for row in json.loads(str(packed["rows"])):
                rows.append({**row, "x": samples[at : at + row["n"]]})
                at += row["n"]
    return [row for row in rows if row["n"] <= LONGEST]


def pieces_of(row: Row, tokens: Tokens) -> list[int]:
    """What is to be written, in words, as a sentence."""
    text = row["text"]
    found = tokens.numbers(text[:1].upper() + text[1:] + ".") if text else []
    if found is None:
        raise ValueError(f"the model has no pieces for {text!r}")
    return found


def plain_opinion(encoder: Ears, decoder: Decoder, front: Tensor, pieces: list[int]) -> Tensor:
    """The plain model's log probabilities at each place of the pieces and after them, as float16."""
    with without_adapters():
        return decoder.scores(decoder(torch.tensor([[START, *pieces]]), *encoder([front]))[0]).log_softmax(-1).half()


def made_ready(
    row: Row, encoder: Ears, decoder: Decoder, others: list[np.ndarray], chance: random.Random, *, clean: bool
) -> Heard:
    """The sound of a row, spoiled or not, through what is never adapted. What the plain model thinks is kept in the row."""
    loud = chance.uniform(0.4, 0.6)
    sound = varied(row["x"], chance)
    front = encoder.front(level(sound if clean else spoiled(sound, others, chance), loud))
    if row["kind"] not in HELD:
        return Heard(row, front, None, 1.0)
    if "teacher" not in row:
        unspoiled = encoder.front(level(row["x"].astype(np.float32)))
        row["teacher"] = plain_opinion(encoder, decoder, unspoiled, row["pieces"])
    return Heard(row, front, row["teacher"], 2.0 if clean else 1.0)


def nothing(encoder: Ears, decoder: Decoder, chance: random.Random) -> Heard:
    """A stretch without speech; the plain model judges it as it is."""
    size = int(chance.uniform(1, 6) * RATE)
    numbers = np.random.default_rng(chance.randrange(2**31))
    x = numbers.normal(size=size) if chance.random() < 0.2 else noise_of(size, [], chance)
    front = encoder.front(level(x.astype(np.float32), 10 ** chance.uniform(-2.5, -0.2)))
    return Heard({"kind": "nothing", "pieces": []}, front, plain_opinion(encoder, decoder, front, []), 1.0)


def losses(encoder: Ears, decoder: Decoder, batch: list[Heard]) -> tuple[Tensor, Tensor, Tensor]:
    """Cross entropy of each piece of the learnt rows; divergence at each place of the held rows, and its weight."""
    longest = 1 + max(len(one.row["pieces"]) for one in batch)
    pieces = torch.full((len(batch), longest), END)
    goals = torch.full((len(batch), longest), -100)
    for at, one in enumerate(batch):
        numbers = one.row["pieces"]
        pieces[at, : len(numbers) + 1] = torch.tensor([START, *numbers])
        goals[at, : len(numbers) + 1] = torch.tensor([*numbers, END])
    states = decoder(pieces, *encoder([one.front for one in batch]))
    rows = torch.tensor([one.teacher is not None for one in batch])
    learnt = (goals >= 0) & ~rows[:, None]
    entropy = F.cross_entropy(decoder.scores(states[learnt]), goals[learnt], reduction="none")
    divergence = weights = torch.zeros(0)
    if rows.any():
        held = (goals >= 0) & rows[:, None]
        teacher = torch.cat([one.teacher for one in batch if one.teacher is not None]).float()
        adapted = decoder.scores(states[held]).log_softmax(-1)
        divergence = F.kl_div(adapted, teacher, reduction="none", log_target=True).sum(-1)
        weights = torch.tensor([one.weight for one in batch])[:, None].expand(held.shape)[held]
    return entropy, divergence, weights


class Gradients(NamedTuple):
    """Of the summed loss of one batch, by what is trained; and its sums: learnt, places, held, places."""

    found: tuple[Tensor, ...]
    counts: tuple[float, float, float, float]


def gradients(
    encoder: Ears,
    decoder: Decoder,
    trained: list[Tensor],
    voices: list[np.ndarray],
    hold: float,
    rows: list[Row],
    seed: float,
) -> Gradients:
    """One batch, spoiled by chance, forward and back."""
    chance, batch = random.Random(seed), []
    for row in rows:
        clean = chance.random() < (PLAIN_CLEAN if row["kind"] in HELD else TRADE_CLEAN)
        batch.append(made_ready(row, encoder, decoder, voices, chance, clean=clean))
        if chance.random() < 1 / NOTHING_EVERY:
            batch.append(nothing(encoder, decoder, chance))
    entropy, divergence, weights = losses(encoder, decoder, batch)
    loss = entropy.sum() + hold * (divergence * weights).sum()
    counts = entropy.sum().item(), len(entropy), divergence.sum().item(), len(divergence)
    return Gradients(torch.autograd.grad(loss, trained), counts)


def judged(encoder: Ears, decoder: Decoder, dev: dict[str, list[Heard]]) -> str:
    """Mean loss of each group of sounds kept to judge by."""
    told = []
    with torch.no_grad():
        for name, sounds in dev.items():
            total, count = 0.0, 0
            for at in range(0, len(sounds), 16):
                entropy, divergence, _ = losses(encoder, decoder, sounds[at : at + 16])
                total += float(entropy.sum() + divergence.sum())
                count += len(entropy) + len(divergence)
            told.append(f"{name} {total / max(count, 1):.4f}")
    return " ".join(told)


def dev_sounds(folder: Path, encoder: Ears, decoder: Decoder, tokens: Tokens) -> dict[str, list[Heard]]:
    """Sounds to judge by, spoiled always alike, by length."""
    chance, groups = random.Random(99), {"clean": [], "spoiled": [], "plain clean": [], "plain spoiled": []}
    rows = [{**row, "pieces": pieces_of(row, tokens)} for row in read(folder)]
    others = [row["x"].astype(np.float32) for row in rows]
    for row in sorted(rows, key=lambda row: row["n"]):
        for clean in (True, False):
            name = ("plain " if row["kind"] in HELD else "") + ("clean" if clean else "spoiled")
            groups[name].append(made_ready(row, encoder, decoder, others, chance, clean=clean))
    return groups


def batches(rows: list[Row], seconds: float, chance: random.Random) -> list[list[Row]]:
    """Neighbours in length, about so many seconds together, in random order."""
    ordered = sorted(rows, key=lambda row: row["n"] * (1 + chance.uniform(-0.08, 0.08)))
    out: list[list[Row]] = [[]]
    for row in ordered:
        if out[-1] and (row["n"] + 0.6 * RATE) * (len(out[-1]) + 1) > seconds * RATE:
            out.append([])
        out[-1].append(row)
    chance.shuffle(out)
    return out


def main() -> None:
    """Train one adapter."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sound", type=Path)
    parser.add_argument("dev", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--model", choices=["base", "tiny"], default="base")
    parser.add_argument("--rank", type=int, default=16, help="of the encoder's; the decoder's is that of --start, or 8")
    parser.add_argument("--hold", type=float, default=2.0)
    parser.add_argument("--trade", type=float, default=1.0, help="what share of the trade's sounds a pass takes")
    parser.add_argument("--decay", type=float, default=0.05)
    parser.add_argument("--lr", type=float, default=6e-4, help="of the encoder's; the decoder's is half")
    parser.add_argument("--minutes", type=float, default=60.0)
    parser.add_argument("--every", type=float, default=10.0)
    parser.add_argument("--seconds", type=float, default=40.0, help="of sound a batch; a step has one for each thread")
    parser.add_argument("--threads", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--start", type=Path, help="an adapter to go on from; what it lacks starts from nothing")
    given = parser.parse_args()
    torch.set_num_threads(1)  # a thread works on sounds of its own
    torch.manual_seed(given.seed)
    chance = random.Random(given.seed)
    model = shipped_model(given.model)
    tokens = Tokens.load(model.tokens)
    hearing, writing = (onnx_from_ort(model.folder / f"{part}.ort") for part in PARTS)
    encoder: Ears = ShippedEncoder(hearing) if model.kind == "tiny" else Encoder(hearing.graph)
    decoder = Decoder(writing.graph)
    dev = dev_sounds(given.dev, encoder, decoder, tokens)
    ears, pen = encoder.adapt(given.rank), decoder.adapt(8, SETS["all"])
    if given.start is not None:
        decoder.load_adapters(given.start)
        with np.load(given.start) as packed:
            encoder.load_adapters(packed)
    optimizer = torch.optim.AdamW(
        [{"params": ears, "share": 1.0}, {"params": pen, "share": 0.5}],
        lr=given.lr,
        betas=(0.9, 0.98),
        weight_decay=given.decay,
    )
    print(f"{sum(p.numel() for p in ears + pen)} numbers to train", flush=True)
    started, step, passes, written = time.monotonic(), 0, 0, 0
    sums = np.zeros(4)
    trained, pool = ears + pen, ThreadPoolExecutor(given.threads)
    rows: list[Row] = []

    def spent() -> float:
        return time.monotonic() - started

    def keep() -> None:
        minute = round(spent() / 60)
        np.savez(given.out.with_name(f"{given.out.stem}_{minute}.npz"), **decoder.adapters(), **encoder.adapters())
        print(f"minute {minute} step {step} pass {passes}", judged(encoder, decoder, dev), flush=True)

    while spent() < given.minutes * 60:
        fresh = read(given.sound)  # sounds may still be made meanwhile
        if len(fresh) > len(rows):
            known = {(row["id"], row["n"]): row for row in rows}
            rows = [known.get((row["id"], row["n"])) or {**row, "pieces": pieces_of(row, tokens)} for row in fresh]
            print(f"minute {spent() / 60:.0f} step {step}: {len(rows)} sounds", flush=True)
        voices = [row["x"].astype(np.float32) for row in chance.sample(rows, min(80, len(rows)))]
        work = partial(gradients, encoder, decoder, trained, voices, given.hold)
        passes += 1
        ready = batches([r for r in rows if r["kind"] in HELD or chance.random() < given.trade], given.seconds, chance)
        for at in range(0, len(ready), given.threads):
            part = min(1.0, spent() / (given.minutes * 60))
            rate = given.lr * min(1.0, (step + 1) / WARM_UP_STEPS) * max(0.02, 0.5 + 0.5 * math.cos(math.pi * part))
            for group in optimizer.param_groups:
                group["lr"] = rate * group["share"]
            together = ready[at : at + given.threads]
            done = list(pool.map(work, together, [chance.random() for _ in together]))
            places = sum(one.counts[1] + one.counts[3] for one in done)
            for parameter, *found in zip(trained, *(one.found for one in done), strict=True):
                parameter.grad = torch.stack(found).sum(0) / places
            torch.nn.utils.clip_grad_norm_(trained, 1.0)
            optimizer.step()
            step += 1
            sums += np.sum([one.counts for one in done], axis=0)
            if step % 10 == 0:
                means = sums[0] / max(sums[1], 1), sums[2] / max(sums[3], 1)
                print(f"  step {step} {spent():.0f} s learnt {means[0]:.4f} held {means[1]:.4f}", flush=True)
                sums[:] = 0
            if spent() > 60 * given.every * (written + 1) or spent() > given.minutes * 60:
                written += 1
                keep()
            if spent() > given.minutes * 60:
                break


if __name__ == "__main__":
    main()
