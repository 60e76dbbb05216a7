"""Roof slopes: rise in run, with their place."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.sets import words_of
from journal.extract.stockwords import names_stock
from journal.extract.stretch import Stretch
from journal.extract.things import about, last_place, thing
from journal.records import Doubt, Slope

_DROPPED = frozenset(
    {
        "slope",
        "pitch",
        "pitched",
        "roof",
        "rafters",
        "rafter",
        "fall",
        "falls",
        "cut",
        "set",
        "framed",
        "steep",
        "shallow",
        "laid",
    }
)


def slope_goes_on(facts: Stretch, figure: Figure) -> bool:
    """ "The porch roof's nine twelve and the shed four": a bare number after a slope, of another roof or side of it."""
    ctx, words = facts.ctx, facts.words
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Slope) or facts.waiting or figure.kind not in ("number", "length") or figure.unit:
        return False
    if not 1 <= figure.value <= 24 or figure.each or names_stock(words, figure.j):
        return False
    end = figure.j
    at = (
        next((k for k in range(end + 1, end + 4) if k in ctx.line.places), None)
        if words[end : end + 1] == ["on"]
        else None
    )
    ends = end >= len(words) or words[end] in words_of("conjunctions") or end in ctx.line.places
    if at is not None or not ends:
        return at is not None and ctx.line.places[at].name != last.place
    between = range(facts.position, figure.i)
    if any(k in ctx.line.dimensions for k in between):
        return False
    named = any(k in ctx.line.places and ctx.line.places[k].name != last.place for k in between)
    return named or (last.about is not None and not words_of("sloped").isdisjoint(words[k] for k in between))


def slope(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the slope of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    end = figure.j
    place = last_place(ctx, left, figure.i)
    named = [w for w in thing(ctx, left, figure.i)[0] if w not in _DROPPED]
    if end < right and words[end] in words_of("place_prepositions") and not (place is not None and not place.carried):
        k = end + 1
        while k < right and words[k] in ("the", "a", "our", "same", "this"):
            if k in ctx.line.places:
                break
            k += 1
        if k in ctx.line.places:
            place, end = ctx.line.places[k], ctx.line.places[k].j
        elif not named:
            stop = k
            while (
                stop < right
                and words[stop] not in words_of("phrase_ends")
                and stop not in ctx.line.figures
                and stop not in ctx.line.places
            ):
                stop += 1
            named, late_place = thing(ctx, k, min(stop + 3, right) if stop < right and words[stop] == "of" else stop)
            place, end = late_place or place, stop
    if place is not None:
        ctx.place = place.name
    doubts = list(figure.doubts)
    rise, run = float(figure.value), float(figure.run or 12)
    if figure.kind != "slope":
        last = ctx.facts[-1]
        run = last.run if isinstance(last, Slope) else run
        doubts.append(
            Doubt(
                "dimension",
                f"'{ctx.line.said(figure.i, figure.j)}' was taken for {rise:g} in {run:g}",
                ctx.span(figure.i, figure.j),
                level=1,
            )
        )
    if not 1 <= rise * 12 / run <= 24 and run == 12 and rise >= 1:
        doubts.append(Doubt("range", f"a slope of {rise:g} in {run:g} is unusual", ctx.span(figure.i, figure.j)))
    ctx.facts.append(
        Slope(
            place=ctx.place,
            about=about(ctx, named),
            rise=rise,
            run=run,
            evidence=ctx.span(min(left, figure.i), end),
            rule=figure.rule if figure.kind == "slope" else "slope.goes_on",
            doubts=tuple(doubts),
        )
    )
    ctx.thing = None
    return end
