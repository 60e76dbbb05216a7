"""Money: what was spent, what a place has cost, and what a price comes to by the square foot covered.

Rounded to the cent at the end.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from math import floor
from typing import Literal, NamedTuple

from journal.quantities.accounts import PER_BOARD_FOOT, Used, accounts, dollars_of, doubts_of
from journal.quantities.base import Answer, Basis, Book, Figure, Missing, Source, number, quantity
from journal.quantities.cladding import SIDING_WASTE
from journal.quantities.cuts import cut_list
from journal.quantities.gable import is_gable
from journal.quantities.labour import Worked, basis_of, worked
from journal.quantities.lumber import section_sizes
from journal.records import Cost, Filed

_PLANING = frozenset({"planing", "planning", "surfacing", "dressing"})
_ROUGH = frozenset({"rough", "sawmill", "mill", "sawn"})

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
    included. What has no price stands in `without_price`.
    """
    if place is not None:
        lines = [line for one in (place, *book.belonging(place)) for line in place_lines(book, one)]
        total, unknown = _sum(lines), [line.what or "" for line in lines if line.dollars is None]
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
    last = {"total": True, "amount": _cents(money.spent), "without_price": money.unpriced}
    return [*(line.row() for line in lines), last]


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
    basis = Source((filed.memo,), "", doubts_of(filed))
    return Line(filed.fact.place, filed.fact.what, dollars_of(filed), kind, basis, filed.fact.per)


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


# ---- by the square foot covered ----------------------------------------------------------------------------------------


def covered_cost(
    price: Fraction, planing: Fraction, nominal_width: Fraction, face: Fraction, waste_percent: Fraction
) -> Fraction:
    """Dollars a square foot covered from a price a board foot: (price + planing) x nominal width/face x (1 + waste).

    Compares rough sawmill boards with dressed ones from a yard; delivery over the load comes on top (common practice).
    """
    if face <= 0:
        raise ValueError("a board that covers nothing covers no wall")
    return (price + planing) * (nominal_width / face) * (1 + waste_percent / 100)


@quantity(
    "cost by the square foot",
    needs=("prices a board foot", "face width", "section"),
    assumes=("siding waste",),
)
def cost_by_the_square_foot(book: Book, place: str) -> Iterator[Answer]:
    """What each price a board foot comes to by the square foot covered, to set sawmill and yard side by side.

    (price + planing) x nominal width/face x (1 + waste); planing is added to what was called rough or from the mill.
    """
    if not is_gable(book, place):
        return
    listed, waste = cut_list(book, place), book.assume(SIDING_WASTE.name, place)
    section, words = _boards_named(listed.basis)
    if section is None or not listed.face or listed.face <= 0:
        return
    prices = [price for price in accounts(book).prices if price.fact.per in PER_BOARD_FOOT and price.fact.what]
    planed = [price for price in prices if _PLANING & set((price.fact.what or "").split())]
    for price in prices:
        named = set((price.fact.what or "").casefold().split())
        if price in planed or not named & words:
            continue
        planing = planed[-1] if planed and named & _ROUGH else None
        extra = dollars_of(planing) if planing is not None else Fraction(0)
        cost = covered_cost(dollars_of(price), extra, section_sizes(section)[1], listed.face, waste.value)
        added = f" and planing ${float(extra):.2f}" if planing is not None else ""
        note = f"a square foot covered, from ${float(dollars_of(price)):.2f} a board foot{added}"
        sources = [Source((one.memo,), "", doubts_of(one)) for one in (price, planing) if one is not None]
        yield number(
            "cost by the square foot",
            place,
            cost,
            "$",
            *sources,
            *listed.basis,
            waste,
            about=price.fact.what,
            note=note,
        )


def _boards_named(basis: Iterable[Basis]) -> tuple[str | None, set[str]]:
    """The section and the other words that the boards of a cut list were called by."""
    for one in basis:
        about = one.filed.fact.about if isinstance(one, Figure) else None
        words = (about or "").split()
        for word in words:
            try:
                section_sizes(word)
            except ValueError:
                continue
            return word, set(words) - {word, "board"}
    return None, set()
