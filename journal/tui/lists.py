"""Lists of rows that move as a terminal does: arrows, page keys, Enter. Drawn a row at a time, so that a long one costs no more."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, NamedTuple

from rich.segment import Segment
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Click
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

_HEADING = "bold $text-primary"
_HELD, _HELD_ELSEWHERE = "bold $background on $foreground", "bold on $foreground 15%"
_HANGING = 4  # cells by which the lines of a row after its first stand in


class ListRow(NamedTuple):
    """A row by its name; one without a name is a heading and cannot be chosen."""

    name: str | None
    shown: Content


class PlainList(ScrollView, can_focus=True, inherit_bindings=False):
    """A list of rows. Only rows in sight are drawn, and only those wider than the list are measured."""

    ALLOW_SELECT = False
    fixed_height: ClassVar[int] = 0
    """The lines of every row, where they do not hang on its words."""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "cursor_up", "Up", show=False, id="list.up", tooltip="The row above"),
        Binding("down", "cursor_down", "Down", show=False, id="list.down", tooltip="The row below"),
        Binding("home", "first", "First", show=False, id="list.first", tooltip="The first row"),
        Binding("end", "last", "Last", show=False, id="list.last", tooltip="The last row"),
        Binding("pageup", "page(-1)", "Page up", show=False, id="list.page_up", tooltip="A page up"),
        Binding("pagedown", "page(1)", "Page down", show=False, id="list.page_down", tooltip="A page down"),
        Binding("enter", "select", "Choose", show=False, id="list.choose", tooltip="Choose the row in hand"),
    ]

    class Told(Message):
        """Something about the row in hand of a list."""

        def __init__(self, rows: PlainList) -> None:
            super().__init__()
            self.rows, self.name = rows, rows.chosen

        @property
        def control(self) -> PlainList:
            """The list."""
            return self.rows

    class Moved(Told):
        """Another row is in hand."""

    class Chosen(Told):
        """The row in hand was chosen."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.rows: list[ListRow] = []
        self.at: int | None = None
        self._lines: list[tuple[int, int]] = []  # of each line the row and which line of the row it is
        self._starts: list[int] = []
        self._drawn: dict[tuple[int, bool, bool], list[Strip]] = {}
        self._laid_out = 0  # the width

    # ---- what it holds -----------------------------------------------------------------------------------------

    @property
    def chosen(self) -> str | None:
        """The name of the row in hand."""
        return self.rows[self.at].name if self.at is not None else None

    @property
    def names(self) -> list[str | None]:
        """The names of the rows, None for headings."""
        return [row.name for row in self.rows]

    def show_rows(self, rows: Iterable[tuple[str | None, Content]], at: str | None) -> None:
        """Show these rows with the cursor on one, the first that can be chosen where there is no such row."""
        self.rows = [ListRow(*row) for row in rows]
        names = self.names
        self.at = names.index(at) if at is not None and at in names else self._next(-1, 1)
        self._lay_out()
        self.refresh()
        self._scroll_to_cursor()

    def change_row(self, name: str, shown: Content) -> None:
        """Show a row otherwise; all else stays as it is where it takes no more lines than before."""
        index = self.names.index(name)
        lines = len(self.lines_of(index, self._laid_out))
        self.rows[index] = ListRow(name, shown)
        if len(self.lines_of(index, self._laid_out)) != lines:
            self._lay_out()
            self.refresh()
            return
        for held, focused in ((True, True), (True, False), (False, False)):
            self._drawn.pop((index, held, focused), None)
        self._refresh_row(index)

    def put_cursor(self, name: str) -> None:
        """Put the cursor on a row without telling of it."""
        self._put(self.names.index(name))

    def go_to(self, name: str) -> None:
        """Put the cursor on a row and tell of it."""
        self._move(self.names.index(name))

    # ---- moving ------------------------------------------------------------------------------------------------

    def action_cursor_up(self) -> None:
        """The row above."""
        self._move(self._next(self.at, -1) if self.at is not None else None)

    def action_cursor_down(self) -> None:
        """The row below."""
        self._move(self._next(self.at, 1) if self.at is not None else None)

    def action_first(self) -> None:
        """The first row."""
        self._move(self._next(-1, 1))

    def action_last(self) -> None:
        """The last row."""
        self._move(self._next(len(self.rows), -1))

    def action_page(self, step: int) -> None:
        """As many rows up or down as are in sight."""
        if self.at is not None:
            line = self._starts[self.at] + step * max(self.size.height - 1, 1)
            row = self._lines[min(max(line, 0), len(self._lines) - 1)][0]
            near = row if self.rows[row].name is not None else self._next(row, step)
            self._move(near if near is not None else self._next(row, -step))

    def action_select(self) -> None:
        """Choose the row in hand."""
        if self.at is not None:
            self.post_message(self.Chosen(self))

    def on_click(self, event: Click) -> None:
        """Take the row that was clicked in hand; choose it where it was in hand already."""
        line = event.y + self.scroll_offset.y
        if 0 <= line < len(self._lines):
            row = self._lines[line][0]
            if row == self.at:
                self.action_select()
            elif self.rows[row].name is not None:
                self._move(row)

    def _next(self, row: int, step: int) -> int | None:
        """The nearest row on from this one that can be chosen."""
        on = range(row + step, len(self.rows) if step > 0 else -1, step)
        return next((index for index in on if self.rows[index].name is not None), None)

    def _move(self, row: int | None) -> None:
        if row is not None and row != self.at:
            self._put(row)
            self.post_message(self.Moved(self))

    def _put(self, row: int) -> None:
        if self.at is not None:
            self._refresh_row(self.at)
        self._refresh_row(row)
        self.at = row
        self._scroll_to_cursor()

    def _refresh_row(self, row: int) -> None:
        if row < len(self._starts):
            lines = len(self.lines_of(row, self._laid_out))
            self.refresh(Region(0, self._starts[row] - self.scroll_offset.y, self.size.width, lines))

    def _scroll_to_cursor(self) -> None:
        if self.at is None or not self._starts or not self.size.height:
            return
        first = self._starts[self.at] if self._next(-1, 1) != self.at else 0  # with the heading over the first one
        last = self._starts[self.at + 1] if self.at + 1 < len(self._starts) else len(self._lines)
        top, height = self.scroll_offset.y, self.size.height
        if first < top:
            self.scroll_to(y=first, animate=False)
        elif last > top + height:
            self.scroll_to(y=last - height, animate=False)

    # ---- drawing -----------------------------------------------------------------------------------------------

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """The lines of all rows, for a list that is as high as they are."""
        return sum(len(self.lines_of(index, width - self.scrollbar_size_vertical)) for index in range(len(self.rows)))

    def on_resize(self) -> None:
        """Wrap the rows to the new width; the one in hand stays in sight."""
        if self.scrollable_content_region.width != self._laid_out:
            self._lay_out()
            self.refresh()
        self._scroll_to_cursor()

    def notify_style_update(self) -> None:
        """Draw anew in other colours."""
        super().notify_style_update()
        self._drawn.clear()

    def _lay_out(self) -> None:
        """Find out which line of the list is which line of which row."""
        width = self.scrollable_content_region.width
        self._drawn.clear()
        self._lines, self._starts, self._laid_out = [], [], width
        for index in range(len(self.rows)):
            self._starts.append(len(self._lines))
            self._lines += [(index, line) for line in range(self.fixed_height or self.height_of(index, width))]
        if width or self.fixed_height:
            self.virtual_size = Size(1, len(self._lines))

    def height_of(self, index: int, width: int) -> int:
        """How many lines a row takes."""
        shown = self.rows[index].shown
        # nearly all rows are plain text in one line; wrapping them to know it would make a long list wait
        if len(shown.plain) <= width - 2 and shown.plain.isascii() and "\n" not in shown.plain:
            return 1
        return len(self.lines_of(index, width))

    def lines_of(self, index: int, width: int) -> list[Content]:
        """The lines of a row, at most `width` less a cell on either side wide."""
        shown, room = self.rows[index].shown, max(width - 2, 1)
        if not width or (shown.cell_length <= room and "\n" not in shown.plain):
            return [shown]
        first, *more = shown.wrap(max(room - _HANGING, 1))
        return [first, *(line.pad_left(_HANGING) for line in more)]

    def render_line(self, y: int) -> Strip:
        """A line in sight; the row in hand is a block, dark on light or light on dark, whatever its own colours are."""
        line = y + self.scroll_offset.y
        if line >= len(self._lines):
            return Strip.blank(self.size.width, self.rich_style)
        row, part = self._lines[line]
        held = row == self.at
        key = (row, held, held and self.has_focus)
        if key not in self._drawn:
            self._drawn[key] = [self._strip(content, row) for content in self.lines_of(row, self._laid_out)]
        return self._drawn[key][part]

    def _strip(self, content: Content, row: int) -> Strip:
        line = content.pad_left(1).truncate(self._laid_out, ellipsis=True, pad=True)
        if row == self.at:
            line = line.stylize(_HELD if self.has_focus else _HELD_ELSEWHERE)
        elif self.rows[row].name is None:
            line = line.stylize(_HEADING)
        drawn = line.render(self.visual_style, "", self.app.stylesheet.parse_style)
        return Strip([Segment(text, style.rich_style) for text, style in drawn], self._laid_out)
