"""Figures that have to agree with another: a wall and the gable over it, a diagonal and its sides.

Nothing is decided here: the odd one carries a doubt that shows the other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot
from typing import TypeGuard

from journal.lengths import INCH, format_length
from journal.records import Doubt, Fact, Measure

Slot = tuple[str | None, str | None, str]
"""What one figure is of: place, thing and dimension."""

_TWINS = (("wall", "length", "gable", "base width"), ("gable", "base width", "wall", "length"))


def twin(fact: Measure, figures: Mapping[Slot, int]) -> list[Doubt]:
    """A wall and the gable over it are as long as each other: asked where the other figure is more than two inches off."""
    if fact.place is None or fact.about is not None:
        return []
    for here, dimension, there, other in _TWINS:
        if fact.dimension != dimension or here not in fact.place.split():
            continue
        place = fact.place.replace(here, there)
        on_file = figures.get((place, None, other))
        if on_file is not None and abs(on_file - fact.ticks) > 2 * INCH:
            shown = f"{format_length(fact.ticks)}: the {other} of {place} is {format_length(on_file)}"
            return [Doubt("twin", shown, fact.evidence, (format_length(on_file),))]
    return []


def askew(fact: Measure, facts: Sequence[Fact], on_file: Mapping[Slot, int]) -> list[Doubt]:
    """A diagonal is the square root of a^2 + b^2 of its sides: asked where it is more than a fiftieth off."""
    if fact.dimension != "diagonal":
        return []
    other = next((f for f in facts if _is_other_diagonal(f, fact)), None)
    if other is not None and abs(other.ticks - fact.ticks) * 50 > fact.ticks:
        shown = f"{format_length(fact.ticks)}: the other diagonal is {format_length(other.ticks)}"
        return [Doubt("twin", shown, fact.evidence, (format_length(other.ticks),))]
    sides = _sides(fact, facts, on_file)
    if sides is None:
        return []
    square = round(hypot(*sides) / INCH) * INCH
    if abs(square - fact.ticks) * 50 <= square:
        return []
    one, two = (format_length(side) for side in sides)
    shown = f"{format_length(fact.ticks)}: sides of {one} and {two} have a diagonal of about {format_length(square)}"
    return [Doubt("twin", shown, fact.evidence, (format_length(square),))]


def _is_other_diagonal(fact: Fact, one: Measure) -> TypeGuard[Measure]:
    same = (
        isinstance(fact, Measure)
        and fact.dimension == "diagonal"
        and (fact.place, fact.about) == (one.place, one.about)
    )
    return same and fact is not one


def _sides(fact: Measure, facts: Sequence[Fact], on_file: Mapping[Slot, int]) -> tuple[int, int] | None:
    """The two sides of what a diagonal is of, in ticks: of the same memo, else on file."""
    same = [f for f in facts if isinstance(f, Measure) and f.place == fact.place and f.about == fact.about]
    sizes = [f.ticks for f in same if f.dimension == "size"]
    if len(sizes) == 2:
        return sizes[0], sizes[1]
    said = {f.dimension: f.ticks for f in same}
    found = [said.get(name) or on_file.get((fact.place, fact.about, name), 0) for name in ("length", "width", "height")]
    given = [side for side in found if side]
    return (given[0], given[1]) if len(given) == 2 else None
