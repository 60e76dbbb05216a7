"""What no builder would say comes out as a problem or with a doubt, whatever rule misread it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.saying import SAID_AT, heard, told
from journal.extract.context import Context
from journal.extract.line import Figure, Line
from journal.extract.plausible import sift
from journal.extract.tokens import tokenise
from journal.lengths import INCH
from journal.records import NOTHING_KNOWN, Cost, Fact, Measure, Slope, Span, Stock, Task


def _sifted(text: str, *read: Fact, at: tuple[tuple[int, int], ...] = ((0, 1),)) -> Context:
    """The context after the last look at facts as some rule read them, with figures at the words `at`."""
    tokens = tokenise(text)
    line = Line(tokens, [token.text for token in tokens])
    line.figures = {i: Figure(i, j, "number", Fraction(2)) for i, j in at}
    ctx = Context(line=line, known=NOTHING_KNOWN, today=SAID_AT.date(), dues=[], labels={}, facts=list(read))
    sift(ctx)
    return ctx


def _stock(text: str, count: float, what: str | None) -> Stock:
    return Stock(event="need", count=count, what=what, evidence=Span(0, len(text)))


@pytest.mark.parametrize(
    ("text", "count", "what", "message"),
    [
        ("two and a sixteenth board", 2.0625, "board", "nothing is counted in such parts"),
        ("two and a half fitting windows", 2.5, "fitting window", "work, or material?"),
        ("two board seven", 2, "board seven", "a name with a number is no material"),
        ("four the dining room", 4, "dining room", "nothing that is counted"),
        ("two hang the screen doors", 2, "hang", "work, or a count?"),
        ("two wall c", 2, "wall c", "a name with a letter is no material"),
        ("two sanded", 2, "sanded", "nothing that is counted"),
    ],
)
def test_material_that_cannot_be_counted_is_a_problem(text: str, count: float, what: str, message: str) -> None:
    """Counts are whole but for parts of what is held in something; work, names and rooms are no material."""
    ctx = _sifted(text, _stock(text, count, what))
    assert (ctx.facts, [problem.message for problem in ctx.problems]) == ([], [f"'{text}': {message}"])


@pytest.mark.parametrize(
    ("text", "count", "what", "shown"),
    [
        ("two grease", 2, "grease", "2 grease: in what?"),
        ("two scullery", 2, "scullery", "'scullery' is a place: was it material?"),
        ("two and a half boards", 2.5, "board", "2.5 board: is that the count?"),
        ("two boards scratch three", 2, "board", "'two boards scratch three': something was taken back beside it"),
    ],
)
def test_material_that_is_hardly_counted_so_is_doubted(text: str, count: float, what: str, shown: str) -> None:
    """The fact stands, with a doubt that asks."""
    [fact] = _sifted(text, _stock(text, count, what)).facts
    assert [(doubt.reason, doubt.shown, doubt.level) for doubt in fact.doubts] == [("unlikely", shown, 2)]


@pytest.mark.parametrize(
    ("text", "count", "what"),
    [
        ("two and a half rolls of felt", 2.5, "roll of felt"),
        ("two sanding discs", 2, "sanding disc"),
        ("two rolls of grease", 2, "roll of grease"),
        ("nine this morning", 9, None),
    ],
)
def test_material_as_it_is_counted_passes(text: str, count: float, what: str | None) -> None:
    """What builders do say goes through as it was read."""
    ctx = _sifted(text, _stock(text, count, what))
    assert (ctx.facts, ctx.problems) == ([_stock(text, count, what)], [])


def test_to_before_a_verb_is_no_two() -> None:
    """ "Have to file the blade" is work, however "to" was put right."""
    text = "have to file the blade"
    ctx = _sifted(text, _stock(text, 2, "file"), at=((1, 2),))
    assert [problem.message for problem in ctx.problems] == [f"'{text}': work, or a count?"]
    assert ctx.facts == []


def _size(inches: int, dimension: str = "length", about: str | None = None) -> Measure:
    return Measure(dimension=dimension, ticks=inches * INCH, about=about, evidence=Span(0, 3))


def test_a_size_of_nothing_behind_material_is_a_problem() -> None:
    """ "… ten by ten and eighteen foot long": behind a lot, a measure without place or thing is the material's."""
    logs = _stock("two", 2, "log")
    ctx = _sifted("two", logs, _size(216))
    assert (ctx.facts, [p.message for p in ctx.problems]) == ([logs], ["'two': the size of what?"])
    assert len(_sifted("two", logs, _size(216, about="sill")).facts) == 2
    assert len(_sifted("two", _size(216)).facts) == 1


def test_a_foot_out_of_plumb_is_a_problem() -> None:
    """No wall that stands is a foot out: the figure is the length that it was read over, or another thing's."""
    ctx = _sifted("two", _size(14, "out of plumb", "post"))
    assert (ctx.facts, [p.message for p in ctx.problems]) == ([], ["'two': a foot or more out of plumb cannot be"])
    assert _sifted("two", _size(3, "out of plumb", "post")).facts


@pytest.mark.parametrize(
    ("said", "inches", "about", "shown"),
    [
        ("height two five and eighths", 79, "door", "'height two five and eighths': 'five' was said beside it"),
        ("height two a and quarter", 84, "door", "'height two a and quarter': 'a and quarter' was said beside it"),
        ("height two", 860, "door", "'height two': so many inches?"),
        ("height two", 7, "door eighths", "'door eighths': is that what was measured?"),
    ],
)
def test_a_figure_with_a_part_left_over_beside_it_is_doubted(said: str, inches: int, about: str, shown: str) -> None:
    """Every number word of a memo belongs to a figure, a name or a time: where one is left, its neighbour may be wrong."""
    fact = Measure(dimension="height", ticks=inches * INCH, about=about, evidence=Span(0, len(said)))
    [kept] = _sifted(said, fact, at=((1, 2),)).facts
    assert [(doubt.reason, doubt.shown) for doubt in kept.doubts] == [("unlikely", shown)]


@pytest.mark.parametrize(
    ("rise", "run", "shown"),
    [(0.5, 12, ["a slope of 0.5 in 12 is unusual"]), (8, 12, []), (1, 15, [])],
)
def test_a_slope_that_no_roof_has_is_doubted(rise: float, run: float, shown: list[str]) -> None:
    """Roofs rise 1 to 24 in 12 (common practice); a ramp is said as one in so many."""
    [fact] = _sifted("two", Slope(rise=rise, run=run, evidence=Span(0, 3))).facts
    assert [doubt.shown for doubt in fact.doubts] == shown


@pytest.mark.parametrize(
    ("about", "name"),
    [
        ("hatch last week wrong", "hatch"),
        ("metric", None),
        ("joists earlier", "joists"),
        ("last rafter", "last rafter"),
    ],
)
def test_times_and_judgements_are_no_part_of_a_name(about: str, name: str | None) -> None:
    """A thing is called what it is called, not when it was measured or how well."""
    [fact] = _sifted("two", _size(14, about=about)).facts
    assert isinstance(fact, Measure)
    assert fact.about == name


def test_a_size_is_no_money() -> None:
    """A figure of an "X by Y" is money only where a word says so."""
    said = "hatch two by three"
    cost = Cost(amount=2, evidence=Span(0, len(said)))
    ctx = _sifted(said, cost, at=((1, 2), (3, 4)))
    assert (ctx.facts, [p.message for p in ctx.problems]) == ([], [f"'{said}': a size, or money?"])
    paid = "paid two by three"
    assert _sifted(paid, Cost(amount=2, evidence=Span(0, len(paid))), at=((1, 2), (3, 4))).facts


@pytest.mark.parametrize(
    ("do", "message"),
    [
        ("trim the jamb two and three eighths", "an order, or a measure?"),
        ("put up the", "half of an order"),
    ],
)
def test_an_order_that_holds_a_measure_or_stops_halfway_is_a_problem(do: str, message: str) -> None:
    """A task says what to do, whole, and no fraction of an inch."""
    ctx = _sifted(do, Task(do=do, evidence=Span(0, len(do))))
    assert (ctx.facts, [p.message for p in ctx.problems]) == ([], [f"'{do}': {message}"])
    assert _sifted("trim them", Task(do="trim them to twelve", evidence=Span(0, 4))).facts


@pytest.mark.parametrize(
    "said",
    [
        "pantry sill height is thirty four and a can't make out the fraction",
        "pantry sill height is thirty four and something",
    ],
)
def test_half_a_figure_is_no_fact(said: str) -> None:
    """Where the rest of a figure was not read, nothing is written down, and the memo says so."""
    read = heard(said)
    assert read.facts == ()
    assert [problem.message.rsplit(": ")[-1] for problem in read.problems] == ["only half of a figure"]


def test_what_is_read_right_stays() -> None:
    """A whole figure with "and a half" behind it is no half of one."""
    assert [told(fact) for fact in heard("pantry sill height is thirty four and a half").facts] == [
        "measure: pantry · sill · height · 34 1/2"
    ]
