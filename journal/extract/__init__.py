"""What a memo says: words in, facts, asides, doubts and problems out. Pure; knows no store, no screen, no sound.

`extract` is the one entry. The words are cleared of hesitations, sound-alikes are put right where the context tells,
what was taken back is left out, and the rules of each kind read what remains.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from journal.extract.asides import take_asides
from journal.extract.context import Context
from journal.extract.dimensions import find_dimensions
from journal.extract.doubts import doubted
from journal.extract.due import find_due
from journal.extract.durations import settle_durations
from journal.extract.figures import find_figures
from journal.extract.fillers import without_fillers
from journal.extract.formerly import as_it_is_now
from journal.extract.labels import find_labels
from journal.extract.line import Line
from journal.extract.places import find_places
from journal.extract.plausible import sift
from journal.extract.questions import refused
from journal.extract.reader import read
from journal.extract.revisions import correcting, revisions
from journal.extract.said import Said, TakenBack
from journal.extract.shifts import find_shifts
from journal.extract.soundalikes import repaired
from journal.extract.takebacks import settle
from journal.extract.tokens import Token, tokenise
from journal.extract.voice import without_talk
from journal.records import NOTHING_KNOWN, Doubt, Extraction, Known, Problem, Span, Word

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
    said_tokens = tokenise(text)
    tokens, sounds = repaired(without_fillers(said_tokens))
    tokens, corrected = _without_correcting(tokens)
    if not tokens:
        return Extraction(place=known.carried_place)
    heard = TakenBack()
    today = said_at.date()

    def analyse(words_left: list[Token]) -> Said:
        return _analyse(words_left, today, known)

    said = settle(tokens, analyse, heard)
    problems: list[Problem] = []
    question = refused(said.line)
    if question is not None:
        problems.append(question[1])
        said = analyse(said.line.tokens[: question[0]])
    now = as_it_is_now(said.line)
    if now is not None:
        said = analyse(now)
    left = without_talk(said, text, problems)
    if len(left) != len(said.line.tokens):
        said = analyse(left)
    asides, left = take_asides(said.line, known.carried_place)
    if len(left) != len(said.line.tokens):
        said = analyse(left)
    ctx = Context(
        line=said.line, known=known, today=today, dues=said.dues, labels=said.labels, problems=problems, asides=asides
    )
    if said.line.tokens:
        read(ctx)
        sift(ctx)
    facts, loose = doubted(
        ctx,
        text,
        said_tokens,
        words=words,
        readings=readings,
        heard=[*sounds, *heard.doubts, *said.line.doubts, *heard_doubts],
    )
    return Extraction(
        facts=tuple(facts),
        problems=tuple(ctx.problems),
        asides=tuple(ctx.asides),
        revisions=tuple(revisions(ctx, heard, corrected)),
        doubts=tuple(loose),
        place=ctx.place or known.carried_place,
    )


def _analyse(tokens: list[Token], today: date, known: Known) -> Said:
    """A line with its names in figures, dates, figures, places and dimension words."""
    line = Line(tokens, [token.text for token in tokens])
    line.labels = find_labels(line.words)
    dues = find_due(line.words, today)
    taken = {k for due in dues for k in range(due.i, due.j)}
    taken |= {k for i, (j, _) in line.labels.items() for k in range(i, j)}
    find_figures(line, frozenset(taken))
    settle_durations(line)
    find_shifts(line)
    find_places(line, line.labels, known)
    find_dimensions(line)
    return Said(line, dues, line.labels)


def _without_correcting(tokens: list[Token]) -> tuple[list[Token], Span | None]:
    """The words less "correction" at the beginning or "i read the tape wrong" anywhere, with where that stood."""
    words = [token.text for token in tokens]
    for i, _, end in correcting().all_in(words):
        if i == 0 or words[i] == "i":
            while (
                i > 0
                and end < len(words)
                and words[end] in ("yesterday", "before", "earlier", "this", "morning", "last", "time", "that")
            ):
                end += 1
            left = tokens[:i] + tokens[end:]
            return left, Span(tokens[i].start, tokens[end - 1].end)
    return tokens, None
