"""The line above every screen (where you are, what job) and the line below it (what is left, what is being worked on)."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content
from textual.widgets import Static

SCREENS = (("day", "Day"), ("place", "Place"), ("todo", "To do"), ("stock", "Stock"), ("find", "Find"))


class TopBar(Static):
    """The five screens by number, the one in hand in brackets, and the name of the job; each name can be clicked."""

    def __init__(self, here: str, job: str) -> None:
        names = [
            Content.from_markup(f"[@click=app.switch_mode('{name}')]{number}[/]").append(
                Content.from_markup(f"[@click=app.switch_mode('{name}')] {title} [/]")
            )
            if name != here
            else Content.styled(f"‹{number} {title}›", "bold reverse")
            for number, (name, title) in enumerate(SCREENS, 1)
        ]
        super().__init__(Content(" ").join([*names, Content.styled(f"  {job}", "$foreground 65%")]))


class StatusLine(Static):
    """What is left to look at; what is being worked on when that takes more than half a second."""

    def __init__(self) -> None:
        super().__init__("")
        self._parts: tuple[str, ...] = ()
        self.shown = ""

    def tell(self, *parts: str) -> None:
        """Show these remarks."""
        self._parts = parts
        self._draw(parts)

    def busy(self, what: str | None) -> None:
        """Put what is being worked on before them; None takes it away."""
        self._draw((f"… {what}", *self._parts) if what else self._parts)

    def _draw(self, parts: Iterable[str]) -> None:
        self.shown = " · ".join(part for part in parts if part)
        self.update(Content(self.shown), layout=False)
