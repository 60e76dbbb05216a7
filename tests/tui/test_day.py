"""The Day screen: what it shows of a memo, and what each key leaves in the journal."""

from __future__ import annotations

import pytest
from textual.events import Key
from textual.pilot import Pilot

from journal.fields import describe
from journal.records import Measure
from journal.session import Session
from journal.tui.app import ReviewApp
from journal.tui.fact_list import FactList
from journal.tui.memo_list import MemoList
from tests.tui.jobs import measure, say
from tests.tui.seen import SIZES, screen_text, settled, text_of, told

pytestmark = pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
Size = tuple[int, int]


async def to_window(pilot: Pilot[None]) -> None:
    """To the window's width on wall A: memo 3, fact 1."""
    await pilot.pause()
    await pilot.press("down", "down", "right")


def facts(session: Session, memo: int) -> list[str]:
    return [describe(filed.fact) for filed in session.store.facts(memo=memo)]


async def test_memos_with_time_place_and_doubts(app: ReviewApp, size: Size) -> None:
    """A day shows its memos with time, place and doubts, and how many doubts are left."""
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        rows = [str(row.shown).split("\n")[0].split() for row in app.screen.query_one(MemoList).rows]
        assert rows == [
            ["07:40", "wall", "A"], ["07:44", "wall", "A"], ["07:46", "?1", "wall", "A"], ["07:48", "wall", "A"],
            ["08:10", "!1", "—"], ["08:30", "—"],
        ]  # fmt: skip
        shown = screen_text(app)
        assert "Mon 13 Jul 2026 · 6 memos · 2 doubts left" in shown
        assert [line[:16].rstrip() for line in shown.splitlines() if line[1:3] in ("07", "08")] == [
            " 07:40    wall A", " 07:44    wall A", " 07:46 ?1 wall A", " 07:48    wall A", " 08:10 !1 —", " 08:30    —",
        ]  # fmt: skip
        assert shown.splitlines()[-1].endswith("? Keys")


async def test_words_with_evidence_and_doubt(app: ReviewApp, size: Size) -> None:
    """The evidence of the fact in hand is underlined, and a doubted word has a question mark, not only a colour."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("down")
        words = app.screen.query_one("#text").content  # type: ignore[attr-defined]
        underlined = "".join(words.plain[s.start : s.end] for s in words.spans if "underline" in str(s.style))
        assert underlined == "forty two and a quarter high"
        assert words.plain == "same wall window rough opening thirty? and a half wide and forty two and a quarter high"


async def test_correct_a_figure(app: ReviewApp, session: Session, size: Size) -> None:
    """A length typed as a builder writes it shows before and after, and is stored on Enter, not before."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter")
        await pilot.press("3", "1", "space", "1", "slash", "2")
        await settled(pilot)
        effect = text_of(app, "Effect")
        assert effect.startswith("Enter keeps it: wall A\n")
        assert "net wall area: 132.5 ft² (doubtful)" in effect
        assert "→ 132.2 ft²" in effect
        assert facts(session, 3)[0] == 'window rough opening width 30 1/2"'
        await pilot.press("enter")
        await settled(pilot)
        assert facts(session, 3)[0] == 'window rough opening width 31 1/2"'
        filed = session.store.facts(memo=3)[0]
        assert filed.confirmed
        assert isinstance(filed.was[0].fact, Measure)
        assert "1 doubt left" in screen_text(app)
        assert told(app) == ["kept: figure 31 1/2 (was 30 1/2)"]
        assert "kept: figure 31 1/2 (was 30 1/2)" in screen_text(app).splitlines()[-1]


async def test_keys_that_come_faster_than_they_are_worked_off(app: ReviewApp, session: Session, size: Size) -> None:
    """Keys act in the order typed: Backspace takes away what stood before it, and what follows Enter is not kept with it."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter")
        for key in ("end", *["backspace"] * 3, *"3", "slash", *"4", "enter", *"99"):
            app.post_message(Key(key, "/" if key == "slash" else key if len(key) == 1 else None))
        await settled(pilot)
        assert facts(session, 3)[0] == 'window rough opening width 30 3/4"'
        assert told(app) == ["kept: figure 30 3/4 (was 30 1/2)"]
        assert "Keep" not in screen_text(app).splitlines()[-1]


async def test_a_figure_that_cannot_be_read(app: ReviewApp, session: Session, size: Size) -> None:
    """What cannot be read is said under the fields with the next step, and nothing is stored."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter", "3", "o")
        await settled(pilot)
        assert text_of(app, "Effect") == "! '3o' is not a length\n  Type it as 71 5/8, 5' 11 5/8 or 1820mm."
        await pilot.press("enter")
        await settled(pilot)
        assert told(app) == ["'3o' is not a length: Type it as 71 5/8, 5' 11 5/8 or 1820mm."]
        assert facts(session, 3)[0] == 'window rough opening width 30 1/2"'


async def test_leaving_a_field_says_what_was_not_kept(app: ReviewApp, session: Session, size: Size) -> None:
    """Escape stores nothing and says what had been typed."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter", "9", "9", "escape")
        await settled(pilot)
        assert told(app) == ["not kept: figure 99 (was 30 1/2)"]
        assert facts(session, 3)[0] == 'window rough opening width 30 1/2"'
        assert isinstance(app.focused, FactList)


async def test_correct_a_place_with_completion(app: ReviewApp, session: Session, size: Size) -> None:
    """A place is completed from those on file; the fact moves there."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter", "tab", "l", "a", "k")
        await pilot.pause(0.1)
        await pilot.press("right", "enter")
        await settled(pilot)
        assert session.store.facts(memo=3)[0].fact.place == "lake gable"


async def test_turn_through_a_choice(app: ReviewApp, session: Session, size: Size) -> None:
    """Down in a field with choices takes the next one."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter", "tab", "tab", "tab", "down", "enter")
        await settled(pilot)
        assert facts(session, 3)[0] == 'window rough opening height 30 1/2"'


async def test_confirm_and_undo_and_redo(app: ReviewApp, session: Session, size: Size) -> None:
    """Key c settles the doubts of a fact, u takes that back, U does it again."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("c")
        assert session.store.facts(memo=3)[0].confirmed
        assert "1 doubt left" in screen_text(app)
        await pilot.press("u")
        assert not session.store.facts(memo=3)[0].confirmed
        assert session.store.facts(memo=3)[0].fact.doubts
        await pilot.press("U")
        assert session.store.facts(memo=3)[0].confirmed


async def test_strike_shows_the_effect_first(app: ReviewApp, session: Session, size: Size) -> None:
    """The first x shows what would change, the second strikes; the fact stays on file as struck."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("x")
        await settled(pilot)
        assert text_of(app, "Effect").startswith("x again strikes it: wall A\n")
        assert len(session.store.facts(memo=3)) == 2
        await pilot.press("x")
        assert facts(session, 3) == ['window rough opening height 42 1/4"']
        assert len(session.store.facts(memo=3, struck=True)) == 1
        await pilot.press("u")
        assert len(session.store.facts(memo=3)) == 2


async def test_add_a_fact(app: ReviewApp, session: Session, size: Size) -> None:
    """Key a picks a kind, its fields are typed, and the fact belongs to the memo in hand."""
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press("a", "m", "e", "a", "s", "enter")
        await pilot.pause()
        await pilot.press("6", "tab", "tab", "tab", "d", "e", "p", "t", "h")
        await settled(pilot)
        assert text_of(app, "Effect").startswith("Enter keeps it: wall A")
        await pilot.press("enter")
        await settled(pilot)
        assert facts(session, 1) == ["length 20' 0\"", 'height 98"', 'depth 6"']
        assert session.store.facts(memo=1)[2].fact.place == "wall A"


async def test_put_the_words_right(app: ReviewApp, session: Session, size: Size) -> None:
    """Key w opens the words; Enter keeps them and reads the memo again, and the old words stay on file."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("w")
        await pilot.pause()
        await pilot.press("space", "n", "o", "w", "enter")
        await settled(pilot)
        memo = session.store.memo(3)
        assert memo is not None
        assert memo.text.endswith("forty two and a quarter high now")
        assert session.store.worded_anew()[0][0].endswith("a quarter high")


async def test_from_doubt_to_doubt_until_the_day_is_clean(app: ReviewApp, session: Session, size: Size) -> None:
    """Key n goes from doubt to doubt, c settles each, and at the end the line says that none is left."""
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press("n")
        assert "memo 3" in text_of(app, "#head")
        await pilot.press("n")
        assert "memo 5" in text_of(app, "#head")
        await pilot.press("n")
        assert "memo 3" in text_of(app, "#head")
        await pilot.press("c", "n", "c")
        assert "no doubts left" in screen_text(app)
        memo = session.store.memo(5)
        assert memo is not None
        assert session.store.problems(memo.transcript) == []
        await pilot.press("u")
        assert "1 doubt left" in screen_text(app)


async def test_doubtful_first(app: ReviewApp, size: Size) -> None:
    """Key d puts the doubtful memos first, and back."""
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press("d")
        assert app.screen.query_one(MemoList).numbers == [3, 5, 1, 2, 4, 6]
        await pilot.press("d")
        assert app.screen.query_one(MemoList).numbers == [1, 2, 3, 4, 5, 6]


async def test_other_days(app: ReviewApp, size: Size) -> None:
    """] and [ go to the days around; g picks one."""
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await pilot.press("right_square_bracket")
        assert "Tue 14 Jul 2026 · 9 memos" in screen_text(app)
        await pilot.press("g", "1", "3", "enter")
        await pilot.pause()
        assert "Mon 13 Jul 2026 · 6 memos" in screen_text(app)


async def test_what_another_window_writes_is_shown(app: ReviewApp, session: Session, size: Size) -> None:
    """A memo that is filed by another window appears without a key being pressed; typing is not disturbed by it."""
    async with app.run_test(size=size) as pilot:
        await to_window(pilot)
        await pilot.press("enter", "4")
        with Session.open(session.folder) as other:
            say(other, "2026-07-13T17:00", "wall a depth nine", measure("wall A", "depth", "9"))
        app.look()
        await pilot.pause()
        assert "the job changed in another window" in screen_text(app)
        await pilot.press("escape")
        await settled(pilot)
        assert "7 memos" in screen_text(app)
