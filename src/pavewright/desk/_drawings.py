"""Drawings by the name under which a screen asks for them, each with the rooms of the plan that it shows."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from pavewright import drawing
from pavewright.pipeline import Room

if TYPE_CHECKING:
    from pavewright.pipeline import Plan

_FLIGHTS = 20
"""Flights of steps whose sections a screen can ask for."""


def _steps_section(number: int, plan: Plan) -> drawing.Scene | None:
    """Return the section through the flight with a number from 0; None where there is none."""
    scenes = drawing.step_sections(plan)
    return scenes[number] if number < len(scenes) else None


_EDGE_SHEETS = 6
"""Sheets of sections at the edges that a screen can ask for."""


def _edges_sheet(number: int, plan: Plan) -> drawing.Scene | None:
    """Return the sheet of sections at the edges with a number from 0; None where there is none."""
    scenes = drawing.edge_details(plan)
    return scenes[number] if number < len(scenes) else None


DRAWINGS: dict[str, drawing.Drawing] = {
    **{each.key: each for each in drawing.DRAWINGS},
    **{
        f"steps-{number + 1}": drawing.Drawing(
            f"steps-{number + 1}",
            "Section through steps",
            partial(_steps_section, number),
            (Room.LEVELS, Room.BUILD_UPS, Room.QUANTITIES),
        )
        for number in range(_FLIGHTS)
    },
    **{
        f"edges-{number + 1}": drawing.Drawing(
            f"edges-{number + 1}",
            "Sections at the edges",
            partial(_edges_sheet, number),
            (Room.LEVELS, Room.BUILD_UPS),
        )
        for number in range(1, _EDGE_SHEETS)
    },
}
"""Drawings by the name under which a screen asks for them; sections through flights of steps are numbered from 1,
further sheets of sections at the edges from 2.
"""
