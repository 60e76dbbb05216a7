"""The slope of a roof or gable: as said, or kept as the ratio of a rise and a run. Knows nothing of lengths along it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, degrees

from journal.quantities.base import (
    THIRTY_SECOND,
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    number,
    quantity,
    show_length,
    word,
)

# slopes beyond this (48 in 12) are taken for a mishearing, not a roof
_STEEPEST = Fraction(4)
_FITS = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Pitch:
    """Rise over run with what it rests on. `side` tells unequal slopes apart ("left side")."""

    ratio: Fraction
    basis: tuple[Basis, ...]
    side: str | None = None
    worked_out: bool = False

    @property
    def in_twelve(self) -> Fraction:
        """The rise in twelve of run."""
        return self.ratio * 12

    @property
    def shown(self) -> str:
        """``8/12``, ``7.963/12``."""
        return f"{float(self.in_twelve):.4g}/12"


@dataclass(frozen=True, slots=True)
class Pitches:
    """The slopes of a place: none, one, or several that differ; and what makes no sense about them."""

    known: tuple[Pitch, ...] = ()
    nonsense: tuple[Disagreement, ...] = ()

    @property
    def one(self) -> Pitch | None:
        """The slope where it is the same all over, else None."""
        return self.known[0] if self.known and len({pitch.ratio for pitch in self.known}) == 1 else None

    @property
    def unequal(self) -> bool:
        """Whether two sides differ."""
        return len({pitch.ratio for pitch in self.known}) > 1

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind them."""
        return tuple(sorted({memo for pitch in self.known for one in pitch.basis for memo in one.memos}))


def roof_angle(ratio: Fraction) -> float:
    """Degrees from level, atan(rise / run)."""
    return degrees(atan(ratio))


def pitches(book: Book, place: str) -> Pitches:
    """The slopes said of a place, or the one that its rise and run make, kept as the ratio."""
    known, nonsense = [], []
    said = book.of_dimension(place, "slope")
    if not said and word(place, "gable", "dormer"):
        said = book.of_dimension(f"{place} roof", "slope")
    for about, figure in said.items():
        if not 0 < figure.value <= _STEEPEST:
            shown = f"the slope of {place} is {figure.shown} (memo {figure.filed.memo}): that is no roof. Say it again."
            nonsense.append(Disagreement(name="slope", place=place, shown=shown, memos=figure.memos))
        else:
            known.append(Pitch(figure.value, (figure,), about))
    if not known and not nonsense and (pair := rise_and_run(book, place)):
        rise, run = pair
        if run.value > 0 and 0 < rise.value / run.value <= _STEEPEST:
            known.append(Pitch(rise.value / run.value, (rise, run), worked_out=True))
    return Pitches(tuple(known), tuple(nonsense))


def rise_and_run(book: Book, place: str) -> tuple[Figure, Figure] | None:
    """The rise and run measured of a roof or gable itself, both level and plumb; of stairs they are one step's."""
    if word(place, "stair", "stairs", "steps", "ramp"):
        return None
    rise, run = book.newest(place, None, "rise"), book.newest(place, None, "run")
    return (rise, run) if rise is not None and run is not None else None


@quantity("slope from rise and run", needs=("rise", "run"))
def slope_from_rise_and_run(book: Book, place: str) -> Iterator[Answer]:
    """12 * rise / run, kept as the ratio and not snapped to a whole pitch; the nearest one and its miss at the end of the run.

    The miss is along the plumb line: run * |ratio - nearest / 12|, to 1/32. A slope that was said beside it is checked.
    """
    pair = rise_and_run(book, place)
    if pair is None:
        return
    rise, run = pair
    if run.value <= 0 or rise.value <= 0:
        memos = tuple(sorted({*rise.memos, *run.memos}))
        shown = f"{place} rise {rise.shown} (memo {rise.filed.memo}) and run {run.shown} (memo {run.filed.memo}) make no slope."
        yield Disagreement(name="slope from rise and run", place=place, shown=shown, memos=memos)
        return
    ratio = rise.value / run.value
    nearest = max(1, round(ratio * 12))
    miss = run.value * abs(ratio - Fraction(nearest, 12))
    angle = f"{roof_angle(ratio):.1f}°"
    beside = (
        "exactly"
        if not miss
        else f"nearest {nearest}/12 misses by {show_length(miss, to=THIRTY_SECOND)} at the end of the run"
    )
    shown = f"{float(ratio * 12):.3f}/12 = {angle}, {beside}"
    yield number("slope from rise and run", place, ratio * 12, "in 12", rise, run, decimals=3, shown=shown)
    for about, said in book.of_dimension(place, "slope").items():
        off = run.value * abs(ratio - said.value)
        if about is None and off > _FITS:
            memos = tuple(sorted({*said.memos, *rise.memos, *run.memos}))
            told = (
                f"{place} slope {said.shown} (memo {said.filed.memo}) and its rise {rise.shown} in run {run.shown} "
                f"(memo {rise.filed.memo}) differ by {show_length(off, to=THIRTY_SECOND)} at the end of the run."
            )
            yield Disagreement(name="slope", place=place, shown=told, memos=memos)


@quantity("roof angle", needs=("slope",))
def roof_angle_of(book: Book, place: str) -> Iterator[Answer]:
    """The angle from level in degrees, atan(rise / 12): also the plumb cut from square, and 90 less it the seat cut.

    Check rows GEO-103 to GEO-119.
    """
    if word(place, "stair", "stairs", "steps", "ramp", "floor"):
        return
    found = pitches(book, place)
    yield from found.nonsense
    for pitch in found.known:
        angle = roof_angle(pitch.ratio)
        note = f"plumb cut from square; seat cut {90 - angle:.1f}°"
        yield number("roof angle", place, angle, "deg", *pitch.basis, about=pitch.side, note=note)
