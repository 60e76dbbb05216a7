"""Roof lines: commons, tails, cuts, birdsmouth, ridge, counts and area. Hips are in `hip`. Geometry only: sizes nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import cos, floor, radians, sin, tan

from journal.lengths import INCH
from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    Taken,
    assumption,
    length,
    number,
    quantity,
    root,
    show_length,
)
from journal.quantities.cautions import BIRDSMOUTH, STRUCTURE
from journal.quantities.lumber import dressed
from journal.quantities.roof import Roof, has, is_roof, lacking, roof
from journal.quantities.slopes import roof_angle
from journal.records import Stock

assumption(
    "birdsmouth seat",
    "in",
    None,
    "the level cut on the plate, as wide as its bearing; asked for until said",
    low="1/2",
    high="12",
)

# a remainder of spacing shorter than this is no place for another rafter
_REMAINDER = Fraction(1, 10**9)


# ---- geometry ------------------------------------------------------------------------------------------------------


def slope_factor(ratio: Fraction) -> Fraction:
    """Length along the slope for one of level run, sqrt(1 + (rise / run)²). Rows GEO-001 to 017 (times 12), 137 to 153."""
    return root(1 + ratio * ratio)


def common_length(run: Fraction, ratio: Fraction) -> Fraction:
    """Line length of a common rafter, run * sqrt(1 + ratio²), in the unit of the run. Rows GEO-163, 164."""
    return run * slope_factor(ratio)


def ridge_shortening(thickness: Fraction, ratio: Fraction) -> Fraction:
    """What half a ridge takes off along the rafter: half its thickness, measured level, times the slope factor."""
    return thickness / 2 * slope_factor(ratio)


def stud_count(run: Fraction, spacing: Fraction) -> int:
    """How many members at a spacing, one at each end: floor(length / spacing) + 1, and 1 more for a remainder."""
    if spacing <= 0 or run < 0:
        raise ValueError("a count needs a spacing above zero and a length that is not negative")
    whole = floor(run / spacing + _REMAINDER)
    return whole + 1 + (run - whole * spacing > _REMAINDER)


def roof_area(plan: Fraction, ratio: Fraction) -> Fraction:
    """Surface of a roof over a plan area, overhangs in it: plan * slope factor. Rows GEO-159, 160."""
    return plan * slope_factor(ratio)


@dataclass(frozen=True, slots=True)
class Birdsmouth:
    """A seat cut: heel cut (plumb), depth square to the edge, and the height of the rafter above the plate, in inches."""

    heel: Fraction
    depth: float
    above_plate: float


def birdsmouth(seat: Fraction, rafter_depth: Fraction, ratio: Fraction) -> Birdsmouth:
    """Heel = seat * ratio; depth = seat * sin A; above the plate = rafter depth / cos A - seat * tan A, with A the roof angle."""
    angle = radians(roof_angle(ratio))
    return Birdsmouth(
        seat * ratio, float(seat) * sin(angle), float(rafter_depth) / cos(angle) - float(seat) * tan(angle)
    )


def ridge_top(plate: Fraction, above_plate: Fraction, run: Fraction, thickness: Fraction, ratio: Fraction) -> Fraction:
    """Height of the top of the ridge: plate + height above plate + (run - half the ridge) * ratio."""
    return plate + above_plate + (run - thickness / 2) * ratio


@quantity(
    "common rafter",
    needs=("run or span", "slope", "overhang"),
    assumes=("roof form",),
    caution=STRUCTURE,
)
def common_rafter(book: Book, place: str) -> Iterator[Answer]:
    """Line length, tail and overall of a common rafter, and each less the ridge where its thickness is known.

    Line = run * s, tail = overhang * s, s = sqrt(1 + slope²); the run goes from the outside of the plate to the centre of
    the ridge, level; half the ridge comes off level, thickness / 2 * s along the rafter. Rows GEO-001 to 017, 163, 164.
    """
    if not is_roof(book, place):
        return
    found = roof(book, place)
    yield from lacking(found)
    if found.run is None or found.run <= 0:
        return
    for pitch in found.pitches.known:
        basis: list[Basis] = [*found.run_basis, *pitch.basis]
        line = common_length(found.run, pitch.ratio)
        yield length("common rafter, line length", place, line, *basis, about=pitch.side)
        whole = line
        if found.overhang is None:
            say = f'{place} rafter tail needs the overhang. Say: "{place} overhang …"'
            yield Missing(name="common rafter, tail", place=place, about="overhang", say=say)
        elif found.overhang.value < 0:
            shown = f"{place} overhang {found.overhang.shown} (memo {found.overhang.filed.memo}) is no overhang. Say it again."
            yield Disagreement(name="common rafter, tail", place=place, shown=shown, memos=found.overhang.memos)
        else:
            basis.append(found.overhang)
            tail = common_length(found.overhang.value, pitch.ratio)
            whole = line + tail
            yield length("common rafter, tail", place, tail, found.overhang, *pitch.basis, about=pitch.side)
            yield length("common rafter, overall", place, whole, *basis, about=pitch.side)
        if found.ridge is not None:
            off = ridge_shortening(found.ridge, pitch.ratio)
            note = f"{show_length(off, to=INCH // 32)} off for the ridge"
            basis += found.ridge_basis
            lengths = {"line length": line} | ({"overall": whole} if whole != line else {})
            for what, inches in lengths.items():
                name = f"common rafter, {what} less ridge"
                yield length(name, place, inches - off, *basis, about=pitch.side, note=note)
    yield from _said_lengths(book, found)


def _said_lengths(book: Book, found: Roof) -> Iterator[Disagreement]:
    """Rafters that were cut for the roof against the length worked out from the facts on file."""
    pitch = found.pitches.one
    if pitch is None or found.run is None or found.overhang is None:
        return
    whole = common_length(found.run + found.overhang.value, pitch.ratio)
    if found.ridge is not None:
        whole -= ridge_shortening(found.ridge, pitch.ratio)
    for filed in book.at(found.place, Stock):
        stock = filed.fact
        if stock.event != "cut" or stock.what != "rafter" or stock.length_ticks is None:
            continue
        off = abs(Fraction(stock.length_ticks, INCH) - whole)
        if off > Fraction(1, 16):
            said = show_length(Fraction(stock.length_ticks, INCH))
            shown = (
                f"{found.place} rafters were cut at {said} (memo {filed.memo}); worked out they are {show_length(whole)}: "
                f"{show_length(off)} apart."
            )
            yield Disagreement(name="common rafter", place=found.place, shown=shown, memos=(filed.memo,))


@quantity(
    "birdsmouth",
    needs=("slope", "seat", "depth of the rafter"),
    assumes=("birdsmouth seat",),
    caution=BIRDSMOUTH,
)
def birdsmouth_of(book: Book, place: str) -> Iterator[Answer]:
    """Heel cut, depth square to the edge and height above the plate of the seat cut, and from it the top of the ridge.

    Heel = seat * rise / 12; depth = seat * sin A; above plate = depth of rafter / cos A - seat * tan A; ridge top = plate
    height + that + (run - half the ridge) * rise / 12. Forgetting the height above the plate sets a ridge 4 to 8 in. low.
    """
    if not is_roof(book, place):
        return
    found, seat = roof(book, place), _seat(book, place)
    pitch = found.pitches.one
    plate = book.newest(place, None, "plate height")
    if pitch is None or (seat is None and plate is None):
        return
    deep = _rafter_depth(book, place)
    for what, basis in (("birdsmouth seat", seat), ("depth of the rafter", deep)):
        if basis is None:
            said = "birdsmouth seat …" if what == "birdsmouth seat" else "rafter depth …"
            say = f'{place} birdsmouth needs the {what}. Say: "{place} {said}"'
            yield Missing(name="birdsmouth", place=place, about=what, say=say)
    if seat is None or deep is None:
        return
    depth, depth_basis = deep
    if seat.value <= 0 or depth <= 0:
        memos = tuple(sorted({*seat.memos, *depth_basis.memos}))
        shown = (
            f"{place} birdsmouth: a seat of {show_length(seat.value)} in a rafter {show_length(depth)} deep makes none."
        )
        yield Disagreement(name="birdsmouth", place=place, shown=shown, memos=memos)
        return
    cut = birdsmouth(seat.value, depth, pitch.ratio)
    uses = (*pitch.basis, seat)
    if cut.depth >= depth:
        memos = tuple(sorted({memo for one in (*uses, depth_basis) for memo in one.memos}))
        shown = f"{place} birdsmouth would go right through the rafter: seat {show_length(seat.value)}, rafter {show_length(depth)}."
        yield Disagreement(name="birdsmouth", place=place, shown=shown, memos=memos)
        return
    above = Fraction(cut.above_plate)
    yield length("birdsmouth, heel cut", place, cut.heel, *uses)
    yield length("birdsmouth, depth square to the edge", place, Fraction(cut.depth), *uses)
    yield length("height above plate", place, above, *uses, depth_basis)
    if plate is not None and found.run is not None and found.run > 0:
        thickness = found.ridge or Fraction(0)
        top = ridge_top(plate.value, above, found.run, thickness, pitch.ratio)
        note = "" if thickness else "no ridge thickness said"
        every = (*uses, depth_basis, plate, *found.run_basis, *found.ridge_basis)
        yield length("ridge top", place, top, *every, caution=STRUCTURE, note=note)
    elif plate is None and found.form.word != "ledger":
        say = f'{place} ridge height needs the plate height. Say: "{place} plate height …"'
        yield Missing(name="ridge top", place=place, about="plate height", say=say)


def _seat(book: Book, place: str) -> Figure | Taken | None:
    for dimension in ("length", "width", "depth", "other"):
        for about, figure in book.of_dimension(place, dimension).items():
            if about is not None and "seat" in about.split():
                return figure
    taken = book.assume("birdsmouth seat", place)
    return taken if taken.amount is not None else None


def _rafter_depth(book: Book, place: str) -> tuple[Fraction, Basis] | None:
    """The depth of the rafters: measured, else the dressed size of the section that was cut or used here."""
    for dimension in ("depth", "width", "height", "size"):
        for about, figure in book.of_dimension(place, dimension).items():
            if about in ("rafter", "rafter stock", "common rafter"):
                return max(figure.repeats or (figure.value,)), figure
    for filed in reversed(book.at(place, Stock)):
        stock = filed.fact
        if stock.what != "rafter" or stock.section is None:
            continue
        try:
            depth = max(dressed(stock.section))
        except ValueError:
            continue
        note = f"rafter {stock.section} dressed, {show_length(depth)} deep"
        return depth, Source((filed.memo,), assumed=(note,))
    return None


@quantity("rafter count", needs=("length", "rafter spacing"), caution=STRUCTURE)
def rafter_count(book: Book, place: str) -> Iterator[Answer]:
    """Common rafters on one slope: floor(length / spacing) + 1, one more for a remainder. Those of a hip roof are not counted."""
    if not is_roof(book, place) or has(book, place, "hip"):
        return
    long, spacing = book.newest(place, None, "length"), _spacing(book, place)
    if long is None and spacing is None:
        return
    for what, figure in (("length", long), ("rafter spacing", spacing)):
        if figure is None:
            say = f'{place} rafter count needs the {what}. Say: "{place} {what} …"'
            yield Missing(name="rafter count", place=place, about=what, say=say)
        elif figure.value <= 0:
            shown = f"{place} {what} is {figure.shown} (memo {figure.filed.memo}): no rafters can be counted with it."
            yield Disagreement(name="rafter count", place=place, shown=shown, memos=figure.memos)
    if long is not None and spacing is not None and long.value > 0 and spacing.value > 0:
        count = stud_count(long.value, spacing.value)
        note = f"on one slope, {show_length(spacing.value)} on centre in {long.shown}"
        yield number("rafter count", place, count, "count", long, spacing, note=note)


def _spacing(book: Book, place: str) -> Figure | None:
    spacings = book.of_dimension(place, "spacing")
    return next(
        (f for about, f in spacings.items() if about is not None and "rafter" in about.split()), None
    ) or spacings.get(None)


@quantity("roof area", needs=("run or span", "slope", "length", "overhang"), assumes=("roof form",))
def roof_area_of(book: Book, place: str) -> Iterator[Answer]:
    """Surface in ft²: plan area with its overhang, times sqrt(1 + slope²). One slope where the run was said. Rows GEO-159, 160.

    The overhang counts at the eaves; what stands over at the ends is part of the length as said.
    """
    if not is_roof(book, place):
        return
    found, long = roof(book, place), book.newest(place, None, "length")
    pitch = found.pitches.one
    if pitch is None or found.run is None or found.run <= 0:
        return
    if long is None:
        say = f'{place} area needs the length. Say: "{place} length …"'
        yield Missing(name="roof area", place=place, about="length", say=say)
        return
    if long.value <= 0:
        return
    over = max(Fraction(0), found.overhang.value) if found.overhang is not None else Fraction(0)
    both = book.newest(place, None, "run") is None and found.form.word != "ledger"
    area = roof_area((found.run + over) * long.value, pitch.ratio) * (2 if both else 1)
    note = ("both slopes" if both else "one slope") + ("" if found.overhang is not None else ", no overhang said")
    yield number("roof area", place, area / 144, "ft2", *found.run_basis, *pitch.basis, long, found.overhang, note=note)
