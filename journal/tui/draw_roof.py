"""A roof in section to scale: slope, run, overhang and ridge, with the rafter's line length. Pure."""

from __future__ import annotations

from fractions import Fraction

from textual.content import Content

from journal.quantities.base import show_length
from journal.quantities.book import Book
from journal.quantities.rafter import common_length
from journal.quantities.roof import is_roof, roof
from journal.tui.canvas import DOWN, Canvas, Scale

_FIGURE = "bold"


def draw_roof(book: Book, place: str, columns: int, rows: int) -> list[Content] | None:
    """The section, None as long as run or slope are not known or two slopes differ."""
    if not is_roof(book, place):
        return None
    found = roof(book, place)
    pitch = found.pitches.one
    if found.run is None or pitch is None or found.run <= 0:
        return None
    over = found.overhang.value if found.overhang is not None else Fraction(0)
    run, tail, ratio = float(found.run), float(over), float(pitch.ratio)
    drop = tail * ratio
    one_sided = found.form.word == "ledger"
    wide = run + tail if one_sided else 2 * (run + tail)
    canvas = Canvas(columns, rows)
    scale = Scale(canvas, wide, run * ratio + drop, left=1, right=1, above=1, below=1)
    ridge = (run + tail, drop + run * ratio)
    canvas.line(*scale.point(0, 0), *scale.point(*ridge))
    canvas.line(*scale.point(tail, drop), *scale.point(run + tail, drop), dashed=True)  # level from plate to ridge
    canvas.line(*scale.point(tail, 0), *scale.point(tail, drop))  # the wall under the plate
    if one_sided:
        canvas.line(*scale.point(run + tail, 0), *scale.point(*ridge))
    else:
        canvas.line(*scale.point(*ridge), *scale.point(wide, 0))
        canvas.line(*scale.point(*ridge), *scale.point(run + tail, drop), dashed=True)
        canvas.line(*scale.point(wide - tail, drop), *scale.point(run + tail, drop), dashed=True)
        canvas.line(*scale.point(wide - tail, 0), *scale.point(wide - tail, drop))
    canvas.write(*scale.point(tail + run / 2, 0), f"run {show_length(found.run)}", _FIGURE)
    middle = scale.point(tail + run / 2, drop + run * ratio / 2)
    canvas.write(
        middle[0] - 4, middle[1] + DOWN, show_length(common_length(found.run, pitch.ratio)), _FIGURE, align="right"
    )
    canvas.write(middle[0] + 6, middle[1] - DOWN, pitch.shown, align="left")
    if over:
        canvas.write(*scale.point(tail / 2, 0), f"{show_length(over)}", align="middle")
    canvas.write(scale.x(ridge[0]), scale.y(ridge[1]) + DOWN, f"rise {show_length(found.run * pitch.ratio)}", _FIGURE)
    return canvas.lines()
