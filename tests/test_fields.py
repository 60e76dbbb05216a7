"""Fields of a fact as a person types them."""

from __future__ import annotations

from datetime import date

import pytest

from journal.errors import Unreadable
from journal.fields import describe, field_names, figure_shown, format_field, with_fields
from journal.lengths import INCH, ticks_from_inches
from journal.records import Cost, Doubt, Fact, Hours, Measure, Reading, Slope, Span, Stock, Task

WIDTH = Measure(place="wall A", about="window", dimension="width", ticks=ticks_from_inches("30 1/2"))
FACTS: list[Fact] = [
    WIDTH,
    Measure(dimension="out of plumb", ticks=3 * INCH // 8, over_ticks=96 * INCH, shade="strong", approx=True),
    Measure(about="sash", dimension="width", ticks=610 * 320, metric="610 mm"),
    Slope(place="lake gable", rise=7.5),
    Task(do="set the sash", status="waiting", after="the glass comes", due=date(2026, 7, 29)),
    Stock(event="received", count=40, what="board", section="1x8", length_ticks=144 * INCH, species="white pine"),
    Reading(quantity="temperature", value=-4, unit="C"),
    Hours(hours=6.5, activity="boarding", on=date(2026, 7, 17)),
    Cost(amount=1.85, per="board foot", what="white pine"),
]


@pytest.mark.parametrize("fact", FACTS, ids=describe)
def test_every_field_shown_can_be_typed_back(fact: Fact) -> None:
    """Typing a fact's own fields back changes nothing."""
    typed = {name: text for name in field_names(fact.kind) if (text := format_field(fact, name))}
    assert with_fields(fact, typed) == fact


@pytest.mark.parametrize(
    ("fact", "line"),
    list(
        zip(
            FACTS,
            [
                'window width 30 1/2"',
                'out of plumb ~3/8" + in 96"',
                "sash width 610 mm",
                "slope 7.5/12",
                "waiting: set the sash by Wed 29 Jul once the glass comes",
                "received: 40 1x8 white pine board 12' 0\"",
                "temperature -4 °C",
                "6.5 h boarding",
                "white pine $1.85 per board foot",
            ],
            strict=True,
        )
    ),
)
def test_facts_read_as_a_line(fact: Fact, line: str) -> None:
    """A fact reads as one line with its figure, unit and marks."""
    assert describe(fact) == line


def test_a_typed_figure_settles_doubts_and_may_change_the_tape() -> None:
    """A figure typed by hand replaces the ticks, the tape it was read on, and the doubts."""
    doubted = Measure(dimension="width", ticks=INCH, doubts=(Doubt("heard", "one or eleven?", Span(0, 3)),))
    assert with_fields(doubted, {"figure": "1820mm"}) == Measure(dimension="width", ticks=582_400, metric="1820 mm")
    assert with_fields(doubted, {"figure": "5' 11 5/8"}).doubts == ()


def test_an_emptied_field_is_not_said() -> None:
    """Emptying a field that may be empty makes it not said, which is not the same as nothing."""
    assert with_fields(WIDTH, {"about": "-"}) == Measure(place="wall A", dimension="width", ticks=WIDTH.ticks)


@pytest.mark.parametrize(
    ("fact", "typed", "message"),
    [
        (WIDTH, {"figure": "71 5/0"}, "'71 5/0' is not a length: the fraction has a zero below the line\nType it as 71 5/8, 5' 11 5/8 or 1820mm."),
        (WIDTH, {"figure": "about a foot"}, "'about a foot' is not a length\nType it as 71 5/8, 5' 11 5/8 or 1820mm."),
        (WIDTH, {"colour": "red"}, "a measure has no 'colour'\nIt has: figure, place, about, dimension, approx, shade, over."),
        (WIDTH, {"shade": "red"}, "'red' is no shade\nIt may be: strong, shy."),
        (FACTS[4], {"due": "friday"}, "'friday' is no date for 'due'\nType it as 2026-07-31."),
        (FACTS[4], {"status": ""}, "the status of a task cannot be left empty\nIt may be: open, done, waiting."),
        (FACTS[3], {"figure": "8/0"}, "'8/0' is not a slope: the run is zero\nType rise and run: 8/12"),
        (FACTS[3], {"figure": "steep"}, "'steep' is not a slope\nType rise and run: 8/12"),
        (FACTS[8], {"figure": "nan"}, "'nan' is no number for the figure\nType a plain number, such as 12 or 7.5."),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_said(fact: Fact, typed: dict[str, str], message: str) -> None:
    """A field that cannot be read names itself, what was typed, and what it may be."""
    with pytest.raises(Unreadable) as caught:
        with_fields(fact, typed)
    assert str(caught.value) == message


def test_money_shows_its_rate() -> None:
    """An amount shows what it is per, and a total does not."""
    assert figure_shown(Cost(amount=1230.4)) == "$1,230.40"
    assert figure_shown(Cost(amount=11.4, per="each")) == "$11.40 per each"
