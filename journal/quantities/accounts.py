"""The accounts of a job: what each receipt cost, what was used at its price, totals and prices. Kept exact.

Spent is rate x quantity received with it, plus totals. Used material costs what its receipt cost, first in first out.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import timedelta
from fractions import Fraction
from functools import lru_cache

from journal.lengths import FOOT
from journal.quantities.base import (
    Book,
    Disagreement,
    Source,
    exact,
    memo_names,
)
from journal.quantities.book import once
from journal.quantities.labour import is_own_rate
from journal.quantities.lot import Lot, Movement
from journal.quantities.lots import Name, head, singular
from journal.quantities.stock import ledger
from journal.records import Cost, Filed

PER_BOARD_FOOT = frozenset({"board foot", "bf", "foot board", "board feet"})
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
    unpriced: list[str] = field(default_factory=list)
    questions: list[Disagreement] = field(default_factory=list)

    @property
    def spent(self) -> Fraction:
        """Dollars spent in all."""
        paid = sum((receipt.paid for receipt in self.receipts if receipt.paid is not None), Fraction(0))
        return paid + sum((dollars_of(total) for total in self.totals), Fraction(0))


def accounts(book: Book) -> Accounts:
    """The money of a job, worked out once for a book."""
    return _accounts(book, "")


def quantity_for(per: str, name: Name, amount: Fraction, feet_each: Fraction | None) -> Fraction | None:
    """How many units of a price an amount of a lot is: board feet, thousands of them, feet, pieces; None where it is no such
    unit.
    """
    unit = " ".join(singular(word) for word in per.casefold().split()).replace("feet", "foot")
    board_feet = amount if name.in_board_feet else None if feet_each is None else feet_each * amount
    if unit in PER_BOARD_FOOT:
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
                alike[id(lot)] = [p for p in found.prices if p.fact.what and is_of(p.fact.what, lot.name)]
            prices = alike[id(lot)]
            receipt = _receipt(lot, movement, rates, paid, covered, prices)
            found.receipts.append(receipt)
            if receipt.each is None and movement.memo not in covered:
                rate = rates.get(movement.filed.uuid)
                why = (
                    f"${float(dollars_of(rate)):,.2f} a {rate.fact.per} is no price of it" if rate else "no price said"
                )
                found.unpriced.append(f"{lot.name.shown} (memo {movement.memo}): {why}")
    found.receipts.sort(key=lambda r: (r.movement.filed.said_at, r.movement.memo, r.movement.filed.number))
    found.used = [used for lot in stock.lots for used in _used(lot, found.receipts)]
    _said_twice(found)
    return found


def _valid(filed: Filed[Cost]) -> bool:
    dollars = exact(filed.fact.amount)
    return dollars is not None and dollars >= 0


def dollars_of(filed: Filed[Cost]) -> Fraction:
    """The dollars of a cost, exactly; 0 where they are no number."""
    return exact(filed.fact.amount) or Fraction(0)


def doubts_of(*filed: Filed[Cost] | None) -> tuple[str, ...]:
    """Why costs may be wrong, until somebody confirmed them."""
    unconfirmed = [one for one in filed if one is not None and not one.confirmed]
    return tuple(dict.fromkeys(doubt.shown for one in unconfirmed for doubt in one.fact.doubts))


def _receipt_of(cost: Filed[Cost], here: Sequence[tuple[Lot, Movement]]) -> tuple[Lot, Movement] | None:
    """The receipt of the same memo that a price or total is said of: by its name, then its unit, then the nearest before it."""
    fact = cost.fact
    if fact.what is not None:
        here = [pair for pair in here if is_of(fact.what, pair[0].name)]
    if fact.per != "total":
        fitting = [pair for pair in here if _units(fact, pair[0], pair[1]) is not None]
        here = fitting or here
    elif fact.what is None and len(here) > 1:
        return None
    before = [pair for pair in here if pair[1].filed.fact.evidence.start <= fact.evidence.start]
    pool = before or list(here)
    return max(pool, key=lambda pair: pair[1].filed.fact.evidence.start) if pool else None


@lru_cache(4096)
def is_of(what: str, name: Name) -> bool:
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
        basis = Source(tuple(sorted({memo, total.memo})), "", doubts_of(total))
        return Receipt(lot, movement, amount, dollars_of(total) / amount, None, basis)
    price = rates.get(uuid) or _nearest(lot, movement, prices)
    units = None if price is None else _units(price.fact, lot, movement)
    if price is None or units is None:
        return Receipt(lot, movement, amount, None, None, Source((memo,)))
    dollars = dollars_of(price) * units
    basis = Source(tuple(sorted({memo, price.memo})), "", doubts_of(price))
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
            if receipt.paid is None or not near or not is_of(what, receipt.lot.name):
                continue
            memos = tuple(sorted({*receipt.basis.memos, total.memo}))
            if abs(receipt.paid - dollars_of(total)) <= receipt.paid * _SAME_MONEY:
                found.totals.remove(total)
            else:
                shown = (
                    f"{what} came to ${float(dollars_of(total)):,.2f} (memo {total.memo}) and to "
                    f"${float(receipt.paid):,.2f} by its price ({memo_names(receipt.basis.memos)}): the same money? Both are counted."
                )
                found.questions.append(Disagreement(name="costs", place=None, shown=shown, memos=memos))
            break
