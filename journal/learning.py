"""What corrections teach the engines: words heard wrong before, each with what was meant. Nothing is stored for it.

Whether words, a fact or an answer was put right, by hand or by saying so, comes to the same: what was heard is doubted from
then on where it sounds like what was meant, and a word or place that was meant is favoured. A figure is never favoured: the
one that was said would be heard as the other.
"""

from __future__ import annotations

import difflib
import os
from collections import Counter
from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from journal.grammar import table
from journal.readback import figure_words as figure_said
from journal.records import Fact, Stock
from journal.refigured import FIGURES, changes, figure_runs, plain
from journal.rows import FactRow
from journal.saying import name_words
from journal.speech.alike import sound_alike
from journal.speech.readings import figure_stretches
from journal.speech.words import all_words, figure_words
from journal.store import Store

if TYPE_CHECKING:
    from journal.speech.base import Vocabulary

LEARNT = "learnt"
"""The reason of a doubt that a correction taught."""
_LONGEST = 4
"""Words that may be put right together, figures apart; more is another memo."""
Pair = tuple[str, str]
"""What was heard, and what was meant."""


def vocabulary(store: Store) -> Vocabulary:
    """What the engines should favour: places and species of this journal, and what was put right; and what to doubt.

    Empty where JOURNAL_LEARNING is off.
    """
    from journal.speech.base import Vocabulary

    if os.environ.get("JOURNAL_LEARNING", "").lower() in ("off", "no", "0"):
        return Vocabulary()
    places = {name_words(place) for place in store.places()}
    learnt = put_right(store, places)
    species = (filed.fact.species for filed in store.facts(kinds=("stock",)) if isinstance(filed.fact, Stock))
    meant = (meant for _, meant in learnt if not _is_figure(meant))
    favoured = dict.fromkeys([*(place.lower() for place in store.places()), *filter(None, species), *meant])
    names = tuple(pair for pair in learnt if _is_no_name(pair, places))
    return Vocabulary(tuple(favoured), tuple(learnt), names)


def put_right(store: Store, places: Collection[str] = ()) -> list[Pair]:
    """What was heard wrong before, oldest first; not what was found right since more often than it was put right.

    Words that belong to the name of one of these places go with the whole of it.
    """
    times: Counter[Pair] = Counter()
    for heard, meant in store.worded_anew():
        pairs = _of_words(heard.split(), meant.split())
        times.update(dict.fromkeys((_of_place(pair, heard, meant, places) for pair in pairs), 1))
    for before, now in store.facts_anew():
        times.update(dict.fromkeys(_of_facts(store, before, now), 1))
    if times:
        for row in store.found_right(LEARNT):
            times.subtract(_found_right(store, row))
    return [pair for pair, count in times.items() if count >= 0]


def _is_no_name(pair: Pair, places: Collection[str]) -> bool:
    """Whether what was heard can only have been the place that was meant: "scary wall", and no wall that may yet come up."""
    heard, meant = pair
    return (
        meant in places and heard not in places and not set(heard.split()) <= set(all_words()) and not _is_figure(heard)
    )


# ---- words ---------------------------------------------------------------------------------------------------------


def _of_words(old: list[str], new: list[str]) -> Iterator[Pair]:
    """The stretches in which two wordings of a memo differ; a figure whole, unless the words of it that differ sound alike."""
    for tag, i, j, k, m in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag != "replace" or j - i > _LONGEST or m - k > _LONGEST:
            continue
        heard, meant = " ".join(old[i:j]), " ".join(new[k:m])
        if (_is_figure(heard) or _is_figure(meant)) and not sound_alike(heard, meant):
            heard, meant = _whole(old, i, j), _whole(new, k, m)
        yield heard, meant


def _of_place(pair: Pair, old: str, new: str, places: Collection[str]) -> Pair:
    """Words put right as the whole name that they are of: "rogue", "road" as "rogue gable", "road gable"."""
    heard, meant = pair
    for name in places:
        was = f" {name} ".replace(f" {meant} ", f" {heard} ", 1).strip()
        if was != name and f" {name} " in f" {new} " and f" {was} " in f" {old} ":
            return was, name
    return pair


def _whole(words: list[str], first: int, last: int) -> str:
    """The figure that a stretch of words is of, whole."""
    around = [(i, j) for i, j in figure_stretches(words) if i < last and j > first]
    return " ".join(words[min([first, *(i for i, _ in around)]) : max([last, *(j for _, j in around)])])


def _is_figure(words: str) -> bool:
    return any(word in figure_words() for word in words.split())


# ---- facts ---------------------------------------------------------------------------------------------------------


def _of_facts(store: Store, before: FactRow, now: FactRow) -> list[Pair]:
    """What was heard wrong where one fact stands for another; nothing where only the mind was changed.

    A figure counts in any case; a name only where it sounds like the other one.
    """
    heard = _text(store, before)
    differ = changes(before.fact, now.fact)
    if differ & {min(fields) for fields in FIGURES.get(type(before.fact), ())}:
        said_anew = _text(store, now) if now.transcript != before.transcript else ""
        return list(_of_figures(before.fact, now.fact, heard, said_anew))
    pairs = []
    for name in sorted(differ):
        was, is_now = getattr(before.fact, name), getattr(now.fact, name)
        if isinstance(was, str) and isinstance(is_now, str) and f" {name_words(was)} " in f" {heard} ":
            old, new = name_words(was), name_words(is_now)
            if any(sound_alike(*pair) and not _plain_words(pair) for pair in _of_words(old.split(), new.split())):
                pairs.append((old, new))
    return pairs


def _plain_words(pair: Pair) -> bool:
    """Whether both are words that tell places and things from their like, which no engine takes for each other: east and west."""
    return set(pair) <= set(table("places")["modifiers"])


def _of_figures(before: Fact, now: Fact, heard: str, said_anew: str) -> Iterator[Pair]:
    """The words of a figure that was heard wrong, as they were heard, and of the one that was meant."""
    runs = figure_runs(heard)
    own = [run for run in runs if plain(run) == plain(figure_said(before))] or runs
    anew = figure_runs(said_anew)
    new = anew[0] if len(anew) == 1 else figure_said(now)
    if len(own) == 1 and plain(own[0]) != plain(new):
        yield from _of_words(plain(own[0]).split(), plain(new).split())


def _text(store: Store, row: FactRow) -> str:
    """The words that a fact rests on."""
    transcript = store.transcript(row.transcript)
    start, end = row.fact.evidence
    return str(transcript["text"])[start:end] if transcript else ""


def _found_right(store: Store, row: FactRow) -> list[Pair]:
    """The pairs whose doubt of a fact was settled for what was heard."""
    transcript = store.transcript(row.transcript)
    text = str(transcript["text"]) if transcript else ""
    learnt = [doubt for doubt in row.fact.doubts if doubt.reason == LEARNT]
    return [(text[doubt.span.start : doubt.span.end], other) for doubt in learnt for other in doubt.other]
