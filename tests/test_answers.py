"""A doubted figure asked for again, and what settles it."""

from __future__ import annotations

from datetime import datetime

import pytest

from journal.answers import Question, answer, asked_anew, question_about
from journal.extract import extract
from journal.fields import describe
from journal.records import Doubt, Filed, Span

MORNING = datetime(2026, 7, 13, 7, 40).astimezone()


def asked(memo: str, doubted: str, *other: str, level: int = 2) -> Question | None:
    """What is asked about a memo in which these words may have been others."""
    start = memo.index(doubted)
    doubt = Doubt("second opinion", "heard otherwise", Span(start, start + len(doubted)), other, level)
    facts = extract(memo, MORNING, heard_doubts=[doubt]).facts
    rows = [Filed(uuid=str(n), fact=fact, memo=1, number=n, said_at=MORNING, made_at=MORNING) for n, fact in enumerate(facts, 1)]  # fmt: skip
    return question_about(rows, memo, MORNING)


WINDOW = ("window on wall a is thirteen wide", "thirteen", "thirty")
FEET = ("wall a length is thirteen foot", "thirteen", "thirty")


@pytest.mark.parametrize(
    ("memo", "words"),
    [
        (WINDOW, "thirteen or thirty?"),
        (("window on wall a is thirteen wide and forty high", "thirteen", "thirty"), "wall a, window, width: thirteen or thirty?"),
        (("window on wall a is thirteen wide", "thirteen"), "thirteen: is that right?"),
        (FEET, "thirteen foot even or thirty foot even?"),
        (("moisture in the loft floor is thirteen percent", "thirteen", "thirty", "fourteen"), "thirteen percent, thirty percent or fourteen percent?"),
        (("received thirteen one by eight pine boards fourteen foot long", "thirteen", "thirty"), "thirteen or thirty?"),
        (("received four one by eight pine boards fourteen foot long", "fourteen", "forty"), "fourteen foot even or forty foot even?"),
        (("received four one by eight pine boards fourteen foot long", "four"), "received four one by eight pine boards, at fourteen foot even: is that right?"),
        (("main roof is a six twelve", "six", "sixteen"), "six in twelve or sixteen in twelve?"),
        (("window on wall a is thirteen wide", "wide", "white"), "thirteen: is that right?"),
    ],
)  # fmt: skip
def test_what_is_asked(memo: tuple[str, ...], words: str) -> None:
    """The readings of the figure that is doubted; what it is of, where the memo said several."""
    question = asked(*memo)
    assert question is not None
    assert question.asked == words


def test_what_is_clear_is_not_asked_about() -> None:
    """No doubt, a sound-alike put right by its context, and a task without a figure raise no question."""
    assert asked(*WINDOW, level=1) is None
    assert question_about([], "", MORNING) is None
    assert asked("flash the window head", "flash", "slash") is None


def settled(memo: tuple[str, ...], reply: str, *heard: Doubt) -> str | None:
    question = asked(*memo)
    assert question is not None
    got = answer(question, reply, MORNING, heard)
    if got is None:
        return None
    ((_, now),) = got.changes
    doubts = "".join(f" ? {doubt.shown}" for doubt in now.doubts) if now else ""
    return f"{got.act}{' ' + describe(now) if now else ''}{doubts}"


@pytest.mark.parametrize(
    ("memo", "reply", "does"),
    [
        (WINDOW, "thirty", 'fix window width 30"'),
        (WINDOW, "it's thirty", 'fix window width 30"'),
        (WINDOW, "no thirty inches", 'fix window width 30"'),
        (WINDOW, "um thirty not thirteen", 'fix window width 30"'),
        (WINDOW, "thirteen", 'confirm window width 13"'),
        (WINDOW, "thirty and a half", 'fix window width 30 1/2"'),
        (WINDOW, "neither", "strike"),
        (WINDOW, "no", "strike"),
        (WINDOW[:2], "yes", 'confirm window width 13"'),
        (WINDOW[:2], "that's right", 'confirm window width 13"'),
        (WINDOW, "thirty foot", "fix window width 30' 0\" ? thirty foot even, where it was asked whether thirteen or thirty"),
        (WINDOW, "forty", 'fix window width 40" ? forty, where it was asked whether thirteen or thirty'),
        (FEET, "thirty", "fix length 30' 0\""),
        (FEET, "thirty one foot", "fix length 31' 0\""),
        (("wall a length is thirteen metres", "thirteen", "thirty"), "thirty", "fix length 30 m"),
        (("six hours chinking wall a", "six", "sixteen"), "sixteen hours", "fix 16 h chinking"),
        (("pine is two eighty five a foot", "eighty five", "ninety five"), "two ninety five", "fix pine $2.95 per foot"),
        (("main roof is a six twelve", "six", "sixteen"), "six", "confirm slope 6/12"),
        (("received four one by eight pine boards fourteen foot long", "fourteen", "forty"), "forty", "fix received: 4 1x8 pine board 40' 0\""),
    ],
)  # fmt: skip
def test_what_settles_it(memo: tuple[str, ...], reply: str, does: str) -> None:
    """One of the figures, a new one, yes or no. A figure far from all that was asked is doubted in turn."""
    assert settled(memo, reply) == does


@pytest.mark.parametrize(
    "reply",
    [
        "yes",
        "wall b height is ninety",
        "stop at the third course",
        "thirteen boards came in",
        "and",
        "thirty percent",
        "",
    ],
)
def test_what_is_no_answer(reply: str) -> None:
    """ "Yes" to "thirteen or thirty?" settles nothing; what says more than a figure is a memo of its own."""
    assert settled(WINDOW, reply) is None


def test_bare_figures_do_not_answer_about_a_lot() -> None:
    """A figure after "received four boards at fourteen foot: is that right?" may be either of the two."""
    assert settled(("received four one by eight pine boards fourteen foot long", "four"), "forty") is None


def test_an_answer_that_was_barely_heard_keeps_its_doubt() -> None:
    """ "Thirty", heard as "thirteen" by the second engine, does not settle "thirteen or thirty?"."""
    again = Doubt("second opinion", "'thirty' may have been 'thirteen'", Span(0, 6), ("thirteen",))
    assert settled(WINDOW, "thirty", again) == "fix window width 30\" ? 'thirty' may have been 'thirteen'"
    assert settled(WINDOW, "thirteen", again) == "fix window width 13\" ? 'thirty' may have been 'thirteen'"


def test_after_a_no_the_figure_is_asked_for_anew() -> None:
    """What was struck is asked for; the next figure stands in its place, without a doubt that it is another."""
    first = asked(*WINDOW)
    assert first is not None
    question = asked_anew(first)
    assert question.asked == "what is it, then?"
    assert answer(question, "no", MORNING) is None
    got = answer(question, "forty one", MORNING)
    assert got is not None
    assert [describe(now) for _, now in got.changes if now] == ['window width 41"']
    assert got.sure


TWO = ("rogue gable window is thirteen wide and fifty high", "rogue gable", "road gable")


def test_a_doubted_name_is_asked_for_and_put_right_wherever_it_stands() -> None:
    """ "Rogue gable or road gable?" "The road gable": both figures of the memo move there; the name on file is confirmed."""
    question = asked(*TWO)
    assert question is not None
    assert question.asked == "rogue gable or road gable?"
    reply = answer(question, "it's the road gable", MORNING)
    assert reply is not None
    assert (reply.act, reply.sure) == ("fix", True)
    assert [(now.place, describe(now), now.doubts) for _, now in reply.changes if now] == [
        ("road gable", 'window width 13"', ()), ("road gable", 'window height 50"', ()),
    ]  # fmt: skip
    confirmed = answer(question, "rogue gable", MORNING)
    assert confirmed is not None
    assert confirmed.act == "confirm"
