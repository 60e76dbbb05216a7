"""A line while it is cut into clauses: what has begun, where it began, and what stands beside a word of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from journal.extract.due import DueWord
from journal.extract.line import Line
from journal.extract.numbers import number_words
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.stockwords import names_stock
from journal.extract.unitwords import word_at
from journal.extract.vocabulary import function_words, ing_forms, verbs
from journal.grammar import table

Opener = Literal[
    "open",
    "waiting",
    "bare",
    "past",
    "finished",
    "is done",
    "needs",
    "needs a coat",
    "had done",
    "waits",
    "stock",
    "facts",
]


TASKS = frozenset(
    {"open", "waiting", "bare", "past", "finished", "is done", "needs", "needs a coat", "had done", "waits"}
)


@dataclass(slots=True)
class Clause:
    """Words `i` to `j` that say one task, or facts. `verb` is where the verb stands, `condition` a condition said first.

    `subject` is where the subject of "the door is hung" begins.
    """

    i: int
    j: int
    opener: Opener
    verb: int = -1
    condition: tuple[int, int] | None = None
    subject: int = -1


@cache
def task_phrases(part: str, key: str) -> Phrases[str]:
    """The phrases of `key` in the table `part` of `grammars/tasks.toml`."""
    return Phrases.of(table("tasks")[part][key], key)


@cache
def particles() -> frozenset[str]:
    """Words that go with a verb and are none ("up", "off")."""
    return frozenset(table("tasks")["particles"])


def that_is_done_at(words: Sequence[str], i: int) -> int | None:
    """The index after "so that's done" and the like at `i`."""
    found = task_phrases("done", "that_is").at(words, i)
    return found[1] if found else None


def _afterwards(words: Sequence[str], due: DueWord) -> int:
    """Where the words begin that give a day to the task before them: "… that's for sunday"; the day itself where there are none."""
    lead = task_phrases("due", "afterwards").ending_at(words, due.i)
    return lead[1] if lead is not None else due.i


class Utterance:
    """A line while it is cut: the clauses begun so far, and `last`, the first word that a new one may take."""

    __slots__ = ("afterwards", "dated", "dues", "last", "line", "starts", "words")

    def __init__(self, line: Line, dues: list[DueWord]) -> None:
        self.line, self.dues, self.words = line, dues, line.words
        self.starts: list[Clause] = []
        self.last = 0
        self.dated = {k for due in dues for k in range(due.i, due.j)}
        self.afterwards = {k for due in dues for k in range(_afterwards(self.words, due), due.i)}

    def at_start(self, i: int) -> bool:
        """Whether word `i` may begin something new: the first word, or after a conjunction and a subject."""
        words, k = self.words, i
        while k > self.last and words[k - 1] in words_of("subjects"):
            k -= 1
        if words[k - 1] == "do" and words[k] in verbs():  # "but do order the spikes"
            k -= 1
        if k == 0 or words[k - 1] in words_of("conjunctions") or k - 1 in self.dated or "then" in words[k:i]:
            return True
        if any(p.j == k for p in self.line.places.values()):
            return True
        if words[k - 1] == "is" and not self.starts and not words_of("heads_a_list").isdisjoint(words[: k - 1]):
            return True
        return k < i and words[k] in words_of("people")

    def told_as_done(self, i: int) -> bool:
        """Whether a verb whose past is its bare form tells of work done: "we already set …", "swept the flue and reset …"."""
        words, k = self.words, i
        while k > self.last and words[k - 1] in words_of("subjects"):
            k -= 1
        subject = words[k:i]
        if subject and (words[i - 1] in ("already", "finally", "just") and set(subject) & words_of("people")):
            return True
        begun = bool(self.starts) and self.starts[-1].opener == "past" and words[i - 1] == "and"
        return (
            begun
            and not any(word in words_of("condition_words") for word in words[i:])
            and not any(d.i > i for d in self.dues)
        )

    def back_to_subject(self, i: int) -> int:
        """Where the clause of a verb at word `i` begins: its subject and the conjunction before go with it."""
        k = i - (i > self.last and self.words[i - 1] == "do" and self.words[i] in verbs())
        while k > self.last and self.words[k - 1] in words_of("subjects"):
            k -= 1
        return self.back_to_conjunction(k)

    def back_to_conjunction(self, i: int) -> int:
        """The first of the conjunctions right before word `i`, else `i`."""
        while i > self.last and self.words[i - 1] in words_of("conjunctions") and self.line.figure_over(i - 1) is None:
            i -= 1
        return i

    def verb_at(self, k: int) -> int | None:
        """The bare verb that an opening phrase leads to, adverbs passed over."""
        for _ in range(3):
            if word_at(self.words, k) in verbs() and not (
                word_at(self.words, k) in ("get", "finish") and word_at(self.words, k + 1) in verbs()
            ):
                return k
            if word_at(self.words, k) in ing_forms() and word_at(self.words, k - 1) in (
                "about",
                "mind",
                "with",
                "on",
                "to",
            ):
                return k
            if word_at(self.words, k) not in words_of("before_verb"):
                return None
            k += 1
        return None

    def in_condition(self, i: int) -> bool:
        """Whether a verb stands in a condition ("before we can set …", "after you cut the …")."""
        for k in range(i - 1, max(-1, i - 4), -1):
            if self.words[k] in words_of("condition_lookback"):
                return True
            if self.words[k] not in words_of("subjects") and self.words[k] not in ("can", "could", "to"):
                return False
        return False

    def object_follows(self, i: int) -> bool:
        """Whether an object or a particle follows a verb, so that it is no noun."""
        words, line = self.words, self.line
        following = word_at(words, i + 1)
        figure = line.figures.get(i + 1)
        if figure is not None and (figure.shade is not None or figure.j in line.dimensions):
            return False  # "brace a scant forty nine", "tile eighty nine long"
        if following in words_of("determiners") or i + 1 in line.places:
            return not (following == "that" and word_at(words, i + 2) in words_of("copulas"))
        if following in particles():
            after = word_at(words, i + 2)
            if after in number_words():  # "back in ten minutes"
                return False
            if after in words_of("determiners") or i + 2 in line.places:
                return True
            return after not in function_words() and after != "" and i + 2 not in line.figures
        return (
            i + 1 in line.figures
            and line.figures[i + 1].kind in ("number", "section")
            and names_stock(words, line.figures[i + 1].j)
        )
