"""What a thing measured before it was changed, told beside what it measures now: only the new figure stands.

 "The window was twenty eight wide before they bricked half of it now it's nineteen and a quarter" becomes "the window was
nineteen and a quarter wide".
"""

from __future__ import annotations

from itertools import pairwise

from journal.extract.line import Figure, Line
from journal.extract.parts import Part, first_word
from journal.extract.sets import words_of
from journal.extract.tokens import Token
from journal.extract.unitwords import word_at

_LENGTHS = ("number", "length")


def as_it_is_now(line: Line) -> list[Token] | None:
    """The words with the new figure in the place of the one before, None where none was told so."""
    words = line.words
    if words_of("was_then").isdisjoint(words):
        return None
    figures = sorted(line.figures.values(), key=lambda f: f.i)
    for old, new in pairwise(figures):
        if old.kind not in _LENGTHS or new.kind not in _LENGTHS or not _was(words, old):
            continue
        end = line.dimensions[old.j].j if old.j in line.dimensions else old.j
        lead = _lead(words, end, new)
        if lead is None or (lead == end and words[old.i - 2 : old.i] != ["to", "be"]) or new.j in line.dimensions:
            continue
        if any(lead <= k < new.i for k in line.dimensions) or any(lead <= k < new.i for k in line.places):
            continue
        if (
            lead > end
            and words[end] not in words_of("ended_then", "when_it_was")
            and words[old.i - 2 : old.i] != ["to", "be"]
        ):
            continue
        start = old.i - (3 if words[old.i - 3 : old.i] == ["used", "to", "be"] else 0)
        copula = [line.tokens[new.i - 1]] if start < old.i else []
        rest = new.j + (word_at(words, new.j) == "now")
        return [
            *line.tokens[:start],
            *copula,
            *line.tokens[new.i : new.j],
            *line.tokens[old.j : end],
            *line.tokens[rest:],
        ]
    return None


def _was(words: list[str], old: Figure) -> bool:
    return words[old.i - 1] in ("was", "were") or words[old.i - 3 : old.i] == ["used", "to", "be"]


def _lead(words: list[str], end: int, new: Figure) -> int | None:
    """Where "now it's", "it's" before the new figure begins, None where something else leads to it."""
    k = new.i
    while k > end and words[k - 1] in ("about", "more", "like", "only", "just", "now", "exactly"):
        k -= 1
    if k - 1 <= end or words[k - 1] not in ("'s", "is", "are", "'re") or words[k - 2] not in ("it", "they", "that"):
        return None
    k -= 2
    while k > end and words[k - 1] in ("now", "and", "but", "so", "today"):
        k -= 1
    return k


def of_then(line: Line, part: Part, parts: list[Part]) -> bool:
    """Whether a part tells what was, behind what is: "it was fifteen before i packed it up", "yesterday i said eleven foot"."""
    words, k = line.words, first_word(line, part.i, part.j)
    before = parts[: parts.index(part)]
    if not any(one.i <= m < one.j for m in line.figures for one in before):
        return False
    was = words[k] in ("it", "they") and word_at(words, k + 1) in ("was", "were") and k + 2 in line.figures
    if was:
        return not words_of("of_then").isdisjoint(words[line.figures[k + 2].j : part.j])
    return words[k : k + 2] == ["i", "said"] and words[k - 1] in words_of("time_before") and k + 2 in line.figures


def was_then(line: Line, part: Part, parts: list[Part]) -> bool:
    """Whether what was is said to be past behind it: "… were ninety cents each and half were cracked | that was before the flood"."""
    words = line.words
    if words_of("was_then").isdisjoint(words[part.i : part.j]):
        return False
    for later in parts[parts.index(part) + 1 :][:2]:
        k = first_word(line, later.i, later.j)
        if words[k : k + 2] == ["that", "was"] and word_at(words, k + 2) in words_of("when_it_was") | {"then", "years"}:
            return True
    return False


def is_now(line: Line, part: Part) -> bool:
    """Whether a part tells of now: "now it's two ten a foot"."""
    words, k = line.words, first_word(line, part.i, part.j)
    now = words[k - 1] == "now" or word_at(words, part.j - 1) == "now"
    return now and words[k] in ("it", "they") and word_at(words, k + 1) in ("'s", "'re", "is", "are")
