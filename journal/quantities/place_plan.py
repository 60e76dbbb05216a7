"""The cutting plan of a place: its open pieces against the boards that are there. And what is next to cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from journal.lengths import INCH, format_inches, format_length
from journal.quantities import cutting_plan as plans
from journal.quantities.base import (
    Answer,
    Book,
    Figure,
    Missing,
    Source,
    assumption,
    number,
    quantity,
    show_length,
)
from journal.quantities.book import once
from journal.quantities.cut_pieces import CutPiece
from journal.quantities.cuts import CutList, cut_list
from journal.quantities.cutting_plan import Cut, CuttingPlan
from journal.quantities.gable import is_gable
from journal.quantities.lot import Lot
from journal.quantities.lots import Name, fits
from journal.quantities.stock import ledger
from journal.records import Stock

assumption("boards set aside", "count", "0", "defective boards that are not cut; none until said", low="0", high="1000")

BOARDS = frozenset({"board", "plank", "siding", "sheet", "clapboard", "shiplap", "batten", "cladding", "foam"})


@dataclass(frozen=True, slots=True)
class PlacePlan:
    """The plan for the open pieces of a place, the lots it cuts from, and what is missing for it.

    `whole` is the plan for all its pieces, as if none were cut yet. `short` are the boards of `lots[0]` that are not there; None where the balance is not known.
    """

    listed: CutList
    plan: CuttingPlan | None = None
    whole: CuttingPlan | None = None
    lots: tuple[Lot, ...] = ()
    short: int | None = None
    missing: Missing | None = None
    assumed: tuple[str, ...] = ()

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind the list and the lots."""
        listed = {memo for one in self.listed.basis for memo in one.memos}
        return tuple(sorted(listed | {memo for lot in self.lots for memo in lot.memos}))

    def row(self) -> dict[str, object]:
        """The last object of `cuts PLACE --json`: the boards with their pieces, how many, and the bound."""
        if self.plan is None:
            none = None if self.missing is not None else 0  # nothing open takes no board
            return {"plan": [], "boards": none, "bound": none, "waste_percent": none, "missing": _say(self.missing)}
        return {
            "plan": [
                {
                    "board": board.number,
                    "length_in": format_inches(board.length_ticks),
                    "pieces": [cut.name for cut in board.cuts],
                    "offcut": format_inches(board.offcut_ticks // (INCH // 16) * (INCH // 16)),
                    "put_back": board.put_back,
                }
                for board in self.plan.boards
            ],
            "boards": len(self.plan.boards),
            "bound": self.plan.bound,
            "met": self.plan.met,
            "whole": _counts(self.whole),
            "waste_percent": self.plan.waste_percent,
            "left_out": [why for _, why in self.plan.left_out],
            "short": self.short,
            "from": [lot.name.shown for lot in self.lots],
            "assumed": list(self.assumed),
            "memos": list(self.memos),
        }


@once
def plan_of(book: Book, place: str) -> PlacePlan:
    """The cutting plan of a place's open pieces from the lots that fit its boards."""
    listed = cut_list(book, place)
    if not listed.open:
        return PlacePlan(listed)
    lots = _lots(book, listed)
    if not lots:
        say = f'{place} cutting plan needs the boards it is cut from. Say: "received … boards … foot long"'
        return PlacePlan(listed, missing=Missing(name="cutting plan", place=place, about="boards", say=say))
    if any(lot.name.length_ticks is None for lot in lots):
        say = f'{place} cutting plan needs the length of the {lots[0].name.shown}. Say: "the boards are … foot long"'
        return PlacePlan(listed, lots=lots, missing=Missing(name="cutting plan", place=place, about="length", say=say))
    kerf, trim, keep, aside = (
        book.assume(name, place) for name in ("kerf", "end trim", "put back over", "boards set aside")
    )
    cuts = [Cut(piece.label, piece.pack_ticks, piece.memos) for piece in listed.open]
    settings = [int(one.value * INCH) for one in (kerf, trim, keep)]
    assumed = tuple(line for one in (kerf, trim, keep, aside) for line in one.assumed)
    plan = plans.cutting_plan(cuts, _offered(lots, int(aside.value)), *settings)
    every = [Cut(piece.label, piece.pack_ticks, piece.memos) for piece in listed.pieces]
    whole = plan if len(every) == len(cuts) else plans.cutting_plan(every, [_offered(lots, 0)[0]], *settings)
    longest = lots[0]
    used = sum(1 for board in plan.boards if board.length_ticks == longest.name.length_ticks)
    there = None if longest.balance is None else max(int(longest.balance) - int(aside.value), 0)
    short = None if there is None else max(used - there, 0)
    return PlacePlan(listed, plan, whole, lots, short, None, assumed)


def next_to_cut(book: Book, place: str) -> tuple[CutPiece, ...]:
    """The pieces still to cut, longest first: the list less what was said to be cut, used or measured."""
    return cut_list(book, place).open


def _lots(book: Book, listed: CutList) -> tuple[Lot, ...]:
    """The lots that a place is boarded from, longest boards first: those of the section and species that its face was said of,
    else those used there.
    """
    stock = ledger(book)
    said = [one.filed.fact.about for one in listed.basis if isinstance(one, Figure) and one.filed.fact.about]
    for about in said:
        name = _section_in(about)
        if name is not None:
            found = [
                lot for lot in stock.lots if fits(lot.name, name) and lot.name.section == name.section and lot.started
            ]
            if found:
                return _longest_first(found)
    used = {id(lot): lot for filed in book.at(listed.place, Stock) if (lot := stock.lot_of(filed)) is not None}
    boards = [lot for lot in used.values() if BOARDS & set((lot.name.what or "").split())]
    return _longest_first(boards)


def _longest_first(lots: Sequence[Lot]) -> tuple[Lot, ...]:
    return tuple(sorted(lots, key=lambda lot: -(lot.name.length_ticks or 0)))


def _section_in(about: str) -> Name | None:
    """The section and species in what a face width was said of ("1x8 pine")."""
    words = about.split()
    section = next((word for word in words if "x" in word and word[0].isdigit() and word[-1].isdigit()), None)
    if section is None:
        return None
    rest = [word for word in words if word != section and word not in BOARDS]
    return Name(None, section, None, " ".join(rest) or None)


def _offered(lots: Sequence[Lot], aside: int) -> list[plans.Lot]:
    """The lots as the plan takes them: as many as it needs of the longest, the shorter ones as far as they are there."""
    offered = [plans.Lot(lots[0].name.length_ticks or 0, None, 0, lots[0].name.shown)]
    for lot in lots[1:]:
        if lot.balance is not None and lot.balance > 0:
            offered.append(plans.Lot(lot.name.length_ticks or 0, int(lot.balance), aside, lot.name.shown))
    return offered


def _counts(plan: CuttingPlan | None) -> dict[str, object] | None:
    if plan is None:
        return None
    pieces = sum(len(board.cuts) for board in plan.boards)
    return {"pieces": pieces, "boards": len(plan.boards), "bound": plan.bound, "met": plan.met}


def _say(missing: Missing | None) -> str | None:
    return None if missing is None else missing.say


@quantity("cutting plan", needs=("cut list", "boards of a known length"), assumes=("kerf", "end trim", "put back over"))
def boards_to_cut(book: Book, place: str) -> Iterator[Answer]:
    """Boards that the open pieces of a place take, and whether fewer could do: ceil(sum(l + k)/(usable + k)) is the bound.

    Best fit decreasing, bettered by filling boards with the best subset; long points are packed as printed.
    """
    if not is_gable(book, place):
        return
    found = plan_of(book, place)
    if found.missing is not None:
        yield found.missing
    if found.plan is None or not found.plan.boards:
        return
    plan = found.plan
    bound = "the fewest that can do" if plan.met else f"the bound is {plan.bound}"
    size = format_length(plan.boards[0].length_ticks)
    note = f"boards of {size} for {len(found.listed.open)} open pieces, {bound}; {plan.waste_percent:g} % waste"
    if found.whole is not None and found.whole is not plan:
        note += f"; all {len(found.listed.pieces)} pieces take {len(found.whole.boards)}"
    source = Source(found.memos, "", (), found.assumed)
    yield number("cutting plan", place, len(plan.boards), "count", source, note=note)
    for _, why in plan.left_out:
        yield Missing(name="cutting plan", place=place, say=f"{place} cutting plan: {why}.")
    longest = show_length(Fraction(found.listed.open[0].long_point, INCH))
    first = found.listed.open[0]
    yield number(
        "next to cut", place, len(found.listed.open), "count", source, note=f"open, next {first.label} at {longest}"
    )
