"""An engine whose figures are weighed: all that speaks against one, and earlier corrections, make doubts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol, runtime_checkable

from journal.records import Doubt, Heard, Word
from journal.speech.base import NO_VOCABULARY, Recogniser, Sound, Vocabulary
from journal.speech.doubting import doubts_of, figures
from journal.speech.readings import figures_missed, learnt_doubts
from journal.speech.second_opinion import DROWNED_BELOW_DB, NOISY_BELOW_DB, speech_above_noise

_MOST_READINGS = 8


class Opinion(Protocol):
    """Another engine, asked for its words and for when each word was said."""

    name: str
    version: str

    def words(self, sound: Sound) -> str:
        """What it makes of the sound."""
        ...

    def timed(self, sound: Sound, words: Sequence[Word]) -> tuple[Word, ...]:
        """The words with their times."""
        ...


@runtime_checkable
class Foresighted(Protocol):
    """An opinion that can be formed while something else is done."""

    def expect(self, sound: Sound) -> None:
        """Let it begin with this sound."""
        ...


class CheckedRecogniser:
    """An engine and what weighs its figures. Its name is the engine's own. Without a second opinion the rest still counts."""

    def __init__(self, engine: Recogniser, opinion: Opinion | None) -> None:
        self.engine = engine
        self.opinion = opinion
        self.name = engine.name
        self.version = f"{engine.version}, checked by {opinion.name} {opinion.version}" if opinion else engine.version

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What the engine hears, with word times, and a doubt for each figure that is likely wrong.

        The second engine is not asked where noise drowns the speech.
        """
        clear_by = speech_above_noise(sound.samples)
        asked = self.opinion if clear_by >= DROWNED_BELOW_DB else None
        if isinstance(asked, Foresighted):
            asked.expect(sound)
        heard = self.engine.listen(sound, vocabulary)
        if not heard.text:
            return heard
        second = asked.words(sound) if asked else None
        doubts = doubts_of(heard, figures(heard, second, clear_by))
        readings = dict.fromkeys((*heard.readings, *_with_other_figures(heard.text, doubts)))
        readings.pop(heard.text, None)
        doubts = [*learnt_doubts(heard.text, vocabulary.doubted), *doubts]
        if second is not None and clear_by >= NOISY_BELOW_DB:
            doubts += figures_missed(heard.text, second)
        words = heard.words
        if self.opinion and not any(word.start is not None for word in words):
            words = self.opinion.timed(sound, words)
        return replace(
            heard,
            words=words,
            doubts=tuple(_one_a_stretch(doubts)),
            readings=tuple(readings)[:_MOST_READINGS],
            engine_version=self.version,
            weighed=True,
        )


def _with_other_figures(text: str, doubts: list[Doubt]) -> list[str]:
    """The text with each doubted figure as it was heard otherwise, and with all of them."""
    singly, all_of_them = [], text
    for doubt in sorted(doubts, key=lambda d: -d.span.start):
        start, end = doubt.span
        if doubt.other and doubt.other[0]:
            singly.append(f"{text[:start]}{doubt.other[0]}{text[end:]}")
            all_of_them = f"{all_of_them[:start]}{doubt.other[0]}{all_of_them[end:]}"
    return [*singly, all_of_them]


def _one_a_stretch(doubts: list[Doubt]) -> list[Doubt]:
    """Doubts of the same words put together: the first reason, every other reading."""
    merged: dict[tuple[int, int], Doubt] = {}
    for doubt in doubts:
        before = merged.get(doubt.span)
        if before is None:
            merged[doubt.span] = doubt
        else:
            other = tuple(dict.fromkeys((*before.other, *doubt.other)))
            merged[doubt.span] = replace(before, other=other, level=max(before.level, doubt.level))
    return list(merged.values())
