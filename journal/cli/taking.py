"""`journal take`: memos into the job, from recordings, folders, typed lines or the microphone."""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

import click

from journal.cli.common import Moment, emit, note, open_session, with_engine, with_output
from journal.cli.doing import Doing
from journal.cli.listening import chosen_engine
from journal.cli.shapes import memo_lines, memo_row
from journal.cli.talking import SAID, answer_lines
from journal.conversation import Conversation, StopListening
from journal.errors import JournalError
from journal.hearing import TakenSound
from journal.recordings import SOUND_SUFFIXES, sound_files
from journal.session import Session

if TYPE_CHECKING:
    from journal.speech.base import Recogniser

PAUSE = 1.2
"""Seconds of silence that end a memo at the microphone, unless --pause says otherwise."""


@click.command()
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--say", multiple=True, metavar="TEXT", help="A typed memo. May be given more than once.")
@click.option("--jsonl", type=click.File(encoding="utf-8"), help="Typed memos, an object a line: said_at, text.")
@click.option(
    "--at", type=Moment(), metavar="WHEN", help="When it was said: 2026-07-13T07:40, 07:40, 'yesterday 16:30'."
)
@click.option("--watch", is_flag=True, help="Go on taking what arrives in the folder, until Ctrl-C.")
@click.option("--type", "typed", is_flag=True, help="Type memos, one a line, and be answered as at the microphone.")
@click.option("--aloud", is_flag=True, help="At the microphone: say aloud what was written down, and what is asked.")
@click.option(
    "--pause",
    type=click.FloatRange(0.3, 30),
    default=PAUSE,
    show_default=True,
    metavar="SECONDS",
    help="At the microphone: the pause that ends a memo.",
)
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
    typed: bool,
    aloud: bool,
    pause: float,
    engine: str | None,
    vosk_model: Path | None,
    no_adapter: bool,
    form: str | None,
) -> None:
    """Take memos: FILES are recordings or folders of them; without any, the microphone is listened to.

    At the microphone each memo is said back, and a doubted figure asked for again: "thirteen or thirty?" "Thirty." Say
    "scratch that" or "make that fifty seven" about what was just said back, and "stop listening" at the end.

    Exit code 0 when everything was stored, whatever problems it holds; 1 when something was not, the rest still is.

    \b
    journal take site/2026-07-13_0740.m4a
    journal take
    journal take --aloud --pause 2
    journal take phone-folder/
    journal take phone-folder/ --watch
    journal take --say "wall a length twenty foot even" --at 2026-07-13T07:40
    journal take --jsonl memos.jsonl
    journal take --type
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
    if typed:
        batch.take_as_typed(sys.stdin)
    elif not (files or say or jsonl is not None):
        _listen(batch, recogniser, pause, aloud=aloud)
    if batch.failed:
        ctx.exit(1)


class _Batch:
    """Memos taken one after another: what cannot be taken is told and the rest goes on."""

    def __init__(self, session: Session, form: str | None) -> None:
        self.session = session
        self._form = form
        self._talk = Conversation()
        self.failed = 0

    def take_typed(self, text: str, said_at: datetime) -> None:
        """One typed memo. It may put right the one before it; nothing was asked that it could answer."""
        self._talk.nothing_asked()
        try:
            self.show(memo_row(self.session.take_typed(text, said_at, talk=self._talk)))
        except JournalError as error:
            self.tell(error)
            return
        if self._talk.replied:
            for sentence in self._talk.told:
                note(f"{SAID}{sentence}")

    def take_as_typed(self, lines: Iterable[str]) -> None:
        """Memos typed one a line, each said back and answered, until an empty line or "stop listening"."""
        note("Type a memo and press Enter; an empty line stops.")
        talk = Conversation(listening=True)
        for line in lines:
            if not line.strip():
                break
            try:
                self.show(memo_row(self.session.take_typed(line, datetime.now().astimezone(), talk=talk)))
            except StopListening:
                break
            except JournalError as error:
                self.tell(error)
                continue
            for answer in answer_lines(talk):
                note(answer)

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
        for number, path in enumerate(paths if at is not None else _as_said(paths), 1):
            self.take_sound(path, at, engine, f", {number} of {len(paths)}" if len(paths) > 1 else "")

    def take_sound(self, path: Path, at: datetime | None, engine: Callable[[], Recogniser], place: str = "") -> None:
        """One recording: when it was said, and its memos."""
        what = f"listening to {path.name}{place}"
        try:
            with Doing(f"{what} …") as doing:
                taken = self.session.take_sound(
                    path, engine, said_at=at, progress=lambda share: doing.say(f"{what}: {share:.0%} …")
                )
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

    def show_spoken(self, taken: TakenSound) -> None:
        """Memos from the microphone, with what a person should know about their sound."""
        if taken.note:
            note(f"{taken.path.name}: {taken.note}")
        for memo in taken.memos:
            self.show(memo_row(memo))

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


def _as_said(paths: list[Path]) -> list[Path]:
    """The recordings in the order in which they were said, as one memo may go on from another."""
    from journal.speech.said_time import said_time

    with Doing(f"looking at {len(paths)} recordings …"):
        return sorted(paths, key=lambda path: said_time(path)[0].timestamp() if path.is_file() else math.inf)


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


def _listen(batch: _Batch, engine: Callable[[], Recogniser], pause: float, *, aloud: bool) -> None:
    """Memos from the microphone until the builder says to stop, or presses a key."""
    from journal.cli.handsfree import HandsFree

    voice = None
    if aloud:
        from journal.speech.aloud import find_voice

        voice = find_voice()
    try:
        HandsFree(batch.session, engine, batch.show_spoken, batch.tell, voice).listen(pause)
    except KeyboardInterrupt:
        note("stopped; what was said and is not shown is taken at the next start")
