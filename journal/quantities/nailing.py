"""Nails of a place: how many its boards take, pounds of them, and how far they go in.

Arithmetic, not an approval: whether a nail is enough is refused.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.lengths import INCH
from journal.quantities.base import Answer, Book, Figure, Missing, Source, assumption, length, number, quantity
from journal.quantities.cautions import NAILS
from journal.quantities.cuts import CutList, cut_list
from journal.quantities.gable import is_gable
from journal.quantities.lot import Lot
from journal.quantities.lumber import dressed
from journal.quantities.nails import (
    bearings,
    least_penetration,
    nail_diameter,
    nail_length,
    nails_per_pound,
    penetration,
    penny_of,
    pounds,
)
from journal.quantities.place_plan import BOARDS
from journal.quantities.stock import ledger
from journal.records import Filed, Stock

assumption("nails a bearing", "count", "2", "two until said (common practice)", low="1", high="10")
assumption("nail waste", "%", "10", "bent and dropped nails (common practice)", low="0", high="100")
assumption(
    "strapping thickness", "in", "3/4", "1-inch strapping, dressed; 0 where boards go on without", low="0", high="4"
)

_SUPPORTS = ("strapping", "strap", "stud", "batten", "furring", "nailer", "girt", "purlin", "joist", "rafter")


@quantity(
    "nails",
    needs=("cut list", "spacing of the strapping or studs", "nails used or received"),
    assumes=("nails a bearing", "nail waste"),
    caution=NAILS,
)
def nails_for_boards(book: Book, place: str) -> Iterator[Answer]:
    """Nails for the boards of a place and pounds of them: nails a bearing x (floor(length/spacing) + 1) of every piece.

    Pounds = nails x (1 + waste)/nails a pound (retail list, +-15 %), bought to the next whole pound.
    """
    if not is_gable(book, place):
        return
    listed = cut_list(book, place)
    spacing = _spacing(book, place)
    found = _nails_at(book, place)
    if not listed.pieces or (spacing is None and found is None):
        return
    if spacing is None:
        say = f'{place} nails need the spacing of what the boards are nailed to. Say: "{place} strapping sixteen on centre"'
        yield Missing(name="nails", place=place, about="spacing", say=say)
        return
    each, waste = book.assume("nails a bearing", place), book.assume("nail waste", place)
    count = nail_count(listed, spacing.value, int(each.value))
    yield number("nails", place, count, "count", *listed.basis, spacing, each, note=f"in {len(listed.pieces)} pieces")
    if found is None:
        say = f'{place} pounds of nails need the kind of nail. Say: "received ten pounds of eight penny nails"'
        yield Missing(name="pounds of nails", place=place, about="nail", say=say)
        return
    penny, source = found
    net = pounds(count, waste.value, nails_per_pound(penny))
    note = f"of {penny}d, {ceil(net)} to buy; lists differ by 15 %"
    yield number(
        "pounds of nails", place, net, "lb", *listed.basis, spacing, each, waste, source, note=note, penny=penny
    )


def nail_count(listed: CutList, spacing: Fraction, each: int) -> int:
    """Nails for every piece of a list, by its long point rounded up to 1/16 and the spacing of what it crosses."""
    return sum(each * bearings(Fraction(piece.pack_ticks, INCH), spacing) for piece in listed.pieces)


def _spacing(book: Book, place: str) -> Figure | None:
    """The spacing of what boards are nailed to: strapping first, then studs and the like."""
    spacings = book.of_dimension(place, "spacing")
    for support in _SUPPORTS:
        for about, figure in spacings.items():
            if about is not None and support in about.split() and figure.value > 0:
                return figure
    return spacings.get(None)


def _nails_at(book: Book, place: str) -> tuple[int, Source] | None:
    """The penny size of the nails used at a place, else of the only nails in the book."""
    stock = ledger(book)
    used = [lot for filed in book.at(place, Stock) if (lot := stock.lot_of(filed)) is not None]
    for lots in (used, list(stock.lots)):
        kinds: dict[int, list[Lot]] = {}
        for lot in lots:
            penny = penny_of(lot.name.what)
            if penny is not None and "nail" in (lot.name.what or ""):
                kinds.setdefault(penny, []).append(lot)
        if len(kinds) == 1:
            penny, found = next(iter(kinds.items()))
            return penny, Source(tuple(sorted({memo for lot in found for memo in lot.memos})))
    return None


@quantity("nail penetration", needs=("kind of nail", "boards used"), assumes=("strapping thickness",), caution=NAILS)
def nail_penetration(book: Book, place: str) -> Iterator[Answer]:
    """How far a nail goes into what is behind: its length less board and strapping; beside it six diameters (NDS 2018).

    Board thickness as measured, else dressed (PS 20). What holds enough is for the code.
    """
    used = [filed for filed in book.at(place, Stock) if filed.fact.event in ("used", "cut")]
    found = _nails_at(book, place)
    if found is None:
        return
    penny, source = found
    on = [(filed, lot) for filed in used if (lot := ledger(book).lot_of(filed)) is not None and lot.name.section]
    boards = [filed for filed, lot in on if BOARDS & set((lot.name.what or "").split())]
    lots = [lot for filed, lot in on if filed in boards]
    if not lots:
        return
    section = lots[0].name.section or ""
    thickness = _thickness(book, place, section)
    if thickness is None:
        return
    board, board_source = thickness
    strapped = any(about and "strap" in about for about in book.of_dimension(place, "spacing"))
    strapping = book.assume("strapping thickness", place)
    between = [board, *([strapping.value] if strapped else [])]
    basis = (source, board_source, strapping if strapped else None, Source(_memos(boards)))
    through = "board and strapping" if strapped else "board"
    try:
        left = penetration(nail_length(penny), *between)
    except ValueError:
        say = f"{place}: a {penny}d nail does not reach through {through}. Say which nail it is."
        yield Missing(name="nail penetration", place=place, about=f"{penny}d", say=say)
        return
    least = least_penetration("nail", float(nail_diameter(penny)))
    note = f"of a {penny}d behind {through}; six diameters are {least:.2f} in. Sinkers are shorter"
    yield length("nail penetration", place, left, *basis, about=f"{penny}d", note=note)


def _thickness(book: Book, place: str, section: str) -> tuple[Fraction, Source | Figure] | None:
    for where in (place, None):
        for about, figure in book.of_dimension(where, "thickness").items():
            if about is not None and (section in about.split() or "board" in about.split()) and figure.value > 0:
                return figure.value, figure
    try:
        return dressed(section)[0], Source(
            assumed=(f"{section} dressed to {float(dressed(section)[0]):g} in. (PS 20)",)
        )
    except ValueError:
        return None


def _memos(filed: list[Filed[Stock]]) -> tuple[int, ...]:
    return tuple(sorted({one.memo for one in filed}))
