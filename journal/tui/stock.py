"""The Stock screen: the lots with their balance, the stacks drying with a plot and the expected day, and what to buy."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize

from journal.quantities.base import memo_names
from journal.quantities.book import day
from journal.quantities.buy import ToBuy, to_buy
from journal.quantities.drying import Stack, stacks
from journal.quantities.lot import Lot, counted
from journal.quantities.stock import ledger
from journal.records import Reading
from journal.session import Session
from journal.tui.draw_drying import draw_drying
from journal.tui.job_screen import JobScreen
from journal.tui.lists import PlainList
from journal.tui.marks import quiet
from journal.tui.pane import Pane


@dataclass(frozen=True, slots=True)
class StockView:
    """What the screen shows, worked out in a worker."""

    lots: tuple[Lot, ...]
    questions: tuple[tuple[str, tuple[int, ...]], ...]
    stacks: tuple[Stack, ...]
    buy: tuple[ToBuy, ...]


def stock_view(session: Session) -> StockView:
    """Lots, stacks and what to buy, from the whole job."""
    book = session.book()
    found = ledger(book)
    drying = {filed.fact.place for filed in book.all_of(Reading) if filed.fact.quantity == "moisture"}
    ordered = sorted(drying, key=lambda place: place or "")
    return StockView(
        tuple(lot for lot in found.lots if any(move.event != "need" for move in lot.movements)),
        tuple((question.shown, question.memos) for question in found.questions),
        tuple(stack for place in ordered for stack in stacks(book, place)),
        to_buy(book),
    )


class StockScreen(JobScreen):
    """Lots, stacks and the yard list; Enter goes to the memo behind a row."""

    mode = "stock"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("m", "memo", "Memo", id="stock.memo", tooltip="Go to the newest memo behind the row in hand"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.view: StockView | None = None
        self._memos: dict[str, tuple[int, ...]] = {}
        self._more: dict[str, Content] = {}

    def panes(self) -> ComposeResult:
        """The rows, and beside or under them what there is to say of the one in hand."""
        with Container(id="stock"):
            with Vertical(id="lots-pane"):
                yield PlainList(id="lots")
            with VerticalScroll(id="plot-pane", can_focus=False):
                yield Pane(id="plot")

    @property
    def rows(self) -> PlainList:
        """The list."""
        return self.query_one("#lots", PlainList)

    def load(self) -> None:
        """Work everything out in a worker."""
        if self.focused is None:
            self.rows.focus()
        self.ask_job("working out the stock", stock_view, self._show, group="stock")

    def _show(self, view: StockView) -> None:
        self.view = view
        self._memos, self._more = {}, {}
        rows: list[tuple[str | None, Content]] = []
        parts = (
            ("Look again", [self._question(i, *one) for i, one in enumerate(view.questions)]),
            ("To buy", [self._buy(i, one) for i, one in enumerate(view.buy)]),
            ("Drying", [self._stack(i, one) for i, one in enumerate(view.stacks)]),
            ("Left", [self._lot(i, one) for i, one in enumerate(view.lots)]),
        )
        for title, found in parts:
            if found:
                rows += [(None, Content(title)), *found]
        self.rows.show_rows(rows or [(None, Content("no stock has been spoken of yet"))], self.rows.chosen)
        self.status.tell(f"{len(view.lots)} lots", f"{len(view.buy)} to buy", f"{len(view.stacks)} drying")
        self._show_more()

    def _question(self, index: int, shown: str, memos: tuple[int, ...]) -> tuple[str, Content]:
        name = f"ask {index}"
        self._memos[name] = memos
        return name, Content.assemble(("≠ ", "bold $text-error"), shown)

    def _buy(self, index: int, one: ToBuy) -> tuple[str, Content]:
        name = f"buy {index}"
        asked = [because for because in one.because if isinstance(because, int)]
        lists = [because for because in one.because if isinstance(because, str)]
        self._memos[name] = tuple(asked)
        why = " and ".join([*([memo_names(asked)] if asked else []), *lists])
        order = (f"{float(one.on_order):g} on order",) if one.on_order else ()
        self._more[name] = Content("\n").join([Content(line) for line in (f"asked for by {why}", *order, *one.notes)])
        return name, Content.assemble(("? " if one.doubts else "  ", "bold $text-warning"), (one.shown, "bold")).append(
            quiet(f"  {why}")
        )

    def _stack(self, index: int, stack: Stack) -> tuple[str, Content]:
        name = f"dry {index}"
        self._memos[name] = stack.memos
        title = ", ".join(part for part in (stack.what, stack.place) if part) or "a stack"
        return name, Content.assemble(
            ("? " if stack.doubts else "  ", "bold $text-warning"), f"{title}: ", (stack.shown, "bold")
        )

    def _lot(self, index: int, lot: Lot) -> tuple[str, Content]:
        name = f"lot {index}"
        self._memos[name] = lot.memos
        balance = "unknown" if lot.balance is None else counted(lot.balance, lot.name.unit)
        feet = f", {float(lot.board_feet):.1f} bf" if lot.board_feet is not None else ""
        mark = ("? " if lot.doubts else "  ", "bold $text-warning")
        self._more[name] = _lot_told(lot)
        missing = f"  {float(lot.missing):g} missing" if lot.missing else ""
        return name, Content.assemble(
            mark, f"{lot.name.shown}: ", (balance + feet + (" ~" if lot.unsure else ""), "bold"), (missing, "bold")
        )

    @on(PlainList.Moved)
    def _show_more(self) -> None:
        name, pane = self.rows.chosen or "", self.query_one("#plot-pane")
        told = self._more.get(name, Content(""))
        if self.view is not None and name.startswith("dry "):
            stack = self.view.stacks[int(name.split()[1])]
            plot = draw_drying(stack, max(pane.size.width - 2, 24), min(max(pane.size.height - 6, 6), 18))
            told = Content("\n").join([*plot, *_stack_told(stack)])
        self.query_one("#plot", Pane).show(told)

    @on(Resize)
    def _resized(self) -> None:
        self.call_after_refresh(self._show_more)

    @on(PlainList.Chosen)
    def action_memo(self) -> None:
        """Go to the newest memo behind the row in hand."""
        memos = self._memos.get(self.rows.chosen or "", ())
        if memos:
            self.review.go_to_memo(memos[-1])


def _lot_told(lot: Lot) -> Content:
    lines = [Content.styled(lot.name.shown, "bold")]
    for move in lot.movements:
        amount = "?" if move.amount is None else f"{float(move.amount):g}"
        where = f", {move.filed.fact.place}" if move.filed.fact.place else ""
        lines.append(
            Content(f"  {move.event} {amount}{where}  ").append(quiet(f"memo {move.memo}, {day(move.filed.said_at)}"))
        )
    lines += [Content(f"  {note}") for note in lot.notes]
    lines += [Content.assemble(("? ", "bold $text-warning"), doubt) for doubt in lot.doubts]
    return Content("\n").join(lines)


def _stack_told(stack: Stack) -> list[Content]:
    lines = [stack.shown, *(f"taken for granted: {line}" for line in stack.assumed)]
    if stack.emc is not None:
        lines.append(f"the air there dries to {stack.emc:.1f} %")
    return [*map(quiet, lines), *(Content.assemble(("? ", "bold $text-warning"), doubt) for doubt in stack.doubts)]
