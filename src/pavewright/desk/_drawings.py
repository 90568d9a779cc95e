"""Drawings by the name under which a screen asks for them, each with the rooms of the plan that it shows."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from pavewright import drawing

if TYPE_CHECKING:
    from pavewright.pipeline import Plan

_SHEETS = 20
"""Sheets of one drawing that a screen can ask for."""


def _sheet(of: drawing.Drawing, number: int, plan: Plan) -> drawing.Scene | None:
    """Return the sheet of a drawing with a number from 0; None where there is none."""
    scenes = of.scenes(plan)
    return scenes[number] if number < len(scenes) else None


def _numbered(of: drawing.Drawing) -> dict[str, drawing.Drawing]:
    """Return the sheets of a drawing that may have several, by its name and their numbers from 1."""
    if of.sheets is None:
        return {}
    keys = [f"{of.key}-{number + 1}" for number in range(_SHEETS)]
    return {key: replace(of, key=key, draw=partial(_sheet, of, number), sheets=None) for number, key in enumerate(keys)}


DRAWINGS: dict[str, drawing.Drawing] = {
    **{each.key: each for each in drawing.DRAWINGS},
    **{key: one for each in drawing.DRAWINGS for key, one in _numbered(each).items()},
}
"""Drawings by the name under which a screen asks for them: all sheets by that of the drawing, one of them by that with
its number from 1.
"""
