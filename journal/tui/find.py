"""The Find screen: memos that hold the words as they are typed, narrowed down by place, kind and days."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.suggester import SuggestFromList
from textual.widgets import Input, Label

from journal.errors import NotFound
from journal.records import KINDS, Memo
from journal.session import Session
from journal.tui.days import past_day
from journal.tui.in_order import OneLine
from journal.tui.job_screen import JobScreen
from journal.tui.lists import PlainList
from journal.tui.marks import day_name, quiet

_MOST = 60
_PAUSE = 0.08  # seconds of no typing before the journal is searched


class FindScreen(JobScreen):
    """A line to type in, four that narrow down, and what was found."""

    mode = "find"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "to_hits", "Hits", show=False, id="find.hits", tooltip="Down to what was found"),
        Binding("escape", "clear", "Clear", id="find.clear", tooltip="Empty the lines and start again"),
        Binding("slash", "words", "Words", key_display="/", id="find.words", tooltip="Back to the words"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.hits: list[Memo] = []

    def panes(self) -> ComposeResult:
        """The lines over the hits."""
        yield OneLine(placeholder="words, as you remember them", id="find-words", compact=True)
        with Horizontal(id="narrow"):
            for name, hint in (("place", "any"), ("kind", "any"), ("since", "day"), ("until", "day")):
                yield Label(name)
                yield OneLine(placeholder=hint, id=f"find-{name}", compact=True)
        yield PlainList(id="hits")

    def load(self) -> None:
        """Complete places anew and search again."""
        places = SuggestFromList(self.review.places, case_sensitive=False)
        self.query_one("#find-place", Input).suggester = places
        self.query_one("#find-kind", Input).suggester = SuggestFromList(KINDS)
        if self.focused is None:
            self.query_one("#find-words").focus()
        self.search()

    @on(Input.Changed)
    def _changed(self) -> None:
        asked = self._typed()
        self.set_timer(_PAUSE, lambda: self.search() if asked == self._typed() else None)

    def _typed(self) -> list[str]:
        names = ("words", "place", "kind", "since", "until")
        return [self.query_one(f"#find-{name}", Input).value.strip() for name in names]

    def search(self) -> None:
        """Look the words up in a worker; what cannot be narrowed down is said."""
        words, place, kind, *typed_days = self._typed()
        try:
            where = self.session.place(place) if place else None
        except NotFound:
            self._nothing(f"no place '{place}' yet")
            return
        kinds = [known for known in KINDS if known.startswith(kind)] if kind else [None]
        if not kinds:
            self._nothing(f"'{kind}' is no kind: {', '.join(KINDS)}")
            return
        since, until = (past_day(typed) if typed else None for typed in typed_days)
        for typed, day in zip(typed_days, (since, until), strict=True):
            if typed and day is None:
                self._nothing(f"'{typed}' is no day yet: 2026-07-13, yesterday, tuesday")
                return
        if since is not None and until is not None and until < since:
            self._nothing(f"{day_name(until)} is before {day_name(since)}")
            return

        def question(session: Session) -> list[Memo]:
            return session.store.search(
                words, limit=_MOST, typing=True, place=where, kind=kinds[0], since=since, until=until
            )

        self.ask_job("searching", question, self._show, group="find")

    def _nothing(self, why: str) -> None:
        self.hits = []
        self.query_one("#hits", PlainList).show_rows([], None)
        self.status.tell(why)

    def _show(self, hits: list[Memo]) -> None:
        self.hits = hits
        words = self._typed()[0].lower().split()
        hit_list = self.query_one("#hits", PlainList)
        hit_list.show_rows([(str(memo.number), hit_row(memo, words)) for memo in hits], None)
        if not any(self._typed()):
            self.status.tell("type words, a place, a kind or a day")
        else:
            first = "the first " if len(hits) == _MOST else ""
            self.status.tell(
                f"{first}{len(hits)} memo{'s' if len(hits) != 1 else ''}" if hits else "no memo holds that"
            )

    def action_to_hits(self) -> None:
        """Down to the hits."""
        self.query_one("#hits").focus()

    def action_words(self) -> None:
        """Back to the words."""
        self.query_one("#find-words").focus()

    def action_clear(self) -> None:
        """Empty all lines."""
        for field in self.query(Input):
            field.value = ""
        self.action_words()

    @on(Input.Submitted)
    def _submitted(self) -> None:
        if self.hits:
            self.action_to_hits()

    @on(PlainList.Chosen)
    def _chosen(self, event: PlainList.Chosen) -> None:
        self.review.go_to_memo(int(event.name or 0))


def hit_row(memo: Memo, words: list[str]) -> Content:
    """A memo that was found, the words looked for underlined."""
    parts: list[tuple[str, str]] = []
    for index, word in enumerate(memo.text.split(" ")):
        hit = any(word.startswith(wanted[: max(3, len(wanted) - 2)]) for wanted in words)
        parts += [(" " if index else "", ""), (word, "bold underline" if hit else "")]
    head: date = memo.said_at.date()
    return Content.assemble(f"{day_name(head)} {memo.said_at:%H:%M}  ", *parts).append(quiet(f"  memo {memo.number}"))
