"""Books made by hand for tests: facts in a line each, memos numbered in the order given."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from journal.lengths import parse_length
from journal.quantities.assumptions import Setting
from journal.quantities.base import Answers, Book
from journal.records import Aside, Fact, Filed, FiledAside, Measure, Slope

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
