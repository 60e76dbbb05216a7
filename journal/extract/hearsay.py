"""What is told of or by somebody: "my old man always swore it was twelve", "he's got forty". Such figures are none of this job's."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.fillers import telling
from journal.extract.line import Line
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.vocabulary import past_forms

_FARTHEST = 18
_NEAR = 5


def told_by_somebody(line: Line, i: int) -> bool:
    """Whether the sentence before word `i` has a person for its subject who says, has or is something."""
    words = line.words
    if _tellers().isdisjoint(words[:i]):
        return False
    start = _sentence(words, i)
    for k in range(i - 1, start - 1, -1):
        if not _is_somebody(line, k):
            continue
        verb = next((n for n in range(k + 1, min(k + 1 + _NEAR, i)) if _is_finite(words, n)), None)
        thing = verb is not None and words[k] in ("he", "she") and words[verb] in words_of("copulas")
        if verb is not None and not _is_object(words, k, start) and not (thing and words[verb + 1] != "got"):
            return True  # but "she's a quarter out of plumb" is a wall
    return _says_so(words, max([start, *(f.j for f in line.figures.values() if f.j <= i)]), i)


@cache
def _somebody() -> frozenset[str]:
    return words_of("persons") | {"he", "she"}


@cache
def _tellers() -> frozenset[str]:
    """Words without which nobody tells anything."""
    return _somebody() | words_of("hearsay")


@cache
def _ends_sentence() -> frozenset[str]:
    return words_of("sentence_ends") | {"anyway", "well", "now", "though"}


@cache
def _finite() -> frozenset[str]:
    return telling() | words_of("hearsay", "copulas") | {"'d"}


def said_of_it(words: Sequence[str], j: int) -> bool:
    """Whether "they say", "he reckons", "when my dad bought them" stands right behind the figure that ends before word `j`."""
    word = word_at(words, j)
    if word in ("they", "he", "she"):
        return word_at(words, j + 1) in words_of("says")
    return word == "when" and not words_of("persons").isdisjoint(words[j + 1 : j + 4])


def _says_so(words: Sequence[str], start: int, i: int) -> bool:
    """ "They said forty", "it said fifteen on the list", "the badge on the door says troop nine": what no gauge says."""
    said = set(words[start:i])
    if words_of("hearsay").isdisjoint(words[max(start, i - 3) : i]) or not words_of("gauges").isdisjoint(said):
        return False
    return {"i", "we"}.isdisjoint(said)


def _sentence(words: Sequence[str], i: int) -> int:
    """Where the sentence of word `i` begins: after a conjunction that a subject follows."""
    k = i
    while k > 0 and i - k < _FARTHEST:
        ends = words[k - 1] in _ends_sentence() and k < i
        if ends and not _is_finite(words, k + (words[k] == "still")):
            return k
        anew = words[k - 1] in ("it", "they", "that") and words[k] in words_of("reads", "copulas")
        if anew and k > 1 and words[k - 2] not in telling() | words_of("hearsay") | {"that", "if", "what"}:
            return k - 1  # "the wife says it's cold | it reads fifty"
        if words[k - 1] in ("i", "we") and words[k] not in ("'d",) and words[k - 2 : k - 1] not in (["that"], ["what"]):
            return k - 1
        k -= 1
    return k


def _is_somebody(line: Line, k: int) -> bool:
    """Whether word `k` is a person, and neither in a place's name nor the owner of what follows ("the keeper's door")."""
    words = line.words
    if words[k] not in _somebody() or any(p.i <= k < p.j for p in line.places.values()):
        return False
    return word_at(words, k + 1) != "'s" or _after_is(words, k + 2)


def _after_is(words: Sequence[str], k: int) -> bool:
    """Whether "'s" before word `k` is "is" or "has": "he's got", "the lad's been", "the vet's coming"."""
    word = word_at(words, k)
    return word in ("got", "been", "a", "the", "not", "always", "never") or word in past_forms() or word.endswith("ing")


def _is_finite(words: Sequence[str], k: int) -> bool:
    """Whether word `k` is a verb that says something of its subject."""
    word = word_at(words, k)
    return word in _finite() or (word in past_forms() and word.endswith("ed"))


def _is_object(words: Sequence[str], k: int, start: int) -> bool:
    """Whether the person at word `k` is paid, asked or worked with, and says nothing: "paid the plumber ninety"."""
    while k > start and words[k - 1] in words_of("determiners", "of_persons"):
        k -= 1
    before = words[k - 1] if k > start else ""
    return before in words_of("before_persons") or before in words_of("pay_verbs", "calls")
