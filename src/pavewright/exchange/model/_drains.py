"""Gullies, channels, pipes, chambers and soakaways in a building model, each as far as its levels are known."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from shapely.geometry import Point

from pavewright import units
from pavewright.exchange._parts import box_mesh, square, strip_ring

if TYPE_CHECKING:
    from pavewright.exchange.model._site import Site
    from pavewright.geometry import XY
    from pavewright.levels import Levels
    from pavewright.pipeline import Plan
    from pavewright.survey import SitePlan
    from pavewright.water import DrainRun


def add_drains(site: Site, plan: Plan) -> None:
    """Add everything that takes or leads water, and the covers of chambers in the paving."""
    _gullies(site, plan)
    _channels(site, plan)
    _covers(site, plan)
    for run in plan.water.runs:
        _pipe(site, run)
    _soakaways(site, plan)


def _finished_at(levels: Levels, plan_of: SitePlan, point: XY) -> float:
    """Return the finished level at a point: that of the area in or nearest to which it lies. [mm]."""
    near = min(plan_of.areas, key=lambda area: area.gross.polygon.distance(Point(point)))
    return levels.area(near.name).surface.level_at(point)


def _gullies(site: Site, plan: Plan) -> None:
    for placed in plan.survey.site.gullies:
        gully, model = placed.gully, site.model
        top = _finished_at(plan.levels, plan.survey.site, placed.at)
        found = site.thing(
            "IfcWasteTerminal",
            (gully.name,),
            [box_mesh(square(placed.at, gully.size_mm), top, gully.invert_level_mm)],
            Name=gully.name,
            PredefinedType="GULLYTRAP",
        )
        side = model.value("IfcPositiveLengthMeasure", units.mm_to_m(gully.size_mm))
        sizes = {"CoverLength": side, "CoverWidth": side}
        model.properties(found, (gully.name,), "Pset_WasteTerminalTypeGullyTrap", sizes)
        _drain_facts(site, found, gully.name, gully.invert_level_mm, gully.outfall, existing=gully.is_existing)


def _drain_facts(
    site: Site, thing: object, name: str, invert_mm: float | None, outfall: str | None, *, existing: bool | None
) -> None:
    """Say of a drain what is known of it: what is not known is left out."""
    model = site.model
    facts = {
        "InvertLevel": None if invert_mm is None else model.value("IfcLengthMeasure", units.mm_to_m(invert_mm)),
        "Outfall": None if outfall is None else model.value("IfcLabel", outfall),
        "Status": None if existing is None else model.chosen("Status", "EXISTING" if existing else "NEW"),
    }
    model.properties(thing, (name,), "Pset_PavewrightDrain", facts)


def _channels(site: Site, plan: Plan) -> None:
    for channel in plan.survey.site.channels:
        middle = ((channel.start[0] + channel.end[0]) / 2.0, (channel.start[1] + channel.end[1]) / 2.0)
        top = _finished_at(plan.levels, plan.survey.site, middle)
        ring = strip_ring(channel.start, channel.end, channel.width_mm)
        found = site.thing(
            "IfcPipeSegment",
            (channel.name,),
            [box_mesh(ring, top, channel.invert_level_mm)],
            Name=channel.name,
            PredefinedType="GUTTER",
        )
        length = units.mm_to_m(math.dist(channel.start, channel.end))
        site.model.quantities(found, (channel.name,), "Qto_PipeSegmentBaseQuantities", {"Length": ("Length", length)})
        _drain_facts(site, found, channel.name, channel.invert_level_mm, channel.outfall, existing=None)


def _covers(site: Site, plan: Plan) -> None:
    for placed in plan.survey.site.covers:
        level = placed.level_mm
        top = _finished_at(plan.levels, plan.survey.site, placed.at) if level is None else level
        site.thing(
            "IfcDistributionChamberElement",
            (placed.cover.name,),
            [box_mesh(placed.outline, top, None)],
            Name=placed.cover.name,
            PredefinedType="INSPECTIONCHAMBER",
        )


def _pipe(site: Site, run: DrainRun) -> None:
    """Add a pipe as a round body where both ends and both inverts are known; one without a place has no body."""
    model, end = site.model, run.end
    starts, ends = (
        (run.start.at, run.start.invert_level_mm),
        (None, None) if end is None else (end.at, end.invert_level_mm),
    )
    look = None
    if starts[0] is not None and starts[1] is not None and ends[0] is not None and ends[1] is not None:
        radius = run.bore.value / 2.0
        line = model.add(
            "IfcPolyline",
            [model.point(*starts[0], starts[1] + radius), model.point(*ends[0], ends[1] + radius)],
        )
        solid = model.add("IfcSweptDiskSolid", Directrix=line, Radius=units.mm_to_m(radius))
        look = model.shape(site.body, "Body", "AdvancedSweptSolid", [solid])
    named = ("pipe", run.pipe.kind.value, run.pipe.name)
    found = site.thing(
        "IfcPipeSegment", named, (), Name=f"{run.pipe.name} – {run.pipe.outfall or '?'}", PredefinedType="RIGIDSEGMENT"
    )
    found.Representation = look
    if run.pipe.length_m is not None:
        model.quantities(found, named, "Qto_PipeSegmentBaseQuantities", {"Length": ("Length", run.pipe.length_m)})
    bore = model.value("IfcPositiveLengthMeasure", units.mm_to_m(run.bore.value))
    model.properties(found, named, "Pset_PipeSegmentTypeCommon", {"NominalDiameter": bore})


def _soakaways(site: Site, plan: Plan) -> None:
    """Add soakaways whose middle and whose levels are known."""
    places = {run.end.name: run.end for run in plan.water.runs if run.end is not None and run.end.at is not None}
    for size in (check.size for check in plan.water.soakaways):
        end = places.get(size.outfall)
        if end is None or end.at is None or end.invert_level_mm is None:
            continue
        ring = square(end.at, size.length_mm, size.width_mm)
        site.thing(
            "IfcDistributionChamberElement",
            ("soakaway", size.outfall),
            [box_mesh(ring, end.invert_level_mm, end.invert_level_mm - size.depth_mm)],
            Name=size.outfall,
            ObjectType="SOAKAWAY",
            PredefinedType="USERDEFINED",
        )
