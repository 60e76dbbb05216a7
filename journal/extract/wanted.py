"""Work named by what a thing is to get or do: "want the eaves primed", "the rail needs a second coat", "downspouts go up once …"."""

from __future__ import annotations

from journal.extract.conditions import after_at
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.utterance import Clause, Utterance, particles
from journal.extract.vocabulary import past_forms

_WANTING = frozenset({"want", "need", "wants", "needs", "like"})
_NEEDING = frozenset({"want", "need", "wants", "needs", "use", "with", "takes"})


def wanted(said: Utterance, i: int) -> Clause | None:
    """ "Want the eaves primed", "have the rails bolted by friday", "we got the purlins pegged", at the verb."""
    words = said.words
    verb = words[i]
    if verb in _NEEDING and (coat := _needs_a_coat(said, i)) is not None:
        return coat
    if (
        verb == "'s"
        and words[i - 1 : i] == ["that"]
        and _object_at(said, i + 1)
        and (done := _participle(said, i))
        and "last" not in words[i:done]
    ):
        return Clause(said.back_to_conjunction(i - 1), 0, "had done", done, subject=i + 1)
    if verb == "'s" and words[i - 1 : i] == ["that"] and (them := _them_all(said, i)) is not None:
        return Clause(said.back_to_conjunction(i - 1), 0, "is done", them, subject=them)
    if verb not in _WANTING | {"have", "had", "got", "get"} or not _object_at(said, i + 1):
        return None
    k = _participle(said, i)
    people = not words_of("people").isdisjoint(words[max(0, i - 2) : i])
    undone = verb in ("get", "got") and word_at(words, i - 1) in words_of("undone")
    if k is None:
        if verb == "got" and said.at_start(i) and (up := _particle(said, i)):
            said.last = up
            return Clause(said.back_to_subject(i), 0, "past", i)
        return None
    if undone:
        return Clause(said.back_to_subject(i - 1), 0, "needs", k, subject=i + 1)
    if verb in ("had", "got") or (verb == "have" and people):
        return Clause(said.back_to_subject(i), 0, "had done", k, subject=i + 1) if said.at_start(i) else None
    if verb == "get" or (verb == "have" and not (said.at_start(i) or word_at(words, i - 1) in words_of("must_have"))):
        return None
    return Clause(said.back_to_subject(i), 0, "needs", k, subject=i + 1)


def _them_all(said: Utterance, i: int) -> int | None:
    """The word before the participle of "that's them all spliced (at last)", "that's the lot hung"."""
    words, k = said.words, i + 1
    while word_at(words, k) in ("them", "it", "those", "these", "all", "the", "lot", "both", "everything"):
        k += 1
    if k == i + 1 or word_at(words, k) not in past_forms() or words[k] in words_of("no_state"):
        return None
    last = k + 3 if words[k + 1 : k + 3] == ["at", "last"] else k + 1
    return k - 1 if last > k + 1 or _ends(said, last) else None


def _object_at(said: Utterance, k: int) -> bool:
    """Whether a thing is named from word `k` on: it has an article, or is a place."""
    return (
        word_at(said.words, k) in ("the", "those", "these", "that", "all", "both", "my", "our") or k in said.line.places
    )


def _participle(said: Utterance, i: int) -> int | None:
    """The participle that ends what is wanted of the thing after word `i`."""
    words = said.words
    named = {k for p in said.line.places.values() for k in range(p.i, p.j)}
    for n in range(i + 2, min(i + 9, len(words))):
        if n in named:
            continue
        if n in said.line.figures or words[n] in words_of("copulas") or words[n] in ("to", "and", "but", "which"):
            return None
        if words[n] in past_forms() and words[n] not in words_of("no_state") and _ends(said, n + 1):
            return n
    return None


def _particle(said: Utterance, i: int) -> int | None:
    """The particle that ends "got the gutters up"; the index after it."""
    words = said.words
    for n in range(i + 3, min(i + 6, len(words))):
        if n in said.line.figures or words[n] in words_of("copulas"):
            return None
        if words[n] in particles():
            return n + 1 if _ends(said, n + 1) else None
    return None


def _ends(said: Utterance, k: int) -> bool:
    ends = words_of("state_ends", "ends_of_wish")
    return k >= len(said.words) or said.words[k] in ends or k in said.dated


def _needs_a_coat(said: Utterance, i: int) -> Clause | None:
    """ "The handrail needs a second coat", "the deck could do with another wash"."""
    words = said.words
    if words[i] in ("use", "with") and words[i - 1 : i] not in (["could"], ["do"]):
        return None
    if word_at(words, i + 1) not in ("a", "another", "one", "its", "some"):
        return None
    work = next((k for k in range(i + 2, min(i + 6, len(words))) if words[k] in words_of("coat_nouns")), None)
    if work is None or any(i < k <= work for k in said.line.figures if words[k] != "one"):
        return None
    start = subject_start(said, i - (words[i] in ("use", "with")) - (words[i] == "with"))
    if start is None or words[start] in words_of("people"):
        return None
    return Clause(said.back_to_conjunction(start), 0, "needs a coat", i, subject=start)


def subject_start(said: Utterance, i: int) -> int | None:
    """The first word of the subject before a copula or verb at word `i`; None where it stands in a condition."""
    words, k = said.words, i
    if word_at(words, i - 1) in ("they", "it", "that"):
        return i - 1
    while word_at(words, k - 1) in words_of("copulas") | {"still", "not"}:
        k -= 1
    copula = False
    while (
        k > said.last
        and words[k - 1] not in words_of("conjunctions")
        and words[k - 1] not in words_of("condition_words")
    ):
        if (
            said.line.figure_over(k - 1) is not None
            or k - 1 in said.dated
            or (copula := words[k - 1] in words_of("copulas"))
        ):
            break
        k -= 1
        if (
            words[k] in ("the", "all", "every", "both")
            and k
            and words[k - 1] not in words_of("prepositions") | {"all", "both", "of"}
        ):
            break
    if copula:
        k = max((p.j for p in said.line.places.values() if k < p.j < i), default=k)
    if k == i or (k > 0 and words[k - 1] in words_of("condition_words") - {"hours"}):
        return None
    return k


def goes_when(said: Utterance, i: int) -> Clause | None:
    """ "Downspouts go up once the fascia's painted", "the trim can wait till …", "siding can't go on until …", at the verb."""
    words = said.words
    k = i
    while word_at(words, k) in words_of("may_go"):
        k += 1
    if word_at(words, k) not in words_of("goes") or any(n in said.line.figures for n in range(k, k + 8)):
        return None
    waits = words[k] in ("wait", "waits")
    end = k + 1
    while end < len(words) and end < k + 8 and after_at(words, end) is None:
        if words[end] in words_of("conjunctions") or words[end] in words_of("copulas") or end in said.dated:
            return None
        end += 1
    after = after_at(words, end)
    if waits and after is None and word_at(words, k + 1) in ("for", "on"):
        end, after = k + 1, k + 2
    if after is None or after >= len(words) or end >= len(words) or not _moves(words, k, end):
        return None
    start = subject_start(said, i)
    if start is None or words[start] in words_of("people") | {"it", "there", "what", "this", "that", "they"}:
        return None
    named = words[start:i]
    if not words_of("goes_by_itself").isdisjoint(named) or any(word in quantities() for word in named):
        return None
    if any(start <= d < i for d in said.line.dimensions) or words[start - 1 : start] in (["a"], ["an"]):
        return None
    return Clause(said.back_to_conjunction(start), 0, "waits", i if waits else end - 1, (after, 0), subject=start)


def _moves(words: list[str], k: int, end: int) -> bool:
    """Whether a verb at word `k` tells of work by what it does before word `end`: "goes on", "comes off", "starts"."""
    if words[k] in ("go", "goes", "come", "comes", "get", "gets"):
        return end > k + 1 and words[k + 1] in particles() | {"onto", "into", "there"}
    return True
