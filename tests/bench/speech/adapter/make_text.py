"""Sentences to train the adapter with: two thirds of the trade, the rest plain (lower case, figures in words).

    python make_text.py OUT.jsonl [--n 5000] [--seed 1] [--exclude MEMOS.jsonl ...]

No sentence is made that equals one of the excluded memos, nor one that contains a mixed figure of theirs.
"""

from __future__ import annotations

import argparse
import json
import re
from pathlib import Path

from figure_sentences import FIGURES
from plain_sentences import PLAIN
from trade_sentences import (
    ONES,
    PRE,
    TENS,
    R,
    bare,
    cost,
    hrs,
    listm,
    measure,
    pick,
    reading,
    slope,
    stock,
    task,
    teens,
)

TRADE = [
    (measure, 30),
    (bare, 9),
    (listm, 10),
    (teens, 9),
    (slope, 3),
    (stock, 11),
    (cost, 6),
    (hrs, 5),
    (reading, 5),
    (task, 7),
]
PLAIN_SHARE = 0.3
FIGURE_SHARE = 0.4  # of what is not plain
_WHOLE = "|".join(ONES[1:] + TENS[1:])
_MIXED = re.compile(
    rf"\b(?:[a-z]+ )?(?:{_WHOLE}) and (?:a|an|{'|'.join(ONES[1:])}) (?:half|quarters?|eighths?|sixteenths?|thirty seconds?)\b"
)


def mixed_figures(text: str) -> set[str]:
    """The figures with a fraction in a text, tens and ones together: "forty two and three eighths"."""
    figures = set()
    for found in _MIXED.findall(text):
        first, rest = found.split(" ", 1)
        figures.add(found if first in {*TENS, "one", "hundred"} or len(found.split()) <= 4 else rest)
    return figures


def sentence() -> tuple[str, str]:
    """A kind ("plain" or one of the trade's) and a sentence of it."""
    if R.random() < PLAIN_SHARE:
        make = R.choices(*zip(*PLAIN, strict=True))[0]
        return "plain", make()
    make = R.choices(*zip(*(FIGURES if R.random() < FIGURE_SHARE else TRADE), strict=True))[0]
    text = make()
    if R.random() < 0.2:
        text = f"{pick(PRE)} {text}"
    if R.random() < 0.08:
        words = text.split()
        words.insert(R.randrange(len(words)), R.choice(["um", "uh", "um", "you know"]))
        text = " ".join(words)
    return make.__name__, text


def main() -> None:
    """Write a file of sentences."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("out", type=Path)
    parser.add_argument("--n", type=int, default=5000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--exclude", type=Path, nargs="*", default=[])
    given = parser.parse_args()
    R.seed(given.seed)
    kept_aside = [
        json.loads(line)["text"] for file in given.exclude for line in file.read_text(encoding="utf-8").splitlines()
    ]
    seen = set(kept_aside)
    banned = [re.compile(rf"(?<![a-z]){figure}(?![a-z])") for text in kept_aside for figure in mixed_figures(text)]
    rows: list[str] = []
    while len(rows) < given.n:
        kind, text = sentence()
        text = re.sub(r" +", " ", re.sub(r"[^a-z' ]", " ", text.lower())).replace(" '", "'").strip()
        if text in seen or not len(text) >= 3 or len(text.split()) > 26:
            continue
        if kind != "plain":
            if any(figure.search(text) for figure in banned):
                continue
            seen.add(text)
        rows.append(json.dumps({"id": len(rows), "kind": kind, "text": text}))
    given.out.write_text("\n".join(rows) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
