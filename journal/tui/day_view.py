"""The Day screen as it shows a day: the memos, the words and facts of the one in hand, and how the cursor goes through them."""

from __future__ import annotations

from datetime import date

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll

from journal.fields import format_field
from journal.intake import Taken
from journal.records import Fact, Filed, Memo
from journal.tui.effect import Effect
from journal.tui.fact_fields import FactFields
from journal.tui.fact_list import FactList, Remark, rows_of
from journal.tui.job_screen import JobScreen
from journal.tui.marks import day_name, is_doubtful
from journal.tui.memo_list import MemoList
from journal.tui.words import Words

_ELSEWHERE = "No memos on this day. [ and ] go to days that have some, g picks one."
_NOT_YET = 'No memos yet. Take the first one: journal take, or journal take --say "wall a height eight foot two".'
_MANY = 100  # memos of a day; of more the screen does not wait for the reading


class DayView(JobScreen):
    """A day to go through. What stands is read from the session each time; the screen only knows where the cursor is."""

    mode = "day"

    def __init__(self) -> None:
        super().__init__()
        self.day: date | None = None
        self.taken: list[Taken] = []
        self.doubtful_first = False
        self._memo = 0
        self._fact = 1
        self._adding: str | None = None
        self._asked: tuple[date, int, int] | None = None
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
        if self.query_one(Words).changed:
            return f"the words of memo {self._memo}"
        return typed_over(self.fields.typed, self.fact_in_hand.fact if self.fact_in_hand and not self._adding else None)

    # ---- reading the job ---------------------------------------------------------------------------------------

    def load(self) -> None:
        """Read the day; the cursor stays on its memo and fact."""
        if self.day is None:
            self.day = self.review.first_day or self._last_day()
        self.show_day(self.day, memo=self._memo, fact=self._fact)
        self._go_where_asked()

    def show_changed(self, memos: tuple[int, ...]) -> bool:
        """Show memos of this day as they are now; a long day is not read again for one of its memos."""
        at = {taken.memo.number: index for index, taken in enumerate(self.taken)}
        if not at.keys() >= set(memos):
            return False
        for number in memos:
            memo = self.session.store.memo(number)
            if memo is None:
                return False
            self.taken[at[number]] = self.session.taken(memo)
            self.query_one(MemoList).show_changed(self.taken[at[number]])
        self._show_memo()
        self._tell_left()
        return True

    def show_day(self, day: date, *, memo: int = 0, fact: int = 1) -> None:
        """Show a day with the cursor on a memo, the first one where it has no such memo."""
        self.day = day
        if dict(self.review.days).get(day, 0) <= _MANY:
            self._show_taken(day, self.session.day_of(day), memo, fact)
            return
        self.ask_job(
            f"reading {day_name(day)}",
            lambda session: session.day_of(day),
            lambda taken: self._show_taken(day, taken, memo, fact),
            group="day",
        )

    def _show_taken(self, day: date, taken_that_day: list[Taken], memo: int, fact: int) -> None:
        if day != self.day:
            return
        self.taken = taken_that_day
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
        self.query_one(Words).show(self.in_hand, filed, _ELSEWHERE if self.review.days else _NOT_YET)
        self.fields.show(filed.fact if filed else None, self.review.places)
        self.effect.show(self.query_one(Words).remarks(filed))

    # ---- moving ------------------------------------------------------------------------------------------------

    @on(MemoList.Moved, "#memos")
    def _memo_highlighted(self, event: MemoList.Moved) -> None:
        number = int(event.name or 0)
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
        from journal.tui.asking import Pick

        days = self.review.days
        choices = [(day.isoformat(), f"{day_name(day)}  {count} memos") for day, count in days]

        def go(day: str | None) -> None:
            if day is not None:
                self.show_day(date.fromisoformat(day))

        self.app.push_screen(Pick("Go to a day", choices), go)


def doubts_of(taken: Taken) -> int:
    """How many doubts and unusable stretches of a memo still wait to be looked at."""
    return sum(map(is_doubtful, taken.facts)) + len(taken.doubts) + len(taken.problems)


def typed_over(typed: dict[str, str], fact: Fact | None) -> str:
    """What was typed into fields, each with what stands: ``figure 99 (was 30 1/2)``."""
    parts = []
    for name, value in typed.items():
        was = format_field(fact, name) if fact is not None else ""
        parts.append(f"{name} {value or 'nothing'}" + (f" (was {was})" if was else ""))
    return ", ".join(parts)
