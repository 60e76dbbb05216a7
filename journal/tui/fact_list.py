"""The facts of a memo as a list, and under them what could not be used of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message

from journal.intake import Taken
from journal.records import Doubt, Fact, Filed, Problem
from journal.tui.lists import PlainList
from journal.tui.marks import doubt_line, fact_line, problem_line


@dataclass(frozen=True, slots=True)
class Remark:
    """A problem of a memo, or a doubt that belongs to none of its facts; its number counts down from -1."""

    number: int
    what: Problem | Doubt


def rows_of(taken: Taken) -> list[Filed[Fact] | Remark]:
    """The facts of a memo, then what is left to look at besides."""
    loose: list[Problem | Doubt] = [*taken.problems, *taken.doubts]
    return [*taken.facts, *(Remark(-count, what) for count, what in enumerate(loose, 1))]


class FactList(PlainList):
    """Facts to choose from by number; Enter corrects the one in hand, left goes back to the memos."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,right", "select", "Correct", id="facts.correct", tooltip="Correct the fact in hand"),
        Binding("left,escape", "leave", "Memos", show=False, id="facts.leave", tooltip="Back to the memos"),
    ]

    class Left(Message):
        """The list was left for the memos."""

    @property
    def number(self) -> int:
        """The number of the row under the cursor, 0 where there is none."""
        return int(self.chosen or 0)

    def show(self, taken: Taken | None, at: int) -> None:
        """Show the rows of a memo with the cursor on one."""
        rows = rows_of(taken) if taken is not None else []
        place = taken.memo.place if taken is not None else None
        shown = [(str(row.number), _row(row, place)) for row in rows]
        nothing = [(None, Content("nothing was heard in it that is kept"))] if taken is not None and not shown else []
        self.show_rows([*shown, *nothing], str(at))

    def action_leave(self) -> None:
        """Go back to the memos."""
        self.post_message(self.Left())


def _row(row: Filed[Fact] | Remark, place: str | None) -> Content:
    if isinstance(row, Filed):
        return fact_line(row, place=place)
    return problem_line(row.what) if isinstance(row.what, Problem) else doubt_line(row.what)
