"""Whose a figure is. Overlaps between the rules are settled here and nowhere else.

Per cent and degrees are readings, hours are hours, money is a cost, "six twelve" is a slope; a plain number is stock where
something is counted with an event, money beside a price word, else a measure.
"""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.counts import counted_event, is_an_area
from journal.extract.former import says_nothing_of_now
from journal.extract.line import Figure
from journal.extract.meters import is_angle, is_reading
from journal.extract.prices import is_cost
from journal.extract.stretch import Stretch
from journal.extract.vocabulary import ing_forms, thing_words
from journal.records import Hours


def owner_of(facts: Stretch, figure: Figure) -> tuple[str, str | None]:
    """The one owner of a figure, and the event where that is stock (None where the event of the list goes on).

    "nothing" owns what says nothing of today ("it was fifty one on monday"), "angle" degrees that are no temperature.
    """
    kind = figure.kind
    before = facts.words[max(facts.position, figure.i - 8) : figure.i]
    if _is_year(facts, figure) or says_nothing_of_now(facts, figure):
        return "nothing", None
    if kind == "degrees" and is_angle(facts, figure):
        return "angle", None
    if kind in ("percent", "degrees"):
        return "reading", None
    if kind in ("hours", "slope"):
        return kind, None
    if kind == "money" or figure.per:
        return "cost", None
    if kind in ("number", "length") and figure.unit == "" and is_reading(facts, figure, before):
        return "reading", None
    if figure.unit == "" and _is_hours(facts, figure, before):
        return "hours", None
    if is_an_area(facts, figure):
        return "nothing", None
    event = counted_event(facts, figure)
    if event is not None:
        return "stock", event or None
    if figure.unit == "" and kind != "section" and is_cost(facts, figure, before):
        return "cost", None
    return "measure", None


def _is_year(facts: Stretch, figure: Figure) -> bool:
    """ "Built back in nineteen thirty two"."""
    led = facts.words[figure.i - 1] if figure.i else ""
    century = figure.whole in (17, 18, 19, 20) and figure.second is not None and figure.rule == "figure.cents"
    return century and not figure.per and led in ("in", "since", "circa", "from", "year", "of", "around", "about")


def _is_hours(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """Whether a figure without a unit is hours: going on from hours said before it, or said of a day."""
    words, plain = facts.words, figure.kind in ("number", "length")
    worked = words[figure.j : figure.j + 1]
    if plain and worked and worked[0] in ing_forms() and worked[0] not in thing_words() and figure.value <= 16:
        lead = facts.words[facts.clause.i : figure.i]
        if {"hours", "time"} & set(lead) and not any(facts.position <= k < figure.i for k in facts.ctx.line.dimensions):
            return True
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if isinstance(last, Hours):
        more = words[figure.j : figure.j + 1] in (["more"], ["on"])
        if more and set(words[figure.j : figure.j + 3]) & set(ing_forms()):
            return True
        if plain and figure.value <= 16 and _hours_go_on(facts, figure):
            return True
        of_day = {"morning", "afternoon", "evening"} & set(words[facts.position : figure.i])
        if of_day and plain and figure.value <= 12:
            return True
    return plain and _is_day_hours(facts, figure, before)


def _hours_go_on(facts: Stretch, figure: Figure) -> bool:
    """Whether a bare figure after hours is more of them: the work, a place or nothing after it, or a day before it."""
    words, j = facts.words, figure.j
    following = words[j] if j < facts.clause.j else ""
    if following in ing_forms() and following not in thing_words():
        return True
    if any(facts.position <= k < j + 3 for k in facts.ctx.line.dimensions) or "by" in words[j : j + 1]:
        return False
    if any(d.weekday and d.j == figure.i for d in facts.ctx.dues):
        return not stockwords.names_stock(words, j)
    k = j + 1 + (words[j + 1 : j + 2] == ["the"])
    joined_on = words[figure.i - 1 : figure.i] in (["and"], ["then"], ["plus"], ["another"])
    return joined_on and following in ("on", "in", "at") and k in facts.ctx.line.places


def _is_day_hours(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Friday was six and a half", "yesterday on the lake gable was five": a day, "was" and a small figure."""
    if (
        not before
        or before[-1] not in ("was", "were", "'s", "be")
        or figure.value > 16
        or facts.ctx.facts
        or facts.waiting
    ):
        return False
    start = facts.clause.i
    dated = (
        any(d.weekday and start <= d.i < figure.i for d in facts.ctx.dues)
        or "yesterday" in facts.words[start : figure.i]
    )
    return dated and not any(start <= i < figure.i for i in facts.ctx.line.dimensions)
