"""Draws of everything that nobody knows before the work, and the figures that say how far it is off."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from pavewright.chance import leaning
from pavewright.pipeline._risk_types import Cause, CauseKey
from pavewright.rules import read_figures

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from pavewright.chance import Shape
    from pavewright.rules import Figure, Rulebook

    Row = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ChanceFigures:
    """How far things are off; each field is the figure of its name in the rulebook, with its unit there."""

    formation_sd_mm: Figure
    layer_sd_mm: Figure
    breakage_percent: Figure
    output_correlation: Figure
    second_delivery_h: Figure
    short_lost_days: Figure


def chance_figures(rules: Rulebook) -> ChanceFigures:
    """Return the figures of chance."""
    return read_figures(ChanceFigures, rules, "chance")


@dataclass(slots=True)
class Drawn:
    """Draws of all causes, and what was made of them.

    Attributes:
        even: Even draws by cause; a cause that is not there stands at its likely value.
        size: How many draws.
        correlation: How outputs of one crew lean on each other. [-]
    """

    even: Mapping[CauseKey, Row]
    size: int
    correlation: float
    made: dict[tuple[CauseKey, Any], Row] = field(default_factory=dict)

    def of(self, key: CauseKey, shape: Shape, likely: float) -> Row:
        """Return the values of a cause; its likely value where it is not drawn.

        Args:
            key: The cause.
            shape: How it falls.
            likely: Its likely value. [unit of the shape]
        """
        known = self.made.get((key, shape))
        if known is None:
            draws = self.even.get(key)
            if key.cause is Cause.OUTPUT:
                draws = self._of_crew(draws)
            known = np.full(self.size, likely) if draws is None else shape.at(draws)
            self.made[key, shape] = known
        return known

    def _of_crew(self, own: Row | None) -> Row | None:
        """Return draws of an output, leaning on the crew's; where one of both is not drawn, the other stands alone."""
        crew = self.even.get(CauseKey(Cause.CREW))
        if own is None and crew is None:
            return None
        middle = np.full(self.size, 0.5)
        return leaning(middle if own is None else own, middle if crew is None else crew, self.correlation)
