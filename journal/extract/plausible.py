"""The last look at what was read: facts that no builder would say become problems, those that are hardly said so carry a doubt.

No rule of a kind is repeated here. Each gate asks for a property that every fact of that kind has: a count is whole but
for halves and quarters of containers, a room is no material, a figure belongs to a thing, and no number is half heard.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.numbers import number_words
from journal.extract.placewords import DETERMINERS, heads
from journal.extract.sets import words_of
from journal.extract.stockwords import containers
from journal.extract.unitwords import label_nouns
from journal.extract.unmeasured import half_said
from journal.extract.vocabulary import names_work, past_forms, thing_words, verbs
from journal.extract.voices import people
from journal.lengths import INCH
from journal.records import Cost, Doubt, Fact, Hours, Measure, Problem, Reading, Slope, Stock, Task

Refused = tuple[str, str]
"""Why a fact cannot be, and what to say instead."""


def sift(ctx: Context) -> None:
    """Turns the impossible facts of the context into problems and puts a doubt on the doubtful ones."""
    kept: list[Fact] = []
    starts = [token.start for token in ctx.line.tokens]
    left_over = _left_over(ctx)
    for fact in ctx.facts:
        seen = _Seen(ctx, fact, kept, starts, left_over)
        refused = _half_heard(seen) or _refused(seen)
        if refused is not None:
            message, hint = refused
            ctx.problems.append(Problem(f"'{seen.said}': {message}", fact.evidence, hint))
            continue
        fact = _without_times(fact)
        shown = _doubtful(seen)
        if shown is not None:
            fact = replace(fact, doubts=(*fact.doubts, Doubt("unlikely", shown, fact.evidence)))
        kept.append(fact)
    ctx.facts[:] = kept


class _Seen:
    """A fact with the words that it was read from, `i` to `j`, the facts before it, and the memo's number words left over."""

    def __init__(self, ctx: Context, fact: Fact, before: list[Fact], starts: list[int], left_over: set[int]) -> None:
        self.ctx, self.fact, self.before, self.left_over = ctx, fact, before, left_over
        self.words = ctx.line.words
        self.i = bisect_left(starts, fact.evidence.start)
        self.j = max(bisect_left(starts, fact.evidence.end), self.i)

    @property
    def said(self) -> str:
        """The words of the fact."""
        return self.ctx.line.said(self.i, self.j)

    def figures(self) -> Iterator[Figure]:
        """The figures said in the words of the fact."""
        return (figure for k, figure in self.ctx.line.figures.items() if self.i <= k < self.j)


def _refused(seen: _Seen) -> Refused | None:
    gate = _GATES.get(type(seen.fact))
    return gate(seen) if gate is not None else None


def _half_heard(seen: _Seen) -> Refused | None:
    """The rest of a figure is missing, whatever it was read as."""
    if isinstance(seen.fact, Task | Slope) or not any(half_said(seen.words, f.i, f.j) for f in seen.figures()):
        return None
    return "only half of a figure", "Say the whole figure."


# ---- material ------------------------------------------------------------------------------------------------------


def _stock(seen: _Seen) -> Refused | None:
    fact = seen.fact
    assert isinstance(fact, Stock)
    what = (fact.what or "").split()
    again = "Say how many, and of what."
    if fact.count is not None and Fraction(fact.count).limit_denominator(64).denominator > 1:
        parts = Fraction(fact.count).limit_denominator(64).denominator
        held = bool(what) and what[0] in containers()
        if parts > 4 and not held:
            return "nothing is counted in such parts", again
        if what and names_work(what[0]) and what[-1] in thing_words():
            return "work, or material?", "Say the hours with what was done, or the count with what it is."
    named = what or fact.section or fact.species or fact.length_ticks or fact.board_feet
    if not named and fact.event in _NEEDS_A_NAME and not any(isinstance(one, Stock) for one in seen.before):
        return "a count, but of what?", again
    if len(what) > 1 and what[-1] in number_words() and what[-2] in label_nouns():
        return "a name with a number is no material", again
    count = next(seen.figures(), None)
    if count is not None and seen.words[count.j : count.j + 1] and seen.words[count.j] in _COUNTS_NOTHING:
        return "nothing that is counted", again
    if count is not None and fact.count not in (None, 1) and seen.words[count.j : count.j + 1] == what:
        goes_on = seen.words[count.j + 1 : count.j + 2]
        if (
            goes_on
            and goes_on[0] in DETERMINERS - {"this", "that"}
            and what[0] not in ("foot",)
            and not what[0].endswith("s")
        ):
            return "work, or a count?", "Say what is to be done, or how many there are."
    if len(what) > 1 and len(what[-1]) == 1:
        return "a name with a letter is no material", again
    if len(what) == 1 and count is not None and _verb_behind_to(seen, count, what[0]):
        return "work, or a count?", "Say what is to be done, or how many there are."
    if fact.species is None and len(what) == 1 and what[0] in past_forms() and what[0] not in thing_words() | verbs():
        return "nothing that is counted", again
    return None


# "I got ninety": these can be said of figures that count nothing.
_NEEDS_A_NAME = ("received", "have")

# A count before one of these has no noun: "four the dining room". "Nine this morning" has: the one said before.
_COUNTS_NOTHING = DETERMINERS - {"a", "an", "this", "that"}


def _verb_behind_to(seen: _Seen, count: Figure, what: str) -> bool:
    """ "Have to file the blade": "to" before a verb is no two, whatever the verb is as a noun."""
    heard = [token.heard or token.text for token in seen.ctx.line.tokens[count.i : count.j]]
    led = seen.words[count.i - 1] if count.i else ""
    bare = seen.words[count.j : count.j + 1] == [what]
    goes_on = seen.words[count.j + 1] if count.j + 1 < len(seen.words) else ""
    return (
        heard in (["to"], ["too"])
        and led in ("have", "has", "need", "needs", "got", "want", "going", "had")
        and bare
        and (goes_on in DETERMINERS or (what in verbs() and what not in thing_words()))
    )


def _is_room(what: list[str]) -> bool:
    found = heads().at(what, len(what) - 1) if what else None
    return found is not None and found[0] == "room" and what[-1] not in thing_words()


@cache
def _uncounted() -> frozenset[str]:
    """What comes in containers or by weight, and is never counted by itself."""
    return words_of("uncounted")


# ---- measures ------------------------------------------------------------------------------------------------------


@cache
def _creatures() -> frozenset[str]:
    """Persons and beasts, and those beasts whose name is that of a place by itself ("the flies" of a theatre)."""
    return people() | {"flies", "midges"}


def _measure(seen: _Seen) -> Refused | None:
    fact = seen.fact
    assert isinstance(fact, Measure)
    if fact.dimension.startswith("out of") and fact.ticks >= 12 * INCH:
        return f"a foot or more {fact.dimension} cannot be", "Say how far it is out, and over what length."
    named = (fact.about or "").split()
    somebody = named and (named[-1] in people() or not _creatures().isdisjoint(named[1:]))
    if somebody and named[-1] not in thing_words():
        return "told of somebody, so it is said and not filed", "Say what was measured."
    if fact.place is None and not _name(fact.about) and _follows_stock(seen):
        return "the size of what?", "Say it with the material, or with the thing that was measured."
    return None


def _follows_stock(seen: _Seen) -> bool:
    last = seen.before[-1] if seen.before else None
    return isinstance(last, Stock) or (
        isinstance(last, Measure) and last.place is None and any(isinstance(fact, Stock) for fact in seen.before)
    )


def _without_times(fact: Fact) -> Fact:
    """A fact whose thing is named without the words for a time or a judgement: "hatch last week wrong" is the hatch."""
    if not isinstance(fact, Measure | Reading | Slope):
        return fact
    name = _name(fact.about)
    return fact if name == fact.about else replace(fact, about=name)


def _name(about: str | None) -> str | None:
    words = (about or "").split()
    if words_of("no_name").isdisjoint(words) and "last" not in words:
        return " ".join(words) or None
    kept = [word for word, following in pairwise([*words, ""]) if not _no_name(word, following)]
    return " ".join(kept) or None


def _no_name(word: str, following: str) -> bool:
    return word in words_of("no_name") or (word == "last" and following in words_of("no_name"))


# ---- money, work ---------------------------------------------------------------------------------------------------


def _cost(seen: _Seen) -> Refused | None:
    """ "The hatch is twenty two by thirty one": a figure in an "X by Y" is no money."""
    if set(seen.words[seen.i : seen.j]) & words_of("money_said") or not _in_a_size(seen):
        return None
    return "a size, or money?", "Say the size with what was measured, or the money with dollars."


def _reading(seen: _Seen) -> Refused | None:
    """ "The sink in the wet lab is twenty one by fifteen": a figure in an "X by Y" was read on no meter."""
    if not _in_a_size(seen):
        return None
    return "a size, or a reading?", "Say the size with what was measured, or the reading with percent or degrees."


def _in_a_size(seen: _Seen) -> bool:
    words, figures = seen.words, sorted(seen.ctx.line.figures)
    for figure in seen.figures():
        led, rest = words[figure.i - 1 : figure.i], words[figure.j : figure.j + 1]
        if (rest == ["by"] and figure.j + 1 in figures) or (led == ["by"] and any(k < figure.i for k in figures)):
            return True
    return False


def _task(seen: _Seen) -> Refused | None:
    fact = seen.fact
    assert isinstance(fact, Task)
    do = fact.do.split()
    if fact.status != "done" and set(do) & words_of("parts_of_an_inch") and "of" not in do:
        return "an order, or a measure?", "Say what is to be done by itself, and the measure by itself."
    if len(do) > 1 and do[-1] in ("the", "a", "an", "and", "of"):
        return "half of an order", "Say what is to be done."
    return None


_GATES: dict[type, Callable[[_Seen], Refused | None]] = {
    Stock: _stock,
    Measure: _measure,
    Cost: _cost,
    Task: _task,
    Reading: _reading,
}


# ---- doubts --------------------------------------------------------------------------------------------------------


def _doubtful(seen: _Seen) -> str | None:
    """What makes a fact hardly likely, or None."""
    fact = seen.fact
    if isinstance(fact, Task):
        return None
    if isinstance(fact, Stock):
        what = (fact.what or "").split()
        if _is_room(what):
            return f"'{fact.what}' is a place: was it material?"
        if fact.count is not None and fact.count != 1 and len(what) == 1 and what[0] in _uncounted():
            return f"{fact.count:g} {fact.what}: in what?"
        if fact.count is not None and fact.count % 1 and what and what[0] not in containers():
            return f"{fact.count:g} {fact.what}: is that the count?"
    if isinstance(fact, Measure):
        named = set((fact.about or "").split()) & words_of("no_thing_at_all")
        if named:
            return f"'{fact.about}': is that what was measured?"
        if (
            fact.ticks > _BARE_MOST
            and fact.metric is None
            and not set(seen.words[seen.i : seen.j]) & words_of("feet_said")
        ):
            return f"'{seen.said}': so many inches?"
    if (
        isinstance(fact, Slope)
        and fact.rise != 1
        and not 1 <= fact.rise / (fact.run or 1) * 12 <= 24
        and not fact.doubts
    ):
        return f"a slope of {fact.rise:g} in {fact.run:g} is unusual"
    if _taken_back(seen):
        return f"'{seen.said}': something was taken back beside it"
    if isinstance(fact, Hours):
        return None
    beside = _left_beside(seen)
    return f"'{seen.said}': '{beside}' was said beside it" if beside else None


# Longer than this is said in feet.
_BARE_MOST = 720 * INCH


def _left_over(ctx: Context) -> set[int]:
    """The number words that no figure, name, date, place or time of day takes up."""
    line = ctx.line
    words = [k for k, word in enumerate(line.words) if word in number_words() or word in words_of("parts_said")]
    if not words:
        return set()
    taken = {k for figure in line.figures.values() for k in range(figure.i, figure.j)}
    taken |= {k for figure in line.figures.values() for k in range(*figure.words)}
    taken |= {k for i, (j, _) in line.labels.items() for k in range(i, j)}
    taken |= {k for due in ctx.dues for k in range(due.i, due.j)}
    taken |= {k for place in line.places.values() for k in range(place.i, place.j)}
    return {k for k in words if k not in taken and line.words[k] not in ("one", "oh", "half")}


def _left_beside(seen: _Seen) -> str | None:
    """A number word left over within two words of a figure of the fact, or a figure that an "a" alone parts from it."""
    figures = seen.ctx.line.figures
    for figure in seen.figures():
        for k in (*range(figure.i - 2, figure.i), *range(figure.j, figure.j + 2)):
            if k in seen.left_over and not set(seen.words[k + 1 : k + 2]) & words_of("left_over_before"):
                return str(seen.words[k])
        rest = seen.words[figure.j : figure.j + 3]
        if rest[:2] == ["a", "and"] or (rest[:1] == ["a"] and figure.j + 1 in figures):
            return " ".join(rest)
    return None


def _taken_back(seen: _Seen) -> bool:
    """Whether a word that takes back stands, not carried out, within three words of a figure of the fact."""
    for figure in seen.figures():
        near = seen.words[figure.j : figure.j + 3]
        led = seen.words[max(figure.i - 3, 0) : figure.i]
        if words_of("takes_back") & {*near, *led}:
            return True
    return False
