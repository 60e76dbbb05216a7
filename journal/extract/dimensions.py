"""Dimension words found in a line. Knows where they stand, not which figure they belong to."""

from __future__ import annotations

from functools import cache

from journal.extract.line import DimensionWord, Line
from journal.extract.outs import OUT_WORDS, out_at
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.vocabulary import function_words
from journal.grammar import table

ROUGH_OPENING = "rough opening"


@cache
def _phrases() -> Phrases[tuple[str, bool]]:
    data = table("dimensions")
    entries: dict[str, tuple[str, bool]] = dict.fromkeys(data["openings"]["phrases"], (ROUGH_OPENING, False))
    entries |= {phrase: (name, True) for phrase, name in data["adjectives"].items()}
    entries |= {phrase: (name, False) for phrase, name in data["nouns"].items()}
    entries |= dict.fromkeys(data["offsets"]["centre"], ("centre", False))
    return Phrases(entries)


@cache
def other_words() -> frozenset[str]:
    """What is read on a thing without a dimension of its own ("sag", "girth")."""
    return frozenset(table("dimensions")["other"]["words"])


@cache
def other_verbs() -> dict[str, str]:
    """Verbs that say such a reading ("sags"), to its name."""
    return dict(table("dimensions")["other_verbs"])


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a dimension can begin."""
    return _phrases().first_words() | OUT_WORDS


def find_dimensions(line: Line) -> None:
    """Every dimension word of the line that is no part of a figure or place."""
    words, phrases, beginnings = line.words, _phrases(), _beginnings()
    if beginnings.isdisjoint(words):
        return
    covered = {k for f in line.figures.values() for k in range(f.i, f.j)}
    covered |= {k for p in line.places.values() for k in range(p.i, p.j)}
    i = 0
    while i < len(words):
        if words[i] not in beginnings or i in covered:
            i += 1
            continue
        found = phrases.at(words, i)
        if found is None:
            out = out_at(words, i, covered) if words[i] in OUT_WORDS else None
            if out is not None:
                line.dimensions[i] = DimensionWord(i, out[1], out[0], True, " ".join(words[i : out[1]]))
            i = out[1] if out is not None else i + 1
            continue
        (name, adjective), end = found
        if words[i] in ("centres", "centers") and i - 1 in covered:
            name, adjective = "spacing", True
        if not _is_dimension(words, i, end, name, covered):
            i += 1
            continue
        if name == "run" and words[i] == "run" and _is_verb_run(words, i, covered):
            name = "length"
        if name in ("out of level", "out of plumb", "out of square"):
            adjective = True
        line.dimensions[i] = DimensionWord(i, end, name, adjective, " ".join(words[i:end]))
        i = end


def _is_dimension(words: list[str], i: int, end: int, name: str, figures: set[int]) -> bool:
    """Whether a dimension word is one here: no base of a cabinet, no dump run, no "going to want"."""
    before, following = words[i - 1] if i else "", words[end] if end < len(words) else ""
    said = words[i:end]
    if said == ["base"]:
        return _is_base(words, i)
    if said == ["going"]:
        return before not in words_of("copulas") | {
            "was",
            "been",
            "still",
            "saw",
            "radio",
        } and following not in words_of("not_after_going")
    if name == "run":
        return before not in words_of("trips")
    if (
        name == "rake"
        and before == "the"
        and i > 1
        and words[i - 2] in ("at", "on", "along", "up", "off", "from", "to")
    ):
        return False  # "twelve at the rake": where the overhang was measured
    if said[-1] in ("long", "short") and said[0] == "to":
        return following == "" or end in figures or following in function_words() | words_of("which_of_them")
    return True


def _is_verb_run(words: list[str], i: int, figures: set[int]) -> bool:
    """ "Joists in the loft run eleven foot": what several sticks run is their length."""
    k = i + 1
    while k < len(words) and words[k] in ("about", "around", "roughly", "to", "at"):
        k += 1
    if k not in figures and i + 1 not in figures:
        return False
    return any(word in words_of("members") and word.endswith("s") for word in words[max(0, i - 6) : i])


def _is_base(words: list[str], i: int) -> bool:
    """Whether "base" is the base of a gable: the gable's own, or a figure or "is" follows."""
    following = words[i + 1] if i + 1 < len(words) else ""
    before = words[max(0, i - 4) : i]
    if following in (
        "board",
        "boards",
        "plate",
        "plates",
        "cabinet",
        "cabinets",
        "trim",
        "coat",
        "moulding",
        "molding",
        "course",
    ):
        return False
    return (following in ("of", "is", "'s", "end") and ("gable" in words)) or "gable" in before
