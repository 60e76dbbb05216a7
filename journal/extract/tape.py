"""What a tape can show: the ticks of a figure, and a metric figure as said."""

from __future__ import annotations

from fractions import Fraction

from journal.extract.line import Figure
from journal.lengths import INCH, MILLIMETRE

METRIC_TICKS = {"mm": MILLIMETRE, "cm": 10 * MILLIMETRE, "m": 1000 * MILLIMETRE}


def length_ticks(figure: Figure) -> int | None:
    """A figure's length in ticks of 1/320 mm, or None where the tape has no such line."""
    ticks = figure.value * METRIC_TICKS.get(figure.unit, INCH)
    return int(ticks) if ticks.denominator == 1 else None


def decimal(value: Fraction) -> str:
    """A metric figure as said: "7.2", "1220"."""
    return f"{float(value):.4f}".rstrip("0").rstrip(".") if value.denominator != 1 else str(value.numerator)
