"""Stacked lumber: stickers, what the boards shrink by on the way to the target, and the usual time in the air."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.lengths import INCH
from journal.quantities.base import Answer, Book, Missing, Source, assumption, length, number, quantity
from journal.quantities.cautions import MOISTURE
from journal.quantities.drying import Stack, stacks
from journal.quantities.lot import Lot
from journal.quantities.lots import fits, name_of
from journal.quantities.lumber import section_sizes
from journal.quantities.moisture import FIBRE_SATURATION, thickness_time_ratio
from journal.quantities.shrinkage import shrinkage_both
from journal.quantities.species import Wood, wood, woods
from journal.quantities.stock import ledger
from journal.records import Filed, Stock

assumption("sticker spacing", "in", "24", "12 to 24 in. (Wengert, woodweb.com, read)", low="6", high="48")
assumption("boards per layer", "count", None, "how many boards lie side by side", low="1", high="60")


def _stacked(book: Book, place: str) -> Iterator[tuple[Filed[Stock], Lot]]:
    """What was stacked at a place, with its lot."""
    for filed in book.at(place, Stock):
        if filed.fact.event == "stacked" and (lot := ledger(book).lot_of(filed)) is not None:
            yield filed, lot


@quantity("width when dry", needs=("stacked boards with section and species", "moisture"), assumes=("moisture target",),
          caution=MOISTURE)  # fmt: skip
def width_when_dry(book: Book, place: str) -> Iterator[Answer]:
    """Width of the stacked boards at the target, flat-sawn and quarter-sawn, from their section at the newest reading.

    S (30 - M)/30 of green size, tangential and radial (Wood Handbook, Table 4-3); along the grain nothing.
    """
    for filed, lot in _stacked(book, place):
        stack = next((s for s in stacks(book, place) if _of_lot(s, lot)), None)
        if stack is None or lot.name.section is None:
            continue
        kind = wood(lot.name.species)
        target = float(stack.target)
        now = min(stack.readings[-1].moisture, FIBRE_SATURATION)
        if kind is None or now <= target:
            if kind is None and (several := woods(lot.name.species)):
                names = ", ".join(one.name for one in several[:4])
                say = f"{place} {lot.name.shown}: which {lot.name.species} is it ({names} …)? Shrinkage differs."
                yield Missing(name="width when dry", place=place, about=lot.name.shown, say=say)
            continue
        try:
            width = section_sizes(lot.name.section)[1]
        except ValueError:
            continue
        yield from _widths(
            place, lot, kind, width, (now, target), Source((filed.memo, *stack.memos), "", stack.doubts, stack.assumed)
        )


def _widths(
    place: str, lot: Lot, kind: Wood, width: Fraction, moisture: tuple[float, float], source: Source
) -> Iterator[Answer]:
    both = shrinkage_both(kind, width, *moisture)
    if both is None:
        return
    from_to = f"from {moisture[0]:g} % to {moisture[1]:g} %, {kind.name}"
    for cut, dry in zip(("flat-sawn", "quarter-sawn"), both, strict=True):
        yield length(f"width when dry, {cut}", place, dry, source, about=lot.name.shown, to=254, note=from_to)


def _of_lot(stack: Stack, lot: Lot) -> bool:
    words = set((lot.name.species or "").split()) | set((lot.name.what or "").split())
    return stack.what is None or set(stack.what.split()) <= words


@quantity(
    "stickers",
    needs=("stacked boards with length", "boards per layer"),
    assumes=("sticker spacing", "boards per layer"),
)
def stickers(book: Book, place: str) -> Iterator[Answer]:
    """Stickers of a stack: (ceil(length/spacing) + 1) x layers, layers = ceil(boards/boards per layer), bottom row counted."""
    for filed, lot in _stacked(book, place):
        count = filed.fact.count
        ticks = filed.fact.length_ticks or lot.name.length_ticks
        if not count or count < 0 or ticks is None or not fits(lot.name, name_of(filed.fact)):
            continue
        across, spacing = book.assume("boards per layer", place), book.assume("sticker spacing", place)
        if across.amount is None:
            say = f'{place} stickers need the boards per layer. Say: "assume boards per layer 5"'
            yield Missing(name="stickers", place=place, about=lot.name.shown, say=say)
            continue
        layers = ceil(Fraction(count) / across.value)
        total = sticker_count(Fraction(ticks, INCH), spacing.value, layers)
        note = f"in {layers} layers"
        yield number(
            "stickers", place, total, "count", Source((filed.memo,)), across, spacing, about=lot.name.shown, note=note
        )


def sticker_count(board_length: Fraction, spacing: Fraction, layers: int) -> int:
    """Stickers for layers of boards of a length in inches: (ceil(L/spacing) + 1) x layers; 144 at 24 in 8 layers: 56."""
    if spacing <= 0 or board_length <= 0 or layers < 0:
        raise ValueError("stickers need a length, a spacing and layers of more than nothing")
    return (ceil(board_length / spacing) + 1) * layers


@quantity("usual air-drying", needs=("stacked boards with species",), caution=MOISTURE)
def usual_air_drying(book: Book, place: str) -> Iterator[Answer]:
    """Days that such boards usually take in the air from green to 20 %, early and late in the year; a check on the trend.

    1-inch stock by FPL Technical Note 233 (1960; MOI-267 to 291); thicker stock by thickness^1.52 (MOI-293).
    """
    for filed, lot in _stacked(book, place):
        kind = wood(lot.name.species)
        if kind is None or kind.air_dry_days is None or lot.name.section is None:
            continue
        try:
            thickness = section_sizes(lot.name.section)[0]
        except ValueError:
            continue
        factor = thickness_time_ratio(float(max(thickness, Fraction(1))))
        low, high = (round(days * factor) for days in kind.air_dry_days)
        note = f"green to 20 %, {kind.name}; stacked in good drying weather or late in the year"
        source = Source((filed.memo,))
        yield number("usual air-drying", place, low, "days", source, about=lot.name.shown, shown=f"{low} to {high} days",
                     note=note, high=high)  # fmt: skip
