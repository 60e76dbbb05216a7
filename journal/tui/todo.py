"""The To do screen: what is open, waiting and due, by place, by condition or by day; ticked off, postponed, released."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content

from journal.quantities.tasks import ToDo, to_do, waiting_on
from journal.session import Session
from journal.tui.asking import Line
from journal.tui.days import typed_day
from journal.tui.job_screen import JobScreen
from journal.tui.lists import PlainList
from journal.tui.marks import day_name, quiet
from journal.tui.pane import Pane
from journal.tui.task_rows import task_line

_VIEWS = ("by day", "by place", "by condition")
Part = tuple[str, list[ToDo]]


class ToDoScreen(JobScreen):
    """Tasks as they stand today, in one of three orders."""

    mode = "todo"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", "Tick off", id="todo.tick", tooltip="The task in hand is done; u takes it back"),
        Binding("p", "postpone", "Postpone", id="todo.postpone", tooltip="Give the task in hand another day"),
        Binding("plus", "later(1)", "A day later", key_display="+", show=False, id="todo.later", tooltip="A day later"),
        Binding("minus", "later(-1)", "A day sooner", key_display="-", show=False, id="todo.sooner",
                tooltip="A day sooner"),
        Binding("r", "release", "Release", id="todo.release", tooltip="What the waiting task waits on has happened"),
        Binding("v", "view", "Order", id="todo.view", tooltip="By day, by place or by condition"),
        Binding("f", "finished", "Finished", show=False, id="todo.finished", tooltip="Show what is done too"),
        Binding("m", "memo", "Memo", id="todo.memo", tooltip="Go to the memo of the task in hand"),
    ]  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self.tasks: list[ToDo] = []
        self.today = date.today()
        self.order = 0
        self.finished = False

    def panes(self) -> ComposeResult:
        """The tasks, and a word on the one in hand."""
        yield PlainList(id="tasks")
        with VerticalScroll(id="released-pane", can_focus=False):
            yield Pane(id="released")

    @property
    def rows(self) -> PlainList:
        """The list."""
        return self.query_one("#tasks", PlainList)

    @property
    def in_hand(self) -> ToDo | None:
        """The task under the cursor."""
        return next((task for task in self.tasks if _name(task) == (self.rows.chosen or "").partition("#")[0]), None)

    # ---- reading -----------------------------------------------------------------------------------------------

    def load(self) -> None:
        """Read the tasks in a worker."""

        def question(session: Session) -> tuple[date, list[ToDo]]:
            book = session.book(kinds=("task",))
            return book.as_of.date(), to_do(book)

        if self.focused is None:
            self.rows.focus()
        self.ask_job("reading the tasks", question, self._show, group="tasks")

    def _show(self, found: tuple[date, list[ToDo]]) -> None:
        self.today, self.tasks = found
        self._list()

    def _list(self) -> None:
        tasks = self.tasks
        keep = self.rows.chosen
        shown = [task for task in tasks if self.finished or task.status != "done"]
        rows: list[tuple[str | None, Content]] = []
        for title, part in _parts(shown, self.order, self.today):
            rows.append((None, Content(title)))
            rows += [(f"{_name(task)}#{title}", task_line(task, with_place=self.order != 1)) for task in part]
        self.rows.show_rows(rows or [(None, Content("nothing is left to do"))], keep)
        states = {state: sum(task.status == state for task in tasks) for state in ("open", "waiting")}
        late = sum(task.overdue for task in tasks)
        self.status.tell(
            f"{states['open']} open",
            f"{states['waiting']} waiting",
            f"{late} overdue" if late else "",
            _VIEWS[self.order],
        )
        self._show_task()

    @on(PlainList.Moved)
    def _show_task(self) -> None:
        self.query_one("#released", Pane).show(condition_told(self.in_hand, self.tasks, self.today))

    # ---- changing ----------------------------------------------------------------------------------------------

    def _fix(self, task: ToDo, typed: dict[str, str], told: str) -> None:
        self.review.keep(lambda: self.session.fix(task.memo, task.fact, typed), told)

    @on(PlainList.Chosen)
    def action_tick(self) -> None:
        """The task in hand is done; one that is done is open again."""
        if (task := self.in_hand) is not None:
            again = task.status == "done"
            self._fix(
                task, {"status": "open" if again else "done"}, f"{'open again' if again else 'done'}: {task.task.do}"
            )

    def action_later(self, days: int) -> None:
        """Move the day of the task in hand; one without a day gets tomorrow."""
        if (task := self.in_hand) is not None:
            due = (task.task.due or self.today) + timedelta(days=days)
            self._fix(task, {"due": due.isoformat()}, f"{task.task.do}: by {day_name(due)}")

    def action_postpone(self) -> None:
        """Ask for another day."""
        task = self.in_hand
        if task is None:
            return

        def typed(text: str, line: Line) -> None:
            line.say(_day_told(text, self.today))

        def kept(text: str | None) -> None:
            if text is not None:
                self._fix(task, {"due": typed_day(text, self.today)}, f"postponed: {task.task.do}, {text or 'no day'}")

        hint = "A day as friday, tomorrow or 2026-07-31; empty for none."
        due = task.task.due.isoformat() if task.task.due else ""
        self.app.push_screen(Line(f"Postpone: {task.task.do}", due, hint, typed=typed), kept)

    def action_release(self) -> None:
        """What the waiting task in hand waits on has happened: it and what waits on the same are open."""
        task = self.in_hand
        if task is None or task.status != "waiting":
            self.review.tell("only a waiting task can be released")
            return
        group = next((found for found in waiting_on(self.tasks).values() if task in found), [task])
        for one in group:
            if one.status == "waiting":
                self.review.keep(lambda one=one: self.session.fix(one.memo, one.fact, {"status": "open"}))  # type: ignore[misc]
        count = sum(one.status == "waiting" for one in group)
        self.review.tell(f"once {task.task.after}: {count} task{'s' if count != 1 else ''} open now")

    def action_view(self) -> None:
        """Another order."""
        self.order = (self.order + 1) % len(_VIEWS)
        self._list()

    def action_finished(self) -> None:
        """Show what is done too, or not."""
        self.finished = not self.finished
        self._list()

    def action_memo(self) -> None:
        """Go to the memo of the task in hand."""
        if (task := self.in_hand) is not None:
            self.review.go_to_memo(task.memo, task.fact)


def condition_told(task: ToDo | None, tasks: Iterable[ToDo], today: date) -> Content:
    """What the event of a task releases, and what must be done before it."""
    if task is None:
        return Content("")
    lines = []
    for event, group in waiting_on(tasks).items():
        if task not in group:
            continue
        lines.append(Content.styled(f"When {event}", "bold"))
        released = [one for one in group if one.status == "waiting"]
        before = [one for one in group if one.status == "open"]
        lines += [Content(f"  opens: {one.task.do}, {one.task.place or 'no place'}") for one in released]
        lines += [Content(f"  first: {one.task.do}, {one.task.place or 'no place'}") for one in before]
    if task.because:
        lines.append(quiet("changed by memo " + ", ".join(map(str, task.because))))
    if task.overdue and task.task.due is not None:
        late = (today - task.task.due).days
        lines.append(Content(f"overdue by {late} day{'s' if late != 1 else ''}"))
    return Content("\n").join(lines)


def _name(task: ToDo) -> str:
    return f"task {task.memo}.{task.fact}"


def _day_told(text: str, today: date) -> Content:
    try:
        return Content(day_name(date.fromisoformat(typed_day(text, today))))
    except ValueError:
        return quiet("no day" if not text.strip() else f"'{text}' is no day yet")


def _parts(tasks: list[ToDo], order: int, today: date) -> list[Part]:
    """The tasks under headings: by day, by place or by condition."""
    if order == 1:
        places = sorted({task.task.place or "" for task in tasks})
        return [(place or "no place", [t for t in tasks if (t.task.place or "") == place]) for place in places]
    if order == 2:
        groups = [(f"when {event}", found) for event, found in waiting_on(tasks).items()]
        grouped = [task for _, found in groups for task in found]
        rest = [task for task in tasks if task not in grouped]
        return [*groups, *([("on no condition", rest)] if rest else [])]
    parts: list[Part] = [
        ("overdue", [t for t in tasks if t.overdue]),
        ("today and the week", [t for t in tasks if _is_soon(t, today)]),
        ("open", [t for t in tasks if t.status == "open" and not t.overdue and not _is_soon(t, today)]),
        ("waiting", [t for t in tasks if t.status == "waiting" and not t.overdue and not _is_soon(t, today)]),
        ("done", [t for t in tasks if t.status == "done"]),
    ]
    return [(title, found) for title, found in parts if found]


def _is_soon(task: ToDo, today: date) -> bool:
    due = task.task.due
    return task.status != "done" and not task.overdue and due is not None and due <= today + timedelta(days=7)
