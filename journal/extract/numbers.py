"""Numbers said in words or written in digits, as exact fractions. Knows nothing of units.

One number is a whole with or without a fraction: "seventy one and five eighths", "eighteen point five", "a quarter".
Two wholes one after the other ("fourteen six") are two numbers; figures.py knows what they make.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from journal.grammar import table


class Number(NamedTuple):
    """A value read from words up to `end`.

    `whole` is None for a bare fraction. `split` is the part after the tens ("forty one": 1), which may be a word of
    its own ("forty one by eights"). `other` is a second way to read the same words.
    """

    value: Fraction
    end: int
    whole: int | None
    fraction: bool = False
    split: int = 0
    other: Fraction | None = None
    quarters: int | None = None


@cache
def _ones() -> dict[str, int]:
    return dict(table("numbers")["ones"])


@cache
def _below_twenty() -> dict[str, int]:
    return {**table("numbers")["ones"], **table("numbers")["teens"]}


@cache
def _tens() -> dict[str, int]:
    return dict(table("numbers")["tens"])


@cache
def _denominators() -> tuple[dict[str, int], dict[str, dict[str, int]]]:
    """What stands beneath the line: as one word, and as two, by the first and then the second of them."""
    one: dict[str, int] = {}
    two: dict[str, dict[str, int]] = {}
    for phrase, below in table("numbers")["denominators"].items():
        first, _, second = phrase.partition(" ")
        if second:
            two.setdefault(first, {})[second] = below
        else:
            one[first] = below
    return one, two


@cache
def number_words() -> frozenset[str]:
    """Every word that can begin or go on a number."""
    return frozenset(_below_twenty()) | frozenset(_tens()) | {"hundred", "thousand"}


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a number that is not written in digits can begin."""
    return number_words() | {"half", "quarter", "a", "an", "point"}


# Fractions never change, and making one costs far more than finding one made before.
_ratio = lru_cache(maxsize=4096)(Fraction)
_HALF = Fraction(1, 2)


def denominator(words: Sequence[str], i: int) -> tuple[int, int] | None:
    """What stands beneath the line at word `i` ("sixteenths", "thirty seconds") and the index after it."""
    if i >= len(words):
        return None
    word = words[i]
    ones, twos = _denominators()
    if word in twos and i + 1 < len(words) and (two := twos[word].get(words[i + 1])) is not None:
        return two, i + 2
    one = ones.get(word)
    return (one, i + 1) if one is not None else None


def below_hundred(words: Sequence[str], i: int) -> tuple[int, int, int] | None:
    """A whole number under a hundred: its value, the index after it, and the part after the tens."""
    if i >= len(words):
        return None
    word = words[i]
    if (value := _below_twenty().get(word)) is not None:
        return value, i + 1, 0
    if (value := _tens().get(word)) is not None:
        unit = _ones().get(words[i + 1]) if i + 1 < len(words) else None
        if unit:
            below = denominator(words, i + 2)
            # "forty three eighths" is 40 3/8, "twenty three sixty fourths" is 23/64
            if below is None or value + unit < below[0] or words[i + 2] in ("third", "half", "quarter"):
                return value + unit, i + 2, unit
        return value, i + 1, 0
    return None


def cardinal(words: Sequence[str], i: int) -> tuple[int, int, int] | None:
    """A whole number of any size: its value, the index after it, and the part after the tens."""
    if i >= len(words):
        return None
    word = words[i]
    if word[0].isdecimal():
        return (int(word.replace(",", "")), i + 1, 0) if "/" not in word and "." not in word else None
    j, split = i, 0
    if word == "a" and i + 1 < len(words) and words[i + 1] in ("hundred", "thousand"):
        value, j = 1, i + 1
    elif word in ("hundred", "thousand"):
        value = 1
    else:
        small = below_hundred(words, i)
        if small is None:
            return None
        value, j, split = small
    total = 0
    if j < len(words) and words[j] == "thousand":
        total, j, split = value * 1000, j + 1, 0
        value = 0
        step = j + (j < len(words) and words[j] == "and")
        small = below_hundred(words, step)
        if small is not None and denominator(words, small[1]) is None and (step > j or _hundred_at(words, small[1])):
            value, j, split = small
        elif small is not None and step == j:
            return total, j, 0
    if value and j < len(words) and words[j] == "hundred":
        value, j, split = value * 100, j + 1, 0
        step = j + (j < len(words) and words[j] == "and")
        small = below_hundred(words, step)
        if small is not None and _goes_on(words, small[1], step > j):
            value, j, split = value + small[0], small[1], small[2]
    return total + value, j, split


def _hundred_at(words: Sequence[str], i: int) -> bool:
    return i < len(words) and words[i] == "hundred"


def _goes_on(words: Sequence[str], end: int, with_and: bool) -> bool:
    """Whether a number after "hundred" belongs to it: not a numerator, and without "and" no size of a screw."""
    if denominator(words, end) is not None or _hundred_at(words, end):
        return False
    return with_and or end >= len(words) or words[end] not in ("inch", "by", "penny", "foot")


def fraction(words: Sequence[str], i: int) -> Number | None:
    """A bare fraction: "five eighths", "a half", "quarter", "3/8"."""
    if i >= len(words):
        return None
    word = words[i]
    if word not in _beginnings() and not word[0].isdecimal():
        return None
    if word[0].isdecimal():
        if "/" not in word:
            if i + 2 < len(words) and words[i + 1] == "/" and words[i + 2].isdigit() and int(words[i + 2]):
                return Number(Fraction(int(word), int(words[i + 2])), i + 3, None, True)
            return None
        above, below_text = word.replace(",", "").split("/")
        if "." in above or not int(below_text):
            return None
        return Number(Fraction(int(above), int(below_text)), i + 1, None, True)
    if word in ("half", "quarter"):
        return Number(_ratio(1, _denominators()[0][word]), i + 1, None, True)
    if word in ("a", "an", "one"):
        below = denominator(words, i + 1)
        if below is not None and not words[below[1] - 1].endswith("s"):
            return Number(_ratio(1, below[0]), below[1], None, True)
        if word != "one":
            return None
    above_line = below_hundred(words, i)
    if above_line is None:
        return None
    value, j, split = above_line
    below = denominator(words, j)
    if below is None or value == 0:
        return None
    if value > below[0] and below[0] != 4:
        return None
    if value == 4 and below[0] == 4 and words[j] != "quarter":
        return None
    other = None
    if split and value < below[0] and split < below[0] and value - split:
        other = value - split + _ratio(split, below[0])
    if below[0] == 4 and words[j] == "quarter" and split in (4, 5, 6, 8):
        return Number(_ratio(value, 4), below[1], None, True, split, None, value)
    quarters = value if below[0] == 4 and words[j] == "quarter" and value in (4, 5, 6, 8, 10, 12, 16) else None
    if value > 4 and below[0] == 4 and quarters is None:
        return None
    return Number(_ratio(value, below[0]), below[1], None, True, split, other, quarters)


def number(words: Sequence[str], i: int) -> Number | None:
    """The number at word `i`: whole, fraction, both, or a decimal."""
    if i >= len(words) or (words[i] not in _beginnings() and not words[i][0].isdecimal()):
        return None
    bare = fraction(words, i)
    if bare is not None:
        return bare
    word = words[i]
    if word[0].isdecimal() and "." in word and "/" not in word:
        digits = word.replace(",", "")
        return Number(Fraction(digits), i + 1, int(Fraction(digits))) if digits.count(".") == 1 else None
    if word == "point":
        return _decimal(words, i, 0)
    whole = cardinal(words, i)
    if whole is None:
        return None
    value, j, split = whole
    if j < len(words):
        following = words[j]
        if following == "point" and (decimal := _decimal(words, j, value)) is not None:
            return decimal
        if following == "and" and j + 1 < len(words):
            part = fraction(words, j + 1)
            if part is not None and part.value < 1 and part.quarters is None:
                return Number(value + part.value, part.end, value, True)
        elif following == "half" and value and words[j + 1 : j + 2] != ["hour"]:  # "at three half hour lunch"
            return Number(value + _HALF, j + 1, value, True)
        elif following not in ("a", "an", "half", "quarter"):
            part = fraction(words, j)
            if part is not None and part.value < 1 and part.quarters is None:
                return Number(value + part.value, part.end, value, True)
    return Number(_ratio(value), j, value, False, split)


def _decimal(words: Sequence[str], point: int, whole: int) -> Number | None:
    digits, j = "", point + 1
    ones = _ones()
    while j < len(words) and words[j] in ones:
        digits += str(ones[words[j]])
        j += 1
    if not digits:
        small = below_hundred(words, j)
        if small is None:
            return None
        digits, j = str(small[0]), small[1]
    return Number(whole + Fraction(int(digits), 10 ** len(digits)), j, whole)
