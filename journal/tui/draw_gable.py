"""A gable to scale, seen from outside, its boards numbered as in the cut list and the piece in hand filled. Pure."""

from __future__ import annotations

from fractions import Fraction

from textual.content import Content

from journal.lengths import INCH
from journal.quantities.base import show_length
from journal.quantities.book import Book
from journal.quantities.cut_pieces import CutPiece
from journal.quantities.cuts import CutList
from journal.quantities.gable import gable
from journal.quantities.layout import Course, Piece, Profile
from journal.tui.canvas import DOWN, Canvas, Scale

_FIGURE = "bold"
_LEAST_DOTS = 3  # boards narrower than this on the sheet are not drawn apart


def draw_gable(
    book: Book, place: str, columns: int, rows: int, *, cuts: CutList | None = None, in_hand: str | None = None
) -> list[Content] | None:
    """The gable, None as long as its outline is not known. Pieces that are cut or measured are filled lightly."""
    profile = (cuts.gable if cuts is not None and cuts.gable is not None else gable(book, place)).profile
    if profile is None or profile.base <= 0 or profile.top <= 0:
        return None
    canvas = Canvas(columns, rows)
    base, top = float(profile.base), float(profile.top)
    scale = Scale(canvas, base, top, left=1, right=1, above=1, below=3)
    canvas.outline([scale.point(x, y) for x, y in _corners(profile)])
    pieces = cuts.pieces if cuts is not None else ()
    chosen = next((piece for piece in pieces if piece.label == in_hand), None)
    for piece in pieces:
        _draw_piece(canvas, scale, piece, filled=piece is chosen)
    _draw_holes(canvas, scale, book, place, profile)
    _number(canvas, scale, pieces, in_hand)
    canvas.write(scale.x(base / 2), 0, f"{show_length(profile.base)} base", _FIGURE)
    canvas.write(scale.x(float(profile.peak)), scale.y(top) + DOWN, f"{show_length(profile.rise)} rise", _FIGURE)
    if chosen is not None:
        points = f"{show_length(Fraction(chosen.long_point, INCH))} long point"
        canvas.write(0, scale.y(top) + DOWN, f"{chosen.label}: {points}", _FIGURE, align="left")
    return canvas.lines()


def _corners(profile: Profile) -> list[tuple[float, float]]:
    base, peak, heel, top = (float(v) for v in (profile.base, profile.peak, profile.heel, profile.top))
    upper = [(base, heel), (peak, top), (0.0, heel)] if heel else [(peak, top)]
    return [(0.0, 0.0), (base, 0.0), *upper]


def _draw_piece(canvas: Canvas, scale: Scale, piece: CutPiece, *, filled: bool) -> None:
    corners = piece_corners(piece)
    across = max(x for x, _ in corners) - min(x for x, _ in corners)
    points = [scale.point(x, y) for x, y in corners]
    if filled:
        canvas.fill(points)
    elif across * scale.each >= _LEAST_DOTS:
        canvas.outline(points)


def piece_corners(piece: CutPiece) -> list[tuple[float, float]]:
    """The corners of a piece on the gable, in inches from its lower left corner."""
    shape = piece.shape
    if isinstance(shape, Piece):
        bottom = float(shape.bottom)
        over = [(float(x), bottom + float(y)) for x, y in reversed(shape.top)]
        return [(float(shape.left), bottom), (float(shape.right), bottom), *over]
    return _course_corners(shape)


def _course_corners(course: Course) -> list[tuple[float, float]]:
    left, right = float(course.left), float(course.left + course.lower)
    inset = float(course.lower - course.upper) / (1 if course.part in ("left", "right") else 2)
    low, high = float(course.bottom), float(course.top)
    over_left = left + (inset if course.part != "right" else 0.0)
    over_right = right - (inset if course.part != "left" else 0.0)
    return [(left, low), (right, low), (over_right, high), (over_left, high)]


def _draw_holes(canvas: Canvas, scale: Scale, book: Book, place: str, profile: Profile) -> None:
    for opening in gable(book, place).openings.known:
        edge = opening.left_edge(profile.base)
        if edge is None or opening.width is None or opening.height is None or opening.bottom is None:
            continue
        left, right = float(edge), float(edge + opening.width)
        low, high = float(opening.bottom), float(opening.bottom + opening.height)
        canvas.outline([scale.point(x, y) for x, y in ((left, low), (right, low), (right, high), (left, high))])
        size = f"{show_length(opening.width)}×{show_length(opening.height)}".replace('"', "")
        middle = scale.x((left + right) / 2)
        canvas.write(middle, scale.y((low + high) / 2), size, _FIGURE)
        canvas.write(middle, scale.y((low + high) / 2) + DOWN, opening.name)


def _number(canvas: Canvas, scale: Scale, pieces: tuple[CutPiece, ...], in_hand: str | None) -> None:
    """Board numbers under the base, on two rows where one is too tight, those in hand and every fifth first."""
    seen: dict[str, tuple[float, str, bool]] = {}
    for piece in pieces:
        if isinstance(piece.shape, Piece):
            name = piece.piece.split(" ")[0]
            middle = float(piece.shape.left + piece.shape.right) / 2
            held = in_hand == piece.label or seen.get(f"{piece.side}{name}", (0.0, "", False))[2]
            short = {"centre": "c"}.get(name, name)
            seen[f"{piece.side}{name}"] = (middle, f"{piece.side if held else ''}{short}", held)
    order = sorted(seen.values(), key=lambda one: (not one[2], not (one[1].isdigit() and int(one[1]) % 5 == 0)))
    for middle, name, held in order:
        style = "bold reverse" if held else ""
        if not canvas.write(scale.x(middle), 2 * DOWN, name, style):
            canvas.write(scale.x(middle), DOWN, name, style)
