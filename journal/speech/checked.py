"""An engine whose figures a second one checks: other figures, earlier corrections and shaky readings become doubts."""

from __future__ import annotations

from dataclasses import replace

from journal.records import Doubt, Heard
from journal.speech.base import NO_VOCABULARY, Recogniser, Sound, Vocabulary
from journal.speech.readings import figure_doubts, learnt_doubts
from journal.speech.second_opinion import DROWNED_BELOW_DB, NOISY_BELOW_DB, SecondOpinion, speech_above_noise

_MOST_READINGS = 8


class CheckedRecogniser:
    """An engine and the second opinion on what it hears. Its name is the engine's own."""

    def __init__(self, engine: Recogniser, opinion: SecondOpinion | None = None) -> None:
        self.engine = engine
        self.opinion = opinion or SecondOpinion()
        self.name = engine.name
        self.version = f"{engine.version}, checked by {self.opinion.name} {self.opinion.version}"

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What the engine hears, with word times, and doubts where the second engine hears another figure.

        In noise only another figure counts, not a missing one, and for less; where noise drowns the speech the second engine
        is not asked.
        """
        heard = self.engine.listen(sound, vocabulary)
        if not heard.text:
            return heard
        doubts = [*heard.doubts, *learnt_doubts(heard.text, vocabulary.doubted)]
        readings = dict.fromkeys(heard.readings)
        clear_by = speech_above_noise(sound.samples)
        if clear_by >= DROWNED_BELOW_DB:
            quiet = clear_by >= NOISY_BELOW_DB
            other = self.opinion.words(sound)
            second = figure_doubts(heard.text, [other], reason="second opinion", level=2 if quiet else 1, lacking=quiet)
            doubts += second
            readings.update(dict.fromkeys(_with_other_figures(heard.text, second)))
        readings.pop(heard.text, None)
        words = (
            heard.words
            if any(word.start is not None for word in heard.words)
            else self.opinion.timed(sound, heard.words)
        )
        return replace(
            heard,
            words=words,
            doubts=tuple(_one_a_stretch(doubts)),
            readings=tuple(readings)[:_MOST_READINGS],
            engine_version=self.version,
            weighed=True,
        )


def _with_other_figures(text: str, doubts: list[Doubt]) -> list[str]:
    """The text with each doubted figure as the second engine heard it, and with all of them."""
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
