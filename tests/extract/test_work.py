"""Work, time, material and money: how far what was said once goes on, and what is no work at all."""

from __future__ import annotations

import pytest

from extract.saying import facts


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (
            "five hours peeling logs then two and a half scribing on the mill wall",
            ["hours: 5 h · peeling logs", "hours: mill wall · 2.5 h · scribing"],
        ),
        (
            "three hours notching on wall d and two on wall e",
            ["hours: wall D · 3 h · notching", "hours: wall E · 2 h · notching"],
        ),
        ("four hours chinking wall b", ["hours: wall B · 4 h · chinking"]),
        (
            "six hours chinking wall a and two windows came in",
            ["hours: wall A · 6 h · chinking", "stock: received · 2 · window"],
        ),
        (
            "seven hours flashing the mill roof it's all flashed now",
            ["hours: mill roof · 7 h · flashing", "task: mill roof · flash the mill roof · done"],
        ),
        ("the tape's hung up i'll start over", []),
        (
            "don't take down the staging till the glass is in",
            ["task: take down the staging · waiting · after the glass is in"],
        ),
        (
            "finish sanding the mill floor by friday",
            ["task: mill floor · finish sanding the mill floor · open · 2026-08-07"],
        ),
        (
            "ridge height nine foot two and then torque the rods once the deck's loaded",
            ["measure: ridge height · 110", "task: torque the rods · waiting · after the deck's loaded"],
        ),
        ("mind the step and see the other page", []),
        ("an hour ten on the mill sill", ["hours: mill · 1.1667 h · sill"]),
        ("three hours ten boards came in", ["hours: 3 h", "stock: received · 10 · board"]),
        ("five hours on the dormer six actually", ["hours: dormer · 6 h"]),
        ("used nine tubes ten actually", ["stock: used · 10 · tube"]),
        ("ridge height nine foot two actually", ["measure: ridge height · 110"]),
        (
            "mill floor length twenty foot width eight foot two actually",
            ["measure: mill floor · length · 240", "measure: mill floor · width · 98"],
        ),
        (
            "board four long point seventy one seventy two and a half",
            ["measure: board 4 · long point · 71", "measure: board 4 · long point · 72 1/2"],
        ),
        ("the putty came to two hundred and thirty four dollars fifty all told", ["cost: putty · 234.5 · total"]),
        ("the rake is fourteen foot no the hook slipped off scrap that one altogether", []),
        (
            "sheathing on gable a is done shingles on gable b are waiting for the scaffold",
            ["task: gable A · sheathing · done", "task: gable B · shingles · waiting · after the scaffold"],
        ),
        (
            "clear the gutters by the fifteenth fit the barge boards",
            ["task: clear the gutters · open · 2026-08-15", "task: fit the barge boards · open"],
        ),
        ("shim and level the sill friday", ["task: shim and level the sill · open · 2026-08-07"]),
        ("primed and painted the mill door", ["task: mill · prime and paint the mill door · done"]),
        ("no driving nails till the glue sets", ["task: drive nails · waiting · after the glue sets"]),
        (
            "can't lay the decking till the joists are treated but do order the spikes",
            ["task: lay the decking · waiting · after the joists are treated", "task: order the spikes · open"],
        ),
        (
            "today hung four doors trimmed two windows",
            ["task: hang four doors · done", "task: trim two windows · done"],
        ),
        ("sand the newel then oil the treads", ["task: sand the newel · open", "task: oil the treads · open"]),
        ("then wire brush the lintel", ["task: wire brush the lintel · open"]),
        ("snug up the tie rods once it rains", ["task: snug up the tie rods · waiting · after it rains"]),
        (
            "have to scribe and drop the top log friday then run the bolts",
            ["task: scribe and drop the top log · open · 2026-08-07", "task: run the bolts · open"],
        ),
        (
            "seal the parlor floor and get it done by the weekend",
            ["task: parlor floor · seal the parlor floor · open · 2026-08-08"],
        ),
        (
            "hold off painting the shutters till the hinges are on they come in wednesday",
            ["task: paint the shutters · waiting · after the hinges are on"],
        ),
        (
            "shim the threshold tonight if it kills me we already set the latch so that one's done",
            ["task: shim the threshold · open · 2026-08-04", "task: set the latch · done"],
        ),
        ("remind me who had the good chalk line last", []),
        ("put me down for seven hours laying flooring", ["hours: 7 h · laying flooring"]),
        ("order four boxes of screws no six boxes", ["task: order six boxes of screws · open"]),
        ("paint the north shutters i mean the south shutters", ["task: paint the south shutters · open"]),
        ("get the tarps off by the first of the month", ["task: get the tarps off · open · 2026-09-01"]),
        (
            "pick up the flashing friday the eleventh of september",
            ["task: pick up the flashing · open · 2026-09-11"],
        ),
        ("in three weeks' time re oil the deck", ["task: deck · re oil the deck · open · 2026-08-25"]),
        ("finished sanding the mill floor", ["task: mill floor · sand the mill floor · done"]),
        (
            "stacked eleven two by eights and nine three by eights all larch",
            ["stock: stacked · 11 · 2x8 · larch", "stock: stacked · 9 · 3x8 · larch"],
        ),
        ("cut eight posts to seventy nine and a half", ["stock: cut · 8 · post · 79 1/2"]),
        ("twenty two spruce rafters came in at fourteen foot", ["stock: received · 22 · spruce · rafter · 168"]),
        ("the copper ran eleven hundred and eighty dollars for the lot", ["cost: copper · 1180 · total"]),
        ("the stair has a run of ten and a half", ["measure: stair · run · 10 1/2"]),
        ("we still haven't flashed the dormer", ["task: dormer · flash the dormer · open"]),
        (
            "the sill is at nineteen percent and the air's sixty percent",
            ["reading: sill · moisture · 19%", "reading: humidity · 60%"],
        ),
    ],
)
def test_work_time_and_material_go_on_as_they_are_said(said: str, told: list[str]) -> None:
    """Hours, stock and prices go on down a list with what was said before; talk about the memo is no task."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the hatch is thirty by forty no i lied thirty two by forty", ["measure: hatch · size · 32", "measure: hatch · size · 40"]),
        ("the mantel's sixty one long no the tape was hung up it's sixty two", ["measure: mantel · length · 62"]),
        ("bin lid nineteen wide my mistake i was on the wrong line twenty one", ["measure: bin lid · width · 21"]),
        ("used four tubes no i miscounted five tubes", ["stock: used · 5 · tube"]),
        ("the step is eleven deep no riser seven and a half high", ["measure: step · depth · 11", "measure: riser · height · 7 1/2"]),
        ("post one is thirty off the line and post two forty tall", ["measure: line to post 1 · offset · 30", "measure: post 2 · height · 40"]),
        ("the shelf is forty long and six deep scratch the depth it's seven and a half", ["measure: shelf · length · 40", "measure: shelf · depth · 7 1/2"]),
        ("the shelf is forty long and six deep strike the depth", ["measure: shelf · length · 40"]),
    ],
)  # fmt: skip
def test_a_remark_about_the_measuring_takes_a_figure_back(said: str, told: list[str]) -> None:
    """Whatever is said of tape, line and error between two figures, the second stands; other words between them keep both."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("main roof's nine twelve and the porch roof four", ["slope: main roof · 9 in 12", "slope: porch roof · 4 in 12"]),
        ("it's a five in twelve on the byre and seven on the barn", ["slope: byre · 5 in 12", "slope: barn · 7 in 12"]),
        ("sides are eight twelve and the ends eleven", ["slope: sides · 8 in 12", "slope: ends · 11 in 12"]),
        ("the byre is pitched at nine and a half in twelve", ["slope: byre · 9.5 in 12"]),
        ("the oast roof is a steep one nineteen twelve", ["slope: oast roof · 19 in 12"]),
        ("took the slope off the dairy roof seven in twelve", ["slope: dairy roof · 7 in 12"]),
        ("porch roof's four twelve and the loft twelve foot wide", ["slope: porch roof · 4 in 12", "measure: loft · width · 144"]),
        ("the barn's six twelve and the shed roof overhang twelve", ["slope: barn · 6 in 12", "measure: shed roof · overhang · 12"]),
        ("porch roof's four twelve and the loft has four windows", ["slope: porch roof · 4 in 12"]),
    ],
)  # fmt: skip
def test_a_slope_goes_on_to_the_next_roof(said: str, told: list[str]) -> None:
    """A bare number after a slope, of another roof or side, is a slope too, with a doubt that tells; a measure stays one."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("fish shed door's thirty five wide ah no scrub that i was reading the wrong end of the tape", []),
        ("put this down for the lee wall not the sea wall the hatch is two foot wide", ["measure: lee wall · hatch · width · 24"]),
        ("pegged the plates in the loft this morning tomorrow set the purlins", ["task: loft · peg the plates · done", "task: loft · set the purlins · open · 2026-08-05"]),
        ("three hours laying tongue and groove on the stage floor", ["hours: stage floor · 3 h · laying tongue and groove"]),
        ("two hours hanging the transom in the pantry and it's up", ["hours: pantry · 2 h · hanging the transom", "task: pantry · hang the transom · done"]),
        ("can't run the mill till the belt's spliced", ["task: run the mill · waiting · after the belt's spliced"]),
        ("once the mortar's gone off lay the flags by friday", ["task: lay the flags · waiting · 2026-08-07 · after the mortar's gone off"]),
    ],
)  # fmt: skip
def test_words_that_sound_like_work_or_place_and_are_none(said: str, told: list[str]) -> None:
    """A remark, a heading, a pair of nouns, a machine that is run."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("earlier i gave the cupola base width as nine foot well it's nine foot one", ["measure: cupola · base width · 109"]),
        ("i said the loft hatch was thirty wide it's thirty one and a half", ["measure: loft · hatch · width · 31 1/2"]),
        ("i wrote down the sill height as thirty it's really thirty two", ["measure: sill · height · 32"]),
        ("i had four hours on the roof and two on the deck", ["hours: roof · 4 h", "hours: deck · 2 h"]),
        ("i gave the plumber two hundred and the roofer ninety dollars", ["cost: plumber · 200 · total", "cost: roofer · 90 · total"]),
        ("that's the gutters all cleaned", ["task: clean the gutters · done"]),
        ("that's the third time it tripped", []),
        ("order of work on wall two is strike the staging monday point the footings by friday", ["task: wall 2 · strike the staging · open · 2026-08-10", "task: wall 2 · point the footings · open · 2026-08-07"]),
        ("the chinking's done in the byre", ["task: byre · chinking · done"]),
    ],
)  # fmt: skip
def test_what_was_said_before_is_put_right(said: str, told: list[str]) -> None:
    """What the speaker said or noted before gives way to how it is; headings lead in orders, and work told as over is done."""
    assert facts(said) == told
