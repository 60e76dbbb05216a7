"""Cautions and refusals of the trade notes, part D: printed where they belong, and no more than there."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from journal.quantities.cautions import (
    CLOSING_UP,
    DUST,
    FINISH,
    HEIGHTS,
    LEAD,
    STRUCTURE,
    WEIGHT,
    task_cautions,
)
from journal.refusals import REFUSALS, refusal, refusal_of_memo

REFUSED_QUESTIONS = """
what size header over the lake wall window
how big a lintel do i need above the door
is a two by six big enough for the porch rafters
will a four by eight do for the lintel
can i use a six by six for the post
how deep should a floor joist be for fourteen feet
how far can a two by eight joist span
what's the maximum span for a 2x10
what spacing should the rafters be
what is the safe span of a two by twelve
will the tie beam hold if i notch it
is the ridge beam strong enough
is the birdsmouth too deep
how deep can i notch the joist
is it ok to cut through the collar tie
can i take out the post in the kitchen
can i remove this wall
are eight penny nails enough
how many screws are enough for the ledger to hold
will two lags carry the ledger
what snow load will the porch roof take
how much weight will the loft floor carry
how big should the footing be
how deep should the footings be
what bearing does the beam need, is two inches of bearing enough
will the staging hold two of us
can the hoist lift the ridge log
is the anchor rated for that
what size wire for the loft outlets
what breaker do i need
how close can the stove be to the log wall
what clearance to the chimney
how far should the stove be from the wall
is the crack in the purlin safe
is the rot in the sill log bad
does the check in log six matter
should i worry about the crack in the ridge beam
do you think the split joist will hold
""".strip().splitlines()

ANSWERED_QUESTIONS = """
how many boards are left
what is the rafter spacing on the porch roof
how long are the porch roof rafters
how long should the rafters be
what is left to do before the staging comes down
when does the staging come down
is the pine dry enough
do i have enough nails
are there enough boards left
what was the ridge height
how thick is the ridge board
what size is the lake gable window
how many hours on wall a
what did i spend on rafters
what do i cut next and how long
what changed since tuesday
how many rafters did i cut
what is the span of the loft
which window is the sash for
what did i say about the crack in the sill log
how deep is the chink on wall a
what do i need at the yard
is the stack dry yet
how many nails do i need for the gable
what did the gable cost so far
all about wall a
what is the slope of the porch roof
how much sealant do i need
what is the overhang on the porch roof
what size are the joists in the loft
is the wall square
can i set the sash
how far out of plumb is the lake wall
is the flashing done on the lake gable
""".strip().splitlines()


@pytest.mark.parametrize("question", REFUSED_QUESTIONS)
def test_a_question_about_strength_gets_a_sentence_and_no_number(question: str) -> None:
    """Size, span, load, sufficiency, rigging, wire, clearance and found damage are refused, and sent to who decides."""
    sentence = refusal(question)
    assert sentence is not None
    told, _, asked = sentence.partition(" (asked: ")
    assert told == (
        "The journal does not answer that: it is arithmetic, not engineering. Ask the adopted code tables, the authority "
        "having jurisdiction or a licensed person."
    )
    assert asked.rstrip(")") in {kind.what for kind in REFUSALS}


@pytest.mark.parametrize("question", ANSWERED_QUESTIONS)
def test_a_question_that_the_journal_can_answer_is_not_refused(question: str) -> None:
    """The ten questions and look-ups of a figure on file go through."""
    assert refusal(question) is None


@pytest.mark.parametrize(
    ("memo", "asks"),
    [
        ("so is a two by six enough to carry the porch roof", True),
        ("what size header over the lake wall window", True),
        ("ask the engineer if the ridge beam is strong enough", False),
        ("the beam is up on the blocks and it's safe for the night", False),
        ("cut the header for the lake wall window sixty two and a half", False),
        ("the crack in the sill log is bad need to look at it", False),
    ],
)
def test_a_memo_that_asks_is_told_apart_from_one_that_tells(memo: str, asks: bool) -> None:
    """Only a memo that opens as a question is refused; what it tells is taken down."""
    assert (refusal_of_memo(memo) is not None) is asks


def test_no_memo_of_the_demo_is_refused() -> None:
    """A fortnight of memos holds no question of that kind."""
    demo = Path(__file__).parents[1] / "memos" / "demo_memos.jsonl"
    texts = [json.loads(line)["text"] for line in demo.read_text(encoding="utf-8").splitlines()]
    assert [text for text in texts if refusal(text)] == []


@pytest.mark.parametrize(
    ("do", "cautions"),
    [
        ("flash the window head before the staging comes down", (HEIGHTS,)),
        ("wire brush the inside", (DUST,)),
        ("rake out the old chinking", (DUST,)),
        ("grind the old mortar", (DUST,)),
        ("scrape the old paint", (LEAD,)),
        ("oil the top four boards", (FINISH,)),
        ("raise the ridge log", (HEIGHTS, WEIGHT)),
        ("close up the north wall", (CLOSING_UP,)),
        ("notch the joist", (STRUCTURE,)),
        ("level the porch floor", ()),
        ("pick up the sealant", ()),
    ],
)
def test_tasks_carry_their_cautions(do: str, cautions: tuple[str, ...]) -> None:
    """A task prints the caution of the work it names, and no other."""
    assert task_cautions(do) == cautions
