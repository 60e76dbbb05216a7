"""How far something is off, in any order of the words: "plumb on the post is off a quarter", "the sill's three eighths out".

Which of plumb, level and square is meant is said, goes on from before, or is told by the thing; else it is asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from journal.extract.sets import words_of

OUT = "out"
_NOUNS = {"plumb": "out of plumb", "level": "out of level", "square": "out of square"}
OUT_WORDS = frozenset({*_NOUNS, "out", "off"})
OUT_OF = (*_NOUNS.values(), OUT)


def out_at(words: Sequence[str], i: int, figures: AbstractSet[int]) -> tuple[str, int] | None:
    """What is off at word `i` and the index after the word: "plumb" before its "off", a bare "out" or "off" beside a figure."""
    word = words[i]
    if word in _NOUNS:
        return (_NOUNS[word], i + 1) if _is_subject(words, i, figures) else None
    if word not in ("out", "off"):
        return None
    before, following = words[i - 1] if i else "", words[i + 1] if i + 1 < len(words) else ""
    if following in ("of", "from", "to"):
        return None
    if i - 1 in figures:
        ends = following in ("", "and", "but", "so", "then", "over", "in", "at", "on", "again", "still")
        return (OUT, i + 1) if ends and (word == "out" or following in ("", "and", "but", "so", "in", "over")) else None
    by = following in ("by", "about", "maybe", "around", "almost", "nearly")
    if before in words_of("copulas") | {"still", "now"} and (i + 1 in figures or (by and i + 2 in figures)):
        return OUT, i + 1
    return None


def _is_subject(words: Sequence[str], i: int, figures: AbstractSet[int]) -> bool:
    """Whether "plumb" or "level" is what is off: "off" or "out" stands within the next words, beside the figure."""
    if i and words[i - 1] in ("of", "off", "dead", "is", "'s", "long", "foot", "spirit", "laser"):
        return False
    for k in range(i + 1, min(i + 10, len(words))):
        if words[k] in ("off", "out"):
            return k + 1 in figures or k - 1 in figures or words[k + 1 : k + 2] == ["by"]
        if words[k] in words_of("conjunctions"):
            return False
    return False


def meant(subject: str | None, before: str | None) -> str | None:
    """Which way a thing is out that only "out" was said of: that of the figure before, or that of its sort; else None."""
    if before in _NOUNS.values():
        return before
    parts = set((subject or "").split())
    for name, sort in (("out of plumb", "upright"), ("out of level", "level"), ("out of square", "squared")):
        if parts & words_of(sort):
            return name
    return None
