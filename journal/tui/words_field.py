"""The field in which the words of a memo are put right."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.events import Key
from textual.widgets import TextArea

from journal.tui.in_order import obey
from journal.tui.words import Words


class WordsField(TextArea):
    """The words as text to put right. Enter keeps them, Escape leaves them as they were."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "keep", "Keep", id="words.keep", tooltip="Keep these words and read the memo again"),
        Binding("escape", "leave", "Leave", id="words.leave", tooltip="Leave the words as they were"),
    ]

    def __init__(self, text: str) -> None:
        super().__init__(text, soft_wrap=True, compact=True, highlight_cursor_line=False)
        self._before = text

    @property
    def changed(self) -> bool:
        """Whether the words differ from those on file."""
        return " ".join(self.text.split()) != self._before

    async def on_key(self, event: Key) -> None:
        """Enter keeps the words that stand now, and is not typed."""
        await obey(self, event)

    @on(TextArea.Changed)
    def _typed(self, event: TextArea.Changed) -> None:
        event.stop()
        if self.changed:
            self.post_message(Words.Typed(self.text))

    def action_keep(self) -> None:
        """Say that the words are to be kept."""
        self.post_message(Words.Kept(self.text, self.changed))

    def action_leave(self) -> None:
        """Say that they are left."""
        self.post_message(Words.Left(self.changed))
