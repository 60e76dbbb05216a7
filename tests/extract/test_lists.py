"""What goes on down a list of measures: distances from one thing, names that count up; and figures said before what they measure."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("centre of window one is five foot two from the corner window two nine foot four and window three twelve foot", ["measure: corner to window 1 · centre · 62", "measure: corner to window 2 · centre · 112", "measure: corner to window 3 · centre · 144"]),
        ("on the lee wall the first vent is twelve inches off the corner the second thirty one and the third fifty", ["measure: lee wall · corner to first vent · offset · 12", "measure: lee wall · corner to second vent · offset · 31", "measure: lee wall · corner to third vent · offset · 50"]),
        ("tie beam to floor is six foot eleven at the north end and six foot eleven and a half at the south", ["measure: tie beam to floor · offset · 83", "measure: tie beam to floor · offset · 83 1/2"]),
        ("from the corner to window one it's sixty two to window two a hundred and nine", ["measure: corner to window 1 · offset · 62", "measure: corner to window 2 · offset · 109"]),
        ("two vents are twelve and thirty one off the corner", ["measure: corner to vents · offset · 12", "measure: corner to vents · offset · 31"]),
        ("window three's centred at fifty seven and a half from the left corner", ["measure: left corner to window 3 · centre · 57 1/2"]),
    ],
)  # fmt: skip
def test_distances_from_one_thing_go_on(said: str, told: list[str]) -> None:
    """What is measured from is said once; each figure after it has its own thing, side or centre."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("it's fourteen and a quarter between the studs and the noggin's nine inches long", ["measure: stud to stud · offset · 14 1/4", "measure: noggin · length · 9"]),
        ("the chimney clears the ridge by twenty seven inches", ["measure: chimney · ridge to chimney · offset · 27"]),
        ("the sill sits two inches proud of the wall", ["measure: wall to sill · offset · 2"]),
        ("the bench is three foot out from the wall", ["measure: wall to bench · offset · 36"]),
        ("that rail in the gallery is thirty eight and three quarters high and overhangs the posts by an inch and an eighth", ["measure: gallery · rail · height · 38 3/4", "measure: gallery · rail · overhang · 1 1/8"]),
    ],
)  # fmt: skip
def test_distances_between_two_things(said: str, told: list[str]) -> None:
    """Between things in the plural, past one, clear of one: from what to what is named."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("forty two is the width of the door", ["measure: door · width · 42"]),
        ("thirty eight and a half is the long point on board two and forty one is the long point on board three", ["measure: board 2 · long point · 38 1/2", "measure: board 3 · long point · 41"]),
        ("we've nine foot of headroom in the loft", ["measure: loft · headroom · other · 108"]),
        ("sill log on the brook wall fifteen inch diameter at the butt and twelve and a half at the tip", ["measure: brook wall · sill log butt · diameter · 15", "measure: brook wall · sill log tip · diameter · 12 1/2"]),
        ("there's an eighteen inch overhang on the east side and a sixteen inch overhang on the west", ["measure: east side · overhang · 18", "measure: west · overhang · 16"]),
        ("rack poles are four foot two long and spaced eleven inches", ["measure: rack poles · length · 50", "measure: rack poles · spacing · 11"]),
        ("skylight opening is twenty two and a half by forty six and a quarter rough", ["measure: skylight opening · rough opening width · 22 1/2", "measure: skylight opening · rough opening height · 46 1/4"]),
        ("the beam is an inch and a half thick rough sawn", ["measure: beam · thickness · 1 1/2"]),
        ("hatch size is thirty by forty", ["measure: hatch · size · 30", "measure: hatch · size · 40"]),
        ("the cap is a chestnut piece four foot long", ["measure: cap · length · 48"]),
        ("the lid is octagonal thirty eight and a half across the flats", ["measure: lid · width · 38 1/2"]),
        ("the flue's eight and a half across", ["measure: flue · diameter · 8 1/2"]),
        ("shim the header it's three eighths out of level", ["task: shim the header · open", "measure: header · out of level · 0 3/8"]),
        ("replace the sill it's fifty two long and five and a quarter deep", ["task: replace the sill · open", "measure: sill · length · 52", "measure: sill · depth · 5 1/4"]),
        ("stair in the oast is thirty four wide", ["measure: oast · stair · width · 34"]),
        ("paint the stairs at the bell tower", ["task: bell tower · paint the stairs · open"]),
        ("the door's eight foot nothing and a half high", ["measure: door · height · 96 1/2"]),
    ],
)  # fmt: skip
def test_the_dimension_and_the_thing_stand_where_they_like(said: str, told: list[str]) -> None:
    """Behind the figure, before it, in the task before it; what a thing is made of is no name of it."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told", "doubts"),
    [
        ("board one forty two is thirty eight and three is thirty four all long points", ["board 1 40", "board 2 38", "board 3 34"], ["'forty two is thirty eight' was read as 40, then number 2"]),
        ("window one is thirty by forty two is thirty by forty eight", ["window 1 30", "window 1 40", "window 2 30", "window 2 48"], ["'forty two is thirty' was read as 40, then number 2"]),
        ("stud bay one fourteen and a half wide two fourteen and three eighths", ["stud bay 1 14 1/2", "stud bay 2 14 3/8"], ["'two fourteen and three eighths' was read as number 2: 14 3/8"]),
        ("log one thirteen and a half diameter two fourteen", ["log 1 13 1/2", "log 2 14"], ["'two fourteen' was read as number 2: 14"]),
        ("bay one ninety six wide bay two ninety six and a half", ["bay 1 96", "bay 2 96 1/2"], []),
    ],
)  # fmt: skip
def test_names_count_up_down_a_list(said: str, told: list[str], doubts: list[str]) -> None:
    """The next number may be a name or part of a figure: told by the names before it, and asked."""
    read = heard(said)
    assert [
        " ".join([one.split(" · ")[0].removeprefix("measure: "), one.split(" · ")[-1]]) for one in facts(said)
    ] == told
    assert list(dict.fromkeys(d.shown for fact in read.facts for d in fact.doubts)) == doubts


@pytest.mark.parametrize(
    ("said", "told", "problems"),
    [
        ("bevel of ten degrees on the sill and it's six and a half wide", ["measure: sill · width · 6 1/2"], ["'ten degrees': an angle in degrees, which is not kept"]),
        ("it's forty degrees in the lean to", ["reading: lean to · temperature · 40F"], []),
        ("the door wants thirty four clear", [], ["'thirty four': a figure of door, but which measure?"]),
        ("the mill wants ninety for the planing", ["cost: planing · 90 · total"], []),
        ("shed floor diagonals seventeen foot one and seventeen foot two the joists are nine and a quarter", ["measure: shed floor · diagonal · 205", "measure: shed floor · diagonal · 206"], ["'nine and a quarter': a figure of joists, but which measure?"]),
    ],
)  # fmt: skip
def test_what_a_figure_is_not(said: str, told: list[str], problems: list[str]) -> None:
    """Degrees of an angle are no temperature, what a thing wants is no money, a joist has no diagonal."""
    assert facts(said) == told
    assert [p.message for p in heard(said).problems] == problems


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("footbridge handrail's forty one and three quarters high and the balusters are four and five sixteenths on centre", ["measure: footbridge · handrail · height · 41 3/4", "measure: footbridge · balusters · spacing · 4 5/16"]),
        ("woodshed pier's four hundred mil deep and the post's two metres long", ["measure: woodshed · pier · depth · 400 mm", "measure: woodshed · post · length · 2 m"]),
        ("roof over the woodstore is a four and a half in twelve", ["slope: woodstore roof · 4.5 in 12"]),
        ("bunkroom stair rise seven and an eighth run ten and five eighths", ["measure: bunkroom · stair · rise · 7 1/8", "measure: bunkroom · stair · run · 10 5/8"]),
        ("up on the nave ceiling joist six is seven and a quarter deep joist seven's seven and an eighth", ["measure: nave ceiling · joist 6 · depth · 7 1/4", "measure: nave ceiling · joist 7 · depth · 7 1/8"]),
        ("lookout rail posts are five and a half by five and a half and they stand thirty eight and three quarters high", ["measure: lookout · rail posts · size · 5 1/2", "measure: lookout · rail posts · size · 5 1/2", "measure: lookout · rail posts · height · 38 3/4"]),
        ("course seven is nine and a quarter at the butt and ten at the tip", ["measure: course 7 butt · diameter · 9 1/4", "measure: course 7 tip · diameter · 10"]),
        ("overhang eighteen and a half on the eaves and twelve at the rake both on the tack room roof", ["measure: tack room roof · eaves · overhang · 18 1/2", "measure: tack room roof · rake · overhang · 12"]),
        ("the axle bearing's two foot one and three quarters off the stone curb", ["measure: stone curb to axle bearing · offset · 25 3/4"]),
        ("boards seven eight and nine on the creek gable are sixty one and a quarter fifty four and an eighth and forty six and fifteen sixteenths long point", ["measure: creek gable · board 7 · long point · 61 1/4", "measure: creek gable · board 8 · long point · 54 1/8", "measure: creek gable · board 9 · long point · 46 15/16"]),
        ("posts two three and four are ninety one ninety one and a half and ninety two long", ["measure: post 2 · length · 91", "measure: post 3 · length · 91 1/2", "measure: post 4 · length · 92"]),
        ("wall f height isn't eight foot two and a quarter it's eight foot three and a sixteenth", ["measure: wall F · height · 99 1/16"]),
        ("the joists aren't sixteen on centre they're nineteen and a quarter", ["measure: joists · spacing · 19 1/4"]),
        ("the deck isn't twelve foot by twenty it's twelve foot by eighteen", ["measure: deck · size · 144", "measure: deck · size · 216"]),
        ("moisture in the loft isn't eighteen percent it's twenty one", ["reading: loft · moisture · 21%"]),
        ("the shelf ain't eleven inches wide it's ten", ["measure: shelf · width · 10"]),
        ("moisture now granary floor seventeen percent tack room eighteen and it's forty nine degrees in the tack room", ["reading: granary floor · moisture · 17%", "reading: tack room · moisture · 18%", "reading: tack room · temperature · 49F"]),
        ("carriage shed gable short points board six nineteen and a quarter board seven twenty five and five eighths", ["measure: carriage shed gable · board 6 · short point · 19 1/4", "measure: carriage shed gable · board 7 · short point · 25 5/8"]),
        ("the window house door is nine foot wide", ["measure: window house · door · width · 108"]),
        ("press beam ten by fourteen and a half length nineteen foot six cheek posts eight and a quarter by eight and a quarter", ["measure: press beam · size · 10", "measure: press beam · size · 14 1/2", "measure: press beam · length · 234", "measure: cheek posts · size · 8 1/4", "measure: cheek posts · size · 8 1/4"]),
        ("lay the hearth slab in the bake house tomorrow", ["task: bake house · lay the hearth slab · open · 2026-08-05"]),
        ("oil the sluice gears at the mill", ["task: mill · oil the sluice gears · open"]),
        ("gaps on wall g course one to two five sixteenths and the wall's eight foot eleven high", ["measure: wall G · course 1 to 2 · gap · 0 5/16", "measure: wall G · height · 107"]),
        ("rake a heavy one fifty four and a quarter", ["measure: rake · 154 1/4 · strong"]),
        ("log four on the quarry wall is fifteen and a half at the butt and thirteen and an eighth at the tip and it's got a sweep of two inches", ["measure: quarry wall · log 4 butt · diameter · 15 1/2", "measure: quarry wall · log 4 tip · diameter · 13 1/8", "measure: quarry wall · log 4 sweep · other · 2"]),
        ("the gap between finial three and four is an inch and an eighth", ["measure: finial 3 and 4 · gap · 1 1/8"]),
        ("from the hearth to the beam pocket is six foot seven and from the pocket to the corner three foot two and a half", ["measure: hearth to beam pocket · offset · 79", "measure: pocket to corner · offset · 38 1/2"]),
        ("pole barn east wall is nine foot ten high to the plate", ["measure: pole barn east wall · plate height · 118"]),
        ("ridge beam sags an inch and five eighths in the middle collar tie's ten foot nine long and the king post's split", ["measure: ridge beam sag · other · 1 5/8", "measure: collar tie · length · 129"]),
        ("the lintel bears seven inches each end", ["measure: lintel bearing · other · 7"]),
        ("barge board is eight and a half wide at the foot and six at the peak", ["measure: barge board foot · width · 8 1/2", "measure: barge board peak · width · 6"]),
        ("hip rafter long point one eighty seven and a quarter valley rafter one ninety two even", ["measure: hip rafter · long point · 187 1/4", "measure: valley rafter · long point · 192"]),
        ("the brace is three foot eight long and it's let in an inch and a half", ["measure: brace · length · 44"]),
        ("boards are two and three eighths thick and between ten and eleven wide", ["measure: boards · thickness · 2 3/8"]),
        ("bay window facets thirty four and a half twenty eight and a quarter and thirty four and five eighths wide", ["measure: bay window facets · width · 34 1/2", "measure: bay window facets · width · 28 1/4", "measure: bay window facets · width · 34 5/8"]),
        ("log nine on the mill wall is sixteen foot two long fourteen inches at the butt eleven and five eighths at the top end", ["measure: mill wall · log 9 · length · 194", "measure: mill wall · log 9 butt · diameter · 14", "measure: mill wall · log 9 top end · diameter · 11 5/8"]),
        ("slipway cradle beams are ten by twelve", ["measure: slipway · cradle beams · size · 10", "measure: slipway · cradle beams · size · 12"]),
        ("hauled up to the bell stage the frame's out of level three quarters in eleven foot", ["measure: bell stage · frame · out of level · 0 3/4 · over 132"]),
        ("snow porch stud bay one fourteen and three eighths wide", ["measure: snow porch · stud bay 1 · width · 14 3/8"]),
        ("fix the hatch in the cheese cellar", ["task: cheese cellar · fix the hatch · open"]),
        ("cheese cellar ten celsius", ["reading: cheese cellar · temperature · 10C"]),
        ("screened veranda widths bay one forty one and a half bay two forty one and eleven sixteenths", ["measure: screened veranda · bay 1 · width · 41 1/2", "measure: screened veranda · bay 2 · width · 41 11/16"]),
        ("rear wall's three eighths out of plumb one way and a strong quarter the other way", ["measure: rear wall · out of plumb · 0 3/8", "measure: rear wall · out of plumb · 0 1/4 · strong"]),
        ("dutch door in the summer kitchen the gap between top leaf and bottom leaf is three sixteenths reveal an eighth at the head", ["measure: summer kitchen · top leaf and bottom leaf · gap · 0 3/16", "measure: summer kitchen · dutch door head · reveal · 0 1/8"]),
        ("woke up to minus eleven celsius at the rescue hut", ["reading: rescue hut · temperature · -11C"]),
        ("partition wall in the office is eleven foot long", ["measure: office partition wall · length · 132"]),
        ("the chapel's west gable base width twenty six foot", ["measure: chapel west gable · base width · 312"]),
        ("dormer two on the north roof is five foot wide", ["measure: dormer 2 · width · 60"]),
        ("north roof dormer two ridge height eleven foot", ["measure: dormer 2 · ridge height · 132"]),
        ("the loft over the garage is seven foot high", ["measure: loft · height · 84"]),
        ("the wall we've marked d is an inch out of square", ["measure: wall D · out of square · 1"]),
        ("cabin three floor's half an inch out of level", ["measure: cabin 3 floor · out of level · 0 1/2"]),
    ],
)  # fmt: skip
def test_what_belongs_to_a_place_or_list(said: str, told: list[str]) -> None:
    """A fitting is a thing of its room, a surface goes with its room; what is said at the end is that of all."""
    assert facts(said) == told


def test_a_room_in_bare_figures_asks_for_its_unit() -> None:
    """Twenty four by thirty is inches for a hatch and hardly for a garage slab."""
    asked = [[d.shown for d in fact.doubts] for fact in heard("garage slab is twenty four by thirty").facts]
    assert asked == [[f"'{said}' was taken for inches: is it feet?"] for said in ("twenty four", "thirty")]
    assert [fact.doubts for fact in heard("the loft hatch is twenty four by thirty").facts] == [(), ()]
    assert [fact.doubts for fact in heard("hearth slab is twenty four by thirty").facts] == [(), ()]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("board two width a fat one eighty six and a quarter planks are six foot nine and three quarters long", ["measure: board 2 · width · 186 1/4 · strong", "measure: planks · length · 81 3/4"]),
        ("rudder depth one twenty one cheek posts are one fourteen and a sixteenth wide", ["measure: rudder · depth · 121", "measure: cheek posts · width · 114 1/16"]),
        ("king post width seven posts are seventeen foot four long", ["measure: king post · width · 7", "measure: posts · length · 208"]),
        ("brace a scant forty nine long and the stile is ninety three tall", ["measure: brace · length · 49 · shy", "measure: stile · height · 93"]),
        ("tile eighty nine long and rail height is fifty nine", ["measure: tile · length · 89", "measure: rail · height · 59"]),
        ("door depth is roughly twenty foot seven boards are fifteen foot four long", ["measure: door · depth · 247 · about", "measure: boards · length · 184"]),
        ("board one forty and a quarter board two fifty long point", ["measure: board 1 · long point · 40 1/4", "measure: board 2 · long point · 50"]),
        ("in the loft stud bay one fourteen and a half stud bay two fifteen and stud bay three fourteen and a quarter wide", ["measure: loft · stud bay 1 · width · 14 1/2", "measure: loft · stud bay 2 · width · 15", "measure: loft · stud bay 3 · width · 14 1/4"]),
        ("window one thirty window two forty wide and the door's thirty six wide", ["measure: window 1 · width · 30", "measure: window 2 · width · 40", "measure: door · width · 36"]),
        ("board one is forty long point board two is fifty short point", ["measure: board 1 · long point · 40", "measure: board 2 · short point · 50"]),
        ("shelf rough opening one eighty six by fifty four", ["measure: shelf · rough opening width · 186", "measure: shelf · rough opening height · 54"]),
        ("door is thirty six by six foot eight", ["measure: door · size · 36", "measure: door · size · 80"]),
        ("oar rack short point is fifty one", ["measure: oar rack · short point · 51"]),
        ("from the corner to the sill is a scant one twelve and flags are sixty five long", ["measure: corner to sill · offset · 112 · shy", "measure: flags · length · 65"]),
        ("hatch rough opening forty and a half by one twelve", ["measure: hatch · rough opening width · 40 1/2", "measure: hatch · rough opening height · 112"]),
        ("stringer twenty four on centre", ["measure: stringer · spacing · 24"]),
        ("plate width is a strong one twelve", ["measure: plate · width · 112 · strong"]),
        ("mantel eleven foot three deep cheek posts a strong sixteen foot ten high", ["measure: mantel · depth · 135", "measure: cheek posts · height · 202 · strong"]),
        ("tile eighty two by ninety and the rail is three foot high", ["measure: tile · size · 82", "measure: tile · size · 90", "measure: rail · height · 36"]),
        ("jetty pile two diameter eleven and a quarter pile three a strong ten and seven eighths pile four's got a bow of about an inch", ["measure: jetty · pile 2 · diameter · 11 1/4", "measure: jetty · pile 3 · diameter · 10 7/8 · strong", "measure: jetty · pile 4 bow · other · 1 · about"]),
        ("crane hut hatch is twenty two by thirty one no sorry by thirty three", ["measure: crane hut · hatch · size · 22", "measure: crane hut · hatch · size · 33"]),
        ("west wall is an inch out of plumb over nine foot and the sill's an inch and an eighth out of level over fourteen", ["measure: west wall · out of plumb · 1 · over 108", "measure: west wall · sill · out of level · 1 1/8 · over 168"]),
        ("truss one spans twenty foot two truss two twenty foot three", ["measure: truss 1 · span · 242", "measure: truss 2 · span · 243"]),
        ("eighteen foot four no sorry eighteen foot six that's the width of the ferry shelter", ["measure: ferry shelter · width · 222"]),
        ("centre of window one five foot two off the corner centre of window two nine foot six off the corner", ["measure: corner to window 1 · centre · 62", "measure: corner to window 2 · centre · 114"]),
        ("window rough opening thirty by forty sill thirty four off the floor window centre six foot two from the corner trim four and a half wide", ["measure: window · rough opening width · 30", "measure: window · rough opening height · 40", "measure: floor to sill · offset · 34", "measure: corner to window · centre · 74", "measure: trim · width · 4 1/2"]),
        ("smoke house roof is a ten twelve with fourteen inches of overhang the drying shed roof's three in twelve with thirty inches", ["slope: smoke house roof · 10 in 12", "measure: smoke house roof · overhang · 14", "slope: drying shed roof · 3 in 12", "measure: drying shed roof · overhang · 30"]),
        ("north wall diameters log two thirteen and a quarter log three no log four twelve and nine sixteenths", ["measure: north wall · log 2 · diameter · 13 1/4", "measure: north wall · log 4 · diameter · 12 9/16"]),
        ("panel is ninety six and a quarter no one twelve and a sixteenth deep", ["measure: panel · depth · 112 1/16"]),
        ("tie beam is seventeen and a quarter no make that one ninety two high", ["measure: tie beam · height · 192"]),
        ("apron is six foot high no sorry eighty and five thirty seconds high", ["measure: apron · height · 80 5/32"]),
        ("beam is seventeen foot long no sixteen", ["measure: beam · length · 192"]),
        ("no one was here", []),
    ],
)  # fmt: skip
def test_the_next_thing_takes_nothing_of_a_figure(said: str, told: list[str]) -> None:
    """What was measured ends where its words end: posts, planks and boards after it are not counted by its last number."""
    assert facts(said) == told


def test_a_lone_one_before_a_figure_is_asked_about() -> None:
    """ "Rafter one sixty five" is rafter 1 or 165: asked, unless another rafter has a number too."""
    asked = [[d.shown for d in fact.doubts] for fact in heard("rafter one sixty five long").facts]
    assert asked == [["'one sixty five' was read as number 1 and 65: is it 165?"]]
    assert [fact.doubts for fact in heard("rafter one sixty five long rafter two sixty six").facts] == [(), ()]


@pytest.mark.parametrize(
    ("said", "level"), [("loft floor is ten by twelve foot", 1), ("shelves are eleven by seven foot six", 2)]
)
def test_feet_said_once_for_both_are_shown(said: str, level: int) -> None:
    """Of "ten by twelve foot" both are feet; beside feet and inches the bare figure may be inches, and is asked about."""
    assert [[d.level for d in fact.doubts] for fact in heard(said).facts] == [[level], []]


def test_a_bare_figure_after_metres_is_of_their_order_or_asked_about() -> None:
    """ "Twelve wide" after nine metres is metres; forty eight is not, and is asked about."""
    assert facts("the deck's nine metres long and twelve wide")[1] == "measure: deck · width · 12 m"
    read = heard("planks are two point seven metres high apron length forty eight").facts[1]
    assert [d.shown for d in read.doubts] == ["'forty eight' was taken for millimetres, after metres: or is it inches?"]
