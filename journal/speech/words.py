"""The words that every engine should expect, out of the tables in `grammars/`."""

from __future__ import annotations

from functools import cache

from journal.grammar import table


@cache
def trade_words() -> tuple[str, ...]:
    """Words and phrases of the trade that a general recogniser seldom writes by itself."""
    return tuple(dict.fromkeys(table("favoured")["words"]))
