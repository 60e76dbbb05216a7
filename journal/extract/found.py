"""An aside as it is found in a line: what it says, and the words that it takes up."""

from __future__ import annotations

from dataclasses import dataclass

from journal.extract.line import Line
from journal.records import Aside


@dataclass(frozen=True, slots=True)
class Found:
    """An aside with the words that it takes up."""

    aside: Aside
    i: int
    j: int
    keep: bool = False


def place_near(line: Line, i: int) -> str | None:
    """The place named nearest: the last one before word `i`, else the first after."""
    before = [p.name for k, p in sorted(line.places.items()) if k <= i]
    after = [p.name for k, p in sorted(line.places.items()) if k > i]
    return before[-1] if before else after[0] if after else None
