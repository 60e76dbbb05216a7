"""Tasks as builders say them: what a thing is to get, what goes up when, who is called, when it is due after all."""

from __future__ import annotations

import pytest

from extract.saying import facts
from journal.extract.sets import words_of
from journal.grammar import table


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("shut the loft hatch tonight would you and cover the oak", ["task: loft · shut the loft hatch · open · 2026-08-04", "task: loft · cover the oak · open"]),
        ("could you get the skylight flashed by friday", ["task: get the skylight flashed · open · 2026-08-07"]),
        ("would you mind taking the ladders down off the granary by friday", ["task: granary · take the ladders down · open · 2026-08-07"]),
        ("i'd like the vents screened by friday", ["task: screen the vents · open · 2026-08-07"]),
        ("have the rails bolted by friday", ["task: bolt the rails · open · 2026-08-07"]),
        ("we have the rails bolted", ["task: bolt the rails · done"]),
        ("we got the purlins pegged yesterday", ["task: peg the purlins · done"]),
        ("we got the gutters up today", ["task: get the gutters up · done"]),
        ("had the chimney swept", ["task: chimney · sweep the chimney · done"]),
        ("had to rehang the pantry door", ["task: pantry · rehang the pantry door · done"]),
        ("didn't get the gutters hung", ["task: hang the gutters · open"]),
        ("see about ordering the ridge cap", ["task: order the ridge cap · open"]),
        ("the handrail needs a second coat by friday", ["task: give the handrail a second coat · open · 2026-08-07"]),
        ("the sills are to be scraped and primed by friday", ["task: scrape and prime the sills · open · 2026-08-07"]),
        ("the bell frame's to be greased by friday", ["task: grease the bell frame · open · 2026-08-07"]),
        ("we still have to counterflash the saddle once the mortar's set", ["task: counterflash the saddle · waiting · after the mortar's set"]),
        ("don't forget the drip edge on the north eave", ["task: the drip edge on the north eave · open"]),
        ("the oak needs nothing", []),
        ("i need a coat", []),
    ],
)  # fmt: skip
def test_work_is_heard_however_it_is_asked_for(said: str, told: list[str]) -> None:
    """Polite or blunt, by what the thing is to get or got, what is to be done or was done is one task."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("downspouts go up once the fascia's painted", ["task: downspouts go up · waiting · after the fascia's painted"]),
        ("the trim can wait until the paint's dry", ["task: trim · waiting · after the paint's dry"]),
        ("siding can't go on till the wrap's up", ["task: siding go on · waiting · after the wrap's up"]),
        ("we're still waiting for the roofers to finish before we can strip the scaffold", ["task: strip the scaffold · waiting · after the roofers to finish"]),
        ("don't touch the west sill until the jacks come", ["task: don't touch the west sill · waiting · after the jacks come"]),
        ("don't strip the forms till friday", ["task: strip the forms · waiting · 2026-08-07"]),
        ("hang the shutters after the posts have set that's for sunday morning", ["task: hang the shutters · waiting · 2026-08-09 · after the posts have set"]),
        ("oil the bearing do that by friday", ["task: oil the bearing · open · 2026-08-07"]),
        ("hang the barn doors when the rollers get here oh and the shingling's done on the tower", ["task: barn · hang the barn doors · waiting · after the rollers get here", "task: tower · shingling · done"]),
        ("rain comes in when it blows", []),
        ("the hasp goes on after that", []),
        ("still got four to scrape", []),
        ("tile the porch by friday and grout it the monday after", ["task: porch · tile the porch · open · 2026-08-07", "task: porch · grout it · open · 2026-08-10"]),
        ("seal the porch floor by friday and the day after that fit the bench", ["task: porch floor · seal the porch floor · open · 2026-08-07", "task: porch floor · fit the bench · open · 2026-08-08"]),
        ("don't backfill the drain till the inspector's seen it and oil the pump by friday", ["task: backfill the drain · waiting · after the inspector's seen it", "task: oil the pump · open · 2026-08-07"]),
        ("don't oil the sills till they're under fifteen percent", ["task: oil the sills · waiting · after they're under fifteen percent"]),
        ("that's the lean to roof all felted", ["task: lean to roof · felt the lean to roof · done"]),
        ("the moisture goes up when it rains", []),
        ("the truck comes back when it's loaded", []),
    ],
)  # fmt: skip
def test_what_waits_says_for_what(said: str, told: list[str]) -> None:
    """Work that goes up, comes off or waits until something else is done; what moves by itself is no work."""
    assert facts(said) == told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("call the mill about the cedar tomorrow", ["task: call the mill about the cedar · open · 2026-08-05"]),
        ("pick up the sash from the shop on friday", ["task: pick up the sash from the shop · open · 2026-08-07"]),
        ("sweep the mill tomorrow", ["task: mill · sweep the mill · open · 2026-08-05"]),
        ("fix the latch on the stall three door by friday", ["task: stall 3 · fix the latch on the door · open · 2026-08-07"]),
        ("oil the hinges on the pantry door by friday", ["task: pantry · oil the hinges on the pantry door · open · 2026-08-07"]),
        ("take the staging down on the lake gable by friday", ["task: lake gable · take the staging down · open · 2026-08-07"]),
        ("shingled the shed roof it's all done", ["task: shed roof · shingle the shed roof · done"]),
        ("stripped the bark it's all stripped", ["task: strip the bark · done"]),
    ],
)  # fmt: skip
def test_a_task_keeps_its_words_and_its_place(said: str, told: list[str]) -> None:
    """Who is called or sold it is no place, the door's latch keeps its door, and what is said twice is one task."""
    assert facts(said) == told


@pytest.mark.parametrize("phrase", table("tasks")["openings"]["nouns"])
def test_every_phrase_before_a_thing_opens_a_task(phrase: str) -> None:
    """ "PHRASE the drip edge" is an open task."""
    assert facts(f"{phrase} the drip edge") == ["task: the drip edge · open"]


@pytest.mark.parametrize("phrase", table("tasks")["done"]["openings"])
def test_every_phrase_before_work_done_tells_it(phrase: str) -> None:
    """ "We PHRASE paint the rail" was done."""
    assert facts(f"we {phrase} paint the rail") == ["task: paint the rail · done"]


@pytest.mark.parametrize("phrase", table("tasks")["due"]["afterwards"])
def test_every_phrase_before_a_day_said_afterwards(phrase: str) -> None:
    """ "Paint the rail PHRASE by friday" is due on friday."""
    assert facts(f"paint the rail {phrase} by friday") == ["task: paint the rail · open · 2026-08-07"]


@pytest.mark.parametrize("word", sorted(words_of("coat_nouns")))
def test_every_thing_that_is_work_is_given(word: str) -> None:
    """ "The deck needs a WORD" is a task."""
    assert facts(f"the rail needs another {word}") == [f"task: give the rail another {word} · open"]


@pytest.mark.parametrize("phrase", table("fillers")["closing"])
def test_every_remark_at_the_end_is_dropped(phrase: str) -> None:
    """ "Paint the rail by friday PHRASE" says no more than the task."""
    assert facts(f"paint the rail by friday {phrase}") == ["task: paint the rail · open · 2026-08-07"]
