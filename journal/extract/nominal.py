"""Figures said as two numbers with a joint: nominal sections ("two by six studs") and slopes ("nine in twelve")."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.numbers import Number
from journal.extract.sets import words_of
from journal.extract.unitwords import PLURAL_NUMBERS, label_nouns, names_stock, shades, units, word_at
from journal.extract.vocabulary import dimension_words


def section_figure(line: Line, i: int, n: Number) -> Figure | None:
    """A nominal section said as part of a material: "two by six studs", "five quarter by six", "two by tens"."""
    words = line.words
    if word_at(words, n.end) != "by":
        return None
    if n.quarters and n.quarters >= 4:
        first, small = f"{n.quarters}/4", True
    elif (n.fraction and n.whole is None) or n.fraction or n.value.denominator != 1:
        return None
    else:
        first, small = str(n.value), n.value <= 16
    second_at = n.end + 1
    if (width := PLURAL_NUMBERS.get(word_at(words, second_at))) is not None and (small or n.split):
        return _make_section(line, i, n, first, str(width), second_at + 1)
    second = numbers.number(words, second_at) if second_at < len(words) else None
    if second is None or second.value.denominator != 1 or second.fraction or second.value > 24:
        return None
    if (n.quarters and n.quarters > 4) or word_at(words, second.end) == "by" or names_stock(words, second.end):
        if not small and not n.split:
            return None
        if word_at(words, second.end) == "by":
            third = numbers.number(words, second.end + 1)
            third_unit = units().get(word_at(words, third.end)) if third else None
            if third is None or not (third_unit == "ft" or names_stock(words, third.end)):
                return None
            return _make_section(line, i, n, first, str(second.value), second.end + 1)
        if units().get(word_at(words, second.end)):
            return None
        return _make_section(line, i, n, first, str(second.value), second.end)
    length = numbers.cardinal(words, second.end)
    if length is not None and small and second.whole is not None and units().get(word_at(words, length[1])) == "ft":
        return _make_section(line, i, n, first, str(second.value), second.end)
    return None


def _make_section(line: Line, i: int, n: Number, first: str, second: str, end: int) -> Figure:
    """ "Forty one by eight boards" is forty of one by eight; "twenty two by fours" twenty of two by four."""
    figure = Figure(i, end, "section", n.value, rule="figure.section")
    count: Fraction | None = None
    if n.quarters and n.split:
        count, first = Fraction(n.quarters - n.split), f"{n.split}/4"
    elif n.split and n.value > 12:
        count, first = n.value - n.split, str(n.split)
    figure.section = f"{first}x{second}"
    figure.second = count
    return figure


def _dimension_led(words: Sequence[str], i: int) -> bool:
    """Whether a dimension stands before the number at word `i`, small words and shades passed over."""
    k = i - 1
    while k > 0 and (words[k] in words_of("copulas") or words[k] in ("a", "an") or shades().ending_at(words, k + 1, 1)):
        k -= 1
    shaded = any(shades().ending_at(words, m + 1, 1) for m in range(k + 1, i))
    return shaded or (k >= 0 and words[k] in dimension_words())


def slope_figure(line: Line, i: int, n: Number) -> Figure | None:
    """ "Six twelve", "nine in twelve", "a nine pitch", "one in ten", "a quarter inch to the foot"."""
    words = line.words
    j = n.end
    word = word_at(words, j)
    if word in words_of("pitch_words") and n.value <= 24 and word != "slope" and word_at(words, j + 1) != "pine":
        return Figure(i, j + 1, "slope", n.value, run=Fraction(12), rule="slope.pitch")
    if units().get(word) == "in" and words[j + 1 : j + 4] in (
        ["to", "the", "foot"],
        ["in", "the", "foot"],
        ["in", "a", "foot"],
    ):
        return Figure(i, j + 4, "slope", n.value, run=Fraction(12), rule="slope.per_foot")
    if units().get(word) == "in" and words[j + 1 : j + 3] in (["per", "foot"], ["a", "foot"]):
        return Figure(i, j + 3, "slope", n.value, run=Fraction(12), rule="slope.per_foot")
    before = word_at(words, i - 1)
    if before == "by" and word not in words_of("slope_joints"):
        return None  # "forty and a half by one twelve"
    k = j + 1 if word in words_of("slope_joints") or word in ("and", "to") else j
    run = numbers.cardinal(words, k) if k < len(words) else None
    if run is None or n.value > 24 or n.value <= 0:
        return None
    after = word_at(words, run[1])
    if units().get(after) or (
        after
        in (
            "by",
            "and",
            "point",
            "percent",
            "hundred",
            "dozen",
            "wide",
            "high",
            "long",
            "deep",
            "thick",
            "tall",
            "on",
            "a",
            "each",
        )
        and not (
            after in ("on", "and", "a")
            and numbers.fraction(words, run[1] + 1) is None
            and (run[0] == 12 or (after != "a" and n.value == 1 and word == "in"))
        )
    ):
        return None
    if numbers.denominator(words, run[1]) or numbers.fraction(words, run[1]):
        return None
    if run[0] == 12 and (word in ("in", "over", "on", "/") or k == j):
        if before in label_nouns() and k == j and before not in ("dormer", "gable", "hip", "valley", "deck", "stair"):
            return None
        if k == j and n.value == 1 and _dimension_led(words, i):
            return None  # "plate width is a strong one twelve" is 112
        if k == j and names_stock(words, run[1]) and before not in ("a", "is", "'s", "an", "at"):
            return None
        end = run[1] + (after in words_of("pitch_words"))
        return Figure(i, end, "slope", n.value, run=Fraction(12), rule="slope.in_twelve")
    if (
        word in ("and", "to")
        and run[0] == 12
        and (
            after in words_of("pitch_words")
            or any(w in ("slope", "pitch", "pitched") for w in words[max(0, i - 5) : i])
        )
    ):
        return Figure(
            i, run[1] + (after in words_of("pitch_words")), "slope", n.value, run=Fraction(12), rule="slope.in_twelve"
        )
    if (
        word == "in"
        and n.whole is not None
        and 1 <= run[0] <= 100
        and (
            n.value == 1
            or any(
                w in ("slope", "pitch", "pitched", "ramp", "fall", "falls", "grade", "drain", "roof")
                for w in words[max(0, i - 6) : i]
            )
        )
    ):
        return Figure(i, run[1], "slope", n.value, run=Fraction(run[0]), rule="slope.in")
    return None
