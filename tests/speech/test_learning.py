"""What a correction teaches, however it was made, and what it does not."""

from __future__ import annotations

import shutil
import subprocess
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from journal.conversation import Conversation
from journal.intake import Words
from journal.records import Heard, Word
from journal.session import Session
from journal.speech.alike import sound_alike
from journal.speech.moonshine import Moonshine
from journal.speech.readings import learnt_doubts, with_names

MORNING = datetime(2026, 7, 13, 7, 40).astimezone()


def taught(session: Session, *memos: str) -> tuple[tuple[str, str], ...]:
    """What is doubted after these memos, said one after another."""
    talk = Conversation(listening=True)
    for number, text in enumerate(memos):
        session.take_typed(text, MORNING + timedelta(minutes=number), talk=talk)
    return session.vocabulary().doubted


@pytest.mark.parametrize(
    ("memo", "reply", "pair"),
    [
        ("window on wall a is thirteen wide", "make that thirty", ("thirteen", "thirty")),
        ("lake gable centre board long point fifty six", "make that fifty seven", ("fifty six", "fifty seven")),
        ("wall a height one eighteen and a half", "no one eighty and a half", ("eighteen", "eighty")),
        ("wall a length sixteen foot three", "sixty foot three not sixteen", ("sixteen", "sixty")),
        ("window on wall a is fifteen by thirty", "make that fifty by thirty", ("fifteen", "fifty")),
        ("pine is two eighty five a foot", "make that two ninety five", ("two eighty five", "two ninety five")),
        ("received fourteen pine boards", "forty not fourteen", ("fourteen", "forty")),
        ("moisture in the loft floor is sixteen percent", "no sixty", ("sixteen", "sixty")),
        ("rogue gable length thirty foot", "that's the road gable", ("rogue gable", "road gable")),
        ("wall b length ten foot", "no wall d", ("wall b", "wall d")),
    ],
)
def test_a_spoken_correction_teaches(session: Session, memo: str, reply: str, pair: tuple[str, str]) -> None:
    """What was heard is doubted from then on: the words that sound alike, else the whole figure."""
    assert taught(session, memo, reply) == (pair,)


def test_a_correction_by_hand_and_an_answer_teach_the_same(session: Session) -> None:
    """A figure put right in review, its words put right, a "no" answered: one and the same pair."""
    assert taught(session, "window on wall a is thirteen wide", "no", "thirty") == (("thirteen", "thirty"),)
    session.take_typed("door on wall a is thirteen wide", MORNING + timedelta(hours=1))
    session.fix(4, 1, {"figure": "30"})
    session.take_typed("sash on wall a is thirteen wide", MORNING + timedelta(hours=2))
    session.fix_words(5, "sash on wall a is thirty wide")
    assert session.vocabulary().doubted == (("thirteen", "thirty"),)


def test_a_change_of_mind_about_a_name_teaches_nothing(session: Session) -> None:
    """Places and things that do not sound alike were not heard for each other."""
    assert taught(session, "lake gable window width thirty", "that's the road gable", "it's the door") == ()


def test_what_is_undone_is_unlearnt(session: Session) -> None:
    """A correction taken back teaches nothing; brought back, it does again."""
    assert taught(session, "window on wall a is thirteen wide", "make that thirty") != ()
    session.undo()
    assert session.vocabulary().doubted == ()
    session.redo()
    assert session.vocabulary().doubted == (("thirteen", "thirty"),)


def test_what_is_found_right_more_often_than_wrong_is_unlearnt(session: Session) -> None:
    """Asked about twice for nothing, it is asked about no more; put right once more, it is."""
    talk = Conversation(listening=True)
    at = MORNING

    def says(text: str) -> None:
        nonlocal at
        at += timedelta(minutes=1)
        doubts = learnt_doubts(text, session.vocabulary().doubted)
        talk.file(session.store, session._known(), Words(text, doubts=doubts, weighed=True), at, "microphone")

    says("window on wall a is thirteen wide")
    says("make that thirty")
    for wall in "bc":
        says(f"window on wall {wall} is thirteen wide")
        assert talk.asked == "thirteen or thirty?"
        says("thirteen")  # doubted in turn, as it is what was heard wrong
        assert talk.asked == "thirteen: is that right?"
        says("yes")
    assert session.vocabulary().doubted == ()
    says("window on wall d is thirteen wide")
    assert talk.asked is None
    says("make that thirty")
    assert session.vocabulary().doubted == (("thirteen", "thirty"),)


def test_names_are_favoured_and_figures_are_not(session: Session) -> None:
    """An engine that leaned towards "thirty" would hear it where thirteen is said."""
    taught(session, "rogue gable length thirteen foot", "that's the road gable", "make that thirty foot")
    assert session.vocabulary().favoured == ("road gable",)


def test_what_is_no_name_is_taken_for_the_place_that_was_meant(session: Session) -> None:
    """ "Scary wall", put right once, is the skerry wall; "wall b" may yet be said, and is only doubted. Words put right count too."""
    taught(session, "scary wall length thirty foot", "that's the skerry wall", "wall b length ten foot", "no wall d")
    assert session.vocabulary().names == (("scary wall", "skerry wall"),)
    session.take_typed("goblin loft window width forty", MORNING + timedelta(hours=1))
    session.fix_words(5, "bobbin loft window width forty")
    assert session.vocabulary().names == (("goblin loft", "bobbin loft"), ("scary wall", "skerry wall"))


def test_a_name_taken_for_another_shows_what_was_heard() -> None:
    """The doubt is of the lowest kind, and the words as heard stay among the readings."""
    heard = with_names(
        Heard("scary wall height ninety", _words("scary wall height ninety")), [("scary wall", "skerry wall")]
    )
    assert heard.text == "skerry wall height ninety"
    assert heard.readings == ("scary wall height ninety",)
    assert [(d.shown, d.other, d.level) for d in heard.doubts] == [
        ("'skerry' was heard as 'scary' at first", ("scary",), 1)
    ]
    assert with_names(heard, [("scary wall", "skerry wall")]) is heard


def _words(text: str) -> tuple[Word, ...]:
    return tuple(map(Word, text.split()))


def test_a_speakers_mistake_before_and_after_one_correction(
    session: Session, tmp_path: Path, moonshine: Moonshine
) -> None:
    """Flite's awb says "skerry" as the engine hears "scary": put right once by saying so, it is the skerry wall from then on."""
    if shutil.which("flite") is None:
        pytest.skip("flite is not installed")
    talk = Conversation(listening=True)

    def says(text: str, minute: int) -> list[str | None]:
        sound = tmp_path / f"{minute}.wav"
        subprocess.run(["flite", "-voice", "awb", "-t", text, "-o", str(sound)], check=True)
        at = MORNING + timedelta(minutes=minute)
        taken = session.take_sound(sound, lambda: moonshine, said_at=at, talk=talk)
        return [filed.fact.place for filed in taken.memos[0].facts]

    assert says("skerry wall window width forty", 0) == ["scary wall"]
    session.take_typed("that's the skerry wall", MORNING + timedelta(minutes=1), talk=talk)
    assert says("the skerry wall window is sixty high", 2) == ["skerry wall"]


@pytest.mark.parametrize(
    ("text", "doubted"),
    [
        ("window sixteen wide", ["sixteen"]),
        ("sixteen and a half", ["sixteen"]),
        ("long point fifty six", ["fifty six"]),
        ("long point fifty six and a half", []),
        ("one fifty six", []),
        ("the rogue gable", ["rogue gable"]),
        ("rogue wall", []),
    ],
)
def test_where_it_is_doubted(text: str, doubted: list[str]) -> None:
    """A sound-alike in any figure, another figure only where it is the whole of it."""
    pairs = [("sixteen", "sixty"), ("fifty six", "fifty seven"), ("rogue gable", "road gable")]
    assert [text[d.span.start : d.span.end] for d in learnt_doubts(text, pairs)] == doubted


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ("sixteen", "sixty", True), ("thirteen", "thirty", True), ("rogue gable", "road gable", True),
        ("gable", "cable", True), ("sill", "still", True), ("b", "d", True), ("four", "forty", True),
        ("six", "seven", False), ("lake", "road", False), ("window", "door", False), ("a", "b", False),
        ("north", "south", False),
    ],
)  # fmt: skip
def test_words_that_sound_alike(one: str, other: str, alike: bool) -> None:
    """By the sounds of the pronouncing dictionary (CMUdict, as the pocketsphinx package carries it)."""
    assert sound_alike(one, other) is alike
