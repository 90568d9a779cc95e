"""Pavements with their courses and kerbs, flights of steps, and the dig, in a building model."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.buildup import LayerKey, LayerMaterial
from pavewright.exchange._exchange_words import WORDS
from pavewright.exchange._parts import (
    dig_mesh,
    ground_mesh,
    kerb_mesh,
    layer_mesh,
    layer_shape,
    paved_shape,
    surface_mesh,
    tread_meshes,
)

if TYPE_CHECKING:
    from pavewright.buildup import AreaBuildUp, Layer
    from pavewright.exchange.model._file import Entity
    from pavewright.exchange.model._site import Site
    from pavewright.laying import LaidArea
    from pavewright.levels import FinishedArea
    from pavewright.pipeline import Plan
    from pavewright.survey import PlanArea

_RIGID = frozenset({LayerMaterial.CONCRETE})


def add_paving(site: Site, plan: Plan) -> None:
    """Add every area as a pavement of courses, and what holds its sides."""
    for up in plan.build_ups.areas:
        area, laid, finished = (
            plan.survey.site.area(up.area),
            plan.laying.area(up.area),
            plan.levels.area(up.area),
        )
        pavement = _pavement(site, area, up, laid, finished)
        courses = [_course(site, pavement, area, up, layer, laid, finished) for layer in up.layers]
        site.model.rooted("IfcRelAggregates", ("courses", up.area), RelatingObject=pavement, RelatedObjects=courses)
        _kerbs(site, area, up, finished)


def _pavement(site: Site, area: PlanArea, up: AreaBuildUp, laid: LaidArea, finished: FinishedArea) -> Entity:
    """Return the pavement of an area: its finished surface, with what is known of it."""
    model, named = site.model, (up.area,)
    pavement = site.thing(
        "IfcPavement",
        named,
        [surface_mesh(paved_shape(area, laid), finished.surface)],
        Name=up.area,
        Description=finished.falls_text,
        PredefinedType="RIGID" if any(layer.material in _RIGID for layer in up.layers) else "FLEXIBLE",
    )
    length = "IfcNonNegativeLengthMeasure"
    common = {
        "Reference": model.value("IfcIdentifier", up.area),
        "Status": model.chosen("Status", "NEW"),
        "NominalThickness": model.value(length, units.mm_to_m(up.total_mm)),
        "StructuralSlope": model.value("IfcPositiveRatioMeasure", finished.main_fall)
        if finished.main_fall > 0
        else None,
    }
    model.properties(pavement, named, "Pset_PavementCommon", common)
    own = {
        "FixedBy": model.value("IfcText", finished.fixed_by),
        "HighestLevel": model.value("IfcLengthMeasure", units.mm_to_m(finished.highest_mm)),
        "LowestLevel": model.value("IfcLengthMeasure", units.mm_to_m(finished.lowest_mm)),
        "PavingUnit": model.value("IfcLabel", laid.unit),
        "Pattern": model.value("IfcLabel", laid.pattern),
        "JointWidth": model.value("IfcPositiveLengthMeasure", units.mm_to_m(laid.joint_mm)) if laid.joint_mm else None,
        "WholeUnits": model.value("IfcInteger", laid.whole),
        "CutPieces": model.value("IfcInteger", laid.cuts),
    }
    model.properties(pavement, named, "Pset_PavewrightPaving", own)
    shape = paved_shape(area, laid)
    amounts = {
        "Depth": ("Length", units.mm_to_m(up.total_mm)),
        "GrossArea": ("Area", area.gross.area_m2),
        "NetArea": ("Area", units.mm2_to_m2(float(shapely.area(shape)))),
    }
    model.quantities(pavement, named, "Qto_PavementBaseQuantities", amounts)
    return pavement


def _course(
    site: Site,
    pavement: Entity,
    area: PlanArea,
    up: AreaBuildUp,
    layer: Layer,
    laid: LaidArea,
    finished: FinishedArea,
) -> Entity:
    """Return one layer as a course; a membrane has a surface and no body."""
    model, named = site.model, (up.area, layer.key.value)
    shape, top_mm = layer_shape(area, up, layer, laid), up.top_of(layer.key)
    thin = layer.thickness_mm <= 0.0
    mesh = (
        surface_mesh(shape, finished.surface, top_mm)
        if thin
        else layer_mesh(shape, finished.surface, top_mm, layer.thickness_mm)
    )
    course = site.thing(
        "IfcCourse",
        named,
        [mesh],
        within=pavement,
        Name=layer.name,
        Description=layer.why,
        PredefinedType="FILTER" if layer.key is LayerKey.GEOTEXTILE else "PAVEMENT",
    )
    thickness_m = units.mm_to_m(layer.thickness_mm)
    common = {"NominalThickness": model.value("IfcNonNegativeLengthMeasure", thickness_m)}
    model.properties(course, named, "Pset_CourseCommon", common)
    volume = ("Volume", units.mm3_to_m3(float(shapely.area(shape)) * layer.thickness_mm))
    amounts = {"Thickness": ("Length", thickness_m), "Volume": volume, "GrossVolume": volume}
    if not thin:
        model.quantities(course, named, "Qto_CourseBaseQuantities", amounts)
    model.made_of(course, named, layer.name)
    return course


def _kerbs(site: Site, area: PlanArea, up: AreaBuildUp, finished: FinishedArea) -> None:
    """Add kerbs and edgings along the sides that they hold."""
    model, sections = site.model, {each.restraint: each for each in up.edges}
    for edge in area.area.edges:
        section = sections.get(edge.restraint)
        if section is None or min(section.unit_mm) <= 0.0:
            continue
        side, named = area.side_from(edge.corner), (up.area, edge.corner)
        kerb = site.thing(
            "IfcKerb",
            named,
            [kerb_mesh(side, section, finished.surface)],
            Name=WORDS.beside(restraint=edge.restraint.value.capitalize(), side=side.name),
            PredefinedType="NOTDEFINED",
        )
        upstand = max(units.mm_to_m(section.top_mm), 0.0)
        model.properties(
            kerb, named, "Pset_KerbCommon", {"Upstand": model.value("IfcNonNegativeLengthMeasure", upstand)}
        )
        amounts = {
            "Length": ("Length", units.mm_to_m(side.length_mm)),
            "Width": ("Length", units.mm_to_m(section.unit_mm[0])),
            "Height": ("Length", units.mm_to_m(section.unit_mm[1])),
        }
        model.quantities(kerb, named, "Qto_KerbBaseQuantities", amounts)


def add_flights(site: Site, plan: Plan) -> None:
    """Add flights of steps, tread by tread."""
    for steps in plan.levels.steps:
        site.thing(
            "IfcStairFlight",
            (steps.name,),
            tread_meshes(steps, plan.levels.area(steps.upper_area).surface),
            Name=steps.name,
            NumberOfRisers=steps.risers,
            NumberOfTreads=steps.risers - 1,
            RiserHeight=units.mm_to_m(steps.riser_mm),
            TreadLength=units.mm_to_m(steps.going_mm),
            PredefinedType="STRAIGHT",
        )


def add_dig(site: Site, plan: Plan) -> None:
    """Add the ground as it was read and the dig as cuts in it; nothing where nobody read the ground."""
    ground, model = plan.survey.ground, site.model
    if ground is None:
        return
    terrain = site.thing(
        "IfcGeographicElement", ("ground",), [ground_mesh(ground)], Name=WORDS.ground, PredefinedType="TERRAIN"
    )
    for up in plan.build_ups.areas:
        dug = plan.earthworks.area(up.area)
        mesh = dig_mesh(ground, up, plan.job.site.ground.topsoil_mm or 0.0)
        if not mesh.triangles:
            continue
        cut = site.thing(
            "IfcEarthworksCut",
            (up.area,),
            [mesh],
            within=terrain,
            Name=WORDS.dig(area=up.area),
            PredefinedType="EXCAVATION",
        )
        model.rooted("IfcRelVoidsElement", (up.area,), RelatingBuildingElement=terrain, RelatedOpeningElement=cut)
        amounts = {
            "Depth": ("Length", units.mm_to_m(max(dug.volumes.deepest_mm, 0.0))),
            "UndisturbedVolume": ("Volume", dug.volumes.cut_m3),
        }
        model.quantities(cut, (up.area,), "Qto_EarthworksCutBaseQuantities", amounts)
