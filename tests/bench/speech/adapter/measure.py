"""What an adapter does to trade figures and to human speech, by the journal's own engine with its trade words favoured.

    python measure.py WORK --memos MEMOS.jsonl [--adapter FILE] [--strength 1.0] [--sets choose|report|all] [--kind base]

Sets to choose by: the human recordings of Debian's pocketsphinx-testdata that stand first, third, ... by name and every
fourth prompt of Debian's asterisk-core-sounds-en-g722. Sets to report: the other recordings, another quarter of the prompts,
and memos spoken by two voices that no adapter was trained on (flite awb and Kokoro's fifth style), quiet and in hammer,
wind or grinder at 10 dB; stretches of no speech. Writes WORK/heard_KEY.json; where WORK/heard_plain.json exists, the words
that became other words are counted too (the prompts have no texts), and with --show they are printed.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import random
import re
import sys
from collections.abc import Iterator
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

import av
import numpy as np
import soundfile

sys.path.append(str(Path(__file__).parents[1]))

from kokoro_styles import STYLES, speak
from make_sound import at_16k, flite, nothing
from voices import RATE, noisy

from journal.speech.adapter.merge import merge_adapter
from journal.speech.base import Sound
from journal.speech.model_cache import Merge, shipped_model
from journal.speech.moonshine import Moonshine
from journal.speech.spoken_form import spoken_text

Samples = np.ndarray
RECORDINGS = Path("/usr/share/pocketsphinx/test/data")
PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
RAW_TEXTS = {
    "numbers.raw": "thirty three four six ninety two",
    "goforward.raw": "go forward ten meters",
    "something.raw": "go somewhere and do something",
}
NOISES = ("hammer10", "wind10", "grinder10")
NUMBER_WORDS = {
    "zero",
    "oh",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
    "thirty",
    "forty",
    "fifty",
    "sixty",
    "seventy",
    "eighty",
    "ninety",
    "hundred",
    "thousand",
    "half",
    "quarter",
    "quarters",
    "third",
    "thirds",
    "eighth",
    "eighths",
    "sixteenth",
    "sixteenths",
    "seconds",
    "dozen",
}


def recordings() -> list[tuple[str, Samples, str]]:
    """Name, sound and text of each human recording with a text, by name."""
    found = []
    for listing in ("cards/cards.transcription", "librivox/transcription"):
        for line in (RECORDINGS / listing).read_text().splitlines():
            if said := re.fullmatch(r"<s> (.*?)\s*</s> \((.*)\)", line.strip()):
                file = (RECORDINGS / listing).parent / f"{said[2]}.wav"
                # the reader says "a more amiable"; the transcription stammers
                text = said[1].replace("a more a amiable", "a more amiable").replace("mister", "mr")
                found.append((file.name, at_16k(*soundfile.read(file, dtype="float32")), text))
    for name, text in RAW_TEXTS.items():
        pcm = np.fromfile(RECORDINGS / name, "<i2").astype(np.float32) / 32768
        found.append((name, pcm, text))
    return sorted(found, key=lambda one: one[0])


def prompts() -> list[tuple[str, Samples, str]]:
    """The human prompts, which have no texts but for the bare numbers."""
    found = []
    for file in sorted(PROMPTS.rglob("*.g722")):
        with av.open(str(file), format="g722") as container:
            frames = [frame.to_ndarray().reshape(-1) for frame in container.decode(audio=0)]
        if frames and len(pcm := np.concatenate(frames).astype(np.float32) / 32768) > 0.5 * RATE:
            number = file.stem if file.parent.name == "digits" and file.stem.isdigit() else ""
            found.append((str(file.relative_to(PROMPTS)), pcm, spoken_text(number)))
    return found


def memos(work: Path, file: Path, voice: str, count: int) -> Iterator[tuple[str, Samples, str]]:
    """Memos by a voice, quiet and with one noise each; the quiet sounds are kept in WORK."""
    lines = file.read_text(encoding="utf-8").splitlines()
    said = [memo for memo in map(json.loads, lines) if figures(memo["text"])][:count]
    for number, memo in enumerate(said):
        wav = work / voice / f"{memo['id']}.wav"
        if not wav.is_file():
            wav.parent.mkdir(parents=True, exist_ok=True)
            if voice == "awb":
                samples = flite("awb", memo["text"], random.Random(number))
            else:
                samples = at_16k(*speak(memo["text"], {voice: 1.0}))
            silence = np.zeros(int(0.3 * RATE), np.float32)
            samples = np.concatenate([silence, samples / np.abs(samples).max() * 0.5, silence])
            soundfile.write(wav, samples, RATE, subtype="PCM_16")
        samples = soundfile.read(wav, dtype="float32")[0]
        yield f"{voice}/{memo['id']}", samples, memo["text"]
        noise = NOISES[number % len(NOISES)]
        yield f"{voice}+noise/{memo['id']}", noisy(samples, noise, number), memo["text"]


def figures(text: str) -> list[tuple[int, int]]:
    """Where the figures stand among the words of a text."""
    words = text.split()
    spans, at = [], 0
    while at < len(words):
        end = at
        while end < len(words) and (
            words[end] in NUMBER_WORDS
            or (end > at and words[end] in ("and", "a", "an") and {*words[end + 1 : end + 3]} & NUMBER_WORDS)
        ):
            end += 1
        if end > at:
            spans.append((at, end))
        at = max(end, at + 1)
    return spans


def _value(words: list[str]) -> list[str]:
    """A figure's words without what changes no value."""
    return [{"a": "one", "an": "one"}.get(word, word) for word in words if word != "and"]


def compared(heard: str, said: str) -> tuple[int, int, int, int]:
    """Word errors, words, figures right, figures."""
    h, s = heard.split(), said.split()
    blocks = SequenceMatcher(None, s, h, autojunk=False).get_opcodes()
    right = 0
    for start, end in figures(said):
        low = min(
            (j1 + max(0, start - i1) if tag == "equal" else j1 for tag, i1, i2, j1, _ in blocks if i2 > start),
            default=0,
        )
        high = max(
            (j2 - max(0, i2 - end) if tag == "equal" else j2 for tag, i1, i2, _, j2 in blocks if i1 < end), default=0
        )
        right += _value(h[low:high]) == _value(s[start:end])
    return distance(s, h), len(s), right, len(figures(said))


def distance(one: list[str], other: list[str]) -> int:
    """Least number of words put in, left out or changed between two texts."""
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        before, row[0] = row[0], i
        for j, b in enumerate(other, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (a != b))
    return row[-1]


def sets(which: str, work: Path, memo_file: Path, *, fewer: bool = False) -> Iterator[tuple[str, str, Samples, str]]:
    """Set, name, sound and text ("" where unknown) of everything to hear."""
    spoken, human = prompts(), recordings()
    step = 8 if fewer else 4
    if which in ("choose", "all"):
        for one in human[0::2]:
            yield "recordings, to choose", *one
        for one in spoken[0::step]:
            yield "prompts, to choose", *one
    if which in ("report", "all"):
        for one in human[1::2]:
            yield "recordings, to report", *one
        for one in spoken[step // 2 :: step]:
            yield "prompts, to report", *one
        for voice, count in (("awb", 60), (STYLES[4], 12 if fewer else 40)):
            for name, samples, text in memos(work, memo_file, voice, count):
                yield name.split("/")[0], name, samples, text
        for number in range(5000, 5020 if fewer else 5025):
            samples, kind = nothing(number)
            yield "no speech", f"{kind} {number}", samples, ""


def main() -> None:
    """Hear everything and print the table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("work", type=Path)
    parser.add_argument("--memos", type=Path, required=True)
    parser.add_argument("--adapter", type=Path)
    parser.add_argument("--strength", type=float, default=1.0)
    parser.add_argument("--sets", default="all", choices=["choose", "report", "all"])
    parser.add_argument("--kind", default="base")
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--fewer", action="store_true", help="as many of each as choose.py takes")
    parser.add_argument("--only", default="", help="sets whose name has this in it")
    given = parser.parse_args()
    merge, key = None, "plain"
    if given.adapter:
        digest = hashlib.sha256(given.adapter.read_bytes()).hexdigest()[:12]
        key = f"{given.adapter.stem}-{given.strength}"
        merge = Merge(f"{digest}-{given.strength}", lambda model: merge_adapter(model, given.adapter, given.strength))
    engine = Moonshine(shipped_model(given.kind), merge=merge)
    heard: dict[str, Any] = {}
    for group, name, samples, text in sets(given.sets, given.work, given.memos, fewer=given.fewer):
        if given.only not in group:
            continue
        heard[name] = {"set": group, "said": text, "heard": engine.listen(Sound(samples)).text}
    given.work.mkdir(parents=True, exist_ok=True)
    kept = given.work / f"heard_{given.kind}_{key}_{given.sets}.json"
    kept.write_text(json.dumps(heard, indent=1), encoding="utf-8")
    report(heard, given.work / f"heard_{given.kind}_plain_{given.sets}.json", key, show=given.show)


def report(heard: dict[str, Any], plain_file: Path, key: str, *, show: bool) -> None:
    """One line a set."""
    plain = json.loads(plain_file.read_text(encoding="utf-8")) if plain_file.is_file() else {}
    for group in dict.fromkeys(one["set"] for one in heard.values()):
        rows = {name: one for name, one in heard.items() if one["set"] == group}
        totals = np.zeros(4, int)
        changed = words = empty = 0
        for name, one in rows.items():
            if one["said"]:
                totals += compared(one["heard"], one["said"])
            if name in plain:
                before = plain[name]["heard"]
                changed += distance(before.split(), one["heard"].split())
                words += len(before.split())
                if show and before != one["heard"]:
                    print(
                        f"  {name}: {before!r} -> {one['heard']!r}" + (f" said {one['said']!r}" if one["said"] else "")
                    )
            empty += not one["heard"]
        print(
            f"{key:28} {group:24} word errors {totals[0]:3} of {totals[1]:4}  figures {totals[2]:3} of {totals[3]:3}"
            f"  words changed {changed:3} of {words:4}  empty {empty} of {len(rows)}",
            flush=True,
        )


if __name__ == "__main__":
    main()
