"""A stretch of facts while it is read: its figures, and what of it has been used."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.stock import Going
from journal.extract.utterance import Clause


class Stretch:
    """Walks a clause of facts from figure to figure; `position` is where the words not yet used begin."""

    __slots__ = ("clause", "ctx", "figures", "going", "in_stock", "position", "waiting", "words")

    def __init__(self, ctx: Context, clause: Clause, going: Going) -> None:
        self.ctx, self.clause, self.going = ctx, clause, going
        self.words = ctx.line.words
        self.figures = {f.i: f for f in ctx.figures_between(clause.i, clause.j)}
        self.position = clause.i
        self.waiting: list[Figure] = []
        self.in_stock = clause.opener == "stock"
