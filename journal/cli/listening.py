"""`journal hear`: what the recogniser makes of a recording; nothing is stored. And the engine of a command line."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from journal.cli.common import emit, job_option, note, with_engine, with_output
from journal.cli.doing import Doing
from journal.errors import JournalError
from journal.interchange import doubt_to_json
from journal.paths import choose_job

if TYPE_CHECKING:
    from journal.speech.base import Recogniser


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@with_engine
@with_output
@click.pass_context
def hear(
    ctx: click.Context,
    files: tuple[Path, ...],
    engine: str | None,
    vosk_model: Path | None,
    no_adapter: bool,
    form: str | None,
) -> None:
    """Listen to recordings and show the words; nothing is stored.

    \b
    journal hear site/2026-07-13_0740.m4a
    journal hear --json --engine vosk --vosk-model models/en sample.wav
    """
    from journal.speech.sound import load_sound

    recogniser = None
    failed = 0
    for path in files:
        try:
            sound = load_sound(path)
            recogniser = recogniser or chosen_engine(ctx, engine, vosk_model, no_adapter)
            with Doing(f"listening to {path.name} …"):
                heard = recogniser.listen(sound)
        except JournalError as error:
            failed += 1
            note(str(error))
            continue
        row: dict[str, Any] = {
            "file": str(path),
            "engine": heard.engine,
            "text": heard.text,
            "words": [
                {"word": word.word, "start": word.start, "end": word.end, "confidence": word.confidence}
                for word in heard.words
            ],
            "readings": list(heard.readings),
            "doubts": [doubt_to_json(doubt) for doubt in heard.doubts],
        }
        emit([row], form, _shown)
    if failed:
        ctx.exit(1)


def _shown(row: Any) -> str:
    lines = [f"{row['file']}: {row['text'] or '(no speech)'}"]
    lines += [f"   ? {doubt['shown']}" for doubt in row["doubts"]]
    lines += [f"   or: {reading}" for reading in row["readings"][:3]]
    return "\n".join(lines)


def chosen_engine(ctx: click.Context, name: str | None, vosk_model: Path | None, no_adapter: bool) -> Recogniser:
    """The engine that the options, the environment and the job name; what takes long is told as it goes."""
    from journal.speech.choose import choose_engine

    job = choose_job(job_option(ctx)).folder

    def told(what: str) -> None:
        Doing.clear()
        note(what)

    with Doing("loading the speech model …"):
        return choose_engine(name, vosk_model, job, progress=told, adapter=not no_adapter)
