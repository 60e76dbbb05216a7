"""What covers a wall or gable: boards by their face, sheets, felt or wrap, insulation. And finish and abrasives on it.

Areas are the net ones of the wall and gable families; only what was spoken of is worked out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Missing,
    Source,
    Value,
    assumption,
    number,
    quantity,
    show_length,
)
from journal.quantities.book import once
from journal.quantities.cautions import DUST, FINISH
from journal.quantities.coverage import (
    board_foot_factor,
    insulation_material,
    insulation_value,
    lineal_feet,
    sheet_area_ft2,
    strips,
    whole_sheets,
)
from journal.quantities.cuts import cut_list
from journal.quantities.gable import gable_area, is_gable
from journal.quantities.log_wall import log_wall
from journal.quantities.lot import Lot
from journal.quantities.lumber import section_sizes
from journal.quantities.stock import ledger
from journal.quantities.wall import is_wall, net_wall_area, wall_height
from journal.records import Stock, Task

SIDING_WASTE = assumption(
    "siding waste", "%", "10", "trim and waste, not for diagonal work (WWPA coverage estimator)", low="0", high="100"
)
assumption("sheet waste", "%", "0", "none until said; a layout beats a share", low="0", high="100")
assumption("sheet size", "choice", "4x8", "sheets are 4 x 8 ft until said",
           choices=("4x8", "4x9", "4x10", "4x4", "2x8", "2x4"))  # fmt: skip
assumption("felt width", "in", "36", "felt and paper come 36 in. wide; set it for wrap", low="6", high="144")
assumption(
    "roll length", "in", "1728", "a square and a half of felt, 144 ft a roll (common practice)", low="120", high="4800"
)
assumption("level lap", "in", "2", "IRC R703.2 as read at up.codes", low="0", high="24")
assumption("end lap", "in", "6", "IRC R703.2 as read at up.codes", low="0", high="48")
assumption("finish coverage", "count", None, "from the label, in ft² a gallon; rough wood takes up to twice (common practice)",
           low="20", high="1000", per=" ft²/gal")  # fmt: skip
assumption("coats", "count", "2", "two coats until said (common practice)", low="1", high="6")
assumption("finish waste", "%", "10", "until said", low="0", high="100")

_SHEETS = re.compile(r"\b(sheet|plywood|osb|drywall|panel)\b")
_FELT = re.compile(r"\b(felt|wrap|building paper|tar paper)\b")
_FOAM = re.compile(r"\b(foam|batt|insulation|polystyrene|wool)\b")
_FINISHES = re.compile(r"\b(stain|oil|varnish|paint|finish|sealer|primer)\b")
_ABRASIVES = re.compile(r"\b(brush|disc|disk|belt|pad|wheel|sandpaper|flap)\b")


@once
def net_area(book: Book, place: str) -> Value | None:
    """The net area of a wall or gable in ft², None where it is not known."""
    work, name = (gable_area, "net gable area") if is_gable(book, place) else (net_wall_area, "net wall area")
    if not is_gable(book, place) and not is_wall(book, place):
        return None
    found = [answer for answer in work(book, place) if isinstance(answer, Value)]
    return next((value for value in found if value.name == name), None) or next(
        (value for value in found if value.name == "gable area"), None
    )


def _basis(area: Value) -> Source:
    return Source(area.memos, area.mark, area.doubts, area.assumed)


def _spoken_of(book: Book, place: str, pattern: re.Pattern[str]) -> list[Lot]:
    """The lots of the place, or of no place, whose name has one of these words."""
    lots = {id(lot): lot for lot in (*_named_at(book, place, pattern), *_named_nowhere(book, pattern.pattern))}
    return list(lots.values())


@once
def _named_nowhere(book: Book, pattern: str) -> tuple[Lot, ...]:
    return _named_at(book, None, re.compile(pattern))


def _named_at(book: Book, place: str | None, pattern: re.Pattern[str]) -> tuple[Lot, ...]:
    named = [one for one in book.at(place, Stock) if one.fact.what and pattern.search(one.fact.what.casefold())]
    return tuple(lot for one in named if (lot := ledger(book).lot_of(one)) is not None)


@quantity("siding", needs=("net area", "face width"), assumes=("siding waste",))
def siding(book: Book, place: str) -> Iterator[Answer]:
    """Feet and board feet of siding: area x (1 + waste) x 12/face, and x nominal width/face (WWPA; COV-001 to 028)."""
    if not is_gable(book, place):
        return
    listed, area = cut_list(book, place), net_area(book, place)
    if area is None or area.exact is None or not listed.face or listed.face <= 0:
        return
    waste = book.assume("siding waste", place)
    basis: tuple[Basis, ...] = (_basis(area), *listed.basis, waste)
    feet = lineal_feet(area.exact, listed.face, waste.value)
    bare = lineal_feet(area.exact, listed.face)
    face = show_length(listed.face)
    yield number(
        "siding", place, feet, "ft", *basis, note=f"of boards covering {face}; {float(bare):.1f} without waste"
    )
    section = next((part for one in listed.basis for part in _sections(one)), None)
    if section is not None:
        thickness, width = section_sizes(section)
        board_feet = area.exact * (1 + waste.value / 100) * board_foot_factor(thickness, width, listed.face)
        net = area.exact * board_foot_factor(thickness, width, listed.face)
        yield number(
            "siding, board feet", place, board_feet, "bf", *basis, note=f"of {section}; {float(net):.1f} without waste"
        )


def _sections(basis: Basis) -> Iterator[str]:
    """The section named in what a figure was said of ("1x8 pine")."""
    about = getattr(getattr(getattr(basis, "filed", None), "fact", None), "about", None)
    for word in (about or "").split():
        try:
            section_sizes(word)
        except ValueError:
            continue
        yield word


@quantity("sheets", needs=("net area", "sheets spoken of"), assumes=("sheet size", "sheet waste"))
def sheets(book: Book, place: str) -> Iterator[Answer]:
    """Whole sheets for an area: ceil(area x (1 + waste)/sheet), a floor that a layout replaces (COV-055 to 064)."""
    lots, area = _spoken_of(book, place, _SHEETS), net_area(book, place)
    if not lots or log_wall(book, place) is not None or area is None or area.exact is None:
        return
    size, waste = book.assume("sheet size", place), book.assume("sheet waste", place)
    count = whole_sheets(area.exact, sheet_area_ft2(size.word), waste.value)
    yield number("sheets", place, count, "count", _basis(area), size, waste, note="at the least; a layout beats it")


@quantity(
    "felt",
    needs=("length", "height", "felt or wrap spoken of"),
    assumes=("felt width", "roll length", "level lap", "end lap"),
)
def felt(book: Book, place: str) -> Iterator[Answer]:
    """Strips of felt or wrap up a wall, feet in all and rolls: ceil((H - w)/(w - lap)) + 1 strips, 6 in. at end joints.

    Laps: IRC R703.2 as read at up.codes.
    """
    if not is_wall(book, place) or log_wall(book, place) is not None or not _spoken_of(book, place, _FELT):
        return
    run, (height, note) = book.newest(place, None, "length"), wall_height(book, place)
    if run is None or height is None or run.value <= 0 or height.value <= 0:
        return
    taken = [book.assume(name, place) for name in ("felt width", "roll length", "level lap", "end lap")]
    hung = strips(run.value, height.value, *(one.value for one in taken))
    basis = (run, height, note, *taken)
    feet = hung.length / 12
    said = f"{hung.strips} strips, {hung.joints} end joints in each"
    yield number("felt", place, feet, "ft", *basis, note=said)
    yield number("rolls of felt", place, ceil(hung.length / taken[1].value), "count", *basis)


@quantity("insulation", needs=("thickness of the insulation",))
def insulation(book: Book, place: str) -> Iterator[Answer]:
    """R of a layer of insulation, low and high: thickness x R per inch, a range and never one number (COV-029 to 054)."""
    for about, thickness in book.of_dimension(place, "thickness").items():
        material = insulation_material(about) if about and _FOAM.search(about) else None
        if material is None or thickness.value <= 0:
            continue
        low, high = insulation_value(material, thickness.value)
        span = f"R {low:.1f}" if low == high else f"R {low:.1f} to {high:.1f}"
        yield number(
            "insulation", place, Fraction(low), "R", thickness, about=about, shown=span, note=material, high=high
        )


# ---- finish and abrasives --------------------------------------------------------------------------------------------


@quantity(
    "finish",
    needs=("net area", "coverage from the label"),
    assumes=("finish coverage", "coats", "finish waste"),
    caution=FINISH,
)
def finish(book: Book, place: str) -> Iterator[Answer]:
    """Gallons of finish: area x coats x (1 + waste)/coverage from the label, bought up to the can."""
    coverage = book.assume("finish coverage", place)
    tasks = [task for task in book.at(place, Task) if _FINISHES.search(task.fact.do.casefold())]
    spoken = bool(tasks) or bool(_spoken_of(book, place, _FINISHES))
    area = net_area(book, place)
    # a coverage set for the whole job says nothing of this place
    spoken = spoken or coverage.origin == f"set for {place}" or bool(coverage.memos)
    if area is None or area.exact is None or not spoken:
        return
    if coverage.amount is None:
        say = f'{place} finish needs the coverage from the label. Say: "assume finish coverage 250"'
        yield Missing(name="finish", place=place, about="coverage", say=say)
        return
    coats, waste = book.assume("coats", place), book.assume("finish waste", place)
    net = area.exact * coats.value / coverage.value
    gallons = net * (1 + waste.value / 100)
    note = f"{ceil(gallons)} to buy, {float(net):.2f} without waste; rough wood takes up to twice"
    yield number("finish", place, gallons, "gal", _basis(area), coverage, coats, waste, note=note)


@quantity("abrasives", needs=("net area", "brushes or discs used there"), caution=DUST)
def abrasives(book: Book, place: str) -> Iterator[Answer]:
    """Square feet done with one brush or disc, by the own record: net area of one face/pieces used. No published figure."""
    area = net_area(book, place)
    if area is None or area.exact is None:
        return
    used: dict[str, list[tuple[Fraction, int]]] = {}
    for filed in book.at(place, Stock):
        fact = filed.fact
        if (
            fact.event == "used"
            and fact.count
            and fact.count > 0
            and fact.what
            and _ABRASIVES.search(fact.what.casefold())
        ):
            used.setdefault(fact.what, []).append((Fraction(fact.count), filed.memo))
    for what, parts in used.items():
        pieces = sum((count for count, _ in parts), Fraction(0))
        source = Source(tuple(memo for _, memo in parts))
        note = f"for each of {float(pieces):g}, one face of {float(area.exact):.1f} ft²"
        yield number("area a piece", place, area.exact / pieces, "ft2", _basis(area), source, about=what, note=note)
