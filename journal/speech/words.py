"""The words that every engine should expect, out of the tables in `grammars/`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from journal.grammar import table
from journal.paths import grammars_folder

_NOT_SAID = frozenset({"soundalikes", "spoken_form", "voice"})
"""Tables that hold what is written by mistake, or how figures are written; nobody is expected to say those."""
_WORDS = re.compile(r"[a-z]+(?:'[a-z]+)*(?: [a-z]+(?:'[a-z]+)*)*")


@cache
def trade_words() -> tuple[str, ...]:
    """Words and phrases of the trade that a general recogniser seldom writes by itself."""
    return tuple(dict.fromkeys(table("favoured")["words"]))


@cache
def all_words() -> tuple[str, ...]:
    """Every single word that stands in the tables, in alphabetical order."""
    names = sorted(path.stem for path in grammars_folder().glob("*.toml") if path.stem not in _NOT_SAID)
    return tuple(sorted({word for name in names for text in _texts(table(name)) for word in text.split()}))


@cache
def figure_words() -> frozenset[str]:
    """The words that figures are made of: numbers and what may stand below the line of a fraction."""
    spoken = table("spoken_form")
    numbers = spoken["numbers"]
    fractions = {word for pair in spoken["fractions"].values() for name in pair for word in name.split()}
    return frozenset({*numbers["ones"], *numbers["tens"], numbers["oh"], "hundred", "thousand", *fractions})


def _texts(part: Any) -> Iterator[str]:
    """The keys and values of a table that are plain words."""
    if isinstance(part, dict):
        for key, value in part.items():
            yield from _texts(key)
            yield from _texts(value)
    elif isinstance(part, list):
        for item in part:
            yield from _texts(item)
    elif isinstance(part, str) and _WORDS.fullmatch(part):
        yield part
