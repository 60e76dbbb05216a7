"""Roof lines and stairs: worked examples of the trade notes (demo), refusals, cautions, and what is missing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from books import book, disagree, m, says, setting, shown, slope

from journal.quantities.base import answers, show_length
from journal.quantities.cautions import BIRDSMOUTH, STAIRS, STRUCTURE
from journal.quantities.hip import hip_length
from journal.quantities.rafter import birdsmouth, common_length, ridge_shortening, ridge_top, stud_count
from journal.records import Stock

PORCH = [
    slope("porch roof", 4),
    m("porch roof", "length", "192"),
    m("porch roof", "overhang", "12"),
    m("porch roof", "spacing", "24", "rafters"),
]


def test_the_porch_rafter_of_the_demo() -> None:
    """Run 71 1/2 + 12 at 4/12 is 88 to 1/16; with the first run of 72 it was 88 9/16; 9 rafters on 16 ft at 24."""
    found = answers(book([m("porch roof", "run", "72"), *PORCH], m("porch roof", "run", "71 1/2")), "porch roof")
    assert shown(found) == {
        "roof angle": "18.4° plumb cut from square; seat cut 71.6°",
        "common rafter, line length": '75 3/8"',
        "common rafter, tail": '12 5/8"',
        "common rafter, overall": '88"',
        "rafter count": '9 on one slope, 24" on centre in 16\' 0"',
        "roof area": "117.4 ft² one slope",
    }
    overall = found.value("common rafter, overall")
    assert overall is not None
    assert (overall.caution, overall.was, overall.memos) == (STRUCTURE, ('was 72", Mon 13 Jul',), (1, 2))
    first = answers(book([m("porch roof", "run", "72"), *PORCH]), "porch roof").value("common rafter, overall")
    assert first is not None
    assert first.shown == '88 9/16"'


def test_a_rafter_cut_to_an_older_run_is_told() -> None:
    """Rafters cut at 88 agree with a run of 71 1/2; with 72 they are 9/16 off."""
    cut = Stock(place="porch roof", event="cut", count=9, what="rafter", section="2x6", length_ticks=88 * 8128)
    assert disagree(answers(book([m("porch roof", "run", "71 1/2"), *PORCH], cut), "porch roof")) == []
    assert disagree(answers(book([m("porch roof", "run", "72"), *PORCH], cut), "porch roof")) == [
        'porch roof rafters were cut at 88" (memo 2); worked out they are 88 9/16": 9/16" apart.'
    ]


def test_ridge_shortening_is_measured_level() -> None:
    """A 1 1/2 ridge at 8/12 takes 29/32 off along the rafter, not 3/4; a ledger takes none."""
    assert show_length(ridge_shortening(Fraction("1.5"), Fraction(2, 3)), to=8128 // 32) == '29/32"'
    said = [m("barn roof", "run", "96"), slope("barn roof", 8), m("barn roof", "thickness", "1 1/2", "ridge board")]
    with_ridge = answers(book(said), "barn roof")
    assert shown(with_ridge, "common rafter, line length", "common rafter, line length less ridge") == {
        "common rafter, line length": '115 3/8"',
        "common rafter, line length less ridge": '114 1/2" 29/32" off for the ridge',
    }
    ledger = answers(book(said, settings=(setting("roof form", "ledger", "barn roof"),)), "barn roof")
    assert ledger.value("common rafter, line length less ridge") is None


def test_a_span_is_halved_only_where_a_ridge_stands_in_the_middle() -> None:
    """16 ft of span is a run of 8 ft under a ridge, and 16 ft against a ledger; each says what was assumed."""
    said = [m("main roof", "span", "192"), slope("main roof", 7)]
    halved = answers(book(said), "main roof").value("common rafter, line length")
    assert halved is not None
    assert halved.shown == '111 1/8"'
    assert halved.assumed == (
        "roof form ridge (a ridge in the middle until said; a span is halved only there, and a ledger takes no ridge off)",
    )
    whole = answers(book(said, settings=(setting("roof form", "ledger"),)), "main roof").value(
        "common rafter, line length"
    )
    assert whole is not None
    assert whole.shown == '222 1/4"'


def test_the_birdsmouth_of_the_trade_notes() -> None:
    """2x6 at 4/12 with a seat of 3 1/2: heel 1 3/16, deep 1 1/8, 4 5/8 above the plate."""
    cut = birdsmouth(Fraction("3.5"), Fraction("5.5"), Fraction(1, 3))
    assert [show_length(Fraction(v)) for v in (cut.heel, cut.depth, cut.above_plate)] == ['1 3/16"', '1 1/8"', '4 5/8"']
    rafters = Stock(place="porch roof", event="used", count=9, what="rafter", section="2x6")
    said = [m("porch roof", "run", "71 1/2"), *PORCH, m("porch roof", "length", "3 1/2", "birdsmouth seat")]
    found = answers(book(said, rafters, m("porch roof", "plate height", "84")), "porch roof")
    assert shown(
        found, "birdsmouth, heel cut", "birdsmouth, depth square to the edge", "height above plate", "ridge top"
    ) == {
        "birdsmouth, heel cut": '1 3/16"',
        "birdsmouth, depth square to the edge": '1 1/8"',
        "height above plate": '4 5/8"',
        "ridge top": '112 7/16" no ridge thickness said',
    }
    heel = found.value("birdsmouth, heel cut")
    assert heel is not None
    assert heel.caution == BIRDSMOUTH
    above = found.value("height above plate")
    assert above is not None
    assert above.assumed == ('rafter 2x6 dressed, 5 1/2" deep',)
    assert (
        ridge_top(Fraction(84), Fraction(cut.above_plate), Fraction(96), Fraction(2), Fraction(1))
        == 84 + Fraction(cut.above_plate) + 95
    )


def test_a_seat_that_goes_through_the_rafter_is_told() -> None:
    """A seat deeper than the rafter is no birdsmouth."""
    said = [
        m("porch roof", "run", "71 1/2"),
        slope("porch roof", 12),
        m("porch roof", "overhang", "12"),
        m("porch roof", "length", "9", "birdsmouth seat"),
        m("porch roof", "depth", "5 1/2", "rafter"),
    ]
    assert disagree(answers(book(said), "porch roof")) == [
        'porch roof birdsmouth would go right through the rafter: seat 9", rafter 5 1/2".'
    ]


HIP = (setting("roof form", "hip", "main roof"),)
MAIN = [m("main roof", "run", "180"), slope("main roof", 8), m("main roof", "overhang", "12")]


def test_a_hip_with_jacks() -> None:
    """Run 15 ft at 8/12: hip 281 7/16 (23.45 ft), cut 25.2 degrees, jacks at 24 differ by 28 7/8; commons are not counted."""
    more = [
        m("main roof", "spacing", "24", "rafters"),
        m("main roof", "length", "480"),
        m("main roof", "thickness", "1 1/2", "ridge board"),
        m("main roof", "thickness", "1 1/2", "hip rafter"),
    ]
    found = answers(book([*MAIN, *more], settings=HIP), "main roof")
    assert {name: figure for name, figure in shown(found).items() if "hip" in name or "jack" in name} == {
        "hip or valley, line length": '281 7/16"',
        "hip or valley, tail": '18 3/4"',
        "hip or valley, overall": '300 3/16"',
        "hip or valley, plumb cut": "25.2° from square; seat cut 64.8°",
        "hip or valley, line length less ridge": '280 1/4" 1 3/16" off for the ridge',
        "jacks differ by": '28 7/8" at 24" on centre',
        "jacks shortened for the hip by": '1 9/32"',
    }
    assert found.value("rafter count") is None
    assert float(hip_length(Fraction(15), Fraction(2, 3))) == pytest.approx(23.45, abs=0.005)


def test_a_roof_with_a_measured_hip_has_hips() -> None:
    """A hip rafter that was measured makes it a hip roof: hips are worked out and commons are not counted; a valley counts both."""
    more = [m("main roof", "length", "360"), m("main roof", "spacing", "16", "rafters")]
    hip = answers(book(MAIN, more, m("main roof", "thickness", "1 1/2", "hip rafter")), "main roof")
    assert hip.value("hip or valley, line length") is not None
    assert hip.value("rafter count") is None
    valley = answers(book(MAIN, more, m("main roof", "thickness", "1 1/2", "valley")), "main roof")
    assert valley.value("hip or valley, line length") is not None
    assert valley.value("rafter count") is not None


def test_hips_are_refused_off_equal_pitches_and_square_corners() -> None:
    """Unequal pitches and a corner out of square get a sentence, no hip length."""
    unequal = [
        m("main roof", "run", "180"),
        slope("main roof", 8, about="left side"),
        slope("main roof", 6, about="right side"),
    ]
    found = answers(book(unequal, settings=HIP), "main roof")
    assert (
        "main roof has slopes of 8/12 (left side) and 6/12 (right side) (memo 1): hips are worked out on equal pitches only. Draw it full size."
        in disagree(found)
    )
    assert found.value("hip or valley, line length") is None
    racked = answers(book(MAIN, m("main roof", "out of square", "3/4"), settings=HIP), "main roof")
    assert disagree(racked) == [
        'main roof is 3/4" out of square (memo 2): hips are worked out on square corners only. Draw it full size.'
    ]
    assert racked.value("jacks differ by") is None


@pytest.mark.parametrize(
    ("said", "say"),
    [
        ([slope("porch roof", 4)], ['porch roof rafters need the run. Say: "porch roof run …"']),
        ([m("porch roof", "run", "72")], ['porch roof rafters need the slope. Say: "porch roof is a … twelve"']),
        (
            [m("porch roof", "run", "72"), slope("porch roof", 4)],
            [
                'porch roof rafter tail needs the overhang. Say: "porch roof overhang …"',
                'porch roof area needs the length. Say: "porch roof length …"',
            ],
        ),
    ],
)
def test_what_a_roof_lacks_is_named(said: list, say: list[str]) -> None:
    """Run, slope, overhang and length are asked for in words that can be said."""
    found = says(answers(book(said), "porch roof"))
    assert [line for line in found if line in say] == say


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (
            [m("porch roof", "run", "0"), slope("porch roof", 4)],
            'porch roof run is 0" (memo 1): that is no run. Say it again.',
        ),
        (
            [m("porch roof", "run", "72"), slope("porch roof", -4)],
            "the slope of porch roof is -4/12 (memo 1): that is no roof. Say it again.",
        ),
        (
            [
                m("porch roof", "length", "192"),
                m("porch roof", "run", "72"),
                m("porch roof", "spacing", "0", "rafters"),
            ],
            'porch roof rafter spacing is 0" (memo 1): no rafters can be counted with it.',
        ),
    ],
)
def test_what_makes_no_roof_names_its_memo(said: list, told: str) -> None:
    """A run of nothing, a slope below it, a spacing of nothing: a sentence."""
    assert told in disagree(answers(book(said), "porch roof"))


def test_unequal_slopes_give_two_rafters() -> None:
    """Two slopes on one roof stay two rafters, each by its side."""
    said = [
        m("main roof", "run", "96"),
        slope("main roof", 8, about="left side"),
        slope("main roof", 12, about="right side"),
    ]
    assert shown(answers(book(said), "main roof"), "common rafter, line length") == {
        "common rafter, line length [left side]": '115 3/8"',
        "common rafter, line length [right side]": '135 3/4"',
    }


def test_counts_along_a_length() -> None:
    """A rafter at each end, one more for a remainder: 192 at 24 is 9, 193 is 10, 0 is 1."""
    assert [stud_count(Fraction(length), Fraction(24)) for length in (192, 193, 0)] == [9, 10, 1]
    assert float(common_length(Fraction(96), Fraction(7, 12))) == pytest.approx(111.14, abs=0.005)


def test_the_loft_stair_of_the_demo() -> None:
    """9 ft 2 finish to finish: 15 risers of 7 5/16, 14 treads, with the caution of the code."""
    found = answers(book(m("loft stair", "rise", "110")), "loft stair")
    assert shown(found) == {"risers": "15", "riser": '7 5/16" lay out from the total 110"', "treads": "14"}
    riser = found.value("riser")
    assert riser is not None
    assert riser.caution == STAIRS
    assert riser.assumed == (
        'most rise 7 3/4" (IRC as read at jeffco.us (2018); your code governs)',
        "total rise taken from finish to finish",
    )


def test_stairs_with_a_run() -> None:
    """A stringer of 109 1/2 by 140 1/4 has treads of 10; a run of 10 1/4 a step makes 143 1/2."""
    stringer = [m("stair bay", "rise", "109 1/2", "stringer"), m("stair bay", "run", "140 1/4", "stringer")]
    assert shown(answers(book(stringer), "stair bay"), "tread") == {"tread [stringer]": '10"'}
    step = [m("stair bay", "rise", "109 1/2", "stringer"), m("stair bay", "run", "10 1/4", "steps")]
    assert shown(answers(book(step), "stair bay"), "stair run") == {"stair run [steps]": '143 1/2"'}


def test_a_stair_step_that_does_not_go_into_its_total_is_told() -> None:
    """A step of 8 in a total of 110 in 15 risers is told; a step alone asks for the total; a rise of nothing is no step."""
    off = [m("loft stair", "rise", "110", "stringer"), m("loft stair", "rise", "8")]
    assert disagree(answers(book(off), "loft stair")) == [
        'loft stair: one step is said to rise 8" (memo 1), but 110" in 15 risers (memo 1) is 7 5/16" each.'
    ]
    assert says(answers(book(m("loft stair", "rise", "7 5/8")), "loft stair")) == [
        'loft stair risers need the total rise, finish to finish. Say: "loft stair rise … foot …"'
    ]
    assert disagree(answers(book(m("loft stair", "rise", "0")), "loft stair")) == [
        'loft stair has a rise or run of 0" (memo 1): that is no step. Say it again.'
    ]


def test_the_span_of_a_porch_is_not_halved_unasked() -> None:
    """A porch mostly leans on a wall: its span is halved, or taken whole, only when its form was set."""
    said = [m("porch roof", "span", "192"), slope("porch roof", 4)]
    assert says(answers(book(said), "porch roof"))[0] == (
        'porch roof rafters need the run. Say: "porch roof run …", or assume the roof form: the span 16\' 0" is halved only '
        "under a ridge in the middle"
    )
    for form, line in (("ridge", '101 3/16"'), ("ledger", '202 3/8"')):
        found = answers(book(said, settings=(setting("roof form", form, "porch roof"),)), "porch roof")
        assert shown(found, "common rafter, line length") == {"common rafter, line length": line}


def test_diagonals_that_differ_refuse_a_hip() -> None:
    """A plan whose diagonals are an inch apart has no square corners."""
    read = [m("main roof", "diagonal", "500"), m("main roof", "diagonal", "501")]
    found = answers(book(MAIN, read, settings=HIP), "main roof")
    assert (
        'the diagonals of main roof (memo 2) differ by 1": hips are worked out on square corners only. Draw it full size.'
        in disagree(found)
    )


def test_a_gable_roof_is_a_roof() -> None:
    """By its name it has rafters, not a triangle to board."""
    found = answers(book([m("gable roof", "run", "96"), slope("gable roof", 8)]), "gable roof")
    assert found.value("common rafter, line length") is not None
    assert found.value("gable area") is None
    assert "gable" not in " ".join(says(found)).replace("gable roof", "")
