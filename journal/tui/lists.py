"""Lists that move as a terminal does: arrows, Enter, and left and right between panes."""

from __future__ import annotations

from collections.abc import Iterable

from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.strip import Strip
from textual.widgets import OptionList
from textual.widgets.option_list import Option


class PlainList(OptionList):
    """A list of rows by id; rows without an id are headings and cannot be chosen."""

    def show_rows(self, rows: Iterable[tuple[str | None, Content]], at: str | None) -> None:
        """Show these rows with the cursor on one, the first that can be chosen where there is no such row."""
        shown = list(rows)
        with self.prevent(OptionList.OptionHighlighted):
            if [name for name, _ in shown] == [option.id for option in self.options]:
                self._replace(content for _, content in shown)
            else:
                self.clear_options()
                self.add_options(Option(content, id=name, disabled=name is None) for name, content in shown)
            names = [name for name, _ in shown]
            chosen = names.index(at) if at is not None and at in names else None
            if chosen is None:
                chosen = next((index for index, name in enumerate(names) if name is not None), None)
            self.highlighted = chosen

    def _replace(self, contents: Iterable[Content]) -> None:
        """Change only the rows that differ; most of a list stays as it is when one fact of it is put right."""
        for index, content in enumerate(contents):
            old = self.get_option_at_index(index).prompt
            if not isinstance(old, Content) or (old.plain, old.spans) != (content.plain, content.spans):
                self.replace_option_prompt_at_index(index, content)

    def render_line(self, y: int) -> Strip:
        """A line; the row under the cursor dark on light or light on dark, whatever its own colours are."""
        strip = super().render_line(y)
        if not (self.has_focus and any(s.style and s.style.meta.get("option") == self.highlighted for s in strip)):
            return strip
        theme = self.app.theme_variables
        turned = Style.parse(f"bold {theme['background']} on {theme['foreground']}")
        return Strip(Segment.apply_style(strip, post_style=turned), strip.cell_length)

    @property
    def chosen(self) -> str | None:
        """The id of the row under the cursor."""
        return self.get_option_at_index(self.highlighted).id if self.highlighted is not None else None

    def put_cursor(self, name: str) -> None:
        """Put the cursor on a row."""
        with self.prevent(OptionList.OptionHighlighted):
            self.highlighted = self.get_option_index(name)
