"""How figures are said: the forms of the trade, each with what it means."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard
from journal.lengths import format_inches
from journal.records import Known, Measure


@pytest.mark.parametrize(
    ("said", "inches"),
    [
        ("seventy one and five eighths", "71 5/8"),
        ("one eighteen and a half", "118 1/2"),
        ("one oh one", "101"),
        ("five foot two and a half", "62 1/2"),
        ("five and a half foot", "66"),
        ("a foot and a half", "18"),
        ("two foot and a half inch", "24 1/2"),
        ("nineteen foot oh and a half", "228 1/2"),
        ("fourteen six", "174"),
        ("twenty foot even", "240"),
        ("twenty foot dead", "240"),
        ("twenty foot nothing", "240"),
        ("forty two less a sixteenth", "41 15/16"),
        ("forty two shy by an eighth", "41 7/8"),
        ("twelve hundred and twenty inches", "1220"),
        ("four inches less an eighth", "3 7/8"),
        ("an inch and five sixty fourths", "1 5/64"),
        ("twenty three sixty fourths", "0 23/64"),
        ("thirty one thirty seconds", "0 31/32"),
        ("fifty six three eighths", "56 3/8"),
        ("three quarters of an inch", "0 3/4"),
        ("half an inch", "0 1/2"),
        ("a half inch", "0 1/2"),
        ("eighteen point five", "18 1/2"),
        ("one hundred and ninety six and three quarters", "196 3/4"),
        ("nine foot eleven and fifteen sixteenths", "119 15/16"),
        ("eight foot two inches and three eighths", "98 3/8"),
        ("sixteen and three quarter feet", "201"),
        ("38 1/4", "38 1/4"),
        ("20' 6 1/2\"", "246 1/2"),
        ("twenty seven foot three inches and a quarter", "327 1/4"),
    ],
)  # fmt: skip
def test_a_figure_is_read_as_the_trade_says_it(said: str, inches: str) -> None:
    """Feet and inches, halves to sixty-fourths, hundreds without "hundred", arithmetic beside a figure (trade notes, part C)."""
    for form in (f"wall f length {said}", f"the shelf is {said} long", f"bench length {said}"):
        got = [format_inches(fact.ticks) for fact in heard(form).facts if isinstance(fact, Measure)]
        assert got == [inches], form


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the porch roof is eight twelve", ["slope: porch roof · 8 in 12"]),
        ("the porch roof is eight in twelve", ["slope: porch roof · 8 in 12"]),
        ("eight pitch on the porch roof", ["slope: porch roof · 8 in 12"]),
        ("the porch roof is a third pitch", ["slope: porch roof · 8 in 12"]),
        ("the porch roof is a half pitch", ["slope: porch roof · 12 in 12"]),
        ("the ramp is one in ten", ["slope: ramp · 1 in 10"]),
        ("joists in the loft sixteen on centre", ["measure: loft · joists · spacing · 16"]),
        ("door rough opening on wall c thirty by forty", ["measure: wall C · door · rough opening width · 30", "measure: wall C · door · rough opening height · 40"]),
        ("need ten pounds of ten penny nails", ["stock: need · 10 · pound of ten penny nails"]),
        ("the sash on wall a is twelve hundred and twenty mil wide", ["measure: wall A · sash · width · 1220 mm"]),
        ("pine is two ten a foot", ["cost: pine · 2.1 · foot"]),
        ("pine is two ten a board foot", ["cost: pine · 2.1 · board foot"]),
        ("the spruce is nine forty a thousand", ["cost: spruce · 940 · thousand"]),
        ("stacked thirty oak boards five quarter by six", ["stock: stacked · 30 · 5/4x6 · oak · board"]),
        ("received forty one by eight white pine boards", ["stock: received · 40 · 1x8 · white pine · board"]),
        ("ordered nine eight by eight oak logs twelve foot", ["stock: ordered · 9 · 8x8 · oak · log · 144"]),
        ("the vestry sill is a strong forty two and a half long", ["measure: vestry · sill · length · 42 1/2 · strong"]),
        ("the vestry sill is a scant half thick", ["measure: vestry · sill · thickness · 0 1/2 · shy"]),
        ("cellar window forty two and a half wide burned an inch", ["measure: cellar · window · width · 41 1/2"]),
        ("stud bay two fifteen and a quarter wide", ["measure: stud bay 2 · width · 15 1/4"]),
        ("worked from seven till eleven hewing on the lake wall", ["hours: lake wall · 4 h · hewing"]),
        ("we have an inch and a half gap between course two and three", ["measure: course 2 and 3 · gap · 1 1/2"]),
        ("three and a half hours on the porch roof ceiling", ["hours: porch roof ceiling · 3.5 h"]),
        ("minus four celsius in the belfry", ["reading: belfry · temperature · -4C"]),
        ("half a roll of felt left over", ["stock: left over · 0.5 · roll of felt"]),
        ("a cord and a half of slabs left over", ["stock: left over · 1.5 · cord of slabs"]),
    ],
)  # fmt: skip
def test_the_trades_own_forms(said: str, told: list[str]) -> None:
    """Slopes, sections, rates, labels, units that come once (trade notes, part C)."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the window on wall c is thirty no thirty one wide", ["measure: wall C · window · width · 31"]),
        ("the window on wall c is thirty and a half no scratch that thirty one and a half wide", ["measure: wall C · window · width · 31 1/2"]),
        ("the window on wall c is thirty and a half make that thirty one wide", ["measure: wall C · window · width · 31"]),
        ("on wall b no i mean wall d the window is thirty wide", ["measure: wall D · window · width · 30"]),
        ("the window on wall c is thirty hang on thirty one wide", ["measure: wall C · window · width · 31"]),
        ("the window on wall c is thirty wait thirty one wide", ["measure: wall C · window · width · 31"]),
        ("the window on wall c is thirty correction thirty one wide", ["measure: wall C · window · width · 31"]),
        ("the window on wall c is thirty one not thirty wide", ["measure: wall C · window · width · 31"]),
        ("the window on wall c is not thirty thirty one wide", ["measure: wall C · window · width · 31"]),
        ("the door on wall c is forty wide by thirty high other way round", ["measure: wall C · door · width · 30", "measure: wall C · door · height · 40"]),
        ("porch roof run measured again five foot eleven and a half", ["measure: porch roof · run · 71 1/2"]),
        ("wall d window is forty two no hang on the tape slipped forget that", []),
        ("no sill yet on wall c", []),
        ("the post in the loft is six foot two no three high", ["measure: loft · post · height · 75"]),
        ("the beam is seventeen and a half feet no sixteen and a half long", ["measure: beam · length · 198"]),
        ("hang the door by wednesday no make that thursday", ["task: hang the door · open · 2026-08-06"]),
        ("board four no five long point sixty and a half", ["measure: board 5 · long point · 60 1/2"]),
        ("need twenty no twenty four tubes of sealant", ["stock: need · 24 · tube of sealant"]),
        ("three hours on the stair no make that three and a half", ["hours: stair · 3.5 h"]),
        ("frame ten tie beam's nineteen foot and three uh no forget that altogether", []),
        ("den mantel is something and a half thick", []),
        ("studs nineteen percent no sorry i had it on the wrong species setting sixteen and a half percent", ["reading: studs · moisture · 16.5%"]),
    ],
)  # fmt: skip
def test_only_what_was_finally_meant_is_a_fact(said: str, told: list[str]) -> None:
    """Every way of taking back in one breath (trade notes, part C); not every "no" corrects."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the shelf is too foot ate wide", ["measure: shelf · width · 32"]),
        ("stacked fifty to by ate spruce boards", ["stock: stacked · 50 · 2x8 · spruce · board"]),
        ("wall c is three eights out of plum", ["measure: wall C · out of plumb · 0 3/8"]),
        ("the shelf is fourteen and five sixteens deep", ["measure: shelf · depth · 14 5/16"]),
        ("used for pounds of nails", ["stock: used · 4 · pound of nails"]),
        ("the shelf is nineteen foot and a have inch long", ["measure: shelf · length · 228 1/2"]),
        ("wall see length twenty foot even", ["measure: wall C · length · 240"]),
        ("granary door jam is ate foot too and a quarter hi", ["measure: granary · door jamb · height · 98 1/4"]),
        (
            "cloakroom seal is a scant five eights out of level",
            ["measure: cloakroom · sill · out of level · 0 5/8 · shy"],
        ),
        ("the stud bay's fourteen and won half wide", ["measure: stud bay · width · 14 1/2"]),
        ("need for to by sixes ten foot", ["stock: need · 4 · 2x6 · 120"]),
        ("received ate to by tens", ["stock: received · 8 · 2x10"]),
        ("we need to more gallons of stain", ["stock: need · 2 · gallon of stain"]),
        ("came in for rolls of felt", ["stock: received · 4 · roll of felt"]),
        ("the screws were ate ninety a box", ["cost: screws · 8.9 · box"]),
        ("glaze the sash buy tomorrow", ["task: glaze the sash · open · 2026-08-05"]),
        ("board six is two and free eighths thick", ["measure: board 6 · thickness · 2 3/8"]),
        ("the bench is dirty six and a half long", ["measure: bench · length · 36 1/2"]),
        ("bored three long point fifty won and a quarter", ["measure: board 3 · long point · 51 1/4"]),
        ("ridge hite on the west cable twenty foot even", ["measure: west gable · ridge height · 240"]),
        (
            "the still log on the west wall is ten and a half thick",
            ["measure: west wall · sill log · thickness · 10 1/2"],
        ),
    ],
)
def test_words_of_the_same_sound_are_put_right_by_context(said: str, told: list[str]) -> None:
    """A sound-alike is repaired, and a doubt of the lowest kind shows what was heard."""
    assert facts(said) == told
    read = heard(said)
    doubts = [doubt for fact in read.facts for doubt in fact.doubts] + list(read.doubts)
    alike = [doubt for doubt in doubts if doubt.reason == "sound-alike"]
    assert alike
    assert all(doubt.level == 1 and said[doubt.span.start : doubt.span.end] == doubt.other[0] for doubt in alike)


def test_a_figure_after_a_window_is_no_name() -> None:
    """A number no house has so many windows of is the figure at the end of a memo."""
    assert facts("sill height on the window thirty six") == ["measure: sill window · height · 36"]


def test_plain_words_are_left_alone() -> None:
    """Words in their own right stay what they are: where nothing counts or measures, or where they say the work."""
    for said in (
        "went to town for lunch and ate two pies", "need to buy nine tubes of caulk", "bored four holes in the sill",
        "the window still needs paint", "i think the wall is twelve foot long", "replace the door seal by four o'clock",
        "took a break on the left", "scribe the log for the porch", "the porch is eight to ten foot wide", "jam the door open",
        "frame the window with two by sixes", "buy hinges friday", "went for more screws", "the bridge is eight foot wide",
    ):  # fmt: skip
        read = heard(said)
        assert not [d for f in read.facts for d in f.doubts if d.reason == "sound-alike"], said
        assert not [d for d in read.doubts if d.reason == "sound-alike"], said


@pytest.mark.parametrize(
    ("said", "known", "told"),
    [
        ("same wall the height is eight foot two", "wall A", ["measure: wall A · height · 98"]),
        ("run on this one is ten and a quarter", "stair bay", ["measure: stair bay · run · 10 1/4"]),
        ("over here the sill is thirty long", "hill wall", ["measure: hill wall · sill · length · 30"]),
        ("the sill is thirty long", "hill wall", ["measure: sill · length · 30"]),
        ("B wall length ten foot even", None, ["measure: wall B · length · 120"]),
        ("the wall marked b length ten foot even", None, ["measure: wall B · length · 120"]),
        ("the gable that sits on wall b base width twenty foot even", None, ["measure: gable B · base width · 240"]),
        ("sand the floor of the loft", None, ["task: loft floor · sand the floor of the loft · open"]),
        ("frame five brace is thirty long", None, ["measure: frame 5 · brace · length · 30"]),
        ("hearth beam is six deep", None, ["measure: hearth beam · depth · 6"]),
        (
            "frame eight height ninety and the post reads ten percent",
            None,
            ["measure: frame 8 · height · 90", "reading: frame 8 · post · moisture · 10%"],
        ),
        ("lab bench is thirty high", None, ["measure: lab · bench · height · 30"]),
        (
            "in the wet lab the sink is twenty by fifteen and the counter an inch thick",
            None,
            ["measure: wet lab · counter · thickness · 1"],
        ),
    ],
)
def test_places_have_one_name(said: str, known: str | None, told: list[str]) -> None:
    """However a place is said it has one name; the place before is taken only where the memo goes on about it."""
    assert facts(said, Known(carried_place=known)) == told


def test_a_known_place_and_its_alias_are_heard() -> None:
    """A name that the journal knows is heard even where its words would be none, and an alias leads to its place."""
    known = Known(places=frozenset({"ruby corner"}), aliases={"wall bee side": "wall B"})
    assert facts("in the ruby corner the bench is thirty wide", known) == ["measure: ruby corner · bench · width · 30"]
    assert facts("wall bee side length ten foot even", known) == ["measure: wall B · length · 120"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("frame one the left strut is forty long point thirty six and a half short point", ["measure: frame 1 · left strut · long point · 40", "measure: frame 1 · left strut · short point · 36 1/2"]),
        ("mill stair nine inch rise eleven inch run and the headroom's seven foot", ["measure: mill · stair · rise · 9", "measure: mill · stair · run · 11", "measure: mill · headroom · other · 84"]),
        ("width and height of the hatch are thirty and forty", ["measure: hatch · width · 30", "measure: hatch · height · 40"]),
        ("east wall courses course two to three half an inch course three to four a shy quarter", ["measure: east wall · course 2 to 3 · gap · 0 1/2", "measure: east wall · course 3 to 4 · gap · 0 1/4 · shy"]),
        ("dairy shelf is thirty wide and twelve deep no forget the twelve", ["measure: dairy · shelf · width · 30"]),
        ("the hatch is thirty wide by forty high no other way round forty wide thirty high", ["measure: hatch · width · 40", "measure: hatch · height · 30"]),
        ("dairy door reveals a quarter at the head an eighth on the latch side and the door's two inches thick", ["measure: dairy · door head · reveal · 0 1/4", "measure: dairy · door latch side · reveal · 0 1/8", "measure: dairy · door · thickness · 2"]),
        ("mill hearth is four foot wide", ["measure: mill · hearth · width · 48"]),
        ("pen three in the barn is nine foot wide", ["measure: barn · pen 3 · width · 108"]),
        ("stall three in the barn is nine foot wide", ["measure: barn · stall 3 · width · 108"]),
        ("in the dairy the gate post is six foot high", ["measure: dairy · gate post · height · 72"]),
        ("attic stair is three foot wide", ["measure: attic · stair · width · 36"]),
        ("the dock ramp is one in nine and the mill roof's eight twelve", ["slope: dock ramp · 1 in 9", "slope: mill roof · 8 in 12"]),
        ("wall c diagonal two is twenty foot three", ["measure: wall C · diagonal 2 · diagonal · 243"]),
        ("dairy roof overhang is nine inches light", ["measure: dairy roof · overhang · 9 · shy"]),
        ("pockets one to three in the dairy are two inches deep four is three", ["measure: dairy · pockets 1 to 3 · depth · 2", "measure: dairy · pocket 4 · depth · 3"]),
    ],
)  # fmt: skip
def test_who_the_figure_belongs_to(said: str, told: list[str]) -> None:
    """Words after a figure, figures in a row and parts of a building each go to their own."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ("lake wall window width", "'lake wall window width': window width, but no figure"),
        ("the lintel on wall c is long", "'the lintel on wall c is long': lintel length, but no figure"),
        ("gap between log two and three on the dock wall", "'gap between log two and three on the dock wall': log 2 and 3 gap, but no figure"),
        ("the hatch is thirty wide and the door height", "'the door height': door height, but no figure"),
        ("no sill yet on wall c", None),
        ("the lintel is too long", None),
        ("what's the window width", None),
        ("mind the gap", None),
    ],
)  # fmt: skip
def test_a_measure_without_its_figure_is_reported(said: str, message: str | None) -> None:
    """What was named to be measured and has no figure is a problem; a denial, a question or a remark is none."""
    assert [problem.message for problem in heard(said).problems] == ([message] if message else [])


def test_a_figure_beside_a_stray_number_is_doubted() -> None:
    """Two numbers with a strange word between are one figure misheard, as likely as not."""
    marked = [
        [doubt.level for doubt in fact.doubts]
        for fact in heard("the hatch is thirty wide and four key two and a quarter high").facts
    ]
    assert marked == [[], [3], [3]]
