"""What is left to do: tasks as they stand after what was said done, said anew, or released by an event.

A task said done closes the open ones that it is alike; one said anew replaces them (a new date, a condition met). A
waiting task is released when the event that it waits on is said ("the glass came", "took down the staging"). Pure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from journal.places import belongs_to
from journal.quantities.book import Book
from journal.records import FiledAside, Task, TaskStatus

_ALIKE = 0.5
_SAYS_NOTHING = frozenset(
    [
        "a",
        "an",
        "the",
        "is",
        "are",
        "was",
        "were",
        "be",
        "been",
        "being",
        "has",
        "have",
        "had",
        "get",
        "got",
        "gets",
        "it",
        "its",
        "it's",
        "that's",
        "to",
        "of",
        "on",
        "in",
        "at",
        "for",
        "up",
        "s",
        "and",
        "all",
        "so",
        "now",
        "then",
        "done",
        "finished",
        "there",
        "here",
    ]
)
_IRREGULAR = {
    "came": "come", "took": "take", "taken": "take", "done": "do", "did": "do", "put": "put", "hung": "hang", "got": "get",
    "gone": "go", "went": "go", "built": "build", "bought": "buy", "brought": "bring", "laid": "lay", "swept": "sweep",
    "ground": "grind", "cut": "cut", "set": "set", "made": "make", "split": "split", "bent": "bend", "sent": "send",
    "arrived": "come", "arrives": "come", "arrive": "come", "delivered": "come", "delivery": "come", "fit": "fit",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """A task as it stands: its fact, where it was said, and what changed it since (`because`, memo numbers)."""

    task: Task
    memo: int
    fact: int
    said_at: datetime
    status: TaskStatus
    overdue: bool
    because: tuple[int, ...] = ()

    def row(self) -> dict[str, object]:
        """The task as the object that `todo --json` gives."""
        task = self.task
        return {
            "memo": self.memo, "fact": self.fact, "place": task.place, "do": task.do, "status": self.status,
            "due": task.due.isoformat() if task.due else None, "after": task.after, "before": task.before,
            "overdue": self.overdue, "because": list(self.because),
        }  # fmt: skip


def to_do(book: Book, *, place: str | None = None) -> list[ToDo]:
    """Every task of the book as it stands on the day of `book.as_of`: open ones first, by due date, then waiting, then done.

    `place` keeps those of a place and of what belongs to it.
    """
    events = [
        (aside.said_at, aside.memo, aside.aside.place, aside.aside.text) for aside in book.asides if _is_event(aside)
    ]
    standing: list[ToDo] = []
    for filed in book.all_of(Task):
        task = filed.fact
        alike = [one for one in standing if one.status != "done" and _same_work(one.task, task)]
        for one in alike:
            standing.remove(one)
        entry = ToDo(
            task=_with_old_terms(task, alike), memo=filed.memo, fact=filed.number, said_at=filed.said_at,
            status=task.status, overdue=False, because=tuple(one.memo for one in alike),
        )  # fmt: skip
        standing.append(entry)
        if task.status == "done":
            events.append((filed.said_at, filed.memo, task.place, task.do))
    today = book.as_of.date()
    settled = [_due(_released(entry, events), today) for entry in standing]
    kept = [entry for entry in settled if place is None or belongs_to(entry.task.place, place)]
    return sorted(kept, key=_order)


def waiting_on(tasks: Iterable[ToDo]) -> dict[str, list[ToDo]]:
    """Waiting tasks by the condition that they wait on, and open ones by the event they must be done before."""
    groups: dict[str, list[ToDo]] = {}
    for entry in tasks:
        condition = entry.task.after if entry.status == "waiting" else entry.task.before
        if condition and entry.status != "done":
            key = next((known for known in groups if _alike(known, condition)), condition)
            groups.setdefault(key, []).append(entry)
    return groups


def _is_event(aside: FiledAside) -> bool:
    return aside.aside.topic == "happened"


def _with_old_terms(task: Task, alike: list[ToDo]) -> Task:
    """A task said anew keeps the event that it must be done before, unless another was said; a date is said anew or gone."""
    before = task.before or next((one.task.before for one in reversed(alike) if one.task.before), None)
    place = task.place or next((one.task.place for one in reversed(alike) if one.task.place), None)
    return replace(task, before=before, place=place)


def _released(entry: ToDo, events: list[tuple[datetime, int, str | None, str]]) -> ToDo:
    if entry.status != "waiting" or not entry.task.after:
        return entry
    for said_at, memo, place, event in events:
        if (
            said_at >= entry.said_at
            and memo != entry.memo
            and _near(place, entry.task.place)
            and _meets(event, entry.task.after)
        ):
            return replace(entry, status="open", because=(*entry.because, memo))
    return entry


def _due(entry: ToDo, today: date) -> ToDo:
    late = entry.status != "done" and entry.task.due is not None and entry.task.due < today
    return replace(entry, overdue=late)


def _order(entry: ToDo) -> tuple[object, ...]:
    rank = {"open": 0, "waiting": 1, "done": 2}[entry.status]
    return (rank, entry.task.due or date.max, entry.said_at, entry.memo, entry.fact)


def _same_work(old: Task, new: Task) -> bool:
    return _near(old.place, new.place) and _alike(old.do, new.do)


def _near(one: str | None, other: str | None) -> bool:
    return one is None or other is None or belongs_to(one, other) or belongs_to(other, one)


def _alike(one: str, other: str) -> bool:
    mine, theirs = _stems(one), _stems(other)
    return bool(mine and theirs) and 2 * len(mine & theirs) / (len(mine) + len(theirs)) > _ALIKE


def _meets(event: str, condition: str) -> bool:
    """Whether an event is the one waited on: all that names the condition is in it, or most of both is the same."""
    wanted, happened = _stems(condition), _stems(event)
    return bool(wanted) and (wanted <= happened or _alike(event, condition))


def _stems(text: str) -> frozenset[str]:
    words = re.findall(r"[a-z0-9]+", text.lower().replace("'s", "").replace("'ve", ""))
    return frozenset(_stem(word) for word in words if word not in _SAYS_NOTHING)


def _stem(word: str) -> str:
    plain = _IRREGULAR.get(word, word)
    bare = re.sub(r"(ing|ed|es|s)$", "", plain) if len(plain) > 4 else re.sub(r"(?<!s)s$", "", plain)
    bare = re.sub(r"([bdgmnprt])\1$", r"\1", bare)
    return bare.removesuffix("e") if len(bare) > 3 else bare
