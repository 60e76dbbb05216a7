"""The moisture of a stack over the days: readings, the trend to the target, and the day it is expected. Pure."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from math import exp, log

from textual.content import Content

from journal.quantities.drying import Stack
from journal.quantities.moisture import DryingTrend
from journal.tui.canvas import ACROSS, DOWN, Canvas

_MARGIN = 6  # cells on the left for the per cent


def draw_drying(stack: Stack, columns: int, rows: int) -> list[Content]:
    """The plot: ``o`` a reading, the line the fitted trend, dashed the target; days below, per cent on the left."""
    if not stack.readings:
        return []
    trend = stack.trend if isinstance(stack.trend, DryingTrend) else None
    first, last = stack.readings[0].on, stack.readings[-1].on
    end = max(last, trend.expected if trend else last) + timedelta(days=2)
    moistures = [read.moisture for read in stack.readings]
    low = min(*moistures, float(stack.target), *([stack.emc] if stack.emc is not None else [])) - 1
    high = max(moistures) + 1
    canvas = Canvas(columns, rows)
    left, floor = _MARGIN * ACROSS, DOWN

    def x(on: float) -> float:
        return left + on / max(1, (end - first).days) * (canvas.width - 1 - left - 8)

    def y(moisture: float) -> float:
        return floor + (moisture - low) / (high - low) * (canvas.height - 1 - floor)

    canvas.line(left, floor, left, canvas.height - 1)
    canvas.line(left, floor, canvas.width - 1, floor)
    canvas.line(left, y(float(stack.target)), canvas.width - 1, y(float(stack.target)), dashed=True)
    for read in stack.readings:
        canvas.write(x((read.on - first).days), y(read.moisture), "o", "bold")
    canvas.write(left - 2, y(float(stack.target)), f"{float(stack.target):g} %", align="right")
    canvas.write(left - 2, y(moistures[0]), f"{moistures[0]:g} %", align="right")
    canvas.write(left - 2, y(moistures[-1]), f"{moistures[-1]:g} %", align="right")
    if trend is not None:
        _draw_trend(canvas, trend, first, end, x, y)
        canvas.write(x((trend.expected - first).days), y(float(stack.target)), "x", "bold")
        canvas.write(x((trend.expected - first).days), 0, _short(trend.expected), "bold")
    canvas.write(x(0), 0, _short(first), align="left")
    canvas.write(x((last - first).days), 0, _short(last))
    return canvas.lines()


def _draw_trend(
    canvas: Canvas,
    trend: DryingTrend,
    first: date,
    end: date,
    x: Callable[[float], float],
    y: Callable[[float], float],
) -> None:
    """M(t) = EMC + (target - EMC) * exp(k * (expected - t)): the fitted line through the expected day."""
    span, when = (end - first).days, (trend.expected - first).days
    over = log(trend.target - trend.emc)
    for step in range(span * 4 + 1):
        days = step / 4
        canvas.dot(x(days), y(trend.emc + exp(over + trend.rate * (when - days))))


def _short(on: date) -> str:
    return f"{on.day} {on:%b}"
