"""An open job: take a memo, put it right, ask what it implies. The one thing that commands and screens talk to.

Joins the store, the speech engines, the reader and the quantities, which know nothing of each other.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from journal import corrections
from journal.corrections import Corrected
from journal.errors import NotFound, SoundError, Unreadable
from journal.fields import with_fields
from journal.intake import Knowledge, Taken, Words, file_memo, read_words
from journal.lookups import Act, Recording
from journal.places import canonical, find_place
from journal.quantities.assumptions import ASSUMPTIONS, Setting
from journal.quantities.base import Answers, answers, concerned, listed
from journal.quantities.book import Book
from journal.recordings import keep_sound, sound_hash
from journal.records import Extraction, Fact, Filed, Heard, Memo, MemoSource, Stock
from journal.store import Store

if TYPE_CHECKING:
    from journal.speech.base import Recogniser, Sound, Vocabulary


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


@dataclass(frozen=True, slots=True)
class Preview:
    """What a correction would do to the quantities of a place, before it is kept."""

    place: str
    before: Answers
    after: Answers


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

    def take_typed(self, text: str, said_at: datetime) -> Taken:
        """A typed memo, filed. Unreadable where it has no words."""
        words = " ".join(text.lower().split())
        if not words:
            raise Unreadable("a memo without words was not taken", hint="Type what was said: --say 'wall a height …'")
        return file_memo(self.store, self._known(), Words(words), said_at, "typed")

    def take_sound(
        self,
        path: Path,
        engine: Callable[[], Recogniser],
        *,
        said_at: datetime | None = None,
        source: MemoSource = "recording",
    ) -> TakenSound:
        """A recording, copied into the job, then heard and filed; `engine` is asked for once there is something to hear.

        A long one is cut at its pauses into memos. SoundError where it holds no sound or no speech; a sound without speech
        stays on file and may be taken again.
        """
        from journal.speech.pauses import memos_in
        from journal.speech.said_time import said_time
        from journal.speech.sound import load_sound

        name_hash = sound_hash(path)
        moment, because = (said_at, "given by --at") if said_at is not None else said_time(path)
        if known := self.store.memos_of_recording(name_hash):
            again = tuple(self.taken(memo) for memo in known)
            return TakenSound(path, again, known[0].said_at, because, known_already=True)
        with self.store.writing():  # a job that cannot be written is told before anything is copied
            pass
        sound = load_sound(path)
        inside = keep_sound(path, self.folder, name_hash)
        self.store.add_recording(Recording(name_hash, inside, path.name, sound.seconds, sound.note))
        recogniser, vocabulary = engine(), self.vocabulary()
        heard = [(start, recogniser.listen(memo, vocabulary)) for start, memo in memos_in(sound)]
        spoken = [(start, one) for start, one in heard if one.text]
        if not spoken:
            raise SoundError(
                f"{path.name}: no speech was heard in it",
                hint=f"The sound is kept as {inside}. Say it again nearer to the microphone, or type it: --say '…'",
            )
        memos = []
        with self.store.writing():  # all memos of a recording or none, so that it can be taken again
            for start, one in spoken:
                at = moment + timedelta(seconds=int(start))
                memos.append(
                    file_memo(self.store, self._known(), _heard_words(one, start), at, source, recording=name_hash)
                )
        return TakenSound(path, tuple(memos), moment, because, sound.note)

    def taken(self, memo: Memo, *, as_of: datetime | None = None) -> Taken:
        """A memo with all that stands of it."""
        return Taken(
            memo,
            tuple(self.store.facts(memo=memo.number, as_of=as_of)),
            tuple(self.store.problems(memo.transcript)),
            self.store.loose_doubts(memo.transcript),
            tuple(filed.aside for filed in self.store.asides_of(memo.transcript)),
        )

    def read(self, text: str, said_at: datetime) -> Extraction:
        """What a memo would say if it were taken now; nothing is stored."""
        before = self.store.memo_before(said_at)
        return read_words(Words(text), said_at, self._known().before(before.place if before else None))

    def read_again(self, memo: Memo, text: str) -> Extraction:
        """What a memo on file would say if these were its words; nothing is stored."""
        return read_words(Words(text), memo.said_at, self._known().before(memo.carried_place))

    def vocabulary(self) -> Vocabulary:
        """What the engines should favour: places and things of this journal; and what was put right by hand before."""
        from journal.speech.base import Vocabulary

        facts = self.store.facts(kinds=("stock",))
        species = (filed.fact.species for filed in facts if isinstance(filed.fact, Stock))
        favoured = dict.fromkeys([*(place.lower() for place in self.store.places()), *filter(None, species)])
        return Vocabulary(tuple(favoured), tuple(dict.fromkeys(_put_right(self.store.worded_anew()))))

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

    def undo(self) -> tuple[Act, list[Corrected]]:
        """The last correction taken back."""
        done = corrections.undo(self.store)
        self._corrected()
        return done

    def redo(self) -> tuple[Act, list[Corrected]]:
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
        places = None if place is None else concerned(place, self.store.places(as_of=as_of))
        facts = self.store.facts(places=places, kinds=kinds, as_of=as_of)
        if places is not None:
            drawn_on = self.store.lots_and_prices(_stock_words(facts), as_of=as_of)
            here = {filed.uuid for filed in facts}
            facts += [filed for filed in drawn_on if filed.uuid not in here and (not kinds or filed.fact.kind in kinds)]
        return Book(
            facts=tuple(facts),
            as_of=as_of or datetime.now().astimezone(),
            asides=tuple(self.store.asides(places=places, as_of=as_of)),
            settings=tuple(
                Setting(name=name, value=value, place=where, at=at)
                for where, name, value, at in self.store.assumptions(as_of=as_of)
            ),
        )

    def answers(self, place: str, *, as_of: datetime | None = None) -> Answers:
        """The quantities of a place, what is missing for others, and what disagrees."""
        return answers(self.book(place, as_of=as_of), place)

    def preview(self, memo: int, number: int, typed: Mapping[str, str]) -> Preview | None:
        """What `fix` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        row = corrections.the_fact(self.store, memo, number)
        fact = with_fields(row.fact, _place_in_form(typed))
        place = fact.place or row.fact.place
        if place is None:
            return None
        # a fact that comes in from another place is in the book of the whole job only
        book = self.book(place) if row.fact.place == place else self.book()
        return Preview(place, answers(book, place), answers(with_fact(book, row.uuid, fact), place))

    def preview_added(self, memo: int, kind: str, typed: Mapping[str, str]) -> Preview | None:
        """What `add` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        owner = corrections.the_memo(self.store, memo)
        fact = corrections.fact_typed(owner, kind, _place_in_form(typed))
        if fact.place is None:
            return None
        book = self.book(fact.place)
        number = self.store.next_fact_number(owner.uuid)
        moment = owner.said_at
        added = Filed(uuid="", fact=fact, memo=memo, number=number, said_at=moment, made_at=moment, confirmed=True)
        more = replace(book, facts=(*book.facts, added))
        return Preview(fact.place, answers(book, fact.place), answers(more, fact.place))

    def preview_struck(self, memo: int, number: int) -> Preview | None:
        """What `strike` would do to the quantities of the fact's place; None where it has none. Nothing is stored."""
        row = corrections.the_fact(self.store, memo, number)
        place = row.fact.place
        if place is None:
            return None
        book = self.book(place)
        left = replace(book, facts=tuple(filed for filed in book.facts if filed.uuid != row.uuid))
        return Preview(place, answers(book, place), answers(left, place))

    def preview_assumed(self, name: str, value: str | None, place: str) -> Preview:
        """What `assume` would do to the quantities of a place. Nothing is stored; Unreadable where the value will not do."""
        kept = self._assumed(name, value)
        book = self.book(place)
        others = tuple(one for one in book.settings if (one.name, one.place) != (name, place))
        settings = (*others, Setting(name=name, value=kept, place=place, at=book.as_of)) if kept is not None else others
        return Preview(place, answers(book, place), answers(replace(book, settings=settings), place))

    def assume(self, name: str, value: str | None, place: str | None = None) -> None:
        """Keep what quantities take for granted; None puts the default back. Unreadable names what would do."""
        self.store.set_assumption(name, self._assumed(name, value), place=place)

    def _assumed(self, name: str, value: str | None) -> str | None:
        """A value of an assumption in the form that is kept."""
        listed()  # the families register what they assume
        known = ASSUMPTIONS.get(name)
        if known is None:
            near = difflib.get_close_matches(name, ASSUMPTIONS, n=1)
            guess = f" Did you mean '{near[0]}'?" if near else ""
            raise NotFound(f"nothing is assumed under '{name}'", hint=f"journal assume lists what is.{guess}")
        try:
            return known.text(known.parse(value)) if value is not None else None
        except ValueError as error:
            raise Unreadable(str(error), hint=f"It stands at {known.show(known.default)} by default.") from None

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
        return [self.taken(memo, as_of=as_of) for memo in self.store.memos_of_day(day, as_of=as_of)]


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
    return Words(heard.text, words, heard.readings, heard.doubts, heard.engine, heard.engine_version)


def with_fact(book: Book, uuid: str, fact: Fact) -> Book:
    """The book as if one fact read so."""
    changed: tuple[Filed[Fact], ...] = tuple(
        replace(filed, fact=fact) if filed.uuid == uuid else filed for filed in book.facts
    )
    return replace(book, facts=changed)


def _stock_words(facts: Iterable[Filed[Fact]]) -> set[str]:
    """The words that name the stock of these facts: what tells one lot from another, and "board" only where nothing else does."""
    words = set()
    for filed in facts:
        if isinstance(filed.fact, Stock):
            said = [
                word
                for part in (filed.fact.species, filed.fact.section, filed.fact.what)
                for word in (part or "").split()
            ]
            telling = [word for word in said if word not in _ANY_WOOD]
            words.update(telling or said)
    return words - {"of"}


_ANY_WOOD = frozenset({"board", "lumber", "timber", "piece", "log", "plank", "of"})


def _place_in_form(typed: Mapping[str, str]) -> dict[str, str]:
    return {name: canonical(text) if name == "place" else text for name, text in typed.items()}


def _put_right(pairs: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The stretches of words that were heard wrong, each with what was meant."""
    found = []
    for heard, meant in pairs:
        old, new = heard.split(), meant.split()
        for tag, i, j, k, m in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
            if tag == "replace" and j - i <= 4 and m - k <= 4:
                found.append((" ".join(old[i:j]), " ".join(new[k:m])))
    return found
