"""Words beside figures: units, hedges, shades, what is counted; and how a figure is written back in words of a doubt."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from journal.extract import numbers
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.grammar import table
from journal.records import Doubt

METRIC = {"mm", "cm", "m"}


@cache
def units() -> dict[str, str]:
    """Unit words to units."""
    return dict(table("figures")["units"])


@cache
def figure_phrases(name: str, key: str = "") -> Phrases[str]:
    """A table of phrases from `figures.toml`."""
    data = table("figures")[name]
    return Phrases.of(data[key] if key else data["words"], key)


@cache
def hedges() -> tuple[Phrases[str], Phrases[str]]:
    """Hedges before and after a figure."""
    return figure_phrases("hedges", "before"), figure_phrases("hedges", "after")


@cache
def shades() -> Phrases[str]:
    """Words for a strong or shy figure."""
    data = table("figures")["shades"]
    return Phrases(dict.fromkeys(data["strong"], "strong") | dict.fromkeys(data["shy"], "shy"))


@cache
def arithmetic() -> Phrases[int]:
    """ "Less", "plus" and the like, to their sign."""
    data = table("figures")["arithmetic"]
    return Phrases(dict.fromkeys(data["less"], -1) | dict.fromkeys(data["more"], 1))


@cache
def burned() -> Phrases[str]:
    """Phrases for a tape held at one inch."""
    return Phrases.of(table("figures")["burned"]["phrases"], "burned")


@cache
def label_nouns() -> frozenset[str]:
    """Nouns whose number is a name, singular and plural."""
    nouns = table("figures")["labels"]["nouns"]
    return frozenset(nouns) | frozenset(plural(noun) for noun in nouns)


def plural(noun: str) -> str:
    """The plural of a noun."""
    if noun.endswith(("s", "sh", "ch", "x")):
        return noun + "es"
    if noun.endswith("y") and noun[-2:-1] not in "aeiou":
        return noun[:-1] + "ies"
    return noun + "s"


PLURAL_NUMBERS = {
    "twos": 2,
    "threes": 3,
    "fours": 4,
    "sixes": 6,
    "eights": 8,
    "nines": 9,
    "tens": 10,
    "twelves": 12,
    "fives": 5,
    "sevens": 7,
    "fourteens": 14,
    "sixteens": 16,
}


@cache
def rate_nouns() -> frozenset[str]:
    """What money is said for: "a sheet", "an hour", "a board foot"."""
    stock = table("stock")
    return frozenset(stock["things"]["words"]) | frozenset(stock["containers"]["words"]) | {
        "board foot", "foot", "hour", "day", "week", "thousand", "hundred", "square foot", "linear foot",
        "lineal foot", "running foot", "lin foot", "piece", "trip", "load", "bd ft", "cubic yard", "square yard", "dozen", "person", "man", "month", "mile", "run", "visit", "coat", "opening", "head",
    }  # fmt: skip


@cache
def container_words() -> frozenset[str]:
    """Containers that are no unit of length."""
    return frozenset(word for word in table("stock")["containers"]["words"] if word not in units())


@cache
def counted_words() -> frozenset[str]:
    """Words that show a number before them to be a count: things and containers in the plural, and kinds of wood."""
    stock = table("stock")
    nouns = list(stock["things"]["words"]) + list(stock["containers"]["words"])
    return frozenset(plural(noun.split()[-1]) for noun in nouns if noun not in ("foot", "feet", "over"))


@cache
def species() -> Phrases[str]:
    """Kinds of wood."""
    return Phrases({name: name for name in table("stock")["species"]["words"]})


def names_stock(words: Sequence[str], i: int) -> bool:
    """Whether something counted is named within the next few words."""
    for k in range(i, min(i + 4, len(words))):
        if words[k] in counted_words() or species().at(words, k):
            return True
        if words[k] in words_of("stock_walk_stops") or numbers.number(words, k):
            return False
    return False


def word_at(words: Sequence[str], i: int) -> str:
    """The word at `i`, or nothing beyond the ends."""
    return words[i] if 0 <= i < len(words) else ""


def number_like(words: Sequence[str], i: int) -> tuple[int, int] | None:
    """The whole number at word `i` and the index after it, or None: for names and for telling words from numbers."""
    if words[i] in ("a", "an"):
        return None
    whole = numbers.cardinal(words, i)
    return (whole[0], whole[1]) if whole else None


def burned_at(words: Sequence[str], i: int) -> int | None:
    """The index after "burned an inch" at word `i`."""
    found = burned().at(words, i) if 0 <= i < len(words) else None
    return found[1] if found else None


def mixed_text(value: Fraction) -> str:
    """A whole and a fraction as they are written."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def inches_text(value: Fraction) -> str:
    """Inches in lowest terms, as format_inches writes them."""
    whole, part = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole} {part}" if part else f"{sign}{whole}"


def two_way(line: Line, i: int, j: int, taken: Fraction, other: Fraction) -> Doubt:
    """The doubt of a figure that can be read in two ways."""
    said = line.said(i, j)
    return Doubt(
        "two-way",
        f"'{said}' can be {inches_text(taken)} or {inches_text(other)}",
        line.span(i, j),
        (inches_text(taken), inches_text(other)),
        level=3,
    )
