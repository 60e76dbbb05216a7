"""The app that `journal review` runs: five screens on one job, and what all of them can do. Changes go through the session."""

from __future__ import annotations

import gc
import importlib
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import Any, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType

from journal.corrections import Assumed, Corrected
from journal.errors import JournalError
from journal.fields import describe
from journal.session import Session
from journal.tui.actions import Actions
from journal.tui.day import DayScreen
from journal.tui.job_screen import JobScreen
from journal.tui.key_names import key_name
from journal.tui.playback import Player
from journal.tui.reading import Reader
from journal.tui.themes import DARK, LIGHT, THEMES

_LOOK = 1.0  # seconds between looks at whether another window or a `journal take` wrote to the job
_WARM = 0.2  # seconds after the first paint until the rest is loaded


def _place() -> JobScreen:
    from journal.tui.place import PlaceScreen

    return PlaceScreen()


def _todo() -> JobScreen:
    from journal.tui.todo import ToDoScreen

    return ToDoScreen()


def _stock() -> JobScreen:
    from journal.tui.stock import StockScreen

    return StockScreen()


def _find() -> JobScreen:
    from journal.tui.find import FindScreen

    return FindScreen()


class ReviewApp(App[None]):
    """The screens on an open job; all but the first are loaded when they are first seen. `revision` counts the changes that screens have to show."""

    TITLE = "journal review"
    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, Any]] = {
        "day": DayScreen, "place": _place, "todo": _todo, "stock": _stock, "find": _find,
    }  # fmt: skip
    DEFAULT_MODE = "day"
    HORIZONTAL_BREAKPOINTS = [(0, "-slim"), (72, "-narrow"), (110, "-wide"), (150, "-broad")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-short"), (34, "-tall")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("1", "switch_mode('day')", "Day", show=False, id="app.day", tooltip="The memos of a day"),
        Binding("2", "switch_mode('place')", "Place", show=False, id="app.place", tooltip="All about one place"),
        Binding(
            "3", "switch_mode('todo')", "To do", show=False, id="app.todo", tooltip="What is open, waiting and due"
        ),
        Binding("4", "switch_mode('stock')", "Stock", show=False, id="app.stock", tooltip="Lots, drying, what to buy"),
        Binding("5,slash", "switch_mode('find')", "Find", show=False, id="app.find", tooltip="Search all memos"),
        Binding("u,ctrl+z", "undo", "Undo", key_display="u", id="app.undo", tooltip="Take back the last correction"),
        Binding("U,ctrl+y", "redo", "Redo", show=False, id="app.redo", tooltip="Take back the last undoing"),
        Binding("t", "other_light", "Light or dark", show=False, id="app.light", tooltip="Light or dark screens"),
        Binding("question_mark", "keys", "Keys", key_display="?", id="app.keys", tooltip="All keys and marks"),
        Binding("ctrl+p", "command_palette", "Actions", show=False, id="app.actions",
                tooltip="Every action by name"),
        Binding("q,ctrl+q", "leave", "Quit", key_display="q", id="app.quit", tooltip="Leave; what was kept is stored already"),
    ]  # fmt: skip
    COMMANDS: ClassVar[set[Any]] = {Actions}

    def __init__(self, session: Session, *, day: date | None = None) -> None:
        super().__init__()
        self.session = session
        self.reader = Reader(session.folder)
        self.player = Player()
        self.remarks: list[str] = []
        self.first_day = day
        self.revision = 0
        self._version = session.store.version()
        self._places: tuple[int, list[str]] = (-1, [])
        self._days: tuple[int, list[tuple[date, int]]] = (-1, [])
        for theme in THEMES:
            self.register_theme(theme)
        self.set_reactive(App.theme, DARK.name)  # known from the start: nothing is styled twice
        self.stylesheet.set_variables(self.get_css_variables())

    def on_mount(self) -> None:
        """Once the first screen stands, load the rest, and look now and then whether somebody else wrote to the job."""
        self.set_interval(_LOOK, self.look)
        self.call_after_refresh(self.set_timer, _WARM, self._warm)

    def _warm(self) -> None:
        """Load the quantities and the other screens before they are first asked for; the first screen stands by then."""

        def load() -> None:
            from journal.quantities.base import listed

            for name in ("asking", "words_field", "keys", "place", "todo", "stock", "find"):
                importlib.import_module(f"journal.tui.{name}")
            self.reader.ask(lambda _: None)  # opens it
            listed()
            gc.freeze()  # what is loaded now stays; looking through it again and again would make keys wait
            gc.enable()

        self.run_worker(load, thread=True, exit_on_error=False, group="warm")

    def on_unmount(self) -> None:
        """Let go of the second connection and the loudspeaker."""
        self.player.stop()
        self.reader.close()

    def look(self) -> None:
        """Show what another window or a `journal take` wrote since the last look."""
        version = self.session.store.version()
        if version != self._version:
            self._version = version
            self.changed()

    def changed(self, memos: Iterable[int] = ()) -> None:
        """These memos have changed, or any where none is named: the screen in hand shows it now, others when next seen."""
        self.revision += 1
        if isinstance(self.screen, JobScreen):
            self.screen.job_changed(tuple(memos))

    def keep(self, change: Callable[[], Any], told: str = "", *, memos: Iterable[int] = ()) -> Any:
        """Make a change of some memos through the session and show it; None where it was refused, and then why is shown."""
        try:
            done = change()
        except JournalError as error:
            self.tell_error(error)
            return None
        if told:
            self.tell(told)
        self.changed(memos)
        return done

    @property
    def places(self) -> list[str]:
        """The places on file, read once for each change."""
        if self._places[0] != self.revision:
            self._places = (self.revision, self.session.store.places())
        return self._places[1]

    @property
    def days(self) -> list[tuple[date, int]]:
        """The days that have memos, newest first, with how many; read once for each change."""
        if self._days[0] != self.revision:
            self._days = (self.revision, self.session.store.days())
        return self._days[1]

    def go_to_memo(self, memo: int, fact: int = 1) -> None:
        """Show a memo on the Day screen with the cursor on one of its facts."""
        found = self.session.store.memo(memo)
        if found is None:
            return
        self.switch_mode("day")
        if isinstance(self.screen, DayScreen):
            self.screen.show_memo(found, fact)

    # ---- telling -----------------------------------------------------------------------------------------------

    def tell(self, text: str) -> None:
        """A remark that goes away by itself."""
        self.remarks.append(text)
        if isinstance(self.screen, JobScreen):
            self.screen.remark(text)
        else:
            self.notify(text, markup=False, timeout=4)

    def tell_error(self, error: BaseException) -> None:
        """What went wrong and the next step."""
        if isinstance(error, JournalError):
            title, text = error.message, error.hint
        else:
            title = f"the journal itself went wrong: {type(error).__name__}: {error}"
            text = "What was stored is safe."
        self.remarks.append(f"{title}: {text}")
        self.notify(text, title=title, severity="error", markup=False, timeout=10)

    # ---- what every screen can do ------------------------------------------------------------------------------

    def action_undo(self) -> None:
        """Take back the last correction."""
        self._take_back(self.session.undo, "undone")

    def action_redo(self) -> None:
        """Take back the last undoing."""
        self._take_back(self.session.redo, "done again")

    def _take_back(self, turn: Callable[[], tuple[object, list[Corrected | Assumed]]], word: str) -> None:
        try:
            _, corrected = turn()
        except JournalError as error:
            self.tell_error(error)
            return
        self.changed({one.memo for one in corrected if isinstance(one, Corrected)})
        self.tell(f"{word}: {told(corrected)}")

    def action_keys(self) -> None:
        """All keys that work now, and the marks."""
        from journal.tui.keys import KeySheet

        keys: dict[str, list[str]] = {}
        told: dict[str, str] = {}
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if binding.id:
                keys.setdefault(binding.id, []).append(key_name(binding.key))
                told[binding.id] = binding.tooltip or binding.description
        ordered = sorted(keys, key=lambda name: name.startswith("list."))  # how a list moves is known to most
        self.push_screen(KeySheet([(" ".join(keys[name]), told[name]) for name in ordered]))

    def action_other_light(self) -> None:
        """Light screens instead of dark ones, or the other way."""
        self.theme = LIGHT.name if self.theme == DARK.name else DARK.name

    def action_leave(self) -> None:
        """Leave; what was typed and not kept is said on the way out."""
        unkept = self.screen.unkept() if isinstance(self.screen, JobScreen) else ""
        self.exit(message=f"not kept: {unkept}" if unkept else None)


def told(corrected: Sequence[Corrected | Assumed]) -> str:
    """What was corrected, in one line."""
    more = f" and {len(corrected) - 2} more" if len(corrected) > 2 else ""
    return ("; ".join(map(_told, corrected[:2])) or "the words of a memo") + more


def _told(one: Corrected | Assumed) -> str:
    if isinstance(one, Assumed):
        return f"{one.name} at {one.place or 'the job'} {one.now or 'the default'} (was {one.was or 'the default'})"
    was, now = (describe(fact) if fact is not None else "nothing" for fact in (one.was, one.now))
    return f"memo {one.memo}.{one.number} {now}" + (f" (was {was})" if was != now else "")
