"""The one list of drawings: the papers, the screens and the desk all take theirs from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.drawing._edge_section import edge_details, first_edge_details
from pavewright.drawing._long_section import drain_sections, first_drain_section
from pavewright.drawing._movement_detail import first_movement_detail, movement_details
from pavewright.drawing._pit_section import first_pit_section, pit_sections
from pavewright.drawing._plan_buried import buried_plan
from pavewright.drawing._plan_checks import as_laid_plan, setting_out_plan
from pavewright.drawing._plan_laying import laying_plan
from pavewright.drawing._plan_levels import levels_plan
from pavewright.drawing._plan_revision import variations_plan
from pavewright.drawing._plan_standing import standing_drawn
from pavewright.drawing._plan_survey import site_plan
from pavewright.drawing._plan_works import dig_plan, water_plan
from pavewright.drawing._section import section_at_wall, wall_sections
from pavewright.drawing._sheet import A3_FRAME
from pavewright.drawing._steps_section import first_step_section, step_sections
from pavewright.pipeline import Room

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.drawing._scene import Scene
    from pavewright.pipeline import Plan


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing that a plan can be asked for.

    Attributes:
        key: Name under which it is asked for.
        words: What it shows, for a button.
        draw: Returns its scene; None where the job has nothing to show. One that is one sheet takes a frame too. [mm]
        needs: Rooms of the plan that it shows beside the survey.
        on_a3: Whether it is printed by itself on A3 too; what is drawn in a box of its own is not.
        sheets: Returns all its sheets where it may have more than one; None for a drawing that is one sheet.
    """

    key: str
    words: str
    draw: Callable[..., Scene | None]
    needs: tuple[Room, ...] = ()
    on_a3: bool = True
    sheets: Callable[[Plan], tuple[Scene, ...]] | None = None

    def scenes(self, plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> tuple[Scene, ...]:
        """Return all its sheets, the first as it is drawn alone; none where the job has nothing to show.

        Args:
            plan: The plan.
            frame_mm: Room for a plan on its sheet; what is drawn in a box of its own keeps that. [mm]
        """
        if self.sheets is not None:
            return self.sheets(plan)
        first = self.draw(plan, frame_mm)
        return () if first is None else (first,)


def _site_if_any(plan: Plan, frame_mm: tuple[float, float] = A3_FRAME) -> Scene | None:
    """Return the site as measured; None while nothing is."""
    return site_plan(plan, frame_mm) if plan.survey.points else None


_SECTIONS = (Room.LEVELS, Room.BUILD_UPS)
DRAWINGS: tuple[Drawing, ...] = (
    Drawing("survey", "Site as measured", _site_if_any),
    Drawing("levels", "Finished levels", levels_plan, (Room.LEVELS,)),
    Drawing("section", "Sections at the doors", section_at_wall, _SECTIONS, on_a3=False, sheets=wall_sections),
    Drawing("edges", "Sections at the edges", first_edge_details, _SECTIONS, on_a3=False, sheets=edge_details),
    Drawing(
        "steps",
        "Sections through steps",
        first_step_section,
        (*_SECTIONS, Room.QUANTITIES),
        on_a3=False,
        sheets=step_sections,
    ),
    Drawing(
        "movement",
        "Movement joints",
        first_movement_detail,
        (Room.BUILD_UPS, Room.LAYING),
        on_a3=False,
        sheets=movement_details,
    ),
    Drawing("laying", "Laying", laying_plan, (Room.LAYING,)),
    Drawing("dig", "Dig", dig_plan, (Room.LEVELS, Room.BUILD_UPS, Room.SETTING_OUT)),
    Drawing("water", "Water", water_plan, (Room.LEVELS, Room.WATER)),
    Drawing("drains", "Sections along drains", first_drain_section, (Room.WATER,), on_a3=False, sheets=drain_sections),
    Drawing(
        "soakaway", "Sections through soakaways", first_pit_section, (Room.WATER,), on_a3=False, sheets=pit_sections
    ),
    Drawing("buried", "What lies buried", buried_plan, (Room.WATER,)),
    Drawing("setting-out", "Setting out", setting_out_plan, (Room.SETTING_OUT,)),
    Drawing("as-laid", "As laid", as_laid_plan, (Room.LEVELS,)),
    Drawing("standing-water", "Standing water as laid", standing_drawn, (Room.LEVELS,)),
    Drawing("revision", "Changes by variations", variations_plan, on_a3=False),
)
"""Every drawing of a plan, in the order of the work."""
