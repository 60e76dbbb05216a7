"""`journal fix`, `strike`, `confirm`, `undo`, `redo`: the same corrections as on the screens, for scripts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import click

from journal.cli.common import emit, note, open_session, with_output
from journal.cli.shapes import named
from journal.corrections import Assumed, Corrected
from journal.fields import FIGURE, describe
from journal.quantities.base import Answers
from journal.records import KINDS
from journal.session import Session

_NAME = re.compile(r"([a-z_]+)=(.*)", re.DOTALL)


class FactName(click.ParamType):  # type: ignore[type-arg]
    """ "12.2" is memo 12 fact 2; "12" is memo 12."""

    name = "memo[.fact]"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[int, int | None]:
        """The memo and the fact, None where only the memo was named."""
        if isinstance(value, tuple):
            return value
        match = re.fullmatch(r"(\d+)(?:\.(\d+))?", str(value).strip())
        if match is None:
            self.fail(f"'{value}' names no memo: type 12 for memo 12, 12.2 for its second fact", param, ctx)
        return int(match[1]), int(match[2]) if match[2] else None


@click.command()
@click.argument("memo", type=FactName(), metavar="MEMO[.FACT]")
@click.argument("right", nargs=-1, required=True, metavar="FIGURE | FIELD=VALUE…")
@click.option("--always", is_flag=True, help="With place=…: the place is heard so from now on, and all its facts move.")
@with_output
@click.pass_context
def fix(
    ctx: click.Context, memo: tuple[int, int | None], right: tuple[str, ...], always: bool, form: str | None
) -> None:
    """Put a memo right: a figure, a field, or its words. Lengths as a builder writes them.

    What it does to the quantities of the place is shown. A new fact is added with KIND before its fields.

    \b
    journal fix 12.2 "71 5/8"
    journal fix 12.2 place="lake wall" figure="5' 11 5/8"
    journal fix 12 words="wall a height eight foot two"
    journal fix 12 measure dimension=height figure=98 place="wall a"
    """
    session = open_session(ctx)
    number, fact = memo
    kind, typed = _typed(right)
    if "words" in typed:
        if len(typed) > 1 or kind:
            raise click.UsageError("words=… stands by itself: the memo is read anew")
        done = session.fix_words(number, typed["words"])
        _show(done, form)
        if not done:
            note(f"memo {number}: the words were put right; its facts are the same")
        return
    if kind:
        _show([session.add(number, kind, typed)], form)
        return
    fact = fact or _only_fact(session, number)
    row = session.store.fact_row(number, fact)
    if always and "place" in typed and row is not None and row.fact.place:
        _show(session.rename_place(row.fact.place, typed.pop("place")), form)
        if not typed:
            return
    preview = session.preview(number, fact, typed)
    _show([session.fix(number, fact, typed)], form)
    if preview is not None and form is None:
        for line in difference(preview.before, preview.after):
            note(f"   {preview.place}: {line}")


def _typed(right: tuple[str, ...]) -> tuple[str, dict[str, str]]:
    """The kind of a fact to add ("" for none) and the fields as typed; a bare figure is the field "figure"."""
    kind, typed = "", {}
    for index, part in enumerate(right):
        if match := _NAME.fullmatch(part):
            typed[match[1]] = match[2]
        elif index == 0 and part in KINDS:
            kind = part
        elif FIGURE not in typed:
            typed[FIGURE] = part
        else:
            raise click.UsageError(f"'{part}' stands there as a second figure: put a length in quotes, \"71 5/8\"")
    return kind, typed


def _only_fact(session: Session, memo: int) -> int:
    facts = session.store.facts(memo=memo)
    if len(facts) == 1:
        return facts[0].number
    if not facts:
        return 1  # which is then said not to be there
    listed = "; ".join(f"{memo}.{filed.number} {describe(filed.fact)}" for filed in facts)
    raise click.UsageError(f"memo {memo} has {len(facts)} facts, say which: {listed}")


def difference(before: Answers, after: Answers) -> list[str]:
    """What a correction does to quantities: each that changes, before and after."""
    old = {(value.name, value.about, value.place): value.shown for value in before.quantities}
    new = {(value.name, value.about, value.place): value.shown for value in after.quantities}
    lines = []
    for key in dict.fromkeys([*old, *new]):
        was, now = old.get(key), new.get(key)
        if was != now:
            lines.append(f"{named(key[1], key[0])}: {was or 'unknown'} → {now or 'unknown'}")
    return lines


@click.command()
@click.argument("memo", type=FactName(), metavar="MEMO[.FACT]")
@with_output
@click.pass_context
def strike(ctx: click.Context, memo: tuple[int, int | None], form: str | None) -> None:
    """Take a fact, or all facts of a memo, out of the book. They stay on file, and undo brings them back.

    \b
    journal strike 12.2
    """
    _show(open_session(ctx).strike(*memo), form)


@click.command()
@click.argument("memo", type=FactName(), metavar="MEMO[.FACT]")
@with_output
@click.pass_context
def confirm(ctx: click.Context, memo: tuple[int, int | None], form: str | None) -> None:
    """Say that a fact, or all facts of a memo, are right; their doubts are settled.

    \b
    journal confirm 12
    """
    _show(open_session(ctx).confirm(*memo), form, "confirmed")


@click.command()
@with_output
@click.pass_context
def undo(ctx: click.Context, form: str | None) -> None:
    """Take back the last correction.

    \b
    journal undo
    """
    act, done = open_session(ctx).undo()
    _show(done, form)
    note(f"undone: {act}. journal redo brings it back.")


@click.command()
@with_output
@click.pass_context
def redo(ctx: click.Context, form: str | None) -> None:
    """Bring back what undo took away.

    \b
    journal redo
    """
    _, done = open_session(ctx).redo()
    _show(done, form)


def _show(done: Sequence[Corrected | Assumed], form: str | None, confirmed: str = "") -> None:
    emit(map(_row, done), form, lambda row: _line(row, confirmed))


def _row(done: Corrected | Assumed) -> dict[str, Any]:
    if isinstance(done, Assumed):
        return {"assumption": done.name, "place": done.place, "was": done.was, "now": done.now}
    stands = done.now or done.was
    return {
        "memo": done.memo,
        "fact": done.number,
        "place": stands.place if stands else None,
        "was": describe(done.was) if done.was else None,
        "was_place": done.was.place if done.was else None,
        "now": describe(done.now) if done.now else None,
    }


def _line(row: Any, confirmed: str) -> str:
    if "assumption" in row:
        was, now = row["was"] or "the default", row["now"] or "the default"
        return f"{row['assumption']}  {row['place'] or 'the job'}  {now}  (was {was})"
    name = f"{row['memo']}.{row['fact']}  {row['place'] or '(no place)'}"
    if row["now"] is None:
        return f"{name}  struck: {row['was']}"
    if row["was"] is None:
        return f"{name}  {row['now']}"
    if confirmed:
        return f"{name}  {row['now']}  ✓"
    moved = f"{row['was_place'] or '(no place)'} " if row["was_place"] != row["place"] else ""
    return f"{name}  {row['now']}  (was {moved}{row['was']})"
