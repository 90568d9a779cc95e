"""The build-up of every area."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup._deeper import with_deeper
from pavewright.buildup._dig_shape import dig_shape
from pavewright.buildup._edge_section import edge_sections
from pavewright.buildup._edges import edge_findings, edge_trench_m3, edge_widths
from pavewright.buildup._figures import figures
from pavewright.buildup._findings import area_findings, ground_findings, opening_findings, rule_findings
from pavewright.buildup._layers import bearing_ratio, build_up_mm, dig_below_dpc_mm, has_stone, is_designed, layers
from pavewright.buildup._retaining import retaining
from pavewright.buildup._types import AreaBuildUp, BuildUps, LayerMaterial
from pavewright.findings import in_order
from pavewright.job import Use
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.buildup._types import Layer
    from pavewright.job import Job
    from pavewright.levels import FinishedArea, Levels
    from pavewright.rules import Figure, Rulebook
    from pavewright.survey import Survey


def build_up(job: Job, survey: Survey, levels: Levels, rules: Rulebook) -> BuildUps:
    """Return layers, formation and what is dug for every area, from use, bed and ground."""
    known = figures(rules)
    ratio = bearing_ratio(job.site.ground, known.layers)
    cbr, from_soil = (ratio, None) if isinstance(ratio, float) else (ratio.value, ratio)
    vehicles = any(area.use is not Use.FOOT and not is_designed(area) for area in job.areas)
    room, meets = known.strip_past_mm, known.edges.meets_mm
    findings = list(ground_findings(job.site.ground, cbr, from_soil, known.units, vehicles=vehicles))
    found = []
    for area in survey.site.areas:
        unit = job.unit(area.area.laying.unit)
        own = with_deeper(layers(area.area, unit, cbr, known.layers), job, area.name, known.layers.stone_past)
        total = build_up_mm(layer.thickness_mm for layer in own)
        finished = levels.area(area.name)
        extends = max(layer.extends_mm for layer in own)
        sections = edge_sections(area.area, own, known.edges)
        edges = edge_widths(area.area, sections)
        found.append(
            AreaBuildUp(
                area=area.name,
                layers=own,
                total_mm=total,
                formation=finished.surface.lowered(total),
                base_shape=dig_shape(area, survey.site, extends, meets_mm=meets),
                dig_shape=dig_shape(area, survey.site, extends, edges, meets_mm=meets),
                strip_shape=dig_shape(area, survey.site, max(extends, room), edges, meets_mm=meets),
                cbr_percent=cbr if has_stone(own) else None,
                workings=_workings(own, total, finished, from_soil),
                edges=sections,
                edge_trench_m3=edge_trench_m3(area, sections),
            )
        )
        findings.extend(area_findings(area.area, unit, known.units))
        findings.extend(rule_findings(area.area, unit, cbr, known.layers))
        findings.extend(edge_findings(area, survey.site, known.edges))
        findings.extend(opening_findings(area.area))
    retained, open_edges, noticed = retaining(tuple(found), survey, levels, known.edges)
    return BuildUps(tuple(found), in_order([*findings, *noticed]), retained, open_edges)


def depth_under(job: Job, rules: Rulebook) -> dict[str, float]:
    """Return the build-up under the finished level of each area by name, which no level changes. [mm].

    An area for which no unit is chosen has none yet.
    """
    known = figures(rules).layers
    ratio = bearing_ratio(job.site.ground, known)
    cbr = ratio if isinstance(ratio, float) else ratio.value
    return {
        area.name: build_up_mm(
            layer.thickness_mm
            for layer in with_deeper(
                layers(area, job.unit(area.laying.unit), cbr, known), job, area.name, known.stone_past
            )
        )
        for area in job.areas
        if area.laying.unit is not None
    }


def open_stone_under(job: Job, rules: Rulebook) -> dict[str, float]:
    """Return the open stone of each area that is built permeable, by its name. [mm].

    An area for which no unit is chosen has none yet.
    """
    known = figures(rules).layers
    ratio = bearing_ratio(job.site.ground, known)
    cbr = ratio if isinstance(ratio, float) else ratio.value
    found: dict[str, float] = {}
    for area in (each for each in job.areas if each.laying.unit is not None):
        for layer in layers(area, job.unit(area.laying.unit), cbr, known):
            if layer.material is LayerMaterial.OPEN_STONE:
                found[area.name] = layer.thickness_mm
    return found


def _workings(
    own: tuple[Layer, ...], total: float, finished: FinishedArea, from_soil: Figure | None
) -> tuple[Working, ...]:
    thick = [layer for layer in own if layer.thickness_mm > 0.0]
    expression = " + ".join(f"{layer.thickness_mm:g}" for layer in thick)
    figures = tuple(figure for layer in own for figure in layer.decided_by)
    if from_soil is not None and has_stone(own):
        figures = (*figures, from_soil)
    workings = [
        Working(f"build-up = {expression}", total, "mm", figures, ", ".join(layer.name for layer in thick)),
    ]
    if finished.clearances:
        nearest = min(finished.clearances, key=lambda clearance: clearance.min_mm)
        workings.append(
            Working(
                f"dig level below the damp-proof course = {nearest.min_mm:.0f} + {total:g}",
                dig_below_dpc_mm(nearest.min_mm, total),
                "mm",
                (),
                f"at wall {nearest.wall}, where the paving is nearest to it",
            )
        )
    return tuple(workings)
