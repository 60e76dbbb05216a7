"""What a memo takes back of what was just read back, or puts right in it: "scratch that", "make that fifty seven".

Pure: words and facts in, what changes out. A memo that does neither is a memo like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from functools import cache

from journal.answers import ASKED_FROM, Reply
from journal.extract import extract
from journal.extract.said import forgetting
from journal.grammar import table
from journal.readback import figure_words, told_together, ways_to_say_together
from journal.records import Doubt, Fact, Filed, Measure, Span, said
from journal.refigured import NEAR, apart, bare, changes, figure_alone, has_unit, phrases, with_figure
from journal.saying import name_words

_Told = Sequence[Filed[Fact]]


def is_stop(text: str) -> bool:
    """Whether the whole memo tells the journal to stop listening."""
    return bare(text) in phrases("stop")


def puts_right(text: str) -> bool:
    """Whether a memo begins as one that puts right what was just said, whatever it can be about."""
    words = bare(text)
    return any(words.startswith(f"{phrase} ") for phrase in phrases("lead"))


def put_right(just_said: _Told, text: str, said_at: datetime, doubts: Sequence[Doubt] = ()) -> Reply | None:
    """What a memo does to what was just read back; None where it does nothing to it.

    "Scratch that" takes back all of it. "Make that …" puts right the one thing that it can mean: a bare figure the figure
    that it is nearest to, a place the place, other words the last fact in which they change one field. What the recogniser
    doubts of the words stays doubted.
    """
    words = bare(text)
    if not just_said:
        return None
    if words in phrases("scratch") or words in forgetting():
        return Reply("strike", tuple((filed, None) for filed in just_said))
    lead = next((phrase for phrase in _replacing() if words.startswith(f"{phrase} ")), None)
    if lead is None:
        return None
    rest = words.removeprefix(f"{lead} ")
    meant = _of_dimension(just_said, rest, said_at)
    found = _another_place(just_said, rest, said_at)
    figure = figure_alone(rest)
    if not found and figure and not _below_one(rest, said_at):
        found = _another_figure(meant, rest, said_at)
        meant = [filed for filed in meant if isinstance(filed.fact, Measure)]
    if not found and (figure or lead in phrases("lead")):  # "no more pine left" is news
        found = _in_one_breath(meant, words, said_at)
    whole = Span(0, len(text))
    heard = [doubt for doubt in doubts if doubt.level >= ASKED_FROM]
    here = tuple((filed, _said_here(now, filed.fact, whole, heard)) for filed, now in found)
    return Reply("fix", here) if here else None


def _said_here(now: Fact, was: Fact, whole: Span, heard: Sequence[Doubt]) -> Fact:
    doubts = tuple(dict.fromkeys(replace(doubt, span=whole) for doubt in (*now.doubts, *heard)))
    return replace(now, evidence=whole, rule=was.rule, doubts=doubts)


def _of_dimension(just_said: _Told, rest: str, said_at: datetime) -> _Told:
    """The facts of the dimension that the words name, all where they name none of theirs."""
    named = {fact.dimension for fact in extract(rest, said_at).facts if isinstance(fact, Measure)}
    own = [filed for filed in just_said if isinstance(filed.fact, Measure) and filed.fact.dimension in named]
    return own or just_said


def _another_place(just_said: _Told, rest: str, said_at: datetime) -> list[tuple[Filed[Fact], Fact]]:
    """All that was said, at a place that the words name and name only."""
    place = extract(f"{rest} length forty", said_at).place
    if place is None or rest.removeprefix("the ").removeprefix("on ").removeprefix("the ") != name_words(place):
        return []
    return [(filed, replace(filed.fact, place=place, doubts=())) for filed in just_said if filed.fact.place != place]


def _another_figure(just_said: _Told, figure: str, said_at: datetime) -> list[tuple[Filed[Fact], Fact]]:
    """The fact whose figure is nearest to this one, with this one; doubted where the unit was not said or it is far."""
    anew = [
        (apart(filed.fact, now), -count, filed, now)
        for count, filed in enumerate(just_said)
        for now in with_figure(filed.fact, figure, said_at)
    ]
    if not anew:
        return []
    far, _, filed, now = min(anew, key=lambda one: one[:2])
    feet_or_inches = not has_unit(figure) and sum(1 for one in anew if one[2] is filed) > 1
    if far > 2 * NEAR and feet_or_inches:
        return []
    if feet_or_inches or (len(just_said) > 1 and far > 2 * NEAR):
        shown = f"{figure_words(now)}: it was {figure_words(filed.fact)}, and '{figure}' was all that was said"
        now = replace(now, doubts=(*now.doubts, Doubt("two-way", shown, Span(0, 0))))
    return [(filed, now)]


def _below_one(figure: str, said_at: datetime) -> bool:
    """Whether a figure is a fraction only, which may belong to the inches that were said."""
    read = extract(f"wall a, length, {figure}", said_at).facts
    return len(read) == 1 and isinstance(read[0], Measure) and not has_unit(figure) and 0 < read[0].ticks < 8128


def _in_one_breath(just_said: _Told, takeback: str, said_at: datetime) -> list[tuple[Filed[Fact], Fact]]:
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
        if any(differ) and all(len(names) <= 1 for names in differ) and len(set().union(*differ)) == 1:
            yield from together
            return


@cache
def _replacing() -> tuple[str, ...]:
    return tuple(sorted(table("takebacks")["replace"], key=len, reverse=True))
