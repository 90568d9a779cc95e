"""The joint model of a price: every priced line made again from what nobody knows before the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import Breakages, Normal, Triangle
from pavewright.cost import HireKey, LineGroup, TaskKey, TaskKind
from pavewright.pipeline._risk_draws import Drawn, chance_figures
from pavewright.pipeline._risk_short import again_minor, depth_shape, output_shape
from pavewright.pipeline._risk_slopes import level_slopes
from pavewright.pipeline._risk_types import Cause, CauseKey
from pavewright.quantities import ItemKind, Measure

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from pavewright.cost import CostLine, Hire, LineKey
    from pavewright.earthworks import Spread
    from pavewright.pipeline._risk_slopes import Slopes
    from pavewright.pipeline._types import Plan
    from pavewright.quantities import Item, ItemKey
    from pavewright.rules import Rulebook

    Row = NDArray[np.float64]
    Draw = Callable[["Drawn"], Row]

_WHOLE = 1e-9
"""A number of packs this little over a whole one is that one. [-]"""
_NEAR = 0.5
"""A line that is made again to within half a minor unit is the plan's. [minor units]"""


_SHORTEST = 0.05
"""No job goes quicker than this part of its likely hours. [-]"""
_NOT_BY_NEED = frozenset({ItemKind.MIXED_PACK, ItemKind.ENGINEERED_WALL})
"""What is bought by other rules than so much of a need in a pack: it is taken as certain, and that is said."""


class RiskModel:
    """A price as a function of what nobody knows."""

    def __init__(self, made: Plan, hires: tuple[Hire, ...], rules: Rulebook) -> None:
        """Begin with a plan that has a price.

        Args:
            made: The plan, whole up to its price.
            hires: Machines on hire; empty where there are no dates.
            rules: The rulebook.
        """
        self.made, self._hires, self.figures = made, hires, chance_figures(rules)
        self._slopes = level_slopes(made, rules)
        self._shapes: dict[CauseKey, None] = {}
        self.needs: dict[ItemKey, Draw] = {}
        self.fixed: list[LineKey] = []
        self._lines = [self._checked(line, self._line(line)) for line in made.cost.lines]
        self._all_hours = [each for each in (self._hours(task.key) for task in made.cost.labour) if each is not None]
        self._assumed = [
            (CauseKey(Cause.ASSUMED, fact=number), Triangle(float(each.low_minor), 0.0, float(each.high_minor)))
            for number, each in enumerate(made.cost.assumed)
            if each.low_minor is not None and each.high_minor is not None and each.low_minor < each.high_minor
        ]
        self._shapes.update(dict.fromkeys(key for key, _ in self._assumed))

    @property
    def causes(self) -> tuple[CauseKey, ...]:
        """Everything that is drawn."""
        return tuple(self._shapes)

    def drawn(self, even: Mapping[CauseKey, Row], size: int) -> Drawn:
        """Return draws by cause, to be asked for costs and needs."""
        return Drawn(even, size, self.figures.output_correlation.value)

    def prime(self, drawn: Drawn) -> Row:
        """Return the cost of the lines for each draw, whole minor units each; assumed facts are added by `total`."""
        return np.asarray(sum((line(drawn) for line in self._lines), np.zeros(drawn.size)), dtype=np.float64)

    def total(self, drawn: Drawn) -> Row:
        """Return the price with tax for each draw: the plan's, and what the draw costs more as the plan prices it."""
        found = self.made.cost.total_minor + self._more(drawn) * self._sold + self._of_assumed(drawn)
        return np.asarray(found, dtype=np.float64)

    def burdened(self, drawn: Drawn) -> Row:
        """Return cost with overhead for each draw, before tax, assumed facts with it. [minor units]."""
        cost = self.made.cost
        found = cost.prime_minor + cost.overhead_minor + self._more(drawn) + self._of_assumed(drawn) / self._sold
        return np.asarray(found, dtype=np.float64)

    def _more(self, drawn: Drawn) -> Row:
        """Return how much more each draw costs with overhead: by the hour where the firm has it so, else by cost."""
        cost, by_hour = self.made.cost, self.made.job.rates.overhead_minor_per_hour
        more = self.prime(drawn) - cost.prime_minor
        if by_hour is None:
            return np.asarray(more * (1.0 + cost.overhead_minor / (cost.prime_minor or 1)), dtype=np.float64)
        likely = sum(task.person_hours for task in cost.labour)
        hours = sum((each(drawn) for each in self._all_hours), np.zeros(drawn.size))
        return np.asarray(more + (hours - likely) * by_hour, dtype=np.float64)

    @property
    def _sold(self) -> float:
        """What one more in cost and overhead makes in the price with tax. [-]."""
        burdened = self.made.cost.prime_minor + self.made.cost.overhead_minor
        return self.made.cost.total_minor / burdened if burdened else 1.0

    def _of_assumed(self, drawn: Drawn) -> Row:
        found = np.zeros(drawn.size)
        for key, shape in self._assumed:
            found = found + drawn.of(key, shape, 0.0)
        return found

    def _checked(self, line: CostLine, made: Draw | None) -> Draw:
        """Return a line as it is made again, if that gives what the plan has; else it is taken as certain."""
        amount = float(line.amount_minor)
        if made is not None:
            likely = float(made(self.drawn({}, 1))[0])
            if abs(likely - amount) < _NEAR:
                return made
        self.fixed.append(line.key)
        return lambda drawn: np.full(drawn.size, amount)

    def _line(self, line: CostLine) -> Draw | None:
        if line.group is LineGroup.PROVISIONAL:
            return self._provisional(line)
        if isinstance(line.key, TaskKey):
            return self._labour(line, line.key)
        if isinstance(line.key, HireKey):
            return self._hire(line, line.key)
        if line.key.kind in {ItemKind.SPOIL, ItemKind.PIT_SPOIL}:
            return self._spoil(line, pit=line.key.kind is ItemKind.PIT_SPOIL)
        item = next((each for each in self.made.quantities.items if each.key == line.key), None)
        return None if item is None else self._bought(line, item)

    def _shape(self, key: CauseKey) -> CauseKey:
        self._shapes.setdefault(key)
        return key

    def _provisional(self, line: CostLine) -> Draw:
        """One depth of topsoil moves all lines that wait for it."""
        if line.low_minor == line.high_minor:
            return lambda drawn: np.full(drawn.size, float(line.amount_minor))
        key = self._shape(CauseKey(Cause.TOPSOIL))
        amount = float(line.amount_minor)
        shape = Triangle(min(float(line.low_minor), amount), amount, max(float(line.high_minor), amount))
        return lambda drawn: np.floor(drawn.of(key, shape, amount) + 0.5)

    def _moved(self, of: Callable[[Slopes], float], base: float) -> Draw:
        """Return an amount that moves with the levels."""
        moves = [(each.key, of(each)) for each in self._slopes if of(each)]
        for key, _ in moves:
            self._shape(key)

        def at(drawn: Drawn) -> Row:
            found = np.full(drawn.size, base)
            for key, slope in moves:
                sd = self.figures.formation_sd_mm if key.cause is Cause.FORMATION else self.figures.layer_sd_mm
                found = found + slope * drawn.of(key, Normal(0.0, sd.value), 0.0)
            return np.asarray(np.maximum(found, 0.0), dtype=np.float64)

        return at

    def _hours(self, key: TaskKey) -> Draw | None:
        task = next((each for each in self.made.cost.labour if each.key == key), None)
        if task is None or task.person_hours <= 0.0:
            return None
        hours = self._moved(lambda slopes: slopes.hours.get(key, 0.0), task.person_hours)
        if key.kind is TaskKind.TOPSOIL_PROVISIONAL:
            # its ends are those of the depth, not of the output
            deep, ends = self._shape(CauseKey(Cause.TOPSOIL)), depth_shape(task)
            return lambda drawn: hours(drawn) * drawn.of(deep, ends, 1.0)
        shape = output_shape(task)
        if shape is None:
            return hours
        cause = self._shape(CauseKey(Cause.OUTPUT, task=key.kind))
        self._shape(CauseKey(Cause.CREW))
        return lambda drawn: hours(drawn) * np.maximum(drawn.of(cause, shape, 1.0), _SHORTEST)

    def _labour(self, line: CostLine, key: TaskKey) -> Draw | None:
        hours = self._hours(key)
        if hours is None or not line.quantity:
            return None
        each = line.amount_minor / line.quantity
        rate = float(line.rate_minor) if abs(each - line.rate_minor) < 1.0 else each
        return lambda drawn: np.floor(hours(drawn) * rate + 0.5)

    def _hire(self, line: CostLine, key: HireKey) -> Draw | None:
        """Days follow the hours of the work that needs the plant; days that are paid for anyhow stay paid."""
        hire = next((each for each in self._hires if each.key == key), None)
        tasks = [task for task in self.made.cost.labour if key.kind in task.plant]
        hours = [each for each in (self._hours(task.key) for task in tasks) if each is not None]
        if hire is None or not hours or not hire.wanted_days:
            return None
        likely = sum(task.person_hours for task in tasks)

        def at(drawn: Drawn) -> Row:
            wanted = np.floor(hire.wanted_days * sum(each(drawn) for each in hours) / likely + 0.5)
            if hire.entered:
                more = np.maximum(wanted - max(hire.wanted_days, hire.days), 0.0)
            else:
                more = np.maximum(wanted, 1.0) - hire.wanted_days
            return np.floor(line.amount_minor + more * line.rate_minor + 0.5)

        return at

    def _spoil(self, line: CostLine, *, pit: bool) -> Draw | None:
        """Loads of what is dug; those of pits and trenches are what they add to them."""
        disposal, earthworks = self.made.job.rates.disposal, self.made.earthworks
        if disposal is None:
            return None
        share = earthworks.away_m3
        moved = self._moved(lambda slopes: slopes.away_m3 / share, 1.0) if share > 0.0 else None
        beside = self.made.quantities.pit_spoil

        def loads(drawn: Drawn, *, with_pit: bool) -> Row:
            times = 1.0 if moved is None else moved(drawn)
            parts = [(earthworks.loose_m3, earthworks.tonnes, times)]
            if with_pit and beside is not None:
                parts.append((beside.loose, beside.tonnes, 1.0))
            volume = sum(self._of(Cause.BULKING, loose, drawn) * by for loose, _, by in parts)
            mass = sum(self._of(Cause.SPOIL_MASS, tonnes, drawn) * by for _, tonnes, by in parts)
            exact = volume / disposal.volume_m3
            if disposal.payload_tonnes:
                exact = np.maximum(exact, mass / disposal.payload_tonnes)
            return np.asarray(np.ceil(exact - _WHOLE), dtype=np.float64)

        self._shape(CauseKey(Cause.BULKING))
        if disposal.payload_tonnes:
            self._shape(CauseKey(Cause.SPOIL_MASS))
        if not pit:
            return lambda drawn: np.floor(loads(drawn, with_pit=False) * line.rate_minor + 0.5)
        return lambda drawn: np.floor(
            (loads(drawn, with_pit=True) - loads(drawn, with_pit=False)) * line.rate_minor + 0.5
        )

    @staticmethod
    def _of(cause: Cause, spread: Spread, drawn: Drawn) -> Row:
        """Return an amount of soil: one soil bulks, and weighs, for all areas."""
        if not spread.low <= spread.likely <= spread.high:
            return np.full(drawn.size, spread.likely)
        return drawn.of(CauseKey(cause), Triangle(spread.low, spread.likely, spread.high), spread.likely)

    def _bought(self, line: CostLine, item: Item) -> Draw | None:
        if item.ordered <= 0.0 or item.ordered_amount <= 0.0:
            return None
        holds = item.ordered_amount / item.ordered
        if item.key.kind is ItemKind.UNITS:
            return self._units(line, item, holds)
        if item.key.kind in _NOT_BY_NEED:
            return None
        need = self._moved(lambda slopes: slopes.items.get(item.key, 0.0), item.gross)
        wanted = need
        if item.low is not None and item.high is not None and item.gross > 0.0:
            shape = Triangle(min(1.0, item.low / item.gross), 1.0, max(1.0, item.high / item.gross))
            cause = self._shape(CauseKey(Cause.YIELD, item=item.key))
            counted = item.unit is Measure.EACH and float(item.gross).is_integer()  # pieces come whole

            def wanted(drawn: Drawn) -> Row:
                found = need(drawn) * drawn.of(cause, shape, 1.0)
                return np.floor(found + 0.5) if counted else found

        packs = float(np.ceil(item.gross / holds - _WHOLE))
        if item.ordered.is_integer() and item.ordered >= packs:
            # a supplier's smallest order is paid for whatever is needed
            min_packs = item.ordered if item.ordered > packs else 0.0
            self.needs[item.key] = lambda drawn: wanted(drawn) / holds
            return lambda drawn: np.floor(
                np.maximum(np.ceil(wanted(drawn) / holds - _WHOLE), min_packs) * line.rate_minor + 0.5
            )
        return lambda drawn: np.floor(wanted(drawn) / holds * line.rate_minor + 0.5)

    def _units(self, line: CostLine, item: Item, holds: float) -> Draw:
        """Units are bought before the work, with spares; more are bought where more break than there are spares."""
        entered = self.made.job.units[item.key.number].breakage_percent
        percent = self.figures.breakage_percent.value if entered is None else entered
        shape = Breakages(int(item.net), percent / 100.0)
        cause = self._shape(CauseKey(Cause.BREAKAGE, item=item.key))

        def need(drawn: Drawn) -> Row:
            return (item.net + drawn.of(cause, shape, item.gross - item.net)) / holds

        self.needs[item.key] = need
        again = again_minor(self.made, self.figures, line) or 0

        def at(drawn: Drawn) -> Row:
            more = np.maximum(np.ceil(need(drawn) - _WHOLE) - item.ordered, 0.0)
            return np.asarray(line.amount_minor + more * line.rate_minor + again * (more > 0.0), dtype=np.float64)

        return at
