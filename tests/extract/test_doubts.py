"""Doubts, problems, asides and revisions: what is not certain is shown, what cannot be used is told."""

from __future__ import annotations

from datetime import date

import pytest

from extract.saying import SAID_AT, facts, heard
from journal.extract import extract
from journal.lengths import INCH
from journal.records import Doubt, Known, Revision, Span, Word


def _doubts(text: str, known: Known | None = None) -> list[tuple[str, int, tuple[str, ...]]]:
    read = heard(text, known) if known else heard(text)
    found = [doubt for fact in read.facts for doubt in fact.doubts] + list(read.doubts)
    return [(doubt.reason, doubt.level, doubt.other) for doubt in found]


@pytest.mark.parametrize(
    ("said", "doubt"),
    [
        ("the shelf in the den is five foot and a half long", ("two-way", 3, ("60 1/2", "66"))),
        ("wall c length seventy one and five eighths", None),
        ("wall c length thirty one and five eighths", ("range", 2, ())),
        ("stud bay two is fifty and a quarter wide", ("range", 2, ("15 1/4",))),
        ("wall b is five inches out of plumb", ("range", 2, ())),
        ("gap between log two and three on wall c is eleven", ("range", 2, ("7",))),
        ("moisture in the sill is forty one percent", ("range", 2, ())),
        ("twenty six hours sanding", ("range", 2, ())),
        ("base width of the lake gable fourteen six", ("two numbers", 1, ())),
    ],
)  # fmt: skip
def test_an_unlikely_figure_is_stored_and_doubted(said: str, doubt: tuple[str, int, tuple[str, ...]] | None) -> None:
    """Out of the plausible range of its dimension (common practice) or readable in two ways: the fact stands, with its doubt."""
    assert heard(said).facts
    got = _doubts(said)
    if doubt is None:
        assert not [d for d in got if d[0] == "two-way"]
        return
    if doubt[0] == "range" and doubt[2] == ("7",):
        assert doubt[0] in [d[0] for d in got]
    else:
        assert doubt in got


def test_a_jump_from_the_figure_on_file_is_doubted() -> None:
    """A tenth off what is on file asks; the same figure again does not."""
    known = Known(figures={("lake wall", None, "length"): 203 * INCH})
    assert _doubts("lake wall length twelve foot even", known) == [("jump", 2, ("16' 11\"",))]
    assert _doubts("lake wall length sixteen foot eleven even", known) == []
    known_same = Known(figures={("lake wall", None, "length"): 192 * INCH})
    assert _doubts("lake wall length sixteen foot even", known_same) == []


def test_a_twin_that_disagrees_is_doubted() -> None:
    """The base of the gable over a wall is as long as the wall: a figure more than two inches off asks."""
    known = Known(figures={("lake gable", None, "base width"): 383 * INCH // 2})
    [fact] = heard("lake wall length sixteen foot eleven", known).facts
    assert [(d.reason, d.shown) for d in fact.doubts if d.reason == "twin"] == [
        ("twin", "16' 11\": the base width of lake gable is 15' 11 1/2\"")
    ]
    [fact] = heard("lake wall length sixteen foot even", known).facts
    assert [d for d in fact.doubts if d.reason == "twin"] == []


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ("loft floor is twenty foot by fifteen foot diagonal's twenty five foot", []),
        ("loft floor is twenty foot by fifteen foot diagonal's twenty seven foot", ["27' 0\": sides of 20' 0\" and 15' 0\" have a diagonal of about 25' 0\""]),
        ("pad diagonals are twenty foot one and twenty foot two", []),
        ("pad diagonals are twenty foot one and twenty three foot one", ["20' 1\": the other diagonal is 23' 1\"", "23' 1\": the other diagonal is 20' 1\""]),
        ("schoolroom floor seven point two metres long five point four metres wide diagonal nine metres", []),
    ],
)  # fmt: skip
def test_a_diagonal_that_its_sides_do_not_make_is_doubted(said: str, shown: list[str]) -> None:
    """Three, four, five: a diagonal more than a fiftieth off its sides or off the other one asks."""
    assert [d.shown for fact in heard(said).facts for d in fact.doubts if d.reason == "twin"] == shown


@pytest.mark.parametrize(
    ("said", "doubts"),
    [
        ("lake wall length sixteen foot eleven and the lake gable base width fifteen foot two", ["twin"]),
        ("lake wall length sixteen foot eleven and the lake gable base width sixteen foot eleven", []),
        ("board four long point seventy one and a half seventy two and a half", ["twice"]),
        ("board four long point seventy one and a half board five seventy two and a half", []),
        ("wall b diagonal thirty one foot five and thirty one foot six", []),
    ],
)  # fmt: skip
def test_two_figures_of_one_memo_that_cannot_both_be_right(said: str, doubts: list[str]) -> None:
    """A wall and its gable of other lengths, or one length given twice in a breath, are asked about; several diagonals are not."""
    assert [doubt.reason for fact in heard(said).facts for doubt in fact.doubts] == doubts


def test_a_price_three_times_the_last_is_doubted() -> None:
    """A price beyond three times the last one asks."""
    known = Known(prices={("pine", "board foot"): 1.85})
    assert _doubts("pine is nine ten a board foot", known) == [("jump", 2, ("1.85",))]
    assert _doubts("pine is two ten a board foot", known) == []


def test_a_word_barely_heard_is_doubted() -> None:
    """Confidence under a half on a word of a figure goes with its fact."""
    text = "lake wall length sixteen foot eleven"
    words = tuple(Word(word, confidence=0.3 if word == "eleven" else 0.9) for word in text.split())
    [fact] = extract(text, SAID_AT, words=words).facts
    assert fact.doubts == (
        Doubt("heard", "'eleven' was heard with little confidence (0.30)", Span(30, 36)),
        *fact.doubts[1:],
    )


def test_readings_that_differ_in_the_figure_are_doubted() -> None:
    """A next-best reading with another figure in that spot is offered."""
    text = "the shelf in the den is fifteen and a half wide"
    [fact] = extract(text, SAID_AT, readings=("the shelf in the den is fifty and a half wide", text)).facts
    assert [(d.reason, d.shown, d.other) for d in fact.doubts] == [
        ("readings", "'fifteen and a half' may have been 'fifty and a half'", ("fifty and a half",))
    ]


def test_a_heard_doubt_goes_with_its_fact() -> None:
    """A doubt that the engine raised stays with the fact that it touches, and otherwise with the memo."""
    text = "lake wall length sixteen foot even"
    touching = Doubt("noise", "a hammer", Span(17, 24))
    assert extract(text, SAID_AT, heard_doubts=(touching,)).facts[0].doubts == (touching,)
    assert extract("lunch", SAID_AT, heard_doubts=(touching,)).doubts == (touching,)


@pytest.mark.parametrize(
    ("said", "message", "hint"),
    [
        ("the lintel on wall c is forty one and a half", "'forty one and a half': a figure of lintel, but which measure?", "Say: lintel width … or lintel length …"),
        ("forty one and a half", "'forty one and a half': a figure, but of what?", "Say the thing and what was measured: window width …"),
        ("door rough opening thirty eight and a quarter", "'thirty eight and a quarter': a rough opening, but is it the width or the height?", "Say: rough opening width …"),
    ],
)  # fmt: skip
def test_half_a_measure_is_reported(said: str, message: str, hint: str) -> None:
    """A figure without its thing or dimension is told with what to say next; nothing is guessed."""
    read = heard(said)
    assert read.facts == ()
    assert [(problem.message, problem.hint) for problem in read.problems] == [(message, hint)]


@pytest.mark.parametrize(
    "asked",
    [
        "is a two by ten big enough to span fourteen foot",
        "how big a header do i need over the door",
        "will a six by eight carry the loft floor",
        "can i notch the joist two inches and is it still strong enough",
    ],
)
def test_a_question_about_strength_is_refused(asked: str) -> None:
    """No fact and no number comes of a question about strength; the refusal stands in its place."""
    read = heard(asked)
    assert read.facts == ()
    assert [problem.message for problem in read.problems] == [
        "The journal does not answer that: it is arithmetic, not engineering. Ask the adopted code tables, the authority having "
        "jurisdiction or a licensed person."
    ]


def test_a_question_leaves_the_facts_before_it() -> None:
    """What was said before a question still counts."""
    assert facts("wall c length twenty foot even and will a six by eight carry it") == [
        "measure: wall C · length · 240"
    ]


@pytest.mark.parametrize(
    ("said", "revision"),
    [
        ("scratch the last one", Revision(by=None, evidence=Span(0, 20))),
        ("friday on the lake wall was six and a half hours not six and a quarter", Revision(by=0, kind="hours", place="lake wall", on=date(2026, 7, 31), was="6 1/4", evidence=Span(49, 70))),
        ("yesterday was six not five", Revision(by=0, kind="hours", on=date(2026, 8, 3), was="5", evidence=Span(18, 26))),
        ("correction used five boards on the lake gable", Revision(by=0, kind="stock", place="lake gable", evidence=Span(0, 10))),
    ],
)  # fmt: skip
def test_an_earlier_memo_is_put_right(said: str, revision: Revision) -> None:
    """What a memo takes back of an earlier one is named by kind, place, day and old figure."""
    assert heard(said).revisions == (revision,)


def test_a_correction_of_a_state_needs_no_revision() -> None:
    """The newest measure stands by itself, so "correction" replaces nothing that adds up."""
    read = heard("correction lake wall length is sixteen foot even i read the tape wrong yesterday")
    assert read.revisions == ()
    assert facts("correction lake wall length is sixteen foot even i read the tape wrong yesterday") == [
        "measure: lake wall · length · 192"
    ]


@pytest.mark.parametrize(
    ("said", "topic", "text", "place", "value"),
    [
        ("nine is the top log on wall a", "courses", "top log", "wall A", 9.0),
        ("wall a is eleven courses high", "courses", "courses", "wall A", 11.0),
        ("the staging's down", "happened", "the staging is down", None, None),
        ("the glass came this morning", "happened", "the glass comes", None, None),
        ("start with a board on the centre on the lake gable", "board start", "centred", "lake gable", None),
        ("lake gable start with a seam on the centre", "board start", "seam", "lake gable", None),
        ("start from the left end of the lake gable", "board start", "left", "lake gable", None),
    ],
)  # fmt: skip
def test_asides(said: str, topic: str, text: str, place: str | None, value: float | None) -> None:
    """What quantities and tasks need beside the facts is kept, and no fact is made of it."""
    read = heard(said)
    assert [(a.topic, a.text, a.place, a.value) for a in read.asides] == [(topic, text, place, value)]
    assert read.facts == ()
