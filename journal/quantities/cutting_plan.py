"""The cutting plan: which pieces come out of which board, with kerf, end trim, boards set aside and offcuts put back.

Lengths are whole ticks. Works from any list of pieces and lots; what is left to cut and what is in stock come from others.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import permutations

from journal.lengths import INCH, format_length
from journal.quantities.packing import pack, volume_bound


@dataclass(frozen=True, slots=True)
class Cut:
    """A piece to come out of a board, by its name and long point."""

    name: str
    length_ticks: int
    memos: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Lot:
    """Boards of one length. `count` None is as many as it takes; `set_aside` of them are defective and not cut."""

    length_ticks: int
    count: int | None = None
    set_aside: int = 0
    name: str = ""

    @property
    def there(self) -> int | None:
        """Boards that can be cut."""
        return None if self.count is None else max(self.count - self.set_aside, 0)


@dataclass(frozen=True, slots=True)
class PlannedBoard:
    """One board of the plan and its cuts, longest first. `offcut_ticks` is put back as stock where `put_back`."""

    number: int
    length_ticks: int
    cuts: tuple[Cut, ...]
    offcut_ticks: int
    put_back: bool
    lot: str = ""


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """Boards with their cuts. `bound` is the fewest boards of the longest lot that the lengths allow; `met` where reached.

    `left_out` are cuts that no board takes, each with a sentence; `short` are cuts that the boards on hand ran out for.
    `waste_percent` is what of the boards is neither piece nor put back.
    """

    boards: tuple[PlannedBoard, ...]
    bound: int
    waste_percent: float
    left_out: tuple[tuple[Cut, str], ...] = ()
    short: tuple[Cut, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def met(self) -> bool:
        """Whether no plan with fewer boards can be."""
        return len(self.boards) == self.bound and not self.short


@dataclass(slots=True)
class _Mix:
    """Boards chosen so far from the lots in one order: the lot and the cuts of each."""

    chosen: list[tuple[Lot, list[Cut]]] = field(default_factory=list)
    short: list[Cut] = field(default_factory=list)

    @property
    def cost(self) -> tuple[int, int, int]:
        """Cuts without a board, then length of stock used, then boards."""
        return len(self.short), sum(lot.length_ticks for lot, _ in self.chosen), len(self.chosen)


def cutting_plan(
    cuts: Iterable[Cut],
    lots: Iterable[Lot],
    kerf: int,
    trim: int = 0,
    put_back_over: int = 24 * INCH,
) -> CuttingPlan:
    """The boards that a list of pieces takes, in ticks: sum(piece) + (n - 1) kerf <= length - 2 trim on every board.

    Best fit decreasing, then bettered (packing.py). The bound is ceil(sum(l + k)/(usable + k)), which no plan beats.
    A piece longer than every board, or no longer than the kerf, is left out with a sentence; never raises.
    """
    usable_lots = [lot for lot in lots if lot.length_ticks > 2 * trim and lot.there != 0]
    fitting, left_out = _fitting(list(cuts), usable_lots, kerf, trim)
    if not fitting:
        return CuttingPlan((), 0, 0.0, left_out)
    mix = min((_mixed(fitting, order, kerf, trim) for order in _orders(usable_lots)), key=lambda one: one.cost)
    longest = max(lot.length_ticks for lot in usable_lots)
    bound = volume_bound([cut.length_ticks + kerf for cut in fitting], longest - 2 * trim + kerf)
    boards = tuple(_boards(mix, kerf, trim, put_back_over))
    stock = sum(board.length_ticks for board in boards)
    kept = sum(c.length_ticks for b in boards for c in b.cuts) + sum(b.offcut_ticks for b in boards if b.put_back)
    waste = 100 * (1 - kept / stock) if stock else 0.0
    return CuttingPlan(boards, bound, round(waste, 1), left_out, tuple(mix.short))


def _fitting(
    cuts: Sequence[Cut], lots: Sequence[Lot], kerf: int, trim: int
) -> tuple[list[Cut], tuple[tuple[Cut, str], ...]]:
    """The cuts that some board takes, and the others each with what is wrong."""
    room = max((lot.length_ticks - 2 * trim for lot in lots), default=0)
    fitting: list[Cut] = []
    left_out: list[tuple[Cut, str]] = []
    for cut in cuts:
        said = f" (memo {', '.join(str(memo) for memo in cut.memos)})" if cut.memos else ""
        size = format_length(cut.length_ticks)
        if cut.length_ticks <= 0:
            left_out.append((cut, f"piece {cut.name}{said} has no length"))
        elif cut.length_ticks <= kerf:
            wide = format_length(kerf)
            left_out.append((cut, f"piece {cut.name}{said} is {size}, no longer than the kerf of {wide}"))
        elif not lots:
            left_out.append((cut, f"piece {cut.name}{said} is {size} and there is no board to cut it from"))
        elif cut.length_ticks > room:
            longest = format_length(max(lot.length_ticks for lot in lots))
            ends = f" less {format_length(trim)} at each end" if trim else ""
            left_out.append((cut, f"piece {cut.name}{said} is {size}, longer than the longest board, {longest}{ends}"))
        else:
            fitting.append(cut)
    return fitting, tuple(left_out)


def _orders(lots: Sequence[Lot]) -> Iterable[tuple[Lot, ...]]:
    """The orders to try lots in: all of them for up to four, else longest first and shortest first."""
    by_length = sorted(lots, key=lambda lot: -lot.length_ticks)
    if len(by_length) <= 4:
        return permutations(by_length)
    return tuple(by_length), tuple(reversed(by_length))


def _mixed(cuts: Sequence[Cut], order: Sequence[Lot], kerf: int, trim: int) -> _Mix:
    """Boards of each lot in turn, the fullest of them kept where the lot runs out; then each on the shortest that holds it."""
    mix = _Mix(short=list(cuts))
    for lot in order:
        room = lot.length_ticks - 2 * trim + kerf
        now = [cut for cut in mix.short if cut.length_ticks + kerf <= room]
        if not now:
            continue
        bins = pack([cut.length_ticks + kerf for cut in now], room)
        bins.sort(key=lambda chosen: -sum(now[i].length_ticks + kerf for i in chosen))
        kept = bins if lot.there is None else bins[: lot.there]
        taken = {id(now[i]) for chosen in kept for i in chosen}
        mix.chosen.extend((lot, [now[i] for i in chosen]) for chosen in kept)
        mix.short = [cut for cut in mix.short if id(cut) not in taken]
    _shorten(mix, order, kerf, trim)
    return mix


def _shorten(mix: _Mix, lots: Sequence[Lot], kerf: int, trim: int) -> None:
    """Moves what a board holds to the shortest board left that holds it too."""
    used = {id(lot): sum(1 for chosen, _ in mix.chosen if chosen is lot) for lot in lots}
    for place, (lot, cuts) in enumerate(mix.chosen):
        needed = sum(cut.length_ticks + kerf for cut in cuts) - kerf + 2 * trim
        for other in sorted(lots, key=lambda one: one.length_ticks):
            free = other.there is None or used[id(other)] < other.there
            if needed <= other.length_ticks < lot.length_ticks and free:
                used[id(lot)] -= 1
                used[id(other)] += 1
                mix.chosen[place] = (other, cuts)
                break


def _boards(mix: _Mix, kerf: int, trim: int, put_back_over: int) -> Iterable[PlannedBoard]:
    # the fullest boards first, so that the offcut worth keeping comes last
    ordered = sorted(mix.chosen, key=lambda pair: pair[0].length_ticks - sum(c.length_ticks for c in pair[1]))
    for number, (lot, cuts) in enumerate(ordered, start=1):
        rest = max(lot.length_ticks - 2 * trim - sum(cut.length_ticks + kerf for cut in cuts), 0)
        longest_first = tuple(sorted(cuts, key=lambda cut: -cut.length_ticks))
        yield PlannedBoard(number, lot.length_ticks, longest_first, rest, rest > put_back_over, lot.name)
