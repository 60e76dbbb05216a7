"""Tasks said as a state: "the chinking's all done", "they're all pegged", "the door needs hanging"."""

from __future__ import annotations

from functools import cache

from journal.extract.conditions import after_at
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.utterance import Clause, Utterance, task_phrases, that_is_done_at
from journal.extract.vocabulary import ing_forms, past_forms, thing_words
from journal.extract.wanted import goes_when, subject_start, wanted


@cache
def state_words() -> frozenset[str]:
    """Words at which a state can be said: the copula, or the verb that says what a thing needs."""
    phrases = task_phrases("needs", "phrases").first_words() | words_of("copulas")
    return phrases | words_of("state_verbs") | _goes_words()


@cache
def _goes_words() -> frozenset[str]:
    return words_of("may_go", "goes")


def state(said: Utterance, i: int) -> Clause | None:
    """ "Chinking's all done", "they're all pegged", "the door needs hanging" at the copula."""
    words = said.words
    found = _waits(said, i) or (goes_when(said, i) if words[i] in _goes_words() else None) or wanted(said, i)
    if found is not None:
        return found
    if words[i] in ("is", "'s", "are", "'re", "has", "have", "got"):
        return _is_done(said, i)
    needs = task_phrases("needs", "phrases").at(words, i)
    if needs and i > said.last - 1:
        k, start = needs[1], subject_start(said, i)
        if start is not None and (
            word_at(words, k) in ing_forms() or (words[k - 1] == "be" and word_at(words, k) in past_forms())
        ):
            return Clause(said.back_to_conjunction(start), 0, "needs", k, subject=start)
    return None


def _waits(said: Utterance, i: int) -> Clause | None:
    """ "Glazing is waiting on the putty", "the shingles are held up by the rain": work that waits, at the copula."""
    words = said.words
    if words[i] not in words_of("copulas"):
        return None
    k = i + 1
    while word_at(words, k) in words_of("adverbs") | {"still", "just"}:
        k += 1
    if word_at(words, k) not in ("waiting", "held", "on"):
        return None
    after = after_at(words, k)
    start = subject_start(said, i) if after is not None else None
    if after is None or start is None or words[start] in words_of("people") | {"it", "there", "what", "this", "that"}:
        return None
    if after >= len(words) or any(start <= k < i for k in said.line.dimensions):
        return None
    return Clause(said.back_to_conjunction(start), 0, "waits", i, (after, 0), subject=start)


def _is_done(said: Utterance, i: int) -> Clause | None:
    words = said.words
    if words[i] in ("has", "have", "got") and word_at(words, i + 1) not in ("been", "all"):
        return None
    k = i + 1
    while word_at(words, k) in words_of("adverbs"):
        k += 1
    start = subject_start(said, i)
    if start is None or words[start:i] in (["this"], ["there"], ["what"]):
        return None
    if words[start:i] in (["that", "one"], ["that", "job"]) and any(
        that_is_done_at(words, k) for k in (start - 1, start)
    ):
        return None
    if words[start] in ("we", "i", "you") or words[i] == "'m":
        return None
    if words[start:i] == ["that"] and not _hours_told(said, i):
        return None
    if words[i - 1] in words_of("own_tools"):
        return None
    word = word_at(words, k)
    ends = (
        k + 1 >= len(words)
        or words[k + 1] in words_of("state_ends")
        or k + 1 in said.line.figures
        or k + 1 in said.dated
        or (word in ("done", "finished", "complete") and words[k + 1] in thing_words() | words_of("determiners"))
    )
    if not ends or said.in_condition(start) or _in_its_condition(said, start):
        return None
    stands_up = word in ("up", "in", "on", "off", "down") and words[start] in ("it", "they") and _hours_told(said, i)
    whole = (
        stands_up
        or word in ("done", "finished", "complete", "completed")
        or ("all" in words[i:k] and word in ("in", "up", "on"))
    )
    placed = (
        words[start:i] in (["it"], ["they"]) and word in ("up", "in", "on", "down", "together") and _hours_told(said, i)
    )
    whole = whole or (placed and (k + 1 >= len(words) or words[k + 1] in ("now", "and", "so", "then", "too")))
    if whole or (word in past_forms() and word not in words_of("no_state")):
        if k + 1 in said.line.figures and said.line.figures[k + 1].kind == "length":
            return None
        said.last = k + 1
        return Clause(said.back_to_conjunction(start), 0, "is done", i, subject=start)
    return None


def _hours_told(said: Utterance, i: int) -> bool:
    """Whether the stretch before word `i` told hours, so that "that's finished" says their work is done."""
    told = any(f.kind == "hours" and f.j < i for f in said.line.figures.values())
    return told and (not said.starts or said.starts[-1].opener == "facts")


def _in_its_condition(said: Utterance, start: int) -> bool:
    """Whether what begins at word `start` belongs to a condition said before it; after "but", "also" or "oh and" it does not."""
    words = said.words
    if word_at(words, start - 1) in words_of("parts") or words[max(0, start - 2) : start] in (
        ["oh", "and"],
        ["and", "also"],
    ):
        return False
    first = said.last
    if word_at(words, start) in ("it", "they"):  # "after dinner two more hours hanging the transom and it's up"
        first = max([first, *(f.j for f in said.line.figures.values() if f.j <= start)])
    return any(after_at(words, n) for n in range(first, start))
