"""Memos without hands: the microphone is listened to, each memo is said back, and what is doubted is asked for again."""

from __future__ import annotations

import shutil
import time
from collections.abc import Callable
from contextlib import ExitStack
from typing import TYPE_CHECKING

from journal.cli.common import note
from journal.cli.screen_line import ScreenLine, stop_keys
from journal.cli.talking import answer_lines
from journal.conversation import Conversation, StopListening
from journal.errors import EngineError, JobError, JournalError, SoundError
from journal.hearing import TakenSound
from journal.recordings import FOLDER
from journal.session import Session

if TYPE_CHECKING:
    from pathlib import Path

    from journal.speech.aloud import Voice
    from journal.speech.base import Partial, Recogniser
    from journal.speech.recorder import Recorder, Spoken


class HandsFree:
    """Takes memos from the microphone until told to stop by a key or by saying so."""

    def __init__(
        self,
        session: Session,
        engine: Callable[[], Recogniser],
        show: Callable[[TakenSound], None],
        tell: Callable[[JournalError], None],
        voice: Voice | None = None,
    ) -> None:
        self._session = session
        self._engine = engine
        self._show = show
        self._tell = tell
        self._voice = voice
        self._talk = Conversation(listening=True)
        self._ready: Recogniser | None = None
        self._line = ScreenLine(self._follow, width=shutil.get_terminal_size().columns)
        self._asked_at = 0.0

    def listen(self, pause_seconds: float) -> None:
        """Every memo that is said, taken at its pause. EngineError and SoundError where it cannot go on."""
        from journal.speech.microphone import open_microphone
        from journal.speech.recorder import Recorder

        recordings = self._session.folder / FOLDER
        self._take_left(recordings)
        with ExitStack() as stack:
            microphone = stack.enter_context(open_microphone())
            pressed = stack.enter_context(stop_keys())
            recorder = stack.enter_context(
                Recorder(microphone, recordings, pause_seconds=pause_seconds, hearing=self._line)
            )
            note(
                f"Listening. A pause of {pause_seconds:g} s ends a memo; say 'stop listening', or press q or Ctrl-C to stop."
            )
            self._ready = self._engine()
            for spoken in recorder.memos(pressed):
                try:
                    self._take(spoken, recorder)
                except StopListening:
                    with self._line.away():
                        note("stopped; what was said is kept")
                    return
        with self._line.away():
            note("stopped; what was said is kept")

    def _take_left(self, recordings: Path) -> None:
        """Memos that were said and not filed when the journal last stopped without warning."""
        from journal.speech.memo_files import memo_filed, memos_left

        for path in memos_left(recordings):
            note(f"{path.name} was being said or heard when the journal last stopped; it is taken now")
            try:
                self._show(self._session.take_sound(path, self._engine, source="microphone"))
            except (EngineError, JobError):
                raise
            except JournalError as error:
                self._tell(error)
            memo_filed(path)

    def _take(self, spoken: Spoken, recorder: Recorder) -> None:
        """One memo: filed, shown, said back. It is left for the next start where the engine or the job fails."""
        from journal.speech.memo_files import memo_filed

        path = spoken.sound.path
        assert path is not None  # the recorder wrote it
        if spoken.over:
            with self._line.away():
                note(f"you spoke while I did, and it cannot be told apart: say it again ({path.name} is kept)")
            self._say(recorder, ["say that again"])
            return
        if spoken.began < self._asked_at:
            self._talk.nothing_asked()
        try:
            taken = self._session.take_sound(path, self._engine, source="microphone", talk=self._talk)
        except StopListening:
            memo_filed(path)
            raise
        except SoundError as error:
            memo_filed(path)
            with self._line.away():
                self._tell(error)
            return
        memo_filed(path)
        self._asked_at = time.monotonic()
        with self._line.away():
            self._show(taken)
            for line in answer_lines(self._talk):
                note(line)
        self._say_aloud(recorder)

    def _say_aloud(self, recorder: Recorder) -> None:
        """What was shown, spoken; not while the builder speaks, whose words go first."""
        self._say(recorder, [*self._talk.told, *([self._talk.asked] if self._talk.asked else [])])

    def _say(self, recorder: Recorder, sentences: list[str]) -> None:
        if self._voice is None or not sentences:
            return
        from journal.speech.aloud import play

        try:
            sound = self._voice.sound(". ".join(sentences))
            if recorder.speaking:
                return
            with recorder.deaf(sound) as somebody_speaks:
                play(sound, somebody_speaks)
        except SoundError as error:
            self._voice = None
            with self._line.away():
                note(f"{error.message}; it goes on without a voice")
                note(error.hint)
        self._asked_at = time.monotonic()

    def _follow(self) -> Partial | None:
        from journal.speech.base import LiveRecogniser

        return self._ready.follow() if isinstance(self._ready, LiveRecogniser) else None
