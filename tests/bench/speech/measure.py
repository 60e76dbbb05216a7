"""How well the engines hear: words wrong, figures right, wrong figures without a doubt, right figures with one.

    python measure.py SOUNDS --memos MEMOS.jsonl [--engines moonshine,unchecked,pocketsphinx,vosk:FOLDER] [--voices a,b]
                      [--limit N] [--show]

SOUNDS is what voices.py wrote (SOUNDS/VOICE/ID.wav). A figure is a stretch of number words; it is right where the same number
words stand in the same place of what was heard, and doubted where a doubt touches that place.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from journal.records import Heard
from journal.speech.base import Sound
from journal.speech.readings import as_figures, bare_figure, figure_stretches, partners, region_of
from journal.speech.sound import load_sound

Listen = Callable[[Sound], Heard]


@dataclass(slots=True)
class Tally:
    """What was counted over some memos."""

    words: int = 0
    wrong_words: int = 0
    figures: int = 0
    right: int = 0
    wrong_undoubted: int = 0
    right_doubted: int = 0
    empty: int = 0
    seconds: float = 0.0
    taken: float = 0.0

    def add(self, said: str, heard: Heard) -> None:
        """Count one memo; what sounds like a number beside a figure counts as that number, as the reader takes it."""
        words, there = said.split(), heard.text.split()
        self.words += len(words)
        self.wrong_words += word_errors(words, there)
        self.empty += not there
        there = as_figures(there)
        together = partners(words, there)
        for first, last in figure_stretches(words):
            start, end = region_of(together, len(there), first, last)
            right = bare_figure(words[first:last]) == bare_figure(there[start:end])
            doubted = any(_touches(there, start, end, doubt.span.start, doubt.span.end) for doubt in heard.doubts)
            self.figures += 1
            self.right += right
            self.right_doubted += right and doubted
            self.wrong_undoubted += not right and not doubted

    def row(self, name: str) -> str:
        """One line of the table."""
        share = [100 * n / max(1, self.figures) for n in (self.right, self.wrong_undoubted, self.right_doubted)]
        return (
            f"{name:34} {100 * self.wrong_words / max(1, self.words):6.1f} {share[0]:8.1f} {share[1]:11.1f} {share[2]:9.1f}"
            f" {self.empty:6d} {self.taken / max(self.seconds, 1e-9):7.2f} {self.figures:8d}"
        )


HEADING = f"{'engine, voice':34} {'words':>6} {'figures':>8} {'wrong and':>11} {'right and':>9} {'empty':>6} {'real':>7} {'figures':>8}\n{'':34} {'wrong%':>6} {'right%':>8} {'undoubted%':>11} {'doubted%':>9} {'':>6} {'time':>7} {'in all':>8}"  # fmt: skip


def word_errors(said: list[str], heard: list[str]) -> int:
    """Words to change, drop or add to get from one to the other."""
    row = list(range(len(heard) + 1))
    for i, word in enumerate(said, 1):
        before, row[0] = row[:], i
        for j, other in enumerate(heard, 1):
            row[j] = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (word != other))
    return row[-1]


def _touches(words: list[str], start: int, end: int, first: int, last: int) -> bool:
    """Whether characters `first` to `last` of the text overlap the words from `start` to `end`."""
    at = sum(len(word) + 1 for word in words[:start])
    upto = at + len(" ".join(words[start:end]))
    return first <= upto and last >= at


def engine(name: str) -> Listen:
    """The engine of a name on the command line."""
    if name == "pocketsphinx":
        from journal.speech.second_opinion import SecondOpinion

        second = SecondOpinion()
        return lambda sound: Heard(second.words(sound))
    if name.startswith("vosk:"):
        from journal.speech.vosk_engine import VoskEngine

        return VoskEngine(Path(name.removeprefix("vosk:"))).listen
    from journal.speech.choose import choose_engine

    return choose_engine(
        "moonshine", adapter="plain" not in name, second_opinion="unchecked" not in name, progress=print
    ).listen


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sounds", type=Path)
    parser.add_argument("--memos", type=Path, required=True)
    parser.add_argument("--engines", default="moonshine")
    parser.add_argument("--voices", default="")
    parser.add_argument("--limit", type=int)
    parser.add_argument("--show", action="store_true")
    given = parser.parse_args()
    memos = [json.loads(line) for line in given.memos.read_text(encoding="utf-8").splitlines()][: given.limit]
    voices = given.voices.split(",") if given.voices else sorted(p.name for p in given.sounds.iterdir() if p.is_dir())
    print(HEADING)
    for name in given.engines.split(","):
        listen = engine(name)
        for voice in voices:
            tally = Tally()
            for memo in memos:
                sound = load_sound(given.sounds / voice / f"{memo['id']}.wav")
                began = time.perf_counter()
                heard = listen(sound)
                tally.taken += time.perf_counter() - began
                tally.seconds += sound.seconds
                tally.add(memo["text"], heard)
                if given.show and heard.text != memo["text"]:
                    doubts = "; ".join(f"{doubt.reason}: {doubt.shown}" for doubt in heard.doubts)
                    print(f"  said  {memo['text']}\n  heard {heard.text}\n  {doubts}", file=sys.stderr)
            print(tally.row(f"{name}, {voice}"), flush=True)


if __name__ == "__main__":
    main()
