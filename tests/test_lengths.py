"""Lengths on both tapes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.lengths import (
    FOOT,
    INCH,
    MILLIMETRE,
    SIXTY_FOURTH,
    format_inches,
    format_length,
    parse_length,
    parse_metric,
    round_ticks,
    ticks_from_inches,
)


def test_both_tapes_are_whole_ticks() -> None:
    """An inch is exactly 25.4 mm (international yard and pound agreement, 1959), so 10 inches are 254 mm to the tick."""
    assert 10 * INCH == 254 * MILLIMETRE
    assert 64 * SIXTY_FOURTH == INCH
    assert parse_length('1"')[0] == parse_length("25.4 mm")[0]


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("71 5/8", "71 5/8"),
        ("71-5/8", "71 5/8"),
        ("5' 11 5/8\"", "71 5/8"),
        ("5ft 11 5/8 in", "71 5/8"),
        ("5 feet 11 inches", "71"),
        ("0 3/8", "0 3/8"),
        ("3/8", "0 3/8"),
        ("71.625", "71 5/8"),
        ("20'", "240"),
        ("96", "96"),
        ("23/64", "0 23/64"),
    ],
)
def test_lengths_as_a_builder_writes_them(typed: str, inches: str) -> None:
    """Every written form of a length on the inch tape gives its exact inches."""
    ticks, system = parse_length(typed)
    assert (format_inches(ticks), system) == (inches, "inch")


@pytest.mark.parametrize(("typed", "ticks"), [("1820mm", 582_400), ("29.5 cm", 94_400), ("7.2 m", 2_304_000)])
def test_metric_lengths(typed: str, ticks: int) -> None:
    """Millimetres, centimetres and metres are told from inches by their unit."""
    assert parse_length(typed) == (ticks, "metric")
    assert parse_metric(typed) == ticks


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("71 5/0", "'71 5/0' is not a length: the fraction has a zero below the line"),
        ("", "'' is not a length"),
        ("seventy", "'seventy' is not a length"),
        ("1 2 3", "'1 2 3' is not a length"),
        ("-3", "'-3' is not a length"),
        ("1/3", "'1/3' is finer than 1/64 inch or 1/320 mm can hold: give it to the nearest 1/64 or 0.1 mm"),
    ],
)
def test_what_is_no_length_is_said(typed: str, message: str) -> None:
    """A text that is no length is named in the message, with what is wrong with it."""
    with pytest.raises(ValueError, match=r"length|finer") as caught:
        parse_length(typed)
    assert str(caught.value) == message


def test_inches_are_no_metric_length() -> None:
    """A figure without a metric unit is not taken for millimetres."""
    with pytest.raises(ValueError, match=r"^'1820' is not a metric length$"):
        parse_metric("1820")


@pytest.mark.parametrize(
    ("ticks", "shown"),
    [
        (71 * INCH + 5 * 1016, '71 5/8"'),
        (3 * 1016, '3/8"'),
        (0, '0"'),
        (20 * FOOT, "20' 0\""),
        (12 * FOOT + INCH // 2, "12' 1/2\""),
        (11 * FOOT, '132"'),
        (-INCH // 2, '-1/2"'),
        (INCH + 1, '~1"'),
    ],
)
def test_lengths_as_they_are_shown(ticks: int, shown: str) -> None:
    """Twelve feet and more in feet and inches, less in inches; what is no whole 1/64 carries a ~."""
    assert format_length(ticks) == shown


def test_metric_is_shown_in_millimetres() -> None:
    """A metric measure is shown as the metric tape reads."""
    assert format_length(parse_metric("61 cm"), "metric") == "610 mm"


@given(st.integers(min_value=0, max_value=100 * FOOT // SIXTY_FOURTH))
def test_what_is_printed_is_read_back(sixty_fourths: int) -> None:
    """Any length in whole sixty-fourths survives being printed and typed again, in both printed forms."""
    ticks = sixty_fourths * SIXTY_FOURTH
    assert parse_length(format_inches(ticks))[0] == ticks
    assert parse_length(format_length(ticks))[0] == ticks
    assert ticks_from_inches(format_inches(ticks)) == ticks


@given(st.fractions(min_value=0, max_value=500), st.sampled_from([INCH // 16, INCH // 32, MILLIMETRE]))
def test_rounding_brackets_the_exact_value(inches: Fraction, to: int) -> None:
    """Down never exceeds the exact value, up is never below it, and nearest is within half a step."""
    exact = inches * INCH
    down, up = round_ticks(exact, to=to, rounding="down"), round_ticks(exact, to=to, rounding="up")
    near = round_ticks(exact, to=to)
    assert down <= exact <= up
    assert up - down in (0, to)
    assert abs(near - exact) * 2 <= to
