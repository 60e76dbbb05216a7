"""What is said at the end for a whole list of lots: "all larch", "each ten foot long", "all out of the two by six"."""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.tape import length_ticks

ALL = ("all", "each", "every")


def all_of_a_length(ctx: Context, k: int) -> tuple[int, int] | None:
    """The length of "all of them eight foot long", "all twelve footers" at word `k`, and the index after it."""
    words = ctx.line.words
    m = k + 1
    while m < len(words) and words[m] in ("of", "them", "one", "at", "cut", "to", "it", "are", "'s", "is", "they"):
        m += 1
    figure = ctx.line.figures.get(m)
    if figure is None or figure.kind != "length" or not figure.unit:
        return None
    after = words[figure.j : figure.j + 1]
    ticks = length_ticks(figure)
    footers = words[figure.j - 1] in ("footer", "footers")
    if ticks is None or not (after == ["long"] or footers or (after == [] and figure.unit == "ft")):
        return None
    return ticks, figure.j + (after == ["long"])


def all_of_a_section(ctx: Context, k: int) -> tuple[str, int] | None:
    """The section of "all out of the two by six" at word `k`, and the index after it."""
    words, m = ctx.line.words, k + 1
    while words[k] == "all" and m < len(words) and words[m] in ("out", "of", "from", "cut", "off", "the", "in", "them"):
        m += 1
    figure = ctx.line.figures.get(m)
    if m == k + 1 or figure is None or not stockwords.section_follows(ctx.line, m):
        return None
    if figure.section is not None:
        return figure.section, figure.j
    width = ctx.line.figures[figure.j + 1]
    return f"{figure.value}x{width.value}", width.j


def all_of_a_kind(words: list[str], k: int) -> tuple[str, int] | None:
    """The kind of wood of "all larch", "all of them larch" at word `k`, and the index after it."""
    if words[k] != "all":
        return None
    m = k + 1
    while m < len(words) and words[m] in ("of", "them", "it", "in"):
        m += 1
    return stockwords.species().at(words, m) if m < len(words) else None
