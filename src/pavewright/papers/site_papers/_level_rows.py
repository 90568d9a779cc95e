"""Planned levels with an empty box for each, two columns of them side by side."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.papers._words import level, whole
from pavewright.papers.look import pencil, right, table, together
from pavewright.setting_out import pegs_of_layers
from pavewright.setting_out.hanging import HungBy

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.papers._input import PaperInput
    from pavewright.papers.look import Block
    from pavewright.setting_out import HeightOf

_SIDE_BY_SIDE = 2
_FOUND_MM = 27.0
"""Room to write what was found. [mm]"""


def level_table(heads: Sequence[str], rows: Sequence[tuple[str, float | None, float]]) -> Block:
    """Return places with a distance and a planned level, and room for what is found.

    Args:
        heads: Over the place, the distance, the level and what is found.
        rows: Name, distance or None where there is none, and level planned. [mm]
    """
    place, away, planned, found = heads
    shown = [0, 1, 2, 3] if away else [0, 2, 3]
    cells = [(name, "" if mm is None else whole(mm), level(level_mm), "") for name, mm, level_mm in rows]
    deep = math.ceil(len(cells) / _SIDE_BY_SIDE)
    columns = (right(place), right(away, "mm"), right(planned, "level"), pencil(found, _FOUND_MM))
    beside = [[_at(cells, row + part * deep)[k] for part in range(_SIDE_BY_SIDE) for k in shown] for row in range(deep)]
    return table([columns[k] for k in shown] * _SIDE_BY_SIDE, beside, pad=3.6, boxed=True)


def rows_at_pegs(given: PaperInput, area: str, layer: HeightOf) -> list[tuple[str, float, float]]:
    """Return the pegs inside the dig, how far down a layer is from the string there, and its level planned.

    Down is from the string as it hangs where its height was read, as on the sheet of the strings. [mm]
    """
    setting = given.plan.setting_out
    numbers = set(pegs_of_layers(setting, area))
    hung: dict[int, float] = {}
    for crossing in setting.work.crossings:
        if crossing.hung_by is not HungBy.PLANNED:
            for height in crossing.heights:
                if height.layer is layer:
                    hung.setdefault(crossing.number, height.down_from_string_mm)
    return [
        (str(peg.number), hung.get(peg.number, height.down_from_string_mm), height.level_mm)
        for peg in setting.pegs
        if peg.number in numbers
        for height in peg.heights
        if height.layer is layer
    ]


def under(limit: Block, heads: Sequence[str], rows: Sequence[tuple[str, float | None, float]]) -> list[Block]:
    """Return levels under the limit that they are held to, on one page where one has room for them.

    Args:
        limit: What they are held to.
        heads: As for `level_table`.
        rows: As for `level_table`. [mm]
    """
    blocks = [limit, level_table(heads, rows)]
    return [together(*blocks)] if len(rows) <= _ON_A_PAGE else blocks


_ON_A_PAGE = 60
"""So many places stand on one page with room to spare."""


def _at(cells: Sequence[tuple[str, ...]], number: int) -> tuple[str, ...]:
    return cells[number] if number < len(cells) else ("",) * 4
