"""Small sets of words by name, from `grammars/sets.toml`."""

from __future__ import annotations

from functools import cache

from journal.grammar import table


@cache
def words_of(name: str) -> frozenset[str]:
    """A small set of words by its name in `grammars/sets.toml`."""
    return frozenset(table("sets")["sets"][name].split())
