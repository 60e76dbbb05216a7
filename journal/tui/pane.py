"""Text in a pane that keeps its size: showing other text lays nothing out anew, so that a key is answered at once."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


class Pane(Static):
    """Text that fills its pane; only text longer than that makes the pane scroll."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._outgrown = False

    def show(self, text: Content | str) -> None:
        """Show this text."""
        content = Content(text) if isinstance(text, str) else text
        width, height = self.size
        longer = bool(width) and len(content.wrap(width)) > height
        self.update(content, layout=longer or self._outgrown or not width)
        self._outgrown = longer
