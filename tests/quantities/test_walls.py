"""Walls, openings, square, plumb: worked examples of the trade notes (demo), and what is said when facts do not do."""

from __future__ import annotations

import pytest
from books import book, disagree, m, says, setting, shown, slope

from journal.quantities.base import answers, to_json
from journal.records import Doubt, Span

WALL = [m("wall A", "length", "240"), m("wall A", "height", "98")]
DOOR = [m("wall A", "rough opening width", "38 1/4", "door"), m("wall A", "rough opening height", "82 1/2", "door")]
WINDOW = [
    m("wall A", "rough opening width", "30 1/2", "window"),
    m("wall A", "rough opening height", "42 1/4", "window"),
]
HIGHER = m("wall A", "rough opening height", "42 1/2", "window")


def test_net_wall_area_of_the_demo() -> None:
    """240 x 98 less a door and a window is 132.4 ft² (163.3 - 21.9 - 9.0), with the newer height used and the older shown."""
    found = answers(book(WALL, DOOR, WINDOW, HIGHER), "wall A")
    area = found.value("net wall area")
    assert area is not None
    assert (area.shown, area.value, area.unit) == ("132.4 ft² (163.3 less door 21.9, window 9.0)", 132.4, "ft2")
    assert area.memos == (1, 2, 3, 4)
    assert area.was == ('was 42 1/4", Mon 13 Jul',)
    before = answers(book(WALL, DOOR, WINDOW), "wall A").value("net wall area")
    assert before is not None
    assert before.value == 132.5
    assert (found.missing, found.disagree) == ((), ())


def test_an_opening_shows_what_it_was() -> None:
    """The newest figure of an opening, with the one before and its day: 30 1/2 x 42 1/2 (was 42 1/4, Mon 13 Jul)."""
    found = answers(book(WALL, DOOR, WINDOW, m("wall A", "height", "32", "window sill"), HIGHER), "wall A")
    assert shown(found, "rough opening") == {
        "rough opening [door]": "38 1/4 x 82 1/2",
        "rough opening [window]": "30 1/2 x 42 1/2 (was 42 1/4, Mon 13 Jul), sill 32 up",
    }
    metric = [
        m("hill wall", "rough opening width", "1000 mm", "window"),
        m("hill wall", "rough opening height", "1200 mm", "window"),
    ]
    assert shown(answers(book(metric), "hill wall"), "rough opening") == {"rough opening [window]": "1000 x 1200 mm"}


def test_metric_openings_are_deducted_exactly() -> None:
    """A wall of 7.2 m by 2.5 m less 1000 x 1200 mm is 16.8 m², 180.8 ft²."""
    wall = [m("hill wall", "length", "7.2 m"), m("hill wall", "height", "2.5 m")]
    window = [
        m("hill wall", "rough opening width", "1000 mm", "window"),
        m("hill wall", "rough opening height", "1200 mm", "window"),
    ]
    area = answers(book(wall, window), "hill wall").value("net wall area")
    assert area is not None
    assert area.exact is not None
    assert float(area.exact) == pytest.approx(16.8 / 0.3048**2)
    assert area.value == 180.8


@pytest.mark.parametrize(
    ("said", "say"),
    [
        ([m("wall A", "length", "240")], ['wall A area needs the height. Say: "wall A height …"']),
        ([m("wall A", "height", "98")], ['wall A area needs the length. Say: "wall A length …"']),
        (
            [*WALL, DOOR[0]],
            ['wall A area needs the height of the door. Say: "wall A door rough opening height …"'],
        ),
    ],
)
def test_what_a_wall_lacks_is_named(said: list, say: list[str]) -> None:
    """The quantity, the fact and a sentence to say stand in one line."""
    assert says(answers(book(said), "wall A")) == say


def test_an_opening_without_height_leaves_the_gross_area_marked() -> None:
    """Half an opening is not deducted: the gross is shown and marked."""
    area = answers(book([*WALL, DOOR[0]]), "wall A").value("net wall area")
    assert area is not None
    assert (area.shown, area.mark) == ("163.3 ft² ~", "~")


def test_a_window_that_could_be_either_is_asked_for() -> None:
    """With two windows, a figure for "window" belongs to neither: not deducted, marked, asked."""
    left = [
        m("wall A", "rough opening width", "30", "left window"),
        m("wall A", "rough opening height", "40", "left window"),
    ]
    right = [
        m("wall A", "rough opening width", "36", "right window"),
        m("wall A", "rough opening height", "40", "right window"),
    ]
    found = answers(book(WALL, left, right, m("wall A", "rough opening height", "42", "window")), "wall A")
    area = found.value("net wall area")
    assert area is not None
    assert area.shown == "145.0 ft² ~ (163.3 less left window 8.3, right window 10.0)"
    assert disagree(found) == [
        'which window of wall A is memo 4 about: the left window or the right window? (rough opening height 42"). '
        "Say its name with the figure."
    ]


def test_an_unnamed_opening_is_the_only_one_there() -> None:
    """A rough opening said without a name goes to the one opening of the wall, and is asked for where there are two."""
    unnamed = m("wall A", "rough opening height", "42 1/2")
    one = answers(book(WALL, WINDOW, unnamed), "wall A").value("net wall area")
    assert one is not None
    assert one.value == 154.3
    two = answers(book(WALL, WINDOW, DOOR, unnamed), "wall A")
    assert disagree(two) == [
        'which opening of wall A is memo 4 about: the door or the window? (rough opening height 42 1/2"). '
        "Say its name with the figure."
    ]


def test_two_windows_in_one_breath_are_not_two_readings_of_one() -> None:
    """Widths far apart under one name are two openings: neither is deducted."""
    pair = [m("wall A", "rough opening width", "30", "window"), m("wall A", "rough opening width", "36", "window")]
    heights = [m("wall A", "rough opening height", "40", "window")]
    found = answers(book(WALL, pair + heights), "wall A")
    assert disagree(found) == ['which window of wall A? memo 2 gives 30" and 36". Say a name with each.']
    area = found.value("net wall area")
    assert area is not None
    assert area.shown == "163.3 ft² ~"


def test_the_smallest_of_three_readings_orders_the_window() -> None:
    """The unit is the smallest opening less the clearance on both sides: 30 3/8 gives 29 7/8."""
    widths = [m("wall A", "rough opening width", size, "window") for size in ("30 1/2", "30 3/8", "30 7/16")]
    found = answers(book(WALL, [*widths, HIGHER]), "wall A")
    assert shown(found, "to order, width", "smallest opening width") == {
        "to order, width [window]": '29 7/8"',
        "smallest opening width [window]": '30 3/8" of 30 1/2", 30 3/8", 30 7/16"',
    }


def test_readings_at_three_spots_are_one_window() -> None:
    """Top, middle and bottom widths said by name are readings of one opening: the smallest counts."""
    spots = [m("wall A", "rough opening width", s, f"window {w}") for s, w in (("30 1/2", "top"), ("30 1/4", "bottom"))]
    area = answers(book(WALL, [*spots, HIGHER]), "wall A").value("net wall area")
    assert area is not None
    assert area.exact is not None
    assert area.exact * 144 == 240 * 98 - 30.25 * 42.5


def test_the_clearance_is_an_input() -> None:
    """A maker's clearance set for the job changes the unit and is shown beside it."""
    found = answers(book(WALL, WINDOW, settings=(setting("window clearance", "3/8"),)), "wall A")
    unit = found.value("to order, width")
    assert unit is not None
    assert (unit.shown, unit.assumed) == ('29 3/4"', ('window clearance 3/8" (set for the job)',))


def test_small_openings_may_be_left_in() -> None:
    """With the switch at 10 ft² the window of 9.0 stays in and the door comes out."""
    found = answers(book(WALL, DOOR, WINDOW, settings=(setting("leave in openings under", "10", "wall A"),)), "wall A")
    area = found.value("net wall area")
    assert area is not None
    assert (area.shown, area.assumed) == (
        "141.4 ft² (163.3 less door 21.9)",
        ("leave in openings under 10 ft² (set for wall A)",),
    )


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (
            [
                *WALL,
                m("wall A", "rough opening width", "250", "window"),
                m("wall A", "rough opening height", "40", "window"),
            ],
            "wall A window width 250\" (memo 1) is more than the wall's 20' 0\" (memo 1). Say it again.",
        ),
        (
            [*WALL, *WINDOW, m("wall A", "height", "70", "window sill")],
            'wall A window goes up to 112 1/4" (sill and height, memo 1), more than the wall\'s 98". '
            "Say its sill or its height again.",
        ),
        (
            [m("wall A", "length", "0"), m("wall A", "height", "98")],
            'wall A length is 0" (memo 1): that is no size. Say it again.',
        ),
        (
            [m("wall A", "length", "7.2 m"), m("wall A", "height", "98")],
            'wall A was measured on two tapes: height 98" (memo 1), length 7200 mm (memo 1). Both are used exactly; '
            "check that neither was read off the other side.",
        ),
    ],
)
def test_what_makes_no_sense_names_its_memo(said: list, told: str) -> None:
    """An opening larger than its wall, a length of nothing, two tapes: a sentence, never a silent number."""
    assert disagree(answers(book(said), "wall A")) == [told]


def test_square_by_diagonals_of_the_demo() -> None:
    """240 x 98 asks for 259 1/4; 259 1/4 and 259 5/8 are racked 3/16, and together miss the sides: recheck them."""
    read = [m("wall A", "diagonal", "259 1/4"), m("wall A", "diagonal", "259 5/8")]
    found = answers(book(WALL, read), "wall A")
    assert shown(found, "diagonal when square", "slide to square") == {
        "diagonal when square": '259 1/4"',
        "slide to square": '3/16" along the length: the diagonals read 259 1/4" and 259 5/8"',
    }
    assert disagree(found) == [
        'wall A diagonals 259 1/4" and 259 5/8" (memo 2) do not fit the sides: together 259 7/16" against 259 1/4". '
        'Recheck the sides: the length would be 240 3/16" instead of 20\' 0" (memo 1), or the height would be 98 1/2" '
        'instead of 98" (memo 1).'
    ]


def test_one_diagonal_gives_the_corner_and_asks_for_the_other() -> None:
    """A single diagonal of a 12 by 16 ft floor long by 1/4 in. opens the corner by 0.12 degrees."""
    said = [m("loft floor", "length", "192"), m("loft floor", "width", "144"), m("loft floor", "diagonal", "240 1/4")]
    found = answers(book(said), "loft floor")
    assert shown(found, "corner") == {"corner": '90.12° by the one diagonal 240 1/4", 0.12° off square'}
    assert says(found) == ['loft floor square check needs the other diagonal. Say: "loft floor other diagonal …"']


def test_a_place_said_as_two_sides() -> None:
    """A floor of "ten foot by eight foot" has both sides for its diagonals, a wall its length and height."""
    size = [m("sauna floor", "size", "120"), m("sauna floor", "size", "96")]
    read = [m("sauna floor", "diagonal", "153 5/8"), m("sauna floor", "diagonal", "153 3/4")]
    assert shown(answers(book(size, read), "sauna floor"), "diagonal when square") == {
        "diagonal when square": '153 11/16"'
    }
    wall = answers(book([m("mill wall", "size", "264"), m("mill wall", "size", "96")]), "mill wall")
    assert shown(wall, "net wall area") == {"net wall area": "176.0 ft²"}
    low = [m("mill wall", "size", "264"), m("mill wall", "size", "96"), m("mill wall", "diagonal", "200")]
    assert disagree(answers(book(low), "mill wall")) == [
        'mill wall diagonal 200" (memo 1) is 80 15/16" off what length 22\' 0" (memo 1) and height 96" (memo 1) ask for. '
        "One was misread."
    ]


def test_a_diagonal_far_off_was_misread() -> None:
    """A floor of 12 by 16 ft whose diagonal was read as 22 ft is told with the three memos."""
    floor = book(m("loft floor", "length", "192"), m("loft floor", "width", "144"), m("loft floor", "diagonal", "264"))
    assert disagree(answers(floor, "loft floor")) == [
        'loft floor diagonal 264" (memo 3) is 24" off what length 16\' 0" (memo 1) and width 12\' 0" (memo 2) ask for. '
        "One was misread."
    ]


def test_plumb_of_the_demo() -> None:
    """A strong 3/8 in 8 ft is 3/64 a foot, marked +; without the length it was read over it is asked for."""
    out = m("lake wall", "out of plumb", "3/8", shade="strong", over_ticks=8 * 12 * 8128)
    assert shown(answers(book(out), "lake wall")) == {"out of plumb per foot": '3/64" + per foot (3/8" in 96")'}
    bare = m("lake wall", "out of level", "3/8", "sill")
    assert says(answers(book(bare), "lake wall")) == [
        'lake wall sill out of level 3/8" (memo 1): over what length? Say: "… in eight foot"'
    ]


def test_wall_and_gable_are_checked_against_each_other() -> None:
    """A wall of 203 under a gable of 191 1/2 is told on both, with both memos; 192 against 192 is not."""
    told = [
        'lake wall length 203" (memo 1) and lake gable base width 191 1/2" (memo 2) should be alike: 11 1/2" apart. '
        "Measure the one again that is off."
    ]
    wrong = book(m("lake wall", "length", "203"), m("lake gable", "base width", "191 1/2"))
    assert disagree(answers(wrong, "lake wall")) == disagree(answers(wrong, "lake gable")) == told
    right = book(m("lake wall", "length", "192"), m("lake gable", "base width", "192"))
    assert disagree(answers(right, "lake wall")) == []


def test_an_old_sash_against_its_opening() -> None:
    """A sash of 610 mm leaves 0.48 in. of a 24 1/2 opening; one that is larger is told."""
    window = [
        m("lake gable", "rough opening width", "24 1/2", "window"),
        m("lake gable", "rough opening height", "30", "window"),
    ]
    found = answers(book(window, m("lake gable", "width", "610 mm", "old sash")), "lake gable")
    assert shown(found, "clearance, width") == {"clearance, width [old sash]": '15/32" in all (0.48 in.), 1/4" a side'}
    swapped = answers(book(window, m("lake gable", "width", "30", "sash")), "lake gable")
    assert disagree(swapped) == [
        'lake gable: the sash is 30" in width (memo 2), more than the rough opening\'s 24 1/2" (memo 1). '
        "Were width and height swapped?"
    ]


def test_a_doubtful_figure_stays_doubtful_until_confirmed() -> None:
    """What rests on a doubtful fact says so and why."""
    doubt = Doubt("range", "24 ft is a long wall", Span(0, 5))
    area = answers(book(m("wall A", "length", "240", doubts=(doubt,)), m("wall A", "height", "98")), "wall A").value(
        "net wall area"
    )
    assert area is not None
    assert (area.shown, area.doubts) == ("163.3 ft² (doubtful)", ("24 ft is a long wall",))


def test_marks_of_every_figure_used_are_gathered() -> None:
    """Hedged, strong and shy figures mark the result and add nothing to it."""
    wall = [m("wall A", "length", "240", approx=True), m("wall A", "height", "98", shade="shy")]
    area = answers(book(wall), "wall A").value("net wall area")
    assert area is not None
    assert (area.shown, area.value) == ("163.3 ft² ~-", 163.3)


def test_a_place_without_relevant_facts_is_silent() -> None:
    """Nothing is missing of a place that only has a slope of its own, and nothing is said of an unknown one."""
    silent = answers(book(m("loft", "spacing", "16", "joists")), "loft")
    assert (silent.quantities, silent.missing, silent.disagree) == ((), (), ())
    nothing = answers(book(slope("ramp", 1, 10)), "kitchen")
    assert (nothing.quantities, nothing.missing, nothing.disagree) == ((), (), ())


def test_json_of_a_value() -> None:
    """Lengths are text in inches with ticks, other values numbers with a unit."""
    found = answers(book(WALL, DOOR), "wall A")
    area, unit = found.value("net wall area"), answers(book(WALL, WINDOW), "wall A").value("to order, width")
    assert area is not None
    assert unit is not None
    assert to_json(area) == {
        "name": "net wall area", "place": "wall A", "about": None, "value": 141.4, "unit": "ft2",
        "shown": "141.4 ft² (163.3 less door 21.9)", "memos": [1, 2], "assumed": [], "caution": "", "mark": "",
        "doubts": [], "was": [],
    }  # fmt: skip
    assert to_json(unit) | {"caution": ""} == {
        "name": "to order, width", "place": "wall A", "about": "window", "value": "30", "unit": "in",
        "shown": '30"', "memos": [2],
        "assumed": ['window clearance 1/4" (a side; 1/2 in. in all is usual, as read at lyndaleglass.com; '
                    "the maker's sheet governs)"],
        "caution": "", "mark": "", "doubts": [], "was": [], "ticks": 30 * 8128,
    }  # fmt: skip
