"""The memos of a day as a list: time, doubts, place, and the words as far as they fit."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message

from journal.intake import Taken
from journal.tui.lists import PlainList
from journal.tui.marks import is_doubtful


class MemoList(PlainList):
    """Memos to choose from; Enter or right goes on to the facts of the one in hand."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,right", "enter", "Facts", show=False, id="memos.enter", tooltip="On to the facts of this memo"),
    ]

    fixed_height = 2

    class Entered(Message):
        """The memo under the cursor was gone into."""

    @property
    def numbers(self) -> list[int]:
        """The memos in the order shown."""
        return [int(name) for name in self.names if name]

    def show(self, memos: Iterable[Taken], at: int) -> None:
        """Show these memos with the cursor on one."""
        self.show_rows(((str(taken.memo.number), memo_row(taken)) for taken in memos), str(at))

    def show_changed(self, taken: Taken) -> None:
        """Show one of the memos as it is now, in its place."""
        self.change_row(str(taken.memo.number), memo_row(taken))

    def put_cursor_on(self, memo: int) -> None:
        """Put the cursor on a memo."""
        self.put_cursor(str(memo))

    def lines_of(self, index: int, width: int) -> list[Content]:
        """The head of a memo, and its words, cut off where they are too long."""
        return self.rows[index].shown.split("\n")

    def action_enter(self) -> None:
        """Go into the memo."""
        if self.at is not None:
            self.post_message(self.Entered())


def memo_row(taken: Taken) -> Content:
    """``07:44 ?2 wall A`` and the words under it, quietly."""
    doubts = sum(map(is_doubtful, taken.facts)) + len(taken.doubts)
    marks = (f"?{doubts}" if doubts else "") + (f"!{len(taken.problems)}" if taken.problems else "")
    place = next((filed.fact.place for filed in taken.facts if filed.fact.place), None)
    return Content.assemble(
        (f"{taken.memo.said_at:%H:%M} ", ""),
        (f"{marks:<2} ", "bold $text-warning"),
        (place or "—", "bold"),
        "\n      ",
        (taken.memo.text, "$foreground 65%"),
    )
