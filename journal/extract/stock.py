"""Material that came, went or is wanted: the event of each lot, and what goes on down a list of lots."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.forall import all_of_a_kind, all_of_a_length, all_of_a_section
from journal.extract.line import joined
from journal.extract.lot import Lot
from journal.extract.lots import read_lot
from journal.extract.sets import words_of
from journal.extract.sizes import section_after
from journal.extract.stockwords import containers, event_at, singular
from journal.extract.tape import length_ticks
from journal.extract.vocabulary import past_forms
from journal.lengths import INCH
from journal.records import Cost, Doubt, Stock, StockEvent


@dataclass(slots=True)
class Going:
    """What goes on down a list: the event, and the thing with its section and kind; a name said before its count."""

    event: StockEvent | None = None
    what: str | None = None
    section: str | None = None
    species: str | None = None
    name: list[str] = field(default_factory=list)
    place: str | None = None
    # the wood that was named before the first count
    kind: str | None = None


def lot_event(ctx: Context, lot: Lot, right: int, depth: int = 0) -> tuple[str, int] | None:
    """The event said after a lot, or after the last of a list of lots ("… and three buckets of mud came in")."""
    words = ctx.line.words
    k = lot.j
    while k < right and words[k] in words_of("stock_between") and not event_at(words, k):
        k += 1
    if (
        k + 1 < right
        and words[k] == "at"
        and (money := ctx.line.figures.get(k + 1)) is not None
        and (money.kind == "money" or money.per or money.each)
    ):
        k = money.j
    if k < right and words[k] == "there":
        return None  # "… half a gallon of oil there's one pail left over"
    event = event_at(words, k) if k < right else None
    if event is None and stockwords.came_at(ctx.line, k):
        return "received", k + 1
    if event is not None:
        counts_next = stockwords.counted_at(ctx.line, event[1])
        if (
            not counts_next
            or event[0] == "left over"
            or words[k : event[1]] in (["came", "in"], ["showed", "up"], ["arrived"])
        ):
            return event
        if (
            event[0] in ("used", "cut", "stacked", "received")
            and k > lot.j - 1
            and words[k - 1] not in ("and", "then", "we", "i")
            and words[k] != "cut"
        ):
            return event
        return None
    if depth < 4 and k < right and lot.named():
        k += words[k] in ("and", "plus")
        following = read_lot(ctx, k, right) if k < right else None
        if following is not None and following.named():
            return lot_event(ctx, following, right, depth + 1)
    return None


def length_after(ctx: Context, lot: Lot, m: int, right: int) -> int:
    """Takes in a length said after the event: "came in today ten foot long"; the index after it."""
    words = ctx.line.words
    k = m
    while k < right:
        kind = stockwords.species().at(words, k) if lot.species is None else None
        if kind is not None and words[k - 1] in past_forms():
            lot.species, k = kind[0], kind[1]
        elif (
            words[k] in words_of("before_length")
            or any(d.i <= k < d.j for d in ctx.dues)
            or (words[k] in past_forms() and k + 1 < right and stockwords.species().at(words, k + 1) is not None)
        ):
            k += 1
        else:
            break
    figure = ctx.line.figures.get(k)
    if figure is not None and figure.kind == "section" and figure.second is None and lot.section is None:
        lot.section, m = figure.section, figure.j
        figure = ctx.line.figures.get(m)
    elif figure is not None and (sized := section_after(ctx, lot, figure, k)) is not None:
        m = sized
        figure = ctx.line.figures.get(m)
    joined = m if figure is None and m > k and words[m : m + 1] == ["and"] else None
    if joined is not None:  # "… ten by ten and eighteen foot long"
        figure = ctx.line.figures.get(joined + 1)
        figure = figure if figure is not None and words[figure.j : figure.j + 1] == ["long"] else None
    if figure is not None and figure.kind == "length" and figure.unit and lot.length is None:
        following = words[figure.j] if figure.j < right else ""
        if following in ("wide", "thick", "deep", "high"):
            return m
        lot.length = length_ticks(figure)
        return figure.j + (following == "long")
    return m


def length_for_all(ctx: Context, k: int) -> int | None:
    """ "All of them eight foot long" goes for every lot right before that has no length; the index after it."""
    last = ctx.facts[-1] if ctx.facts else None
    if (
        not isinstance(last, Stock)
        or last.length_ticks is not None
        or ctx.line.words[k] not in ("all", "each", "every")
    ):
        return None
    found = all_of_a_length(ctx, k)
    if found is None:
        return None
    n = len(ctx.facts) - 1
    while n >= 0 and isinstance(fact := ctx.facts[n], Stock) and fact.length_ticks is None and fact.event == last.event:
        ctx.facts[n] = replace(fact, length_ticks=found[0])
        n -= 1
    return found[1]


def species_for_all(ctx: Context, k: int) -> int | None:
    """ "All larch" at the end of a list goes for the whole of it; the index after it."""
    kind = all_of_a_kind(ctx.line.words, k)
    if kind is None:
        return None
    found = False
    for n, fact in enumerate(ctx.facts):
        if isinstance(fact, Stock) and fact.species is None:
            ctx.facts[n], found = replace(fact, species=kind[0]), True
    return kind[1] if found else None


def section_for_all(ctx: Context, k: int) -> int | None:
    """ "All out of the two by six" goes for every lot right before that has no section; the index after it."""
    found = all_of_a_section(ctx, k)
    if found is None:
        return None
    n = len(ctx.facts) - 1
    while n >= 0 and isinstance(fact := ctx.facts[n], Stock) and fact.section is None:
        ctx.facts[n] = replace(fact, section=found[0])
        n -= 1
    return found[1] if n < len(ctx.facts) - 1 else None


def add_lot(ctx: Context, lot: Lot, going: Going, event: StockEvent) -> None:
    """Files a lot; a bare count takes the thing, section and kind of the lot before it."""
    what = _name(lot.what)
    if going.name and (set(going.name) & words_of("carriers") or event_at(going.name, 0)):
        going.name = []
    if going.name and (what is None or what in containers()) and not lot.section and not (what is None and going.what):
        what = f"{what} of {joined(going.name)}" if what else singular(joined(going.name))
        going.name = []
    if lot.of_the_same and what and going.what and " of " in going.what:
        what = f"{going.what.partition(' of ')[0]} of {what}"
    if _is_its_section(ctx, lot, event):
        return
    if (what is None or what in containers()) and lot.board_feet is None:
        what = _priced(ctx, what) or what
    if (not lot.named() or lot.footers) and what is None and not lot.section and not lot.species:
        what, lot.section, lot.species = going.what, going.section, going.species
    elif (
        what is None
        and lot.section
        and _goes_on_as_named(lot, going)
        and lot.board_feet is None
        and lot.count is not None
        and going.section
    ):
        what, lot.species = going.what, lot.species or going.species
    if going.kind and (lot.what or lot.section) and not lot.species:
        lot.species = going.kind
    going.kind = None
    in_feet = lot.bare_feet or (lot.maybe_feet and not lot.what and _was_in_feet(ctx))
    if in_feet and lot.length is not None and event != "cut":
        _in_feet(ctx, lot)
    going.what, going.section, going.species, going.event = what, lot.section, lot.species, event
    going.place = lot.place = lot.place or going.place
    ctx.place = lot.place or ctx.place
    if event in (
        "used",
        "cut",
    ):  # what is used up goes where the breath is about: "wire brushing wall a used fourteen brushes"
        lot.place = ctx.place
    ctx.facts.append(
        Stock(
            event=event, count=float(lot.count) if lot.count is not None else None, what=what, section=lot.section,
            length_ticks=lot.length, species=lot.species, board_feet=float(lot.board_feet) if lot.board_feet is not None else None,
            place=lot.place, evidence=ctx.span(lot.i, lot.j), rule=f"stock.{event.replace(' ', '_')}", doubts=tuple(lot.doubts),
        )
    )  # fmt: skip


def _is_its_section(ctx: Context, lot: Lot, event: StockEvent) -> bool:
    """ "Forty boards for the loft floor five quarter by eight": a section by itself is that of the lot right before it."""
    last = ctx.facts[-1] if ctx.facts else None
    alone = lot.section and lot.count is None and lot.board_feet is None and not (lot.what or lot.by_section)
    if not isinstance(last, Stock) or not alone or last.section or not last.what or last.event != event:
        return False
    ctx.facts[-1] = replace(
        last, section=lot.section, length_ticks=last.length_ticks or lot.length, species=last.species or lot.species
    )
    return True


def _was_in_feet(ctx: Context) -> bool:
    """Whether the lot before is so many feet long: "twelve four by fours ten foot long and twelve at eight"."""
    last = ctx.facts[-1] if ctx.facts else None
    return (
        isinstance(last, Stock)
        and (last.length_ticks or 0) >= 48 * INCH
        and (last.length_ticks or 1) % (12 * INCH) == 0
    )


def _in_feet(ctx: Context, lot: Lot) -> None:
    """Lumber "at fourteen" is fourteen foot; shown, where no foot was said in the list before."""
    assert lot.length is not None
    inches = lot.length // INCH
    lot.length *= 12
    if not any(isinstance(fact, Stock) and (fact.length_ticks or 0) >= 72 * INCH for fact in ctx.facts):
        span = ctx.span(lot.i, lot.j)
        lot.doubts.append(Doubt("unit", f"a length of {inches} was read as {inches} ft", span, (str(inches),), level=1))


def _goes_on_as_named(lot: Lot, going: Going) -> bool:
    """Whether a lot said by its section alone is of the thing before: "two by sixes" after posts are none."""
    return not lot.by_section or going.what in ("board", "plank", "timber", "stick", "piece", "stock")


def _priced(ctx: Context, what: str | None) -> str | None:
    """What was bought at the price right before: "… a sheet for the backer board i took fourteen"."""
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Cost) or last.per == "total" or not last.what:
        return None
    if what is not None and what != last.per:
        return None
    held = last.per if last.per in containers() else None
    named = last.what.split()
    return f"{held} of {last.what}" if held else joined([*named[:-1], singular(named[-1])])


def _name(what: list[str]) -> str | None:
    """The thing in the singular: "tube of sealant", "sanding disc"."""
    words = list(what)
    while words and words[-1] in ("of", "and"):
        words.pop()
    if not words:
        return None
    at = words.index("of") - 1 if "of" in words[1:] else len(words) - 1
    words[at] = singular(words[at])
    return joined(words)
