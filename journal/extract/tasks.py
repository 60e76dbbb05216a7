"""Tasks: what is to be done, is done, or waits for something, with the day it is due."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache

from journal.extract.clauses import Clause, after_at
from journal.extract.due import DueWord
from journal.extract.line import Line, joined
from journal.extract.phrases import Phrases
from journal.extract.vocabulary import ing_forms, past_forms
from journal.grammar import table
from journal.records import Task, TaskStatus

_PREPOSITIONS = frozenset(
    {
        "on",
        "in",
        "at",
        "off",
        "for",
        "over",
        "inside",
        "under",
        "to",
        "from",
        "around",
        "along",
        "above",
        "up",
        "down",
        "out",
        "near",
        "behind",
        "by",
    }
)
_TRAILING = frozenset(
    {
        "and",
        "but",
        "so",
        "then",
        "the",
        "a",
        "to",
        "or",
        "by",
        "on",
        "now",
        "too",
        "also",
        "we",
        "i",
        "it",
        "'s",
        "yet",
        "already",
        "finally",
        "please",
        "again",
        "with",
        "in",
        "at",
        "for",
        "there",
        "today",
        "all",
        "done",
        "that",
        "just",
        "still",
        "they",
        "not",
        "though",
        "is",
        "are",
        "because",
        "of",
        "'re",
        "'ve",
    }
)


@cache
def _that_is_done() -> Phrases[str]:
    return Phrases.of(table("tasks")["done"]["that_is"], "done")


@cache
def _before() -> Phrases[str]:
    return Phrases.of(table("tasks")["before"]["words"], "before")


def task_of(line: Line, clause: Clause, dues: list[DueWord], place: str | None) -> tuple[Task | None, str | None]:
    """The task that a clause says and the place it leaves off at; None where there is nothing to do in it."""
    words = line.words
    i, j = clause.verb, clause.j
    status: TaskStatus = {"open": "open", "bare": "open", "needs": "open", "waiting": "waiting"}.get(
        clause.opener, "done"
    )  # type: ignore[assignment]
    condition = clause.condition
    due = None
    for said in dues:
        if clause.i <= said.i < j:
            due = said if due is None else due
    that = next((k for k in range(i, j) if _that_is_done().at(words, k)), None)
    end = that if that is not None else j
    if that is not None and status == "open":
        status = "done"
    before: tuple[int, int] | None = None
    for k in range(i + 1, end):
        if any(d.i <= k < d.j for d in dues) or k in line.figures:
            continue
        led = _before().at(words, k)
        if led and not any(d.i <= k < d.j for d in dues):
            if clause.opener == "waiting" and words[k] == "before":
                continue
            before, end = (led[1], end), min(end, k)
            break
        after = after_at(words, k)
        if after is not None and after < end and not _is_from(words, k):
            condition, end = (after, end), k
            break
    if condition is not None and _has_words(words, condition):
        status = "waiting" if status == "open" else status
    elif condition is not None:
        condition = None
    do, end_place = _what_to_do(line, clause, i, end, dues)
    if not do:
        return None, place
    here = end_place or place
    after_text = _condition_text(line, condition, dues) if condition else None
    before_text = _condition_text(line, before, dues) if before else None
    if status == "waiting" and after_text is None and clause.opener != "waiting":
        status = "open"
    task = Task(
        place=here, do=do, status=status, due=due.day if due and status != "done" else None,
        after=after_text, before=before_text, evidence=line.span(clause.i, j), rule=f"task.{clause.opener.replace(' ', '_')}",
    )  # fmt: skip
    return task, here


def _is_from(words: Sequence[str], k: int) -> bool:
    return words[k] == "if" and words[k + 1 : k + 2] in (["we"], ["i"]) and words[k + 2 : k + 3] == ["can"]


def _has_words(words: Sequence[str], span: tuple[int, int]) -> bool:
    return span[1] > span[0]


def _condition_text(line: Line, span: tuple[int, int], dues: list[DueWord]) -> str | None:
    words = [line.words[k] for k in range(*span) if not any(d.i <= k < d.j for d in dues)]
    while words and words[-1] in _TRAILING - {"done", "up", "down", "in", "on", "there"}:
        words.pop()
    while words and words[0] in ("then", "and", "only"):
        words.pop(0)
    return joined(words) or None


def _what_to_do(line: Line, clause: Clause, i: int, end: int, dues: list[DueWord]) -> tuple[str, str | None]:
    """The words of the task, its verb bare, and the place named in it."""
    words = line.words
    here: str | None = None
    if clause.opener == "is done":
        return _state(line, clause, end)
    if clause.opener == "needs":
        return _needed(line, clause, end, dues)
    skip: set[int] = {k for due in dues for k in range(due.i, due.j)}
    for place in line.places.values():
        if not i < place.i < end:
            continue
        here = here or place.name
        first = place.i
        while first - 1 > i and words[first - 1] in ("the", "a", "our", "my"):
            first -= 1
        prep = first - 1
        if place.carried and words[place.i] not in ("same", "this", "that"):
            skip.update(range(place.i, place.j))
        elif prep > i and words[prep] in _PREPOSITIONS and words[prep] not in ("to", "from", "under", "by"):
            while prep - 1 > i and words[prep - 1] in ("up", "down", "out", "over", "back", "in", "around"):
                prep -= 1
            skip.update(range(prep, place.j))
    kept = [k for k in range(i, end) if k not in skip]
    text = [words[k] for k in kept]
    if not text:
        return "", here
    text[0] = past_forms().get(text[0], text[0]) if clause.opener in ("past", "finished") else text[0]
    if clause.opener == "finished" or (text[0] in ing_forms() and clause.opener != "past"):
        text[0] = ing_forms().get(text[0], text[0])
    while len(text) > 1 and text[-1] in _TRAILING:
        text.pop()
    if len(text) == 1 and here is None and clause.opener in ("bare", "past"):
        return "", here
    return joined(text), here


def _state(line: Line, clause: Clause, end: int) -> tuple[str, str | None]:
    """ "Chinking's all done" is "chinking"; "they're all pegged" is "peg" with what was named before."""
    words = line.words
    copula = clause.verb
    start = clause.lead_i
    while start < copula and words[start] in ("and", "so", "but", "then", "the", "also", "plus"):
        start += 1
    here = None
    skip: set[int] = set()
    for place in line.places.values():
        if start <= place.i < end:
            here = here or place.name
            prep = place.i - 1
            while prep > start and words[prep] in ("the", "a", "our"):
                prep -= 1
            if words[prep] in _PREPOSITIONS or place.i > copula:
                skip.update(range(min(prep, place.i), place.j))
    subject = [words[k] for k in range(start, copula) if k not in skip]
    while subject and subject[0] in ("the", "all", "of"):
        subject.pop(0)
    k = copula + 1
    while k < len(words) and words[k] in (
        "all",
        "finally",
        "now",
        "both",
        "completely",
        "already",
        "just",
        "fully",
        "been",
        "nearly",
        "well",
    ):
        k += 1
    verb = past_forms().get(words[k]) if k < len(words) else None
    if verb in (None, "do", "finish", "complete"):
        return joined(subject), here
    if subject in (["they"], ["it"], ["that"]) or not subject:
        return f"{verb} {subject[0] if subject else ''}".strip(), here
    return joined([verb, "the", *subject]) if words[start - 1 : start] == ["the"] else joined([verb, *subject]), here


def _needed(line: Line, clause: Clause, end: int, dues: list[DueWord]) -> tuple[str, str | None]:
    """ "The door needs hanging" is "hang the door"."""
    words = line.words
    start = clause.lead_i
    while words[start] in ("and", "so", "but", "then", "also"):
        start += 1
    k = clause.verb
    verb = ing_forms().get(words[k]) or past_forms().get(words[k], words[k])
    stop = k
    while stop > start and words[stop - 1] in (
        "need",
        "needs",
        "still",
        "be",
        "to",
        "has",
        "have",
        "must",
        "should",
        "could",
        "use",
        "do",
        "with",
        "a",
        "wants",
        "will",
        "got",
        "ought",
        "is",
        "are",
        "gets",
    ):
        stop -= 1
    skip = {m for due in dues for m in range(due.i, due.j)}
    here = None
    for place in line.places.values():
        if start <= place.i < end:
            here = here or place.name
            prep = place.i - 1
            while prep > start and words[prep] in ("the", "a", "our"):
                prep -= 1
            if prep > start and words[prep] in _PREPOSITIONS:
                skip.update(range(prep, place.j))
    subject = [words[m] for m in range(start, stop) if m not in skip]
    tail = [words[m] for m in range(k + 1, end) if m not in skip]
    while tail and tail[-1] in _TRAILING:
        tail.pop()
    return joined([verb, *subject, *tail]), here


def resolve_pronouns(tasks: Sequence[Task], nouns: Sequence[str]) -> list[Task]:
    """ "Peg they" with the thing named last in the memo."""
    return list(tasks)


def bare_day(day: date) -> date:
    """The day itself."""
    return day
