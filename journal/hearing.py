"""Recordings taken: copied into the job, heard by an engine, filed as memos. Where speech and the store meet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from journal.errors import SoundError
from journal.intake import Filing, Knowledge, Taken, Words, file_memo, taken
from journal.learning import vocabulary
from journal.lookups import Recording
from journal.recordings import keep_sound, sound_hash
from journal.records import Heard, MemoSource
from journal.store import Store
from journal.worth import worth_of

if TYPE_CHECKING:
    from journal.conversation import Conversation
    from journal.speech.base import Recogniser


_DROWNED = (
    "noise nearly drowns what is said: step away from it, or hold the phone closer, and say it again where it matters"
)
_ANSWER = 3.0
"""More than any reading that is a memo is worth."""


@dataclass(frozen=True, slots=True)
class TakenSound:
    """What became of one recording: the memos heard in it, when it was said and how that is known.

    `known_already` is set when the same sound was taken before; its memos are those of that time.
    """

    path: Path
    memos: tuple[Taken, ...]
    said_at: datetime
    because: str
    note: str = ""
    known_already: bool = False


def take_sound(
    store: Store,
    knowledge: Knowledge,
    path: Path,
    engine: Callable[[], Recogniser],
    *,
    said_at: datetime | None,
    source: MemoSource,
    talk: Conversation | None = None,
    progress: Callable[[float], None] = lambda _share: None,
) -> TakenSound:
    """A recording copied into the job, heard and filed; SoundError where it holds no sound or no speech.

    `progress` is told how much of a long one was heard, 0 to 1. With `talk` it may be about what was said before it: words that are said to the journal are favoured, and readings that
    answer it.
    """
    from journal.speech.pauses import memos_in
    from journal.speech.readings import most_sensible, with_names
    from journal.speech.said_time import said_time
    from journal.speech.second_opinion import DROWNED_BELOW_DB, speech_above_noise
    from journal.speech.sound import load_sound

    name_hash = sound_hash(path)
    moment, because = (said_at, "given by --at") if said_at is not None else said_time(path)
    if known := store.memos_of_recording(name_hash):
        again = tuple(taken(store, memo) for memo in known)
        return TakenSound(path, again, known[0].said_at, because, known_already=True)
    with store.writing():  # a job that cannot be written is told before anything is copied
        pass
    sound = load_sound(path)
    inside = keep_sound(path, store.folder, name_hash)
    store.add_recording(Recording(name_hash, inside, path.name, sound.seconds, sound.note))
    recogniser, words = engine(), vocabulary(store)
    if talk is not None:
        words = replace(words, favoured=(*words.favoured, *talk.expected()))
    heard: list[tuple[float, Heard]] = []
    for start, memo in memos_in(sound):
        if heard:
            progress(start / sound.seconds)
        heard.append((start, recogniser.listen(memo, words)))
    worth = _worth(store, knowledge, moment, talk)
    spoken = [(start, with_names(most_sensible(one, worth), words.names)) for start, one in heard if one.text]
    if not spoken:
        raise SoundError(
            f"{path.name}: no speech was heard in it",
            hint=f"The sound is kept as {inside}. Say it again nearer to the microphone, or type it: --say '…'",
        )
    filing: Filing = talk.file if talk is not None else file_memo
    memos = []
    with store.writing():  # all memos of a recording or none, so that it can be taken again
        for start, one in spoken:
            at = moment + timedelta(seconds=int(start))
            memos.append(filing(store, knowledge, _heard_words(one, start), at, source, recording=name_hash))
    drowned = speech_above_noise(sound.samples) < DROWNED_BELOW_DB
    note = "; ".join(filter(None, (sound.note, _DROWNED if drowned else "")))
    return TakenSound(path, tuple(memos), moment, because, note)


def _worth(store: Store, knowledge: Knowledge, said_at: datetime, talk: Conversation | None) -> Callable[[str], float]:
    """What a reading is worth by what can be made of it; one that answers what was said before is worth most."""
    local = said_at.astimezone() if said_at.tzinfo is None else said_at
    before = store.memo_before(local)
    worth = worth_of(knowledge.before(before.place if before else None), local)
    if talk is None:
        return worth
    return lambda text: _ANSWER if talk.is_reply(store, text, local) else worth(text)


def _heard_words(heard: Heard, start: float) -> Words:
    """What an engine heard, its word times counted from the start of the recording."""
    words = heard.words
    if start:
        words = tuple(
            replace(word, start=word.start + start, end=word.end + start)
            if word.start is not None and word.end is not None
            else word
            for word in words
        )
    return Words(
        heard.text, words, heard.readings, heard.doubts, heard.engine, heard.engine_version, weighed=heard.weighed
    )
