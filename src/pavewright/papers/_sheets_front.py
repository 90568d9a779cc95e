"""The first sheet, the findings, the cautions and the sources."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict
from pavewright.findings import Severity
from pavewright.job import Use
from pavewright.papers._blocks import (
    SheetOfPaper,
    contents,
    facts,
    heading,
    lead,
    paragraph,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._price_words import price_text
from pavewright.papers._sign_findings import findings_of
from pavewright.papers._words import amount, day, level, one, source, two, whole, with_unit, without_dig
from pavewright.papers.look import FindingBlock

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.findings import Finding
    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.sums import Working

_FIRST = 6
"""So many findings stand on the first sheet."""
_SHOUT = {Severity.STOP: "STOP", Severity.CHECK: "CHECK", Severity.NOTE: "NOTE"}


def cover(plan: Plan, beside: Sequence[str]) -> SheetOfPaper:
    """Return the first sheet: what to read first, headline figures, what lies in the pack.

    Args:
        plan: The plan.
        beside: The other documents of the pack, in words.
    """
    sheet = SheetOfPaper("Job pack")
    sheet.add(*(lead(words) for words in (*_as_laid_first(plan), *_stops_first(plan))))
    urgent = [each for each in plan.findings if each.severity is not Severity.NOTE]
    if urgent:
        more = [f"{len(urgent) - _FIRST} more on the sheet Findings."] if len(urgent) > _FIRST else []
        sheet.add(points([*(f"{_SHOUT[each.severity]}: {each.message}" for each in urgent[:_FIRST]), *more]))
    sheet.add(heading("The job in figures"), facts(_headlines(plan)))
    sheet.add(
        heading("In this pack"),
        contents(),
        small("Beside this pack: " + "; ".join(beside) + "."),
    )
    if plan.survey.assumptions:
        sheet.add(heading("Assumed, because nobody could see it"), points(plan.survey.assumptions))
    sheet.add(small("Local codes and licensed practice take precedence over these sheets."))
    return sheet


def _stops_first(plan: Plan) -> list[str]:
    """Return what has to be settled before anybody digs, and apart from it what only keeps a price from being sent."""
    stops = [each for each in plan.findings if each.severity is Severity.STOP]
    of_money = sum(each.of_money for each in stops)
    of_work = len(stops) - of_money
    if of_work:
        first = f"STOP: {_to_settle(of_work)} before anybody digs. Read them first."
    else:
        first = "No finding stops the work. Read the checks and the cautions before it begins."
    if not of_money:
        return [first]
    return [first, f"STOP: {_to_settle(of_money)} before a price is sent. It stops no work."]


def _to_settle(count: int) -> str:
    return "1 finding has to be settled" if count == 1 else f"{count} findings have to be settled"


def _as_laid_first(plan: Plan) -> list[str]:
    """Return what the check of the finished paving came to, before anything else; nothing where none was made."""
    report, taken = plan.as_laid, plan.job.as_laid
    if report is None or taken is None:
        return []
    unread = len(plan.levels.areas) - len(report.areas)
    areas = {1: " One area was not read.", 0: ""}.get(unread, f" {unread} areas were not read.")
    verdict = _AS_LAID[report.verdict]
    return [f"As laid, read {day(taken.date)}: {verdict}.{areas} See the sheet As laid."]


_AS_LAID = {
    Verdict.FAILS: "the check FAILED",
    Verdict.INCONCLUSIVE: "the check is inconclusive",
    Verdict.PASSES: "the check passed",
}


def _headlines(plan: Plan) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for area in plan.levels.areas:
        laid = plan.laying.area(area.area)
        found.append(
            (area.area, f"{two(laid.paved_m2 + laid.joint_m2)} m², {laid.whole} whole and {laid.cut} cut pieces")
        )
        found.append(("Finished", f"{level(area.highest_mm)} m to {level(area.lowest_mm)} m, {area.falls_text}"))
        found.append(("Held by", area.fixed_by))
        layers = plan.build_ups.area(area.area)
        thick = " + ".join(amount(layer.thickness_mm) for layer in layers.layers if layer.thickness_mm > 0.0)
        found.append(("Build-up", f"{thick} = {amount(layers.total_mm)} mm"))
    works = plan.earthworks
    if works.areas:
        away = f"{one(works.loose_m3.low)} to {one(works.loose_m3.high)} m³ loose"
        found.append(("Dig", f"{one(works.cut_m3)} m³ in the ground; {away}"))
    else:
        found.append(("Dig", "not known: there are no spot levels of the ground"))
    programme = plan.programme
    found.append(
        ("On site", f"{day(programme.start)} to {day(programme.finish)}, {programme.site_days} days{without_dig(plan)}")
    )
    found.append(("Walk on it from", day(programme.foot_ready)))
    if programme.car_ready is not None:
        found.append(("Drive on it from", day(programme.car_ready)))
    found.append(("Price", price_text(plan)))
    return found


def findings_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return all findings, stop first, each with its chain of levels and numbered options."""
    sheet = SheetOfPaper("Findings")
    found = findings_of(plan)
    if not found:
        return sheet.add(paragraph("Nothing was noticed."))
    return sheet.add(*(finding_block(each, figures) for each in found))


def finding_block(finding: Finding, figures: PaperFigures) -> Block:
    """Return a finding as a block."""
    reported = "" if finding.figure is None else f"Held against: {source(finding.figure, figures)}"
    return FindingBlock(
        severity=_SHOUT[finding.severity],
        strong=finding.severity is Severity.STOP,
        message=finding.message,
        place=finding.place,
        source=reported,
        chain=tuple(finding.chain_words),
        ways=tuple(finding.option_words),
    )


def cautions_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return the usual cautions with the figures of this job, each with source and status."""
    sheet = SheetOfPaper("Cautions: read before work")
    sheet.add(
        lead("These are reminders, not a method statement. Local codes and licensed practice take precedence."),
        *_services(plan, figures),
        *_dust(plan, figures),
        heading("Cement"),
        paragraph(
            "Wet cement burns without hurting at first. Waterproof gloves, long sleeves, knee boards; wash off at "
            "once; clean water for eyes at hand. Do not kneel in mortar."
        ),
        small(source(figures.sensitised_percent, figures)),
        *_lifting(plan, figures),
        heading("Excavation, vehicles and vibration"),
        paragraph(
            "No depth is safe by itself: look at the sides each day, keep barrows and machines off the edge, never dig "
            "below or into a footing. Keep people out of the swing of a machine. Plates and saws shake: share the work "
            "and rest."
        ),
        small(source(figures.vibration_action_m_per_s2, figures)),
        small(source(figures.vibration_limit_m_per_s2, figures)),
        heading("Water and the house"),
        paragraph(
            "Paving too high at a wall or falling to it wets the house. Keep air bricks clear; cover open edges "
            "against rain into the dig overnight."
        ),
    )
    if any(area.use is not Use.FOOT for area in plan.job.areas):
        sheet.add(paragraph("Vehicles: keep cars off until the date on the programme."))
    return sheet


def _services(plan: Plan, figures: PaperFigures) -> list[Block]:
    services = ", ".join(placed.service.name for placed in plan.survey.site.services) or "none entered"
    return [
        heading("Buried services"),
        paragraph(
            f"Known here: {services}. A service that is not listed may still be there. Get the records, trace with a "
            f"locator, mark, then dig; by hand within {whole(figures.service_by_hand_mm.value)} mm. No picks or forks."
        ),
        small(source(figures.service_by_hand_mm, figures)),
    ]


def _dust(plan: Plan, figures: PaperFigures) -> list[Block]:
    cuts = sum(laid.cuts for laid in plan.laying.areas)
    limit, flow = source(figures.silica_limit_mg_per_m3, figures), source(figures.saw_water_l_per_min, figures)
    return [
        heading("Stone and concrete dust"),
        paragraph(
            f"This job has {cuts} pieces to cut and about {one(plan.laying.saw_m)} m of sawing, cuts along folds "
            f"included. Cut outside, water on the blade "
            f"({figures.saw_water_l_per_min.value:g} l/min or more), mask with a factor of "
            f"{figures.mask_factor.value:g}, fit-tested; eyes and ears covered; nobody down wind. Limit "
            f"{figures.silica_limit_mg_per_m3.value:g} mg/m³ over a day; a dry saw has reached "
            f"{whole(figures.silica_uncontrolled_mg_per_m3.value)}."
        ),
        small(f"{limit}. Flow: {flow}"),
    ]


def _lifting(plan: Plan, figures: PaperFigures) -> list[Block]:
    limit = figures.one_person_kg
    rows = [
        (
            unit.name,
            f"{one(unit.kg_each)} kg",
            "one person, close to the body" if unit.kg_each <= limit.value else "two people or a lifting aid",
            whole(unit.kg_each * unit.per_pack) + " kg",
        )
        for unit in plan.job.units
    ]
    return [
        heading("Lifting"),
        table((rest("unit"), right("each"), "lift", right("full pack")), rows),
        small(f"{source(limit, figures)}. Use a lifter or a vacuum aid where you can."),
    ]


def sources_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return where the figures that this job used come from."""
    used = {figure.key: figure for working in _workings(plan) for figure in working.figures}
    used |= {finding.figure.key: finding.figure for finding in plan.findings if finding.figure is not None}
    rows = [
        (figure.label, with_unit(figure), source(figure, figures))
        for figure in sorted(used.values(), key=lambda figure: figure.key)
    ]
    sheet = SheetOfPaper("Where the figures come from")
    sheet.add(
        paragraph(
            f"Rulebook: {figures.rulebook} (edition {plan.edition} of {figures.dated.isoformat()}). Figures from "
            f"memory or common practice say so: check them before relying on them."
        ),
        table((rest("figure"), right("value"), rest("source")), rows, type_size=8.0, pad=2.0),
    )
    return sheet


def _workings(plan: Plan) -> list[Working]:
    """Return every sum behind the figures of a plan."""
    found = [working for item in plan.quantities.items for working in item.workings]
    found += [labour.working for labour in plan.cost.labour]
    found += [task.working for task in plan.programme.tasks]
    found += [working for up in plan.build_ups.areas for working in up.workings]
    found += [working for area in plan.levels.areas for working in area.workings]
    found += plan.earthworks.workings
    return found + [caught.working for caught in plan.water.catchments]
