"""Meter readings: moisture, temperature and humidity."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Literal

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.sets import words_of
from journal.extract.tasks import named_last
from journal.extract.things import about, last_place, thing
from journal.extract.vocabulary import thing_words
from journal.grammar import table
from journal.records import Quantity, Reading

_PHRASE = ("in", "on", "at", "for", "over", "up", "down", "inside", "out", "under")


def quantities() -> dict[str, Quantity]:
    """Words that name what a meter reads, to the quantity."""
    return table("readings")["quantities"]  # type: ignore[no-any-return]


@cache
def _dropped() -> frozenset[str]:
    return frozenset(table("readings")["dropped"]["words"])


def reading(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the reading of a figure within words `left` to `right`; gives the index after the words that went with it."""
    words, names = ctx.line.words, quantities()
    dropped = _dropped()
    end = figure.j
    said = [names[w] for w in words[left : figure.i] if w in names]
    k = end
    while k < min(right, end + 3) and words[k] in ("relative", "of", "in"):
        k += 1
    if (
        figure.kind == "percent"
        and k < len(words)
        and k < right
        and words[k] in names
        and names[words[k]] != "temperature"
        and not _leads_next(ctx, k)
    ):
        said = [names[words[k]]]
        end = k + 1 + (k + 1 < right and words[k + 1] == "content")
    quantity: Quantity
    unit: Literal["%", "F", "C"]
    if figure.kind == "degrees" or (figure.kind != "percent" and (said[-1] if said else ctx.quantity) == "temperature"):
        quantity = "temperature"
        unit = "C" if figure.unit == "C" or (figure.kind != "degrees" and ctx.unit == "C") else "F"
        ctx.unit = unit
    else:
        own = [w for w in thing(ctx, left, figure.i)[0] if w not in dropped]
        going = ctx.quantity if not own and ctx.quantity in ("moisture", "humidity") else "moisture"
        quantity, unit = (said[-1] if said and said[-1] != "temperature" else going), "%"  # type: ignore[assignment]
    named = [w for w in thing(ctx, left, figure.i)[0] if w not in dropped]
    if quantity == "moisture" and not said and "air" in named:
        quantity, named = "humidity", [w for w in named if w != "air"]
    place = last_place(ctx, left, figure.i)
    late: list[str] = []
    if end < right and words[end] in _PHRASE:
        stop = end + 1
        while (
            stop < right
            and words[stop] not in words_of("phrase_ends")
            and words[stop] not in names
            and stop not in ctx.line.figures
        ):
            if stop in ctx.line.places:
                stop = ctx.line.places[stop].j
                while stop < right and words[stop] in thing_words() and stop not in ctx.line.places:
                    stop += 1
                break
            stop += 1
        late_words, late_place = thing(ctx, end, stop)
        late = [w for w in late_words if w not in dropped]
        if place is None and late_place is not None and not late_place.carried:
            for n, fact in enumerate(ctx.facts):
                if isinstance(fact, Reading) and fact.place is None:
                    ctx.facts[n] = replace(fact, place=late_place.name)
        place, end = late_place or place, stop
    if place is not None:
        ctx.place, ctx.thing = place.name, None
    words_about = late or named
    if (
        not words_about
        and quantity == "moisture"
        and not ctx.thing
        and {"they", "it", "those"} & set(words[left : figure.i])
    ):
        words_about = [w for w in (named_last(ctx) or "").split() if w != "the"]
    if words_about:
        ctx.thing = about(ctx, words_about)
    subject = ctx.thing if words_about or quantity == "moisture" else None
    ctx.quantity = quantity
    ctx.facts.append(
        Reading(
            place=ctx.place, about=subject, quantity=quantity, value=float(figure.value), unit=unit,
            evidence=ctx.span(min(left, figure.i), end), rule=f"reading.{quantity}", doubts=tuple(figure.doubts),
        )
    )  # fmt: skip
    return end


def _leads_next(ctx: Context, k: int) -> bool:
    """Whether a quantity's name leads in the next figure ("nine degrees humidity sixty two percent")."""
    following = min((i for i in ctx.line.figures if k < i), default=None)
    if following is None:
        return False
    return all(
        word in ("is", "'s", "at", "of", "reads", "about", "level", "content", "around")
        for word in ctx.line.words[k + 1 : following]
    )
