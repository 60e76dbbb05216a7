"""Meter readings: moisture, temperature and humidity."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.measures import _about, _last_place, _thing
from journal.records import Reading

QUANTITIES = {
    "moisture": "moisture",
    "humidity": "humidity",
    "temperature": "temperature",
    "temp": "temperature",
    "relative": "humidity",
    "wet": "moisture",
    "damp": "moisture",
}
_DROPPED = frozenset(
    {
        "moisture",
        "humidity",
        "temperature",
        "temp",
        "relative",
        "content",
        "level",
        "meter",
        "thermometer",
        "hygrometer",
        "moisture's",
        "air",
        "degrees",
        "probe",
        "wet",
        "damp",
        "reading",
        "readings",
    }
)


def reading(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the reading of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    end = figure.j
    before = [QUANTITIES[w] for w in words[left : figure.i] if w in QUANTITIES]
    after = None
    k = end
    while k < min(right, end + 3) and words[k] in ("relative", "of", "wet"):
        k += 1
    if k < right and words[k] in QUANTITIES:
        if words[k] in ("moisture", "humidity", "relative", "wet", "damp") and not _is_next(ctx, k, right):
            after, end = QUANTITIES[words[k]], k + 1
            if end < right and words[end] == "content":
                end += 1
    unit = figure.unit
    if figure.kind == "degrees":
        quantity = "temperature"
        unit = {"deg": "F", "C": "C", "F": "F"}[figure.unit]
        if unit == "F" and figure.unit == "deg" and ctx.unit == "C":
            unit = "F"
    else:
        quantity = (
            after
            or (before[-1] if before else None)
            or (ctx.quantity if ctx.quantity in ("moisture", "humidity") else None)
            or "moisture"
        )
        unit = "%"
    named, _ = _thing(ctx, left, figure.i)
    named = [w for w in named if w not in _DROPPED]
    place = _last_place(ctx, left, figure.i)
    late_named: list[str] = []
    k = end
    stop = right
    if k < stop and words[k] in ("in", "on", "at", "for", "over", "up", "down", "inside", "out"):
        late_end = k + 1
        while (
            late_end < stop
            and words[late_end] not in ("and", "is", "'s", "then", "but", "humidity", "moisture", "temperature", "so")
            and late_end not in ctx.line.figures
        ):
            if late_end in ctx.line.places:
                late_end = ctx.line.places[late_end].j
                break
            late_end += 1
        late_named, late_place = _thing(ctx, k, late_end)
        late_named = [w for w in late_named if w not in _DROPPED]
        if late_place is not None:
            place = late_place
        end = late_end
    if place is not None:
        ctx.place, ctx.thing = place.name, None
    elif named and ctx.thing and not late_named:
        pass
    about_words = late_named or named
    if about_words:
        ctx.thing = _about(ctx, about_words)
    own = ctx.place
    if place is None and about_words and ctx.quantity is None and not ctx.facts:
        own = ctx.place
    about = ctx.thing if quantity == "moisture" else (ctx.thing if about_words else None)
    ctx.quantity = quantity
    ctx.facts.append(
        Reading(
            place=own,
            about=about,
            quantity=quantity,
            value=float(figure.value),
            unit=unit,
            evidence=ctx.span(min(left, figure.i), end),
            rule=f"reading.{quantity}",
            doubts=tuple(figure.doubts),
        )  # type: ignore[arg-type]
    )
    return end


def _is_next(ctx: Context, k: int, right: int) -> bool:
    """Whether a quantity's name leads in the next figure ("nine degrees humidity sixty two percent")."""
    following = next((f for i, f in sorted(ctx.line.figures.items()) if i > k), None)
    if following is None or following.i >= right:
        return False
    gap = ctx.line.words[k + 1 : following.i]
    return all(word in ("is", "'s", "at", "of", "reads", "about", "level", "content", "around") for word in gap)
