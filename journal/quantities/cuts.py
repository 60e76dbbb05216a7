"""The cut list of a gable: its pieces as printed, with what was already cut or measured of them.

The geometry is in `layout`; which boards of the lot they come from is the cutting plan's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from journal.lengths import INCH, Rounding, format_inches, round_ticks
from journal.quantities.base import (
    SIXTEENTH,
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    assumption,
    number,
    quantity,
    show_length,
)
from journal.quantities.book import once
from journal.quantities.covering import face_of, holes_of, limit_of
from journal.quantities.cut_pieces import CutPiece, as_said
from journal.quantities.gable import Gable, gable, is_gable
from journal.quantities.layout import Course, Notch, Piece, Start, horizontal, vertical

assumption("board gap", "in", "0", "boards touch until a gap is said", low="0", high="4")
assumption("board start", "choice", "centred", "a board on the centre line until another start is said",
           choices=("centred", "seam", "left", "right"))  # fmt: skip
assumption("boards run", "choice", "vertical", "boards stand upright until said", choices=("vertical", "horizontal"))
assumption("seen from", "choice", "outside", "left and right are as seen from outside until set for the job",
           choices=("outside", "inside"))  # fmt: skip
assumption("least splice", "in", "12", "shortest top piece of a spliced board (common practice)", low="1", high="48")
assumption(
    "splice stagger", "in", "12", "splices of neighbours are set off by this (common practice)", low="0", high="48"
)


@dataclass(frozen=True, slots=True)
class CutList:
    """The pieces of a place with what they rest on, what is missing and what disagrees."""

    place: str
    pieces: tuple[CutPiece, ...] = ()
    basis: tuple[Basis, ...] = ()
    gable: Gable | None = None
    face: Fraction | None = None
    missing: tuple[Missing, ...] = ()
    disagree: tuple[Disagreement, ...] = ()
    horizontal: bool = False

    @property
    def assumed(self) -> tuple[str, ...]:
        """What is printed beside the list as taken for granted."""
        return tuple(dict.fromkeys(line for one in self.basis for line in one.assumed))

    @property
    def open(self) -> tuple[CutPiece, ...]:
        """The pieces still to cut, longest first."""
        return tuple(sorted((p for p in self.pieces if p.state == "open"), key=lambda p: -p.long_point))


@once
def cut_list(book: Book, place: str) -> CutList:
    """The pieces that board a gable, as far as its facts allow."""
    found = gable(book, place)
    if found.profile is None:
        return CutList(place, gable=found, missing=found.missing, disagree=found.nonsense)
    face = face_of(book, place)
    holes, missing, disagree = holes_of(book, found)
    if isinstance(face, Missing):
        missing = (face, *missing)
    elif isinstance(face, Disagreement):
        disagree = (face, *disagree)
    if missing or disagree or isinstance(face, Missing | Disagreement):
        return CutList(place, gable=found, missing=missing, disagree=disagree)
    if face.value <= 0 or face.value >= found.profile.base:
        memos = tuple(sorted({*face.memos, *(memo for one in found.basis for memo in one.memos)}))
        named = f"memo {face.memos[0]}" if face.memos else "set for it"
        shown = f"boards {show_length(face.value)} wide ({named}) do not go on {place}, base width {show_length(found.profile.base)}."
        return CutList(
            place, gable=found, disagree=(Disagreement(name="cut list", place=place, shown=shown, memos=memos),)
        )
    gap, start, run = (book.assume(name, place) for name in ("board gap", "board start", "boards run"))
    trim = book.assume("trim gap", place)
    basis: list[Basis] = [*found.basis, face, gap]
    if isinstance(face, Figure) and face.filed.fact.place != place:
        said = f"boards are the {face.filed.fact.about}, {face.shown} (memo {face.filed.memo})"
        basis.append(Source(assumed=(said,)))
    basis += [one for o in found.openings.known for one in (*o.figures, o.sill, o.centre_figure) if one is not None]
    if holes:
        basis.append(trim)
    limit = limit_of(book, place, face)
    least, stagger = book.assume("least splice", place), book.assume("splice stagger", place)
    spliced = isinstance(limit, Figure) or limit.amount is not None
    pieces: tuple[CutPiece, ...]
    if run.word == "horizontal":
        basis.append(run)
        memos = _memos(basis)
        exposure = face.value + gap.value
        pieces = tuple(
            _of_course(course, exposure, memos) for course in horizontal(found.profile, exposure, holes=holes)
        )
    else:
        basis += [start, book.assume("seen from", place)]
        if spliced:
            basis += [limit, least, stagger]
        memos = _memos(basis)
        laid = vertical(
            found.profile,
            face.value,
            gap=gap.value,
            start=cast(Start, start.word),
            holes=holes,
            limit=limit.value if spliced else None,
            least=least.value,
            stagger=stagger.value,
        )
        pieces = tuple(_of_piece(piece, face.value, memos) for piece in laid)
    pieces, told = as_said(book, place, pieces, found)
    return CutList(place, pieces, tuple(basis), found, face.value, (), tuple(told), run.word == "horizontal")


def to_json(piece: CutPiece) -> dict[str, object]:
    """A piece as the object that `cuts --json` gives; lengths in inches as text."""
    return {
        "piece": piece.piece,
        "side": piece.side,
        "long_point": format_inches(piece.long_point),
        "short_point": format_inches(piece.short_point),
        "width": format_inches(piece.width),
        "notch": show_notches(piece.notches) or None,
        "state": piece.state,
        "memos": list(piece.memos),
        "ticks": piece.long_point,
        "pack_ticks": piece.pack_ticks,
        "ripped": piece.ripped,
        "under_peak": piece.under_peak,
    }


def show_notches(notches: Iterable[Notch]) -> str:
    """Notches as a person reads them: ``1 15/16 x 30 from 14`` (width by height, from the bottom of the piece)."""
    written = []
    for notch in notches:
        width, tall, start = (
            show_length(one).removesuffix('"') for one in (notch.width, notch.stop - notch.start, notch.start)
        )
        written.append(f"{width} x {tall} from {start}")
    return "; ".join(written)


def _memos(basis: Iterable[Basis]) -> tuple[int, ...]:
    return tuple(sorted({memo for one in basis for memo in one.memos}))


def _ticks(inches: Fraction, rounding: Rounding = "nearest") -> int:
    return round_ticks(inches * INCH, to=SIXTEENTH, rounding=rounding)


def _of_piece(piece: Piece, face: Fraction, memos: tuple[int, ...]) -> CutPiece:
    # a piece below a sill or a splice stands between two fixed lines: its length is not rounded up
    long = piece.long_point
    return CutPiece(
        piece.name,
        piece.side,
        _ticks(long),
        _ticks(piece.short_point),
        _ticks(piece.width),
        _ticks(long, "nearest" if piece.square else "up"),
        piece,
        piece.notches,
        ripped=piece.width < face,
        under_peak=piece.under_peak,
        memos=memos,
    )


def _of_course(course: Course, exposure: Fraction, memos: tuple[int, ...]) -> CutPiece:
    tall = course.top - course.bottom
    return CutPiece(
        f"{course.number} {course.part}".strip(),
        "",
        _ticks(course.lower),
        _ticks(course.upper),
        _ticks(tall),
        _ticks(course.lower, "up"),
        course,
        course.notches,
        ripped=tall < exposure,
        memos=memos,
    )


@quantity(
    "cut list",
    needs=("base width", "slope", "face width", "sill and centre of each opening"),
    assumes=("face width", "board gap", "board start", "boards run", "trim gap", "sheet limit", "least splice"),
    caution="Cut one, try it, then cut the rest.",
)
def pieces_to_cut(book: Book, place: str) -> Iterator[Answer]:
    """How many pieces board a gable, and those still open; the pieces themselves are `cut_list`.

    Long point = heel + rise * (1 - |x| / half base) at the edge nearer the peak (geometry of the triangle).
    """
    if not is_gable(book, place):
        return
    listed = cut_list(book, place)
    if listed.gable is None or listed.gable.profile is None:
        return  # the gable area says what is missing
    yield from listed.missing
    yield from listed.disagree
    if listed.pieces:
        left = len(listed.open)
        done = f"{len(listed.pieces) - left} of them cut or measured" if left < len(listed.pieces) else "none cut yet"
        note = f"pieces, {done}; longest {show_length(Fraction(max(p.long_point for p in listed.pieces), INCH))}"
        yield number("pieces to cut", place, len(listed.pieces), "count", *listed.basis, note=note)
