"""Measures: which thing, in which place, has which dimension of that figure.

Each figure looks left for the words since the figure before it and right for what can only follow ("wide", "out of
plumb", "off the corner"). What is not said again goes on from the figure before.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.adjuncts import give_adjuncts, phrase_end, take_adjunct
from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING, other_words
from journal.extract.line import DimensionWord, Figure, joined
from journal.extract.offsets import offset
from journal.extract.runs import dimension_run, doubt_garbled, name_run, number_run
from journal.extract.sets import words_of
from journal.extract.slots import OUT_OF, Slot, find_slots, give_words, other_reading, report
from journal.extract.tape import METRIC_TICKS, decimal, length_ticks
from journal.extract.things import about, last_place, names_a_thing, thing
from journal.extract.unitwords import inches_text
from journal.grammar import table
from journal.records import Doubt, Measure

_ROUND = ("log", "post", "pile", "piling", "pier", "column", "pole", "pipe", "hole", "drum", "trunk", "mast", "spar")


@cache
def _of_place() -> frozenset[str]:
    return frozenset(table("dimensions")["of_place"]["words"])


def measure(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> None:
    """Adds the measures of the figures within words `i` to `j`."""
    slots = find_slots(ctx, figures, i, j)
    give_adjuncts(ctx, slots, j)
    give_words(ctx, slots)
    doubt_garbled(ctx, slots)
    number_run(ctx, slots)
    name_run(ctx, slots)
    dimension_run(ctx, slots)
    for n, slot in enumerate(slots):
        _one(ctx, slot, slots[n + 1] if n + 1 < len(slots) else None, j)


def _numbered_one(ctx: Context, number: str) -> list[str]:
    """The name of one of those that the list is about: number 5 of the "joist pockets 1 to 4" is "joist pocket 5"."""
    noun = [word for word in (ctx.thing or "").split() if not word.isdigit() and word not in ("to", "and")]
    if noun and noun[-1].endswith("s"):
        noun[-1] = noun[-1][:-1]
    return [*noun, number]


def _one(ctx: Context, slot: Slot, following: Slot | None, j: int) -> None:
    line, words, figure = ctx.line, ctx.line.words, slot.figure
    left_place = last_place(ctx, slot.left, figure.i)
    named, _ = thing(ctx, slot.left, figure.i)
    if figure.i in ctx.names:
        name_said = ctx.names[figure.i]
        named = _numbered_one(ctx, name_said[1:]) if name_said.startswith("#") else name_said.split()
    of_place = left_place is not None and words[left_place.j] in words_of("copulas") and not named
    if left_place is not None and (of_place or not (left_place.carried and left_place.name == ctx.place)):
        ctx.thing = None if not named else ctx.thing
        ctx.place = left_place.name
    dims = [
        d
        for d in slot.dims
        if d.i not in ctx.used and not names_a_thing(ctx, d) and (not d.adjective or d.name in OUT_OF)
    ]
    rough = any(d.name == ROUGH_OPENING or d.name.startswith("rough opening") for d in dims)
    noun = next((d for d in reversed(dims) if d.name != "centre"), None)
    name = slot.after.name if slot.after is not None else noun.name if noun is not None else None
    if slot.by_after and name is None and ctx.dimension is not None:
        name = _complement(ctx)
    if slot.burned:
        figure.value -= 1
        figure.doubts.append(
            Doubt(
                "worked", f"an inch was taken off: {inches_text(figure.value)}", ctx.span(figure.i, slot.end), level=1
            )
        )
    if (
        name is None
        and (d := line.dimensions.get(slot.end)) is not None
        and not d.adjective
        and (slot.partner is None or following is None)
        and _is_postfix(ctx, following, d)
    ):
        name, noun = d.name, d
        ctx.used.add(d.i)
        rough = rough or name.startswith("rough opening")
        slot.end = d.j
        if slot.late is None and slot.end < j and words[slot.end] in words_of("prepositions") and following is None:
            slot.late = (slot.end, phrase_end(ctx, slot.end, j))
    other = other_reading(ctx, slot, j)
    if (
        name is None
        and ctx.dimension == "gap"
        and "between" in words[slot.left : slot.late[1] if slot.late else slot.end]
    ):
        name = "gap"
    plain = name in (None, "centre", "height", ROUGH_OPENING) and other is None and slot.partner is None and not rough
    if plain and (
        name in (None, "centre")
        or (slot.after is not None and slot.late is not None and words[slot.late[0]] in ("off", "from"))
    ):
        found = (
            None
            if words_of("not_offset") & set(words[slot.left : figure.i])
            else offset(ctx, slot.left, figure.i, slot.end, slot.late, j)
        )
        if found is not None:
            ctx.place = found.place or ctx.place
            ctx.thing = found.to
            _add(ctx, slot, figure, found.about, "centre" if found.centre else "offset")
            return
    late_text = take_adjunct(ctx, slot, left_place is not None)
    if other is not None and named == [other] and other in words_of("of_the_place"):
        ctx.thing = None
    elif named == [other] and ctx.thing:
        ctx.thing = joined([w for w in ctx.thing.split() if w not in other_words()])
    elif named:
        ctx.thing = about(ctx, named) or ctx.thing
    elif noun is not None and noun.name in _of_place():
        ctx.thing = None
    if other and named and name is None and named != [other] and not (ctx.thing or "").endswith(other):
        ctx.thing = joined([w for w in named if w != other])
    subject = ctx.thing
    if late_text and slot.late is not None and words[slot.late[0]] in ("for", "the", "between") and not named:
        ctx.thing = subject = joined(late_text)
    elif late_text:
        if subject and subject == ctx.late_thing and not named:
            subject = ctx.thing = None
        subject = (
            joined([*(subject.split() if subject and subject not in joined(late_text) else []), *late_text]) or None
        )
        if not ctx.thing:
            ctx.thing, ctx.late_thing = subject, subject
    if slot.partner is not None:
        _pair(ctx, slot, rough, name, subject)
        return
    if (rough and name in ("width", "height", "length", ROUGH_OPENING)) or rough:
        ctx.rough = True
    elif (named and noun is not None) or (named and slot.after is not None and not rough):
        ctx.rough = ctx.rough and not named
    if ctx.rough and name in ("width", "height", "length"):
        name = f"rough opening {'height' if name == 'length' else name}"
    if name == ROUGH_OPENING or (name is None and ctx.rough):
        report(ctx, slot, "a rough opening, but is it the width or the height?", "Say: rough opening width …")
        return
    if other is not None and name is None:
        name = "other"
        base = [w for w in (subject or "").split() if w != other]
        subject = joined([*base, other])
    if name is None and named and named[-1] in ("riser", "risers") and ctx.dimension not in ("thickness", "width"):
        name = "rise"
    own = named and not left_place and (ctx.dimension or "").split()[0:1] in [[w] for w in words_of("own_dimensions")]
    if own and name is None:
        ctx.dimension = None
    elif name is None and ctx.dimension is not None and ctx.dimension != "size":
        name = ctx.dimension
    if (
        name is None
        and subject
        and subject.split()[0] in ("course", "courses", "log", "logs", "joint")
        and {"to", "and"} & set(subject.split())
    ):
        name = "gap"
    if name is None:
        _unsaid(ctx, slot, subject)
        return
    if (
        slot.after is not None
        and slot.after.words == "across"
        and subject
        and any(w in _ROUND for w in subject.split())
    ):
        name = "diameter"
    ctx.dimension = name
    _add(ctx, slot, figure, subject, name)


def _complement(ctx: Context) -> str | None:
    """What stands across from the dimension before "by": "twelve long by six" is six wide."""
    last = ctx.dimension or ""
    upright = ctx.rough or any(
        word in (ctx.thing or "").split() for word in ("window", "door", "opening", "panel", "sash", "hatch")
    )
    return {"length": "width", "height": "width", "width": "height" if upright else "length"}.get(
        last.removeprefix("rough opening ")
    )


def _is_postfix(ctx: Context, following: Slot | None, d: DimensionWord) -> bool:
    """Whether a noun after a figure is this figure's ("fifty six shy long point") and not the next one's."""
    if following is None or ctx.dimension in (None, "size"):
        return True
    own = ctx.line.dimensions.get(following.right)
    if d.j == following.figure.i:
        return own is not None and not own.adjective
    return ctx.line.words[d.j] not in words_of("be") | words_of("prepositions") | {"at"}


def _unsaid(ctx: Context, slot: Slot, subject: str | None) -> None:
    """A figure without a dimension is reported: nothing is guessed."""
    of = subject or ctx.place
    if of:
        report(ctx, slot, f"a figure of {of}, but which measure?", f"Say: {of} width … or {of} length …")
    else:
        report(ctx, slot, "a figure, but of what?", "Say the thing and what was measured: window width …")


def _pair(ctx: Context, slot: Slot, rough: bool, name: str | None, subject: str | None) -> None:
    """ "X by Y": width and height of a rough opening, else two sizes."""
    assert slot.partner is not None
    one, two = slot.figure, slot.partner
    rough = rough or (ctx.rough and name is None and slot.after is None)
    ctx.rough = rough
    names = ("rough opening width", "rough opening height") if rough else ("size", "size")
    one.approx = two.approx = one.approx or two.approx
    for figure, dimension in zip((one, two), names, strict=True):
        _add(ctx, slot, figure, subject, dimension)
    ctx.dimension = "size"
    if slot.third is not None:
        _add(ctx, slot, slot.third, subject, "length")


def _add(ctx: Context, slot: Slot, figure: Figure, subject: str | None, dimension: str) -> None:
    unit = figure.unit
    if unit == "" and ctx.unit in METRIC_TICKS and figure.kind == "number" and figure.value >= 20:
        unit = figure.unit = ctx.unit
    ctx.unit = unit
    ticks = length_ticks(figure)
    if ticks is None:
        report(
            ctx,
            slot,
            f"{inches_text(figure.value)} is finer than a tape can read",
            "Say it to the nearest sixty fourth.",
        )
        return
    metric = f"{decimal(figure.value)} {unit}" if unit in METRIC_TICKS else None
    fact = Measure(
        place=ctx.place, about=_clean(subject, ctx.place, dimension), dimension=_named(subject, dimension), ticks=ticks,
        metric=metric, approx=figure.approx, shade=figure.shade, over_ticks=length_ticks(slot.over) if slot.over else None,
        evidence=ctx.span(min(slot.left, figure.i), max(slot.end, figure.j)),
        rule=f"measure.{dimension.replace(' ', '_')}", doubts=tuple(figure.doubts),
    )  # fmt: skip
    same = [
        f
        for f in ctx.facts
        if isinstance(f, Measure)
        and (f.place, f.about, f.dimension, f.ticks) == (fact.place, fact.about, fact.dimension, fact.ticks)
    ]
    if same and dimension not in ("size", "diagonal"):
        return
    ctx.facts.append(fact)


def _named(subject: str | None, dimension: str) -> str:
    """The height of a ridge is a ridge height, that of a plate a plate height."""
    if dimension == "height" and subject in ("ridge", "peak"):
        return "ridge height"
    if dimension == "height" and subject in ("plate", "top plate"):
        return "plate height"
    return dimension


def _clean(subject: str | None, place: str | None, dimension: str) -> str | None:
    if not subject or (place and subject.lower() == place.lower()):
        return None
    named = _named(subject, dimension)
    if named in ("ridge height", "plate height") and subject in ("ridge", "peak", "plate", "top plate"):
        return None
    if dimension == "base width" and subject in ("base", "gable"):
        return None
    return subject
