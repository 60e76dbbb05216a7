"""Talk among the facts of a memo: none of it becomes a fact, and no fact is lost for it."""

from __future__ import annotations

import pytest

from extract.saying import facts, heard
from journal.grammar import table

DOOR = "measure: pantry · door · width · 33"


def _words(part: str, name: str) -> list[str]:
    said = table("voice")[part][name]
    return sorted(said.split()) if isinstance(said, str) else sorted(said)


@pytest.mark.parametrize(
    "person",
    sorted({*_words("who", "kin"), *_words("who", "trades"), *_words("who", "beasts"), *_words("who", "groups")}),
)
def test_what_others_have_or_say_is_no_fact(person: str) -> None:
    """ "… the PERSON reckons it's forty" leaves the door as it was measured."""
    assert facts(f"pantry door thirty three wide the {person} reckons it's forty") == [DOOR]


@pytest.mark.parametrize("adjective", _words("who", "adjectives"))
def test_a_person_may_be_any_kind_of_person(adjective: str) -> None:
    """ "The ADJECTIVE lad" is one who has or does something."""
    assert facts(f"pantry door thirty three wide the {adjective} lad got forty") == [DOOR]


@pytest.mark.parametrize("where", _words("who", "after"))
def test_a_person_may_be_anywhere(where: str) -> None:
    """ "The lad WHERE says forty" is his."""
    assert facts(f"pantry door thirty three wide the lad {where} swears it's forty") == [DOOR]


@pytest.mark.parametrize("verb", sorted(set(_words("who", "deals")) - {"'s"}))
def test_what_others_bring_ask_or_do_for_the_job_is_kept(verb: str) -> None:
    """What is brought, paid or worked by others is read as without this rule: money beside its verb is a record."""
    from journal.extract.voices import deals

    assert deals(["the", "driver", verb, "twelve", "boards"])


def test_the_verb_of_an_amount_is_a_record() -> None:
    """Prices, deliveries and hours of others are the job's."""
    assert facts("the mill charged two hundred dollars for planing") == ["cost: planing · 200 · total"]
    assert facts("the driver dropped off twelve pine boards") == ["stock: received · 12 · pine · board"]


@pytest.mark.parametrize("word", _words("who", "not_subject_after"))
def test_who_is_called_or_given_to_does_nothing(word: str) -> None:
    """Behind "call", "for", "with" a person is not the one who does something."""
    from datetime import date

    from journal.extract import _analyse
    from journal.extract.tokens import tokenise
    from journal.extract.voices import doer_at
    from journal.records import NOTHING_KNOWN

    line = _analyse(tokenise(f"{word} the lad got forty"), date(2026, 8, 4), NOTHING_KNOWN).line
    assert doer_at(line, len(tokenise(word))) is None


@pytest.mark.parametrize(
    "doing", sorted({*_words("talk", "posture"), *_words("talk", "mood"), *_words("talk", "thought")})
)
def test_what_the_speaker_feels_is_no_work(doing: str) -> None:
    """ "I was DOING" is no task and no part of the thing."""
    assert facts(f"i was {doing} the whole time and pantry door thirty three wide") == [DOOR]


@pytest.mark.parametrize("doing", _words("talk", "doings"))
def test_what_happens_to_the_speakers_things_is_no_work(doing: str) -> None:
    """ "I had DOING the ladder" is no task."""
    assert facts(f"pantry door thirty three wide and i had {doing} the ladder") == [DOOR]


@pytest.mark.parametrize("thing", _words("talk", "belongings"))
def test_the_speakers_things_are_no_work(thing: str) -> None:
    """ "I had to move my THING" is no task."""
    assert facts(f"pantry door thirty three wide and i had to move my {thing}") == [DOOR]


@pytest.mark.parametrize("when", _words("talk", "elsewhere"))
def test_elsewhere_and_otherwise_is_no_fact(when: str) -> None:
    """ "WHEN the gate was forty inches wide" is of no place or day of this job."""
    assert facts(f"pantry door thirty three wide and {when} the gate was forty inches wide") in ([DOOR], [])


@pytest.mark.parametrize("remark", _words("talk", "remarks"))
def test_a_remark_clings_to_no_task(remark: str) -> None:
    """ "Hang the gate REMARK" is to hang the gate."""
    assert facts(f"hang the gate {remark}") == ["task: hang the gate · open"]


@pytest.mark.parametrize("lead", sorted({*_words("talk", "leads"), *_words("talk", "wishes")} - {"according to"}))
def test_what_begins_talk_is_no_fact(lead: str) -> None:
    """ "… LEAD seven of them" adds nothing to what was measured."""
    assert facts(f"pantry door thirty three wide {lead} seven of them") == [DOOR]


@pytest.mark.parametrize("why", _words("talk", "purposes"))
def test_what_is_done_to_measure_is_no_work(why: str) -> None:
    """ "Rolled a marble WHY" is no task."""
    assert facts(f"pantry door thirty three wide and i rolled a marble {why}") == [DOOR]


@pytest.mark.parametrize("weather", _words("who", "weather"))
def test_what_the_weather_does_is_no_fact(weather: str) -> None:
    """ "The WEATHER's coming in" adds nothing."""
    assert facts(f"pantry door thirty three wide the {weather}'s coming in at seven") == [DOOR]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("drying loft window twenty eight wide i was stood on a trestle", ["measure: drying loft · window · width · 28"]),
        ("the sill's thirty two off the floor and my mate wrote down sixty nine", ["measure: floor to sill · offset · 32"]),
        ("my brother in law who measured it in ninety four had a hundred and ninety", []),
        ("the committee has had seven meetings about it anyway sand the counter by thursday", ["task: sand the counter · open · 2026-08-06"]),
        ("hung the gutters thank heavens it's only taken us since easter", ["task: hang the gutters · done"]),
        ("the pantry hatch used to be thirty one wide before the fire it's thirty three now", ["measure: pantry · hatch · width · 33"]),
        ("the pantry hatch was thirty one wide before they plastered now it's thirty and a half", ["measure: pantry · hatch · width · 30 1/2"]),
        ("the neighbour's is forty foot long", []),
        ("they were eleven dollars when my dad bought them", []),
        ("six twelve would've shed the snow better", []),
        ("the book says twelve percent", []),
        ("i got ninety then ninety one then ninety again", []),
        ("started raining again", []),
        ("if the rain holds off i'll buy the first round", []),
        ("only dropped one on my foot", []),
        ("pantry door thirty three wide whoever wrote the list put two pork pies on it", [DOOR]),
        ("gale blowing forty mile an hour up here pantry door thirty three wide", [DOOR]),
        ("used three boxes of staples and swallowed six flies", ["stock: used · 3 · box of staples"]),
        ("she's a quarter inch out of plumb the north post", ["measure: north post · out of plumb · 0 1/4"]),
        ("somebody has to grease the hinges tomorrow", ["task: grease the hinges · open · 2026-08-05"]),
        ("once the plumber's been box in the pantry pipes", ["task: pantry · box in the pantry pipes · waiting · after the plumber's been"]),
        ("pantry door thirty three wide i make that three times now", [DOOR]),
        ("that door in the pantry's forty wide they reckon", []),
        ("the rails are five foot apart according to the old mechanic", []),
        ("lath nails came to nine eighty a box ten years back they were four", ["cost: lath nails · 9.8 · box"]),
        ("cut eight oak ribs at six foot two would have been more", ["stock: cut · 8 · oak · rib · 74"]),
        ("pantry bench is seventeen high it was fifteen before i packed it up", ["measure: pantry · bench · height · 17"]),
        ("pantry door thirty three wide rain's coming in sideways", [DOOR]),
        ("pantry door thirty three wide it weighs as much as three ponies", [DOOR]),
        ("four hours sanding the deck and an hour arguing with the caretaker", ["hours: deck · 4 h · sanding"]),
        ("i've two hours if i'm lucky", []),
        ("there's a plaque says eighteen ninety one", []),
        ("swept the flue and found a doll", ["task: sweep the flue · done"]),
        ("i'd give it nine out of ten", []),
        ("pantry's sixty degrees at about ten past eight", ["reading: pantry · temperature · 60F"]),
    ],
)  # fmt: skip
def test_talk_and_record_are_told_apart(said: str, told: list[str]) -> None:
    """Who speaks, of whom, of when and of what: only the record is filed."""
    assert facts(said) == told


def test_a_figure_told_by_the_way_is_said_to_be_left_out() -> None:
    """A figure with its dimension that goes with the talk is a problem, so that it can be said again."""
    read = heard("his grandad had a boat thirty foot long")
    assert read.facts == ()
    assert [(problem.message, problem.hint) for problem in read.problems] == [
        ("'his grandad had a boat thirty foot long': told by the way, so it is said and not filed", "Say it by itself if it was measured.")
    ]  # fmt: skip
    [problem] = heard("the sign on the door says eleven").problems
    assert problem.message == "'eleven': a figure that was only written, not measured"
