"""Material, prices and readings: what is counted, what is money and what is read off a meter, and what is none of them."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("what came in was three dozen fir two by tens eighteen foot long", ["stock: received · 36 · 2x10 · fir · 216"]),
        ("came in today four rolls of tar paper", ["stock: received · 4 · roll of tar paper"]),
        ("lumber truck showed up so that's sixty two by sixes sixteen foot long twenty two by tens at fourteen", ["stock: received · 60 · 2x6 · 192", "stock: received · 20 · 2x10 · 168"]),
        ("cut six larch two by fours at fourteen", ["stock: cut · 6 · 2x4 · larch · 14"]),
        ("cut four poplar aprons one by four at forty three and an eighth", ["stock: cut · 4 · 1x4 · poplar · apron · 43 1/8"]),
        ("cut twelve braces four by six thirty eight and a half long point to long point", ["stock: cut · 12 · 4x6 · brace · 38 1/2"]),
        ("ordered eleven sheets of drywall half inch four by eight supposed to be here thursday", ["stock: ordered · 11 · sheet of drywall half inch"]),
        ("there's eleven sheets of the three quarter ply left", ["stock: left over · 11 · sheet of three quarter ply"]),
        ("received forty sheets of half inch osb and ten of three quarter tongue and groove", ["stock: received · 40 · sheet of half inch osb", "stock: received · 10 · sheet of three quarter tongue and groove"]),
        ("need two five gallon pails of stain", ["stock: need · 2 · five gallon pail of stain"]),
        ("need forty hangers and a five pound box of the hanger nails", ["stock: need · 40 · hanger", "stock: need · 1 · five pound box of hanger nails"]),
        ("down to four tubes of chinking and the last roll of felt", ["stock: have · 4 · tube of chinking", "stock: have · 1 · roll of felt"]),
        ("got a dozen hemlock two by sixes sixteens", ["stock: received · 12 · 2x6 · hemlock · 192"]),
        ("a dozen and a half cedar posts seven footers and a couple extra six footers came off the truck", ["stock: received · 18 · cedar · post · 84", "stock: received · 2 · cedar · post · 72"]),
        ("received thirty two batts of the r nineteen", ["stock: received · 32 · batt of r nineteen"]),
        ("stacked and stickered two hundred board feet of cherry", ["stock: stacked · cherry · 200 board feet"]),
        ("twelve more sheets of ply and we're done", ["stock: need · 12 · sheet of ply"]),
        ("nine bucks a sheet for the backer board i took fourteen", ["cost: backer board · 9 · sheet", "stock: received · 14 · sheet of backer board"]),
        ("good day today we cut fourteen hemlock boards one by ten at sixteen foot and nine at twelve foot", ["stock: cut · 14 · 1x10 · hemlock · board · 192", "stock: cut · 9 · 1x10 · hemlock · board · 144"]),
        ("left over from the barn roof four bundles of shingles and a roll and a half of felt", ["stock: left over · 4 · bundle of shingles", "stock: left over · 1.5 · roll of felt"]),
        ("received six coils of rope larch came at two eighty five a board foot cleats eleven dollars each", ["stock: received · 6 · coil of rope", "cost: larch · 2.85 · board foot", "cost: cleats · 11 · each"]),
        ("between the two windows on the river wall it's thirty one and five eighths", ["measure: river wall · window to window · offset · 31 5/8"]),
        ("a hundred and ten square foot in the mud room", []),
        ("seat cut three and a half", []),
        ("the rafters came up short", []),
        ("stacked thirty six hemlock planks two by twelve sixteen foot long and fourteen more at twelve foot", ["stock: stacked · 36 · 2x12 · hemlock · plank · 192", "stock: stacked · 14 · 2x12 · hemlock · plank · 144"]),
        ("nineteen tamarack posts came in six by six ten foot long cut seven of them to eight foot two and a half used four and there's eight left over", ["stock: received · 19 · 6x6 · tamarack · post · 120", "stock: cut · 7 · 6x6 · tamarack · post · 98 1/2", "stock: used · 4 · 6x6 · tamarack · post", "stock: left over · 8 · 6x6 · tamarack · post"]),
        ("we had seven rolls of felt and used four so there's three left", ["stock: have · 7 · roll of felt", "stock: used · 4 · roll of felt", "stock: left over · 3 · roll of felt"]),
        ("started with forty slates broke three used thirty", ["stock: have · 40 · slate", "stock: used · 30 · slate"]),
        ("received six ash planks and nine maple boards all of them ten foot long", ["stock: received · 6 · ash · plank · 120", "stock: received · 9 · maple · board · 120"]),
        ("cut all the shelf cleats this afternoon twenty four of them one by two at eleven and a quarter", ["stock: cut · 24 · 1x2 · shelf cleat · 11 1/4"]),
        ("planks are two by eight at eleven foot ten and a half forty two of them in larch", ["stock: have · 42 · 2x8 · larch · plank · 142 1/2"]),
        ("received the cedar posts ten of them eight foot long", ["stock: received · 10 · cedar · post · 96"]),
        ("ledger bolts are in and we used thirty six of them", ["stock: used · 36 · ledger bolt"]),
        ("nine pavers were cracked so we have thirty one good ones", ["stock: have · 31 · paver"]),
        ("hung the doors three of them stick", []),
        ("white cedar shakes twelve squares came in", ["stock: received · 12 · square of white cedar shakes"]),
        ("thirty two balusters came in this morning turned maple thirty six inches long", ["stock: received · 32 · maple · baluster · 36"]),
        ("ordered eighteen pine treads eleven and a half inches wide by four foot long", ["stock: ordered · 18 · pine · tread · 48"]),
        ("i'm short a box of screws and two hinges", ["stock: need · 1 · box of screws", "stock: need · 2 · hinge"]),
        ("short twenty two slates", ["stock: need · 22 · slate"]),
        ("forty three hemlock planks came in two by twelve", ["stock: received · 43 · 2x12 · hemlock · plank"]),
        ("we have twenty two by eight fir joists cut ten of them down to eleven foot four last night", ["stock: have · 20 · 2x8 · fir · joist", "stock: cut · 10 · 2x8 · fir · joist · 136"]),
        ("we knead ate rolls of flashing tape and to buckets of tar", ["stock: need · 8 · roll of flashing tape", "stock: need · 2 · bucket of tar"]),
        ("coping stones nineteen came four were chipped so fifteen on hand", ["stock: received · 19 · coping stone", "stock: have · 15 · coping stone"]),
        ("cut thirty six shingles tapered to fourteen inches and used up a whole box of copper tacks", ["stock: cut · 36 · shingle · 14", "stock: used · 1 · box of copper tacks"]),
        ("stacked the oak in the cart shed forty one boards six quarter by ten", ["stock: stacked · 41 · 6/4x10 · oak · board"]),
        ("nine of the oak sleepers went into the retaining wall and five are left", ["stock: used · 9 · oak · sleeper", "stock: left over · 5 · oak · sleeper"]),
        ("there's a hundred board feet of sassafras and two hundred more coming thursday", ["stock: have · sassafras · 100 board feet", "stock: ordered · sassafras · 200 board feet"]),
        ("down to the last half gallon of shellac and nine sheets of two twenty grit", ["stock: have · 0.5 · gallon of shellac", "stock: have · 9 · sheet of two twenty grit"]),
        ("put in the order for sixty bundles of reed", ["stock: ordered · 60 · bundle of reed"]),
        ("seventeen squares of slate and a case of copper nails all here now", ["stock: received · 17 · square of slate", "stock: received · 1 · case of copper nails"]),
        ("five ash planks left two of them split so three good ones", ["stock: left over · 5 · ash · plank", "stock: have · 3 · ash · plank"]),
        ("there's eleven boards of it left over twelve footers", ["stock: left over · 11 · board · 144"]),
        ("we knead tin pounds of spikes and nein sheats of tin", ["stock: need · 10 · pound of spikes", "stock: need · 9 · sheet of tin"]),
        ("received eighteen to buy twelve stringers and fifteen spruce too buy fours", ["stock: received · 18 · 2x12 · stringer", "stock: received · 15 · 2x4 · spruce"]),
        ("used forty for one buy three furring strips", ["stock: used · 44 · 1x3 · furring strip"]),
        ("cut tin to eighty eight and a half and used sicks boxes of nails so far too gallons left", ["stock: cut · 10 · 88 1/2", "stock: used · 6 · box of nails", "stock: left over · 2 · gallon"]),
        ("ordered eighty bored feat of pain boards", ["stock: ordered · pine · board · 80 board feet"]),
        ("stacked three walnut planks ate quarter by nine", ["stock: stacked · 3 · 8/4x9 · walnut · plank"]),
        ("seventeen squares of slate for roles of felt came in", ["stock: received · 17 · square of slate", "stock: received · 4 · roll of felt"]),
        ("for ate by ate tamarack posts came in nine foot long", ["stock: received · 4 · 8x8 · tamarack · post · 108"]),
        ("cut eight two by eight spruce struts at forty one and seven sixteenths and four at fifty three even", ["stock: cut · 8 · 2x8 · spruce · strut · 41 7/16", "stock: cut · 4 · 2x8 · spruce · strut · 53"]),
        ("stacked thirty cedar shakes have five tubes of caulk need eleven more", ["stock: stacked · 30 · cedar · shake", "stock: have · 5 · tube of caulk", "stock: need · 11 · tube of caulk"]),
        ("picked up ten hinges for two doors", ["stock: received · 10 · hinge"]),
        ("used six boards for the porch and four for the loft", ["stock: used · 6 · board · at porch", "stock: used · 4 · board · at loft"]),
        ("the hemlock's in forty six two by tens at sixteen foot and a pallet of block", ["stock: received · 46 · 2x10 · hemlock · 192", "stock: received · 1 · pallet of block"]),
        ("where was i oh yes used thirty five pounds of lime putty", ["stock: used · 35 · pound of lime putty"]),
        ("thirty eight feet of gutter went up this morning", ["stock: used · 38 · foot of gutter"]),
        ("received from the foundry two hinges a latch and eleven pintles", ["stock: received · 2 · hinge", "stock: received · 1 · latch", "stock: received · 11 · pintle"]),
        ("we'll need twenty won larch planks to by six and fourteen foot long", ["stock: need · 21 · 2x6 · larch · plank · 168"]),
        ("nineteen spruce logs arrived this morning ten by ten and eighteen foot long plus six boxes of screws", ["stock: received · 19 · 10x10 · spruce · log · 216", "stock: received · 6 · box of screws"]),
        ("twenty six hemlock planks three by twelve came in after lunch sixteen foot long", ["stock: received · 26 · 3x12 · hemlock · plank · 192"]),
        ("eleven rolls of sheep's wool came in and four boxes of copper roves", ["stock: received · 11 · roll of sheep's wool", "stock: received · 4 · box of copper roves"]),
        ("ordered thirty six two by twelve fir planks no make that forty", ["stock: ordered · 40 · 2x12 · fir · plank"]),
        ("need ate to by for studs in hemlock", ["stock: need · 8 · 2x4 · hemlock · stud"]),
        ("need ate tubes of glue four the dining room", ["stock: need · 8 · tube of glue"]),
        ("there's one tin of grease left over and we need won more box of hangers", ["stock: left over · 1 · tin of grease", "stock: need · 1 · box of hangers"]),
        ("ordered six joists sixteen foot long one roll of lead and two boxes of nails", ["stock: ordered · 6 · joist · 192", "stock: ordered · 1 · roll of lead", "stock: ordered · 2 · box of nails"]),
        ("road gable short points board five at eighty seven", ["measure: road gable · board 5 · short point · 87"]),
        ("used six pounds of nails and half a gallon of linseed oil there's one pail of tar left over", ["stock: used · 6 · pound of nails", "stock: used · 0.5 · gallon of linseed oil", "stock: left over · 1 · pail of tar"]),
        ("ordered six bundles of shakes at sixty eight dollars a bundle and two hundred and ten board feet of larch", ["stock: ordered · 6 · bundle of shakes", "cost: shakes · 68 · bundle", "stock: ordered · larch · 210 board feet"]),
        ("the jetty has piles a strong ten and seven eighths piles", []),
        ("ripped twelve poplar boards for drawer sides one by six", ["stock: cut · 12 · 1x6 · poplar · board"]),
        ("need forty boards for the loft floor five quarter by eight", ["stock: need · 40 · 5/4x8 · board · at loft floor"]),
        ("five tin ceiling panels came in", ["stock: received · 5 · tin ceiling panel"]),
        ("we've got twenty six floor joists to buy eight hemlock", ["stock: have · 26 · 2x8 · hemlock · floor joist"]),
        ("still to come nine sacks of cement and a coil of rope", ["stock: ordered · 9 · sack of cement", "stock: ordered · 1 · coil of rope"]),
        ("i've only got nine planks", ["stock: have · 9 · plank"]),
        ("need for gallons of linseed oil and ate paint brushes", ["stock: need · 4 · gallon of linseed oil", "stock: need · 8 · paint brush"]),
        ("got won pail of tar for rolls of oakum", ["stock: received · 1 · pail of tar", "stock: received · 4 · roll of oakum"]),
        ("left over too boxes of clouts and when i looked there's for rolls of felt left over", ["stock: left over · 2 · box of clouts", "stock: left over · 4 · roll of felt"]),
    ],
)  # fmt: skip
def test_what_is_counted(said: str, told: list[str]) -> None:
    """A count goes with its event however it is said; what is only pointed at, or covered, is no stock."""
    assert [fact for fact in facts(said) if not fact.startswith("task")] == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("i gave the plumber a hundred and fifty cash for the stub out", ["cost: stub out · 150 · total"]),
        ("dump run was sixty five and gas was fifty two", ["cost: dump run · 65 · total", "cost: gas · 52 · total"]),
        ("permit set me back one forty", ["cost: permit · 140 · total"]),
        ("the clips were eighteen cents each and the flashing a hundred and thirty eight fifty for the lot", ["cost: clips · 0.18 · each", "cost: flashing · 138.5 · total"]),
        ("hinges ran me eleven fifty a pair i got six pair and the latch was twenty two", ["cost: hinges · 11.5 · pair", "stock: received · 6 · pair of hinges", "cost: latch · 22 · total"]),
        ("paid forty for the screws plus sixty for the boom", ["cost: screws · 40 · total", "cost: boom · 60 · total"]),
        ("gas for the saw eighteen bucks bar oil twelve", ["cost: gas saw · 18 · total", "cost: bar oil · 12 · total"]),
        ("rented the lift at one ninety five a day", ["cost: lift · 195 · day"]),
        ("gave the door a coat of primer", ["task: give the door a coat of primer · done"]),
        ("barge hire three hundred and twenty", ["cost: barge hire · 320 · total"]),
        ("the first one was put up back in nineteen thirty two", []),
        ("oak's up to three forty a board foot from two ninety five", ["cost: oak · 3.4 · board foot"]),
        ("walnut was six eighty a board foot last year now it's seven fifty", ["cost: walnut · 7.5 · board foot"]),
        ("walnut's up to seven eighty five a board foot and butternut's four ten", ["cost: walnut · 7.85 · board foot", "cost: butternut · 4.1 · board foot"]),
        ("hinges thirty eight a pair hasp twelve and the padlock was twenty one", ["cost: hinges · 38 · pair", "cost: hasp · 12 · total", "cost: padlock · 21 · total"]),
        ("the sycamore slab was four hundred and sixty and the man wanted thirty five for cutting it", ["cost: sycamore slab · 460 · total", "cost: cutting · 35 · total"]),
        ("bought nine ash boards for the oars three and a half dollars a board foot", ["stock: received · 9 · ash · board", "cost: ash board · 3.5 · board foot"]),
        ("box of brads seven forty nine", ["cost: box brads · 7.49 · total"]),
        ("bucket of mortar dye nine ninety five trowel twenty two and the hawk was fifteen", ["cost: bucket mortar dye · 9.95 · total", "cost: trowel · 22 · total", "cost: hawk · 15 · total"]),
        ("oakum's nine and a quarter dollars a bale and a caulking mallet for sixty", ["cost: oakum · 9.25 · bale", "cost: caulking mallet · 60 · total"]),
        ("elm's four eighty a board foot so the nine planks were three hundred and forty five sixty", ["cost: elm · 4.8 · board foot", "cost: planks · 345.6 · total"]),
        ("hired the lift two days at two sixty a day", ["cost: lift · 260 · day"]),
        ("my rate's going up to forty eight an hour", ["cost: my rate · 48 · hour"]),
        ("the surveyor was four hundred and fifty the permit ninety five", ["cost: surveyor · 450 · total", "cost: permit · 95 · total"]),
        ("picked up two quarts of varnish and a dozen sponges comes to ninety one sixty", ["stock: received · 2 · quart of varnish", "stock: received · 12 · sponge", "cost: 91.6 · total"]),
        ("hemlock's running to sixty a bored foot", ["cost: hemlock · 2.6 · board foot"]),
        ("cedar at to eighty five a board foot", ["cost: cedar · 2.85 · board foot"]),
        ("the benches are all planed now the oak was four ninety a board foot", ["task: plane the benches · done", "cost: oak · 4.9 · board foot"]),
        ("got the gudgeon pins for sixty bucks", ["cost: gudgeon pins · 60 · total"]),
        ("bought the rails for thirty and the posts for fifty", ["cost: rails · 30 · total", "cost: posts · 50 · total"]),
        ("slate hooks cost me a hundred and ten", ["cost: slate hooks · 110 · total"]),
        ("mill stone eleven ninety five each", ["cost: mill stone · 11.95 · each"]),
        ("paid for two pounds of nails", []),
        ("paid the sawyer in cash three hundred and sixty for cutting the ash and forty for gas", ["cost: cutting ash · 360 · total", "cost: gas · 40 · total"]),
        ("picked up nine bales of straw for the wall good lad and he wants six dollars a bale", ["stock: received · 9 · bale of straw", "cost: straw · 6 · bale"]),
        ("got twelve pounds of nails and a box of spikes at thirty one", ["stock: received · 12 · pound of nails", "stock: received · 1 · box of spikes", "cost: spikes · 31 · total"]),
        ("received two hinges and eleven pintles total was three hundred and thirty one", ["stock: received · 2 · hinge", "stock: received · 11 · pintle", "cost: 331 · total"]),
        ("the trailer was eighty five dollars a day and the diesel came to sixty one twenty", ["cost: trailer · 85 · day", "cost: diesel · 61.2 · total"]),
        ("crane hut hatch is twenty two by thirty three", ["measure: crane hut · hatch · size · 22", "measure: crane hut · hatch · size · 33"]),
        ("crane was nine grand", ["cost: crane · 9000 · total"]),
        ("paid two and a half grand for the slate", ["cost: slate · 2500 · total"]),
        ("the run of the porch roof was sixty five", ["measure: porch roof · run · 65"]),
    ],
)  # fmt: skip
def test_what_is_money(said: str, told: list[str]) -> None:
    """Money is known by who got it, by what can only cost something, and by the prices beside it."""
    assert facts(said) == told


def test_two_numbers_for_the_lot_are_doubted() -> None:
    """ "Eleven eighty for the lot" of many pieces is 1180, and the other reading is shown."""
    [_, cost] = heard("received forty batts of wool he wants eleven eighty for the lot").facts
    assert [doubt.shown for doubt in cost.doubts] == ["'eleven eighty' can be 1180 or 11.80"]


def test_dimensions_make_no_money() -> None:
    """ "Height and width are forty thirty" is no forty dollars thirty."""
    assert not [fact for fact in heard("height and width are forty thirty and two").facts if fact.kind == "cost"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("moisture on the pine stack is down to seventeen from twenty two last week", ["reading: pine stack · moisture · 17%"]),
        ("humidity's thirty eight percent in the loft it was fifty one on monday", ["reading: loft · humidity · 38%"]),
        ("humidity went from sixty two down to forty five in the cellar", ["reading: cellar · humidity · 45%"]),
        ("oak's at nineteen maple's fifteen and a half and the ash is at twenty four percent", ["reading: oak · moisture · 19%", "reading: maple · moisture · 15.5%", "reading: ash · moisture · 24%"]),
        ("shop's at sixty one and the loft fifty eight degrees", ["reading: shop · temperature · 61F", "reading: loft · temperature · 58F"]),
        ("twenty nine degrees on the porch at seven", ["reading: porch · temperature · 29F"]),
        ("it was thirty four degrees this morning in the shop", ["reading: shop · temperature · 34F"]),
        ("it's forty six in the root cellar degrees that is", ["reading: root cellar · temperature · 46F"]),
        ("meter says sixteen on the sill and twenty two on the bottom plate", ["reading: sill · moisture · 16%", "reading: bottom plate · moisture · 22%"]),
        ("log three reads twenty six at the butt and nineteen in the middle moisture that is", ["reading: log 3 butt · moisture · 26%", "reading: log 3 middle · moisture · 19%"]),
        ("top of the stack is fourteen percent bottom's eighteen and a half", ["reading: top stack · moisture · 14%", "reading: bottom · moisture · 18.5%"]),
        ("dehumidifier's holding the basement at forty five percent", ["reading: basement · humidity · 45%"]),
        ("lookout temperature fifty one humidity forty seven percent", ["reading: lookout · temperature · 51F", "reading: lookout · humidity · 47%"]),
        ("humidity about sixty one percent moisture in the sill log nineteen percent", ["reading: humidity · 61%", "reading: sill log · moisture · 19%"]),
        ("moisture in the sill log nineteen percent in the top plate fourteen and a half", ["reading: sill log · moisture · 19%", "reading: top plate · moisture · 14.5%"]),
        ("the tape reads thirty one", []),
        ("thirteen and a half percent in the king post fifteen in the braces seventeen in the sill", ["reading: king post · moisture · 13.5%", "reading: braces · moisture · 15%", "reading: sill · moisture · 17%"]),
        ("moisture is sixteen and a half percent on the top rack nineteen on the middle rack twenty three on the bottom rack", ["reading: top rack · moisture · 16.5%", "reading: middle rack · moisture · 19%", "reading: bottom rack · moisture · 23%"]),
        ("dairy floor moisture twenty to percent buy the drain and sixteen and a half buy the door", ["reading: dairy floor · drain · moisture · 22%", "reading: dairy floor · door · moisture · 16.5%"]),
        ("moisture eighteen percent in the mud sill twenty to in the bottom log and fifteen in the plate", ["reading: mud sill · moisture · 18%", "reading: bottom log · moisture · 22%", "reading: plate · moisture · 15%"]),
        ("the walnut's eleven percent and the shop itself is sixty six degrees", ["reading: walnut · moisture · 11%", "reading: shop · temperature · 66F"]),
        ("dairy floor moisture twenty two percent by the drain and sixteen and a half by the door", ["reading: dairy floor · drain · moisture · 22%", "reading: dairy floor · door · moisture · 16.5%"]),
        ("moisture check bilge stringer twenty four and the breasthook nineteen percent", ["reading: bilge stringer · moisture · 24%", "reading: breasthook · moisture · 19%"]),
        ("moisture in the net shed fifteen point five percent in the rafters fourteen in the purlins", ["reading: net shed · rafters · moisture · 15.5%", "reading: net shed · purlins · moisture · 14%"]),
        ("moisture has to be under fifteen percent before we lay it", []),
        ("glue needs fifty degrees to cure", []),
        ("feels like a hundred degrees up here", []),
        ("the book wants twelve percent for flooring and it's reading fourteen percent", ["reading: flooring · moisture · 14%"]),
        ("they knocked forty percent off the windows", []),
        ("the siding's fifty percent done", []),
        ("the meter battery's down to ten percent and the pine reads seventeen", ["reading: pine · moisture · 17%"]),
        ("beams is twenty one percent posts sixteen wedges nineteen and a half", ["reading: beams · moisture · 21%", "reading: posts · moisture · 16%", "reading: wedges · moisture · 19.5%"]),
        ("temp in the larder forty one just so it's written down", ["reading: larder · temperature · 41F"]),
        ("sugar shack eighty eight percent humidity at the moment", ["reading: sugar shack · humidity · 88%"]),
        ("hayloft floor fifteen and a half percent tack room eighteen", ["reading: hayloft floor · moisture · 15.5%", "reading: tack room · moisture · 18%"]),
        ("the thatching's finished up there the rafters read eleven percent moisture", ["task: thatching · done", "reading: rafters · moisture · 11%"]),
        ("pine stack by the kiln at sixteen percent down from twenty", ["reading: kiln · pine stack · moisture · 16%"]),
        ("bottom plank of the scow was thirty one percent last month it's twenty four percent now", ["reading: bottom plank scow · moisture · 24%"]),
        ("smokehouse was fifty two degrees at six this morning and seventy one by noon", ["reading: smokehouse · temperature · 52F", "reading: smokehouse · temperature · 71F"]),
        ("humidity in the cellar dropped from seventy to fifty eight percent", ["reading: cellar · humidity · 58%"]),
        ("last week the maple rack was nineteen percent and it's fifteen today", ["reading: maple rack · moisture · 15%"]),
        ("the cherry used to be twenty percent it's twelve now", ["reading: cherry · moisture · 12%"]),
        ("vestry's sixty four percent humidity better than the seventy one it was", ["reading: vestry · humidity · 64%"]),
        ("the crew cabin reads thirty eight degrees warmer than yesterday's thirty one", ["reading: crew cabin · temperature · 38F"]),
        ("loft was sixty one degrees yesterday and the kitchen's fifty eight today", ["reading: loft · temperature · 61F", "reading: kitchen · temperature · 58F"]),
    ],
)  # fmt: skip
def test_what_is_read_off_a_meter(said: str, told: list[str]) -> None:
    """The quantity and unit said once go for the list; what was read on another day, and the hour, are no readings."""
    assert facts(said) == told


def test_moisture_that_was_not_named_is_doubted() -> None:
    """ "The spruce is reading twenty one" is moisture, with a doubt that says so."""
    [reading] = heard("spruce in the shed's reading twenty one").facts
    assert [doubt.shown for doubt in reading.doubts] == ["'twenty one' was taken for moisture, which was not said"]


def test_hours_said_once_go_on_with_the_work() -> None:
    """ "Hours this week twelve and a half shingling …": the unit is said before, the work after each figure."""
    told = facts("hours this week twelve and a half shingling the barn roof six flashing the sugar shack chimney")
    assert [one.split(" · ")[-2:] for one in told] == [["12.5 h", "shingling"], ["6 h", "flashing"]]


def test_put_me_down_is_no_order() -> None:
    """ "Put me down for seven hours" is hours."""
    assert facts("put me down for seven hours laying flooring in the loft") == ["hours: loft · 7 h · laying flooring"]


@pytest.mark.parametrize(
    "said",
    [
        "had four fellows helping with the ridge", "i've got one more day on this job", "the neighbour has nine cows", "got about two weeks left before the snow",
        "the old barn had forty windows", "each door has three hinges", "did the eight boards come in yet", "i thought we had ten sheets but there's none",
        "we don't have twelve boards", "if we had ten more boards it'd be done", "i wouldn't pay forty dollars for that", "if it's over two hundred dollars forget it",
        "he owes me ninety dollars for the windows", "refund of forty two dollars on the hinges", "client paid me twelve hundred deposit", "cheque came in for three thousand",
        "my estimate was four thousand", "we're six hundred over budget", "that door's worth eight hundred easily", "wood's gone up thirty percent since spring",
        "we're at sixty percent humidity they reckon tomorrow", "forecast says ninety degrees thursday", "wind's gusting thirty", "call the yard at five five five one two one two",
        "meeting at ten thirty with the architect", "saw eight deer by the creek", "the twelve foot ladder's cracked",
        "the old owner paid nine thousand for the whole place", "i remember when nails were forty cents a pound", "sheet rock's nine dollars cheaper at the other yard",
        "it'd cost three hundred to fix it right", "might be fifty dollars more for the tempered", "could've used six more boards", "thermometer's stuck at forty",
        "free delivery over two hundred", "the truck gets ten miles to the gallon", "the ladder's good for three hundred pounds", "nine times out of ten it fits", "the inspector comes at nine",
    ],
)  # fmt: skip
def test_what_is_said_in_passing_is_no_fact(said: str) -> None:
    """People, days, miles, times of day, parts of things, thoughts, questions and denials are neither facts nor asked about."""
    read = heard(said)
    assert [fact for fact in read.facts if fact.kind != "task"] == []
    assert read.problems == ()
