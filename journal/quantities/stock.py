"""Stock: the balance of every lot from what was received, used, cut and counted, with losses shown and nothing guessed.

A count resets the balance and the difference is shown. What was moved, ordered or wished for changes no balance. Cut pieces
are not boards: they consume boards. Where a balance cannot be known it is None, with the memos that say why.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from fractions import Fraction

from journal.lengths import INCH, format_length
from journal.quantities.base import Book, assumption, day, exact, memo_names
from journal.quantities.book import once
from journal.quantities.lots import Name, either, fits, merged, name_of, narrows
from journal.quantities.lumber import board_feet
from journal.quantities.packing import best_fit_decreasing
from journal.records import Filed, Stock, StockEvent

assumption("kerf", "in", "1/8", "a circular saw blade (common practice)", low="0", high="1/2")
assumption("end trim", "in", "1", "off each end of a board: sawmill ends check (common practice)", low="0", high="12")
assumption(
    "put back over", "in", "24", "offcuts longer than this go back as stock (common practice)", low="0", high="240"
)

_MANY = 1000  # pieces beyond which cuts are counted by the board and not packed
_CHANGES = frozenset({"received", "used", "cut", "have", "left over"})


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
        """Board feet of one piece on nominal size, None where section or length is not known."""
        if self.name.section is None or self.name.length_ticks is None:
            return None
        try:
            return board_feet(self.name.section, self.name.length_ticks)
        except ValueError:
            return None


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


def ledger(book: Book) -> Ledger:
    """The lots of a job, worked out once for a book."""
    return _ledger(book, "")


@once
def _ledger(book: Book, _: str) -> Ledger:
    return _Booking(book).ledger()


def stock_balance(book: Book) -> list[dict[str, object]]:
    """The rows of `stock --json`: a lot a line. Lots that were only wished for are left out."""
    return [_row(lot) for lot in ledger(book).lots if any(m.event != "need" for m in lot.movements)]


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


def _row(lot: Lot) -> dict[str, object]:
    feet = lot.board_feet
    if lot.balance is None:
        shown = "unknown"
    else:
        shown = counted(lot.balance, lot.name.unit) + (f", {float(feet):.1f} bf" if feet is not None else "")
    return {
        "what": lot.name.what,
        "section": lot.name.section,
        "length_in": lot.name.length_in,
        "species": lot.name.species,
        "balance": plain(lot.balance),
        "unit": lot.name.unit,
        "booked": plain(lot.booked),
        "counted": plain(lot.counted),
        "missing": plain(lot.missing),
        "board_feet": None if feet is None else round(float(feet), 1),
        "memos": list(lot.memos),
        "notes": list(lot.notes),
        "shown": shown + (" ~" if lot.unsure else "") + (" (doubtful)" if lot.doubts else ""),
        "received": plain(lot.received),
        "used": plain(lot.used),
        "on_order": plain(lot.on_order),
        "at_most": plain(lot.at_most),
        "doubts": list(lot.doubts),
    }


# ---- booking ---------------------------------------------------------------------------------------------------------


class _Booking:
    """Books the stock facts one after the other."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.lots: list[Lot] = []
        self.questions: list[Question] = []
        self.pieces: dict[tuple[int, str | None], list[int]] = {}

    def ledger(self) -> Ledger:
        facts = self.book.all_of(Stock)
        for place, filed in enumerate(facts):
            alike = [other for other in facts[max(0, place - 20) : place + 20] if other.memo == filed.memo]
            self._take(filed, alike)
        for lot in self.lots:
            _close(lot)
        by_fact = {movement.filed.uuid: lot for lot in self.lots for movement in lot.movements}
        return Ledger(tuple(self.lots), tuple(self.questions), by_fact)

    def _take(self, filed: Filed[Stock], alike: list[Filed[Stock]]) -> None:
        said = name_of(filed.fact)
        if said.what is None and said.section is None and said.species is None:
            shown = f"memo {filed.memo}: {filed.fact.event} {_many(filed.fact)}of what? Say what it was"
            self.questions.append(Question(shown, (filed.memo,)))
            return
        lot = self._lot(filed, said)
        if lot is None:
            return
        lot.name = merged(lot.name, said)
        amount = _amount(filed.fact)
        event = filed.fact.event
        if event not in _CHANGES:
            there = lot.balance if lot.started or lot.used else Fraction(0)
            if amount is not None and amount < 0:
                lot.notes.append(f"memo {filed.memo}: {event}, {filed.fact.count:g} is no count. Say how many")
                amount = None
            lot.movements.append(Movement(filed, amount, there=there))
            return
        if amount is None or amount < 0:
            why = "no count was said" if amount is None else f"{filed.fact.count:g} is no count"
            lot.notes.append(f"memo {filed.memo}: {event}, {why}. Say how many")
            lot.movements.append(Movement(filed, None, counts=False))
            if event != "cut" or not _used_too(alike, said):
                _unknown(lot)
            return
        {"received": self._receive, "used": self._use, "cut": self._cut}.get(event, self._count)(
            lot, filed, amount, alike
        )

    def _lot(self, filed: Filed[Stock], said: Name) -> Lot | None:
        """The lot that a fact belongs to, a new one where none fits; None where several do, which is asked."""
        fitting = [lot for lot in self.lots if fits(lot.name, said) and _long_enough(lot, filed.fact)]
        if filed.fact.event in ("received", "ordered"):
            fitting = [lot for lot in fitting if not narrows(lot.name, said) or not lot.started]
        if not fitting and filed.fact.event == "cut" and said.section is not None:
            # pieces go by what they become ("rafters"), boards by what they were
            fitting = [
                lot
                for lot in self.lots
                if fits(lot.name, Name(None, said.section, None, said.species)) and _long_enough(lot, filed.fact)
            ]
        if len(fitting) > 1:
            booked = [lot for lot in fitting if lot.started and (lot.balance is None or lot.balance > 0)]
            fitting = booked if len(booked) == 1 else fitting
        if len(fitting) == 1:
            return fitting[0]
        if not fitting:
            self.lots.append(Lot(said))
            return self.lots[-1]
        event, which = filed.fact.event, either([lot.name for lot in fitting])
        asked = f"memo {filed.memo}: {event} {_many(filed.fact)}{said.shown}: which, {which}? Say which"
        self.questions.append(Question(asked, (filed.memo,)))
        if event in _CHANGES:
            for lot in fitting:
                lot.notes.append(asked)
                lot.unsure = True
        return None

    def _receive(self, lot: Lot, filed: Filed[Stock], amount: Fraction, alike: list[Filed[Stock]]) -> None:
        lot.movements.append(Movement(filed, amount))
        lot.received += amount
        if not lot.started:
            lot.started = True
            if lot.used:
                lot.notes.append(
                    f"{counted(lot.used, lot.name.unit)} used before any was booked in ({memo_names(lot.memos)})"
                )
                return
            lot.balance = amount
        elif lot.balance is not None:
            lot.balance += amount
        elif lot.at_most is not None:
            lot.at_most += amount

    def _use(self, lot: Lot, filed: Filed[Stock], amount: Fraction, alike: list[Filed[Stock]]) -> None:
        lot.movements.append(Movement(filed, amount))
        self._consume(lot, filed, amount)

    def _cut(self, lot: Lot, filed: Filed[Stock], pieces: Fraction, alike: list[Filed[Stock]]) -> None:
        if _used_too(alike, name_of(filed.fact)):
            lot.movements.append(Movement(filed, Fraction(0), counts=False))
            lot.notes.append(f"memo {filed.memo}: {pieces} cut, part of what it says was used")
            return
        earlier = [
            m
            for m in _since_count(lot)
            if m.event == "used" and m.filed.fact.place is not None and m.filed.fact.place == filed.fact.place
        ]
        if earlier:
            used = memo_names(m.memo for m in earlier)
            lot.movements.append(Movement(filed, Fraction(0), counts=False))
            asked = f"memo {filed.memo}: {pieces} cut for {filed.fact.place}: of those that {used} used there? Taken so"
            lot.notes.append(asked)
            lot.unsure = True
            self.questions.append(Question(asked, (filed.memo, *(m.memo for m in earlier))))
            return
        boards, why = self._boards_for(lot, filed.fact, pieces)
        if boards is None:
            lot.movements.append(Movement(filed, None, counts=False))
            lot.notes.append(f"memo {filed.memo}: {why}")
            _unknown(lot)
            return
        lot.movements.append(Movement(filed, boards))
        if why:
            lot.notes.append(why)
        self._consume(lot, filed, boards)

    def _boards_for(self, lot: Lot, stock: Stock, pieces: Fraction) -> tuple[Fraction | None, str]:
        """The boards that so many pieces took, or why that is not known."""
        if pieces.denominator != 1:
            return None, f"{float(pieces):g} pieces cut: how many?"
        if stock.length_ticks is None:
            return None, f"{pieces} {lot.name.shown} cut: how long? Say the length, so that the boards can be counted"
        if lot.name.length_ticks is None:
            size = format_length(stock.length_ticks)
            return None, f"{pieces} cut at {size}: from boards how long? Say their length, so that they can be counted"
        kerf, trim, keep = (int(self.book.assume(name).value * INCH) for name in ("kerf", "end trim", "put back over"))
        usable = lot.name.length_ticks - 2 * trim
        if stock.length_ticks > usable:
            # a piece as long as the board is cut without trimming it
            usable = lot.name.length_ticks
        each = (usable + kerf) // (stock.length_ticks + kerf) if stock.length_ticks > 0 else 0
        if each < 1:
            size, board = format_length(stock.length_ticks), format_length(lot.name.length_ticks)
            return None, f"{pieces} cut at {size} do not come out of a board of {board}. Say the lengths again"
        boards, before = self._boards_of_all(lot, stock, int(pieces), usable + kerf, kerf)
        note = (
            f"{pieces} cut at {format_length(stock.length_ticks)}, {each} to a board: {counted(boards, lot.name.unit)}"
        )
        if before:
            return boards, note.partition(",")[0] + f": {counted(boards, lot.name.unit)} more, with those cut before"
        offcut = usable - each * (stock.length_ticks + kerf)
        if offcut > keep:
            note += f"; offcuts of {format_length(offcut // (INCH // 16) * (INCH // 16))} go back as stock"
        return boards, note

    def _boards_of_all(self, lot: Lot, stock: Stock, pieces: int, room: int, kerf: int) -> tuple[Fraction, bool]:
        """The boards that a cut took beyond those of earlier cuts of the lot at that place, and whether there were any.

        Pieces reported one by one share boards as if they had been reported together.
        """
        before = self.pieces.setdefault((id(lot), stock.place), [])
        size = min((stock.length_ticks or 0) + kerf, room)
        if pieces > _MANY or len(before) > _MANY:
            return Fraction(-(-pieces // (room // size))), False
        already = [min(one, room) for one in before]
        taken = len(best_fit_decreasing(already, room))
        now = len(best_fit_decreasing([*already, *[size] * pieces], room))
        before.extend([size] * pieces)
        return Fraction(now - taken), bool(already)

    def _consume(self, lot: Lot, filed: Filed[Stock], amount: Fraction) -> None:
        lot.used += amount
        if lot.at_most is not None:
            lot.at_most = max(lot.at_most - amount, Fraction(0))
        if not lot.started or lot.balance is None:
            return
        if amount > lot.balance:
            there, unit = counted(lot.balance, lot.name.unit), lot.name.unit
            lot.notes.append(
                f"memo {filed.memo}: {counted(amount, unit)} {filed.fact.event}, but only {there} were there by the book. "
                "Count them"
            )
            lot.balance = None
            return
        lot.balance -= amount

    def _lost(self, lot: Lot, counted_in: Filed[Stock]) -> str:
        """What was said to be lost of a lot since its last count: "memo 34 said one was lost"."""
        since = lot.movements[lot.last_count + 1].filed.said_at
        told = [
            f"memo {a.memo} said {'one' if a.aside.value in (None, 1) else f'{a.aside.value:g}'} was lost"
            for a in self.book.asides
            if a.aside.topic == "lost"
            and since <= a.said_at <= counted_in.said_at
            and fits(lot.name, name_of(Stock(event="used", count=1, what=a.aside.text)))
        ]
        return ", ".join(told)

    def _count(self, lot: Lot, filed: Filed[Stock], amount: Fraction, alike: list[Filed[Stock]]) -> None:
        lot.movements.append(Movement(filed, amount))
        lost = self._lost(lot, filed)
        lot.last_count = len(lot.movements) - 1
        self.pieces = {key: sizes for key, sizes in self.pieces.items() if key[0] != id(lot)}
        lot.counted, lot.booked = amount, lot.balance if lot.started else None
        lot.missing = None
        if lot.booked is not None:
            lot.missing = lot.booked - amount
            if lot.missing:
                gap = (
                    f"{plain(abs(lot.missing))} missing"
                    if lot.missing > 0
                    else f"{plain(-lot.missing)} more than booked"
                )
                when = day(filed.said_at)
                if lot.missing > 0 and lost:
                    gap += f" ({lost})"
                lot.notes.append(
                    f"book {plain(lot.booked)}, counted {plain(amount)} on {when}, memo {filed.memo}: {gap}"
                )
        lot.started, lot.balance, lot.at_most, lot.unsure = True, amount, None, False


def _amount(stock: Stock) -> Fraction | None:
    said = stock.count if stock.count is not None else stock.board_feet
    return None if said is None else exact(said)


def _many(stock: Stock) -> str:
    return f"{stock.count:g} " if stock.count is not None else ""


def _used_too(alike: list[Filed[Stock]], said: Name) -> bool:
    """Whether the same breath says how many of the same were used: the cut is then part of it."""
    bare = Name(said.what, said.section, None, said.species)
    return any(other.fact.event == "used" and fits(name_of(other.fact), bare) for other in alike)


def _long_enough(lot: Lot, stock: Stock) -> bool:
    if stock.event != "cut" or stock.length_ticks is None or lot.name.length_ticks is None:
        return True
    return stock.length_ticks <= lot.name.length_ticks


def _since_count(lot: Lot) -> Iterator[Movement]:
    """The movements since the lot was last counted."""
    yield from lot.movements[lot.last_count + 1 :]


def _unknown(lot: Lot) -> None:
    """Marks a lot as one of which nobody can say how many are left."""
    if lot.balance is not None and lot.movements[-1].event != "received":
        lot.at_most = lot.balance
    lot.balance, lot.started = None, True


def _close(lot: Lot) -> None:
    """What is left to say of a lot once all is booked."""
    if lot.counted is None:
        lot.booked = lot.balance
    if not lot.started:
        moved = [m for m in lot.movements if m.event in ("stacked", "ordered")]
        if lot.used or any(m.event in ("used", "cut") for m in lot.movements):
            lot.notes.append(f"{counted(lot.used, lot.name.unit)} used, none booked in")
        for movement in moved:
            verb = "stacked" if movement.event == "stacked" else "on order"
            amount = counted(movement.amount, lot.name.unit) if movement.amount is not None else lot.name.unit
            lot.notes.append(f"{amount} {verb}, none booked in")


def receipts(lot: Lot) -> Iterator[tuple[datetime, Fraction, Movement]]:
    """What was received of a lot: when, how much, and the movement."""
    for movement in lot.movements:
        if movement.event == "received" and movement.amount is not None:
            yield movement.filed.said_at, movement.amount, movement


def consumptions(lot: Lot) -> Iterator[Movement]:
    """What was used up of a lot, in its unit."""
    for movement in lot.movements:
        if movement.event in ("used", "cut") and movement.counts and movement.amount:
            yield movement
