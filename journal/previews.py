"""What a correction would do to the quantities of a place, before it is kept. Nothing here is stored."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, replace

from journal import corrections
from journal.books import book_of
from journal.errors import NotFound, Unreadable
from journal.fields import with_fields
from journal.quantities.assumptions import ASSUMPTIONS, Setting
from journal.quantities.base import Answers, answers, listed
from journal.quantities.book import Book
from journal.records import Fact, Filed
from journal.store import Store


@dataclass(frozen=True, slots=True)
class Preview:
    """What a correction would do to the quantities of a place, before it is kept."""

    place: str
    before: Answers
    after: Answers


def of_fix(store: Store, memo: int, number: int, typed: Mapping[str, str]) -> Preview | None:
    """What correcting a fact would do; None where it has no place."""
    row = corrections.the_fact(store, memo, number)
    fact = with_fields(row.fact, typed)
    place = fact.place or row.fact.place
    if place is None:
        return None
    # a fact that comes in from another place is in the book of the whole job only
    book = book_of(store, place) if row.fact.place == place else book_of(store)
    return Preview(place, answers(book, place), answers(_with_fact(book, row.uuid, fact), place))


def of_add(store: Store, memo: int, kind: str, typed: Mapping[str, str]) -> Preview | None:
    """What adding a fact would do; None where it has no place."""
    owner = corrections.the_memo(store, memo)
    fact = corrections.fact_typed(owner, kind, typed)
    if fact.place is None:
        return None
    book = book_of(store, fact.place)
    number = store.next_fact_number(owner.uuid)
    moment = owner.said_at
    added = Filed(uuid="", fact=fact, memo=memo, number=number, said_at=moment, made_at=moment, confirmed=True)
    more = replace(book, facts=(*book.facts, added))
    return Preview(fact.place, answers(book, fact.place), answers(more, fact.place))


def of_strike(store: Store, memo: int, number: int) -> Preview | None:
    """What striking a fact would do; None where it has no place."""
    row = corrections.the_fact(store, memo, number)
    place = row.fact.place
    if place is None:
        return None
    book = book_of(store, place)
    left = replace(book, facts=tuple(filed for filed in book.facts if filed.uuid != row.uuid))
    return Preview(place, answers(book, place), answers(left, place))


def of_assumption(store: Store, name: str, value: str | None, place: str) -> Preview:
    """What another assumption would do at a place; Unreadable where the value will not do."""
    kept = assumed(name, value)
    book = book_of(store, place)
    others = tuple(one for one in book.settings if (one.name, one.place) != (name, place))
    settings = (*others, Setting(name=name, value=kept, place=place, at=book.as_of)) if kept is not None else others
    return Preview(place, answers(book, place), answers(replace(book, settings=settings), place))


def assumed(name: str, value: str | None) -> str | None:
    """A value of an assumption in the form that is kept; NotFound or Unreadable say what there is and what would do."""
    listed()  # the families register what they assume
    known = ASSUMPTIONS.get(name)
    if known is None:
        near = difflib.get_close_matches(name, ASSUMPTIONS, n=1)
        guess = f" Did you mean '{near[0]}'?" if near else ""
        raise NotFound(f"nothing is assumed under '{name}'", hint=f"journal assume lists what is.{guess}")
    try:
        return known.text(known.parse(value)) if value is not None else None
    except ValueError as error:
        raise Unreadable(str(error), hint=f"It stands at {known.show(known.default)} by default.") from None


def _with_fact(book: Book, uuid: str, fact: Fact) -> Book:
    """The book as if one fact read so."""
    changed: tuple[Filed[Fact], ...] = tuple(
        replace(filed, fact=fact) if filed.uuid == uuid else filed for filed in book.facts
    )
    return replace(book, facts=changed)
