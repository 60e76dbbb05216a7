"""What a memo takes back of an earlier one: "scratch the last one", "six and a half not six and a quarter"."""

from __future__ import annotations

from functools import cache

from journal.extract.context import Context
from journal.extract.phrases import Phrases
from journal.extract.said import TakenBack
from journal.grammar import table
from journal.records import Cost, Hours, Measure, Revision, Slope, Span, Stock

_ADDING = (Hours, Stock, Cost)


@cache
def correcting() -> Phrases[str]:
    """Phrases at the beginning or end of a memo that make it a correction."""
    return Phrases.of(table("takebacks")["correcting"], "correcting")


def revisions(ctx: Context, heard: TakenBack, corrected: Span | None) -> list[Revision]:
    """The revisions that a memo makes, by the index of its new fact.

    State facts need none where only "correction" is said: the newest of them stands. Facts that add up do.
    """
    out: list[Revision] = []
    if heard.strike_last is not None:
        out.append(Revision(by=0 if len(ctx.facts) == 1 else None, evidence=heard.strike_last))
    for value, was, span in heard.denied:
        best = next(
            (n for n in range(len(ctx.facts) - 1, -1, -1) if isinstance(ctx.facts[n], (*_ADDING, Measure, Slope))), None
        )
        if best is None:
            continue
        fact = ctx.facts[best]
        on = fact.on if isinstance(fact, Hours) else None
        plain = str(int(value)) if value.denominator == 1 else was
        out.append(Revision(by=best, kind=fact.kind, place=fact.place, on=on, was=plain, evidence=span))
    if corrected is not None and not out:
        for n, fact in enumerate(ctx.facts):
            if isinstance(fact, _ADDING):
                on = fact.on if isinstance(fact, Hours) else None
                out.append(Revision(by=n, kind=fact.kind, place=fact.place, on=on, evidence=corrected))
    return out
