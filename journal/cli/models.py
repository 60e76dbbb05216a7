"""`journal model`: the engines and models here, and which one listens and why."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from journal.cli.common import emit, job_option, with_output
from journal.paths import choose_job


@click.group(invoke_without_command=True)
@click.option("--engine", help="moonshine, vosk or scripted. Else JOURNAL_ENGINE, else what is here.")
@click.option("--vosk-model", type=click.Path(path_type=Path), help="A Vosk model folder to listen with.")
@with_output
@click.pass_context
def model(ctx: click.Context, engine: str | None, vosk_model: Path | None, form: str | None) -> None:
    """The speech engines and models here, which one is used and why.

    \b
    journal model
    journal model --engine vosk --vosk-model models/en
    """
    if ctx.invoked_subcommand is not None:
        return
    from journal.speech.choose import engines_here

    rows = [asdict(row) for row in engines_here(engine, vosk_model, choose_job(job_option(ctx)).folder)]
    emit(rows, form, _line)


def _line(row: Any) -> str:
    state = "used" if row["used"] else "ready" if row["ready"] else "not here"
    return f"{row['name']:<10} {state:<9} {row['model']:<32} {row['note']}".rstrip()
