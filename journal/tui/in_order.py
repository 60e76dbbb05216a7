"""Fields to type in that obey keys in the order typed, however fast they come.

Textual hands a key that is bound up to the app and back, while a letter goes straight in. On a busy machine the letters typed
after a Backspace would be in the field before it, and it would take the wrong one away.
"""

from __future__ import annotations

from textual.events import Key
from textual.widget import Widget
from textual.widgets import Input


async def obey(field: Widget, event: Key) -> None:
    """Do at once what a field has bound to a key: its `on_key` calls this."""
    bound = field._bindings.key_to_bindings.get(event.key)
    if bound and not event.is_printable:
        event.stop()
        event.prevent_default()
        await field.run_action(bound[0].action)


class OneLine(Input):
    """A line to type in."""

    async def on_key(self, event: Key) -> None:
        """Backspace, Enter and the like act at once, as letters do."""
        await obey(self, event)
