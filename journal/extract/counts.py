"""Whether a figure counts material, and what happened to what it counts."""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.line import Figure
from journal.extract.lots import read_lot
from journal.extract.stock import lot_event
from journal.extract.stockwords import event_at
from journal.extract.stretch import Stretch
from journal.records import Stock


def counted_event(facts: Stretch, figure: Figure) -> str | None:
    """The event of a count, "" where that of the list goes on, None where the figure counts no material."""
    words, ctx, clause = facts.words, facts.ctx, facts.clause
    by_the_foot = figure.unit == "ft" and words[figure.j : figure.j + 1] == ["of"]
    if figure.kind not in ("number", "section", "board feet", "length") or (
        figure.unit not in ("", "bf") and not by_the_foot
    ):
        return None
    if figure.kind == "length" and figure.whole is None and not facts.in_stock:
        return None
    if figure.j < clause.j and words[figure.j] == "by":
        return None
    if (d := ctx.line.dimensions.get(figure.j)) is not None and d.adjective and d.words != "long":
        return None
    lot = read_lot(ctx, figure.i, clause.j)
    if lot is None:
        return None
    if (
        facts.in_stock
        and clause.opener == "stock"
        and clause.verb < figure.i <= clause.verb + 4
        and figure.kind != "length"
    ):
        event = lot_event(ctx, lot, clause.j)
        return event[0] if event is not None and event[0] == "left over" and facts.going.event == "have" else ""
    if not lot.named():
        event = event_at(words, figure.j) if figure.j < clause.j else None
        if event is not None and (facts.in_stock or words[figure.j : event[1]] == ["left", "over"]):
            return event[0] if not stockwords.counted_at(ctx.line, event[1]) or event[0] == "left over" else ""
        return "" if facts.in_stock and figure.kind == "number" and _bare_count(facts, figure) else None
    event = lot_event(ctx, lot, clause.j)
    if event is not None and not _measured(facts, figure, lot.j):
        return event[0]
    if facts.in_stock and (figure.kind != "length" or lot.what):
        return None if _measured(facts, figure, lot.j) else ""
    before = words[max(0, figure.i - 3) : figure.i]
    if before[-2:] in (["there", "'s"], ["there", "are"], ["there", "is"]) and not _measured(facts, figure, lot.j):
        return "have"
    if before[-2:] in (["we", "'ve"], ["i", "'ve"]):
        return "have"
    if lot.place is not None and lot.what and not facts.waiting and not _measured(facts, figure, lot.j):
        return "have"
    return "have" if figure.kind == "board feet" else None


def _measured(facts: Stretch, figure: Figure, end: int) -> bool:
    """Whether a copula or dimension shows the figure to be a measure."""
    if figure.kind in ("section", "board feet"):
        return False
    start = max([facts.position, *(f.j + 1 for f in facts.waiting)])
    return any(start <= i < figure.i for i in facts.ctx.line.dimensions)


def _bare_count(facts: Stretch, figure: Figure) -> bool:
    """Whether a number without a thing counts on ("stacked five"): an event stands right before it."""
    k = figure.i - 1
    while k >= facts.clause.i and facts.words[k] in ("about", "another", "the", "up", "only", "just", "all", "out"):
        k -= 1
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    length = facts.figures.get(figure.j + 1)
    if isinstance(last, Stock) and last.length_ticks and length is not None and length.kind == "length":
        return facts.words[figure.j] in ("at", "to")
    events = (event_at(facts.words, s) for s in range(max(facts.clause.i, k - 2), k + 1))
    return any(event is not None and event[1] == k + 1 for event in events)
