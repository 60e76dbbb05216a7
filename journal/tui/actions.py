"""Every action of the screen in hand as a row of the command palette, from the bindings themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from textual.binding import Binding
from textual.command import DiscoveryHit, Hit, Hits, Provider

_MOVES = ("cursor", "page", "scroll", "delete", "select", "copy", "cut", "paste", "submit", "complete", "first", "last")


class Actions(Provider):
    """What can be done now, found by name or by what it does."""

    def _known(self) -> Iterator[tuple[str, str, Callable[[], Any]]]:
        screen = self.screen
        chain = [*([screen.focused] if screen.focused is not None else []), screen, self.app]
        seen: set[str] = set()
        for node in chain:
            for binding in node._bindings.key_to_bindings.values():
                for one in binding:
                    if _is_named(one) and one.id not in seen and one.id is not None:
                        seen.add(one.id)
                        yield one.description, one.tooltip, partial(self.app.run_action, one.action, node)

    async def discover(self) -> Hits:
        """All of them."""
        for name, told, run in self._known():
            yield DiscoveryHit(name, run, help=told)

    async def search(self, query: str) -> Hits:
        """Those that match what is typed."""
        matcher = self.matcher(query)
        for name, told, run in self._known():
            score = max(matcher.match(name), matcher.match(told))
            if score > 0:
                yield Hit(score, matcher.highlight(name), run, help=told)


def _is_named(binding: Binding) -> bool:
    return bool(binding.id and binding.tooltip and binding.description) and not binding.action.startswith(_MOVES)
