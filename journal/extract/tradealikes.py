"""Words of the trade that a recogniser wrote for others of the same sound ("out of plum", "west cable"), by what stands beside them.

Knows `words` and `classes` of `grammars/soundalikes.toml`, and nothing of number words that sound alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from journal.extract import numbers
from journal.extract.placewords import single_rooms
from journal.extract.sets import words_of
from journal.extract.tokens import tokenise
from journal.grammar import table


@dataclass(frozen=True, slots=True)
class _Alike:
    said: str
    before: frozenset[str]
    after: frozenset[str]
    both: bool
    phrases: tuple[tuple[int, tuple[str, ...]], ...]
    unless: frozenset[str]
    given: frozenset[str]

    def fits(self, words: Sequence[str], i: int) -> bool:
        """Whether what stands beside word `i` shows that this was said."""
        if self.unless and not self.unless.isdisjoint(words):
            return False
        if self.given and self.given.isdisjoint(words):
            return False
        if not self.before and not self.after and not self.phrases:
            return True
        before = i > 0 and words[i - 1] in self.before
        after = i + 1 < len(words) and words[i + 1] in self.after
        if (before and after) if self.both else (before or after):
            return True
        return any(_stands(words, i - at, phrase) for at, phrase in self.phrases)


def trade_word(words: Sequence[str], i: int) -> str | None:
    """The word of the trade that was said at word `i` for the one written there, or None."""
    for alike in _alikes().get(words[i], ()):
        if alike.fits(words, i):
            return alike.said
    return None


def suspects() -> frozenset[str]:
    """The words that may stand for one of the trade."""
    return frozenset(_alikes())


@cache
def _alikes() -> dict[str, list[_Alike]]:
    found: dict[str, list[_Alike]] = {}
    for entry in table("soundalikes")["words"]:
        found.setdefault(entry["heard"], []).append(_alike(entry))
    return found


def _alike(entry: dict[str, Any]) -> _Alike:
    return _Alike(
        entry["said"],
        _set(entry.get("before", "")),
        _set(entry.get("after", "")),
        bool(entry.get("both")),
        tuple(_phrase(phrase, entry["heard"]) for phrase in entry.get("phrases", ())),
        _set(entry.get("unless", "")),
        _set(entry.get("given", "")),
    )


def _set(words: str) -> frozenset[str]:
    """The words of a list; a place that a number word may take is `<number>`."""
    out = set(words.split())
    if "<number>" in out:
        out |= numbers.number_words()
    return frozenset(out)


def _phrase(phrase: str, heard: str) -> tuple[int, tuple[str, ...]]:
    """Where the word heard stands in a phrase, and the phrase as words and kinds of words."""
    parts: list[str] = []
    for piece in phrase.replace("<goes on>", "<goes_on>").split():
        parts += [piece] if piece.startswith("<") else [token.text for token in tokenise(piece)]
    return parts.index(heard), tuple(parts)


@cache
def _kinds() -> dict[str, frozenset[str]]:
    kinds = {f"<{name}>": frozenset(words.split()) for name, words in table("soundalikes")["classes"].items()}
    number = frozenset(numbers.number_words()) | frozenset(table("soundalikes")["numbers"]) - {"free"}
    kinds["<number>"] = number
    kinds["<goes_on>"] = number | {"and"}
    kinds["<room>"] |= single_rooms()
    kinds["<mod>"] |= frozenset(table("places")["modifiers"]) - words_of("never_a_gable")
    return kinds


def _stands(words: Sequence[str], start: int, phrase: tuple[str, ...]) -> bool:
    """Whether a phrase stands at word `start`; `<start>` and `<end>` take no word."""
    k = start + (phrase[0] == "<start>")
    if phrase[0] == "<start>" and k != 0:
        return False
    if k < 0:
        return False
    for part in phrase[phrase[0] == "<start>" :]:
        if part == "<end>" or (part == "<goes_on>" and k == len(words)):
            return k == len(words)
        if k >= len(words) or (words[k] not in _kinds()[part] if part.startswith("<") else words[k] != part):
            return False
        k += 1
    return True
