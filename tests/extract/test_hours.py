"""Working time: what the hours were spent on, spans by the clock, lists of hours, and time that is no work at all."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard


@pytest.mark.parametrize(
    ("said", "told", "shown"),
    [
        ("worked eight to four thirty with half an hour for lunch", "hours: 8 h", "'worked eight to four thirty with half an hour for lunch' was read as 8 hours"),
        ("one till four thirty hanging rafters on the shed roof", "hours: shed roof · 3.5 h · hanging rafters", "'one till four thirty' was read as 3.5 hours"),
    ],
)  # fmt: skip
def test_hours_by_the_clock_show_how_they_were_worked_out(said: str, told: str, shown: str) -> None:
    """A span is hours, less the break said with it; the doubt of the lowest kind shows the span."""
    read = heard(said)
    assert facts(said) == [told]
    assert [doubt.shown for doubt in read.facts[0].doubts] == [shown]


def test_opening_times_are_no_work() -> None:
    """ "The yard's open eight till five" says no hours."""
    assert not [fact for fact in heard("the yard's open eight till five").facts if fact.kind == "hours"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("in at seven out at four", ["hours: 9 h"]),
        ("started at six thirty framing dormers on the mill quit at two", ["hours: mill · 7.5 h · framing dormers"]),
        ("got in at seven knocked off at half past three half hour lunch scribing on the creek wall", ["hours: creek wall · 8 h · scribing"]),
        ("on site at seven thirty packed up at four fifteen", ["hours: 8.75 h"]),
        ("i was there at eight and done by noon on the vestry floor", ["hours: vestry floor · 4 h"]),
        ("got to the boathouse at eight and quit at five that's eight hours on the slipway", ["hours: slipway · 8 h"]),
        ("seven to noon on the porch steps", ["hours: porch · 5 h · steps"]),
        ("eight till five on the ice house door less an hour for lunch", ["hours: ice house · 8 h · door"]),
        ("the truck got here at ten and left at noon", []),
        ("stakes are in at four foot and out at six", []),
        ("half hour lunch", []),
        ("knocked off at three today on account of the rain", []),
    ],
)  # fmt: skip
def test_hours_by_the_clock(said: str, told: list[str]) -> None:
    """A shift is told by when it began and ended, less a break that was said; where the hours are said as well they stand."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("chinking four hours caulking two and cleanup one", ["hours: 4 h · chinking", "hours: 2 h · caulking", "hours: 1 h · cleanup"]),
        ("framing seven hours and siding two and a half on the wash house", ["hours: 7 h · framing", "hours: wash house · 2.5 h · siding"]),
        ("hours this week twelve and a half shingling the barn roof six flashing the chimney", ["hours: barn roof · 12.5 h · shingling", "hours: chimney · 6 h · flashing"]),
        ("hours for the granary this week come to thirty one and a half", ["hours: granary · 31.5 h"]),
        ("time for the week so far monday eight tuesday seven and a half", ["hours: 8 h · 2026-08-03", "hours: 7.5 h · 2026-07-28"]),
        ("monday eight tuesday seven and a half", ["hours: 8 h · 2026-08-03", "hours: 7.5 h · 2026-07-28"]),
        ("monday nine hours tuesday eight all on the capstan", ["hours: 9 h · capstan · 2026-08-03", "hours: 8 h · capstan · 2026-07-28"]),
        ("four hours rebuilding the manger and three on the hay rack", ["hours: 4 h · rebuilding the manger", "hours: 3 h · hay rack"]),
        ("three hours ten on the stair and one forty five on the railing", ["hours: stair · 3.1667 h", "hours: stair · 1.75 h · railing"]),
        ("glued up the newel and sanded the treads six and a half hours all told", ["task: glue up the newel · done", "task: sand the treads · done", "hours: 6.5 h · glue up the newel and sand the treads"]),
        ("a couple of hours sharpening chisels", ["hours: 2 h · sharpening chisels"]),
        ("six solid hours on the tiller box", ["hours: 6 h · tiller box"]),
        ("put in two more hours chinking", ["hours: 2 h · chinking"]),
        ("spent six and a half hours no call it seven slating", ["hours: 7 h · slating"]),
        ("five and a half hours laying stone and you'll be glad to hear the paving's done", ["hours: 5.5 h · laying stone", "task: paving · done"]),
        ("an hour and three quarters laying hearth tile in the parlour", ["hours: parlour · 1.75 h · laying hearth tile"]),
        ("put in nine hours at the chapel today mostly on the rood screen", ["hours: chapel · 9 h · rood screen"]),
        ("from eight till half past one i was adzing the press beam that's five and a half hours", ["hours: 5.5 h · adzing the press beam"]),
        ("spent to and a half ours glazing in the studio and won our sweeping the breezeway", ["hours: studio · 2.5 h · glazing", "hours: breezeway · 1 h · sweeping"]),
        ("sanding the ballroom floor nine hours friday and seven and a half today", ["hours: ballroom floor · 9 h · sanding · 2026-07-31", "hours: ballroom floor · 7.5 h · sanding"]),
        ("put down seven hours for hanging the gates and two for greasing the rack", ["hours: 7 h · hanging the gates", "hours: 2 h · greasing the rack"]),
        ("six till noon splitting shakes then one to five nailing them", ["hours: 6 h · splitting shakes", "hours: 4 h · nailing them"]),
        ("put eleven hours into the loft stair this week five on the stringers and six on the treads", ["hours: loft · 11 h · stair"]),
        ("two hours stepping the mast and forty minutes rigging all at the boathouse", ["hours: boathouse · 2 h · stepping the mast", "hours: boathouse · 0.6667 h · rigging"]),
        ("four hours thursday on the belfry louvres and six friday on the attic", ["hours: belfry · 4 h · louvres · 2026-07-30", "hours: attic · 6 h · 2026-07-31"]),
        ("the chimney rebuild took nineteen hours", ["hours: chimney · 19 h · rebuild"]),
        ("spent four hours scribing wainscot and after dinner two more hanging the transom in the pantry and it's up", ["hours: 4 h · scribing wainscot", "hours: pantry · 2 h · hanging the transom", "task: pantry · hang the transom · done"]),
        ("skiving the strap in the forge three hours", ["hours: forge · 3 h · skiving the strap"]),
        ("cross cutting took five hours", ["hours: 5 h · cross cutting"]),
        ("did five hours saturday and four sunday on the punt", ["hours: 5 h · punt · 2026-08-01", "hours: 4 h · punt · 2026-08-02"]),
        ("three hours on the mantel carving before that two on the hatch", ["hours: 3 h · mantel carving", "hours: 2 h · hatch"]),
        ("put in three hours scribing and another two and a half fitting windows in the loft", ["hours: 3 h · scribing", "hours: loft · 2.5 h · fitting windows"]),
        ("half past seven until noon on the lych gate cutting braces so that's four and a half hours", ["hours: lych gate · 4.5 h · cutting braces"]),
        ("five and three quarter hours laying tongue and groove on the kitchen floor", ["hours: kitchen floor · 5.75 h · laying tongue and groove"]),
        ("friday was six and a half", ["hours: 6.5 h · 2026-07-31"]),
    ],
)  # fmt: skip
def test_hours_go_down_a_list(said: str, told: list[str]) -> None:
    """The work may stand before or after its hours, the unit may be said once, and days may lead the figures."""
    assert facts(said) == told


@pytest.mark.parametrize(
    "said",
    [
        "should take about six hours to hang the doors", "he reckons nine hours on the hearth", "it'll take three hours", "the stain wants eight hours between coats",
        "the inspector called two hours ago", "it's a three hour drive to the mill", "the yard's an hour away", "the generator ran nine hours today",
        "the kiln has been running for thirty six hours", "i owe the neighbour three hours", "another couple of hours to go on the floor", "figure on four hours for the gutters tomorrow",
        "battery lasted six hours on the drill", "thirty minutes to cure then second coat", "my back says four hours is enough", "it's forty minutes round", "hold the posts for ten minutes", "give me two minutes", "it rained twenty minutes and quit", "the plumber's coming at ten for a couple of hours", "four more hours and i'm out of here", "opening hours are eight to five", "after hours it's quiet",
    ],
)  # fmt: skip
def test_time_that_nobody_worked_is_no_hours(said: str) -> None:
    """What is planned, owed or guessed, how far away it is, and what dries or runs by itself are no working hours."""
    assert not [fact for fact in heard(said).facts if fact.kind == "hours"]


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ("monday eight tuesday seven", "'eight' was taken for hours, which were not said"),
        ("four hours on the stair and one forty five on the railing", "'one forty five' was read as 1 h 45 min"),
        ("four hours on the manger and three on the hay rack", "'three' was taken for hours, as before it"),
    ],
)
def test_hours_not_said_as_such_are_doubted(said: str, shown: str) -> None:
    """Figures that only the words beside them make hours carry a doubt that says so."""
    assert shown in [doubt.shown for fact in heard(said).facts for doubt in fact.doubts]
