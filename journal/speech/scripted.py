"""An engine that reads the text beside a recording instead of listening: for demos, tests and memos typed elsewhere."""

from __future__ import annotations

from journal.errors import EngineError
from journal.records import Heard, Word
from journal.speech.base import NO_VOCABULARY, Sound, Vocabulary
from journal.speech.spoken_form import spoken_words


class ScriptedRecogniser:
    """Hears `memo.flac` as the text of `memo.txt`. Words are spread evenly over the sound; an empty text is no speech."""

    name = "scripted"
    version = "1"

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """The text beside the recording in the journal's form. EngineError where there is none."""
        if sound.path is None:
            raise EngineError("the scripted engine needs a recording with a text beside it", hint="Give a file.")
        script = sound.path.with_suffix(".txt")
        try:
            text = script.read_text(encoding="utf-8")
        except OSError:
            raise EngineError(
                f"{script} is missing: the scripted engine reads the text beside a recording",
                hint=f"Write what is said in {sound.path.name} there, or choose another engine with --engine.",
            ) from None
        spoken = spoken_words(text.split())
        step = sound.seconds / max(len(spoken), 1)
        words = tuple(Word(s.word, round(i * step, 3), round((i + 1) * step, 3), 1.0) for i, s in enumerate(spoken))
        heard = " ".join(word.word for word in words)
        return Heard(heard, words, engine=self.name, engine_version=self.version, seconds=sound.seconds)
