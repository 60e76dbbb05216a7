"""The words that places are named by, from `grammars/places.toml` and `grammars/sites.toml`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.grammar import table

DETERMINERS = frozenset({"the", "a", "an", "my", "our", "their", "his", "that", "this"})


@cache
def heads() -> Phrases[str]:
    """Nouns that places are named by, to their sort: "numbered", "room", "surface", or "led" where a preposition has to lead to them."""
    data, sites = table("places"), table("sites")
    closed = [first + second for first in data["closed_first"] for second in data["closed_second"]]
    sorts = (
        dict.fromkeys(data["numbered"], "numbered")
        | dict.fromkeys(sites["led"], "led")
        | dict.fromkeys(closed, "room")
        | dict.fromkeys(closed_up(sites_rooms()), "room")
        | dict.fromkeys(sites_rooms(), "room")
        | dict.fromkeys(data["rooms"], "room")
    )
    return Phrases(sorts | dict.fromkeys(data["surfaces"], "surface"))


@cache
def single_rooms() -> frozenset[str]:
    """Rooms and buildings of one word: "woodshop", "scriptorium"."""
    data = table("places")
    closed = [first + second for first in data["closed_first"] for second in data["closed_second"]]
    return frozenset(room for room in (*data["rooms"], *closed, *sites_rooms()) if " " not in room)


@cache
def first_words() -> frozenset[str]:
    """The words with which a noun that places are named by begins."""
    return heads().first_words()


@cache
def sites_rooms() -> tuple[str, ...]:
    """Rooms, buildings and parts of sites, by trade, that are a place by themselves."""
    return tuple(phrase for key, phrases in table("sites").items() if key not in _NO_ROOMS for phrase in phrases)


_NO_ROOMS = ("led", "led_on", "closed", "no_place")


@cache
def weak_words() -> frozenset[str]:
    """Common words that are a place only by themselves after "the", "in" or "at", or with a name before them."""
    return place_words("weak") | frozenset(table("sites")["weak"])


def closed_up(phrases: Iterable[str]) -> list[str]:
    """Names of two words written as one: "tastingroom"."""
    seconds = frozenset(table("sites")["closed"])
    pairs = [phrase.split() for phrase in phrases]
    return ["".join(pair) for pair in pairs if len(pair) == 2 and pair[1] in seconds and pair[0].isalpha()]


@cache
def place_phrases(key: str) -> Phrases[str]:
    """The phrases of one table of `grammars/places.toml`."""
    return Phrases.of(table("places")[key], key)


@cache
def place_words(key: str) -> frozenset[str]:
    """The words of one table of `grammars/places.toml`."""
    return frozenset(table("places")[key])


@cache
def letter_words() -> dict[str, str]:
    """Words that sound like a letter ("see"), to the letter."""
    return dict(table("places")["letter_words"])


@cache
def _led_on() -> frozenset[str]:
    return frozenset(table("sites")["led_on"])


def is_led(words: Sequence[str], i: int, noun: str) -> bool:
    """Whether "in the", "at our", "up inside the", "behind the" or, where one stands on it, "on the" or "up on the" leads to a noun whose name begins at word `i`."""
    if i < 2 or words[i - 1] not in DETERMINERS:
        return False
    if words[i - 2] == "of":
        return i > 2 and words[i - 3] in place_words("surfaces")
    stands_on = noun in _led_on() or (i > 2 and words[i - 3] in ("up", "down", "out"))
    return words[i - 2] in words_of("place_leads") or (words[i - 2] == "on" and stands_on)
