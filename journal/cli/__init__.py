"""The commands of the journal: parse, call, print. Each is imported when it is asked for, so that `read` starts at once."""

from __future__ import annotations

import importlib
import os
from pathlib import Path
from typing import Any

import click

from journal import __version__
from journal.errors import JournalError

_COMMANDS = {
    "take": "taking", "hear": "listening", "read": "reading",
    "day": "asking", "about": "asking", "find": "asking", "todo": "asking",
    "fix": "correcting", "strike": "correcting", "confirm": "correcting", "undo": "correcting", "redo": "correcting",
    "review": "review", "where": "housekeeping", "model": "models", "demo": "demo",
    "cuts": "working", "stock": "working", "buy": "working", "drying": "working", "hours": "working",
    "costs": "working", "assume": "working",
}  # fmt: skip


class Shown(click.ClickException):
    """An error as a person is shown it: the message, then the next step, on stderr; exit code 1."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.hint = hint

    def show(self, file: Any = None) -> None:
        """Print both to stderr."""
        click.echo(self.message, err=True)
        if self.hint:
            click.echo(self.hint, err=True)


class Commands(click.Group):
    """The commands by name, imported when first asked for; the one place where errors are caught and shown."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names in the order of a working day: take, look, put right, work out."""
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, or None."""
        if cmd_name not in _COMMANDS:
            return None
        command = getattr(importlib.import_module(f"journal.cli.{_COMMANDS[cmd_name]}"), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; whatever goes wrong is said in one or two lines."""
        try:
            return super().invoke(ctx)
        except JournalError as error:
            raise Shown(error.message, error.hint) from error
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except Exception as error:
            if os.environ.get("JOURNAL_DEBUG"):
                raise
            raise Shown(
                f"the journal itself went wrong: {type(error).__name__}: {error}",
                "What was stored is safe. Set JOURNAL_DEBUG=1 and run it again to see where.",
            ) from error


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.option(
    "--job", type=click.Path(path_type=Path), help="The job folder. Else JOURNAL_JOB, else the nearest upward."
)
@click.version_option(__version__, prog_name="journal")
@click.pass_context
def main(ctx: click.Context, job: Path | None) -> None:
    """A job journal for a builder who works alone: say it, look it over, ask for it.

    \b
    journal take --say "wall a length twenty foot even"
    journal day
    journal about "wall a"
    """
    ctx.obj = job
