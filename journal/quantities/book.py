"""The current facts as the quantities read them: by place, by thing, newest last, with what was assumed.

Pure and built once from what the session hands over. Knows no formula.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from fractions import Fraction
from functools import cached_property, lru_cache, wraps
from math import isfinite
from typing import TypeVar, cast

from journal.lengths import INCH, System, format_length
from journal.quantities.assumptions import ASSUMPTIONS, Amount, Assumption, Setting
from journal.records import Aside, Fact, Filed, FiledAside, Measure, Slope

F = TypeVar("F", bound=Fact)
R = TypeVar("R")
_ARTICLES = frozenset({"a", "an", "the"})
_ADDING = frozenset({"diagonal", "size"})  # said in pairs under one name, so two of them are no contradiction


def thing(about: str | None) -> str | None:
    """What was measured, alike for "the rafters" and "rafter"; None where the place itself was."""
    if about is None:
        return None
    words = [word for word in about.casefold().split() if word not in _ARTICLES]
    if words and len(words[-1]) > 3 and words[-1].endswith("s") and not words[-1].endswith(("ss", "us", "is")):
        words[-1] = words[-1][:-1]
    return " ".join(words) or None


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure on file: `value` in inches for a measure, rise over run for a slope; the newest said of its thing.

    `repeats` are the readings of the same memo under the same name, itself among them (three widths of one opening);
    `was` are the older ones that differ, newest first.
    """

    filed: Filed[Measure] | Filed[Slope]
    value: Fraction
    repeats: tuple[Fraction, ...] = ()
    was: tuple[Filed[Measure] | Filed[Slope], ...] = ()

    @property
    def memos(self) -> tuple[int, ...]:
        """The memo that it was said in."""
        return (self.filed.memo,)

    @property
    def mark(self) -> str:
        """``~`` for a hedged figure, ``+`` for a strong one, ``-`` for a shy one."""
        fact = self.filed.fact
        if not isinstance(fact, Measure):
            return ""
        return ("~" if fact.approx else "") + {"strong": "+", "shy": "-", None: ""}[fact.shade]

    @property
    def doubts(self) -> tuple[str, ...]:
        """Why it may be wrong, until somebody confirmed it.

        A wall against its gable is left to the cross-check of the two figures as they stand now.
        """
        if self.filed.confirmed:
            return ()
        return tuple(doubt.shown for doubt in self.filed.fact.doubts if doubt.reason != "twin")

    @property
    def assumed(self) -> tuple[str, ...]:
        """Nothing: a figure was said."""
        return ()

    @property
    def system(self) -> System:
        """The tape that it was read on."""
        return "metric" if isinstance(self.filed.fact, Measure) and self.filed.fact.metric is not None else "inch"

    @property
    def shown(self) -> str:
        """As a person reads it, in the system that it was said in: ``71 5/8"``, ``610 mm``, ``8/12``."""
        fact = self.filed.fact
        # of a size said as two sides, or of repeated readings, the value may be another than the newest fact's
        if isinstance(fact, Measure) and (ticks := self.value * INCH) != fact.ticks and ticks.denominator == 1:
            return format_length(int(ticks), self.system)
        return show_fact(fact)

    @property
    def was_shown(self) -> str:
        """The figure before it with its day, ``was 42 1/4", Mon 13 Jul``, or nothing."""
        return f"was {show_fact(self.was[0].fact)}, {day(self.was[0].said_at)}" if self.was else ""


def show_fact(fact: Measure | Slope) -> str:
    """A measure or slope as a person reads it."""
    if isinstance(fact, Slope):
        return f"{fact.rise:g}/{fact.run:g}"
    return format_length(fact.ticks, "metric" if fact.metric is not None else "inch")


def day(moment: datetime) -> str:
    """A day as it is shown beside a figure: ``Mon 13 Jul``."""
    return f"{moment:%a} {moment.day} {moment:%b}"


@dataclass(frozen=True, slots=True)
class Taken:
    """What an assumption stands at for a place, and since when."""

    assumption: Assumption
    amount: Amount | None
    origin: str
    memos: tuple[int, ...] = ()
    mark: str = ""
    doubts: tuple[str, ...] = ()

    @property
    def value(self) -> Fraction:
        """The amount of a figure (inches, per cent, a count); 0 where there is none."""
        return self.amount if isinstance(self.amount, Fraction) else Fraction(0)

    @property
    def word(self) -> str:
        """The amount of a choice."""
        return self.amount if isinstance(self.amount, str) else ""

    @property
    def said(self) -> bool:
        """Whether a person set or said it, for this place or for the job."""
        return self.origin != self.assumption.source

    @property
    def assumed(self) -> tuple[str, ...]:
        """The line printed beside what rests on it: ``waste 10 % (common practice)``."""
        return (f"{self.assumption.name} {self.assumption.show(self.amount)} ({self.origin})",)


@dataclass(frozen=True, eq=False)
class Book:
    """The current facts that quantities read, with indexes made at first use. `as_of` is the moment asked about."""

    facts: tuple[Filed[Fact], ...]
    as_of: datetime
    asides: tuple[FiledAside, ...] = ()
    settings: tuple[Setting, ...] = field(default=())

    @cached_property
    def _by_place(self) -> Mapping[str | None, tuple[Filed[Fact], ...]]:
        by_place: defaultdict[str | None, list[Filed[Fact]]] = defaultdict(list)
        for filed in self._ordered:
            by_place[filed.fact.place].append(filed)
        return {place: tuple(facts) for place, facts in by_place.items()}

    @cached_property
    def places(self) -> tuple[str, ...]:
        """The places that a fact names, in alphabetical order."""
        return tuple(sorted(place for place in self._by_place if place is not None))

    def belonging(self, place: str) -> tuple[str, ...]:
        """The places that belong to a place: their names begin with its whole name ("porch roof ceiling")."""
        start = bisect_left(self.places, place + " ")
        stop = bisect_left(self.places, place + "!")  # "!" follows " "
        return self.places[start:stop]

    def at(self, place: str | None, kind: type[F]) -> tuple[Filed[F], ...]:
        """The facts of one kind said of exactly this place, newest last."""
        found = (filed for filed in self._by_place.get(place, ()) if isinstance(filed.fact, kind))
        return cast("tuple[Filed[F], ...]", tuple(found))

    def memos_at(self, place: str | None) -> tuple[int, ...]:
        """The memos that say anything of a place."""
        return tuple(sorted({filed.memo for filed in self._by_place.get(place, ())}))

    def all_of(self, kind: type[F]) -> tuple[Filed[F], ...]:
        """The facts of one kind, of all places, newest last."""
        return cast("tuple[Filed[F], ...]", self._by_kind.get(cast("type[Fact]", kind), ()))

    @cached_property
    def _by_kind(self) -> Mapping[type[Fact], tuple[Filed[Fact], ...]]:
        by_kind: defaultdict[type[Fact], list[Filed[Fact]]] = defaultdict(list)
        for filed in self._ordered:
            by_kind[type(filed.fact)].append(filed)
        return {kind: tuple(facts) for kind, facts in by_kind.items()}

    @cached_property
    def _ordered(self) -> tuple[Filed[Fact], ...]:
        return tuple(sorted(self.facts, key=lambda f: (f.said_at, f.memo, f.number)))

    @cached_property
    def _figures(self) -> dict[str | None, dict[tuple[str | None, str], Figure]]:
        return {}

    def figures(self, place: str | None) -> Mapping[tuple[str | None, str], Figure]:
        """The newest figure of each (thing, dimension) of a place; slopes stand under the dimension "slope"."""
        if place not in self._figures:
            self._figures[place] = dict(_newest_figures(self._by_place.get(place, ())))
        return self._figures[place]

    def newest(self, place: str | None, about: str | None, dimension: str) -> Figure | None:
        """The newest figure of a thing, None where none was said. `about` None is the place itself."""
        return self.figures(place).get((thing(about), dimension))

    def of_dimension(self, place: str | None, *dimensions: str) -> dict[str | None, Figure]:
        """The newest figure of each thing of a place that has one of these dimensions, the first dimension given first."""
        found: dict[str | None, Figure] = {}
        for dimension in dimensions:
            for (about, dim), figure in self.figures(place).items():
                if dim == dimension:
                    found.setdefault(about, figure)
        return found

    def all_measures(self, place: str | None, dimension: str, about: str | None = None) -> tuple[Filed[Measure], ...]:
        """Every current measure of one thing and dimension, newest last."""
        key = thing(about)
        return tuple(m for m in self.at(place, Measure) if m.fact.dimension == dimension and thing(m.fact.about) == key)

    def said_aside(self, topic: str, place: str | None) -> FiledAside | None:
        """The newest aside on a topic at a place (or, for None, at no place)."""
        return self._asides.get((place, topic))

    @cached_property
    def worked_out(self) -> dict[tuple[object, str], object]:
        """What `once` has worked out of this book so far."""
        return {}

    @cached_property
    def _asides(self) -> dict[tuple[str | None, str], FiledAside]:
        return {(a.aside.place, a.aside.topic): a for a in sorted(self.asides, key=lambda a: (a.said_at, a.memo))}

    @cached_property
    def _settings(self) -> dict[tuple[str | None, str], Setting]:
        """The newest setting of each assumption and place; an aside on it ("start with a seam") is a setting too."""
        said = [
            Setting(name=a.aside.topic, value=_amount(a.aside), place=a.aside.place, at=a.said_at, memo=a.memo)
            for a in self.asides
            if a.aside.topic in ASSUMPTIONS
        ]
        ordered = sorted([*self.settings, *said], key=lambda s: (s.at is not None, s.at.timestamp() if s.at else 0.0))
        return {(setting.place, setting.name): setting for setting in ordered}

    def assume(self, name: str, place: str | None = None) -> Taken:
        """What an assumption stands at: set or said for the place, then for a place it belongs to, the job, the default."""
        known = ASSUMPTIONS[name]
        for where in (*_wider(place), None):
            if (setting := self._settings.get((where, name))) is None:
                continue
            try:
                amount = known.parse(setting.value)
            except ValueError:
                continue  # a value that no longer passes its own limits stands nowhere
            said = f"memo {setting.memo}" if setting.memo is not None else f"set for {where or 'the job'}"
            return Taken(known, amount, said, (setting.memo,) if setting.memo is not None else ())
        return Taken(known, known.default, known.source)


def once(work: Callable[[Book, str], R]) -> Callable[[Book, str], R]:
    """The same work on a place, done once for each book: its facts do not change, and several quantities read the result."""

    @wraps(work)
    def known(book: Book, place: str) -> R:
        key = (work, place)
        if key not in book.worked_out:
            book.worked_out[key] = work(book, place)
        return cast(R, book.worked_out[key])

    return known


def _amount(aside: Aside) -> str:
    return aside.text if aside.value is None else f"{aside.value:.10g}"


def _wider(place: str | None) -> Iterator[str]:
    words = place.split(" ") if place else []
    for count in range(len(words), 0, -1):
        yield " ".join(words[:count])


@lru_cache(4096)
def exact(number: float) -> Fraction | None:
    """A spoken number as the fraction it stands for; None where it is no number."""
    return Fraction(number).limit_denominator(1_000_000) if isfinite(number) else None


def _newest_figures(facts: Iterable[Filed[Fact]]) -> Iterator[tuple[tuple[str | None, str], Figure]]:
    said: defaultdict[tuple[str | None, str], list[tuple[Filed[Measure] | Filed[Slope], Fraction]]] = defaultdict(list)
    for filed in facts:
        fact = filed.fact
        if isinstance(fact, Measure):
            key, value = (thing(fact.about), fact.dimension), Fraction(fact.ticks, INCH)
            said[key].append((cast("Filed[Measure]", filed), value))
        elif isinstance(fact, Slope):
            rise, run = exact(fact.rise), exact(fact.run)
            ratio = rise / run if rise is not None and run else Fraction(0)
            said[(thing(fact.about), "slope")].append((cast("Filed[Slope]", filed), ratio))
    for key, figures in said.items():
        newest, value = figures[-1]
        together = [pair for pair in figures if pair[0].memo == newest.memo]
        before = (
            [] if key[1] in _ADDING else [f for f, old in reversed(figures) if f.memo != newest.memo and old != value]
        )
        corrected = [
            old for old in newest.was if _key_of(old.fact) == key and show_fact(old.fact) != show_fact(newest.fact)
        ]
        yield key, Figure(newest, value, tuple(v for _, v in together), (*corrected, *before))


def _key_of(fact: Measure | Slope) -> tuple[str | None, str]:
    """What a figure is the figure of, within its place."""
    return (thing(fact.about), fact.dimension if isinstance(fact, Measure) else "slope")
