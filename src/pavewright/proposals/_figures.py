"""What a plan comes to: the figures by which plans are compared."""

from __future__ import annotations

from collections import Counter
from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.cost import RangeKind
from pavewright.findings import Severity
from pavewright.pipeline import CarbonRange, MissingCode, Room, carbon_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.pipeline import Plan, PlanSoFar
    from pavewright.rules import Rulebook


ROOMS = (
    *(Room.LEVELS, Room.LAYING, Room.BUILD_UPS, Room.EARTHWORKS, Room.WATER),
    *(Room.QUANTITIES, Room.LABOUR, Room.PROGRAMME, Room.COST),
)
"""The rooms from which the figures and every stop come."""


class ClearanceKind(StrEnum):
    """Whether the clearance below the damp-proof course is known."""

    KNOWN = "known"
    NOT_READ = "not_read"
    NO_WALL = "no_wall"


@dataclass(frozen=True, slots=True)
class Clearance:
    """The least clearance below a damp-proof course.

    Attributes:
        kind: Whether it is known, was not read, or there is no wall beside the paving.
        mm: How much it is; None where it is not known. [mm]
    """

    kind: ClearanceKind
    mm: float | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """Something that a figure leaves out, and how much of it the plan takes.

    Attributes:
        key: What it is, by a key of the program.
        net: How much is needed; None where that is not known either. [unit of the item]
    """

    key: str
    net: float | None


@dataclass(frozen=True, slots=True)
class StopFound:
    """A stop of a plan.

    Attributes:
        code: Its code.
        message: Its sentence.
    """

    code: str
    message: str


@dataclass(frozen=True, slots=True)
class Figures:
    """What a plan comes to.

    Attributes:
        rooms: The rooms that were made, by name.
        price_minor: Price with tax; None where there is none. [minor units]
        price_gaps: What is not in the price.
        cut: Number of cut pieces; None where nothing is laid.
        slivers: Number of cut pieces smaller than wanted.
        unlayable: Number of pieces that are too narrow to be cut and laid.
        days: Working days on site; None where there are none. [days]
        carbon: Carbon of what is bought and has a factor; None where nothing has. [kg]
        carbon_gaps: What is bought and has no factor.
        clearance: The least clearance below a damp-proof course.
        stops: What stops the job.
        checks: Codes of what is to be looked at, each once.
    """

    rooms: tuple[str, ...]
    price_minor: int | None
    price_gaps: tuple[Amount, ...]
    cut: int | None
    slivers: int
    unlayable: int
    days: int | None
    carbon: CarbonRange | None
    carbon_gaps: tuple[Amount, ...]
    clearance: Clearance
    stops: tuple[StopFound, ...]
    checks: tuple[str, ...]

    @property
    def stops_by_code(self) -> Counter[str]:
        """How many stops there are of each kind: names of pieces change from plan to plan, kinds do not."""
        return Counter(each.code for each in self.stops)


def figures_of(made: Plan | PlanSoFar, rules: Rulebook) -> Figures:
    """Return what a plan comes to.

    Args:
        made: The plan, with the rooms from which figures come as far as they could be made.
        rules: Its rulebook.
    """
    laid = () if made.laying is None else made.laying.areas
    price, price_gaps = _price(made)
    carbon, carbon_gaps = _carbon(made, rules)
    return Figures(
        rooms=tuple(room.value for room in ROOMS if getattr(made, room.value) is not None),
        price_minor=price,
        price_gaps=price_gaps,
        cut=None if made.laying is None else sum(each.cut for each in laid),
        slivers=sum(each.slivers for each in laid),
        unlayable=sum(each.unlayable for each in laid),
        days=None if made.programme is None else made.programme.site_days,
        carbon=carbon,
        carbon_gaps=carbon_gaps,
        clearance=_clearance(made),
        stops=tuple(StopFound(each.code, each.message) for each in made.findings if each.severity is Severity.STOP),
        checks=tuple(sorted({str(each.code) for each in made.findings if each.severity is Severity.CHECK})),
    )


def _price(made: Plan | PlanSoFar) -> tuple[int | None, tuple[Amount, ...]]:
    """Return the price and what is not in it."""
    cost = made.cost
    if cost is None or not cost.lines or cost.range_kind is RangeKind.NOT_KNOWN:
        return None, ()
    needed = {} if made.quantities is None else {each.key: each.net for each in made.quantities.items}
    found = []
    for gap in cost.gaps:
        item = "" if gap.item is None else gap.item.text
        where = ".".join(each.text for each in gap.scope)
        net = None if gap.item is None else needed.get(gap.item)
        found.append(Amount(f"{gap.reason.value}:{where}:{item}", _rounded(net)))
    return cost.total_minor, _in_order(found)


def _carbon(made: Plan | PlanSoFar, rules: Rulebook) -> tuple[CarbonRange | None, tuple[Amount, ...]]:
    """Return the carbon of what has a factor, and what has none."""
    if made.quantities is None:
        return None, ()
    found = carbon_of(made.quantities, rules)
    bought = {each.key: max(each.ordered_amount, each.gross) for each in made.quantities.items}
    total = found.total
    known = None if total is None else CarbonRange(*(round(each, 1) for each in (total.low, total.likely, total.high)))
    return known, _in_order(Amount(gap.key.text, _rounded(bought.get(gap.key))) for gap in found.gaps)


def _clearance(made: Plan | PlanSoFar) -> Clearance:
    """Return the least clearance; one that was not read anywhere makes it unknown."""
    missing = getattr(made, "missing", ())
    if made.levels is None or any(each.code is MissingCode.DPC for each in missing):
        return Clearance(ClearanceKind.NOT_READ)
    found = [each.min_mm for area in made.levels.areas for each in area.clearances]
    if not found:
        return Clearance(ClearanceKind.NO_WALL)
    return Clearance(ClearanceKind.KNOWN, round(min(found), 1))


def _rounded(net: float | None) -> float | None:
    return None if net is None else round(net, 3)


def _in_order(found: Iterable[Amount]) -> tuple[Amount, ...]:
    return tuple(sorted(found, key=lambda each: (each.key, -1.0 if each.net is None else each.net)))


def figures_json(found: Figures) -> dict[str, Any]:
    """Return figures as JSON values.

    Args:
        found: The figures.
    """
    return asdict(found)


def figures_read(given: dict[str, Any]) -> Figures:
    """Return figures that were JSON values.

    Args:
        given: What ``figures_json`` gave.
    """
    carbon, clearance = given["carbon"], given["clearance"]
    return Figures(
        rooms=tuple(given["rooms"]),
        price_minor=given["price_minor"],
        price_gaps=tuple(Amount(**each) for each in given["price_gaps"]),
        cut=given["cut"],
        slivers=given["slivers"],
        unlayable=given["unlayable"],
        days=given["days"],
        carbon=None if carbon is None else CarbonRange(**carbon),
        carbon_gaps=tuple(Amount(**each) for each in given["carbon_gaps"]),
        clearance=Clearance(ClearanceKind(clearance["kind"]), clearance["mm"]),
        stops=tuple(StopFound(**each) for each in given["stops"]),
        checks=tuple(given["checks"]),
    )
