"""A drawing in terminal cells: lines in dots of a quarter cell's height, figures over them. Pure, knows no walls.

A cell holds two dots across and four up (Braille patterns, Unicode block U+2800), which makes dots about square.
"""

from __future__ import annotations

import os
from collections.abc import Iterable

from textual.content import Content

_COARSE = os.environ.get("TERM") == "linux"  # its fonts have half blocks, and no Braille
_HALVES = " ▀▄█"
_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
ACROSS, DOWN = 2, 4


class Canvas:
    """A sheet of `columns` by `rows` cells. Points are in dots from the lower left corner."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = max(1, columns), max(1, rows)
        self._cells = [[0] * self.columns for _ in range(self.rows)]
        self._letters: dict[tuple[int, int], tuple[str, str]] = {}

    @property
    def width(self) -> int:
        """Dots across."""
        return self.columns * ACROSS

    @property
    def height(self) -> int:
        """Dots up."""
        return self.rows * DOWN

    def dot(self, x: float, y: float) -> None:
        """One dot; outside the sheet nothing happens."""
        across, up = round(x), self.height - 1 - round(y)
        if 0 <= across < self.width and 0 <= up < self.height:
            self._cells[up // DOWN][across // ACROSS] |= _DOTS[up % DOWN][across % ACROSS]

    def line(self, x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False) -> None:
        """A straight line; a dashed one has gaps."""
        steps = max(1, round(max(abs(x2 - x1), abs(y2 - y1))))
        for step in range(steps + 1):
            if not dashed or step % 4 < 2:
                self.dot(x1 + (x2 - x1) * step / steps, y1 + (y2 - y1) * step / steps)

    def outline(self, points: Iterable[tuple[float, float]], *, dashed: bool = False) -> None:
        """A closed line through these points."""
        corners = list(points)
        for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
            self.line(x1, y1, x2, y2, dashed=dashed)

    def fill(self, points: Iterable[tuple[float, float]]) -> None:
        """Fill what these corners enclose (even-odd rule, dot by dot)."""
        corners = list(points)
        edges = list(zip(corners, [*corners[1:], corners[0]], strict=True))
        for up in range(self.height):
            crossings = sorted(
                x1 + (up - y1) * (x2 - x1) / (y2 - y1) for (x1, y1), (x2, y2) in edges if (y1 <= up) != (y2 <= up)
            )
            for left, right in zip(crossings[::2], crossings[1::2], strict=False):
                for across in range(round(left), round(right) + 1):
                    self.dot(across, up)

    def write(self, x: float, y: float, text: str, style: str = "", *, align: str = "middle") -> bool:
        """Figures over the lines at a point, kept inside the sheet; False where others stand there already."""
        row = min(max(self.rows - 1 - round(y) // DOWN, 0), self.rows - 1)
        start = round(x) // ACROSS - {"left": 0, "middle": len(text) // 2, "right": len(text)}[align]
        start = min(max(start, 0), max(self.columns - len(text), 0))
        cells = [(row, start + index) for index in range(len(text))]
        around = [*cells, (row, start - 1), (row, start + len(text))]
        if any(cell in self._letters for cell in around) or len(text) > self.columns:
            return False
        for cell, letter in zip(cells, text, strict=True):
            self._letters[cell] = (letter, style)
        return True

    def lines(self) -> list[Content]:
        """The rows from the top, empty ones above the drawing left out."""
        used = [row for row in range(self.rows) if any(self._cells[row]) or any(at[0] == row for at in self._letters)]
        return [Content.assemble(*self._row(row)) for row in range(used[0] if used else 0, self.rows)]

    def _row(self, row: int) -> Iterable[tuple[str, str]]:
        for column in range(self.columns):
            if (letter := self._letters.get((row, column))) is not None:
                yield letter
            else:
                yield (_letter(self._cells[row][column]), "")


def _letter(bits: int, coarse: bool = _COARSE) -> str:
    """The letter with these dots set: Braille, or the halves that have a dot where the terminal knows no more."""
    if coarse:
        upper, lower = bits & 0x1B, bits & 0xE4
        return _HALVES[bool(upper) + 2 * bool(lower)]
    return chr(0x2800 + bits) if bits else " "


class Scale:
    """Inches to dots: the whole of a width and height fits a canvas, its margins in cells left free."""

    def __init__(
        self,
        canvas: Canvas,
        width: float,
        height: float,
        *,
        left: int = 0,
        right: int = 0,
        above: int = 0,
        below: int = 0,
    ) -> None:
        across = canvas.width - 1 - (left + right) * ACROSS
        up = canvas.height - 1 - (above + below) * DOWN
        self.each = max(min(across / width if width else 1.0, up / height if height else 1.0), 0.001)
        self._x0 = left * ACROSS + max(0.0, (across - width * self.each) / 2)
        self._y0 = below * DOWN

    def x(self, inches: float) -> float:
        """Dots from the left."""
        return self._x0 + inches * self.each

    def y(self, inches: float) -> float:
        """Dots from the bottom."""
        return self._y0 + inches * self.each

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Both."""
        return self.x(x), self.y(y)
