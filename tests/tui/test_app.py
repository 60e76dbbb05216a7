"""What all screens share: keys told, every action in the palette, themes, playing, leaving, two windows, no colour."""

from __future__ import annotations

import io
import re
import wave
from datetime import date
from pathlib import Path

import miniaudio
import numpy as np
import pytest
from rich.color import Color, ColorSystem
from rich.style import Style
from textual.command import CommandPalette
from textual.widgets import Static

from journal.errors import SoundError
from journal.fields import describe
from journal.lookups import Recording
from journal.records import Span, Word
from journal.session import Session
from journal.speech.base import SAMPLE_RATE, Sound
from journal.tui import playback
from journal.tui.actions import Actions
from journal.tui.app import ReviewApp
from journal.tui.keys import KeySheet
from journal.tui.marks import marked_words, word_time
from journal.tui.playback import Player, stretch
from tests.tui.jobs import measure, say
from tests.tui.seen import NARROW, SIZES, WIDE, screen_text, settled, told

SCREENS = ("day", "place", "todo", "stock", "find")


async def test_every_screen_has_a_key_sheet_with_its_keys(app: ReviewApp) -> None:
    """? shows every key of the screen in hand with what it does."""
    async with app.run_test(size=WIDE) as pilot:
        await pilot.press("question_mark")
        assert isinstance(app.screen, KeySheet)
        sheet = "\n".join(str(part.content) for part in app.screen.query(Static))
        assert "x del         Take the fact in hand out of the book" in sheet
        assert "1             The memos of a day" in sheet
        assert "word?         a word that is doubted, or not surely heard" in sheet
        await pilot.press("escape")
        assert not isinstance(app.screen, KeySheet)


@pytest.mark.parametrize("name", SCREENS)
async def test_every_key_says_what_it_does_and_is_in_the_palette(app: ReviewApp, name: str) -> None:
    """Each binding of ours has an id and a tooltip, and the palette offers each that is named."""
    async with app.run_test(size=NARROW) as pilot:
        await app.switch_mode(name)
        await settled(pilot)
        ours = [
            binding
            for node in (app.screen, app)
            for bindings in node._bindings.key_to_bindings.values()
            for binding in bindings
            if type(node).__dict__.get("BINDINGS") and binding.id and binding.id.partition(".")[0] in (*SCREENS, "app")
        ]
        assert ours
        assert all(binding.tooltip for binding in ours)
        palette = Actions(app.screen)
        offered = {name async for name in _names(palette)}
        assert {binding.description for binding in ours if binding.description} <= offered


async def _names(palette: Actions):  # type: ignore[no-untyped-def]
    async for hit in palette.discover():
        yield str(hit.text)


async def test_an_action_from_the_palette(app: ReviewApp) -> None:
    """The palette opens on ^p, finds an action by what it does and does it."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("ctrl+p")
        assert isinstance(app.screen, CommandPalette)
        await pilot.press(*"light or dark")
        await pilot.pause(0.5)
        await pilot.press("enter", "enter")
        await pilot.pause(0.3)
        assert app.theme == "shop light"


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
async def test_the_five_screens_by_number_and_by_mouse(app: ReviewApp, size: tuple[int, int]) -> None:
    """1 to 5 go to the screens, the one in hand stands in brackets, and a name can be clicked."""
    async with app.run_test(size=size) as pilot:
        for key, title in enumerate(("Day", "Place", "To do", "Stock", "Find"), 1):
            await app.switch_mode(SCREENS[key - 1])
            await settled(pilot)
            assert f"‹{key} {title}›" in screen_text(app).splitlines()[0]
        await pilot.click("TopBar", offset=(3, 0))
        await settled(pilot)
        assert "‹1 Day›" in screen_text(app).splitlines()[0]


async def test_leaving_says_what_was_not_kept(
    app: ReviewApp, session: Session, capsys: pytest.CaptureFixture[str]
) -> None:
    """Quitting in the middle of an edit stores nothing of it and says so on the way out."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("right", "enter", "9", "9", "ctrl+q")
        await pilot.pause()
    assert capsys.readouterr().err == "not kept: figure 99 (was 240)\n"
    assert session.store.facts(memo=1)[0].was == ()


async def test_an_empty_job(session: Session) -> None:
    """A job without memos shows its five screens, and the first says how to begin."""
    empty = ReviewApp(session)
    async with empty.run_test(size=NARROW) as pilot:
        said = {}
        for name in SCREENS:
            await empty.switch_mode(name)
            await settled(pilot)
            said[name] = " ".join(screen_text(empty).replace("│", " ").split())
        assert (
            'No memos yet. Take the first one: journal take, or journal take --say "wall a height eight' in said["day"]
        )
        assert "nothing was heard" not in said["day"]
        assert "no memo has named a place yet" in said["place"]
        assert "nothing is left to do" in said["todo"]
        assert "no stock has been spoken of yet" in said["stock"]
        assert "type words, a place, a kind or a day" in said["find"]
        assert told(empty) == []


async def test_a_very_narrow_terminal_that_is_made_wide_while_typing(app: ReviewApp, session: Session) -> None:
    """At 60 columns the fields have the whole width while they are typed in; what was typed stands when the window grows."""
    async with app.run_test(size=(60, 18)) as pilot:
        await pilot.press("down", "down", "right", "enter", *"5' 11 5/8")
        await settled(pilot)
        assert not app.screen.query_one("#memos").display
        assert "figure     5' 11 5/8" in screen_text(app)
        assert "1 window rough opening width" in screen_text(app)
        await pilot.resize_terminal(120, 40)
        await settled(pilot)
        assert app.screen.query_one("#memos").display
        assert "figure     5' 11 5/8" in screen_text(app)
        await pilot.press("enter")
        await settled(pilot)
        assert describe(session.store.facts(memo=3)[0].fact) == 'window rough opening width 71 5/8"'


async def test_two_windows_see_each_other(app: ReviewApp, session: Session) -> None:
    """What one window corrects the other shows when it looks."""
    with Session.open(session.folder) as other_session:
        other = ReviewApp(other_session, day=date(2026, 7, 13))
        async with app.run_test(size=NARROW) as pilot:
            session.confirm(3, 1)
            async with other.run_test(size=NARROW) as second:
                await second.pause()
                assert "1 doubt left" in screen_text(other)
                other_session.settle(5)
            app.look()
            await pilot.pause()
            assert "no doubts left" in screen_text(app)


async def test_without_colour_every_mark_is_there(app: ReviewApp, monkeypatch: pytest.MonkeyPatch) -> None:
    """With NO_COLOR the cursor is reverse video, doubts have their marks, and no colour is left."""
    monkeypatch.setenv("NO_COLOR", "1")
    colourless = ReviewApp(app.session, day=date(2026, 7, 13))
    async with colourless.run_test(size=NARROW) as pilot:
        await pilot.press("n")
        await pilot.pause()
        strips = colourless.screen._compositor.render_strips()
        text = "\n".join(strip.text for strip in strips)
        assert "?1 wall A" in text
        assert "thirty?" in text
        styles = [segment.style for strip in strips for segment in strip if segment.style is not None]
        assert any(style.reverse and style.bold for style in styles)
        assert any(style.underline for style in styles)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
@pytest.mark.parametrize("light", [False, True], ids=["dark", "light"])
async def test_with_sixteen_colours_the_day_is_readable(app: ReviewApp, size: tuple[int, int], light: bool) -> None:
    """In sixteen colours no text has the colour of its ground; evidence, doubt and cursor are told by more than colour."""
    async with app.run_test(size=size) as pilot:
        if light:
            await pilot.press("t")
        await pilot.press("n")
        await settled(pilot)
        rows = app.screen._compositor.render_strips()
        shown = [segment for strip in rows for segment in strip if segment.style is not None and segment.text.strip()]
        lost = [segment.text for segment in shown if _in_sixteen(segment.style)]
        assert lost == []
        underlined = "".join(segment.text for segment in shown if segment.style and segment.style.underline)
        assert underlined.replace(" ", "") == "thirtyandahalfwide"
        grounds = [
            {_sixteen(one.style.bgcolor) for one in shown if one.style and one.style.bgcolor and said in one.text}
            for said in ("rough opening width 30 1/2", "rough opening height 42 1/4")
        ]
        assert all(grounds)
        assert not grounds[0] & grounds[1]  # the cursor's row is a block, whatever its colour
        text = "\n".join(strip.text for strip in rows)
        assert "? 1 window rough opening width" in text
        assert "thirty? and a half" in text
        assert any("?1 wall A" in strip.text for strip in rows)


def _in_sixteen(style: Style | None) -> bool:
    """Whether the text of a style cannot be told from its ground in sixteen colours."""
    if style is None or style.color is None or style.bgcolor is None:
        return False
    return _sixteen(style.color) == _sixteen(style.bgcolor)


def _sixteen(colour: Color) -> int | None:
    return colour.downgrade(ColorSystem.STANDARD).number


# ---- playing -------------------------------------------------------------------------------------------------------


def test_the_stretch_behind_words() -> None:
    """A stretch of the text is the time from its first word to its last; without word times there is none."""
    text = "wall a height ninety eight"
    words = [Word(word, 0.5 * i, 0.5 * i + 0.4) for i, word in enumerate(text.split())]
    assert word_time(text, words, Span(7, 26)) == (1.0, 2.4)
    assert word_time(text, words[:3], Span(7, 26)) is None
    assert word_time(text, [Word(word) for word in text.split()], Span(7, 26)) is None
    assert (
        marked_words("ninety eight", words=[Word("ninety", 0, 1, 0.2), Word("eight", 1, 2, 0.9)]).plain
        == "ninety? eight"
    )
    ramp = Sound(np.arange(SAMPLE_RATE * 3, dtype=np.float32))
    cut = np.frombuffer(stretch(ramp, 1.0, 2.0, SAMPLE_RATE), np.float32)
    assert (cut[0], cut[-1]) == (0.85 * SAMPLE_RATE, 2.15 * SAMPLE_RATE - 1)


def test_playing_to_the_end_and_no_loudspeaker(monkeypatch: pytest.MonkeyPatch) -> None:
    """Playing returns when the sound is over; where no device can be opened it is told with the next step."""
    samples = np.zeros(SAMPLE_RATE // 5, np.float32).tobytes()
    player = Player(silent=True)
    player.play(samples, SAMPLE_RATE)
    assert not player.playing
    monkeypatch.setattr("journal.tui.playback.sys.executable", "/bin/false")
    with pytest.raises(
        SoundError, match=r"^the recording could not be played\nTry it with another player; it is in recordings/\.$"
    ):
        Player().play(samples, SAMPLE_RATE)


async def test_play_from_the_screen(app: ReviewApp, session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """Key p plays the stretch of the fact in hand, P the whole recording; a typed memo has none, and that is told."""
    with wave.open(str(session.folder / "recordings" / "a.wav"), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(SAMPLE_RATE)
        file.writeframes((np.sin(np.arange(SAMPLE_RATE * 3) / 20) * 9000).astype(np.int16).tobytes())
    session.store.add_recording(Recording("00", "recordings/a.wav", "a.wav", 3.0))
    text = "wall a height ninety eight"
    words = [Word(word, 0.5 * i, 0.5 * i + 0.4, 0.9) for i, word in enumerate(text.split())]
    say(session, "2026-07-13T07:00", text, measure("wall A", "height", "98", evidence="height ninety eight"),
        words=words, recording="00")  # fmt: skip
    played: list[float] = []
    monkeypatch.setattr(app.player, "play", lambda samples, rate: played.append(round(len(samples) / 4 / rate, 2)))
    async with app.run_test(size=NARROW) as pilot:
        await settled(pilot)
        await pilot.press("home", "p")
        await settled(pilot)
        await pilot.press("P")
        await settled(pilot)
        assert played == [1.7, 3.0]
        await pilot.press("down", "p")
        await settled(pilot)
        assert told(app) == [
            "memo 1 was typed; there is no recording to play: Only what came from a recording or the microphone can be played."
        ]


async def test_no_loudspeaker_is_told_on_the_screen(
    app: ReviewApp, session: Session, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Where no sound device can be opened the screen says so with the next step, and goes on."""

    def none(**_: object) -> None:
        raise miniaudio.MiniaudioError("no device")

    monkeypatch.setattr(miniaudio, "PlaybackDevice", none)
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(bytes(4))))
    assert playback.main([str(SAMPLE_RATE)]) == 3  # what the process that plays ends with
    deaf = tmp_path / "deaf"
    deaf.write_text("#!/bin/sh\ncat >/dev/null\nexit 3\n")
    deaf.chmod(0o755)
    monkeypatch.setattr("journal.tui.playback.sys.executable", str(deaf))
    monkeypatch.setattr(Session, "sound_of", lambda *_: Sound(np.zeros(SAMPLE_RATE, np.float32)))
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("p")
        await settled(pilot)
        assert told(app) == [
            "no loudspeaker was found to play it on: "
            "Plug one in or switch the sound on; the recording itself is safe in the job folder."
        ]
        await pilot.press("down")
        assert app.is_running


async def test_a_damaged_recording_and_a_job_that_cannot_be_written(app: ReviewApp, session: Session) -> None:
    """A recording that cannot be decoded, and a job folder that cannot be written, are told with the next step."""
    (session.folder / "recordings" / "a.wav").write_bytes(b"no sound in this")
    session.store.add_recording(Recording("00", "recordings/a.wav", "a.wav", 3.0))
    say(session, "2026-07-13T07:00", "wall a height ninety eight", measure("wall A", "height", "98"), recording="00")
    session.store.read_only = True
    async with app.run_test(size=NARROW) as pilot:
        await settled(pilot)
        await pilot.press("home", "p")
        await settled(pilot)
        await pilot.press("c")
        await settled(pilot)
        *damaged, refused = told(app)
        assert any("a.wav" in line for line in damaged)
        assert refused == (
            f"the job folder {session.folder} is read-only; nothing was written: "
            "Make it writable, or name another one: --job FOLDER"
        )
        assert not session.store.facts(memo=16)[0].confirmed


def test_the_screens_know_no_sql() -> None:
    """Nothing below the screens imports Textual, and the screens hold no SQL."""
    package = Path(__file__).parents[2] / "journal"
    below = [path for path in package.rglob("*.py") if "tui" not in path.parts]
    assert [path.name for path in below if "textual" in path.read_text() and path.name != "review.py"] == []
    assert [path.name for path in (package / "tui").glob("*.py") if re.search(r"\bSELECT ", path.read_text())] == []
