"""Keys as they are shown to people: ``^z``, ``⏎``, ``/``."""

from __future__ import annotations

KEY_NAMES = {
    "question_mark": "?", "slash": "/", "left_square_bracket": "[", "right_square_bracket": "]", "plus": "+",
    "minus": "-", "enter": "⏎", "escape": "esc", "delete": "del", "up": "↑", "down": "↓", "left": "←", "right": "→",
}  # fmt: skip


def key_name(key: str) -> str:
    """A key as it is shown: ``^z``, ``⏎``, ``/``."""
    return KEY_NAMES.get(key, key.replace("ctrl+", "^"))
