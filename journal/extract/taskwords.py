"""How a task is written down: its verb bare, its object as said, less the place and the date, which have fields of their own."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import PlaceWord, joined
from journal.extract.sets import words_of
from journal.extract.utterance import Clause, particles
from journal.extract.vocabulary import bare, function_words, ing_forms, past_forms, verbs
from journal.records import Hours, Span, Task


def _parted(text: list[str]) -> bool:
    """Whether a task ends with the particle of its verb: "get the balusters in", "take the staging down"."""
    return (
        len(text) > 2 and text[-1] in particles() and text[0] in words_of("splits") and text[-2] not in function_words()
    )


def _is_pronoun(word: str) -> bool:
    return word in ("it", "them", "that", "this", "those", "these", "one")


def _names_more(ctx: Context, k: int, end: int) -> bool:
    """Whether a noun follows a place before word `k`, so that the place is part of its name: "off the porch rail"."""
    if k >= end or k in ctx.line.figures or any(due.i <= k < due.j for due in ctx.dues):
        return False
    word = ctx.line.words[k]
    return word not in function_words() | verbs() | particles() and word not in past_forms()


def _is_party(words: list[str], verb: int, k: int, place: PlaceWord) -> bool:
    """Whether a place is who is called or paid, or where things are fetched: "call the mill", "from the shop"."""
    if verb < 0:
        return False
    if words[verb] in words_of("calls") or words[verb] in words_of("runs_it"):
        return k == verb
    fetched = words[verb] in words_of("fetches") and words[k] in ("from", "to", "at")
    return fetched and place.name in words_of("suppliers")


def what_to_do(ctx: Context, clause: Clause, i: int, end: int) -> tuple[str, str | None]:
    """The words of the task, its verb bare, and the place named in it."""
    if clause.opener == "is done":
        return _state(ctx, clause, end)
    if clause.opener == "waits":
        return _waiting_work(ctx, clause)
    if clause.opener == "needs a coat":
        return _coat(ctx, clause, end)
    if clause.opener in ("needs", "had done"):
        return _needed(ctx, clause, end)
    words = ctx.line.words
    skip, here = _place_phrases(ctx, i, end, i)
    skip |= {k for due in ctx.dues for k in range(due.i, due.j)}
    text = [words[k] for k in range(i, end) if k not in skip]
    if not text:
        return "", here
    if clause.opener in ("past", "finished") or words[i - 1 : i] in (["haven't"], ["hasn't"]):
        text[0] = bare(text[0])
    if clause.opener != "past":
        text[0] = ing_forms().get(text[0], text[0])
    if clause.opener == "past" and text[1:2] == ["and"] and len(text) > 2:
        text[2] = past_forms().get(text[2], text[2])
    if len(text) > 3 and text[-1] == "there" and text[-2] in words_of("place_particles") and not _is_pronoun(text[-3]):
        del text[-2:]  # "fix the flashing up there"
    while (len(text) > 1 and text[-1] in words_of("task_trailing") and not _parted(text)) or (
        len(text) > 2 and text[-1] == "it" and text[-2] in ("so", "and", "before")
    ):
        text.pop()
    if len(text) == 1 and here is None and clause.opener in ("bare", "past"):
        return "", here
    if len(text) == 1 and here is not None and clause.opener == "bare" and text[0] not in past_forms():
        return joined(text), here
    return joined(text), here


def _place_phrases(ctx: Context, start: int, end: int, verb: int) -> tuple[set[int], str | None]:
    """The words of separate place phrases ("up in the belfry", "over here") and the first place named."""
    words = ctx.line.words
    skip: set[int] = set()
    here: str | None = None
    for i, place in sorted(ctx.line.places.items()):
        if not start <= i < end:
            continue
        k = i - 1
        while k > start and words[k] in ("the", "a", "our", "my"):
            k -= 1
        if _is_party(words, verb, k, place):
            continue
        here = here or place.name
        if place.carried and words[i] not in ("same", "this", "that"):
            skip.update(range(i, place.j))
        elif k > start and words[k] in words_of("task_prepositions") and k - 1 != verb:
            if _names_more(ctx, place.j, end):
                if any(part.isdecimal() for part in place.name.split()):
                    skip.update(range(i, place.j))  # its number has a field of its own
                continue
            split = verb >= 0 and (_bare(words[verb]) or words[verb]) in words_of("splits")
            while k - 1 > verb and words[k - 1] in words_of("place_particles") and not (split and k - 2 > verb):
                k -= 1
            skip.update(range(k, place.j))
    return skip, here


def _waiting_work(ctx: Context, clause: Clause) -> tuple[str, str | None]:
    """ "The shingles on gable b are waiting for the scaffold" is "shingles", on gable B; "vents go on once …" is "vents go on"."""
    words = ctx.line.words
    stop = clause.verb + (words[clause.verb] not in words_of("copulas", "may_go") | {"waits", "wait"})
    skip, here = _place_phrases(ctx, clause.subject, stop, -1)
    if words[clause.verb] in words_of("begins"):
        stop -= 1
    text = [words[k] for k in range(clause.subject, stop) if k not in skip and words[k] not in words_of("may_go")]
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
    if subject in (["they"], ["it"], ["that"]) and _said_last(ctx, verb):
        return "", here
    if subject in (["they"], ["it"], ["that"]) and (work := _work_done(ctx, verb)) is not None:
        return work, here
    if verb in (None, "do", "finish", "complete"):
        return joined(subject), here
    if subject in (["they"], ["it"], ["those"], ["these"]) or not subject:
        subject = (named_last(ctx) or "it").split()
        return joined([verb or "", *subject]), here
    return joined([verb or "", *(["the"] if the else []), *subject]), here


def _said_last(ctx: Context, verb: str | None) -> bool:
    """Whether "it's all done", "it's all stripped" only says again that the task before is done."""
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Task):
        return False
    return verb in (None, "do", "finish", "complete") or last.do.split()[0] == verb


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
    while stop > start and words[stop - 1] in words_of("need_words") | {"all", "finally", "now"}:
        stop -= 1
    skip, here = _place_phrases(ctx, start, end, -1)
    skip |= {m for due in ctx.dues for m in range(due.i, due.j)}
    subject = [words[m] for m in range(start, stop) if m not in skip]
    tail = [words[m] for m in range(k + 1, end) if m not in skip]
    if tail[:1] == ["and"] and len(tail) > 1 and (second := _bare(tail[1])) is not None:
        verb, tail = f"{verb} and {second}", tail[2:]
    while subject and subject[0] in ("so", "and", "but", "also", "oh"):
        subject.pop(0)
    while tail and tail[-1] in words_of("task_trailing") and not (len(tail) == 1 and tail[0] in particles()):
        tail.pop()
    return joined([verb, *subject, *tail]), here


def _bare(word: str) -> str | None:
    return ing_forms().get(word) or past_forms().get(word)


def _coat(ctx: Context, clause: Clause, end: int) -> tuple[str, str | None]:
    """ "The handrail needs a second coat" is "give the handrail a second coat"."""
    words = ctx.line.words
    skip, here = _place_phrases(ctx, clause.subject, end, -1)
    skip |= {m for due in ctx.dues for m in range(due.i, due.j)}
    stop = clause.verb
    while stop > clause.subject and words[stop - 1] in words_of("need_words"):
        stop -= 1
    thing = [words[m] for m in range(clause.subject, stop) if m not in skip]
    work = [words[m] for m in range(clause.verb + 1, end) if m not in skip]
    while work and work[-1] in words_of("task_trailing"):
        work.pop()
    return joined(["give", *thing, *work]), here
