"""What soakaways, gullies and channels consist of, as types."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.job import PitFill
    from pavewright.sums import Working


class PitVerdict(StrEnum):
    """What is to be said of a pit."""

    ENOUGH = "enough"
    FOR_THESE_STORMS = "enough for these storms only"
    TOO_SLOW = "half empty too late"
    TOO_SMALL = "too small"


class DrainKind(StrEnum):
    """An inlet with a pipe."""

    GULLY = "gully"
    CHANNEL = "channel"


class DrainState(StrEnum):
    """Whether a gully or channel is there already or bought for the job."""

    EXISTING = "existing"
    NEW = "new"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class PipeRun:
    """Solid pipe from an inlet to its outfall.

    Attributes:
        kind: What the inlet is.
        name: Its name.
        outfall: Name of the outfall; None where none is named.
        length_m: As entered, else in a straight line on the plan, bends and depth left out; None where not known. [m]
    """

    kind: DrainKind
    name: str
    outfall: str | None
    length_m: float | None


@dataclass(frozen=True, slots=True)
class DrainParts:
    """What a gully or channel consists of.

    Attributes:
        kind: What it is.
        name: Its name.
        state: Whether it is there already or bought for the job.
        pots: Trapped pots.
        gratings: Gratings with their frames; those of a channel go with its metres.
        grating_mm: Side of the grating, or width over that of a channel. [mm]
        channel_m: Channel with its gratings. [m]
        end_caps: Closed ends of a channel.
        run: Solid pipe from it.
    """

    kind: DrainKind
    name: str
    state: DrainState
    pots: int
    gratings: int
    grating_mm: float
    channel_m: float
    end_caps: int
    run: PipeRun


@dataclass(frozen=True, slots=True)
class PitSize:
    """The inside of a soakaway.

    Attributes:
        outfall: Name of the outfall.
        length_mm: Inside length. [mm]
        width_mm: Inside width. [mm]
        depth_mm: Depth below the inlet. [mm]
        cover_mm: Ground over the inlet. [mm]
        fill: What fills it.
        void_percent: Voids in that. [%]
        proposed: Whether any of its sizes is proposed, not entered.
        cover_assumed: Whether the cover is that of the rulebook, not entered.
    """

    outfall: str
    length_mm: float
    width_mm: float
    depth_mm: float
    cover_mm: float
    fill: PitFill
    void_percent: float
    proposed: bool
    cover_assumed: bool


@dataclass(frozen=True, slots=True)
class SoakawayParts:
    """What a soakaway consists of.

    Attributes:
        outfall: Name of the outfall.
        proposed: Whether its size is proposed, not entered.
        size: Its inside.
        dig_m3: Hole, with the ground over the inlet. [m³]
        stone_m3: Clean stone in place; zero where crates fill it. [m³]
        stone_t: The same by mass. [t]
        crates_m3: Crates, outside measure; zero where stone fills it. [m³]
        geotextile_m2: Membrane round it, lapped. [m²]
        perforated_pipe_m: Perforated pipe through the stone. [m]
        solid_pipe_m: Solid pipe that leads to it; None where a run is not known. [m]
        pipe_bed_m3: Gravel round that. [m³]
        silt_traps: Traps before its inlet.
        runs: Solid pipe by inlet.
        workings: The sums behind stone or crates, and membrane.
    """

    outfall: str
    proposed: bool
    size: PitSize
    dig_m3: float
    stone_m3: float
    stone_t: float
    crates_m3: float
    geotextile_m2: float
    perforated_pipe_m: float
    solid_pipe_m: float | None
    pipe_bed_m3: float | None
    silt_traps: int
    runs: tuple[PipeRun, ...]
    workings: tuple[Working, ...]
