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
        ("deck stair rise seven and a quarter", ["measure: deck · stair · rise · 7 1/4"]),
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
    "said", ["the trial run was sixty five", "the saw was going till ten", "six foot to the short wall from the door"]
)
def test_words_that_are_no_dimension_here(said: str) -> None:
    """A trip is no run of a stair, "going till ten" no going, a short wall no short point."""
    assert heard(said, Known()).facts == ()


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("braces on frame two are forty one and a half long frame three forty one and a quarter", ["measure: frame 2 · braces · length · 41 1/2", "measure: frame 3 · braces · length · 41 1/4"]),
        ("bay one window's thirty wide bay two is fourteen foot wide", ["measure: bay 1 · window · width · 30", "measure: bay 2 · width · 168"]),
        ("the beam's nine and a half deep not eleven and a quarter like the plan says and it's sixteen foot two long", ["measure: beam · depth · 9 1/2", "measure: beam · length · 194"]),
        ("posts are eight foot long per the drawing", ["measure: posts · length · 96"]),
        ("the sill's thirty six off the floor header is nine and a quarter deep", ["measure: floor to sill · offset · 36", "measure: header · depth · 9 1/4"]),
        ("the header's eighty two and a half off the floor plate sits at a hundred and one", ["measure: floor to header · offset · 82 1/2", "measure: plate height · 101"]),
        ("the window's sixteen off the corner post", ["measure: corner post to window · offset · 16"]),
        ("gap between the shutter and the jamb at the west portal is an eighth and the shutter's two thick", ["measure: west portal · shutter and jamb · gap · 0 1/8", "measure: west portal · shutter · thickness · 2"]),
        ("there's a three eighths gap between the casing and the log in the loft", ["measure: loft · casing and log · gap · 0 3/8"]),
    ],
)  # fmt: skip
def test_what_goes_with_which_figure(said: str, told: list[str]) -> None:
    """The thing goes on over a row of frames; a remark about the plan is none; the next thing begins behind an offset's."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told", "doubts"),
    [
        ("log nine on the river wall is fifteen and a half at the butt and a scant twelve at the tip", ["measure: river wall · log 9 butt · diameter · 15 1/2", "measure: river wall · log 9 tip · diameter · 12 · shy"], []),
        ("the counter's at thirty six and the head at eighty two", ["measure: counter · height · 36", "measure: head · height · 82"], []),
        ("the pantry window is twenty four by thirty six rough opening sill at forty eight", ["measure: pantry · window · rough opening width · 24", "measure: pantry · window · rough opening height · 36", "measure: pantry · sill · height · 48"], []),
        ("porch posts are running six foot four to the underside of the beam", ["measure: porch · posts · length · 76"], ["'six foot four' was taken for the length"]),
        ("first rafter on the north side is twelve foot three to the plumb cut", ["measure: first rafter north side · length · 147"], ["'twelve foot three' was taken for the length"]),
        ("the purlins are at four foot", ["measure: purlins · spacing · 48"], ["'four foot' was taken for the spacing"]),
        ("the beam's nine and a half", [], []),
    ],
)  # fmt: skip
def test_what_the_custom_of_the_trade_tells(said: str, told: list[str], doubts: list[str]) -> None:
    """A stick in feet is as long, a log is as thick at its butt, a sill as high (CP); what is taken for granted is shown."""
    read = heard(said)
    assert facts(said) == told
    assert [d.shown for fact in read.facts for d in fact.doubts] == doubts


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("plumb on the north post is off a quarter in eight foot and the west one's three sixteenths out", ["measure: north post · out of plumb · 0 1/4 · over 96", "measure: west post · out of plumb · 0 3/16"]),
        ("level across the sill plate was off by a quarter in ten feet", ["measure: sill plate · out of level · 0 1/4 · over 120"]),
        ("the bottom log is out an inch and three eighths over the twenty two foot", ["measure: bottom log · out of level · 1 3/8 · over 264"]),
        ("square on the foundation is out five eighths", ["measure: foundation · out of square · 0 5/8"]),
        ("wall height ninety six and a quarter at the north corner ninety five and seven eighths at the south corner so it's three eighths out", ["measure: wall north corner · height · 96 1/4", "measure: wall south corner · height · 95 7/8", "measure: wall · out of level · 0 3/8"]),
        ("between the two windows on the river wall it's thirty one and five eighths", ["measure: river wall · window to window · offset · 31 5/8"]),
        ("the drain is ten inches off the wall", ["measure: wall to drain · offset · 10"]),
    ],
)  # fmt: skip
def test_how_far_something_is_out(said: str, told: list[str]) -> None:
    """Plumb, level and square in any order of the words; a distance off a wall is none of them."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "message", "hint"),
    [
        ("the thing's a quarter out", "'a quarter': it is out, but of plumb, level or square?", "Say: it out of plumb …"),
        ("the plan says four and nine sixteenths for the jamb", "'four and nine sixteenths': a figure from the plan, not measured", "Say what was measured."),
    ],
)  # fmt: skip
def test_what_cannot_be_told_is_asked(said: str, message: str, hint: str) -> None:
    """Which way it is out, and what a plan says: no fact, and what to say next."""
    read = heard(said)
    assert read.facts == ()
    assert [(problem.message, problem.hint) for problem in read.problems] == [(message, hint)]


@pytest.mark.parametrize(
    ("said", "told", "doubts"),
    [
        ("panel two is thirteen and nine sixteenths wide panel three's a sixteenth more", ["measure: panel 2 · width · 13 9/16", "measure: panel 3 · width · 13 5/8"], ["'a sixteenth more' was worked out from 13 9/16 and 0 1/16: 13 5/8"]),
        ("board one is forty two long board two's an inch longer", ["measure: board 1 · length · 42", "measure: board 2 · length · 43"], ["'an inch longer' was worked out from 42 and 1: 43"]),
        ("board one is forty two long board two is fifty long board three's half an inch shorter than board one", ["measure: board 1 · length · 42", "measure: board 2 · length · 50", "measure: board 3 · length · 41 1/2"], ["'half an inch shorter' was worked out from 42 less 0 1/2: 41 1/2"]),
        ("the sill is an eighth out of level over four foot", ["measure: sill · out of level · 0 1/8 · over 48"], []),
    ],
)  # fmt: skip
def test_a_figure_told_against_another(said: str, told: list[str], doubts: list[str]) -> None:
    """It is the sum where the other stands in the memo, and shown as worked out."""
    read = heard(said)
    assert facts(said) == told
    assert [d.shown for fact in read.facts for d in fact.doubts] == doubts


@pytest.mark.parametrize(
    "said", ["so it's three eighths over", "that rafter's an inch short", "the mortise is an eighth deeper"]
)
def test_a_figure_told_against_none_is_asked(said: str) -> None:
    """Without the other figure there is no size: the whole figure is asked for."""
    read = heard(said)
    assert read.facts == ()
    assert [(p.message.split(": ")[1].split("' ")[1], p.hint) for p in read.problems] == [
        ("is told against another figure that is not in this memo", "Say the whole figure.")
    ]


def test_a_figure_of_another_order_is_doubted() -> None:
    """A dimension that goes on to a figure four times as small or large asks; an overhang does not go on to a fascia."""
    read = heard("wall height at the north corner ninety six and a quarter south corner three eighths")
    assert [d.shown for fact in read.facts for d in fact.doubts] == [
        "is 'three eighths' south corner height, as the 96 1/4\" before it?"
    ]
    assert facts("porch overhang sixteen fascia's five and a half") == ["measure: porch · overhang · 16"]
    assert facts("overhang at the eaves sixteen at the gable end twelve")[1:] != []


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the bench is forty three off the floor door rough opening twenty six by seventy eight", ["measure: floor to bench · offset · 43", "measure: door · rough opening width · 26", "measure: door · rough opening height · 78"]),
        ("lengths the valley's eighteen feet the hip sixteen and a half", ["measure: valley · length · 216", "measure: hip · length · 198"]),
        ("gap between the stove and the wall in the sauna is two and a half", ["measure: sauna · stove and wall · gap · 2 1/2"]),
        ("window nine hundred and sixty mil wide", ["measure: window · width · 960 mm"]),
        ("window one rough opening thirty four wide sixty six high window two thirty four and a half wide sixty six high", ["measure: window 1 · rough opening width · 34", "measure: window 1 · rough opening height · 66", "measure: window 2 · rough opening width · 34 1/2", "measure: window 2 · rough opening height · 66"]),
        ("the pad's four foot by five foot and three quarters of an inch out of square", ["measure: pad · size · 48", "measure: pad · size · 60", "measure: pad · out of square · 0 3/4"]),
        ("the post's nine foot tall from the corner to the hatch it's six foot three from the hatch to the post two foot eleven", ["measure: post · height · 108", "measure: corner to hatch · offset · 75", "measure: hatch to post · offset · 35"]),
    ],
)  # fmt: skip
def test_where_one_measure_ends_and_the_next_begins(said: str, told: list[str]) -> None:
    """A phrase between two figures goes to the one that has nothing yet."""
    assert facts(said) == told
