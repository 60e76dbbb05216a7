"""What the tests of extraction share: a memo read, told in one line a fact."""

from __future__ import annotations

import json
from collections import Counter
from datetime import datetime
from pathlib import Path
from typing import Any

from memos.score import FIGURES, compare, pair

from journal.extract import extract
from journal.interchange import fact_to_json
from journal.lengths import format_inches
from journal.records import NOTHING_KNOWN, Cost, Extraction, Fact, Hours, Known, Measure, Reading, Slope, Stock, Task

MEMOS = Path(__file__).parent.parent / "memos"
SAID_AT = datetime(2026, 8, 4, 10, 0)  # a Tuesday


def heard(text: str, known: Known = NOTHING_KNOWN) -> Extraction:
    """A memo said on Tuesday 4 August 2026."""
    return extract(text, SAID_AT, known)


def told(fact: Fact) -> str:
    """A fact in one line."""
    parts: list[object]
    if isinstance(fact, Measure):
        parts = [fact.place, fact.about, fact.dimension, fact.metric or format_inches(fact.ticks)]
        parts += [
            "about" if fact.approx else None,
            fact.shade,
            f"over {format_inches(fact.over_ticks)}" if fact.over_ticks else None,
        ]
    elif isinstance(fact, Slope):
        parts = [fact.place, fact.about, f"{fact.rise:g} in {fact.run:g}"]
    elif isinstance(fact, Task):
        parts = [
            fact.place,
            fact.do,
            fact.status,
            fact.due,
            f"after {fact.after}" if fact.after else None,
            f"before {fact.before}" if fact.before else None,
        ]
    elif isinstance(fact, Stock):
        length = format_inches(fact.length_ticks) if fact.length_ticks else None
        feet = f"{fact.board_feet:g} board feet" if fact.board_feet else None
        count = f"{fact.count:g}" if fact.count is not None else None
        parts = [
            fact.event,
            count,
            fact.section,
            fact.species,
            fact.what,
            length,
            feet,
            f"at {fact.place}" if fact.place else None,
        ]
    elif isinstance(fact, Reading):
        parts = [fact.place, fact.about, fact.quantity, f"{fact.value:g}{fact.unit}"]
    elif isinstance(fact, Hours):
        parts = [fact.place, f"{fact.hours:g} h", fact.activity, fact.on]
    else:
        assert isinstance(fact, Cost)
        parts = [fact.what, f"{fact.amount:g}", fact.per]
    return f"{fact.kind}: " + " · ".join(str(part) for part in parts if part is not None)


def facts(text: str, known: Known = NOTHING_KNOWN) -> list[str]:
    """Every fact of a memo, each in one line."""
    return [told(fact) for fact in heard(text, known).facts]


def rows(name: str) -> list[dict[str, Any]]:
    """The memos of a file beside the scorer."""
    return [json.loads(line) for line in (MEMOS / name).read_text(encoding="utf-8").splitlines() if line.strip()]


def said(row: dict[str, Any]) -> list[dict[str, Any]]:
    """The facts that the extractor makes of a memo with its gold, in the fact format."""
    known = Known(carried_place=row.get("carried_place"))
    return [fact_to_json(fact) for fact in extract(row["text"], datetime.fromisoformat(row["said_at"]), known).facts]


def score(memos: list[dict[str, Any]]) -> dict[str, float]:
    """Per cent of figures right and facts whole, and false facts, counted as memos/score.py does."""
    right: Counter[str] = Counter()
    gold_facts = false = exact = 0
    for row in memos:
        predicted, ok = said(row), True
        for kind in FIGURES:
            g = [fact for fact in row["facts"] if fact["kind"] == kind]
            p = [fact for fact in predicted if fact["kind"] == kind]
            pairs = pair(g, p)
            results = [compare(g[i], p[j]) for i, j in pairs]
            gold_facts += len(g)
            false += len(p) - sum(r["nothing_wrong"] for r in results)
            right.update({"numbers": sum(r["numbers"] for r in results), "whole": sum(r["whole"] for r in results)})
            ok &= len(g) == len(p) == sum(r["whole"] for r in results)
        exact += ok
    return {
        "numbers": 100 * right["numbers"] / gold_facts, "whole": 100 * right["whole"] / gold_facts,
        "false": false, "exact": 100 * exact / len(memos), "memos": len(memos),
    }  # fmt: skip
