"""Whose a figure is. Overlaps between the rules are settled here and nowhere else.

Per cent and degrees are readings, hours are hours, money is a cost, "six twelve" is a slope; a plain number is stock where
something is counted with an event, money beside a price word, else a measure.
"""

from __future__ import annotations

from journal.extract.counts import counted_event, is_an_area
from journal.extract.durations import BREAK
from journal.extract.fillers import source_of
from journal.extract.former import says_nothing_of_now
from journal.extract.hearsay import said_of_it, told_by_somebody
from journal.extract.line import Figure
from journal.extract.meters import is_angle, is_reading, is_share
from journal.extract.passing import is_in_passing
from journal.extract.prices import by_the_board_foot, is_cost, pair_goes_on
from journal.extract.sets import words_of
from journal.extract.slopes import slope_goes_on
from journal.extract.stretch import Stretch
from journal.extract.worked import is_hours, minutes_go_on


def owner_of(facts: Stretch, figure: Figure) -> tuple[str, str | None]:
    """The one owner of a figure, and the event where that is stock (None where the event of the list goes on).

    "nothing" owns what says nothing of today ("it was fifty one on monday") and what somebody else says or has, "angle"
    degrees that are no temperature.
    """
    owner, event = _owner(facts, figure)
    if said_of_it(facts.words, figure.j):
        return "nothing", None
    had = owner == "stock" and (event or facts.going.event) == "have"
    if owner == "measure" and source_of(facts.words[max(0, figure.i - 8) : figure.i]):
        return owner, event  # what a plan says is asked about
    if owner in ("measure", "slope", "reading", "angle") or had:
        told = told_by_somebody(facts.ctx.line, figure.i)
        return ("nothing", None) if told else (owner, event)
    return owner, event


def _owner(facts: Stretch, figure: Figure) -> tuple[str, str | None]:
    kind = figure.kind
    before = facts.words[max(facts.position, figure.i - 8) : figure.i]
    if figure.rule == BREAK or _is_year(facts, figure) or _is_of_tool(facts, figure):
        return "nothing", None
    if says_nothing_of_now(facts, figure) or is_share(facts, figure) or is_in_passing(facts, figure):
        return "nothing", None
    if kind == "degrees" and is_angle(facts, figure):
        return "angle", None
    if kind in ("percent", "degrees"):
        return "reading", None
    if kind == "slope" and (source_of(before) or {"minimum", "maximum", "least", "most"} & set(before)):
        return "nothing", None
    if kind in ("hours", "slope"):
        return kind, None
    if slope_goes_on(facts, figure):
        return "slope", None
    if minutes_go_on(facts, figure):
        return "hours", None
    if kind == "money" or figure.per or by_the_board_foot(facts, figure):
        return "cost", None
    if kind in ("number", "length") and figure.unit == "" and is_reading(facts, figure, before):
        return "reading", None
    if figure.unit == "" and is_hours(facts, figure, before):
        return "hours", None
    if figure.rule == "figure.bare_feet" and pair_goes_on(facts, figure):
        return "cost", None
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


def _is_of_tool(facts: Stretch, figure: Figure) -> bool:
    """ "The four foot level", "page nine": the size of a tool, the number of a page."""
    if figure.i and facts.words[figure.i - 1] in words_of("no_figure_after"):
        return True
    singular = figure.unit in ("ft", "in", "mm") and facts.words[figure.j - 1] in ("foot", "inch", "mil")
    return (
        singular
        and not facts.in_stock
        and facts.words[figure.j : figure.j + 1] != []
        and facts.words[figure.j] in words_of("tools")
    )
