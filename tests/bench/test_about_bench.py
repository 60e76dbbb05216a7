"""How long the quantities of one place take in a small and in a very large job, and after a correction.

Run with `pytest tests/bench/test_about_bench.py --benchmark-enable --benchmark-only`. The place has the same 50 facts in either
job; the rest is invented. Wanted: a job of 100,000 memos within 1.5 times of one of 1,000, a correction under 20 ms.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from typing import Any

import pytest

from journal.quantities.base import Book, answers, concerned
from journal.records import Fact, Filed, Hours, Measure, Slope, Stock

PLACE = "lake gable"
START = datetime(2024, 1, 8, 7, 30)
INCH = 8128


def place_facts() -> list[Fact]:
    """The 50 facts of the place: enough for every quantity of a gable and its cut list."""
    facts: list[Fact] = [
        Measure(place=PLACE, dimension="base width", ticks=192 * INCH),
        Slope(place=PLACE, rise=8),
        Measure(place=PLACE, about="window", dimension="rough opening width", ticks=24 * INCH),
        Measure(place=PLACE, about="window", dimension="rough opening height", ticks=30 * INCH),
        Measure(place=PLACE, about="plate to window sill", dimension="offset", ticks=14 * INCH),
        Measure(place=PLACE, about="corner to window", dimension="centre", ticks=96 * INCH),
        Measure(place=PLACE, about="board", dimension="width", ticks=6 * INCH + INCH * 7 // 8),
        Measure(place=PLACE, dimension="overhang", ticks=12 * INCH),
        Measure(place=PLACE, about="studs", dimension="spacing", ticks=16 * INCH),
    ]
    facts += [
        Measure(place=PLACE, about=f"stud bay {n}", dimension="width", ticks=14 * INCH + n * 127) for n in range(20)
    ]
    facts += [Stock(place=PLACE, event="used", count=4, what="board", section="1x8", species="pine") for _ in range(10)]
    facts += [Hours(place=PLACE, hours=2.5 + n / 4, activity="boarding") for n in range(11)]
    assert len(facts) == 50
    return facts


@cache
def job(memos: int) -> tuple[Filed[Fact], ...]:
    """A job of so many memos, the place's own spread over all of them; the others measure 400 other places."""
    chance = random.Random(7)
    own = place_facts()
    spread = set(range(0, memos, memos // 50)[:50])
    facts: list[Filed[Fact]] = []
    for memo in range(memos):
        at = START + timedelta(minutes=5 * memo)
        fact = own.pop(0) if memo in spread and own else Measure(
            place=f"wall {chance.randrange(400)}", about=f"log {chance.randrange(12)}", dimension="diameter",
            ticks=chance.randrange(8 * INCH, 14 * INCH),
        )  # fmt: skip
        facts.append(Filed(uuid=str(memo), fact=fact, memo=memo + 1, number=1, said_at=at, made_at=at))
    return tuple(facts)


def loaded(memos: int) -> tuple[Filed[Fact], ...]:
    """What the session loads for the place: its facts, those of the places it is checked against, and those of no place."""
    wanted = concerned(PLACE, {filed.fact.place for filed in job(memos) if filed.fact.place})
    return tuple(filed for filed in job(memos) if filed.fact.place in wanted or filed.fact.place is None)


@pytest.mark.benchmark(group="about: only what the place needs is loaded")
@pytest.mark.parametrize("memos", [1_000, 100_000])
def test_about_with_the_facts_of_the_place(benchmark: Callable[..., Any], memos: int) -> None:
    """A fresh book of the facts that the session loads, and every quantity of the place."""
    facts = loaded(memos)
    found = benchmark(lambda: answers(Book(facts, START), PLACE))
    assert found.value("net gable area").shown == "37.7 ft² (42.7 less window 5.0)"


@pytest.mark.benchmark(group="about: the whole job is in the book")
@pytest.mark.parametrize("memos", [1_000, 100_000])
def test_about_with_the_whole_job_indexed(benchmark: Callable[..., Any], memos: int) -> None:
    """A book of the whole job whose indexes are built, and every quantity of the place."""
    book = Book(job(memos), START)
    answers(book, PLACE)
    assert benchmark(lambda: answers(book, PLACE)).value("pieces to cut").value == 32


@pytest.mark.benchmark(group="about: after a correction", timer=time.process_time)
@pytest.mark.parametrize("memos", [1_000, 100_000])
def test_recompute_after_a_correction(benchmark: Callable[..., Any], memos: int) -> None:
    """A corrected base width in a new book of the place, and every quantity again: wanted under 20 ms of computing."""
    facts = loaded(memos)
    base = Measure(place=PLACE, dimension="base width", ticks=191 * INCH)

    def correct() -> float:
        changed = tuple(replace(f, fact=base) if getattr(f.fact, "dimension", "") == "base width" else f for f in facts)
        value = answers(Book(changed, START), PLACE).value("gable area")
        assert value is not None
        return value.value

    assert benchmark(correct) == 42.2
    if benchmark.stats is not None:  # type: ignore[attr-defined]
        assert benchmark.stats.stats.min < 0.020  # type: ignore[attr-defined]
