"""Sentences that put every word of `grammars/` where a builder would say it: for what the engines expect to hear.

No sentence has a meaning worth keeping; what counts is which words stand beside which. Figures come from
`adapter/trade_sentences.py`, longer sayings from `tests/memos/vary.py`.
"""

from __future__ import annotations

import importlib
import importlib.util
import random
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from journal.grammar import table

HERE = Path(__file__).parent
sys.path.append(str(HERE / "adapter"))
trade: Any = importlib.import_module("trade_sentences")
_WORDS = re.compile(r"[a-z]+(?:[' ][a-z]+)*")


def _said(part: Any) -> list[str]:
    return [word for word in part if isinstance(word, str) and _WORDS.fullmatch(word)]


class Grammar:
    """The words of the tables by what they are, and sentences made of them."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        trade.R.seed(seed)
        places, stock, tasks, dimensions = (table(name) for name in ("places", "stock", "tasks", "dimensions"))
        self.rooms, self.surfaces = _said(places["rooms"]), _said(places["surfaces"])
        self.before = _said(places["modifiers"])
        self.numbered = _said(places["numbered"])
        self.features = _said(places["features"] + places["things"])
        self.things = _said(stock["things"]["words"])
        self.containers, self.species = _said(stock["containers"]["words"]), _said(stock["species"]["words"])
        self.events = _said(stock["events"])
        self.verbs, self.particles = _said(tasks["verbs"]), _said(tasks["particles"])
        self.done, self.openings = _said(tasks["irregular"]), _said(tasks["openings"]["phrases"])
        self.nouns, self.adjectives = _said(dimensions["nouns"]), _said(dimensions["adjectives"])
        self.openings_of = _said(dimensions["openings"]["phrases"])
        self.hedges = _said(table("figures")["hedges"]["before"])
        self.days = _said(table("due")["weekdays"])
        self.parts = trade.OB.split("|")

    def pick(self, words: list[str]) -> str:
        """One of the words."""
        return self.random.choice(words)

    def place(self) -> str:
        """A name of a place."""
        r = self.random.random()
        if r < 0.22:
            return f"{self.pick(self.surfaces[:4])} {self.pick(list('abcdef'))}"
        if r < 0.5:
            return f"the {self.pick(self.before)} {self.pick(self.surfaces)}"
        if r < 0.6:
            return f"{self.pick(self.numbered)} {trade.card(self.random.randrange(1, 13))}"
        if r < 0.7:
            return f"the {self.pick(self.before)} {self.pick(self.rooms)}"
        return f"the {self.pick(self.rooms)}"

    def thing(self) -> str:
        """A thing, now and then with its number."""
        r = self.random.random()
        name = self.pick(self.parts if r < 0.5 else self.features if r < 0.65 else self.things)
        return f"{name} {trade.card(self.random.randrange(1, 16))}" if self.random.random() < 0.2 else name

    def sentence(self) -> str:
        """One sentence."""
        a, p, pick, length = self, self.place(), self.pick, trade.length
        forms: list[Callable[[], str]] = [
            lambda: f"{a.thing()} on {p} is {length()} {pick(a.adjectives)}",
            lambda: f"{p} {a.thing()} {pick(a.nouns)} {length()}",
            lambda: f"{p} {pick(a.nouns)} {length()} {pick(a.nouns)} {length()}",
            lambda: f"{pick(a.nouns)} of {p} is {pick(a.hedges)} {length()}",
            lambda: f"{a.thing()} {length()} {pick(a.adjectives)} by {length()} {pick(a.adjectives)}",
            lambda: f"{a.thing()} {pick(a.openings_of)} in {p} {trade.inches()} by {trade.inches()}",
            lambda: f"the {a.thing()} in {p} is {trade.small()} out of plumb",
            lambda: f"{pick(a.events)} {trade.card(trade.whole(2, 60))} {a.container()}{pick(a.things)}",
            lambda: (
                f"{pick(a.events)} {trade.card(trade.whole(2, 60))} {trade.section()} {pick(a.species)} {pick(a.things)}"
            ),
            lambda: f"{pick(a.species)} is {trade.money()} a {pick(['board foot', 'foot', 'sheet', 'box', 'bundle'])}",
            lambda: f"{pick(a.done)} {pick(['', 'the '])}{a.thing()} {pick(['on', 'in'])} {p}",
            lambda: (
                f"{pick(a.openings)} {pick(a.verbs)} {pick(['', '', pick(a.particles) + ' '])}the {a.thing()} {pick(['on', 'in', 'by'])} {pick([p, pick(a.days)])}"
            ),
            lambda: f"{trade.hours()} {a.doing()} {pick(['', 'the '])}{a.thing()} {pick(['', 'on ' + p, 'in ' + p])}",
            lambda: f"{pick(a.before)} {pick(a.surfaces)} {a.thing()} {length()}",
        ]
        return re.sub(r"\s+", " ", self.random.choice(forms)()).strip()

    def container(self) -> str:
        """A measure of stock with its "of", or nothing."""
        return f"{self.pick(self.containers)} of " if self.random.random() < 0.4 else ""

    def doing(self) -> str:
        """A verb's form in "ing"."""
        verb = self.pick(self.verbs)
        return f"{verb.removesuffix('e')}ing" if verb.endswith("e") and not verb.endswith("ee") else f"{verb}ing"


def sentences(count: int, seed: int) -> list[str]:
    """As many sentences: half out of the tables, half by vary.py."""
    grammar = Grammar(seed)
    made = [grammar.sentence() for _ in range(count // 2)]
    spec = importlib.util.spec_from_file_location("vary", HERE.parents[1] / "memos" / "vary.py")
    assert spec is not None
    assert spec.loader is not None
    vary = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(vary)
    made += [memo["text"] for memo in vary.memos(seed, count - len(made))]
    return [text for text in made if re.fullmatch(r"[a-z' ]+", text)]
