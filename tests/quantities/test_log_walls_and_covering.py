"""Log walls, nails, covering, finish, timber and pace: worked examples of the trade notes and of published tables."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pytest
from books import book, disagree, m, says, setting, shown, slope
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.lengths import FOOT
from journal.quantities.base import Answers, answers
from journal.quantities.cautions import FINISH, NAILS, SETTLING, WEIGHT
from journal.quantities.coverage import insulation_material, strips
from journal.quantities.log_rules import RULES, log_board_feet
from journal.quantities.lumber import board_feet, dressed, section_sizes
from journal.quantities.nails import bearings, penetration, penny_of, pounds
from journal.quantities.sealing import Crossing, joint_lengths, joints_crossed
from journal.records import Aside, Fact, Hours, Measure, Stock, Task

WALL_A: tuple[Fact | Aside, ...] = (
    m("wall A", "length", "240"),
    m("wall A", "height", "98"),
    m("wall A", "rough opening width", "38 1/4", "door"),
    m("wall A", "rough opening height", "82 1/2", "door"),
    m("wall A", "rough opening width", "30 1/2", "window"),
    m("wall A", "rough opening height", "42 1/2", "window"),
    m("wall A", "height", "32", "window sill"),
    m("wall A", "gap", "1 3/8", "course 4 and 5"),
    m("wall A", "gap", "1 5/8", "course 8 and 9"),
    Aside(topic="courses", text="top log", place="wall A", value=9),
    m("wall A", "depth", "3/8", "chink"),
)


def at(place: str, *said: Any, **more: Any) -> Answers:
    return answers(book(*said, **more), place)


# ---- chinking and settling -------------------------------------------------------------------------------------------


def test_the_chinking_of_wall_a() -> None:
    """9 courses, 127.5 ft of joint, 3.73 gal a face at the mean gap of 1 1/2; 4.1 with waste, 8.2 both faces, 2 pails."""
    wall = at("wall A", *WALL_A)
    assert shown(
        wall, "courses", "joint length", "chinking at the mean gap", "chinking with waste", "chinking, all faces",
        "pails of chinking",
    ) == {
        "courses": "9",
        "joint length": "127.5 ft on a face, 8 joints",
        "chinking at the mean gap": '3.73 gal a face, all joints 1 1/2"',
        "chinking with waste": "4.1 gal a face",
        "chinking, all faces": "8.2 gal",
        "pails of chinking": "2 of 5 gal",
    }  # fmt: skip
    net = wall.value("chinking, net")
    assert net is not None
    assert net.shown == '3.74 gal a face, 2 joints at their own gap, the others at 1 1/2"'


def test_what_chinking_lacks_is_said() -> None:
    """A gap alone makes a log wall; its length, height, courses and depth are asked for one by one."""
    assert [
        line for line in says(at("wall A", m("wall A", "gap", "1 3/8", "course 4 and 5"))) if "chinking" in line
    ] == [
        'wall A chinking needs the length. Say: "wall A length …"',
        'wall A chinking needs the height. Say: "wall A height …"',
        'wall A chinking needs the courses. Say: "on wall A … is the top log"',
        'wall A chinking needs the depth. Say: "chink depth on wall A …"',
    ]


def test_courses_from_the_logs_are_marked_as_worked_out() -> None:
    """Without a top log the courses are height/mean log, rounded, and it says so."""
    said = (*WALL_A[:9], m("wall A", "diameter", "10", "log 1"), m("wall A", "diameter", "12", "log 2"))
    assert shown(at("wall A", *said), "courses") == {
        "courses": '9 worked out from logs of 11", the top log was not named'
    }


def test_an_opening_without_a_sill_marks_the_joints() -> None:
    """Where an opening stands is not known: nothing is taken off for it, the length is marked and the sill asked for."""
    wall = at("wall A", *(fact for fact in WALL_A if getattr(fact, "about", None) != "window sill"))
    assert shown(wall, "joint length") == {"joint length": "137.7 ft ~ on a face, 8 joints"}
    assert 'wall A chinking needs the sill of the window. Say: "wall A window sill …"' in says(wall)


def test_openings_wider_than_the_wall_are_told() -> None:
    """A door wider than its wall gives a sentence with the memos and no length."""
    said = (m("wall A", "length", "30"), *WALL_A[1:])
    wall = at("wall A", *said)
    assert shown(wall, "joint length") == {}
    assert any(line.startswith("wall A joints cannot be worked out: the openings across one joint are wider than the wall "
                               "(memos 1, 2, 3") for line in disagree(wall))  # fmt: skip


def test_a_gap_above_the_top_log_is_told() -> None:
    """A gap at a course that the wall has not got is named and not counted."""
    wall = at("wall A", *WALL_A, m("wall A", "gap", "2", "course 11 and 12"))
    assert "wall A has 9 courses, but memo 12 gives a gap at course 11 and 12." in disagree(wall)


def test_joints_strictly_between_bottom_and_top_are_crossed() -> None:
    """A joint level with a sill or a head is not crossed; a door is crossed from the bottom of the wall."""
    ten = Fraction(10)
    assert joints_crossed(Crossing(ten, Fraction(20), Fraction(50)), ten, 9) == (3, 4)
    assert joints_crossed(Crossing(ten, Fraction(0), Fraction(25)), ten, 9) == (1, 2)
    assert joint_lengths(Fraction(100), Fraction(90), 1, ()) == {}


def test_settling_over_the_door() -> None:
    """Door 82 1/2: 13/16 at 1 %, 2 1/2 at 3, 4 15/16 at 6 (ICC 400 and practice); one figure once a share is set."""
    wall = at("wall A", *WALL_A)
    found = {
        v.about: v.value for v in wall.quantities if v.name == "settling gap" and (v.about or "").startswith("door")
    }
    assert found == {"door at 1 %": "0 13/16", "door at 3 %": "2 1/2", "door at 6 %": "4 15/16"}
    assert all(v.caution == SETTLING for v in wall.quantities if v.name == "settling gap")
    one = at("wall A", *WALL_A, settings=(setting("settling", "3", "wall A"),))
    assert [v.about for v in one.quantities if v.name == "settling gap"] == ["door at 3 %", "window at 3 %"]


def test_sealant_round_the_openings() -> None:
    """29.1 ft of 1/4 x 1/4 bead with 10 %: 24.3 ft a cartridge (COV-076), so 2."""
    assert shown(at("wall A", *WALL_A), "cartridges of sealant") == {
        "cartridges of sealant": '2 for 29.1 ft once round the openings, 1/4" x 1/4"'
    }


# ---- nails -----------------------------------------------------------------------------------------------------------

GABLE: tuple[Fact, ...] = (
    m("lake gable", "base width", "192"),
    slope("lake gable", 8),
    m(None, "width", "6 7/8", "1x8 pine"),
    m("lake gable", "rough opening width", "24 1/2", "window"),
    m("lake gable", "rough opening height", "30", "window"),
    m("lake gable", "offset", "14", "plate to window sill"),
    m("lake gable", "centre", "96", "corner to window"),
    m("lake gable", "spacing", "24", "strapping"),
    Stock(event="received", count=40, what="board", section="1x8", species="pine", length_ticks=12 * FOOT),
    Stock(event="received", count=10, what="pound of eight penny ring shank nails"),
    Stock(place="lake gable", event="used", count=4, what="board", species="pine"),
    Stock(place="lake gable", event="used", count=1, what="pound of nails"),
)


def test_the_nails_of_the_lake_gable() -> None:
    """108 nails, two a bearing on strapping at 24; with 10 % 1.13 lb of 8d, 2 lb to buy (trade notes)."""
    gable = at("lake gable", *GABLE)
    assert shown(gable, "nails", "pounds of nails") == {
        "nails": "108 in 32 pieces",
        "pounds of nails": "1.13 lb of 8d, 2 to buy; lists differ by 15 %",
    }
    assert next(v for v in gable.quantities if v.name == "nails").caution == NAILS


def test_how_far_the_nail_goes_in() -> None:
    """8d through 3/4 board and 3/4 strapping: 1 in. behind it; six diameters are 0.79 (FAS-007, 082)."""
    assert shown(at("lake gable", *GABLE), "nail penetration") == {
        "nail penetration [8d]": '1" of a 8d behind board and strapping; six diameters are 0.79 in. Sinkers are shorter'
    }
    foam = at("lake gable", *GABLE, settings=(setting("strapping thickness", "2"),))
    assert "lake gable: a 8d nail does not reach through board and strapping. Say which nail it is." in says(foam)


def test_nails_need_their_spacing_and_kind() -> None:
    """Without the spacing, or without the kind of nail, that is asked for."""
    no_spacing = at("lake gable", *(fact for fact in GABLE if getattr(fact, "dimension", "") != "spacing"))
    want = 'lake gable nails need the spacing of what the boards are nailed to. Say: "lake gable strapping sixteen on centre"'
    assert want in says(no_spacing)
    no_nails = at("lake gable", *GABLE[:9])
    assert 'lake gable pounds of nails need the kind of nail. Say: "received ten pounds of eight penny nails"' in says(
        no_nails
    )


@pytest.mark.parametrize(
    ("said", "size"),
    [("eight penny ring shank nails", 8), ("pound of 16 penny sinker", 16), ("8d common", 8), ("ten penny", 10),
     ("deck screws", None), ("eleven penny", None), (None, None), ("penny", None)],
)  # fmt: skip
def test_the_penny_in_a_name(said: str | None, size: int | None) -> None:
    """A penny size is read from figures and words; one that no list has is none."""
    assert penny_of(said) == size


def test_nail_arithmetic_refuses_nonsense() -> None:
    """A nail that does not reach, a spacing of nothing and a pound of nothing are refused with a sentence."""
    with pytest.raises(ValueError, match=r"^the nail does not reach the piece behind$"):
        penetration(Fraction(2), Fraction(1), Fraction(1))
    with pytest.raises(ValueError, match=r"^supports cannot be spaced at nothing$"):
        bearings(Fraction(96), Fraction(0))
    with pytest.raises(ValueError, match=r"^a pound of no nails cannot be$"):
        pounds(3, Fraction(10), 0)


# ---- covering --------------------------------------------------------------------------------------------------------


def test_siding_by_the_face() -> None:
    """37.6 ft² of boards covering 6 7/8 with 10 %: 72.1 ft and 48.1 bf of 1x8 (WWPA factors 12/face and 8/face)."""
    assert shown(at("lake gable", *GABLE), "siding", "siding, board feet") == {
        "siding": '72.1 ft of boards covering 6 7/8"; 65.6 without waste',
        "siding, board feet": "48.1 bf of 1x8; 43.7 without waste",
    }


def test_felt_up_a_wall() -> None:
    """H 98, 36-in. felt, 2 in. laps: 3 strips, 60 ft on a 20-foot wall (trade notes; laps of IRC R703.2 as read)."""
    said = (
        m("lake wall", "length", "240"),
        m("lake wall", "height", "98"),
        Stock(event="need", count=2, what="roll of felt"),
    )
    assert shown(at("lake wall", *said), "felt", "rolls of felt") == {
        "felt": "60.0 ft 3 strips, 0 end joints in each",
        "rolls of felt": "1",
    }
    joined = strips(Fraction(240), Fraction(98), Fraction(36), Fraction(120))
    assert (joined.strips, joined.joints, joined.length) == (3, 2, 3 * (240 + 12))
    with pytest.raises(ValueError, match=r"^a roll has to be wider and longer than its laps$"):
        strips(Fraction(240), Fraction(98), Fraction(2), Fraction(120))


def test_sheets_are_a_floor() -> None:
    """A wall of 163.3 ft² takes at least 6 sheets of 4 x 8 (COV-061 to 064 by the same rule)."""
    said = (
        m("lake wall", "length", "240"),
        m("lake wall", "height", "98"),
        Stock(event="need", count=2, what="sheet of plywood"),
    )
    assert shown(at("lake wall", *said), "sheets") == {"sheets": "6 at the least; a layout beats it"}


def test_insulation_is_a_range() -> None:
    """Two inches of extruded polystyrene are R 9 to 10, never one number; a bare "batt" is not guessed."""
    said = m("loft", "thickness", "2", "extruded polystyrene board")
    assert shown(at("loft", said), "insulation") == {
        "insulation [extruded polystyrene board]": "R 9.0 to 10.0 extruded polystyrene board"
    }
    assert insulation_material("batt") is None
    assert insulation_material("fiberglass batt") == "fiberglass batt"


def test_finish_by_the_label() -> None:
    """132.4 ft², 2 coats, 250 ft² a gallon, 10 %: 1.17 gal, 2 to buy (trade notes); without the label it is asked for."""
    oil = Task(place="wall A", do="oil the logs")
    asked = at("wall A", *WALL_A, oil)
    assert 'wall A finish needs the coverage from the label. Say: "assume finish coverage 250"' in says(asked)
    known = at("wall A", *WALL_A, oil, settings=(setting("finish coverage", "250"),))
    assert shown(known, "finish") == {"finish": "1.17 gal 2 to buy, 1.06 without waste; rough wood takes up to twice"}
    assert next(v for v in known.quantities if v.name == "finish").caution == FINISH


def test_brushes_and_pace_by_the_own_record() -> None:
    """14 cup brushes on 132.4 ft²: 9.5 ft² each; 13.5 h for 127.5 ft of chinking: 9.4 ft an hour (trade notes)."""
    said = (
        *WALL_A,
        Stock(place="wall A", event="used", count=14, what="cup brush"),
        Hours(place="wall A", hours=6, activity="raking out the old chinking"),
        Hours(place="wall A", hours=7, activity="chinking"),
        Hours(place="wall A", hours=6.5, activity="chinking"),
    )
    assert shown(at("wall A", *said), "area a piece", "pace of chinking") == {
        "area a piece [cup brush]": "9.5 ft² for each of 14, one face of 132.4 ft²",
        "pace of chinking": "9.4 ft an hour, 127.5 ft in 13.5 h, if one face is done",
    }


def test_no_pace_from_hours_without_a_name() -> None:
    """Hours whose activity was not said may be chinking too: then no pace is given."""
    said = (*WALL_A, Hours(place="wall A", hours=7, activity="chinking"), Hours(place="wall A", hours=6.5))
    assert shown(at("wall A", *said), "pace of chinking") == {}


# ---- lumber, logs and weight -----------------------------------------------------------------------------------------


def test_board_feet_on_both_bases() -> None:
    """1x8x12 is 8.0 nominal; 1 1/8 x 8 1/4 x 12 full-sawn is 9.28 on its actual size (trade notes)."""
    assert board_feet("1x8", 12 * FOOT) == 8
    assert round(float(board_feet("1 1/8x8 1/4", 12 * FOOT, actual=True)), 2) == 9.28
    assert board_feet("5/4x6", 12 * FOOT) == Fraction(15, 2)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: section_sizes("ax9"), "'ax9' is no section: say it thickness first, such as 1x8"),
        (lambda: section_sizes("0x8"), "'0x8' is no section: it has a side of nothing"),
        (lambda: section_sizes("38x140"), "'38x140' is no section in inches: say a metric one in inches"),
        (lambda: board_feet("1x8", 0), "a 1x8 with no length has no board feet"),
        (lambda: dressed("1 1/8x8 1/4"), "1 1/8x8 1/4 is a measured size, not a nominal one: it has no dressed size"),
        (lambda: log_board_feet("Doyle", 4, 16), "the Doyle rule gives nothing for a log of 4 in.: it starts above 4 in."),
        (lambda: log_board_feet("Scribner", 9, 16), "no Scribner factor is on record for 9 in.: even diameters from 8 to 30 in. only"),
        (lambda: log_board_feet("Doyle", 12, 0), "a log of 12 in. by 0 ft has no volume"),
        (lambda: log_board_feet("Roy", 12, 16), "'Roy' is no log rule known here: say Doyle, Scribner formula, Scribner, Scribner Decimal C or International 1/4"),
    ],
)  # fmt: skip
def test_lumber_refuses_nonsense(call: Any, message: str) -> None:
    """A section, length or log that makes no sense is refused with a whole sentence."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()


def test_a_log_by_each_rule() -> None:
    """A 12-inch log of 16 ft: Doyle 64, Scribner's formula 85.8, International 95 (LUM-067, 098, 124), each named."""
    said = (m("yard", "diameter", "12", "log 3"), m("yard", "length", "192", "log 3"))
    assert shown(at("yard", *said), "log board feet") == {
        "log board feet [log 3, Doyle]": "64.0 bf by Doyle",
        "log board feet [log 3, Scribner formula]": "85.8 bf by Scribner formula",
        "log board feet [log 3, International 1/4]": "95.0 bf by International 1/4",
    }
    one = at("yard", *said, settings=(setting("log rule", "doyle"),))
    assert [v.about for v in one.quantities if v.name == "log board feet"] == ["log 3, Doyle"]
    assert shown(one, "largest square") == {"largest square [log 3]": "8.49 in"}


def test_what_a_beam_weighs() -> None:
    """8x8x12 white pine at 60 % weighs about 180 lb (62.4 x 0.34 x 1.6 x 5.33 ft³, Wood Handbook), with the caution."""
    beam = Stock(
        place="yard",
        event="received",
        count=2,
        what="beam",
        section="8x8",
        length_ticks=144 * 8128,
        species="white pine",
    )
    yard = at("yard", beam)
    assert shown(yard, "weight") == {"weight [8x8 white pine beam 12' 0\"]": "181 lb each, ±25 %"}
    assert next(v for v in yard.quantities if v.name == "weight").caution == WEIGHT
    unnamed = at(
        "yard", Stock(place="yard", event="received", count=2, what="beam", section="8x8", length_ticks=144 * 8128)
    )
    assert says(unnamed) == ['yard weight of 8x8 beam 12\' 0" needs its species. Say: "8x8 beam 12\' 0" is white pine"']


@given(st.sampled_from(RULES), st.floats(8, 30), st.floats(4, 24))
def test_no_rule_gives_more_than_the_log_holds(rule: str, across: float, feet: float) -> None:
    """By any rule a log gives less than its cylinder with a large end of 3 in. more, and never less than nothing."""
    try:
        found = log_board_feet(rule, across, feet)
    except ValueError:
        return
    assert 0 <= found <= 3.2 * (across + 3) ** 2 / 4 * feet / 12


measures = st.builds(
    Measure,
    place=st.sampled_from(["wall A", "yard", "lake gable"]),
    about=st.sampled_from([None, "log 1", "course 4 and 5", "course 1 and 1", "chink", "door", "window", "window sill",
                           "white pine log", "strapping", "ladder", "foam board", "1x8 board"]),
    dimension=st.sampled_from(["diameter", "length", "height", "gap", "depth", "thickness", "rough opening width",
                               "rough opening height", "spacing", "base width", "width"]),
    ticks=st.sampled_from([0, -8128, 1, 8128, 30 * 8128, 98 * 8128, 240 * 8128, 10**13]),
)  # fmt: skip
others = st.sampled_from(
    [
        Aside(topic="courses", text="top log", place="wall A", value=0.0),
        Aside(topic="courses", text="top log", place="wall A", value=9.0),
        Stock(place="wall A", event="used", count=0.0, what="cup brush"),
        Stock(place="yard", event="received", count=2, what="beam", section="8x8", length_ticks=0, species="pine"),
        Stock(place="lake gable", event="used", count=2, what="pound of eight penny nails"),
        Stock(event="need", count=1, what="roll of felt"),
        Hours(place="wall A", hours=0.0, activity="chinking"),
        Task(place="wall A", do="oil it"),
    ]
)
names = [
    "settling",
    "finish coverage",
    "felt width",
    "roll length",
    "nail waste",
    "chinking waste",
    "strapping thickness",
]
set_values = st.builds(setting, st.sampled_from(names), st.sampled_from(["0", "3", "20", "250", "nonsense", "1/0"]))


@settings(max_examples=150, deadline=None)
@given(st.lists(st.one_of(measures, measures, others), max_size=14), st.lists(set_values, max_size=2))
def test_walls_of_nonsense_give_sentences(said: list[Any], set_to: list[Any]) -> None:
    """No mixture of sizes, gaps, logs and stock makes a quantity fail; nothing that cannot be is a negative number."""
    for place in ("wall A", "yard", "lake gable"):
        found = at(place, *said, settings=tuple(set_to))
        assert not [one.shown for one in found.disagree if "cannot be worked out from" in one.shown]
        for value in found.quantities:
            if value.name in ("joint length", "chinking, net", "weight", "felt", "nails", "finish", "siding"):
                assert isinstance(value.value, int | float)
                assert value.value >= 0
