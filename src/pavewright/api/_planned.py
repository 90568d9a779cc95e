"""A plan for another program: the rooms by name, plain values, rows and tables."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.api._tables import TABLES, UnknownTableError, table_of
from pavewright.cost import RangeKind
from pavewright.papers import PlanPart, plan_json

if TYPE_CHECKING:
    from collections.abc import Collection

    import pandas as pd

    from pavewright.buildup import BuildUps
    from pavewright.cost import Cost
    from pavewright.earthworks import Earthworks
    from pavewright.findings import Finding
    from pavewright.laying import LayingPlan
    from pavewright.levels import Levels
    from pavewright.pipeline import Missing, PlanSoFar
    from pavewright.programme import Programme
    from pavewright.quantities import Quantities
    from pavewright.survey import Survey
    from pavewright.water import Water


@dataclass(frozen=True, slots=True)
class Price:
    """What a job costs, all in whole minor units (pence, cents).

    Attributes:
        currency: Three letters.
        net_minor: Price before tax. [minor units]
        tax_minor: Tax. [minor units]
        total_minor: Price with tax. [minor units]
        low_minor: Lower end with tax; None where the range is not known. [minor units]
        high_minor: Upper end with tax; None where the range is not known, or has no upper end. [minor units]
        gaps: What the job takes and is not in the price, in words.
    """

    currency: str
    net_minor: int
    tax_minor: int
    total_minor: int
    low_minor: int | None
    high_minor: int | None
    gaps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Planned:
    """The plan of a job as far as what is known; a room for which too little is known is None.

    Attributes:
        plan: All of it, as the program itself carries it.
    """

    plan: PlanSoFar

    @property
    def survey(self) -> Survey:
        """Points at their adjusted places, level books, the ground and the site in plan."""
        return self.plan.survey

    @property
    def levels(self) -> Levels | None:
        """Finished levels everywhere."""
        return self.plan.levels

    @property
    def laying(self) -> LayingPlan | None:
        """Every piece of every area."""
        return self.plan.laying

    @property
    def build_ups(self) -> BuildUps | None:
        """Layers from the units down to formation."""
        return self.plan.build_ups

    @property
    def earthworks(self) -> Earthworks | None:
        """Cut, fill and what leaves the site."""
        return self.plan.earthworks

    @property
    def water(self) -> Water | None:
        """What drains where, and drains checked against it."""
        return self.plan.water

    @property
    def quantities(self) -> Quantities | None:
        """Measured items and what is ordered of them."""
        return self.plan.quantities

    @property
    def cost(self) -> Cost | None:
        """From cost to price, line by line."""
        return self.plan.cost

    @property
    def programme(self) -> Programme | None:
        """Tasks with their dates."""
        return self.plan.programme

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was noticed: stop, check or note."""
        return self.plan.findings

    @property
    def missing(self) -> tuple[Missing, ...]:
        """What is not known, what to measure next first."""
        return self.plan.missing

    @property
    def is_whole(self) -> bool:
        """Whether every room is made."""
        return self.plan.whole is not None

    @property
    def price(self) -> Price | None:
        """What the job costs; None while too little is known."""
        cost = self.plan.cost
        if cost is None:
            return None
        kind = cost.range_kind
        return Price(
            currency=self.plan.job.identity.currency,
            net_minor=cost.net_minor,
            tax_minor=cost.tax_minor,
            total_minor=cost.total_minor,
            low_minor=None if kind is RangeKind.NOT_KNOWN else cost.low_minor,
            high_minor=cost.high_minor if kind is RangeKind.WHOLE else None,
            gaps=tuple(gap.words for gap in cost.gaps),
        )

    def to_dict(self, parts: Collection[str] | None = None) -> dict[str, Any]:
        """Return the plan, or parts of it, as JSON has it: every field under its own name, numbers unrounded.

        Args:
            parts: Names of rooms, such as ``cost`` and ``levels``; all of the plan where none are given.

        Raises:
            ValueError: there is no such part.
        """
        wanted = tuple(PlanPart) if parts is None else tuple(PlanPart(part) for part in parts)
        found: dict[str, Any] = json.loads(plan_json(self.plan, wanted))
        return found

    def rows(self, table: str) -> tuple[dict[str, Any], ...]:
        """Return a table as rows of plain values; it has none while its room is not made.

        Args:
            table: One of ``TABLES``.

        Raises:
            UnknownTableError: there is no such table.
        """
        if table not in TABLES:
            raise UnknownTableError(table)
        return tuple(TABLES[table](self.plan))

    def frame(self, table: str) -> pd.DataFrame:
        """Return a table as a pandas data frame.

        Args:
            table: One of ``TABLES``.

        Raises:
            UnknownTableError: there is no such table.
            MissingTablesError: pandas is not installed.
        """
        return table_of(self.rows(table))
