"""The fields of the fact in hand, corrected in place. Posts what was typed, kept or left; stores nothing itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, ItemGrid
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.widgets import Input, Label

from journal.fields import FIGURE, choices, field_names, format_field
from journal.records import Fact
from journal.tui.days import step_day, typed_day

MOST_FIELDS = max(len(field_names(kind)) for kind in ("measure", "slope", "task", "stock", "reading", "hours", "cost"))
_DAYS = ("due", "on")
_SHOWN = {"board_feet": "board feet", "on": "of day", "do": "to do"}


class FieldInput(Input):
    """One field: free text, a choice (up and down turn through it), or a day (up and down step it)."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "turn(-1)", "Turn", show=False, id="field.up", tooltip="The choice before, or a day earlier"),
        Binding("down", "turn(1)", "Turn", show=False, id="field.down", tooltip="The next choice, or a day later"),
        Binding("enter", "submit", "Keep", id="field.keep", tooltip="Keep what was typed"),
        Binding("tab", "app.focus_next", "Next field", id="field.next", tooltip="On to the next field"),
        Binding("escape", "leave", "Leave", id="field.leave", tooltip="Leave the field without keeping what was typed"),
    ]

    class Left(Message):
        """Escape was pressed in a field."""

    def __init__(self) -> None:
        super().__init__(compact=True)
        self.field = ""
        self.allowed: tuple[str, ...] = ()

    def set_field(self, name: str, value: str, places: Sequence[str]) -> None:
        """Stand for a field of that name with this value; places are completed as they are typed."""
        self.field = name
        self.allowed = ("", *choices(name)) if name == "shade" else choices(name)
        if name == "approx":
            self.allowed = ("", "yes")
        completed = [choice for choice in self.allowed if choice] or (list(places) if name == "place" else [])
        self.suggester = SuggestFromList(completed, case_sensitive=False) if completed else None
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

    def action_leave(self) -> None:
        """Say so; what becomes of the text is not the field's affair."""
        self.post_message(self.Left())


class FactFields(ItemGrid):
    """The fields of one fact. `show` fills them; until something differs nothing is being edited."""

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

    def __init__(self, **given: Any) -> None:
        super().__init__(min_column_width=22, **given)
        self._before: dict[str, str] = {}

    def compose(self) -> ComposeResult:
        """A row for each field that any kind of fact may have."""
        for _ in range(MOST_FIELDS):
            with Horizontal(classes="field"):
                yield Label("", markup=False)
                yield FieldInput()

    @property
    def inputs(self) -> list[FieldInput]:
        """The fields that are in use."""
        return [field for field in self.query(FieldInput) if field.field]

    @property
    def typed(self) -> dict[str, str]:
        """The fields that differ from what is on file, days as dates."""
        return {
            field.field: typed_day(field.value) if field.field in _DAYS else field.value
            for field in self.inputs
            if field.value != self._before.get(field.field, "")
        }

    def show(self, fact: Fact | None, places: Sequence[str] = ()) -> None:
        """Show the fields of a fact; None empties them."""
        names = field_names(fact.kind) if fact is not None else ()
        self._fill(((name, format_field(fact, name)) for name in names) if fact is not None else (), places)

    def blank(self, kind: str, given: dict[str, str], places: Sequence[str] = ()) -> None:
        """Empty fields for a new fact, with some filled in; those count as typed."""
        self._fill(((name, "") for name in field_names(kind)), places)
        for field in self.inputs:
            if field.field in given:
                field.value = given[field.field]

    def _fill(self, named: Iterable[tuple[str, str]], places: Sequence[str]) -> None:
        self._before = dict(named)
        names = list(self._before)
        for index, row in enumerate(self.query(".field")):
            row.display = index < len(names)
            name = names[index] if row.display else ""
            row.query_one(Label).update(_SHOWN.get(name, name))
            row.query_one(FieldInput).set_field(name, self._before.get(name, ""), places)

    def edit(self, name: str = FIGURE) -> None:
        """Put the cursor in a field, the first one where there is none of that name."""
        fields = self.inputs
        chosen = next((field for field in fields if field.field == name), fields[0] if fields else None)
        if chosen is not None:
            chosen.focus()

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self.post_message(self.Typed(self.typed))

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.post_message(self.Kept(self.typed))

    @on(FieldInput.Left)
    def _left(self, event: FieldInput.Left) -> None:
        event.stop()
        self.post_message(self.Left(self.typed))
