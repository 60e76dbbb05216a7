"""Stock: the balance of every lot from what was received, used, cut and counted, with losses shown and nothing guessed.

A count resets the balance and the difference is shown. What was moved, ordered or wished for changes no balance. Cut pieces
are not boards: they consume boards. Where a balance cannot be known it is None, with the memos that say why.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from journal.lengths import INCH, format_length
from journal.quantities.base import Answer, Book, Disagreement, assumption, day, exact, memo_names, quantity
from journal.quantities.book import once
from journal.quantities.lot import Ledger, Lot, Movement, Question, counted, plain
from journal.quantities.lots import Name, either, fits, merged, name_of, narrows
from journal.quantities.packing import best_fit_decreasing
from journal.records import Filed, Stock

assumption("kerf", "in", "1/8", "a circular saw blade (common practice)", low="0", high="1/2")
assumption("end trim", "in", "1", "off each end of a board: sawmill ends check (common practice)", low="0", high="12")
assumption(
    "put back over", "in", "24", "offcuts longer than this go back as stock (common practice)", low="0", high="240"
)

assumption(
    "board foot basis",
    "choice",
    "nominal",
    "lumber is priced on its nominal size; full-sawn stock on its actual one by agreement (common practice)",
    choices=("nominal", "actual"),
)

_MANY = 1000  # pieces beyond which cuts are counted by the board and not packed
_CHANGES = frozenset({"received", "used", "cut", "have", "left over"})


def ledger(book: Book) -> Ledger:
    """The lots of a job, worked out once for a book."""
    return _ledger(book, "")


@once
def _ledger(book: Book, _: str) -> Ledger:
    return _Booking(book).ledger()


def stock_balance(book: Book) -> list[dict[str, object]]:
    """The rows of `stock --json`: a lot a line. Lots that were only wished for are left out."""
    return [_row(lot) for lot in ledger(book).lots if any(m.event != "need" for m in lot.movements)]


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
        actual = self.book.assume("board foot basis").word == "actual"
        for lot in self.lots:
            lot.actual_basis = actual
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
        self._check_board_feet(lot, filed, amount)
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

    def _check_board_feet(self, lot: Lot, filed: Filed[Stock], amount: Fraction) -> None:
        """Tells where the board feet said of a load are not those of its pieces by section and length."""
        said = exact(filed.fact.board_feet) if filed.fact.board_feet is not None else None
        if said is None or lot.name.in_board_feet or lot.name.section is None or lot.name.length_ticks is None:
            return
        worked = (lot.feet_each or Fraction(0)) * amount
        if worked and abs(worked - said) > worked / 50:
            lot.notes.append(
                f"memo {filed.memo}: {counted(amount, lot.name.unit)} are {float(worked):.1f} bf, {float(said):.1f} was said"
            )

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


@quantity("stock questions", needs=("stock facts that fit one lot",))
def stock_questions(book: Book, place: str) -> Iterator[Answer]:
    """What was said of stock at a place and could not be booked to one lot: a sentence each, with the memo."""
    here = set(book.memos_at(place))
    for question in ledger(book).questions:
        if question.memos[0] in here:
            yield Disagreement(name="stock", place=place, shown=question.shown, memos=question.memos)
