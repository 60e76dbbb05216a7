"""Finding the place a person means."""

from __future__ import annotations

import pytest

from journal.errors import NotFound
from journal.places import belongs_to, canonical, find_place

PLACES = ["wall A", "wall B", "lake gable", "lake wall", "vestry floor"]


@pytest.mark.parametrize(
    ("typed", "place"),
    [("wall a", "wall A"), ("  Wall  A ", "wall A"), ("the lake gable", "lake gable"), ("loft", "loft"), ("A", "a")],
)
def test_typed_names_take_the_journals_form(typed: str, place: str) -> None:
    """Names are lower case with single spaces, a letter that labels a thing in capitals, no article."""
    assert canonical(typed) == place


def test_a_place_belongs_to_the_one_its_name_begins_with() -> None:
    """A longer name belongs to a place only when the whole name stands before it."""
    assert belongs_to("vestry floor", "vestry")
    assert belongs_to("vestry", "vestry")
    assert not belongs_to("vestryman's room", "vestry")
    assert not belongs_to(None, "vestry")


def test_an_alias_and_a_whole_name_are_found() -> None:
    """A misheard name finds what it was merged into; a name that others belong to is found though no fact bears it."""
    assert find_place("wall bee", PLACES, {"wall bee": "wall B"}) == "wall B"
    assert find_place("Vestry", PLACES, {}) == "vestry"


def test_an_unknown_place_is_answered_with_the_nearest() -> None:
    """The message names the place, those of its kind, and the nearest by spelling."""
    with pytest.raises(NotFound) as caught:
        find_place("wall g", PLACES, {})
    assert caught.value.message == "there is no 'wall G' in this journal"
    assert caught.value.hint == "Places so far: lake wall, wall A, wall B. Did you mean 'wall B'?"


def test_an_empty_journal_has_no_places() -> None:
    """Before the first place the message says so."""
    with pytest.raises(NotFound) as caught:
        find_place("loft", [], {})
    assert str(caught.value) == "there is no 'loft' in this journal\nNo memo has named a place yet."


def test_a_thing_of_a_place_leads_to_the_place() -> None:
    """ "Loft stair" is no place where the stair is a thing of the loft: the loft is offered."""
    with pytest.raises(NotFound) as caught:
        find_place("loft stair", ["attic", "loft", "wall A"], {})
    assert caught.value.hint == "Places so far: loft. Did you mean 'loft'?"
