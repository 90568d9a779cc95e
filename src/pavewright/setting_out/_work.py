"""How the setting-out is done: the order of work, lost pegs, arcs, and strings as they hang."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pavewright.setting_out._types import PegRole, Stands
from pavewright.setting_out._whole_types import Work
from pavewright.setting_out.errors import (
    Ground,
    Readings,
    WorkStep,
    check_limit_mm,
    comes_back,
    fixed_places,
    order_of_work,
)
from pavewright.setting_out.hanging import crossings, readings_at, sight_heights, strings_hung
from pavewright.setting_out.shapes import curve_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.geometry import XY
    from pavewright.rules import Rulebook
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.setting_out._types import Peg, StringLine
    from pavewright.setting_out._whole_types import AtHand
    from pavewright.setting_out.errors import ComesBack, ToolErrors
    from pavewright.setting_out.shapes import CurveSetOut
    from pavewright.survey import PlanArea, SitePlan, Survey


@dataclass(frozen=True)
class Doing:
    """What the order of work is found on.

    Attributes:
        surroundings: What stands in the way.
        tools: The tools at hand.
        figures: The figures of setting out.
    """

    surroundings: Surroundings
    tools: ToolErrors
    figures: SetOutFigures

    def is_clear(self, one: XY, other: XY) -> bool:
        """Return whether nothing stands between two places."""
        return self.surroundings.between(one, other) is None


def steps_of(area: PlanArea, base: Base, names: tuple[str, str], doing: Doing, before: int) -> list[WorkStep]:
    """Return the steps in which the corners of an area are set out."""
    low = math.radians(doing.figures.tape_angle_deg)
    ground = Ground(doing.tools, low, doing.figures.check_percent, doing.is_clear, Readings(doing.tools))
    corners = [(corner.name, corner.xy) for ring in (area.ring, *area.holes) for corner in ring.corners]
    ends = (names[0], base.start), (names[1], base.end)
    return [replace(step, number=before + step.number) for step in order_of_work(area.name, ends, corners, ground)]


def curves_of(area: PlanArea, base: Base, doing: Doing) -> list[CurveSetOut]:
    """Return the arcs of an area, as they are set out."""
    figures = doing.figures
    return [
        curve_of(area.name, side, base, doing.surroundings, figures.arc_spacing_mm, doing.tools.tape_length_mm)
        for side in area.sides
        if side.start.rise_mm != 0.0
    ]


def work(
    survey: Survey,
    pegs: Sequence[Peg],
    strings: Sequence[StringLine],
    steps: Sequence[WorkStep],
    curves: Sequence[CurveSetOut],
    at_hand: AtHand,
    doing: Doing,
    rules: Rulebook,
) -> Work:
    """Return how the setting-out of a whole job is done."""
    read, stray = readings_at(pegs, at_hand.strings_set, rules)
    hung = strings_hung(strings, pegs, read, doing.tools, rules)
    lost, not_back = _lost(survey.site, pegs, doing)
    return Work(
        tools=doing.tools,
        steps=tuple(steps),
        lost=lost,
        not_back=not_back,
        hung=hung,
        crossings=crossings(hung, pegs, read),
        stray=stray,
        sights=sight_heights(at_hand.set_ups, survey, doing.tools),
        curves=tuple(curves),
        height_limit_mm=check_limit_mm(math.sqrt(2.0) * doing.tools.level_sd_mm, doing.figures.check_percent),
        peg_found_mm=rules.value("setting_out.peg_found_mm"),
    )


def _lost(site: SitePlan, pegs: Sequence[Peg], doing: Doing) -> tuple[tuple[ComesBack, ...], tuple[str, ...]]:
    """Return how each pin comes back, and the names of those that do not."""
    fixed = fixed_places(site)
    figures = doing.figures
    angles = math.radians(figures.tape_angle_deg), math.radians(figures.cut_best_deg)
    found, not_back = [], []
    for peg in pegs:
        if peg.stands is not Stands.PIN or peg.role not in {PegRole.BASE, PegRole.PROFILE} or peg.no_pin is not None:
            continue
        way = comes_back(peg.name, peg.area, peg.at, fixed, doing.tools, angles, doing.is_clear)
        if way is None:
            not_back.append(peg.name)
        else:
            found.append(way)
    return tuple(found), tuple(not_back)
