"""Figures that say how large what is counted is: its section and length, the size of a sheet, what a container holds."""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.lot import Lot
from journal.extract.numbers import number
from journal.extract.sets import words_of
from journal.extract.stockwords import containers, singular
from journal.extract.tape import length_ticks
from journal.extract.unitwords import PLURAL_NUMBERS, inches_text, number_like
from journal.lengths import FOOT, INCH
from journal.records import Cost, Doubt, Stock


def take_figure(ctx: Context, lot: Lot, figure: Figure, m: int, right: int) -> int | None:
    """Takes a figure in: section, length or board feet; None where it begins something else."""
    words = ctx.line.words
    lumber = lot.board_feet is not None or goes_on_in_board_feet(ctx, lot) is not None
    if lumber and words[m - 1] == "at" and (figure.unit == "" or figure.rule == "figure.bare_feet"):
        return None  # "a hundred and twenty board feet of cherry at seven ten": a price
    if (size := _size_of_sheet(ctx, lot, m)) is not None:
        return size
    if not lot.what and figure.i == m and (size := container_size(words, figure)) is not None:
        lot.what.extend(words[m:size])
        return size
    if figure.kind == "board feet":
        if lot.board_feet is not None or lot.what:
            return None
        lot.board_feet = figure.value
        return figure.j
    if figure.kind == "section":
        if figure.second is not None or lot.section is not None:
            return None
        lot.section, lot.by_section = figure.section, words[figure.j - 1] in PLURAL_NUMBERS
        return figure.j + (figure.j < right and words[figure.j] == "by")
    if figure.kind not in ("length", "number") or figure.per or (figure.i < m and figure.kind != "length"):
        return None
    section = section_after(ctx, lot, figure, m)
    return section if section is not None else _length(ctx, lot, figure, m, right)


def goes_on_in_board_feet(ctx: Context, lot: Lot) -> Stock | None:
    """The lot before, where it was in board feet and this count is of more: "… board feet of cherry at seven ten and fifty of walnut"."""
    facts, words = ctx.facts, ctx.line.words
    priced = bool(facts) and isinstance(cost := facts[-1], Cost) and cost.per == "board foot"
    last = facts[-2 if priced else -1] if len(facts) > priced else None
    if lot.count is None or not isinstance(last, Stock) or last.board_feet is None or lot.what or lot.section:
        return None
    return last if lot.species or "more" in words[lot.i + 1 : lot.i + 4] else None


def container_size(words: list[str], figure: Figure) -> int | None:
    """The index after "five pound" in "a five pound box of nails", "two five gallon pails"; None where none is said."""
    if figure.kind not in ("number", "length") or figure.j + 1 >= len(words):
        return None
    holds = words[figure.j] in words_of("container_sizes") or words[figure.j - 1] in words_of("container_sizes")
    k = figure.j + (words[figure.j] in words_of("container_sizes"))
    return k if holds and k < len(words) and singular(words[k]) in containers() and words[k] != "of" else None


def section_after(ctx: Context, lot: Lot, figure: Figure, m: int) -> int | None:
    """Takes in a section said after the thing: "four poplar aprons one by four"; the index after it."""
    words = ctx.line.words
    if figure.i != m or figure.j >= len(words) or words[figure.j] != "by" or lot.section or not lot.what:
        return None
    second = number_like(words, figure.j + 1) if figure.j + 1 < len(words) else None
    if second is None or figure.kind != "number" or figure.unit or figure.value > 16 or not 2 <= second[0] <= 24:
        return None
    width = ctx.line.figures.get(figure.j + 1)
    if width is None or width.unit or (width.kind != "number" and width.value == second[0]):
        return None
    lot.section = f"{figure.value}x{second[0]}"
    rest = number(words, second[1])
    if width.j > second[1] and rest is not None and rest.end == width.j:
        # "four by six thirty eight and a half": the length was read into the width
        lot.length = int(rest.value * INCH)
        said, span = ctx.line.said(width.i, width.j), ctx.span(width.i, width.j)
        shown = f"'{said}' was read as a width of {second[0]} and a length of {inches_text(rest.value)}"
        lot.doubts.append(Doubt("two numbers", shown, span, level=1))
        return _after_length(words, width.j)
    return second[1]


def _size_of_sheet(ctx: Context, lot: Lot, m: int) -> int | None:
    """The index after the size of a sheet ("eleven sheets of drywall … four by eight"), which is no count."""
    words = ctx.line.words
    figure = ctx.line.figures.get(m)
    if figure is None or not (set(lot.what) & {"sheet", "sheets", "panel", "panels", *words_of("sheet_goods")}):
        return None
    if figure.kind == "section" and figure.second is None and not lot.section:
        return figure.j if figure.value in (4, 5) else None
    if figure.kind != "number" or figure.value not in (4, 5) or words[figure.j : figure.j + 1] != ["by"]:
        return None
    second = number_like(words, figure.j + 1) if figure.j + 1 < len(words) else None
    if second is None or second[0] not in (4, 5, 8, 9, 10, 12, 14, 16):
        return None
    return second[1] + (words[second[1] : second[1] + 1] in (["foot"], ["feet"]))


def _length(ctx: Context, lot: Lot, figure: Figure, m: int, right: int) -> int | None:
    """Takes a length in; None where the figure is a new count. Small sizes stay in the name ("half inch plywood")."""
    words = ctx.line.words
    end = figure.j
    following = words[end] if end < right else ""
    if lot.what[-1:] == ["of"] and figure.kind == "length":
        return as_words(ctx, lot, figure)
    if following == "of" and figure.unit in ("ft", "m") and lot.named():
        return None
    led = words[m - 1] in ("at", "to", "by")
    if figure.unit == "" and not led and following not in ("long", "lengths"):
        if figure.kind == "number" or lot.what or not stockwords.names_stock(words, end):
            return None
        return as_words(ctx, lot, figure)
    if following in ("wide", "thick", "deep") and (beside := _size_by_length(ctx, lot, end + 1)) is not None:
        return beside
    if (following in ("wide", "thick", "deep", "high", "tall") or words[end : end + 2] == ["in", "from"]) and not led:
        return None
    stays_long = following == "long" or figure.unit in ("ft", "mm", "cm", "m") or led
    if not stays_long and figure.value < 24:
        nouns = words[end : end + 2]
        if (
            any(noun in words_of("sheet_goods") for noun in nouns)
            or lot.what[:1] in (["sheet"], ["sheets"], ["roll"], ["rolls"], ["length"], ["lengths"])
            or figure.value < 1
        ):
            return as_words(ctx, lot, figure)
    if lot.length is not None and not led:
        return None
    whole_feet = figure.kind == "number" and 6 <= figure.value <= 24 and figure.value % 2 == 0
    lot.bare_feet = led and figure.unit == "" and bool(lot.section) and whole_feet and words[m - 1] != "by"
    lot.maybe_feet = led and figure.unit == "" and figure.kind == "number" and 4 <= figure.value <= 24
    lot.length = (
        int(figure.value * FOOT)
        if words[m - 1] == "by" and figure.unit == "" and figure.value >= 4
        else length_ticks(figure)
    )
    lot.footers = words[end - 1] in ("footer", "footers")
    lot.doubts.extend(figure.doubts)
    return _after_length(words, end)


def _size_by_length(ctx: Context, lot: Lot, k: int) -> int | None:
    """Takes in the length of "eleven inches wide by four foot long"; the index after it. A lot keeps no width."""
    words = ctx.line.words
    length = ctx.line.figures.get(k + 1)
    if words[k : k + 1] != ["by"] or length is None or length.kind != "length" or lot.length is not None:
        return None
    if words[length.j : length.j + 1] != ["long"]:
        return None
    lot.length = length_ticks(length)
    return length.j + 1


def _after_length(words: list[str], k: int) -> int:
    """The index after what says how a length was taken: "long", "long point to long point"."""
    point = False
    while words[k : k + 2] in (["long", "point"], ["short", "point"]) or (point and words[k : k + 1] == ["to"]):
        k, point = k + 2 - (words[k] == "to"), True
    return k if point else k + (words[k : k + 1] in (["long"], ["lengths"]))


def as_words(ctx: Context, lot: Lot, figure: Figure) -> int:
    """Takes a figure into the name of the thing ("half inch plywood"); the index after it."""
    lot.what.extend(ctx.line.words[figure.i : figure.j])
    return figure.j


def footers(lot: Lot, word: str) -> int | None:
    """The length of "sixteens" after a section ("a dozen hemlock two by sixes sixteens")."""
    feet = _STOCK_LENGTHS.get(word)
    return feet * FOOT if feet is not None and lot.section and lot.length is None else None


def may_be_length(figure: Figure) -> bool:
    """Whether a figure after "at" or "to" can be a length, not a price."""
    return figure.kind == "length" or (figure.kind == "number" and not (figure.per or figure.each))


_STOCK_LENGTHS = {
    "sixes": 6, "eights": 8, "nines": 9, "tens": 10, "twelves": 12, "fourteens": 14, "sixteens": 16, "eighteens": 18,
    "twenties": 20,
}  # fmt: skip
