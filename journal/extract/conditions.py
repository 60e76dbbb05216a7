"""Tasks that wait or are said openly: "once the plaster's dry prime …", "can't set it till …", "need to caulk …"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.sets import words_of
from journal.extract.stockwords import counted_at, event_at
from journal.extract.unitwords import word_at
from journal.extract.utterance import Clause, Utterance, particles, task_phrases
from journal.extract.verbpairs import second_verb
from journal.extract.vocabulary import function_words, homographs, ing_forms, past_forms, verbs


def after_at(words: Sequence[str], i: int) -> int | None:
    """The index after a word that leads in a condition at `i` ("once", "as soon as")."""
    found = task_phrases("after", "words").at(words, i) if i < len(words) else None
    return found[1] if found else None


def no_condition_at(words: Sequence[str], i: int) -> bool:
    """Whether "if we can", "if it kills me" stands at `i`: nothing that work waits for."""
    return words[i] == "if" and task_phrases("after", "no_condition").at(words, i) is not None


def waiting_task(said: Utterance, i: int) -> Clause | None:
    """ "Once the plaster's dry prime …", "waiting on the glass before we can set …"."""
    words = said.words
    condition = after_at(words, i)
    if condition is None or not said.at_start(i) or no_condition_at(words, i):
        return None
    if (
        said.starts
        and said.starts[-1].opener in ("bare", "open", "waiting")
        and word_at(words, i - 1) not in words_of("conjunctions")
    ):
        return None
    verb = _verb_after_condition(said, condition, words[i])
    if verb is None:
        return None
    return Clause(said.back_to_subject(i), 0, "waiting", verb[0], (condition, verb[1]))


_HELD = ("waiting", "held", "wait")


def _before_we(said: Utterance, i: int) -> tuple[int, int] | None:
    """ "… for the roofers to finish before we can strip the scaffold": the verb after "before we", and where the condition ends."""
    words = said.words
    for k in range(i + 1, len(words) - 2):
        if words[k] == "before" and words[k + 1] in words_of("people"):
            verb = said.verb_at(k + 2 + (words[k + 2] in ("can", "could", "get", "start")))
            return (verb, k) if verb is not None else None
    return None


def _verb_after_condition(said: Utterance, i: int, led: str) -> tuple[int, int] | None:
    """The verb of the task whose condition begins at `i`, and the index after the condition."""
    words, line = said.words, said.line
    if led in _HELD and (then := _before_we(said, i)) is not None:
        return then
    opening, waiting = task_phrases("openings", "phrases"), task_phrases("waiting", "phrases")
    for k in range(i + 1, len(words)):
        if k in line.figures or k in said.dated:
            continue
        if words[k - 1] in ("already", "finally") and words[k] in past_forms():
            return None
        subject = k + (words[k] == "before")
        s = subject + (word_at(words, subject) in words_of("people"))
        found = (
            opening.at(words, s)
            if s < len(words) and (s > subject or words[s] not in ("can", "will", "go", "to"))
            else None
        )
        if found is None and s > subject and word_at(words, s) in ("can", "will", "'ll", "could"):
            found = ("open", s + 1)
        if found is None and led in _HELD and words[k] in ("to", "before"):
            found = ("open", k + 1)
        if found:
            verb = said.verb_at(found[1])
            if verb is not None:
                return verb, k
        plain = words[k] not in homographs() and word_at(words, k + 1) not in words_of("copulas") and k + 1 < len(words)
        after_gone = (
            words[k - 1] in particles() and words[k - 2] in words_of("come_and_gone") and said.object_follows(k)
        )
        after_been = words[k - 1] == "been" and words[k] not in past_forms() and said.object_follows(k)
        if words[k] in verbs() and (
            after_been
            or after_gone
            or (words[k - 1] not in words_of("block_verb") and (said.object_follows(k) or plain))
        ):
            return k, k
        if s > subject and waiting.at(words, s):
            return None
    return None


@cache
def open_words() -> frozenset[str]:
    """Words with which a task can be said openly."""
    phrases = task_phrases("openings", "phrases").first_words() | task_phrases("waiting", "phrases").first_words()
    named = task_phrases("openings", "nouns").first_words() | task_phrases("done", "openings").first_words()
    return phrases | named | {"no", "haven't", "hasn't"}


def open_task(said: Utterance, i: int) -> Clause | None:
    """ "Need to …", "don't forget to …", "can't … till"."""
    words = said.words
    opening = task_phrases("openings", "phrases").at(words, i)
    waiting = task_phrases("waiting", "phrases").at(words, i)
    if waiting and not opening and word_at(words, waiting[1]) not in ("let", "forget", "remember", "know", "think"):
        k = waiting[1]
        while (
            word_at(words, k) in ("be", "go", "get", "really", "even", "quite", "to")
            and word_at(words, k + 1) in verbs()
        ):
            k += 1
        if word_at(words, k) in verbs() or word_at(words, k) in ing_forms():
            return Clause(said.back_to_subject(i), 0, "waiting", k)
    named = task_phrases("openings", "nouns").at(words, i)
    if named and said.at_start(i) and word_at(words, named[1]) in ("the", "those", "these", "my", "our"):
        return Clause(said.back_to_subject(i), 0, "open", named[1])
    did = task_phrases("done", "openings").at(words, i)
    if did and (verb := said.verb_at(did[1])) is not None and said.object_follows(verb) and said.at_start(i):
        return Clause(said.back_to_subject(i), 0, "finished", verb)
    no_work = words[i] == "no" and word_at(words, i + 1) in ing_forms() and said.at_start(i)
    if no_work and any(after_at(words, k) for k in range(i + 2, len(words))):
        return Clause(said.back_to_subject(i), 0, "waiting", i + 1)
    if words[i] in ("haven't", "hasn't") and word_at(words, i + 1) in past_forms() and said.object_follows(i + 1):
        return Clause(said.back_to_subject(i), 0, "open", i + 1)
    bought = event_at(words, i)  # "need to buy nine tubes" is material
    if bought and opening and bought[1] > opening[1] and counted_at(said.line, bought[1]):
        return None
    if word_at(words, i + 2) in words_of("asks") and words[i : i + 2] == ["remind", "me"]:
        return None
    if opening and words[i] not in ("to",):
        verb = said.verb_at(opening[1])
        if verb is None and words[opening[1] - 1] == "to":
            verb = _unknown_verb(said, opening[1])
        weak = words[i] in ("go", "can", "will", "better", "please", "shall")
        if (
            verb is not None
            and not (
                words[verb] == "take" and {"hours", "hour", "minutes", "day", "days"} & set(words[verb : verb + 6])
            )
            and not (words[i] in ("need", "needs", "want") and counted_at(said.line, opening[1]))
            and not (weak and not said.at_start(i))
            and not said.in_condition(i)
        ):
            said.last = max(said.last, second_verb(said, verb) or 0)
            return Clause(said.back_to_subject(i), 0, "open", verb)
    return None


def _unknown_verb(said: Utterance, k: int) -> int | None:
    """A word that no list has, where "need to" wants a verb: "have to counterflash the uphill side"."""
    word = word_at(said.words, k)
    if word in function_words() or word in words_of("no_order") or word.endswith(("ing", "ed", "ly")) or not word:
        return None
    if word_at(said.words, k + 1) not in ("the", "those", "these", "all", "both", "our") or k in said.line.figures:
        return None
    return k
