"""What is said of a lot behind other words: its section after what it is for, its length after a remark or its carrier."""

from __future__ import annotations

from dataclasses import replace

from journal.extract import stockwords
from journal.extract.line import Figure
from journal.extract.sets import words_of
from journal.extract.stockwords import containers
from journal.extract.stretch import Stretch
from journal.extract.tape import length_ticks
from journal.records import Stock

_FARTHEST = 12


def of_last_lot(facts: Stretch, figure: Figure) -> int | None:
    """Gives the lot before a figure its section or length; the index after it, or None where it is measured of something else."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if not (facts.in_stock or facts.going.event) or facts.waiting or not isinstance(last, Stock):
        return None
    return _section(facts, figure, last) or _length(facts, figure, last)


def _section(facts: Stretch, figure: Figure, last: Stock) -> int | None:
    """ "Twelve boards for drawer sides one by six": the section said after what a lot is for."""
    width = facts.figures.get(figure.j + 1)
    if last.section or width is None or not facts.in_stock:
        return None
    between = facts.words[facts.position : figure.i]
    led = between[:1] in (["for"], ["on"], ["in"]) and len(between) <= 4
    if not led or words_of("copulas") & set(between) or not stockwords.section_follows(facts.ctx.line, figure.i):
        return None
    if facts.words[figure.j] != "by" or any(k in facts.ctx.line.dimensions for k in range(facts.position, width.j + 1)):
        return None
    facts.ctx.facts[-1] = replace(last, section=f"{figure.value}x{width.value}")
    facts.position = width.j
    return width.j


def _length(facts: Stretch, figure: Figure, last: Stock) -> int | None:
    """ "Fourteen larch planks came in on the supply boat sixteen foot long": the planks are as long, not the boat."""
    if last.length_ticks is not None or figure.kind != "length" or figure.unit not in ("ft", "m"):
        return None
    if not (last.section or last.species or _is_a_stick(last.what)) or (last.what or "").split()[:1] == ["sheet"]:
        return None
    words, k = facts.words, facts.position
    between = words[k : figure.i]
    if len(between) > _FARTHEST or words_of("parts_a_lot") & set(between) or facts.ctx.line.figure_over(figure.i - 1):
        return None
    if any(k <= d < figure.i for d in facts.ctx.line.dimensions) or any(k <= f < figure.i for f in facts.figures):
        return None
    d = facts.ctx.line.dimensions.get(figure.j)
    if d is not None and d.words != "long":
        return None
    end = figure.j if d is None else d.j
    if d is None and end < facts.clause.j and words[end] not in words_of("conjunctions"):
        return None
    facts.ctx.facts[-1] = replace(last, length_ticks=length_ticks(figure), doubts=(*last.doubts, *figure.doubts))
    facts.position = end
    return end


def _is_a_stick(what: str | None) -> bool:
    """Whether a thing is sold by its length: a stick of timber, and nothing in a container."""
    named = (what or "").split()
    sticks = words_of("members", "sold_by_length")
    return bool(named) and named[0] not in containers() - sticks and named[-1] in sticks
