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
from journal.extract.sets import words_of
from journal.extract.stockwords import counted_at, event_at, names_stock
from journal.extract.unitwords import burned_at
from journal.extract.vocabulary import function_words, ing_forms, past_forms, thing_words, verbs
from journal.grammar import table

Opener = Literal["open", "waiting", "bare", "past", "finished", "is done", "needs", "stock", "facts"]
TASKS = frozenset({"open", "waiting", "bare", "past", "finished", "is done", "needs"})


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
def _phrases(part: str, key: str) -> Phrases[str]:
    return Phrases.of(table("tasks")[part][key], key)


@cache
def _homographs() -> frozenset[str]:
    return frozenset(table("tasks")["homographs"])


@cache
def _particles() -> frozenset[str]:
    return frozenset(table("tasks")["particles"])


def after_at(words: Sequence[str], i: int) -> int | None:
    """The index after a word that leads in a condition at `i` ("once", "as soon as")."""
    found = _phrases("after", "words").at(words, i) if i < len(words) else None
    return found[1] if found else None


def that_is_done_at(words: Sequence[str], i: int) -> int | None:
    """The index after "so that's done" and the like at `i`."""
    found = _phrases("done", "that_is").at(words, i)
    return found[1] if found else None


def find_clauses(line: Line, dues: list[DueWord]) -> list[Clause]:
    """The line cut into tasks and stretches of facts, in order, without gaps."""
    return _Finder(line, dues).clauses()


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


class _Finder:
    """Walks a line once and notes where clauses begin."""

    __slots__ = ("dated", "dues", "last", "line", "starts", "words")

    def __init__(self, line: Line, dues: list[DueWord]) -> None:
        self.line, self.dues, self.words = line, dues, line.words
        self.starts: list[Clause] = []
        self.last = 0
        self.dated = {k for due in dues for k in range(due.i, due.j)}

    def clauses(self) -> list[Clause]:
        words, starts = self.words, self.starts
        i = 0
        while i < len(words):
            clause = self._opener(i)
            if clause is not None:
                clause.i = self._with_date_before(clause.i)
                if starts:
                    clause.i = max(clause.i, starts[-1].i + 1)
                starts.append(clause)
                self.last = max(clause.verb + 1, i + 1)
            figure, place, label = self.line.figures.get(i), self.line.places.get(i), self.line.labels.get(i)
            i = max(
                i + 1,
                figure.j if figure else 0,
                place.j if place else 0,
                label[0] if label else 0,
                self.last if clause else 0,
            )
        found: list[Clause] = []
        if not starts or starts[0].i > 0:
            found.append(Clause(0, starts[0].i if starts else len(words), "facts"))
        for n, start in enumerate(starts):
            start.j = starts[n + 1].i if n + 1 < len(starts) else len(words)
            found.append(start)
        return found

    def _with_date_before(self, i: int) -> int:
        """A date right before a task is its own: "a week from friday pour the footings"."""
        due = next((d for d in self.dues if d.j == i), None)
        if due is None:
            return i
        start = due.i
        while start > 0 and self.words[start - 1] in words_of("conjunctions"):
            start -= 1
        return start if start == 0 or start < due.i else i

    def _opener(self, i: int) -> Clause | None:
        words, line, word = self.words, self.line, self.words[i]
        in_task = bool(self.starts) and self.starts[-1].opener in TASKS
        if i in line.figures:
            figure = line.figures[i]
            if in_task and figure.kind == "hours" and _word(words, i - 1) not in ("in", "within", "for", "at", "after"):
                return Clause(self._back_conjunction(i), 0, "facts", i)
            if in_task and figure.kind in ("number", "section") and i > self.last and names_stock(words, figure.j):
                event = next((k for k in range(figure.j, min(figure.j + 7, len(words))) if event_at(words, k)), None)
                if event is not None and (
                    event == len(words) - 1 or words[event : event + 2] in (["left", "over"], ["came", "in"])
                ):
                    return Clause(self._back_conjunction(i), 0, "facts", i)
            return None
        if i in line.places or i in line.labels or i in self.dated:
            return None
        return (
            self._condition_first(i)
            or self._said_openly(i)
            or self._stock(i)
            or self._verb(i)
            or self._state(i)
            or (self._facts(i) if in_task else None)
            if word
            else None
        )

    def _at_start(self, i: int) -> bool:
        """Whether word `i` may begin something new: the first word, or after a conjunction and a subject."""
        words, k = self.words, i
        while k > self.last and words[k - 1] in words_of("subjects"):
            k -= 1
        if k == 0 or words[k - 1] in words_of("conjunctions") or k - 1 in self.dated:
            return True
        if any(p.j == k for p in self.line.places.values()):
            return True
        return k < i and words[k] in words_of("people")

    def _back_to_subject(self, i: int) -> int:
        k = i
        while k > self.last and self.words[k - 1] in words_of("subjects"):
            k -= 1
        return self._back_conjunction(k)

    def _back_conjunction(self, i: int) -> int:
        while i > self.last and self.words[i - 1] in words_of("conjunctions") and self.line.figure_over(i - 1) is None:
            i -= 1
        return i

    # ---- tasks with a lead-in -------------------------------------------------------------------------------------

    def _condition_first(self, i: int) -> Clause | None:
        """ "Once the plaster's dry prime …", "waiting on the glass before we can set …"."""
        words = self.words
        condition = after_at(words, i)
        if condition is None or not self._at_start(i):
            return None
        if (
            self.starts
            and self.starts[-1].opener in ("bare", "open", "waiting")
            and _word(words, i - 1) not in words_of("conjunctions")
        ):
            return None
        verb = self._verb_after_condition(condition, words[i])
        if verb is None:
            return None
        return Clause(self._back_to_subject(i), 0, "waiting", verb[0], (condition, verb[1]))

    def _verb_after_condition(self, i: int, led: str) -> tuple[int, int] | None:
        """The verb of the task whose condition begins at `i`, and the index after the condition."""
        words, line = self.words, self.line
        opening, waiting = _phrases("openings", "phrases"), _phrases("waiting", "phrases")
        for k in range(i + 1, len(words)):
            if k in line.figures or k in self.dated:
                continue
            subject = k + (words[k] == "before")
            s = subject + (_word(words, subject) in words_of("people"))
            found = (
                opening.at(words, s)
                if s < len(words) and (s > subject or words[s] not in ("can", "will", "go", "to"))
                else None
            )
            if found is None and s > subject and _word(words, s) in ("can", "will", "'ll", "could"):
                found = ("open", s + 1)
            if found is None and led in ("waiting", "held", "wait") and words[k] in ("to", "before"):
                found = ("open", k + 1)
            if found:
                verb = self._verb_at(found[1])
                if verb is not None:
                    return verb, k
            plain = (
                words[k] not in _homographs() and _word(words, k + 1) not in words_of("copulas") and k + 1 < len(words)
            )
            after_been = words[k - 1] == "been" and words[k] not in past_forms() and self._object_follows(k)
            if words[k] in verbs() and (
                after_been or (words[k - 1] not in words_of("block_verb") and (self._object_follows(k) or plain))
            ):
                return k, k
            if s > subject and waiting.at(words, s):
                return None
        return None

    def _said_openly(self, i: int) -> Clause | None:
        """ "Need to …", "don't forget to …", "can't … till"."""
        words = self.words
        opening = _phrases("openings", "phrases").at(words, i)
        waiting = _phrases("waiting", "phrases").at(words, i)
        if waiting and not opening and _word(words, waiting[1]) not in ("let", "forget", "remember", "know", "think"):
            k = waiting[1]
            while (
                _word(words, k) in ("be", "go", "get", "really", "even", "quite", "to")
                and _word(words, k + 1) in verbs()
            ):
                k += 1
            if _word(words, k) in verbs() or _word(words, k) in ing_forms():
                return Clause(self._back_to_subject(i), 0, "waiting", k)
        if words[i] in ("haven't", "hasn't") and _word(words, i + 1) in past_forms() and self._object_follows(i + 1):
            return Clause(self._back_to_subject(i), 0, "open", i + 1)
        if opening and words[i] not in ("to",):
            verb = self._verb_at(opening[1])
            weak = words[i] in ("go", "can", "will", "better", "please", "shall")
            if (
                verb is not None
                and not (words[i] in ("need", "needs", "want") and counted_at(self.line, opening[1]))
                and not (weak and not self._at_start(i))
                and not self._in_condition(i)
            ):
                return Clause(self._back_to_subject(i), 0, "open", verb)
        return None

    def _verb_at(self, k: int) -> int | None:
        """The bare verb that an opening phrase leads to, adverbs passed over."""
        for _ in range(3):
            if _word(self.words, k) in verbs() and not (
                _word(self.words, k) in ("get", "finish") and _word(self.words, k + 1) in verbs()
            ):
                return k
            if _word(self.words, k) not in words_of("before_verb"):
                return None
            k += 1
        return None

    def _in_condition(self, i: int) -> bool:
        """Whether a verb stands in a condition ("before we can set …", "after you cut the …")."""
        for k in range(i - 1, max(-1, i - 4), -1):
            if self.words[k] in words_of("condition_lookback"):
                return True
            if self.words[k] not in words_of("subjects") and self.words[k] not in ("can", "could", "to"):
                return False
        return False

    # ---- stock and bare verbs -------------------------------------------------------------------------------------

    def _stock(self, i: int) -> Clause | None:
        words = self.words
        event = event_at(words, i)
        if event is None or not counted_at(self.line, event[1]) or self._in_condition(i):
            return None
        in_place = any(p.j == i for p in self.line.places.values())
        if _word(words, i - 1) in ("the", "a", "an", "to", "can't", "this") and words[i] != "left" and not in_place:
            return None
        if self._ends_a_lot(i, event[1]):
            return None
        if event[0] == "left over" or words[i] in ("in", "over", "short", "spare"):
            return None
        if words[i] in ("have", "has", "got", "'ve") and self._measured_ahead(event[1]):
            return None
        if (
            words[i] in ("put", "cut", "laid", "installed", "counted")
            and self._measured_ahead(event[1])
            and not names_stock(words, event[1] + 1)
        ):
            return None
        return Clause(self._back_to_subject(i), 0, "stock", i)

    def _ends_a_lot(self, i: int, after: int) -> bool:
        """ "Two rolls used one left": the event is that of the count before it, since the next has its own."""
        before = next((f for f in self.line.figures.values() if f.kind == "number" and f.j < i and i - f.j <= 3), None)
        if before is None or any(w in function_words() for w in self.words[before.j : i]):
            return False
        following = next((f for k, f in self.line.figures.items() if after <= k <= after + 1), None)
        return following is not None and _word(self.words, following.j) in ("left", "to")

    def _measured_ahead(self, k: int) -> bool:
        """Whether the next figure is a length with a unit ("we have an inch and a half of fall")."""
        figure = next((f for i, f in sorted(self.line.figures.items()) if i >= k), None)
        return (
            figure is not None
            and figure.kind == "length"
            and figure.unit != ""
            and not names_stock(self.words, figure.j)
        )

    def _object_follows(self, i: int) -> bool:
        """Whether an object or a particle follows a verb, so that it is no noun."""
        words, line = self.words, self.line
        following = _word(words, i + 1)
        if following in words_of("determiners") or i + 1 in line.places:
            return not (following == "that" and _word(words, i + 2) in words_of("copulas"))
        if following in _particles():
            after = _word(words, i + 2)
            if after in words_of("determiners") or i + 2 in line.places:
                return True
            return after not in function_words() and after != "" and i + 2 not in line.figures
        return (
            i + 1 in line.figures
            and line.figures[i + 1].kind in ("number", "section")
            and names_stock(words, line.figures[i + 1].j)
        )

    def _verb(self, i: int) -> Clause | None:
        words = self.words
        word = words[i]
        if word in verbs() and self._is_order(i):
            return Clause(self._back_to_subject(i), 0, "bare", i)
        if word in ("finished", "done", "completed") and _word(words, i + 1) in ing_forms() and self._at_start(i):
            return Clause(self._back_to_subject(i), 0, "finished", i + 1)
        if word in past_forms() and self._is_past(i):
            return Clause(self._back_to_subject(i), 0, "past", i)
        if word in ("finish", "start", "keep", "stop") and self._ordered_work(i):
            return Clause(self._back_to_subject(i), 0, "bare", i)
        if word in ("finished", "done", "completed", "wrapped", "got", "stopped") and self._at_start(i):
            k = i + 1 + (_word(words, i + 1) in ("up", "off", "with"))
            if _word(words, k) in ing_forms():
                return Clause(self._back_to_subject(i), 0, "finished", k)
            if word in ("finished", "completed") and (
                _word(words, k) in words_of("determiners") or k in self.line.places
            ):
                return Clause(self._back_to_subject(i), 0, "past", i)
        return None

    def _ordered_work(self, i: int) -> bool:
        """ "Finish sanding the floor" is an order; "i finish …" is none."""
        words = self.words
        return (
            self._at_start(i)
            and _word(words, i - 1) not in words_of("auxiliaries")
            and _word(words, i + 1) in ing_forms()
            and not self._in_condition(i)
        )

    def _is_order(self, i: int) -> bool:
        words, line = self.words, self.line
        word, following, before = words[i], _word(words, i + 1), _word(words, i - 1)
        if (
            i + 1 >= len(words)
            or following in words_of("not_verb_before")
            or i + 1 in line.labels
            or self._in_condition(i)
        ):
            return False
        if any(f.kind == "hours" and i < k <= i + 2 for k, f in line.figures.items()):
            return False
        noun_too = word in _homographs() or word in thing_words()
        if self._at_start(i) and before not in words_of("auxiliaries"):
            if not self._no_copula(i):
                return False
            if noun_too:
                plural = following.endswith("s") and following not in function_words() and not following.startswith("'")
                return self._object_follows(i) or (
                    plural and i + 1 not in line.figures and i + 1 not in line.dimensions
                )
            return (i + 1 not in line.dimensions and i + 1 not in line.figures) or self._object_follows(i)
        if before in words_of("block_verb") or before in words_of("subjects"):
            return False
        if (i - 1 in line.dimensions and not line.dimensions[i - 1].adjective) or self._right_after_verb(i):
            return False
        if following in words_of("determiners") - words_of("weak_determiners"):
            return self._no_copula(i)
        return (
            not noun_too and following in _particles() and _word(words, i + 2) in ("the", "a", "all", "those", "these")
        )

    def _right_after_verb(self, i: int) -> bool:
        return (
            bool(self.starts)
            and self.starts[-1].opener in ("open", "bare", "waiting")
            and i - self.starts[-1].verb <= 1
        )

    def _no_copula(self, i: int) -> bool:
        """Whether no "is" and no length follows before the next conjunction: a noun would be measured there."""
        for k in range(i + 1, min(len(self.words), i + 9)):
            if k in self.dated:
                continue
            word = self.words[k]
            if word in ("and", "then", "but") or word in words_of("condition_lookback"):
                return True
            if k > i + 1 and that_is_done_at(self.words, k):
                return True
            if word in ("is", "'s", "are", "reads", "was"):
                return False
            figure = self.line.figures.get(k)
            if figure is not None and (
                figure.kind in ("percent", "slope", "degrees", "money")
                or (figure.kind == "length" and _word(self.words, k - 1) not in ("to", "at", "by", "every"))
            ):
                return False
        return True

    def _is_past(self, i: int) -> bool:
        words, line = self.words, self.line
        word, following, before = words[i], _word(words, i + 1), _word(words, i - 1)
        if (
            i + 1 >= len(words)
            or following in words_of("not_verb_before")
            or not self._at_start(i)
            or i + 1 in line.labels
        ):
            return False
        if any(f.kind == "hours" and i < k <= i + 2 for k, f in line.figures.items()):
            return False
        has_money = any(f.kind == "money" for f in line.figures.values())
        if word in words_of("no_task_past") and not (
            word in ("put", "left", "called", "picked")
            and following in ("up", "in", "on", "down", "the")
            and not has_money
        ):
            return False
        if burned_at(words, i) is not None:
            return False
        if event_at(words, i) and before == "and" and following in words_of("prepositions"):
            return False
        if word == "took" and following not in _particles() and following != "the":
            return False
        if word in verbs() and before not in ("we", "i", "'ve", "have"):
            return False
        counted = line.figures.get(i + 1)
        if counted is not None:
            return counted.kind in ("number", "section") and names_stock(words, counted.j) and not has_money
        return (
            following in words_of("determiners")
            or following in _particles()
            or i + 1 in line.places
            or (following not in function_words() and i + 1 not in line.dimensions)
        )

    # ---- states ---------------------------------------------------------------------------------------------------

    def _state(self, i: int) -> Clause | None:
        """ "Chinking's all done", "they're all pegged", "the door needs hanging" at the copula."""
        words = self.words
        if words[i] in ("is", "'s", "are", "'re", "has", "have", "got"):
            return self._is_done(i)
        if words[i] in ("want", "need", "wants", "needs") and _word(words, i + 1) in (
            "the",
            "those",
            "these",
            "that",
            "all",
            "both",
        ):
            k = next(
                (
                    n
                    for n in range(i + 2, min(i + 7, len(words)))
                    if words[n] in past_forms() and words[n] not in words_of("no_state")
                ),
                None,
            )
            if k is not None and (
                k + 1 >= len(words)
                or words[k + 1] in words_of("state_ends") | {"before", "by", "after", "once"}
                or k + 1 in self.dated
            ):
                return Clause(self._back_to_subject(i), 0, "needs", k, subject=i + 1)
        needs = _phrases("needs", "phrases").at(words, i)
        if needs and i > self.last - 1:
            k, start = needs[1], self._subject_start(i)
            if start is not None and (
                _word(words, k) in ing_forms() or (words[k - 1] == "be" and _word(words, k) in past_forms())
            ):
                return Clause(self._back_conjunction(start), 0, "needs", k, subject=start)
        return None

    def _is_done(self, i: int) -> Clause | None:
        words = self.words
        if words[i] in ("has", "have", "got") and _word(words, i + 1) not in ("been", "all"):
            return None
        k = i + 1
        while _word(words, k) in words_of("adverbs"):
            k += 1
        start = self._subject_start(i)
        if start is None or words[start:i] in (["this"], ["there"], ["what"]):
            return None
        if words[start:i] == ["that"] and not self._hours_told(i):
            return None
        if words[i - 1] in words_of("own_tools"):
            return None
        word = _word(words, k)
        ends = (
            k + 1 >= len(words)
            or words[k + 1] in words_of("state_ends")
            or k + 1 in self.line.figures
            or k + 1 in self.dated
        )
        if not ends or self._in_condition(start) or any(after_at(words, n) for n in range(self.last, start)):
            return None
        whole = word in ("done", "finished", "complete", "completed") or (
            "all" in words[i:k] and word in ("in", "up", "on")
        )
        if whole or (word in past_forms() and word not in words_of("no_state")):
            if k + 1 in self.line.figures and self.line.figures[k + 1].kind == "length":
                return None
            return Clause(self._back_conjunction(start), 0, "is done", i, subject=start)
        return None

    def _hours_told(self, i: int) -> bool:
        """Whether the stretch before word `i` told hours, so that "that's finished" says their work is done."""
        told = any(f.kind == "hours" and f.j < i for f in self.line.figures.values())
        return told and (not self.starts or self.starts[-1].opener == "facts")

    def _subject_start(self, i: int) -> int | None:
        """The first word of the subject before a copula; None where it stands in a condition."""
        words, k = self.words, i
        if _word(words, i - 1) in ("they", "it"):
            return i - 1
        while (
            k > self.last
            and words[k - 1] not in words_of("conjunctions")
            and words[k - 1] not in words_of("condition_words")
        ):
            if self.line.figure_over(k - 1) is not None or k - 1 in self.dated:
                break
            k -= 1
            if (
                words[k] in ("the", "all", "every", "both")
                and k
                and words[k - 1] not in words_of("prepositions") | {"all", "both", "of"}
            ):
                break
        if k == i or (k > 0 and words[k - 1] in words_of("condition_words") - {"hours"}):
            return None
        return k

    # ---- facts after a task ---------------------------------------------------------------------------------------

    def _facts(self, i: int) -> Clause | None:
        words, line = self.words, self.line
        word = words[i]
        if that_is_done_at(words, i):
            return None
        ahead = [f for k, f in line.figures.items() if i < k <= i + 8]
        joined_on = _word(words, i - 1) in ("and", "but") and _word(words, i + 1) in words_of("copulas")
        if (
            word in words_of("facts_pronouns")
            and _word(words, i + 1) in words_of("facts_verbs")
            and (ahead or joined_on)
        ):
            return Clause(self._back_conjunction(i), 0, "facts", i)
        if word in ("spent", "took", "that") and any(f.kind == "hours" and f.i <= i + 4 for f in ahead):
            return Clause(self._back_conjunction(i), 0, "facts", i)
        if word in words_of("conjunctions") and line.figure_over(i) is None and self._facts_follow(i + 1):
            return Clause(i, 0, "facts", i)
        return None

    def _facts_follow(self, i: int) -> bool:
        """Whether what follows a conjunction is a fact of its own: its figure is no count of the task's object."""
        words, line = self.words, self.line
        end = next(
            (k for k in range(i, len(words)) if words[k] in words_of("conjunctions") and line.figure_over(k) is None),
            len(words),
        )
        first = next((f for k, f in sorted(line.figures.items()) if i <= k < end), None)
        if first is None:
            return False
        if (
            first.kind == "length"
            and names_stock(words, first.j)
            and not any(words[k] in words_of("copulas") for k in range(i, end))
        ):
            return False
        if first.kind in ("percent", "degrees", "hours", "slope", "money", "length"):
            return not (words[i] in verbs() and self._object_follows(i))
        if first.i > i and any(words[k] in words_of("copulas") for k in range(i, first.i)):
            return True
        if first.i == i and names_stock(words, first.j) and any(event_at(words, k) for k in range(first.j, end)):
            return True
        return any(i <= k < end for k in line.dimensions) or bool(event_at(words, i))
