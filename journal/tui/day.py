"""The Day screen as it puts a day right: fields and words to correct, what that does before it is kept, and listening."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType

from journal.errors import JournalError
from journal.fields import describe, field_names
from journal.records import KINDS, Span
from journal.session import Session
from journal.tui.day_view import DayView, typed_over
from journal.tui.effect import differences
from journal.tui.fact_fields import FactFields
from journal.tui.fact_list import FactList
from journal.tui.marks import word_time
from journal.tui.playback import stretch
from journal.tui.words import Words

if TYPE_CHECKING:
    from journal.corrections import Corrected
    from journal.previews import Preview

_PAUSE = 0.12  # seconds of no typing before the effect is worked out


class DayScreen(DayView):
    """The day with its keys. Every change goes through the session; an effect is shown before it is kept."""

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
        self._pending: dict[str, str] = {}

    # ---- putting right -----------------------------------------------------------------------------------------

    @on(FactList.Chosen)
    def _fact_entered(self) -> None:
        if self.fact_in_hand is not None:
            self.fields.edit()
        elif self.in_hand is not None:
            self.action_words()

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
                lambda: self._stored(lambda: self.session.add(taken.memo.number, kind, event.typed)),
                memos=[taken.memo.number],
            )
            if done is not None:
                self._go_to(done.memo, done.number)
                self.review.tell(f"added: {describe(done.now)}")
            return
        if filed is None or not event.typed:
            self.query_one(FactList).focus()
            return
        was = typed_over(event.typed, filed.fact)
        done = self.review.keep(
            lambda: self._stored(lambda: self.session.fix(taken.memo.number, filed.number, event.typed)),
            memos=[taken.memo.number],
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
            told = f"right: {describe(filed.fact)}"
            self.review.keep(lambda: self.session.confirm(number, filed.number), told, memos=[number])
        elif taken.problems or taken.doubts:
            told = f"looked at: what was left open of memo {number}"
            self.review.keep(lambda: self.session.settle(number), told, memos=[number])

    def action_strike(self) -> None:
        """Show what striking the fact in hand would do; the second time, strike it."""
        taken, filed = self.in_hand, self.fact_in_hand
        if taken is None or filed is None:
            return
        which = (taken.memo.number, filed.number)
        if self._striking == which:
            self._striking = None
            told = f"struck: {describe(filed.fact)} (u brings it back)"
            self.review.keep(lambda: self.session.strike(*which), told, memos=which[:1])
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
        from journal.tui.asking import Pick

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
        if taken is not None and not self.query_one(Words).editing:
            self.query_one(Words).edit(taken.memo.text)

    @on(Words.Typed)
    def _words_typed(self, event: Words.Typed) -> None:
        taken = self.in_hand
        if taken is not None:
            self.ask_job(
                "reading it again",
                lambda session: session.read_again(taken.memo, " ".join(event.text.lower().split())),
                self.query_one(Words).would_say(self.effect, taken),
                group="effect",
            )

    @on(Words.Kept)
    def _words_kept(self, event: Words.Kept) -> None:
        taken = self.in_hand
        self.query_one(Words).leave()
        self.query_one(FactList).focus()
        if taken is None or not event.changed:
            return
        number = taken.memo.number
        done = self.review.keep(lambda: self.session.fix_words(number, event.text), memos=[number])
        if done is not None:
            self.review.tell(f"read again: {len(done)} fact{'s' if len(done) != 1 else ''} changed")

    @on(Words.Left)
    def _words_left(self, event: Words.Left) -> None:
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
        from journal.speech.base import SAMPLE_RATE

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
