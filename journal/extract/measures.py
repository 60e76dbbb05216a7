"""Measures: which thing, in which place, has which dimension of that figure.

Each figure looks left for the words since the figure before it and right for what can only follow ("wide", "out of
plumb", "off the corner"). What is not said again goes on from the figure before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache

from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING, other_words
from journal.extract.figures import inches_text, units
from journal.extract.line import DimensionWord, Figure, PlaceWord, joined
from journal.extract.phrases import Phrases
from journal.extract.vocabulary import function_words
from journal.grammar import table
from journal.lengths import FOOT, INCH, MILLIMETRE
from journal.records import Doubt, Measure, Problem

_METRIC_TICKS = {"mm": MILLIMETRE, "cm": 10 * MILLIMETRE, "m": 1000 * MILLIMETRE}
_OUT_OF = frozenset({"out of level", "out of plumb", "out of square"})
_PREPOSITIONS = frozenset(
    {
        "on",
        "in",
        "at",
        "of",
        "for",
        "over",
        "under",
        "to",
        "from",
        "off",
        "above",
        "below",
        "between",
        "across",
        "along",
        "near",
        "by",
        "behind",
        "beside",
        "inside",
        "outside",
        "around",
    }
)
_PLACE_PREPOSITIONS = frozenset(
    {"on", "in", "at", "of", "for", "over", "under", "inside", "outside", "up", "down", "around"}
)


@cache
def _offset_words() -> tuple[Phrases[str], Phrases[str], frozenset[str], frozenset[str]]:
    data = table("dimensions")["offsets"]
    return (
        Phrases.of(data["from"], "from"),
        Phrases.of(data["to"], "to"),
        frozenset(data["centre"]),
        frozenset(table("dimensions")["of_place"]["words"]),
    )


@dataclass(slots=True)
class Slot:
    """A figure with what stands around it: dimension words, things and places to its left, what follows it."""

    figure: Figure
    left: int
    right: int
    dims: list[DimensionWord] = field(default_factory=list)
    after: DimensionWord | None = None
    end: int = 0
    partner: Figure | None = None


def measure(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> None:
    """Adds the measures of the figures within words `i` to `j`."""
    slots = _slots(ctx, figures, i, j)
    late = _late_things(ctx, slots, j)
    for n, slot in enumerate(slots):
        following = slots[n + 1] if n + 1 < len(slots) else None
        _one(ctx, slot, following, n, late.get(n), j)


def _slots(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> list[Slot]:
    words = ctx.line.words
    slots: list[Slot] = []
    left = i
    n = 0
    figures = list(figures)
    while n < len(figures):
        figure = figures[n]
        slot = Slot(figure, left, figure.j)
        if n + 1 < len(figures) and words[figure.j : figures[n + 1].i] == ["by"]:
            slot.partner = figures[n + 1]
            slot.right = slot.partner.j
            n += 1
        slot.end = _after(ctx, slot, j)
        left = slot.end
        slots.append(slot)
        n += 1
    for slot in slots:
        slot.dims = [
            d for k, d in sorted(ctx.line.dimensions.items()) if slot.left <= k < slot.figure.i and k not in ctx.used
        ]
    return slots


def _after(ctx: Context, slot: Slot, j: int) -> int:
    """Takes in the adjective that follows a figure ("wide", "out of plumb"), and says where the rest begins."""
    k = slot.right
    words = ctx.line.words
    while k < j and words[k] in ("the", "they", "it"):
        break
    dim = ctx.line.dimensions.get(k)
    if dim is not None and dim.adjective and dim.i < j:
        slot.after = dim
        return dim.j
    return k


def _late_things(ctx: Context, slots: list[Slot], j: int) -> dict[int, tuple[int, int]]:
    """Phrases after the figures that belong to the figure before them ("a fat quarter on the hinge side")."""
    words = ctx.line.words
    late: dict[int, tuple[int, int]] = {}
    for n, slot in enumerate(slots):
        stop = slots[n + 1].figure.i if n + 1 < len(slots) else j
        k = slot.end
        if k < stop and words[k] in _PREPOSITIONS and k not in ctx.line.dimensions:
            end = k + 1
            while (
                end < stop
                and words[end]
                not in ("and", "then", "but", "so", "is", "'s", "are", "with", "it", "they", "has", "which")
                and end not in ctx.line.dimensions
            ):
                if end in ctx.line.places:
                    end = ctx.line.places[end].j
                    continue
                if end > k + 1 and words[end] in ("the", "a") and words[end - 1] not in _PREPOSITIONS:
                    break
                end += 1
            late[n] = (k, min(end, stop))
    if not slots:
        return late
    last = len(slots) - 1
    kept: dict[int, tuple[int, int]] = {}
    for n, (a, b) in late.items():
        if n == last:
            kept[n] = (a, b)
            continue
        nxt = slots[n + 1]
        rest = [k for k in range(b, nxt.figure.i) if words[k] not in function_words()]
        offset = _offset_words()[0].at(words, a) or (_offset_words()[2] & set(words[a:b]) and None)
        if offset or words[a] == "between" or rest or any(b <= d.i for d in nxt.dims) or (last in late and late.get(last) is not None):
            kept[n] = (a, b)
    return kept


def _one(ctx: Context, slot: Slot, following: Slot | None, n: int, late: tuple[int, int] | None, j: int) -> None:
    line, words = ctx.line, ctx.line.words
    figure = slot.figure
    left_place = _last_place(ctx, slot.left, figure.i)
    named, place = _thing(ctx, slot.left, figure.i)
    if left_place is not None:
        if ctx.place != left_place.name or not left_place.carried:
            ctx.thing = None if not named else ctx.thing
        ctx.place = left_place.name
    noun = slot.dims[-1] if slot.dims else None
    rough = next((d for d in slot.dims if d.name == ROUGH_OPENING), None)
    centre = next((d for d in slot.dims if d.name == "centre" and not _names_board(words, d)), None)
    if centre is None and noun is not None and noun.name == "centre":
        slot.dims = [d for d in slot.dims if d.name != "centre"]
        noun = slot.dims[-1] if slot.dims else None
    over: int | None = None
    name: str | None = None
    if slot.after is not None:
        name = slot.after.name
    elif noun is not None:
        name = noun.name
    elif (
        slot.end < (following.figure.i if following else j)
        and (d := line.dimensions.get(slot.end)) is not None
        and not d.adjective
        and _is_postfix(ctx, slot, following, d)
    ):
        name, ctx_used = d.name, d.i
        ctx.used.add(ctx_used)
        slot.end = d.j
        if late is None:
            late_start = d.j
            if late_start < j and words[late_start] in _PREPOSITIONS and following is None:
                late = (late_start, j)
    if name in _OUT_OF or (late and name is None and False):
        over, late = _over(ctx, slot, late, following, j)
    if over is not None and following is not None and following.figure.i < slot.end:
        pass
    late_text: list[str] = []
    offset = _offset(ctx, slot, late, named, centre is not None, j)
    if offset is not None:
        about, dimension, offset_place = offset
        _add(ctx, figure, offset_place or ctx.place, about, dimension, slot)
        return
    if late is not None:
        late_named, late_place = _thing(ctx, late[0], late[1])
        if late_place is not None:
            if ctx.place is None or not _last_place(ctx, slot.left, figure.i):
                if ctx.place is None or late_place.name != ctx.place:
                    ctx.place = late_place.name
                    _backfill(ctx, late_place.name)
        late_text = late_named
    if named:
        ctx.thing = _about(ctx, named) or ctx.thing
    elif noun is not None and noun.name in _offset_words()[3]:
        ctx.thing = None
    thing = ctx.thing
    if late_text:
        base = "" if not thing or (not n and False) else thing
        thing = joined([*(base.split() if base else []), *late_text]).strip() or None
    if slot.partner is not None:
        _pair(ctx, slot, name, rough is not None, thing)
        return
    if rough is not None and name in ("width", "height", ROUGH_OPENING):
        ctx.dimension = ROUGH_OPENING
    if name in ("width", "height") and (rough is not None or (ctx.dimension == ROUGH_OPENING and not named)):
        name = f"rough opening {name}"
    if name == ROUGH_OPENING or (name is None and ctx.dimension == ROUGH_OPENING):
        name = None
        ctx.problems.append(
            Problem(
                f"'{line.said(slot.left, slot.end)}': a rough opening, but is it the width or the height?",
                line.span(slot.left, slot.end),
                "Say: rough opening width …",
            )
        )
        return
    other = _other(words, slot, ctx)
    if name is None and other is None and ctx.dimension is None:
        _unsaid(ctx, slot, thing)
        return
    if other is not None and name is None:
        name = "other"
    if name is None:
        name = ctx.dimension
    if name in ("centre",) and offset is None:
        name = "centre"
    assert name is not None
    if not name.startswith(ROUGH_OPENING):
        ctx.dimension = name
    _add(ctx, figure, ctx.place, thing, name, slot, over=over)


def _names_board(words: Sequence[str], d: DimensionWord) -> bool:
    """Whether "centre" is a thing's name ("centre board", "centre post")."""
    following = words[d.j] if d.j < len(words) else ""
    return (
        d.words in ("centre", "center", "middle")
        and following not in function_words()
        and following not in ("of", "is", "'s", "to", "line")
        and not following == ""
    )


def _is_postfix(ctx: Context, slot: Slot, following: Slot | None, d: DimensionWord) -> bool:
    """Whether a noun after a figure is this figure's ("fifty six shy long point") and not the next one's."""
    if following is None or ctx.dimension is None or d.name in _OUT_OF:
        return following is None or not ctx.facts or ctx.dimension is None
    return False


def _last_place(ctx: Context, i: int, j: int) -> PlaceWord | None:
    named = [p for k, p in sorted(ctx.line.places.items()) if i <= k < j]
    return named[-1] if named else None


_LEAD = frozenset({"there", "here", "measured", "new", "list"})


def _thing(ctx: Context, i: int, j: int) -> tuple[list[str], PlaceWord | None]:
    """The words of the thing named in `i` to `j` less places, dimensions and small words, and the last place there."""
    line, words = ctx.line, ctx.line.words
    named: list[str] = []
    place = None
    k = i
    while k < j:
        if k in line.places:
            place = line.places[k]
            k = place.j
            continue
        if k in ctx.labels:
            end, label = ctx.labels[k]
            named.extend(label.split())
            k = end
            continue
        dim = line.dimensions.get(k)
        if dim is not None and not (dim.name == "centre" and _names_board(words, dim)):
            k = dim.j
            continue
        due = next((d for d in ctx.dues if d.i <= k < d.j), None)
        if due is not None:
            k = due.j
            continue
        if k in line.figures:
            k = line.figures[k].j
            continue
        word = words[k]
        if (
            word == "and"
            and named
            and k + 1 < j
            and words[k + 1] not in function_words()
            and k + 1 not in line.figures
            and not any(words[m] in ("is", "'s", "are") for m in range(i, k))
            and False
        ):
            named.append(word)
        elif word in ("and", "then", "but", "so", "is", "'s", "are"):
            if word in ("and", "then", "but", "so") and named and _goes_on_naming(words, k, j):
                named = []
        elif word not in function_words() or (word in ("inside", "outside", "back", "right", "marked") and False) or (
            word in ("right", "back")
            and k + 1 < j
            and words[k + 1]
            in (
                "side",
                "hand",
                "end",
                "post",
                "corner",
                "edge",
                "jamb",
                "rake",
                "rafter",
                "door",
                "window",
                "one",
                "half",
                "slope",
            )
        ):
            named.append(word)
        k += 1
    return named, place


def _goes_on_naming(words: Sequence[str], k: int, j: int) -> bool:
    return any(words[m] not in function_words() for m in range(k + 1, j))


def _about(ctx: Context, named: list[str]) -> str | None:
    text = list(named)
    place_words = set((ctx.place or "").lower().split())
    while text and text[0] in place_words and len(text) > 1 and text[0] not in ("north", "south", "east", "west"):
        text.pop(0)
    return joined(text) or None


def _other(words: Sequence[str], slot: Slot, ctx: Context) -> str | None:
    for k in range(slot.left, slot.figure.i):
        if words[k] in other_words():
            return words[k]
    end = slot.right + 1 if slot.right < len(words) and words[slot.right] == "of" else slot.right
    if end < len(words) and words[end] in other_words() and end not in ctx.used:
        return words[end]
    return None


def _unsaid(ctx: Context, slot: Slot, thing: str | None) -> None:
    """A figure without a dimension is reported: nothing is guessed."""
    line = ctx.line
    figure = slot.figure
    of = thing or ctx.place
    said = line.said(figure.i, figure.j)
    if of:
        message = f"'{said}': of {of}, but which measure?"
        hint = f"Say: {of} width … or {of} length …"
    else:
        message = f"'{said}': a figure, but of what?"
        hint = "Say the thing and what was measured: window width …"
    ctx.problems.append(Problem(message, line.span(figure.i, figure.j), hint))


def _over(
    ctx: Context, slot: Slot, late: tuple[int, int] | None, following: Slot | None, j: int
) -> tuple[int | None, tuple[int, int] | None]:
    """The length that an out of level, plumb or square was read over ("in eight foot")."""
    return None, late


def _offset(
    ctx: Context, slot: Slot, late: tuple[int, int] | None, named: list[str], centre: bool, j: int
) -> tuple[str, str, str | None] | None:
    """ "X FIGURE off Y", "from X to Y FIGURE", "FIGURE from X to Y": the name "X to Y" and whether it is a centre."""
    line, words = ctx.line, ctx.line.words
    leads, tos, centres, _ = _offset_words()
    figure = slot.figure
    before = range(slot.left, figure.i)
    start = next((k for k in before if words[k] in ("from", "between") and k not in line.places), None)
    if (
        start is None
        and late is not None
        and words[late[0]] in ("from", "between")
        and any(words[k] in ("to", "and") for k in range(*_stretch(ctx, late, j)))
    ):
        late = _stretch(ctx, late, j)
        joint = next(k for k in range(late[0] + 1, late[1]) if words[k] in ("to", "and"))
        one, _ = _thing(ctx, late[0] + 1, joint)
        two, place = _thing(ctx, joint + 1, late[1])
        if one and two:
            mid = centre or any(words[k] in centres for k in range(late[0], late[1]))
            if place is not None:
                ctx.place = place.name
            return f"{joined(one)} to {joined(two)}", "centre" if mid else "offset", place.name if place else None
    if start is not None and not (slot.dims and slot.dims[-1].name not in ("centre",)):
        joint = next((k for k in range(start + 1, figure.i) if words[k] in ("to", "and") or tos.at(words, k)), None)
        if joint is not None:
            one, place_one = _thing(ctx, start + 1, joint)
            two, place_two = _thing(ctx, joint + 1, figure.i)
            mid = any(
                words[k] in centres and not (k in line.dimensions and _names_board(words, line.dimensions[k]))
                for k in before
            )
            first = joined(one) or (place_one.name if place_one else "")
            second = joined(two) or (place_two.name if place_two else "")
            if first and second:
                return f"{first} to {second}", "centre" if mid else "offset", None
    if (
        late is not None
        and (lead := leads.at(words, late[0])) is not None
        and (slot.after is None or slot.after.name in ("height",))
        and not (slot.dims and slot.dims[-1].name not in ("centre",))
    ):
        target, place = _thing(ctx, lead[1], late[1])
        what = joined(named) or (ctx.thing or "") if named or ctx.thing else ""
        if not target and place is not None and what:
            target = place.name.split()
            place = None
        if target and what:
            if place is not None and ctx.place is None:
                ctx.place = place.name
            ctx.thing = what
            return f"{joined(target)} to {what}", "centre" if centre else "offset", ctx.place
    return None


def _stretch(ctx: Context, late: tuple[int, int], j: int) -> tuple[int, int]:
    """A "from X to Y" phrase to its end, the "and" of "between X and Y" included."""
    words = ctx.line.words
    end = late[1]
    if words[late[0]] == "between" and end < j and words[end] == "and":
        end += 1
        while end < j and words[end] not in ("and", "is", "'s") and end not in ctx.line.figures:
            end += 1
    return late[0], min(end, j)


def _pair(ctx: Context, slot: Slot, name: str | None, rough: bool, thing: str | None) -> None:
    """ "X by Y": width and height of a rough opening, else two sizes."""
    assert slot.partner is not None
    one, two = slot.figure, slot.partner
    if rough or (ctx.dimension == ROUGH_OPENING and name is None):
        ctx.dimension = ROUGH_OPENING
        names = ("rough opening width", "rough opening height")
    else:
        names = ("size", "size")
    approx = one.approx or two.approx
    for figure, dimension in zip((one, two), names, strict=True):
        figure.approx = approx
        _add(ctx, figure, ctx.place, thing, dimension, slot)
    if names[0] == "size":
        ctx.dimension = "size"


def _backfill(ctx: Context, place: str) -> None:
    """A place said last goes for what was measured before it in this memo without one."""
    from dataclasses import replace

    for n, fact in enumerate(ctx.facts):
        if isinstance(fact, Measure) and fact.place is None:
            ctx.facts[n] = replace(fact, place=place)


def _add(
    ctx: Context,
    figure: Figure,
    place: str | None,
    about: str | None,
    dimension: str,
    slot: Slot,
    *,
    over: int | None = None,
) -> None:
    line = ctx.line
    unit = figure.unit or (
        ctx.unit if figure.kind == "number" and ctx.unit in _METRIC_TICKS and figure.value >= 20 else ""
    )
    metric = None
    doubts = list(figure.doubts)
    if unit in _METRIC_TICKS:
        ticks = figure.value * _METRIC_TICKS[unit]
        metric = f"{_decimal(figure.value)} {unit}"
        ctx.unit = unit
    else:
        ticks = figure.value * INCH
        ctx.unit = unit
    if ticks.denominator != 1:
        said = line.said(figure.i, figure.j)
        ctx.problems.append(
            Problem(
                f"'{said}' is finer than a tape can read: {inches_text(figure.value)}",
                line.span(figure.i, figure.j),
                "Say it to the nearest sixty fourth.",
            )
        )
        return
    if about is not None:
        about = _clean_about(about, place, dimension)
    ctx.facts.append(
        Measure(
            place=place, about=about, dimension=dimension, ticks=int(ticks), metric=metric, approx=figure.approx,
            shade=figure.shade, over_ticks=over, evidence=line.span(min(slot.left, figure.i), max(slot.end, figure.j)),
            rule=f"measure.{dimension.replace(' ', '_')}", doubts=tuple(doubts),
        )
    )  # fmt: skip


def _clean_about(about: str, place: str | None, dimension: str) -> str | None:
    if place and about.lower() == place.lower():
        return None
    words = about.split()
    if dimension in ("ridge height",) and words in (["ridge"], ["peak"]):
        return None
    if dimension == "plate height" and words == ["plate"]:
        return None
    return about or None


def _decimal(value: Fraction) -> str:
    return f"{float(value):.4f}".rstrip("0").rstrip(".") if value.denominator != 1 else str(value.numerator)


def length_ticks(figure: Figure) -> int | None:
    """A figure's length in ticks, or None where the tape has no such line."""
    ticks = figure.value * (_METRIC_TICKS[figure.unit] if figure.unit in _METRIC_TICKS else INCH)
    return int(ticks) if ticks.denominator == 1 else None


__all__ = ["FOOT", "Doubt", "length_ticks", "measure", "units"]
