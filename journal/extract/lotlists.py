"""The lots of a stretch: material counted, pointed back to or said without a count, with what happened to it."""

from __future__ import annotations

from functools import cache

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.forall import ALL
from journal.extract.line import Figure
from journal.extract.lots import read_lot
from journal.extract.pointed import pointed_lot
from journal.extract.sets import words_of
from journal.extract.sizes import goes_on_in_board_feet
from journal.extract.stock import add_lot, length_after, length_for_all, lot_event, section_for_all, species_for_all
from journal.extract.stockwords import event_at
from journal.extract.stretch import Stretch
from journal.records import StockEvent


def kind_first(facts: Stretch, i: int) -> str | None:
    """The wood named between what happened and the first count: "stacked the oak in the shed forty one boards"."""
    first = min((k for k in facts.figures if k >= i), default=i)
    kinds = [stockwords.species().at(facts.words, k) for k in range(i + 1, first) if facts.words[k - 1] == "the"]
    led = stockwords.species().at(facts.words, i - 1) if i else None  # "the hemlock's in forty six two by tens"
    kinds += [led] if led is not None and led[1] == i else []
    return next((kind[0] for kind in kinds if kind is not None), None)


def for_all_lots(ctx: Context, k: int) -> int | None:
    """ "All larch", "each ten foot long" at word `k`; the index after it."""
    if ctx.line.words[k] not in ALL:
        return None
    return species_for_all(ctx, k) or length_for_all(ctx, k) or section_for_all(ctx, k)


def event_named(facts: Stretch, i: int) -> StockEvent | None:
    """The event at word `i`; "got forty sheets" are received, "we've got forty sheets" are there."""
    found = event_at(facts.words, i)
    if found is None:
        return None
    k = i - 1
    while k > 0 and facts.words[k] in ("only", "still", "just", "now", "all"):
        k -= 1
    if facts.words[i] == "got" and found[1] == i + 1 and (k < 0 or facts.words[k] not in ("'ve", "have", "has", "'s")):
        return "received"
    return found[0]  # type: ignore[return-value]


@cache
def stock_words() -> frozenset[str]:
    """Words at which material without a count, or what happened to it, can be said in mid-list."""
    return stockwords.containers() | stockwords.events().first_words() | {"a", "an", "another", "last"}


def stock_word(facts: Stretch, k: int) -> int | None:
    """An event in mid-list, or a container without a count ("and a gallon of stain"); the index after it."""
    if (
        facts.words[k] in stockwords.containers()
        and facts.words[k + 1 : k + 3] == ["and", "a"]
        and facts.ctx.line.figure_over(k) is None
    ):
        lot = read_lot(facts.ctx, k, facts.clause.j)
        event = lot_event(facts.ctx, lot, facts.clause.j) if lot is not None else None
        if event is not None:
            return file_lot(facts, k, event[0])
    if not (facts.in_stock or facts.going.event):
        if (
            facts.words[k] in ("a", "an", "another")
            and k + 1 < facts.clause.j
            and stockwords.singular_at(facts.words, k + 1) in stockwords.containers()
        ):
            lot = read_lot(facts.ctx, k, facts.clause.j)
            event = lot_event(facts.ctx, lot, facts.clause.j) if lot is not None and lot.named() else None
            if event is not None and not facts.waiting:
                return file_lot(facts, k, event[0])
        return None
    event = event_at(facts.words, k)
    if event is not None and stockwords.counted_at(facts.ctx.line, event[1]):
        facts.going.event = event_named(facts, k)
        return event[1]
    thing_after = stockwords.thing_at(facts.words, k + 1) if k + 1 < facts.clause.j else None
    if (
        facts.words[k - 1 : k + 1] == ["the", "last"]
        and k + 1 not in facts.figures
        and thing_after in stockwords.containers()
    ):
        return None if facts.words[k + 1].endswith("s") else file_lot(facts, k, None)
    if facts.words[k - 1] == "with":
        return None  # "went up four hundred times a week with a sack"
    if facts.words[k] not in ("a", "an", "another") or thing_after is None or facts.ctx.line.figure_over(k) is not None:
        return None
    goes_on = (
        thing_after in stockwords.containers()
        or facts.words[k - 1] in ("and", "plus")
        or (facts.position == k and k + 1 not in facts.figures)
    )
    return file_lot(facts, k, None) if goes_on else None


def point_back(facts: Stretch, figure: Figure) -> int | None:
    """Files the material that a count points back to; the index after it, or None where it points to none."""
    found = pointed_lot(facts, figure)
    if found is None:
        return None
    facts.waiting, facts.in_stock = [], True
    add_lot(facts.ctx, found[0], facts.going, found[1])  # type: ignore[arg-type]
    facts.position = found[0].j
    return facts.position


def file_lot(facts: Stretch, k: int, event: str | None) -> int:
    """Adds the lot that begins at word `k`, where what happened to it is said or goes on; the index after it."""
    ctx, words, right = facts.ctx, facts.words, facts.clause.j
    lot = read_lot(ctx, k, right)
    if lot is None:
        return k + 1
    if (lumber := goes_on_in_board_feet(ctx, lot)) is not None:
        lot.species = lot.species or lumber.species
        lot.board_feet, lot.count = lot.count, None
    named: StockEvent | None = event or facts.going.event  # type: ignore[assignment]
    m = lot.j
    while m < right and words[m] in words_of("stock_between") and not event_at(words, m):
        m += 1
    after = event_at(words, m) if m < right else None
    if after is None and stockwords.came_at(ctx.line, m):
        after = ("received", m + 1)
    end = lot.j
    if (
        after is not None
        and (after[0] == named or not stockwords.counted_at(ctx.line, after[1]) or after[0] == "left over")
        and (event is None or after[0] == event)
    ):
        named, end = after[0], length_after(ctx, lot, after[1], right)  # type: ignore[assignment]
    if named is None:
        return end
    add_lot(ctx, lot, facts.going, named)
    return max(end, k + 1)
