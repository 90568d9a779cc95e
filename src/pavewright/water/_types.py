"""What the water room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.geometry import XY, Shape
    from pavewright.rules import Figure
    from pavewright.sums import Working


@dataclass(frozen=True)
class Catchment:
    """What drains to one edge, gully or channel of an area.

    Attributes:
        area: Name of the area.
        to: Name of the side, gully or channel that takes the water.
        kind: ``free_edge``, ``wall``, ``kerb``, ``boundary``, ``channel``, ``gully`` or ``next_area``.
        shapes: Parts of the area that drain there.
        area_m2: Their area. [m²]
        flow_l_s: Peak flow at the design rain. [l/s]
        outfall: Name of the outfall; None where none is named.
        at: Middle of the edge or the inlet. [mm]
        working: The sum behind the flow.
    """

    area: str
    to: str
    kind: str
    shapes: tuple[Shape, ...]
    area_m2: float
    flow_l_s: float
    outfall: str | None
    at: XY
    working: Working


@dataclass(frozen=True, slots=True)
class SoakawayCheck:
    """A soakaway held against the storms of the place.

    Attributes:
        outfall: Name of the outfall.
        area_m2: Paving that drains to it. [m²]
        required_m3: Storage that the worst storm wants. [m³]
        available_m3: Storage of the pit. [m³]
        governing_min: Duration of the worst storm. [min]
        half_empty_hours: Time to half empty after it. [h]
        working: The sum behind the storage wanted.
    """

    outfall: str
    area_m2: float
    required_m3: float
    available_m3: float
    governing_min: float
    half_empty_hours: float
    working: Working


@dataclass(frozen=True)
class Water:
    """Where water runs and how much.

    Attributes:
        rain: The design rain as a figure. [mm/h]
        runoff: The runoff factor as a figure.
        catchments: What drains where.
        total_l_s: Total peak flow. [l/s]
        soakaways: Soakaways held against their storms, those with a size and rain given.
        findings: What was noticed.
        limits: What this room does not consider, in words.
    """

    rain: Figure
    runoff: Figure
    catchments: tuple[Catchment, ...]
    total_l_s: float
    findings: tuple[Finding, ...]
    limits: tuple[str, ...] = ()
    soakaways: tuple[SoakawayCheck, ...] = ()
