"""Books made by hand for tests: facts in a line each, memos numbered in the order given."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

from journal.extract import extract
from journal.fields import figure_typed
from journal.lengths import parse_length
from journal.quantities.assumptions import Setting
from journal.quantities.base import Answers, Book
from journal.records import Aside, Fact, Filed, FiledAside, Known, Measure, Revision, Slope

DAY_ONE = datetime(2026, 7, 13, 7, 30)


def m(place: str | None, dimension: str, size: str, about: str | None = None, **more: Any) -> Measure:
    """A measure: ``m("wall A", "length", "240")``; a metric size keeps its unit."""
    sign = -1 if size.startswith("-") else 1
    ticks, system = parse_length(size.removeprefix("-"))
    metric = size if system == "metric" else None
    return Measure(place=place, about=about, dimension=dimension, ticks=sign * ticks, metric=metric, **more)


def slope(place: str | None, rise: float, run: float = 12, about: str | None = None) -> Slope:
    return Slope(place=place, rise=rise, run=run, about=about)


def book(
    *said: Fact | Iterable[Fact] | Aside, settings: tuple[Setting, ...] = (), as_of: datetime | None = None
) -> Book:
    """A book of memos: each argument is one memo's fact, facts (a list) or aside; memo 1 is the first, an hour apart."""
    facts: list[Filed[Fact]] = []
    asides: list[FiledAside] = []
    for memo, what in enumerate(said, start=1):
        at = DAY_ONE + timedelta(hours=memo)
        if isinstance(what, Aside):
            asides.append(FiledAside(aside=what, memo=memo, said_at=at))
            continue
        together = [what] if isinstance(what, Fact) else list(what)
        for number, fact in enumerate(together, start=1):
            facts.append(Filed(uuid=f"{memo}-{number}", fact=fact, memo=memo, number=number, said_at=at, made_at=at))
    return Book(tuple(facts), as_of or DAY_ONE + timedelta(days=30), tuple(asides), settings)


DEMO = Path(__file__).parents[1] / "memos" / "demo_memos.jsonl"


def book_from_memos(path: Path = DEMO, *, until: datetime | None = None) -> Book:
    """A book read from spoken words: each memo with the place of the one before, earlier facts replaced as it says."""
    current: dict[str, Filed[Fact]] = {}
    asides: list[FiledAside] = []
    figures: dict[tuple[str | None, str | None, str], int] = {}
    places: set[str] = set()
    carried: str | None = None
    at = DAY_ONE
    for memo, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        said = json.loads(line)
        at = datetime.fromisoformat(said["said_at"])
        if until is not None and at > until:
            break
        known = Known(carried_place=carried, places=frozenset(places), figures=dict(figures))
        read = extract(said["text"], at, known)
        carried = read.place or carried
        replaced = {r.by: old for r in read.revisions if (old := _revised(current, r, memo)) is not None}
        for old in replaced.values():
            del current[old.uuid]
        for index, fact in enumerate(read.facts):
            was = (replaced[index],) if index in replaced else ()
            filed = Filed(
                uuid=f"{memo}-{index}", fact=fact, memo=memo, number=index + 1, said_at=at, made_at=at, was=was
            )
            current[filed.uuid] = filed
            places |= {fact.place} if fact.place else set()
            if isinstance(fact, Measure):
                figures[fact.place, fact.about, fact.dimension] = fact.ticks
        asides += [FiledAside(aside=aside, memo=memo, said_at=at) for aside in read.asides]
    return Book(tuple(current.values()), until or at, tuple(asides))


def _revised(current: dict[str, Filed[Fact]], revision: Revision, memo: int) -> Filed[Fact] | None:
    for filed in reversed([f for f in current.values() if f.memo < memo]):
        fact = filed.fact
        fits = (
            revision.kind in (None, fact.kind)
            and revision.place in (None, fact.place)
            and revision.on in (None, filed.said_at.date(), getattr(fact, "on", None))
        )
        if fits and (revision.was is None or _number(figure_typed(fact)) == _number(revision.was)):
            return replace(filed, was=())
    return None


def _number(text: str) -> Fraction | str:
    try:
        return sum((Fraction(part) for part in text.split()), Fraction(0))
    except ValueError:
        return text


def setting(name: str, value: str, place: str | None = None) -> Setting:
    return Setting(name=name, value=value, place=place, at=DAY_ONE)


def shown(answers: Answers, *names: str) -> dict[str, str]:
    """What a person reads of the quantities named (all where none is named), by name and thing."""
    found = {f"{v.name}{f' [{v.about}]' if v.about else ''}": v.shown for v in answers.quantities}
    return {name: figure for name, figure in found.items() if not names or name.split(" [")[0] in names}


def says(answers: Answers) -> list[str]:
    return [missing.say for missing in answers.missing]


def disagree(answers: Answers) -> list[str]:
    return [one.shown for one in answers.disagree]
