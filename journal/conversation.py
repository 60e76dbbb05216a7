"""Memos said one after another to a journal that answers: each may be about what was just read back or asked.

What it files is append-only like all else: an answer is a memo of its own, and its fact a row in place of the one asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from journal.answers import Question, Reply, answer, asked_anew, meant_as_answer, question_about
from journal.changes import Act
from journal.corrections import current_row
from journal.extract import extract
from journal.grammar import table
from journal.intake import Knowledge, Taken, Words, file_memo, taken
from journal.readback import read_back
from journal.records import Extraction, Fact, Filed, MemoSource, Problem, Span
from journal.replies import is_stop, put_right, puts_right
from journal.store import Draft, Store

JUST_SAID = timedelta(minutes=15)
"""A conversation that begins may be about the memo before it, where that was said no longer ago."""
_MOST_TIMES = 2
"""How often a figure is asked for before its doubt is left for the evening."""


class StopListening(Exception):
    """The builder told the journal to stop; nothing is filed for it."""


class Conversation:
    """What was just read back, and what is asked. `file` files each memo by what it is about.

    `told` is what the journal says to the last memo, a sentence a line; `replied` whether that memo was about one before it;
    `question` what it asks, if anything. While it is `listening`, a memo that is all "stop listening" raises StopListening.
    """

    def __init__(self, *, listening: bool = False) -> None:
        self.listening = listening
        self.told: tuple[str, ...] = ()
        self.replied = False
        self.question: Question | None = None
        self._just_said: tuple[Filed[Fact], ...] | None = None
        self._scratched: tuple[Filed[Fact], ...] = ()
        self._asked = 0

    def expected(self) -> tuple[str, ...]:
        """What is said to the journal itself, for an engine to favour in the next memo."""
        return tuple(table("talk")["spoken"]) if self.listening else ()

    def is_reply(self, store: Store, text: str, said_at: datetime) -> bool:
        """Whether these words answer what is asked, put right what was just said, or tell the journal to stop."""
        if self.listening and is_stop(text):
            return True
        if self.question is not None and answer(self.question, text, said_at) is not None:
            return True
        return put_right(self._before(store, said_at) or self._scratched, text, said_at) is not None

    def nothing_asked(self) -> None:
        """What comes next was said before the question was heard, and does not answer it."""
        self.question = None

    def file(
        self,
        store: Store,
        knowledge: Knowledge,
        words: Words,
        said_at: datetime,
        source: MemoSource,
        *,
        recording: str | None = None,
    ) -> Taken:
        """A memo as it was filed: an answer, a correction of what was just said, or a memo like any other."""
        if self.listening and is_stop(words.text):
            raise StopListening
        self.replied = False
        local = said_at.astimezone() if said_at.tzinfo is None else said_at
        just_said = self._before(store, local)
        question, self.question = self.question, None
        reply = answer(question, words.text, local, words.doubts) if question else None
        if reply is None:
            reply = put_right(just_said or self._scratched, words.text, local, words.doubts)
        if reply is not None and not (reply.act == "strike" and not just_said and question is None):
            return self._replied(store, knowledge, reply, question, words, local, source, recording)
        if puts_right(words.text) and not extract(words.text, local).facts:
            return self._unmet(store, words, local, source, recording)
        self._asked = 0 if question is None else self._asked
        done = file_memo(store, knowledge, words, local, source, recording=recording)
        if question is not None and not done.facts and self._asked <= _MOST_TIMES and meant_as_answer(words.text):
            # "yes" to "thirteen or thirty?", or an answer that was not heard: it is still open
            self.told, self.question, self._asked = (), question, self._asked + 1
            return done
        self._read_back(done)
        return done

    def _before(self, store: Store, said_at: datetime) -> tuple[Filed[Fact], ...]:
        """The facts that were read back last; to begin with, those of a memo said shortly before."""
        if self._just_said is None:
            memo = store.memo_before(said_at)
            recent = memo is not None and said_at - memo.said_at <= JUST_SAID
            self._just_said = tuple(store.facts(memo=memo.number)) if memo is not None and recent else ()
        return self._just_said

    def _read_back(self, done: Taken) -> None:
        """Says what was written down and asks for what is doubted in it."""
        said_at = done.memo.said_at
        self._just_said, self._scratched = done.facts, ()
        self.told = _sentences([filed.fact for filed in done.facts], said_at)
        if self._asked < _MOST_TIMES:
            self.question = question_about(done.facts, done.memo.text, said_at)
            self._asked += self.question is not None

    def _replied(
        self,
        store: Store,
        knowledge: Knowledge,
        reply: Reply,
        question: Question | None,
        words: Words,
        said_at: datetime,
        source: MemoSource,
        recording: str | None,
    ) -> Taken:
        done = _file_reply(store, reply, words, said_at, source, recording)
        knowledge.forget()
        self.replied = True
        was = [filed.fact for filed, _ in reply.changes]
        if reply.act == "fix":
            self._read_back(done)
            return done
        if reply.act == "confirm":
            self.told = _sentences(was, said_at)
            self._next_question(store, reply.changes[0][0])
            return done
        self.told = tuple(f"scratched: {sentence}" for sentence in _sentences(was, said_at))
        self._scratched = tuple(filed for filed, _ in reply.changes)
        self._just_said = ()
        if question is not None and reply.changes[0][0] is question.about:
            self.question = asked_anew(question)
        return done

    def _next_question(self, store: Store, settled: Filed[Fact]) -> None:
        """What else is doubted in a memo, once one figure of it is settled."""
        memo = store.memo(settled.memo)
        if memo is not None:
            self._just_said = tuple(store.facts(memo=memo.number))
            self.question = question_about(self._just_said, memo.text, memo.said_at)
            self._asked = 0

    def _unmet(self, store: Store, words: Words, said_at: datetime, source: MemoSource, recording: str | None) -> Taken:
        """A memo that was to put right what was just said, where it is not clear how; kept with that as its problem."""
        problem = Problem(
            "this was to put right what was said just before, and it is not clear how",
            Span(0, len(words.text)),
            "Say the whole of it again, or put it right by hand: journal fix MEMO …",
        )
        self.told = ()
        return _file(store, words, said_at, source, recording, problems=(problem,))


def _sentences(facts: Sequence[Fact], said_at: datetime) -> tuple[str, ...]:
    return tuple(read_back(facts, said_at.date(), lambda sentence: extract(sentence, said_at).facts))


def _file_reply(
    store: Store, reply: Reply, words: Words, said_at: datetime, source: MemoSource, recording: str | None
) -> Taken:
    return _file(store, words, said_at, source, recording, act=reply.act, changes=reply.changes, sure=reply.sure)


def _file(
    store: Store,
    words: Words,
    said_at: datetime,
    source: MemoSource,
    recording: str | None,
    *,
    act: Act = "take",
    changes: Sequence[tuple[Filed[Fact], Fact | None]] = (),
    sure: bool = False,
    problems: tuple[Problem, ...] = (),
) -> Taken:
    """A memo that is about facts on file: its words, and under a change that can be undone what it does to them.

    A figure put right stands with the memo that put it right, whose words are its evidence; what is confirmed or struck
    stays with the memo that said it.
    """
    with store.writing():
        before = store.memo_before(said_at)
        carried = before.place if before else None
        place = next((now.place for _, now in changes if now is not None and now.place), carried)
        uuid, number = store.add_memo(
            said_at, source, recording=recording, engine=words.engine, engine_version=words.engine_version,
            carried_place=carried,
        )  # fmt: skip
        transcript = store.add_transcript(
            uuid, store.add_change("take"), words.text, Extraction(problems=problems, place=place), known_at=said_at,
            words=words.words, readings=words.readings, heard_doubts=words.doubts,
        )  # fmt: skip
        change = store.add_change(act) if changes else ""
        for count, (filed, now) in enumerate(changes, 1):
            row = current_row(store, filed.uuid)
            if act == "fix" and now is not None:
                store.add_fact(
                    Draft(now, row, confirmed=sure), memo_uuid=uuid, transcript=transcript, number=count,
                    change=change, known_at=said_at,
                )  # fmt: skip
            else:
                store.add_fact(
                    Draft(now or row.fact, row, confirmed=sure, struck=now is None),
                    memo_uuid=row.memo_uuid, transcript=row.transcript, number=row.number, change=change,
                    known_at=said_at,
                )  # fmt: skip
    memo = store.memo(number)
    assert memo is not None  # it was just written
    return taken(store, memo)
