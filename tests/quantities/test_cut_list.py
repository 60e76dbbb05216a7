"""The cut list of a gable: the two worked layouts of the trade notes, what was cut or measured, and what it lacks."""

from __future__ import annotations

from fractions import Fraction

import pytest
from books import book, disagree, m, says, setting, shown, slope

from journal.lengths import format_inches
from journal.quantities.base import answers, show_length
from journal.quantities.cuts import CutList, cut_list, to_json
from journal.quantities.layout import Profile, courses_up, horizontal, vertical
from journal.records import Aside, Stock, Task

LAKE = [m("lake gable", "base width", "192"), slope("lake gable", 8)]
WINDOW = [
    m("lake gable", "rough opening width", "24 1/2", "window"),
    m("lake gable", "rough opening height", "30", "window"),
]
PLACED = [m("lake gable", "offset", "14", "plate to window sill"), m("lake gable", "centre", "96", "corner to window")]
PINE = m(None, "width", "6 7/8", "1x8 pine")
MEASURED = [
    m("lake gable", "long point", "52 9/16", "board 3 left"),
    m("lake gable", "short point", "47 15/16", "board 3 left"),
]


def points(listed: CutList) -> dict[str, str]:
    """Each piece as "long > short", with its notch and its rip."""
    rows = {}
    for piece in listed.pieces:
        row = to_json(piece)
        text = f"{row['long_point']} > {row['short_point']}"
        if row["notch"]:
            text += f", notch {row['notch']}"
        if piece.ripped:
            text += f", ripped to {row['width']}"
        rows[piece.label] = text
    return rows


def test_the_cut_list_of_the_demo() -> None:
    """Base 192, 8/12, 6 7/8 face, a board on the centre, window 24 1/2 x 30 with its sill 14 up: 32 pieces."""
    listed = cut_list(book(LAKE, WINDOW, PLACED, PINE), "lake gable")
    found = points(listed)
    assert len(listed.pieces) == 32
    left = {
        "centre below": "14 > 14", "centre above": "20 > 17 11/16",
        "L1 below": "14 > 14", "L1 above": "17 11/16 > 13 1/8",
        "L2": "57 1/8 > 52 9/16, notch 1 15/16 x 30 from 14", "L3": "52 9/16 > 47 15/16", "L4": "47 15/16 > 43 3/8",
        "L5": "43 3/8 > 38 13/16", "L6": "38 13/16 > 34 3/16", "L7": "34 3/16 > 29 5/8", "L8": "29 5/8 > 25 1/16",
        "L9": "25 1/16 > 20 7/16", "L10": "20 7/16 > 15 7/8", "L11": "15 7/8 > 11 5/16", "L12": "11 5/16 > 6 11/16",
        "L13": "6 11/16 > 2 1/8", "L14": "2 1/8 > 0, ripped to 3 3/16",
    }  # fmt: skip
    right = {name.replace("L", "R"): row for name, row in left.items() if name.startswith("L")}
    assert found == left | right
    assert format_inches(sum(piece.pack_ticks for piece in listed.pieces)) == "868 1/4"
    assert listed.assumed == (
        'board gap 0" (boards touch until a gap is said)',
        'boards are the 1x8 pine, 6 7/8" (memo 4)',
        'trim gap 0" (boards go to the rough opening until a gap for trim or flashing is said)',
        "board start centred (a board on the centre line until another start is said)",
        "seen from outside (left and right are as seen from outside until set for the job)",
    )


def test_the_first_base_of_the_demo_was_short() -> None:
    """With 191 1/2 the long point of board 2 was 56 15/16, 3/16 short of 57 1/8."""
    first = cut_list(book([m("lake gable", "base width", "191 1/2"), LAKE[1]], PINE), "lake gable")
    assert points(first)["L2"].split(" > ")[0] == "56 15/16"


def test_sheets_at_an_odd_pitch() -> None:
    """Half-base 168, rise 121, foam 24 wide, seam on centre, gap 1/8, 96 in. sheets: spliced, ripped, mirrored."""
    odd = [
        m("foam gable", "base width", "336"),
        m("foam gable", "rise", "121"),
        m("foam gable", "width", "24", "foam sheet"),
    ]
    settings = tuple(
        setting(name, value, "foam gable")
        for name, value in (("board start", "seam"), ("board gap", "1/8"), ("sheet limit", "96"))
    )
    found = points(cut_list(book(odd, settings=settings), "foam gable"))
    left = {
        "L1 lower": "96 > 96", "L1 upper": "24 15/16 > 7 11/16",
        "L2 lower": "91 9/16 > 86 5/16", "L2 upper": "12 > 0, ripped to 16 11/16",
        "L3": "86 3/16 > 68 15/16", "L4": "68 13/16 > 51 9/16", "L5": "51 7/16 > 34 3/16", "L6": "34 1/16 > 16 13/16",
        "L7": "16 11/16 > 0, ripped to 23 3/16",
    }  # fmt: skip
    assert found == left | {name.replace("L", "R"): row for name, row in left.items()}


def test_the_size_of_a_sheet_is_its_face_and_its_limit() -> None:
    """Sheets said as 24 by 96 are laid 24 wide and spliced at 96."""
    odd = [m("foam gable", "base width", "336"), m("foam gable", "rise", "121")]
    size = [m("foam gable", "size", "24", "foam sheet"), m("foam gable", "size", "96", "foam sheet")]
    listed = cut_list(book(odd, size, settings=(setting("board start", "seam"),)), "foam gable")
    assert (listed.face, max(piece.long_point for piece in listed.pieces)) == (24, 96 * 8128)


def test_what_was_set_for_the_place_goes_before_what_was_said() -> None:
    """A face width set for the gable itself is taken over one said in a memo; one set for the job is not."""
    said = m("lake gable", "width", "7", "board")
    own = cut_list(book(LAKE, said, settings=(setting("face width", "6 3/4", "lake gable"),)), "lake gable")
    job = cut_list(book(LAKE, said, settings=(setting("face width", "6 3/4"),)), "lake gable")
    assert (own.face, job.face) == (Fraction("6.75"), 7)


def test_equal_splices_of_neighbours_are_staggered() -> None:
    """Two neighbours that would be spliced at one height are set off by the stagger."""
    tall = Profile(Fraction(200), Fraction(40), Fraction(100), heel=Fraction(120))
    lower = [
        p.long_point
        for p in vertical(tall, Fraction(24), start="seam", limit=Fraction(96))
        if p.side == "L" and "lower" in p.part
    ]
    assert lower == [96, 84, 96, 84, 96]


def test_fourteen_steps_are_never_stepped_from_a_rounded_length() -> None:
    """14 exact steps of 6 7/8 at 8/12 are 64 1/6 less; stepping by the rounded 4 9/16 would lose 5/16."""
    pieces = vertical(Profile(Fraction(192), Fraction(64), Fraction(96)), Fraction("6.875"))
    lengths = [p.long_point for p in pieces if p.side == "L"]
    assert lengths[0] - lengths[13] == 13 * Fraction("6.875") * Fraction(2, 3)
    assert show_length(14 * Fraction("6.875") * Fraction(2, 3) - 14 * Fraction("4.5625")) == '5/16"'


@pytest.mark.parametrize(
    ("start", "first", "count"),
    [("left", ("L1", "2 1/16 > 0"), 28), ("right", ("R1", "4 9/16 > 0"), 28), ("seam", ("L1", "64 > 59 7/16"), 28)],
)
def test_other_starts(start: str, first: tuple[str, str], count: int) -> None:
    """From either end and from a seam; said aloud, it is kept for the place."""
    said = Aside(topic="board start", text=start, place="lake gable")
    listed = cut_list(book(LAKE, PINE, said), "lake gable")
    assert len(listed.pieces) == count
    assert listed.assumed[-2] == f"board start {start} (memo 3)"
    if start != "left":
        assert points(listed)[first[0]] == first[1]
    else:
        assert points(listed)["L1"] == "4 9/16 > 0"


def test_a_piece_below_a_trim_gap_is_shorter() -> None:
    """A gap of 1/2 for flashing takes 1/2 off below and above, and widens the notch."""
    listed = cut_list(book(LAKE, WINDOW, PLACED, PINE, settings=(setting("trim gap", "1/2"),)), "lake gable")
    rows = points(listed)
    assert rows["centre below"] == "13 1/2 > 13 1/2"
    assert rows["centre above"] == "19 1/2 > 17 3/16"
    assert rows["L2"] == "57 1/8 > 52 9/16, notch 2 7/16 x 31 from 13 1/2"


def test_a_measured_piece_that_agrees() -> None:
    """Board 3 left, said 52 9/16 > 47 15/16, is measured, keeps its length and disagrees with nothing."""
    listed = cut_list(book(LAKE, WINDOW, PLACED, PINE, MEASURED), "lake gable")
    third = next(piece for piece in listed.pieces if piece.label == "L3")
    assert (third.state, format_inches(third.long_point), third.memos) == ("measured", "52 9/16", (1, 2, 3, 4, 5))
    assert listed.disagree == ()
    assert len(listed.open) == 31
    assert listed.open[0].label == "L2"
    assert shown(answers(book(LAKE, WINDOW, PLACED, PINE, MEASURED), "lake gable"), "pieces to cut") == {
        "pieces to cut": '32 pieces, 1 of them cut or measured; longest 57 1/8"'
    }


def test_a_piece_cut_before_the_base_was_measured_again_is_suspect() -> None:
    """Cut to the first base, the piece is 3/16 short by the new one: told with both memos."""
    first = [m("lake gable", "base width", "191 1/2"), LAKE[1]]
    cut = m("lake gable", "long point", "56 15/16", "board 2 left")
    again = m("lake gable", "base width", "192")
    assert disagree(answers(book(first, PINE, cut, again), "lake gable")) == [
        'lake gable board 2 left long point 56 15/16" (memo 3) is 3/16" short: worked out it is 57 1/8"; '
        "lake gable was measured again after that (memo 4)."
    ]


def test_a_length_that_was_misheard_changes_no_piece() -> None:
    """9/16 for 52 9/16 is told, and the piece stays open at its worked length."""
    listed = cut_list(book(LAKE, PINE, m("lake gable", "long point", "9/16", "board 3 left")), "lake gable")
    third = next(piece for piece in listed.pieces if piece.label == "L3")
    assert (third.state, format_inches(third.long_point)) == ("open", "52 9/16")
    assert [one.shown for one in listed.disagree] == [
        'lake gable board 3 left long point 9/16" (memo 3) is 52" short: worked out it is 52 9/16".'
    ]


def test_a_board_that_could_be_left_or_right_is_asked_for() -> None:
    """The two sides are mirrored, so a bare "board 3" is asked for, and marks neither."""
    listed = cut_list(book(LAKE, PINE, m("lake gable", "long point", "52 9/16", "board 3")), "lake gable")
    assert [one.shown for one in listed.disagree] == [
        'lake gable board 3 (memo 3): on the left or on the right? Say: "board 3 left …"'
    ]
    assert {piece.state for piece in listed.pieces} == {"open"}


def test_cut_pieces_are_taken_off_the_open_ones() -> None:
    """Two cut at 52 9/16 are the two third boards; a done "cut board 4 right" is that one; a length that fits none is told."""
    two = Stock(place="lake gable", event="cut", count=2, what="board", length_ticks=int(Fraction("52.5625") * 8128))
    odd = Stock(place="lake gable", event="cut", count=1, what="board", length_ticks=50 * 8128)
    done = Task(place="lake gable", do="cut board 4 right", status="done")
    listed = cut_list(book(LAKE, PINE, two, done, odd), "lake gable")
    assert [piece.label for piece in listed.pieces if piece.state == "cut"] == ["L3", "R3", "R4"]
    assert [one.shown for one in listed.disagree] == [
        'memo 5: 1 cut at 50", but 0 open pieces of lake gable are that long.'
    ]


@pytest.mark.parametrize(
    ("said", "say"),
    [
        ([*LAKE], 'lake gable cut list needs the face width of its boards. Say: "the lake gable boards cover … wide"'),
        (
            [*LAKE, PINE, *WINDOW, PLACED[0]],
            'lake gable cut list needs the centre of the window. Say: "lake gable window centre … from the corner"',
        ),
        (
            [*LAKE, PINE, *WINDOW, PLACED[1]],
            'lake gable cut list needs the sill of the window. Say: "lake gable from the plate to the window sill …"',
        ),
    ],
)
def test_what_a_cut_list_lacks_is_named(said: list, say: str) -> None:
    """No list is made over a hole that is not placed, nor with a nominal width."""
    found = answers(book(said), "lake gable")
    assert says(found) == [say]
    assert found.value("pieces to cut") is None


def test_which_boards_go_on_is_asked_where_two_are_on_file() -> None:
    """Two face widths: the stock used at the place decides, else it is asked."""
    larch = m(None, "width", "5 1/8", "1x6 larch")
    assert disagree(answers(book(LAKE, PINE, larch), "lake gable")) == [
        'which boards go on lake gable: 1x8 pine 6 7/8" or 1x6 larch 5 1/8"? Say: "the lake gable boards cover … wide"'
    ]
    used = Stock(place="lake gable", event="used", count=4, what="board", species="pine")
    assert cut_list(book(LAKE, PINE, larch, used), "lake gable").face == Fraction("6.875")


def test_boards_wider_than_the_gable_are_refused() -> None:
    """A face as wide as the base is a mishearing: a sentence with both memos."""
    found = answers(
        book([m("low gable", "base width", "60"), slope("low gable", 6)], m(None, "width", "72", "1x8 pine")),
        "low gable",
    )
    assert disagree(found) == ['boards 72" wide (memo 2) do not go on low gable, base width 60".']


def test_horizontal_courses() -> None:
    """Length at height y is base * (1 - y / rise), long point at the lower edge; courses up = ceil((h - first) / e) + 1."""
    courses = horizontal(Profile(Fraction(192), Fraction(64), Fraction(96)), Fraction("6.875"))
    assert len(courses) == courses_up(Fraction(64), Fraction("6.875")) == 10
    assert [(show_length(c.lower), show_length(c.upper)) for c in courses[:2]] == [
        ('192"', '171 3/8"'),
        ('171 3/8"', '150 3/4"'),
    ]
    assert (show_length(courses[-1].lower), courses[-1].upper) == ('6 3/8"', 0)
    run = (setting("boards run", "horizontal", "lake gable"),)
    listed = cut_list(book(LAKE, WINDOW, PLACED, PINE, settings=run), "lake gable")
    rows = points(listed)
    assert rows["1"] == "192 > 171 3/8"
    assert rows["4 left"] == "52 13/16 > 42 1/2"
    assert rows["3"] == "150 3/4 > 130 1/8, notch 24 1/2 x 6 5/8 from 1/4"
