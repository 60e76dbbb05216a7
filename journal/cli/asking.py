"""`journal day`, `about`, `find`, `todo`: what was said, by day, by place, by words, and what is left to do."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

import click

from journal.cli.common import Day, emit, note, open_session, with_as_of, with_output
from journal.cli.shapes import about_lines, about_row, change_lines, change_rows, filed_row, memo_lines, memo_row
from journal.quantities.base import answers
from journal.session import Session


@click.command()
@click.argument("when", metavar="[DAY]", required=False, type=Day())
@click.option("--since", type=Day(), metavar="DAY", help="Instead: what has changed since that day.")
@with_as_of
@with_output
@click.pass_context
def day(ctx: click.Context, when: date | None, since: date | None, as_of: datetime | None, form: str | None) -> None:
    """The memos of a day with their facts; today if no DAY is given.

    \b
    journal day
    journal day tuesday
    journal day --since 2026-07-21
    """
    session = open_session(ctx)
    if since is not None:
        rows = change_rows(session.store.memos_since(since, as_of=as_of), session.book(as_of=as_of))
        if not emit(rows, form, change_lines):
            note(f"nothing has changed since {since}")
        return
    wanted = when or (as_of.date() if as_of else date.today())
    if not emit(map(memo_row, session.day_of(wanted, as_of=as_of)), form, memo_lines):
        days = session.store.days()
        last = f" The last day with memos is {days[0][0]}." if days else " There are none yet."
        note(f"no memos on {wanted}.{last}")


@click.command()
@click.argument("place", required=False)
@click.option("--since", type=Day(), metavar="DAY", help="Instead: what has changed there since that day.")
@with_as_of
@with_output
@click.pass_context
def about(ctx: click.Context, place: str | None, since: date | None, as_of: datetime | None, form: str | None) -> None:
    """Everything about one place: newest figures first, what they imply, what is missing. Without PLACE, the places.

    \b
    journal about "wall a"
    journal about "lake gable" --as-of 2026-07-24
    """
    session = open_session(ctx)
    if place is None:
        emit(_places(session, as_of), form, lambda row: f"{row['place']}  {row['facts']} facts")
        return
    found = session.place(place)
    if since is not None:
        memos = session.store.memos_since(since, as_of=as_of)
        if not emit(change_rows(memos, session.book(as_of=as_of), place=found), form, change_lines):
            note(f"nothing has changed at {found} since {since}")
        return
    book = session.book(found, as_of=as_of)
    problems = session.store.problems_at(found, as_of=as_of)
    emit([about_row(found, book, answers(book, found), problems)], form, about_lines)


def _places(session: Session, as_of: datetime | None) -> list[dict[str, Any]]:
    counts: dict[str, int] = {}
    for filed in session.store.facts(as_of=as_of):
        if filed.fact.place:
            counts[filed.fact.place] = counts.get(filed.fact.place, 0) + 1
    return [{"place": place, "facts": count} for place, count in sorted(counts.items())]


@click.command()
@click.argument("words", nargs=-1, required=True)
@click.option("--place", metavar="PLACE", help="Only memos with a fact of that place.")
@with_output
@click.pass_context
def find(ctx: click.Context, words: tuple[str, ...], place: str | None, form: str | None) -> None:
    """Memos that hold all these words, best match first; other endings of a word match too.

    \b
    journal find window rough opening
    journal find --json sealant
    """
    session = open_session(ctx)
    found = [session.taken(memo) for memo in session.store.search(" ".join(words))]
    if place is not None:
        where = session.place(place)
        found = [taken for taken in found if any(filed.fact.place == where for filed in taken.facts)]
    if not emit(map(memo_row, found), form, memo_lines):
        note(f"no memo holds '{' '.join(words)}'. Try fewer words, or journal about PLACE.")


@click.command()
@click.argument("place", required=False)
@click.option("--all", "everything", is_flag=True, help="Done and struck ones too.")
@with_as_of
@with_output
@click.pass_context
def todo(ctx: click.Context, place: str | None, everything: bool, as_of: datetime | None, form: str | None) -> None:
    """What is left to do, what it waits on and what is overdue, by place.

    \b
    journal todo
    journal todo "lake gable"
    journal todo --as-of 2026-07-24
    """
    from journal.quantities.cautions import task_cautions
    from journal.quantities.tasks import to_do, waiting_on

    session = open_session(ctx)
    where = session.place(place) if place else None
    tasks = to_do(session.book(as_of=as_of), place=where)
    rows = [task.row() for task in tasks if everything or task.status != "done"]
    if everything:
        struck = session.store.facts(kinds=("task",), place=where, struck=True, as_of=as_of)
        rows += [filed_row(filed) | {"status": "struck", "overdue": False} for filed in struck]
    if not emit(rows, form, _todo_lines):
        note("nothing is left to do" + (f" at {where}" if where else ""))
    left = [task for task in tasks if task.status != "done"]
    for condition, held in waiting_on(left).items():
        note(f"{condition}: {len(held)} of these hang on it")
    for caution in dict.fromkeys(caution for task in left for caution in task_cautions(task.task.do)):
        note(caution)


def _todo_lines(row: Any) -> str:
    parts = [row["status"] + ("!" if row["overdue"] else ""), row.get("place") or "(no place)", row["do"]]
    if row.get("due"):
        parts.append(f"by {row['due']}" + (", overdue" if row["overdue"] else ""))
    if row.get("after"):
        parts.append(f"once {row['after']}")
    if row.get("before"):
        parts.append(f"before {row['before']}")
    return f"{parts[0]:<9} {parts[1]}: {', '.join(parts[2:])}  (memo {row['memo']})"
