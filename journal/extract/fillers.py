"""Hesitations and opening words ("um", "right so") dropped; spans stay as they were."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from journal.extract import numbers
from journal.extract.numbers import number_words
from journal.extract.phrases import Phrases
from journal.extract.tokens import Token
from journal.extract.vocabulary import verbs
from journal.grammar import table


@cache
def _filler_phrases(key: str) -> Phrases[int]:
    return Phrases.of(table("fillers")[key], 1)


@cache
def _like_words() -> frozenset[str]:
    return frozenset(table("fillers")["like"])


_BEFORE_LIKE_STAYS = frozenset(
    {"looks", "look", "feels", "sounds", "something", "smells", "just", "more", "'d", "would"}
)


def without_fillers(tokens: list[Token]) -> list[Token]:
    """The tokens less hesitations ("um", "you know") and opening words ("right so"); spans stay as they were."""
    words = [token.text for token in tokens]
    beginnings = _beginnings()
    if beginnings.isdisjoint(words):
        return tokens
    anywhere, opening, like = _filler_phrases("anywhere"), _filler_phrases("opening"), _like_words()
    kept: list[Token] = []
    i = 0
    while i < len(words):
        if words[i] not in beginnings:
            kept.append(tokens[i])
            i += 1
            continue
        led = i == 0 or words[i - 1] in ("and", "then")
        if led and words[i : i + 2] == ["after", "that"] and i + 2 < len(words) and words[i + 2] in verbs():
            i += 2  # "… and after that tape the seams"
            continue
        if words[i] in _LEADS and (end := remark_end(words, i)) is not None:
            i = end
            continue
        found = anywhere.at(words, i) or (opening.at(words, i) if not kept else _closing(words, i))
        if found and not _means_something(words, i, found[1], bool(kept)):
            i = found[1]
        elif words[i] in like and i and words[i - 1] not in _BEFORE_LIKE_STAYS:
            i += 1
        else:
            kept.append(tokens[i])
            i += 1
    return kept


def _closing(words: list[str], i: int) -> tuple[int, int] | None:
    """A remark at the end of a clause ("… saturday will you"), and the index after it."""
    found = _filler_phrases("closing").at(words, i)
    ends = found and (found[1] >= len(words) or words[found[1]] in ("and", "but", "then", "so", "also", "plus"))
    return found if ends else None


_LEADS = frozenset({"like", "as", "than", "per", "against", "which", "what", "that"})


@cache
def _beginnings() -> frozenset[str]:
    """Words with which something that is dropped can begin."""
    phrases = _filler_phrases("anywhere").first_words() | _filler_phrases("opening").first_words()
    phrases |= _filler_phrases("closing").first_words()
    return phrases | _like_words() | _LEADS | {"after"}


def remark_end(words: list[str], i: int) -> int | None:
    """The index after "like the drawing says", "as per the plan": where a figure came from, no part of what it measures."""
    k = i + 1 + (words[i] == "as" and words[i + 1 : i + 2] == ["per"])
    k += words[k : k + 1] in (["the"], ["that"], ["my"], ["his"], ["their"], ["on"])
    k += words[k : k + 1] == ["the"]
    end = k
    while end < len(words) and end < k + 3 and words[end] in sources():
        end += 1
    if end == k:
        return None
    if words[i] in ("as", "per") and words[end : end + 1] not in [[verb] for verb in telling()]:
        return end if words[i] == "per" or words[i + 1] == "per" else None
    if end < len(words) and words[end] in telling():
        end += 1
        return end + (words[end : end + 1] in (["for"], ["it"], ["them"], ["at"]))
    return None


@cache
def sources() -> frozenset[str]:
    """What a figure may be read from instead of measured: a plan, a label."""
    return frozenset(table("fillers")["sources"])


@cache
def telling() -> frozenset[str]:
    """Verbs that say what a plan or label has."""
    return frozenset(table("fillers")["telling"])


def source_of(led: Sequence[str]) -> str | None:
    """The plan, label or person that the words before a figure have it from: "the drawing says the sill's …"."""
    return next((word for word, verb in pairwise(led) if word in sources() and verb in telling()), None)


def _means_something(words: list[str], i: int, end: int, inside: bool) -> bool:
    """Whether a filler's words say something here: "right side", "hold on", "next tuesday", "another dozen"."""
    following = words[end] if end < len(words) else ""
    first = words[i]
    if first == "actually" and end == i + 1 and following in {"", "and", "but", "then", "so"}:
        return inside and (words[i - 1] in number_words() or numbers.denominator(words, i - 1) is not None)
    if inside:
        return False
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
