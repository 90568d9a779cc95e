"""The first sheet, the findings, the cautions and the sources."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid import Verdict
from pavewright.findings import Severity
from pavewright.job import Use
from pavewright.papers._bench_words import FRONT as SAID
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
from pavewright.papers._laid_judged import judged_of, read_on
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
        more = [SAID.more_sheet_findings(what=len(urgent) - _FIRST)] if len(urgent) > _FIRST else []
        sheet.add(points([*(f"{_SHOUT[each.severity]}: {each.message}" for each in urgent[:_FIRST]), *more]))
    sheet.add(heading(SAID.job_figures), facts(_headlines(plan)))
    sheet.add(
        heading(SAID.this_pack),
        contents(),
        small(SAID.beside_this_pack + "; ".join(beside) + "."),
    )
    if plan.survey.assumptions:
        sheet.add(heading(SAID.assumed_because_nobody_could), points(plan.survey.assumptions))
    sheet.add(small(SAID.local_codes_licensed_practice))
    return sheet


def _stops_first(plan: Plan) -> list[str]:
    """Return what has to be settled before anybody digs, and apart from it what only keeps a price from being sent."""
    stops = [each for each in plan.findings if each.severity is Severity.STOP]
    of_money = sum(each.of_money for each in stops)
    of_work = len(stops) - of_money
    first = SAID.stop_before_anybody_digs(of_work=_to_settle(of_work)) if of_work else SAID.no_finding_stops_work
    if not of_money:
        return [first]
    return [first, SAID.stop_before_price_sent(of_money=_to_settle(of_money))]


def _to_settle(count: int) -> str:
    return SAID.finding_has_be_settled if count == 1 else SAID.findings_have_be_settled(count=count)


def _as_laid_first(plan: Plan) -> list[str]:
    """Return what the check of the finished paving came to, before anything else; nothing where none was made."""
    report = judged_of(plan)
    if report is None:
        return []
    unread = len(plan.levels.areas) - len(report.areas)
    areas = {1: SAID.one_area_was_not, 0: ""}.get(unread, SAID.areas_were_not_read(unread=unread))
    verdict = _AS_LAID[report.verdict]
    return [SAID.as_laid_read_see(date=read_on(plan), verdict=verdict, areas=areas)]


_AS_LAID = {
    Verdict.FAILS: SAID.check_failed,
    Verdict.INCONCLUSIVE: SAID.check_inconclusive,
    Verdict.PASSES: SAID.check_passed,
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
        found.append(("Dig", SAID.m_ground(cut=one(works.cut_m3), away=away)))
    else:
        found.append(("Dig", SAID.not_known_there_are))
    programme = plan.programme
    found.append(
        ("On site", f"{day(programme.start)} to {day(programme.finish)}, {programme.site_days} days{without_dig(plan)}")
    )
    found.append((SAID.walk_from, day(programme.foot_ready)))
    if programme.car_ready is not None:
        found.append((SAID.drive_from, day(programme.car_ready)))
    found.append(("Price", price_text(plan)))
    return found


def findings_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return all findings, stop first, each with its chain of levels and numbered options."""
    sheet = SheetOfPaper("Findings")
    found = findings_of(plan)
    if not found:
        return sheet.add(paragraph(SAID.nothing_was_noticed))
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
    sheet = SheetOfPaper(SAID.cautions_read_before_work)
    sheet.add(
        lead(SAID.these_are_reminders_not),
        *_services(plan, figures),
        *_dust(plan, figures),
        heading("Cement"),
        paragraph(SAID.wet_cement_burns_without),
        small(source(figures.sensitised_percent, figures)),
        *_lifting(plan, figures),
        heading(SAID.excavation_vehicles_vibration),
        paragraph(SAID.no_depth_safe_itself),
        small(source(figures.vibration_action_m_per_s2, figures)),
        small(source(figures.vibration_limit_m_per_s2, figures)),
        heading(SAID.water_house),
        paragraph(SAID.paving_too_high_wall),
    )
    if any(area.use is not Use.FOOT for area in plan.job.areas):
        sheet.add(paragraph(SAID.vehicles_keep_cars_off))
    return sheet


def _services(plan: Plan, figures: PaperFigures) -> list[Block]:
    services = ", ".join(placed.service.name for placed in plan.survey.site.services) or "none entered"
    return [
        heading("Buried services"),
        paragraph(SAID.known_here_service_that(services=services, value=whole(figures.service_by_hand_mm.value))),
        small(source(figures.service_by_hand_mm, figures)),
    ]


def _dust(plan: Plan, figures: PaperFigures) -> list[Block]:
    cuts = sum(laid.cuts for laid in plan.laying.areas)
    limit, flow = source(figures.silica_limit_mg_per_m3, figures), source(figures.saw_water_l_per_min, figures)
    return [
        heading(SAID.stone_concrete_dust),
        paragraph(
            SAID.this_job_has_pieces(
                cuts=cuts,
                saw=one(plan.laying.saw_m),
                saw_water_l_per_min=f"{figures.saw_water_l_per_min.value:g}",
                mask_factor=f"{figures.mask_factor.value:g}",
                silica_limit_mg_per_m3=f"{figures.silica_limit_mg_per_m3.value:g}",
                value=whole(figures.silica_uncontrolled_mg_per_m3.value),
            )
        ),
        small(f"{limit}. Flow: {flow}"),
    ]


def _lifting(plan: Plan, figures: PaperFigures) -> list[Block]:
    limit = figures.one_person_kg
    rows = [
        (
            unit.name,
            f"{one(unit.kg_each)} kg",
            SAID.one_person_close_body if unit.kg_each <= limit.value else SAID.two_people_or_lifting,
            whole(unit.kg_each * unit.per_pack) + " kg",
        )
        for unit in plan.job.units
    ]
    return [
        heading("Lifting"),
        table((rest("unit"), right("each"), "lift", right("full pack")), rows),
        small(SAID.use_lifter_or_vacuum(limit=source(limit, figures))),
    ]


def sources_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return where the figures that this job used come from."""
    used = {figure.key: figure for working in _workings(plan) for figure in working.figures}
    used |= {finding.figure.key: finding.figure for finding in plan.findings if finding.figure is not None}
    rows = [
        (figure.label, with_unit(figure), source(figure, figures))
        for figure in sorted(used.values(), key=lambda figure: figure.key)
    ]
    sheet = SheetOfPaper(SAID.where_figures_come_from)
    sheet.add(
        paragraph(
            SAID.rulebook_edition_figures_from(
                rulebook=figures.rulebook, edition=plan.edition, isoformat=figures.dated.isoformat()
            )
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
