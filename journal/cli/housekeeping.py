"""`journal where`: which job is open, why, and where everything lies."""

from __future__ import annotations

from typing import Any

import click

from journal.cli.common import emit, job_option, with_output
from journal.errors import JournalError
from journal.paths import JOURNAL_FILE, cache_folder, choose_job, grammars_folder, sample_audio_folder
from journal.session import Session


@click.command()
@with_output
@click.pass_context
def where(ctx: click.Context, form: str | None) -> None:
    """Say which job folder is used and why, and where the journal keeps things.

    \b
    journal where
    journal --job ~/jobs/bunkhouse where --json
    """
    choice = choose_job(job_option(ctx))
    row: dict[str, Any] = {
        "job": str(choice.folder),
        "because": choice.because,
        "journal": str(choice.folder / JOURNAL_FILE),
        "memos": _memos(choice.folder) if (choice.folder / JOURNAL_FILE).is_file() else None,
        "recordings": str(choice.folder / "recordings"),
        "cache": str(cache_folder()),
        "grammars": str(grammars_folder()),
        "sample_audio": str(sample_audio_folder()),
    }
    emit([row], form, _shown)


def _memos(folder: Any) -> int | str:
    try:
        with Session.open(folder, create=False) as session:
            return sum(count for _, count in session.store.days())
    except JournalError as error:
        return str(error)


def _shown(row: Any) -> str:
    memos = "no journal yet: the first memo makes it" if row["memos"] is None else f"{row['memos']} memos"
    return "\n".join(
        [
            f"job         {row['job']}",
            f"            {row['because']}",
            f"            {memos}",
            f"recordings  {row['recordings']}",
            f"cache       {row['cache']}",
            f"grammars    {row['grammars']}",
            f"samples     {row['sample_audio']}",
        ]
    )
