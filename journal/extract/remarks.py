"""Remarks between two figures that tell that the first was wrong: "no i lied", "the hook slipped", "i was on the wrong line".

Whatever the words, they name nothing that is built: one of them tells of a mistake, and all are of the talk about measuring.
"""

from __future__ import annotations

from itertools import pairwise

from journal.extract.line import Figure
from journal.extract.said import Said, TakenBack, takeback_phrases
from journal.extract.sets import words_of
from journal.extract.tokens import Token
from journal.extract.unitwords import inches_text

_LONGEST = 16


def remark_back(said: Said) -> list[Token] | None:
    """The words with a remark between two figures put as a plain "sorry", which the rules of replacement read."""
    line = said.line
    words, tokens = line.words, line.tokens
    if len(line.figures) < 2 or words_of("takeback_cues").isdisjoint(words):
        return None
    figures = sorted(line.figures.values(), key=lambda f: f.i)
    for old, new in pairwise(figures):
        start = _remark_start(said, old, new)
        if start is not None:
            return [*tokens[:start], tokens[start]._replace(text="sorry"), *tokens[new.i :]]
    return None


def earlier_said(said: Said, heard: TakenBack) -> list[Token] | None:
    """ "Earlier i gave the base as nine foot well it's nine foot one": what was said or noted of a thing before goes, the new figure stands.

    So it does where the thing comes first ("that bench i called in at thirty four it's really thirty five") or between the
    two figures ("i said six hours on the trusses it was seven").
    """
    line = said.line
    words, tokens = line.words, line.tokens
    k = next((n for n in range(1, min(len(words), 12)) if _is_told(words, n)), None)
    if k is None or len(line.figures) < 2:
        return None
    who = k - 1 - (words[k - 1] not in ("i", "we"))
    start = who
    while start > 0 and words[start - 1] in words_of("time_before"):
        start -= 1
    old, new = sorted(line.figures.values(), key=lambda f: f.i)[:2]
    if old.i < k or (not {old.kind, new.kind} <= {"number", "length"} and old.kind != new.kind and new.unit):
        return None
    if start > 0 and not set(words[k + 1 : old.i]) <= words_of("told_as", "time_before"):
        return None
    end = old.j
    while end in line.dimensions and line.dimensions[end].adjective:
        end = line.dimensions[end].j
    between = [n for n in range(end, new.i) if not any(p.i <= n < p.j for p in line.places.values())]
    if end == new.i:
        return None
    if {words[n] for n in between} <= words_of("now_it_is"):
        end = next((n for n in between if words[n] in ("it", "well", "but", "make", "that")), end)
    elif (end := _it_is(said, end, new.i)) == 0:
        return None
    left = [n for n in range(k + 1, old.i) if words[n] not in words_of("told_as")] if start == 0 else []
    if old.kind == "hours":
        heard.denied.append((old.value, inches_text(old.value), line.span(k, old.j)))
        left = [*range(start, who), *left]
    return [
        *tokens[: start if start > 0 else 0],
        *(tokens[n] for n in left),
        *tokens[old.i : end],
        tokens[min(end, new.i - 1)]._replace(text="sorry"),
        *tokens[new.i :],
    ]


def _is_told(words: list[str], n: int) -> bool:
    """Whether the speaker says at word `n` what was said before: "i said", "i'd put down"."""
    if words[n] not in words_of("told_before"):
        return False
    return words[n - 1] in ("i", "we") or (
        words[n - 1] in ("'d", "had", "'ve") and words[n - 2 : n - 1] in (["i"], ["we"])
    )


def _it_is(said: Said, i: int, j: int) -> int:
    """Where "it was", "but it's really" begins right before the figure at `j`, only a place or thing told of before it from `i` on; else 0."""
    words, k = said.line.words, j
    while k > i and words[k - 1] in words_of("now_it_is") - {"it", "that", "in", "on", "at", "of"}:
        k -= 1
    if k <= i or words[k - 1] not in ("it", "that", "they") or k == j:
        return 0
    k -= 1
    while k > i and words[k - 1] in ("but", "well", "no"):
        k -= 1
    told = set(words[i:k])
    return 0 if told & (words_of("copulas", "conjunctions") | {"no"}) or k == i else k


def _remark_start(said: Said, old: Figure, new: Figure) -> int | None:
    """Where the remark before a figure begins; None where other things are said between the two."""
    words = said.line.words
    cues = words_of("takeback_cues")
    k = new.i
    first: int | None = None
    while k > old.j and new.i - k < _LONGEST and _is_talk(words, k - 1) and not _named(said, k - 1):
        k -= 1
        if words[k] in cues:
            first = k
    if first is None or k - old.j > 4 or "and" in words[old.j : k]:
        return None
    while words[k] in words_of("takeback_joints"):
        k += 1
    plain = takeback_phrases("replace").at(words, k)
    return None if k >= new.i or (plain is not None and plain[1] >= new.i) else k


def talk_to_the_end(words: list[str], k: int) -> bool:
    """Whether all from word `k` on is talk of the measuring: "… scrub that i was reading the wrong end of the tape"."""
    return all(_is_talk(words, n) for n in range(k, len(words)))


def _is_talk(words: list[str], k: int) -> bool:
    word = words[k]
    if word in words_of("takeback_cues") or word in words_of("takeback_talk"):
        return True
    return "wrong" in words[max(0, k - 2) : k]  # "the wrong end", "the wrong species setting"


def _named(said: Said, k: int) -> bool:
    """Whether word `k` is part of a place, dimension, name or date."""
    line = said.line
    return (
        any(p.i <= k < p.j for p in line.places.values())
        or any(d.i <= k < d.j for d in line.dimensions.values())
        or any(i <= k < j for i, (j, _) in said.labels.items())
        or any(d.i <= k < d.j for d in said.dues)
    )
