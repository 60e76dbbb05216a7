"""What the commands share: the job, days and moments as they are typed, rows as they are printed."""

from __future__ import annotations

import csv
import json
import sys
from collections.abc import Callable, Iterable
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from journal.errors import Unreadable
from journal.paths import choose_job

if TYPE_CHECKING:
    from journal.session import Session

Command = TypeVar("Command", bound=Callable[..., Any])
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def open_session(ctx: click.Context, *, create: bool = False) -> Session:
    """The job of this command line, closed again when the command ends; made when there is none and `create` is set."""
    from journal.session import Session  # brings the database along, which `read` can do without

    session = Session.open(choose_job(job_option(ctx)).folder, create=create)
    ctx.call_on_close(session.close)
    return session


def job_option(ctx: click.Context) -> Path | None:
    """What `--job` gave."""
    found = ctx.find_root().obj
    return found if isinstance(found, Path) else None


# ---- moments -------------------------------------------------------------------------------------------------------


def parse_day(text: str, *, today: date | None = None) -> date:
    """A day as it is typed: 2026-07-13, today, yesterday, or a weekday (the last one). Unreadable otherwise."""
    said, now = text.strip().lower(), today or date.today()
    if said in ("today", "yesterday"):
        return now - timedelta(days=said == "yesterday")
    names = [name for name in _WEEKDAYS if len(said) >= 3 and name.startswith(said)]
    if names:
        return now - timedelta(days=(now.weekday() - _WEEKDAYS.index(names[0])) % 7)
    try:
        return date.fromisoformat(said)
    except ValueError:
        raise Unreadable(f"'{text}' is no day", hint="Type it as 2026-07-13, today, yesterday or tuesday.") from None


def parse_moment(text: str) -> datetime:
    """A local moment as it is typed: 2026-07-13T07:40, 07:40 (today), yesterday 16:30. Unreadable otherwise."""
    said = text.strip()
    day, _, clock = said.rpartition(" ") if " " in said else ("", "", said)
    try:
        return datetime.fromisoformat(said).astimezone()
    except ValueError:
        pass
    try:
        return datetime.combine(parse_day(day or "today"), time.fromisoformat(clock)).astimezone()
    except ValueError:
        pass
    except Unreadable:
        pass
    raise Unreadable(f"'{text}' is no time", hint="Type it as 2026-07-13T07:40, 07:40 or 'yesterday 16:30'.")


def end_of_day(text: str) -> datetime:
    """The moment that `--as-of` means: that evening, or the moment itself where a time of day is given."""
    if "T" in text or ":" in text:
        return parse_moment(text)
    return datetime.combine(parse_day(text), time.max).astimezone()


class Day(click.ParamType):  # type: ignore[type-arg]
    """A day on the command line."""

    name = "day"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """The day, or a usage error that says how to type one."""
        if isinstance(value, date):
            return value
        try:
            return parse_day(str(value))
        except Unreadable as error:
            self.fail(str(error), param, ctx)


class Moment(click.ParamType):  # type: ignore[type-arg]
    """A moment on the command line; with `evening` a bare day means its end."""

    name = "when"

    def __init__(self, *, evening: bool = False) -> None:
        self._evening = evening

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> datetime:
        """The moment, or a usage error that says how to type one."""
        if isinstance(value, datetime):
            return value
        try:
            return end_of_day(str(value)) if self._evening else parse_moment(str(value))
        except Unreadable as error:
            self.fail(str(error), param, ctx)


# ---- options that many commands have -------------------------------------------------------------------------------


def with_output(command: Command) -> Command:
    """Adds `--json` and `--csv`, passed on as one word `form`."""
    for option in (
        click.option("--csv", "form", flag_value="csv", help="Rows as comma-separated values."),
        click.option("--json", "form", flag_value="json", help="Rows as JSON, one object a line."),
    ):
        command = option(command)
    return command


def with_as_of(command: Command) -> Command:
    """Adds `--as-of`, passed on as a moment."""
    return click.option(
        "--as-of", type=Moment(evening=True), metavar="DAY", help="What the journal knew that evening."
    )(command)


def with_engine(command: Command) -> Command:
    """Adds the options that choose a speech engine."""
    for option in (
        click.option("--no-adapter", is_flag=True, help="The default engine as its makers trained it."),
        click.option("--vosk-model", type=click.Path(path_type=Path), help="A Vosk model folder to listen with."),
        click.option("--engine", help="moonshine, vosk or scripted. Else JOURNAL_ENGINE, else what is here."),
    ):
        command = option(command)
    return command


# ---- printing ------------------------------------------------------------------------------------------------------


def emit(rows: Iterable[dict[str, Any]], form: str | None, show: Callable[[dict[str, Any]], str]) -> int:
    """Rows to stdout as JSON lines, as CSV, or each as `show` writes it; how many there were."""
    if form == "csv":
        return _emit_csv(list(rows))
    count = 0
    for row in rows:
        click.echo(json.dumps(row, ensure_ascii=False) if form == "json" else show(row))
        count += 1
    return count


def _emit_csv(rows: list[dict[str, Any]]) -> int:
    names = list(dict.fromkeys(name for row in rows for name in row))
    writer = csv.DictWriter(sys.stdout, names, lineterminator="\n")
    if names:
        writer.writeheader()
    for row in rows:
        writer.writerow({name: _cell(value) for name, value in row.items()})
    return len(rows)


def _cell(value: object) -> object:
    return json.dumps(value, ensure_ascii=False) if isinstance(value, (list, dict)) else value


def note(text: str) -> None:
    """A remark for the person, on stderr so that rows stay clean."""
    click.echo(text, err=True)
