"""What is counted: things, containers, kinds of wood, and the words for what happened to them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.unitwords import plural, word_at
from journal.extract.vocabulary import function_words, past_forms
from journal.grammar import table


@cache
def events() -> Phrases[str]:
    """Event phrases to events."""
    return Phrases(table("stock")["events"])


@cache
def species() -> Phrases[str]:
    """Kinds of wood."""
    return Phrases({name: name for name in table("stock")["species"]["words"]})


@cache
def singulars() -> dict[str, str]:
    """Things and containers, singular and plural, to the singular."""
    data = table("stock")
    nouns = [*data["things"]["words"], *data["containers"]["words"]]
    last_words = {noun.split()[-1] for noun in nouns}
    made = {plural(noun): noun for noun in last_words} | {noun: noun for noun in last_words}
    return made | {
        "batts": "batt",
        "feet": "foot",
        "shelves": "shelf",
        "halves": "half",
        "leaves": "leaf",
        "brushes": "brush",
        "knives": "knife",
        "sashes": "sash",
        "bodies": "body",
        "laths": "lath",
        "boxes": "box",
        "loaves": "loaf",
        "dowelling": "dowelling",
        "studs": "stud",
        "glass": "glass",
    }


@cache
def containers() -> frozenset[str]:
    """Containers and measures, singular."""
    return frozenset(table("stock")["containers"]["words"])


def event_at(words: Sequence[str], i: int) -> tuple[str, int] | None:
    """The event of stock at word `i` and the index after it."""
    found = events().at(words, i)
    if found is None or (words[i] == "cut" and i and words[i - 1] in words_of("kinds_of_cut")):
        return None
    if words[i] == "short" and word_at(words, i + 1) in ("point", "points", "side", "end", "leg", "rafter"):
        return None
    if words[i : found[1]] in _HAVE and _is_participle(words, found[1]):
        return None
    if words[i : found[1]] == ["came"] and word_at(words, i + 1) in _CAME_OTHERWISE:
        return ("received", i + 2) if _carried(words, i + 2) else None
    return found


_HAVE = (["have"], ["has"], ["had"], ["'ve"])


def _is_participle(words: Sequence[str], k: int) -> bool:
    """Whether "have" before word `k` only helps another verb: "a hundred scouts have swung on that beam"."""
    k += word_at(words, k) in ("all", "just", "already", "never", "always", "only", "ever", "not")
    word = word_at(words, k)
    return (word in past_forms() or word in words_of("participles")) and word not in (
        "cut",
        "put",
        "left",
        "found",
        "got",
        "set",
    )


def came_at(line: Line, k: int) -> bool:
    """Whether "came at thirty eight fifty a roll" stands at word `k`: it came, and its price follows."""
    price = line.figures.get(k + 2) if line.words[k : k + 2] == ["came", "at"] else None
    return price is not None and (price.kind == "money" or price.per is not None or price.each)


def _carried(words: Sequence[str], k: int) -> bool:
    """Whether a carrier is named at word `k`: "came up | on the barge", "came over with the milk boat"."""
    led = word_at(words, k) in ("on", "with", "by", "off") and not words_of("carriers").isdisjoint(words[k + 1 : k + 4])
    return led and words_of("conjunctions").isdisjoint(words[k + 1 : k + 3])


_CAME_OTHERWISE = frozenset({"up", "to", "out", "back", "down", "at", "from", "over", "with", "close", ""})


def counted_at(line: Line, i: int) -> bool:
    """Whether a count of something, or board feet, begins at word `i` or after words that say nothing of it."""
    k = _to_count(line, i, words_of("after_subject") | _LEADS, 3)
    if _count_at(line, k, i):
        return True
    far = _to_count(line, i, words_of("after_subject") | _LEADS | words_of("after_event"), 7)
    # "what came in was three dozen …": so far from its event only a count of a thing is one
    return far > k and _count_at(line, far, i) and _is_of_a_thing(line, far)


_LEADS = frozenset({"the", "my", "last", "first", "some", "all", "out"})


def section_follows(line: Line, k: int) -> bool:
    """Whether a section without a count begins at word `k`: "… came in two by twelve"."""
    figure = line.figures.get(k)
    if figure is None or figure.unit:
        return False
    if figure.kind == "section":
        return figure.second is None
    width = line.figures.get(figure.j + 1)
    sawn = figure.kind == "number" and figure.value <= 16 and word_at(line.words, figure.j) == "by"
    return sawn and width is not None and width.kind == "number" and not width.unit and 2 <= width.value <= 24


def _to_count(line: Line, i: int, passed: frozenset[str], most: int) -> int:
    """The index of the first word from `i` on that is a figure or is none of those passed over."""
    k = i
    while k < len(line.words) and k not in line.figures and k - i < most:
        if most > 3 and k in line.places and line.words[k - 1] in ("the", "from", "on", "at", "for"):
            k = line.places[k].j
        elif (
            most > 3
            and line.words[k : k + 2] == ["from", "the"]
            and k + 2 not in line.places
            and k + 2 < len(line.words)
        ):
            k += 3  # "received from the foundry two hinges"
        elif line.words[k] in passed or (most > 3 and line.words[k] in ("from", "in")):
            k += 1
        elif most > 3 and line.words[k - 1] == "the" and (kind := species().at(line.words, k)) is not None:
            k = kind[1]
        else:
            break
    return k


def _is_of_a_thing(line: Line, k: int) -> bool:
    figure = line.figures.get(k)
    return figure is None or figure.kind in ("board feet", "section") or names_stock(line.words, figure.j)


def _count_at(line: Line, k: int, i: int) -> bool:
    """Whether a count stands at word `k`, to be looked for from word `i` on."""
    words = line.words
    figure = line.figures.get(k)
    if figure is None:
        figure = next((f for f in line.figures.values() if f.i <= k < f.j and f.i >= i), None)
    if figure is not None:
        if figure.kind in ("board feet", "section"):
            return True
        if figure.kind == "number" and figure.unit == "":
            return True
        return (
            figure.kind == "length" and figure.unit == "" and figure.whole is not None and names_stock(words, figure.j)
        )
    if k < len(words) and words[k] in ("a", "an", "another") and k + 1 < len(words):
        k += words[k + 1] in words_of("whole_ones") and k + 2 < len(words)
        return singular_at(words, k + 1) is not None and (words[k + 1] in containers())
    return False


def names_stock(words: Sequence[str], i: int) -> bool:
    """Whether a thing, container or kind of wood is named within four words."""
    near = words[i : i + 4]
    if not singulars().keys().isdisjoint(near):
        return True
    return species().may_begin_in(near) and any(species().at(words, k) for k in range(i, i + len(near)))


def singular_at(words: Sequence[str], i: int) -> str | None:
    """The singular of the thing or container at word `i`."""
    return singulars().get(words[i]) if i < len(words) else None


def thing_at(words: Sequence[str], i: int) -> str | None:
    """The singular of the thing at word `i`, or of the thing that a word there says more of ("collar tie")."""
    if word_at(words, i) in words_of("whole_ones"):
        i += 1
    found = singular_at(words, i)
    if found is None and i + 1 < len(words) and words[i] not in function_words():
        found = singular_at(words, i + 1) if not words[i + 1].endswith("s") else None
    return found


def singular(word: str) -> str:
    """The singular of any noun."""
    known = singulars().get(word)
    if known:
        return known
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "sses")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word
