"""What a phone needs to check finished paving: limits of what is read by hand, verdicts, and standing water."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.as_laid import promises, reason_in_words, regime, with_standing
from pavewright.as_laid.standing import (
    STATES,
    area_in_words,
    cautions,
    grating_figures,
    percent,
    span_in_words,
    standing,
)
from pavewright.desk._plain import plain
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.as_laid import AsLaidReport, Verdict
    from pavewright.as_laid.standing import AreaStanding, WaterState
    from pavewright.geometry import XY
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Figure, Rulebook


@dataclass(frozen=True, slots=True)
class EdgeOnSite:
    """A straight edge that the regime knows, with the largest gap under it.

    Attributes:
        edge_mm: Its length. [mm]
        gap: The largest gap; None where it hangs on more than the length.
    """

    edge_mm: float
    gap: Figure | None


@dataclass(frozen=True, slots=True)
class PondOnSite:
    """A place where water may stand.

    Attributes:
        number: Its number.
        at: Where it is likeliest. [mm]
        told: Its chance and depth, in words.
        state: What its chance comes to.
    """

    number: int
    at: XY
    told: str
    state: WaterState


@dataclass(frozen=True, slots=True)
class NextOnSite:
    """A place where one more reading decides most.

    Attributes:
        label: Its name.
        at: Where. [mm]
        told: How much it decides, in words.
    """

    label: str
    at: XY
    told: str


@dataclass(frozen=True, slots=True)
class StandingOnSite:
    """Standing water on one area, by the readings that the server has.

    Attributes:
        area: Name of the area.
        state: What the readings say.
        face: The same in a word.
        told: The same in a sentence.
        readings: How many readings went in.
        ponds: Where water may stand.
        next_places: Where to read next.
        cautions: What it rests on.
    """

    area: str
    state: WaterState
    face: str
    told: str
    readings: int
    ponds: tuple[PondOnSite, ...]
    next_places: tuple[NextOnSite, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AreaJudged:
    """The verdict on an area over everything that was read on it.

    Attributes:
        area: Name of the area.
        verdict: The worst of everything.
        why: Each reason why it does not pass, in words, the worst first.
    """

    area: str
    verdict: Verdict
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WaterAsked:
    """Standing water by its chance, which takes longer than the plan, and the verdicts that count it.

    Attributes:
        standing: Standing water, area by area, those that were read.
        judged: The verdict on each area, standing water counted.
    """

    standing: tuple[StandingOnSite, ...]
    judged: tuple[AreaJudged, ...]


@dataclass(frozen=True, slots=True)
class LaidOnSite:
    """What finished paving is checked with.

    Attributes:
        regime: What it is held to.
        edges: Straight edges that the regime knows.
        step: Highest step between units.
        wedge_sd: Standard deviation of a gap read with a wedge.
        gauge_sd: Standard deviation of a step read with a gauge.
        above_min: Paving stands at least so far above a grating.
        above_max: And at most so far.
        rule_sd: Standard deviation of that by a rule.
        drains: Channels and gullies.
        is_read: Whether levels were read, so that standing water can be asked for.
        judged: The verdict on each area as far as it goes without standing water.
        water: Standing water and the verdicts that count it; None until it is asked for by itself.
    """

    regime: str
    edges: tuple[EdgeOnSite, ...]
    step: Figure
    wedge_sd: Figure
    gauge_sd: Figure
    above_min: Figure
    above_max: Figure
    rule_sd: Figure
    drains: tuple[str, ...]
    is_read: bool
    judged: tuple[AreaJudged, ...]
    water: WaterAsked | None


def laid_on_site(plan: PlanSoFar, rules: Rulebook) -> LaidOnSite | None:
    """Return what finished paving is checked with; None where no level of it is known."""
    levels = plan.levels
    if levels is None:
        return None
    try:
        held = regime(plan.job, rules)
    except JobInvalid:
        return None
    gratings = grating_figures(rules)
    site = plan.job.site
    return LaidOnSite(
        regime=held.label,
        edges=tuple(EdgeOnSite(edge, None if held.is_by_contacts else gap) for edge, gap in held.gaps),
        step=promises(plan.job, levels, rules).step,
        wedge_sd=rules.figure("as_laid.wedge_sd_mm"),
        gauge_sd=rules.figure("as_laid.gauge_sd_mm"),
        above_min=gratings.min_above,
        above_max=gratings.max_above,
        rule_sd=gratings.rule_sd,
        drains=(*(each.name for each in site.channels), *(each.name for each in site.gullies)),
        is_read=plan.as_laid is not None and bool(plan.as_laid.areas),
        judged=() if plan.as_laid is None else _judged(plan.as_laid),
        water=None,
    )


def water_asked(plan: PlanSoFar, rules: Rulebook) -> WaterAsked | None:
    """Return standing water on what was read, and verdicts that count it; None where nothing was read."""
    taken = plan.job.as_laid
    if plan.as_laid is None or plan.levels is None:
        return None
    areas = standing(plan.job, plan.survey, plan.levels, rules)
    sd_mm = 0.0 if taken is None else taken.reading_sd_mm
    return WaterAsked(
        tuple(_area(area, sd_mm) for area in areas),
        _judged(with_standing(plan.as_laid, areas)),
    )


def water_verb(planned: Callable[[bytes, Callable[[str], None]], PlanSoFar]) -> Callable[..., bytes]:
    """Return what answers a document with standing water; none where it makes no plan or nothing was read.

    Args:
        planned: Makes a plan of a document as far as it goes.
    """

    def answer(payload: bytes, report: Callable[[str], None]) -> bytes:
        try:
            made = planned(payload, report)
        except JobInvalid as invalid:
            faults = [{"path": each.path, "message": each.message} for each in invalid.faults]
            return json.dumps({"water": None, "faults": faults}).encode()
        return json.dumps({"water": plain(water_asked(made, rulebook.load(made.edition))), "faults": []}).encode()

    return answer


def _judged(report: AsLaidReport) -> tuple[AreaJudged, ...]:
    """Return the verdict on every area, those without levels among them where something stands against them."""
    read = [AreaJudged(each.area, each.verdict, _why(report, each.area)) for each in report.areas]
    names = {each.area for each in read}
    beside = dict.fromkeys(each.area for each in report.reasons if each.area not in names)
    worst = {each.area: each.verdict for each in reversed(report.reasons)}
    return (*read, *(AreaJudged(name, worst[name], _why(report, name)) for name in beside))


def _why(report: AsLaidReport, area: str) -> tuple[str, ...]:
    return tuple(reason_in_words(each) for each in report.reasons if each.area == area)


def _area(area: AreaStanding, sd_mm: float) -> StandingOnSite:
    return StandingOnSite(
        area.area,
        area.state,
        STATES[area.state],
        area_in_words(area),
        area.readings,
        tuple(
            PondOnSite(
                each.number,
                each.at,
                f"{percent(each.chance)}, {span_in_words(each.depth_mm)} mm",
                each.state,
            )
            for each in area.ponds
        ),
        tuple(NextOnSite(each.label, each.at, percent(each.decides)) for each in area.next_places),
        cautions(area, sd_mm),
    )
