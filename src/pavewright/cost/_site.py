"""What labour is worked out from, gathered once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKey, TaskKind

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.cost._figures import CostFigures
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.quantities import Quantities
    from pavewright.survey import Survey


@dataclass(frozen=True)
class Site:
    """What labour is worked out from."""

    job: Job
    survey: Survey
    laying: LayingPlan
    build_ups: BuildUps
    earthworks: Earthworks
    quantities: Quantities
    figures: CostFigures

    def key(self, kind: TaskKind, area: str | None = None, number: int = 0) -> TaskKey:
        """Return the key of work in an area, or on the whole site."""
        if area is None:
            return TaskKey(kind, None, number)
        return TaskKey(kind, next(n for n, each in enumerate(self.job.areas) if each.name == area), number)
