"""A doubted figure asked for again, and what the next memo answers: "thirteen or thirty?".

Pure: words and facts in, what changes out. What is no answer is a memo like any other, and the doubt stays.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Literal

from journal.errors import Unreadable
from journal.extract import extract
from journal.fields import FIGURE, with_fields
from journal.readback import figure_words, ways_to_say
from journal.records import Doubt, Fact, Filed, Known, Span, Stock, said
from journal.refigured import (
    FIGURES,
    NEAR,
    apart,
    bare,
    changes,
    figure_alone,
    figure_told,
    has_unit,
    phrases,
    plain,
    same_but_figure,
    with_figure,
)
from journal.saying import name_words

ASKED_FROM = 2
"""Doubts from this level on are asked about; a sound-alike put right by its context is not."""
_MOST_READINGS = 3
_HARDLY = 3
"""Words that are no memo where a figure was asked for."""
Act = Literal["fix", "strike", "confirm"]
Changes = tuple[tuple[Filed[Fact], Fact | None], ...]


@dataclass(frozen=True, slots=True)
class Reply:
    """What a memo does to facts on file: each with what stands in its stead, None where it is struck.

    `sure`: the builder was asked, and this is the answer.
    """

    act: Act
    changes: Changes
    sure: bool = False


@dataclass(frozen=True, slots=True)
class Question:
    """A doubted figure that is asked for again: what it is about, the readings of it, and the words to ask with.

    The first of the readings is the fact on file. `struck`: the figure was said to be wrong, and is asked for anew.
    `beside` are the other facts of its memo: a name that they have too is put right in them as well.
    """

    about: Filed[Fact]
    readings: tuple[Fact, ...]
    asked: str
    struck: bool = False
    beside: tuple[Filed[Fact], ...] = ()


def question_about(facts: Sequence[Filed[Fact]], text: str, said_at: datetime) -> Question | None:
    """What to ask about the first figure of a memo that carries a doubt; None where all is clear."""
    for filed in facts:
        doubts = [doubt for doubt in filed.fact.doubts if doubt.level >= ASKED_FROM]
        if doubts and not filed.confirmed and type(filed.fact) in FIGURES:
            readings = _readings(filed.fact, doubts, text, said_at)
            beside = tuple(other for other in facts if other is not filed)
            return Question(filed, readings, _asked(readings, said_at, alone=len(facts) == 1), beside=beside)
    return None


def asked_anew(question: Question) -> Question:
    """The question that follows a "no": the figure is struck and asked for once more."""
    return replace(question, readings=question.readings[:1], asked="what is it, then?", struck=True)


def asked_what_it_is(facts: Sequence[Filed[Fact]]) -> Question | None:
    """What to ask after a "no" to a single figure that was read back; None where there are several, or none."""
    if len(facts) != 1 or type(facts[0].fact) not in FIGURES:
        return None
    return Question(facts[0], (facts[0].fact,), f"not {figure_words(facts[0].fact)}: what is it, then?")


def _readings(fact: Fact, doubts: Sequence[Doubt], text: str, said_at: datetime) -> tuple[Fact, ...]:
    """The fact, and what it would be by the other readings of its doubts, where one figure or name differs and nothing else."""
    found = {said(fact): fact}
    for doubt in doubts:
        for other in doubt.other:
            for reading in (*_reworded(fact, doubt.span, other, text, said_at), *_as_typed(fact, other)):
                if len(differs := changes(fact, reading)) == 1 and (
                    same_but_figure(fact, reading) or _names(fact, differs)
                ):
                    found.setdefault(said(reading), reading)
    return tuple(found.values())[:_MOST_READINGS]


def _reworded(fact: Fact, span: Span, other: str, text: str, said_at: datetime) -> Iterator[Fact]:
    """What the memo would say with the doubted stretch as the other reading has it."""
    anew = extract(f"{text[: span.start]}{other}{text[span.end :]}", said_at, Known(carried_place=fact.place)).facts
    yield from (now for now in anew if now.kind == fact.kind and said(now) != said(fact))


def _as_typed(fact: Fact, other: str) -> Iterator[Fact]:
    if any(letter.isdigit() for letter in other):
        try:
            yield with_fields(fact, {FIGURE: other})
        except Unreadable:
            return


def _names(fact: Fact, fields: set[str]) -> bool:
    """Whether these fields hold names."""
    return all(isinstance(getattr(fact, name), str) for name in fields)


def _told(readings: Sequence[Fact]) -> list[str]:
    """The readings by what tells them apart: their figures, or the name in which they differ."""
    figures = list(dict.fromkeys(figure_told(reading, readings) for reading in readings))
    if len(figures) == len(readings):
        return figures
    differ = {name for reading in readings[1:] for name in changes(readings[0], reading)}
    names = [name_words(str(getattr(reading, min(differ)))) for reading in readings] if len(differ) == 1 else []
    return names if len(set(names)) == len(readings) else figures


def _asked(readings: Sequence[Fact], said_at: datetime, *, alone: bool) -> str:
    """The words to ask with: ``thirteen or thirty?``, and what it is about where several figures were said."""
    fact = readings[0]
    figures = _told(readings)
    sentence = next(ways_to_say(fact, said_at.date()))
    if len(figures) == 1:
        return f"{figures[0] if alone and not isinstance(fact, Stock) else sentence}: is that right?"
    named = len({figure_told(reading, readings) for reading in readings}) == 1
    lead = "" if alone or named else next(ways_to_say(fact, said_at.date(), figure="")).strip(", ") + ": "
    return f"{lead}{', '.join(figures[:-1])} or {figures[-1]}?"


def answer(question: Question, text: str, said_at: datetime, doubts: Sequence[Doubt] = ()) -> Reply | None:
    """What a memo settles of a question; None where it is no answer to it, or "yes" to "thirteen or thirty?".

    A figure that the recogniser doubts in turn keeps its doubt, and so does one far from all that was asked.
    """
    words, filed = bare(text), question.about
    if words in phrases("yes"):
        return None if len(question.readings) > 1 or question.struck else _confirmed(filed)
    if words in phrases("no"):
        return None if question.struck else Reply("strike", ((filed, None),))
    whole = Span(0, len(text))
    heard = tuple(replace(doubt, span=whole) for doubt in doubts if doubt.level >= ASKED_FROM)
    if (name := _named(question, words)) is not None:
        return _renamed(question, name, whole, heard)
    figure = figure_alone(words)
    now = _meant(question, figure, said_at) if figure else None
    if now is None:
        return None
    if said(now) == said(filed.fact) and not heard and not question.struck:
        return _confirmed(filed)
    settled = any(said(now) == said(reading) for reading in question.readings)
    own = (*heard, *(() if settled else _doubts_of(now, question, whole)))
    return Reply("fix", ((filed, replace(now, evidence=whole, rule=filed.fact.rule, doubts=own)),), sure=not own)


def meant_as_answer(text: str) -> bool:
    """Whether a memo was meant as an answer, though it settles nothing: a yes, a no, a figure, or hardly a word."""
    words = bare(text)
    return words in phrases("yes") | phrases("no") or figure_alone(words) is not None or is_hardly_a_memo(text)


def is_hardly_a_memo(text: str) -> bool:
    """Whether these are too few words for a memo."""
    return len(bare(text).split()) <= _HARDLY


def _confirmed(filed: Filed[Fact]) -> Reply:
    return Reply("confirm", ((filed, replace(filed.fact, doubts=())),), sure=True)


def _named(question: Question, words: str) -> Fact | None:
    """The reading that is told by a name, where the words are that name."""
    told = _told(question.readings)
    if len(told) < 2 or len(told) != len(question.readings) or figure_alone(told[0]):
        return None
    for lead in sorted(phrases("around") | phrases("no") | phrases("yes"), key=len, reverse=True):
        words = words.removeprefix(f"{lead} ")
    words = words.removeprefix("the ")
    return next((reading for reading, name in zip(question.readings, told, strict=True) if name == words), None)


def _renamed(question: Question, now: Fact, whole: Span, heard: tuple[Doubt, ...]) -> Reply:
    """What a name that was asked for does to the fact, and to the others of its memo that have the same one."""
    fact = question.about.fact
    if said(now) == said(fact) and not heard:
        return _confirmed(question.about)
    anew: dict[str, Any] = {name: getattr(now, name) for name in changes(fact, now)}
    alike = [
        (filed, tuple(doubt for doubt in filed.fact.doubts if doubt not in fact.doubts))
        for filed in (question.about, *question.beside)
        if all(getattr(filed.fact, name, None) == getattr(fact, name) for name in anew)
    ]
    return Reply(
        "fix",
        tuple(
            (
                filed,
                replace(filed.fact, **anew, evidence=whole, doubts=(*(replace(d, span=whole) for d in left), *heard)),
            )
            for filed, left in alike
        ),
        sure=not heard and not any(left for _, left in alike),
    )


def _meant(question: Question, figure: str, said_at: datetime) -> Fact | None:
    """The reading that was asked about and has these words, else the fact with this figure."""
    if not has_unit(figure):
        of_those_words = [
            reading for reading in question.readings if plain(figure_told(reading, question.readings)) == plain(figure)
        ]
        if len(of_those_words) == 1:
            return of_those_words[0]
    fact = question.about.fact
    if isinstance(fact, Stock) and len(question.readings) == 1:
        return None  # its count or its length?
    anew = with_figure(fact, figure, said_at)
    return min(anew, key=lambda now: _nearest(now, question.readings), default=None)


def _nearest(now: Fact, readings: Sequence[Fact]) -> float:
    return min(apart(reading, now) for reading in readings)


def _doubts_of(now: Fact, question: Question, whole: Span) -> tuple[Doubt, ...]:
    """The doubts of a new figure, and one more where it is far from all that was asked about."""
    own = tuple(replace(doubt, span=whole) for doubt in now.doubts)
    if question.struck or _nearest(now, question.readings) <= NEAR:
        return own
    asked = " or ".join(figure_words(reading) for reading in question.readings)
    return (*own, Doubt("jump", f"{figure_words(now)}, where it was asked whether {asked}", whole))


# ---- which one -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Choice:
    """A correction that fits several facts just said: what it would do to each, by what to call it, and the words to ask with."""

    options: tuple[tuple[str, Changes], ...]
    asked: str


def choice_among(options: Sequence[Changes], said_at: datetime) -> Choice:
    """What to ask where a correction can mean several things: ``which one, the width or the height?``."""
    names = _told_apart([changes[0][0].fact for changes in options], said_at)
    asked = f"which one, {', '.join(names[:-1])} or {names[-1]}?"
    return Choice(tuple(zip(names, options, strict=True)), asked)


def chosen(choice: Choice, text: str) -> Reply | None:
    """What an answer settles: one of the facts by its name, the first or the last, both, or none of them (a strike of none)."""
    words = bare(text)
    for lead in sorted(phrases("around"), key=len, reverse=True):
        words = words.removeprefix(f"{lead} ")
    if words in phrases("no"):
        return Reply("strike", ())
    if words in phrases("both"):
        return Reply("fix", tuple(change for _, changes in choice.options for change in changes))
    if words in phrases("first"):
        return Reply("fix", choice.options[0][1])
    if words in phrases("last") and not (len(choice.options) > 2 and "second" in words):
        return Reply("fix", choice.options[-1][1])
    named = {word for word in words.split() if word not in ("the", "a", "one", "of", "on", "in")}
    fitting = [changes for name, changes in choice.options if named and named <= set(name.split())]
    return Reply("fix", fitting[0]) if len(fitting) == 1 else None


def _told_apart(facts: Sequence[Fact], said_at: datetime) -> list[str]:
    """What tells facts from each other, in words: the dimension, else the thing, else all of it."""
    for name in ("dimension", "about", "what", "place"):
        names = [getattr(fact, name, None) for fact in facts]
        if all(names) and len(set(names)) == len(names):
            return [name_words(str(one)) if name == "place" else f"the {name_words(str(one))}" for one in names]
    whole = [next(ways_to_say(fact, said_at.date(), figure="")).strip(", ").replace(",", "") for fact in facts]
    if len(set(whole)) == len(whole):
        return whole
    return [next(ways_to_say(fact, said_at.date())).replace(",", "") for fact in facts]
