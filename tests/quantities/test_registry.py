"""The registry: assumptions with their sources and limits, places and what belongs to them, numbers, the safety net."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from fractions import Fraction

import pytest
from books import DAY_ONE, book, disagree, m, setting, slope

from journal.quantities import base
from journal.quantities.assumptions import ASSUMPTIONS, Setting, assumption
from journal.quantities.base import (
    Answer,
    Book,
    Quantity,
    answers,
    concerned,
    length,
    listed,
    number,
    quantities,
    root,
    show_length,
    thing,
    twin,
)  # fmt: skip
from journal.records import Aside, Filed


@pytest.mark.parametrize(
    ("name", "typed", "message"),
    [
        ("board start", "middle", "'middle' will not do for board start: say centred, seam, left or right"),
        ("face width", "wide", "'wide' will not do for face width: say a figure such as 6 7/8 or 175 mm"),
        ("face width", "0", "'0' will not do for face width: it goes from 1/2\" to 60\""),
        ("board gap", "-1", "'-1' will not do for board gap: say a figure such as 6 7/8 or 175 mm"),
        ("window clearance", "3", "'3' will not do for window clearance: it goes from 0\" to 2\""),
        ("leave in openings under", "many", "'many' will not do for leave in openings under: say a figure such as 35"),
    ],
)
def test_an_assumption_refuses_in_one_sentence(name: str, typed: str, message: str) -> None:
    """What will not do is named with the assumption and what would do."""
    quantities()
    with pytest.raises(ValueError, match="^" + message.replace("?", r"\?") + "$"):
        ASSUMPTIONS[name].parse(typed)


def test_an_assumption_reads_what_people_write() -> None:
    """Inches, millimetres and words; shown as a person reads them."""
    quantities()
    face = ASSUMPTIONS["face width"]
    assert (face.parse("6 7/8"), face.parse("175 mm")) == (Fraction(55, 8), Fraction(56000, 8128))
    assert (face.show(face.parse("6 7/8")), face.show(None)) == ('6 7/8"', "not set")
    assert ASSUMPTIONS["board start"].parse(" Seam ") == "seam"


def test_every_assumption_has_a_source_and_a_default_within_its_limits() -> None:
    """Nothing is taken for granted without saying why; a default passes its own limits."""
    for known in listed():
        assert known.source
        if known.default is not None:
            assert known.parse(known.text(known.default)) == known.default


def test_an_assumption_is_registered_once() -> None:
    """Two families cannot mean different things by one name."""
    quantities()
    with pytest.raises(ValueError, match=r"^the assumption 'board gap' is registered twice$"):
        assumption("board gap", "in", "0", "again")


def test_what_an_assumption_stands_at() -> None:
    """The place's own value, then that of the place it belongs to, then the job's, then the default; the newest said wins."""
    quantities()
    later = Setting(name="board gap", value="1/4", place="porch roof", at=DAY_ONE + timedelta(days=9))
    said = Aside(topic="board gap", text="", value=0.125, place="porch roof")
    wide = setting("board gap", "1/2")
    full = book(said, settings=(wide, later))
    assert full.assume("board gap", "porch roof ceiling").assumed == ('board gap 1/4" (set for porch roof)',)
    assert book(said, settings=(wide,)).assume("board gap", "porch roof").assumed == ('board gap 1/8" (memo 1)',)
    assert full.assume("board gap", "loft").assumed == ('board gap 1/2" (set for the job)',)
    assert book().assume("board gap", "loft").assumed == ('board gap 0" (boards touch until a gap is said)',)
    assert book(settings=(setting("board gap", "99"),)).assume("board gap").value == 0
    assert [full.assume("board gap", p).said for p in ("loft", "porch roof")] == [True, True]
    assert not book().assume("board gap").said


def test_what_belongs_to_a_place() -> None:
    """A longer name that begins with the whole name belongs; "wall AB" does not belong to "wall A"."""
    named = ["porch", "porch roof", "porch roof ceiling", "porches", "wall A", "wall A door", "wall AB"]
    full = book(*[m(place, "length", "96") for place in named])
    assert full.belonging("porch") == ("porch roof", "porch roof ceiling")
    assert full.belonging("wall A") == ("wall A door",)
    assert concerned("porch roof", named) == {"porch", "porch roof", "porch roof ceiling"}
    assert concerned("lake gable", ["lake wall", "lake gable", "wall A"]) == {"lake gable", "lake wall"}
    assert (twin("wall B"), twin("lake gable"), twin("loft")) == ("gable B", "lake wall", None)


def test_the_newest_figure_wins_and_a_repeat_confirms() -> None:
    """State facts: the latest stands, what differs is kept, the same figure again is no contradiction."""
    full = book(
        m("wall A", "length", "240"),
        m("wall A", "length", "241"),
        m("wall A", "length", "240"),
        m("wall A", "length", "240"),
    )
    figure = full.newest("wall A", None, "length")
    assert figure is not None
    assert (figure.value, figure.memos, figure.was_shown) == (240, (4,), "was 20' 1\", Mon 13 Jul")
    assert thing("the Rafters") == thing("rafter") == "rafter"
    assert full.newest("wall A", "the", "length") == figure


def test_a_corrected_fact_shows_what_it_replaced() -> None:
    """What a correction replaced stands before older figures of other memos."""
    old = book(m("wall A", "length", "240"))
    filed = old.facts[0]
    new = Filed(
        uuid="new",
        fact=m("wall A", "length", "250"),
        memo=1,
        number=1,
        said_at=filed.said_at,
        made_at=DAY_ONE,
        was=(filed,),
    )
    figure = Book((new,), DAY_ONE).newest("wall A", None, "length")
    assert figure is not None
    assert figure.was_shown == "was 20' 0\", Mon 13 Jul"


def test_numbers_are_rounded_once_halves_up() -> None:
    """Areas to 0.1, money to the cent, lengths to 1/16 down where they must fit; a metric length in both."""
    assert number("area", "a", Fraction("42.65"), "ft2").shown == "42.7 ft²"
    assert number("cost", "a", Fraction("1230.405"), "$").shown == "$1,230.41"
    assert number("change", "a", Fraction("-0.05"), "ft2").value == -0.1
    assert number("unknown", "a", None, "count").value is None
    assert length("fit", "a", Fraction("24.99"), rounding="down").shown == '24 15/16"'
    assert length("sash", "a", Fraction(610 * 320, 8128), system="metric").shown == '610 mm (24")'
    assert show_length(Fraction("-0.5")) == '-1/2"'
    assert root(Fraction(25, 9)) == Fraction(5, 3)
    with pytest.raises(ValueError, match=r"^a length cannot have a negative square$"):
        root(Fraction(-1))


def test_arithmetic_that_fails_becomes_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """A quantity that fails takes no other with it: the memos of the place are named instead."""

    def fails(book: Book, place: str) -> Iterator[Answer]:
        raise ZeroDivisionError("division by zero")
        yield

    failing = Quantity("odd sum", (), (), "", fails)
    monkeypatch.setattr(base, "quantities", lambda: (failing,))
    assert disagree(answers(book(m("wall A", "length", "1"), slope("wall A", 8)), "wall A")) == [
        "odd sum of wall A cannot be worked out from memos 1 and 2: division by zero"
    ]


def test_every_quantity_says_what_it_needs_and_where_its_formula_comes_from() -> None:
    """Name, needs and a docstring of more than a title stand at each; what it assumes is registered."""
    for known in quantities():
        assert known.needs, known.name
        assert known.work.__doc__, known.name
        assert set(known.assumes) <= set(ASSUMPTIONS), known.name
