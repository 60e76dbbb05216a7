"""Nails of a place: how many its boards take, pounds of them, and how far they go in.

Arithmetic, not an approval: whether a nail is enough is refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.lengths import INCH
from journal.quantities.base import (
    Answer,
    Book,
    Figure,
    Missing,
    Source,
    assumption,
    length,
    memo_names,
    number,
    quantity,
)
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
    style_of,
    toenail_penetration,
)
from journal.quantities.place_plan import BOARDS
from journal.quantities.stock import ledger
from journal.records import Filed, Stock, Task

assumption("nails a bearing", "count", "2", "two until said (common practice)", low="1", high="10")
assumption("nail waste", "%", "10", "bent and dropped nails (common practice)", low="0", high="100")
assumption(
    "strapping thickness", "in", "3/4", "1-inch strapping, dressed; 0 where boards go on without", low="0", high="4"
)

_NAIL = re.compile(r"\bnails?\b|\bsinkers?\b")
_TOE_NAIL = re.compile(r"\btoe[ -]?nail")
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
    penny, style, source = found
    try:
        net = pounds(count, waste.value, nails_per_pound(penny, style))
    except ValueError as error:
        say = f"{place} pounds of nails: {error} ({memo_names(source.memos)}). Say which nail it is."
        yield Missing(name="pounds of nails", place=place, about="nail", say=say)
        return
    by = "lists differ by 15 %" if style == "common" else "by the volume of the shank, ±15 %"
    note = f"of {_called(penny, style)}, {ceil(net)} to buy; {by}"
    yield number(
        "pounds of nails",
        place,
        net,
        "lb",
        *listed.basis,
        spacing,
        each,
        waste,
        source,
        note=note,
        penny=penny,
        style=style,
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


def _called(penny: int, style: str) -> str:
    """A nail as it is named: ``8d``, ``16d sinker``."""
    return f"{penny}d" if style == "common" else f"{penny}d {style}"


def _nails_at(book: Book, place: str) -> tuple[int, str, Source] | None:
    """The penny size and style of the nails used at a place, else of the only nails in the book."""
    stock = ledger(book)
    used = [lot for filed in book.at(place, Stock) if (lot := stock.lot_of(filed)) is not None]
    for lots in (used, list(stock.lots)):
        kinds: dict[tuple[int, str], list[Lot]] = {}
        for lot in lots:
            penny = penny_of(lot.name.what)
            if penny is not None and _NAIL.search(lot.name.what or ""):
                kinds.setdefault((penny, style_of(lot.name.what)), []).append(lot)
        if len(kinds) == 1:
            (penny, style), found = next(iter(kinds.items()))
            return penny, style, Source(tuple(sorted({memo for lot in found for memo in lot.memos})))
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
    penny, style, source = found
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
    through, called = "board and strapping" if strapped else "board", _called(penny, style)
    try:
        nail = nail_length(penny, sinker=style == "sinker")
        least = least_penetration("nail", float(nail_diameter(penny, style)))
    except ValueError as error:
        say = f"{place} nail penetration: {error} ({memo_names(source.memos)}). Say which nail it is."
        yield Missing(name="nail penetration", place=place, about=called, say=say)
        return
    try:
        left = penetration(nail, *between)
    except ValueError:
        say = f"{place}: a {called} nail does not reach through {through}. Say which nail it is."
        yield Missing(name="nail penetration", place=place, about=called, say=say)
        return
    shorter = ". Sinkers are shorter" if style == "common" else ""
    note = f"of a {called} behind {through}; six diameters are {least:.2f} in{shorter or '.'}"
    yield length("nail penetration", place, left, *basis, about=called, note=note)
    toe = next((filed for filed in book.at(place, Task) if _TOE_NAIL.search(filed.fact.do.casefold())), None)
    if toe is not None:
        into = Fraction(toenail_penetration(float(nail)))
        note = f"of a {called}, driven at 30° a third of its length from the end"
        yield length("toe-nail penetration", place, into, source, Source((toe.memo,)), about=called, note=note)


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
