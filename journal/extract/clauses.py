"""Where one thing said ends and the next begins: stretches of a line that are tasks, and those that are facts.

A task begins at its verb ("caulk the …", "need to caulk …", "caulked the …") or at the condition before it ("once the
plaster's dry prime …"), and ends where something else begins.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cache

from journal.extract.conditions import open_task, open_words, waiting_task
from journal.extract.due import DueWord
from journal.extract.line import Figure, Line
from journal.extract.orders import order_or_past, unknown_verb, verb_words
from journal.extract.placewords import DETERMINERS
from journal.extract.pointed import counted_after
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.states import state, state_words
from journal.extract.stockwords import counted_at, event_at, events, names_stock, section_follows
from journal.extract.unitwords import word_at
from journal.extract.utterance import TASKS, Clause, Utterance, task_phrases, that_is_done_at
from journal.extract.vocabulary import function_words, verbs


def find_clauses(line: Line, dues: list[DueWord]) -> list[Clause]:
    """The line cut into tasks and stretches of facts, in order, without gaps."""
    said = Utterance(line, dues)
    words, starts = said.words, said.starts
    ends = {i: end for i, (end, _) in line.labels.items()}
    for marked in (line.figures, line.places):
        ends |= {i: max(ends.get(i, 0), found.j) for i, found in marked.items()}
    i = 0
    while i < len(words):
        clause = _opener(said, i)
        if clause is not None:
            clause.i = _with_date_before(said, clause.i)
            if starts:
                clause.i = max(clause.i, starts[-1].i + 1)
            starts.append(clause)
            said.last = max(said.last, clause.verb + 1, i + 1)
            i = max(ends.get(i, i + 1), said.last)
        else:
            i = ends.get(i, i + 1)
    found: list[Clause] = []
    if not starts or starts[0].i > 0:
        found.append(Clause(0, starts[0].i if starts else len(words), "facts"))
    for n, start in enumerate(starts):
        start.j = starts[n + 1].i if n + 1 < len(starts) else len(words)
        found.append(start)
    return found


def _with_date_before(said: Utterance, i: int) -> int:
    """A date right before a task is its own: "a week from friday pour the footings"."""
    due = next((d for d in said.dues if d.j in (i, _before_place(said, i))), None)
    if due is None:
        return i
    start = due.i
    while start > 0 and said.words[start - 1] in words_of("conjunctions"):
        start -= 1
    own = start == 0 or start < due.i or any(d.j == due.i for d in said.dues)
    return start if own else i


def _before_place(said: Utterance, i: int) -> int:
    """Where "in the barn" begins, which ends at word `i`; `i` itself where no place does."""
    place = next((p for p in said.line.places.values() if p.j == i), None)
    if place is None:
        return i
    k = place.i - (place.i > 0 and said.words[place.i - 1] in DETERMINERS)
    while k > 0 and said.words[k - 1] in words_of("place_prepositions", "place_particles"):
        k -= 1
    return k


_Rule = Callable[[Utterance, int], Clause | None]


@cache
def _rules() -> dict[str, tuple[_Rule, ...]]:
    """The rules that can open a clause at a word, in the order in which they are asked; any word may be an unknown order."""
    rules: tuple[tuple[frozenset[str], _Rule], ...] = (
        (task_phrases("after", "words").first_words(), waiting_task),
        (open_words(), open_task),
        (events().first_words(), _stock),
        (verb_words(), order_or_past),
        (state_words(), state),
    )
    known = frozenset().union(*(words for words, _ in rules))
    return {word: tuple(_rules_at(word, rules)) for word in known}


def _rules_at(word: str, rules: Iterable[tuple[frozenset[str], _Rule]]) -> Iterator[_Rule]:
    for words, rule in rules:
        if word in words:
            yield rule
        elif rule is order_or_past:
            yield unknown_verb


_AT_ANY_WORD: tuple[_Rule, ...] = (unknown_verb,)


def _opener(said: Utterance, i: int) -> Clause | None:
    line = said.line
    in_task = bool(said.starts) and said.starts[-1].opener in TASKS
    if i in line.figures:
        return _figure(said, line.figures[i]) if in_task else None
    if said.words[i] == "'s" and line.inside_place(i):
        return None
    if i in line.places or i in line.labels or i in said.dated or (in_task and i in said.afterwards):
        return None
    for rule in _rules().get(said.words[i], _AT_ANY_WORD):
        clause = rule(said, i)
        if clause is not None:
            return clause
    return _facts(said, i) if in_task else None


# "Get it for forty dollars", "sell it at four dollars": the money belongs to the work.
_MONEY_LED = words_of("prepositions") | {"than", "the", "a", "another", "with", "about", "least", "most"}


def _figure(said: Utterance, figure: Figure) -> Clause | None:
    """Facts that begin with their figure, right after a task: "… four hours", "… two tubes left"."""
    words, i = said.words, figure.i
    if (figure.kind == "money" or figure.per) and i > said.last and word_at(words, i - 1) not in _MONEY_LED:
        return Clause(i, 0, "facts", i)
    if figure.kind == "hours" and word_at(words, i - 1) not in ("in", "within", "for", "at", "after"):
        return Clause(said.back_to_conjunction(i), 0, "facts", i)
    if figure.kind in ("number", "section") and i > said.last and names_stock(words, figure.j):
        event = next((k for k in range(figure.j, min(figure.j + 7, len(words))) if event_at(words, k)), None)
        if event is not None and (
            event == len(words) - 1 or words[event : event + 2] in (["left", "over"], ["came", "in"])
        ):
            return Clause(said.back_to_conjunction(i), 0, "facts", i)
    return None


def _stock(said: Utterance, i: int) -> Clause | None:
    """Stock that begins with what happened to it: "used twelve boards"; no take of a length ("cut it at six foot")."""
    words = said.words
    event = event_at(words, i)
    if event is None or said.in_condition(i):
        return None
    if not counted_at(said.line, event[1]):
        later = i == said.last and counted_after(words, said.line.figures, event[1], len(words))
        return Clause(said.back_to_subject(i), 0, "stock", i) if later else None
    if words[i : i + 2] == ["down", "to"] and _reads_before(said, i):
        return None
    in_place = any(p.j == i for p in said.line.places.values())
    if word_at(words, i - 1) in ("the", "a", "an", "to", "can't", "this") and words[i] != "left" and not in_place:
        return None
    if _is_to_be_worked(said, event[1]) or _ends_a_lot(said, i, event[1]) or _size_follows(said, i, event[1]):
        return None
    leads = (
        event[0] == "left over" and not any(k < i for k in said.line.figures) and words[i : i + 2] == ["left", "over"]
    )
    if (event[0] == "left over" and not leads) or words[i] in ("in", "over", "spare"):
        return None
    if words[i] == "short" and i > 0 and words[i - 1] not in words_of("before_short"):
        return None
    if words[i] in ("have", "has", "got", "'ve") and _measured_ahead(said, event[1]):
        return None
    if (
        words[i] in ("put", "cut", "laid", "installed", "counted")
        and _measured_ahead(said, event[1])
        and not names_stock(words, event[1] + 1)
    ):
        return None
    return Clause(said.back_to_subject(i), 0, "stock", i)


def _reads_before(said: Utterance, i: int) -> bool:
    """Whether what is "down to" a figure at word `i` is read or measured, and no material."""
    start = max(said.last, i - 8)
    return any(said.words[k] in quantities() or k in said.line.dimensions for k in range(start, i))


def _is_to_be_worked(said: Utterance, after: int) -> bool:
    """ "Still got four to scrape": what is to be done to them is no material."""
    count = said.line.figures.get(after)
    if count is None or count.kind != "number":
        return False
    return word_at(said.words, count.j) == "to" and word_at(said.words, count.j + 1) in verbs()


def _ends_a_lot(said: Utterance, i: int, after: int) -> bool:
    """ "Two rolls used one left": the event is that of the count before it, since the next has its own."""
    before = next((f for f in said.line.figures.values() if f.kind == "number" and f.j <= i and i - f.j <= 3), None)
    if before is None or any(w in function_words() for w in said.words[before.j : i]):
        return False
    following = next((f for k, f in said.line.figures.items() if after <= k <= after + 1), None)
    return following is not None and word_at(said.words, following.j) in words_of("copulas") | {
        "left",
        "to",
        "broke",
        "split",
    }


def _size_follows(said: Utterance, i: int, after: int) -> bool:
    """ "Nineteen posts came in six by six": a section without a count after the event is that of the lot before it."""
    if not section_follows(said.line, after):
        return False
    before = next((f for f in said.line.figures.values() if f.kind == "number" and f.j < i and i - f.j <= 3), None)
    return before is not None and names_stock(said.words[:i], before.j)


def _measured_ahead(said: Utterance, k: int) -> bool:
    """Whether the next figure is a length with a unit ("we have an inch and a half of fall")."""
    figure = next((f for i, f in sorted(said.line.figures.items()) if i >= k), None)
    return (
        figure is not None and figure.kind == "length" and figure.unit != "" and not names_stock(said.words, figure.j)
    )


@cache
def _fact_words() -> frozenset[str]:
    """Words with which facts can begin after a task."""
    return words_of("facts_pronouns", "conjunctions") | {"spent", "took", "that", "the"}


def _facts(said: Utterance, i: int) -> Clause | None:
    """Facts that begin after a task: at "it is …", "that took …", or at a conjunction before a figure of their own."""
    words, line = said.words, said.line
    word = words[i]
    if word not in _fact_words() or that_is_done_at(words, i):
        return None
    ahead = [f for k, f in line.figures.items() if i < k <= i + 8]
    joined_on = word_at(words, i - 1) in ("and", "but") and word_at(words, i + 1) in words_of("copulas")
    if (
        word in words_of("facts_pronouns")
        and not said.in_condition(i)
        and word_at(words, i + 1) in words_of("facts_verbs")
        and (ahead or joined_on)
    ):
        return Clause(said.back_to_conjunction(i), 0, "facts", i)
    if word == "the" and i > said.last and _reads_ahead(said, i):
        return Clause(i, 0, "facts", i)
    if word in ("spent", "took", "that") and any(f.kind == "hours" and f.i <= i + 4 for f in ahead):
        return Clause(said.back_to_conjunction(i), 0, "facts", i)
    if word in words_of("conjunctions") and line.figure_over(i) is None and _facts_follow(said, i + 1):
        return Clause(i, 0, "facts", i)
    return None


def _reads_ahead(said: Utterance, i: int) -> bool:
    """Whether a thing and what a meter reads of it follow work that is done: "… up there | the rafters read eleven percent"."""
    if said.starts[-1].opener not in ("is done", "past", "finished"):
        return False
    figure = next((f for k, f in sorted(said.line.figures.items()) if i < k <= i + 9), None)
    told = figure is not None and (figure.kind in ("percent", "degrees", "money") or figure.per is not None)
    told = told or (figure is not None and said.starts[-1].opener == "is done" and _is_measured(said, figure))
    if figure is None or not told or said.words[figure.i - 1] not in words_of("reads"):
        return False
    return words_of("conjunctions").isdisjoint(said.words[i : figure.i]) and said.words[i - 1] not in words_of(
        "before_the"
    )


def _is_measured(said: Utterance, figure: Figure) -> bool:
    """ "They're all laid now | the threshold's five eighths out of level": a dimension stands right behind the figure."""
    d = said.line.dimensions.get(figure.j)
    return (
        figure.kind in ("length", "number") and d is not None and word_at(said.words, figure.i - 1) in words_of("reads")
    )


def _facts_follow(said: Utterance, i: int) -> bool:
    """Whether what follows a conjunction is a fact of its own: its figure is no count of the task's object."""
    words, line = said.words, said.line
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
        return not (words[i] in verbs() and said.object_follows(i))
    if first.i > i and any(words[k] in words_of("copulas") or words[k] in quantities() for k in range(i, first.i)):
        return True
    if first.i == i and names_stock(words, first.j) and any(event_at(words, k) for k in range(first.j, end)):
        return True
    return any(i <= k < end for k in line.dimensions) or bool(event_at(words, i))
