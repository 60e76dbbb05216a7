"""The Day screen: the memos of a day, the words of the one in hand, its facts to put right, and what that does."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.widgets import OptionList

from journal.corrections import Corrected
from journal.errors import JournalError
from journal.fields import describe, field_names, format_field
from journal.intake import Taken
from journal.previews import Preview
from journal.records import KINDS, Fact, Filed, Memo, Span
from journal.session import Session
from journal.speech.base import SAMPLE_RATE
from journal.tui.asking import Pick
from journal.tui.effect import Effect, differences
from journal.tui.fact_fields import FactFields
from journal.tui.fact_list import FactList, Remark, rows_of
from journal.tui.job_screen import JobScreen
from journal.tui.marks import day_name, is_doubtful, word_time
from journal.tui.memo_list import MemoList
from journal.tui.playback import stretch
from journal.tui.words import Words, WordsField

_PAUSE = 0.12  # seconds of no typing before the effect is worked out


class DayScreen(JobScreen):
    """A day to go through. What stands is read from the session each time; the screen only knows where the cursor is."""

    mode = "day"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "doubt(1)", "Next doubt", id="day.next", tooltip="Go to the next doubt of the day"),
        Binding("N", "doubt(-1)", "Doubt before", show=False, id="day.before", tooltip="Go to the doubt before"),
        Binding("c", "confirm", "Right", id="day.confirm", tooltip="The fact in hand is right; its doubts are settled"),
        Binding("x,delete", "strike", "Strike", id="day.strike", tooltip="Take the fact in hand out of the book"),
        Binding("a", "add", "Add", id="day.add", tooltip="Add a fact that was missed"),
        Binding("w", "words", "Words", id="day.words", tooltip="Put the words right; the memo is read again"),
        Binding("p", "play", "Play", id="day.play", tooltip="Play what the fact in hand was heard from; again: stop"),
        Binding("P", "play_all", "Play all", show=False, id="day.play_all", tooltip="Play the whole recording"),
        Binding("o", "other_reading", "Other reading", show=False, id="day.other",
                tooltip="Put the next-best reading of a doubted stretch into the words"),
        Binding("d", "doubtful_first", "Doubtful first", show=False, id="day.order",
                tooltip="Doubtful memos first, or in the order said"),
        Binding("left_square_bracket", "other_day(1)", "Day before", key_display="[", show=False, id="day.earlier",
                tooltip="The day before that has memos"),
        Binding("right_square_bracket", "other_day(-1)", "Day after", key_display="]", show=False, id="day.later",
                tooltip="The next day that has memos"),
        Binding("g", "go_to_day", "Go to a day", show=False, id="day.go", tooltip="Pick a day"),
    ]  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self.day: date | None = None
        self.taken: list[Taken] = []
        self.doubtful_first = False
        self._memo = 0
        self._fact = 1
        self._adding: str | None = None
        self._asked: tuple[date, int, int] | None = None
        self._pending: dict[str, str] = {}
        self._striking: tuple[int, int] | None = None

    def panes(self) -> ComposeResult:
        """Memos on the left; words, facts, fields and effect on the right."""
        with Horizontal():
            yield MemoList(id="memos")
            with Vertical(id="memo"):
                yield Words()
                yield FactList(id="facts")
                yield FactFields(id="fields")
                with VerticalScroll(id="effect-pane", can_focus=False):
                    yield Effect()

    # ---- what is in hand ---------------------------------------------------------------------------------------

    @property
    def in_hand(self) -> Taken | None:
        """The memo in hand."""
        return next((taken for taken in self.taken if taken.memo.number == self._memo), None)

    @property
    def fact_in_hand(self) -> Filed[Fact] | None:
        """The fact in hand, None where there is none or a remark is."""
        taken = self.in_hand
        return next((f for f in taken.facts if f.number == self._fact), None) if taken else None

    @property
    def fields(self) -> FactFields:
        """The fields of the fact in hand."""
        return self.query_one(FactFields)

    @property
    def effect(self) -> Effect:
        """Where the effect of a change is shown."""
        return self.query_one(Effect)

    def unkept(self) -> str:
        """The fields that were typed in, each with what stands."""
        words = self.query(WordsField)
        if words and words.first().changed:
            return f"the words of memo {self._memo}"
        return _unkept(self.fields.typed, self.fact_in_hand.fact if self.fact_in_hand and not self._adding else None)

    # ---- reading the job ---------------------------------------------------------------------------------------

    def load(self) -> None:
        """Read the day; the cursor stays on its memo and fact."""
        if self.day is None:
            self.day = self.review.first_day or self._last_day()
        self.show_day(self.day, memo=self._memo, fact=self._fact)
        self._go_where_asked()

    def show_day(self, day: date, *, memo: int = 0, fact: int = 1) -> None:
        """Show a day with the cursor on a memo, the first one where it has no such memo."""
        self.day = day
        self.taken = self.session.day_of(day)
        shown = sorted(self.taken, key=lambda t: not doubts_of(t)) if self.doubtful_first else self.taken
        numbers = [taken.memo.number for taken in shown]
        self._memo = memo if memo in numbers else numbers[0] if numbers else 0
        self._fact = fact
        self.query_one(MemoList).show(shown, self._memo)
        self._show_memo()
        self._tell_left()
        if self.focused is None:
            self.query_one(MemoList).focus()

    def show_memo(self, memo: Memo, fact: int = 1) -> None:
        """Put a memo and one of its facts in hand; from another screen too, before this one was ever shown."""
        self._asked = (memo.said_at.date(), memo.number, fact)
        if self.is_mounted and self.query(MemoList):
            self._go_where_asked()

    def _go_where_asked(self) -> None:
        if self._asked is not None:
            day, memo, fact = self._asked
            self._asked = None
            self.show_day(day, memo=memo, fact=fact)
            self.query_one(FactList).focus()

    def _last_day(self) -> date:
        days = self.review.days
        return days[0][0] if days else date.today()

    def _tell_left(self) -> None:
        assert self.day is not None
        left = sum(doubts_of(taken) for taken in self.taken)
        count = "no doubts left" if not left else f"{left} doubt{'s' if left != 1 else ''} left"
        memos = f"{len(self.taken)} memo{'s' if len(self.taken) != 1 else ''}" if self.taken else "no memos"
        order = "doubtful first" if self.doubtful_first else ""
        self.status.tell(day_name(self.day), memos, count, order)

    def _show_memo(self) -> None:
        self._adding = self._striking = None
        taken = self.in_hand
        facts = self.query_one(FactList)
        facts.show(taken, self._fact)
        self._fact = facts.number
        self._show_fact()

    def _show_fact(self) -> None:
        self._striking = None
        filed = self.fact_in_hand
        self.query_one(Words).show(self.in_hand, filed)
        self.fields.show(filed.fact if filed else None, self.review.places)
        self.effect.show(self.query_one(Words).remarks(filed))

    # ---- moving ------------------------------------------------------------------------------------------------

    @on(OptionList.OptionHighlighted, "#memos")
    def _memo_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        number = int(event.option_id or 0)
        if number == self._memo:
            return
        self._say_left_behind()
        self._memo, self._fact = number, 1
        self._show_memo()

    @on(FactList.Moved)
    def _fact_highlighted(self) -> None:
        facts = self.query_one(FactList)
        if facts.number == self._fact:
            return
        self._say_left_behind()
        self._fact = facts.number
        self._adding = None
        self._show_fact()

    @on(MemoList.Entered)
    def _memo_entered(self) -> None:
        self.query_one(FactList).focus()

    @on(FactList.Left)
    def _facts_left(self) -> None:
        self.query_one(MemoList).focus()

    @on(FactList.Chosen)
    def _fact_entered(self) -> None:
        if self.fact_in_hand is not None:
            self.fields.edit()
        elif self.in_hand is not None:
            self.action_words()

    def _say_left_behind(self) -> None:
        if unkept := self.unkept():
            self.review.tell(f"not kept: {unkept}")

    def action_doubt(self, step: int) -> None:
        """Go to the next doubt of the day, round again at the end."""
        stops = [
            (taken.memo.number, row.number)
            for taken in self._in_order()
            for row in rows_of(taken)
            if isinstance(row, Remark) or is_doubtful(row)
        ]
        if not stops:
            self.review.tell("no doubts are left on this day")
            return
        order = [taken.memo.number for taken in self._in_order()]
        places = [(order.index(memo), fact) for memo, fact in stops]
        here = (order.index(self._memo), self._fact)
        after = [at for at, place in enumerate(places) if (place > here if step > 0 else place < here)]
        at = (after[0] if step > 0 else after[-1]) if after else (0 if step > 0 else len(stops) - 1)
        self._say_left_behind()
        self._go_to(*stops[at])

    def _go_to(self, memo: int, fact: int) -> None:
        self._memo, self._fact = memo, fact
        self.query_one(MemoList).put_cursor_on(memo)
        self._show_memo()
        self.query_one(FactList).focus()

    def _in_order(self) -> list[Taken]:
        numbers = self.query_one(MemoList).numbers
        return sorted(self.taken, key=lambda taken: numbers.index(taken.memo.number))

    def action_doubtful_first(self) -> None:
        """Doubtful memos first, or in the order said."""
        self.doubtful_first = not self.doubtful_first
        self.load()

    def action_other_day(self, step: int) -> None:
        """The day before or after that has memos."""
        assert self.day is not None
        days = [day for day, _ in self.review.days]
        others = [day for day in days if (day < self.day if step > 0 else day > self.day)]
        if not others:
            self.review.tell("there are no memos before this day" if step > 0 else "there are no memos after this day")
            return
        self._say_left_behind()
        self.show_day(others[0] if step > 0 else others[-1])

    def action_go_to_day(self) -> None:
        """Pick a day from those that have memos."""
        days = self.review.days
        choices = [(day.isoformat(), f"{day_name(day)}  {count} memos") for day, count in days]

        def go(day: str | None) -> None:
            if day is not None:
                self.show_day(date.fromisoformat(day))

        self.app.push_screen(Pick("Go to a day", choices), go)

    # ---- putting right -----------------------------------------------------------------------------------------

    @on(FactFields.Typed)
    def _typed(self, event: FactFields.Typed) -> None:
        self._pending = event.typed
        self.set_timer(_PAUSE, lambda: self._work_out(event.typed))

    def _work_out(self, typed: dict[str, str]) -> None:
        """Show what would become of the quantities, unless more was typed meanwhile."""
        filed, taken = self.fact_in_hand, self.in_hand
        if typed is not self._pending or taken is None:
            return
        if not typed:
            self.effect.show(self.query_one(Words).remarks(filed))
            return
        memo, adding = taken.memo.number, self._adding
        number = filed.number if filed is not None else 0

        def question(session: Session) -> Preview | JournalError | None:
            try:
                if adding:
                    return session.preview_added(memo, adding, typed)
                return session.preview(memo, number, typed)
            except JournalError as error:
                return error

        self.ask_job("working out the effect", question, self._show_effect, group="effect")

    def _show_effect(self, found: Preview | JournalError | None, title: str = "Enter keeps it:") -> None:
        if isinstance(found, JournalError):
            self.effect.show(f"! {found.message}\n  {found.hint}")
        elif found is None:
            self.effect.show(f"{title} no place, so no quantities of a place change")
        else:
            self.effect.tell(f"{title} {found.place}", differences(found.before, found.after))

    @on(FactFields.Kept)
    def _kept(self, event: FactFields.Kept) -> None:
        taken, filed = self.in_hand, self.fact_in_hand
        if taken is None:
            return
        if self._adding:
            kind = self._adding
            done = self.review.keep(
                lambda: self._stored(lambda: self.session.add(taken.memo.number, kind, event.typed))
            )
            if done is not None:
                self._go_to(done.memo, done.number)
                self.review.tell(f"added: {describe(done.now)}")
            return
        if filed is None or not event.typed:
            self.query_one(FactList).focus()
            return
        was = _unkept(event.typed, filed.fact)
        done = self.review.keep(
            lambda: self._stored(lambda: self.session.fix(taken.memo.number, filed.number, event.typed))
        )
        if done is not None:
            self.query_one(FactList).focus()
            self.review.tell(f"kept: {was}")

    def _stored(self, change: Callable[[], Corrected]) -> Corrected:
        """The change made, and the fields no longer in the way of showing it."""
        done = change()
        self._adding = None
        self.fields.show(None)
        return done

    @on(FactFields.Left)
    def _fields_left(self, event: FactFields.Left) -> None:
        if event.unkept:
            self.review.tell(f"not kept: {self.unkept()}")
        self._adding = None
        self._pending = {}
        self._show_fact()
        self.query_one(FactList).focus()
        self.job_changed()

    def action_confirm(self) -> None:
        """The fact in hand is right; on a remark, the remarks of the memo are settled."""
        taken, filed = self.in_hand, self.fact_in_hand
        if taken is None:
            return
        number = taken.memo.number
        if filed is not None:
            self.review.keep(lambda: self.session.confirm(number, filed.number), f"right: {describe(filed.fact)}")
        elif taken.problems or taken.doubts:
            self.review.keep(lambda: self.session.settle(number), f"looked at: what was left open of memo {number}")

    def action_strike(self) -> None:
        """Show what striking the fact in hand would do; the second time, strike it."""
        taken, filed = self.in_hand, self.fact_in_hand
        if taken is None or filed is None:
            return
        which = (taken.memo.number, filed.number)
        if self._striking == which:
            self._striking = None
            self.review.keep(lambda: self.session.strike(*which), f"struck: {describe(filed.fact)} (u brings it back)")
            return
        self._striking = which
        self.effect.show("x again strikes it, any other key leaves it")
        self.ask_job(
            "working out the effect",
            lambda session: session.preview_struck(*which),
            lambda found: self._show_effect(found, "x again strikes it:") if self._striking == which else None,
            group="effect",
        )

    def action_add(self) -> None:
        """Pick a kind and type the fields of a fact that was missed."""
        if self.in_hand is None:
            return
        self.app.push_screen(Pick("Add what kind of fact?", [(kind, kind) for kind in KINDS]), self._add)

    def _add(self, kind: str | None) -> None:
        taken = self.in_hand
        if kind is None or taken is None:
            return
        self._adding = kind
        given = {"place": taken.memo.place} if taken.memo.place and "place" in field_names(kind) else {}
        self.fields.blank(kind, given, self.review.places)
        self.effect.show(f"a {kind} for memo {taken.memo.number}: Enter keeps it, Esc leaves it")

    # ---- words -------------------------------------------------------------------------------------------------

    def action_words(self) -> None:
        """Put the words right."""
        taken = self.in_hand
        if taken is not None and not self.query(WordsField):
            self.query_one(Words).edit(taken.memo.text)

    @on(WordsField.Typed)
    def _words_typed(self, event: WordsField.Typed) -> None:
        taken = self.in_hand
        if taken is not None:
            self.ask_job(
                "reading it again",
                lambda session: session.read_again(taken.memo, " ".join(event.text.lower().split())),
                self.query_one(Words).would_say(self.effect, taken),
                group="effect",
            )

    @on(WordsField.Kept)
    def _words_kept(self, event: WordsField.Kept) -> None:
        taken = self.in_hand
        self.query_one(Words).leave()
        self.query_one(FactList).focus()
        if taken is None or not event.changed:
            return
        done = self.review.keep(lambda: self.session.fix_words(taken.memo.number, event.text))
        if done is not None:
            self.review.tell(f"read again: {len(done)} fact{'s' if len(done) != 1 else ''} changed")

    @on(WordsField.Left)
    def _words_left(self, event: WordsField.Left) -> None:
        if event.changed:
            self.review.tell(f"not kept: the words of memo {self._memo}")
        self.query_one(Words).leave()
        self._show_fact()
        self.query_one(FactList).focus()

    def action_other_reading(self) -> None:
        """Open the words with the doubted stretch of the fact or remark in hand read the other way."""
        taken = self.in_hand
        if taken is None:
            return
        filed = self.fact_in_hand
        doubts = [*(filed.fact.doubts if filed is not None else ()), *taken.doubts, *taken.memo.heard_doubts]
        found = next((doubt for doubt in doubts if doubt.other), None)
        if found is None:
            self.review.tell("no other reading is known")
            return
        text, (start, end) = taken.memo.text, found.span
        self.query_one(Words).edit(text, text[:start] + found.other[0] + text[end:])

    # ---- listening ---------------------------------------------------------------------------------------------

    def action_play(self) -> None:
        """Play the stretch behind the fact in hand, or stop."""
        filed = self.fact_in_hand
        self._play(filed.fact.evidence if filed is not None else None)

    def action_play_all(self) -> None:
        """Play the whole recording, or stop."""
        self._play(None)

    def _play(self, span: Span | None) -> None:
        taken, player = self.in_hand, self.review.player
        if player.playing:
            player.stop()
            return
        if taken is None:
            return
        times = word_time(taken.memo.text, taken.memo.words, span) if span is not None else None
        if span is not None and times is None and taken.memo.recording is not None:
            self.review.tell("word times are not known: playing the whole recording")
        reader = self.review.reader

        def play() -> None:
            sound = reader.ask(lambda session: session.sound_of(taken.memo.number))
            start, end = times or (0.0, sound.seconds)
            player.play(stretch(sound, start, end, SAMPLE_RATE), SAMPLE_RATE)

        self.in_worker("playing; p stops it", play, lambda _: None, group="play")


def doubts_of(taken: Taken) -> int:
    """How many doubts and unusable stretches of a memo still wait to be looked at."""
    return sum(map(is_doubtful, taken.facts)) + len(taken.doubts) + len(taken.problems)


def _unkept(typed: dict[str, str], fact: Fact | None) -> str:
    parts = []
    for name, value in typed.items():
        was = format_field(fact, name) if fact is not None else ""
        parts.append(f"{name} {value or 'nothing'}" + (f" (was {was})" if was else ""))
    return ", ".join(parts)
