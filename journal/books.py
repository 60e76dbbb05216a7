"""The book that quantities read, made from the store: of the whole job, or of what one place's answers rest on."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from journal.quantities.assumptions import Setting
from journal.quantities.base import concerned
from journal.quantities.book import Book
from journal.records import Fact, Filed, Stock
from journal.store import Store

_ANY_WOOD = frozenset({"board", "lumber", "timber", "piece", "log", "plank", "of"})


def book_of(
    store: Store, place: str | None = None, *, kinds: Iterable[str] = (), as_of: datetime | None = None
) -> Book:
    """The whole job, or the places that a place's answers rest on with the lots they draw on.

    `kinds` keeps it to facts of these kinds, where no others are needed.
    """
    places = None if place is None else concerned(place, store.places(as_of=as_of))
    facts = store.facts(places=places, kinds=kinds, as_of=as_of)
    if places is not None:
        drawn_on = store.lots_and_prices(_stock_words(facts), as_of=as_of)
        here = {filed.uuid for filed in facts}
        facts += [filed for filed in drawn_on if filed.uuid not in here and (not kinds or filed.fact.kind in kinds)]
    return Book(
        facts=tuple(facts),
        as_of=as_of or datetime.now().astimezone(),
        asides=tuple(store.asides(places=places, as_of=as_of)),
        settings=tuple(
            Setting(name=name, value=value, place=where, at=at)
            for where, name, value, at in store.assumptions(as_of=as_of)
        ),
    )


def _stock_words(facts: Iterable[Filed[Fact]]) -> set[str]:
    """The words that tell the lots of these facts from others; "board" only where nothing else does."""
    words = set()
    for filed in facts:
        if isinstance(filed.fact, Stock):
            parts = (filed.fact.species, filed.fact.section, filed.fact.what)
            said = [word for part in parts for word in (part or "").split()]
            words.update([word for word in said if word not in _ANY_WOOD] or said)
    return words - {"of"}
