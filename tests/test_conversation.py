"""Memos said one after another: what is filed when one is about another, and what the journal says to it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from journal.conversation import Conversation, StopListening
from journal.fields import describe
from journal.intake import Taken, Words
from journal.records import Doubt, Span
from journal.session import Session

MORNING = datetime(2026, 7, 13, 7, 40).astimezone()


class Builder:
    """Says memos to a job, a minute apart."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.talk = Conversation(listening=True)
        self._at = MORNING

    def says(self, text: str) -> Taken:
        self._at += timedelta(minutes=1)
        return self.session.take_typed(text, self._at, talk=self.talk)

    def mumbles(self, text: str, doubted: str, *other: str) -> Taken:
        """A memo of which the recogniser doubts some words."""
        self._at += timedelta(minutes=1)
        start = text.index(doubted)
        doubt = Doubt("second opinion", f"'{doubted}' may be wrong", Span(start, start + len(doubted)), other)
        words = Words(text, doubts=(doubt,), engine="test", weighed=True)
        return self.talk.file(self.session.store, self.session._known(), words, self._at, "microphone")

    @property
    def asked(self) -> str | None:
        return self.talk.asked

    def on_file(self) -> list[str]:
        """What stands: memo, fact, what it is, whether it was looked at, its doubts."""
        return [
            f"{filed.memo}.{filed.number} {filed.fact.place or ''} {describe(filed.fact)}"
            + ("  sure" if filed.confirmed else "")
            + "".join(f" ? {doubt.shown}" for doubt in filed.fact.doubts)
            for filed in self.session.store.facts()
        ]


@pytest.fixture
def builder(session: Session) -> Builder:
    return Builder(session)


def test_a_memo_is_said_back(builder: Builder) -> None:
    """What was written down, in words, a sentence a fact; nothing where there was none."""
    builder.says("lake gable centre board long point fifty six and seven eighths")
    assert builder.talk.told == ("lake gable, centre board, long point, fifty six and seven eighths",)
    assert builder.asked is None
    builder.says("nothing much this morning")
    assert builder.talk.told == ()


def test_scratched_and_made_something_else(builder: Builder) -> None:
    """ "Scratch that" and "make that" work on what was just said back, over and over; all of it stays on file."""
    builder.says("lake gable centre board long point fifty six and seven eighths")
    builder.says("make that fifty seven")
    assert builder.talk.told == ("lake gable, centre board, long point, fifty seven",)
    builder.says("scratch that")
    assert builder.talk.told == ("scratched: lake gable, centre board, long point, fifty seven",)
    assert builder.on_file() == []
    builder.says("make that fifty eight")
    assert builder.on_file() == ['4.1 lake gable centre board long point 58"']
    (filed,) = builder.session.store.facts()
    assert [(old.memo, describe(old.fact)) for old in filed.was] == [
        (2, 'centre board long point 57"'), (1, 'centre board long point 56 7/8"'),
    ]  # fmt: skip
    memo = builder.session.store.memo(4)
    assert memo is not None
    start, end = filed.fact.evidence
    assert memo.text[start:end] == "make that fifty eight"


def test_a_doubted_figure_is_asked_for_and_answered(builder: Builder) -> None:
    """ "Thirteen or thirty?" "Thirty": filed as a correction, with the answer as its evidence, and no doubt left."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    assert builder.talk.told == ("wall a, window, width, thirteen",)
    assert builder.asked == "thirteen or thirty?"
    builder.says("thirty")
    assert builder.on_file() == ['2.1 wall A window width 30"  sure']
    assert (builder.talk.told, builder.asked) == (("wall a, window, width, thirty",), None)
    act, _ = builder.session.undo()
    assert act == "fix"
    assert builder.on_file() == ["1.1 wall A window width 13\" ? 'thirteen' may be wrong"]


def test_the_figure_on_file_is_confirmed(builder: Builder) -> None:
    """Answered with the figure that was written down: it stays where it was said, looked at."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    builder.says("thirteen")
    assert builder.on_file() == ['1.1 wall A window width 13"  sure']


def test_every_doubted_figure_of_a_memo_is_asked_for_in_turn(builder: Builder) -> None:
    """One question at a time: when the first is settled, the next is asked."""
    builder.mumbles("window on wall a is thirteen wide and fifty high", "thirteen wide and fifty")
    assert builder.asked == "wall a, window, width, thirteen: is that right?"
    builder.says("yes")
    assert builder.asked == "wall a, window, height, fifty: is that right?"
    builder.says("yes")
    assert builder.asked is None
    assert builder.on_file() == ['1.1 wall A window width 13"  sure', '1.2 wall A window height 50"  sure']


def test_no_strikes_it_and_asks_anew(builder: Builder) -> None:
    """ "No": the figure is out of the book at once, and the next one said stands in its place."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen")
    builder.says("no")
    assert builder.talk.told == ("scratched: wall a, window, width, thirteen",)
    assert builder.asked == "what is it, then?"
    assert builder.on_file() == []
    builder.says("thirty one and a half")
    assert builder.on_file() == ['3.1 wall A window width 31 1/2"  sure']


def test_an_unanswered_question_stays_a_doubt(builder: Builder) -> None:
    """Whatever else is said is a memo as usual, and the question is not asked again."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    builder.says("stop at the third course")
    assert builder.asked is None
    builder.says("wall b height is ninety")
    builder.says("thirty")
    assert builder.on_file() == [
        "1.1 wall A window width 13\" ? 'thirteen' may be wrong",
        '3.1 wall B height 90"',
    ]


def test_yes_to_thirteen_or_thirty(builder: Builder) -> None:
    """It cannot be told which: the question stays open, and the doubt with it."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    builder.says("yes")
    assert builder.asked == "thirteen or thirty?"
    builder.says("thirteen")
    assert builder.on_file() == ['1.1 wall A window width 13"  sure']


def test_a_figure_that_is_doubted_over_and_over_is_left_for_the_evening(builder: Builder) -> None:
    """It is asked for twice; then its doubt stays, and the memo after it is no answer."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    builder.mumbles("thirty", "thirty", "thirteen")
    assert builder.asked == "thirty: is that right?"
    builder.mumbles("thirty", "thirty", "thirteen")
    assert builder.asked is None
    assert builder.on_file() == ["3.1 wall A window width 30\" ? 'thirty' may be wrong"]


def test_said_before_the_question_was_heard(builder: Builder) -> None:
    """What was being said while the journal asked is no answer."""
    builder.mumbles("window on wall a is thirteen wide", "thirteen", "thirty")
    builder.talk.nothing_asked()
    done = builder.says("thirty")
    assert [problem.message for problem in done.problems] == ["'thirty': a figure, but of what?"]


def test_nothing_to_put_right_is_told(builder: Builder) -> None:
    """A correction that fits nothing is kept with a problem: the builder must not think that it was carried out."""
    builder.says("nothing much this morning")
    done = builder.says("make that fifty seven")
    (problem,) = done.problems
    assert problem.message == "this was to put right what was said just before, and it is not clear how"
    assert problem.hint == "Say the whole of it again, or put it right by hand: journal fix MEMO …"
    assert builder.talk.told == ("nothing was put right: say the whole of it again",)
    assert builder.on_file() == []
    done = builder.says("scratch the height")
    assert (len(done.problems), builder.on_file()) == (1, [])


def test_what_fits_two_facts_is_asked_about_and_answered(builder: Builder) -> None:
    """ "Make that thirty six" fits both figures: neither changes until it is said which; the words of the correction are its evidence."""
    builder.says("window on wall a is thirty wide and forty two high")
    done = builder.says("make that thirty six")
    shown = "this puts right what was said just before, and fits more than one thing there: the height, the width"
    assert [problem.message for problem in done.problems] == [shown]
    assert (builder.talk.told, builder.asked) == ((), "which one, the height or the width?")
    assert builder.on_file() == ['1.1 wall A window width 30"', '1.2 wall A window height 42"']
    builder.says("the width")
    assert (builder.talk.told, builder.asked) == (("wall a, window, width, thirty six",), None)
    assert builder.on_file() == ['1.2 wall A window height 42"', '2.1 wall A window width 36"']
    memo = builder.session.store.memo(2)
    assert memo is not None
    assert builder.session.store.problems(memo.transcript) == []
    assert builder.session.undo()[0] == "fix"
    assert builder.on_file() == ['1.1 wall A window width 30"', '1.2 wall A window height 42"']


@pytest.mark.parametrize(
    ("answer", "on_file"),
    [
        ("the first one", ['1.1 wall A window width 30"', '2.1 wall A window height 36"']),
        ("the last", ['1.2 wall A window height 42"', '2.1 wall A window width 36"']),
        ("both", ['2.1 wall A window height 36"', '2.2 wall A window width 36"']),
        ("neither", ['1.1 wall A window width 30"', '1.2 wall A window height 42"']),
    ],
)
def test_which_one(builder: Builder, answer: str, on_file: list[str]) -> None:
    """By its place in the question, both, or none."""
    builder.says("window on wall a is thirty wide and forty two high")
    builder.says("make that thirty six")
    builder.says(answer)
    assert builder.on_file() == on_file


def test_which_one_is_asked_again_and_then_left(builder: Builder) -> None:
    """An answer that names none of them is asked for again; another memo is one, and the correction keeps its problem."""
    builder.says("window on wall a is thirty wide and forty two high")
    builder.says("make that thirty six")
    builder.says("the sill")
    assert builder.asked == "which one, the height or the width?"
    builder.says("wall b height is ninety")
    assert builder.asked is None
    memo = builder.session.store.memo(2)
    assert memo is not None
    assert len(builder.session.store.problems(memo.transcript)) == 1
    assert builder.on_file() == [
        '1.1 wall A window width 30"', '1.2 wall A window height 42"', '4.1 wall B height 90"',
    ]  # fmt: skip


def test_the_rest_of_a_memo_can_be_put_right_too(builder: Builder) -> None:
    """One figure put right, the next correction may be of another of the same memo."""
    builder.says("window on wall a is thirty wide and forty two high")
    builder.says("make that thirty one wide")
    builder.says("and make the height forty three")
    builder.says("that's the door")
    assert builder.on_file() == ['4.1 wall A door width 31"', '4.2 wall A door height 43"']


def test_what_was_scratched_is_what_comes_next(builder: Builder) -> None:
    """ "Make that" after "scratch that" is about what was scratched, never about a figure that stands beside it."""
    builder.says("wall a length thirty foot even height eight foot two")
    builder.says("scratch the height")
    builder.says("make that one hundred")
    assert builder.on_file() == ["1.1 wall A length 30' 0\"", '3.1 wall A height 100"']


def test_a_doubted_figure_stays_doubted_when_a_name_is_put_right(builder: Builder) -> None:
    """ "Make that spruce" settles the wood, not whether it was thirteen or thirty boards; that is asked again."""
    builder.mumbles("received thirteen two by six pine boards", "thirteen", "thirty")
    assert builder.asked == "thirteen or thirty?"
    builder.says("make that spruce")
    assert builder.on_file() == ["2.1  received: 13 2x6 spruce board ? 'thirteen' may be wrong"]
    assert builder.asked == "received thirteen two by six spruce boards: is that right?"
    builder.mumbles("rogue gable window is ten wide", "rogue gable", "road gable")
    builder.says("that's the road gable")
    assert builder.on_file()[-1] == '4.1 road gable window width 10"  sure'


def test_a_correction_that_fits_nothing_is_no_new_fact(builder: Builder) -> None:
    """ "Make that one deep" after a task, as an engine heard "make that monday", makes no depth; a place said makes it a memo."""
    builder.says("need to flash the door head on friday")
    done = builder.says("make that one deep")
    assert (done.facts, len(done.problems)) == ((), 1)
    assert builder.says("make that wall b height ninety").facts != ()


def test_a_no_asks_what_it_is(builder: Builder) -> None:
    """ "No" to a single figure that was read back asks for it; to several it is told that nothing was put right."""
    builder.says("wall a height is ninety")
    builder.says("that's not right")
    assert builder.asked == "not ninety: what is it, then?"
    builder.says("ninety one")
    assert builder.on_file() == ['3.1 wall A height 91"  sure']
    builder.says("wall a length thirty foot even height eight foot two")
    done = builder.says("wrong")
    assert len(done.problems) == 1
    assert (builder.talk.told, builder.asked) == (("nothing was put right: say the whole of it again",), None)


def test_a_conversation_goes_on_where_the_last_one_ended(builder: Builder) -> None:
    """Begun again within minutes it is about the last memo; the next day it is not."""
    builder.says("wall a height is ninety eight")
    builder.talk = Conversation()
    builder.says("make that ninety nine")
    assert builder.on_file() == ['2.1 wall A height 99"']
    builder.talk = Conversation()
    builder.session.take_typed("scratch that", MORNING + timedelta(hours=1), talk=builder.talk)
    assert builder.on_file() == ['2.1 wall A height 99"']


def test_what_was_put_right_is_known_to_the_next_memo(builder: Builder) -> None:
    """A later figure is held against the one put right, not against the one misheard."""
    builder.says("wall a height is nineteen")
    builder.says("make that ninety")
    done = builder.says("wall a height is ninety one")
    assert [doubt.reason for filed in done.facts for doubt in filed.fact.doubts] == []


def test_stop_listening_files_nothing(builder: Builder) -> None:
    """Told to stop, it stops; the words are no memo. Nobody listening, they are one."""
    with pytest.raises(StopListening):
        builder.says("stop listening please")
    assert builder.session.store.memo(1) is None
    builder.talk = Conversation()
    assert builder.says("stop listening").memo.number == 1


def test_words_to_expect(builder: Builder) -> None:
    """At the microphone an engine is told the short words that mean something to the journal."""
    assert "scratch that" in builder.talk.expected()
    assert Conversation().expected() == ()


def test_corrections_do_not_carry_the_marks_of_a_look(builder: Builder) -> None:
    """ "Make that …" is one more figure heard: it counts as looked at only when it was asked for."""
    builder.says("wall a height is ninety")
    done = builder.says("make that ninety one")
    assert [filed.confirmed for filed in done.facts] == [False]
    assert replace(done.facts[0].fact, evidence=Span(0, 0)).doubts == ()
