"""Figures with the words that are theirs: those on the left, "wide" or "out of plumb" after it, the figure after "by".

A slot knows which words go with its figure, not which thing or dimension they make.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from journal.extract.context import Context
from journal.extract.dimensions import other_verbs, other_words
from journal.extract.line import DimensionWord, Figure
from journal.extract.marks import trailing_marks
from journal.extract.numbered import count_on, give_up_name, names_next, number_named
from journal.extract.offsets import leads_offset
from journal.extract.outs import OUT_OF
from journal.extract.sets import words_of
from journal.extract.things import names_a_thing
from journal.extract.unitwords import burned_at
from journal.extract.vocabulary import function_words, thing_words
from journal.records import Problem


@dataclass(slots=True)
class Slot:
    """A figure with its own words from `left`, the adjective after it, the phrase after that, and its second part."""

    figure: Figure
    left: int
    right: int
    end: int = 0
    dims: list[DimensionWord] = field(default_factory=list)
    after: DimensionWord | None = None
    partner: Figure | None = None
    third: Figure | None = None
    by_after: bool = False
    over: Figure | None = None
    late: tuple[int, int] | None = None
    tail: int = 0
    burned: bool = False
    rough: bool = False


def find_slots(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> list[Slot]:
    """A slot for each measured figure of words `i` to `j`; counts are passed over, ranges reported as problems."""
    words = ctx.line.words
    slots: list[Slot] = []
    left = i
    n = 0
    number: int | None = None
    while n < len(figures):
        figure = figures[n]
        n += 1
        if slots:
            count_on(ctx, number, slots[-1].figure.value, figure, left)
        number = number_named(ctx, left, figure) or number
        following = figures[n] if n < len(figures) else None
        if slots and figure.i not in ctx.names and names_next(words, figure, figures[n : n + 1]):
            ctx.names[figures[n].i] = f"#{figure.whole}"
            continue
        give_up_name(ctx, number, figure, following)
        slot = Slot(figure, left, figure.j)
        if n < len(figures) and (
            words[figure.j : figures[n].i] == ["by"]
            or (figure.words == figures[n].words and figure.rule == "figure.section")
        ):
            slot.partner = figures[n]
            n += 1
            give_up_name(ctx, number, slot.partner, figures[n] if n < len(figures) else None)
            slot.right = slot.partner.j
            if n < len(figures) and words[slot.right : figures[n].i] == ["by"]:
                slot.third = figures[n]
                slot.right = slot.third.j
                n += 1
        elif n < len(figures) and _is_range(words, figure, figures[n]):
            left = _skip(ctx, slot, figures[n], "a range, not one figure", "Say one of them, or about which it is.")
            n += 1
            continue
        elif slot.right < j and words[slot.right] == "square" and words[slot.right - 1 : slot.right] != ["of"]:
            slot.partner = replace(figure, doubts=[])
            slot.right += 1
        slot.end = _after(ctx, slot, j)
        if n < len(figures) and words[slot.end : figures[n].i] == ["or"]:
            left = _skip(ctx, slot, figures[n], "one figure or another", "Say the one that it is.")
            n += 1
            continue
        if n < len(figures) and _is_over(ctx, slot, figures[n], j):
            slot.over = figures[n]
            slot.end = figures[n].j
            n += 1
        if slot.partner is None and _counts_a_plural(ctx, slot, j):
            left = slot.left
            continue
        left = slot.end
        slots.append(slot)
    return slots


def _is_range(words: list[str], figure: Figure, other: Figure) -> bool:
    """ "Ten to eleven", "between ten and eleven"."""
    joint = words[figure.j : other.i]
    return other.kind in ("length", "number") and (
        joint == ["to"] or (joint == ["and"] and figure.i > 0 and words[figure.i - 1] == "between")
    )


def _skip(ctx: Context, slot: Slot, other: Figure, message: str, hint: str) -> int:
    """Reports two figures of which none is meant alone; where the words after them begin."""
    report(ctx, slot, message, hint)
    d = ctx.line.dimensions.get(other.j)
    return d.j if d is not None and d.adjective else other.j


def give_words(ctx: Context, slots: Sequence[Slot]) -> None:
    """Gives each slot the words on its left that are not those of the one before, and the dimensions in them."""
    words = ctx.line.words
    for n, slot in enumerate(slots):
        before = slots[n - 1] if n else None
        slot.by_after = before is not None and before.after is not None and words[before.end : slot.figure.i] == ["by"]
        if before is not None:
            slot.left = max(before.late[1], before.tail) if before.late is not None else before.end
        slot.dims = [
            d for k, d in sorted(ctx.line.dimensions.items()) if slot.left <= k < slot.figure.i and k not in ctx.used
        ]


def _is_over(ctx: Context, slot: Slot, following: Figure, j: int) -> bool:
    """Whether the next figure is the length that a reading is over: "half an inch out of plumb in eight foot"."""
    reads_over = (slot.after is not None and slot.after.name in OUT_OF) or _out_of_before(ctx, slot)
    if not reads_over and other_reading(ctx, slot, j) is None:
        return False
    gap = ctx.line.words[slot.end : following.i]
    led = (
        gap[-1:] == ["over"]
        or gap[-2:] in (["over", "the"], ["over", "its"])
        or gap in (["in"], ["per"], ["across"], ["on"], ["in", "the"])
    )
    if gap[-1:] == ["over"] and following.kind == "number" and not following.unit and reads_over:
        following.kind, following.unit, following.feet, following.value = (
            "length",
            "ft",
            following.value,
            following.value * 12,
        )
    return led and following.unit in ("ft", "in", "m", "cm", "mm")


def _out_of_before(ctx: Context, slot: Slot) -> bool:
    return any(d.name in OUT_OF for k, d in ctx.line.dimensions.items() if slot.left <= k < slot.figure.i)


def _counts_a_plural(ctx: Context, slot: Slot, j: int) -> bool:
    """ "Two gaps on wall f": a small whole number before a plural counts; it measures nothing."""
    figure, words = slot.figure, ctx.line.words
    if (
        figure.kind != "number"
        or figure.unit
        or figure.value > 24
        or slot.after is not None
        or figure.shade is not None
        or any(figure.i - 1 <= d.j <= figure.i and not d.adjective for d in ctx.line.dimensions.values())
        or (figure.approx and figure.value > 6)
    ):
        return False
    k = figure.j
    return (
        k < j
        and words[k].endswith("s")
        and (words[k] in thing_words() or k in ctx.line.dimensions)
        and words[k] not in ("is", "'s")
    )


def _after(ctx: Context, slot: Slot, j: int) -> int:
    """Takes in what can only follow a figure: "wide", "out of plumb", then "give or take", "shy", "burned an inch"."""
    k = slot.right
    words = ctx.line.words
    dim = ctx.line.dimensions.get(k)
    of_end = dim is not None and dim.name in ("ridge height", "plate height") and words[k] == "at"
    if of_end and slot.figure.value < 48 and any(i < slot.figure.i for i in ctx.line.figures):
        del ctx.line.dimensions[k]  # "six inches at the peak": where it was measured
        dim = None
    noun = _noun_after(ctx, slot, j) if dim is None or not dim.adjective else None
    if noun is not None:
        slot.after, k = noun, noun.j
        ctx.used.add(noun.i)
    elif dim is not None and dim.adjective and k < j:
        slot.after, k = dim, dim.j
        wide_at = ctx.line.dimensions.get(k)
        if wide_at is not None and wide_at.name == "base width" and dim.name == "width" and wide_at.adjective:
            slot.after, k = (wide_at if "gable" in (ctx.place or "") or "gable" in words[:k] else dim), wide_at.j
        elif wide_at is not None and dim.name == "height" and wide_at.name in ("plate height", "ridge height"):
            slot.after, k = wide_at, wide_at.j  # "nine foot ten high to the plate"
    k = trailing_marks(ctx.line, slot.figure, k)
    burned = burned_at(
        words, k + (k < j and words[k] in ("but", "i", "and", "we")) + (k + 1 < j and words[k : k + 2] == ["but", "i"])
    )
    if burned is not None and burned <= j:
        slot.burned, k = True, burned
    return k


def _noun_after(ctx: Context, slot: Slot, j: int) -> DimensionWord | None:
    """The noun that a figure leads to: "nineteen foot of span", "a fifteen inch diameter", "forty two is the width of the door"."""
    words, k = ctx.line.words, slot.right
    if k >= j:
        return None
    if words[k] == "of":
        k += 1
    elif words[k] == "that" and words[k + 1 : k + 3] in (["'s", "the"], ["is", "the"]):
        k += 3
    elif words[k] in words_of("copulas"):
        left = slot.figure.i
        while left > slot.left and words[left - 1] not in words_of("conjunctions"):
            left -= 1
        if any(words[n] not in function_words() or n in ctx.line.dimensions for n in range(left, slot.figure.i)):
            return None
        k += 1 + (words[k + 1 : k + 2] in (["the"], ["your"], ["my"], ["our"]))
    elif words[k - 1] not in ("inch", "foot"):
        return None
    d = ctx.line.dimensions.get(k)
    if d is None or d.adjective or d.name in ("centre", "rough opening") or d.j > j or d.j in ctx.line.figures:
        return None
    of_it = d.j == j or words[d.j] not in words_of("copulas", "be")
    return d if of_it and not names_a_thing(ctx, d) else None


def other_reading(ctx: Context, slot: Slot, j: int) -> str | None:
    """The reading without a dimension of its own ("sag") before the figure or right after "of" or the figure."""
    words = ctx.line.words
    for k in range(slot.figure.i - 1, slot.left - 1, -1):
        if words[k] in other_verbs() and k not in ctx.line.places:
            return other_verbs()[words[k]]
        if words[k] in other_words() and k not in ctx.line.places:
            following = words[k + 1] if k + 1 < len(words) else ""
            if following in thing_words() and following not in ("is", "'s"):
                continue
            if following in words_of("copulas") and _has_its_own(ctx, slot):
                continue  # "the axle bearing's two foot off the curb", "the cover's two inches thick"
            return words[k]
    end = slot.right + (slot.right < j and words[slot.right] == "of")
    if end < j and words[end] in other_words() and end not in ctx.line.dimensions:
        return words[end]
    return None


def _has_its_own(ctx: Context, slot: Slot) -> bool:
    """Whether a figure has a dimension after it, or is a distance off something: what is named before it is a thing."""
    after = slot.after is not None and slot.after.name != "out"
    return after or (slot.late is not None and leads_offset(ctx.line.words, slot.late[0]) is not None)


def report(ctx: Context, slot: Slot, message: str, hint: str) -> None:
    """Adds a problem with the slot's figure as said before the message."""
    i, j = slot.figure.i, slot.figure.j
    ctx.problems.append(Problem(f"'{ctx.line.said(i, j)}': {message}", ctx.span(i, j), hint))
