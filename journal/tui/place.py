"""The Place screen: everything about one place with a drawing to scale; pieces and tasks ticked off, assumptions changed."""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.geometry import Size

from journal.errors import JournalError
from journal.previews import Preview
from journal.quantities.base import listed
from journal.quantities.cut_pieces import CutPiece
from journal.session import Session
from journal.tui.asking import Line, Pick
from journal.tui.draw_gable import draw_gable
from journal.tui.draw_roof import draw_roof
from journal.tui.draw_wall import draw_wall
from journal.tui.effect import differences, effect_lines
from journal.tui.job_screen import JobScreen
from journal.tui.lists import PlainList
from journal.tui.marks import quiet
from journal.tui.pane import Pane
from journal.tui.place_view import PlaceView, Row, place_view


class PlaceScreen(JobScreen):
    """A place in hand. What is shown of it is worked out in a worker each time the job or the place changes."""

    mode = "place"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", "Tick off", id="place.tick", tooltip="Tick the piece or the task in hand off, or on again"),
        Binding("n", "part(1)", "Next part", id="place.next", tooltip="On to the next part of the list"),
        Binding("N", "part(-1)", "Part before", show=False, id="place.before", tooltip="Back to the part before"),
        Binding("e", "assume", "Assume", id="place.assume", tooltip="Change what is taken for granted here"),
        Binding("m", "memo", "Memo", id="place.memo", tooltip="Go to the memo behind the row in hand"),
        Binding("g", "go_to_place", "Places", id="place.go", tooltip="Pick a place by typing a part of its name"),
    ]  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self.place: str | None = None
        self.view: PlaceView | None = None
        self._rows: dict[str, Row] = {}
        self._drawn: tuple[object, ...] = ()
        self._room = Size(40, 10)

    def panes(self) -> ComposeResult:
        """Places on the left, the drawing, the rows, and a word on the row in hand."""
        with Horizontal():
            yield PlainList(id="places")
            with Container(id="about"):
                with VerticalScroll(id="sheet-pane", can_focus=False):
                    yield Pane(id="sheet")
                with Vertical(id="rows-pane"):
                    yield PlainList(id="rows")
                    yield Pane(id="more")

    @property
    def rows(self) -> PlainList:
        """The list of all that is known."""
        return self.query_one("#rows", PlainList)

    @property
    def in_hand(self) -> Row | None:
        """The row under the cursor."""
        return self._rows.get(self.rows.chosen or "")

    # ---- reading -----------------------------------------------------------------------------------------------

    def load(self) -> None:
        """Read the places, and the one in hand anew."""
        places = self.review.places
        if self.place not in places:
            self.place = places[0] if places else None
        self.query_one("#places", PlainList).show_rows([(place, Content(place)) for place in places], self.place)
        if self.focused is None:
            self.query_one("#places").focus()
        self.read_place()

    def show_place(self, place: str) -> None:
        """Put a place in hand."""
        self.place = place
        self.query_one("#places", PlainList).put_cursor(place)
        self.read_place()

    def read_place(self) -> None:
        """Work the place out in a worker."""
        place = self.place
        if place is None:
            self.status.tell("no memo has named a place yet")
            return
        self.ask_job(f"working out {place}", lambda session: place_view(session, place), self._show, group="place")

    def _show(self, view: PlaceView) -> None:
        keep = self.rows.chosen if self.view is not None and self.view.place == view.place else None
        self.view = view
        found = view.rows()
        self._rows = {row.name: row for row in found if row.name is not None}
        self.rows.show_rows([(row.name, row.shown) for row in found], keep)
        open_tasks = sum(task.status != "done" for task in view.tasks)
        counts = (
            (len(view.answers.disagree), "to look at again"), (len(view.answers.missing), "to say next"), (open_tasks, "to do"),
            (len(view.cuts.open), "to cut"),
        )  # fmt: skip
        self.status.tell(view.place, *(f"{count} {what}" for count, what in counts if count))
        self._show_row()

    @on(PlainList.Moved, "#places")
    def _other_place(self, event: PlainList.Moved) -> None:
        if event.name is not None and event.name != self.place:
            self.place = event.name
            self.read_place()

    @on(PlainList.Chosen, "#places")
    def _into_place(self) -> None:
        self.rows.focus()

    @on(PlainList.Moved, "#rows")
    def _other_row(self) -> None:
        self._show_row()

    def _show_row(self) -> None:
        row = self.in_hand
        self.query_one("#more", Pane).show(quiet("\n".join(row.more)) if row and row.more else Content(""))
        self.draw()

    @on(Resize)
    def _resized(self) -> None:
        self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Draw the place to scale, the piece in hand filled."""
        view, pane = self.view, self.query_one("#sheet-pane")
        if view is None:
            return
        self._room = pane.size if pane.display and pane.size else self._room
        columns, lines = self._room
        piece = view.piece(self.rows.chosen or "")
        wanted = (id(view), columns, lines, piece.label if piece else None)
        if wanted == self._drawn or columns < 12 or lines < 4:
            return
        self._drawn = wanted
        held = piece.label if piece is not None else None
        drawing = (
            draw_gable(view.book, view.place, columns, lines, cuts=view.cuts, in_hand=held)
            or draw_wall(view.book, view.place, columns, lines)
            or draw_roof(view.book, view.place, columns, lines)
        )
        if pane.display != bool(drawing):  # a place without one has the whole screen for its rows
            pane.display = bool(drawing)
            self.call_after_refresh(self.draw)
        self.query_one("#sheet", Pane).show(Content("\n").join(drawing or []))

    # ---- moving ------------------------------------------------------------------------------------------------

    def action_part(self, step: int) -> None:
        """Put the cursor on the first row of the next part, or of the part before."""
        names = self.rows.names
        starts = [i for i, name in enumerate(names) if i and names[i - 1] is None and name is not None]
        here = self.rows.at or 0
        others = [i for i in starts if (i > here if step > 0 else i < here)] or starts
        if others:
            self.rows.go_to(names[others[0] if step > 0 else others[-1]] or "")
        self.rows.focus()

    def action_go_to_place(self) -> None:
        """Pick a place."""
        places = [(place, place) for place in self.review.places]

        def go(place: str | None) -> None:
            if place is not None:
                self.show_place(place)

        self.app.push_screen(Pick("Which place?", places), go)

    def action_memo(self) -> None:
        """Go to the newest memo behind the row in hand."""
        row = self.in_hand
        if row is None or not row.memos:
            self.review.tell("no memo stands behind this row")
            return
        fact = int(row.name.split(".")[1]) if row.name and row.name.startswith(("fact ", "task ")) else 1
        self.review.go_to_memo(row.memos[-1], fact)

    @on(PlainList.Chosen, "#rows")
    def _row_entered(self) -> None:
        name = self.rows.chosen or ""
        if name.startswith(("piece ", "task ")):
            self.action_tick()
        elif name.startswith("assume "):
            self.action_assume()
        elif not name.startswith("say "):
            self.action_memo()

    # ---- changing ----------------------------------------------------------------------------------------------

    def action_tick(self) -> None:
        """Tick the piece or the task in hand off; one that is ticked is open again."""
        view, name = self.view, self.rows.chosen or ""
        if view is None:
            return
        piece, task = view.piece(name), view.task(name)
        if task is not None:
            done = {"status": "done"}
            self.review.keep(lambda: self.session.fix(task.memo, task.fact, done), f"done: {task.task.do}")
        elif piece is not None and piece.state == "open":
            self._cut(view.place, piece)
        elif piece is not None:
            self._not_cut(view, piece)

    def _cut(self, place: str, piece: CutPiece) -> None:
        words = cut_words(piece, horizontal=self.view is not None and self.view.cuts.horizontal)
        typed = {"do": words, "status": "done", "place": place}
        now = datetime.now().astimezone()
        self.review.keep(lambda: self.session.note(f"{words} on the {place}", "task", typed, now), words)

    def _not_cut(self, view: PlaceView, piece: CutPiece) -> None:
        words = cut_words(piece, horizontal=view.cuts.horizontal)
        said = [
            filed
            for filed in view.book.facts
            if filed.fact.place == view.place and filed.fact.kind == "task" and getattr(filed.fact, "do", "") == words
        ]
        if not said:
            self.review.tell(f"{piece.label} was said to be {piece.state} in a memo; put that one right: m")
            return
        self.review.keep(lambda: self.session.strike(said[-1].memo, said[-1].number), f"open again: {piece.label}")

    def action_assume(self) -> None:
        """Change an assumption: the one in hand, else one picked from all of them."""
        view = self.view
        if view is None:
            return
        taken = view.assumption(self.rows.chosen or "")
        if taken is not None:
            self._ask_assumption(taken.assumption.name)
            return
        known = [
            (one.name, f"{one.name}: {one.show(view.book.assume(one.name, view.place).amount)}") for one in listed()
        ]

        def picked(name: str | None) -> None:
            if name is not None:
                self._ask_assumption(name)

        self.app.push_screen(Pick(f"What is taken for granted at {view.place}", known), picked)

    def _ask_assumption(self, name: str) -> None:
        view = self.view
        if view is None:
            return
        place, taken = view.place, view.book.assume(name, view.place)
        known = taken.assumption
        choices = f"It may be {', '.join(known.choices)}. " if known.choices else ""
        hint = f"{choices}Empty puts the default back: {known.show(known.default)} ({known.source})"
        start = known.text(taken.amount) if taken.amount is not None else ""

        def typed(text: str, line: Line) -> None:
            def question(session: Session) -> Preview | JournalError:
                try:
                    return session.preview_assumed(name, text.strip() or None, place)
                except JournalError as error:
                    return error

            def show(found: Preview | JournalError) -> None:
                if isinstance(found, JournalError):
                    line.say(Content(f"! {found.message}\n  {found.hint}"))
                else:
                    line.say(effect_lines("Enter keeps it:", differences(found.before, found.after)))

            self.ask_job("working out the effect", question, show, group="effect")

        def kept(text: str | None) -> None:
            if text is not None and text != start:
                self.review.keep(
                    lambda: self.session.assume(name, text.strip() or None, place), f"{name}: {text or 'the default'}"
                )

        self.app.push_screen(Line(f"{name} at {place}", start, hint, typed=typed), kept)


def cut_words(piece: CutPiece, *, horizontal: bool = False) -> str:
    """The words that tell a piece cut: ``cut board 3 left``, ``cut board centre above``."""
    side = {"L": " left", "R": " right"}.get(piece.side, "")
    return f"cut {'course' if horizontal else 'board'} {piece.piece}{side}"
