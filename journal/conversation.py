"""Memos said one after another to a journal that answers: each may be about what was just read back or asked.

What it files is append-only like all else: an answer is a memo of its own, and its fact a row in place of the one asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from journal.answers import (
    Changes,
    Choice,
    Question,
    Reply,
    answer,
    asked_anew,
    asked_what_it_is,
    chosen,
    is_hardly_a_memo,
    meant_as_answer,
    question_about,
)
from journal.corrections import settle
from journal.extract import extract
from journal.grammar import table
from journal.intake import Knowledge, Taken, Words, file_memo, taken
from journal.readback import read_back
from journal.records import Fact, Filed, MemoSource, Problem, Span
from journal.replies import is_no, is_stop, put_right, puts_right, says_more, takes_out
from journal.reply_filing import correct_as, file_reply, file_with
from journal.store import Store

JUST_SAID = timedelta(minutes=15)
"""A conversation that begins may be about the memo before it, where that was said no longer ago."""
_MOST_TIMES = 2
"""How often a figure is asked for before its doubt is left for the evening."""


_NOT_PUT_RIGHT = "nothing was put right: say the whole of it again"


class StopListening(Exception):
    """The builder told the journal to stop; nothing is filed for it."""


class Conversation:
    """What was just read back, and what is asked. `file` files each memo by what it is about.

    `told` is what the journal says to the last memo, a sentence a line; `replied` whether that memo was about one before it;
    `question` the figure that it asks for, `choice` the facts it asks to choose from, if any. While it is `listening`, a memo that is all "stop listening" raises StopListening.
    """

    def __init__(self, *, listening: bool = False) -> None:
        self.listening = listening
        self.told: tuple[str, ...] = ()
        self.replied = False
        self.question: Question | None = None
        self.choice: Choice | None = None
        self._of_choice = 0
        self._just_said: tuple[Filed[Fact], ...] | None = None
        self._read_last: tuple[Filed[Fact], ...] = ()
        self._scratched: tuple[Filed[Fact], ...] = ()
        self._asked = 0

    @property
    def asked(self) -> str | None:
        """What is asked, in words; None where nothing is."""
        return self.choice.asked if self.choice else self.question.asked if self.question else None

    def expected(self) -> tuple[str, ...]:
        """What is said to the journal itself, for an engine to favour in the next memo."""
        return tuple(table("talk")["spoken"]) if self.listening else ()

    def is_reply(self, store: Store, text: str, said_at: datetime) -> bool:
        """Whether these words answer what is asked, put right what was just said, or tell the journal to stop."""
        if self.listening and is_stop(text):
            return True
        if self.question is not None and answer(self.question, text, said_at) is not None:
            return True
        if self.choice is not None and chosen(self.choice, text) is not None:
            return True
        return self._put_right(self._before(store, said_at), Words(text), said_at) is not None

    def nothing_asked(self) -> None:
        """What comes next was said before the question was heard, and does not answer it."""
        self.question = self.choice = None

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
        choice, self.choice = self.choice, None
        if choice is not None and (which := chosen(choice, words.text)) is not None:
            return self._chosen(store, knowledge, which, words, local, source, recording)
        question, self.question = self.question, None
        reply: Reply | Choice | None = answer(question, words.text, local, words.doubts) if question else None
        if reply is None:
            reply = self._put_right(just_said, words, local)
        if isinstance(reply, Choice):
            return self._ask_which(store, reply, words, local, source, recording)
        if reply is not None:
            return self._replied(store, knowledge, reply, question, just_said, words, local, source, recording)
        if question is None and choice is None and just_said and is_no(words.text):
            if (anew := asked_what_it_is(self._read_last or just_said)) is not None:
                done = file_with(store, words, local, source, recording)
                self.told, self.replied, self.question, self._asked = (), True, anew, 1
                return done
            return self._unmet(store, words, local, source, recording)
        if takes_out(words.text) or (puts_right(words.text) and not says_more(extract(words.text, local).facts)):
            return self._unmet(store, words, local, source, recording)
        self._asked = 0 if question is None else self._asked
        done = file_memo(store, knowledge, words, local, source, recording=recording)
        if question is not None and not done.facts and self._asked <= _MOST_TIMES and meant_as_answer(words.text):
            # "yes" to "thirteen or thirty?", or an answer that was not heard: it is still open
            self.told, self.question, self._asked = (), question, self._asked + 1
            return done
        if choice is not None and not done.facts and self._asked <= _MOST_TIMES and is_hardly_a_memo(words.text):
            self.told, self.choice, self._asked = (), choice, self._asked + 1
            return done
        self._asked = 0 if done.facts else self._asked
        self._read_back(done)
        return done

    def _put_right(self, just_said: tuple[Filed[Fact], ...], words: Words, said_at: datetime) -> Reply | Choice | None:
        """What the words put right: of what was scratched last, which "make that …" is about first, or of what was said."""
        reply = put_right(self._scratched, words.text, said_at, words.doubts) if self._scratched else None
        if isinstance(reply, Choice) or (reply is not None and reply.act == "fix"):
            return reply
        return put_right(just_said, words.text, said_at, words.doubts, self._read_last)

    def _before(self, store: Store, said_at: datetime) -> tuple[Filed[Fact], ...]:
        """The facts that were read back last; to begin with, those of a memo said shortly before."""
        if self._just_said is None:
            memo = store.memo_before(said_at)
            recent = memo is not None and said_at - memo.said_at <= JUST_SAID
            self._just_said = tuple(store.facts(memo=memo.number)) if memo is not None and recent else ()
        return self._just_said

    def _read_back(self, done: Taken, *, instead_of: Changes = ()) -> None:
        """Says what was written down and asks for what is doubted in it.

        `instead_of` are the changes that it made; what was said beside them can be put right as before.
        """
        said_at = done.memo.said_at
        now = dict(zip((filed.uuid for filed, _ in instead_of), done.facts, strict=False))
        beside = [filed for filed in self._just_said or () if filed.uuid not in now] if now else []
        in_order = [now.get(filed.uuid, filed) for filed in self._just_said or ()] if now else done.facts
        self._just_said = tuple(in_order) if len(in_order) == len(beside) + len(done.facts) else (*beside, *done.facts)
        self._scratched, self._read_last = (), done.facts
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
        just_said: tuple[Filed[Fact], ...],
        words: Words,
        said_at: datetime,
        source: MemoSource,
        recording: str | None,
    ) -> Taken:
        done = file_reply(store, reply, words, said_at, source, recording)
        knowledge.forget()
        self.replied = True
        was = [filed.fact for filed, _ in reply.changes]
        if reply.act == "fix":
            self._read_back(done, instead_of=reply.changes)
            if self.question is None and question is not None:
                self._next_question(store, reply.changes[0][0])
            return done
        if reply.act == "confirm":
            self.told = _sentences(was, said_at)
            self._next_question(store, reply.changes[0][0])
            return done
        self.told = tuple(f"scratched: {sentence}" for sentence in _sentences(was, said_at))
        self._scratched = tuple(filed for filed, _ in reply.changes)
        out = {filed.uuid for filed, _ in reply.changes}
        self._just_said, self._read_last = tuple(filed for filed in just_said if filed.uuid not in out), ()
        if question is not None and reply.changes[0][0] is question.about:
            self.question = asked_anew(question)
        return done

    def _ask_which(
        self,
        store: Store,
        choice: Choice,
        words: Words,
        said_at: datetime,
        source: MemoSource,
        recording: str | None,
    ) -> Taken:
        """A correction that fits several facts: kept with that as its problem, and asked about."""
        fits = ", ".join(name for name, _ in choice.options)
        problem = Problem(
            f"this puts right what was said just before, and fits more than one thing there: {fits}",
            Span(0, len(words.text)),
            "Say which one, or put it right by hand: journal fix MEMO …",
        )
        done = file_with(store, words, said_at, source, recording, problems=(problem,))
        self.told, self.replied, self.choice, self._of_choice, self._asked = (), True, choice, done.memo.number, 0
        return done

    def _chosen(
        self,
        store: Store,
        knowledge: Knowledge,
        which: Reply,
        words: Words,
        said_at: datetime,
        source: MemoSource,
        recording: str | None,
    ) -> Taken:
        """What "which one?" was answered with, carried out as the correction that raised it."""
        done = file_with(store, words, said_at, source, recording)
        asked_by = store.memo(self._of_choice)
        assert asked_by is not None  # it was filed before it was asked about
        settle(store, asked_by)
        self.replied, self.told = True, ()
        if not which.changes:
            return done
        correct_as(store, asked_by.number, which.changes, said_at)
        knowledge.forget()
        corrected = store.memo(self._of_choice)
        assert corrected is not None
        self._read_back(taken(store, corrected), instead_of=which.changes)
        return done

    def _next_question(self, store: Store, settled: Filed[Fact]) -> None:
        """What else is doubted in a memo, once one figure of it is settled."""
        memo = store.memo(settled.memo)
        if memo is not None:
            left = tuple(store.facts(memo=memo.number))
            known = {filed.uuid for filed in self._just_said or ()}
            self._just_said = (*(self._just_said or ()), *(filed for filed in left if filed.uuid not in known))
            self.question = question_about(left, memo.text, memo.said_at)
            self._asked = 0

    def _unmet(self, store: Store, words: Words, said_at: datetime, source: MemoSource, recording: str | None) -> Taken:
        """A memo that was to put right what was just said, where it is not clear how; kept with that as its problem."""
        problem = Problem(
            "this was to put right what was said just before, and it is not clear how",
            Span(0, len(words.text)),
            "Say the whole of it again, or put it right by hand: journal fix MEMO …",
        )
        self.told, self.replied = (_NOT_PUT_RIGHT,), True
        return file_with(store, words, said_at, source, recording, problems=(problem,))


def _sentences(facts: Sequence[Fact], said_at: datetime) -> tuple[str, ...]:
    return tuple(read_back(facts, said_at.date(), lambda sentence: extract(sentence, said_at).facts))
