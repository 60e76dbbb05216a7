"""What was written down, said back: what the journal says is read by its own extractor to the same facts."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from functools import partial
from pathlib import Path

import pytest

from journal.extract import extract
from journal.readback import read_back, told_together
from journal.records import Fact, Known, said
from journal.refigured import changes

MEMOS = Path(__file__).parent / "memos"
MORNING = datetime(2026, 7, 13, 7, 40)


def _facts() -> Iterator[tuple[list[Fact], datetime]]:
    """Every fact of every memo, the figures of a size together."""
    for path in sorted(MEMOS.glob("*.jsonl")):
        for line in path.read_text(encoding="utf-8").splitlines():
            row = json.loads(line)
            said_at = datetime.fromisoformat(row["said_at"])
            left = list(extract(row["text"], said_at, Known(carried_place=row.get("carried_place"))).facts)
            while left:
                together = left[: told_together(left)]
                del left[: len(together)]
                yield together, said_at


def _read(said_at: datetime, sentence: str) -> tuple[Fact, ...]:
    return extract(sentence, said_at).facts


def test_what_is_said_back_is_read_to_the_same_fact() -> None:
    """Over all memos, every kind: 98 facts in 100 are read back whole, and no figure of the rest becomes another unseen."""
    whole: Counter[str] = Counter()
    total: Counter[str] = Counter()
    other_figures = []
    for together, said_at in _facts():
        sentence = read_back(together, said_at.date(), partial(_read, said_at))[0]
        read = _read(said_at, sentence)
        kind = together[0].kind
        total[kind] += 1
        if [said(fact) for fact in read] == [said(fact) for fact in together]:
            whole[kind] += 1
        elif len(read) == len(together) and all(map(_other_figure_only, together, read)):
            other_figures.append(sentence)
    assert other_figures == []
    assert sum(total.values()) > 1000
    assert sum(whole.values()) >= 0.98 * sum(total.values()), (whole, total)
    for kind, count in total.items():
        assert whole[kind] >= 0.94 * count, kind


def _other_figure_only(fact: Fact, read: Fact) -> bool:
    """Whether the sentence says another figure of the very same thing."""
    names = {"ticks", "rise", "count", "value", "hours", "amount", "approx", "length_ticks"}
    return fact.kind == read.kind and bool(changes(fact, read)) and changes(fact, read) <= names


@pytest.mark.parametrize(
    ("memo", "sentences"),
    [
        ("lake gable centre board long point fifty six and seven eighths", ["lake gable, centre board, long point, fifty six and seven eighths"]),
        ("wall a window is thirty and a half by forty two and a quarter", ["wall a, window, thirty and a half by forty two and a quarter"]),
        ("wall a length about twenty foot height eight foot two", ["wall a, length, about twenty foot even", "wall a, height, ninety eight"]),
        ("sill on wall c is a strong three eighths out of level", ["wall c, sill, out of level, strong three eighths"]),
        ("main roof is an eight twelve", ["main roof, slope eight in twelve"]),
        ("flash the window head on the lake gable by friday", ["lake gable, flash the window head, by friday"]),
        ("flashed the window head on the lake gable", ["lake gable, flashed the window head"]),
        ("received forty one by eight white pine boards twelve foot long", ["received forty one by eight white pine boards, at twelve foot even"]),
        ("need two rolls of felt", ["need two rolls of felt"]),
        ("moisture in the loft floor is fourteen percent", ["loft floor, moisture fourteen percent"]),
        ("five and a half hours boarding the lake gable", ["lake gable, five and a half hours boarding"]),
        ("pine was two eighty five a foot", ["pine two dollars and eighty five cents a foot"]),
        ("nothing much today", []),
    ],
)  # fmt: skip
def test_every_kind_has_its_sentence(memo: str, sentences: list[str]) -> None:
    """A measure, size, slope, task, stock, reading, hours and cost, each as it is said back."""
    facts = extract(memo, MORNING).facts
    assert read_back(facts, MORNING.date(), partial(_read, MORNING)) == sentences
