"""Hips, valleys and jacks on square corners and equal pitches; anything else is refused. Geometry only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, degrees, sqrt

from journal.lengths import INCH
from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    length,
    memo_names,
    number,
    quantity,
    root,
    show_length,
)
from journal.quantities.cautions import STRUCTURE
from journal.quantities.rafter import common_length, slope_factor
from journal.quantities.roof import Roof, has, is_roof, roof
from journal.quantities.square import diagonals_read

# a corner further out of square than this is no square corner (common practice)
_SQUARE = Fraction(1, 4)


def hip_length(run: Fraction, ratio: Fraction) -> Fraction:
    """Line length of a hip or valley over a common run: run * sqrt(2 + ratio²) = run * sqrt(288 + rise²) / 12.

    Square corner, equal pitches. Rows GEO-018 to 034, 166.
    """
    return run * root(2 + ratio * ratio)


def hip_run(run: Fraction) -> Fraction:
    """Level run of a hip over a common run on a square corner, run * sqrt 2. Rows GEO-165, 167."""
    return run * root(Fraction(2))


def hip_angle(ratio: Fraction) -> float:
    """Plumb cut of a hip or valley in degrees from square, atan(rise / (12 sqrt 2)). Rows GEO-120 to 136."""
    return degrees(atan(float(ratio) / sqrt(2)))


def jack_difference(spacing: Fraction, ratio: Fraction) -> Fraction:
    """How much one jack is longer than the next: spacing * sqrt(1 + ratio²). Rows GEO-035 to 068."""
    return spacing * slope_factor(ratio)


def half_diagonal_thickness(thickness: Fraction) -> Fraction:
    """Half the 45-degree thickness of a member, level: what a jack loses to a hip or a hip to a ridge."""
    return thickness * root(Fraction(2)) / 2


@dataclass(frozen=True, slots=True)
class _Hip:
    """A hip roof fit to be worked out: its roof, its slope and run."""

    roof: Roof
    ratio: Fraction
    run: Fraction
    basis: tuple[Basis, ...]


def refused(book: Book, place: str) -> Disagreement | None:
    """Why hips of a roof are not worked out: unequal pitches, or a corner that is not square."""
    found = roof(book, place).pitches
    if found.unequal:
        said = " and ".join(f"{pitch.shown}{f' ({pitch.side})' if pitch.side else ''}" for pitch in found.known)
        shown = f"{place} has slopes of {said} ({memo_names(found.memos)}): hips are worked out on equal pitches only. Draw it full size."
        return Disagreement(name="hip or valley", place=place, shown=shown, memos=found.memos)
    off = [f for f in book.of_dimension(place, "out of square").values() if abs(f.value) > _SQUARE]
    if off:
        shown = (
            f"{place} is {off[0].shown} out of square (memo {off[0].filed.memo}): hips are worked out on square corners only. "
            "Draw it full size."
        )
        return Disagreement(name="hip or valley", place=place, shown=shown, memos=off[0].memos)
    read = diagonals_read(book, place)
    if read is not None and len(read.values) == 2 and abs(read.values[0] - read.values[1]) > _SQUARE:
        memos = read.source.memos
        apart = show_length(abs(read.values[0] - read.values[1]))
        shown = f"the diagonals of {place} ({memo_names(memos)}) differ by {apart}: hips are worked out on square corners only."
        return Disagreement(name="hip or valley", place=place, shown=f"{shown} Draw it full size.", memos=memos)
    return None


def _hip(book: Book, place: str) -> _Hip | None:
    found = roof(book, place)
    pitch = found.pitches.one
    if pitch is None or found.run is None or found.run <= 0:
        return None
    return _Hip(found, pitch.ratio, found.run, (*found.run_basis, *pitch.basis))


@quantity(
    "hip or valley",
    needs=("run", "slope", "overhang"),
    assumes=("roof form",),
    caution=STRUCTURE,
)
def hip_or_valley(book: Book, place: str) -> Iterator[Answer]:
    """Line length, tail, plumb cut and ridge shortening of a hip or valley, square corner and equal pitches only, else refused.

    Line = run * sqrt(288 + rise²) / 12, cut = atan(rise / (12 sqrt 2)); at the ridge half its 45-degree thickness comes off,
    level (from memory). Rows GEO-018 to 034, 120 to 136, 165 to 167.
    """
    if not is_roof(book, place) or not has(book, place, "hip", "valley"):
        return
    if (why := refused(book, place)) is not None:
        yield why
        return
    if (found := _hip(book, place)) is None:
        return  # the common rafter says what is missing
    line = hip_length(found.run, found.ratio)
    yield length("hip or valley, line length", place, line, *found.basis)
    over = found.roof.overhang
    if over is not None and over.value >= 0:
        yield length("hip or valley, tail", place, hip_length(over.value, found.ratio), over, *found.basis)
        yield length(
            "hip or valley, overall", place, hip_length(found.run + over.value, found.ratio), over, *found.basis
        )
    cut = hip_angle(found.ratio)
    yield number(
        "hip or valley, plumb cut", place, cut, "deg", *found.basis, note=f"from square; seat cut {90 - cut:.1f}°"
    )
    if found.roof.ridge is not None:
        level = half_diagonal_thickness(found.roof.ridge)
        # half the 45-degree thickness is level along the hip, whose run is sqrt 2 of the common's
        along = level * root(2 + found.ratio**2) / root(Fraction(2))
        basis = (*found.basis, *found.roof.ridge_basis)
        note = f"{show_length(along, to=INCH // 32)} off for the ridge"
        yield length("hip or valley, line length less ridge", place, line - along, *basis, note=note)


@quantity("jack rafters", needs=("slope", "rafter spacing"), caution=STRUCTURE)
def jack_rafters(book: Book, place: str) -> Iterator[Answer]:
    """The difference between neighbouring jacks, spacing * sqrt(1 + slope²), and what each loses to the hip.

    Half the 45-degree hip thickness comes off level, times the slope factor along the jack (NAVEDTRA 14044, as read).
    Rows GEO-035 to 068.
    """
    if not is_roof(book, place) or not has(book, place, "hip", "valley") or refused(book, place) is not None:
        return
    found = _hip(book, place)
    pitch = roof(book, place).pitches.one
    if pitch is None:
        return
    for about, spacing in book.of_dimension(place, "spacing").items():
        if about is not None and not ({"rafter", "jack"} & set(about.split())):
            continue
        if spacing.value > 0:
            note = f"at {show_length(spacing.value)} on centre"
            yield length(
                "jacks differ by", place, jack_difference(spacing.value, pitch.ratio), spacing, *pitch.basis, note=note
            )
    if found is not None and (hip := _hip_thickness(book, place)) is not None:
        off = common_length(half_diagonal_thickness(hip.value), pitch.ratio)
        yield length("jacks shortened for the hip by", place, off, hip, *pitch.basis, to=INCH // 32)


def _hip_thickness(book: Book, place: str) -> Figure | None:
    for about, figure in book.of_dimension(place, "thickness").items():
        if about is not None and ({"hip", "valley"} & set(about.split())) and figure.value > 0:
            return figure
    return None
