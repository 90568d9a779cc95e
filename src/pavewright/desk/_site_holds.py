"""What a phone needs at hold points: where to read, how far each may be off, and what it takes if it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid import TRUSTED
from pavewright.job.on_site import HoldCheck

if TYPE_CHECKING:
    from pavewright.hold_points import FindRate, Hold, HoldPlace, HoldPoints, TakeUpRate
    from pavewright.job.on_site import HoldCheckKind, HoldLayer
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class InvertOnSite:
    """An end of a drain with the invert that is known of it.

    Attributes:
        name: Name of the end: a gully, a channel, an outfall.
        level_mm: Invert level; None where nobody took it. [mm]
    """

    name: str
    level_mm: float | None


@dataclass(frozen=True, slots=True)
class HoldOnSite:
    """One hold point as a phone carries it.

    Attributes:
        key: Its key.
        kind: What is looked at.
        area: Name of its area; empty for a drain.
        layer: Which layer, where a layer is looked at.
        drain: Name of its drain; empty for everything else.
        area_m2: The surface. [m²]
        above_mm: At most so much too high; None where no figure is known. [mm]
        below_mm: At most so much too low; None where no figure is known. [mm]
        limit: The figure behind what may be too low; None where none is known.
        line_mm: Of the first row: how far it may lie off its string; None for everything else. [mm]
        places: Where it is read.
        low: What a cubic metre takes that fills low places.
        high: What a cubic metre takes that is dug off high places.
        min_fall: Of a drain: the smallest fall of its pipe; None where nothing is said of it. [rise over run]
        inverts: Of a drain: its ends, the inlet first, also those whose place nobody took.
    """

    key: str
    kind: HoldCheckKind
    area: str
    layer: HoldLayer | None
    drain: str
    area_m2: float
    above_mm: float | None
    below_mm: float | None
    limit: Figure | None
    line_mm: float | None
    places: tuple[HoldPlace, ...]
    low: TakeUpRate | None
    high: TakeUpRate | None
    min_fall: float | None
    inverts: tuple[InvertOnSite, ...] = ()


@dataclass(frozen=True, slots=True)
class HoldsOnSite:
    """All hold points as a phone carries them.

    Attributes:
        holds: Each, in the order of the work.
        finds: What it takes to dig out and fill what may be found, area by area.
        trench_mm: Width that is dug free round a drain.
        trusted: A reading is trusted to so many standard deviations. [-]
        reading_sd_mm: Standard deviation of a reading where nobody says another. [mm]
        same_place_mm: A reading within this of a planned place is a reading of it. [mm]
        day_h: Hours that all of the crew work in a day; None where it is not known. [h]
        currency: In what money is told.
        air_start_mm: Water gauge at which an air test begins.
        air_drop_mm: How far it may fall.
        air_minutes: How long it is watched.
    """

    holds: tuple[HoldOnSite, ...]
    finds: tuple[FindRate, ...]
    trench_mm: Figure
    trusted: float
    reading_sd_mm: float
    same_place_mm: float
    day_h: float | None
    currency: str
    air_start_mm: Figure
    air_drop_mm: Figure
    air_minutes: Figure


def holds_on_site(plan: PlanSoFar, rules: Rulebook) -> HoldsOnSite | None:
    """Return the hold points; None where no pegs are set out yet."""
    found: HoldPoints | None = plan.hold_points
    if found is None:
        return None
    return HoldsOnSite(
        holds=tuple(_hold(each, plan) for each in found.holds),
        finds=found.finds,
        trench_mm=rules.figure("earthworks.found_trench_mm"),
        trusted=TRUSTED,
        reading_sd_mm=HoldCheck.model_fields["sd_mm"].default,
        same_place_mm=rules.value("hold_points.same_place_mm"),
        day_h=found.day_h,
        currency=plan.job.identity.currency,
        air_start_mm=rules.figure("hold_points.air_start_mm"),
        air_drop_mm=rules.figure("hold_points.air_drop_mm"),
        air_minutes=rules.figure("hold_points.air_minutes"),
    )


def _hold(hold: Hold, plan: PlanSoFar) -> HoldOnSite:
    limit = hold.limit
    fall, ends = None, tuple[InvertOnSite, ...]()
    if hold.drain and plan.water is not None:
        run = plan.water.runs[hold.key.number]
        fall = None if run.min_one_in is None else 1.0 / run.min_one_in.value
        ends = tuple(InvertOnSite(end.name, end.invert_level_mm) for end in (run.start, run.end) if end is not None)
    return HoldOnSite(
        key=hold.key.text,
        kind=hold.key.kind,
        area=hold.area,
        layer=hold.key.layer,
        drain=hold.drain,
        area_m2=hold.area_m2,
        above_mm=None if limit is None else limit.above.value,
        below_mm=None if limit is None else limit.below.value,
        limit=None if limit is None else limit.below,
        line_mm=None if hold.line_limit is None else hold.line_limit.value,
        places=hold.places,
        low=hold.low_rate,
        high=hold.high_rate,
        min_fall=fall,
        inverts=ends,
    )
