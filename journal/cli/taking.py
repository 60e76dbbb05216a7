"""`journal take`: memos into the job, from recordings, folders, typed lines or the microphone."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

import click

from journal.cli.common import Moment, emit, note, open_session, with_engine, with_output
from journal.cli.listening import chosen_engine
from journal.cli.shapes import memo_lines, memo_row
from journal.errors import JournalError
from journal.recordings import FOLDER, SOUND_SUFFIXES, sound_files
from journal.session import Session

if TYPE_CHECKING:
    from journal.speech.base import Recogniser


@click.command()
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--say", multiple=True, metavar="TEXT", help="A typed memo. May be given more than once.")
@click.option("--jsonl", type=click.File(encoding="utf-8"), help="Typed memos, an object a line: said_at, text.")
@click.option(
    "--at", type=Moment(), metavar="WHEN", help="When it was said: 2026-07-13T07:40, 07:40, 'yesterday 16:30'."
)
@click.option("--watch", is_flag=True, help="Go on taking what arrives in the folder, until Ctrl-C.")
@with_engine
@with_output
@click.pass_context
def take(
    ctx: click.Context,
    files: tuple[Path, ...],
    say: tuple[str, ...],
    jsonl: IO[str] | None,
    at: datetime | None,
    watch: bool,
    engine: str | None,
    vosk_model: Path | None,
    no_adapter: bool,
    form: str | None,
) -> None:
    """Take memos: FILES are recordings or folders of them; without any, the microphone is listened to.

    Exit code 0 when everything was stored, whatever problems it holds; 1 when something was not, the rest still is.

    \b
    journal take site/2026-07-13_0740.m4a
    journal take phone-folder/
    journal take phone-folder/ --watch
    journal take --say "wall a length twenty foot even" --at 2026-07-13T07:40
    journal take --jsonl memos.jsonl
    """
    batch = _Batch(open_session(ctx, create=True), form)
    recogniser = cache(lambda: chosen_engine(ctx, engine, vosk_model, no_adapter))
    for text in say:
        batch.take_typed(text, at or datetime.now().astimezone())
    if jsonl is not None:
        batch.take_lines(jsonl)
    if watch:
        if len(files) != 1 or not files[0].is_dir():
            raise click.UsageError("--watch goes with one folder")
        _watch(batch, files[0], recogniser)
    elif files:
        batch.take_sounds(files, at, recogniser)
    if not (files or say or jsonl is not None):
        _listen(ctx, batch, recogniser)
    if batch.failed:
        ctx.exit(1)


class _Batch:
    """Memos taken one after another: what cannot be taken is told and the rest goes on."""

    def __init__(self, session: Session, form: str | None) -> None:
        self.session = session
        self._form = form
        self.failed = 0

    def take_typed(self, text: str, said_at: datetime) -> None:
        """One typed memo."""
        try:
            self.show(memo_row(self.session.take_typed(text, said_at)))
        except JournalError as error:
            self.tell(error)

    def take_lines(self, lines: IO[str]) -> None:
        """Typed memos, an object a line."""
        for number, line in enumerate(lines, 1):
            if not line.strip():
                continue
            try:
                row = json.loads(line)
                text, moment = row["text"], datetime.fromisoformat(row["said_at"]).astimezone()
                if not isinstance(text, str):
                    raise TypeError
            except (ValueError, KeyError, TypeError):
                self.failed += 1
                note(f"{lines.name} line {number} is no memo: {line.strip()[:60]}")
                note('Write it as {"said_at": "2026-07-13T07:40", "text": "wall a height eight foot two"}.')
                continue
            self.take_typed(text, moment)

    def take_sounds(self, files: tuple[Path, ...], at: datetime | None, engine: Callable[[], Recogniser]) -> None:
        """Recordings and folders of them."""
        paths = list(_all_sounds(files))
        if not paths:
            raise JournalError(
                f"no recordings in {', '.join(map(str, files))}", hint="Name a sound file, or a folder of them."
            )
        for path in paths:
            self.take_sound(path, at, engine)

    def take_sound(self, path: Path, at: datetime | None, engine: Callable[[], Recogniser]) -> None:
        """One recording: when it was said, and its memos."""
        try:
            taken = self.session.take_sound(path, engine, said_at=at)
        except JournalError as error:
            self.tell(error)
            return
        if taken.known_already:
            numbers = ", ".join(str(memo.memo.number) for memo in taken.memos)
            note(f"{path.name} was taken before, as memo {numbers}")
            return
        remark = f"; {taken.note}" if taken.note else ""
        note(f"{path.name}: said {taken.said_at:%Y-%m-%d %H:%M} ({taken.because}){remark}")
        for memo in taken.memos:
            self.show(memo_row(memo))

    def take_spoken(self, path: Path, engine: Callable[[], Recogniser]) -> str:
        """A memo from the microphone, on disk already; its words, "" where it was not taken."""
        try:
            taken = self.session.take_sound(path, engine, source="microphone")
        except JournalError as error:
            self.tell(error)
            return ""
        for memo in taken.memos:
            self.show(memo_row(memo))
        return taken.memos[-1].memo.text

    def show(self, row: dict[str, Any]) -> None:
        """A memo that was stored."""
        emit([row], self._form, memo_lines)
        sys.stdout.flush()

    def tell(self, error: JournalError) -> None:
        """What was not stored, and the next step."""
        self.failed += 1
        note(error.message)
        if error.hint:
            note(error.hint)


def _all_sounds(files: tuple[Path, ...]) -> Iterator[Path]:
    """The files named, folders opened; texts that a shell's * swept in with recordings are passed over."""
    swept = any(path.suffix.lower() in SOUND_SUFFIXES for path in files)
    for path in files:
        if path.is_dir():
            yield from sound_files(path)
        elif not (swept and path.suffix.lower() in _TEXTS):
            yield path


_TEXTS = frozenset({".txt", ".md", ".json", ".jsonl", ".toml"})


def _watch(batch: _Batch, folder: Path, engine: Callable[[], Recogniser]) -> None:
    """What is in the folder and what arrives there, until Ctrl-C; a file that cannot be taken is told and passed over."""
    from journal.watching import arriving

    note(f"Watching {folder}; press Ctrl-C to stop.")
    try:
        for path in arriving(folder):
            batch.take_sound(path, None, engine)
    except KeyboardInterrupt:
        note("stopped; what was taken is kept")


def _listen(ctx: click.Context, batch: _Batch, engine: Callable[[], Recogniser]) -> None:
    """Memos from the microphone, each filed at its pause, until Ctrl-C or until the builder says to stop."""
    from journal.speech.microphone import PAUSE_SECONDS, memos_spoken, open_microphone, unfinished_memos

    recordings = batch.session.folder / FOLDER
    for path in unfinished_memos(recordings):
        note(f"{path.name} was being said when the journal last stopped; it is taken now")
        batch.take_spoken(path, engine)
    microphone = open_microphone()
    note(f"Listening. A pause of {PAUSE_SECONDS:g} s ends a memo; say 'stop listening' or press Ctrl-C to stop.")
    with microphone:
        try:
            for sound in memos_spoken(microphone, recordings):
                if sound.path is not None and batch.take_spoken(sound.path, engine) in _STOP:
                    break
        except KeyboardInterrupt:
            note("stopped; what was said is kept")


_STOP = frozenset({"stop listening", "stop the journal", "journal stop", "stop recording", "that's all for today"})
