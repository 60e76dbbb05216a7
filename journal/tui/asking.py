"""Small questions over a screen: pick one of a list, type a line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from journal.tui.in_order import OneLine
from journal.tui.lists import PlainList

_LEAVE = Binding("escape", "leave", "Leave", id="asking.leave", tooltip="Leave without an answer")


class Pick(ModalScreen[str | None]):
    """Picks one of a list by its id; None when it was left. Typing narrows the list down."""

    BINDINGS: ClassVar[list[BindingType]] = [
        _LEAVE,
        Binding("down", "move(1)", show=False, id="pick.down", tooltip="The next row"),
        Binding("up", "move(-1)", show=False, id="pick.up", tooltip="The row before"),
    ]

    def __init__(self, title: str, choices: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self._title = title
        self._choices = choices

    def compose(self) -> ComposeResult:
        """The title, a line to type in, the rows."""
        with Vertical(classes="asking"):
            yield Static(Content.styled(self._title, "bold"))
            yield OneLine(placeholder="type to narrow down", compact=True)
            yield PlainList()

    def on_mount(self) -> None:
        """Show all rows."""
        self._narrow("")

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        self._narrow(event.value)

    def _narrow(self, typed: str) -> None:
        words = typed.casefold().split()
        rows = [(name, Content(text)) for name, text in self._choices if all(w in text.casefold() for w in words)]
        self.query_one(PlainList).show_rows(rows, None)

    def action_move(self, step: int) -> None:
        """Move the cursor in the list while typing."""
        rows = self.query_one(PlainList)
        (rows.action_cursor_down if step > 0 else rows.action_cursor_up)()

    @on(Input.Submitted)
    def _submitted(self) -> None:
        if (chosen := self.query_one(PlainList).chosen) is not None:
            self.dismiss(chosen)

    @on(PlainList.Chosen)
    def _selected(self, event: PlainList.Chosen) -> None:
        self.dismiss(event.name)

    def action_leave(self) -> None:
        """No answer."""
        self.dismiss(None)


class Line(ModalScreen[str | None]):
    """Asks for a line of text; None when it was left. `typed` is told of every change and may `say` what it would do."""

    BINDINGS: ClassVar[list[BindingType]] = [_LEAVE]

    def __init__(
        self, title: str, value: str = "", hint: str = "", *, typed: Callable[[str, Line], None] | None = None
    ) -> None:
        super().__init__()
        self._title, self._value, self._hint, self._typed = title, value, hint, typed

    def compose(self) -> ComposeResult:
        """The question, the line, a hint, and what it would do."""
        with Vertical(classes="asking"):
            yield Static(Content.styled(self._title, "bold"))
            yield OneLine(self._value, compact=True)
            yield Static(Content.styled(self._hint, "$foreground 65%"))
            yield Static(id="said")

    def say(self, text: Content) -> None:
        """Show what the line as it stands would do."""
        self.query_one("#said", Static).update(text)

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        if self._typed is not None and event.value != self._value:
            self._typed(event.value, self)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        self.dismiss(event.value)

    def action_leave(self) -> None:
        """No answer."""
        self.dismiss(None)
