"""Figures, names and days in words, as a builder says them: the other way round from reading them.

What is said here the extractor reads back to the same figure; tests hold it to that over whole memos.
"""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from functools import cache
from typing import Any

from journal.grammar import table
from journal.lengths import FOOT, INCH, SIXTY_FOURTH, round_ticks
from journal.speech.spoken_form import number_words, spoken_text

FEET_FROM = 12 * FOOT
"""Lengths from here on are said in feet, as they are shown."""
_METRIC = re.compile(r"(-?[\d.]+) (mm|cm|m)")
_NEAR = {-1: "yesterday", 0: "today", 1: "tomorrow"}
_SHORT = re.compile(r"\b(\d+)x(\d+)\b")
_QUARTERED = re.compile(r"\b(\d+)/4x(\d+)")


def length_words(ticks: int, metric: str | None = None) -> str:
    """A length in words: ``fifty six and seven eighths``, ``twenty foot``, ``seven point two metres``.

    `metric` is the figure in the unit that it was said in. What is no whole 1/64 inch is said to the nearest.
    """
    if metric is not None and (match := _METRIC.fullmatch(metric)):
        return f"{decimal_words(match[1])} {_metric_unit(match[2], match[1])}"
    nearest = round_ticks(ticks, to=SIXTY_FOURTH)
    sign, rest = ("minus ", -nearest) if nearest < 0 else ("", nearest)
    if rest >= FEET_FROM:
        feet, over = divmod(rest, FOOT)
        return f"{sign}{number_words(feet)} foot" + (f" {_inches(over)}" if over else " even")
    return sign + _inches(rest)


def _inches(ticks: int) -> str:
    # a bare "one" says no unit
    return "one inch" if ticks == INCH else mixed_words(Fraction(ticks, INCH))


def mixed_words(value: Fraction) -> str:
    """A mixed number: 56 7/8 is ``fifty six and seven eighths``, 1/2 is ``half``, 3/4 ``three quarters``."""
    whole, part = divmod(value, 1)
    if not part:
        return number_words(int(whole))
    below = _fraction(part, alone=not whole)
    return f"{number_words(int(whole))} and {below}" if whole else below


def _fraction(part: Fraction, *, alone: bool) -> str:
    names = table("spoken_form")["fractions"].get(str(part.denominator))
    if names is None:
        return f"{number_words(part.numerator)} over {number_words(part.denominator)}"
    if part.numerator > 1:
        return f"{number_words(part.numerator)} {names[1]}"
    if alone:
        return f"{'an' if names[0][0] in 'aeiou' else 'a'} {names[0]}" if names[0] != "half" else "half"
    return f"{'an' if names[0][0] in 'aeiou' else 'a'} {names[0]}"


def decimal_words(written: str) -> str:
    """A number as it is written: "7.2" is ``seven point two``, "-2" is ``minus two``."""
    sign, plain = ("minus ", written[1:]) if written.startswith("-") else ("", written)
    whole, _, part = plain.partition(".")
    digits = " ".join(number_words(int(digit)) for digit in part)
    return sign + number_words(int(whole or 0)) + (f" point {digits}" if part.strip("0") else "")


def amount_words(value: float) -> str:
    """A plain number: in quarters, halves and thirds where it is one, else with a point."""
    near = Fraction(value).limit_denominator(16)
    sign, near = ("minus ", -near) if near < 0 else ("", near)
    if near.denominator in (1, 2, 4, 8) and abs(float(near) - abs(value)) < 1e-9:
        return sign + mixed_words(near)
    return decimal_words(f"{value:.4f}".rstrip("0").rstrip("."))


def money_words(amount: float) -> str:
    """Dollars and cents: ``two dollars and eighty five cents``."""
    cents = round(amount * 100)
    dollars, rest = divmod(cents, 100)
    money: dict[str, Any] = table("spoken_form")["money"]
    above = f"{number_words(dollars)} {money['dollar'][dollars != 1]}"
    below = f"{number_words(rest)} {money['cent'][rest != 1]}"
    return above if not rest else below if not dollars else f"{above} and {below}"


def name_words(name: str) -> str:
    """A place, thing or section in words: "wall A" is ``wall a``, "frame 2" ``frame two``, "1x8" ``one by eight``."""
    sized = _QUARTERED.sub(lambda m: f"{number_words(int(m[1]))} quarter by {number_words(int(m[2]))}", name)
    sized = _SHORT.sub(lambda m: f"{number_words(int(m[1]))} by {number_words(int(m[2]))}", sized)
    return spoken_text(sized)


def plural_words(name: str) -> str:
    """Several of a thing by its last word: ``pine boards``, ``boxes``, ``two by sixes``."""
    if name.endswith("s") and not name.endswith("ss"):
        return name
    if name.endswith(("x", "ch", "sh", "ss")):
        return f"{name}es"
    return f"{name[:-1]}ies" if re.search(r"[^aeiou]y$", name) else f"{name}s"


def day_words(day: date, said_on: date) -> str:
    """A day as it is said on another: ``yesterday``, ``tomorrow``, ``friday``, ``july thirty first``.

    A weekday is the one to come.
    """
    ahead = (day - said_on).days
    if ahead in _NEAR:
        return _NEAR[ahead]
    if 1 < ahead < 7:
        return weekday_name(day)
    month = next(name for name, number in table("due")["months"].items() if number == day.month)
    return f"{month} {spoken_text(_ordinal(day.day))}"


def _ordinal(number: int) -> str:
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def weekday_name(day: date) -> str:
    """The name of its weekday: ``friday``."""
    return _day_names()[day.weekday()]


@cache
def _day_names() -> dict[int, str]:
    return {number: name for name, number in reversed(table("due")["weekdays"].items())}


def _metric_unit(unit: str, figure: str) -> str:
    name = {"mm": "millimetre", "cm": "centimetre", "m": "metre"}[unit]
    return name if figure == "1" else f"{name}s"
