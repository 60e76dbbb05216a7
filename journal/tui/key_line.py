"""The keys that do something now, in one line at the bottom; each can be clicked."""

from __future__ import annotations

from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static


class KeyLine(Static):
    """Keys of the screen and widget in hand, those of the app last; what does not fit is on the key sheet."""

    def on_mount(self) -> None:
        """Follow the keys of the screen."""
        self.screen.bindings_updated_signal.subscribe(self, self._show)

    def on_resize(self) -> None:
        """Fit the new width."""
        self._show(self.screen)

    def _show(self, screen: Screen[object]) -> None:
        if not self.is_attached or screen is not self.app.screen:
            return
        shown = dict.fromkeys(
            active.binding.action for active in screen.active_bindings.values() if active.binding.show
        )
        bindings = {
            active.binding.action: active.binding
            for active in reversed(screen.active_bindings.values())
            if active.binding.show
        }
        parts = [
            Content.styled(f"{self.app.get_key_display(bindings[a])}", "bold reverse") + f" {bindings[a].description}"
            for a in shown
        ]
        line = Content("")
        for part in parts:
            if line.cell_length + part.cell_length + 2 > self.size.width:
                break
            line = line + part + "  "
        self.update(line, layout=False)
