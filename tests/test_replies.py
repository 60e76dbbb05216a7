"""What a memo does to what was just read back: taken back, put right, or nothing at all."""

from __future__ import annotations

from datetime import datetime

import pytest

from journal.extract import extract
from journal.fields import describe
from journal.records import Doubt, Filed, Span
from journal.replies import is_stop, put_right, puts_right

MORNING = datetime(2026, 7, 13, 7, 40).astimezone()
BOARD = "lake gable centre board long point fifty six and a half"
WALL = "wall a length thirty foot even height eight foot two"
PINE = "received forty one by eight pine boards twelve foot long"
SIZE = "window on wall a is thirty by forty two"


def filed(memo: str) -> list[Filed]:  # type: ignore[type-arg]
    facts = extract(memo, MORNING).facts
    return [
        Filed(uuid=str(n), fact=fact, memo=1, number=n, said_at=MORNING, made_at=MORNING)
        for n, fact in enumerate(facts, 1)
    ]


def done(memo: str, reply: str) -> list[str] | None:
    """Each fact that a reply changes, as "number: what it is now"; None where it is no reply."""
    got = put_right(filed(memo), reply, MORNING)
    if got is None:
        return None
    return [
        f"{was.number}: {now.place + ' ' if now.place else ''}{describe(now)}" if now else f"{was.number}: struck"
        for was, now in got.changes
    ]


@pytest.mark.parametrize(
    ("memo", "reply", "changes"),
    [
        (BOARD, "scratch that", ["1: struck"]),
        (WALL, "okay um scratch that please", ["1: struck", "2: struck"]),
        (WALL, "forget that", ["1: struck", "2: struck"]),
        (BOARD, "make that fifty seven", ['1: lake gable centre board long point 57"']),
        (BOARD, "no fifty seven and a quarter", ['1: lake gable centre board long point 57 1/4"']),
        (BOARD, "make that seven eighths", ['1: lake gable centre board long point 56 7/8"']),
        (BOARD, "make that the pond gable", ['1: pond gable centre board long point 56 1/2"']),
        (WALL, "sorry wall b", ["1: wall B length 30' 0\"", '2: wall B height 98"']),
        (WALL, "make that eight foot three", ['2: wall A height 99"']),
        (WALL, "make that thirty one foot long", ["1: wall A length 31' 0\""]),
        (WALL, "make that ninety nine", ['2: wall A height 99"']),
        (SIZE, "make that forty three", ['2: wall A window size 43"']),
        (SIZE, "make that thirty one by forty two", ['1: wall A window size 31"']),
        (PINE, "make that fifty", ["1: received: 50 1x8 pine board 12' 0\""]),
        (PINE, "make that ten foot", ['1: received: 40 1x8 pine board 120"']),
        ("six hours chinking wall a", "make that six and a half", ["1: wall A 6.5 h chinking"]),
        ("moisture in the loft floor is fourteen percent", "no sixteen", ["1: loft floor moisture 16 %"]),
        ("pine is two eighty five a foot", "make that two ninety five", ["1: pine $2.95 per foot"]),
        ("flashed the window head", "make that the door head", ["1: done: flash the door head"]),
    ],
)  # fmt: skip
def test_what_was_just_said_is_put_right(memo: str, reply: str, changes: list[str]) -> None:
    """The one thing that the reply can mean changes, and nothing else."""
    assert done(memo, reply) == changes


@pytest.mark.parametrize(
    ("memo", "reply"),
    [
        (BOARD, "lake gable left board long point fifty seven"),
        (BOARD, "sorry wall b height is ninety"),
        (BOARD, "wall b height ninety seven"),
        (BOARD, "make that"),
        (BOARD, "scratch coat goes on the chimney tomorrow"),
        (BOARD, "no more pine left"),
        (BOARD, "stop at the third course"),
        ("flashed the window head", "make that fifty"),
        ("nothing much today", "scratch that"),
    ],
)
def test_a_memo_of_its_own_changes_nothing(memo: str, reply: str) -> None:
    """What is whole by itself, or fits nothing that was said, is no reply."""
    assert done(memo, reply) is None


def test_a_figure_without_its_unit_after_feet_is_doubted() -> None:
    """ "Make that thirty one" after thirty foot is thirty one foot, and asked about: it was not said."""
    reply = put_right(filed("wall a length thirty foot even"), "make that thirty one", MORNING)
    assert reply is not None
    ((_, now),) = reply.changes
    assert now is not None
    assert describe(now) == "length 31' 0\""
    shown = "thirty one foot even: it was thirty foot even, and 'thirty one' was all that was said"
    assert [(doubt.reason, doubt.shown, doubt.level) for doubt in now.doubts] == [("two-way", shown, 2)]


def test_its_evidence_is_the_reply_and_what_was_barely_heard_stays_doubted() -> None:
    """The new fact rests on the words of the reply, with the doubts that the recogniser has of them."""
    heard = Doubt("second opinion", "'fifty' may have been 'fifteen'", Span(10, 15), ("fifteen",))
    reply = put_right(filed(BOARD), "make that fifty seven", MORNING, [heard])
    assert reply is not None
    ((_, now),) = reply.changes
    assert now is not None
    assert (now.evidence, now.rule) == (Span(0, 21), "measure.long_point")
    assert [doubt.shown for doubt in now.doubts] == ["'fifty' may have been 'fifteen'"]


@pytest.mark.parametrize(
    ("text", "stops"),
    [
        ("stop listening", True), ("okay stop listening please", True), ("uh that's all for today", True),
        ("stop at the third course", False), ("stop listening to the radio on wall a", False), ("stop", False), ("", False),
    ],
)  # fmt: skip
def test_only_a_whole_memo_stops(text: str, stops: bool) -> None:
    """Being told to stop is a memo by itself, never part of one."""
    assert is_stop(text) is stops


def test_a_memo_that_must_put_something_right_is_known() -> None:
    """ "Make that …" can only be about something said before; "no …" may begin a memo."""
    assert puts_right("make that the moon")
    assert not puts_right("no more pine left")
