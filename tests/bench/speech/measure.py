"""How well the engines hear, in the figures that count: right ones, wrong ones without a doubt, right ones with one.

    python measure.py SOUNDS [SOUNDS ...] --memos MEMOS.jsonl [--engines moonshine,plain,unchecked,pocketsphinx,vosk:FOLDER]
                      [--model tiny] [--voices a,b] [--keep FOLDER [--kept-only]] [--limit N] [--show]
    python measure.py --people --nothing

SOUNDS is what voices.py wrote (SOUNDS/VOICE/ID.wav and SOUNDS/VOICE+NOISE/ID.wav). "plain" is the default engine without its
adapter, "unchecked" the one without a second opinion; --model names its model, if not the better one here. A figure is a
stretch of number words; it is right where the same number words stand in the same place of what was heard, and doubted where
a doubt touches that place. The default engine's readings are chosen among as `journal take` does in an empty job. --people
hears the recordings of Debian's pocketsphinx-testdata, --nothing silence, hum, hammer, wind, grinder and music. With --keep
what the default engine and the second one made of a sound is kept, and no times are printed.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

import numpy as np
from kept import Kept, KeptEngine, KeptOpinion

from journal.records import NOTHING_KNOWN, Heard
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.readings import as_figures, bare_figure, figure_stretches, most_sensible, partners, region_of
from journal.speech.sound import load_sound
from journal.speech.spoken_form import spoken_text
from journal.worth import worth_of

Listen = Callable[[Sound], Heard]
PEOPLE = Path("/usr/share/pocketsphinx/test/data")
PEOPLE_SAY = {
    "numbers.raw": "thirty three four six ninety two",
    "goforward.raw": "go forward ten meters",
    "something.raw": "go somewhere and do something",
}


@dataclass(slots=True)
class Tally:
    """What was counted over some memos."""

    words: int = 0
    wrong_words: int = 0
    figures: int = 0
    right: int = 0
    wrong_undoubted: int = 0
    right_doubted: int = 0
    memos: int = 0
    empty: int = 0
    seconds: float = 0.0
    taken: float = 0.0

    def add(self, said: str, heard: Heard) -> None:
        """Count one memo; what sounds like a number beside a figure counts as that number, as the reader takes it."""
        words, there = said.split(), heard.text.split()
        self.memos += 1
        self.words += len(words)
        self.wrong_words += word_errors(words, there)
        self.empty += not there
        there, words = as_figures(there), as_figures(words)
        together = partners(words, there)
        for first, last in figure_stretches(words):
            start, end = region_of(together, len(there), first, last)
            right = bare_figure(words[first:last]) == bare_figure(there[start:end])
            doubted = any(_touches(there, start, end, doubt.span.start, doubt.span.end) for doubt in heard.doubts)
            self.figures += 1
            self.right += right
            self.right_doubted += right and doubted
            self.wrong_undoubted += not right and not doubted

    def share(self, count: int) -> str:
        return f"{100 * count / self.figures:.1f} %" if self.figures else "-"


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


def engine(name: str, kept: Kept | None, model: str | None) -> Listen:
    """The engine of a name on the command line; `model` is the default engine's."""
    if name == "pocketsphinx":
        from journal.speech.second_opinion import SecondOpinion

        second = SecondOpinion()
        return lambda sound: Heard(second.words(sound))
    if name.startswith("vosk:"):
        from journal.speech.vosk_engine import VoskEngine

        return VoskEngine(Path(name.removeprefix("vosk:"))).listen
    from journal.speech.choose import choose_engine

    chosen: Any = choose_engine("moonshine", adapter=name != "plain", second_opinion=name != "unchecked", model=model)
    if kept is not None:
        chosen.engine = KeptEngine(chosen.engine, kept)
        chosen.opinion = chosen.opinion and KeptOpinion(chosen.opinion, kept)
    worth = worth_of(NOTHING_KNOWN, datetime(2026, 8, 4, 10).astimezone())

    def listen(sound: Sound) -> Heard:
        return most_sensible(chosen.listen(sound), worth)

    listen.asked = chosen  # type: ignore[attr-defined]
    return listen


def table(columns: dict[str, dict[str, Tally]], *, timed: bool) -> str:
    """The lines of the goal, a column a voice: `columns` holds for each voice its tallies in quiet and in noise."""
    lines = [["", *columns, "goal"]]

    def line(name: str, goal: str, cell: Callable[[dict[str, Tally]], str]) -> None:
        lines.append([name, *(cell(of) for of in columns.values()), goal])

    nothing = Tally()
    for kind in ("quiet", "noise"):
        line(f"figures, {kind}", "", lambda of, k=kind: str(of.get(k, nothing).figures))
    line("figures right, quiet", "99 %", lambda of: of["quiet"].share(of["quiet"].right) if "quiet" in of else "-")
    line("figures right, noise", "97 %", lambda of: of["noise"].share(of["noise"].right) if "noise" in of else "-")

    def both(count: Callable[[Tally], int]) -> Callable[[dict[str, Tally]], str]:
        return lambda of: " / ".join(
            of[kind].share(count(of[kind])) if kind in of else "-" for kind in ("quiet", "noise")
        )

    line("wrong without a doubt", "0.3 % / 1 %", both(lambda tally: tally.wrong_undoubted))
    line("right with a doubt", "5 % / 12 %", both(lambda tally: tally.right_doubted))
    line(
        "words wrong",
        "4 % / -",
        lambda of: " / ".join(
            f"{100 * of[k].wrong_words / max(1, of[k].words):.1f} %" if k in of else "-" for k in ("quiet", "noise")
        ),
    )
    line("memos that came back empty", "0", lambda of: str(sum(tally.empty for tally in of.values())))
    if timed:
        line(
            "processor time for a second of sound",
            "0.25",
            lambda of: f"{sum(t.taken for t in of.values()) / max(1e-9, sum(t.seconds for t in of.values())):.2f}",
        )
    wide = [max(len(row[at]) for row in lines) for at in range(len(lines[0]))]
    rows = ["| " + " | ".join(cell.ljust(width) for cell, width in zip(row, wide, strict=True)) + " |" for row in lines]
    rows.insert(1, "| " + " | ".join("-" * width for width in wide) + " |")
    return "\n".join(rows)


def people() -> Iterator[tuple[str, Sound, str]]:
    """The recordings of people, each with its name and what was said."""
    for listing in ("cards/cards.transcription", "librivox/transcription"):
        for line in (PEOPLE / listing).read_text(encoding="utf-8").splitlines():
            if said := re.fullmatch(r"<s> (.*?)\s*</s> \((.*)\)", line.strip()):
                # the reader says "a more amiable"; the transcription stammers
                text = said[1].replace("a more a amiable", "a more amiable")
                yield said[2], load_sound((PEOPLE / listing).parent / f"{said[2]}.wav"), spoken_text(text)
    for name, text in PEOPLE_SAY.items():
        pcm = np.fromfile(PEOPLE / name, "<i2").astype(np.float32) / 32768
        yield name, Sound(pcm), spoken_text(text)


def nothing_said() -> Iterator[tuple[str, Sound]]:
    """Ten seconds each of silence, the noises of a site, and music: a tune on a plucked string over two held notes."""
    from voices import NOISES

    size = 10 * SAMPLE_RATE
    yield "silence", Sound(np.zeros(size, np.float32))
    for name, noise in NOISES.items():
        for seed, level in ((1, 0.05), (2, 0.3)):
            y = noise(size, np.random.default_rng(seed))
            yield f"{name} {level}", Sound((y / np.abs(y).max() * level).astype(np.float32))
    t = np.arange(size) / SAMPLE_RATE
    music = 0.2 * np.sin(2 * np.pi * 196 * t) + 0.2 * np.sin(2 * np.pi * 247 * t)
    for beat, step in enumerate((0, 4, 7, 4, 9, 7, 5, 4, 2, 0, 4, 7, 12, 9, 7, 4, 5, 2, 0, 0)):
        at = t - beat * 0.5
        pitch = 262 * 2 ** (step / 12)
        for overtone in (1, 2, 3, 4):
            music += (
                (at >= 0) * np.exp(-np.maximum(at, 0) / 0.25) / overtone * np.sin(2 * np.pi * overtone * pitch * at)
            )
    yield "music", Sound((music / np.abs(music).max() * 0.3).astype(np.float32))


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sounds", type=Path, nargs="*")
    parser.add_argument("--memos", type=Path)
    parser.add_argument("--engines", default="moonshine")
    parser.add_argument("--model", choices=["base", "tiny"])
    parser.add_argument("--voices", default="")
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--kept-only", action="store_true")
    parser.add_argument("--limit", type=int)
    parser.add_argument("--people", action="store_true")
    parser.add_argument("--nothing", action="store_true")
    parser.add_argument("--show", action="store_true")
    given = parser.parse_args()
    kept = Kept(given.keep) if given.keep else None
    memos = []
    if given.memos:
        lines = given.memos.read_text(encoding="utf-8").splitlines()
        memos = [(memo["id"], spoken_text(memo["text"])) for memo in map(json.loads, lines)][: given.limit]
    for name in given.engines.split(","):
        listen = engine(name, kept, given.model)
        columns: dict[str, dict[str, Tally]] = defaultdict(dict)
        for folder in (folder for sounds in given.sounds for folder in sorted(sounds.iterdir()) if folder.is_dir()):
            voice, _, noise = folder.name.partition("+")
            if given.voices and voice not in given.voices.split(","):
                continue
            for memo, said in memos:
                if not (folder / f"{memo}.wav").is_file():
                    continue
                sound = load_sound(folder / f"{memo}.wav")
                if given.kept_only and kept and not kept.has(sound, f"listen {listen.asked.engine.key}"):  # type: ignore[attr-defined]
                    continue
                tally = columns[voice].setdefault("noise" if noise else "quiet", Tally())
                began = time.process_time()
                heard = listen(sound)
                tally.taken += time.process_time() - began
                tally.seconds += sound.seconds
                tally.add(said, heard)
                if given.show and heard.text != said:
                    doubts = "; ".join(f"{doubt.reason}: {doubt.shown}" for doubt in heard.doubts)
                    print(f"{folder.name}\n  said  {said}\n  heard {heard.text}\n  {doubts}", file=sys.stderr)
        if columns:
            print(f"\n{name}\n\n{table(dict(sorted(columns.items())), timed=kept is None)}", flush=True)
        if given.people:
            tally = Tally()
            for recording, sound, said in people():
                heard = listen(sound)
                tally.add(said, heard)
                if given.show and heard.text != said:
                    print(f"{recording}\n  said  {said}\n  heard {heard.text}", file=sys.stderr)
            print(
                f"\n{name}, people: {tally.wrong_words} word errors of {tally.words}, figures right {tally.share(tally.right)},"
                f" right with a doubt {tally.share(tally.right_doubted)}, empty {tally.empty}"
            )
        if given.nothing:
            invented = [(what, text) for what, sound in nothing_said() if (text := listen(sound).text)]
            print(f"\n{name}, words invented where nothing is said: {invented or 'none'}")


if __name__ == "__main__":
    main()
