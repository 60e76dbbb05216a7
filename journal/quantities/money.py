"""Money: prices, what was spent, what a place has used, and what it has cost.

Spent is rate x quantity received with it, plus totals. Used material costs what its receipt cost. Rounded to the cent at the end.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Literal, NamedTuple

from journal.lengths import FOOT
from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Missing,
    Source,
    exact,
    memo_names,
    number,
    quantity,
)
from journal.quantities.book import once
from journal.quantities.labour import Worked, basis_of, is_own_rate, worked
from journal.quantities.lot import Lot, Movement
from journal.quantities.lots import Name, head, singular
from journal.quantities.stock import ledger
from journal.records import Cost, Filed

_PER_BOARD_FOOT = frozenset({"board foot", "bf", "foot board", "board feet"})
_PER_FOOT = frozenset({"foot", "linear foot", "lineal foot", "running foot"})
_PER_PIECE = frozenset({"each", "piece", "apiece", "one", "unit"})
_SAME_MONEY = Fraction(1, 100)
_SAME_TIME = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Receipt:
    """Material that came, and what it cost: `each` is dollars for one unit of its lot, None where no price is known.

    `paid` are the dollars that count as spent with it (None where a total covers it or no price was said).
    """

    lot: Lot
    movement: Movement
    amount: Fraction
    each: Fraction | None
    paid: Fraction | None
    basis: Source


@dataclass(frozen=True, slots=True)
class Used:
    """Material used at a place and its cost at the price of its receipt; `dollars` None where no price is known."""

    lot: Lot
    place: str | None
    amount: Fraction
    dollars: Fraction | None
    basis: Source


@dataclass(slots=True)
class Accounts:
    """All money of a job."""

    receipts: list[Receipt] = field(default_factory=list)
    used: list[Used] = field(default_factory=list)
    totals: list[Filed[Cost]] = field(default_factory=list)
    prices: list[Filed[Cost]] = field(default_factory=list)
    questions: list[Disagreement] = field(default_factory=list)

    @property
    def spent(self) -> Fraction:
        """Dollars spent in all."""
        paid = sum((receipt.paid for receipt in self.receipts if receipt.paid is not None), Fraction(0))
        return paid + sum((_dollars(total) for total in self.totals), Fraction(0))


def accounts(book: Book) -> Accounts:
    """The money of a job, worked out once for a book."""
    return _accounts(book, "")


def quantity_for(per: str, name: Name, amount: Fraction, feet_each: Fraction | None) -> Fraction | None:
    """How many units of a price an amount of a lot is: board feet, thousands of them, feet, pieces; None where it is no such
    unit.
    """
    unit = " ".join(singular(word) for word in per.casefold().split()).replace("feet", "foot")
    board_feet = amount if name.in_board_feet else None if feet_each is None else feet_each * amount
    if unit in _PER_BOARD_FOOT:
        return board_feet
    if unit in ("thousand", "thousand board foot", "m"):
        return amount / 1000 if board_feet is None and name.section is None else _thousands(board_feet)
    if unit in _PER_FOOT:
        return None if name.length_ticks is None else Fraction(name.length_ticks, FOOT) * amount
    if unit in _PER_PIECE and not name.in_board_feet:
        return amount
    lot_words = {*head(name.what).split(), name.unit}
    return amount if unit in lot_words or unit == name.what else None


def _thousands(board_feet: Fraction | None) -> Fraction | None:
    return None if board_feet is None else board_feet / 1000


def covered_cost(
    price: Fraction, planing: Fraction, nominal_width: Fraction, face: Fraction, waste_percent: Fraction
) -> Fraction:
    """Dollars a square foot covered from a price a board foot: (price + planing) x nominal width/face x (1 + waste).

    Compares rough sawmill boards with dressed ones from a yard; delivery over the load comes on top (common practice).
    """
    if face <= 0:
        raise ValueError("a board that covers nothing covers no wall")
    return (price + planing) * (nominal_width / face) * (1 + waste_percent / 100)


# ---- the accounts ----------------------------------------------------------------------------------------------------


@once
def _accounts(book: Book, _: str) -> Accounts:
    found = Accounts()
    stock = ledger(book)
    costs = [filed for filed in book.all_of(Cost) if not is_own_rate(filed.fact) and _valid(filed)]
    by_memo: defaultdict[int, list[tuple[Lot, Movement]]] = defaultdict(list)
    for lot in stock.lots:
        for movement in lot.movements:
            if movement.event == "received" and movement.amount:
                by_memo[movement.memo].append((lot, movement))
    rates: dict[str, Filed[Cost]] = {}  # by the receipt's uuid
    paid: dict[str, Filed[Cost]] = {}
    covered: set[int] = set()  # memos whose one total pays for several receipts
    for filed in costs:
        here = by_memo.get(filed.memo, [])
        if filed.fact.per == "total":
            match = _receipt_of(filed, here)
            if match is not None:
                paid.setdefault(match[1].filed.uuid, filed)
            elif here and filed.fact.what is None:
                covered.add(filed.memo)
            found.totals.append(filed)
        else:
            found.prices.append(filed)
            if (match := _receipt_of(filed, here)) is not None:
                rates.setdefault(match[1].filed.uuid, filed)
    alike: dict[int, list[Filed[Cost]]] = {}
    for pairs in by_memo.values():
        for lot, movement in pairs:
            if id(lot) not in alike:
                alike[id(lot)] = [p for p in found.prices if p.fact.what and _is_of(p.fact.what, lot.name)]
            prices = alike[id(lot)]
            found.receipts.append(_receipt(lot, movement, rates, paid, covered, prices))
    found.receipts.sort(key=lambda r: (r.movement.filed.said_at, r.movement.memo, r.movement.filed.number))
    found.used = [used for lot in stock.lots for used in _used(lot, found.receipts)]
    _said_twice(found)
    return found


def _valid(filed: Filed[Cost]) -> bool:
    dollars = exact(filed.fact.amount)
    return dollars is not None and dollars >= 0


def _dollars(filed: Filed[Cost]) -> Fraction:
    return exact(filed.fact.amount) or Fraction(0)


def _doubts_of(*filed: Filed[Cost] | None) -> tuple[str, ...]:
    unconfirmed = [one for one in filed if one is not None and not one.confirmed]
    return tuple(dict.fromkeys(doubt.shown for one in unconfirmed for doubt in one.fact.doubts))


def _receipt_of(cost: Filed[Cost], here: Sequence[tuple[Lot, Movement]]) -> tuple[Lot, Movement] | None:
    """The receipt of the same memo that a price or total is said of: by its name, then its unit, then the nearest before it."""
    fact = cost.fact
    if fact.what is not None:
        here = [pair for pair in here if _is_of(fact.what, pair[0].name)]
    if fact.per != "total":
        fitting = [pair for pair in here if _units(fact, pair[0], pair[1]) is not None]
        here = fitting or here
    elif fact.what is None and len(here) > 1:
        return None
    before = [pair for pair in here if pair[1].filed.fact.evidence.start <= fact.evidence.start]
    pool = before or list(here)
    return max(pool, key=lambda pair: pair[1].filed.fact.evidence.start) if pool else None


@lru_cache(4096)
def _is_of(what: str, name: Name) -> bool:
    """Whether a bare name ("pine", "chinking", "two by six rafters") is of a lot."""
    words = {singular(word) for word in what.casefold().split()} - {"the", "of", "a"}
    words -= {name.section or ""}
    known = {part for text in (name.what, name.species, name.section) if text for part in text.split()}
    return bool(words) and words <= known


def _units(cost: Cost, lot: Lot, movement: Movement) -> Fraction | None:
    return quantity_for(cost.per, lot.name, movement.amount or Fraction(0), lot.feet_each)


def _receipt(
    lot: Lot,
    movement: Movement,
    rates: dict[str, Filed[Cost]],
    paid: dict[str, Filed[Cost]],
    covered: set[int],
    prices: Sequence[Filed[Cost]],
) -> Receipt:
    """What one receipt cost: its own total or price, else the price nearest before it, else the first one after."""
    amount = movement.amount or Fraction(0)
    uuid, memo = movement.filed.uuid, movement.memo
    if (total := paid.get(uuid)) is not None:
        basis = Source(tuple(sorted({memo, total.memo})), "", _doubts_of(total))
        return Receipt(lot, movement, amount, _dollars(total) / amount, None, basis)
    price = rates.get(uuid) or _nearest(lot, movement, prices)
    units = None if price is None else _units(price.fact, lot, movement)
    if price is None or units is None:
        return Receipt(lot, movement, amount, None, None, Source((memo,)))
    dollars = _dollars(price) * units
    basis = Source(tuple(sorted({memo, price.memo})), "", _doubts_of(price))
    return Receipt(lot, movement, amount, dollars / amount, None if memo in covered else dollars, basis)


def _nearest(lot: Lot, movement: Movement, prices: Sequence[Filed[Cost]]) -> Filed[Cost] | None:
    """The newest price said by the time of a receipt that is in a unit it has, else the first one after."""
    after = bisect_right(prices, movement.filed.said_at, key=lambda price: price.said_at)
    fitting = (p for p in (*reversed(prices[:after]), *prices[after:]) if _units(p.fact, lot, movement) is not None)
    return next(fitting, None)


def _used(lot: Lot, receipts: Sequence[Receipt]) -> Iterator[Used]:
    """What was used of a lot, first in first out; what a count found missing is used up by nobody."""
    own = {receipt.movement.filed.uuid: receipt for receipt in receipts if receipt.lot is lot}
    first = min(own.values(), key=lambda r: r.movement.filed.said_at, default=None)
    layers: list[tuple[Fraction, Receipt]] = []
    for movement in lot.movements:
        if (receipt := own.get(movement.filed.uuid)) is not None:
            layers.append((receipt.amount, receipt))
        elif movement.event in ("have", "left over") and movement.amount is not None:
            left = sum((amount for amount, _ in layers), Fraction(0))
            _take(layers, max(left - movement.amount, Fraction(0)))
        elif movement.event in ("used", "cut") and movement.counts and movement.amount:
            yield _used_by(lot, movement, _take(layers, movement.amount), first)


def _used_by(lot: Lot, movement: Movement, taken: list[tuple[Fraction, Receipt]], first: Receipt | None) -> Used:
    amount = movement.amount or Fraction(0)
    rest = amount - sum((part for part, _ in taken), Fraction(0))
    parts = [*taken, *([(rest, taken[-1][1] if taken else first)] if rest > 0 and (taken or first) else [])]
    priced = [(part, receipt) for part, receipt in parts if receipt is not None and receipt.each is not None]
    known = sum((part for part, _ in priced), Fraction(0)) == amount
    dollars = sum((part * (receipt.each or 0) for part, receipt in priced), Fraction(0)) if known else None
    memos = {movement.memo} | {memo for _, receipt in priced for memo in receipt.basis.memos}
    doubts = [d for _, receipt in priced for d in receipt.basis.doubts]
    if not movement.filed.confirmed:
        doubts += [doubt.shown for doubt in movement.filed.fact.doubts]
    basis = Source(tuple(sorted(memos)), "", tuple(dict.fromkeys(doubts)))
    return Used(lot, movement.filed.fact.place, amount, dollars, basis)


def _take(layers: list[tuple[Fraction, Receipt]], amount: Fraction) -> list[tuple[Fraction, Receipt]]:
    """Takes an amount off the oldest layers and tells which it came from."""
    taken: list[tuple[Fraction, Receipt]] = []
    while amount > 0 and layers:
        there, receipt = layers[0]
        part = min(there, amount)
        taken.append((part, receipt))
        amount -= part
        layers[0] = (there - part, receipt)
        if layers[0][0] == 0:
            layers.pop(0)
    return taken


def _said_twice(found: Accounts) -> None:
    """A total said apart of a receipt that has a price already: the same sum counts once, another one is asked about."""
    for total in list(found.totals):
        what = total.fact.what
        if what is None:
            continue
        for receipt in found.receipts:
            near = abs(receipt.movement.filed.said_at - total.said_at) <= _SAME_TIME
            if receipt.paid is None or not near or not _is_of(what, receipt.lot.name):
                continue
            memos = tuple(sorted({*receipt.basis.memos, total.memo}))
            if abs(receipt.paid - _dollars(total)) <= receipt.paid * _SAME_MONEY:
                found.totals.remove(total)
            else:
                shown = (
                    f"{what} came to ${float(_dollars(total)):,.2f} (memo {total.memo}) and to "
                    f"${float(receipt.paid):,.2f} by its price ({memo_names(receipt.basis.memos)}): the same money? Both are counted."
                )
                found.questions.append(Disagreement(name="costs", place=None, shown=shown, memos=memos))
            break


# ---- what is asked ---------------------------------------------------------------------------------------------------


class Line(NamedTuple):
    """One line of an account; `dollars` None where no price was said."""

    place: str | None
    what: str | None
    dollars: Fraction | None
    kind: Literal["spent", "used", "labour", "price"]
    basis: Basis
    per: str = "total"

    def row(self) -> dict[str, object]:
        """The line as `costs --json` gives it."""
        amount = None if self.dollars is None else _cents(self.dollars)
        shown = "no price said" if amount is None else f"${amount:,.2f}" + (" (doubtful)" if self.basis.doubts else "")
        per = {"per": self.per} if self.kind == "price" else {}
        return {
            "place": self.place,
            "what": self.what,
            "amount": amount,
            "kind": self.kind,
            "memos": list(self.basis.memos),
            "shown": shown,
            "doubts": list(self.basis.doubts),
            **per,
        }


def costs_summary(book: Book, place: str | None = None) -> list[dict[str, object]]:
    """The rows of `costs --json`: money spent, used and worked, prices, then the total.

    Of the job the total is what was spent; of a place it is labour, what was used and totals said there, what belongs to it
    included.
    """
    if place is not None:
        lines = [line for one in (place, *book.belonging(place)) for line in place_lines(book, one)]
        total, unknown = _sum(lines), sum(1 for line in lines if line.dollars is None)
        last = {"total": True, "amount": _cents(total), "place": place, "without_price": unknown}
        return [*(line.row() for line in lines), last]
    money = accounts(book)
    lines = [
        Line(r.movement.filed.fact.place, r.lot.name.shown, r.paid, "spent", r.basis)
        for r in money.receipts
        if r.paid is not None
    ]
    lines += [_said(total, "spent") for total in money.totals]
    lines += [Line(used.place, used.lot.name.shown, used.dollars, "used", used.basis) for used in money.used]
    lines += _labour_lines(worked(book))
    lines += [_said(price, "price") for price in money.prices]
    return [*(line.row() for line in lines), {"total": True, "amount": _cents(money.spent)}]


def place_lines(book: Book, place: str) -> list[Line]:
    """What one place has cost, line by line: labour, each lot used there, totals said there."""
    money = accounts(book)
    lines = _labour_lines(one for one in worked(book) if one.filed.fact.place == place)
    together: defaultdict[int, list[Used]] = defaultdict(list)
    for used in money.used:
        if used.place == place:
            together[id(used.lot)].append(used)
    for parts in together.values():
        dollars = [part.dollars for part in parts]
        memos = tuple(sorted({memo for part in parts for memo in part.basis.memos}))
        basis = Source(memos, "", tuple(dict.fromkeys(doubt for part in parts for doubt in part.basis.doubts)))
        lines.append(Line(place, parts[0].lot.name.shown, _all_or_none(dollars), "used", basis))
    return lines + [_said(total, "spent") for total in money.totals if total.fact.place == place]


def _said(filed: Filed[Cost], kind: Literal["spent", "price"]) -> Line:
    basis = Source((filed.memo,), "", _doubts_of(filed))
    return Line(filed.fact.place, filed.fact.what, _dollars(filed), kind, basis, filed.fact.per)


def _labour_lines(found: Iterable[Worked]) -> list[Line]:
    groups: defaultdict[str | None, list[Worked]] = defaultdict(list)
    for one in found:
        groups[one.filed.fact.place].append(one)
    lines = []
    for place, those in sorted(groups.items(), key=lambda item: (item[0] is None, item[0] or "")):
        hours = float(sum((one.hours for one in those), Fraction(0)))
        dollars = _all_or_none([one.dollars for one in those])
        lines.append(Line(place, f"{hours:g} h", dollars, "labour", basis_of(those, rated=True)))
    return lines


def _all_or_none(dollars: Sequence[Fraction | None]) -> Fraction | None:
    """The sum, None as soon as one part is not known."""
    known = [one for one in dollars if one is not None]
    return sum(known, Fraction(0)) if len(known) == len(dollars) else None


def _sum(lines: Iterable[Line]) -> Fraction:
    return sum((line.dollars for line in lines if line.dollars is not None), Fraction(0))


def _cents(dollars: Fraction) -> float:
    return floor(dollars * 100 + Fraction(1, 2)) / 100


@quantity("cost so far", needs=("hours", "hourly rate", "material used"))
def cost_so_far(book: Book, place: str) -> Iterator[Answer]:
    """What a place has cost: hours there x rate + materials used there at the price of their receipt + totals said there.

    Delivery is shared only where it was said of the place. What belongs to the place is in its own lines.
    """
    lines = place_lines(book, place)
    lacking = [line for line in lines if line.dollars is None]
    for line in lacking:
        what = "the hours" if line.kind == "labour" else line.what
        example = "my time is … an hour" if line.kind == "labour" else f"{line.what} … each"
        say = f'{place} cost needs a price for {what}. Say: "{example}"'
        yield Missing(name="cost so far", place=place, about=what, say=say)
    known = [line for line in lines if line.dollars is not None]
    if not known:
        return
    parts = " + ".join(f"{line.what} {_cents(line.dollars or Fraction(0)):,.2f}" for line in known)
    without = "; without " + ", ".join(str(line.what) for line in lacking) if lacking else ""
    mark = Source(mark="~") if lacking else None
    bases = [line.basis for line in known]
    yield number("cost so far", place, _sum(known), "$", *bases, mark, note=f"({parts}{without})")
    memos = {memo for line in known for memo in line.basis.memos}
    yield from (question for question in accounts(book).questions if memos & set(question.memos))
