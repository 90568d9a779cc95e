"""Pins and services: where no pin is driven, and where one can be instead."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shapely.geometry import LineString, Point

from pavewright.findings import Finding, Severity
from pavewright.geometry import unit_vector
from pavewright.job import ServiceKind
from pavewright.setting_out import _words as words
from pavewright.setting_out._codes import Code
from pavewright.setting_out._types import NoPin, Peg, ServiceBand, Stands

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.setting_out._base_line import Base
    from pavewright.setting_out._figures import SetOutFigures
    from pavewright.setting_out._sight import Surroundings
    from pavewright.survey import PlacedService, PlanArea, SitePlan

_STEP_MM, _REACH_MM = 50.0, 3000.0
"""Another place for a pin is looked for in such steps and no further off. [mm]"""
_KINDS = {
    ServiceKind.UNKNOWN: "kind not known",
    ServiceKind.DRAIN: "drain",
    ServiceKind.TELECOM: "telecom cable",
    ServiceKind.ELECTRICITY: "electric cable",
}


def service_bands(site: SitePlan, figures: SetOutFigures) -> tuple[ServiceBand, ...]:
    """Return the known services with the ground beside them in which nobody drives a pin."""
    band = figures.hand_dig.value
    return tuple(
        ServiceBand(
            name=placed.service.name,
            kind=placed.service.kind,
            depth_mm=placed.service.depth_mm,
            band_mm=band,
            points=placed.points,
            words=(
                f"{_said(placed)}: no pin and no machine within {band:.0f} mm of its line on either side; dig by hand"
            ),
        )
        for placed in site.services
    )


def services_words(site: SitePlan, figures: SetOutFigures) -> str:
    """Return what every sheet says of services that leads a pin or a spade."""
    band = figures.hand_dig.value
    if not site.services:
        return (
            "Buried services: none entered; that does not mean none. Get the records and have the ground traced "
            "before a pin is driven or a spade goes in."
        )
    return (
        f"Buried services: those entered are drawn with a band of {band:.0f} mm on each side: in it no pin is driven "
        "and digging is by hand. Trace and mark them first; depths and lines of records are often wrong, and there may "
        "be others."
    )


def _said(placed: PlacedService) -> str:
    """Return a service with its kind and depth."""
    service = placed.service
    depth = "depth not known" if service.depth_mm is None else f"said to lie {service.depth_mm:.0f} mm down"
    known = f", known from {service.known_from}" if service.known_from else ""
    return f"{service.name} ({_KINDS.get(service.kind, service.kind)}, {depth}{known})"


def flagged(pegs: list[Peg], area: PlanArea, base: Base, around: Surroundings) -> list[Peg]:
    """Return the pegs of an area, those in the band of a service flagged."""
    return [_flag(peg, area, base, around) for peg in pegs]


def _flag(peg: Peg, area: PlanArea, base: Base, around: Surroundings) -> Peg:
    met = [(placed, _away(placed, peg.at)) for placed in around.in_bands(peg.at)]
    if not met:
        return peg
    near = "; ".join(
        f"{_said(placed)} {'right under it' if away < 1.0 else f'{away:.0f} mm away'}" for placed, away in met
    )
    instead = _instead(peg, area, base, around)
    reported = (
        f"pin instead at {base.words(instead)}"
        if instead is not None
        else "no place for a pin on these lines within 3 m: carry the string past on a weighted block"
    )
    return replace(
        peg,
        no_pin=NoPin(
            services=tuple(placed.service.name for placed, _ in met),
            away_mm=min(away for _, away in met),
            elsewhere=instead,
            words=f"no pin here: {near}; {reported}",
        ),
    )


def _away(placed: PlacedService, at: XY) -> float:
    line = LineString(placed.points) if len(placed.points) > 1 else Point(placed.points[0])
    return float(line.distance(Point(at)))


def _instead(peg: Peg, area: PlanArea, base: Base, around: Surroundings) -> XY | None:
    """Return the nearest place for a pin on a line through a peg: along the sides that it stands on, or the base line.

    A pin outside the dig gets another outside it.
    """
    lines = [
        unit_vector(side.start.xy, side.end.xy)
        for side in area.sides
        if side.start.rise_mm == 0.0 and abs(_off(side.start.xy, side.end.xy, peg.at)) < 1.0
    ]
    ux, uy = unit_vector(base.start, base.end)
    for step in range(1, round(_REACH_MM / _STEP_MM) + 1):
        for dx, dy in [*lines, (ux, uy), (-uy, ux)]:
            for way in (step * _STEP_MM, -step * _STEP_MM):
                at = peg.at[0] + dx * way, peg.at[1] + dy * way
                in_dig = peg.stands is not Stands.PIN
                if around.takes_pin(at, in_dig=in_dig) and around.between(peg.at, at) is None:
                    return at
    return None


def _off(start: XY, end: XY, at: XY) -> float:
    ux, uy = unit_vector(start, end)
    return (at[1] - start[1]) * ux - (at[0] - start[0]) * uy


def near_services(pegs: list[Peg], around: Surroundings, figures: SetOutFigures) -> list[Finding]:
    """Return a finding for every known service near which a peg would be driven."""
    clear = figures.hand_dig
    found = []
    for placed, _ in around.bands:
        near = [each for each in pegs if placed in around.in_bands(each.at)]
        if near:
            nearest = min(near, key=lambda each: _away(placed, each.at))
            found.append(
                Finding(
                    Code.PEG_NEAR_SERVICE,
                    Severity.CHECK,
                    f"service {placed.service.name}",
                    words.peg_near_service(near, clear.value, _said(placed)),
                    value=_away(placed, nearest.at),
                    limit=clear.value,
                    unit="mm",
                    figure=clear,
                    at_mm=nearest.at,
                )
            )
    return found
