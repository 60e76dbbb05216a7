"""Drying stacks: the moisture readings of each lot, what the air dries it to, and the day it reaches the target, or why not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from journal.quantities.base import (
    Answer,
    Book,
    Disagreement,
    Missing,
    Source,
    Value,
    assumption,
    day,
    memo_names,
    number,
    quantity,
)
from journal.quantities.cautions import MOISTURE
from journal.quantities.lots import singular
from journal.quantities.moisture import (
    FIBRE_SATURATION,
    DryingTrend,
    corrected_reading,
    drying_trend,
    emc,
    fahrenheit,
    straight_line_day,
)
from journal.records import Filed, Reading

assumption("moisture target", "%", "15", "air-dry outdoors, until another target is said", low="4", high="30")
assumption(
    "meter correction", "yes or no", "no", "readings as said; yes adds a point for each 20 F under 70 (Wengert, read)"
)

# points by which a stack gets wetter between two readings when it is a new one or was rained on (common practice)
_WETTER = 5
_BARE = frozenset({"board", "stack", "pile", "lumber", "wood", "the", "stock", "moisture", "content", "plank", "load"})


@dataclass(frozen=True, slots=True)
class Read:
    """One moisture reading: as said, and as used (corrected where that is switched on); `fitted` where the trend rests on it.

    A reading above saturation is only "wet"; one before the stack got wetter again by 5 points is of another stack or a rain.
    """

    filed: Filed[Reading]
    moisture: float
    fitted: bool = True

    @property
    def on(self) -> date:
        """The day it was read."""
        return self.filed.said_at.date()


@dataclass(frozen=True, slots=True)
class Air:
    """One pair of temperature and humidity and the moisture that wood comes to in it."""

    emc: float
    on: date
    memos: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Stack:
    """The readings of one lot at one place, the air there, and the trend or a sentence on why there is none."""

    place: str | None
    what: str | None
    readings: tuple[Read, ...]
    air: tuple[Air, ...]
    target: Fraction
    trend: DryingTrend | str
    assumed: tuple[str, ...]

    @property
    def emc(self) -> float | None:
        """The mean EMC that the fit uses, None where the air was not read."""
        return sum(air.emc for air in self.air) / len(self.air) if self.air else None

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind it."""
        return tuple(sorted({r.filed.memo for r in self.readings} | {memo for air in self.air for memo in air.memos}))

    @property
    def doubts(self) -> tuple[str, ...]:
        """Why a reading may be wrong, until somebody confirmed it."""
        unconfirmed = [read.filed for read in self.readings if not read.filed.confirmed]
        return tuple(dict.fromkeys(doubt.shown for filed in unconfirmed for doubt in filed.fact.doubts))

    def row(self) -> dict[str, object]:
        """The row of `drying --json`."""
        trend = self.trend if isinstance(self.trend, DryingTrend) else None
        between = None if trend is None else [_iso(trend.earliest), _iso(trend.latest)]
        return {
            "place": self.place,
            "what": self.what,
            "readings": [
                {
                    "on": _iso(r.on),
                    "value": r.filed.fact.value,
                    "used": round(r.moisture, 2),
                    "fitted": r.fitted,
                    "memo": r.filed.memo,
                }
                for r in self.readings
            ],
            "emc": None if self.emc is None else round(self.emc, 1),
            "target": float(self.target),
            "expected": _iso(trend.expected) if trend else None,
            "between": between,
            "why_not": self.trend if isinstance(self.trend, str) else None,
            "rate": round(trend.rate, 4) if trend else None,
            "memos": list(self.memos),
            "assumed": list(self.assumed),
            "shown": self.shown,
            "doubts": list(self.doubts),
            "caution": MOISTURE,
        }

    @property
    def shown(self) -> str:
        """One line for people."""
        if not self.readings:
            return str(self.trend)
        newest = self.readings[-1]
        now = f"{newest.filed.fact.value:g} % on {day(newest.filed.said_at)}"
        if isinstance(self.trend, str):
            return f"{now}; {self.trend}"
        late = f"to {_day(self.trend.latest, newest.on)}" if self.trend.latest else "or later, the late end is open"
        target = f"{float(self.target):g} % about {_day(self.trend.expected, newest.on)}"
        return f"{now}; {target} ({_day(self.trend.earliest, newest.on)} {late})"


def drying(book: Book) -> list[dict[str, object]]:
    """The rows of `drying --json`: a lot at a place a line, by place."""
    places = sorted({f.fact.place or "" for f in book.all_of(Reading) if f.fact.quantity == "moisture"})
    return [stack.row() for place in places for stack in stacks(book, place or None)]


def stacks(book: Book, place: str | None) -> tuple[Stack, ...]:
    """The stacks of a place. Readings that name no thing belong to the one that is named there; to none of several."""
    moist = [f for f in book.at(place, Reading) if f.fact.quantity == "moisture" and 0 <= f.fact.value <= 200]
    if not moist:
        return ()
    named = _names(moist)
    groups: dict[str | None, list[Filed[Reading]]] = {}
    for filed in moist:
        groups.setdefault(_group(_name(filed), named), []).append(filed)
    return tuple(_stack(book, place, name, found) for name, found in groups.items())


def _names(moist: Sequence[Filed[Reading]]) -> tuple[str, ...]:
    """The things named at a place, the fuller name of those that are one: "white pine" for "pine"."""
    names = sorted({name for filed in moist if (name := _name(filed))}, key=lambda name: -len(name.split()))
    kept: list[str] = []
    for name in names:
        if not any(set(name.split()) <= set(other.split()) for other in kept):
            kept.append(name)
    return tuple(kept)


def _name(filed: Filed[Reading]) -> str | None:
    words = [singular(word) for word in (filed.fact.about or "").casefold().split()]
    return " ".join(word for word in words if word not in _BARE) or None


def _group(name: str | None, named: Sequence[str]) -> str | None:
    if name is None:
        return named[0] if len(named) == 1 else None
    fitting = [other for other in named if set(name.split()) <= set(other.split())]
    return fitting[0] if len(fitting) == 1 else name


def _stack(book: Book, place: str | None, name: str | None, moist: Sequence[Filed[Reading]]) -> Stack:
    target, correct = book.assume("moisture target", place), book.assume("meter correction", place)
    values = [_corrected(book, filed) if correct.word == "yes" else filed.fact.value for filed in moist]
    again = max((i for i in range(1, len(values)) if values[i] - values[i - 1] > _WETTER), default=0)
    readings = tuple(
        Read(filed, value, fitted=i >= again and value <= FIBRE_SATURATION)
        for i, (filed, value) in enumerate(zip(moist, values, strict=True))
    )
    air = _air(book, place, readings[again].on)
    assumed = (*target.assumed, *(correct.assumed if correct.word == "yes" else ()))
    wet = [read for read in readings if read.moisture > FIBRE_SATURATION]
    fitted = [(read.on, read.moisture) for read in readings if read.fitted]
    trend: DryingTrend | str
    if not air:
        where = place or "the stack"
        trend = (
            f'no temperature and humidity were read at {where}. Say: "{where} seventy degrees humidity sixty percent"'
        )
    elif wet and len(fitted) < 3:
        trend = f"above {FIBRE_SATURATION:g} % a meter only says wet ({memo_names(r.filed.memo for r in wet)})"
    else:
        trend = drying_trend(fitted, sum(one.emc for one in air) / len(air), float(target.value))
    return Stack(place, name, readings, air, target.value, trend, assumed)


def _corrected(book: Book, filed: Filed[Reading]) -> float:
    """A reading put right by the temperature said in its memo; as said where none was."""
    warm = [f for f in book.at(filed.fact.place, Reading) if f.memo == filed.memo and f.fact.quantity == "temperature"]
    return corrected_reading(filed.fact.value, _in_fahrenheit(warm[0].fact)) if warm else filed.fact.value


def _in_fahrenheit(reading: Reading) -> float:
    return fahrenheit(reading.value) if reading.unit == "C" else reading.value


def _air(book: Book, place: str | None, since: date) -> tuple[Air, ...]:
    """The air read at a place from the day of the first moisture reading on: pairs of one memo, else of one day."""
    found: list[Air] = []
    readings = [filed for filed in book.at(place, Reading) if filed.said_at.date() >= since]
    humid = [filed for filed in readings if filed.fact.quantity == "humidity"]
    warm = [filed for filed in readings if filed.fact.quantity == "temperature"]
    for filed in humid:
        same_memo = [w for w in warm if w.memo == filed.memo]
        same_day = [w for w in warm if w.said_at.date() == filed.said_at.date()]
        if not (same_memo or same_day):
            continue
        beside = (same_memo or same_day)[-1]
        try:
            comes_to = emc(beside.fact.value, filed.fact.value, "C" if beside.fact.unit == "C" else "F")
        except ValueError:
            continue  # told as a disagreement by `air_readings`
        found.append(Air(comes_to, filed.said_at.date(), tuple(sorted({filed.memo, beside.memo}))))
    return tuple(found)


def _iso(on: date | None) -> str | None:
    return None if on is None else on.isoformat()


def _day(on: date, said: date) -> str:
    """A day as a person reads it, with its year where that is another than of the newest reading."""
    return f"{on.day} {on:%b}" if on.year == said.year else f"{on.day} {on:%b} {on.year}"


# ---- quantities of a place -------------------------------------------------------------------------------------------


@quantity("drying", needs=("moisture", "temperature", "humidity"), assumes=("moisture target",), caution=MOISTURE)
def drying_at(book: Book, place: str) -> Iterator[Answer]:
    """The day a stack reaches its target moisture: ln(M - EMC) = c - k days fitted to its readings, EMC a point up and down.

    Needs 3 readings over 7 days. A straight line through them promises too early and is shown only as that.
    """
    for stack in stacks(book, place):
        source = Source(stack.memos, "", stack.doubts, stack.assumed)
        if stack.emc is not None:
            air_memos = tuple(sorted({memo for air in stack.air for memo in air.memos}))
            note = "the mean of " + ", ".join(f"{air.emc:.1f}" for air in stack.air) if len(stack.air) > 1 else ""
            yield number(
                "moisture of the air's balance",
                place,
                Fraction(stack.emc),
                "%",
                Source(air_memos),
                about=stack.what,
                note=note,
            )
        if isinstance(stack.trend, str):
            say = f"{place} {stack.what or 'stack'} drying: {stack.trend}"
            yield Missing(name="drying", place=place, about=stack.what, say=say)
            continue
        fitted = [(read.on, read.moisture) for read in stack.readings if read.fitted]
        straight = straight_line_day(fitted, float(stack.target))
        newest = stack.readings[-1].on
        early = f"; a straight line promises {_day(straight, newest)}, too early" if straight else ""
        yield Value(
            name="drying",
            place=place,
            value=stack.trend.expected.isoformat(),
            unit="date",
            shown=stack.shown + early + (" (doubtful)" if stack.doubts else ""),
            about=stack.what,
            memos=source.memos,
            assumed=source.assumed,
            doubts=source.doubts,
            more=(("between", [_iso(stack.trend.earliest), _iso(stack.trend.latest)]), ("rate", stack.trend.rate)),
        )


@quantity("air readings", needs=("temperature", "humidity"))
def air_readings(book: Book, place: str) -> Iterator[Answer]:
    """Readings that no air or wood can have, each with its memo: a humidity over 100, a moisture below 0."""
    for filed in book.at(place, Reading):
        reading = filed.fact
        low, high = {"humidity": (0, 100), "moisture": (0, 200), "temperature": (-60, 160)}[reading.quantity]
        if not low <= reading.value <= high:
            shown = f"{place} {reading.quantity} {reading.value:g} {reading.unit} (memo {filed.memo}) cannot be. Say it again."
            yield Disagreement(name="air readings", place=place, shown=shown, memos=(filed.memo,))
