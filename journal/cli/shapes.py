"""Memos, facts and places as the rows that commands print, and as the lines that people read."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from journal.fields import describe, figure_shown
from journal.intake import Taken
from journal.interchange import aside_to_json, doubt_to_json, fact_to_json, problem_to_json
from journal.places import belongs_to
from journal.quantities.base import Answers, to_json
from journal.quantities.book import Book, thing
from journal.quantities.cautions import task_cautions
from journal.quantities.lots import same
from journal.quantities.tasks import to_do
from journal.records import Cost, Fact, Filed, Measure, Memo, Problem, Slope

Row = dict[str, Any]


def filed_row(filed: Filed[Fact]) -> Row:
    """A current fact with where it stands: memo, number, when it was said, how it is shown."""
    row: Row = {"memo": filed.memo, "fact": filed.number, **fact_to_json(filed.fact)}
    row["shown"] = describe(filed.fact)
    row["said_at"] = filed.said_at.isoformat(timespec="minutes")
    if filed.confirmed:
        row["confirmed"] = True
    if filed.was:
        row["was"] = [{"shown": describe(old.fact), "memo": old.memo} for old in filed.was]
    return row


def memo_row(taken: Taken) -> Row:
    """A memo with its facts, doubts and problems."""
    memo = taken.memo
    facts = [filed_row(filed) for filed in taken.facts]
    doubts = [doubt for filed in taken.facts for doubt in filed.fact.doubts] + list(taken.doubts)
    row: Row = {
        "memo": memo.number,
        "said_at": memo.said_at.isoformat(timespec="minutes"),
        "place": memo.place,
        "text": memo.text,
        "source": memo.source,
        "facts": facts,
        "doubts": [doubt_to_json(doubt) for doubt in dict.fromkeys(doubts)],
        "problems": [problem_to_json(problem) for problem in taken.problems],
    }
    if taken.asides:
        row["asides"] = [aside_to_json(aside) for aside in taken.asides]
    return row


def memo_lines(row: Row) -> str:
    """A memo row as people read it: a head line, the words, a line a fact with its doubts under it, then problems."""
    moment = datetime.fromisoformat(row["said_at"])
    lines = [f"memo {row['memo']}  {moment:%a} {moment.day} {moment:%b %H:%M}", f"   “{row['text']}”"]
    for fact in row["facts"]:
        lines.extend(fact_lines(fact))
    lines.extend(
        f"   ! {line}" for problem in row["problems"] for line in (problem["message"], problem["hint"]) if line
    )
    loose = [d for d in row["doubts"] if not any(d in fact.get("doubts", ()) for fact in row["facts"])]
    lines.extend(f"   ? {doubt['shown']}" for doubt in loose)
    return "\n".join(lines)


def fact_lines(fact: Row, *, with_memo: bool = False) -> list[str]:
    """A fact row as people read it, its doubts and what it replaced under it."""
    name = f"{fact['memo']}.{fact['fact']}" if with_memo else str(fact["fact"])
    place = "" if with_memo else f"{fact.get('place') or '(no place)'}  "
    sure = "  ✓" if fact.get("confirmed") else ""
    lines = [f"   {name:<5} {place}{fact['shown']}{sure}"]
    lines.extend(f"         was {old['shown']} (memo {old['memo']})" for old in fact.get("was", ()))
    lines.extend(f"         ? {doubt['shown']}" for doubt in fact.get("doubts", ()))
    return lines


# ---- a place -------------------------------------------------------------------------------------------------------


def about_row(place: str, book: Book, answers: Answers, problems: Iterable[tuple[int, Problem]] = ()) -> Row:
    """Everything about one place: current facts newest first, what they replaced, quantities, what is missing.

    `problems` are what was said there and could not be used, refused questions among them, by memo.
    """
    here = [filed for filed in book.facts if belongs_to(filed.fact.place, place)]
    newest, older = _newest(here)
    was = [filed_row(filed) | {"by": by} for filed, by in older]
    was += [
        filed_row(old) | {"by": filed.memo}
        for filed in reversed(here)
        for old in filed.was
        if describe(old.fact) != describe(filed.fact) or old.fact.place != filed.fact.place
    ]
    return {
        "place": place,
        "facts": [filed_row(filed) for filed in newest],
        "was": was,
        "quantities": [to_json(value) for value in answers.quantities],
        "missing": [to_json(missing) for missing in answers.missing],
        "disagree": [to_json(disagreement) for disagreement in answers.disagree],
        "tasks": [entry.row() for entry in to_do(book, place=place)],
        "problems": [{"memo": memo, **problem_to_json(problem)} for memo, problem in problems],
    }


def _newest(here: list[Filed[Fact]]) -> tuple[list[Filed[Fact]], list[tuple[Filed[Fact], int]]]:
    """Facts newest first, those that a later memo said anew apart, each with the memo that did."""
    seen: dict[tuple[object, ...], Filed[Fact]] = {}
    newest, older = [], []
    for filed in reversed(here):
        key = _state_key(filed.fact)
        later = seen.setdefault(key, filed) if key else filed
        if later is filed or later.memo == filed.memo:
            newest.append(filed)
        else:
            older.append((filed, later.memo))
    return newest, older


def _state_key(fact: Fact) -> tuple[object, ...] | None:
    """What a state fact is the figure of; None for facts that add up and for those said in pairs."""
    if isinstance(fact, Measure) and fact.dimension not in ("diagonal", "size"):
        return (fact.place, thing(fact.about), fact.dimension)
    if isinstance(fact, Slope):
        return (fact.place, thing(fact.about), "slope")
    return None


def about_lines(row: Row) -> str:
    """A place as people read it."""
    lines = [row["place"], ""]
    for fact in row["facts"]:
        lines.extend(fact_lines(fact, with_memo=True))
        own = {"place": row["place"]}
        if fact.get("place") not in (None, own["place"]):
            lines[-1 - len(fact.get("was", ())) - len(fact.get("doubts", ()))] += f"  [{fact['place']}]"
    if row["was"]:
        lines += ["", "before that"]
        lines += [f"   {old['memo']}.{old['fact']:<3} {old['shown']}  (now memo {old['by']})" for old in row["was"]]
    if row["quantities"]:
        lines += ["", "worked out"]
        for value in row["quantities"]:
            lines.extend(value_lines(value, row["place"]))
    for title, key, name in (("to say next", "missing", "say"), ("look again", "disagree", "shown")):
        if row[key]:
            lines += ["", title, *(f"   {entry[name]}" for entry in row[key])]
    if row["problems"]:
        lines += ["", "not used", *(f"   memo {entry['memo']}: {entry['message']}" for entry in row["problems"])]
    open_tasks = [task for task in row["tasks"] if task["status"] != "done"]
    cautions = dict.fromkeys(value["caution"] for value in row["quantities"] if value["caution"])
    cautions |= dict.fromkeys(caution for task in open_tasks for caution in task_cautions(task["do"]))
    if cautions:
        lines += ["", "mind", *(f"   {caution}" for caution in cautions)]
    return "\n".join(lines)


def value_lines(value: Row, place: str) -> list[str]:
    """A quantity as people read it: the figure, the memos behind it, what it replaced and what was assumed."""
    name = named(value["about"], value["name"])
    elsewhere = f"  [{value['place']}]" if value["place"] not in (None, place) else ""
    memos = ", ".join(map(str, value["memos"]))
    lines = [f"   {name}: {value['shown']}{elsewhere}" + (f"   (memo {memos})" if memos else "")]
    lines.extend(f"         {was}" for was in value["was"])
    if value["assumed"]:
        lines.append(f"         taken for granted: {'; '.join(value['assumed'])}")
    return lines


def named(about: str | None, name: str) -> str:
    """The name of a quantity with the thing it is of, said once: "window to order, width" is of a window already."""
    return name if about is None or name.startswith(about) else f"{about} {name}"


# ---- what changed --------------------------------------------------------------------------------------------------


def change_rows(memos: Iterable[Memo], book: Book, *, place: str | None = None) -> list[Row]:
    """What the facts of these memos changed: now, and what it was before (None where it is new), in the order said."""
    numbers = {memo.number for memo in memos}
    before: dict[tuple[object, ...], Fact] = {}
    prices: list[Cost] = []
    rows = []
    for filed in book.facts:
        fact = filed.fact
        key = _state_key(fact)
        old = filed.was[0].fact if filed.was else before.get(key) if key else None
        if key:
            before[key] = fact
        if isinstance(fact, Cost) and fact.per != "total":
            old = old or next(
                (one for one in reversed(prices) if one.per == fact.per and same(one.what, fact.what)), None
            )
            prices.append(fact)
        if filed.memo not in numbers or (place is not None and not belongs_to(fact.place, place)):
            continue
        was = _change_shown(old) if old is not None else None
        if was == _change_shown(fact):
            continue
        rows.append(
            {
                "memo": filed.memo, "place": fact.place, "kind": fact.kind, "about": _change_about(fact),
                "dimension": getattr(fact, "dimension", None), "now": _change_shown(fact), "was": was,
                "said_at": filed.said_at.isoformat(timespec="minutes"),
            }
        )  # fmt: skip
    return rows


def _change_about(fact: Fact) -> str | None:
    return next(
        (getattr(fact, name) for name in ("about", "what", "activity", "do") if getattr(fact, name, None)), None
    )


def _change_shown(fact: Fact) -> str:
    return figure_shown(fact) if isinstance(fact, (Measure, Slope, Cost)) else describe(fact)


def change_lines(row: Row) -> str:
    """A change as people read it."""
    thing_said = " ".join(part for part in (row["place"], row["about"], row["dimension"]) if part)
    was = f"  (was {row['was']})" if row["was"] else ""
    return f"memo {row['memo']}  {thing_said}: {row['now']}{was}"
