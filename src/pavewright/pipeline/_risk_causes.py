"""What nobody knows before the work, gathered while a price is made again line by line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import Normal
from pavewright.cost import TaskKind
from pavewright.pipeline._risk_draws import Drawn, chance_figures
from pavewright.pipeline._risk_short import depth_shape, output_shape
from pavewright.pipeline._risk_slopes import level_slopes
from pavewright.pipeline._risk_types import Cause, CauseKey

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from pavewright.cost import TaskKey
    from pavewright.pipeline._risk_slopes import Slopes
    from pavewright.pipeline._types import Plan
    from pavewright.quantities import ItemKey
    from pavewright.rules import Rulebook

    Row = NDArray[np.float64]
    Draw = Callable[["Drawn"], Row]

_SHORTEST = 0.05
"""No job goes quicker than this part of its likely hours. [-]"""


class Causes:
    """Everything that is drawn, and the amounts that move with it."""

    def __init__(self, made: Plan, rules: Rulebook) -> None:
        """Begin with a plan that has a price.

        Args:
            made: The plan, whole up to its price.
            rules: The rulebook.
        """
        self.made, self.rules, self.figures = made, rules, chance_figures(rules)
        self.slopes = level_slopes(made, rules)
        self.needs: dict[ItemKey, Draw] = {}
        self._shapes: dict[CauseKey, None] = {}

    @property
    def causes(self) -> tuple[CauseKey, ...]:
        """Everything that is drawn."""
        return tuple(self._shapes)

    def drawn(self, even: Mapping[CauseKey, Row], size: int) -> Drawn:
        """Return draws by cause, to be asked for costs and needs."""
        return Drawn(even, size, self.figures.output_correlation.value)

    def shape(self, key: CauseKey) -> CauseKey:
        """Note a cause as one that is drawn, and return it."""
        self._shapes.setdefault(key)
        return key

    def moved(self, of: Callable[[Slopes], float], base: float) -> Draw:
        """Return an amount that moves with the levels.

        Args:
            of: What one level does to it, for each millimetre.
            base: The amount where every level is as planned. [any unit]
        """
        moves = [(each.key, of(each)) for each in self.slopes if of(each)]
        for key, _ in moves:
            self.shape(key)

        def at(drawn: Drawn) -> Row:
            found = np.full(drawn.size, base)
            for key, slope in moves:
                sd = self.figures.formation_sd_mm if key.cause is Cause.FORMATION else self.figures.layer_sd_mm
                found = found + slope * drawn.of(key, Normal(0.0, sd.value), 0.0)
            return np.asarray(np.maximum(found, 0.0), dtype=np.float64)

        return at

    def hours(self, key: TaskKey) -> Draw | None:
        """Return the hours of a task; None where it takes none."""
        task = next((each for each in self.made.cost.labour if each.key == key), None)
        if task is None or task.person_hours <= 0.0:
            return None
        hours = self.moved(lambda slopes: slopes.hours.get(key, 0.0), task.person_hours)
        if key.kind is TaskKind.TOPSOIL_PROVISIONAL:
            # its ends are those of the depth, not of the output
            deep, ends = self.shape(CauseKey(Cause.TOPSOIL)), depth_shape(task)
            return lambda drawn: hours(drawn) * drawn.of(deep, ends, 1.0)
        shape = output_shape(task)
        if shape is None:
            return hours
        cause = self.shape(CauseKey(Cause.OUTPUT, task=key.kind))
        self.shape(CauseKey(Cause.CREW))
        return lambda drawn: hours(drawn) * np.maximum(drawn.of(cause, shape, 1.0), _SHORTEST)

    def all_hours(self, *, settled: bool = False) -> Draw:
        """Return the hours of all work; of what is settled by what is found alone, where that is asked."""
        keys = [task.key for task in self.made.cost.labour if not settled or task.key.kind in _SETTLED]
        each = [hours for hours in map(self.hours, keys) if hours is not None]
        return lambda drawn: np.asarray(sum((hours(drawn) for hours in each), np.zeros(drawn.size)), dtype=np.float64)


_SETTLED = frozenset({TaskKind.TOPSOIL_PROVISIONAL})
"""Work that is settled by what is found."""
