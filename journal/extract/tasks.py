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
from journal.extract.utterance import Clause, that_is_done_at
from journal.extract.vocabulary import ing_forms, past_forms
from journal.grammar import table
from journal.records import Doubt, Hours, Span, Task, TaskStatus

_STATUS: dict[str, TaskStatus] = {
    "open": "open",
    "bare": "open",
    "needs": "open",
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
    condition_from = next(
        (k for k in range(i + 1, end) if k not in dated and (after_at(words, k) or _before().at(words, k))), None
    )
    if (
        due is not None
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
    do, place = _what_to_do(ctx, clause, i, end)
    do = f"{verb} {do}" if verb and do else do
    meant = due is not None or after_text is not None or before is not None
    if not do or (due is None and after_text is None and _only_talk(ctx, clause, do)):
        return
    if (
        due is not None
        and do in ("get it", "get it done", "get that done", "get them done", "have it done")
        and _goes_with_last(ctx, due)
    ):
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
    if words[k] not in words_of("anew") or words[k - 1] in words_of("condition_lookback") | words_of("determiners"):
        return False
    said = words[start:k]
    return bool(set(said) & words_of("copulas")) or said[-1] in past_forms() or said[-1].endswith("s")


def _place_phrases(ctx: Context, start: int, end: int, verb: int) -> tuple[set[int], str | None]:
    """The words of separate place phrases ("up in the belfry", "over here") and the first place named."""
    words = ctx.line.words
    skip: set[int] = set()
    here: str | None = None
    for i, place in sorted(ctx.line.places.items()):
        if not start <= i < end:
            continue
        here = here or place.name
        k = i - 1
        while k > start and words[k] in ("the", "a", "our", "my"):
            k -= 1
        if place.carried and words[i] not in ("same", "this", "that"):
            skip.update(range(i, place.j))
        elif k > start and words[k] in words_of("task_prepositions") and k - 1 != verb:
            while k - 1 > verb and words[k - 1] in words_of("place_particles"):
                k -= 1
            skip.update(range(k, place.j))
    return skip, here


def _what_to_do(ctx: Context, clause: Clause, i: int, end: int) -> tuple[str, str | None]:
    """The words of the task, its verb bare, and the place named in it."""
    if clause.opener == "is done":
        return _state(ctx, clause, end)
    if clause.opener == "waits":
        return _waiting_work(ctx, clause)
    if clause.opener == "needs":
        return _needed(ctx, clause, end)
    words = ctx.line.words
    skip, here = _place_phrases(ctx, i, end, i)
    skip |= {k for due in ctx.dues for k in range(due.i, due.j)}
    text = [words[k] for k in range(i, end) if k not in skip]
    if not text:
        return "", here
    if clause.opener in ("past", "finished") or words[i - 1 : i] in (["haven't"], ["hasn't"]):
        text[0] = past_forms().get(text[0], text[0])
    if clause.opener != "past":
        text[0] = ing_forms().get(text[0], text[0])
    if clause.opener == "past" and text[1:2] == ["and"] and len(text) > 2:
        text[2] = past_forms().get(text[2], text[2])
    while (len(text) > 1 and text[-1] in words_of("task_trailing")) or (
        len(text) > 2 and text[-1] == "it" and text[-2] in ("so", "and", "before")
    ):
        text.pop()
    if len(text) == 1 and here is None and clause.opener in ("bare", "past"):
        return "", here
    if len(text) == 1 and here is not None and clause.opener == "bare" and text[0] not in past_forms():
        return joined(text), here
    return joined(text), here


def _waiting_work(ctx: Context, clause: Clause) -> tuple[str, str | None]:
    """ "The shingles on gable b are waiting for the scaffold" is "shingles", on gable B."""
    words = ctx.line.words
    skip, here = _place_phrases(ctx, clause.subject, clause.verb, -1)
    text = [words[k] for k in range(clause.subject, clause.verb) if k not in skip]
    while text and text[0] in ("the", "all", "of", "so", "and", "but"):
        text.pop(0)
    return joined(text), here


def _state(ctx: Context, clause: Clause, end: int) -> tuple[str, str | None]:
    """ "Chinking's all done" is "chinking"; "they're all pegged" is "peg" with what was named before."""
    words = ctx.line.words
    copula, start = clause.verb, clause.subject
    skip, here = _place_phrases(ctx, start, end, -1)
    for i, place in ctx.line.places.items():
        if copula < i < end or (i == start and place.j < copula):
            skip.update(range(i, place.j))
    subject = [words[k] for k in range(start, copula) if k not in skip]
    the = subject[:1] == ["the"]
    while subject and subject[0] in ("the", "all", "of", "both", "so", "and"):
        subject.pop(0)
    k = copula + 1
    while k < len(words) and words[k] in words_of("adverbs"):
        k += 1
    verb = past_forms().get(words[k]) if k < len(words) else None
    if subject in (["they"], ["it"], ["that"]) and (work := _work_done(ctx, verb)) is not None:
        return work, here
    if verb in (None, "do", "finish", "complete"):
        return joined(subject), here
    if subject in (["they"], ["it"], ["those"], ["these"]) or not subject:
        subject = (named_last(ctx) or "it").split()
        return joined([verb or "", *subject]), here
    return joined([verb or "", *(["the"] if the else []), *subject]), here


def _work_done(ctx: Context, verb: str | None) -> str | None:
    """What "that's finished", "it's all flashed" say of the hours just told: their work as a task."""
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Hours) or not last.activity:
        return None
    first, *rest = last.activity.split()
    bare = ing_forms().get(first)
    if bare is None or (verb not in (None, "do", "finish", "complete", bare)):
        return None
    if not rest and last.place:
        named = last.place.lower().split()
        rest = named if len(named[-1]) == 1 or named[-1].isdigit() else ["the", *named]
    return joined([bare, *rest])


def named_last(ctx: Context) -> str | None:
    """What "they" stands for: the object of the work, thing measured or material named last."""
    for fact in reversed(ctx.facts):
        if fact.kind == "hours" and fact.activity:  # type: ignore[union-attr]
            rest = fact.activity.split()[1:]  # type: ignore[union-attr]
            if rest:
                ctx.thing = joined([w for w in rest if w not in ("the", "a")])
                return joined(rest)
        name = getattr(fact, "about", None) or (getattr(fact, "what", None) and _material(ctx, fact.evidence))
        if name:
            return f"the {name}"
        if fact.kind == "task":
            rest = fact.do.split()[1:]  # type: ignore[union-attr]
            if rest:
                return joined(rest)
    return None


def _material(ctx: Context, evidence: Span) -> str | None:
    """The words of a lot that name it as said: "pine boards"."""
    k = next((n for n, token in enumerate(ctx.line.tokens) if token.start >= evidence.start), None)
    if k is None:
        return None
    kept = []
    while k < len(ctx.line.tokens) and ctx.line.tokens[k].end <= evidence.end:
        word = ctx.line.words[k]
        if word in ("in", "on", "at", "for", "to", "from"):
            break
        if ctx.line.figure_over(k) is None and word not in ("more", "the", "of", "long"):
            kept.append(word)
        k += 1
    return joined(kept) or None


def _needed(ctx: Context, clause: Clause, end: int) -> tuple[str, str | None]:
    """ "The door needs hanging" is "hang the door"."""
    words = ctx.line.words
    k = clause.verb
    verb = ing_forms().get(words[k]) or past_forms().get(words[k], words[k])
    start = clause.subject
    stop = k
    while stop > start and words[stop - 1] in words_of("need_words"):
        stop -= 1
    skip, here = _place_phrases(ctx, start, end, -1)
    skip |= {m for due in ctx.dues for m in range(due.i, due.j)}
    subject = [words[m] for m in range(start, stop) if m not in skip]
    tail = [words[m] for m in range(k + 1, end) if m not in skip]
    while tail and tail[-1] in words_of("task_trailing"):
        tail.pop()
    return joined([verb, *subject, *tail]), here
