"""Counts that point back to material named before them: "planks two by eight at ten foot forty two of them", "fourteen of those".

What the thing was said to be (its section, length and wood) goes with the count.
"""

from __future__ import annotations

from fractions import Fraction

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.lot import Lot
from journal.extract.lots import take_parts
from journal.extract.sets import words_of
from journal.extract.stretch import Stretch
from journal.extract.tape import length_ticks
from journal.extract.vocabulary import function_words
from journal.records import Doubt, Stock

_POINTED = (["of", "them"], ["of", "those"], ["of", "these"], ["of", "em"])


def points_back(words: list[str], figure: Figure) -> bool:
    """Whether "of them", "good ones" stands after a count."""
    after = words[figure.j : figure.j + 2]
    return after in _POINTED or (after[-1:] == ["ones"] and figure.value > 1) or after[:1] == ["ones"]


def lot_named_first(ctx: Context, i: int, j: int) -> Lot | None:
    """ "Of the one by four maple boards | we cut six …": the material of the counts that come after words `i` to `j`, or None."""
    words = ctx.line.words
    k = i + (words[i] in words_of("conjunctions"))
    if words[k : k + 1] == ["out"]:
        k += 1
    if j >= len(words) or words[k : k + 1] not in (["of"], ["from"]) or words[k + 1 : k + 2] not in _THE:
        return None
    lot, start = Lot(k + 2, k + 2), k + 2
    figure = ctx.line.figures.get(start)
    if figure is not None and (figure.kind != "section" or figure.second is not None):
        return None
    if figure is not None:
        lot.section, start = figure.section, figure.j
    end = take_parts(ctx, lot, start, j)
    if end < j - 1 or not lot.what or lot.length is not None:
        return None
    lot.what[-1] = stockwords.singular(lot.what[-1])
    return lot


_THE = (["the"], ["those"], ["these"], ["my"], ["our"])


def pointed_lot(facts: Stretch, figure: Figure) -> tuple[Lot, str] | None:
    """The lot that a count points back to and its event, or None where no section or event shows that it is material."""
    ctx, words = facts.ctx, facts.words
    first = 0 if facts.in_stock else facts.clause.i
    if figure.kind != "number":
        return None
    noun = next((k for k in range(figure.i - 1, first - 1, -1) if _is_material(ctx, k)), None)
    if noun is None:
        return None
    lot = Lot(figure.i, figure.j + 2)
    lot.count, start = figure.value, _named(ctx, lot, noun, first)
    event = next(
        (
            e
            for k in range(figure.i - 1, max(first, start - 4) - 1, -1)
            if (e := stockwords.event_at(words, k)) is not None
        ),
        None,
    )
    sizes = ctx.figures_between(max(start - 2, first), figure.i)
    sizes += ctx.figures_between(figure.j, min(figure.j + 9, facts.clause.j))
    for n, size in enumerate(sizes):
        _take(words, lot, size, sizes[n + 1] if n + 1 < len(sizes) else None)
    if event is None and (lot.section is None or any(isinstance(fact, Stock) for fact in ctx.facts)):
        return None
    lot.j = _after(ctx, lot, figure.j + 2, facts.clause.j)
    if event is None:
        shown = f"'{ctx.line.said(figure.i, figure.j + 2)}' was taken for what is on hand"
        lot.doubts.append(Doubt("not said", shown, ctx.span(figure.i, figure.j + 2), level=1))
    return lot, event[0] if event is not None else "have"


def _is_material(ctx: Context, k: int) -> bool:
    word = ctx.line.words[k]
    return word.endswith("s") and word in stockwords.singulars() and ctx.line.figure_over(k) is None


def _named(ctx: Context, lot: Lot, noun: int, first: int) -> int:
    """Takes in the name that ends at word `noun`; the index where it begins."""
    words, k = ctx.line.words, noun
    while k > first and words[k - 1] not in function_words() and ctx.line.figure_over(k - 1) is None:
        if stockwords.event_at(words, k - 1) is not None or k - 1 in ctx.line.places:
            break
        k -= 1
    kind = stockwords.species().at(words, k)
    if kind is not None and kind[1] <= noun:
        lot.species = kind[0]
    lot.what = words[kind[1] if kind is not None and kind[1] <= noun else k : noun + 1]
    return k


def _take(words: list[str], lot: Lot, size: Figure, following: Figure | None) -> None:
    """Takes in a section or length said of the thing, before its count or after."""
    if words[size.j : size.j + 1] == ["of"]:
        return
    if size.kind == "section" and size.second is None and lot.section is None:
        lot.section = size.section
    elif size.kind == "number" and following is not None and words[size.j : following.i] == ["by"]:
        sawn = size.value <= 12 and 2 <= following.value <= 24 and following.kind == "number"
        lot.section = lot.section or (f"{size.value}x{following.value}" if sawn and not following.unit else None)
    elif "by" in (words[size.i - 1], *words[size.j : size.j + 1]):
        return
    elif size.kind == "length" and lot.length is None and (size.unit or words[size.i - 1] in ("at", "to")):
        lot.length = length_ticks(size)


def _after(ctx: Context, lot: Lot, k: int, right: int) -> int:
    """The index after what is said of the lot behind its count: its size, "in larch", "all oak"."""
    words = ctx.line.words
    while k < right:
        figure = ctx.line.figures.get(k)
        kind = stockwords.species().at(words, k)
        sized = figure is not None and (figure.kind in ("section", "length") or words[k - 1] == "by")
        sized = sized or (figure is not None and words[figure.j : figure.j + 1] == ["by"])
        if figure is not None and sized and words[figure.j : figure.j + 1] != ["of"]:
            k = figure.j
        elif kind is not None and lot.species is None:
            lot.species, k = kind[0], kind[1]
        elif words[k] in words_of("before_kind"):
            k += 1
        else:
            break
    return k


def counted_after(words: list[str], figures: dict[int, Figure], i: int, end: int) -> bool:
    """Whether a count that points back follows an event without one: "cut all the cleats today twenty four of them"."""
    found = next((f for k, f in sorted(figures.items()) if i <= k < min(end, i + 8)), None)
    if found is None or found.kind != "number" or found.value < Fraction(2) or not points_back(words, found):
        return False
    between = words[i : found.i]
    named = any(word.endswith("s") and word in stockwords.singulars() for word in between)
    return named and words_of("conjunctions").isdisjoint(between)
