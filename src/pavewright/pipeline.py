"""Pipeline: from a job and a rulebook to a whole plan, the one place that knows the order of the rooms."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.as_laid import check
from pavewright.buildup import build_up, depth_under
from pavewright.cost import labour, price
from pavewright.earthworks import dig
from pavewright.findings import in_order
from pavewright.laying import lay
from pavewright.levels import finished_levels
from pavewright.programme import schedule
from pavewright.quantities import take_off
from pavewright.setting_out import set_out
from pavewright.survey import survey
from pavewright.water import drain

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.as_laid import AsLaidReport
    from pavewright.buildup import BuildUps
    from pavewright.cost import Cost
    from pavewright.earthworks import Earthworks
    from pavewright.findings import Finding
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels
    from pavewright.programme import Programme
    from pavewright.quantities import Quantities
    from pavewright.rules import Rulebook
    from pavewright.setting_out import SettingOut
    from pavewright.survey import Survey
    from pavewright.water import Water


@dataclass(frozen=True)
class Plan:
    """Everything that follows from a job and a rulebook.

    Attributes:
        job: The job document.
        edition: Edition of the rulebook.
        survey: What was measured, adjusted.
        levels: Finished levels.
        laying: Every unit with its place.
        build_ups: Layers and formation.
        earthworks: Cut, fill and what leaves.
        water: Where water runs.
        quantities: Measured items.
        cost: From cost to price.
        programme: Tasks with dates.
        setting_out: Pegs, strings and tapes.
        as_laid: Readings held against the plan; None where there are none.
        findings: What every room noticed, stop first.
    """

    job: Job
    edition: str
    survey: Survey
    levels: Levels
    laying: LayingPlan
    build_ups: BuildUps
    earthworks: Earthworks
    water: Water
    quantities: Quantities
    cost: Cost
    programme: Programme
    setting_out: SettingOut
    as_laid: AsLaidReport | None
    findings: tuple[Finding, ...]


def plan(job: Job, rules: Rulebook, report: Callable[[str], None] | None = None) -> Plan:
    """Return the plan of a job.

    Args:
        job: A job that was read and checked.
        rules: The rulebook of its locality.
        report: Told the name of each stage before it starts, for a progress line; may raise to stop the work.

    Raises:
        JobInvalid: readings that make no plan, or nothing that fixes an area's height; all faults of a stage at once.
    """
    tell = report or (lambda _: None)
    tell("survey")
    surveyed = survey(job, rules)
    tell("levels")
    levels = finished_levels(job, surveyed, rules, depth_under(job, rules))
    tell("laying")
    laying = lay(job, surveyed, rules, levels)
    tell("build-up and dig")
    build_ups = build_up(job, surveyed, levels, rules)
    earthworks = dig(job, surveyed, build_ups, rules, laying)
    tell("water")
    water = drain(job, surveyed, levels, rules)
    tell("quantities and cost")
    quantities = take_off(job, surveyed, levels, laying, build_ups, earthworks, water, rules)
    tasks = labour(job, surveyed, laying, build_ups, earthworks, quantities, rules)
    programme = schedule(job, tasks, rules)
    cost = price(job, laying, earthworks, quantities, tasks, programme.hires)
    tell("setting out")
    setting_out = set_out(job, surveyed, levels, build_ups, rules)
    as_laid = check(job, surveyed, levels, rules)
    rooms = (surveyed, levels, laying, build_ups, earthworks, water, quantities, cost, programme, setting_out)
    findings = [finding for room in rooms for finding in room.findings]
    findings += as_laid.findings if as_laid is not None else ()
    return Plan(
        job=job,
        edition=rules.edition,
        survey=surveyed,
        levels=levels,
        laying=laying,
        build_ups=build_ups,
        earthworks=earthworks,
        water=water,
        quantities=quantities,
        cost=cost,
        programme=programme,
        setting_out=setting_out,
        as_laid=as_laid,
        findings=in_order(findings),
    )
