"""Names in figures that the memo itself shows: nouns numbered one after another, pairs with their noun said twice."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from journal.extract import numbers
from journal.extract.numbers import number_words
from journal.extract.sets import words_of
from journal.extract.stockwords import events
from journal.extract.unitwords import species, units
from journal.extract.vocabulary import dimension_words, function_words, ing_forms, past_forms, verbs


def numbered_in_turn(words: Sequence[str]) -> frozenset[str]:
    """Nouns that no table has and that are numbered one after another: "bastion one … bastion two's …"."""
    at: dict[str, list[int]] = {}
    named_by = number_words()
    for k, (word, following) in enumerate(pairwise(words)):
        if following not in named_by or words.count(word) < 2:
            continue
        small = numbers.below_hundred(words, k + 1)
        if small is not None and 0 < small[0] <= 20 and not _is_no_noun(word):
            at.setdefault(word, []).append(small[0])
    return frozenset(word for word, said in at.items() if len(said) > 1 and all(b == a + 1 for a, b in pairwise(said)))


@cache
def _no_nouns() -> frozenset[str]:
    small = function_words() | verbs() | number_words() | dimension_words() | words_of("never_numbered")
    return small | frozenset(past_forms()) | frozenset(ing_forms()) | frozenset(units()) | events().first_words()


def _is_no_noun(word: str) -> bool:
    """Whether a word cannot be numbered: a small word, verb, unit, wood, dimension, number or what happens to material."""
    return word in _no_nouns() or word.endswith("ly") or species().at([word], 0) is not None
