"""Nouns that no table has, taken for a place where they are led to like one: "in the scriptorium the bench is …".

Only a noun that is no word of any table and no common thing, time, stuff or paper can be one, and only where what stands around
it is what one says of a room. Each carries a doubt of the lowest level, unless the journal knows it already.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

from journal.extract.dimensions import other_words
from journal.extract.line import Figure, Line, PlaceWord, joined
from journal.extract.numbers import number_words
from journal.extract.placewords import DETERMINERS, first_words, heads, place_words
from journal.extract.sets import words_of
from journal.extract.vocabulary import dimension_words, function_words, ing_forms, past_forms, thing_words, verbs
from journal.grammar import table
from journal.records import Doubt, Known

_TABLES = (
    "stock",
    "tasks",
    "dimensions",
    "figures",
    "numbers",
    "due",
    "talk",
    "fillers",
    "takebacks",
    "sets",
    "asides",
    "readings",
)
_LEADS = frozenset({"in", "inside", "at", "for"})
_PARTICLES = frozenset({"up", "down", "out", "over", "back", "round", "around"})


def find_new_places(line: Line, known: Known) -> None:
    """Adds the places of the line that no table has, each wherever it is named again."""
    words = line.words
    if _LEADS.isdisjoint(words):
        return
    names: dict[str, tuple[int, int]] = {}
    for k, word in enumerate(words):
        if word not in _LEADS or words[k + 1 : k + 2] not in (["the"], ["our"]):
            continue
        end = _name_end(line, k + 2)
        if end is not None and _leads_to_place(line, k, end):
            names.setdefault(joined(words[k + 2 : end]), (k + 2, end))
    for name, (i, j) in names.items():
        line.places |= {k: PlaceWord(k, k + j - i, name, head=words[j - 1]) for k in _named_again(line, i, j)}
        if name not in known.places and name != known.carried_place:
            line.doubts.append(
                Doubt("place", f"'{name}' was taken for a place; no table has it", line.span(i, j), level=1)
            )
    if names:
        line.places = dict(sorted(line.places.items()))


def _named_again(line: Line, i: int, j: int) -> Iterator[int]:
    """The first words of every mention of the name at words `i` to `j`."""
    name = line.words[i:j]
    for k in range(len(line.words) - len(name) + 1):
        if line.words[k : k + len(name)] == name and not any(
            p.i < k + len(name) and k < p.j for p in line.places.values()
        ):
            yield k


def _name_end(line: Line, i: int) -> int | None:
    """The index after a noun that no table has, with the words that tell it from others: "lower scriptorium"; None where there is none."""
    words = line.words
    for end in range(i + 1, min(i + 3, len(words)) + 1):
        if any(p.i < end and i < p.j for p in line.places.values()) or line.figure_over(end - 1) is not None:
            return None
        if is_new_noun(words[end - 1]):
            following = words[end] if end < len(words) else ""
            if is_new_noun(following) and end - i < 2:
                continue  # "chantry priory": the second is the noun
            return end
        if words[end - 1] not in place_words("modifiers") and words[end - 1] not in first_words():
            return None
    return None


def _leads_to_place(line: Line, k: int, end: int) -> bool:
    """Whether what stands around "in the NAME" at word `k` is what one says of a room."""
    following = line.words[end] if end < len(line.words) else ""
    if following in ("of", "'s", "to", "for") and not (following == "'s" and not _is_owner(line, end)):
        return False
    before = k - 1 - (k > 0 and line.words[k - 1] in _PARTICLES)
    if line.words[k] == "for":
        return _orders(line.words, end)
    return _opens(line, before, end) or _is_there(line, before, k)


def _orders(words: Sequence[str], k: int) -> bool:
    """Whether an order begins at word `k`: "sweep the flue", "bolt down the winch", "hang two doors"."""
    after = words[k + 1] if k + 1 < len(words) else ""
    led = after in DETERMINERS or after in ("up", "down", "out", "off", "all", "both") or after in number_words()
    return k < len(words) and words[k] in verbs() and led


def _is_owner(line: Line, k: int) -> bool:
    """Whether "'s" at word `k` is no copula: no figure, participle or state stands behind it."""
    following = line.words[k + 1] if k + 1 < len(line.words) else ""
    return (
        line.figure_over(k + 1) is None
        and following not in function_words()
        and following not in past_forms() | ing_forms()
    )


def _opens(line: Line, before: int, end: int) -> bool:
    """ "In the NAME the bench is …", "down in the NAME bench one …", "in the NAME grout the joints": something there follows."""
    words = line.words
    begins = before < 0 or words[before] in _BEFORE_ANEW or words[before] in table("due")["weekdays"]
    if not begins or end >= len(words):
        return False
    following = words[end]
    if _orders(words, end):
        return True
    after = words[end + 1] if end + 1 < len(words) else ""
    if following in thing_words() and after in DETERMINERS:
        return False  # "at the cattle grid the rails are …": it names that grid
    led = following in DETERMINERS | thing_words() | dimension_words() or following in _GOES_ON
    return led and not _is_moisture(line, end, following)


_BEFORE_ANEW = (
    "and",
    "then",
    "but",
    "'m",
    "'re",
    "i'm",
    "we're",
    "am",
    "here",
    "do",
    "tomorrow",
    "today",
    "tonight",
    "week",
    "month",
)
_GOES_ON = (
    "it",
    "we",
    "i",
    "there",
    "both",
    "all",
    "from",
    "moisture",
    "humidity",
    "temperature",
    "right",
    "now",
    "and",
)


def _is_moisture(line: Line, k: int, following: str) -> bool:
    """Whether the next figure is what a meter says of the noun itself: "in the NAME it's nineteen percent"."""
    figure = next((f for i, f in sorted(line.figures.items()) if i >= k), None)
    return (
        figure is not None and figure.kind == "percent" and following in ("it", "and") and "humidity" not in line.words
    )


def _is_there(line: Line, before: int, k: int) -> bool:
    """Whether what stands at word `before` is in the room that "in the NAME" at `k` leads to: a thing, a size, hours, the heat of the air."""
    if before < 0:
        return False
    words, word = line.words, line.words[before]
    if word == "moisture":
        return False  # "moisture in the garboard": wood is read
    if before < k - 1 or word in ("humidity", "temperature", "morning", "afternoon", "day"):
        return True  # "down in the NAME", "spent the morning in the NAME"
    figure = next((f for f in line.figures.values() if f.i <= before < f.j), None)
    hours = any(f.kind == "hours" and f.i <= before for f in line.figures.values())
    if figure is not None and not any(i <= before < j for i, (j, _) in line.labels.items()):
        return figure.kind == "hours" or _of_the_air(line, figure)
    if hours:
        return word not in words_of("cut_into")
    if word in words_of("cut_into") or word in other_words() or word in function_words() or _is_put(words, before):
        return False
    if words[k] == "at" and word not in dimension_words():
        return _is_task(words, before)
    if word in dimension_words():
        return word in ("spacing", "span", "opening", "rise", "height", "reveal", "reveals") or word in thing_words()
    measured = any(i > k and f.kind in ("length", "number", "degrees") for i, f in line.figures.items())
    return _is_task(words, before) or (measured and word not in verbs()) or before in _ends(line)


def _is_put(words: Sequence[str], before: int) -> bool:
    """Whether what stands before is put into a thing: "drill two holes in the gudgeon", no "put up the shelves"."""
    back = range(max(0, before - 6), before)
    return any(words[n] in words_of("put_into") and words[n + 1] != "up" for n in back)


def _ends(line: Line) -> set[int]:
    """The last words of names in figures: "stud bay six"."""
    return {end - 1 for end, _ in line.labels.values()}


def _of_the_air(line: Line, figure: Figure) -> bool:
    """Whether a figure right before "in the NAME" is of the air there, or of a thing named before it: "the maple's at nine percent"."""
    words = line.words
    if figure.kind == "degrees" or (figure.kind == "number" and "degrees" in words):
        return True
    if figure.kind != "percent":
        return False
    back = words[max(0, figure.i - 5) : figure.i]
    if "humidity" in words and "moisture" not in words:
        return True
    return bool(thing_words() & set(back)) and not words_of("meters") & set(words)


def _is_task(words: Sequence[str], before: int) -> bool:
    """Whether work stands before: "grease the bell pulley", "hung both doors"."""
    back = range(max(0, before - 6), before)
    return any((words[n] in verbs() or words[n] in past_forms()) and words[n] not in function_words() for n in back)


def is_new_noun(word: str) -> bool:
    """Whether a word may name a place though no table has it: one noun, no common thing, time, stuff or paper."""
    if len(word) < 3 or not word.isalpha() or word in _vocabulary() or word in _no_places() or heads().at([word], 0):
        return False
    if word in function_words() or word in number_words() or word in past_forms() or word in ing_forms():
        return False
    if word.endswith(_NO_PLACE_ENDINGS) and not word.endswith(("works", "house")):
        return False
    return not (word.endswith("s") and not word.endswith(("ss", "us", "is"))) or word.endswith("works")


_NO_PLACE_ENDINGS = ("ing", "ed", "ly", "tion", "sion", "ness", "ity", "ance", "ence", "ism", "ist", "ful", "est")


@cache
def _no_places() -> frozenset[str]:
    """Nouns after "in the" that are no place, from `grammars/sites.toml`."""
    return frozenset(" ".join(table("sites")["no_place"]).split())


@cache
def _vocabulary() -> frozenset[str]:
    """Every word of every table but those of places: what has a meaning already names no new place."""
    return frozenset(word for name in _TABLES for text in _texts(table(name)) for word in text.split()) | thing_words()


def _texts(part: Any) -> Iterator[str]:
    if isinstance(part, dict):
        for key, value in part.items():
            yield key
            yield from _texts(value)
    elif isinstance(part, list):
        for item in part:
            yield from _texts(item)
    elif isinstance(part, str):
        yield part
