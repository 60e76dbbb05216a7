"""The Place screen: what it tells of a place, what ticking and assuming leave in the journal, and the drawings."""

from __future__ import annotations

from fractions import Fraction

import pytest
from textual.pilot import Pilot

from journal.fields import describe
from journal.quantities.cuts import cut_list
from journal.session import Session
from journal.tui.app import ReviewApp
from journal.tui.canvas import _letter
from journal.tui.draw_gable import draw_gable, piece_corners
from journal.tui.draw_roof import draw_roof
from journal.tui.draw_wall import draw_wall
from journal.tui.lists import PlainList
from tests.tui.jobs import bunkhouse, measure, say
from tests.tui.seen import NARROW, SIZES, WIDE, rows_of, screen_text, settled, text_of, told


async def to_place(pilot: Pilot[None], name: str) -> None:
    """To the Place screen with a place in hand, the cursor among its rows."""
    await pilot.press("2")
    await settled(pilot)
    app = pilot.app
    app.screen.show_place(name)  # type: ignore[attr-defined]
    await settled(pilot)
    app.screen.query_one("#rows").focus()


def put_cursor(app: ReviewApp, row: str) -> None:
    app.screen.query_one("#rows", PlainList).go_to(row)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
async def test_everything_about_a_wall(app: ReviewApp, session: Session, size: tuple[int, int]) -> None:
    """Newest figures first with what they were, quantities with their memos, tasks, and a drawing with its figures."""
    say(session, "2026-07-20T08:15", "wall a window again the rough opening height is forty two and a half",
        measure("wall A", "rough opening height", "42 1/2", "window"))  # fmt: skip
    async with app.run_test(size=size) as pilot:
        await to_place(pilot, "wall A")
        rows = rows_of(app, "#rows")
        figures = rows[rows.index("Figures, newest first") + 1 :]
        assert figures[0] == '  window rough opening height 42 1/2"  was 42 1/4", Mon 13 Jul  memo 16, Mon 20 Jul'
        assert "? net wall area: 132.4 ft² (doubtful) (163.3 less door 21.9, window 9.0)  memos 1, 2, 3 and 16" in rows
        assert "[ ]!caulk the door head  by Fri 17 Jul overdue  memo 14, Tue 14 Jul" in rows
        shown = screen_text(app)
        assert "20' 0\"" in shown
        assert "38 1/4×82 1/2" in shown


async def test_pieces_are_ticked_off_and_on(app: ReviewApp, session: Session) -> None:
    """Space on a piece files a memo that it was cut; space again strikes it; the count follows."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        assert "32 to cut" in screen_text(app)
        put_cursor(app, "piece L3")
        await pilot.press("space")
        await settled(pilot)
        assert "31 to cut" in screen_text(app)
        assert session.store.memo(16) is not None
        assert session.store.memo(16).text == "cut board 3 left on the lake gable"  # type: ignore[union-attr]
        assert [describe(f.fact) for f in session.store.facts(memo=16)] == ["done: cut board 3 left"]
        assert [p.state for p in cut_list(session.book(), "lake gable").pieces if p.label == "L3"] == ["cut"]
        await pilot.press("space")
        await settled(pilot)
        assert "32 to cut" in screen_text(app)
        assert session.store.facts(memo=16) == []


def vent(session: Session, width: str, height: str, up: str, along: str) -> None:
    """A vent on the lake gable: its rough opening, how far up from the plate and along from the corner it sits."""
    say(session, "2026-07-14T08:07", "vent rough opening on the lake gable and where it sits",
        measure("lake gable", "rough opening width", width, "vent"),
        measure("lake gable", "rough opening height", height, "vent"),
        measure("lake gable", "offset", up, "plate to vent sill"),
        measure("lake gable", "centre", along, "corner to vent"))  # fmt: skip


@pytest.mark.parametrize("name", ["4 left", "4 between 1", "4 right"])
async def test_parts_of_a_split_course_are_ticked_off_one_by_one(app: ReviewApp, session: Session, name: str) -> None:
    """Space on a part of a course that openings split marks that part and no other; space again opens it."""
    vent(session, "12", "20", "14", "60")
    session.assume("boards run", "horizontal", "lake gable")
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        for states in ("cut", "open"):
            put_cursor(app, f"piece {name}")
            await pilot.press("space")
            await settled(pilot)
            pieces = cut_list(session.book(), "lake gable").pieces
            fourth = {piece.label: piece.state for piece in pieces if piece.label.startswith("4")}
            assert fourth == {one: states if one == name else "open" for one in ("4 left", "4 between 1", "4 right")}


async def test_a_part_between_two_openings_is_ticked_off(app: ReviewApp, session: Session) -> None:
    """A board crossed by two openings, one over the other, has a part between them that is ticked by itself."""
    vent(session, "24 1/2", "6", "4", "96")
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        put_cursor(app, "piece centre between 1")
        await pilot.press("space")
        await settled(pilot)
        pieces = cut_list(session.book(), "lake gable").pieces
        assert [piece.label for piece in pieces if piece.state == "cut"] == ["centre between 1"]


async def test_a_task_is_ticked_off(app: ReviewApp, session: Session) -> None:
    """Space on a task marks it done in its own fact."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        put_cursor(app, "task 13.1")
        await pilot.press("space")
        await settled(pilot)
        assert (
            describe(session.store.facts(memo=13)[0].fact)
            == "done: flash the window head before the staging comes down"
        )
        assert "task 13.1" not in app.screen.query_one("#rows", PlainList).names


async def test_an_assumption_shows_its_effect_before_it_is_kept(app: ReviewApp, session: Session) -> None:
    """A new value shows what it would do, is kept on Enter, and what will not do is refused."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        put_cursor(app, "assume board gap")
        await pilot.press("enter")
        await pilot.pause()
        await pilot.press("end", "backspace", "1", "slash", "4")
        await settled(pilot)
        said = text_of(app, "#said")
        assert said.startswith("Enter keeps it:\n")
        assert "pieces to cut: 32 pieces" in said
        assert session.store.assumptions() == []
        await pilot.press("enter")
        await settled(pilot)
        assert [row[:3] for row in session.store.assumptions()] == [("lake gable", "board gap", "0 1/4")]
        put_cursor(app, "assume board gap")
        await pilot.press("enter", "end", "x")
        await settled(pilot)
        assert text_of(app, "#said").startswith("! '1/4x' will not do for board gap") or text_of(
            app, "#said"
        ).startswith("! '0 1/4x' will not do for board gap")


async def test_an_assumption_is_taken_back(app: ReviewApp, session: Session) -> None:
    """Key u takes a changed assumption back and U does it again; the row shows it each time."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        for key, shown, kept in (
            ("enter", '  board gap: 1/4"  set for lake gable', [("lake gable", "board gap", "0 1/4")]),
            ("u", '  board gap: 0"  boards touch until a gap is said', []),
            ("U", '  board gap: 1/4"  set for lake gable', [("lake gable", "board gap", "0 1/4")]),
        ):
            put_cursor(app, "assume board gap")
            await pilot.press(key, *(("end", "backspace", "1", "slash", "4", "enter") if key == "enter" else ()))
            await settled(pilot)
            assert [row[:3] for row in session.store.assumptions()] == kept
            assert shown in rows_of(app, "#rows")
        assert told(app) == [
            "board gap: 1/4",
            "undone: board gap at lake gable the default (was 0 1/4)",
            "done again: board gap at lake gable 0 1/4 (was the default)",
        ]


async def test_from_a_row_to_its_memo(app: ReviewApp) -> None:
    """Key m goes to the memo behind a figure, on the Day screen with the fact in hand."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "lake gable")
        put_cursor(app, "fact 9.2")
        await pilot.press("m")
        await settled(pilot)
        assert text_of(app, "#head").startswith("memo 9  Tue 14 Jul 2026 08:05")
        assert app.screen.fact_in_hand.number == 2  # type: ignore[attr-defined]


async def test_a_worker_that_fails_is_shown(app: ReviewApp, monkeypatch: pytest.MonkeyPatch) -> None:
    """A failure in a worker is told, and the screen stays."""
    async with app.run_test(size=NARROW) as pilot:
        await to_place(pilot, "wall A")

        def broken(*_: object) -> None:
            raise RuntimeError("the saw is unplugged")

        monkeypatch.setattr("journal.tui.place.place_view", broken)
        app.screen.read_place()  # type: ignore[attr-defined]
        await settled(pilot)
        assert told(app) == [
            "the journal itself went wrong: RuntimeError: the saw is unplugged: What was stored is safe."
        ]


def test_the_wall_is_drawn_to_scale(session: Session) -> None:
    """A wall of 240 by 98 keeps its shape, and what nobody has placed carries a question mark."""
    bunkhouse(session)
    lines = draw_wall(session.book("wall A"), "wall A", 60, 14)
    assert lines is not None
    text = [line.plain for line in lines]
    drawn = [line for line in text if any("⠀" < c <= "⣿" for c in line)]
    across = max(max(i for i, c in enumerate(line) if "⠀" < c <= "⣿") for line in drawn) - min(
        min(i for i, c in enumerate(line) if "⠀" < c <= "⣿") for line in drawn
    )
    assert (across + 1) * 2 / (len(drawn) * 4) == pytest.approx(240 / 98, rel=0.12)
    assert any("door ?" in line for line in text)
    assert any('98"' in line for line in text)


def test_the_boards_of_the_drawing_are_those_of_the_cut_list(session: Session) -> None:
    """Each piece is drawn with the corners that its long and short point give; the one in hand is named with its length."""
    bunkhouse(session)
    book = session.book("lake gable")
    cuts = cut_list(book, "lake gable")
    third = next(piece for piece in cuts.pieces if piece.label == "L3")
    heights = sorted({y for _, y in piece_corners(third)})
    # trade.md part B, worked: board 3 is 52 9/16 > 47 15/16
    assert [round(y * 16) / 16 for y in heights] == [0, float(Fraction("47.9375")), float(Fraction("52.5625"))]
    lines = draw_gable(book, "lake gable", 100, 24, cuts=cuts, in_hand="L3")
    assert lines is not None
    text = "\n".join(line.plain for line in lines)
    assert 'L3: 52 9/16" long point' in text
    assert '192" base' in text
    assert "24 1/2×30" in text


async def test_a_place_without_a_drawing_has_the_room_for_its_rows(app: ReviewApp, session: Session) -> None:
    """Where too little is known to draw, the rows take the place of the drawing, and give it back at the next place."""
    say(session, "2026-07-13T08:00", "lake wall length sixteen foot", measure("lake wall", "length", "192"))
    async with app.run_test(size=WIDE) as pilot:
        await to_place(pilot, "lake gable")
        narrow = app.screen.query_one("#rows").size.width
        assert app.screen.query_one("#sheet-pane").display
        app.screen.show_place("lake wall")  # type: ignore[attr-defined]
        await settled(pilot)
        assert not app.screen.query_one("#sheet-pane").display
        assert app.screen.query_one("#rows").size.width > narrow + 40
        app.screen.show_place("lake gable")  # type: ignore[attr-defined]
        await settled(pilot)
        assert '192" base' in screen_text(app)


def test_a_console_without_braille_draws_in_half_blocks() -> None:
    """The halves of a cell that have a dot are filled, where the terminal's letters go no further."""
    assert [_letter(bits, coarse=True) for bits in (0, 0x01, 0x10, 0x04, 0x80, 0x41)] == [" ", "▀", "▀", "▄", "▄", "█"]
    assert _letter(0x41, coarse=False) == "⡁"


def test_the_roof_is_drawn_in_section(session: Session) -> None:
    """Run, rise, slope and line length stand on the section: 72 in. at 4/12 is 75 7/8 (72 * sqrt(1 + 1/9) = 75.89)."""
    bunkhouse(session)
    lines = draw_roof(session.book("porch roof"), "porch roof", 70, 14)
    assert lines is not None
    text = "\n".join(line.plain for line in lines)
    assert all(figure in text for figure in ('run 72"', 'rise 24"', "4/12", '75 7/8"'))


def test_nothing_is_drawn_of_what_is_not_known(session: Session) -> None:
    """A wall without a height has no drawing."""
    say(session, "2026-07-13T08:00", "lake wall length sixteen foot", measure("lake wall", "length", "192"))
    assert draw_wall(session.book("lake wall"), "lake wall", 60, 14) is None
