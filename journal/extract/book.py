"""Measures written down: a figure with its subject and dimension becomes a fact, unless it was said already."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.placewords import heads, place_words
from journal.extract.sets import words_of
from journal.extract.slots import Slot, report
from journal.extract.tape import METRIC_TICKS, decimal, length_ticks
from journal.extract.unitwords import inches_text, plural
from journal.records import Doubt, Measure


def add_pair(ctx: Context, slot: Slot, rough: bool, name: str | None, subject: str | None) -> None:
    """ "X by Y": width and height of a rough opening, else two sizes."""
    assert slot.partner is not None
    one, two = slot.figure, slot.partner
    rough = rough or (ctx.rough and name is None and slot.after is None)
    ctx.rough = rough
    names = ("rough opening width", "rough opening height") if rough else ("size", "size")
    one.approx = two.approx = one.approx or two.approx
    for figure, dimension in zip((one, two), names, strict=True):
        add_measure(ctx, slot, figure, subject, dimension)
    ctx.dimension = "size"
    if slot.third is not None:
        add_measure(ctx, slot, slot.third, subject, _third_dimension(ctx, slot, slot.third))


def _third_dimension(ctx: Context, slot: Slot, third: Figure) -> str:
    """The dimension of the last of "X by Y by Z": as said ("thick"), the length, or with a doubt the thickness where it is least."""
    if slot.after is not None:
        return slot.after.name
    if third.unit in METRIC_TICKS or third.value >= slot.figure.value:
        return "length"
    least = third.value < min(slot.figure.value, (slot.partner or slot.figure).value)
    if not least:
        return "length"
    name = "thickness" if third.value <= 4 else "depth"
    shown = f"'{ctx.line.said(*third.words)}' was taken for the {name}"
    third.doubts.append(Doubt("dimension", shown, ctx.span(*third.words), level=1 if name == "thickness" else 2))
    return name


def add_measure(ctx: Context, slot: Slot, figure: Figure, subject: str | None, dimension: str) -> None:
    """Adds the measure of a figure in the unit that goes on; finer than a tape is a problem."""
    _go_on_in_metric(ctx, figure)
    unit = ctx.unit = figure.unit
    ctx.last = figure
    ticks = length_ticks(figure)
    if ticks is None:
        message = f"{inches_text(figure.value)} is finer than a tape can read"
        report(ctx, slot, message, "Say it to the nearest sixty fourth.")
        return
    _doubt_inches(ctx, figure, subject, dimension)
    metric = f"{decimal(figure.value)} {unit}" if unit in METRIC_TICKS else None
    fact = Measure(
        place=ctx.place, about=_clean(subject, ctx.place, dimension), dimension=_named(subject, dimension), ticks=ticks,
        metric=metric, approx=figure.approx, shade=figure.shade, over_ticks=length_ticks(slot.over) if slot.over else None,
        evidence=ctx.span(min(slot.left, figure.i), max(slot.end, figure.j)),
        rule=f"measure.{dimension.replace(' ', '_')}", doubts=tuple(figure.doubts),
    )  # fmt: skip
    if dimension in ("size", "diagonal") or not _is_said(ctx, fact):
        ctx.facts.append(fact)


def _go_on_in_metric(ctx: Context, figure: Figure) -> None:
    """Gives a bare figure the metric unit of the one before it; an inch fraction or feet end it."""
    if figure.unit or ctx.unit not in METRIC_TICKS:
        return
    tenths = figure.value.denominator in (1, 5, 10, 20, 25, 50, 100) or ctx.unit == "m"
    if figure.kind != "number" and figure.rule != "figure.hundreds":
        return
    last = ctx.last.value if ctx.last is not None and ctx.last.unit == "m" else None
    if (
        ctx.unit == "m"
        and figure.value.denominator == 1
        and last is not None
        and figure.value > 20
        and figure.value > 4 * last
    ):
        said = ctx.line.said(*figure.words)
        figure.unit = "mm"  # "two point seven metres high, the apron forty eight": no metres, and hardly inches
        shown = f"'{said}' was taken for millimetres, after metres: or is it inches?"
        figure.doubts.append(Doubt("unit", shown, ctx.span(*figure.words), (inches_text(figure.value),), level=2))
        return
    if not tenths or (ctx.unit == "m" and figure.value > 60):
        return
    figure.unit = ctx.unit
    if figure.value < 20 and figure.value.denominator == 1:
        shown = f"'{ctx.line.said(*figure.words)}' was taken for {decimal(figure.value)} {ctx.unit}, as before it"
        figure.doubts.append(Doubt("unit", shown, ctx.span(*figure.words), level=1))


def _doubt_inches(ctx: Context, figure: Figure, subject: str | None, dimension: str) -> None:
    """Asks whether a bare figure of a floor, slab, room or building is in feet: nobody pours a garage slab of 24 in. (CP)."""
    if figure.unit or figure.value > 60 or figure.value.denominator > 2 or dimension not in _OUTLINE or figure.doubts:
        return
    of = (subject or ctx.place or "").split()
    if subject is None:
        large = bool(of) and of[-1] in place_words("large")
    else:
        small = words_of("small_slabs") & {*of, *(ctx.place or "").split()}
        large = of[-1] in words_of("poured") and figure.value <= 36 and not small
    if large:
        shown = f"'{ctx.line.said(*figure.words)}' was taken for inches: is it feet?"
        figure.doubts.append(Doubt("unit", shown, ctx.span(*figure.words), (inches_text(figure.value * 12),), level=2))


# What the outline of a floor or building is measured by.
_OUTLINE = frozenset({"size", "length", "width", "diagonal"})


def _is_said(ctx: Context, fact: Measure) -> bool:
    """Whether the same figure of the same thing stands already."""
    key = (fact.place, fact.about, fact.dimension, fact.ticks)
    return any(isinstance(f, Measure) and (f.place, f.about, f.dimension, f.ticks) == key for f in ctx.facts)


def _named(subject: str | None, dimension: str) -> str:
    """The height of a ridge is a ridge height, that of a plate a plate height."""
    if dimension == "height" and subject in ("ridge", "peak"):
        return "ridge height"
    if dimension == "height" and subject in ("plate", "top plate"):
        return "plate height"
    return dimension


def _clean(subject: str | None, place: str | None, dimension: str) -> str | None:
    """The thing measured, less what the place or the dimension says already."""
    if not subject or (place and subject.lower() == place.lower()):
        return None
    if place and subject in place.split() and heads().at([subject], 0) is not None:
        return None  # "the wall's nine foot high" of wall G
    if place and subject == plural(place.split()[0]):
        return None
    named = _named(subject, dimension)
    if named in ("ridge height", "plate height") and subject in ("ridge", "peak", "plate", "top plate"):
        return None
    if dimension == "base width" and subject in ("base", "gable"):
        return None
    return subject
