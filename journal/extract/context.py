"""What has been said so far in a memo: the place, thing and dimension that go on down a list until another is said."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from journal.extract.due import DueWord
from journal.extract.line import Figure, Line
from journal.records import Aside, Doubt, Fact, Known, Problem, Span


@dataclass(frozen=True, slots=True)
class Offset:
    """From what to what a distance is, whether it is to a centre, and the place named on the way."""

    origin: str
    centre: bool
    to: str
    place: str | None


@dataclass(slots=True)
class Context:
    """The running state of reading one memo, and what it has given so far."""

    line: Line
    known: Known
    today: date
    dues: list[DueWord]
    labels: dict[int, tuple[int, str]]
    place: str | None = None
    thing: str | None = None
    late_thing: str | None = None
    dimension: str | None = None
    quantity: str | None = None
    unit: str = ""
    facts: list[Fact] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    asides: list[Aside] = field(default_factory=list)
    doubts: list[Doubt] = field(default_factory=list)
    used: set[int] = field(default_factory=set)
    names: dict[int, str] = field(default_factory=dict)
    rough: bool = False
    led: bool = False
    of_all: bool = False
    work_first: bool = False
    last: Figure | None = None
    offset: Offset | None = None
    unmeasured: bool = False

    def text(self, i: int, j: int) -> list[str]:
        """The words `i` to `j`, names in figures written as digits."""
        out: list[str] = []
        k = i
        while k < j:
            if k in self.labels:
                end, label = self.labels[k]
                out.extend(label.split())
                k = end
            else:
                out.append(self.line.words[k])
                k += 1
        return out

    def figures_between(self, i: int, j: int) -> list[Figure]:
        """The figures that begin in words `i` to `j`, in order."""
        return [f for k, f in sorted(self.line.figures.items()) if i <= k < j]

    def place_between(self, i: int, j: int) -> str | None:
        """The last place named in words `i` to `j`."""
        named = [p for k, p in sorted(self.line.places.items()) if i <= k < j]
        return named[-1].name if named else None

    def span(self, i: int, j: int) -> Span:
        """The stretch of the text of words `i` to `j`."""
        return self.line.span(i, j)
