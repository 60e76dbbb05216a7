"""Text in a pane that keeps its size: showing other text lays nothing out anew, so that a key is answered at once."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

_HANGING = 2  # cells


class Pane(Static):
    """Text that fills its pane; only text longer than that makes the pane scroll."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._outgrown = False
        self.text = Content("")
        self._wrapped_to = 0

    def show(self, text: Content | str) -> None:
        """Show this text."""
        self.text = Content(text) if isinstance(text, str) else text
        width, height = self.size
        wrapped = hung(self.text, width) if width else self.text
        longer = bool(width) and len(wrapped.wrap(width)) > height
        self.update(wrapped, layout=longer or self._outgrown or not width)
        self._outgrown = longer

    def on_resize(self) -> None:
        """Wrap it to the new width."""
        if self.size.width != self._wrapped_to:
            self._wrapped_to = self.size.width
            self.show(self.text)


def hung(text: Content, width: int) -> Content:
    """A text whose indented lines go on further in than they begin, where they are longer than a width."""
    lines = []
    for line in text.split("\n", allow_blank=True):
        indent = len(line.plain) - len(line.plain.lstrip(" "))
        if not indent or line.cell_length <= width:
            lines.append(line)
            continue
        first, *more = line[indent:].wrap(max(width - indent - _HANGING, 1))
        lines += [first.pad_left(indent), *(part.pad_left(indent + _HANGING) for part in more)]
    return Content("\n").join(lines)
