"""Small sets of words by name, from `grammars/sets.toml`."""

from __future__ import annotations

from functools import cache

from journal.grammar import table


@cache
def words_of(*names: str) -> frozenset[str]:
    """The words of one small set of `grammars/sets.toml` by its name, or of several together; put together once."""
    sets = table("sets")["sets"]
    return frozenset(word for name in names for word in sets[name].split())
