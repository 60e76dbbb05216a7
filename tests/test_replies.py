"""What a memo does to what was just read back: taken back, put right, or nothing at all."""

from __future__ import annotations

from datetime import datetime

import pytest

from journal.answers import Choice, Reply
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
    assert isinstance(got, Reply)
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


HEAD = "wall a window head height eighty"
WINDOW = "window on wall a is thirty wide and forty two high"
OPENING = "bathroom door rough opening thirty four by eighty two and a half"
RAFTER = "porch jack rafter three length eleven foot four and a half"
COURSE = "east wall third course log diameter thirteen inches"
PAN = "need to caulk the shower pan in the bathroom tomorrow"


@pytest.mark.parametrize(
    ("memo", "change", "replies"),
    [
        (BOARD, "1: road gable centre board long point 56 1/2\"", [
            "that's the road gable not the lake gable", "it's the road gable", "not the lake gable the road gable",
            "road gable not lake gable", "that was on the road gable", "wrong gable it's the road gable",
            "change lake gable to road gable", "actually that's the road gable", "the road gable i mean",
            "lake gable should be road gable", "instead of the lake gable the road gable", "road not lake",
            "that isn't the lake gable it's the road gable",
        ]),
        (BOARD, "1: lake gable centre board short point 56 1/2\"", [
            "make that the short point", "that's the short point", "no the short point", "short point not long point",
            "it's the short point", "i meant short point", "sorry short point", "change long point to short point",
            "that's not the long point it's the short point", "short point i mean", "no short",
        ]),
        (BOARD, "1: lake gable left board long point 56 1/2\"", [
            "make that the left board", "it's the left board", "left board not centre board", "left not centre",
            "not the centre board the left board", "i meant the left board", "that was the left board", "make it the left one",
            "change centre board to left board", "the left board i mean", "wrong board it's the left one",
        ]),
        (BOARD, "1: lake gable centre board long point 56 1/4\"", [
            "no fifty six and a quarter", "it's fifty six and a quarter", "a quarter not a half", "not a half a quarter",
            "i said fifty six and a quarter", "change it to fifty six and a quarter", "fifty six and a quarter sorry",
            "i meant to say fifty six and a quarter", "make the long point fifty six and a quarter",
            "fifty six and a half should be fifty six and a quarter", "for fifty six and a half read fifty six and a quarter",
        ]),
        (WINDOW, "1: wall A window width 31\"", [
            "not thirty thirty one", "make the width thirty one", "it's thirty one wide", "change the width to thirty one",
        ]),
        (RAFTER, "1: shed jack rafter 3 length 136 1/2\"", ["on the shed not the porch", "that's the shed"]),
        (RAFTER, "1: porch jack rafter 4 length 136 1/2\"", ["no four not three", "jack rafter four not three"]),
        (COURSE, "1: east wall fourth course log diameter 13\"", [
            "fourth course not third", "that's the fourth course", "make that the fourth course",
        ]),
        (COURSE, "1: west wall third course log diameter 13\"", ["west not east", "that was the west wall"]),
        (PINE, "1: received: 40 1x8 spruce board 12' 0\"", ["no spruce", "that's spruce not pine", "make that spruce"]),
        (PINE, "1: received: 40 1x10 pine board 12' 0\"", ["one by ten not one by eight", "make that one by tens"]),
        (PINE, "1: received: 40 1x8 pine board 14' 0\"", ["they're fourteen foot not twelve", "fourteen not twelve"]),
        (PINE, "1: ordered: 40 1x8 pine board 12' 0\"", ["ordered not received", "make that ordered"]),
        ("pine is two eighty five a foot", "1: spruce $2.85 per foot", ["make that spruce", "spruce not pine"]),
        ("six hours chinking wall a", "1: wall A 6 h sanding", ["make that sanding", "that was sanding not chinking"]),
        ("main roof is a six twelve", "1: main roof slope 8/12", ["make that eight twelve", "no it's an eight twelve"]),
        (PAN, "1: bathroom open: caulk the tub by Tue 14 Jul", ["the tub not the shower pan"]),
        (PAN, "1: bathroom open: caulk the shower pan by Wed 15 Jul", ["no wednesday", "wednesday not tomorrow"]),
        (PAN, "1: kitchen open: caulk the shower pan by Tue 14 Jul", ["in the kitchen not the bathroom", "no in the kitchen"]),
    ],
)  # fmt: skip
def test_the_ways_of_saying_it(memo: str, change: str, replies: list[str]) -> None:
    """A figure, place, thing, dimension or name is put right in whatever words, with what it stands for or without."""
    assert {reply: done(memo, reply) for reply in replies} == {reply: [change] for reply in replies}


@pytest.mark.parametrize(
    ("memo", "reply", "changes"),
    [
        (WINDOW, "it's the door", ['1: wall A door width 30"', '2: wall A door height 42"']),
        (WINDOW, "wall b not wall a", ['1: wall B window width 30"', '2: wall B window height 42"']),
        (WINDOW, "no the other way round", ['1: wall A window width 42"', '2: wall A window height 30"']),
        (WINDOW, "scratch the height", ["2: struck"]),
        (OPENING, "it's the bedroom door", [
            '1: bedroom door rough opening width 34"', '2: bedroom door rough opening height 82 1/2"',
        ]),
        (OPENING, "make that thirty six by eighty two and a half", ['1: bathroom door rough opening width 36"']),
        (OPENING, "no eighty three high", ['2: bathroom door rough opening height 83"']),
    ],
)  # fmt: skip
def test_what_is_about_several_facts(memo: str, reply: str, changes: list[str]) -> None:
    """All facts of one thing or place go together; a dimension tells which figure is meant."""
    assert done(memo, reply) == changes


def test_a_part_said_alone_is_the_same_things_part() -> None:
    """ "The sill" after "window head" is the window's sill, held to what a sill can be."""
    assert done(HEAD, "it's the sill") == ['1: wall A window sill height 80"']
    reply = put_right(filed(HEAD), "it's the sill", MORNING)
    assert isinstance(reply, Reply)
    ((_, now),) = reply.changes
    assert now is not None
    assert [doubt.shown for doubt in now.doubts] == ['80" is unusual for a sill height']


@pytest.mark.parametrize(
    ("memo", "reply", "asked"),
    [
        (WINDOW, "make that thirty six", "which one, the height or the width?"),
        (WINDOW, "make it fourteen", "which one, the width or the height?"),
        ("lake gable left board long point fifty six centre board long point fifty seven", "make that fifty eight",
         "which one, the centre board or the left board?"),
        ("wall a height nine foot wall b height eight foot", "that's the kitchen", "which one, wall a or wall b?"),
    ],
)  # fmt: skip
def test_what_fits_two_facts_is_asked_about(memo: str, reply: str, asked: str) -> None:
    """A correction that can be of two things changes neither; the nearer one is named first."""
    choice = put_right(filed(memo), reply, MORNING)
    assert isinstance(choice, Choice)
    assert choice.asked == asked


def test_said_anew_without_a_word_of_correction() -> None:
    """ "The width is thirty one" of a window just said thirty wide puts it right, and asks whether that was meant."""
    reply = put_right(filed(WINDOW), "the width is thirty one", MORNING)
    assert isinstance(reply, Reply)
    ((_, now),) = reply.changes
    assert now is not None
    assert describe(now) == 'window width 31"'
    shown = "thirty one: it was thirty, and it was not said that this puts it right"
    assert [(doubt.reason, doubt.shown, doubt.level) for doubt in now.doubts] == [("two-way", shown, 2)]


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
        (BOARD, "it's raining"),
        (BOARD, "that's the last of the pine"),
        (BOARD, "it's a pine board"),
        (BOARD, "it's the wrong board"),
        (BOARD, "the road gable"),
        (BOARD, "the road gable is fifty six"),
        (BOARD, "that's forty boards so far"),
        (BOARD, "that's six hours"),
        (BOARD, "no nails left"),
        (BOARD, "make it a good one"),
        (BOARD, "change the blade"),
        (BOARD, "i said we would finish friday"),
        (RAFTER, "twelve rafters not ten"),
        (HEAD, "then the sill is thirty six"),
        (PAN, "not before noon"),
        ("wall a length thirty foot even", "make that one hundred"),
        ("wall a length thirty foot even", "make that fifty boards"),
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
    assert isinstance(reply, Reply)
    ((_, now),) = reply.changes
    assert now is not None
    assert describe(now) == "length 31' 0\""
    shown = "thirty one foot even: it was thirty foot even, and 'thirty one' was all that was said"
    assert [(doubt.reason, doubt.shown, doubt.level) for doubt in now.doubts] == [("two-way", shown, 2)]


def test_its_evidence_is_the_reply_and_what_was_barely_heard_stays_doubted() -> None:
    """The new fact rests on the words of the reply, with the doubts that the recogniser has of them."""
    heard = Doubt("second opinion", "'fifty' may have been 'fifteen'", Span(10, 15), ("fifteen",))
    reply = put_right(filed(BOARD), "make that fifty seven", MORNING, [heard])
    assert isinstance(reply, Reply)
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
