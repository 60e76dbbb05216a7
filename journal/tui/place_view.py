"""Everything about one place, gathered in a worker: figures, quantities, what is missing, tasks, cut list, assumptions. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from textual.content import Content

from journal.fields import describe
from journal.lengths import INCH
from journal.quantities.assumptions import ASSUMPTIONS
from journal.quantities.base import Answers, Disagreement, Missing, Value, answers, memo_names, show_length
from journal.quantities.book import Book, Figure, Taken, day
from journal.quantities.cut_pieces import CutPiece
from journal.quantities.cuts import CutList, cut_list, show_notches
from journal.quantities.tasks import ToDo, to_do
from journal.records import Fact, Filed
from journal.session import Session
from journal.tui.marks import quiet
from journal.tui.task_rows import task_line

_DOUBTFUL = "bold $text-warning"


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the screen: its id (None: a heading), how it looks, and what is said of it when it is in hand."""

    name: str | None
    shown: Content
    more: tuple[str, ...] = ()
    memos: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PlaceView:
    """A place as the screen shows it."""

    place: str
    book: Book
    answers: Answers
    cuts: CutList
    tasks: tuple[ToDo, ...]
    taken: tuple[Taken, ...]

    def piece(self, name: str) -> CutPiece | None:
        """The piece of a row."""
        return next((piece for piece in self.cuts.pieces if f"piece {piece.label}" == name), None)

    def task(self, name: str) -> ToDo | None:
        """The task of a row."""
        return next((task for task in self.tasks if f"task {task.memo}.{task.fact}" == name), None)

    def assumption(self, name: str) -> Taken | None:
        """The assumption of a row."""
        return next((taken for taken in self.taken if f"assume {taken.assumption.name}" == name), None)

    def rows(self) -> list[Row]:
        """All rows, part by part; a part with nothing in it is left out."""
        parts: list[tuple[str, list[Row]]] = [
            ("Look again", [_disagreement(i, d) for i, d in enumerate(self.answers.disagree)]),
            ("Say next", [_missing(i, m) for i, m in enumerate(self.answers.missing)]),
            ("Figures, newest first", list(_figures(self.book, self.place))),
            ("Worked out", [_value(i, v, self.place) for i, v in enumerate(self.answers.quantities)]),
            ("To do", [_task(task) for task in self.tasks if task.status != "done"]),
            (_cuts_title(self.cuts), [_piece(piece) for piece in _in_order(self.cuts)]),
            ("Taken for granted", [_taken(taken) for taken in self.taken]),
            ("Also said", list(_others(self.book, self.place))),
        ]
        rows: list[Row] = []
        for title, found in parts:
            if found:
                rows += [Row(None, Content(title)), *found]
        return rows


def place_view(session: Session, place: str) -> PlaceView:
    """The view of a place, all of it worked out from one reading of the book."""
    book = session.book(place)
    found, cuts = answers(book, place), cut_list(book, place)
    lines = [line for value in found.quantities for line in value.assumed] + list(cuts.assumed)
    names = [name for name in ASSUMPTIONS if any(line.startswith(name + " ") for line in lines)]
    lacking = [missing.about for missing in found.missing if missing.about in ASSUMPTIONS]
    taken = tuple(book.assume(name, place) for name in dict.fromkeys([*names, *filter(None, lacking)]))
    return PlaceView(place, book, found, cuts, tuple(to_do(book, place=place)), taken)


def _figures(book: Book, place: str) -> Iterator[Row]:
    said = [(figure, where) for where in (place, *book.belonging(place)) for figure in book.figures(where).values()]
    said.sort(key=lambda one: (one[0].filed.said_at, one[0].filed.memo, -one[0].filed.number), reverse=True)
    for figure, where in said:
        yield _figure(figure, where if where != place else "")


def _figure(figure: Figure, where: str) -> Row:
    filed = figure.filed
    was = f"  {figure.was_shown}" if figure.was else ""
    mark = ("?", _DOUBTFUL) if figure.doubts else ("✓" if filed.confirmed else " ", "$text-success")
    shown = Content.assemble(
        mark,
        f" {where + ': ' if where else ''}{describe(filed.fact)}",
        (was, "bold"),
        (f"  memo {filed.memo}, {day(filed.said_at)}", "$foreground 65%"),
    )
    history = [f"before: {describe(old.fact)} (memo {old.memo}, {day(old.said_at)})" for old in figure.was]
    return Row(f"fact {filed.memo}.{filed.number}", shown, (*figure.doubts, *history), (filed.memo,))


def _value(index: int, value: Value, place: str) -> Row:
    name = " ".join(part for part in (value.about, value.name) if part)
    where = f"{value.place}: " if value.place not in (None, place) else ""
    shown = Content.assemble(
        ("? " if value.doubts else "  ", _DOUBTFUL),
        f"{where}{name}: ",
        (value.shown, "bold"),
        (f"  {_memos(value.memos)}", "$foreground 65%"),
    )
    assumed = (f"taken for granted: {'; '.join(value.assumed)}",) if value.assumed else ()
    caution = (f"mind: {value.caution}",) if value.caution else ()
    return Row(f"value {index}", shown, (*assumed, *value.was, *value.doubts, *caution), value.memos)


def _missing(index: int, missing: Missing) -> Row:
    return Row(f"say {index}", Content.assemble(("… ", "bold"), missing.say))


def _disagreement(index: int, one: Disagreement) -> Row:
    return Row(f"disagree {index}", Content.assemble(("≠ ", "bold $text-error"), one.shown), memos=one.memos)


def _task(task: ToDo) -> Row:
    return Row(f"task {task.memo}.{task.fact}", task_line(task, with_place=False), memos=(task.memo,))


def _cuts_title(cuts: CutList) -> str:
    return f"Cut list, {len(cuts.open)} of {len(cuts.pieces)} open" if cuts.pieces else "Cut list"


def _in_order(cuts: CutList) -> Iterable[CutPiece]:
    return sorted(cuts.pieces, key=lambda piece: (piece.state != "open", -piece.long_point))


def _piece(piece: CutPiece) -> Row:
    state = {"open": "[ ]", "cut": "[x]", "measured": "[m]"}[piece.state]
    points = show_length(Fraction(piece.long_point, INCH))
    if piece.long_point != piece.short_point:
        points += f" > {show_length(Fraction(piece.short_point, INCH))}"
    extra = f"  ripped to {show_length(Fraction(piece.width, INCH))}" if piece.ripped else ""
    extra += "  under the peak" if piece.under_peak else ""
    extra += f"  notch {show_notches(piece.notches)}" if piece.notches else ""
    shown = Content.assemble(f"{state} {piece.label:<12} ", (points, "bold"), (extra, ""))
    return Row(f"piece {piece.label}", shown, (f"{piece.state}; {memo_names(piece.memos)}",), piece.memos)


def _taken(taken: Taken) -> Row:
    known = taken.assumption
    shown = Content.assemble(
        f"  {known.name}: ", (known.show(taken.amount), "bold"), (f"  {taken.origin}", "$foreground 65%")
    )
    return Row(f"assume {known.name}", shown, (f"by default {known.show(known.default)}: {known.source}",), taken.memos)


def _others(book: Book, place: str) -> Iterator[Row]:
    where = {place, *book.belonging(place)}
    others: list[Filed[Fact]] = [
        filed
        for filed in book.facts
        if filed.fact.place in where and filed.fact.kind in ("reading", "stock", "hours", "cost")
    ]
    for filed in sorted(others, key=lambda f: (f.said_at, f.memo), reverse=True):
        shown = Content.assemble(f"  {describe(filed.fact)}  ").append(
            quiet(f"memo {filed.memo}, {day(filed.said_at)}")
        )
        yield Row(f"fact {filed.memo}.{filed.number}", shown, memos=(filed.memo,))


def _memos(memos: tuple[int, ...]) -> str:
    return memo_names(memos) if memos else ""
