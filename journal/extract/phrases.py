"""Phrases of several words, found longest first. Knows words, not what they mean."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Generic, TypeAlias, TypeVar

from journal.extract.tokens import tokenise

V = TypeVar("V")
_Rest: TypeAlias = tuple[tuple[str, ...], V]


class Phrases(Generic[V]):
    """A table of phrases to values; `at` finds the longest that begins at a word.

    Phrases stand under their first word and then their second, and under their last word, the longest first.
    """

    __slots__ = ("_by_first", "_by_last")

    def __init__(self, entries: Mapping[str, V]) -> None:
        by_first: dict[str, tuple[list[V], dict[str, list[_Rest[V]]]]] = {}
        by_last: dict[str, list[_Rest[V]]] = {}
        for phrase, value in sorted(
            ((tuple(split_words(phrase)), value) for phrase, value in entries.items()), key=lambda entry: -len(entry[0])
        ):
            alone, longer = by_first.setdefault(phrase[0], ([], {}))
            if len(phrase) == 1:
                alone.append(value)
            else:
                longer.setdefault(phrase[1], []).append((phrase[2:], value))
            by_last.setdefault(phrase[-1], []).append((phrase[:-1], value))
        self._by_first, self._by_last = by_first, by_last

    @classmethod
    def of(cls, phrases: Iterable[str], value: V) -> Phrases[V]:
        """A table in which every phrase has the same value."""
        return cls(dict.fromkeys(phrases, value))

    def at(self, words: Sequence[str], i: int) -> tuple[V, int] | None:
        """The value of the longest phrase at word `i`, and the index after it; None where there is none."""
        try:
            begun = self._by_first.get(words[i])
        except IndexError:
            return None
        if begun is None:
            return None
        alone, longer = begun
        if longer and i + 1 < len(words):
            for rest, value in longer.get(words[i + 1], ()):
                end = i + 2 + len(rest)
                if not rest or tuple(words[i + 2 : end]) == rest:
                    return value, end
        return (alone[0], i + 1) if alone else None

    def all_in(self, words: Sequence[str]) -> list[tuple[int, V, int]]:
        """For each word at which a phrase begins: its index, the value of the longest, and the index after that."""
        by_first = self._by_first
        if by_first.keys().isdisjoint(words) or self._by_last.keys().isdisjoint(words):
            return []
        begun = [(i, self.at(words, i)) for i, word in enumerate(words) if word in by_first]
        return [(i, *found) for i, found in begun if found is not None]

    def may_begin_in(self, words: Sequence[str]) -> bool:
        """Whether one of the words is the first of a phrase."""
        return not self._by_first.keys().isdisjoint(words)

    def first_words(self) -> frozenset[str]:
        """The words with which a phrase begins."""
        return frozenset(self._by_first)

    def beginnings(self, most: int) -> frozenset[tuple[str, ...]]:
        """The first words of each phrase, `most` of them where it has as many."""
        return frozenset((*before, last)[:most] for last, phrases in self._by_last.items() for before, _ in phrases)

    def last_words(self) -> frozenset[str]:
        """The words with which a phrase ends."""
        return frozenset(self._by_last)

    def ending_at(self, words: Sequence[str], end: int, longest: int = 5) -> tuple[V, int] | None:
        """The value of the longest phrase that ends before `end`, and the index of its first word."""
        for before, value in self._by_last.get(words[end - 1], ()) if end > 0 else ():
            i = end - 1 - len(before)
            if i >= 0 and len(before) < longest and tuple(words[i : end - 1]) == before:
                return value, i
        return None


def split_words(text: str) -> list[str]:
    """Words as the tokeniser makes them: the endings 's, 're, 've, 'll and 'd stand apart."""
    if _PLAIN.fullmatch(text):
        return text.split()
    return [token.text for token in tokenise(text)]


_PLAIN = re.compile(r"[a-z ]+")
