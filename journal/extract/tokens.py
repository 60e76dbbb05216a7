"""The words of a memo with their places in the text, cleared of what says nothing.

A contraction is two words ("it's" is "it" and "'s"), so that the copula is seen; "don't" stays one.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from journal.grammar import table


class Token(NamedTuple):
    """A word in lower case; `text[start:end]` of the memo is what it was. `heard` is the word before a repair."""

    text: str
    start: int
    end: int
    heard: str = ""


_TOKEN = re.compile(r"\$|\d+(?:[.,]\d+)*(?:/\d+)?|[a-z]+n't\b|[^\W\d_]+|'(?:s|re|ve|ll|d|m)\b|['\"%/]")
_LONE = frozenset({"'", "/", '"'})


def tokenise(text: str) -> list[Token]:
    """All words of a text with their spans; punctuation is passed over."""
    lower = text.lower().replace("’", "'").replace("”", '"')
    if len(lower) != len(text):  # a letter whose lower case is longer: spans must still fit
        lower = "".join(c.lower() if len(c.lower()) == 1 else c for c in text).replace("’", "'").replace("”", '"')
    return [Token(match[0], match.start(), match.end()) for match in _TOKEN.finditer(lower)]


@cache
def _fillers() -> tuple[object, object, frozenset[str]]:
    from journal.extract.phrases import Phrases

    words = table("fillers")
    return Phrases.of(words["anywhere"], 1), Phrases.of(words["opening"], 1), frozenset(words["like"])


_BEFORE_LIKE_STAYS = frozenset({"looks", "look", "feels", "sounds", "something", "smells", "just", "more"})


def without_fillers(tokens: list[Token]) -> list[Token]:
    """The tokens less hesitations ("um", "you know") and opening words ("right so"); spans stay as they were."""
    from journal.extract.phrases import Phrases

    anywhere, opening, like = _fillers()
    assert isinstance(anywhere, Phrases)
    assert isinstance(opening, Phrases)
    words = [token.text for token in tokens]
    kept: list[Token] = []
    i = 0
    while i < len(words):
        found = anywhere.at(words, i) or (opening.at(words, i) if not kept else None)
        if found and not _means_something(words, i, found[1], bool(kept)):
            i = found[1]
        elif words[i] in like and i and words[i - 1] not in _BEFORE_LIKE_STAYS:
            i += 1
        else:
            kept.append(tokens[i])
            i += 1
    return kept


def _means_something(words: list[str], i: int, end: int, inside: bool) -> bool:
    """Whether a filler's words say something here: "right side", "hold on", "next tuesday", "another dozen"."""
    following = words[end] if end < len(words) else ""
    if inside:
        return False
    first = words[i]
    if first == "right" and end == i + 1:
        return following in {
            "side",
            "end",
            "hand",
            "rake",
            "wall",
            "gable",
            "one",
            "post",
            "jamb",
            "corner",
            "slope",
            "half",
        }
    if first == "next":
        return following in _days() or following in {"week", "month", "year", "weekend"}
    if first == "here":
        return following not in {"'s", "we", "goes"}
    if first == "well":
        return following in {"house", "cover", "head", "cap", "pump"}
    return False


@cache
def _days() -> frozenset[str]:
    return frozenset(table("due")["weekdays"])
