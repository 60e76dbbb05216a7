"""Volume of logs measured at both ends, against the formulas of forestry (Smalian; frustum of a cone; LUM rows)."""

from __future__ import annotations

from books import book, m, says, shown

from journal.quantities.base import answers

ENDS = [m("wall B", "diameter", "10", "log 3 small end"), m("wall B", "diameter", "12", "log 3 large end")]


def test_a_log_measured_at_both_ends() -> None:
    """10 and 12 in. over 16 ft: pi/576 (100 + 144)/2 x 16 = 10.6 ft3 by Smalian, pi/1728 (100 + 120 + 144) x 16 = 10.6 cut
    off a cone; at 6 and 18 in. the two differ, 15.7 against 13.6."""
    found = answers(book(ENDS, m("wall B", "length", "192", "log 3")), "wall B")
    assert shown(found, "log volume") == {"log volume [log 3]": "10.6 ft3 as a cone cut off; 10.6 by Smalian"}
    thick = [m("wall B", "diameter", "6", "log 3 small end"), m("wall B", "diameter", "18", "log 3 large end")]
    found = answers(book(thick, m("wall B", "length", "192", "log 3")), "wall B")
    assert shown(found, "log volume") == {"log volume [log 3]": "13.6 ft3 as a cone cut off; 15.7 by Smalian"}


def test_a_log_without_a_length_asks_for_it() -> None:
    """No guess: what to say next."""
    assert 'wall B volume of log 3 needs its length. Say: "log 3 length …"' in says(answers(book(ENDS), "wall B"))
