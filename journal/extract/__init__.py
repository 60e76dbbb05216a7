"""What a memo says: words in, facts, asides, doubts and problems out. Pure; knows no store, no screen, no sound.

`extract` is the one entry. The words are cleared of hesitations, sound-alikes are put right where the context tells,
what was taken back is left out, and the rules of each kind read what remains.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from journal.extract.clock import find_clock
from journal.extract.context import Context
from journal.extract.dimensions import find_dimensions
from journal.extract.due import find_due
from journal.extract.figures import find_figures
from journal.extract.labels import find_labels
from journal.extract.line import Line
from journal.extract.places import find_places
from journal.extract.reader import read
from journal.extract.soundalikes import repaired
from journal.extract.takebacks import Said, TakenBack, settle
from journal.extract.tokens import Token, tokenise, without_fillers
from journal.records import NOTHING_KNOWN, Doubt, Extraction, Known, Word

__all__ = ["extract"]


def extract(
    text: str,
    said_at: datetime,
    known: Known = NOTHING_KNOWN,
    *,
    words: Sequence[Word] = (),
    readings: Sequence[str] = (),
    heard_doubts: Sequence[Doubt] = (),
) -> Extraction:
    """All that a memo says, in the order said; nothing is raised for words that make no sense."""
    tokens, sounds = repaired(without_fillers(tokenise(text)))
    if not tokens:
        return Extraction(place=known.carried_place)
    today = said_at.date()

    def analyse(tokens: list[Token]) -> Said:
        line = Line(tokens, [token.text for token in tokens])
        labels = line.labels = find_labels(line.words)
        dues = find_due(line.words, today)
        taken = {k for due in dues for k in range(due.i, due.j)} | {
            k for i, (j, _) in labels.items() for k in range(i, j)
        }
        find_figures(line, frozenset(taken))
        find_clock(line)
        find_places(line, labels, known)
        find_dimensions(line)
        return Said(line, dues, labels)

    heard = TakenBack()
    said = settle(tokens, analyse, heard)
    ctx = Context(line=said.line, known=known, today=today, dues=said.dues, labels=said.labels)
    if said.line.tokens:
        read(ctx)
    return Extraction(
        facts=tuple(ctx.facts),
        problems=tuple(ctx.problems),
        asides=tuple(ctx.asides),
        doubts=(*sounds, *heard.doubts, *said.line.doubts),
        place=ctx.place or known.carried_place,
    )
