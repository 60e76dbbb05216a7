"""Compares adapters quickly: everything encoded once, then written by each adapted decoder, the likeliest piece at a time.

    python choose.py WORK --memos MEMOS.jsonl [ADAPTER.npz ...] [--strength 1.0]

The sets are measure.py's, fewer of each; an adapter is taken by the sets to choose by, never by those to report.
"""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

import numpy as np
import torch
from make_sound import Encoder, Parts
from measure import report, sets
from torch_decoder import Decoder
from train import batches, read, sounds

from journal.speech.model_cache import rebuilt, shipped_model
from journal.speech.spoken_form import spoken_words
from journal.speech.tokens import END, START, Tokens

FRAMES = 7200


def encoded(work: Path, memo_file: Path, kind: str) -> list[dict[str, Any]]:
    """Encoder states of all sets, kept in WORK."""
    folder = work / f"encoded_{kind}"
    if not folder.is_dir():
        encode, kept = Encoder(kind), Parts(folder, "s")
        for group, name, samples, text in sets("all", work, memo_file, fewer=True):
            even = samples / max(float(np.percentile(np.abs(samples), 99.9)), 1e-6) * 0.5
            states = encode(np.clip(even, -1, 1).astype(np.float32))
            kept.add(states, set=group, name=name, said=text)
        kept.flush()
    return read(folder)


def main() -> None:
    """Print the table of the plain model and of each adapter."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("work", type=Path)
    parser.add_argument("adapters", type=Path, nargs="*")
    parser.add_argument("--memos", type=Path, required=True)
    parser.add_argument("--strength", type=float, default=1.0)
    parser.add_argument("--kind", default="base")
    parser.add_argument("--only", default="", help="sets whose name has this in it")
    parser.add_argument("--show", action="store_true")
    given = parser.parse_args()
    torch.set_num_threads(1)
    given.work.mkdir(parents=True, exist_ok=True)
    model = shipped_model(given.kind)
    tokens = Tokens.load(model.tokens)
    rows = [row for row in encoded(given.work, given.memos, given.kind) if given.only in row["set"]]
    plain_file = given.work / f"greedy_{given.kind}_plain.json"
    for adapter in given.adapters or [None]:
        decoder = Decoder(rebuilt(model)["decoder_model_merged"])
        if adapter:
            decoder.fold(adapter, given.strength)
        heard = {}
        for together in batches(rows, FRAMES):
            written = decoder.write(*sounds(together), START, END)
            for row, pieces in zip(together, written, strict=True):
                text = " ".join(s.word for s in spoken_words([word for word, _ in tokens.words(pieces)]))
                heard[row["name"]] = {"set": row["set"], "said": row["said"], "heard": text}
        heard = {row["name"]: heard[row["name"]] for row in rows}
        key = f"{adapter.stem} x{given.strength}" if adapter else "plain"
        if not adapter:
            plain_file.write_text(json.dumps(heard, indent=1), encoding="utf-8")
        report(heard, plain_file, key, show=given.show)


if __name__ == "__main__":
    main()
