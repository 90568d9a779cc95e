"""Kernel: what each shift of a pattern makes of its units – whole, cut, sliver, notch – and how much is sawn.

A unit that lies in cells of one kind only is whole or outside at once. Of every other unit the area inside is summed
edge by edge, and its box is the box of the parts of the outline within it and of its own corners inside.
"""

from __future__ import annotations

import numpy as np

from pavewright.compiled import called_with, compiled

_TINY_MM = 1e-6
_WHOLE_MM2 = 1.0


@compiled
def _beneath(y: float, low: float, high: float) -> float:
    """Return the integral of y held between two heights, over y, less the lower height."""
    if y <= low:
        return 0.0
    if y >= high:
        deep = high - low
        return deep * deep / 2.0 + deep * (y - high)
    return (y - low) * (y - low) / 2.0


@compiled
def _swept(ax: float, ay: float, bx: float, by: float, x1: float, y1: float, x2: float, y2: float) -> float:
    """Return the area between an edge and the near side of a rectangle, both held to the rectangle."""
    dx, dy = bx - ax, by - ay
    if dx == 0.0:
        return 0.0
    xs, xe = min(max(ax, x1), x2), min(max(bx, x1), x2)
    ys, ye = ay + dy * (xs - ax) / dx, ay + dy * (xe - ax) / dx
    if abs(ye - ys) > _TINY_MM:
        return (xe - xs) * (_beneath(ye, y1, y2) - _beneath(ys, y1, y2)) / (ye - ys)
    return (xe - xs) * (min(max((ys + ye) / 2.0, y1), y2) - y1)


@compiled
def _within(a: float, d: float, low: float, high: float, begin: float, end: float) -> tuple[float, float]:
    """Return which part of an edge from a on, running d, lies between two values, within the part that is given."""
    if d == 0.0:
        return begin, end
    first, last = (low - a) / d, (high - a) / d
    return max(begin, min(first, last)), min(end, max(first, last))


@compiled
def _aligned(p: float, q: float, low: float, high: float) -> bool:
    """Return whether both ends of an edge lie on the same side of a rectangle."""
    return max(abs(p - low), abs(q - low)) < _TINY_MM or max(abs(p - high), abs(q - high)) < _TINY_MM


@compiled
def _part(  # noqa: C901, PLR0912 - a kernel: one pass over the edges
    edges: np.ndarray, x1: float, y1: float, x2: float, y2: float, found: np.ndarray
) -> None:
    """Fill in area, box and sawn length of what lies of a rectangle inside edges that run with the inside on the left.

    Source: definition, area as the integral of height over the edges with both held to the rectangle
    """
    area, sawn = 0.0, 0.0
    low_x, low_y, high_x, high_y = x2, y2, x1, y1
    in_a, in_b, in_c, in_d = False, False, False, False
    for k in range(edges.shape[0]):
        ax, ay, bx, by = edges[k, 0], edges[k, 1], edges[k, 2], edges[k, 3]
        if max(ax, bx) < x1 or min(ax, bx) > x2 or max(ay, by) < y1:
            continue
        dx, dy = bx - ax, by - ay
        if (ax <= x1) != (bx <= x1):
            height = ay + dy * (x1 - ax) / dx
            in_a ^= height > y1
            in_b ^= height > y2
        if (ax <= x2) != (bx <= x2):
            height = ay + dy * (x2 - ax) / dx
            in_c ^= height > y1
            in_d ^= height > y2
        area -= _swept(ax, ay, bx, by, x1, y1, x2, y2)
        if dy == 0.0 and ay > y2:
            continue
        begin, end = _within(ay, dy, y1, y2, *_within(ax, dx, x1, x2, 0.0, 1.0))
        length = (end - begin) * np.hypot(dx, dy)
        if end <= begin or length < _TINY_MM:
            continue
        px, py, qx, qy = ax + begin * dx, ay + begin * dy, ax + end * dx, ay + end * dy
        low_x, high_x = min(low_x, px, qx), max(high_x, px, qx)
        low_y, high_y = min(low_y, py, qy), max(high_y, py, qy)
        on_side = _aligned(px, qx, x1, x2) or _aligned(py, qy, y1, y2)
        if not on_side:
            sawn += length
    if in_a or in_b:
        low_x = x1
    if in_c or in_d:
        high_x = x2
    if in_a or in_c:
        low_y = y1
    if in_b or in_d:
        high_y = y2
    if in_a or in_b:
        high_x = max(high_x, x1)
    if in_c or in_d:
        low_x = min(low_x, x2)
    if in_a or in_c:
        high_y = max(high_y, y1)
    if in_b or in_d:
        low_y = min(low_y, y2)
    found[0], found[1], found[2], found[3] = area, high_x - low_x, high_y - low_y, sawn


@called_with(
    "float64[:, ::1], float64[:, ::1], float64[:, ::1], float64[:, ::1], boolean[:, ::1], int64[:, ::1]",
    "float64[::1], float64",
)
def count(
    units: np.ndarray,
    shifts: np.ndarray,
    edges: np.ndarray,
    inner_corners: np.ndarray,
    inside: np.ndarray,
    edged: np.ndarray,
    raster: np.ndarray,
    absorbed_mm: float,
) -> np.ndarray:
    """Return what each shift makes of the units.

    Args:
        units: Rectangles and their limits x1, y1, x2, y2, smallest width, smallest depth, shape (n, 6), float64. [mm]
        shifts: Shifts of all units, shape (m, 2), float64. [mm]
        edges: Edges ax, ay, bx, by with the inside on their left, shape (e, 4), float64. [mm]
        inner_corners: Corners of the outline that turn inward, shape (r, 2), float64. [mm]
        inside: Whether each cell lies wholly inside, shape (rows, columns), bool.
        edged: Sums of the cells that the outline runs through, shape (rows + 1, columns + 1), int64.
        raster: Least x, least y and side of the cells, shape (3,), float64. [mm]
        absorbed_mm: Trim that the joints take up. [mm]

    Returns:
        Whole units, cut pieces, slivers, notched pieces, smallest size of a cut piece, sawn length; shape (m, 6). [mm]
    """
    rows, columns = inside.shape
    x0, y0, side = raster[0], raster[1], raster[2]
    answer = np.zeros((shifts.shape[0], 6))
    found = np.zeros(4)
    for m in range(shifts.shape[0]):
        smallest = np.inf
        for n in range(units.shape[0]):
            x1, y1 = units[n, 0] + shifts[m, 0], units[n, 1] + shifts[m, 1]
            x2, y2 = units[n, 2] + shifts[m, 0], units[n, 3] + shifts[m, 1]
            left, right = int(np.floor((x1 - x0) / side)), int(np.floor((x2 - x0) / side))
            near, far = int(np.floor((y1 - y0) / side)), int(np.floor((y2 - y0) / side))
            if right < 0 or far < 0 or left >= columns or near >= rows:
                continue
            outside = left < 0 or near < 0 or right >= columns or far >= rows
            left, near = max(left, 0), max(near, 0)
            right, far = min(right, columns - 1), min(far, rows - 1)
            through = edged[far + 1, right + 1] - edged[near, right + 1] - edged[far + 1, left] + edged[near, left]
            if through == 0 and (not outside or not inside[near, left]):
                answer[m, 0] += inside[near, left]
                continue
            _part(edges, x1, y1, x2, y2, found)
            wide, deep = x2 - x1, y2 - y1
            if found[0] <= _WHOLE_MM2 or min(found[1], found[2]) < absorbed_mm:
                continue
            trimmed = wide * deep - found[1] * found[2]
            as_its_box = wide * deep - found[0] <= trimmed + _WHOLE_MM2
            if as_its_box and found[1] >= wide - absorbed_mm and found[2] >= deep - absorbed_mm:
                answer[m, 0] += 1.0
                continue
            answer[m, 1] += 1.0
            answer[m, 2] += found[1] < units[n, 4] or found[2] < units[n, 5]
            answer[m, 5] += found[3]
            smallest = min(smallest, found[1], found[2])
            for k in range(inner_corners.shape[0]):
                if x1 < inner_corners[k, 0] < x2 and y1 < inner_corners[k, 1] < y2:
                    answer[m, 3] += 1.0
                    break
        answer[m, 4] = smallest
    return answer


@called_with("float64[:, ::1], float64[::1], boolean[:, ::1]")
def mark(edges: np.ndarray, raster: np.ndarray, edged: np.ndarray) -> None:
    """Mark every cell that an edge runs through or touches.

    Args:
        edges: Edges ax, ay, bx, by, shape (e, 4), float64. [mm]
        raster: Least x, least y and side of the cells, shape (3,), float64. [mm]
        edged: Whether an edge runs through each cell, shape (rows, columns), bool; filled in.
    """
    rows, columns = edged.shape
    x0, y0, side = raster[0], raster[1], raster[2]
    for k in range(edges.shape[0]):
        ax, ay, bx, by = edges[k, 0], edges[k, 1], edges[k, 2], edges[k, 3]
        low, high = min(ay, by) - _TINY_MM, max(ay, by) + _TINY_MM
        for row in range(
            max(int(np.floor((low - y0) / side)), 0), min(int(np.floor((high - y0) / side)), rows - 1) + 1
        ):
            near, far = y0 + row * side - _TINY_MM, y0 + (row + 1) * side + _TINY_MM
            begin, end = _within(ay, by - ay, near, far, 0.0, 1.0)
            first, last = ax + begin * (bx - ax), ax + end * (bx - ax)
            left = int(np.floor((min(first, last) - _TINY_MM - x0) / side))
            right = int(np.floor((max(first, last) + _TINY_MM - x0) / side))
            for column in range(max(left, 0), min(right, columns - 1) + 1):
                edged[row, column] = True
