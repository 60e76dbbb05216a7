"""English in accents that a voice was never recorded in: its own sounds, chosen and changed as another speaker would.

The sounds of an accent are espeak-ng's (Debian: espeak-ng); what a voice has never said is written with what it has. On top
of that a speaker may have habits of his own: which, is chance.
"""

from __future__ import annotations

import random
import re
import subprocess

ACCENTS = ("en-us", "en-gb-scotland", "en-gb", "en-gb-x-rp", "en-gb-x-gbclan", "en-gb-x-gbcwmd", "en-029")
# what is said in no American English, by what is
_STRANGE = (("a:", "a"), ("t̪", "t"), ("ʌʉ", "ʌu"), ("ʉ", "u"), ("ɒ", "ɔ"), ("o:", "oː"), ("e:", "eː"), ("ʔ", "t"))
_HABITS = (
    ("eɪ", ("eː", "ɛɪ", "eɪ")),  # face
    ("oʊ", ("oː", "əʊ", "ɔː")),  # goat
    ("aʊ", ("ʌu", "æʊ", "aʊ")),  # mouth
    ("aɪ", ("ʌɪ", "ɑɪ", "aː")),  # price
    ("ɔːɹ", ("oːɹ", "oːɾ", "ɔː", "oːɹ")),  # four
    ("ɜː", ("ʌɹ", "ɛɾ", "ɜːɹ", "əɹ")),  # third
    ("ɚ", ("ə", "əɾ", "ɐ")),  # quarter
    ("uː", ("u", "ʊ", "ɪu")),  # two
    ("iː", ("i", "ɪi")),  # feet
    ("æ", ("a", "ɛ")),
    ("ɑː", ("ɑ", "ɔ", "a")),
    ("ʌ", ("ʊ", "ə", "ɐ")),
    ("ɪ", ("ɛ", "i", "ə")),
    ("ɛ", ("ɪ", "æ", "e")),
    ("ɹ", ("ɾ", "ɾ", "ɹ")),
    ("ɾ", ("t", "d", "ɾ")),
    ("θ", ("t", "f", "θ")),
    ("ð", ("d", "ð")),
    ("ŋ", ("n", "ŋ")),
    ("h", ("", "h")),
    ("w", ("v", "w", "w")),
    ("l", ("w", "l", "l")),
    ("z", ("s", "z")),
)


def sounds(text: str, accent: str) -> str:
    """What espeak-ng says for the text in an accent, written in the sounds of American English."""
    command = ["espeak-ng", "-q", "--ipa", "-v", accent, text]
    said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    said = re.sub(r"\([a-z-]+\)", "", " ".join(said.split()))
    for theirs, ours in _STRANGE:
        said = said.replace(theirs, ours)
    if accent == "en-gb-scotland":
        said = said.replace("r", "ɾ")
    return said.replace("r", "ɹ")


def with_habits(said: str, chance: random.Random, most: int = 5) -> str:
    """The sounds with up to so many of a speaker's own ways of saying them, each kept to throughout."""
    taken = chance.sample(_HABITS, chance.randrange(1, most + 1))
    marks = {chr(0xE000 + number): chance.choice(ways) for number, (_, ways) in enumerate(taken)}
    for mark, (sound, _) in zip(marks, taken, strict=True):
        said = said.replace(sound, mark)
    for mark, way in marks.items():
        said = said.replace(mark, way)
    return said
