"""Packing lengths into boards of one length: best fit decreasing, then fuller boards by subset sums, and the bounds.

Whole numbers only. Knows nothing of lumber.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from math import gcd
from random import Random

Bins = list[list[int]]  # for each bin the indexes of its sizes

_TRIES = 60
_REPAIRS = 1000
_FINEST = 8192  # steps that a bin is divided into at most while its contents are searched


def best_fit_decreasing(sizes: Sequence[int], capacity: int) -> Bins:
    """Each size, largest first, into the fullest bin that still takes it. Every size must fit the capacity."""
    bins: Bins = []
    free: list[int] = []
    for index in sorted(range(len(sizes)), key=lambda i: -sizes[i]):
        fitting = [b for b, left in enumerate(free) if left >= sizes[index]]
        if fitting:
            fullest = min(fitting, key=lambda b: free[b])
            bins[fullest].append(index)
            free[fullest] -= sizes[index]
        else:
            bins.append([index])
            free.append(capacity - sizes[index])
    return bins


def volume_bound(sizes: Sequence[int], capacity: int) -> int:
    """The fewest bins that the sum of the sizes allows: ceil(sum/capacity)."""
    return -(-sum(sizes) // capacity)


def lower_bound(sizes: Sequence[int], capacity: int) -> int:
    """A number of bins that no packing goes below, counting sizes that cannot share.

    Martello and Toth (1990), L2, and the dual feasible functions u(k) of Fekete and Schepers (2001) for k up to 6.
    """
    best = max(volume_bound(sizes, capacity), *(_rounded_bound(sizes, capacity, k) for k in range(1, 7)))
    halves = [size for size in sizes if 2 * size > capacity]
    for threshold in {size for size in sizes if 2 * size <= capacity} | {0}:
        alone = [size for size in halves if size > capacity - threshold]
        sharing = [size for size in halves if size <= capacity - threshold]
        small = sum(size for size in sizes if 2 * size <= capacity and size >= threshold)
        room = len(sharing) * capacity - sum(sharing)
        best = max(best, len(alone) + len(sharing) + max(0, -(-(small - room) // capacity)))
    return best


def _rounded_bound(sizes: Sequence[int], capacity: int, k: int) -> int:
    """The volume bound with each size rounded to k-ths of a bin: down, save where (k + 1) of it make whole bins."""
    total = 0  # in parts of k x capacity, so that whole numbers do
    for size in sizes:
        whole, rest = divmod((k + 1) * size, capacity)
        total += whole * capacity if rest else size * k
    return -(-total // (k * capacity))


def pack(sizes: Sequence[int], capacity: int) -> Bins:
    """A packing never worse than best fit decreasing, and nearly always the fewest bins. The same for the same sizes.

    While the bound is not met, one bin less is tried: each bin takes the largest size left and the fullest set of others
    beside it, the free room being spread over the bins at random. ValueError for a size that no bin takes.
    """
    if any(not 0 < size <= capacity for size in sizes):
        raise ValueError("every size has to be more than nothing and to fit one bin")
    best = best_fit_decreasing(sizes, capacity)
    bound = lower_bound(sizes, capacity)
    chance = Random(len(sizes))
    while len(best) > bound:
        fewer = _into(sizes, capacity, len(best) - 1, chance)
        if fewer is None:
            break
        best = fewer
    return best


def _into(sizes: Sequence[int], capacity: int, count: int, chance: Random) -> Bins | None:
    """A packing into so many bins, None where the search finds none."""
    whole, room = _steps(sizes, capacity)
    spare = count * room - sum(whole)
    if spare < 0 or max(whole) > room:
        return None
    for attempt in range(_TRIES):
        bins = _fill(whole, room, count, spare, chance if attempt else None)
        if bins is not None:
            return bins
    return _repaired(whole, room, count, chance)


def _repaired(sizes: Sequence[int], capacity: int, count: int, chance: Random) -> Bins | None:
    """The fullest bins of best fit decreasing, a few at a time emptied and filled anew together with what is left over.

    A filling is kept where no more is left over than before; None where something is left over to the end.
    """
    bins = best_fit_decreasing(sizes, capacity)
    bins.sort(key=lambda chosen: -sum(sizes[i] for i in chosen))
    left = [i for chosen in bins[count:] for i in chosen]
    bins = bins[:count]
    over = sum(sizes[i] for i in left)
    for _ in range(_REPAIRS):
        places = chance.sample(range(count), min(count, chance.choice((2, 3, 3, 4))))
        pool = [*left, *(i for place in places for i in bins[place])]
        chance.shuffle(pool)
        filled: Bins = []
        for _ in places:
            largest = max(pool, key=lambda i: sizes[i]) if pool and chance.random() < 0.6 else None
            room = capacity - (sizes[largest] if largest is not None else 0)
            others = [i for i in pool if i != largest]
            chosen = _fullest(others, sizes, room, room, None)
            filled.append(chosen if largest is None else [largest, *chosen])
            taken = set(filled[-1])
            pool = [i for i in pool if i not in taken]
        rest = sum(sizes[i] for i in pool)
        if rest <= over:
            left, over = pool, rest
            for place, chosen in zip(places, filled, strict=True):
                bins[place] = chosen
            if not left:
                return [chosen for chosen in bins if chosen]
    return None


def _steps(sizes: Sequence[int], capacity: int) -> tuple[list[int], int]:
    """The sizes in whole steps, rounded up where a bin would have too many to search: what fits in steps fits."""
    step = max(reduce(gcd, sizes, capacity), 1)
    if capacity // step > _FINEST:
        step = -(-capacity // _FINEST)
    return [-(-size // step) for size in sizes], capacity // step


def _fill(sizes: Sequence[int], capacity: int, count: int, spare: int, chance: Random | None) -> Bins | None:
    left = sorted(range(len(sizes)), key=lambda i: sizes[i])
    bins: Bins = []
    for remaining in range(count, 0, -1):
        if not left:
            break
        first = left.pop()
        room = capacity - sizes[first]
        allowance = 0 if chance is None else int(chance.random() ** 2 * 2 * spare / remaining)
        chosen = _fullest(left, sizes, room - min(allowance, room), room, chance)
        taken = set(chosen)
        bins.append([first, *chosen])
        spare -= room - sum(sizes[i] for i in chosen)
        if spare < 0:
            return None
        left = [i for i in left if i not in taken]
    return None if left else bins


def _fullest(left: Sequence[int], sizes: Sequence[int], wish: int, room: int, chance: Random | None) -> list[int]:
    """The set of sizes that fills the room best, of those up to `wish` where one comes near it; large ones preferred."""
    fitting = [i for i in left if sizes[i] <= room]
    if chance is not None and chance.random() < 0.5:
        fitting.sort(key=lambda i: sizes[i] * (0.6 + 0.8 * chance.random()))
    mask = (1 << (room + 1)) - 1
    reach = [1]
    for index in fitting:
        reach.append((reach[-1] | reach[-1] << sizes[index]) & mask)
    full = reach[-1]
    below = full & ((1 << (wish + 1)) - 1)
    target = (below if below > 1 or not full >> 1 else full).bit_length() - 1
    chosen = []
    for place in range(len(fitting) - 1, -1, -1):
        size = sizes[fitting[place]]
        if size <= target and reach[place] >> (target - size) & 1:
            chosen.append(fitting[place])
            target -= size
    return chosen
