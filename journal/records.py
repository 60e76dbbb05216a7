"""The values that pass between the stages: what was heard, what it says, what it implies.

All are frozen. *Not said* is None, *said as nothing* is 0, *said but not understood* is a Problem; the three stay apart.
Imports nothing of ours.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date, datetime
from functools import cache
from typing import ClassVar, Generic, Literal, NamedTuple, TypeVar

Shade = Literal["strong", "shy"]
TaskStatus = Literal["open", "done", "waiting"]
StockEvent = Literal["need", "ordered", "received", "used", "cut", "stacked", "left over", "have"]
Quantity = Literal["moisture", "temperature", "humidity"]
MemoSource = Literal["microphone", "recording", "typed"]

DIMENSIONS = (
    "width", "height", "length", "depth", "thickness", "diameter", "long point", "short point", "base width", "rise",
    "run", "rake", "ridge height", "plate height", "rough opening width", "rough opening height", "spacing", "gap",
    "diagonal", "span", "overhang", "reveal", "offset", "out of level", "out of plumb", "out of square", "centre",
    "size", "other",
)  # fmt: skip
STATUSES: tuple[TaskStatus, ...] = ("open", "done", "waiting")
EVENTS: tuple[StockEvent, ...] = ("need", "ordered", "received", "used", "cut", "stacked", "left over", "have")


class Span(NamedTuple):
    """A stretch of a text: `text[start:end]`."""

    start: int
    end: int


# ---- what was heard ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Word:
    """A word with its time in seconds from the start of the recording and how sure the engine is of it (0 to 1)."""

    word: str
    start: float | None = None
    end: float | None = None
    confidence: float | None = None


@dataclass(frozen=True, slots=True)
class Heard:
    """What an engine made of a recording: words in the journal's form (lower case, numbers in words), best first.

    `readings` are next-best texts, `behind` how much less likely than the text each of the first of them is, in log
    probability (negative; empty where an engine does not tell); `doubts` are the engine's own (spans in `text`). An empty
    `text` means no speech.
    `weighed`: the engine has weighed its readings and confidences itself, and `doubts` are all that they are good for.
    """

    text: str
    words: tuple[Word, ...] = ()
    readings: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    engine: str = ""
    engine_version: str = ""
    seconds: float = 0.0
    weighed: bool = False
    behind: tuple[float, ...] = ()


# ---- doubts and problems -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a figure may be wrong: `reason` is an id ("range", "heard", "two-way", …), `shown` the sentence for people.

    `level` 1 is the lowest (a sound-alike put right by context), 2 an ordinary doubt, 3 a figure that must be asked for
    again. `other` holds the other readings, best first; `span` is the stretch of the text that is doubted.
    """

    reason: str
    shown: str
    span: Span
    other: tuple[str, ...] = ()
    level: int = 2


@dataclass(frozen=True, slots=True)
class Problem:
    """Something said that could not be used. Collected and shown, never raised."""

    message: str
    span: Span
    hint: str = ""


# ---- facts ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """What every fact carries: its evidence in the transcript, the id of the rule that made it, and its doubts."""

    evidence: Span = Span(0, 0)
    rule: str = ""
    doubts: tuple[Doubt, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure(_Said):
    """One dimension of one thing. `metric` is the figure in the unit said ("7.2 m") when the metric tape was read.

    `over_ticks` is the length that an out of level, plumb or square was read over.
    """

    kind: ClassVar[str] = "measure"
    place: str | None = None
    about: str | None = None
    dimension: str
    ticks: int
    metric: str | None = None
    approx: bool = False
    shade: Shade | None = None
    over_ticks: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope(_Said):
    """A roof slope as rise in run. `about` tells two slopes of one roof apart ("left side")."""

    kind: ClassVar[str] = "slope"
    place: str | None = None
    about: str | None = None
    rise: float
    run: float = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Task(_Said):
    """Something to do. `after` is the condition it waits on, `before` the event it must be done ahead of."""

    kind: ClassVar[str] = "task"
    place: str | None = None
    do: str
    status: TaskStatus = "open"
    due: date | None = None
    after: str | None = None
    before: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock(_Said):
    """Material that came, went or is wanted. `place` is where it was used or lies (outside the scored fields)."""

    kind: ClassVar[str] = "stock"
    place: str | None = None
    event: StockEvent
    count: float | None = None
    what: str | None = None
    section: str | None = None
    length_ticks: int | None = None
    species: str | None = None
    board_feet: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(_Said):
    """A meter read: moisture or humidity in per cent, temperature in F or C."""

    kind: ClassVar[str] = "reading"
    place: str | None = None
    about: str | None = None
    quantity: Quantity
    value: float
    unit: Literal["%", "F", "C"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours(_Said):
    """Working time. `on` is the day when it was said to be another than the memo's own ("friday was six and a half")."""

    kind: ClassVar[str] = "hours"
    place: str | None = None
    hours: float
    activity: str | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost(_Said):
    """Money in dollars; `per` is "total" when no rate was said. `place` is outside the scored fields."""

    kind: ClassVar[str] = "cost"
    place: str | None = None
    amount: float
    per: str = "total"
    what: str | None = None


Fact = Measure | Slope | Task | Stock | Reading | Hours | Cost
FACT_TYPES: dict[str, type[Fact]] = {t.kind: t for t in (Measure, Slope, Task, Stock, Reading, Hours, Cost)}
KINDS = tuple(FACT_TYPES)
F = TypeVar("F", bound=Fact, covariant=True)


@cache
def said_fields(kind: str) -> tuple[str, ...]:
    """The names of the fields that a person can say of a fact of this kind, in the order declared."""
    common = {f.name for f in fields(_Said)}
    return tuple(f.name for f in fields(FACT_TYPES[kind]) if f.name not in common)


def said(fact: Fact) -> tuple[object, ...]:
    """What a fact says, without its evidence, rule and doubts: two facts that say the same are equal in this."""
    return (fact.kind, *(getattr(fact, name) for name in said_fields(fact.kind)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """Something said that is no fact of the seven kinds but that quantities or tasks need.

    topic            text                                   value
    "courses"        what it was said of ("top log")        the count ("nine is the top log" -> 9)
    "happened"       an event in bare words ("the glass came" -> "the glass comes")
    "board start"    "centred", "seam", "left" or "right"
    "clearance"…     later topics follow the same shape
    """

    topic: str
    text: str
    place: str | None = None
    value: float | None = None
    evidence: Span = Span(0, 0)
    rule: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """A memo that takes back or replaces a fact of an earlier memo.

    `by` is the index of the new fact in `Extraction.facts`, None when nothing is put in its stead ("scratch the last one").
    `kind`, `place`, `on` and `was` narrow down the old fact: the day it was said of, its old figure ("6 1/4", as format_inches
    writes it, or a plain number). All None means the newest fact of the memo before.
    """

    by: int | None
    kind: str | None = None
    place: str | None = None
    on: date | None = None
    was: str | None = None
    evidence: Span = Span(0, 0)


# ---- a memo and what it says ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the journal already knows when a memo is read: the memo before it and the figures on file.

    `places` are the canonical names so far, with `aliases` from other names to them. `figures` gives the newest ticks
    of (place, about, dimension), `prices` the newest amount of (what, per). All may be empty: a memo reads by itself.
    """

    carried_place: str | None = None
    places: frozenset[str] = frozenset()
    aliases: dict[str, str] | None = None
    figures: dict[tuple[str | None, str | None, str], int] | None = None
    prices: dict[tuple[str | None, str], float] | None = None


NOTHING_KNOWN = Known()


@dataclass(frozen=True, slots=True)
class Extraction:
    """All that one memo says: facts and asides in the order said, what could not be used, what it takes back.

    `place` is the place the memo leaves off at, carried to the next one. `doubts` are those that no fact carries.
    """

    facts: tuple[Fact, ...] = ()
    problems: tuple[Problem, ...] = ()
    asides: tuple[Aside, ...] = ()
    revisions: tuple[Revision, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    place: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Memo:
    """What was said once, by its number for people. Never changes; `text` is its current transcript."""

    number: int
    uuid: str
    said_at: datetime
    source: MemoSource
    text: str
    transcript: str = ""
    words: tuple[Word, ...] = ()
    readings: tuple[str, ...] = ()
    heard_doubts: tuple[Doubt, ...] = ()
    recording: str | None = None
    engine: str = ""
    engine_version: str = ""
    place: str | None = None
    carried_place: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Filed(Generic[F]):
    """A current fact with the memo behind it; `was` are the facts it replaced, newest first.

    `number` counts the facts of its memo from 1, so that "memo 12 fact 2" names it to a person; it stays through corrections.
    """

    uuid: str
    fact: F
    memo: int
    number: int
    said_at: datetime
    made_at: datetime
    confirmed: bool = False
    was: tuple[Filed[F], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FiledAside:
    """An aside with the memo behind it."""

    aside: Aside
    memo: int
    said_at: datetime
