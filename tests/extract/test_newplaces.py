"""Places that no table has: where a noun is led to like a room it is one, with a doubt; parts of things, times and stuff are none."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard
from journal.extract.newplaces import is_new_noun
from journal.extract.sets import words_of
from journal.grammar import table
from journal.records import Known

DOUBT = "'thalweg' was taken for a place; no table has it"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("in the thalweg the bench is forty and a half long", ["measure: thalweg · bench · length · 40 1/2"]),
        ("down in the thalweg bench one is thirty long", ["measure: thalweg · bench 1 · length · 30"]),
        ("bench in the thalweg is forty and a half long", ["measure: thalweg · bench · length · 40 1/2"]),
        ("the window rough opening in the thalweg is thirty by forty two", ["measure: thalweg · window · rough opening width · 30", "measure: thalweg · window · rough opening height · 42"]),
        ("in the thalweg grout the joints by friday", ["task: thalweg · grout the joints · open · 2026-08-07"]),
        ("for the thalweg grout the joints by friday", ["task: thalweg · grout the joints · open · 2026-08-07"]),
        ("hang the door in the thalweg by friday", ["task: thalweg · hang the door · open · 2026-08-07"]),
        ("hung both doors in the thalweg this morning", ["task: thalweg · hang both doors · done"]),
        ("six hours hanging drywall in the thalweg", ["hours: thalweg · 6 h · hanging drywall"]),
        ("put in nine hours at the thalweg", ["hours: thalweg · 9 h"]),
        ("it's sixty one degrees in the thalweg", ["reading: thalweg · temperature · 61F"]),
        ("humidity in the thalweg is seventy percent", ["reading: thalweg · humidity · 70%"]),
        ("put up the shelves in the thalweg", ["task: thalweg · put up the shelves · open"]),
        ("in the lower thalweg the bench is forty and a half long", ["measure: lower thalweg · bench · length · 40 1/2"]),
    ],
)  # fmt: skip
def test_a_noun_that_no_table_has_is_a_place_where_it_is_led_to_like_one(text: str, expected: list[str]) -> None:
    """What stands, is done or is read in it tells that it is a room; one doubt says that it was taken for one."""
    assert facts(text) == expected
    read = heard(text)
    doubts = {doubt for fact in read.facts for doubt in fact.doubts} | set(read.doubts)
    name = "lower thalweg" if "lower" in text else "thalweg"
    assert [(d.shown, d.level) for d in doubts if d.reason == "place"] == [(DOUBT.replace("thalweg", name), 1)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("moisture in the thalweg is nineteen percent", ["reading: thalweg · moisture · 19%"]),
        ("the notch in the thalweg is three deep", ["measure: notch thalweg · depth · 3"]),
        ("drill the holes in the thalweg tomorrow", ["task: drill the holes in the thalweg · open · 2026-08-05"]),
        ("the width of the bench in the thalweg of it is four", ["measure: bench thalweg · width · 4"]),
        ("hang the door in the snow", ["task: hang the door in the snow · open"]),
    ],
)  # fmt: skip
def test_what_is_cut_into_a_noun_or_read_in_it_makes_it_no_place(text: str, expected: list[str]) -> None:
    """ "The notch in the thalweg" is in a thing; "in the snow" is nowhere."""
    assert facts(text) == expected


def test_a_new_place_is_one_wherever_the_memo_names_it() -> None:
    """ "… in the thalweg, and the thalweg door is …": told once, it is known in the same memo."""
    said = "hang the shutters in the thalweg by friday and the thalweg door is thirty and a half wide"
    assert facts(said) == [
        "task: thalweg · hang the shutters · open · 2026-08-07",
        "measure: thalweg · door · width · 30 1/2",
    ]


def test_a_place_of_the_journal_needs_no_doubt_and_nothing_beside_it() -> None:
    """Once the journal has a thalweg, "thalweg door" is a door there, also where it is only the place of the memo before."""
    said = "thalweg door is thirty and a half wide"
    assert facts(said) == ["measure: thalweg door · width · 30 1/2"]
    for known in (Known(places=frozenset({"thalweg"})), Known(carried_place="thalweg")):
        read = heard(said, known)
        assert [(fact.place, fact.doubts) for fact in read.facts] == [("thalweg", ())]
        assert heard("bench in the thalweg is forty and a half long", known).facts[0].doubts == ()


def test_a_word_of_the_tables_is_no_new_place_because_the_journal_has_one() -> None:
    """A journal with a place "post" does not turn every post into it."""
    read = heard("king post is eight and a half deep", Known(places=frozenset({"post"})))
    assert [fact.place for fact in read.facts] == [None]


def test_no_common_noun_is_a_new_place() -> None:
    """Every noun of the table stays no place after "in the", and none stands there that another table has already."""
    nouns = " ".join(table("sites")["no_place"]).split()
    assert [noun for noun in nouns if is_new_noun(noun)] == []
    said = {noun: heard(f"in the {noun} the bench is forty and a half long").facts for noun in nouns}
    assert [noun for noun, read in said.items() if any(fact.place for fact in read)] == []
    assert sum(bool(read) for read in said.values()) > 0.9 * len(nouns)


@pytest.mark.parametrize("word", sorted(words_of("cut_into")))
def test_what_is_cut_bored_or_grown_into_a_thing_is_in_no_room(word: str) -> None:
    """ "Mend the WORD in the thalweg" is work on a thalweg."""
    assert [fact.place for fact in heard(f"mend the {word} in the thalweg by friday").facts] == [None]


@pytest.mark.parametrize("word", sorted(words_of("put_into")))
def test_what_is_put_into_a_thing_is_in_no_room(word: str) -> None:
    """ "WORD two dowels in the thalweg" is work on a thalweg."""
    places = [fact.place for fact in heard(f"we have to {word} the whatsit in the thalweg by friday").facts]
    assert places in ([None], [])
