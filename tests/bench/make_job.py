#!/usr/bin/env python3
"""Makes a large job to measure on: `python tests/bench/make_job.py FOLDER MEMOS`.

One place, "lake gable", has the same 50 facts however large the job is; the other memos are of 400 other places and of stock that
comes and goes, in the proportions of a working week. Invented data, seeded.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from journal.lengths import INCH
from journal.records import Cost, Extraction, Fact, Hours, Measure, Reading, Slope, Span, Stock, Task
from journal.store import Draft, Store

PLACE = "lake gable"
_START = datetime(2010, 1, 4, 7, 30, tzinfo=UTC)
_SPECIES = ("white oak", "cedar", "hemlock", "larch", "spruce")
_GOODS = ("tube of sealant", "sheet of plywood", "roll of felt", "box of screws", "pail of chinking", "batt")


def place_facts() -> list[Fact]:
    """The 50 facts of the place: a gable with a window, its boards, bays, stock used and hours."""
    facts: list[Fact] = [
        Measure(place=PLACE, dimension="base width", ticks=192 * INCH),
        Slope(place=PLACE, rise=8),
        Measure(place=PLACE, about="window", dimension="rough opening width", ticks=24 * INCH + INCH // 2),
        Measure(place=PLACE, about="window", dimension="rough opening height", ticks=30 * INCH),
        Measure(place=PLACE, about="plate to window sill", dimension="offset", ticks=14 * INCH),
        Measure(place=PLACE, about="corner to window", dimension="centre", ticks=96 * INCH),
        Measure(place=PLACE, about="1x8 pine", dimension="width", ticks=6 * INCH + INCH * 7 // 8),
        Stock(
            place=None,
            event="received",
            count=60,
            what="board",
            section="1x8",
            species="white pine",
            length_ticks=144 * INCH,
        ),
        Cost(amount=1.85, per="board foot", what="white pine"),
        Cost(amount=35, per="hour", what="my time"),
    ]
    facts += [
        Measure(place=PLACE, about=f"stud bay {n}", dimension="width", ticks=14 * INCH + n * 127) for n in range(20)
    ]
    facts += [Stock(place=PLACE, event="used", count=2, what="pine board") for _ in range(5)]
    facts += [Hours(place=PLACE, hours=2.5 + n / 4, activity="boarding") for n in range(10)]
    facts += [Task(place=PLACE, do=f"nail board {n}") for n in range(5)]
    assert len(facts) == 50
    return facts


def other_fact(chance: random.Random) -> Fact:
    """Something said of another place, or of stock."""
    place = f"wall {chance.randrange(400)}"
    kind = chance.random()
    if kind < 0.55:
        about, dimension = f"log {chance.randrange(12)}", chance.choice(["diameter", "length", "width"])
        return Measure(place=place, about=about, dimension=dimension, ticks=chance.randrange(8 * INCH, 14 * INCH))
    if kind < 0.67:
        return Hours(place=place, hours=chance.randrange(2, 17) / 2, activity="chinking")
    if kind < 0.77:
        return Reading(place=place, quantity="moisture", value=chance.randrange(12, 30), unit="%")
    if kind < 0.85:
        return Task(place=place, do=f"caulk joint {chance.randrange(50)}", status=chance.choice(["open", "done"]))
    if kind < 0.95:
        event = chance.choice(["received", "used", "need"])
        if chance.random() < 0.5:
            species = chance.choice(_SPECIES)
            length = chance.choice([120, 144, 192]) * INCH
            return Stock(
                event=event,
                count=chance.randrange(1, 40),
                what="board",
                section="2x6",
                species=species,
                length_ticks=length,
            )
        return Stock(event=event, count=chance.randrange(1, 9), what=chance.choice(_GOODS))
    return Cost(amount=chance.randrange(100, 900) / 100, per="each", what=chance.choice(_GOODS))


def facts_of(memos: int) -> Iterator[Fact]:
    """A fact a memo, the place's own spread over all of them."""
    chance, own = random.Random(7), place_facts()
    spread = set(range(0, memos, max(memos // 50, 1))[:50])
    for memo in range(memos):
        yield own.pop(0) if memo in spread else other_fact(chance)


def make_job(folder: Path, memos: int) -> None:
    """The job in a folder that has none."""
    with Store.open(folder) as store, store.writing():
        change = store.add_change("take", at=_START)
        for number, fact in enumerate(facts_of(memos)):
            at = _START + timedelta(minutes=60 * number)
            uuid, _ = store.add_memo(at, "typed")
            text = f"memo {number} of {fact.kind} at {fact.place or 'the yard'}"
            read = Extraction(place=fact.place)
            transcript = store.add_transcript(uuid, change, text, read, known_at=at)
            whole = Span(0, len(text))
            object.__setattr__(fact, "evidence", whole)  # made here and nowhere else yet
            store.add_fact(
                Draft(fact, None), memo_uuid=uuid, transcript=transcript, number=1, change=change, known_at=at
            )


if __name__ == "__main__":
    make_job(Path(sys.argv[1]), int(sys.argv[2]))
