"""Drying stacks: the trend towards the air's balance, its day and range, and every reason why there is none."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from fractions import Fraction

import pytest
from books import disagree, says, setting, shown
from hypothesis import given
from hypothesis import strategies as st

from journal.quantities.assumptions import Setting
from journal.quantities.base import Book, answers
from journal.quantities.drying import drying
from journal.quantities.moisture import (
    DryingTrend,
    corrected_reading,
    drying_trend,
    emc,
    moisture_after,
    straight_line_day,
)
from journal.quantities.shrinkage import dried_width, shrinkage_percent
from journal.quantities.species import wood, woods
from journal.quantities.stacked import sticker_count
from journal.records import Fact, Filed, Reading, Stock

SHED = "drying shed"


def wet(value: float, about: str | None = "pine", place: str | None = SHED) -> Reading:
    return Reading(place=place, about=about, quantity="moisture", value=value, unit="%")


def air(temperature: float, humidity: float, unit: str = "F", place: str | None = SHED) -> list[Reading]:
    warm = "C" if unit == "C" else "F"
    return [
        Reading(place=place, quantity="temperature", value=temperature, unit=warm),  # type: ignore[arg-type]
        Reading(place=place, quantity="humidity", value=humidity, unit="%"),
    ]


def by_day(said: dict[int, list[Fact]], settings: tuple[Setting, ...] = ()) -> Book:
    """A book of July 2026: a memo a day."""
    facts = []
    for memo, (day, those) in enumerate(sorted(said.items()), start=1):
        at = datetime(2026, 7, day, 8, 0)
        facts += [
            Filed(uuid=f"{memo}-{n}", fact=fact, memo=memo, number=n, said_at=at, made_at=at)
            for n, fact in enumerate(those, start=1)
        ]
    return Book(tuple(facts), datetime(2026, 7, 31, 20), (), settings)


STACK: dict[int, list[Fact]] = {
    13: [wet(28, "pine boards"), *air(72, 65)],
    17: [wet(25.5)],
    21: [wet(23.5, "pine stack"), *air(74, 60)],
    24: [wet(22)],
    29: [wet(20, None), *air(70, 68)],
}


def test_the_stack_of_the_trade_notes() -> None:
    """28, 25.5, 23.5, 22, 20 in 16 days, EMC 11.9, 10.9, 12.6: 15 % on 21 Aug (19 to 24); a straight line says 8 Aug."""
    (row,) = drying(by_day(STACK))
    assert (row["place"], row["what"], row["emc"], row["target"]) == (SHED, "pine", 11.8, 15.0)
    assert (row["expected"], row["between"]) == ("2026-08-21", ["2026-08-19", "2026-08-24"])
    assert (row["rate"], row["why_not"]) == (0.0425, None)
    assert [(r["on"], r["value"]) for r in row["readings"]] == [  # type: ignore[attr-defined]
        ("2026-07-13", 28), ("2026-07-17", 25.5), ("2026-07-21", 23.5), ("2026-07-24", 22), ("2026-07-29", 20),
    ]  # fmt: skip
    assert shown(answers(by_day(STACK), SHED), "drying") == {
        "drying [pine]": "20 % on Wed 29 Jul; 15 % about 21 Aug (19 Aug to 24 Aug); a straight line promises 8 Aug, too early"
    }


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({13: [wet(28), *air(72, 65)]}, "only 1 reading: it takes 3 over at least 7 days"),
        ({13: [wet(28), *air(72, 65)], 15: [wet(27)], 17: [wet(26)]}, "the readings span 4 days: it takes 3 over at least 7 days"),
        ({13: [wet(28), *air(72, 90)], 17: [wet(26)], 21: [wet(24)]}, "it will not get below 20.4 % outdoors, so 15 % is out of reach there"),
        ({13: [wet(22), *air(72, 65)], 17: [wet(23)], 21: [wet(24)]}, "the readings do not fall, so no day can be named"),
        ({13: [wet(22), *air(72, 65)], 17: [wet(18)], 21: [wet(14.5)]}, "it is at 14.5 % already, 15 % was the target"),
        ({13: [wet(38), *air(72, 65)], 17: [wet(35)], 21: [wet(29)]}, "above 30 % a meter only says wet (memos 1 and 2)"),
        ({13: [wet(28)], 17: [wet(26)], 21: [wet(24)]}, 'no temperature and humidity were read at drying shed. Say: "drying shed seventy degrees humidity sixty percent"'),
    ],
)  # fmt: skip
def test_why_no_day_can_be_named(said: dict[int, list[Fact]], why: str) -> None:
    """Too few readings, too short a time, air too damp, no fall, done already, too wet for a meter, no air: a sentence each."""
    (row,) = drying(by_day(said))
    assert (row["expected"], row["between"], row["why_not"]) == (None, None, why)
    assert says(answers(by_day(said), SHED)) == [f"{SHED} pine drying: {why}"]


def test_a_target_near_the_air_leaves_the_late_end_open() -> None:
    """A target of 12.5 against an EMC of 11.8 may never be reached in air one point damper: no late day."""
    (row,) = drying(by_day(STACK, (setting("moisture target", "12.5", SHED),)))
    assert row["expected"] == "2026-09-26"
    assert row["between"] == ["2026-09-11", None]
    assert "the late end is open" in str(row["shown"])


def test_two_lots_at_one_place_are_two_lines() -> None:
    """Pine and oak of one shed dry apart; a reading that names neither belongs to neither."""
    rows = drying(by_day({13: [wet(28), wet(40, "oak")], 17: [wet(20, None)]}))
    assert sorted((str(row["what"]), [r["value"] for r in row["readings"]]) for row in rows) == [  # type: ignore[attr-defined]
        ("None", [20]),
        ("oak", [40]),
        ("pine", [28]),
    ]


def test_a_stack_that_got_wet_again_starts_anew() -> None:
    """Last month's dry stack says nothing of the one that took its place: the trend rests on the readings since."""
    said = {1: [wet(22), *air(72, 65)], 8: [wet(18)], **STACK}
    (row,) = drying(by_day(said))
    assert (row["expected"], row["emc"]) == ("2026-08-21", 11.8)
    assert [r["fitted"] for r in row["readings"]] == [False, False, *[True] * 5]  # type: ignore[attr-defined]


def test_a_cold_meter_is_put_right_only_when_asked() -> None:
    """At 50 F a reading is a point low (Wengert); the row keeps what was said and what was used."""
    cold = {13: [wet(24), *air(50, 60)], 20: [wet(22)], 27: [wet(20), *air(50, 60)]}
    for choice, used in (("no", [24, 22, 20]), ("yes", [25, 22, 21])):
        (row,) = drying(by_day(cold, (setting("meter correction", choice),)))
        assert [r["value"] for r in row["readings"]] == [24, 22, 20]  # type: ignore[attr-defined]
        assert [r["used"] for r in row["readings"]] == used  # type: ignore[attr-defined]
    assert corrected_reading(20, 30) == 22


def test_celsius_is_read_as_celsius() -> None:
    """22.2 C and 65 % is the same air as 72 F (the two published coefficient sets differ by at most 0.013)."""
    (row,) = drying(by_day({13: [wet(28), *air(22.2, 65, "C")]}))
    assert row["emc"] == 11.9


def test_air_that_cannot_be_is_told() -> None:
    """A humidity of 165 % is told with its memo and used for nothing."""
    made = by_day({13: [wet(28), *air(72, 165)]})
    assert disagree(answers(made, SHED)) == ["drying shed humidity 165 % (memo 1) cannot be. Say it again."]
    assert drying(made)[0]["emc"] is None


@given(
    st.floats(16, 30), st.floats(5, 11), st.floats(0.01, 0.1),
    st.lists(st.integers(0, 20), min_size=3, max_size=6, unique=True).filter(lambda days: max(days) - min(days) >= 7),
)  # fmt: skip
def test_the_fit_finds_the_day_of_an_exact_curve(start: float, balance: float, rate: float, days: list[int]) -> None:
    """Readings off M = EMC + (M0 - EMC) e^(-kt) give back k and the day the curve reaches the target, within a day."""
    first = date(2026, 7, 1)
    curve = [(first + timedelta(days=d), moisture_after(start, balance, rate, d)) for d in days]
    target = (min(m for _, m in curve) + balance) / 2
    trend = drying_trend(curve, balance, target)
    assert isinstance(trend, DryingTrend)
    assert trend.rate == pytest.approx(rate)
    reached = (trend.expected - first).days
    assert moisture_after(start, balance, rate, reached) <= target + 1e-6
    assert moisture_after(start, balance, rate, reached - 1) > target - 1e-6
    assert trend.earliest <= trend.expected <= (trend.latest or trend.expected)
    straight = straight_line_day(curve, target)
    assert straight is not None
    assert straight <= trend.expected


@given(st.floats(-20, 130), st.floats(0, 99), st.floats(0.1, 1))
def test_damper_air_holds_wood_wetter(temperature: float, humidity: float, more: float) -> None:
    """EMC rises with humidity at any temperature and stays between nothing and saturation's reach."""
    low, high = emc(temperature, humidity), emc(temperature, humidity + more)
    assert 0 <= low < high < 40


@pytest.mark.parametrize(
    ("temperature", "humidity", "unit", "message"),
    [
        (70, 101, "F", "a humidity of 101 % cannot be: it lies from 0 to 100"),
        (500, 50, "F", "a temperature of 500 F is outside the equation for air and wood"),
        (90, 50, "C", "a temperature of 90 C is outside the equation for air and wood"),
    ],
)
def test_air_outside_the_equation(temperature: float, humidity: float, unit: str, message: str) -> None:
    """What the sorption equation does not cover is refused with a sentence."""
    with pytest.raises(ValueError, match=f"^{message}$"):
        emc(temperature, humidity, unit)


# ---- shrinkage and stickers --------------------------------------------------------------------------------------------


def test_white_pine_eight_inches_wide() -> None:
    """8 in. at 28 %, at 12 %: 7 3/4 flat-sawn, 7 29/32 quarter-sawn (Wood Handbook 6.1 and 2.1; trade notes)."""
    pine = wood("white pine")
    assert pine is not None
    assert pine.tangential is not None
    assert pine.radial is not None
    flat, quarter = (dried_width(Fraction(8), s, 28, 12) for s in (pine.tangential, pine.radial))
    assert abs(flat - Fraction(31, 4)) < Fraction(1, 32)
    assert abs(quarter - Fraction(253, 32)) < Fraction(1, 64)
    assert shrinkage_percent(6.1, 35) == 0


def test_the_stack_gets_narrower() -> None:
    """Boards stacked with their section and species show their width at the target, flat-sawn and quarter-sawn."""
    boards = Stock(place=SHED, event="stacked", count=40, what="board", section="1x8", species="white pine")
    made = by_day({13: [boards, wet(28), *air(72, 65)]}, (setting("moisture target", "12"),))
    assert shown(answers(made, SHED), "width when dry, flat-sawn", "width when dry, quarter-sawn") == {
        "width when dry, flat-sawn [1x8 white pine board]": '7 3/4" from 28 % to 12 %, Pine, eastern white',
        "width when dry, quarter-sawn [1x8 white pine board]": '7 29/32" from 28 % to 12 %, Pine, eastern white',
    }


def test_a_species_that_may_be_several_is_asked_for() -> None:
    """ "Spruce" fits five woods that shrink differently: which one is asked, nothing is averaged."""
    assert wood("spruce") is None
    assert len(woods("spruce")) == 6
    boards = Stock(place=SHED, event="stacked", count=40, what="board", section="1x8", species="spruce")
    made = by_day({13: [boards, wet(28, "spruce"), *air(72, 65)]})
    assert any("which spruce is it (Spruce, Engelmann, Spruce, Sitka, Spruce, black, Spruce, red …)" in s
               for s in says(answers(made, SHED)))  # fmt: skip


def test_stickers() -> None:
    """40 boards of 12 ft, 5 to a layer, every 24 in.: 7 x 8 = 56, the bottom row counted (trade notes)."""
    assert sticker_count(Fraction(144), Fraction(24), 8) == 56
    boards = Stock(place=SHED, event="stacked", count=40, what="board", section="1x8", length_ticks=144 * 8128)
    made = by_day({13: [boards]}, (setting("boards per layer", "5"),))
    assert shown(answers(made, SHED), "stickers") == {"stickers [1x8 board 12' 0\"]": "56 in 8 layers"}
    with pytest.raises(ValueError, match=r"^stickers need a length, a spacing and layers of more than nothing$"):
        sticker_count(Fraction(144), Fraction(0), 8)
