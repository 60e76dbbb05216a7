"""Questions about strength, span or size of what carries: refused with a sentence, never a fact or a number."""

from __future__ import annotations

from functools import cache

from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.grammar import table
from journal.records import Problem

_WEAK = frozenset({"is", "are", "will", "would", "can", "could", "does", "should", "whether", "how many", "what can"})


@cache
def _tables() -> tuple[Phrases[str], frozenset[str], frozenset[str]]:
    data = table("questions")
    return Phrases({p: p for p in data["asking"]}), frozenset(data["strength"]), frozenset(data["members"])


def refused(line: Line) -> tuple[int, Problem] | None:
    """Where a question about strength begins, and the refusal; None where none is asked."""
    asking, strength, members = _tables()
    words = line.words
    if strength.isdisjoint(words):
        return None
    for i, asked, end in asking.all_in(words):
        if i and words[i - 1] not in ("and", "so", "but", "then", "or", "wonder", "wondering", "sure", "know"):
            continue
        rest = words[end:]
        weak = asked in _WEAK
        if weak and (i + 1 >= len(words) or words[i + 1] in ("'t",)):
            continue
        if any(word in members for word in rest) and (not weak or any(word in strength for word in rest)):
            from journal.refusals import REFUSED  # its patterns take longer to make than a memo to read

            span = line.span(i, len(words))
            return i, Problem(REFUSED, span, "It is kept as said; no figure is given for it.")
    return None
