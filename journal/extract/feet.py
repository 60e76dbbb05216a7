"""Feet and inches said together: "five foot two and a half", "a foot and a half", "fifteen foot nothing", "an inch and a quarter"."""

from __future__ import annotations

from fractions import Fraction

from journal.extract import numbers
from journal.extract.clock import hours_figure
from journal.extract.line import Figure, Line
from journal.extract.numbers import Number
from journal.extract.sets import words_of
from journal.extract.unitwords import (
    PLURAL_NUMBERS,
    figure_phrases,
    hedges,
    names_stock,
    shades,
    two_way,
    units,
    word_at,
)
from journal.extract.vocabulary import dimension_words

HALF = Fraction(1, 2)


def feet_figure(line: Line, i: int, j: int, feet: Fraction, inches: Fraction) -> Figure:
    """The length of feet and inches said in words `i` to `j`."""
    return Figure(i, j, "length", feet * 12 + inches, "ft", feet=feet, rule="figure.feet")


def plain_figure(line: Line, i: int, j: int, value: Fraction, unit: str) -> Figure:
    """A figure of a value with its unit, nothing said after it."""
    if unit == "ft":
        return feet_figure(line, i, j, value, Fraction(0))
    kind = {
        "in": "length",
        "mm": "length",
        "cm": "length",
        "m": "length",
        "%": "percent",
        "deg": "degrees",
        "h": "hours",
        "$": "money",
    }[unit]
    return Figure(i, j, kind, value, unit)  # type: ignore[arg-type]


def one_unit(line: Line, i: int, at: int, unit: str) -> Figure | None:
    """ "A foot and a half", "an inch and a quarter", "an hour and three quarters", "a foot two"."""
    words = line.words
    j = at + 1
    if unit == "h":
        return hours_figure(line, i, j, Fraction(1))
    if words[j : j + 1] == ["and"]:
        part = numbers.fraction(words, j + 1)
        if part and part.value < 1 and part.quarters is None:
            if (
                unit == "ft"
                and (part.value != HALF or units().get(word_at(words, part.end)) == "in")
                and part.value.denominator > 4
            ):
                end = part.end + (units().get(word_at(words, part.end)) == "in")
                return feet_figure(line, i, end, Fraction(1), part.value)
            if unit == "ft" and units().get(word_at(words, part.end)) == "in":
                return feet_figure(line, i, part.end + 1, Fraction(1), part.value)
            return plain_figure(line, i, part.end, 1 + part.value, unit)
    if unit == "ft":
        return after_feet(line, i, j, Fraction(1), one=True)
    return plain_figure(line, i, j, Fraction(1), unit)


def shaded_unit(line: Line, i: int) -> Figure | None:
    """ "A scant inch", "a fat foot and a half": one of the unit, with its shade between."""
    words = line.words
    shade = shades().at(words, i + 1) if words[i] in ("a", "an") else None
    unit = units().get(word_at(words, shade[1])) if shade else None
    if shade is None or unit not in ("in", "ft"):
        return None
    figure = one_unit(line, i, shade[1], unit)
    if figure is not None:
        figure.shade = "strong" if shade[0] == "strong" else "shy"
    return figure


def after_feet(line: Line, i: int, j: int, feet: Fraction, *, halves: bool = False, one: bool = False) -> Figure:
    """Feet have been heard up to `j`: inches, a fraction, or "even" may follow."""
    words = line.words
    exact = figure_phrases("exact").at(words, j) if j < len(words) else None
    if exact and not (words[exact[1] - 1] in ("nothing", "even") and _fraction_after(words, exact[1])):
        return feet_figure(line, i, exact[1], feet, Fraction(0))
    if halves:
        return feet_figure(line, i, j, feet, Fraction(0))
    k = j
    if word_at(words, k) in ("oh", "zero", "no", "nothing", "even"):
        if word_at(words, k + 1) == "and" and (part := numbers.fraction(words, k + 2)):
            return feet_figure(line, i, part.end + (units().get(word_at(words, part.end)) == "in"), feet, part.value)
        if word_at(words, k) == "oh" and numbers.number(words, k + 1):
            k += 1
        elif word_at(words, k) != "no":
            return feet_figure(line, i, k + 1, feet, Fraction(0))
    if (
        word_at(words, k) == "and"
        and word_at(words, i - 1) in ("in", "over", "per")
        and word_at(words, i - 2) in ("level", "plumb", "square", "true")
    ):
        return feet_figure(line, i, j, feet, Fraction(0))
    if word_at(words, k) == "and":
        part = numbers.fraction(words, k + 1)
        if part is not None and part.value < 1 and part.quarters is None:
            if units().get(word_at(words, part.end)) == "in":
                return feet_figure(line, i, part.end + 1, feet, part.value)
            if words[part.end : part.end + 5] in (["of", "an", "inch", "out", "of"], ["of", "an", "inch", "off", "of"]):
                return feet_figure(line, i, j, feet, Fraction(0))
            if words[part.end : part.end + 3] == ["of", "an", "inch"]:
                return feet_figure(line, i, part.end + 3, feet, part.value)
            figure = feet_figure(line, i, part.end, feet, part.value)
            if part.value in (HALF, Fraction(1, 4), Fraction(3, 4)) and not one:
                figure.doubts.append(two_way(line, i, part.end, figure.value, (feet + part.value) * 12))
            return figure
        inner = numbers.number(words, k + 1)
        if inner and units().get(word_at(words, inner.end)) == "in" and inner.value < 12:
            return _feet_and(line, i, feet, inner)
        return feet_figure(line, i, j, feet, Fraction(0))
    inner = numbers.number(words, k) if k < len(words) else None
    if inner is not None and inner.value < 12 and inner.quarters is None and _inches_may_follow(line, i, k, inner):
        return _feet_and(line, i, feet, inner)
    return feet_figure(line, i, j, feet, Fraction(0))


def _fraction_after(words: list[str], k: int) -> bool:
    """ "Eight foot nothing and a half": a fraction of an inch, where no unit of its own makes it another figure."""
    part = numbers.fraction(words, k + 1) if word_at(words, k) == "and" else None
    return part is not None and part.value < 1 and part.whole is None and word_at(words, part.end) != "inch"


def _feet_and(line: Line, i: int, feet: Fraction, inner: Number) -> Figure:
    words = line.words
    end, inches = inner.end, inner.value
    if units().get(word_at(words, end)) == "in":
        end += 1
        if not inner.fraction and word_at(words, end) == "and":
            part = numbers.fraction(words, end + 1)
            if part and part.value < 1 and part.quarters is None:
                return feet_figure(line, i, part.end, feet, inches + part.value)
    elif words[end : end + 3] == ["of", "an", "inch"]:
        end += 3
    return feet_figure(line, i, end, feet, inches)


def measured_here(words: list[str], i: int) -> bool:
    """Whether a dimension, a copula or a shade stands before word `i`: "length nineteen foot six, cheek posts …" counts no posts."""
    led = word_at(words, i - 1)
    return (
        led in dimension_words()
        or led in words_of("copulas")
        or bool(shades().ending_at(words, i, 3) or hedges()[0].ending_at(words, i, 3))
    )


_NOT_AFTER_INCHES = frozenset({"ft", "%", "deg", "C", "F", "h", "min", "$", "c", "mm", "cm", "m"})


def _inches_may_follow(line: Line, i: int, k: int, inner: Number) -> bool:
    """Whether a number after feet is inches: not when it counts something or has another unit."""
    words = line.words
    following = word_at(words, inner.end)
    if units().get(following) in _NOT_AFTER_INCHES or following in ("per", "dozen", "penny", "hundred", "thousand"):
        return False
    if following == "by" and word_at(words, inner.end + 1) in PLURAL_NUMBERS:
        return False
    if inner.fraction:
        return True
    if words[k] in ("a", "an"):
        return False
    if following in words_of("after_inches"):
        return True
    return measured_here(words, i) or word_at(words, inner.end) == "all" or not names_stock(words, inner.end)
