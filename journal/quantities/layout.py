"""Boards and sheets on a gable, as geometry: where each piece stands, its points, its notches and its splices.

All in exact inches, x from the left corner seen from outside, y up from the plate. Knows nothing of memos or rounding.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import Literal

Start = Literal["centred", "seam", "left", "right"]
Side = Literal["L", "R", ""]
_NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class Profile:
    """The outline of a gable: base, height at the ends (heel), rise of the peak above that, and where the peak stands."""

    base: Fraction
    rise: Fraction
    peak: Fraction
    heel: Fraction = _NOTHING

    def height(self, x: Fraction) -> Fraction:
        """H(x) = heel + rise * (share of the way from the corner to the peak); 0 outside the base."""
        if x < 0 or x > self.base:
            return _NOTHING
        above = x * self.rise / self.peak if x <= self.peak else (self.base - x) * self.rise / (self.base - self.peak)
        return self.heel + above if self.heel else above

    def width(self, y: Fraction) -> tuple[Fraction, Fraction]:
        """The left and right end, as x, of a level line at height y. At and above the peak both are the peak."""
        share = max(_NOTHING, min(Fraction(1), (y - self.heel) / self.rise)) if self.rise else _NOTHING
        return self.peak * share, self.base - (self.base - self.peak) * share

    @property
    def top(self) -> Fraction:
        """Height of the peak above the plate."""
        return self.heel + self.rise

    @property
    def area(self) -> Fraction:
        """Square inches of the triangle and of the band below it: base * rise / 2 + base * heel."""
        return self.base * self.rise / 2 + self.base * self.heel


@dataclass(frozen=True, slots=True)
class Hole:
    """An opening in a gable, trim gap included."""

    left: Fraction
    right: Fraction
    bottom: Fraction
    top: Fraction

    def fits(self, gable: Profile) -> bool:
        """Whether it lies inside the outline."""
        inside = self.left >= 0 and self.right <= gable.base and self.bottom >= 0
        return inside and self.top <= min(gable.height(self.left), gable.height(self.right))


@dataclass(frozen=True, slots=True)
class Notch:
    """What is cut out of one piece: its width, where it starts and stops along the piece, and how far in from its left edge."""

    width: Fraction
    start: Fraction
    stop: Fraction
    offset: Fraction


Edge = tuple[tuple[Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece to cut. `top` is its upper edge as points (x, inches above its own bottom) from left to right.

    `part` is "", "below", "above", "lower", "upper" (and so on up) where a board is in several pieces; `square` tells that
    its top is cut level by an opening or a splice.
    """

    board: str
    side: Side
    bottom: Fraction
    top: Edge
    notches: tuple[Notch, ...] = ()
    part: str = ""
    square: bool = False

    @property
    def left(self) -> Fraction:
        """X of its left edge."""
        return self.top[0][0]

    @property
    def right(self) -> Fraction:
        """X of its right edge."""
        return self.top[-1][0]

    @property
    def ends(self) -> tuple[Fraction, Fraction]:
        """The lengths of its left and right edge."""
        return self.top[0][1], self.top[-1][1]

    @property
    def under_peak(self) -> bool:
        """Whether it rises to a point between its edges: it then has two short points."""
        return self.long_point > max(self.ends)

    @property
    def width(self) -> Fraction:
        """The face that shows, ripped where the base ends."""
        return self.right - self.left

    @property
    def long_point(self) -> Fraction:
        """The longest edge, or the peak of a piece under the ridge."""
        return max(y for _, y in self.top)

    @property
    def short_point(self) -> Fraction:
        """The shorter edge."""
        return min(self.ends)

    @property
    def name(self) -> str:
        """``3``, ``1 above``, ``centre below``."""
        return f"{self.board} {self.part}".strip()

    @property
    def area(self) -> Fraction:
        """Square inches, notches out."""
        whole = sum(((x2 - x1) * (y1 + y2) / 2 for (x1, y1), (x2, y2) in pairwise(self.top)), _NOTHING)
        return whole - sum((n.width * (n.stop - n.start) for n in self.notches), _NOTHING)


def boards(
    gable: Profile, face: Fraction, gap: Fraction, start: Start
) -> Iterator[tuple[str, Side, Fraction, Fraction]]:
    """The name, side and edges (x) of each board, from the centre outwards or from one end across.

    Stepped from the exact edge, never from a rounded length. ValueError for a face that is no width.
    """
    if face <= 0 or gap < 0:
        raise ValueError("a board needs a face width above zero and a gap that is not negative")
    step = face + gap
    if start in ("left", "right"):
        for k in range(ceil(gable.base / step)):
            near, far = k * step, min(k * step + face, gable.base)
            left, right = (near, far) if start == "left" else (gable.base - far, gable.base - near)
            yield str(k + 1), "L" if (left + right) / 2 <= gable.peak else "R", left, right
        return
    first = gap / 2
    if start == "centred":
        yield "centre", "", max(_NOTHING, gable.peak - face / 2), min(gable.base, gable.peak + face / 2)
        first = face / 2 + gap
    for side, room in (("L", gable.peak), ("R", gable.base - gable.peak)):
        for k in range(max(0, ceil((room - first) / step))):
            near, far = first + k * step, min(first + k * step + face, room)
            if side == "L":
                yield str(k + 1), "L", gable.peak - far, gable.peak - near
            else:
                yield str(k + 1), "R", gable.peak + near, gable.peak + far


def vertical(
    gable: Profile,
    face: Fraction,
    *,
    gap: Fraction = _NOTHING,
    start: Start = "centred",
    holes: Iterable[Hole] = (),
    limit: Fraction | None = None,
    least: Fraction = Fraction(12),
    stagger: Fraction = Fraction(12),
) -> tuple[Piece, ...]:
    """Every piece of vertical boarding: split or notched at openings, spliced at the sheet limit, ripped at the base end.

    Long point = H at the edge nearer the peak, short point = H at the other. A board wholly within an opening's width is
    in two pieces, one partly within it is notched. A piece longer than `limit` is spliced: a full sheet below and the rest
    above, the top one at least `least`; equal splices on neighbours are staggered by `stagger`.
    """
    standing = sorted(holes, key=lambda hole: hole.bottom)
    pieces: list[Piece] = []
    for name, side, left, right in boards(gable, face, gap, start):
        pieces.extend(_board(gable, name, side, left, right, standing))
    return tuple(_spliced(pieces, limit, least, stagger)) if limit is not None else tuple(pieces)


def _board(
    gable: Profile, name: str, side: Side, left: Fraction, right: Fraction, holes: list[Hole]
) -> Iterator[Piece]:
    across = [h for h in holes if h.left <= left and h.right >= right]
    notched = [h for h in holes if h not in across and h.left < right and h.right > left]
    cuts = [(_NOTHING, None), *((h.top, h) for h in across)]
    for index, (bottom, _) in enumerate(cuts):
        above = cuts[index + 1][1] if index + 1 < len(cuts) else None
        part = "" if not across else "above" if above is None else "below" if index == 0 else f"between {index}"
        if above is not None:
            if above.bottom > bottom:
                run = above.bottom - bottom
                inside = _notches(notched, left, right, bottom, above.bottom)
                yield Piece(name, side, bottom, ((left, run), (right, run)), inside, part, square=True)
            continue
        corners = [left, *((gable.peak,) if left < gable.peak < right else ()), right]
        top = tuple((x, gable.height(x) - bottom) for x in corners)
        if max(y for _, y in top) > 0:
            yield Piece(name, side, bottom, top, _notches(notched, left, right, bottom, gable.top), part)


def _notches(
    holes: Iterable[Hole], left: Fraction, right: Fraction, bottom: Fraction, top: Fraction
) -> tuple[Notch, ...]:
    found = []
    for hole in holes:
        start, stop = max(hole.bottom, bottom), min(hole.top, top)
        near, far = max(hole.left, left), min(hole.right, right)
        if stop > start and far > near:
            found.append(Notch(far - near, start - bottom, stop - bottom, near - left))
    return tuple(found)


def _spliced(pieces: Iterable[Piece], limit: Fraction, least: Fraction, stagger: Fraction) -> Iterator[Piece]:
    before: dict[Side, Fraction] = {}
    for piece in pieces:
        if piece.long_point <= limit:
            yield piece
            continue
        rest, lowers = piece, 0
        while rest.long_point > limit:
            lower = min(limit, rest.long_point - least) if rest.long_point - limit < least else limit
            shorter = lower - stagger
            if lowers == 0 and before.get(piece.side) == lower and shorter > 0 and rest.long_point - shorter <= limit:
                lower = shorter
            if lowers == 0:
                before[piece.side] = lower
            lowers += 1
            low, rest = _cut_across(rest, lower)
            yield replace(low, part=f"{piece.part} lower{'' if lowers == 1 else f' {lowers}'}".strip())
        yield replace(rest, part=f"{piece.part} upper".strip())


def _cut_across(piece: Piece, at: Fraction) -> tuple[Piece, Piece]:
    """The pieces below and above a level cut `at` inches above the bottom of a piece that is longer than that."""
    crossed = [piece.top[0]]
    for (x1, y1), (x2, y2) in pairwise(piece.top):
        if min(y1, y2) < at < max(y1, y2):
            crossed.append((x1 + (x2 - x1) * (at - y1) / (y2 - y1), at))
        crossed.append((x2, y2))
    low = tuple(Notch(n.width, n.start, min(n.stop, at), n.offset) for n in piece.notches if n.start < at)
    under = tuple((x, min(y, at)) for x, y in crossed)
    lower = replace(piece, top=under, notches=low, square=all(y == at for _, y in under))
    over = tuple((x, y - at) for x, y in crossed if y >= at)
    moved = over[0][0] - piece.left
    high = tuple(
        Notch(n.width, max(n.start, at) - at, n.stop - at, n.offset - moved) for n in piece.notches if n.stop > at
    )
    return lower, replace(piece, bottom=piece.bottom + at, top=over, notches=high)


# ---- horizontal courses ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Course:
    """One piece of a level course: its lower and upper edge lengths (the long point is at the lower edge) and its notch."""

    number: int
    part: str
    bottom: Fraction
    top: Fraction
    lower: Fraction
    upper: Fraction
    left: Fraction
    notches: tuple[Notch, ...] = ()


def courses_up(height: Fraction, exposure: Fraction, first: Fraction | None = None) -> int:
    """How many courses cover a height: ceil((height - first) / exposure) + 1. ValueError for an exposure of no width."""
    if exposure <= 0:
        raise ValueError("a course needs an exposure above zero")
    start = exposure if first is None else first
    return 1 if height <= start else ceil((height - start) / exposure) + 1


def horizontal(
    gable: Profile, exposure: Fraction, *, first: Fraction | None = None, holes: Iterable[Hole] = ()
) -> tuple[Course, ...]:
    """Level courses up a gable: length at height y = width of the outline there, long point at the lower edge.

    A course wholly within an opening's height is in two pieces, one partly within it is notched.
    """
    standing = tuple(holes)
    pieces: list[Course] = []
    for k in range(courses_up(gable.top, exposure, first)):
        start = _NOTHING if k == 0 else (exposure if first is None else first) + (k - 1) * exposure
        top = min(gable.top, (exposure if first is None else first) + k * exposure)
        (low_left, low_right), (up_left, up_right) = gable.width(start), gable.width(top)
        cuts = sorted((h for h in standing if h.bottom <= start and h.top >= top), key=lambda h: h.left)
        lefts = [(low_left, up_left), *((h.right, h.right) for h in cuts)]
        rights = [*((h.left, h.left) for h in cuts), (low_right, up_right)]
        for index, ((a, b), (c, d)) in enumerate(zip(lefts, rights, strict=True)):
            part = "" if not cuts else "left" if index == 0 else "right" if index == len(cuts) else f"between {index}"
            notches = tuple(
                Notch(min(h.right, c) - max(h.left, a), max(h.bottom, start) - start, min(h.top, top) - start, max(h.left, a) - a)
                for h in standing
                if h not in cuts and h.bottom < top and h.top > start and h.left < c and h.right > a
            )  # fmt: skip
            if c > a:
                pieces.append(Course(k + 1, part, start, top, c - a, max(_NOTHING, d - b), a, notches))
    return tuple(pieces)
