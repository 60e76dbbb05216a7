"""What the adapted model is to write: what the plain one writes, put right where it misheard.

Most words keep the plain model's own spelling, capitals and marks, so that the adapter learns to hear figures and not
another way of writing; that is what keeps it harmless.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher

from journal.speech.spoken_form import spoken_words
from journal.speech.tokens import Tokens


def corrected(written: Sequence[str], said: Sequence[str]) -> list[str]:
    """The written words, those of a stretch that was misheard replaced by the ones that were said."""
    spoken = spoken_words(written)
    matched: dict[int, int] = {}
    for block in SequenceMatcher(None, [s.word for s in spoken], said, autojunk=False).get_matching_blocks():
        matched.update((block.b + i, block.a + i) for i in range(block.size))
    right = {word.written for word in spoken}
    right -= {spoken[at].written for at in range(len(spoken)) if at not in matched.values()}
    out: list[str] = []
    last = None
    for at, word in enumerate(said):
        origin = spoken[matched[at]].written if at in matched else None
        if origin is None or origin not in right:
            out.append(word)
        elif origin != last:
            out.append(written[origin])
        last = origin if origin in right else None
    if out and written:
        if written[0][:1].isupper():
            out[0] = out[0][:1].upper() + out[0][1:]
        if written[-1].endswith(".") and out[-1][-1:].isalnum():
            out[-1] += "."
    return out


def target(plain: list[int], said: str, tokens: Tokens) -> tuple[list[int], bool]:
    """The pieces to learn, and whether the plain model wrote them itself."""
    written = [word for word, _ in tokens.words(plain)]
    if [s.word for s in spoken_words(written)] == said.split():
        return plain, True
    numbers = tokens.numbers(" ".join(corrected(written, said.split())))
    if numbers is None:
        numbers = tokens.numbers(said.capitalize() + ".")
    if numbers is None:
        raise ValueError(f"the model has no pieces for {said!r}")
    return numbers, False
