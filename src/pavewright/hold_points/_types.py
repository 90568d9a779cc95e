"""What hold points hand on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.as_laid import Verdict
    from pavewright.buildup import LayerKey
    from pavewright.earthworks import Spread
    from pavewright.findings import Finding
    from pavewright.geometry import XY
    from pavewright.hold_points._drains import DrainRead
    from pavewright.job import MaterialKind
    from pavewright.job.on_site import HoldCheckKind, HoldLayer
    from pavewright.quantities import Measure
    from pavewright.rules import Figure
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class HoldKey:
    """Which hold point it is, by places in the job: never by a word that somebody typed.

    Attributes:
        kind: What is looked at.
        number: Place of its area in the job, or of its drain among the runs of the plan, from 0.
        layer: Which layer, where a layer is looked at.
    """

    kind: HoldCheckKind
    number: int
    layer: HoldLayer | None = None

    @property
    def text(self) -> str:
        """Its name for files and pages; no two keys share one.

        >>> from pavewright.job.on_site import HoldCheckKind, HoldLayer
        >>> HoldKey(HoldCheckKind.LAYER, 0, HoldLayer.SUB_BASE).text
        'layer.1.sub_base'
        """
        parts = [self.kind.value, str(self.number + 1)]
        return ".".join(parts if self.layer is None else [*parts, self.layer.value])


@dataclass(frozen=True, slots=True)
class HoldPlace:
    """A place at which a hold point is read.

    Attributes:
        label: Its name on every sheet and screen.
        at: Where it is. [mm]
        planned_mm: Level planned there; None where nobody knows it. [mm]
        down_mm: How far that is below the string; None where no string runs there. [mm]
    """

    label: str
    at: XY
    planned_mm: float | None
    down_mm: float | None = None


@dataclass(frozen=True, slots=True)
class HoldLimit:
    """How far a place may be off.

    Attributes:
        above: At most so much too high.
        below: At most so much too low.
    """

    above: Figure
    below: Figure


@dataclass(frozen=True, slots=True)
class PlaceRead:
    """One reading at a hold point against the plan.

    Attributes:
        label: Name of the place.
        at: Where it was read. [mm]
        planned_mm: Level planned there. [mm]
        found_mm: Level found; None where none was read. [mm]
        off_mm: Found less planned, positive where it lies high; None where none was read. [mm]
        off_line_mm: Of the first row: how far it lies off its string; None where nobody read it. [mm]
        verdict: Pass, fail or too near to the limit to decide; None where no limit is known or nothing was read.
        place: The planned place that it is a reading of, from 0; None where it lies at none of them.
    """

    label: str
    at: XY
    planned_mm: float
    found_mm: float | None
    off_mm: float | None
    off_line_mm: float | None
    verdict: Verdict | None
    place: int | None = None


class TakeUp(StrEnum):
    """What takes up a surface that is off."""

    STONE = "stone"
    CONCRETE = "concrete"
    BED = "bed"
    DIG = "dig"


@dataclass(frozen=True, slots=True)
class GoodsRate:
    """What a cubic metre of a layer takes of one material, and what that costs.

    Attributes:
        material: Which.
        per_m3: How much of it, with what is lost. [in ``unit`` per m³]
        unit: Unit of that.
        in_pack: How much one pack holds, in the same unit; None where it is not sold in packs of it. [in ``unit``]
        minor_per_m3: What that costs; None where the plan has no price of it. [minor units per m³]
    """

    material: MaterialKind
    per_m3: float
    unit: Measure
    in_pack: float | None
    minor_per_m3: float | None


@dataclass(frozen=True, slots=True)
class TakeUpRate:
    """What one cubic metre more takes, by the rates of the plan itself; before overhead, margin and tax.

    Attributes:
        kind: What takes it up.
        layer: The layer that is made thicker; None where more is dug.
        goods: What it takes of each material.
        hours_per_m3: Hours of people; None where the plan has no such work to go by. [h/m³]
        minor_per_m3: Goods, labour and what is carted away; None where one of them has no price. [minor units per m³]
        loose_per_m3: Of what is dug: loose soil that leaves; None for everything else. [-]
    """

    kind: TakeUp
    layer: LayerKey | None
    goods: tuple[GoodsRate, ...]
    hours_per_m3: float | None
    minor_per_m3: float | None
    loose_per_m3: float | None = None


@dataclass(frozen=True, slots=True)
class FindRate:
    """What it takes to dig out what is found under an area, and to fill it again.

    Attributes:
        area: Name of the area.
        dig: A cubic metre dug and carted away; None where the dig is not known.
        fill: A cubic metre filled with stone; None where nothing is known of it.
    """

    area: str
    dig: TakeUpRate | None
    fill: TakeUpRate | None


@dataclass(frozen=True, slots=True)
class GoodsNeeded:
    """Goods that a surface takes which is off.

    Attributes:
        material: Which.
        amount: How much of it. [in ``unit``]
        unit: Unit of that.
        packs: The same in packs, not rounded; None where it is not sold in packs of it. [packs]
    """

    material: MaterialKind
    amount: float
    unit: Measure
    packs: float | None


@dataclass(frozen=True, slots=True)
class Consequence:
    """What it takes that a surface is off: the firm's own cost, before overhead, margin and tax.

    Attributes:
        kind: What takes it up.
        layer: The layer that is made thicker; None where more is dug.
        volume_m3: How much. [m³]
        mean_mm: The same over the whole area. [mm]
        goods: Goods that it takes.
        loose_m3: Of what is dug: loose soil that leaves; None for everything else. [m³]
        hours: Hours of people; None where the plan has no such work to go by. [h]
        minor: What it costs; None where something of it has no price. [minor units]
        days: The same hours as days of the crew; None where people or hours are not known. [days]
        working: The sum behind the volume.
    """

    kind: TakeUp
    layer: LayerKey | None
    volume_m3: Spread
    mean_mm: float
    goods: tuple[GoodsNeeded, ...]
    loose_m3: float | None
    hours: float | None
    minor: float | None
    days: float | None
    working: Working


@dataclass(frozen=True)
class Hold:
    """One hold point: what is planned, what was read, and what that means.

    Attributes:
        key: Which it is.
        area: Name of its area; empty for a drain.
        drain: Name of its drain; empty for everything else.
        area_m2: The surface that is looked at; zero for a drain and a row. [m²]
        places: Where it is read, in the order of walking.
        limit: How far a level may be off; None where no figure is known.
        line_limit: Of the first row: how far it may lie off its string; None for everything else.
        checks: Names of the looks at it, the last one last.
        read: What was read in the last look, place by place.
        sd_mm: Standard deviation of those readings; None before any. [mm]
        verdict: Pass, fail, inconclusive; None while nobody has read it, or no limit is known.
        low: What low places take; None where there are none, or it is not known.
        high: What high places take; None where there are none, or it is not known.
        low_rate: What a cubic metre takes that fills low places; None where it is not known.
        high_rate: What a cubic metre takes that is dug off high places; None where it is not known.
        drain_read: Of a drain: its fall and its test; None before any, and for everything else.
    """

    key: HoldKey
    area: str
    drain: str
    area_m2: float
    places: tuple[HoldPlace, ...]
    limit: HoldLimit | None
    line_limit: Figure | None
    checks: tuple[str, ...]
    read: tuple[PlaceRead, ...]
    sd_mm: float | None
    verdict: Verdict | None
    low: Consequence | None
    high: Consequence | None
    low_rate: TakeUpRate | None
    high_rate: TakeUpRate | None
    drain_read: DrainRead | None

    @property
    def is_open(self) -> bool:
        """Whether nobody has looked yet."""
        return not self.checks


@dataclass(frozen=True)
class HoldPoints:
    """All hold points of a job, in the order of the work.

    Attributes:
        holds: Each of them.
        findings: What was noticed.
        day_h: Hours that all of the crew work in a day; None where it is not known how many they are. [h]
        finds: What it takes to dig out and fill what may be found, area by area.
    """

    holds: tuple[Hold, ...]
    findings: tuple[Finding, ...]
    day_h: float | None = None
    finds: tuple[FindRate, ...] = ()

    def of(self, key: HoldKey) -> Hold:
        """Return the hold point of a key."""
        return next(each for each in self.holds if each.key == key)
