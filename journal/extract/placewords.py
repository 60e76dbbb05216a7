"""The words that places are named by, from `grammars/places.toml`."""

from __future__ import annotations

from functools import cache

from journal.extract.phrases import Phrases
from journal.grammar import table

DETERMINERS = frozenset({"the", "a", "an", "my", "our", "their", "his", "that", "this"})


@cache
def heads() -> Phrases[str]:
    """Nouns that places are named by, to their sort: "numbered", "room" or "surface"."""
    data = table("places")
    closed = [first + second for first in data["closed_first"] for second in data["closed_second"]]
    sorts = (
        dict.fromkeys(closed, "room")
        | dict.fromkeys(data["numbered"], "numbered")
        | dict.fromkeys(data["rooms"], "room")
    )
    return Phrases(sorts | dict.fromkeys(data["surfaces"], "surface"))


@cache
def place_phrases(key: str) -> Phrases[str]:
    """The phrases of one table of `grammars/places.toml`."""
    return Phrases.of(table("places")[key], key)


@cache
def place_words(key: str) -> frozenset[str]:
    """The words of one table of `grammars/places.toml`."""
    return frozenset(table("places")[key])


@cache
def letter_words() -> dict[str, str]:
    """Words that sound like a letter ("see"), to the letter."""
    return dict(table("places")["letter_words"])
