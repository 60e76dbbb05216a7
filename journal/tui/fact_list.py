"""The facts of a memo as a list, and under them what could not be used of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.widget import Widget

from journal.intake import Taken
from journal.records import Doubt, Fact, Filed, Problem
from journal.tui.marks import doubt_line, fact_line, problem_line, quiet


@dataclass(frozen=True, slots=True)
class Remark:
    """A problem of a memo, or a doubt that belongs to none of its facts; its number counts down from -1."""

    number: int
    what: Problem | Doubt


Row = Filed[Fact] | Remark


def rows_of(taken: Taken) -> list[Row]:
    """The facts of a memo, then what is left to look at besides."""
    loose: list[Problem | Doubt] = [*taken.problems, *taken.doubts]
    return [*taken.facts, *(Remark(-count, what) for count, what in enumerate(loose, 1))]


class FactList(Widget, can_focus=True):
    """Facts to choose from by number; Enter corrects the one in hand, left goes back to the memos.

    Drawn by itself and never laid out anew, since it changes with every memo that the cursor passes.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,right", "choose", "Correct", id="facts.correct", tooltip="Correct the fact in hand"),
        Binding("up", "move(-1)", "Up", show=False, id="facts.up", tooltip="The fact before"),
        Binding("down", "move(1)", "Down", show=False, id="facts.down", tooltip="The next fact"),
        Binding("left,escape", "leave", "Memos", show=False, id="facts.leave", tooltip="Back to the memos"),
    ]

    class Moved(Message):
        """Another row is in hand."""

    class Chosen(Message):
        """The row in hand was chosen."""

    class Left(Message):
        """The list was left for the memos."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.rows: list[Row] = []
        self._any = False
        self._place: str | None = None
        self._at = 0
        self._line_rows: list[int] = []

    @property
    def number(self) -> int:
        """The number of the row in hand, 0 where there is none."""
        return self.rows[self._at].number if self.rows else 0

    def show(self, taken: Taken | None, at: int) -> None:
        """Show the rows of a memo with the cursor on one, the first where it has no such row."""
        self.rows = rows_of(taken) if taken is not None else []
        self._any = taken is not None
        self._place = taken.memo.place if taken is not None else None
        self._at = next((index for index, row in enumerate(self.rows) if row.number == at), 0)
        self.refresh()

    def render(self) -> Content:
        """The rows around the one in hand, as many as fit."""
        width, height = max(self.size.width, 1), max(self.size.height, 1)
        if not self.rows:
            return quiet("nothing was heard in it that is kept" if self._any else "")
        lines: list[Content] = []
        self._line_rows = []
        for index, row in enumerate(self.rows):
            held = index == self._at
            style = ("bold $background on $foreground" if self.has_focus else "bold on $foreground 15%") if held else ""
            for line in _row(row, self._place).wrap(width):
                padded = line.pad_right(width - line.cell_length) if held else line
                lines.append(padded.stylize(style) if style else padded)
                self._line_rows.append(index)
        last = max(i for i, index in enumerate(self._line_rows) if index == self._at)
        first = min(i for i, index in enumerate(self._line_rows) if index == self._at)
        start = min(max(0, last - height + 1), first)  # a row longer than the list shows its beginning
        self._line_rows = self._line_rows[start:]
        return Content("\n").join(lines[start : start + height])

    def action_move(self, step: int) -> None:
        """Another row."""
        at = min(max(self._at + step, 0), len(self.rows) - 1)
        if self.rows and at != self._at:
            self._at = at
            self.refresh()
            self.post_message(self.Moved())

    def action_choose(self) -> None:
        """Choose the row in hand."""
        self.post_message(self.Chosen())

    def action_leave(self) -> None:
        """Go back to the memos."""
        self.post_message(self.Left())

    def on_click(self, event: Click) -> None:
        """Take the row that was clicked in hand; choose it where it was in hand already."""
        row = self._line_rows[event.y] if 0 <= event.y < len(self._line_rows) else None
        if row == self._at:
            self.action_choose()
        elif row is not None:
            self.action_move(row - self._at)


def _row(row: Row, place: str | None) -> Content:
    if isinstance(row, Filed):
        return fact_line(row, place=place)
    return problem_line(row.what) if isinstance(row.what, Problem) else doubt_line(row.what)
