"""Whether words sound so much like others that one may be heard for the other. Knows how words are said, no sound."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import SequenceMatcher
from functools import cache, lru_cache

from journal.speech.second_opinion import LANGUAGE, large_dictionary

_ALIKE, _ALIKE_SPELT, _ALIKE_LETTERS = 0.6, 0.65, 0.5
"""The share of sounds, or of letters, in common from which words are alike; the names of letters ("B", "D") have but two sounds."""
_STRESS = re.compile(r"\d")


def sound_alike(words: str, others: str) -> bool:
    """Whether these words may be heard for the others: "sixteen" for "sixty", "rogue gable" for "road gable"."""
    return _alike(words, others) if words != others else False


@lru_cache(4096)
def _alike(words: str, others: str) -> bool:
    one, two = _sounds(words), _sounds(others)
    if len(words) == len(others) == 1:
        return _share(one, two) >= _ALIKE_LETTERS
    # a name that no dictionary has ("wether") is known by its letters only
    return _share(one, two) >= _ALIKE or _share(words, others) >= _ALIKE_SPELT


def _share(one: Sequence[str], two: Sequence[str]) -> float:
    return SequenceMatcher(None, one, two, autojunk=False).ratio()


def _sounds(words: str) -> tuple[str, ...]:
    return tuple(sound for word in words.split() for sound in _said(word))


@cache
def _said(word: str) -> tuple[str, ...]:
    """The sounds of a word; its letters where no dictionary has it. A letter by itself is said by its name."""
    if len(word) == 1:
        return _LETTERS.get(word, (word,))
    phones = _trade_dictionary().get(word) or large_dictionary().get(word)
    return tuple(_STRESS.sub("", phones).split()) if phones else tuple(word)


@cache
def _trade_dictionary() -> dict[str, str]:
    lines = (LANGUAGE / "trade.dict").read_text(encoding="utf-8").splitlines()
    parts = (line.split(maxsplit=1) for line in lines)
    return {word: phones for word, phones in parts if phones}


_LETTERS = {
    name: tuple(phones.split())
    for name, phones in {
        "a": "EY", "b": "B IY", "c": "S IY", "d": "D IY", "e": "IY", "f": "EH F", "g": "JH IY", "h": "EY CH", "i": "AY",
        "j": "JH EY", "k": "K EY", "l": "EH L", "m": "EH M", "n": "EH N", "o": "OW", "p": "P IY", "q": "K UW", "r": "AA R",
        "s": "EH S", "t": "T IY", "u": "UW", "v": "V IY", "w": "D AH B AL", "x": "EH K S", "y": "W AY", "z": "Z IY",
    }.items()
}  # fmt: skip
"""The sounds of the names of letters, as the pronouncing dictionary of Carnegie Mellon writes them."""
