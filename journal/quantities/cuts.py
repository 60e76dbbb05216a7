"""The cut list of a gable: its pieces as printed, with what was already cut or measured of them.

The geometry is in `layout`; which boards of the lot they come from is the cutting plan's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, cast

from journal.lengths import INCH, Rounding, format_inches, round_ticks
from journal.quantities.base import (
    SIXTEENTH,
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Taken,
    assumption,
    memo_names,
    number,
    quantity,
    show_length,
)
from journal.quantities.gable import Gable, gable, is_gable, outside
from journal.quantities.layout import Course, Hole, Notch, Piece, Start, horizontal, vertical
from journal.records import Filed, Stock, Task

State = Literal["open", "cut", "measured"]
_SECTION = re.compile(r"^\d+(?:/\d+)?x\d+(?:/\d+)?$")
_COVERING = frozenset(
    {"board", "boards", "siding", "cladding", "sheet", "foam", "plank", "planking", "batten", "face", "cover", "covers"}
)
_BOARD = re.compile(r"\b(?:board|sheet|course|piece)s? (\d+|centre|center)\b|\b(centre|center) (?:board|sheet)\b")
_PARTS = ("below", "above", "lower", "upper")
_NEAR = Fraction(1, 16)

assumption("face width", "in", None, "measured, not nominal: a 1x8 exposes 6 3/4 to 7 by maker", low="1/2", high="60")
assumption("board gap", "in", "0", "boards touch until a gap is said", low="0", high="4")
assumption("board start", "choice", "centred", "a board on the centre line until another start is said",
           choices=("centred", "seam", "left", "right"))  # fmt: skip
assumption("boards run", "choice", "vertical", "boards stand upright until said", choices=("vertical", "horizontal"))
assumption("seen from", "choice", "outside", "left and right are as seen from outside until set for the job",
           choices=("outside", "inside"))  # fmt: skip
assumption(
    "trim gap", "in", "0", "boards go to the rough opening until a gap for trim or flashing is said", low="0", high="6"
)
assumption(
    "sheet limit", "in", None, "the longest piece the sheets or boards give; none until said", low="12", high="480"
)
assumption("least splice", "in", "12", "shortest top piece of a spliced board (common practice)", low="1", high="48")
assumption(
    "splice stagger", "in", "12", "splices of neighbours are set off by this (common practice)", low="0", high="48"
)


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


def cut_list(book: Book, place: str) -> CutList:
    """The pieces that board a gable, as far as its facts allow."""
    found = gable(book, place)
    if found.profile is None:
        return CutList(place, gable=found, missing=found.missing, disagree=found.nonsense)
    face = _face(book, place)
    holes, missing, disagree = _holes(book, found)
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
    basis += [one for o in found.openings.known for one in (*o.figures, o.sill, o.centre_figure) if one is not None]
    if holes:
        basis.append(trim)
    limit, least, stagger = (book.assume(name, place) for name in ("sheet limit", "least splice", "splice stagger"))
    pieces: tuple[CutPiece, ...]
    if run.word == "horizontal":
        basis.append(run)
        exposure = face.value + gap.value
        pieces = tuple(_of_course(c, exposure, _memos(basis)) for c in horizontal(found.profile, exposure, holes=holes))
    else:
        basis += [start, book.assume("seen from", place)]
        if limit.amount is not None:
            basis += [limit, least, stagger]
        laid = vertical(
            found.profile,
            face.value,
            gap=gap.value,
            start=cast(Start, start.word),
            holes=holes,
            limit=limit.value if limit.amount is not None else None,
            least=least.value,
            stagger=stagger.value,
        )
        pieces = tuple(_of_piece(piece, face.value, _memos(basis)) for piece in laid)
    pieces, told = _as_said(book, place, pieces, found)
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
    pack = _ticks(piece.long_point, "nearest" if piece.square else "up")
    return CutPiece(
        piece.name,
        piece.side,
        _ticks(piece.long_point),
        _ticks(piece.short_point),
        _ticks(piece.width),
        pack,
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


# ---- what the list needs -------------------------------------------------------------------------------------------


def _face(book: Book, place: str) -> Figure | Taken | Missing | Disagreement:
    """The face that one board shows: said at the place, set, or said once of the boards that were used there."""
    here = {about: f for about, f in book.of_dimension(place, "width").items() if about and _is_covering(about)}
    if len(here) == 1:
        return next(iter(here.values()))
    taken = book.assume("face width", place)
    if taken.amount is not None:
        return taken
    general = here or {
        about: f for about, f in book.of_dimension(None, "width").items() if about and _is_covering(about)
    }
    if not general:
        say = f'{place} cut list needs the face width of its boards. Say: "the {place} boards cover … wide"'
        return Missing(name="cut list", place=place, about="face width", say=say)
    if len({figure.value for figure in general.values()}) == 1:
        return next(iter(general.values()))
    used = {
        part
        for filed in (*book.at(place, Stock), *(f for name in book.belonging(place) for f in book.at(name, Stock)))
        for part in (filed.fact.section, filed.fact.species)
        if part
    }
    score = {about: len(used & set(about.split())) for about in general}
    best = [about for about in general if score[about] == max(score.values())]
    if len(best) == 1:
        return general[best[0]]
    said = " or ".join(f"{about} {general[about].shown}" for about in best)
    memos = tuple(sorted({memo for about in best for memo in general[about].memos}))
    shown = f'which boards go on {place}: {said}? Say: "the {place} boards cover … wide"'
    return Disagreement(name="cut list", place=place, shown=shown, memos=memos)


def _is_covering(about: str) -> bool:
    words = about.split()
    return any(_SECTION.match(one) for one in words) or bool(_COVERING & set(words))


def _holes(book: Book, found: Gable) -> tuple[tuple[Hole, ...], tuple[Missing, ...], tuple[Disagreement, ...]]:
    """The openings as holes with their trim gap; what is missing to place them; what does not fit."""
    place, profile = found.place, found.profile
    holes: list[Hole] = []
    missing: list[Missing] = []
    disagree: list[Disagreement] = list(found.openings.questions)
    trim = book.assume("trim gap", place).value
    if profile is None:
        return (), (), ()
    for opening in found.openings.known:
        needs = {
            "width": opening.width,
            "height": opening.height,
            "sill": opening.bottom,
            "centre": opening.left_edge(profile.base) if opening.width is not None else opening.centre,
        }
        says = {
            "width": f"{place} {opening.name} rough opening width …",
            "height": f"{place} {opening.name} rough opening height …",
            "sill": f"{place} from the plate to the {opening.name} sill …",
            "centre": f"{place} {opening.name} centre … from the corner",
        }
        lacking = [name for name, value in needs.items() if value is None]
        for name in lacking:
            say = f'{place} cut list needs the {name} of the {opening.name}. Say: "{says[name]}"'
            missing.append(Missing(name="cut list", place=place, about=f"{opening.name} {name}", say=say))
        if (wrong := outside(found, opening)) is not None:
            disagree.append(wrong)
        elif not lacking and opening.width is not None and opening.height is not None:
            left = cast(Fraction, needs["centre"])
            bottom = cast(Fraction, needs["sill"])
            hole = Hole(
                left - trim,
                left + opening.width + trim,
                max(Fraction(0), bottom - trim),
                bottom + opening.height + trim,
            )
            if not hole.fits(profile):
                shown = f"{place} {opening.name} with its trim gap of {show_length(trim)} runs out of the gable ({memo_names(opening.memos)})."
                disagree.append(Disagreement(name="cut list", place=place, shown=shown, memos=opening.memos))
            holes.append(hole)
    return tuple(holes), tuple(missing), tuple(disagree)


# ---- what was cut or measured --------------------------------------------------------------------------------------


def _as_said(
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
        if len({listed[i].side for i in matches}) > 1:
            shown = f'{place} {about} (memo {figure.filed.memo}): on the left or on the right? Say: "{about} left …"'
            told.append(Disagreement(name="cut list", place=place, shown=shown, memos=figure.memos))
        else:
            piece = replace(listed[index], state="measured", memos=tuple(sorted({*listed[index].memos, *figure.memos})))
            ticks = int(figure.value * INCH)
            listed[index] = (
                replace(piece, long_point=ticks) if dimension == "long point" else replace(piece, short_point=ticks)
            )
        worked = _worked(pieces[index], dimension)
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
    return board, side, next((part for part in _PARTS if part in words), "")


def _matches(piece: CutPiece, board: str, side: str, part: str) -> bool:
    name, _, rest = piece.piece.partition(" ")
    return name == board and side in ("", piece.side) and (not part or part in rest)


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
    if stock.event != "cut" or not stock.count or stock.length_ticks is None:
        return
    fitting = [
        i for i, p in enumerate(pieces) if p.state == "open" and abs(p.long_point - stock.length_ticks) <= SIXTEENTH
    ]
    for index in fitting[: int(stock.count)]:
        memos = tuple(sorted({*pieces[index].memos, filed.memo}))
        pieces[index] = replace(pieces[index], state="cut", long_point=stock.length_ticks, memos=memos)
    if len(fitting) < stock.count:
        said = show_length(Fraction(stock.length_ticks, INCH))
        shown = f"memo {filed.memo}: {stock.count:g} cut at {said}, but {len(fitting)} open pieces of {place} are that long."
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
