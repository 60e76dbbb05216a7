"""Sets of words that several rules ask about, made once from the word tables."""

from __future__ import annotations

from functools import cache

from journal.extract.sets import words_of
from journal.extract.unitwords import label_nouns, plural
from journal.grammar import table


@cache
def function_words() -> frozenset[str]:
    """Words of the language that name nothing."""
    return frozenset(table("fillers")["function"])


@cache
def thing_words() -> frozenset[str]:
    """Nouns of things that are measured, counted or fixed, singular and plural."""
    stock = table("stock")
    nouns = {word for noun in stock["things"]["words"] for word in noun.split()} - {"by", "two", "four"}
    return frozenset(nouns | {plural(noun) for noun in nouns}) | label_nouns() - frozenset(table("places")["surfaces"])


@cache
def dimension_words() -> frozenset[str]:
    """Every word of the dimension phrases but the small ones."""
    data = table("dimensions")
    phrases = [*data["nouns"], *data["openings"]["phrases"], *(one for one in data["adjectives"] if " " not in one)]
    small = words_of("dimension_small")
    return frozenset(word for phrase in phrases for word in phrase.split()) - small


@cache
def verbs() -> frozenset[str]:
    """Bare forms of the verbs of the work."""
    return frozenset(table("tasks")["verbs"])


@cache
def homographs() -> frozenset[str]:
    """Verbs of the work that are nouns too ("rake", "frame")."""
    return frozenset(table("tasks")["homographs"])


@cache
def past_forms() -> dict[str, str]:
    """Past forms and participles of the verbs, to the bare form."""
    data = table("tasks")
    forms: dict[str, str] = {}
    for verb in data["verbs"]:
        for form in _pasts(verb):
            forms.setdefault(form, verb)
    forms.update(data["irregular"])
    return forms


def bare(past: str) -> str:
    """The bare form of a past form, known or not: "creosoted" is "creosote", "scumbled" "scumble", "tapped" "tap"."""
    known = past_forms().get(past)
    if known is not None or not past.endswith("ed"):
        return known or past
    stem = past[:-2]
    if stem.endswith("i"):
        return stem[:-1] + "y"
    if stem[-1:] == stem[-2:-1] and stem[-1] in "bdgmnprt":
        return stem[:-1]
    return stem + "e" if _drops_e(stem) else stem


def _drops_e(stem: str) -> bool:
    """Whether a stem has lost an "e" before "-ed", as English spells it."""
    if stem.endswith(
        ("c", "v", "u", "z", "is", "dg", "rg", "ng", "ns", "rs", "at", "ot", "ut", "ur", "ir", "in", "id", "ag", "ul")
    ):
        return not stem.endswith(("ain", "oin", "eat", "oat", "oot", "out", "aid", "our", "air"))
    if stem.endswith("l") and stem[-2] not in _VOWELS + "lrw":
        return True
    single = stem[-1] not in _VOWELS + "wxy" and stem[-2] in _VOWELS and stem[-3] not in _VOWELS
    return single and not set(stem[:-2]) & set(_VOWELS)


@cache
def ing_forms() -> dict[str, str]:
    """The -ing forms of the verbs, to the bare form."""
    forms: dict[str, str] = {}
    for verb in table("tasks")["verbs"]:
        first, _, rest = verb.partition(" ")
        for form in _ings(first):
            forms.setdefault(f"{form} {rest}".strip() if rest else form, verb)
    forms.update({"wire brushing": "wire brush", "tying": "tie", "laying": "lay", "doing": "do"})
    return forms


def names_work(word: str) -> bool:
    """Whether a word is the -ing form of a work, known or not: "skiving", "cooping"."""
    return word in ing_forms() or (len(word) > 5 and word.endswith("ing") and word not in words_of("no_work_ing"))


_VOWELS = "aeiou"


def _doubled(verb: str) -> bool:
    return len(verb) > 2 and verb[-1] not in "aeiouwxy" and verb[-2] in _VOWELS and verb[-3] not in _VOWELS


def _pasts(verb: str) -> list[str]:
    if verb.endswith("e"):
        return [verb + "d"]
    if verb.endswith("y") and verb[-2] not in _VOWELS:
        return [verb[:-1] + "ied"]
    return [verb + verb[-1] + "ed", verb + "ed"] if _doubled(verb) else [verb + "ed"]


def _ings(verb: str) -> list[str]:
    if verb.endswith("ie"):
        return [verb[:-2] + "ying"]
    if verb.endswith("e") and not verb.endswith("ee"):
        return [verb[:-1] + "ing"]
    return [verb + verb[-1] + "ing", verb + "ing"] if _doubled(verb) else [verb + "ing"]
