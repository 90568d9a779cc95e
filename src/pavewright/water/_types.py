"""What the water room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.levels import THEIRS

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.findings import Finding
    from pavewright.geometry import XY, Shape
    from pavewright.job import Beyond
    from pavewright.levels import TakerKind
    from pavewright.rules import Figure
    from pavewright.sums import Working
    from pavewright.water._types_parts import DrainParts, PitSize, PitVerdict, SoakawayParts
    from pavewright.water._types_runs import DrainRun


@dataclass(frozen=True, slots=True)
class Band:
    """Lower and upper end of what a figure may be.

    Attributes:
        low: Lower end. [unit of the figure]
        high: Upper end. [unit of the figure]
    """

    low: float
    high: float


@dataclass(frozen=True)
class Catchment:
    """What drains to one edge, gully or channel of an area.

    Attributes:
        area: Name of the area.
        to: Name of the side, gully or channel that takes the water.
        kind: What that is.
        shapes: Parts of the area that drain there.
        area_m2: Their area. [m²]
        flow_l_s: Peak flow off it at the design rain. [l/s]
        outfall: Name of the outfall; None where none is named.
        at: Middle of the edge or the inlet. [mm]
        working: The sum behind the flow.
        ways: Ways of drops over a folded area, one from the middle of each plane; none on a plane, where all run alike.
        beyond: What lies past a boundary or an edge to meet; None for the others.
        disputed_by: Boundary with others where an edge to meet is said to be the owner's; None where there is none.
        from_others_m2: Paving of other areas whose water passes here too. [m²]
        whole_l_s: Peak flow of both. [l/s]
    """

    area: str
    to: str
    kind: TakerKind
    shapes: tuple[Shape, ...]
    area_m2: float
    flow_l_s: float
    outfall: str | None
    at: XY
    working: Working
    ways: tuple[tuple[XY, ...], ...] = ()
    beyond: Beyond | None = None
    disputed_by: str | None = None
    from_others_m2: float = 0.0
    whole_l_s: float = 0.0

    @property
    def whole_m2(self) -> float:
        """Paving whose water passes here, that of other areas with it. [m²]."""
        return self.area_m2 + self.from_others_m2

    @property
    def is_theirs(self) -> bool:
        """Whether the water runs onto a road, a footway or a neighbour's ground."""
        return self.beyond in THEIRS


@dataclass(frozen=True, slots=True)
class DrainCheck:
    """A channel or gully checked against the flow that reaches it.

    Attributes:
        drain: What it is and its name.
        flow_l_s: Peak flow that reaches it. [l/s]
        takes_l_s: What it takes. [l/s]
        working: The sum behind what it takes.
    """

    drain: str
    flow_l_s: float
    takes_l_s: float
    working: Working


@dataclass(frozen=True, slots=True)
class InletShare:
    """How much of the paving beside it reaches a gully or channel.

    Attributes:
        kind: Gully or channel.
        name: Its name.
        areas: Names of the areas in or at which it stands.
        reaches_m2: Paving whose water reaches it, from wherever it comes. [m²]
        whole_m2: All paving of those areas. [m²]
    """

    kind: TakerKind
    name: str
    areas: tuple[str, ...]
    reaches_m2: float
    whole_m2: float


@dataclass(frozen=True, slots=True)
class StormShare:
    """Litres of the design storm that reach one place.

    Attributes:
        kind: As in a catchment.
        to: Name of the place.
        beyond: As in a catchment.
        before_l: Before the job; None where the ground is not known. [l]
        after_l: After it. [l]
    """

    kind: TakerKind
    to: str
    beyond: Beyond | None
    before_l: float | None
    after_l: float


@dataclass(frozen=True, slots=True)
class SheetStorm:
    """The storm of the water sheet.

    Attributes:
        minutes: Its duration. [min]
        depth_mm: Its depth. [mm]
        reported: Where the depth comes from, in words.
        shares: Where its water goes.
    """

    minutes: float
    depth_mm: float
    reported: str
    shares: tuple[StormShare, ...]


@dataclass(frozen=True, slots=True)
class PitRecord:
    """The record of a trial pit.

    Attributes:
        size: Its size in words.
        date: Day of the test; None where it is not given.
        times_min: Time of each fill from three quarters to one quarter. [min]
        rates_m_per_s: Rate from each. [m/s]
        working: The sum behind the slowest.
    """

    size: str
    date: dt.date | None
    times_min: tuple[float, ...]
    rates_m_per_s: tuple[float, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class SoakawayCheck:
    """A soakaway checked against the storms of the place.

    Attributes:
        outfall: Name of the outfall.
        area_m2: Paving that drains to it. [m²]
        required_m3: Storage that the worst storm needs. [m³]
        available_m3: Storage of the pit. [m³]
        governing_min: Duration of the worst storm. [min]
        half_empty_hours: Time to half empty after it. [h]
        working: The sum behind the storage wanted.
        verdict: What is to be said of it.
        size: Its size, entered or proposed.
        test: Record of the trial pit; None where only a rate is given.
    """

    outfall: str
    area_m2: float
    required_m3: float
    available_m3: float
    governing_min: float
    half_empty_hours: float
    working: Working
    verdict: PitVerdict
    size: PitSize
    test: PitRecord | None = None


@dataclass(frozen=True)
class Water:
    """Where water runs and how much.

    Attributes:
        rain: The design rain as a figure. [mm/h]
        runoff: The runoff factor as a figure.
        catchments: What drains where.
        total_l_s: Total peak flow. [l/s]
        soakaways: Soakaways checked against their storms, those with a size and rain given.
        drains: Gullies, and channels whose inside is known, checked against their flow.
        storm: Litres of the design storm before and after the job.
        findings: What was noticed.
        limits: What this room does not consider, in words.
        pits: What every soakaway of known or proposed size consists of.
        inlets: What every gully and channel consists of.
        shares: How much of the paving beside it reaches every gully and channel that stands in or at an area.
        runs: Pipe from gullies and channels to their outfalls, with what is known of it.
    """

    rain: Figure
    runoff: Figure
    catchments: tuple[Catchment, ...]
    total_l_s: float
    findings: tuple[Finding, ...]
    limits: tuple[str, ...] = ()
    soakaways: tuple[SoakawayCheck, ...] = ()
    drains: tuple[DrainCheck, ...] = ()
    storm: SheetStorm | None = None
    pits: tuple[SoakawayParts, ...] = ()
    inlets: tuple[DrainParts, ...] = ()
    shares: tuple[InletShare, ...] = ()
    runs: tuple[DrainRun, ...] = ()
