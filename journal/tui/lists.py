"""Lists that move as a terminal does: arrows, Enter, and left and right between panes."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option


class PlainList(OptionList):
    """A list of rows by id; rows without an id are headings and cannot be chosen."""

    def show_rows(self, rows: Iterable[tuple[str | None, Content]], at: str | None) -> None:
        """Show these rows with the cursor on one, the first that can be chosen where there is no such row."""
        options = [Option(content, id=name, disabled=name is None) for name, content in rows]
        with self.prevent(OptionList.OptionHighlighted):
            self.clear_options()
            self.add_options(options)
            ids = [option.id for option in options]
            chosen = ids.index(at) if at is not None and at in ids else None
            if chosen is None:
                chosen = next((index for index, option in enumerate(options) if not option.disabled), None)
            self.highlighted = chosen

    @property
    def chosen(self) -> str | None:
        """The id of the row under the cursor."""
        return self.get_option_at_index(self.highlighted).id if self.highlighted is not None else None

    def put_cursor(self, name: str) -> None:
        """Put the cursor on a row."""
        with self.prevent(OptionList.OptionHighlighted):
            self.highlighted = self.get_option_index(name)
