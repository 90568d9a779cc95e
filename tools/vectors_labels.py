"""Questions about places of labels with the answers of the drawings, for the tests of the scripts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.drawing._labels import Labels
from pavewright.drawing._scene import MEDIUM
from pavewright.drawing._scene import Path as Stretch

if TYPE_CHECKING:
    import random


def _spot(chance: random.Random, scale: float) -> tuple[float, float]:
    return round(chance.uniform(5.0, 115.0) * scale, 2), round(chance.uniform(5.0, 75.0) * scale, 2)


def labels(chance: random.Random) -> list[dict[str, Any]]:
    """Return sheets with signs and lines, and where each of a row of labels finds its place."""
    sheets = []
    for scale, count in ((1.0, 12), (3.78, 25), (25.0, 40)):
        known = Labels(scale)
        field = (0.0, 0.0, 120.0 * scale, 80.0 * scale)
        lines = [[_spot(chance, scale), _spot(chance, scale)] for _ in range(6)]
        known.lines([Stretch(tuple(line), MEDIUM) for line in lines])
        signs = []
        for _ in range(4):
            (x, y), half = _spot(chance, scale), 1.8 * scale
            signs.append((x - half, y - half, x + half, y + half))
            known.take_sign(signs[-1])
        rows = []
        for number in range(count):
            x1, y1, x2, y2 = signs[number % 4]
            at = ((x1 + x2) / 2.0, (y1 + y2) / 2.0) if number % 3 == 0 else _spot(chance, scale)
            size = (round(chance.uniform(6.0, 26.0) * scale, 2), round(chance.uniform(2.5, 5.0) * scale, 2))
            found = known.place(at, size, field)
            rows.append({"at": at, "size": size, "box": found.bounds_mm, "line": found.line, "cost": found.cost})
            if found.free:
                known.take(found.bounds_mm)
                if found.line is not None:
                    known.take_line(*found.line)
        sheets.append({"scale": scale, "field": field, "lines": lines, "signs": signs, "rows": rows})
    return sheets
