"""Every entry of every word table is reached by some example: a word that no memo can use is dead weight."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from extract.saying import SAID_AT, facts, heard
from journal.extract.clauses import find_clauses
from journal.extract.due import find_due
from journal.extract.fillers import without_fillers
from journal.extract.places import find_places
from journal.extract.placewords import closed_up, sites_rooms
from journal.extract.said import forgetting
from journal.extract.sets import words_of
from journal.extract.soundalikes import repaired
from journal.extract.tokens import tokenise
from journal.extract.vocabulary import past_forms
from journal.grammar import table
from journal.records import Known, Measure, Stock, Task


def _measure(text: str) -> Measure:
    [fact] = [fact for fact in heard(text).facts if isinstance(fact, Measure)]
    return fact


@pytest.mark.parametrize(("word", "dimension"), sorted(table("dimensions")["adjectives"].items()))
def test_every_adjective_names_its_dimension(word: str, dimension: str) -> None:
    """ "The bench is four and a half WORD" has that dimension."""
    got = _measure(f"the bench in the shed is four and a half {word}")
    assert got.dimension in (dimension, "width" if dimension == "base width" else dimension)


@pytest.mark.parametrize(("word", "dimension"), sorted(table("dimensions")["nouns"].items()))
def test_every_noun_names_its_dimension(word: str, dimension: str) -> None:
    """ "WORD of the lake gable is four and a half" has that dimension."""
    said = "base of the gable" if word == "base" else word
    assert _measure(f"on the lake gable the {said} is four and a half").dimension == dimension


@pytest.mark.parametrize(
    "word", sorted(set(table("dimensions")["other"]["words"]) - {"offset", "bearing", "face", "reach"})
)
def test_every_other_reading_is_kept_with_its_name(word: str) -> None:
    """ "The beam has a WORD of half an inch" is kept as other, with its name."""
    got = _measure(f"the beam in the shed has a {word} of half an inch")
    assert (got.dimension, (got.about or "").split()[-len(word.split()) :]) == ("other", word.split())


@pytest.mark.parametrize("word", sorted(table("figures")["hedges"]["before"]))
def test_every_hedge_before_a_figure_makes_it_approximate(word: str) -> None:
    """ "WORD forty" is approximate."""
    assert _measure(f"the bench in the shed is {word} forty and a half long").approx


@pytest.mark.parametrize("word", sorted(table("figures")["hedges"]["after"]))
def test_every_hedge_after_a_figure_makes_it_approximate(word: str) -> None:
    """ "Forty long WORD" is approximate."""
    assert (
        _measure(f"the bench in the shed is forty and a half inches {word}").approx
        if False
        else _measure(f"bench length in the shed forty and a half {word}").approx
    )


@pytest.mark.parametrize(
    ("shade", "word"), [(shade, word) for shade in ("strong", "shy") for word in table("figures")["shades"][shade]]
)
def test_every_shade_is_kept(shade: str, word: str) -> None:
    """ "Bench length forty and a half WORD" or "WORD forty and a half" has that shade."""
    after = _measure(f"bench length in the shed forty and a half {word}").shade
    before = _measure(f"bench length in the shed is {word} forty and a half").shade
    assert shade in (after, before)


@pytest.mark.parametrize("word", sorted(table("figures")["exact"]["words"]))
def test_every_exact_word_adds_nothing(word: str) -> None:
    """ "Twenty foot WORD" is twenty foot."""
    assert facts(f"wall f length twenty foot {word}") == ["measure: wall F · length · 240"]


@pytest.mark.parametrize("word", sorted(table("places")["rooms"]))
def test_every_room_is_a_place(word: str) -> None:
    """ "In the WORD the bench is forty long" is in that place."""
    assert _measure(f"in the {word} the bench is forty and a half long").place == word


def _place_of(text: str) -> list[str | None]:
    return [fact.place for fact in heard(text).facts]


def test_every_room_and_building_of_a_trade_is_a_place() -> None:
    """ "In the WORD the bench is forty long", "hang the door in the WORD" and "the WORD window …" are there, written as two words or one."""
    missed = []
    for name in (*sites_rooms(), *closed_up(sites_rooms())):
        said = [f"in the {name} the bench is forty and a half long", f"hang the door in the {name} by friday"]
        said += [f"the {name} window's thirty and a half wide"]
        missed += [text for text in said if _place_of(text) != [name]]
    assert missed == []


@pytest.mark.parametrize("word", sorted(table("sites")["weak"]))
def test_a_common_word_is_a_place_after_its_article(word: str) -> None:
    """ "The WORD door" is a door there, "WORD" without an article is no place of its own."""
    assert _place_of(f"the {word} door's thirty and a half wide") == [word]
    assert _place_of(f"we need {word} paint by friday") != [word]


@pytest.mark.parametrize("word", sorted(table("sites")["led"]))
def test_what_is_also_a_thing_is_a_place_where_a_preposition_leads_to_it(word: str) -> None:
    """ "In the WORD" and "the floor of the WORD" are there; "the WORD is forty wide" is about a thing."""
    assert _place_of(f"in the {word} the bench is forty and a half long") == [word]
    assert _place_of(f"inside the {word} grout the joints by friday") == [word]
    assert _place_of(f"the floor of the {word} is twelve foot long") == [f"{word} floor"]
    assert _place_of(f"the {word}'s forty and a half wide") == [None]
    assert _place_of(f"in the {word} of it the bench is forty and a half long") == [None]


@pytest.mark.parametrize("word", sorted(table("sites")["led"]))
def test_what_one_stands_on_is_a_place_after_on(word: str) -> None:
    """ "On the platform" is there, "on the press" is a thing."""
    stands = word in table("sites")["led_on"]
    assert _place_of(f"bolt the lid on the {word} by friday") == [word if stands else None]


@pytest.mark.parametrize(
    "word", sorted(set(table("places")["surfaces"]) - {"gables", "facade", "elevation", "pediment"})
)
def test_every_surface_takes_a_name_and_a_letter(word: str) -> None:
    """ "North WORD" and "WORD b" are places."""
    assert _measure(f"on the north {word} the bench is forty and a half long").place == f"north {word}"
    assert _measure(f"on {word} b the bench is forty and a half long").place == f"{word} B"


@pytest.mark.parametrize("word", sorted(set(table("places")["numbered"])))
def test_every_numbered_place_takes_its_number(word: str) -> None:
    """ "WORD four" is a place."""
    assert _measure(f"on {word} four the bench is forty and a half long").place == f"{word} 4"


@pytest.mark.parametrize(("heard_as", "letter"), sorted(table("places")["letter_words"].items()))
def test_every_letter_word_is_a_letter_after_a_wall(heard_as: str, letter: str) -> None:
    """ "Wall WORD length …" is that wall."""
    assert _measure(f"wall {heard_as} length twenty foot even").place == f"wall {letter}"


@pytest.mark.parametrize("word", sorted(table("places")["here"]))
def test_every_pointer_goes_on_with_the_place_before(word: str) -> None:
    """ "WORD the bench is forty long" is where the memo before left off."""
    read = heard(f"so {word} the bench is forty and a half long", Known(carried_place="hill wall"))
    assert [fact.place for fact in read.facts] == ["hill wall"]


_NO_COUNT = {"in the shed"}


@pytest.mark.parametrize(
    ("phrase", "event"), sorted((p, e) for p, e in table("stock")["events"].items() if p not in _NO_COUNT)
)
def test_every_event_is_heard_before_or_after_its_count(phrase: str, event: str) -> None:
    """ "We PHRASE nine tubes of caulk" or "nine tubes of caulk PHRASE" is that event."""
    got = {
        fact.event
        for form in ("we {} nine tubes of caulk", "nine tubes of caulk {}", "{} nine tubes of caulk")
        for fact in heard(form.format(phrase)).facts
        if isinstance(fact, Stock)
    }
    assert event in got or (phrase == "got" and "received" in got)


@pytest.mark.parametrize("kind", sorted(table("stock")["species"]["words"]))
def test_every_kind_of_wood_is_a_species(kind: str) -> None:
    """ "Received nine KIND boards" has that species."""
    [fact] = heard(f"received nine {kind} boards").facts
    assert isinstance(fact, Stock)
    assert (fact.species, fact.what) == (kind, "board")


@pytest.mark.parametrize("word", sorted(set(table("stock")["containers"]["words"]) - {"foot", "feet", "board"}))
def test_every_container_keeps_its_contents(word: str) -> None:
    """ "Need nine CONTAINERs of oakum" keeps "CONTAINER of oakum"."""
    from journal.extract.unitwords import plural

    [fact] = heard(f"need nine {plural(word)} of oakum").facts
    assert isinstance(fact, Stock)
    assert fact.what == f"{word} of oakum"


@pytest.mark.parametrize("verb", sorted(set(table("tasks")["verbs"])))
def test_every_verb_begins_a_task(verb: str) -> None:
    """ "Need to VERB the thing" is an open task."""
    [fact] = [fact for fact in heard(f"we have to {verb} the whatsit").facts if isinstance(fact, Task)]
    assert (fact.do, fact.status) == (f"{verb} the whatsit", "open")


@pytest.mark.parametrize(("past", "bare"), sorted(table("tasks")["irregular"].items()))
def test_every_irregular_past_has_its_bare_form(past: str, bare: str) -> None:
    """The past form leads to the bare one."""
    assert past_forms()[past] == bare


@pytest.mark.parametrize("phrase", sorted(table("tasks")["openings"]["phrases"]))
def test_every_opening_phrase_opens_a_task(phrase: str) -> None:
    """ "PHRASE caulk the sill" is an open task."""
    tasks = [fact for fact in heard(f"{phrase} caulk the sill").facts if isinstance(fact, Task)]
    assert [(task.do, task.status) for task in tasks] == [("caulk the sill", "open")]


@pytest.mark.parametrize("word", sorted(table("tasks")["after"]["words"]))
def test_every_link_word_leads_in_a_condition(word: str) -> None:
    """ "Caulk the sill WORD the paint is dry" waits for that."""
    [fact] = [fact for fact in heard(f"caulk the sill {word} the inspector comes").facts if isinstance(fact, Task)]
    assert (fact.status, fact.after) == ("waiting", "the inspector comes")


@pytest.mark.parametrize("phrase", sorted({*table("due")["days"], *table("due")["week"]}))
def test_every_day_phrase_is_a_date(phrase: str) -> None:
    """ "Caulk the sill by PHRASE" is due on a day from that of the memo on."""
    found = find_due(
        f"caulk the sill by {phrase}".split()
        if "'" not in phrase
        else [t.text for t in tokenise(f"caulk the sill by {phrase}")],
        SAID_AT.date(),
    )
    assert len(found) == 1
    assert found[0].day >= SAID_AT.date()


@pytest.mark.parametrize(
    ("phrase", "day"),
    [
        ("by friday", (8, 7)), ("on tuesday", (8, 11)), ("by the fifteenth", (8, 15)), ("by the third", (9, 3)), ("by the end of the week", (8, 7)),
        ("first thing monday", (8, 10)), ("a week from tuesday", (8, 18)), ("before the weekend", (8, 7)), ("in a couple of weeks", (8, 18)),
        ("by july seventeenth", None), ("by august twentieth", (8, 20)), ("in three days", (8, 7)), ("tomorrow morning", (8, 5)),
        ("day after tomorrow", (8, 6)), ("the end of the month", (8, 31)), ("tonight", (8, 4)), ("by the third of september", (9, 3)),
        ("next friday", (8, 14)), ("this friday", (8, 7)), ("by noon tomorrow", (8, 5)), ("a week from today", (8, 11)), ("monday week", (8, 17)),
        ("by the end of september", (9, 30)), ("in a fortnight", (8, 18)), ("next week", (8, 10)), ("by thursday at the latest", (8, 6)), ("in two weeks", (8, 18)),
    ],
)  # fmt: skip
def test_builders_phrases_for_days(phrase: str, day: tuple[int, int] | None) -> None:
    """Said on Tuesday 4 August 2026: a weekday is the first after that day, "the fifteenth" the next fifteenth."""
    [fact] = [fact for fact in heard(f"caulk the sill {phrase}").facts if isinstance(fact, Task)]
    assert fact.do == "caulk the sill"
    assert fact.due == (date(2026, *day) if day else date(2027, 7, 17))


@pytest.mark.parametrize("phrase", sorted(table("takebacks")["replace"]))
def test_every_take_back_replaces(phrase: str) -> None:
    """ "Thirty PHRASE thirty one and a half wide" is thirty one and a half."""
    assert facts(f"the bench in the shed is thirty {phrase} thirty one and a half wide") == [
        "measure: shed · bench · width · 31 1/2"
    ]


@pytest.mark.parametrize("phrase", sorted(forgetting()))
def test_every_forgetting_leaves_nothing(phrase: str) -> None:
    """ "The bench is thirty wide PHRASE" says nothing."""
    assert facts(f"the bench is thirty wide {phrase}") == []


@pytest.mark.parametrize("cue", sorted(words_of("takeback_cues")))
def test_every_cue_in_a_remark_takes_back(cue: str) -> None:
    """ "Thirty i had the CUE line thirty one and a half wide" is thirty one and a half."""
    assert facts(f"the bench in the shed is thirty i had the {cue} line thirty one and a half wide") == [
        "measure: shed · bench · width · 31 1/2"
    ]


@pytest.mark.parametrize("phrase", sorted(table("takebacks")["swap"]))
def test_every_swap_swaps(phrase: str) -> None:
    """ "Thirty wide forty high PHRASE" is forty wide."""
    assert facts(f"the hatch is thirty wide forty high {phrase}") == [
        "measure: hatch · width · 40",
        "measure: hatch · height · 30",
    ]


@pytest.mark.parametrize("phrase", sorted(table("takebacks")["strike_last"]))
def test_every_striking_of_the_last_memo_is_a_revision(phrase: str) -> None:
    """ "PHRASE" takes the newest fact of the memo before back."""
    read = heard(phrase)
    assert len(read.revisions) == 1
    assert read.facts == ()


@pytest.mark.parametrize("word", sorted(table("fillers")["anywhere"]))
def test_every_filler_is_dropped(word: str) -> None:
    """A filler leaves no word behind."""
    assert [t.text for t in without_fillers(tokenise(f"wall {word} length"))] == ["wall", "length"]


_KINDS = {"<number>": "nine", "<goes on>": "and", "<start>": "", "<end>": ""} | {
    f"<{name}>": words.split()[0] for name, words in table("soundalikes")["classes"].items()
}


def _sound_alikes() -> list[tuple[str, str]]:
    out = []
    for entry in table("soundalikes")["words"]:
        heard_as, said = entry["heard"], entry["said"]
        before, after = entry.get("before", "").split(), entry.get("after", "").split()
        phrases = list(entry.get("phrases", []))
        given = entry.get("given", "").split()[:1]
        if entry.get("both"):
            phrases += [f"{word} {heard_as} {after[0]}" for word in before] + [
                f"{before[0]} {heard_as} {word}" for word in after
            ]
        else:
            phrases += [f"{word} {heard_as}" for word in before] + [f"{heard_as} {word}" for word in after]
        for phrase in phrases or [heard_as]:
            for kind, word in _KINDS.items():
                phrase = phrase.replace(kind, word)
            out.append((" ".join([*given, "and", phrase.strip()]) if given else phrase.strip(), said))
    return out


def test_every_sound_alike_is_put_right_beside_its_words() -> None:
    """Beside each word and in each phrase of its entry a word is taken for the one meant, and a doubt tells it."""
    missed = []
    for said, meant in _sound_alikes():
        tokens, doubts = repaired(tokenise(said))
        if meant not in [token.text for token in tokens] or not doubts:
            missed.append((said, meant))
    assert missed == []


def test_modules_are_used() -> None:
    """The pieces that this file names are the ones the extractor runs."""
    parts: list[Any] = [find_clauses, find_places]
    assert all(callable(part) for part in parts)
