"""A wall to scale, seen from outside, with its openings and their figures. Pure."""

from __future__ import annotations

from fractions import Fraction

from textual.content import Content

from journal.quantities.base import show_length
from journal.quantities.book import Book
from journal.quantities.openings import Opening, openings
from journal.quantities.wall import is_wall, wall_height
from journal.tui.canvas import DOWN, Canvas, Scale

_FIGURE = "bold"


def draw_wall(book: Book, place: str, columns: int, rows: int) -> list[Content] | None:
    """The wall, None where it is none or its length and height are not known. What was not placed is dashed, with a ``?``."""
    if not is_wall(book, place):
        return None
    length, (height, _) = book.newest(place, None, "length"), wall_height(book, place)
    if length is None or height is None or length.value <= 0 or height.value <= 0:
        return None
    canvas = Canvas(columns, rows)
    wide, tall = float(length.value), float(height.value)
    scale = Scale(canvas, wide, tall, left=len(height.shown) + 1, right=1, below=1)
    canvas.outline([scale.point(0, 0), scale.point(wide, 0), scale.point(wide, tall), scale.point(0, tall)])
    canvas.write(scale.x(wide / 2), 0, length.shown, _FIGURE)
    canvas.write(scale.x(0) - 2, scale.y(tall / 2), height.shown, _FIGURE, align="right")
    known = openings(book, place).known
    loose = [one for one in known if one.left_edge(length.value) is None]
    for opening in known:
        _draw_opening(canvas, scale, opening, wide, tall, loose)
    return canvas.lines()


def _draw_opening(
    canvas: Canvas, scale: Scale, opening: Opening, wide: float, tall: float, loose: list[Opening]
) -> None:
    if opening.width is None or opening.height is None:
        return
    edge = opening.left_edge(Fraction(wide))
    placed = edge is not None
    if edge is None:  # spread out what nobody has placed, so that it can be seen
        at = loose.index(opening) + 1
        edge = Fraction(wide) * at / (len(loose) + 1) - opening.width / 2
    left, width, high = float(edge), float(opening.width), float(opening.height)
    bottom = float(opening.bottom) if opening.bottom is not None else max(0.0, min(tall / 3, tall - high))
    sure = placed and opening.bottom is not None
    corners = [(left, bottom), (left + width, bottom), (left + width, bottom + high), (left, bottom + high)]
    canvas.outline([scale.point(x, y) for x, y in corners], dashed=not sure)
    middle, level = scale.x(left + width / 2), scale.y(bottom + high / 2)
    mark = "" if sure else " ?"
    size = f"{show_length(opening.width)}×{show_length(opening.height)}".replace('"', "")
    room = width * scale.each / 2
    if not canvas.write(middle, level, f"{opening.name}{mark}" if len(opening.name) <= room * 2 else opening.name[:1]):
        return
    canvas.write(middle, level - DOWN, size, _FIGURE)
