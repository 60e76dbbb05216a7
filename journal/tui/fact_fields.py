"""The fields of the fact in hand, corrected in place. Posts what was typed, kept or left; stores nothing itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Grid, Horizontal, Vertical
from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.widgets import Input, Label

from journal.fields import FIGURE, choices, field_names, format_field
from journal.records import Fact
from journal.tui.days import step_day, typed_day
from journal.tui.in_order import OneLine
from journal.tui.pane import Pane

MOST_FIELDS = max(len(field_names(kind)) for kind in ("measure", "slope", "task", "stock", "reading", "hours", "cost"))
_DAYS = ("due", "on")
_COLUMNS = 2
_LATER = 0.1  # seconds
_SHOWN = {"board_feet": "board feet", "on": "of day", "do": "to do"}


@lru_cache(maxsize=32)
def _suggester(completed: tuple[str, ...]) -> SuggestFromList:
    return SuggestFromList(completed, case_sensitive=False)


class FieldInput(OneLine):
    """One field: free text, a choice (up and down turn through it), or a day (up and down step it)."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "turn(-1)", "Turn", show=False, id="field.up", tooltip="The choice before, or a day earlier"),
        Binding("down", "turn(1)", "Turn", show=False, id="field.down", tooltip="The next choice, or a day later"),
        Binding("enter", "submit", "Keep", id="field.keep", tooltip="Keep what was typed"),
        Binding("tab", "app.focus_next", "Next field", id="field.next", tooltip="On to the next field"),
        Binding("escape", "leave", "Leave", id="field.leave", tooltip="Leave the field without keeping what was typed"),
    ]

    def __init__(self, keep: Callable[[], None], leave: Callable[[], None]) -> None:
        super().__init__(compact=True)
        self._keep, self._leave = keep, leave
        self.field = ""
        self.allowed: tuple[str, ...] = ()

    def set_field(self, name: str, value: str, places: Sequence[str]) -> None:
        """Stand for a field of that name with this value; places are completed as they are typed."""
        self.field = name
        self.can_focus = bool(name)
        self.allowed = ("", *choices(name)) if name == "shade" else choices(name)
        if name == "approx":
            self.allowed = ("", "yes")
        completed = tuple(choice for choice in self.allowed if choice) or (tuple(places) if name == "place" else ())
        self.suggester = _suggester(completed) if completed else None
        with self.prevent(Input.Changed):
            self.value = value
        self.cursor_position = 0

    def action_turn(self, step: int) -> None:
        """Take the neighbouring choice, or step a day."""
        if self.field in _DAYS:
            self.value = step_day(self.value, step)
        elif self.allowed:
            at = self.allowed.index(self.value) if self.value in self.allowed else -step
            self.value = self.allowed[(at + step) % len(self.allowed)]
        self.cursor_position = len(self.value)

    async def action_submit(self) -> None:
        """Keep what stands in the fields now, whatever is typed after it."""
        self._keep()

    def action_leave(self) -> None:
        """Leave the fields."""
        self._leave()


class FactFields(Vertical):
    """The fields of one fact: text until they are edited, then lines to type in. Until something differs nothing is kept."""

    class Typed(Message):
        """Something was typed: the fields that differ now."""

        def __init__(self, typed: dict[str, str]) -> None:
            super().__init__()
            self.typed = typed

    class Kept(Message):
        """Enter was pressed: these fields are to be kept."""

        def __init__(self, typed: dict[str, str]) -> None:
            super().__init__()
            self.typed = typed

    class Left(Message):
        """The fields were left; `unkept` is what had been typed."""

        def __init__(self, unkept: dict[str, str]) -> None:
            super().__init__()
            self.unkept = unkept

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._before: dict[str, str] = {}
        self._places: tuple[str, ...] = ()
        self._rows = [(Label("", markup=False), FieldInput(self._say_kept, self._say_left)) for _ in range(MOST_FIELDS)]

    def compose(self) -> ComposeResult:
        """The text, and a line for each field that any kind of fact may have."""
        yield Pane(id="read")
        yield Grid()

    def on_mount(self) -> None:
        """Make the lines to type in once the screen stands; they are not needed to see it."""
        self.call_after_refresh(self.set_timer, _LATER, self._make_lines)

    def _make_lines(self) -> None:
        grid = self.query_one(Grid)
        if not grid.children:
            grid.mount_all(Horizontal(label, field, classes="field") for label, field in self._rows)

    @property
    def editing(self) -> bool:
        """Whether the lines are there to type in."""
        return bool(self.query_one(Grid).display)

    @property
    def inputs(self) -> list[FieldInput]:
        """The fields that are in use."""
        return [field for _, field in self._rows if field.field]

    @property
    def typed(self) -> dict[str, str]:
        """The fields that differ from what is on file, days as dates."""
        if not self.editing:
            return {}
        return {
            field.field: typed_day(field.value) if field.field in _DAYS else field.value
            for field in self.inputs
            if field.value != self._before.get(field.field, "")
        }

    def show(self, fact: Fact | None, places: Sequence[str] = ()) -> None:
        """Show the fields of a fact as text; None shows none."""
        names = field_names(fact.kind) if fact is not None else ()
        self._before = {name: format_field(fact, name) for name in names} if fact is not None else {}
        self._places = tuple(places)
        self._open(False)
        self.query_one(Pane).show(self._as_text())

    def blank(self, kind: str, given: dict[str, str], places: Sequence[str] = ()) -> None:
        """Empty fields for a new fact, with some filled in; those count as typed."""
        self._before, self._places = dict.fromkeys(field_names(kind), ""), tuple(places)
        self.edit()
        for field in self.inputs:
            if field.field in given:
                field.value = given[field.field]

    def edit(self, name: str = FIGURE) -> None:
        """Turn the fields into lines, the cursor in one of them, the first one where there is none of that name."""
        self._make_lines()
        names = list(self._before)
        for index, (label, field) in enumerate(self._rows):
            here = names[index] if index < len(names) else ""
            label.update(_SHOWN.get(here, here), layout=False)
            field.set_field(here, self._before.get(here, ""), self._places)
        self._open(True)
        chosen = next((field for field in self.inputs if field.field == name), next(iter(self.inputs), None))
        if chosen is not None:
            self.call_after_refresh(chosen.focus) if not chosen.is_mounted else chosen.focus()

    def _open(self, editing: bool) -> None:
        if editing != self.editing:
            self.query_one(Grid).display = editing
            self.query_one(Pane).display = not editing
            self.screen.set_class(editing, "editing")

    def _as_text(self) -> Content:
        columns = _COLUMNS
        width = max((self.size.width or 48) // columns - 1, 20)
        cells = []
        for name, value in self._before.items():
            room = width - 12
            shown = value if len(value) <= room else value[: room - 1] + "…"
            cells.append(Content.assemble((f"{_SHOWN.get(name, name):<11}", "$text-primary"), f"{shown:<{room + 1}}"))
        lines = [Content(" ").join(cells[start : start + columns]) for start in range(0, len(cells), columns)]
        return Content("\n").join(lines)

    @on(Click)
    def _clicked(self, event: Click) -> None:
        if self.editing or not self._before:
            return
        columns = _COLUMNS
        index = event.y * columns + event.x * columns // max(self.size.width, 1)
        names = list(self._before)
        self.edit(names[index] if index < len(names) else FIGURE)

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self.typed))

    def _say_kept(self) -> None:
        self.post_message(self.Kept(self.typed))

    def _say_left(self) -> None:
        self.post_message(self.Left(self.typed))
