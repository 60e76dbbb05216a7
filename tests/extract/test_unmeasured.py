"""Figures that nobody measured: a plan's, a limit, a condition, a wish, a tool's. None of them is a fact."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard


@pytest.mark.parametrize(
    "said",
    [
        "unless the opening's over forty wide the old sash will do",
        "the opening can't be more than thirty two wide",
        "the gap shouldn't be over a quarter",
        "never seen a beam that's forty foot long in one piece",
        "i've seen gaps two inches wide on worse jobs",
        "wouldn't surprise me if the wall's an inch out of plumb",
        "thinking of making the shelf twelve inches deep",
        "could go thirty wide on that door",
        "do you think it's thirty wide",
        "was it thirty wide",
        "used to be thirty two wide and eighty high",
        "my brother's shop is twenty four wide",
        "use the four foot level not the two foot one",
        "i'm on page four of the plans",
        "one of the three posts has a check in it",
        "four of the boards are warped",
    ],
)
def test_what_nobody_measured_is_no_fact(said: str) -> None:
    """A question, a supposition, a denial, what used to be, others' things and tools leave neither fact nor problem."""
    read = heard(said)
    assert (read.facts, read.problems) == ((), ())


@pytest.mark.parametrize(
    ("said", "told", "problems"),
    [
        ("drawing says the sill's thirty six high but it's thirty four and a half", ["measure: sill · height · 34 1/2"], ["'thirty six': a figure from the drawing, not measured"]),
        ("the plan has the window thirty by forty", [], ["'thirty': a figure from the plan, not measured"]),
        ("plans say thirty six wide and eighty high for the door", [], ["'say thirty six': a figure from the plans, not measured"]),
        ("the architect wants the sill at thirty two", [], ["'thirty two': a figure from the architect, not measured"]),
        ("it needs to be at least thirty six high", [], ["'thirty six': a limit, not one figure"]),
        ("it's thirty wide or thirty two", [], ["'thirty': one figure or another"]),
        ("either thirty or thirty two wide", [], ["'thirty': one figure or another"]),
        ("can't believe the wall's an inch out of plumb", ["measure: wall · out of plumb · 1"], []),
        ("if you ask me the sill's bad and it's thirty two long", ["measure: sill · length · 32"], []),
        ("two of the windows are thirty by forty", ["measure: windows · size · 30", "measure: windows · size · 40"], []),
        ("make the sill height in the kitchen forty two instead of forty one", ["measure: kitchen · sill · height · 42"], []),
        ("sauna bench height is eighteen and something", [], ["'eighteen': only half of a figure"]),
        ("net store sill height thirty four and a can't make out the fraction", [], ["'thirty four': only half of a figure"]),
        ("as close as i could measure the sill's thirty six high", ["measure: sill · height · 36"], []),
        ("if i remember right the sill's thirty six high", ["measure: sill · height · 36"], []),
        ("the hatch is thirty something", [], ["'thirty': only half of a figure"]),
        ("old window was thirty two wide and the new one's thirty four", ["measure: new window · width · 34"], []),
        ("minimum slope for that roofing is three in twelve", [], []),
        ("the sill isn't thirty six high", [], []),
        ("the bar is twelve inches long", ["measure: bar · length · 12"], []),
    ],
)  # fmt: skip
def test_what_was_measured_beside_it_is_kept(said: str, told: list[str], problems: list[str]) -> None:
    """A plan's figure, a limit or a choice of two is asked about; what was measured in the same memo stands."""
    assert facts(said) == told
    assert [p.message for p in heard(said).problems] == problems
