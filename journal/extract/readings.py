"""Meter readings: moisture, temperature and humidity."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Literal

from journal.extract.context import Context
from journal.extract.line import Figure, PlaceWord, joined
from journal.extract.sets import words_of
from journal.extract.taskwords import named_last
from journal.extract.things import about, last_place, thing
from journal.extract.vocabulary import past_forms, thing_words
from journal.grammar import table
from journal.records import Quantity, Reading

_PHRASE = (
    "in",
    "on",
    "at",
    "for",
    "over",
    "up",
    "down",
    "inside",
    "out",
    "under",
    "by",
    "near",
    "beside",
    "behind",
    "against",
)


def quantities() -> dict[str, Quantity]:
    """Words that name what a meter reads, to the quantity."""
    return table("readings")["quantities"]  # type: ignore[no-any-return]


@cache
def _dropped() -> frozenset[str]:
    return frozenset(table("readings")["dropped"]["words"])


def reading(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the reading of a figure within words `left` to `right`; gives the index after the words that went with it."""
    named = [w for w in thing(ctx, left, figure.i)[0] if w not in _dropped()]
    quantity, end = _quantity(ctx, figure, left, right, named)
    unit = _unit(ctx, figure, quantity)
    if quantity == "humidity":
        named = [w for w in named if w not in words_of("air_words")]
    place = last_place(ctx, left, figure.i)
    bare = (
        not named
        and place is None
        and (ctx.thing is None or set(ctx.line.words[left : figure.i]) <= words_of("conjunctions"))
    )
    late, late_place, end = _late(ctx, end, right, bare) if not _led_in(ctx, figure, left, end) else ([], None, end)
    if place is None and late_place is not None and not late_place.carried:
        for n, fact in enumerate(ctx.facts):
            if isinstance(fact, Reading) and fact.place is None:
                ctx.facts[n] = replace(fact, place=late_place.name)
    place = late_place or place
    if place is not None:
        ctx.place, ctx.thing = place.name, None
    elif quantity != "moisture" and _is_a_room(ctx, named, left, figure.i):
        ctx.place, ctx.thing, named = about(ctx, named), None, []
    subject = _subject(ctx, named, late, quantity, left, figure.i)
    ctx.quantity = quantity
    ctx.facts.append(
        Reading(
            place=ctx.place, about=subject, quantity=quantity, value=float(figure.value), unit=unit,
            evidence=ctx.span(min(left, figure.i), end), rule=f"reading.{quantity}", doubts=tuple(figure.doubts),
        )
    )  # fmt: skip
    return end


def _quantity(ctx: Context, figure: Figure, left: int, right: int, named: list[str]) -> tuple[Quantity, int]:
    """What a figure is read of, and the index after the words that say it behind the figure."""
    words, names = ctx.line.words, quantities()
    # the "wet" of "wet lab" tells of no moisture
    in_places = {m for p in ctx.line.places.values() for m in range(p.i, p.j)}
    said = [names[words[m]] for m in range(left, figure.i) if words[m] in names and m not in in_places]
    end = k = figure.j
    while k < min(right, end + 3) and words[k] in ("relative", "of", "in"):
        k += 1
    if (
        figure.kind == "percent"
        and k < min(right, len(words))
        and names.get(words[k], "temperature") != "temperature"
        and not _leads_next(ctx, k, bool(said) and said[-1] != names[words[k]])
    ):
        said = [names[words[k]]]
        end = k + 1 + (words[k + 1 : k + 2] == ["content"] and k + 1 < right)
    if figure.kind == "degrees" or (figure.kind != "percent" and (said[-1] if said else ctx.quantity) == "temperature"):
        return "temperature", end
    if said and said[-1] != "temperature":
        return said[-1], end
    if set(named) & words_of("air_words"):
        return "humidity", end
    if not named and ctx.quantity in ("moisture", "humidity"):
        return ctx.quantity, end  # type: ignore[return-value]
    return "moisture", end


def _unit(ctx: Context, figure: Figure, quantity: Quantity) -> Literal["%", "F", "C"]:
    if quantity != "temperature":
        return "%"
    ctx.unit = "C" if figure.unit == "C" or (figure.kind != "degrees" and ctx.unit == "C") else "F"
    return "C" if ctx.unit == "C" else "F"


def _late(ctx: Context, end: int, right: int, bare: bool) -> tuple[list[str], PlaceWord | None, int]:
    """What was read and where, said after the figure ("… on the bottom plate", "… this morning in the shop").

    `bare`: nothing was named before it, so that "nineteen percent the elm slab" names what was read.
    """
    words, line = ctx.line.words, ctx.line
    k = end
    while k < right and (words[k] in words_of("now_words") or any(d.i <= k < d.j for d in ctx.dues)):
        k += 1
    plain = bare and k < right and words[k] in ("the", "that")
    if k >= right or (words[k] not in _PHRASE and words[k] not in ("mid", "midway", "halfway") and not plain):
        return [], None, end
    stop = k + 1
    while (
        stop < right
        and words[stop] not in words_of("phrase_ends")
        and words[stop] not in quantities()
        and stop not in line.figures
    ):
        if stop in line.places:
            stop = line.places[stop].j
            while stop < right and words[stop] in thing_words() and stop not in line.places:
                stop += 1
            if stop + 1 < right and words[stop] in ("on", "in", "at", "under") and stop + 1 not in line.figures:
                stop += 1
                continue
            break
        stop += 1
    first = not ctx.facts and end == min(f.j for f in line.figures.values())
    if (
        plain
        and stop < len(words)
        and words[stop] not in words_of("conjunctions")
        and not (first and stop in line.figures)
    ):
        return [], None, end  # "nineteen percent | the oak's fourteen"
    named, place = thing(ctx, k, stop)
    if not named and words[stop - 1] in words_of("piece_ends"):
        named = [words[stop - 1]]
    named = [w for w in named if w not in _dropped()]
    return named, place, stop if named or place is not None else end


def _led_in(ctx: Context, figure: Figure, left: int, end: int) -> bool:
    """Whether what was read stands before each figure: "in the sill log nineteen percent in the top plate fourteen"."""
    words = ctx.line.words
    led = [k for k in range(left, figure.i) if words[k] in ("in", "on", "at") and words[k + 1 : k + 2] == ["the"]]
    if not led or end >= len(words) or words[end] not in ("in", "on", "at"):
        return False
    following = min((k for k in ctx.line.figures if k > end), default=None)
    after = ctx.line.figures[following].j if following is not None else len(words)
    if words[after : after + 1] in (["in"], ["on"], ["at"]):
        return False  # "… fifteen percent in the rafters fourteen in the purlins"
    plain = following is not None and not any(w in words_of("phrase_ends") for w in words[end:following])
    return plain and not any(w in words_of("reads") for w in words[led[-1] + 1 : figure.i])


def _is_a_room(ctx: Context, named: list[str], left: int, i: int) -> bool:
    """Whether a name no table knows is a room: "lookout temperature fifty one", at the beginning and of no thing."""
    if not named or ctx.place is not None or ctx.facts or i - left > len(named) + 4:
        return False
    return not any(w in thing_words() or w in words_of("read_things") or w in past_forms() for w in named)


def _subject(ctx: Context, named: list[str], late: list[str], quantity: Quantity, left: int, i: int) -> str | None:
    """The thing that was read; an end or face of it ("at the butt") goes with the thing named before."""
    if late and all(w in words_of("piece_ends") or w in ("hand",) for w in late) and (named or ctx.thing):
        if named:
            ctx.thing = about(ctx, named)
        return joined([*(ctx.thing or "").split(), *late])
    subject = late or named
    if (
        not subject
        and quantity == "moisture"
        and not ctx.thing
        and {"they", "it", "those"} & set(ctx.line.words[left:i])
    ):
        subject = [w for w in (named_last(ctx) or "").split() if w != "the"]
    if subject:
        ctx.thing = about(ctx, subject)
    return ctx.thing if subject or quantity == "moisture" else None


def _leads_next(ctx: Context, k: int, another: bool) -> bool:
    """Whether a quantity's name leads in the next figure ("nine degrees humidity sixty two percent").

    `another`: the figure before it has its own already ("humidity sixty one percent moisture in the sill nineteen").
    """
    following = min((i for i in ctx.line.figures if k < i), default=None)
    if following is None:
        return False
    if another:
        return True
    return all(
        word in ("is", "'s", "at", "of", "reads", "about", "level", "content", "around")
        for word in ctx.line.words[k + 1 : following]
    )
