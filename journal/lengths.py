"""Lengths as whole ticks of 1/320 mm, read and printed as a builder writes them.

An inch is 8,128 ticks, 1/64 inch is 127, a millimetre is 320, so that both tapes are exact integers and add exactly.
(1 in. = 25.4 mm exactly: international yard and pound agreement, 1959.) Knows nothing of memos.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

MILLIMETRE = 320
INCH = 8128
FOOT = 12 * INCH
SIXTY_FOURTH = INCH // 64

System = Literal["inch", "metric"]
Rounding = Literal["nearest", "up", "down"]

_METRIC_UNITS = {"mm": MILLIMETRE, "cm": 10 * MILLIMETRE, "m": 1000 * MILLIMETRE}
_NUMBER = r"(?:\d+(?:\.\d+)?)"
_INCHES = (
    rf"(?:(?P<whole>\d+)(?:\s+|-)(?P<num>\d+)\s*/\s*(?P<den>\d+)|(?P<num2>\d+)\s*/\s*(?P<den2>\d+)|(?P<dec>{_NUMBER}))"
)
_IMPERIAL = re.compile(
    rf"""(?:(?P<feet>{_NUMBER})\s*(?:'|’|ft\.?|feet|foot)\s*-?\s*)?(?:{_INCHES}\s*(?:"|”|''|in\.?|inch(?:es)?)?)?""",
    re.VERBOSE | re.IGNORECASE,
)
_METRIC = re.compile(rf"({_NUMBER})\s*(mm|cm|m)", re.IGNORECASE)


def parse_length(text: str) -> tuple[int, System]:
    """The ticks of a written length and the tape it was written for.

    Reads ``71 5/8``, ``5' 11 5/8"``, ``5 ft 11``, ``0 3/8``, ``3/8``, ``71.625``, ``1820mm``, ``7.2 m``; a bare number
    is inches. Raises ValueError with one sentence that names the text and what is wrong with it.
    """
    said = text.strip()
    if metric := _METRIC.fullmatch(said):
        return _whole_ticks(Fraction(metric[1]) * _METRIC_UNITS[metric[2].lower()], said), "metric"
    match = _IMPERIAL.fullmatch(said)
    if not said or match is None:
        raise ValueError(f"'{text}' is not a length")
    num, den = match["num"] or match["num2"], match["den"] or match["den2"]
    inches = Fraction(0)
    if den is not None:
        if int(den) == 0:
            raise ValueError(f"'{text}' is not a length: the fraction has a zero below the line")
        inches += Fraction(int(num), int(den))
    if match["whole"]:
        inches += int(match["whole"])
    if match["dec"]:
        inches += Fraction(match["dec"])
    if match["feet"]:
        inches += 12 * Fraction(match["feet"])
    return _whole_ticks(inches * INCH, said), "inch"


def ticks_from_inches(inches: Fraction | int | str) -> int:
    """The ticks of an exact number of inches ("47 5/8" or a Fraction); ValueError where it is no whole tick."""
    value = (
        sum((Fraction(part) for part in inches.split()), Fraction(0)) if isinstance(inches, str) else Fraction(inches)
    )
    return _whole_ticks(value * INCH, str(inches))


def inches(ticks: int) -> Fraction:
    """A length in inches, exactly."""
    return Fraction(ticks, INCH)


def _whole_ticks(ticks: Fraction, said: str) -> int:
    if ticks.denominator != 1:
        raise ValueError(
            f"'{said}' is finer than 1/64 inch or 1/320 mm can hold: give it to the nearest 1/64 or 0.1 mm"
        )
    return int(ticks)


def round_ticks(ticks: Fraction | int, *, to: int = INCH // 16, rounding: Rounding = "nearest") -> int:
    """Ticks rounded to a multiple of `to` (default 1/16 inch), halves up; "down" for a piece that must fit between."""
    top, bottom = ticks.numerator, ticks.denominator * to
    if rounding == "nearest":
        return (2 * top + bottom) // (2 * bottom) * to
    return (top // bottom if rounding == "down" else -(-top // bottom)) * to


def format_inches(ticks: int) -> str:
    """Exact inches in lowest terms, as in ``"71 5/8"``, ``"0 3/8"``, ``"96"``, ``"-0 1/2"``.

    A length on the metric tape may be no whole sixty-fourth: it is then given by its exact fraction.
    """
    sign, rest = ("-", -ticks) if ticks < 0 else ("", ticks)
    whole, part = divmod(rest, INCH)
    return f"{sign}{whole} {Fraction(part, INCH)}" if part else f"{sign}{whole}"


def format_length(ticks: int, system: System = "inch") -> str:
    """A length as a builder reads it: ``71 5/8"``, ``20' 0"``, ``3/8"``, ``1220 mm``.

    Twelve feet and more are given in feet and inches. What is no whole 1/64 inch is shown to the nearest 1/64 with
    a ``~`` before it, so that nothing rounded looks exact.
    """
    if system == "metric":
        return f"{_decimal(Fraction(ticks, MILLIMETRE))} mm"
    exact = ticks % SIXTY_FOURTH == 0
    shown = ticks if exact else round_ticks(ticks, to=SIXTY_FOURTH)
    sign, rest = ("-", -shown) if shown < 0 else ("", shown)
    mark = "" if exact else "~"
    if rest >= 12 * FOOT:
        feet, rest = divmod(rest, FOOT)
        return f"{mark}{sign}{feet}' {_mixed(rest)}\""
    return f'{mark}{sign}{_mixed(rest)}"'


def _mixed(ticks: int) -> str:
    whole, part = divmod(ticks, INCH)
    if not part:
        return str(whole)
    return f"{whole} {Fraction(part, INCH)}" if whole else str(Fraction(part, INCH))


def _decimal(value: Fraction) -> str:
    return f"{float(value):.4f}".rstrip("0").rstrip(".")


def parse_metric(text: str) -> int:
    """The ticks of ``"1220 mm"``, ``"29.5 cm"`` or ``"7.2 m"``; ValueError where it is none."""
    ticks, system = parse_length(text)
    if system != "metric":
        raise ValueError(f"'{text}' is not a metric length")
    return ticks
