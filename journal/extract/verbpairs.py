"""Verbs of two words: "shim and level the sill", "wire brush the lintel", "re oil the deck"; and verbs that are nouns."""

from __future__ import annotations

from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.utterance import Utterance, that_is_done_at
from journal.extract.vocabulary import past_forms, verbs


def second_verb(said: Utterance, i: int) -> int | None:
    """The index after the second of two verbs with one object: "shim and level the sill", "wire brush the lintel"."""
    words = said.words
    second = i + 1 + (word_at(words, i + 1) == "and")
    both = second > i + 1
    verb = word_at(words, second)
    ordered = verb in verbs() and (words[i] in verbs() if both else words[i] in words_of("first_of_verb"))
    done = words[i] in past_forms() and verb in past_forms() and words[i] not in words_of("no_task_past") and both
    done = done or (not both and verb in past_forms() and words[i] in words_of("first_of_verb") and verb != words[i])
    if not (ordered or done) or not said.object_follows(second) or second + 1 in said.line.figures:
        return None
    return second + 1 if no_copula(said, second) else None


def no_copula(said: Utterance, i: int) -> bool:
    """Whether no "is" and no length follows before the next conjunction: a noun would be measured there."""
    for k in range(i + 1, min(len(said.words), i + 9)):
        if k in said.dated or (said.words[k] == "'s" and said.line.inside_place(k)):
            continue
        if k in said.afterwards and k > i + 1:
            return True
        word = said.words[k]
        if word in ("and", "then", "but") or word in words_of("condition_lookback"):
            return True
        if k > i + 1 and that_is_done_at(said.words, k):
            return True
        if word in ("it", "they") and k > i + 2 and word_at(said.words, k + 1) in words_of("copulas"):
            return True  # "shim the header it's three eighths out": another sentence begins
        if word in ("is", "'s", "are", "reads", "was", "cost", "costs"):
            return False
        if word == "set" and word_at(said.words, k + 1) in ("me", "us") and word_at(said.words, k + 2) == "back":
            return False
        figure = said.line.figures.get(k)
        if figure is not None and (
            figure.kind in ("percent", "slope", "degrees", "money")
            or (figure.kind == "length" and word_at(said.words, k - 1) not in ("to", "at", "by", "every"))
        ):
            return False
    return True
