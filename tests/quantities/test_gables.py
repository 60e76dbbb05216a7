"""Gables and slopes: worked examples of the trade notes (demo), areas confirmed by a geometry library, and refusals."""

from __future__ import annotations

from fractions import Fraction
from math import atan, degrees

import pytest
from books import book, disagree, m, says, shown, slope
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from journal.quantities.base import answers
from journal.quantities.layout import Hole, Profile, Start, courses_up, horizontal, vertical

LAKE = [m("lake gable", "base width", "192"), slope("lake gable", 8)]
WINDOW = [
    m("lake gable", "rough opening width", "24 1/2", "window"),
    m("lake gable", "rough opening height", "30", "window"),
]


def test_the_gable_of_the_demo() -> None:
    """192 at 8/12 rises 64 and has 42.7 ft², 37.6 net of a 24 1/2 x 30 window."""
    found = answers(book(LAKE, WINDOW), "lake gable")
    assert shown(found, "gable rise", "gable area", "net gable area", "rake board", "roof angle") == {
        "gable rise": '64" from the slope',
        "gable area": "42.7 ft²",
        "net gable area": "37.6 ft² (42.7 less window 5.1)",
        "rake board": '115 3/8" no overhang said',
        "roof angle": "33.7° plumb cut from square; seat cut 56.3°",
    }


@pytest.mark.parametrize(
    ("said", "rise"),
    [
        ([m("lake gable", "rake", "115 3/8")], '64" from the rake'),
        (
            [m("lake gable", "ridge height", "162"), m("lake gable", "plate height", "98")],
            '64" from ridge height less plate height',
        ),
        ([m("lake gable", "rise", "64")], '64" from the rise'),
        (
            [m("lake gable", "ridge height", "162"), m("lake wall", "height", "98")],
            '64" from ridge height less plate height',
        ),
    ],
)
def test_the_peak_three_ways(said: list, rise: str) -> None:
    """Without a slope the rise comes from the rake, from ridge and plate height (the wall's too), or as measured."""
    found = answers(book(m("lake gable", "base width", "192"), said), "lake gable")
    assert shown(found, "gable rise") == {"gable rise": rise}


def test_a_gable_with_heel() -> None:
    """Ends of 12 in. add base times heel: 42.7 and 16.0 ft²."""
    found = answers(book(LAKE, m("lake gable", "height", "12", "heel")), "lake gable")
    assert shown(found, "gable area", "gable rise") == {"gable rise": '64" from the slope', "gable area": "58.7 ft²"}


@pytest.mark.parametrize(
    ("said", "say"),
    [
        (
            [m("lake gable", "base width", "192")],
            'lake gable area needs the slope or the peak height. Say: "the lake gable is … twelve" or '
            '"lake gable ridge height …"',
        ),
        ([slope("lake gable", 8)], 'lake gable needs the base width of lake gable. Say: "lake gable base width …"'),
    ],
)
def test_what_a_gable_lacks_is_named(said: list, say: str) -> None:
    """No guess: the quantity, the fact, and what to say."""
    assert says(answers(book(said), "lake gable")) == [say]


def test_the_odd_one_of_three_rises_is_named() -> None:
    """Slope and rake agree on 64, ridge and plate height say 60: the heights are the odd one."""
    heights = [m("lake gable", "ridge height", "158"), m("lake gable", "plate height", "98")]
    found = answers(book(LAKE, m("lake gable", "rake", "115 3/8"), heights), "lake gable")
    assert disagree(found) == [
        'the rise of lake gable comes out differently: 64" by the slope (memo 1), 60" by ridge height less plate height '
        '(memo 3), 64" by the rake (memo 2). Ridge height less plate height is the odd one; measure it again.'
    ]


def test_a_rake_read_to_the_end_of_the_overhang_agrees() -> None:
    """A rake of 129 3/4 over a 12 in. overhang is the same roof, not a contradiction."""
    found = answers(book(LAKE, m("lake gable", "overhang", "12"), m("lake gable", "rake", "129 13/16")), "lake gable")
    assert disagree(found) == []


def test_two_slopes_put_the_peak_off_the_middle() -> None:
    """12/12 on the left and 6/12 on the right of 18 ft: the peak stands 6 ft from the left, 6 ft up."""
    sides = [slope("shop gable", 12, about="left side"), slope("shop gable", 6, about="right side")]
    found = answers(book(m("shop gable", "base width", "216"), sides), "shop gable")
    assert shown(found, "gable rise", "gable area") == {
        "gable rise": '72" from the two slopes',
        "gable area": "54.0 ft²",
    }
    unnamed = [slope("shop gable", 12, about="old part"), slope("shop gable", 6, about="new part")]
    assert disagree(answers(book(m("shop gable", "base width", "216"), unnamed), "shop gable")) == [
        "shop gable has the slopes 12/12 (old part) and 6/12 (new part) (memo 2): say which is the left side and which "
        "the right."
    ]


def test_a_slope_from_two_measures_is_kept_as_the_ratio() -> None:
    """63 3/8 in 95 1/2 is 7.963/12, 33.57 degrees; calling it 8/12 misses 9/32 at the end of the run."""
    found = answers(book([m("cabin roof", "rise", "63 3/8"), m("cabin roof", "run", "95 1/2")]), "cabin roof")
    ratio = found.value("slope from rise and run")
    assert ratio is not None
    assert ratio.shown == '7.963/12 = 33.6°, nearest 8/12 misses by 9/32" at the end of the run'
    assert ratio.exact == Fraction(12 * 507, 764)
    assert degrees(atan(ratio.exact / 12)) == pytest.approx(33.57, abs=0.005)


def test_a_said_slope_is_checked_against_rise_and_run() -> None:
    """An 8/12 whose rise is 60 in a run of 96 is 4 in. off at the end of the run."""
    said = [slope("cabin roof", 8), m("cabin roof", "rise", "60"), m("cabin roof", "run", "96")]
    assert disagree(answers(book(said), "cabin roof")) == [
        'cabin roof slope 8/12 (memo 1) and its rise 60" in run 96" (memo 1) differ by 4" at the end of the run.'
    ]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (
            [m("lake gable", "base width", "192"), slope("lake gable", 0)],
            "the slope of lake gable is 0/12 (memo 1): that is no roof. Say it again.",
        ),
        (
            [m("lake gable", "base width", "192"), slope("lake gable", -8)],
            "the slope of lake gable is -8/12 (memo 1): that is no roof. Say it again.",
        ),
        (
            [m("lake gable", "base width", "192"), slope("lake gable", 8, 0)],
            "the slope of lake gable is 8/0 (memo 1): that is no roof. Say it again.",
        ),
        (
            [m("lake gable", "base width", "192"), slope("lake gable", 812)],
            "the slope of lake gable is 812/12 (memo 1): that is no roof. Say it again.",
        ),
        (
            [m("lake gable", "base width", "0"), slope("lake gable", 8)],
            'lake gable base width is 0" (memo 1): that is no size. Say it again.',
        ),
        (
            [
                m("lake gable", "base width", "192"),
                m("lake gable", "ridge height", "90"),
                m("lake gable", "plate height", "98"),
            ],
            'the peak of lake gable comes out at -8" by ridge height less plate height (memo 1): no gable.',
        ),
        (
            [*LAKE, WINDOW[0], m("lake gable", "rough opening height", "80", "window")],
            'lake gable window 24 1/2" x 80" (memo 1) does not fit in the gable. Say it again.',
        ),
        (
            [
                *LAKE,
                *WINDOW,
                m("lake gable", "height", "14", "window sill"),
                m("lake gable", "centre", "40", "corner to window"),
            ],
            'lake gable window 24 1/2" x 30" (memo 1) as placed runs out of the gable. Say its centre or its sill again.',
        ),
    ],
)
def test_what_makes_no_gable_names_its_memo(said: list, told: str) -> None:
    """Slopes of nothing or less, a ridge under its plate, an opening that runs out: a sentence, no number."""
    assert told in disagree(answers(book(said), "lake gable"))


def test_gable_studs_differ_by_spacing_times_slope() -> None:
    """16 on centre at 8/12 is 10 11/16 (10.667) from stud to stud."""
    found = answers(book(LAKE, m("lake gable", "spacing", "16", "studs")), "lake gable")
    assert shown(found, "gable studs differ by") == {"gable studs differ by": '10 11/16"'}


# ---- confirmed by shapely, a geometry library ----------------------------------------------------------------------


@st.composite
def gables(draw: st.DrawFn) -> tuple[Profile, list[Hole]]:
    """A gable of 5 to 40 ft, often off the middle and with a heel, and up to two openings inside it."""
    base = Fraction(draw(st.integers(60 * 16, 480 * 16)), 16)
    rise = Fraction(draw(st.integers(12 * 16, 240 * 16)), 16)
    peak = base * draw(st.sampled_from([Fraction(1, 2), Fraction(1, 2), Fraction(2, 5), Fraction(3, 4)]))
    heel = Fraction(draw(st.sampled_from([0, 0, 12, 37])))
    gable = Profile(base, rise, peak, heel)
    holes: list[Hole] = []
    for _ in range(draw(st.integers(0, 2))):
        left = base * draw(st.integers(1, 90)) / 100
        bottom = gable.top * draw(st.integers(0, 60)) / 100
        hole = Hole(left, left + draw(st.integers(6, 60)), bottom, bottom + draw(st.integers(6, 50)))
        apart = all(
            h.right < hole.left or h.left > hole.right or h.top < hole.bottom or h.bottom > hole.top for h in holes
        )
        if hole.fits(gable) and apart:
            holes.append(hole)
    return gable, holes


def outline(gable: Profile) -> Polygon:
    corners = [(0, 0), (gable.base, 0), (gable.base, gable.heel), (gable.peak, gable.top), (0, gable.heel)]
    return Polygon([(float(x), float(y)) for x, y in corners])


def opening(hole: Hole) -> Polygon:
    return box(*(float(v) for v in (hole.left, hole.bottom, hole.right, hole.top)))


@settings(deadline=None)
@given(gables())
def test_areas_of_random_gables_with_openings(drawn: tuple[Profile, list[Hole]]) -> None:
    """Area less openings is what shapely finds for the outline with the holes taken out."""
    gable, holes = drawn
    net = gable.area - sum(((h.right - h.left) * (h.top - h.bottom) for h in holes), Fraction(0))
    assert float(net) == pytest.approx(outline(gable).difference(unary_union([opening(h) for h in holes])).area)


@settings(deadline=None)
@given(gables(), st.integers(3 * 16, 48 * 16), st.sampled_from(["centred", "seam", "left", "right"]), st.booleans())
def test_boards_laid_out_cover_what_a_geometry_library_cuts(
    drawn: tuple[Profile, list[Hole]], face: int, start: Start, spliced: bool
) -> None:
    """The pieces together have the area that shapely finds by cutting strips out of the gable; without gap, the net area."""
    gable, holes = drawn
    width = Fraction(face, 16)
    limit = Fraction(96) if spliced else None
    whole = outline(gable).difference(unary_union([opening(h) for h in holes]))
    pieces = vertical(gable, width, start=start, holes=holes, limit=limit)
    assert float(sum((piece.area for piece in pieces), Fraction(0))) == pytest.approx(whole.area)
    for board in {(p.left, p.right) for p in vertical(gable, width, start=start, holes=holes)}:
        strip = box(float(board[0]), -1, float(board[1]), float(gable.top) + 1)
        mine = sum((p.area for p in pieces if p.left >= board[0] and p.right <= board[1]), Fraction(0))
        assert float(mine) == pytest.approx(whole.intersection(strip).area, abs=1e-6)
    if limit is not None:
        assert all(piece.long_point <= limit for piece in pieces)


@settings(deadline=None)
@given(gables(), st.integers(3 * 16, 24 * 16))
def test_courses_cover_what_a_geometry_library_cuts(drawn: tuple[Profile, list[Hole]], exposure: int) -> None:
    """Level courses over an outline without a break inside a course have the area of the gable less its openings."""
    gable, holes = drawn
    gable = Profile(gable.base, gable.rise, gable.peak)  # a heel breaks the line inside a course
    holes = [hole for hole in holes if hole.fits(gable)]
    whole = outline(gable).difference(unary_union([opening(h) for h in holes]))
    courses = horizontal(gable, Fraction(exposure, 16), holes=holes)
    area = sum(
        (
            (c.lower + c.upper) / 2 * (c.top - c.bottom)
            - sum((n.width * (n.stop - n.start) for n in c.notches), Fraction(0))
            for c in courses
        ),
        Fraction(0),
    )
    assert float(area) == pytest.approx(whole.area)
    assert max(c.number for c in courses) == courses_up(gable.top, Fraction(exposure, 16))


def test_other_words_for_the_same_dimensions() -> None:
    """A gable's width or span is its base, and the slope of "shop gable roof" is that of the gable; a wall's width its length."""
    said = [m("shop gable", "width", "192"), slope("shop gable roof", 8)]
    assert shown(answers(book(said), "shop gable"), "gable area") == {"gable area": "42.7 ft²"}
    wall = [m("shop wall", "width", "240"), m("shop wall", "plate height", "98")]
    area = answers(book(wall), "shop wall").value("net wall area")
    assert area is not None
    assert (area.shown, area.assumed) == ("163.3 ft²", ("height is the plate height",))
