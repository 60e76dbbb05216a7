"""What happened on the site and is no work of the builder's own: "the glass came", "staging's down"."""

from __future__ import annotations

from functools import cache

from journal.extract.found import Found, place_near
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.grammar import table
from journal.records import Aside


@cache
def _happened_verbs() -> Phrases[str]:
    return Phrases({verb: verb for verb in table("tasks")["happened"]["verbs"]})


@cache
def happened_nouns() -> frozenset[str]:
    """What comes, goes, goes up or comes down on a site ("staging", "glass")."""
    return frozenset(table("tasks")["happened"]["nouns"])


def find_happenings(line: Line, place: str | None) -> list[Found]:
    """ "The glass came", "staging's down", "took down the staging"; `place` is that of the memo before."""
    nouns = happened_nouns()
    found = (_happened_at(line, k, place) for k, word in enumerate(line.words) if word in nouns)
    return [one for one in found if one is not None]


def _happened_at(line: Line, k: int, place: str | None) -> Found | None:
    """What happened to the thing at word `k`; None where it is an object, a condition or a measure."""
    words, word = line.words, line.words[k]
    start = k
    while start > 0 and words[start - 1] in ("the", "our", "all", "old", "new", "last"):
        start -= 1
    if any(f.j == start and f.kind in ("number", "section") for f in line.figures.values()):
        return None
    led = words[start - 1] if start else ""
    if (led == "and" or _clause_end(line, start)) and any(
        word in words_of("condition_lookback") - {"before"} for word in words[max(0, start - 10) : start]
    ):
        return None
    if led == "down" and start >= 2 and words[start - 2] in ("took", "taken"):
        # keep: the taking down is work, and stays for the tasks
        return _happening(line, f"the {word} is down", start - 2, k + 1, place_near(line, k) or place, keep=True)
    if led in words_of("condition_lookback") | {
        "before",
        "soon",
        "waiting",
        "on",
        "for",
        "of",
        "from",
        "at",
        "with",
        "to",
    } or (
        led
        and led not in words_of("conjunctions") | {"now", "finally", "that", "today"}
        and not _clause_end(line, start)
    ):
        return None
    m = k + 1
    while m < len(words) and words[m] in ("finally", "just", "all", "now", "already"):
        m += 1
    copula = words[m : m + 1] in (["'s"], ["'re"])
    spoken = ["is" if w == "'s" else "are" if w == "'re" else w for w in words[m : m + 5]]
    if copula or words[m : m + 1] in (["is"], ["are"]):
        spoken = [spoken[0], *[w for w in spoken[1:] if w not in ("finally", "all", "now", "just")]]
    found = _happened_verbs().at(spoken, 0) if spoken else None
    if found is None:
        return None
    end = m + found[1]
    while end < len(words) and words[end] in ("now", "today", "finally", "yesterday", "this", "morning"):
        end += 1
    if end < len(words) and words[end] not in words_of("conjunctions") | {
        "at",
        "on",
        "in",
        "we",
        "i",
        "the",
        "for",
        "off",
    }:
        return None
    if any(m <= i < end + 1 for i in line.figures):
        return None
    said = found[0]
    if word in words_of("own_work_nouns") and said in ("is done", "are done", "finished", "is finished"):
        return None
    text = f"the {word} {table('asides')['present'].get(said, said)}"
    return _happening(line, text, start, end, place_near(line, k))


def _happening(line: Line, text: str, i: int, j: int, place: str | None, *, keep: bool = False) -> Found:
    aside = Aside(topic="happened", text=text, place=place, evidence=line.span(i, j), rule="aside.happened")
    return Found(aside, i, j, keep)


def _clause_end(line: Line, k: int) -> bool:
    """Whether something ends right before word `k`: a place or figure."""
    return any(p.j == k for p in line.places.values()) or any(f.j == k for f in line.figures.values())
