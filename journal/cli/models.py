"""`journal model`: the engines and models here, which one listens and why, what was learnt, and fetching a Vosk model."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from journal.cli.common import emit, job_option, note, open_session, with_output
from journal.paths import JOURNAL_FILE, choose_job


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
    journal model learnt
    journal model get vosk-model-small-en-us-0.15
    """
    if ctx.invoked_subcommand is not None:
        return
    from journal.speech.choose import engines_here

    rows = [asdict(row) for row in engines_here(engine, vosk_model, choose_job(job_option(ctx)).folder)]
    emit(rows, form, _line)


@model.command()
@with_output
@click.pass_context
def learnt(ctx: click.Context, form: str | None) -> None:
    """What the corrections in this journal have taught the engines. JOURNAL_LEARNING=off turns it off.

    \b
    journal model learnt
    """
    words = open_session(ctx).vocabulary()
    rows: list[dict[str, Any]] = [{"heard": heard, "meant": meant} for heard, meant in words.doubted]
    rows += [{"heard": None, "meant": favoured} for favoured in words.favoured]
    if not emit(rows, form, _learnt_line):
        note("nothing has been learnt, or JOURNAL_LEARNING is off")


@model.command()
@click.argument("name")
@click.pass_context
def get(ctx: click.Context, name: str) -> None:
    """Fetch a Vosk model by name over https into the job folder, where it is then used.

    \b
    journal model get vosk-model-small-en-us-0.15
    """
    from journal.speech.model_get import get_model

    choice = choose_job(job_option(ctx))
    if not (choice.folder / JOURNAL_FILE).exists():
        open_session(ctx, create=True)
    folder = get_model(name, choice.folder, progress=note)
    click.echo(f"{folder.name} is in {folder.parent}; it listens from now on in this job")


def _line(row: Any) -> str:
    state = ("used" if row["ready"] else "missing") if row["used"] else "ready" if row["ready"] else "not here"
    return f"{row['name']:<10} {state:<9} {row['model']:<32} {row['note']}".rstrip()


def _learnt_line(row: Any) -> str:
    if row["heard"] is None:
        return f"favoured: {row['meant']}"
    return f"doubted: '{row['heard']}' was '{row['meant']}' before"
