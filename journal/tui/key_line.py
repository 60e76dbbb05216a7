"""The keys that do something now, in one line at the bottom; each can be clicked."""

from __future__ import annotations

from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from journal.tui.key_names import KEY_NAMES, key_name

_PUNCTUATION = ("question_mark", "slash", "left_square_bracket", "right_square_bracket", "plus", "minus", "space")

_STAYS = 4.0  # seconds that a remark stands


class KeyLine(Static):
    """Keys of the screen and widget in hand, those of the app last; what does not fit is on the key sheet."""

    def __init__(self) -> None:
        super().__init__()
        self._remark = ""

    def remark(self, text: str) -> None:
        """Put a remark in the place of the keys for a few seconds, or until the next one."""
        self._remark = text
        self.update(Content.styled(text, "bold"), layout=False)

        def over() -> None:
            if self._remark == text:
                self._remark = ""
                self._show(self.screen)

        self.set_timer(_STAYS, over)

    def on_mount(self) -> None:
        """Follow the keys of the screen."""
        self.screen.bindings_updated_signal.subscribe(self, self._show)

    def on_resize(self) -> None:
        """Fit the new width."""
        self._show(self.screen)

    def _show(self, screen: Screen[object]) -> None:
        if self._remark or not self.is_attached or screen is not self.app.screen:
            return
        keys: dict[tuple[object, str], tuple[str, str]] = {}
        for key, active in screen.active_bindings.items():
            binding = active.binding
            if binding.show and not _is_typed(screen, key):
                shown = key_name(key)
                name = (active.node, binding.action)
                before = keys.get(name)
                if before is None or len(shown) < len(before[0]):
                    keys[name] = (shown, binding.description)
        sheet = keys.pop((self.app, "keys"), None)  # it names the others, so there is always room for it
        parts = [Content.styled(key, "bold reverse") + f" {what}" for key, what in keys.values()]
        last = Content.styled(sheet[0], "bold reverse") + f" {sheet[1]}" if sheet is not None else Content("")
        line = Content("")
        for part in parts:
            if line.cell_length + part.cell_length + 2 + last.cell_length > self.size.width:
                break
            line = line + part + "  "
        self.update(line + last, layout=False)


def _is_typed(screen: Screen[object], key: str) -> bool:
    """Whether a key is text for what has the focus, so that it does nothing else there."""
    character = key if len(key) == 1 else KEY_NAMES.get(key) if key in _PUNCTUATION else None
    return screen.focused is not None and screen.focused.check_consume_key(key, character)
