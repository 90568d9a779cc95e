"""The water sheet for the neighbour: what the plan calculated, and nothing more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Severity
from pavewright.job import Beyond, Neighbour
from pavewright.levels import THEIRS, TakerKind
from pavewright.papers._words import one, source, two, whole
from pavewright.papers.handover._words import WORDS
from pavewright.papers.look import SheetOfPaper, heading, lead, paragraph, points, rest, right, small, table
from pavewright.water import Code, ends_at, runs_to

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan
    from pavewright.water import Catchment


def neighbour_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return where the water of the paving goes before and after the job, by the plan alone."""
    identity, water = plan.job.identity, plan.water
    sheet = SheetOfPaper(WORDS.water, mark=WORDS.water_stops if _stopped(plan) else "", measured=False)
    sheet.add(lead(WORDS.water_lead(address=identity.address or identity.title)), paragraph(WORDS.water_of))
    sheet.add(*_storm(plan), small(source(water.rain, figures)))
    sheet.add(heading(WORDS.borders), points([*(_borders(plan) or [WORDS.no_borders]), WORDS.own_ground]))
    return sheet.add(heading(WORDS.water_limits), points(water.limits))


def _stopped(plan: Plan) -> bool:
    """Return whether a finding on water still stops the job."""
    return any(isinstance(each.code, Code) and each.severity is Severity.STOP for each in plan.findings)


def _litres(litres: float | None) -> str:
    return WORDS.not_known if litres is None else whole(litres)


def _storm(plan: Plan) -> Iterator[Block]:
    storm = plan.water.storm
    ends = {(each.kind, each.to, each.beyond): ends_at(each) for each in plan.water.catchments}
    if storm is None or not storm.shares:
        rows = [(runs_to(each), two(each.area_m2), ends_at(each)) for each in plan.water.catchments]
        yield paragraph(WORDS.water_none)
        yield table((rest(WORDS.runs_to), right("m²", "m²"), rest(WORDS.ends_at)), rows)
        return
    said = WORDS.water_storm(depth=one(storm.depth_mm), minutes=f"{storm.minutes:g}", reported=storm.reported)
    yield paragraph(said)
    yield table(
        (rest(WORDS.runs_to), rest(WORDS.ends_at), right(WORDS.before, "litres"), right(WORDS.after, "litres")),
        [
            (
                runs_to(each),
                ends.get((each.kind, each.to, each.beyond), WORDS.not_known) if each.after_l else "",
                _litres(each.before_l),
                _litres(each.after_l),
            )
            for each in storm.shares
        ],
    )


def _borders(plan: Plan) -> list[str]:
    """Return of each boundary with others, and of each edge to meet past which it is not ours, what reaches it."""
    found = [
        _border(plan, boundary.name, [each for each in plan.water.catchments if _reaches(each, boundary.name)])
        for boundary in plan.job.site.boundaries
        if boundary.neighbour is not Neighbour.OWN
    ]
    met = [each for each in plan.water.catchments if each.kind is TakerKind.TIE_IN and each.beyond in _NOT_OURS]
    return found + [_border(plan, runs_to(each), [each]) for each in met if each.disputed_by is None]


def _reaches(each: Catchment, boundary: str) -> bool:
    return each.disputed_by == boundary or (each.kind is TakerKind.BOUNDARY and each.to == boundary)


def _border(plan: Plan, name: str, reaches: list[Catchment]) -> str:
    """Return what reaches a boundary; what only reached it before the work counts too."""
    storm, takers = plan.water.storm, {(each.kind, each.to) for each in reaches} | {(TakerKind.BOUNDARY, name)}
    shares = [] if storm is None else [each for each in storm.shares if (each.kind, each.to) in takers]
    if shares:
        known = [each.before_l for each in shares if each.before_l is not None]
        before = sum(known) if len(known) == len(shares) else None
        after = sum(each.after_l for each in shares)
        return WORDS.border_some(name=name, after=whole(after), before=_litres(before))
    if reaches:
        return WORDS.border_flow(name=name, area=two(sum(each.area_m2 + each.from_others_m2 for each in reaches)))
    return WORDS.border_none(name=name)


_NOT_OURS = (*THEIRS, Beyond.NOT_KNOWN)
"""Past these edges the land is not known to be the owner's."""
