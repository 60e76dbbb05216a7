"""Moisture: what the air dries wood to, how a stack dries towards it, and what a cold meter reads.

Pure formulas on plain numbers; drying.py reads them off the facts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, exp, log

FIBRE_SATURATION = 30.0
METER_SET_FOR_F = 70.0
THICKNESS_POWER = 1.52  # drying time grows with thickness to this power (Simpson and Tschernitz, red oak; MOI-293)

# Simpson (1973), two-hydrate sorption equation: W, K, K1, K2 as a + bT + cT^2 (Wood Handbook FPL-GTR-190, Eq. 4-5)
_FAHRENHEIT = ((330, 0.452, 0.00415), (0.791, 0.000463, -8.44e-7), (6.34, 0.000775, -9.35e-5), (1.09, 0.0284, -9.04e-5))
_CELSIUS = ((349, 1.29, 0.0135), (0.805, 0.000736, -2.73e-6), (6.27, -0.00938, -0.000303), (1.91, 0.0407, -0.000293))


def celsius(fahrenheit_degrees: float) -> float:
    """Degrees C of degrees F, exactly as defined."""
    return (fahrenheit_degrees - 32) / 1.8


def fahrenheit(celsius_degrees: float) -> float:
    """Degrees F of degrees C, exactly as defined."""
    return celsius_degrees * 1.8 + 32


def emc_coefficients(temperature: float, unit: str) -> tuple[float, float, float, float]:
    """W, K, K1 and K2 of the sorption equation at a temperature in "F" or "C"; the two sets are never mixed."""
    if unit not in ("F", "C"):
        raise ValueError(f"a temperature is in F or C, not '{unit}'")
    table = _FAHRENHEIT if unit == "F" else _CELSIUS
    w, k, k1, k2 = (a + b * temperature + c * temperature**2 for a, b, c in table)
    return w, k, k1, k2


def emc(temperature: float, humidity: float, unit: str = "F") -> float:
    """Moisture content in per cent that wood comes to in air of this temperature and humidity in per cent.

    Simpson (1973); Wood Handbook, FPL-GTR-190 (2010), Eq. 4-5; within 0.1 of the handbook table from 30 to 130 F.
    ValueError for a humidity outside 0 to 100 or a temperature at which the equation does not hold.
    """
    if not 0 <= humidity <= 100:
        raise ValueError(f"a humidity of {humidity:g} % cannot be: it lies from 0 to 100")
    low, high = (-30, 160) if unit == "F" else (-35, 72)
    if not low <= temperature <= high:
        raise ValueError(f"a temperature of {temperature:g} {unit} is outside the equation for air and wood")
    w, k, k1, k2 = emc_coefficients(temperature, unit)
    kh = k * humidity / 100
    return (1800 / w) * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2))


def corrected_reading(reading: float, temperature_f: float) -> float:
    """A meter's moisture in per cent put right for cold wood: one point more for each 20 F under 70.

    Source: Wengert (woodworking trade page, read). For meters without their own correction.
    """
    return reading + (METER_SET_FOR_F - temperature_f) / 20


@dataclass(frozen=True, slots=True)
class DryingTrend:
    """A stack's way to a target: `rate` a day towards `emc`, the day it gets there, and that day for EMC a point off.

    `latest` is None where the target is not above EMC + 1: then the late end is open.
    """

    emc: float
    rate: float
    target: float
    expected: date
    earliest: date
    latest: date | None


def drying_trend(readings: Sequence[tuple[date, float]], air: float, target: float) -> DryingTrend | str:
    """The day that a stack reaches `target` per cent in air of EMC `air`, or a sentence on why that cannot be said.

    Fits ln(M - EMC) = c - k days by least squares to the readings of one lot; the day is (c - ln(T - EMC))/k, rounded up.
    Wants three readings over seven days. Newton's law of drying as trade.md has it; the sorption limit is `emc`.
    """
    if not readings:
        return "no moisture reading yet"
    if len(readings) < 3:
        return f"only {len(readings)} reading{'s' if len(readings) != 1 else ''}: it takes 3 over at least 7 days"
    first = min(day for day, _ in readings)
    span = (max(day for day, _ in readings) - first).days
    if span < 7:
        return f"the readings span {span} day{'s' if span != 1 else ''}: it takes 3 over at least 7 days"
    if target <= air:
        return f"it will not get below {air:.1f} % outdoors, so {target:g} % is out of reach there"
    newest = max(readings)[1]
    if newest <= target:
        return f"it is at {newest:g} % already, {target:g} % was the target"
    if min(moisture for _, moisture in readings) <= air + 1e-9:
        return f"a reading is at or below the {air:.1f} % that the air dries to, so no trend can be drawn"
    fit = _fit(readings, first, air)
    if fit[1] <= 0:
        return "the readings do not fall, so no day can be named"
    expected = _reached(first, fit, air, target)
    earliest = _reached_at(readings, first, air - 1, target)
    latest = _reached_at(readings, first, air + 1, target) if target > air + 1 else None
    if expected is None:
        return "the readings hardly fall, so no day can be named"
    return DryingTrend(air, fit[1], target, expected, earliest or expected, latest)


def straight_line_day(readings: Sequence[tuple[date, float]], target: float) -> date | None:
    """The day that a straight line through the readings promises: always too early, shown only as a warning."""
    if len(readings) < 2:
        return None
    first = min(day for day, _ in readings)
    level, fall = _line([((day - first).days, moisture) for day, moisture in readings])
    return None if fall >= 0 else _day(first, (target - level) / fall)


def _fit(readings: Sequence[tuple[date, float]], first: date, air: float) -> tuple[float, float]:
    """The c and k of ln(M - EMC) = c - k days."""
    level, slope = _line([((day - first).days, log(moisture - air)) for day, moisture in readings])
    return level, -slope


def _line(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Level and slope of the least-squares line."""
    n = len(points)
    mean_x, mean_y = sum(x for x, _ in points) / n, sum(y for _, y in points) / n
    across = sum((x - mean_x) ** 2 for x, _ in points)
    slope = sum((x - mean_x) * (y - mean_y) for x, y in points) / across if across else 0.0
    return mean_y - slope * mean_x, slope


def _reached(first: date, fit: tuple[float, float], air: float, target: float) -> date | None:
    level, rate = fit
    return _day(first, (level - log(target - air)) / rate)


def _reached_at(readings: Sequence[tuple[date, float]], first: date, air: float, target: float) -> date | None:
    if min(moisture for _, moisture in readings) <= air:
        return None
    fit = _fit(readings, first, air)
    return _reached(first, fit, air, target) if fit[1] > 0 else None


def _day(first: date, days: float) -> date | None:
    """The day after so many days, rounded up; None beyond twenty years, where nothing is promised."""
    return first + timedelta(days=ceil(days - 1e-9)) if days < 7300 else None


def moisture_after(start: float, air: float, rate: float, days: float) -> float:
    """Moisture in per cent after so many days of drying at a rate: EMC + (M0 - EMC) e^(-k days)."""
    return air + (start - air) * exp(-rate * days)


def thickness_time_ratio(thickness_ratio: float) -> float:
    """How many times longer stock of this many times the thickness dries (MOI-294 to 296)."""
    return float(thickness_ratio**THICKNESS_POWER)
