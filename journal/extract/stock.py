"""Material that came, went or is wanted: count, section, kind of wood, thing and length of each lot named."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.figures import units
from journal.extract.line import Figure, joined
from journal.extract.measures import length_ticks
from journal.extract.stockwords import containers, event_at, singular
from journal.extract.vocabulary import function_words
from journal.records import Stock, StockEvent

_SKIP = frozenset(
    {
        "more",
        "new",
        "extra",
        "another",
        "long",
        "good",
        "the",
        "of",
        "these",
        "those",
        "full",
        "whole",
        "some",
        "in",
        "each",
        "only",
        "lengths",
        "footers",
        "our",
        "my",
        "all",
        "last",
        "about",
        "a",
        "an",
        "additional",
        "further",
        "other",
    }
)
_SHEETS = frozenset(
    {
        "plywood",
        "drywall",
        "osb",
        "foam",
        "board",
        "ply",
        "glass",
        "pipe",
        "rebar",
        "rope",
        "dowel",
        "sheathing",
        "insulation",
        "sheetrock",
        "gypsum",
        "wallboard",
        "backer",
        "hardboard",
        "mdf",
        "plexiglass",
        "polycarbonate",
        "masonite",
        "chain",
        "cable",
        "bead",
        "bit",
        "drill",
        "hose",
        "advantech",
        "particle",
    }
)


@dataclass(slots=True)
class Lot:
    """One lot as it is being read."""

    i: int
    j: int
    count: Fraction | None = None
    section: str | None = None
    species: str | None = None
    what: list[str] = field(default_factory=list)
    length: int | None = None
    board_feet: Fraction | None = None
    place: str | None = None
    event: StockEvent | None = None
    doubts: list = field(default_factory=list)  # type: ignore[type-arg]


@dataclass(slots=True)
class Going:
    """What goes on down a list: the event, and the thing with its section and kind."""

    event: StockEvent | None = None
    what: str | None = None
    section: str | None = None
    species: str | None = None


def read_lot(ctx: Context, k: int, right: int) -> Lot | None:
    """The lot that begins with the count (or section, or container) at word `k`."""
    line, words = ctx.line, ctx.line.words
    figure = line.figures.get(k)
    lot = Lot(k, k)
    if figure is None:
        if words[k] in ("a", "an", "another") and k + 1 < right and stockwords.singular_at(words, k + 1):
            lot.count, m = Fraction(1), k + 1
        else:
            return None
    elif figure.kind == "board feet":
        lot.board_feet, m = figure.value, figure.j
    elif figure.kind == "section":
        lot.count, lot.section, m = figure.second, figure.section, figure.j
    elif figure.kind in ("number", "length") and figure.unit == "":
        lot.count, m = figure.value, figure.j
    else:
        return None
    if figure is not None:
        lot.doubts.extend(figure.doubts)
        lot.i = figure.i
    m = _parts(ctx, lot, m, right)
    lot.j = m
    return lot


def _parts(ctx: Context, lot: Lot, m: int, right: int) -> int:
    line, words = ctx.line, ctx.line.words
    while m < right:
        word = words[m]
        figure = line.figures.get(m) or next((f for f in line.figures.values() if f.i <= m < f.j), None)
        if figure is not None:
            if (
                figure.per
                or (figure.each
                and figure.kind == "money")
                or figure.kind in ("money", "percent", "degrees", "hours", "slope")
            ):
                break
            if figure.kind == "board feet":
                if lot.board_feet is not None or lot.what:
                    break
                lot.board_feet, m = figure.value, figure.j
                continue
            if figure.kind == "section":
                if figure.second is not None or lot.section is not None:
                    break
                lot.section, m = figure.section, figure.j
                if m < right and words[m] == "by":
                    m += 1
                continue
            if figure.kind in ("length", "number"):
                taken = _length(ctx, lot, figure, m, right)
                if taken is None:
                    break
                m = taken
                continue
        if (
            event_at(words, m)
            and not (word == "in" and lot.what == [])
            and not (
                word in ("over", "short", "spare", "cut", "left")
                and m + 1 < right
                and words[m + 1] in stockwords.singulars()
            )
        ):
            break
        kind = stockwords.species().at(words, m)
        if (
            kind
            and not (lot.what and lot.what[-1] in ("of", "and"))
            and not (lot.what and kind[1] < right and words[kind[1]] in function_words())
        ):
            lot.species = lot.species or kind[0]
            m = kind[1]
            continue
        if kind and lot.what and lot.what[-1] != "of" and words[m - 1] == "all":
            lot.species, m = kind[0], kind[1]
            continue
        if word in (
            "and",
            "then",
            "but",
            "plus",
            "so",
            "for",
            "on",
            "at",
            "from",
            "to",
            "were",
            "they",
            "are",
            "is",
            "'s",
            "that",
            "with",
            "which",
            "i",
            "we",
            "because",
        ):
            if (
                word in ("at", "to", "in")
                and m + 1 < right
                and any(
                    f.i <= m + 1 < f.j and f.kind in ("length", "number") and not f.per for f in line.figures.values()
                )
            ):
                m += 1
                continue
            if word in ("on", "for", "at", "from"):
                m = _where(ctx, lot, m, right)
                if (
                    m < right
                    and m in line.figures
                    and line.figures[m].kind == "length"
                    and line.figures[m].unit == "ft"
                ):
                    continue
            break
        if word == "of" and lot.what and singular(lot.what[-1]) in containers():
            lot.what.append(word)
        elif (word == "by" and lot.section is not None) or (word in ("half", "quarter", "three") and False):
            pass
        elif any(d.i <= m < d.j for d in ctx.dues) or word in ("today", "yesterday", "tomorrow", "tonight"):
            m = max([d.j for d in ctx.dues if d.i <= m < d.j] + [m + 1])
            continue
        elif m in line.places and word in ("in", "over", "up"):
            break
        elif word in (
            "in",
            "off",
            "over",
            "under",
            "up",
            "into",
            "out",
            "down",
            "after",
            "before",
            "until",
            "till",
            "inside",
        ):
            if word == "in" and lot.what:
                m = _where(ctx, lot, m, right)
            break
        elif word in _SKIP or word in function_words():
            if lot.what and word in ("the", "my", "our", "a", "an", "another"):
                break
        else:
            lot.what.append(word)
        m += 1
    return m


def _where(ctx: Context, lot: Lot, m: int, right: int) -> int:
    """Takes in "on the lake gable"; gives the index after it, or `m` where no place is named there."""
    words = ctx.line.words
    k = m + 1
    while k < right and words[k] in ("the", "our", "a", "up", "over"):
        k += 1
    if k in ctx.line.places:
        lot.place = ctx.line.places[k].name
        return ctx.line.places[k].j
    return m


def _length(ctx: Context, lot: Lot, figure: Figure, m: int, right: int) -> int | None:
    """Takes a length in; None where the figure is a new count. Small sizes stay in the name ("half inch plywood")."""
    words = ctx.line.words
    end = figure.j
    following = words[end] if end < right else ""
    led = words[m - 1] in ("at", "to", "by") or (words[m - 1] == "in" and False)
    is_long = following == "long" or figure.unit in ("ft", "mm", "cm", "m") or led
    if figure.unit == "" and not led and following not in ("long",):
        if figure.kind == "number":
            return None
        if lot.what or not (figure.kind == "length" and stockwords.names_stock(words, end)):
            return None if figure.value >= 2 or lot.what else _as_words(ctx, lot, figure)
    if not is_long and figure.value < 24:
        nouns = words[end : end + 2]
        if (
            any(noun in _SHEETS for noun in nouns)
            or (lot.what
            and lot.what[0] in ("sheet", "sheets", "roll", "rolls", "length", "lengths"))
            or figure.value < 1
        ):
            return _as_words(ctx, lot, figure)
    if lot.length is not None and not led:
        return None
    lot.length = length_ticks(figure)
    if words[m - 1] == "by" and figure.unit == "" and figure.value >= 4:
        lot.length = int(figure.value * 12 * 8128)
    if following == "long" or following == "lengths":
        end += 1
    return end


def _as_words(ctx: Context, lot: Lot, figure: Figure) -> int:
    lot.what.extend(ctx.line.words[figure.i : figure.j])
    return figure.j


def add_lot(ctx: Context, lot: Lot, going: Going, event: StockEvent) -> None:
    """Files a lot, what was not said again taken from the lot before it in the list."""
    what = _name(lot.what)
    if what is None and lot.section is None and lot.species is None and lot.board_feet is None:
        what, lot.section, lot.species = going.what, going.section, going.species
    elif what is not None or lot.section is not None:
        if (what is None and lot.species is None and lot.section is not None and lot.board_feet is None) or (what is not None and lot.section is None and lot.species is None and what == going.what):
            pass
    going.what, going.section, going.species, going.event = what, lot.section, lot.species, event
    ctx.facts.append(
        Stock(
            event=event, count=float(lot.count) if lot.count is not None else None, what=what, section=lot.section,
            length_ticks=lot.length, species=lot.species, board_feet=float(lot.board_feet) if lot.board_feet is not None else None,
            place=lot.place, evidence=ctx.span(lot.i, lot.j), rule=f"stock.{event.replace(' ', '_')}", doubts=tuple(lot.doubts),
        )
    )  # fmt: skip


def _name(what: list[str]) -> str | None:
    """The thing in the singular: "tube of sealant", "sanding disc"."""
    words = [word for word in what if word]
    while words and words[-1] == "of":
        words.pop()
    if not words:
        return None
    if "of" in words:
        at = words.index("of")
        words[at - 1] = singular(words[at - 1])
    else:
        words[-1] = singular(words[-1])
    return joined(words)


def plural_unit(word: str) -> bool:
    """Whether a word is a unit."""
    return word in units()
