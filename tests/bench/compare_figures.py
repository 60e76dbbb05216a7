"""How many spoken figures two general libraries read, beside ours: `python tests/bench/compare_figures.py MEMOS.jsonl…`.

Each length in inches among the facts of a memo counts as read where the library finds that length anywhere in the memo: a kind
count, for it asks neither for the thing nor for the dimension, and takes a bare number for inches. Sources: text2num 3
(`alpha2digit`, whose numbers are then added up where feet or a fraction stand beside them in digits) and quantulum3 0.9 (`parse`).
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from datetime import datetime
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from journal.extract import extract
from journal.lengths import inches
from journal.records import Measure

INCHES_IN = {"inch": 1, "foot": 12, "yard": 36}
_FEET = re.compile(r"(\d+(?:\.\d+)?) (?:foot|feet)(?: (?:and )?(\d+(?:\.\d+)?))?(?: inch(?:es)?)?")


def read_by_us(text: str) -> set[Fraction]:
    """Lengths in inches that the journal reads in a memo."""
    facts = extract(text, datetime(2026, 5, 11, 10)).facts
    return {inches(fact.ticks) for fact in facts if isinstance(fact, Measure) and fact.ticks is not None}


def read_by_text2num(text: str) -> set[Fraction]:
    """Numbers that text2num writes as digits, bare ones as inches, feet with what follows them as feet and inches."""
    from text_to_num import alpha2digit

    digits = alpha2digit(text, "en")
    feet = {12 * Fraction(said[1]) + Fraction(said[2] or 0) for said in _FEET.finditer(digits)}
    return feet | {Fraction(number) for number in re.findall(r"\d+(?:\.\d+)?", digits)}


def read_by_quantulum3(text: str) -> set[Fraction]:
    """Quantities that quantulum3 finds, bare ones as inches, feet followed at once by inches added up."""
    from quantulum3 import parser

    found = parser.parse(text)
    lengths = [
        (Fraction(quantity.value).limit_denominator(64) * INCHES_IN.get(quantity.unit.name, 1), quantity)
        for quantity in found
        if quantity.unit.name in INCHES_IN or quantity.unit.name == "dimensionless"
    ]
    sums = {
        one + two
        for (one, feet), (two, inches) in pairwise(lengths)
        if feet.unit.name == "foot" and 0 <= inches.span[0] - feet.span[1] <= len(" and ")
    }
    return sums | {length for length, _ in lengths}


READERS: dict[str, Callable[[str], set[Fraction]]] = {
    "journal": read_by_us,
    "text2num": read_by_text2num,
    "quantulum3": read_by_quantulum3,
}


def compared(paths: list[Path]) -> dict[str, tuple[int, int]]:
    """For each reader: how many lengths of the memos' facts it found, of how many."""
    memos = [json.loads(line) for path in paths for line in path.read_text(encoding="utf-8").splitlines()]
    right = dict.fromkeys(READERS, 0)
    total = 0
    for memo in memos:
        said = {_inches(fact["inches"]) for fact in memo["facts"] if "inches" in fact}
        total += len(said)
        for name, reader in READERS.items():
            right[name] += len(said & reader(memo["text"])) if said else 0
    return {name: (count, total) for name, count in right.items()}


def _inches(written: str) -> Fraction:
    return sum((Fraction(part) for part in written.split()), Fraction(0))


if __name__ == "__main__":
    for name, (count, total) in compared([Path(path) for path in sys.argv[1:]]).items():
        print(f"{name:12} {count:4} of {total} lengths, {100 * count / total:.1f} %")
