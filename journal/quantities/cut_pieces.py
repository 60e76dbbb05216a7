"""The pieces of a cut list as printed, and which of them were said to be cut or measured."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import isfinite
from typing import Literal

from journal.lengths import INCH
from journal.quantities.base import SIXTEENTH, Book, Disagreement, Figure, show_length
from journal.quantities.gable import Gable
from journal.quantities.layout import Course, Notch, Piece
from journal.records import Filed, Stock, Task

State = Literal["open", "cut", "measured"]
_BOARD = re.compile(r"\b(?:board|sheet|course|piece)s? (\d+|centre|center)\b|\b(centre|center) (?:board|sheet)\b")
_PART = re.compile(r"\b(?:below|above|lower|upper|between \d+)\b")
_NEAR = Fraction(1, 16)
# a length further off than this was misheard or is another board's: it is told and changes no piece
_MISHEARD = Fraction(2)


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece of the list. Lengths are ticks as printed, to 1/16; `pack_ticks` is what a plan must find for it.

    `long_point` of a piece that was cut or measured is the length said of it. `shape` is its exact geometry for a drawing.
    """

    piece: str
    side: str
    long_point: int
    short_point: int
    width: int
    pack_ticks: int
    shape: Piece | Course
    notches: tuple[Notch, ...] = ()
    ripped: bool = False
    under_peak: bool = False
    state: State = "open"
    memos: tuple[int, ...] = ()

    @property
    def label(self) -> str:
        """``L3``, ``centre above``, ``R1 below``."""
        return f"{self.side}{self.piece}"


def as_said(
    book: Book, place: str, pieces: tuple[CutPiece, ...], found: Gable
) -> tuple[tuple[CutPiece, ...], list[Disagreement]]:
    """The pieces with those marked that were said to be cut or measured, and where a said length is off by over 1/16."""
    listed = list(pieces)
    told: list[Disagreement] = []
    for (about, dimension), figure in book.figures(place).items():
        if dimension not in ("long point", "short point") or about is None or not (named := _named(about)):
            continue
        matches = [i for i, p in enumerate(listed) if _matches(p, *named)]
        if not matches:
            shown = f"{place} has no {about} (memo {figure.filed.memo}): its cut list goes to {listed[-1].label}."
            told.append(Disagreement(name="cut list", place=place, shown=shown, memos=figure.memos))
            continue
        index = min(matches, key=lambda i: abs(_worked(listed[i], dimension) - figure.value))
        worked = _worked(pieces[index], dimension)
        if len({listed[i].side for i in matches}) > 1:
            shown = f'{place} {about} (memo {figure.filed.memo}): on the left or on the right? Say: "{about} left …"'
            told.append(Disagreement(name="cut list", place=place, shown=shown, memos=figure.memos))
        elif abs(worked - figure.value) <= _MISHEARD:
            piece = replace(listed[index], state="measured", memos=tuple(sorted({*listed[index].memos, *figure.memos})))
            ticks = int(figure.value * INCH)
            listed[index] = (
                replace(piece, long_point=ticks) if dimension == "long point" else replace(piece, short_point=ticks)
            )
        if abs(worked - figure.value) > _NEAR:
            told.append(_off(place, f"{about} {dimension}", figure.shown, worked, figure.filed.memo, figure, found))
    for index, memo in _done(book, place, listed):
        listed[index] = replace(listed[index], state="cut", memos=tuple(sorted({*listed[index].memos, memo})))
    for filed in book.at(place, Stock):
        told.extend(_cut_stock(place, filed, listed))
    return tuple(listed), told


def _worked(piece: CutPiece, dimension: str) -> Fraction:
    shape = piece.shape
    if isinstance(shape, Piece):
        return shape.long_point if dimension == "long point" else shape.short_point
    return shape.lower if dimension == "long point" else shape.upper


def _named(text: str) -> tuple[str, str, str] | None:
    """The board, side and part that words name: ("3", "L", ""), ("centre", "", "above")."""
    if (match := _BOARD.search(text.casefold())) is None:
        return None
    words = set(text.casefold().split())
    board = (match[1] or match[2]).replace("center", "centre")
    side = "L" if "left" in words else "R" if "right" in words else ""
    part = _PART.search(text.casefold())
    return board, side, part[0] if part else ""


def _matches(piece: CutPiece, board: str, side: str, part: str) -> bool:
    name, _, rest = piece.piece.partition(" ")
    # a course that an opening splits has no side of the gable: its part is the left or the right of the opening
    beside = {"L": " left ", "R": " right "}.get(side, " ")
    on_side = side in ("", piece.side) or beside in f" {rest} "
    return name == board and on_side and (not part or f" {part} " in f" {rest} ")


def _done(book: Book, place: str, pieces: list[CutPiece]) -> Iterator[tuple[int, int]]:
    """The pieces that a done task says were cut ("cut board three left"), each with its memo."""
    for filed in book.at(place, Task):
        task = filed.fact
        if task.status != "done" or not task.do.startswith("cut ") or (named := _named(task.do)) is None:
            continue
        matches = [i for i, p in enumerate(pieces) if _matches(p, *named)]
        if len({pieces[i].side for i in matches}) == 1:
            yield from ((i, filed.memo) for i in matches)


def _cut_stock(place: str, filed: Filed[Stock], pieces: list[CutPiece]) -> Iterator[Disagreement]:
    """Marks as many open pieces of the length that was said to be cut; a length that fits none is told."""
    stock = filed.fact
    count = stock.count or 0
    if stock.event != "cut" or count <= 0 or not isfinite(count) or stock.length_ticks is None:
        return
    fitting = [
        i for i, p in enumerate(pieces) if p.state == "open" and abs(p.long_point - stock.length_ticks) <= SIXTEENTH
    ]
    for index in fitting[: int(count)]:
        memos = tuple(sorted({*pieces[index].memos, filed.memo}))
        pieces[index] = replace(pieces[index], state="cut", long_point=stock.length_ticks, memos=memos)
    if len(fitting) < count:
        said = show_length(Fraction(stock.length_ticks, INCH))
        shown = f"memo {filed.memo}: {count:g} cut at {said}, but {len(fitting)} open pieces of {place} are that long."
        yield Disagreement(name="cut list", place=place, shown=shown, memos=(filed.memo,))


def _off(place: str, what: str, said: str, worked: Fraction, memo: int, figure: Figure, found: Gable) -> Disagreement:
    off = show_length(abs(worked - figure.value))
    way = "short" if figure.value < worked else "long"
    changed = [
        one for one in found.basis if isinstance(one, Figure) and one.was and one.filed.said_at > figure.filed.said_at
    ]
    since = f"; {place} was measured again after that (memo {changed[0].filed.memo})" if changed else ""
    shown = f"{place} {what} {said} (memo {memo}) is {off} {way}: worked out it is {show_length(worked)}{since}."
    return Disagreement(name="cut list", place=place, shown=shown, memos=(memo,))
