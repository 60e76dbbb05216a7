"""Reads a line clause by clause and hands each figure to the rules of its owner.

A clause that says a task is read whole by tasks.py. In the rest owners.py says whose each figure is; measures
wait until the next figure of another owner, since each looks at the ones beside it.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.extract import stockwords
from journal.extract.afterlots import of_last_lot
from journal.extract.clauses import find_clauses
from journal.extract.context import Context
from journal.extract.costs import cost
from journal.extract.fillers import source_of
from journal.extract.former import pass_over
from journal.extract.halfsaid import half_said, half_said_last
from journal.extract.hours import hours
from journal.extract.line import Figure, joined
from journal.extract.lotlists import (
    event_named,
    file_lot,
    for_all_lots,
    kind_first,
    point_back,
    stock_word,
    stock_words,
)
from journal.extract.measures import measure
from journal.extract.meters import report_angle
from journal.extract.owners import owner_of
from journal.extract.pointed import lot_named_first, points_back
from journal.extract.readings import reading
from journal.extract.sets import words_of
from journal.extract.slopes import slope
from journal.extract.stock import (
    Going,
)
from journal.extract.stretch import Stretch
from journal.extract.tasks import done_stock, task
from journal.extract.things import about, thing
from journal.extract.utterance import TASKS, Clause
from journal.extract.vocabulary import thing_words
from journal.records import Hours, Measure, Reading


def read(ctx: Context) -> None:
    """Adds every fact of the line to the context."""
    going = Going()
    worked_on: Clause | None = None
    for clause in find_clauses(ctx.line, ctx.dues):
        if clause.opener in TASKS:
            task(ctx, clause)
            going, worked_on = Going(), clause
        else:
            if worked_on is not None:
                _go_on_about(ctx, worked_on, clause)
            worked_on = None
            _read(Stretch(ctx, clause, going))
            done_stock(ctx, clause)


def _go_on_about(ctx: Context, worked_on: Clause, clause: Clause) -> None:
    """ "Shim the header, it's three eighths out of level": "it" is what the task before is about."""
    k = next((k for k in range(clause.i, clause.j) if ctx.line.words[k] not in words_of("conjunctions")), clause.i)
    if ctx.line.words[k] not in ("it", "they") or worked_on.opener not in ("bare", "open", "past"):
        return
    named, _ = thing(ctx, worked_on.verb + 1, worked_on.j)
    ctx.thing = about(ctx, named) or ctx.thing


def _read(facts: Stretch) -> None:
    """Adds the facts of one stretch, figure by figure."""
    clause, ctx = facts.clause, facts.ctx
    if facts.in_stock:
        facts.going.event = event_named(facts, clause.verb)
        named, _ = thing(ctx, clause.i, clause.verb)
        facts.going.name = named or facts.going.name
        facts.going.kind = kind_first(facts, clause.verb)
    elif (lot := lot_named_first(ctx, clause.i, clause.j)) is not None:
        facts.going.what, facts.going.section, facts.going.species = joined(lot.what), lot.section, lot.species
        return
    elif not facts.figures:
        facts.going.name, _ = thing(ctx, clause.i, clause.j)
        half_said(ctx, clause.i, clause.j)
    first_words = stock_words()
    k = clause.i
    while k < clause.j:
        figure = facts.figures.get(k)
        if figure is not None:
            k = _hand_over(facts, figure)
            continue
        after = (stock_word(facts, k) if facts.words[k] in first_words else None) or for_all_lots(ctx, k)
        if after is not None:
            k = facts.position = after
        else:
            k += 1
    if facts.figures:
        half_said_last(ctx, max(f.j for f in facts.figures.values()), clause.j)
    if facts.waiting:
        measure(ctx, facts.waiting, facts.position, clause.j)
    elif (place := ctx.place_between(facts.position, clause.j)) is not None:
        ctx.place = place
    _place_for_all(facts)


def _place_for_all(facts: Stretch) -> None:
    """ "… all on wall c" at the end: the place of every measure, hour and reading of the memo that has none."""
    i = next(
        (
            k
            for k in range(facts.clause.j - 1, facts.clause.i, -1)
            if facts.words[k] in ("all", "both") and k + 1 < facts.clause.j
        ),
        None,
    )
    place = facts.ctx.place_between(i, facts.clause.j) if i is not None else None
    if place is None:
        return
    led = i is not None and facts.words[i + 1] in words_of("place_prepositions") | {"up", "down", "out"}
    for n, fact in enumerate(facts.ctx.facts):
        if fact.place is None and (isinstance(fact, Measure) or (led and isinstance(fact, Hours | Reading))):
            facts.ctx.facts[n] = replace(fact, place=place)


def _hand_over(facts: Stretch, figure: Figure) -> int:
    """Hands a figure to its owner; the index to go on at."""
    if points_back(facts.words, figure) and not (facts.in_stock and facts.going.what):
        after = point_back(facts, figure)
        if after is not None or not facts.in_stock:
            return after or figure.j + 2
    if facts.words[figure.j : figure.j + 2] in (["of", "that"], ["of", "us"], ["of", "which"]):
        return figure.j + 2
    if not facts.in_stock and facts.words[figure.j : figure.j + 2] == ["of", "the"] and figure.kind == "number":
        part = _share_said(facts, figure)
        if part is not None:
            return part
    ahead = facts.figures.get(figure.j + 1)
    if (
        figure.kind == "number"
        and facts.words[figure.j : figure.j + 1] == ["for"]
        and ahead is not None
        and ahead.kind == "money"
    ):
        return figure.j
    owner, event = owner_of(facts, figure)
    if (
        owner == "measure"
        and figure.kind == "section"
        and (_names(facts, figure) or facts.words[figure.j - 1].endswith("s"))
    ):
        return max(figure.j, figure.i + 1)
    if owner == "nothing":
        _end_before(facts, figure)
        return max(pass_over(facts, figure), figure.j)
    if owner == "measure" and (sized := of_last_lot(facts, figure)) is not None:
        return sized
    if owner == "measure":
        if facts.waiting and source_of(facts.words[facts.waiting[-1].j : figure.i]):
            _end_before(facts, figure)
        facts.waiting.extend(_as_lengths(figure, facts.words))
        return max(figure.j, figure.i + 1)
    if facts.waiting:
        end = _end_of_measures(facts, figure)
        measure(facts.ctx, facts.waiting, facts.position, end)
        facts.position, facts.waiting = end, []
    right = min([i for i in facts.figures if i >= figure.j] + [facts.clause.j])
    if owner == "reading":
        k = reading(facts.ctx, figure, facts.position, right)
    elif owner == "hours":
        k = hours(facts.ctx, figure, facts.position, facts.clause.j)
    elif owner == "cost":
        k = cost(facts.ctx, figure, facts.position, right)
    elif owner == "angle":
        k = report_angle(facts.ctx, figure)
    elif owner == "slope":
        k = slope(facts.ctx, figure, facts.position, right)
    else:
        if not facts.in_stock and not facts.going.name:
            before, _ = thing(facts.ctx, facts.position, figure.i)
            facts.going.name = [w for w in before if w not in thing_words()] and before
        facts.in_stock = True
        k = file_lot(facts, figure.i, event)
    facts.position = max(k, figure.j)
    return facts.position


def _end_before(facts: Stretch, figure: Figure) -> None:
    """Adds the measures before a figure that is none, where another sentence begins between: "… two wide | my old man swore it was …"."""
    if not facts.waiting:
        return
    last, words = facts.waiting[-1], facts.words
    for k in range(last.j, figure.i):
        anew = words[k] in words_of("determiners", "conjunctions", "begins_anew")
        if anew and words[k - 1] not in words_of("prepositions") and k > last.j - 1:
            measure(facts.ctx, facts.waiting, facts.position, k)
            facts.position, facts.waiting = k, []
            return


def _share_said(facts: Stretch, figure: Figure) -> int | None:
    """ "Four of the boards are warped", "one of the three posts has a check": what is said of some counts no stock; the index to go on at."""
    k = figure.j + 2
    for k in range(figure.j + 2, min(figure.j + 6, facts.clause.j)):
        if facts.words[k] in words_of("copulas") or facts.words[k] in ("has", "have", "need", "needs", "want", "got"):
            return k
        if k in facts.ctx.line.dimensions or facts.words[k] in words_of("prepositions"):
            return None
    return None


def _end_of_measures(facts: Stretch, figure: Figure) -> int:
    """Where the words of the measures before end and those of the next figure begin."""
    last = facts.waiting[-1]
    for k in range(figure.i - 1, last.j - 1, -1):
        if facts.words[k] in ("and", "then", "but", "so", "they", "it") and facts.words[k - 1] not in (
            "in",
            "on",
            "of",
        ):
            return k
    of = facts.words[last.j : last.j + 1] == ["of"]  # "fourteen inches of overhang"
    dim = facts.ctx.line.dimensions.get(last.j + of)
    return dim.j if dim is not None and dim.j <= figure.i else last.j


def _names(facts: Stretch, figure: Figure) -> bool:
    """Whether a section is part of a thing's name: "one by eight pine", "the two by six plate"."""
    following = facts.words[figure.j] if figure.j < facts.clause.j else ""
    return following in thing_words() or (
        following != "" and stockwords.species().at(facts.words, figure.j) is not None
    )


def _as_lengths(figure: Figure, words: list[str]) -> list[Figure]:
    """A section that turns out to be measured is two figures: "log six nine by eleven"."""
    if figure.kind != "section" or figure.section is None or "/" in figure.section:
        return [figure]
    first, second = figure.section.split("x")
    one = replace(
        figure,
        kind="number",
        value=Fraction(first) + (figure.second or 0),
        j=figure.j,
        doubts=list(figure.doubts),
        section=None,
    )
    two = replace(figure, kind="number", value=Fraction(second), doubts=[], section=None)
    two.j -= words[figure.j - 1] == "by"
    two.i = one.j = two.j - 1
    return [one, two]
