"""Ruin and recreate over guillotine rectangles: the compiled search for a saw plan.

All sizes are whole steps of the grid and grown by the saw cut, so that parts side by side leave it between them. The
files of kernels are longer than the aim: what one kernel calls must stand in its file.
"""

from __future__ import annotations

import numpy as np

from pavewright.compiled import NamedRows, called_with, compiled
from pavewright.laying.cutting._bench import Bench

LATE = 50
"""Plans looked back on by late acceptance."""
_FAR = 4 * 10**18
_ROWS, _ROW = "int64[:, ::1]", "int64[::1]"
_BENCH = NamedRows(Bench, (_ROWS, _ROWS, _ROWS, "int64[:, :, ::1]", "int64[:, :, ::1]", _ROW, _ROW, _ROW))


@compiled
def _chance(dice: np.ndarray) -> float:
    """Return a number of at least 0 and less than 1; the same row of numbers from the same start, everywhere.

    Source: definition, the multiplicative generator 48271 modulo 2³¹ − 1
    """
    dice[0] = (dice[0] * 48271) % 2147483647
    return float(dice[0] - 1) / 2147483646.0


@compiled
def _corner(mask: int, turn: int, rect: np.ndarray, wide: int, high: int, size: np.ndarray, first: int) -> int:
    """Return the corner of a free rectangle where a part keeps its factory edges, or -1; bit 0 right, bit 1 far."""
    if mask == 0:
        return first
    for corner in range(4):
        x = rect[0] + (rect[2] - wide) * (corner & 1)
        y = rect[1] + (rect[3] - high) * (corner >> 1)
        kept = True
        for side in range(4):
            if (mask >> side) & 1:
                now = (side + turn) % 4
                kept = kept and (now != 0 or x + wide == size[0]) and (now != 1 or y + high == size[1])
                kept = kept and (now != 2 or x == 0) and (now != 3 or y == 0)
        if kept:
            return corner
    return -1


@compiled
def _look(bench: Bench, part: int, which: int) -> None:
    """Look for a better place for a part on one slab."""
    how, best = bench.how, bench.best
    size = bench.stock[bench.slab[which, 0]]
    for number in range(bench.slab[which, 2]):
        rect = bench.free[which, number]
        for turn in range(4):
            if (bench.parts[part, 2] >> turn) & 1 == 0:
                continue
            wide, high = bench.parts[part, turn & 1], bench.parts[part, 1 - (turn & 1)]
            over_x, over_y = rect[2] - wide, rect[3] - high
            if over_x < 0 or over_y < 0:
                continue
            if how[0] == 0:
                score = rect[2] * rect[3] - wide * high
            elif how[0] == 1:
                score = min(over_x, over_y)
            elif how[0] == 2:
                score = max(over_x, over_y)
            else:
                score = int(_chance(bench.dice) * 1048576.0)
            if score < best[0]:
                corner = _corner(bench.parts[part, 3], turn, rect, wide, high, size, how[2])
                if corner >= 0:
                    best[0], best[1], best[2], best[3], best[4] = score, which, number, turn, corner


@compiled
def _insert(bench: Bench, part: int) -> None:
    """Put a part in its best place and split what is left of the rectangle by one cut right across it."""
    slab, free, how = bench.slab, bench.free, bench.how
    which, number, turn, corner = bench.best[1], bench.best[2], bench.best[3], bench.best[4]
    x, y, rect_w, rect_h = (
        free[which, number, 0],
        free[which, number, 1],
        free[which, number, 2],
        free[which, number, 3],
    )
    wide, high = bench.parts[part, turn & 1], bench.parts[part, 1 - (turn & 1)]
    over_x, over_y = rect_w - wide, rect_h - high
    left, near = x + over_x * (corner & 1), y + over_y * (corner >> 1)
    row = bench.put[which, slab[which, 1]]
    row[0], row[1], row[2], row[3] = part, left, near, turn
    slab[which, 1] += 1
    slab[which, 3] += wide * high
    if how[1] == 0:
        upright = over_x >= over_y
    elif how[1] == 1:
        upright = over_x < over_y
    elif how[1] == 2:
        upright = max(over_x * rect_h, wide * over_y) >= max(over_x * high, rect_w * over_y)
    elif how[1] == 3:
        upright = _chance(bench.dice) < 0.5
    else:
        upright = how[1] == 4
    last = slab[which, 2] - 1
    free[which, number] = free[which, last]
    if over_x >= how[4]:
        free[which, last, 0], free[which, last, 2] = x + wide * (1 - (corner & 1)), over_x
        free[which, last, 1], free[which, last, 3] = (y, rect_h) if upright else (near, high)
        last += 1
    if over_y >= how[4]:
        free[which, last, 1], free[which, last, 3] = y + high * (1 - (corner >> 1)), over_y
        free[which, last, 0], free[which, last, 2] = (left, wide) if upright else (x, rect_w)
        last += 1
    slab[which, 2] = last


@compiled
def _open(bench: Bench, which: int, kind: int) -> None:
    """Make a slab of a size ready, with nothing cut from it, and forget the best place."""
    slab, rect = bench.slab[which], bench.free[which, 0]
    slab[0], slab[1], slab[2], slab[3] = kind, 0, 1, 0
    rect[0], rect[1], rect[2], rect[3] = 0, 0, bench.stock[kind, 0], bench.stock[kind, 1]
    bench.best[0], bench.best[1] = _FAR, -1


@compiled
def _open_for(bench: Bench, part: int, which: int) -> bool:
    """Open a slab for a part, by cost, by cost for its area or by chance; tell whether any size takes it."""
    chosen, lowest = -1, 1.0e300
    for kind in range(len(bench.stock)):
        _open(bench, which, kind)
        _look(bench, part, which)
        if bench.best[1] < 0:
            continue
        price = float(bench.stock[kind, 2])
        if bench.how[3] == 1:
            price /= float(bench.stock[kind, 0]) * float(bench.stock[kind, 1])
        elif bench.how[3] == 2:
            price = _chance(bench.dice)
        if price < lowest:
            chosen, lowest = kind, price
    if chosen < 0:
        return False
    _open(bench, which, chosen)
    _look(bench, part, which)
    return True


@compiled
def _cheaper(bench: Bench, which: int, spare: int) -> bool:
    """Try to cut all parts of a slab from a cheaper size, built up in the spare one; tell whether it was done."""
    for kind in range(len(bench.stock)):
        area = bench.stock[kind, 0] * bench.stock[kind, 1]
        if bench.stock[kind, 2] >= bench.stock[bench.slab[which, 0], 2] or area < bench.slab[which, 3]:
            continue
        for again in range(4):
            bench.how[1] = (bench.how[1] + again) % 6
            _open(bench, spare, kind)
            for number in range(bench.slab[which, 1]):
                bench.best[0], bench.best[1] = _FAR, -1
                _look(bench, bench.put[which, number, 0], spare)
                if bench.best[1] < 0:
                    break
                _insert(bench, bench.put[which, number, 0])
            if bench.slab[spare, 1] == bench.slab[which, 1]:
                return True
    return False


@compiled
def _worth(bench: Bench, active: np.ndarray, count: int) -> tuple[float, int]:
    """Return the cost of a plan less a little for well filled slabs (uneven filling empties slabs), and the cost."""
    total, cost = 0.0, 0
    for number in range(count):
        size = bench.stock[bench.slab[active[number], 0]]
        filled = float(bench.slab[active[number], 3]) / (float(size[0]) * float(size[1]))
        total += float(size[2]) * (1.0 - 0.1 * filled * filled)
        cost += size[2]
    return total, cost


@compiled
def _roll(bench: Bench) -> None:
    """Choose the rules of one round by chance."""
    how, dice = bench.how, bench.dice
    how[0] = int(_chance(dice) * 3.2)
    how[1] = int(_chance(dice) * 6.0)
    how[2] = int(_chance(dice) * 4.0) if how[2] >= 0 and bench.parts[:, 3].any() else 0
    how[3] = int(_chance(dice) * 3.0)


@compiled
def _in_order(bench: Bench, loose: np.ndarray, count: int, key: np.ndarray) -> None:
    """Sort loose parts, largest first by a measure chosen by chance, a little shaken."""
    measure, dice = int(_chance(bench.dice) * 6.0), bench.dice
    shake = 0.4 * _chance(dice) * _chance(dice)
    for number in range(count):
        wide, high = float(bench.parts[loose[number], 0]), float(bench.parts[loose[number], 1])
        if measure == 0:
            size = wide * high
        elif measure == 1:
            size = max(wide, high) + min(wide, high) * 0.001
        elif measure == 2:
            size = wide
        elif measure == 3:
            size = high
        elif measure == 4:
            size = wide + high
        else:
            size = min(wide, high) + max(wide, high) * 0.001
        size *= 1.0 + shake * (_chance(dice) - 0.5)
        part = loose[number]
        place = number
        while place > 0 and key[place - 1] < size:
            key[place], loose[place] = key[place - 1], loose[place - 1]
            place -= 1
        key[place], loose[place] = size, part


@compiled
def _copied(bench: Bench, source: int, target: int) -> None:
    """Copy a slab, so that what was there before can be taken back."""
    bench.slab[target] = bench.slab[source]
    for number in range(bench.slab[source, 1]):
        bench.put[target, number] = bench.put[source, number]
    for number in range(bench.slab[source, 2]):
        bench.free[target, number] = bench.free[source, number]


@compiled
def _ruin(bench: Bench, active: np.ndarray, count: int, loose: np.ndarray) -> tuple[int, int]:
    """Take a few slabs out of the plan, ill filled ones rather; return how many stay and how many parts are loose."""
    out, found = 1 + int(_chance(bench.dice) * min(8.0, float(count))), 0
    for _ in range(out):
        chosen, lowest = 0, 2.0
        for _again in range(2):
            number = int(_chance(bench.dice) * count)
            size = bench.stock[bench.slab[active[number], 0]]
            filled = float(bench.slab[active[number], 3]) / (float(size[0]) * float(size[1]))
            if filled < lowest:
                chosen, lowest = number, filled
        which = active[chosen]
        for number in range(bench.slab[which, 1]):
            loose[found] = bench.put[which, number, 0]
            found += 1
        count -= 1
        active[chosen] = active[count]
    return count, found


@compiled
def _recreate(
    bench: Bench, active: np.ndarray, count: int, loose: np.ndarray, found: int, pile: np.ndarray, fresh: np.ndarray
) -> int:
    """Put loose parts back and return how many slabs are in the plan; -1 where no size takes a part.

    A slab that stays is copied before it is changed, so that the plan before can be taken back. A new slab for whose
    parts a cheaper size would do is changed for it. The pile holds its own height, then the numbers of empty slabs;
    fresh marks the slabs of this round.
    """
    for number in range(found):
        part = loose[number]
        bench.best[0], bench.best[1] = _FAR, -1
        chosen = -1
        for place in range(count):
            if bench.slab[active[place], 1] < bench.how[5]:
                before = bench.best[0]
                _look(bench, part, active[place])
                chosen = place if bench.best[0] < before else chosen
        if chosen < 0 or not fresh[active[chosen]]:
            which = pile[pile[0]]
            pile[0] -= 1
            if chosen >= 0:
                _copied(bench, active[chosen], which)
                bench.best[1] = which
            else:
                chosen = count
                count += 1
                if not _open_for(bench, part, which):
                    return -1
            active[chosen] = which
            fresh[which] = True
        _insert(bench, part)
    if len(bench.stock) > 1:
        for place in range(count):
            which, spare = active[place], pile[pile[0]]
            if fresh[which] and _cheaper(bench, which, spare):
                active[place], pile[pile[0]] = spare, which
                fresh[spare], fresh[which] = True, False
    return count


@compiled
def _drop(bench: Bench, gone: np.ndarray, many: int, kept: np.ndarray, count: int, pile: np.ndarray) -> None:
    """Return the slabs that are in one plan and not in the one that is kept to the pile of empty ones."""
    for number in range(count):
        bench.slab[kept[number], 4] = 1
    for number in range(many):
        if bench.slab[gone[number], 4] == 0:
            pile[0] += 1
            pile[pile[0]] = gone[number]
    for number in range(count):
        bench.slab[kept[number], 4] = 0


@compiled
def _keep(bench: Bench, active: np.ndarray, count: int, plan: np.ndarray, sizes: np.ndarray) -> None:
    """Write a plan down: for each part its slab, x, y and quarter turns; for each slab its size."""
    sizes[:] = -1
    for number in range(count):
        which = active[number]
        sizes[number] = bench.slab[which, 0]
        for each in range(bench.slab[which, 1]):
            row = bench.put[which, each]
            plan[row[0], 0], plan[row[0], 1], plan[row[0], 2], plan[row[0], 3] = number, row[1], row[2], row[3]


@compiled
def _pool(bench: Bench, which: int, code: np.ndarray, seen: np.ndarray, heads: np.ndarray, lines: np.ndarray) -> None:
    """Note a way to cut a slab that was not met before: the first head counts them, the second their lines."""
    key, count = bench.slab[which, 0] + 1, bench.slab[which, 1]
    for number in range(count):
        key += code[bench.parts[bench.put[which, number, 0], 4]]
    place = key & (len(seen) - 1)
    while seen[place] != 0 and seen[place] != key:
        place = (place + 1) & (len(seen) - 1)
    if seen[place] == key or heads[0, 0] + 1 >= len(heads) or heads[0, 1] + count > len(lines):
        return
    seen[place] = key
    heads[0, 0] += 1
    row = heads[heads[0, 0]]
    row[0], row[1], row[2] = bench.slab[which, 0], heads[0, 1], count
    for number in range(count):
        lines[heads[0, 1] + number] = bench.put[which, number]
    heads[0, 1] += count


@called_with(_BENCH, "int64", "int64", _ROWS, _ROW, _ROW, _ROW, _ROWS, _ROWS)
def search(
    bench: Bench,
    rounds: int,
    target: int,
    plan: np.ndarray,
    sizes: np.ndarray,
    code: np.ndarray,
    seen: np.ndarray,
    heads: np.ndarray,
    lines: np.ndarray,
) -> int:
    """Fill plan and sizes with the cheapest plan found, and the pool with ways met; return its cost, -1 where none is.

    Args:
        bench: What is worked on.
        rounds: Rounds of ruin and recreate.
        target: A cost that nothing can be below: the search stops there.
        plan: Slab, x, y, quarter turns of every part, shape (n, 4), int64.
        sizes: Size of every slab, -1 past the last, shape (n,), int64.
        code: A number by chance for each kind of part, int64.
        seen: Keys of the ways met, zero where free, a power of two long, int64.
        heads: Size, first line, lines of each way from row 1; row 0 counts ways and lines, int64, shape (ways + 1, 3).
        lines: Part, x, y, quarter turns, shape (lines, 4), int64.
    """
    parts, ids = len(bench.parts), len(bench.slab)
    pile, fresh = np.arange(-1, ids), np.zeros(ids, np.bool_)
    pile[0] = ids
    active, before, loose = np.zeros(ids, np.int64), np.zeros(ids, np.int64), np.arange(parts)
    key, late = np.zeros(parts), np.zeros(LATE)
    _in_order(bench, loose, parts, key)
    count = _recreate(bench, active, 0, loose, parts, pile, fresh)
    if count < 0:
        return -1
    worth, lowest = _worth(bench, active, count)
    _keep(bench, active, count, plan, sizes)
    late[:], best = worth, worth
    for turn in range(rounds):
        if lowest <= target:
            break
        had = count
        before[:had] = active[:had]
        fresh[:] = False
        _roll(bench)
        count, found = _ruin(bench, active, count, loose)
        _in_order(bench, loose, found, key)
        count = _recreate(bench, active, count, loose, found, pile, fresh)
        now, cost = _worth(bench, active, count)
        taken = now <= worth or now <= late[turn % LATE]
        for number in range(count):
            if fresh[active[number]]:
                _pool(bench, active[number], code, seen, heads, lines)
        if taken:
            worth = now
            _drop(bench, before, had, active, count, pile)
            if cost < lowest or (cost == lowest and now < best):
                _keep(bench, active, count, plan, sizes)
                lowest, best = cost, now
        else:
            _drop(bench, active, count, before, had, pile)
            count = had
            active[:had] = before[:had]
        late[turn % LATE] = worth
    return lowest
