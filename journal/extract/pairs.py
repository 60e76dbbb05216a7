"""Two numbers in a row: feet and inches ("fourteen six"), hundreds ("one eighteen"), dollars and cents, by the words beside them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from journal.extract import numbers
from journal.extract.feet import feet_figure, measured_here
from journal.extract.line import Figure, Line
from journal.extract.money import rate_at, take_rate
from journal.extract.nominal import section_figure
from journal.extract.numbers import Number
from journal.extract.sets import words_of
from journal.extract.unitwords import (
    METRIC,
    PLURAL_NUMBERS,
    label_nouns,
    mixed_text,
    names_stock,
    two_way,
    units,
    word_at,
)
from journal.extract.vocabulary import dimension_words
from journal.records import Doubt


def pair_figure(line: Line, i: int, n: Number) -> Figure | None:
    """Two numbers in a row: feet and inches, hundreds without "hundred", dollars and cents, or two figures."""
    words = line.words
    if (
        word_at(words, i - 1) == "by"
        and (n.whole or 0) >= 10
        and numbers.number(words, n.end) is not None
        and word_at(words, i - 2) != "less"
    ):
        following = numbers.number(words, n.end)
        if following is not None and following.whole is not None and following.whole >= 12:
            return None
    if n.fraction or n.whole is None or n.value.denominator != 1 or n.end >= len(words):
        return None
    whole, j = n.whole, n.end
    zero = words[j] in ("oh", "zero")
    second = numbers.number(words, j + 1) if zero else numbers.number(words, j)
    if second is None or second.whole is None or words[j] in ("a", "an"):
        if zero and word_at(words, j + 1) == "and" and (part := numbers.fraction(words, j + 2)):
            return feet_figure(line, i, part.end, Fraction(whole), part.value)
        return None
    if second.quarters or words[j] in ("hundred", "thousand"):
        return None
    end, unit = second.end, units().get(word_at(words, second.end), "")
    if word_at(words, end) == "by" and (
        word_at(words, end + 1) in PLURAL_NUMBERS or (section_figure(line, j, second) is not None)
    ):
        return None
    counts = not zero and not unit and not _priced(words, end) and names_stock(words, end)
    if counts and not second.fraction and not measured_here(words, i) and not (whole == 1 and words[i - 1] == "by"):
        return None
    if word_at(words, end) == "dozen" or unit in ("ft", "%", "deg", "C", "F", "h", "min"):
        return None
    cents = (
        second.value
        if not second.fraction and ((zero and second.value < 10) or (not zero and 10 <= second.value < 100))
        else None
    )
    if unit in METRIC and 10 <= second.value < 100 and whole < 100:
        return Figure(i, end + 1, "length", Fraction(whole * 100) + second.value, unit, rule="figure.metric")
    if unit == "$" and cents is not None and whole < 10:
        return Figure(i, end + 1, "money", whole * 100 + second.value, "$", rule="figure.dollars")
    per = rate_at(words, end)
    each = word_at(words, end) in ("each", "apiece") or words[end : end + 2] == ["a", "piece"]
    if cents is not None and (per or each):
        figure = Figure(
            i, end, "money", whole + cents / 100, "$", second=second.value, whole=whole, rule="figure.cents"
        )
        take_rate(line, figure)
        return figure
    third = numbers.below_hundred(words, end)
    if (
        whole < 10
        and cents is not None
        and not zero
        and third is not None
        and third[0] >= 10
        and not units().get(word_at(words, third[1]))
        and not names_stock(words, third[1])
        and word_at(words, third[1]) != "by"
        and _is_whole(words, end, third[1])
    ):
        return Figure(
            i, third[1], "money", whole * 100 + second.value + Fraction(third[0], 100), "$", rule="figure.dollars"
        )
    hundreds = Fraction(whole * 100) + second.value
    feet = Fraction(whole * 12) + second.value
    as_inches = unit == "in"
    small = zero and second.value < 10 and whole < 10
    if small or (10 <= second.value < 100 and whole < 10 and not (whole >= 4 and second.value < 12)):
        figure = Figure(
            i,
            end + as_inches,
            "length",
            hundreds,
            "in" if as_inches else "",
            second=second.value,
            whole=whole,
            rule="figure.hundreds",
        )
        if not small and second.value < 12 and whole > 1:
            figure.doubts.append(two_way(line, i, end, hundreds, feet))
    elif second.value < 12 and whole <= 60:
        figure = Figure(
            i,
            end + as_inches,
            "length",
            feet,
            "ft",
            second=second.value,
            whole=whole,
            feet=Fraction(whole),
            rule="figure.bare_feet",
        )
        level = 1 if whole >= 10 and not as_inches else 2
        figure.doubts.append(
            Doubt(
                "two numbers",
                f"'{line.said(i, end)}' was read as {whole} ft {mixed_text(second.value)}",
                line.span(i, end),
                level=level,
            )
        )
    elif (
        cents is not None
        and not zero
        and whole < 1000
        and not unit
        and word_at(words, i - 1) not in label_nouns() | {"not"}
        and word_at(words, end) not in words_of("figure_adjectives")
        and not _measured_before(words, i)
    ):
        figure = Figure(
            i, end, "money", whole + cents / 100, "$", second=second.value, whole=whole, rule="figure.cents"
        )
        if not _price_said(words, i):
            shown = f"'{line.said(i, end)}' was read as {float(figure.value):.2f} dollars"
            figure.doubts.append(Doubt("two numbers", shown, line.span(i, end), level=1))
    else:
        return None
    return figure


def _priced(words: Sequence[str], end: int) -> bool:
    """Whether a rate follows ("two eighty five a board foot"): what is named after it is the next thing."""
    return rate_at(words, end) is not None or word_at(words, end) in ("each", "apiece")


def _price_said(words: Sequence[str], i: int) -> bool:
    """Whether a word of money stands before word `i`."""
    return bool((words_of("cost_cues", "pay_verbs")) & set(words[max(0, i - 9) : i]))


def _measured_before(words: Sequence[str], i: int) -> bool:
    """Whether dimensions and no price were named before: "height and width are forty thirty", "long point seventy one seventy two"."""
    before = words[max(0, i - 9) : i]
    if _price_said(words, i):
        return False
    points = any(one in ("long", "short") and two in ("point", "points") for one, two in pairwise(before))
    plain = ("length", "lengths", "run", "long")
    return points or any(word in dimension_words() and word not in plain for word in before)


def _is_whole(words: Sequence[str], i: int, end: int) -> bool:
    """Whether a whole number and no fraction stands at word `i` up to `end`."""
    number = numbers.number(words, i)
    return number is not None and number.end == end and not number.fraction
