"""`journal cuts`, `stock`, `buy`, `drying`, `hours`, `costs`, `assume`: what the facts on file come to."""

from __future__ import annotations

import difflib
from datetime import datetime
from typing import Any

import click

from journal.cli.common import emit, note, open_session, with_as_of, with_output
from journal.errors import JournalError, NotFound
from journal.lengths import format_length


@click.command()
@click.argument("place")
@with_as_of
@with_output
@click.pass_context
def cuts(ctx: click.Context, place: str, as_of: datetime | None, form: str | None) -> None:
    """The cut list of a gable and the boards that it comes out of; what is missing where it cannot be made.

    Long points round up to 1/16. Left and right are as seen from outside unless set otherwise.

    \b
    journal cuts "lake gable"
    journal cuts "lake gable" --json
    """
    from journal.quantities.cuts import cut_list, to_json
    from journal.quantities.place_plan import plan_of

    session = open_session(ctx)
    found = session.place(place)
    book = session.book(as_of=as_of)  # the boards that it comes out of may have been used anywhere
    pieces = cut_list(book, found)
    if not pieces.pieces:
        reasons = [missing.say for missing in pieces.missing] + [one.shown for one in pieces.disagree]
        raise JournalError(
            f"there is no cut list for {found} yet", hint="\n".join(reasons) or "Say its base width and its slope."
        )
    plan = plan_of(book, found)
    emit([*map(to_json, pieces.pieces), plan.row()], form, _cut_line)
    for line in (*(one.shown for one in pieces.disagree), *pieces.assumed, *plan.assumed):
        note(line)
    if plan.missing is not None:
        note(plan.missing.say)


def _cut_line(row: dict[str, Any]) -> str:
    if "plan" in row and row["boards"] is None:
        return "no cutting plan yet"
    if "plan" in row:
        lines = [
            f"board {board['board']} ({_length(board['length_in'])}): {', '.join(board['pieces'])}"
            for board in row["plan"]
        ]
        lines += row["left_out"]
        if row["short"]:
            lines.append(f"{row['short']} boards short of what is there")
        met = "met" if row["met"] else "not met"
        return "\n".join(
            [*lines, f"{row['boards']} boards, bound {row['bound']} ({met}), waste {row['waste_percent']} %"]
        )
    points = f"{row['long_point']} > {row['short_point']}"
    notch = f"  notch {row['notch']}" if row["notch"] else ""
    ripped = f"  ripped to {row['width']}" if row["ripped"] else ""
    return f"{row['side']}{row['piece']:<14} {points:<24} {row['state']}{notch}{ripped}"


def _length(inches: str) -> str:
    """Inches as text in feet and inches."""
    from journal.lengths import ticks_from_inches

    return format_length(ticks_from_inches(inches))


@click.command()
@with_as_of
@with_output
@click.pass_context
def stock(ctx: click.Context, as_of: datetime | None, form: str | None) -> None:
    """What is there of each lot: booked, counted, missing.

    \b
    journal stock
    journal stock --as-of 2026-07-24 --json
    """
    from journal.quantities.stock import ledger, stock_balance

    book = open_session(ctx).book(kinds=("stock", "cost"), as_of=as_of)
    if not emit(stock_balance(book), form, _stock_line):
        note("nothing has been received, counted or used yet")
    for question in ledger(book).questions:
        note(question.shown)


def _stock_line(row: dict[str, Any]) -> str:
    length = _length(row["length_in"]) if row["length_in"] else None
    name = " ".join(part for part in (row["section"], row["species"], row["what"], length) if part)
    lines = [f"{name}: {row['shown']}", *(f"   {line}" for line in row["notes"])]
    return "\n".join(lines)


@click.command()
@with_as_of
@with_output
@click.pass_context
def buy(ctx: click.Context, as_of: datetime | None, form: str | None) -> None:
    """What to get at the yard: asked for or short in the cut lists, less what is there and on order.

    \b
    journal buy
    """
    from journal.quantities.buy import buy_list

    rows = buy_list(open_session(ctx).book(as_of=as_of))
    if not emit(rows, form, _buy_line):
        note("nothing is asked for that is not there")


def _buy_line(row: dict[str, Any]) -> str:
    ordered = f", {row['on_order']:g} on order" if row["on_order"] else ""
    because = ", ".join(f"memo {one}" if isinstance(one, int) else str(one) for one in row["because"])
    return "\n".join([f"{row['shown']}{ordered}  ({because})", *(f"   {line}" for line in row["notes"])])


@click.command()
@with_as_of
@with_output
@click.pass_context
def drying(ctx: click.Context, as_of: datetime | None, form: str | None) -> None:
    """The stacks: moisture so far, and when they should be dry, or why that cannot be said yet.

    \b
    journal drying
    """
    from journal.quantities.drying import drying as stacks

    rows = stacks(open_session(ctx).book(as_of=as_of))
    if not emit(rows, form, _drying_line):
        note("no moisture has been read yet")
    elif form is None:
        note("An estimate; a meter is good to about two points (common practice).")


def _drying_line(row: dict[str, Any]) -> str:
    name = ", ".join(part for part in (row["place"], row["what"]) if part)
    return f"{name or '(no place)'}: {row['shown']}"


@click.command()
@click.argument("place", required=False)
@click.option("--by", type=click.Choice(["activity", "day", "week"]), default="activity", help="Sum by this. Activity.")
@with_as_of
@with_output
@click.pass_context
def hours(ctx: click.Context, place: str | None, by: str, as_of: datetime | None, form: str | None) -> None:
    """Hours by place and activity, day or week; of one place with what belongs to it.

    \b
    journal hours
    journal hours "lake gable" --by day
    """
    from journal.quantities.labour import hours_summary

    session = open_session(ctx)
    where = session.place(place) if place else None
    emit(
        hours_summary(session.book(kinds=("hours", "cost"), as_of=as_of), where, by=by),
        form,
        lambda row: _hours_line(row, by),
    )


def _hours_line(row: dict[str, Any], by: str) -> str:
    if row.get("total"):
        return f"{row['hours']:>7g} h in all"
    return f"{row['hours']:>7g} h  {row['place'] or '(no place)'}  {row[by] or ''}".rstrip()


@click.command()
@click.argument("place", required=False)
@with_as_of
@with_output
@click.pass_context
def costs(ctx: click.Context, place: str | None, as_of: datetime | None, form: str | None) -> None:
    """Money spent and what was used; of a place its labour, materials at the price of their receipt, and totals said there.

    \b
    journal costs
    journal costs "lake gable"
    """
    from journal.quantities.money import costs_summary

    session = open_session(ctx)
    where = session.place(place) if place else None
    rows = costs_summary(session.book(kinds=("stock", "cost", "hours"), as_of=as_of), where)
    emit(rows, form, _cost_line)
    lacking = rows[-1]["without_price"]
    if isinstance(lacking, list) and lacking:
        note(f"without a price: {'; '.join(lacking)}")


def _cost_line(row: dict[str, Any]) -> str:
    if row.get("total"):
        return f"{row['amount']:>10,.2f}  in all"
    amount = "unknown" if row["amount"] is None else f"{row['amount']:,.2f}"
    return f"{amount:>10}  {row['kind']:<7} {row['what'] or ''}  {row['place'] or ''}".rstrip()


@click.command()
@click.argument("name", required=False)
@click.argument("value", required=False)
@click.option("--place", metavar="PLACE", help="For this place only.")
@click.option("--default", "back", is_flag=True, help="Back to the default.")
@with_output
@click.pass_context
def assume(
    ctx: click.Context, name: str | None, value: str | None, place: str | None, back: bool, form: str | None
) -> None:
    """What the quantities take for granted, each with the source of its default; or set one, for the job or a place.

    \b
    journal assume
    journal assume kerf 1/8
    journal assume "board start" seam --place "lake gable"
    """
    from journal.quantities.base import listed

    session = open_session(ctx, create=True)
    where = session.place(place) if place else None
    if name is not None and (value is not None or back):
        session.assume(name, None if back else value, where)
    book = session.book()
    shown = [known for known in listed() if name in (None, known.name)]
    if not shown:
        near = difflib.get_close_matches(name or "", [known.name for known in listed()], n=1)
        guess = f" Did you mean '{near[0]}'?" if near else ""
        raise NotFound(f"nothing is assumed under '{name}'", hint=f"journal assume lists what is.{guess}")
    taken = [book.assume(known.name, where) for known in shown]
    rows = [
        {
            "name": one.assumption.name, "value": one.assumption.show(one.amount), "place": where, "from": one.origin,
            "default": one.assumption.show(one.assumption.default), "source": one.assumption.source,
        }
        for one in taken
    ]  # fmt: skip
    emit(rows, form, lambda row: f"{row['name']:<24} {row['value']:<14} {row['from']}")
