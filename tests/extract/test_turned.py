"""What builders turn about, break off and take up again: the thing first, the price last, a remark between."""

from __future__ import annotations

import pytest

from extract.saying import facts


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("fourteen two by eight larch planks came in on the supply boat sixteen foot long", ["stock: received · 14 · 2x8 · larch · plank · 192"]),
        ("received forty hemlock boards from the mill all the way up here fourteen foot long", ["stock: received · 40 · hemlock · board · 168 · at mill"]),
        ("nine spruce poles came up on the barge this morning bit rough looking twenty foot long", ["stock: received · 9 · spruce · pole · 240"]),
        ("ten larch planks came in and the boat is sixteen foot long", ["stock: received · 10 · larch · plank", "measure: boat · length · 192"]),
        ("sixty two hinges came in on the boat sixteen foot wide", ["stock: received · 62 · hinge", "measure: boat · width · 192"]),
        ("of the one by four maple boards we cut six to thirty eight and a half used fourteen and that's five left over", ["stock: cut · 6 · 1x4 · maple · board · 38 1/2", "stock: used · 14 · 1x4 · maple · board", "stock: left over · 5 · 1x4 · maple · board"]),
        ("ordered two hundred and twenty board feet of one by twelve spruce the posts were sixty four dollars each", ["stock: ordered · 1x12 · spruce · 220 board feet", "cost: posts · 64 · each"]),
        ("haulage was four hundred dollars and the crane's ninety an hour on top", ["cost: haulage · 400 · total", "cost: crane · 90 · hour"]),
        ("cartage was sixty five dollars on top of that and the boom was forty", ["cost: cartage · 65 · total", "cost: boom · 40 · total"]),
        ("that lab bench i called in at thirty four and three quarters it's really thirty five and a quarter high", ["measure: lab · bench · height · 35 1/4"]),
        ("the slope of the kiln shed roof i had down as four twelve it's a five twelve", ["slope: kiln shed roof · 5 in 12"]),
        ("yesterday i said six hours on the trusses it was seven", ["hours: 7 h · trusses · 2026-08-03"]),
        ("larch was two ninety a foot no i mean two ninety seven", ["cost: larch · 2.97 · foot"]),
        ("paid sixty two dollars a sheet no sixty four dollars", ["cost: 64 · sheet"]),
        ("workshop bench is seven foot four long thirty six high no leave the height out i was stood on a block", ["measure: workshop · bench · length · 88"]),
        ("bastion four is sixteen foot wide and bastion five seventeen foot two", ["measure: bastion 4 · width · 192", "measure: bastion 5 · width · 206"]),
        ("barrel three's thirty six and a quarter high and its girth is about ninety one and a half", ["measure: barrel 3 · height · 36 1/4", "measure: barrel 3 girth · other · 91 1/2 · about"]),
        ("gable r first the base is nineteen foot two then the rise is six foot one", ["measure: gable R · base width · 230", "measure: gable R · rise · 73"]),
        ("the first is ten wide the second is twelve", ["measure: first · width · 10", "measure: second · width · 12"]),
        ("they're all hung now the jamb's a quarter out of plumb", ["task: hang it · done", "measure: jamb · out of plumb · 0 1/4"]),
        ("nine hours splicing the studs in the smithy and that's them all spliced at last", ["hours: smithy · 9 h · splicing the studs", "task: smithy · splice the studs · done"]),
        ("scumbled the panels in the hall and galvanized the brackets", ["task: hall · scumble the panels · done", "task: hall · galvanize the brackets · done"]),
        ("he creosoted the fence", []),
        ("interested the buyer in the shed", []),
        ("tapped the holes in the bracket", ["task: tap the holes in the bracket · done"]),
        ("we can't creosote the stringers before the old tide gauge comes off", ["task: creosote the stringers · waiting · after the old tide gauge comes off"]),
        ("gable w base width eleven foot three and a half and a scant ninety seven for the rake", ["measure: gable W · base width · 135 1/2", "measure: gable W · rake · 97 · shy"]),
        ("post six is thirteen and a quarter in diameter well roughly", ["measure: post 6 · diameter · 13 1/4 · about"]),
        ("post one's three quarters out of plumb post two a shy half the sill's an inch out of level", ["measure: post 1 · out of plumb · 0 3/4", "measure: post 2 · out of plumb · 0 1/2 · shy", "measure: sill · out of level · 1"]),
        ("back in the day a board was ten cents", []),
        ("pine was forty cents a foot years ago now it's two ten a foot", ["cost: pine · 2.1 · foot"]),
        ("humidity in the wet lab fifty seven percent", ["reading: wet lab · humidity · 57%"]),
        ("moisture in the barn then joist one's nineteen percent joist two's twenty one point five joist three's seventeen", ["reading: barn · joist 1 · moisture · 19%", "reading: barn · joist 2 · moisture · 21.5%", "reading: barn · joist 3 · moisture · 17%"]),
        ("gauge says sixty three percent humidity in the pump house", ["reading: pump house · humidity · 63%"]),
        ("sunroom rafters our twenty for on centre", ["measure: sunroom · rafters · spacing · 24"]),
        ("mantel is nine and a quarter by for and a half", ["measure: mantel · size · 9 1/4", "measure: mantel · size · 4 1/2"]),
        ("two hours raking gravel in the lean to and three quarters of an hour sharpening chisels in the woodshed", ["hours: lean to · 2 h · raking gravel", "hours: woodshed · 0.75 h · sharpening chisels"]),
        ("i was bolting up the trusses from eight till half past twelve so four and a half hours", ["hours: 4.5 h · bolting up the trusses"]),
        ("log seven girth thirty eight and a quarter log eight girth thirty nine and a half", ["measure: log 7 girth · other · 38 1/4", "measure: log 8 girth · other · 39 1/2"]),
    ],
)  # fmt: skip
def test_a_builder_is_understood_whatever_the_order(said: str, told: list[str]) -> None:
    """Lengths behind a remark, names that count up, figures put right, work and prices said late each go to their own."""
    assert facts(said) == told
