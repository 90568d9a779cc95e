"""What lies buried where: planned, as found, or measured before it was covered."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.buildup import edge_foot_mm
from pavewright.job import GullyState, OutfallKind
from pavewright.job.handover import BuriedKind
from pavewright.papers._words import day
from pavewright.papers.handover._words import EDGES, FOOTING, WORDS
from pavewright.water import DrainState

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.buildup import AreaBuildUp, EdgeSection
    from pavewright.pipeline import Plan
    from pavewright.water import DrainParts


class BuriedState(StrEnum):
    """How it is known where something lies."""

    PLANNED = "planned"
    AS_FOUND = "as_found"
    MEASURED = "measured"

    @property
    def words(self) -> str:
        """How it is shown."""
        return {
            BuriedState.PLANNED: WORDS.planned,
            BuriedState.AS_FOUND: WORDS.as_found,
            BuriedState.MEASURED: WORDS.measured,
        }[self]


@dataclass(frozen=True, slots=True)
class Buried:
    """Something that lies buried.

    Attributes:
        kind: What it is.
        name: Its name.
        state: How it is known where it lies.
        top_mm: From the surface down to its top; None where that is not known. [mm]
        foot_mm: From the surface down to its foot; None where that is not known. [mm]
        length_m: Length of a run; None where that is not known or it is none. [m]
        basis: What it is known from, in words.
    """

    kind: BuriedKind
    name: str
    state: BuriedState
    top_mm: float | None
    foot_mm: float | None
    length_m: float | None
    basis: str


def all_buried(plan: Plan) -> tuple[Buried, ...]:
    """Return everything that is known to lie buried, what was measured last."""
    return (*_services(plan), *_drains(plan), *_soakaways(plan), *_edges(plan), *_measured(plan))


def _services(plan: Plan) -> Iterator[Buried]:
    for placed in plan.survey.site.services:
        one = placed.service
        basis = one.known_from or WORDS.no_record
        if one.depth_mm is not None:
            basis = WORDS.of_old_ground(record=basis)
        yield Buried(BuriedKind.SERVICE, one.name, BuriedState.AS_FOUND, one.depth_mm, None, None, basis)


def _drains(plan: Plan) -> Iterator[Buried]:
    for each in plan.water.inlets:
        there = BuriedState.AS_FOUND if each.state is DrainState.EXISTING else BuriedState.PLANNED
        yield Buried(BuriedKind.DRAIN, each.name, there, None, None, each.run.length_m, _leads(each))


def _leads(each: DrainParts) -> str:
    words = WORDS.leads_nowhere if each.run.outfall is None else WORDS.leads_to(outfall=each.run.outfall)
    return WORDS.state_unknown(rest=words) if each.state is DrainState.NOT_KNOWN else words


def _soakaways(plan: Plan) -> Iterator[Buried]:
    sized = {pit.outfall: pit.size for pit in plan.water.pits}
    for outfall in plan.job.site.outfalls:
        if outfall.kind is not OutfallKind.SOAKAWAY:
            continue
        size = sized.get(outfall.name)
        there = BuriedState.AS_FOUND if outfall.state is GullyState.EXISTING else BuriedState.PLANNED
        top = None if size is None else size.cover_mm
        foot = None if size is None else size.cover_mm + size.depth_mm
        yield Buried(BuriedKind.SOAKAWAY, outfall.name, there, top, foot, None, outfall.note or WORDS.by_plan)


def _edges(plan: Plan) -> Iterator[Buried]:
    for up in plan.build_ups.areas:
        for edge in up.edges:
            yield _edge(up, edge)


def _edge(up: AreaBuildUp, edge: EdgeSection) -> Buried:
    """Return the concrete of an edge: a haunch alone stands on its own foot."""
    haunch = edge.back or edge.front
    alone = edge.unit_mm[1] == 0.0
    height = haunch.height_mm if alone and haunch is not None else edge.unit_mm[1]
    foot = edge_foot_mm(height, edge.top_mm, edge.bed_mm[1])
    name = WORDS.edge_of(what=EDGES.get(edge.restraint, FOOTING), area=up.area)
    top = -edge.top_mm if alone else None
    return Buried(BuriedKind.EDGE, name, BuriedState.PLANNED, top, foot, None, WORDS.by_plan)


def _measured(plan: Plan) -> Iterator[Buried]:
    """Give what was noted before it was covered: measured where its depth was read, else no more than seen."""
    told = plan.job.handed_over
    for one in () if told is None else told.buried:
        read = one.depth_mm is not None
        on = WORDS.measured_on if read else WORDS.seen_on
        when = WORDS.day_not_noted if one.measured_on is None else on(day=day(one.measured_on))
        basis = f"{when}. {one.note}" if one.note else when
        state = BuriedState.MEASURED if read else BuriedState.AS_FOUND
        yield Buried(one.kind, one.name, state, one.depth_mm, None, None, basis)
