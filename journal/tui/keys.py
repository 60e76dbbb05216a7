"""The key sheet: every key of the screen in hand with what it does, from the bindings themselves."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from journal.tui.marks import quiet

MARKS = (
    ("word?", "a word that is doubted, or not surely heard"),
    ("word!", "the end of a stretch that could not be used"),
    ("underlined", "what the fact in hand was heard from"),
    ("?", "a fact that is doubted and waits to be looked at"),
    ("✓", "a fact that was found right, or corrected by hand"),
    ("[ ] [~] [x]", "open, waiting, done or cut; [m] measured; ! overdue"),
    ("≠ and …", "facts that disagree; something to say next"),
    ("~ + -", "about, strong, shy; ~ before a figure: rounded"),
)
_WIDTH, _KEYS = 71, 14  # cells of a line of the sheet, and of the keys in it
Key = tuple[str, str]


class KeySheet(ModalScreen[None]):
    """All keys that work now, then the marks."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,question_mark,enter,q", "leave", "Back", id="keys.back", tooltip="Back to the screen"),
    ]

    def __init__(self, keys: list[Key]) -> None:
        super().__init__()
        self._keys = keys

    def compose(self) -> ComposeResult:
        """Keys and marks, a line each."""
        with VerticalScroll(classes="asking sheet"):
            yield Static(Content.styled("Keys", "bold"))
            yield Static(Content("\n").join(_lines(self._keys)))
            yield Static(Content.styled("Marks", "bold"))
            yield Static(Content("\n").join(_lines(MARKS)))
            yield Static(quiet("Every action is a command too: journal --help lists them."))

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)


def _lines(rows: list[Key] | tuple[Key, ...]) -> list[Content]:
    lines = []
    for key, what in rows:
        first, *more = Content(what).wrap(_WIDTH - _KEYS)
        lines += [Content.styled(f"{key:<{_KEYS}}", "bold") + first, *(line.pad_left(_KEYS) for line in more)]
    return lines
