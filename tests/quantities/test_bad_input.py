"""Memos that make no sense as figures: each gets a sentence that names its memo, never a traceback or a silent number."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.cli import main
from journal.quantities.base import answers
from journal.quantities.place_plan import plan_of
from journal.quantities.stock import ledger
from journal.session import Session

WALL = "wall b length ten foot height eight foot"
GABLE = ["lake gable base width five foot", "the lake gable is eight twelve"]
COVERS = "one by eight pine covers six and seven eighths wide"
BOARDS = "received ten one by eight pine boards twelve foot long"


def take(job: Path, *memos: str) -> None:
    """Takes memos an hour apart through the command line."""
    start = datetime(2026, 7, 13, 7, 30)
    for hour, text in enumerate(memos):
        at = (start + timedelta(hours=hour)).isoformat(timespec="minutes")
        result = CliRunner().invoke(main, ["--job", str(job), "take", "--say", text, "--at", at, "--json"])
        assert (result.exit_code, result.exception) == (0, None), result.stderr


def told(job: Path) -> list[str]:
    """Every sentence that the job has for a person: disagreements, what is missing, doubts, problems, notes on stock."""
    sentences = []
    with Session.open(job) as session:
        book = session.book()
        for place in book.places:
            found = answers(book, place)
            sentences += [one.shown for one in found.disagree] + [one.say for one in found.missing]
        for lot in ledger(book).lots:
            sentences += lot.notes
        sentences += [question.shown for question in ledger(book).questions]
        for day, _ in session.store.days():
            for taken in session.day_of(day):
                sentences += [f"memo {taken.memo.number}: {problem.message}" for problem in taken.problems]
                sentences += [f"memo {taken.memo.number}: {d.shown}" for f in taken.facts for d in f.fact.doubts]
    return sentences


@pytest.mark.parametrize(
    ("memos", "sentence"),
    [
        ([GABLE[0], "the lake gable slope is zero in twelve"], "memo 2: 'zero': a figure of lake gable, but which measure?"),
        ([GABLE[0], "lake gable is a zero twelve"], "memo 2: 'zero twelve': a figure of lake gable, but which measure?"),
        ([GABLE[0], "lake gable slope forty in twelve"], "memo 2: 'forty': a figure of lake gable, but which measure?"),
        (
            [GABLE[0], "the lake gable slope is minus eight in twelve"],
            "memo 2: 'minus' was said with it: no size is below nothing. Say it again",
        ),
        (
            ["wall b length minus ten foot"],
            "memo 1: 'minus' was said with it: no size is below nothing. Say it again",
        ),
        (["wall b length zero", "wall b height eight foot"], 'wall B length is 0" (memo 1): that is no size. Say it again.'),
        (["lake gable base width zero", GABLE[1]], 'lake gable base width is 0" (memo 1): that is no size. Say it again.'),
        (["lake gable base width six hundred foot", GABLE[1]], "memo 1: 600' 0\" is unusual for a base width"),
        (["wall b length nine thousand foot height eight foot"], "memo 1: 9000' 0\" is unusual for a wall's length"),
        (
            [WALL, "window rough opening on wall b twelve foot by four foot"],
            "wall B window width 144\" (memo 2) is more than the wall's 120\" (memo 1). Say it again.",
        ),
        (
            [WALL, "window rough opening on wall b three foot by four foot", "window sill height on wall b seven foot"],
            "wall B window goes up to 132\" (sill and height, memos 1, 2 and 3), more than the wall's 96\". "
            "Say its sill or its height again.",
        ),
        (
            [*GABLE, "the lake gable boards cover seventy two inches wide"],
            'boards 72" wide (memo 3) do not go on lake gable, base width 60".',
        ),
        (
            ["wall b length three thousand and fifty millimetres", "wall b height eight foot"],
            'wall B was measured on two tapes: height 96" (memo 2), length 3050 mm (memo 1). Both are used exactly; '
            "check that neither was read off the other side.",
        ),
        (
            [BOARDS, "used fourteen one by eight pine boards on the lake gable"],
            "memo 2: 14 boards used, but only 10 boards were there by the book. Count them",
        ),
        (["used fourteen cup brushes on wall b"], "14 cup brushes used, none booked in"),
        (
            [BOARDS, "cut six pieces of one by eight pine at fourteen foot"],
            "memo 2: 6 cut at 14' 0\": from boards how long? Say their length, so that they can be counted",
        ),
        (
            ["porch roof length sixteen foot", "porch roof rafters zero on centre", "porch roof is a four twelve run six foot"],
            'porch roof rafter spacing is 0" (memo 2): no rafters can be counted with it.',
        ),
        (["loft stair total rise zero"], 'loft stair has a rise or run of 0" (memo 1): that is no step. Say it again.'),
        (["shed pine three hundred per cent"], "shed moisture 300 % (memo 1) cannot be. Say it again."),
        (["worked thirty hours on wall b"], "30 hours on Mon 13 Jul (memo 1): is one of them said twice?"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_told_with_its_memo(job: Path, memos: list[str], sentence: str) -> None:
    """The memos are stored, every command goes through, and the sentence names the memo."""
    take(job, *memos)
    assert sentence in told(job)
    with Session.open(job) as session:
        places = session.store.places()
    for command in (["stock"], ["buy"], ["hours"], ["costs"], ["drying"], *(["about", place] for place in places)):
        result = CliRunner().invoke(main, ["--job", str(job), *command])
        assert (result.exit_code, result.exception) == (0, None), (command, result.stderr)
        assert "Traceback" not in result.output


def test_no_area_is_worked_out_of_what_makes_no_sense(job: Path) -> None:
    """A window wider than its wall is not deducted: the area stands marked; a wall of no length has none; a lot below zero
    has no balance."""
    take(job, WALL, "window rough opening on wall b twelve foot by four foot", "wall c length zero", "wall c height eight foot",
         BOARDS, "used fourteen one by eight pine boards on the lake gable")  # fmt: skip
    with Session.open(job) as session:
        book = session.book()
        area = answers(book, "wall B").value("net wall area")
        assert area is not None
        assert area.shown == "80.0 ft² ~"
        assert answers(book, "wall C").quantities == ()
    result = CliRunner().invoke(main, ["--job", str(job), "stock", "--json"])
    assert [json.loads(line)["balance"] for line in result.stdout.splitlines()] == [None]


def test_a_kerf_wider_than_a_piece_names_the_piece(job: Path) -> None:
    """With the widest kerf a sliver of the gable is left out by name and memos; the other pieces are planned."""
    take(job, "lake gable base width one hundred eighty six and a half inches", GABLE[1], COVERS, BOARDS)
    with Session.open(job) as session:
        session.assume("kerf", "1/2")
        plan = plan_of(session.book(), "lake gable").row()
        left_out = plan["left_out"]
        assert left_out
        assert all("no longer than the kerf" in line and "memo" in line for line in left_out)  # type: ignore[attr-defined]
        assert plan["boards"]
