"""Measures as they are said on a site: what goes with which figure, and what goes on down a list."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard
from journal.records import Known


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("tally room floor is half an inch out of level", ["measure: tally room floor · out of level · 0 1/2"]),
        ("watch room trim now the head casing's forty four and five eighths long", ["measure: watch room · head casing · length · 44 5/8"]),
        ("granary south wall stud bay four is fourteen and three eighths wide", ["measure: granary south wall · stud bay 4 · width · 14 3/8"]),
        ("east portal's a fat half inch out of plumb", ["measure: east portal · out of plumb · 0 1/2 · strong"]),
        ("the bridge deck length is forty two foot six", ["measure: bridge deck · length · 510"]),
        ("the engine shed's roof is a six twelve", ["slope: engine shed roof · 6 in 12"]),
        ("lookout east rail's thirty six and a half high", ["measure: lookout · east rail · height · 36 1/2"]),
        ("deck stairs rise seven and a quarter run eleven", ["measure: deck · stairs · rise · 7 1/4", "measure: deck · stairs · run · 11"]),
        ("deck stair rise seven and a quarter", ["measure: deck stair · rise · 7 1/4"]),
        ("need to paint shed doors", ["task: shed · paint shed doors · open"]),
    ],
)  # fmt: skip
def test_places_that_no_table_has(said: str, told: list[str]) -> None:
    """A room by its pattern, a building with its wall, stairs of a room: each is one place."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("net shed's four point eight metres long three point two wide and two point three five to the plate", ["measure: net shed · length · 4.8 m", "measure: net shed · width · 3.2 m", "measure: net shed · plate height · 2.35 m"]),
        ("shelf one's three hundred mil deep and eighteen thick shelf two's two eighty deep", ["measure: shelf 1 · depth · 300 mm", "measure: shelf 1 · thickness · 18 mm", "measure: shelf 2 · depth · 280 mm"]),
        ("the panel's twelve hundred mil long the batten's one and a half wide", ["measure: panel · length · 1200 mm", "measure: batten · width · 1 1/2"]),
        ("beam one's twenty one foot long beam two about nineteen and a half", ["measure: beam 1 · length · 252", "measure: beam 2 · length · 234 · about"]),
        ("posts are eight foot high and the rail's three and a half", ["measure: posts · height · 96", "measure: rail · height · 3 1/2"]),
        ("the stool's a scant inch thick and five and a half deep", ["measure: stool · thickness · 1 · shy", "measure: stool · depth · 5 1/2"]),
        ("the opening in the loft is a fat foot and a half wide", ["measure: loft · opening · width · 18 · strong"]),
    ],
)  # fmt: skip
def test_a_unit_goes_on(said: str, told: list[str]) -> None:
    """A metric unit goes on to bare figures, feet only to the same sort of thing; an inch fraction ends it."""
    assert facts(said) == told


def test_a_unit_that_goes_on_is_shown() -> None:
    """Feet and small metric figures that were not said with their unit carry a doubt of the lowest kind."""
    shown = [
        d.shown
        for fact in heard("beam one's twenty one foot long beam two nineteen and a half").facts
        for d in fact.doubts
    ]
    assert shown == ["'nineteen and a half' was taken for feet, as before it"]
    shown = [
        d.shown for fact in heard("the shelf is three hundred mil deep and eighteen thick").facts for d in fact.doubts
    ]
    assert shown == ["'eighteen' was taken for 18 mm, as before it"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("board one seventeen and a half board two twenty two and five eighths all long points", ["measure: board 1 · long point · 17 1/2", "measure: board 2 · long point · 22 5/8"]),
        ("board one twenty two and a half board two thirty and a quarter those are long points west gable", ["measure: west gable · board 1 · long point · 22 1/2", "measure: west gable · board 2 · long point · 30 1/4"]),
        ("boards one two and three are seventeen and a half twenty two and thirty all to the long point", ["measure: board 1 · long point · 17 1/2", "measure: board 2 · long point · 22", "measure: board 3 · long point · 30"]),
        ("long points board one sixty eight board two fifty nine short points board one fifty board two forty one", ["measure: board 1 · long point · 68", "measure: board 2 · long point · 59", "measure: board 1 · short point · 50", "measure: board 2 · short point · 41"]),
        ("board one sixty long point fifty two short point board two fifty one long point forty four short point", ["measure: board 1 · long point · 60", "measure: board 1 · short point · 52", "measure: board 2 · long point · 51", "measure: board 2 · short point · 44"]),
        ("gable stud six is forty nine and three eighths to the long point thirty six and an eighth to the short", ["measure: gable stud 6 · long point · 49 3/8", "measure: gable stud 6 · short point · 36 1/8"]),
        ("first gable stud forty one and a half to the long point second one fifty seven to the long point", ["measure: first gable stud · long point · 41 1/2", "measure: second gable stud · long point · 57"]),
    ],
)  # fmt: skip
def test_a_dimension_said_once_for_a_list(said: str, told: list[str]) -> None:
    """It may stand behind the list, before each group of it, or behind each figure."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the pantry window is thirty wide by thirty six high rough opening", ["measure: pantry · window · rough opening width · 30", "measure: pantry · window · rough opening height · 36"]),
        ("pantry window twenty four by thirty six rough opening door thirty wide", ["measure: pantry · window · rough opening width · 24", "measure: pantry · window · rough opening height · 36", "measure: pantry · door · width · 30"]),
        ("newel caps are four and a half by four and a half by an inch and a quarter thick", ["measure: newel caps · size · 4 1/2", "measure: newel caps · size · 4 1/2", "measure: newel caps · thickness · 1 1/4"]),
        ("the soffit vents are every four foot", ["measure: soffit vents · spacing · 48"]),
        ("joists in the loft run eleven foot seven", ["measure: loft · joists · length · 139"]),
        ("the rafter run is nine foot eleven", ["measure: rafter · run · 119"]),
        ("the header over the garage door is going to want to be nine and a quarter deep", ["measure: garage · header door · depth · 9 1/4"]),
        ("call the reveal an eighth all the way round on the smokehouse door", ["measure: smokehouse · reveal · 0 1/8"]),
        ("first board left of centre on the road gable is sixty one long point", ["measure: road gable · first board left of centre · long point · 61"]),
    ],
)  # fmt: skip
def test_dimensions_in_their_many_places(said: str, told: list[str]) -> None:
    """Before, behind or between the figures; verbs and remarks between name nothing."""
    assert facts(said) == told


@pytest.mark.parametrize(
    "said", ["the dump run was sixty five", "the saw was going till ten", "six foot to the short wall from the door"]
)
def test_words_that_are_no_dimension_here(said: str) -> None:
    """A trip is no run of a stair, "going till ten" no going, a short wall no short point."""
    assert heard(said, Known()).facts == ()
