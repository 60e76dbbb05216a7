"""Places: what names a frame, bay, wall or room, and what only looks like a place."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard
from journal.extract.placewords import place_words
from journal.extract.sets import words_of
from journal.records import Known


def _place(text: str) -> str | None:
    """The place of the one fact of a memo."""
    [fact] = heard(text).facts
    return fact.place


@pytest.mark.parametrize("noun", sorted(place_words("lettered")))
def test_every_lettered_noun_takes_its_letter_on_either_side(noun: str) -> None:
    """ "NOUN c" and "the c NOUN" are one place."""
    assert _place(f"in {noun} c the bench is forty and a half long") == f"{noun} C"
    assert _place(f"in the c {noun} the bench is forty and a half long") == f"{noun} C"


@pytest.mark.parametrize("letter", sorted(place_words("shapes")))
def test_a_letter_that_tells_a_shape_names_no_frame(letter: str) -> None:
    """ "An a frame" is a frame of that shape."""
    assert _place(f"the {letter} frame is forty and a half wide") is None


@pytest.mark.parametrize("side", sorted(place_words("sides")))
@pytest.mark.parametrize("noun", ["frame", "bent"])
def test_every_side_or_colour_tells_a_frame(side: str, noun: str) -> None:
    """ "Brace on the SIDE frame" is about a brace there."""
    assert facts(f"brace on the {side} {noun} is forty one long") == [f"measure: {side} {noun} · brace · length · 41"]


@pytest.mark.parametrize("end", sorted(place_words("ends")))
def test_every_end_with_its_article_tells_a_frame(end: str) -> None:
    """ "Brace on the far frame" is about a brace there."""
    assert facts(f"brace on the {end} frame is forty one long") == [f"measure: {end} frame · brace · length · 41"]


@pytest.mark.parametrize(
    "led", ["facing the creek", "that faces the creek", "towards the creek", "on the creek side", "to the creek side"]
)
def test_the_way_a_wall_looks_is_its_name(led: str) -> None:
    """ "The wall facing the creek" is the creek wall."""
    assert facts(f"the wall {led} is eighteen foot long") == ["measure: creek wall · length · 216"]


@pytest.mark.parametrize("kind", sorted(words_of("wall_kinds")))
def test_every_kind_of_wall_takes_a_number(kind: str) -> None:
    """ "Shear wall two is eight foot long" is about that wall, "shear wall eight foot long" about no number eight."""
    assert facts(f"{kind} wall two is eight foot long") == [f"measure: {kind} wall 2 · length · 96"]
    assert facts(f"{kind} wall eight foot long") == [f"measure: {kind} wall · length · 96"]


@pytest.mark.parametrize("noun", sorted(words_of("named_stalls")))
def test_a_noun_names_a_bay(noun: str) -> None:
    """ "Gander bay door" is a door there, "stud bay" stays a thing."""
    assert facts(f"gander {noun} door is ten foot two wide") == [f"measure: gander {noun} · door · width · 122"]
    assert _place("stud bay is fourteen and a half wide") is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the cobbler's shop bench is thirty four high", ["measure: cobbler's shop · bench · height · 34"]),
        ("the harbour master's office door is thirty wide", ["measure: harbour master's office · door · width · 30"]),
        ("put a shelf up in the bosun's store by friday", ["task: bosun's store · put a shelf up · open · 2026-08-07"]),
        ("it's the shop door that is thirty wide", ["measure: shop · door · width · 30"]),
        ("linen press room shelf is fourteen deep", ["measure: linen press room · shelf · depth · 14"]),
        ("press barn tie beam span is twenty four foot seven", ["measure: press barn · tie beam · span · 295"]),
        ("tar house roof is a nine and a half twelve", ["slope: tar house roof · 9.5 in 12"]),
        ("paint store window is thirty wide", ["measure: paint store · window · width · 30"]),
        ("graving dock depth sixteen foot five", ["measure: graving dock · depth · 197"]),
    ],
)  # fmt: skip
def test_a_room_keeps_its_whole_name(text: str, expected: list[str]) -> None:
    """Nouns and owners straight before a room are part of its name."""
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("cart shed bay widths bay one nine foot three bay two nine foot", ["measure: cart shed · bay 1 · width · 111", "measure: cart shed · bay 2 · width · 108"]),
        ("bay one is nine foot three wide", ["measure: bay 1 · width · 111"]),
        ("door frame b is thirty wide", ["measure: door frame b · width · 30"]),
        ("window frame is thirty wide", ["measure: window frame · width · 30"]),
        ("the weir gate is four foot wide", ["measure: weir gate · width · 48"]),
        ("at the weir the plank is four foot wide", ["measure: weir · plank · width · 48"]),
        ("paint the door frame red", ["task: paint the door frame red · open"]),
        ("frame a door in the pantry by friday", ["task: pantry · frame a door · open · 2026-08-07"]),
    ],
)  # fmt: skip
def test_a_part_of_a_place_stays_a_thing(text: str, expected: list[str]) -> None:
    """Bays listed behind their building, door frames, gates of the weir are things; the frame that is framed is work."""
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "seal the cellar floor tomorrow and sweep the landing on saturday",
            ["task: cellar floor · seal the cellar floor · open · 2026-08-05", "task: landing · sweep the landing · open · 2026-08-08"],
        ),
        ("put up the shelves in the chandlery by friday", ["task: chandlery · put up the shelves · open · 2026-08-07"]),
        ("knocked the wedges tight on frame c", ["task: frame C · knock the wedges tight · done"]),
        (
            "varnish the mess room table on monday put up the shelves in the chandlery by friday",
            ["task: mess room · varnish the mess room table · open · 2026-08-10", "task: chandlery · put up the shelves · open · 2026-08-07"],
        ),
    ],
)  # fmt: skip
def test_each_task_has_the_place_said_with_it(text: str, expected: list[str]) -> None:
    """ "In the chandlery", "on frame c" is the place of that task and left out of what is to be done."""
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("wall b of the seed store is twenty foot two long", ["measure: seed store wall B · length · 242"]),
        ("orchard shed wall b stud is ninety one long", ["measure: orchard shed wall B · stud · length · 91"]),
        ("stair c handrail is thirty six high", ["measure: stair C · handrail · height · 36"]),
        ("lake cabin bunk room window is thirty wide", ["measure: lake cabin bunk room · window · width · 30"]),
        ("tarred the roof down at the fish store", ["task: fish store roof · tar the roof down at the fish store · done"]),
        (
            "sand the treads in the tower and oil the rail up there on friday",
            ["task: tower · sand the treads · open", "task: tower · oil the rail · open · 2026-08-07"],
        ),
    ],
)  # fmt: skip
def test_a_place_within_a_place_is_one(text: str, expected: list[str]) -> None:
    """A lettered wall, a room or a roof goes with the building said beside it; "up there" goes on with the place before."""
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("in the flour loft shelf one is fourteen deep", ["measure: flour loft · shelf 1 · depth · 14"]),
        ("the headmaster's study door is thirty wide", ["measure: headmaster's study · door · width · 30"]),
        ("fly loft rail is forty two high", ["measure: fly loft · rail · height · 42"]),
        ("grease the press by friday", ["task: grease the press · open · 2026-08-07"]),
        ("need two bar clamps and four trap doors", ["stock: need · 2 · bar clamp", "stock: need · 4 · trap door"]),
        ("bolt down the big diesel in the generator shed tomorrow", ["task: generator shed · bolt down the big diesel · open · 2026-08-05"]),
        ("six pails of joint compound came in", ["stock: received · 6 · pail of joint compound"]),
    ],
)  # fmt: skip
def test_rooms_of_other_trades(text: str, expected: list[str]) -> None:
    """Names of several words are kept whole, also where a word of them sounds like another; things named like a room stay things."""
    assert facts(text) == expected


def test_the_same_platform_is_the_one_gone_on_about() -> None:
    """ "Same platform" points back only where the memo before was about a platform."""
    said = "same platform joist two is eleven deep"
    assert facts(said, Known(carried_place="platform")) == ["measure: platform · joist 2 · depth · 11"]
    assert heard(said, Known(carried_place="hill wall")).facts[0].place is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kennel roof rafters are twenty inches on centre", ["measure: kennel roof · rafters · spacing · 20"]),
        ("porch floor joists are sixteen on centre", ["measure: porch floor · joists · spacing · 16"]),
        ("roof rafters are twenty inches on centre", ["measure: roof rafters · spacing · 20"]),
        ("infants' room dado height three foot one", ["measure: infants' room · dado · height · 37"]),
        ("the girls' dormitory door is thirty wide", ["measure: girls' dormitory · door · width · 30"]),
        ("the damp cupboard in the throwing room is forty nine wide", ["measure: throwing room · damp cupboard · width · 49"]),
        ("the damp cupboard is forty nine wide", ["measure: damp cupboard · width · 49"]),
        ("creosote the pier stringers on friday", ["task: pier · creosote the pier stringers · open · 2026-08-07"]),
        ("the pier footing is twenty wide", ["measure: pier footing · width · 20"]),
        ("sheer beam in the cap is half an inch out of level", ["measure: cap · sheer beam · out of level · 0 1/2"]),
        ("fish stall counter is thirty five high", ["measure: fish stall · counter · height · 35"]),
        ("up on the cap the weather beam is twelve and a half deep", ["measure: cap · weather beam · depth · 12 1/2"]),
        ("prime the woodshop sealing tomorrow", ["task: woodshop ceiling · prime the woodshop ceiling · open · 2026-08-05"]),
        ("what a mess length fourteen foot one", ["measure: length · 169"]),
    ],
)  # fmt: skip
def test_what_belongs_to_a_place_goes_with_it(text: str, expected: list[str]) -> None:
    """Rafters of a named roof lie in that roof, a cupboard in a room is a thing there, several people own a room as one does."""
    assert facts(text) == expected


def test_a_part_of_a_building_in_here_stands_in_the_place_gone_on_about() -> None:
    """ "The hearth in here" is a hearth of the den, a recogniser's "in hear" as well."""
    for said in ("the hearth in here is forty deep", "the hearth in hear is forty deep"):
        assert facts(said, Known(carried_place="den")) == ["measure: den · hearth · depth · 40"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("dressing room two mirror is thirty wide", ["measure: dressing room 2 · mirror · width · 30"]),
        ("in ward six the bench is forty one wide", ["measure: ward 6 · bench · width · 41"]),
        ("in the ward the bench is forty one wide", ["measure: ward · bench · width · 41"]),
        ("garage twenty four by thirty", ["measure: garage · size · 24", "measure: garage · size · 30"]),
        ("four hours in the lab two in the mess", ["hours: lab · 4 h", "hours: mess · 2 h"]),
        ("four hours in the lab and two in the mess", ["hours: lab · 4 h", "hours: mess · 2 h"]),
        ("fifty eight degrees in the ward forty in the mess", ["reading: ward · temperature · 58F", "reading: mess · temperature · 40F"]),
    ],
)  # fmt: skip
def test_rooms_of_a_kind_take_a_number(text: str, expected: list[str]) -> None:
    """A dressing room or ward has its number for a name; a size, and hours and degrees that go on to the next room, are none."""
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("on wednesday in the barn hang the doors", ["task: barn · hang the doors · open · 2026-08-05"]),
        ("tomorrow up in the loft hang the doors and oil the floor", ["task: loft · hang the doors · open · 2026-08-05", "task: loft · oil the floor · open"]),
        ("on wednesday in the thalweg hang the doors", ["task: thalweg · hang the doors · open · 2026-08-05"]),
        ("four hours in the barn and two more in the loft", ["hours: barn · 4 h", "hours: loft · 2 h"]),
        ("spent the morning in the thalweg hanging doors four hours", ["hours: thalweg · 4 h · hanging doors"]),
        ("roll off roof's a three twelve", ["slope: roll off roof · 3 in 12"]),
    ],
)  # fmt: skip
def test_a_place_between_a_day_and_its_work_keeps_both(text: str, expected: list[str]) -> None:
    """ "On wednesday in the barn hang the doors" has its day and its place; more hours in the next place are hours there."""
    assert facts(text) == expected


def test_a_thing_that_is_a_place_of_the_journal_is_one_with_its_article() -> None:
    """Where the memo before was in a dome, "the dome shutter" is there; in another journal it is a thing."""
    said = "grease the dome shutter rails before the snow comes"
    assert [fact.place for fact in heard(said, Known(carried_place="dome")).facts] == ["dome"]
    assert [fact.place for fact in heard(said).facts] == [None]
    bay = heard("operator's bay window sill height thirty", Known(carried_place="operator's bay"))
    assert [fact.place for fact in bay.facts] == ["operator's bay"]
