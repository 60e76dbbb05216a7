"""Taking memos and putting them right, through the one door that commands and screens use."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import pytest

from journal.errors import JobError, NotFound, SoundError, Unreadable
from journal.fields import describe
from journal.records import Heard, Measure, Word
from journal.session import Session
from journal.speech.base import Sound, Vocabulary
from journal.speech.scripted import ScriptedRecogniser

SAMPLES = Path(__file__).parent.parent / "sample_audio"


def at(day: int, clock: str = "07:40") -> datetime:
    return datetime.fromisoformat(f"2026-07-{day:02}T{clock}").astimezone()


def facts(session: Session, memo: int) -> list[str]:
    return [f"{filed.number} {filed.fact.place} {describe(filed.fact)}" for filed in session.store.facts(memo=memo)]


def test_a_typed_memo_is_filed_with_its_facts_and_place(session: Session) -> None:
    """A memo is stored with its words, its facts in the order said, and the place it leaves off at."""
    taken = session.take_typed("Wall A length twenty foot even  height eight foot two", at(13))
    assert taken.memo.number == 1
    assert taken.memo.text == "wall a length twenty foot even height eight foot two"
    assert taken.memo.place == "wall A"
    assert facts(session, 1) == ["1 wall A length 20' 0\"", '2 wall A height 98"']


def test_the_place_is_carried_within_the_day_only(session: Session) -> None:
    """ "Same wall" goes on from the memo before of the same day; a new day starts a new round."""
    session.take_typed("wall a length twenty foot even", at(13))
    assert session.take_typed("same wall height eight foot two", at(13, "07:44")).facts[0].fact.place == "wall A"
    assert session.take_typed("same wall height eight foot two", at(14)).memo.carried_place is None


def test_a_memo_without_words_is_refused(session: Session) -> None:
    """An empty line is no memo, and nothing is stored for it."""
    with pytest.raises(Unreadable, match=r"^a memo without words was not taken"):
        session.take_typed("  ", at(13))
    assert session.store.days() == []


def test_a_mistake_in_the_reader_loses_no_memo(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the reader itself fails, the memo is filed with its words and a problem that says so."""

    def broken(*_: object, **__: object) -> None:
        raise KeyError("subject")

    monkeypatch.setattr("journal.extract.extract", broken)
    taken = session.take_typed("wall a length twenty foot even", at(13))
    assert taken.memo.text == "wall a length twenty foot even"
    assert [problem.message for problem in taken.problems] == [
        "the journal could not read this memo: KeyError: 'subject'"
    ]


def test_a_corrected_figure_replaces_and_undo_brings_back(session: Session) -> None:
    """Fixing keeps what stood before; undo and redo go back and forth; every step is a row of its own."""
    session.take_typed("wall a length twenty foot even", at(13))
    assert describe(session.fix(1, 1, {"figure": "19' 11"}).now) == "length 19' 11\""  # type: ignore[arg-type]
    (now,) = session.store.facts(memo=1)
    assert now.confirmed
    assert [describe(old.fact) for old in now.was] == ["length 20' 0\""]
    session.undo()
    assert facts(session, 1) == ["1 wall A length 20' 0\""]
    session.redo()
    assert facts(session, 1) == ["1 wall A length 19' 11\""]
    session.undo()
    with pytest.raises(NotFound, match=r"^there is nothing to undo"):
        session.undo()


def test_undo_goes_back_step_by_step(session: Session) -> None:
    """Three corrections are undone one by one, last first, down to what was said."""
    session.take_typed("wall a length twenty foot even", at(13))
    session.fix(1, 1, {"figure": "19' 11"})
    session.fix(1, 1, {"place": "wall b"})
    session.strike(1, 1)
    shown = [facts(session, 1)]
    for _ in range(3):
        session.undo()
        shown.append(facts(session, 1))
    assert shown == [[], ["1 wall B length 19' 11\""], ["1 wall A length 19' 11\""], ["1 wall A length 20' 0\""]]


def test_redo_is_gone_after_a_new_correction(session: Session) -> None:
    """What was undone cannot come back over a correction made since."""
    session.take_typed("wall a length twenty foot even", at(13))
    session.fix(1, 1, {"figure": "19' 11"})
    session.undo()
    session.fix(1, 1, {"figure": "19' 10"})
    with pytest.raises(NotFound, match=r"^there is nothing to redo"):
        session.redo()


def test_words_put_right_are_read_anew(session: Session) -> None:
    """Corrected words give their own facts; what was confirmed by hand stays; undo restores words and facts."""
    session.take_typed("wall a length twenty foot even height eight foot two", at(13))
    session.fix(1, 1, {"figure": "19' 11"})
    session.fix_words(1, "wall a length twenty foot even height nine foot two")
    assert facts(session, 1) == ["1 wall A length 19' 11\"", '2 wall A height 110"']
    session.undo()
    memo = session.store.memo(1)
    assert memo is not None
    assert memo.text == "wall a length twenty foot even height eight foot two"
    assert facts(session, 1) == ["1 wall A length 19' 11\"", '2 wall A height 98"']


def test_a_fact_that_was_missed_is_added(session: Session) -> None:
    """A fact can be added to a memo by hand, and what it lacks is said."""
    session.take_typed("testing testing one two three", at(13))
    session.add(1, "measure", {"dimension": "height", "figure": "98", "place": "wall a"})
    assert facts(session, 1) == ['1 wall A height 98"']
    with pytest.raises(Unreadable, match=r"^a measure needs figure\n"):
        session.add(1, "measure", {"dimension": "height"})
    session.undo()
    assert facts(session, 1) == []


def test_a_later_memo_replaces_an_adding_fact(session: Session) -> None:
    """ "Friday was six and a half not six and a quarter" replaces the hours of that Friday instead of adding to them."""
    session.take_typed("six and a quarter hours boarding the lake gable", at(17, "16:31"))
    session.take_typed("friday on the lake gable was six and a half hours not six and a quarter", at(20))
    (hours,) = session.store.facts(kinds=("hours",))
    assert (hours.memo, hours.fact.hours) == (2, 6.5)  # type: ignore[union-attr]
    assert [old.memo for old in hours.was] == [1]
    with pytest.raises(NotFound, match=r"^memo 1 fact 1 was replaced by memo 2 fact 1\nPut that one right"):
        session.fix(1, 1, {"figure": "6"})


def test_a_take_back_that_finds_nothing_is_a_problem(session: Session) -> None:
    """Taking back what is not on file is told, and the new figure is kept."""
    taken = session.take_typed("friday on the lake gable was six and a half hours not six and a quarter", at(20))
    assert [problem.message for problem in taken.problems] == [
        "this puts right something said before (hours at lake gable), and nothing was found that it could be"
    ]
    assert len(taken.facts) == 1


def test_a_place_heard_wrong_is_merged_for_good(session: Session) -> None:
    """Merging a misheard place moves its facts, and the next memo that says it is filed under the right one."""
    session.take_typed("cake gable base width sixteen foot even", at(13))
    place = session.store.places()[0]
    session.rename_place(place, "lake gable")
    assert session.store.places() == ["lake gable"]
    assert session.place(place) == "lake gable"


def test_preview_shows_before_and_after_and_stores_nothing(session: Session) -> None:
    """What a correction would do to the net area is shown; the file is as it was."""
    session.take_typed("wall a length twenty foot even height eight foot two", at(13))
    preview = session.preview(1, 1, {"figure": "10'"})
    assert preview is not None
    before, after = (answers.value("net wall area") for answers in (preview.before, preview.after))
    assert before is not None
    assert after is not None
    assert (before.value, after.value) == (163.3, 81.7)
    assert facts(session, 1)[0] == "1 wall A length 20' 0\""


@pytest.mark.parametrize(
    ("memo", "fact", "message"),
    [
        (9, 1, "there is no memo 9 in this journal\njournal day lists the memos of a day."),
        (1, 4, "memo 1 has no fact 4\nIt has one."),
    ],
)
def test_what_is_not_there_is_said(session: Session, memo: int, fact: int, message: str) -> None:
    """A memo or fact that is not there is named, with what there is."""
    session.take_typed("wall a length twenty foot even", at(13))
    with pytest.raises(NotFound) as caught:
        session.fix(memo, fact, {"figure": "1"})
    assert str(caught.value) == message


def test_two_windows_see_each_others_places(session: Session, job: Path) -> None:
    """A correction made in another window is known when the next memo is read."""
    session.take_typed("wall a length twenty foot even", at(13))
    with Session.open(job) as other:
        other.take_typed("lake gable base width sixteen foot even", at(13, "07:42"))
    assert "lake gable" in session.store.places()
    taken = session.take_typed("same gable slope eight twelve", at(13, "07:44"))
    assert taken.memo.carried_place == "lake gable"


# ---- recordings ----------------------------------------------------------------------------------------------------


class Deaf:
    """An engine that never hears speech."""

    name, version = "deaf", "1"

    def listen(self, sound: Sound, vocabulary: Vocabulary = Vocabulary()) -> Heard:  # noqa: B008
        return Heard("")


def sample() -> Path:
    return sorted(SAMPLES.glob("*.flac"))[0]


def test_a_recording_is_kept_before_it_is_heard(session: Session, job: Path) -> None:
    """The sound lies in the job by the hash of its bytes, the memo names it, and taking it twice makes no double."""
    taken = session.take_sound(sample(), ScriptedRecogniser)
    (memo,) = taken.memos
    assert memo.memo.recording is not None
    assert (job / memo.memo.recording).read_bytes() == sample().read_bytes()
    assert memo.memo.text == sample().with_suffix(".txt").read_text(encoding="utf-8").strip().lower()
    again = session.take_sound(sample(), ScriptedRecogniser)
    assert again.known_already
    assert [one.memo.number for one in again.memos] == [1]


def test_sound_without_speech_stays_on_file(session: Session, job: Path) -> None:
    """Where nothing is heard the message says where the sound is kept, and it can be taken again later."""
    with pytest.raises(SoundError) as caught:
        session.take_sound(sample(), Deaf)
    kept = next((job / "recordings").iterdir())
    assert caught.value.message == f"{sample().name}: no speech was heard in it"
    assert caught.value.hint == (
        f"The sound is kept as recordings/{kept.name}. Say it again nearer to the microphone, or type it: --say '…'"
    )
    assert session.take_sound(sample(), ScriptedRecogniser).memos[0].memo.number == 1


def test_noise_that_drowns_a_memo_is_told(session: Session, tmp_path: Path) -> None:
    """What was heard in it is filed, with what to do."""
    import numpy as np

    from journal.speech.base import Sound
    from journal.speech.sound import load_sound, save_sound

    plain = load_sound(sample()).samples
    noise = np.random.default_rng(5).normal(size=len(plain)).astype(np.float32)
    save_sound(Sound(plain + 0.15 * noise), tmp_path / "memo.wav")
    (tmp_path / "memo.txt").write_text("wall a height ninety")
    taken = session.take_sound(tmp_path / "memo.wav", ScriptedRecogniser)
    assert len(taken.memos) == 1
    shown = "noise nearly drowns what is said: step away from it, or hold the phone closer, and say it again where it matters"
    assert taken.note == shown
    assert session.take_sound(sample(), ScriptedRecogniser).note == ""


def test_a_file_that_is_not_there_is_said(session: Session, tmp_path: Path) -> None:
    """A missing file is named with what to check."""
    with pytest.raises(NotFound) as caught:
        session.take_sound(tmp_path / "gone.wav", ScriptedRecogniser)
    assert (
        str(caught.value)
        == f"{tmp_path / 'gone.wav'} cannot be read: No such file or directory\nCheck the name, then take it again."
    )


def test_a_full_disk_leaves_no_half_copy(session: Session, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the copy fails nothing is filed, the message says why, and no part of a file is taken for one."""
    import shutil

    def full(_from: Path, to: Path) -> None:
        to.write_bytes(b"half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", full)
    with pytest.raises(JobError, match=r"could not be copied to .*: No space left on device\nMake room"):
        session.take_sound(sample(), ScriptedRecogniser)
    assert [path.suffix for path in (job / "recordings").iterdir()] == [".part"]
    assert session.store.days() == []


def test_what_was_put_right_is_known_to_the_engines(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """Places heard before are favoured, and a stretch of words put right by hand is remembered; it can be turned off."""
    session.take_typed("lake gable base width sixteen foot even", at(13))
    session.fix_words(1, "lake gable base width sixty foot even")
    vocabulary = session.vocabulary()
    assert "lake gable" in vocabulary.favoured
    assert vocabulary.doubted == (("sixteen", "sixty"),)
    monkeypatch.setenv("JOURNAL_LEARNING", "off")
    assert session.vocabulary() == Vocabulary()


def test_assumptions_are_kept_and_refused_in_words(session: Session) -> None:
    """What quantities take for granted is set by name; what would not do is said with what would."""
    name = "siding waste" if "siding waste" in _assumption_names() else next(iter(_assumption_names()))
    with pytest.raises(NotFound, match=r"^nothing is assumed under 'no such thing'"):
        session.assume("no such thing", "1")
    with pytest.raises(Unreadable, match=f"^'purple' will not do for {name}"):
        session.assume(name, "purple")


def _assumption_names() -> list[str]:
    from journal.quantities.base import listed

    return [known.name for known in listed()]


def test_facts_survive_json(session: Session) -> None:
    """A fact printed as JSON reads back as the same fact."""
    from journal.interchange import fact_from_json, fact_to_json

    taken = session.take_typed("lake wall is a strong three eighths out of plumb in eight foot", at(30))
    for filed in taken.facts:
        assert fact_from_json(json.loads(json.dumps(fact_to_json(filed.fact)))) == filed.fact
    assert isinstance(taken.facts[0].fact, Measure)


def test_a_long_recording_is_cut_at_its_pauses(session: Session, tmp_path: Path) -> None:
    """Two memos said into one long recording are filed as two, the second by when it was said."""
    import numpy as np

    from journal.speech.base import SAMPLE_RATE
    from journal.speech.sound import load_sound, save_sound

    parts = [load_sound(path).samples for path in sorted(SAMPLES.glob("*.flac"))[1:3]]
    pause = np.zeros(9 * SAMPLE_RATE, np.float32)
    path = tmp_path / "2026-07-13_0740.flac"
    save_sound(Sound(np.concatenate([parts[0], pause, parts[1], pause])), path)

    class Counting:
        name, version = "counting", "1"
        heard = 0

        def listen(self, sound: Sound, vocabulary: Vocabulary = Vocabulary()) -> Heard:  # noqa: B008
            self.heard += 1
            return Heard(f"wall a height ninety {('one', 'two', 'three')[self.heard - 1]}")

    taken = session.take_sound(path, Counting)
    assert [memo.memo.text for memo in taken.memos] == ["wall a height ninety one", "wall a height ninety two"]
    apart = taken.memos[1].memo.said_at - taken.memos[0].memo.said_at
    assert len(parts[0]) / SAMPLE_RATE < apart.total_seconds() < len(parts[0]) / SAMPLE_RATE + 10


def test_no_microphone_is_said(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a device `journal take` says so in one message with the next step, and exits 1."""
    import miniaudio
    from click.testing import CliRunner

    from journal.cli import main

    def absent(**_: object) -> None:
        raise miniaudio.MiniaudioError("no device")

    monkeypatch.setattr(miniaudio, "CaptureDevice", absent)
    result = CliRunner().invoke(main, ["--job", str(job), "take"])
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        "no microphone was found\n"
        "Plug one in, or take recordings from a phone: journal take FILE. Or type, a memo a line: journal take --type\n"
    )


def test_the_reading_that_makes_sense_is_taken_and_doubted(session: Session) -> None:
    """Of two readings the one with a clean figure is taken; the words in which it differs carry a doubt with what was heard."""
    session.take_typed("wall a length twenty foot even", at(13))
    best = "window rough opening on wall a thirty and a half wide and four key two and a quarter high"
    other = "window rough opening on wall a thirty and a half wide and forty two and a quarter high"

    class Unsure:
        name, version = "unsure", "1"

        def listen(self, sound: Sound, vocabulary: Vocabulary = Vocabulary()) -> Heard:  # noqa: B008
            words = tuple(Word(word) for word in best.split())
            return Heard(best, words, readings=(other,), engine="unsure", weighed=True)

    (taken,) = session.take_sound(sample(), Unsure, said_at=at(13, "07:50")).memos
    assert taken.memo.text == other
    assert best in taken.memo.readings
    height = next(filed.fact for filed in taken.facts if "height" in getattr(filed.fact, "dimension", ""))
    assert describe(height) == 'window rough opening height 42 1/4"'
    assert [doubt.reason for doubt in height.doubts] == ["reading"]
