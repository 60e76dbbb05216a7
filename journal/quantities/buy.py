"""What to get at the yard: what was asked for and what open cut lists and schedules lack, less what is there and on order.

A need is met by what is received after it. Shows which memo, list or schedule asked. Rounded up to the package.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from journal.quantities.base import Book
from journal.quantities.gable import is_gable
from journal.quantities.lot import Lot, counted, plain
from journal.quantities.lots import Name
from journal.quantities.place_plan import PlacePlan, plan_of
from journal.quantities.schedules import lacking
from journal.quantities.stock import ledger


@dataclass(frozen=True, slots=True)
class ToBuy:
    """One thing to get: how many, which memos or lists ask for it, and what else is on order of it."""

    name: Name
    count: int
    because: tuple[int | str, ...]
    on_order: Fraction
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    @property
    def shown(self) -> str:
        """As a person reads it: ``2 pails of chinking``, ``12 boards, 1x8 pine 12' 0"``."""
        bare = replace(self.name, what=None)
        size = f", {bare.shown}" if bare != Name() else ""
        return counted(Fraction(self.count), self.name.what or "piece") + size

    def row(self) -> dict[str, object]:
        """The row of `buy --json`."""
        return {
            "what": self.name.what,
            "section": self.name.section,
            "length_in": self.name.length_in,
            "species": self.name.species,
            "count": self.count,
            "unit": self.name.unit,
            "because": list(self.because),
            "on_order": plain(self.on_order),
            "shown": self.shown,
            "notes": list(self.notes),
            "doubts": list(self.doubts),
        }


def buy_list(book: Book) -> list[dict[str, object]]:
    """The rows of `buy --json`, in the order things were first spoken of."""
    return [thing.row() for thing in to_buy(book)]


def to_buy(book: Book) -> tuple[ToBuy, ...]:
    """What is to be got: for one thing the larger of what was asked for and what the open lists lack."""
    plans = [plan for place in book.places if is_gable(book, place) for plan in [plan_of(book, place)]]
    found = []
    lots = ledger(book).lots
    for lot in lots:
        asked, memos, notes = _asked(lot)
        short, lists = _lacking(lot, plans)
        open_work = lacking(book, lot, lots)
        count = ceil(max(asked, short - lot.on_order, open_work.count - lot.on_order))
        if count <= 0:
            continue
        # a schedule asks where it wants more than was asked for; beside a larger need it is a note
        schedules = open_work.because if open_work.count - lot.on_order > max(asked, Fraction(0)) else ()
        because: tuple[int | str, ...] = (*(memos if asked > 0 else ()), *lists, *schedules)
        doubts = tuple(dict.fromkeys((*lot.doubts, *open_work.doubts)))
        found.append(ToBuy(lot.name, count, because, lot.on_order, (*notes, *open_work.notes), doubts))
    return tuple(found)


def _asked(lot: Lot) -> tuple[Fraction, tuple[int, ...], list[str]]:
    """What was asked for and has not come: the newest need of each place, less what was there and what came since."""
    wanted: dict[str | None, Fraction] = {}
    memos: dict[str | None, int] = {}
    notes: list[str] = []
    on_order = Fraction(0)
    for movement in lot.movements:
        amount = movement.amount or Fraction(0)
        place = movement.filed.fact.place
        if movement.event == "need" and amount > 0:
            there = movement.there
            if there is None:
                notes.append(f"what was there is not known; memo {movement.memo} asked for {plain(amount)}")
            elif there > 0 and not wanted:
                short = max(amount - there, Fraction(0))
                notes.append(
                    f"memo {movement.memo} asked for {plain(amount)} with {plain(there)} there: {plain(short)} short. "
                    f"If {plain(amount)} more are wanted, get those"
                )
                amount = short
            wanted[place], memos[place] = amount, movement.memo
        elif movement.event == "received":
            on_order = max(on_order - amount, Fraction(0))
            for asked_for in list(wanted):
                met = min(wanted[asked_for], amount)
                wanted[asked_for] -= met
                amount -= met
        elif movement.event == "ordered":
            on_order += amount
    left = sum(wanted.values(), Fraction(0)) - on_order
    return left, tuple(memos[place] for place, amount in wanted.items() if amount > 0), notes


def _lacking(lot: Lot, plans: Iterable[PlacePlan]) -> tuple[Fraction, tuple[str, ...]]:
    """The boards that the open cut lists take beyond what is there of a lot, and the lists that take them."""
    taken, lists = 0, []
    for plan in plans:
        if plan.plan is None or not plan.lots or plan.lots[0] is not lot:
            continue
        boards = sum(1 for board in plan.plan.boards if board.length_ticks == lot.name.length_ticks)
        taken += boards
        lists.append(f"cut list of {plan.listed.place}")
    short = taken - (lot.balance if lot.balance is not None else Fraction(0))
    return (Fraction(short), tuple(lists)) if short > 0 else (Fraction(0), ())
