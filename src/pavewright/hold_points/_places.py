"""Where hold points are read: at pegs inside the dig, at pieces of the first row, at the ends of drains."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.hold_points._types import HoldPlace
from pavewright.setting_out import HeightOf, pegs_of_layers

if TYPE_CHECKING:
    from pavewright.laying import LayingPlan
    from pavewright.levels import FinishedArea
    from pavewright.setting_out import SettingOut
    from pavewright.water import DrainRun

IN_A_ROW = 8
"""So many pieces of the first row are read."""


def layer_places(setting: SettingOut, area: str, height: HeightOf) -> tuple[HoldPlace, ...]:
    """Return the pegs at which a layer is read, with its level planned there and how far that is below the string."""
    numbers = set(pegs_of_layers(setting, area))
    return tuple(
        HoldPlace(peg.name, peg.at, each.level_mm, each.down_from_string_mm)
        for peg in setting.pegs
        if peg.number in numbers
        for each in peg.heights
        if each.layer is height
    )


def bed_places(setting: SettingOut, area: str) -> tuple[HoldPlace, ...]:
    """Return the pegs at which the bed is read."""
    return layer_places(setting, area, HeightOf.BED)


def row_places(laying: LayingPlan | None, finished: FinishedArea) -> tuple[HoldPlace, ...]:
    """Return pieces of the first row, no more than one reads in a walk; none where no units are laid yet."""
    laid = None if laying is None else next((each for each in laying.areas if each.area == finished.area), None)
    if laid is None:
        return ()
    shapes = {piece.number: piece.shape for piece in laid.pieces}
    marks = [mark for mark in laid.gauge if mark.piece in shapes]
    every = max(1, math.ceil((len(marks) - 1) / (IN_A_ROW - 1)))
    shown = [mark for number, mark in enumerate(marks) if number % every == 0 or mark is marks[-1]]
    places = [(str(mark.piece), shapes[mark.piece].centre_mm) for mark in shown]
    return tuple(HoldPlace(label, at, finished.surface.level_at(at)) for label, at in places)


def drain_places(run: DrainRun) -> tuple[HoldPlace, ...]:
    """Return the ends of a pipe run whose place is known, the inlet first."""
    ends = [end for end in (run.start, run.end) if end is not None]
    return tuple(HoldPlace(end.name, end.at, end.invert_level_mm) for end in ends if end.at is not None)
