"""Tasks: what is to be done, is done, or waits for something, with the day it is due."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from journal.extract.conditions import after_at, no_condition_at
from journal.extract.context import Context
from journal.extract.due import DueWord
from journal.extract.line import joined
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.talk import no_work
from journal.extract.taskwords import what_to_do
from journal.extract.utterance import Clause, task_phrases, that_is_done_at
from journal.extract.vocabulary import past_forms
from journal.grammar import table
from journal.records import Doubt, Task, TaskStatus

_STATUS: dict[str, TaskStatus] = {
    "open": "open",
    "bare": "open",
    "needs": "open",
    "needs a coat": "open",
    "waiting": "waiting",
    "waits": "waiting",
}


@cache
def _before() -> Phrases[str]:
    return Phrases.of(table("tasks")["before"]["words"], "before")


def task(ctx: Context, clause: Clause) -> None:
    """Adds the tasks that a clause says: one, or one for each date ("order the hinges by friday and the hooks by monday")."""
    dues = [due for due in ctx.dues if clause.verb < due.i < clause.j]
    words = ctx.line.words
    splits = clause.opener in ("open", "bare") and len(dues) == 2 and words[dues[0].j : dues[0].j + 1] == ["and"]
    splits = splits and dues[1].i > dues[0].j + 2
    if not splits:
        _one(ctx, clause)
        return
    start = dues[0].j + 1
    _one(ctx, replace(clause, j=dues[0].j))
    verb = words[clause.verb]
    _one(ctx, replace(clause, i=start, j=clause.j, verb=start), verb=verb)


def _one(ctx: Context, clause: Clause, *, verb: str = "") -> None:
    """Adds the task that a clause says; its place goes on. `verb` is one said before it."""
    words = ctx.line.words
    i, end = clause.verb, clause.j
    if clause.opener == "waits" and clause.condition is not None:
        clause = replace(clause, condition=(clause.condition[0], end))
    status = _STATUS.get(clause.opener, "done")
    condition = clause.condition
    dated = {k for due in ctx.dues for k in range(due.i, due.j)}
    due = next((d for d in ctx.dues if clause.i <= d.i < clause.j), None)
    if due is not None and due.i > i + 1 and _another_sentence(words, due.j, end):
        end = due.j
    if (late := _said_afterwards(ctx, clause)) is not None:
        due, end = late
        dated |= set(range(end, clause.j))
    condition_from = next(
        (k for k in range(i + 1, end) if k not in dated and (after_at(words, k) or _before().at(words, k))), None
    )
    if (
        due is not None
        and late is None
        and condition_from is not None
        and due.i > condition_from
        and due.lead not in ("by", "than", "latest")
    ):
        due = None
    that = next((k for k in range(i, end) if that_is_done_at(words, k)), None)
    if that is not None:
        end, status = that, "done" if status == "open" else status
    before: tuple[int, int] | None = None
    for k in range(i + 1, end if clause.opener != "waits" else 0):
        if k in dated or k in ctx.line.figures:
            continue
        led = _before().at(words, k)
        if led and not (clause.condition and words[k] == "before" and k < i):
            cannot = not words_of("cannot").isdisjoint(words[max(clause.i, i - 3) : i])
            if cannot:  # "we can't creosote the stringers before the gauge comes off"
                condition, end = (led[1], end), k
            else:
                before, end = (led[1], end), k
            break
        after = after_at(words, k)
        if after is not None and no_condition_at(words, k):
            end = k
            break
        if after is not None and after < end:
            condition, end = (after, end), k
            break
    after_text = _condition(ctx, condition) if condition else None
    if after_text is not None and status == "open":
        status = "waiting"
    if status == "waiting" and after_text is None and clause.condition is not None:
        status = "open"
    if condition and after_text is None and due is None:  # "don't strip the forms till friday"
        due = next((d for d in ctx.dues if condition[0] <= d.j and d.i < condition[1]), None)
    do, place = what_to_do(ctx, clause, i, end)
    if place is None and due is not None and due.j <= i:  # "on wednesday in the barn hang the doors"
        place = ctx.place_between(due.j, i)
    do = f"{verb} {do}" if verb and do else do
    if (
        status == "waiting"
        and words[clause.verb] in words_of("hands_off")
        and words[clause.verb - 1] in ("don't", "not")
    ):
        do = f"don't {do}"
    meant = due is not None or after_text is not None or before is not None
    if not do or (due is None and after_text is None and _only_talk(ctx, clause, do)):
        return
    if clause.opener == "waits" and after_text is None and due is None:
        return
    if due is not None and do in _WITH_LAST and _goes_with_last(ctx, due):
        return
    if no_work(ctx.line, clause, do, dated=meant, placed=place is not None):
        return
    ctx.place = place or ctx.place
    ctx.facts.append(
        Task(
            place=ctx.place, do=do, status=status, due=due.day if due and status != "done" else None, after=after_text,
            before=_condition(ctx, before) if before else None, evidence=ctx.span(clause.i, clause.j),
            rule=f"task.{clause.opener.replace(' ', '_')}",
        )
    )  # fmt: skip
    if due is not None and due.doubtful:
        ctx.doubts.append(Doubt("date", due.doubtful, ctx.span(due.i, due.j)))


def _another_sentence(words: list[str], k: int, end: int) -> bool:
    """Whether a subject and its verb begin at word `k`, right behind a date: "… by friday | the old boy caught his coat on it"."""
    if k >= end or words[k] not in words_of("determiners") | {"he", "she", "they", "there"}:
        return False
    said = words[k + 1 : min(k + 6, end)]
    return any(
        w in words_of("copulas") or w in past_forms() or w in words_of("participles") or w in words_of("happened")
        for w in said
    )


# With a day, these are no work of their own.
_WITH_LAST = frozenset(
    {"get it", "get it done", "get that", "get that done", "get them done", "have it done", "do it", "do that", "do this", "do them", "finish it"}
)  # fmt: skip


def _said_afterwards(ctx: Context, clause: Clause) -> tuple[DueWord, int] | None:
    """The day of "… that's for sunday morning", "… do that by friday" at the end of a task, and where those words begin."""
    for due in ctx.dues:
        if clause.verb + 1 < due.i and due.j <= clause.j:
            lead = task_phrases("due", "afterwards").ending_at(ctx.line.words, due.i)
            if lead is not None and lead[1] > clause.verb + 1:
                return due, lead[1]
    return None


def _goes_with_last(ctx: Context, due: DueWord) -> bool:
    """ "… and get it done by friday": the day is that of the task said last."""
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Task) or last.due is not None or last.status == "done":
        return False
    ctx.facts[-1] = replace(last, due=due.day)
    return True


def _only_talk(ctx: Context, clause: Clause, do: str) -> bool:
    """Whether the speaker only says what he does with the memo: "i'll come back to it", "don't take this down"."""
    led = set(ctx.line.words[clause.i : clause.verb])
    return (
        clause.opener in ("open", "waiting")
        and bool(led & words_of("talk_lead"))
        and words_of("talk") >= set(do.split())
    )


def done_stock(ctx: Context, clause: Clause) -> None:
    """ "Picked up eight tubes of sealant so that's done" is a task done as well as material."""
    if clause.opener != "stock":
        return
    words = ctx.line.words
    that = next((k for k in range(clause.i, clause.j) if that_is_done_at(words, k)), None)
    if that is None:
        return
    verb = past_forms().get(words[clause.verb])
    text = [words[k] for k in range(clause.verb + 1, that)]
    if verb and text:
        place = ctx.place_between(clause.i, clause.j)
        ctx.facts.append(
            Task(
                place=place,
                do=joined([verb, *text]),
                status="done",
                evidence=ctx.span(clause.i, that),
                rule="task.done_stock",
            )
        )


def _condition(ctx: Context, span: tuple[int, int]) -> str | None:
    """The words of a condition less dates and small words at its ends."""
    start, end = span
    end = next((k for k in range(start + 3, end) if _starts_anew(ctx.line.words, start, k)), end)
    words = [ctx.line.words[k] for k in range(start, end) if not any(d.i <= k < d.j for d in ctx.dues)]
    while words and words[-1] in words_of("condition_trailing"):
        words.pop()
    while words and words[0] in ("then", "and", "only"):
        words.pop(0)
    return joined(words) or None


def _starts_anew(words: list[str], start: int, k: int) -> bool:
    """Whether another sentence begins in a condition: "till the hinges are on | they come in …"."""
    if words[k] not in words_of("anew") or words[k - 1] in words_of("condition_lookback", "determiners"):
        return False
    if words[k + 1 : k + 2] == [] or words[k + 1] in words_of("conjunctions"):
        return False  # "till the inspector's seen it and …"
    said = words[start:k]
    return bool(set(said) & words_of("copulas")) or said[-1] in past_forms() or said[-1].endswith("s")
