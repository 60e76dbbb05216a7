"""Dollars and cents, and what they are said for: "a sheet", "an hour", "each"."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.sets import words_of
from journal.extract.unitwords import rate_nouns, shades, units, word_at


def dollars(line: Line, i: int, j: int, value: Fraction, unit: str) -> Figure:
    """Dollars with the cents said after them, and what they are for."""
    words = line.words
    if unit == "c":
        value /= 100
    else:
        k = j + (word_at(words, j) == "and")
        cents = numbers.below_hundred(words, k)
        if cents and (units().get(word_at(words, cents[1])) == "c"):
            value, j = value + Fraction(cents[0], 100), cents[1] + 1
        elif (
            cents
            and cents[0] >= 10
            and k == j
            and not units().get(word_at(words, cents[1]))
            and word_at(words, cents[1]) in words_of("after_cents") | {""}
        ):
            value, j = value + Fraction(cents[0], 100), cents[1]
        elif word_at(words, k) in ("a", "half") and k > j and (part := numbers.fraction(words, k)):
            value, j = value + part.value, part.end
    figure = Figure(i, j, "money", value, "$", rule="figure.dollars")
    take_rate(line, figure)
    return figure


def rate_at(words: Sequence[str], j: int) -> tuple[str, int] | None:
    """What money is said for at word `j`: "a sheet" -> ("sheet", end)."""
    if word_at(words, j) in ("a", "an", "per", "the", "for", "to"):
        k = j + 1
        if words[j] in ("for", "to"):
            if word_at(words, k) not in ("a", "an", "the", "each", "every"):
                return None
            if words[j] == "to" or words[k] in ("each", "every"):
                return None
            return None
        two = " ".join(words[k : k + 2])
        if two in rate_nouns():
            return two.replace("feet", "foot"), k + 2
        one = word_at(words, k)
        if one in rate_nouns() and words[j] != "the" and word_at(words, k + 1) != "of":
            if word_at(words, k + 1) == "of" and one in ("run", "opening"):
                return None
            if one in ("foot", "inch", "hour") and word_at(words, k + 1) == "and" and numbers.fraction(words, k + 2):
                return None
            return one, k + 1
    return None


def take_rate(line: Line, figure: Figure) -> None:
    """Marks a figure with what it is said for, where a rate follows it."""
    words = line.words
    if figure.kind not in ("number", "money", "length") or figure.unit not in ("", "$"):
        return
    if shades().at(words, figure.j):
        return
    found = rate_at(words, figure.j)
    if found and found[0] == "piece":
        figure.each, figure.j = True, found[1]
    elif found:
        figure.per, figure.j = found
        if figure.kind != "money" and figure.rule not in ("figure.bare_feet",):
            figure.kind = "money"
    elif word_at(words, figure.j) in ("each", "apiece"):
        figure.each, figure.j = True, figure.j + 1
    elif words[figure.j : figure.j + 2] in (["a", "piece"], ["a", "pop"]):
        figure.each, figure.j = True, figure.j + 2
