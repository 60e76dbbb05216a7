"""The words of a memo with their places in the text.

A contraction is two words ("it's" is "it" and "'s"), so that the copula is seen; "don't" stays one.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Token(NamedTuple):
    """A word in lower case; `text[start:end]` of the memo is what it was. `heard` is the word before a repair."""

    text: str
    start: int
    end: int
    heard: str = ""


_TOKEN = re.compile(r"\$|\d+(?:[.,]\d+)*(?:/\d+)?|[a-z]+n't\b|[^\W\d_]+|'(?:s|re|ve|ll|d|m)\b|['\"%/]")


def tokenise(text: str) -> list[Token]:
    """All words of a text with their spans; punctuation is passed over."""
    lower = text.lower().replace("’", "'").replace("”", '"')
    if len(lower) != len(text):  # a letter whose lower case is longer: spans must still fit
        lower = "".join(c.lower() if len(c.lower()) == 1 else c for c in text).replace("’", "'").replace("”", '"')
    return [Token(match[0], match.start(), match.end()) for match in _TOKEN.finditer(lower)]
