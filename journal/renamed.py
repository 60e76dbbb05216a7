"""A fact with another place, thing, dimension or name, as the words for it alone were said: "the road gable", "short point".

Pure. What a name does to a fact is proved by the extractor: the new fact must be what its own sentence is read to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime
from functools import cache
from typing import Any

from journal.extract import extract
from journal.extract.vocabulary import thing_words
from journal.grammar import table
from journal.instead import Instead, without_article
from journal.readback import ways_to_say
from journal.records import Fact, Filed, Measure, Stock, Task, said_fields
from journal.refigured import phrases
from journal.saying import name_words, plural_words

Change = tuple[Filed[Fact], Fact]
Option = tuple[Change, ...]
"""Changes that go together: one thing that a correction can mean."""
_NAMES = {
    "measure": ("about",), "slope": ("about",), "reading": ("about",), "hours": ("activity",), "cost": ("what",),
    "stock": ("species", "what", "section"), "task": ("do", "after", "before"),
}  # fmt: skip
"""The fields of each kind that hold a name."""


def renamed(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """What the new words can mean as a name of something in these facts; several where it is not clear which."""
    if instead.vague and instead.old is None:
        return []
    ways: tuple[Callable[[Sequence[Filed[Fact]], Instead, datetime], list[Option]], ...] = (
        _placed, _dimensioned, _of_kind, _named,
    )  # fmt: skip
    return next((options for way in ways if (options := way(just_said, instead, said_at))), [])


def within(part: str, name: str | None) -> bool:
    """Whether these words are some of a name's words, in its order."""
    return bool(part) and f" {part} " in f" {name_words(name or '')} "


# ---- places --------------------------------------------------------------------------------------------------------


def _placed(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """All that was said at one place, at another."""
    found: dict[str | None, list[Change]] = {}
    for filed in just_said:
        place = _place_meant(filed.fact, instead, said_at)
        if place is not None and place != filed.fact.place:
            found.setdefault(filed.fact.place, []).append((filed, replace(filed.fact, place=place)))
    return [tuple(changes) for changes in found.values()]


def _place_meant(fact: Fact, instead: Instead, said_at: datetime) -> str | None:
    place, about = fact.place, name_words(getattr(fact, "about", None) or "")
    new, old = _after_preposition(instead.new), _after_preposition(instead.old) if instead.old else None
    if old is None:
        before = next(
            (new[: -len(last)].strip() for last in (about, about.split(" ")[0]) if last and new.endswith(f" {last}")),
            "",
        )
        return place_named(new, said_at) or (place_named(before, said_at) if before else None)
    if not within(old, place):
        return None
    if old == name_words(place or ""):
        return place_named(new, said_at)
    return place_named(_put(old, new, place), said_at) or place_named(new, said_at)


def place_named(words: str, said_at: datetime) -> str | None:
    """The place that these words are the name of; None where they say anything else."""
    place = extract(f"the {words} length forty", said_at).place
    return place if place is not None and name_words(place) == words else None


def _after_preposition(words: str) -> str:
    lead = next((one for one in sorted(phrases("at_place"), key=len, reverse=True) if words.startswith(f"{one} ")), "")
    return without_article(words.removeprefix(lead).strip())


# ---- dimensions ----------------------------------------------------------------------------------------------------


def _dimensioned(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """A figure as that of another dimension; not where one of that dimension was said besides."""
    measures = [filed for filed in just_said if isinstance(filed.fact, Measure)]
    found = []
    for filed in measures:
        fact = filed.fact
        assert isinstance(fact, Measure)
        meant = dimension_meant(instead.new, fact)
        if meant is None or meant == fact.dimension:
            continue
        if instead.old is None:
            if any(isinstance(other.fact, Measure) and other.fact.dimension == meant for other in measures):
                continue
        elif dimension_meant(instead.old, fact) != fact.dimension:
            continue
        if (now := proved(replace(fact, dimension=meant), said_at)) is not None:
            found.append((filed, now))
    return [(change,) for change in found]


def dimension_meant(words: str, fact: Measure) -> str | None:
    """The dimension that these words name for a fact: "short" is its short point, "high" the height of its opening."""
    words = without_article(words)
    name = _dimensions().get(words)
    if fact.dimension.endswith(" point") and words in ("long", "short"):
        return f"{words} point"
    if fact.dimension.startswith("rough opening") and name in ("width", "height"):
        return f"rough opening {name}"
    return name


def is_dimension(words: str) -> bool:
    """Whether these words name a dimension and nothing else."""
    return without_article(words) in _dimensions()


def dimension_beside(words: str) -> Iterator[tuple[str, str]]:
    """The words that name a dimension at either end, and what is left: "forty three high", "the width is thirty"."""
    said_words = words.split()
    for at in range(len(said_words) - 1, 0, -1):
        before, after = without_article(" ".join(said_words[:at])), " ".join(said_words[at:])
        if before in _dimensions():
            be = next((be for be in ("is", "was", "should be", "to", "at", "of") if after.startswith(f"{be} ")), "")
            yield before, after.removeprefix(be).strip()
    for at in range(1, len(said_words)):
        before, after = " ".join(said_words[:at]), without_article(" ".join(said_words[at:]))
        if after in _dimensions():
            yield after, before


@cache
def _dimensions() -> dict[str, str]:
    data = table("dimensions")
    return {**data["adjectives"], **data["nouns"]}


# ---- things and other names ----------------------------------------------------------------------------------------


def _named(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """Facts about one thing, about another; each name that was said by itself."""
    found: dict[tuple[str, str, str], list[Change]] = {}
    for filed in just_said:
        for field in _NAMES[filed.fact.kind]:
            name = getattr(filed.fact, field)
            meant = _without_dimension(filed.fact, instead)
            now = next(_with_name(filed.fact, field, name, meant, said_at), None) if name else None
            if now is not None:
                found.setdefault((filed.fact.kind, field, name), []).append((filed, now))
                break
    return [tuple(changes) for changes in found.values()]


def _without_dimension(fact: Fact, instead: Instead) -> Instead:
    """The words without the dimension that the fact has: "the sill height" of a height is the sill."""
    if isinstance(fact, Measure):
        for name, rest in dimension_beside(instead.new):
            if dimension_meant(name, fact) == fact.dimension:
                return replace(instead, new=rest)
    return instead


def _with_name(fact: Fact, field: str, name: str, instead: Instead, said_at: datetime) -> Iterator[Fact]:
    for words in _names_meant(name, field, instead):
        changed: dict[str, Any] = {field: words}
        if words != name_words(name) and (now := proved(replace(fact, **changed), said_at)) is not None:
            yield now


def _names_meant(name: str, field: str, instead: Instead) -> Iterator[str]:
    new, spoken = without_article(instead.new), name_words(name)
    if instead.old is not None:
        if within(instead.old, name):
            yield _put(instead.old, new, name)
        return
    head = spoken.split()[-1]
    if field == "about":
        if not _is_thing(new) or not (instead.certain or set(new.split()) & set(spoken.split())):
            return
        if new.endswith(" one"):
            yield f"{new.removesuffix(' one')} {head}"
            return
        last = new.split()[-1]
        if last != head and f" {last} " in f" {spoken}":  # "the fourth course" after "third course log"
            yield f"{new}{spoken.partition(f'{last}')[2]}"
        if {head, new} <= phrases("parts") and " " in spoken:
            yield f"{spoken.removesuffix(head)}{new}"
        if new in _before_a_thing():
            yield " ".join([new, *spoken.split()[1 if " " in spoken else 0 :]])
            return
        yield new
    elif field == "species":
        if new in table("stock")["species"]["words"]:
            yield new
    elif instead.firm and (field == "activity" or (field == "what" and _is_counted(new))):
        yield new


def _is_thing(words: str) -> bool:
    """Whether these words name a thing that is measured and nothing else."""
    name = words.split()
    known = name[-1] in thing_words() | phrases("parts") | {"one"} or words in _before_a_thing()
    return known and len(name) <= 4 and not phrases("no_names") & set(name)


def _is_counted(words: str) -> bool:
    """Whether these words name what is bought or counted."""
    name = words.split()
    kinds = {word for kind in table("stock")["species"]["words"] for word in kind.split()}
    return len(name) <= 4 and name[-1] in thing_words() | kinds and not phrases("no_names") & set(name)


@cache
def _before_a_thing() -> frozenset[str]:
    """Words that tell one thing from its like and may be said alone for it: "the left"."""
    return frozenset(table("places")["modifiers"]) | {"centre", "center", "middle"}


def _put(old: str, new: str, name: str | None) -> str:
    """A name with some of its words said otherwise; what is said of the rest with them is said once."""
    before, _, after = f" {name_words(name or '')} ".partition(f" {old} ")
    meant, before_it, after_it = without_article(new).split(), before.split(), after.split()
    for size in range(len(meant) - 1, 0, -1):
        if after_it[:size] == meant[-size:]:
            meant = meant[:-size]
            break
        if before_it and before_it[-size:] == meant[:size]:
            meant = meant[size:]
            break
    return " ".join([*before_it, *meant, *after_it])


# ---- what a lot, or a task, is -------------------------------------------------------------------------------------


def resized(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """A lot of another section: "one by tens". Its two figures are none of the lot's own."""
    lots = [(filed, filed.fact) for filed in just_said if isinstance(filed.fact, Stock) and filed.fact.section]
    section = _section(instead.new, said_at) if lots else None
    if section is None or (
        instead.old is not None and _section(instead.old, said_at) not in {lot.section for _, lot in lots}
    ):
        return []
    old = _section(instead.old, said_at) if instead.old is not None else None
    fitting = [(filed, lot) for filed, lot in lots if lot.section not in (section, None) and old in (None, lot.section)]
    found = [(filed, proved(replace(lot, section=section), said_at)) for filed, lot in fitting]
    return [((filed, now),) for filed, now in found if now is not None]


def _of_kind(just_said: Sequence[Filed[Fact]], instead: Instead, said_at: datetime) -> list[Option]:
    """A lot that something else became of; a task for another day."""
    changed: list[Option] = []
    for filed in just_said:
        fields: dict[str, Any] = {}
        if isinstance(filed.fact, Stock):
            fields = _event(filed.fact, instead)
        elif isinstance(filed.fact, Task):
            fields = _day(filed.fact, instead, said_at)
        now = proved(replace(filed.fact, **fields), said_at) if fields else None
        if now is not None:
            changed.append(((filed, now),))
    return changed


def _event(fact: Stock, instead: Instead) -> dict[str, Any]:
    events: dict[str, str] = table("stock")["events"]
    meant, old = events.get(instead.new), events.get(instead.old or "", fact.event)
    return {"event": meant} if instead.firm and meant not in (None, fact.event) and old == fact.event else {}


def _section(words: str, said_at: datetime) -> str | None:
    read = extract(f"received forty pine {plural_words(words)} at twelve foot", said_at).facts
    lot = read[0] if len(read) == 1 else None
    return lot.section if isinstance(lot, Stock) and (lot.count, lot.species, lot.what) == (40, "pine", None) else None


def _day(fact: Task, instead: Instead, said_at: datetime) -> dict[str, Any]:
    due = _due(instead.new, said_at)
    if due is None or fact.due is None or due == fact.due:
        return {}
    if instead.old is not None and _due(instead.old, said_at) != fact.due:
        return {}
    return {"due": due}


def _due(words: str, said_at: datetime) -> date | None:
    day = words.removeprefix("by ").removeprefix("on ").removeprefix("for ")
    read = extract(f"sweep the floor by {day}", said_at).facts
    only = len(read) == 1 and isinstance(read[0], Task) and read[0].do == "sweep the floor"
    return read[0].due if only and isinstance(read[0], Task) else None


# ---- proof ---------------------------------------------------------------------------------------------------------


def proved(now: Fact, said_at: datetime) -> Fact | None:
    """The fact as its own sentence is read, with the doubts of that; None where no way to say it is read to it."""
    for way in ways_to_say(now, said_at.date()):
        read = extract(way, said_at).facts
        if len(read) == 1 and read[0].kind == now.kind and _spoken(read[0]) == _spoken(now):
            return read[0]
    return None


def _spoken(fact: Fact) -> dict[str, Any]:
    """What a fact says, its names as they are said: "jack rafter 3" and "jack rafter three" are one."""
    values = {name: getattr(fact, name) for name in said_fields(fact.kind)}
    return {name: name_words(value) if isinstance(value, str) else value for name, value in values.items()}
