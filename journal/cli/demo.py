"""`journal demo`: a worked example on real sound. The sample recordings are heard, filed, asked about and put right."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from journal.cli.common import note, with_engine
from journal.cli.correcting import difference
from journal.cli.listening import chosen_engine
from journal.cli.shapes import about_lines, about_row, memo_lines, memo_row
from journal.errors import JournalError
from journal.fields import describe, format_field
from journal.paths import JOURNAL_FILE, sample_audio_folder
from journal.recordings import sound_files
from journal.session import Session

if TYPE_CHECKING:
    from journal.intake import Taken
    from journal.speech.base import Recogniser

WALL = "wall A"


@dataclass(frozen=True, slots=True)
class _Sample:
    """A memo of the demo: what was filed, and what was really said, as the text beside its recording has it."""

    taken: Taken
    said: str


@click.command()
@click.argument("folder", required=False, type=click.Path(path_type=Path))
@with_engine
@click.pass_context
def demo(
    ctx: click.Context, folder: Path | None, engine: str | None, vosk_model: Path | None, no_adapter: bool
) -> None:
    """Hear a dozen spoken memos of a bunkhouse job, show the facts, ask about one wall and put one figure right.

    FOLDER is the job folder to make; a temporary one if none is given.

    \b
    journal demo
    journal demo ~/bunkhouse
    """
    begun = time.monotonic()
    job = folder.expanduser().absolute() if folder else Path(tempfile.mkdtemp(prefix="journal-demo-"))
    if (job / JOURNAL_FILE).exists():
        raise JournalError(f"there is a journal in {job} already", hint="Name another folder: journal demo FOLDER")
    with Session.open(job) as session:
        recogniser = chosen_engine(ctx, engine, vosk_model, no_adapter)
        _head(f"{len(sound_files(sample_audio_folder()))} recordings, heard by {recogniser.name} {recogniser.version}")
        samples = _take(session, lambda: recogniser)
        place = _wall_spoken_of(session)
        _head(f"journal about '{place}'")
        _show_place(session, place)
        _put_right(session, samples, place)
    _head("what to try next")
    click.echo(f"journal --job {job} review {samples[0].taken.memo.said_at:%Y-%m-%d}")
    click.echo(f"journal --job {job} about")
    click.echo(f"journal --job {job} find window")
    click.echo(f"journal --job {job} take --say 'same wall the door is thirty six wide'")
    note(f"the demo took {time.monotonic() - begun:.0f} s")


def _take(session: Session, engine: Callable[[], Recogniser]) -> list[_Sample]:
    samples = []
    for path in sound_files(sample_audio_folder()):
        try:
            taken = session.take_sound(path, engine)
        except JournalError as error:
            note(str(error))
            continue
        script = path.with_suffix(".txt")
        said = " ".join(script.read_text(encoding="utf-8").lower().split()) if script.is_file() else ""
        for memo in taken.memos:
            click.echo(memo_lines(memo_row(memo)))
            if said and said != memo.memo.text:
                click.echo(f"   (said was “{said}”)")
            samples.append(_Sample(memo, said))
    if not samples:
        raise JournalError(
            f"none of the recordings in {sample_audio_folder()} was heard",
            hint="See which engine listens: journal model",
        )
    return samples


def _wall_spoken_of(session: Session) -> str:
    """Wall A if it was heard, else the place with the most facts."""
    counts: dict[str, int] = {}
    for filed in session.store.facts(kinds=("measure",)):
        if filed.fact.place:
            counts[filed.fact.place] = counts.get(filed.fact.place, 0) + 1
    if not counts:
        raise JournalError("no place was heard in the recordings", hint="See which engine listens: journal model")
    return WALL if WALL in counts else max(counts, key=lambda place: counts[place])


def _show_place(session: Session, place: str) -> None:
    book = session.book(place)
    click.echo(about_lines(about_row(place, book, session.answers(place))))


def _put_right(session: Session, samples: list[_Sample], place: str) -> None:
    """A memo that was misheard has its words put right; where none was, the window is measured again."""
    before = session.answers(place)
    misheard = next((sample for sample in samples if sample.said and _reads_otherwise(session, sample)), None)
    if misheard is not None:
        number = misheard.taken.memo.number
        _head(f"journal fix {number} words='{misheard.said}'")
        done = session.fix_words(number, misheard.said)
    else:
        number, fact = _a_width(session, place)
        typed = "30 3/8"
        _head(f"journal fix {number}.{fact} '{typed}'")
        done = [session.fix(number, fact, {"figure": typed})]
    for corrected in done:
        was = describe(corrected.was) if corrected.was else "nothing"
        now = describe(corrected.now) if corrected.now else "struck"
        click.echo(f"   {corrected.memo}.{corrected.number}  {now}  (was {was})")
    for line in difference(before, session.answers(place)):
        click.echo(f"   {place}: {line}")


def _reads_otherwise(session: Session, sample: _Sample) -> bool:
    memo = sample.taken.memo
    if sample.said == memo.text:
        return False
    meant = session.read_again(memo, sample.said)
    return [(describe(fact), fact.place) for fact in meant.facts] != [
        (describe(filed.fact), filed.fact.place) for filed in sample.taken.facts
    ]


def _a_width(session: Session, place: str) -> tuple[int, int]:
    """The newest width of an opening there, else the newest measure."""
    measures = session.store.facts(place=place, kinds=("measure",))
    widths = [filed for filed in measures if format_field(filed.fact, "dimension").endswith("width")] or measures
    return widths[-1].memo, widths[-1].number


def _head(text: str) -> None:
    click.echo(f"\n── {text}")
