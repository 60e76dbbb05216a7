"""An open job: take a memo, put it right, ask what it implies. The one thing that commands and screens talk to.

Joins the store, the speech engines, the reader and the quantities, which know nothing of each other. What listens and what
works things out is imported when it is first asked for: a screen that shows what was said need not wait for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from journal import corrections
from journal.changes import Act
from journal.corrections import Assumed, Corrected
from journal.errors import NotFound, Unreadable
from journal.intake import Knowledge, Taken, Words, file_memo, read_words, taken
from journal.places import canonical, find_place
from journal.records import Extraction, Fact, Filed, Memo, MemoSource
from journal.store import Store

if TYPE_CHECKING:
    from journal.conversation import Conversation
    from journal.hearing import TakenSound
    from journal.previews import Preview
    from journal.quantities.base import Answers
    from journal.quantities.book import Book
    from journal.speech.base import Recogniser, Sound, Vocabulary


class Session:
    """An open job. `store` is for reading; every change goes through the methods here."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self._knowledge: Knowledge | None = None

    @classmethod
    def open(cls, folder: Path, *, create: bool = True) -> Session:
        """The job in a folder; JobError where it cannot be opened."""
        return cls(Store.open(folder, create=create))

    def close(self) -> None:
        """Close the journal file."""
        self.store.close()

    def __enter__(self) -> Session:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def folder(self) -> Path:
        """The job folder."""
        return self.store.folder

    # ---- taking ------------------------------------------------------------------------------------------------

    def take_typed(self, text: str, said_at: datetime, *, talk: Conversation | None = None) -> Taken:
        """A typed memo, filed. Unreadable where it has no words. With `talk` it may be about what was said before it."""
        words = " ".join(text.lower().split())
        if not words:
            raise Unreadable("a memo without words was not taken", hint="Type what was said: --say 'wall a height …'")
        filing = talk.file if talk is not None else file_memo
        return filing(self.store, self._known(), Words(words), said_at, "typed")

    def take_sound(
        self,
        path: Path,
        engine: Callable[[], Recogniser],
        *,
        said_at: datetime | None = None,
        source: MemoSource = "recording",
        talk: Conversation | None = None,
        progress: Callable[[float], None] = lambda _share: None,
    ) -> TakenSound:
        """A recording, copied into the job, then heard and filed; `engine` is asked for once there is something to hear.

        A long one is cut at its pauses into memos. SoundError where it holds no sound or no speech; a sound without speech
        stays on file and may be taken again. With `talk` it may be about what was said before it. `progress` is told how
        much of a long one was heard, 0 to 1.
        """
        from journal.hearing import take_sound

        return take_sound(
            self.store, self._known(), path, engine, said_at=said_at, source=source, talk=talk, progress=progress
        )

    def taken(self, memo: Memo, *, as_of: datetime | None = None) -> Taken:
        """A memo with all that stands of it."""
        return taken(self.store, memo, as_of=as_of)

    def read_again(self, memo: Memo, text: str) -> Extraction:
        """What a memo on file would say if these were its words; nothing is stored."""
        return read_words(Words(text), memo.said_at, self._known().before(memo.carried_place))

    def vocabulary(self) -> Vocabulary:
        """What the engines should favour: places and things of this journal; and what was put right by hand before."""
        from journal.learning import vocabulary

        return vocabulary(self.store)

    def _known(self) -> Knowledge:
        if self._knowledge is None:
            self._knowledge = Knowledge(self.store)
        return self._knowledge

    # ---- putting right -----------------------------------------------------------------------------------------

    def fix(self, memo: int, number: int, typed: Mapping[str, str]) -> Corrected:
        """A fact with some fields as typed (see `fields`); a place is taken in the journal's form."""
        done = corrections.fix_fact(self.store, memo, number, _place_in_form(typed))
        self._corrected()
        return done

    def add(self, memo: int, kind: str, typed: Mapping[str, str]) -> Corrected:
        """A fact that the reader missed, added to a memo."""
        done = corrections.add_fact(self.store, memo, kind, _place_in_form(typed))
        self._corrected()
        return done

    def fix_words(self, memo: int, text: str) -> list[Corrected]:
        """The words of a memo put right and read anew; what changed of its facts."""
        kept = corrections.the_memo(self.store, memo)
        words = " ".join(text.lower().split())
        if not words:
            raise Unreadable(
                f"memo {memo} cannot be left without words", hint=f"To drop its facts: journal strike {memo}"
            )
        done = corrections.reword(self.store, kept, words, self.read_again(kept, words))
        self._corrected()
        return done

    def settle(self, memo: int) -> None:
        """What could not be used of a memo, and doubts that no fact carries, looked at and set aside; can be undone."""
        corrections.settle(self.store, corrections.the_memo(self.store, memo))

    def note(self, text: str, kind: str, typed: Mapping[str, str], said_at: datetime) -> Corrected:
        """A typed memo with the one fact that its words stand for; undoing strikes the fact, the memo stays."""
        fields = _place_in_form(typed)
        with self.store.writing():
            memo, number = self.store.add_memo(said_at, "typed", carried_place=fields.get("place"))
            read = Extraction(place=fields.get("place"))
            self.store.add_transcript(memo, self.store.add_change("take"), text, read, known_at=said_at)
            done = corrections.add_fact(self.store, number, kind, fields)
        self._corrected()
        return done

    def strike(self, memo: int, number: int | None = None) -> list[Corrected]:
        """One fact of a memo, or all of them, taken out of the book."""
        done = corrections.strike_facts(self.store, memo, number)
        self._corrected()
        return done

    def confirm(self, memo: int, number: int | None = None) -> list[Corrected]:
        """One fact of a memo, or all of them, found right."""
        done = corrections.confirm_facts(self.store, memo, number)
        self._corrected()
        return done

    def undo(self) -> tuple[Act, list[Corrected | Assumed]]:
        """The last correction taken back."""
        done = corrections.undo(self.store)
        self._corrected()
        return done

    def redo(self) -> tuple[Act, list[Corrected | Assumed]]:
        """The last undoing taken back."""
        done = corrections.redo(self.store)
        self._corrected()
        return done

    def rename_place(self, heard: str, meant: str) -> list[Corrected]:
        """A misheard place merged into another, once and for all: its facts are moved, and it is heard so from now on."""
        old, new = canonical(heard), canonical(meant)
        with self.store.writing():
            moved = [
                corrections.fix_fact(
                    self.store, filed.memo, filed.number, {"place": new + filed.fact.place[len(old) :]}
                )
                for filed in self.store.facts(place=old)
                if filed.fact.place is not None
            ]
            if not moved:
                raise NotFound(f"there is no '{old}' in this journal", hint="journal about lists the places.")
            self.store.add_alias(old, new)
        self._corrected()
        return moved

    def _corrected(self) -> None:
        if self._knowledge is not None:
            self._knowledge.forget()

    # ---- asking ------------------------------------------------------------------------------------------------

    def place(self, name: str) -> str:
        """The place on file that a typed name means; NotFound names the nearest."""
        return find_place(name, self.store.places(), self.store.aliases())

    def book(self, place: str | None = None, *, kinds: Iterable[str] = (), as_of: datetime | None = None) -> Book:
        """What the quantities read: the whole job, or the places that a place's answers rest on with the lots they draw on.

        `kinds` keeps it to facts of these kinds, where no others are needed.
        """
        from journal.books import book_of

        return book_of(self.store, place, kinds=kinds, as_of=as_of)

    def answers(self, place: str, *, as_of: datetime | None = None) -> Answers:
        """The quantities of a place, what is missing for others, and what disagrees."""
        from journal.quantities.base import answers

        return answers(self.book(place, as_of=as_of), place)

    def preview(self, memo: int, number: int, typed: Mapping[str, str]) -> Preview | None:
        """What `fix` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        from journal import previews

        return previews.of_fix(self.store, memo, number, _place_in_form(typed))

    def preview_added(self, memo: int, kind: str, typed: Mapping[str, str]) -> Preview | None:
        """What `add` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        from journal import previews

        return previews.of_add(self.store, memo, kind, _place_in_form(typed))

    def preview_struck(self, memo: int, number: int) -> Preview | None:
        """What `strike` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        from journal import previews

        return previews.of_strike(self.store, memo, number)

    def preview_assumed(self, name: str, value: str | None, place: str) -> Preview:
        """What `assume` would do to the quantities of a place. Nothing is stored; Unreadable where the value will not do."""
        from journal import previews

        return previews.of_assumption(self.store, name, value, place)

    def assume(self, name: str, value: str | None, place: str | None = None) -> None:
        """Keep what quantities take for granted; None puts the default back. Unreadable names what would do. Can be undone."""
        from journal import previews

        corrections.assume(self.store, name, previews.assumed(name, value), place)

    def sound_of(self, memo: int) -> Sound:
        """The recording of a memo; NotFound where it was typed, SoundError where the file is gone or damaged."""
        from journal.speech.sound import load_sound

        kept = corrections.the_memo(self.store, memo)
        if kept.recording is None:
            raise NotFound(
                f"memo {memo} was typed; there is no recording to play",
                hint="Only what came from a recording or the microphone can be played.",
            )
        return load_sound(self.folder / kept.recording)

    def day_of(self, day: date, *, as_of: datetime | None = None) -> list[Taken]:
        """The memos of a local day with what stands of them."""
        memos = self.store.memos_of_day(day, as_of=as_of)
        open_ends = self.store.open_ends(memo.transcript for memo in memos)
        facts: dict[int, list[Filed[Fact]]] = {}
        for filed in self.store.facts(day=day, as_of=as_of):
            facts.setdefault(filed.memo, []).append(filed)
        return [
            Taken(memo, tuple(facts.get(memo.number, ())), tuple(left.problems), left.doubts, tuple(left.asides))
            for memo in memos
            for left in [open_ends[memo.transcript]]
        ]


def _place_in_form(typed: Mapping[str, str]) -> dict[str, str]:
    return {name: canonical(text) if name == "place" else text for name, text in typed.items()}
