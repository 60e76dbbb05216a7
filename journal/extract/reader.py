"""Reads a line clause by clause and hands each figure to the rules of its kind. Overlaps are settled here.

A clause that says a task is read whole by tasks.py. In the rest every figure has one owner: per cent and degrees are
readings, hours are hours, money is a cost, "six twelve" is a slope; a plain number is stock where something is counted
with an event, money beside a price word, else a measure.
"""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.clauses import Clause, find_clauses
from journal.extract.context import Context
from journal.extract.costs import CUES, cost
from journal.extract.hours import hours
from journal.extract.line import Figure
from journal.extract.measures import measure
from journal.extract.readings import quantities, reading
from journal.extract.stock import Going, add_lot, read_lot
from journal.extract.stockwords import event_at
from journal.extract.tasks import task
from journal.extract.things import about, last_place, thing
from journal.records import Slope, Stock, StockEvent


def read(ctx: Context) -> None:
    """Adds every fact of the line to the context."""
    clauses = find_clauses(ctx.line, ctx.dues)
    going = Going()
    for clause in clauses:
        if clause.opener in ("facts", "stock"):
            _facts(ctx, clause, going)
        else:
            task(ctx, clause)


def _facts(ctx: Context, clause: Clause, going: Going) -> None:
    line = ctx.line
    figures = [f for f in ctx.figures_between(clause.i, clause.j)]
    if clause.opener == "stock":
        found = event_at(line.words, clause.verb)
        assert found is not None
        going.event = found[0]  # type: ignore[assignment]
    k = clause.i
    position = clause.i
    waiting: list[Figure] = []
    run_from = clause.i
    stock_mode = clause.opener == "stock"
    figures_by_start = {f.i: f for f in figures}
    while k < clause.j:
        if stock_mode or going.event:
            event = event_at(line.words, k)
            if event and stock_mode and stockwords.counted_at(line, event[1]):
                going.event = event[0]  # type: ignore[assignment]
        figure = figures_by_start.get(k)
        if figure is None:
            if (
                stock_mode
                and line.words[k] in ("a", "an", "another")
                and k + 1 < clause.j
                and stockwords.singular_at(line.words, k + 1) in stockwords.containers()
                and not any(f.i <= k < f.j for f in figures)
            ):
                k = _lot(ctx, k, clause.j, going, None)
                position = k
                run_from = k
                continue
            k += 1
            continue
        owner = _owner(ctx, figure, clause, position, stock_mode)
        if owner != "measure" and waiting:
            measure(
                ctx,
                waiting,
                run_from,
                figure.i if owner not in ("reading", "stock") else _gap(ctx, waiting[-1], figure),
            )
            run_from = _gap(ctx, waiting[-1], figure)
            position = run_from
            waiting = []
        right = clause.j
        if owner == "reading":
            k = reading(ctx, figure, position, _right(figures, figure, right))
        elif owner == "hours":
            k = hours(ctx, figure, position, right)
        elif owner == "cost":
            k = cost(ctx, figure, position, _right(figures, figure, right))
        elif owner == "slope":
            k = _slope(ctx, figure, position, _right(figures, figure, right))
        elif owner.startswith("stock"):
            event_name = owner.partition(":")[2]
            k = _lot(ctx, figure.i, clause.j, going, event_name or None)
            stock_mode = True
        else:
            waiting.append(figure)
            k = figure.j
            continue
        position = run_from = max(k, figure.j)
        k = position
    if waiting:
        measure(ctx, waiting, run_from, clause.j)
    elif (place := ctx.place_between(position, clause.j)) is not None:
        ctx.place = place


def _gap(ctx: Context, last: Figure, figure: Figure) -> int:
    """Where the words of the measure before end and those of the next figure begin."""
    words = ctx.line.words
    for k in range(figure.i - 1, last.j - 1, -1):
        if words[k] in ("and", "then", "but"):
            return k
    dim = ctx.line.dimensions.get(last.j)
    return dim.j if dim is not None else last.j


def _right(figures: list[Figure], figure: Figure, right: int) -> int:
    return min([f.i for f in figures if f.i >= figure.j] + [right])


def _owner(ctx: Context, figure: Figure, clause: Clause, position: int, stock_mode: bool) -> str:
    words = ctx.line.words
    kind = figure.kind
    if kind in ("percent", "degrees"):
        return "reading"
    if kind == "hours":
        return "hours"
    if kind == "slope":
        return "slope"
    before = words[max(position, figure.i - 8) : figure.i]
    if kind == "money" or figure.per:
        return "cost"
    if (
        kind in ("number", "length")
        and figure.unit == ""
        and before
        and before[-1] in quantities()
    ):
        return "reading"
    if kind in ("number", "length") and figure.unit == "" and ctx.quantity and _plain_reading(ctx, figure, position):
        return "reading"
    if kind == "board feet":
        return _stock_owner(ctx, figure, clause) or "stock"
    event = _stock_owner(ctx, figure, clause)
    if event:
        return event
    if figure.each and figure.unit == "" and not any(w in ("wide", "long", "at", "to") for w in before):
        return "cost"
    if figure.unit == "" and any(word in CUES or (word == "came" and "to" in before) for word in before):
        return "cost"
    if kind == "section":
        return "stock" if stock_mode else "measure"
    if stock_mode and kind == "number" and figure.unit == "":
        if stockwords.names_stock(words, figure.j) or not any(
            words[k] in ("is", "are", "'s") for k in range(position, figure.i)
        ):
            return "stock"
    return "measure"


def _plain_reading(ctx: Context, figure: Figure, position: int) -> bool:
    """Whether a bare number goes on a list of per cents: "eighteen percent in the sill sixteen in the plate"."""
    words = ctx.line.words
    if (figure.kind != "number" and figure.rule != "figure.number") or not ctx.facts or ctx.facts[-1].kind != "reading":
        return False
    return (
        not any(d.i >= position and d.i <= figure.j for d in ctx.line.dimensions.values())
        and figure.value <= 100
        and (figure.j >= len(words) or words[figure.j] != "by")
    )


def _stock_owner(ctx: Context, figure: Figure, clause: Clause) -> str | None:
    """The event said after a count ("six sheets left over"), where one belongs to it."""
    line, words = ctx.line, ctx.line.words
    if figure.kind not in ("number", "section", "board feet", "length") or figure.unit not in ("", "bf"):
        return None
    if figure.kind == "length" and figure.whole is None:
        return None
    if clause.opener == "stock" and figure.i <= clause.verb + 4 and figure.i > clause.verb:
        return "stock"
    lot = read_lot(ctx, figure.i, clause.j)
    if lot is None:
        return None
    k = lot.j
    if not lot.what and not lot.section and not lot.species and lot.board_feet is None:
        event = event_at(words, figure.j)
        if (
            (event
            and event[0] == "left over"
            and clause.opener == "stock")
            or (event
            and words[figure.j : event[1]] == ["left", "over"])
        ):
            return f"stock:{event[0]}"
        return None
    while k < clause.j and words[k] in (
        "that",
        "just",
        "we",
        "have",
        "'ve",
        "are",
        "is",
        "'s",
        "were",
        "all",
        "which",
        "still",
        "now",
        "finally",
    ):
        k += 1
    event = event_at(words, k) if k < clause.j else None
    if event and not (event[0] in ("need", "used", "cut", "have") and stockwords.counted_at(line, event[1])):
        return f"stock:{event[0]}"
    if clause.opener == "stock":
        return "stock"
    before = words[max(0, figure.i - 3) : figure.i]
    if before[-2:] in (["there", "'s"], ["there", "are"], ["there", "is"], ["we", "'ve"], ["i", "'ve"]):
        return "stock:have"
    return None


def _lot(ctx: Context, k: int, right: int, going: Going, event: str | None) -> int:
    lot = read_lot(ctx, k, right)
    if lot is None:
        return k + 1
    words = ctx.line.words
    end = lot.j
    named: StockEvent | None = event or going.event  # type: ignore[assignment]
    m = end
    while m < right and words[m] in (
        "that",
        "just",
        "we",
        "have",
        "are",
        "is",
        "'s",
        "were",
        "all",
        "still",
        "now",
        "'re",
    ):
        m += 1
    after = event_at(words, m) if m < right else None
    if after and not (stockwords.counted_at(ctx.line, after[1]) and after[0] != "left over"):
        named = after[0]  # type: ignore[assignment]
        end = after[1]
        end = _more(ctx, lot, end, right)
    if named is None:
        return end
    keep = going.event
    add_lot(ctx, lot, going, named)
    if event and keep:
        going.event = named
    return max(end, k + 1)


def _more(ctx: Context, lot: object, m: int, right: int) -> int:
    """A length said after the event: "fifteen boards came in today ten foot long"."""
    from journal.extract.measures import length_ticks
    from journal.extract.stock import Lot

    assert isinstance(lot, Lot)
    words = ctx.line.words
    k = m
    while k < right and (
        words[k] in ("today", "all", "they", "'re", "are", "each", "yesterday", "this", "morning", "just", "now")
        or any(d.i <= k < d.j for d in ctx.dues)
    ):
        k += 1
    figure = ctx.line.figures.get(k)
    if figure is not None and figure.kind == "length" and figure.unit and lot.length is None:
        lot.length = length_ticks(figure)
        return figure.j + (figure.j < right and words[figure.j] == "long")
    return m


def _slope(ctx: Context, figure: Figure, left: int, right: int) -> int:
    words = ctx.line.words
    end = figure.j
    place = last_place(ctx, left, figure.i)
    named, _ = thing(ctx, left, figure.i)
    if place is None and end < right and words[end] in ("on", "at", "for", "in", "over"):
        late_end = right
        for k in range(end + 1, right):
            if k in ctx.line.places:
                place = ctx.line.places[k]
                end = place.j
                break
        del late_end
    if place is not None:
        ctx.place = place.name
    named = [w for w in named if w not in ("slope", "pitch", "pitched", "roof", "it")]
    subject = about(ctx, named)
    ctx.facts.append(
        Slope(
            place=ctx.place,
            about=subject,
            rise=float(figure.value),
            run=float(figure.run or 12),
            evidence=ctx.span(min(left, figure.i), end),
            rule=figure.rule or "slope",
            doubts=tuple(figure.doubts),
        )
    )
    ctx.thing = None
    return end


__all__ = ["Stock", "read"]
