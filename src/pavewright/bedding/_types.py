"""What the bedding room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.bedding._advice import Advice
    from pavewright.bedding._bed_use import BedSoFar, BedUse
    from pavewright.bedding._lips import LipBetween
    from pavewright.findings import Finding
    from pavewright.geometry import XY
    from pavewright.job.on_site import UnitState
    from pavewright.rules import Figure


@dataclass(frozen=True, slots=True)
class UnitChecked:
    """One unit as it was read last.

    Attributes:
        piece: Its number in the laying plan as it is now.
        at: Its middle. [mm]
        state: Whether it lies, or is to be bedded again.
        over_mm: Each corner over the level planned; None where it was not read. [mm]
        sd_mm: Standard deviation of one reading. [mm]
        advice: What its readings say; None where no corner was read.
    """

    piece: int
    at: XY
    state: UnitState
    over_mm: tuple[float | None, ...]
    sd_mm: float
    advice: Advice | None


@dataclass(frozen=True, slots=True)
class AreaBedding:
    """One area, as far as it is laid.

    Attributes:
        area: Name of the area.
        pieces: Pieces of its laying plan.
        units: Units that were read or marked as laid, in the order of laying.
        unmatched: Entries whose place no piece of the plan covers any more.
        lips: Steps between units of which both were read.
        step: The figure that steps are held to.
        laid_m2: Area of the units that lie. [m²]
        bed: What its bed takes as planned; None where that is not known.
        bed_so_far: What the bags counted last say; None where none were counted.
    """

    area: str
    pieces: int
    units: tuple[UnitChecked, ...]
    unmatched: int
    lips: tuple[LipBetween, ...]
    step: Figure
    laid_m2: float
    bed: BedUse | None
    bed_so_far: BedSoFar | None


@dataclass(frozen=True)
class BeddingReport:
    """Units and beds as far as they are laid.

    Attributes:
        areas: By area, those of which anything was read or counted.
        findings: What was noticed.
    """

    areas: tuple[AreaBedding, ...]
    findings: tuple[Finding, ...]
