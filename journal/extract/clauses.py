"""Where one thing said ends and the next begins: stretches of a line that are tasks, and those that are facts.

A task begins at its verb ("caulk the …", "need to caulk …", "caulked the …") or at the condition before it ("once the
plaster's dry prime …"), and ends where something else begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from journal.extract.due import DueWord
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.stockwords import counted_at, event_at
from journal.extract.vocabulary import function_words, ing_forms, past_forms, thing_words, verbs
from journal.grammar import table

Opener = Literal["open", "waiting", "bare", "past", "finished", "is done", "needs", "stock", "facts"]

_SUBJECTS = frozenset(
    {
        "we",
        "i",
        "you",
        "they",
        "somebody",
        "someone",
        "he",
        "she",
        "'ve",
        "'s",
        "'ll",
        "'d",
        "have",
        "has",
        "finally",
        "just",
        "already",
        "also",
        "still",
        "both",
        "all",
        "then",
        "had",
        "'m",
        "'re",
        "am",
        "are",
        "was",
        "were",
    }
)
_DETERMINERS = frozenset(
    {
        "the",
        "a",
        "an",
        "this",
        "that",
        "these",
        "those",
        "all",
        "both",
        "my",
        "our",
        "every",
        "each",
        "some",
        "any",
        "another",
        "new",
        "old",
        "more",
        "last",
        "first",
        "rest",
        "it",
        "them",
        "everything",
        "second",
        "his",
        "their",
        "its",
    }
)
_CONJUNCTIONS = frozenset({"and", "then", "but", "so", "also", "plus", "or"})
_BLOCKS_VERB = frozenset(
    {
        "to",
        "the",
        "a",
        "an",
        "of",
        "my",
        "our",
        "can",
        "will",
        "would",
        "could",
        "should",
        "must",
        "'ll",
        "we",
        "i",
        "they",
        "you",
        "on",
        "in",
        "at",
        "for",
        "with",
        "by",
        "from",
        "off",
        "is",
        "'s",
        "are",
        "was",
        "were",
        "be",
        "been",
        "did",
        "do",
        "does",
        "this",
        "that",
        "these",
        "those",
        "each",
        "every",
        "no",
        "not",
        "new",
        "old",
        "some",
        "any",
        "than",
        "per",
        "its",
        "their",
        "before",
        "never",
    }
)


@dataclass(slots=True)
class Clause:
    """Words `i` to `j` that say one task, or facts. `verb` is where the verb stands, `condition` a condition said first."""

    i: int
    j: int
    opener: Opener
    verb: int = -1
    condition: tuple[int, int] | None = None
    lead_i: int = -1


@cache
def _tables() -> tuple[
    Phrases[str], Phrases[str], Phrases[str], Phrases[str], Phrases[str], Phrases[str], Phrases[str]
]:
    data = table("tasks")
    return (
        Phrases.of(data["openings"]["phrases"], "open"), Phrases.of(data["waiting"]["phrases"], "waiting"),
        Phrases.of(data["after"]["words"], "after"), Phrases.of(data["done"]["is_done"], "done"),
        Phrases.of(data["done"]["finished"], "finished"), Phrases.of(data["done"]["that_is"], "that"),
        Phrases.of(data["needs"]["phrases"], "needs"),
    )  # fmt: skip


@cache
def _homographs() -> frozenset[str]:
    return frozenset(table("tasks")["homographs"])


@cache
def _particles() -> frozenset[str]:
    return frozenset(table("tasks")["particles"])


def after_at(words: Sequence[str], i: int) -> int | None:
    """The index after a word that leads in a condition at `i` ("once", "as soon as")."""
    found = _tables()[2].at(words, i) if i < len(words) else None
    return found[1] if found else None


def find_clauses(line: Line, dues: list[DueWord]) -> list[Clause]:
    """The line cut into tasks and stretches of facts, in order, without gaps."""
    words = line.words
    starts: list[Clause] = []
    i, last = 0, 0
    while i < len(words):
        clause = _opener_at(line, i, starts, last, dues)
        if clause is None:
            i += 1
            continue
        starts.append(clause)
        last = max(clause.verb + 1, i + 1)
        i = last
    clauses: list[Clause] = []
    if not starts or starts[0].i > 0:
        clauses.append(Clause(0, starts[0].i if starts else len(words), "facts"))
    for n, start in enumerate(starts):
        start.j = starts[n + 1].i if n + 1 < len(starts) else len(words)
        clauses.append(start)
    return clauses


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


def _at_start(words: Sequence[str], i: int, last: int) -> bool:
    """Whether word `i` may begin something new: the first word, or after a conjunction and a subject."""
    k = i
    while k > last and words[k - 1] in _SUBJECTS:
        k -= 1
    return (
        k == 0
        or words[k - 1] in _CONJUNCTIONS
        or (k < i
        and words[k] in ("we", "i", "you", "somebody", "someone", "they"))
    )


def _back_to_subject(words: Sequence[str], i: int) -> int:
    k = i
    while k > 0 and words[k - 1] in _SUBJECTS:
        k -= 1
    while k > 0 and words[k - 1] in _CONJUNCTIONS:
        k -= 1
    return k


def _opener_at(line: Line, i: int, starts: list[Clause], last: int, dues: list[DueWord]) -> Clause | None:
    words = line.words
    if i in line.figures:
        return _figure_opener(line, i, starts)
    if i in line.places:
        return None
    opening, waiting, *_ = _tables()
    word = words[i]
    in_task = bool(starts) and starts[-1].opener != "facts"
    if (
        (starts_condition := after_at(words, i)) is not None
        and _at_start(words, i, last)
        and not (
            starts and starts[-1].opener in ("bare", "open", "waiting") and _word(words, i - 1) not in _CONJUNCTIONS
        )
    ):
        verb = _verb_after_condition(line, starts_condition, dues)
        if verb is not None:
            lead = _back_to_subject(words, i)
            return Clause(lead, lead, "waiting", verb[0], (starts_condition, verb[1]), lead_i=verb[1])
    if (found := waiting.at(words, i)) and not _is_opening_forget(words, i):
        k = found[1]
        while _word(words, k) in ("be", "go", "get", "really", "even", "quite") and _word(words, k + 1) in verbs():
            k += 1
        if _word(words, k) in verbs() or _word(words, k) in ing_forms():
            return Clause(_back_to_subject(words, i), 0, "waiting", k)
    if found := opening.at(words, i):
        k = _verb_at(words, found[1])
        if k is not None and not (word in ("need", "needs", "want") and counted_at(line, found[1])):
            return Clause(_back_to_subject(words, i), 0, "open", k)
    event = event_at(words, i)
    if event and counted_at(line, event[1]) and not _is_noun_here(words, i) and not _is_condition_verb(words, i):
        if not (in_task and event[0] == "cut" and False):
            return Clause(_back_to_subject(words, i), 0, "stock", i)
    if word in verbs() and _begins_task(line, i, last, starts, dues):
        return Clause(_back_to_subject(words, i), 0, "bare", i)
    if word in past_forms() and _begins_past(line, i, last, starts):
        return Clause(_back_to_subject(words, i), 0, "past", i)
    if word in ("finished", "done", "completed", "wrapped", "got", "finish") and _at_start(words, i, last):
        k = i + 1 + (_word(words, i + 1) in ("up", "off", "with"))
        if _word(words, k) in ing_forms():
            return Clause(_back_to_subject(words, i), 0, "finished", k)
        if word in ("finished", "completed") and (_word(words, k) in _DETERMINERS or k in line.places):
            return Clause(_back_to_subject(words, i), 0, "past", i)
    if word in ("waiting", "held") and after_at(words, i) is None:
        return None
    state = _state_at(line, i, last)
    if state is not None:
        return state
    if (
        word in ("it", "they", "that", "there")
        and in_task
        and _word(words, i + 1)
        in ("'s", "'re", "is", "are", "was", "were", "read", "reads", "took", "measures", "came", "cost")
        and not _tables()[5].at(words, i)
    ):
        if any(i < k <= i + 8 for k in line.figures):
            return Clause(_back_conj(words, i), 0, "facts", i)
    if (
        in_task
        and word in ("spent", "took", "that")
        and any(f.kind == "hours" and i < f.i <= i + 4 for f in line.figures.values())
    ):
        return Clause(_back_conj(words, i), 0, "facts", i)
    if in_task and word in _CONJUNCTIONS and _facts_follow(line, i + 1):
        return Clause(i, 0, "facts", i)
    return None


def _back_conj(words: Sequence[str], i: int) -> int:
    while i > 0 and words[i - 1] in _CONJUNCTIONS:
        i -= 1
    return i


def _is_opening_forget(words: Sequence[str], i: int) -> bool:
    return (
        (words[i] in ("don't", "do", "never")
        and bool(_tables()[0].at(words, i)))
        or _word(words, i + 1) in ("let", "forget", "remember", "know", "think")
    )


def _figure_opener(line: Line, i: int, starts: list[Clause]) -> Clause | None:
    """A figure that no task holds: hours after a task ("took down the staging three and a half hours")."""
    figure = line.figures[i]
    if not starts or starts[-1].opener in ("facts", "stock"):
        return None
    if figure.kind in ("hours",) and _word(line.words, i - 1) not in ("in", "within", "for", "at"):
        return Clause(_back_conj(line.words, i), 0, "facts", i)
    return None


def _facts_follow(line: Line, i: int) -> bool:
    """Whether what follows a conjunction is a fact of its own: it holds a figure that is no count of the task's object."""
    words = line.words
    end = next((k for k in range(i, len(words)) if words[k] in _CONJUNCTIONS and k not in _inside(line, k)), len(words))
    first = next((f for f in sorted(line.figures.values(), key=lambda f: f.i) if i <= f.i < end), None)
    if first is None:
        return False
    if first.kind in ("percent", "degrees", "hours", "slope", "money", "length"):
        return True
    if first.i > i and any(words[k] in ("is", "'s", "are", "'re", "was", "were") for k in range(i, first.i)):
        return True
    return any(d.i >= i and d.i < end for d in line.dimensions.values()) or bool(event_at(words, i))


def _inside(line: Line, k: int) -> range:
    for figure in line.figures.values():
        if figure.i < k < figure.j:
            return range(k, k + 1)
    return range(0)


def _verb_at(words: Sequence[str], k: int) -> int | None:
    """The bare verb that an opening phrase leads to, adverbs passed over."""
    for _ in range(3):
        if _word(words, k) in verbs() or (_word(words, k) in ("be", "have") and False):
            return k
        if _word(words, k) in (
            "also",
            "then",
            "just",
            "still",
            "really",
            "go",
            "come",
            "back",
            "and",
            "finish",
            "get",
            "someone",
            "somebody",
            "to",
            "quickly",
            "out",
        ):
            k += 1
            continue
        return None
    return None


def _object_follows(line: Line, i: int) -> bool:
    """Whether an object or a particle follows a verb, so that it is no noun."""
    words = line.words
    following = _word(words, i + 1)
    if following in _DETERMINERS or i + 1 in line.places:
        return True
    if following in _particles():
        after = _word(words, i + 2)
        return (
            after in _DETERMINERS
            or (after not in function_words()
            and after != ""
            and i + 2 not in line.figures)
            or i + 2 in line.places
        )
    return i + 1 in line.figures and line.figures[i + 1].kind in ("number", "section")


def _begins_task(line: Line, i: int, last: int, starts: list[Clause], dues: list[DueWord]) -> bool:
    words = line.words
    word, following = words[i], _word(words, i + 1)
    before = _word(words, i - 1)
    if (
        i + 1 >= len(words)
        or following in ("is", "'s", "are", "was", "were", "of", "reads", "by", "'re", "has")
        or _is_condition_verb(words, i)
    ):
        return False
    if any(d.i <= i < d.j for d in dues):
        return False
    if _at_start(words, i, last) and before not in (
        "we",
        "i",
        "they",
        "you",
        "have",
        "has",
        "'ve",
        "was",
        "were",
        "are",
        "am",
        "'m",
        "had",
        "'s",
        "'re",
        "'d",
    ):
        if word in _homographs() or word in thing_words():
            return _object_follows(line, i) or (
                following not in function_words()
                and i + 1 not in line.figures
                and word not in thing_words()
                and _no_copula(line, i)
                and following not in ("length", "height", "width")
            )
        return i + 1 not in line.dimensions or following in _DETERMINERS
    if before in _BLOCKS_VERB or before in _SUBJECTS:
        return False
    if i - 1 in line.dimensions or _inside_task_object(line, i, starts):
        return False
    return (
        (following in _DETERMINERS - {"that", "more", "last", "first", "new", "old", "second", "each", "every", "it"}
        and _no_copula(line, i))
        or (following in _particles() and _word(words, i + 2) in ("the", "a", "all", "those", "these"))
    )


def _inside_task_object(line: Line, i: int, starts: list[Clause]) -> bool:
    return bool(starts) and starts[-1].opener in ("open", "bare", "waiting") and i - starts[-1].verb <= 1


def _no_copula(line: Line, i: int) -> bool:
    """Whether no "is" with a figure follows before the next conjunction: a noun would be measured there."""
    words = line.words
    for k in range(i + 1, min(len(words), i + 7)):
        if words[k] in ("and", "then", "but", "once", "when", "before", "after", "till", "until"):
            return True
        if words[k] in ("is", "'s", "are", "reads", "was"):
            return False
        if k in line.figures and line.figures[k].kind in ("length", "percent", "slope", "degrees"):
            return False
    return True


def _begins_past(line: Line, i: int, last: int, starts: list[Clause]) -> bool:
    words = line.words
    word, following = words[i], _word(words, i + 1)
    before = _word(words, i - 1)
    if i + 1 >= len(words) or following in ("is", "'s", "are", "by", "was", "were"):
        return False
    if word in (
        "measured",
        "checked",
        "read",
        "counted",
        "left",
        "got",
        "went",
        "let",
        "ran",
        "found",
        "paid",
        "bought",
        "ordered",
        "spent",
        "called",
        "put",
    ) and not (
        word in ("put", "left", "called", "paid", "checked", "ran")
        and following in ("up", "in", "on", "down", "the")
        and not any(f.kind == "money" for f in line.figures.values())
    ):
        return False
    if word == "took" and not (following in _particles() or following in ("the", "out")):
        return False
    if word in verbs() and not (_at_start(words, i, last) and before in ("we", "i", "'ve", "have")):
        return False
    if not _at_start(words, i, last):
        return False
    return (
        following in _DETERMINERS
        or following in _particles()
        or i + 1 in line.places
        or (following not in function_words() and i + 1 not in line.figures)
    )


def _is_noun_here(words: Sequence[str], i: int) -> bool:
    return _word(words, i - 1) in ("the", "a", "an", "to", "can't", "this")


def _is_condition_verb(words: Sequence[str], i: int) -> bool:
    """Whether a verb stands in a condition ("before we set the sash", "after you cut the …")."""
    for k in range(i - 1, max(-1, i - 4), -1):
        if words[k] in ("before", "after", "until", "till", "once", "when", "while", "if"):
            return True
        if words[k] not in _SUBJECTS and words[k] not in ("can", "could", "to"):
            return False
    return False


def _verb_after_condition(line: Line, i: int, dues: list[DueWord]) -> tuple[int, int] | None:
    """The verb of the task whose condition begins at `i`, and the index after the condition."""
    words = line.words
    opening, waiting, *_ = _tables()
    for k in range(i + 1, len(words)):
        if k in line.figures:
            continue
        found = opening.at(words, k) or (waiting.at(words, k) if words[k] in ("we", "i") else None)
        subject = k
        if words[k] in ("we", "i", "you") and _word(words, k + 1) in (
            "can",
            "need",
            "have",
            "'ll",
            "should",
            "must",
            "will",
        ):
            found = opening.at(words, k + 1)
            if found is None and words[k + 1] in ("can", "will", "'ll"):
                found = ("open", k + 2)
        if found:
            verb = _verb_at(words, found[1])
            if verb is not None:
                return verb, subject
        if (
            words[k] in verbs()
            and words[k - 1] not in _BLOCKS_VERB
            and (
                _object_follows(line, k)
                or (words[k] not in _homographs()
                and k + 1 < len(words)
                and _word(words, k + 1) not in ("is", "'s", "are"))
            )
        ):
            return k, k
    return None


def _state_at(line: Line, i: int, last: int) -> Clause | None:
    """ "Chinking's all done", "they're all pegged", "the door needs hanging" at the copula."""
    words = line.words
    done, needs, that = _tables()[3], _tables()[6], _tables()[5]
    if that.at(words, i):
        return None
    if words[i] in ("is", "'s", "are", "'re", "was", "were", "got", "has", "have"):
        k = i + 1
        while _word(words, k) in (
            "all",
            "finally",
            "now",
            "both",
            "completely",
            "already",
            "just",
            "fully",
            "been",
            "nearly",
            "well",
        ):
            k += 1
        start = _subject_start(line, i, last)
        if start is None:
            return None
        if words[i] in ("has", "have") and _word(words, i + 1) != "been":
            return None
        finished = done.at(words, k) if k < len(words) else None
        if (
            finished
            and _state_ends(line, finished[1])
            and (
                _word(words, k) in ("done", "finished", "complete", "completed")
                or ("all" in words[i:k]
                and _word(words, k) in ("in", "up", "on"))
            )
        ):
            return Clause(start, 0, "is done", i, lead_i=start)
        if (
            _word(words, k) in past_forms()
            and _word(words, k)
            not in ("left", "got", "found", "made", "set", "read", "bent", "wound", "square", "cut", "measured")
            and _state_ends(line, k + 1)
            and words[i] not in ("was", "were")
        ):
            return Clause(start, 0, "is done", i, lead_i=start)
    if (found := needs.at(words, i)) and i > last:
        k = found[1]
        start = _subject_start(line, i, last)
        if start is not None and (
            _word(words, k) in ing_forms()
            or (words[k - 1] == "be"
            and _word(words, k) in past_forms())
            or (_word(words, k) == "a"
            and _word(words, k + 1) in verbs()
            and False)
        ):
            return Clause(start, 0, "needs", k, lead_i=start)
    return None


def _state_ends(line: Line, k: int) -> bool:
    words = line.words
    return (
        k >= len(words)
        or words[k]
        in (
            "and",
            "but",
            "so",
            "now",
            "on",
            "in",
            "at",
            "up",
            "took",
            "then",
            "finally",
            "today",
            "yesterday",
            "for",
            "that",
            "this",
            "out",
            "down",
            "with",
            "over",
            "they",
            "it",
            "already",
        )
        or k in line.figures
    )


def _subject_start(line: Line, i: int, last: int) -> int | None:
    """The first word of the subject before a copula."""
    words = line.words
    k = i
    while (
        k > last
        and words[k - 1] not in _CONJUNCTIONS
        and words[k - 1] not in ("once", "when", "till", "until", "after", "before", "if", "because", "hours")
    ):
        if any(f.i < k <= f.j for f in line.figures.values()):
            break
        k -= 1
    if k == i:
        return None
    if k > 0 and words[k - 1] in ("once", "when", "till", "until", "after", "before", "if", "because"):
        return None
    return _back_conj(words, k)
