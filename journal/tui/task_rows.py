"""Tasks as rows: ``[ ]`` open, ``[~]`` waiting, ``[x]`` done, ``!`` overdue. Pure."""

from __future__ import annotations

from textual.content import Content

from journal.quantities.book import day
from journal.quantities.tasks import ToDo

_BOXES = {"open": "[ ]", "waiting": "[~]", "done": "[x]"}


def task_line(entry: ToDo, *, with_place: bool = True) -> Content:
    """A task in one line: box, what, where, when and on what it waits."""
    task = entry.task
    when = ""
    if task.due is not None:
        when = f"  by {task.due:%a} {task.due.day} {task.due:%b}"
    parts: list[tuple[str, str]] = [
        (_BOXES[entry.status], ""),
        ("!" if entry.overdue else " ", "bold $text-error"),
        (task.do, "bold"),
        (f"  {task.place or 'no place'}" if with_place else "", ""),
        (when + (" overdue" if entry.overdue else ""), "bold $text-error" if entry.overdue else ""),
        (f"  once {task.after}" if entry.status == "waiting" and task.after else "", ""),
        (f"  before {task.before}" if task.before else "", ""),
        (f"  memo {entry.memo}, {day(entry.said_at)}", "$foreground 65%"),
    ]
    return Content.assemble(*parts)
