"""Makes what PocketSphinx expects to hear in the trade: `journal/speech/language/trade.lm.bin` and `trade.dict`.

    python make_language.py [--sentences 12000] [--seed 1] [--exclude MEMOS.jsonl ...]

A trigram model, smoothed after Witten and Bell (1991), of as many sentences by `adapter/make_text.py`, as many by
`grammar_sentences.py`, every word in `grammars/`, and the memos that the extractor's rules were written for (`tests/memos`),
each counted three times; those to measure hearing with are left out by --exclude, and with them whatever equals the
development memos. The default engine's beam leans on the same model. The
words' sounds come out of the CMU dictionary that the pocketsphinx package carries; an inflected word that it lacks is
made from its stem or, failing that, as Debian's espeak-ng says it; a word that has no letters to say is left out and listed.
Run it again when the word tables change.
"""

from __future__ import annotations

import argparse
import json
import math
import re
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from datetime import datetime
from pathlib import Path

import pocketsphinx
from grammar_sentences import sentences as grammar_sentences

from journal.extract import extract
from journal.speech.words import all_words, trade_words

HERE = Path(__file__).parent
LANGUAGE = HERE.parents[2] / "journal" / "speech" / "language"
MEMOS = HERE.parents[1] / "memos"
MEMOS_COUNT = 3
"""Once and six times fit memos that nobody had seen less well (`README.md`)."""
START, END = "<s>", "</s>"
_VOICED = {"B", "D", "G", "V", "DH", "M", "N", "NG", "L", "R", "W", "Y"}
_HISSING = {"S", "Z", "SH", "ZH", "CH", "JH"}
# how words that neither the dictionary has nor a stem gives are said (ours; CMU phones)
OURS = {
    "chink": "CH IH NG K", "purlin": "P ER L IH N", "soffit": "S AA F IH T", "fascia": "F EY SH AH", "girt": "G ER T",
    "dado": "D EY D OW", "kerf": "K ER F", "mortise": "M AO R T AH S", "tenon": "T EH N AH N", "batten": "B AE T AH N",
    "shiplap": "SH IH P L AE P", "birdsmouth": "B ER D Z M AW TH", "millimetre": "M IH L AH M IY T ER", "metre": "M IY T ER",
    "centimetre": "S EH N T AH M IY T ER", "sixteenth": "S IH K S T IY N TH", "sistered": "S IH S T ER D", "shim": "SH IH M",
    "oakum": "OW K AH M", "caulk": "K AO K", "hew": "HH Y UW", "sealant": "S IY L AH N T", "joist": "JH OY S T",
    "sixtyfourth": "S IH K S T IY F AO R TH", "bunkhouse": "B AH NG K HH AW S", "centre": "S EH N T ER", "eave": "IY V",
    "fahrenheit": "F EH R AH N HH AY T", "celsius": "S EH L S IY AH S", "plumb": "P L AH M", "scribe": "S K R AY B",
    "mullion": "M AH L Y AH N", "rabbet": "R AE B AH T", "vestry": "V EH S T R IY", "tamarack": "T AE M ER AE K",
}  # fmt: skip
# espeak-ng's sounds of American English, the longer first, to CMU phones
_PHONES = {
    "aɪɚ": "AY ER", "aɪə": "AY AH", "tʃ": "CH", "dʒ": "JH", "eɪ": "EY", "aɪ": "AY", "ɔɪ": "OY", "aʊ": "AW", "oʊ": "OW", "iə": "IY AH",
    "ɑːɹ": "AA R", "ɔːɹ": "AO R", "oːɹ": "AO R", "ɛɹ": "EH R", "ɪɹ": "IH R", "ʊɹ": "UH R", "ɜː": "ER", "iː": "IY", "uː": "UW", "ɑː": "AA",
    "ɔː": "AO", "oː": "AO", "ᵻ": "IH", "ɚ": "ER", "ɐ": "AH", "ə": "AH", "ʌ": "AH", "æ": "AE", "ɛ": "EH", "ɪ": "IH", "i": "IY", "ʊ": "UH",
    "u": "UW", "ɔ": "AO", "ɑ": "AA", "o": "OW", "e": "EH", "a": "AA", "p": "P", "b": "B", "t": "T", "d": "D", "k": "K", "ɡ": "G", "f": "F",
    "v": "V", "θ": "TH", "ð": "DH", "s": "S", "z": "Z", "ʃ": "SH", "ʒ": "ZH", "h": "HH", "m": "M", "n": "N", "ŋ": "NG", "l": "L", "ɹ": "R",
    "ɾ": "T", "j": "Y", "w": "W", "ʔ": "T", "x": "K",
}  # fmt: skip


def sounds() -> dict[str, list[str]]:
    """The dictionary of the pocketsphinx package: each word's ways of being said, as phones."""
    said: dict[str, list[str]] = defaultdict(list)
    path = Path(pocketsphinx.__file__).parent / "model" / "en-us" / "cmudict-en-us.dict"
    for line in path.read_text(encoding="utf-8").splitlines():
        word, _, phones = line.partition(" ")
        said[word.partition("(")[0]].append(phones.strip())
    for word, phones in OURS.items():
        said.setdefault(word, [phones])
    return said


def ways_to_say(word: str, said: dict[str, list[str]]) -> list[str]:
    """How a word is said, out of the dictionary or by its stem; nothing where neither helps."""
    if word in said:
        return said[word]
    if word.endswith("'s") and (stem := ways_to_say(word[:-2], said)):
        return [_with_s(phones) for phones in stem]
    for ending, build in (
        ("s", _with_s),
        ("es", _with_s),
        ("ed", _with_ed),
        ("ing", lambda p: f"{p} IH NG"),
        ("er", lambda p: f"{p} ER"),
    ):
        if word.endswith(ending):
            bare = word.removesuffix(ending)
            stems = [bare, bare + "e", bare[:-1] if bare[-1:] == bare[-2:-1] else ""]
            for stem in filter(None, stems):
                if stem in said:
                    return [build(phones) for phones in said[stem]]
    for cut in range(3, len(word) - 2):
        first, second = said.get(word[:cut]), said.get(word[cut:])
        if first and second:
            return [f"{first[0]} {second[0]}"]
    return by_rule(word)


def by_rule(word: str) -> list[str]:
    """How espeak-ng would say a word that nobody wrote down; nothing where it spells it, or has other sounds for it."""
    if len(word) < 3 or not set(word) & set("aeiouy") or "'" in word:
        return []
    command = ["espeak-ng", "-q", "--ipa", "-v", "en-us", word]
    left = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    left, phones = re.sub(r"[\sˈˌ̩]", "", left), []
    while left:
        sound = next((sound for sound in _PHONES if left.startswith(sound)), None)
        if sound is None:
            return []
        phones.append(_PHONES[sound])
        left = left.removeprefix(sound)
    return [" ".join(phones)]


def _with_s(phones: str) -> str:
    last = phones.split()[-1]
    return f"{phones} {'AH Z' if last in _HISSING else 'Z' if last in _VOICED or last[0] in 'AEIOU' else 'S'}"


def _with_ed(phones: str) -> str:
    last = phones.split()[-1]
    return f"{phones} {'AH D' if last in ('T', 'D') else 'D' if last in _VOICED or last[0] in 'AEIOU' else 'T'}"


def arpa(sentences: list[list[str]], vocabulary: list[str]) -> str:
    """A trigram model in ARPA form; a word of the vocabulary that no sentence has counts as said once."""
    counts: list[Counter[tuple[str, ...]]] = [Counter(), Counter(), Counter()]
    for sentence in sentences:
        words = [START, *sentence, END]
        for size in (1, 2, 3):
            for at in range(len(words) - size + 1):
                counts[size - 1][tuple(words[at : at + size])] += 1
    del counts[0][(START,)]
    for word in vocabulary:
        counts[0].setdefault((word,), 1)
    # a trigram seen once says little and takes most of the room
    counts[2] = Counter({gram: n for gram, n in counts[2].items() if n > 1})
    after: list[dict[tuple[str, ...], list[int]]] = [defaultdict(lambda: [0, 0]) for _ in range(3)]
    for size in (1, 2, 3):
        for gram, n in counts[size - 1].items():
            entry = after[size - 1][gram[:-1]]
            entry[0] += n
            entry[1] += 1

    def probability(gram: tuple[str, ...]) -> float:
        total, kinds = after[len(gram) - 1].get(gram[:-1], (0, 0))
        if len(gram) == 1:
            return counts[0][gram] / total
        lower = probability(gram[1:])
        return (counts[len(gram) - 1][gram] + kinds * lower) / (total + kinds) if total else lower

    def left_over(context: tuple[str, ...]) -> float:
        total, kinds = after[len(context)].get(context, (0, 0))
        return kinds / (total + kinds) if total else 1.0

    lines = ["\\data\\", *(f"ngram {size}={len(counts[size - 1]) + (size == 1)}" for size in (1, 2, 3))]
    for size in (1, 2, 3):
        lines.append(f"\n\\{size}-grams:")
        if size == 1:
            lines.append(f"-99.0 {START} {math.log10(left_over((START,))):.4f}")
        for gram in sorted(counts[size - 1]):
            back = f" {math.log10(left_over(gram)):.4f}" if size < 3 and gram[-1] != END else ""
            lines.append(f"{math.log10(probability(gram)):.4f} {' '.join(gram)}{back}")
    return "\n".join([*lines, "", "\\end\\", ""])


def builders_memos(left_out: set[str]) -> list[str]:
    """What builders say, less what is to be measured and what was written as a recogniser would mishear it."""
    said = []
    for name in ("own_seen", "blind_seen"):
        for row in map(json.loads, (MEMOS / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()):
            read = extract(row["text"], datetime.fromisoformat(row["said_at"]))
            doubts = [*read.doubts, *(doubt for fact in read.facts for doubt in fact.doubts)]
            if row["text"] not in left_out and all(doubt.reason != "sound-alike" for doubt in doubts):
                said.append(row["text"])
    return said


def main() -> None:
    """Make both files."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--sentences", type=int, default=12000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument(
        "--exclude", type=Path, nargs="*", default=[], help="memos to measure with, an object with text a line"
    )
    parser.add_argument("--out", type=Path, default=LANGUAGE)
    given = parser.parse_args()
    aside = [*given.exclude, MEMOS / "dev_seen.jsonl", MEMOS / "dev_held.jsonl"]
    lines = [line for file in aside for line in file.read_text(encoding="utf-8").splitlines()]
    memos = builders_memos({json.loads(line)["text"] for line in lines})
    said = sounds()
    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder, "text.jsonl")
        script = HERE / "adapter" / "make_text.py"
        command = [sys.executable, str(script), str(made), "--n", str(given.sentences), "--seed", str(given.seed)]
        subprocess.run(command, check=True, stdout=sys.stderr)
        sentences = [json.loads(line)["text"].split() for line in made.read_text(encoding="utf-8").splitlines()]
        sentences += [text.split() for text in grammar_sentences(given.sentences, given.seed)]
        sentences += [text.split() for text in memos] * MEMOS_COUNT
        expected = dict.fromkeys([*all_words(), *(word for phrase in trade_words() for word in phrase.split())])
        words = sorted({word for sentence in sentences for word in sentence} | set(expected))
        known = {word: ways for word in words if (ways := ways_to_say(word, said))}
        print("left out:", *(word for word in words if word not in known), file=sys.stderr)
        sentences = [sentence for sentence in sentences if all(word in known for word in sentence)]
        text = arpa(sentences, list(known))
        Path(folder, "trade.arpa").write_text(text, encoding="utf-8")
        given.out.mkdir(exist_ok=True)
        logmath = pocketsphinx.LogMath()
        model = pocketsphinx.NGramModel.readfile(str(Path(folder, "trade.arpa")))
        del logmath
        model.write(str(given.out / "trade.lm.bin"), pocketsphinx.NGramModel.str_to_type("bin"))
    lines = []
    for word, ways in known.items():
        lines += [f"{word}{f'({n})' if n > 1 else ''} {phones}" for n, phones in enumerate(dict.fromkeys(ways), 1)]
    (given.out / "trade.dict").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(len(sentences), "sentences,", len(known), "words", file=sys.stderr)


if __name__ == "__main__":
    main()
