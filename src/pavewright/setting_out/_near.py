"""Beside a peg or on a layer: which services lie near a pin, and how far the top of a layer may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.setting_out._types import HeightOf, PegRole

if TYPE_CHECKING:
    from pavewright.job import ServiceKind
    from pavewright.rules import Figure, Rulebook
    from pavewright.setting_out._types import ServiceBand
    from pavewright.setting_out._whole_types import SettingOut


@dataclass(frozen=True, slots=True)
class ServiceNear:
    """A known service near a peg.

    Attributes:
        peg: Number of the peg.
        service: Name of the service.
        kind: What it carries.
        depth_mm: How deep it is said to lie; None where that is not known. [mm]
        away_mm: How far its line lies from the peg in plan. [mm]
        in_band: Whether the peg stands in the ground where no pin is driven.
    """

    peg: int
    service: str
    kind: ServiceKind
    depth_mm: float | None
    away_mm: float
    in_band: bool


@dataclass(frozen=True, slots=True)
class LayerTolerance:
    """How far the top of a layer may be off.

    Attributes:
        layer: Which layer.
        above: At most so much too high.
        below: At most so much too low.
    """

    layer: HeightOf
    above: Figure
    below: Figure


def services_near(setting: SettingOut, rules: Rulebook) -> tuple[ServiceNear, ...]:
    """Return the known services near each peg that are listed beside it, the nearest first."""
    limit = rules.value("setting_out.service_listed_mm")
    found = [
        ServiceNear(peg.number, band.name, band.kind, band.depth_mm, away, away <= band.band_mm)
        for peg in setting.pegs
        for band in setting.services
        if (away := _away_mm(band, Point(peg.at))) <= max(limit, band.band_mm)
    ]
    return tuple(sorted(found, key=lambda each: (each.away_mm, each.peg)))


def _away_mm(band: ServiceBand, at: Point) -> float:
    line = LineString(band.points) if len(band.points) > 1 else Point(band.points[0])
    return float(line.distance(at))


def layer_tolerances(rules: Rulebook) -> dict[HeightOf, LayerTolerance]:
    """Return how far layers may be off, of those for which there is a figure; the finished paving has its promise."""
    table = rules.table("setting_out.layer_tolerance_mm")
    rows = {layer: layer.name.lower() for layer in HeightOf}
    known = {row.key for row in table.rows}
    return {
        layer: LayerTolerance(layer, table.figure(key, "above_mm"), table.figure(key, "below_mm"))
        for layer, key in rows.items()
        if key in known
    }


def pegs_of_layers(setting: SettingOut, area: str) -> tuple[int, ...]:
    """Return the pegs of an area at which its layers are read: those inside the dig, in their order."""
    outside = {PegRole.BASE, PegRole.PROFILE}
    return tuple(peg.number for peg in setting.pegs if peg.area == area and peg.role not in outside)
