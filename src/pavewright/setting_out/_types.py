"""What setting out hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.geometry import XY


@dataclass(frozen=True, slots=True)
class LayerHeight:
    """Top of a layer at a peg: its level and how far down from the string it is."""

    layer: str
    level_mm: float
    down_from_string_mm: float


@dataclass(frozen=True, slots=True)
class Peg:
    """A peg or a string crossing.

    Attributes:
        name: Name on the sheet ("Peg 1").
        area: Area that it serves.
        role: ``corner``, ``fold``, ``edge``, ``grid`` or ``profile``.
        at: Place in plan. [mm]
        string_level_mm: Level of the string at this place. [mm]
        heights: Finished level, top of bed, top of base, top of sub-base and formation, whichever exist, from the top.
        from_corner: Where it is in words: distance along and off the base line of the area.
        along_mm: Distance along the base line of the area. [mm]
        offset_mm: Distance square off the base line, positive to the left. [mm]
    """

    name: str
    area: str
    role: str
    at: XY
    string_level_mm: float
    heights: tuple[LayerHeight, ...]
    from_corner: str
    along_mm: float
    offset_mm: float


@dataclass(frozen=True, slots=True)
class StringLine:
    """A string between two pegs, at a stated height over the finished surface."""

    name: str
    area: str
    start: str
    end: str
    length_mm: float
    fall_mm: float
    carries_fall: bool


@dataclass(frozen=True, slots=True)
class TapeCheck:
    """A distance to be checked with a tape: side, diagonal, 3-4-5 triangle or arc offset."""

    name: str
    area: str
    kind: str
    start: str
    end: str
    expected_mm: float
    words: str


@dataclass(frozen=True)
class SettingOut:
    """Pegs, strings and checks.

    Attributes:
        string_height_mm: Height of every string over the finished surface. [mm]
        base_lines: Name of the area and the two corners that carry its base line.
        pegs: In the order of driving.
        strings: Strings.
        checks: Tapes to check.
        findings: What was noticed.
    """

    string_height_mm: float
    base_lines: tuple[tuple[str, str, str], ...]
    pegs: tuple[Peg, ...]
    strings: tuple[StringLine, ...]
    checks: tuple[TapeCheck, ...]
    findings: tuple[Finding, ...]
