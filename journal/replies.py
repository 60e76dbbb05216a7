"""What a memo takes back of what was just read back, or puts right in it: "scratch that", "make that fifty seven".

Pure: words and facts in, what changes out. A memo that does neither is a memo like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime

from journal.answers import ASKED_FROM, Choice, Reply, choice_among
from journal.extract import extract
from journal.extract.said import forgetting
from journal.grammar import table
from journal.instead import Instead, instead
from journal.readback import figure_words, told_together, ways_to_say_together
from journal.records import Doubt, Fact, Filed, Measure, Span, Task, said
from journal.refigured import FIGURES, NEAR, apart, bare, changes, figure_alone, has_unit, phrases
from journal.renamed import Change, Option, dimension_meant, is_dimension, renamed, resized, within
from journal.resized import is_fraction, refigured, said_anew
from journal.speech.words import figure_words as number_words

_Told = Sequence[Filed[Fact]]
_OF_WHAT_IT_IS = ("range", "jump")
"""Reasons of doubts that come with what a figure is of, and are found anew for another."""


def is_stop(text: str) -> bool:
    """Whether the whole memo tells the journal to stop listening."""
    return bare(text) in phrases("stop")


def puts_right(text: str) -> bool:
    """Whether a memo begins as one that puts right what was just said, whatever it can be about."""
    words = bare(text)
    return any(words.startswith(f"{phrase} ") for phrase in phrases("lead"))


def takes_out(text: str) -> bool:
    """Whether a memo only takes back a figure by its dimension: "scratch the height"."""
    words = bare(text)
    return any(
        is_dimension(words.removeprefix(f"{lead} ")) for lead in phrases("take_out") if words.startswith(f"{lead} ")
    )


def says_more(facts: Sequence[Fact]) -> bool:
    """Whether facts of a memo that was to put something right stand by themselves: a task, or one whose place was said."""
    return any(fact.place or isinstance(fact, Task) for fact in facts)


def is_no(text: str) -> bool:
    """Whether the whole memo is a no."""
    return bare(text) in phrases("no")


def put_right(
    just_said: _Told, text: str, said_at: datetime, doubts: Sequence[Doubt] = (), read_back: _Told = ()
) -> Reply | Choice | None:
    """What a memo does to what was just said; None where it does nothing to it, a Choice where it can mean several things.

    "Scratch that" takes back all that was read back last (`read_back`, else all of it), "scratch the height" one fact.
    "Make that …" puts right a figure, place, thing, dimension or name: with what it stands for where that is said ("the road
    gable not the lake gable"), else where only one thing can be meant. What the recogniser doubts of the words stays doubted.
    """
    words = bare(text)
    if not just_said:
        return None
    if words in phrases("scratch") or words in forgetting():
        return Reply("strike", tuple((filed, None) for filed in read_back or just_said))
    if out := _taken_out(just_said, words):
        return Reply("strike", tuple((filed, None) for filed in out))
    options = _turned_round(just_said, words) or _options(just_said, words, said_at)
    whole = Span(0, len(text))
    heard = [doubt for doubt in doubts if doubt.level >= ASKED_FROM]
    here = [
        tuple((filed, _said_here(now, filed.fact, whole, heard)) for filed, now in option)
        for option in options
        if option
    ]
    return Reply("fix", here[0]) if len(here) == 1 else choice_among(here, said_at) if here else None


def _options(just_said: _Told, words: str, said_at: datetime) -> list[Option]:
    """What a correction can mean: the first way of taking its words in which it means anything."""
    for one in instead(words):
        if not one.new:
            continue
        if (
            options := resized(just_said, one, said_at)
            or refigured(just_said, one, said_at)
            or renamed(just_said, one, said_at)
        ):
            return options
        figure = figure_alone(one.new)
        if not one.firm or one.old is not None or not (figure or puts_right(words)):  # "no more pine left" is news
            continue
        found = _in_one_breath(just_said, f"make that {one.new}", said_at)
        if found and not any(_leaves_words_over(filed.fact, now, figure, said_at) for filed, now in found):
            return [tuple(found)]
    return said_anew(just_said, words, said_at)


def _leaves_words_over(fact: Fact, now: Fact, figure: str | None, said_at: datetime) -> bool:
    """Whether a figure was put right by words that say more, or less: "fifty boards" for a length, "forty" for thirty foot."""
    if not changes(fact, now) & {min(fields) for fields in FIGURES.get(type(fact), ())}:
        return False
    if figure is None:
        return True
    in_feet = isinstance(fact, Measure) and "foot" in figure_words(fact) and not has_unit(figure)
    return in_feet and apart(fact, now) > 2 * NEAR and not is_fraction(figure, said_at)


def _said_here(now: Fact, was: Fact, whole: Span, heard: Sequence[Doubt]) -> Fact:
    new_figure = bool(changes(was, now) & {min(fields) for fields in FIGURES.get(type(was), ())})
    kept = [doubt for doubt in _of_what_was_heard(was) if _is_of_a_figure(doubt) != new_figure]
    doubts = tuple(dict.fromkeys(replace(doubt, span=whole) for doubt in (*kept, *now.doubts, *heard)))
    return replace(now, evidence=whole, rule=was.rule, doubts=doubts)


def _of_what_was_heard(fact: Fact) -> list[Doubt]:
    return [doubt for doubt in fact.doubts if doubt.reason not in _OF_WHAT_IT_IS]


def _is_of_a_figure(doubt: Doubt) -> bool:
    """Whether a doubt is of a figure, which another name does not settle, or of a name, which no figure does."""
    return any(word.strip("'") in number_words() for word in bare(doubt.shown).split())


def _taken_out(just_said: _Told, words: str) -> _Told:
    """The facts of the one name that "scratch the …" says, where it is not all of them."""
    lead = next(
        (one for one in sorted(phrases("take_out"), key=len, reverse=True) if words.startswith(f"{one} ")), None
    )
    if lead is None:
        return ()
    name = words.removeprefix(f"{lead} ").removesuffix(" one")
    out = [
        filed
        for filed in just_said
        if (isinstance(filed.fact, Measure) and dimension_meant(name, filed.fact) == filed.fact.dimension)
        or within(name, getattr(filed.fact, "about", None) or getattr(filed.fact, "what", None))
    ]
    return out if len(out) < len(just_said) or len(just_said) == 1 else ()


def _turned_round(just_said: _Told, words: str) -> list[Option]:
    """The two figures of a thing in each other's place."""
    turning = next((one for one in instead(words) if one.old is None), Instead(words)).new
    if turning not in table("takebacks")["swap"] and words not in table("takebacks")["swap"]:
        return []
    measures = [filed for filed in just_said if isinstance(filed.fact, Measure)]
    if len(measures) != 2 or len(just_said) != 2:
        return []
    one, two = (filed.fact for filed in measures)
    assert isinstance(one, Measure)
    assert isinstance(two, Measure)
    if (one.place, one.about) != (two.place, two.about):
        return []

    def figure_of(fact: Measure, other: Measure) -> Fact:
        return replace(
            fact, ticks=other.ticks, metric=other.metric, approx=other.approx, shade=other.shade, doubts=other.doubts
        )

    return [((measures[0], figure_of(one, two)), (measures[1], figure_of(two, one)))]


def _in_one_breath(just_said: _Told, takeback: str, said_at: datetime) -> list[Change]:
    """The last fact, or size, that reads with one field changed when the take-back is said in the same breath."""
    left = list(just_said)
    groups = []
    while left:
        groups.append(left[: told_together([filed.fact for filed in left])])
        del left[: len(groups[-1])]
    for group in reversed(groups):
        if found := list(_changed([filed.fact for filed in group], takeback, said_at)):
            return [(filed, now) for filed, now in zip(group, found, strict=True) if said(filed.fact) != said(now)]
    return []


def _changed(facts: Sequence[Fact], takeback: str, said_at: datetime) -> Iterator[Fact]:
    meant = [said(fact) for fact in facts]
    for way in ways_to_say_together(facts, said_at.date()):
        if [said(read) for read in extract(way, said_at).facts] != meant:
            continue
        together = extract(f"{way.replace(',', '')} {takeback}", said_at).facts
        if [fact.kind for fact in together] != [fact.kind for fact in facts]:
            continue
        differ = [changes(fact, now) for fact, now in zip(facts, together, strict=True)]
        grown = any(_grown(fact, now, names) for fact, now, names in zip(facts, together, differ, strict=True))
        if any(differ) and not grown and all(len(names) <= 1 for names in differ) and len(set().union(*differ)) == 1:
            yield from together
            return


def _grown(fact: Fact, now: Fact, names: set[str]) -> bool:
    """Whether a name only took up more words: nothing was put in the place of anything."""
    for name in names:
        was, became = getattr(fact, name), getattr(now, name)
        if isinstance(was, str) and isinstance(became, str) and set(was.split()) < set(became.split()):
            return True
    return False
