"""Pipe runs as they are laid: what is known at both ends and between them, as types."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.geometry import XY
    from pavewright.job import OutfallKind, ServiceKind
    from pavewright.rules import Figure
    from pavewright.water._types_parts import DrainKind, DrainState, PipeRun


class RunFall(StrEnum):
    """Whether a pipe falls as much as it should."""

    ENOUGH = "enough"
    FLAT = "flat"
    NONE = "none"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class RunEnd:
    """An end of a pipe run.

    Attributes:
        name: Name of the inlet or of the outfall.
        kind: What it is.
        at: Its place in plan; None where it has none. [mm]
        cover_level_mm: Level of its grating or of the surface over it after the job; None where not known. [mm]
        invert_level_mm: Level inside the pipe at its lowest; None where nobody took it. [mm]
        assumed: Whether somebody assumes its levels and nobody took them.
    """

    name: str
    kind: DrainKind | OutfallKind
    at: XY | None
    cover_level_mm: float | None
    invert_level_mm: float | None
    assumed: bool

    @property
    def deep_mm(self) -> float | None:
        """From the surface down to the invert; None where one of them is not known. [mm]."""
        if self.cover_level_mm is None or self.invert_level_mm is None:
            return None
        return self.cover_level_mm - self.invert_level_mm


@dataclass(frozen=True, slots=True)
class RunCrossing:
    """A known service that a run passes over or under in plan.

    Attributes:
        name: Its name.
        kind: What it carries.
        along_mm: From the inlet. [mm]
        depth_mm: How deep it is said to lie; None where that is not known. [mm]
    """

    name: str
    kind: ServiceKind
    along_mm: float
    depth_mm: float | None


@dataclass(frozen=True, slots=True)
class DrainRun:
    """A pipe run as it is laid, from its inlet to its outfall.

    Attributes:
        pipe: The pipe with its length.
        state: Whether its inlet is there already or new.
        start: Its inlet.
        end: Its outfall; None where none is named.
        fall_mm: From invert to invert; None where one of them is not known. [mm]
        fall: The same over its length; None where that is not known either. [rise over run]
        verdict: What is to be said of that.
        crossings: Known services that it crosses, from the inlet on; none also where its line is not known.
        line_known: Whether both ends have a place in plan.
        bore: The bore that is taken. [mm]
        min_one_in: Smallest gradient for it; None where nothing is said for that bore. [1 in n]
        min_cover: Ground that should lie over it. [mm]
        bed: Gravel under it and over it. [mm]
        trench: Width of its trench. [mm]
        silt_traps: Silt traps before its outfall.
    """

    pipe: PipeRun
    state: DrainState
    start: RunEnd
    end: RunEnd | None
    fall_mm: float | None
    fall: float | None
    verdict: RunFall
    crossings: tuple[RunCrossing, ...]
    line_known: bool
    bore: Figure
    min_one_in: Figure | None
    min_cover: Figure
    bed: Figure
    trench: Figure
    silt_traps: int
