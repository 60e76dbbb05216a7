"""Lots of stock as the booking leaves them: movements, balance, what is on order, board feet.

Knows nothing of how facts are booked.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from journal.lengths import FOOT
from journal.quantities.book import exact
from journal.quantities.lots import Name, fits
from journal.quantities.lumber import HARDWOODS, board_feet, hardwood_tally, section_sizes
from journal.records import Filed, Stock, StockEvent


@dataclass(frozen=True, slots=True)
class Movement:
    """What one fact did to a lot: `amount` in its unit (boards, for pieces cut); None where that cannot be known.

    `there` is the balance when something was needed or ordered, None where it was not known.
    """

    filed: Filed[Stock]
    amount: Fraction | None
    counts: bool = True
    there: Fraction | None = None

    @property
    def event(self) -> StockEvent:
        """What was said to have happened."""
        return self.filed.fact.event

    @property
    def memo(self) -> int:
        """The memo that said it."""
        return self.filed.memo


@dataclass(slots=True)
class Lot:
    """One lot with its movements in the order said. `balance` None is unknown; `at_most` is then what may be left at best.

    `booked`, `counted` and `missing` are those of its last count; without one, `booked` is the balance by the book.
    """

    name: Name
    movements: list[Movement] = field(default_factory=list)
    balance: Fraction | None = None
    booked: Fraction | None = None
    counted: Fraction | None = None
    missing: Fraction | None = None
    received: Fraction = Fraction(0)
    used: Fraction = Fraction(0)
    at_most: Fraction | None = None
    notes: list[str] = field(default_factory=list)
    unsure: bool = False
    started: bool = False
    last_count: int = -1
    actual_basis: bool = False

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind it."""
        return tuple(sorted({movement.memo for movement in self.movements}))

    @property
    def on_order(self) -> Fraction:
        """What was ordered and has not come since."""
        open_order = Fraction(0)
        for movement in self.movements:
            if movement.event == "ordered":
                open_order += movement.amount or 0
            elif movement.event == "received":
                open_order = max(open_order - (movement.amount or 0), Fraction(0))
        return open_order

    @property
    def doubts(self) -> tuple[str, ...]:
        """Why a figure behind it may be wrong, until somebody confirmed it."""
        unconfirmed = [m.filed for m in self.movements if not m.filed.confirmed]
        return tuple(dict.fromkeys(d.shown for filed in unconfirmed for d in filed.fact.doubts))

    @property
    def board_feet(self) -> Fraction | None:
        """Board feet of the balance on nominal size; None where balance, section or length is not known."""
        if self.balance is None:
            return None
        if self.name.in_board_feet:
            return self.balance
        return self.feet_each * self.balance if self.feet_each is not None else None

    @property
    def feet_each(self) -> Fraction | None:
        """Board feet of one piece; by what was said of the whole load where section or length is not known, else None.

        On nominal size, or on actual size where that basis is set; a hardwood board is rounded by itself (lumber.py).
        """
        section, ticks = self.name.section, self.name.length_ticks
        if section is None or ticks is None:
            return self._said_feet_each
        try:
            if HARDWOODS & set((self.name.species or "").split()):
                thickness, width = section_sizes(section)
                return Fraction(hardwood_tally(width, Fraction(ticks, FOOT), thickness)[1])
            return board_feet(section, ticks, actual=self.actual_basis)
        except ValueError:
            return None

    @property
    def _said_feet_each(self) -> Fraction | None:
        """Board feet of one piece from loads of which both were said: "forty boards, three hundred board feet"."""
        loads = [
            m for m in self.movements if m.event == "received" and m.amount and m.filed.fact.board_feet is not None
        ]
        feet = [exact(m.filed.fact.board_feet or 0.0) for m in loads]
        pieces = sum((m.amount or Fraction(0) for m in loads), Fraction(0))
        if not pieces or any(one is None or one <= 0 for one in feet) or self.name.in_board_feet:
            return None
        return sum((one for one in feet if one is not None), Fraction(0)) / pieces


@dataclass(frozen=True, slots=True)
class Question:
    """A stock fact that could not be booked to one lot."""

    shown: str
    memos: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Ledger:
    """Every lot, and the facts that fit none or several."""

    lots: tuple[Lot, ...]
    questions: tuple[Question, ...]
    _by_fact: Mapping[str, Lot]

    def lot_of(self, filed: Filed[Stock]) -> Lot | None:
        """The lot that a fact was booked to."""
        return self._by_fact.get(filed.uuid)

    def fitting(self, name: Name) -> tuple[Lot, ...]:
        """The lots that a name may mean."""
        return tuple(lot for lot in self.lots if fits(lot.name, name))


def plain(amount: Fraction | None) -> int | float | None:
    """A count as JSON has it: whole where it is, else a decimal."""
    if amount is None:
        return None
    return int(amount) if amount.denominator == 1 else round(float(amount), 4)


def counted(amount: Fraction, unit: str) -> str:
    """A count with its unit as a person says it: ``1 board``, ``39 boards``, ``2 1/2 pounds``, ``2 pails of chinking``."""
    whole, part = divmod(amount, 1)
    number = " ".join(part for part in (str(whole) if whole or not part else "", str(part) if part else "") if part)
    what, of, contents = unit.partition(" of ")
    return f"{number} {what if amount == 1 else _plural(what)}{of}{contents}"


def _plural(what: str) -> str:
    first, _, last = what.rpartition(" ")
    if last == "foot":
        return f"{first} feet".strip()
    return f"{what}es" if last.endswith(("sh", "ch", "x", "ss")) else f"{what}s"
