"""What is bought and carted away, made again from what is needed: packs, units, mixed packs, loads."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from pavewright.chance import Breakages, Triangle
from pavewright.pipeline._risk_short import again_minor
from pavewright.pipeline._risk_types import Cause, CauseKey
from pavewright.quantities import ItemKind, Measure, of_unit, sold_packs

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from pavewright.cost import CostLine
    from pavewright.earthworks import Spread
    from pavewright.pipeline._risk_causes import Causes, Draw
    from pavewright.pipeline._risk_draws import Drawn
    from pavewright.quantities import Item, ItemKey

    Row = NDArray[np.float64]
    More = Callable[[ItemKey], Draw | None]

_WHOLE = 1e-9
"""A number of packs this little over a whole one is that one. [-]"""


def loads(model: Causes, *, with_dig: bool = True, with_pit: bool) -> Draw | None:
    """Return how many loads leave; None where nobody said what takes them.

    Args:
        model: What is drawn.
        with_dig: Whether those of the dig are counted.
        with_pit: Whether those of soakaways and trenches are, which are what they add to those of the dig.
    """
    disposal, earthworks = model.made.job.rates.disposal, model.made.earthworks
    if disposal is None:
        return None
    share = earthworks.away_m3
    moved = model.moved(lambda slopes: slopes.away_m3 / share, 1.0) if share > 0.0 else None
    beside = model.made.quantities.pit_spoil if with_pit else None
    model.shape(CauseKey(Cause.BULKING))
    if disposal.payload_tonnes:
        model.shape(CauseKey(Cause.SPOIL_MASS))

    def whole(drawn: Drawn, *, pit: bool) -> Row:
        times = 1.0 if moved is None else moved(drawn)
        parts = [(earthworks.loose_m3, earthworks.tonnes, times)]
        if pit and beside is not None:
            parts.append((beside.loose, beside.tonnes, 1.0))
        volume = sum(_of(Cause.BULKING, loose, drawn) * by for loose, _, by in parts)
        mass = sum(_of(Cause.SPOIL_MASS, tonnes, drawn) * by for _, tonnes, by in parts)
        exact = volume / disposal.volume_m3
        if disposal.payload_tonnes:
            exact = np.maximum(exact, mass / disposal.payload_tonnes)
        return np.asarray(np.ceil(exact - _WHOLE), dtype=np.float64)

    if with_dig:
        return lambda drawn: whole(drawn, pit=with_pit)
    return lambda drawn: whole(drawn, pit=True) - whole(drawn, pit=False)


def _of(cause: Cause, spread: Spread, drawn: Drawn) -> Row:
    """Return an amount of soil: one soil bulks, and weighs, for all areas."""
    if not spread.low <= spread.likely <= spread.high:
        return np.full(drawn.size, spread.likely)
    return drawn.of(CauseKey(cause), Triangle(spread.low, spread.likely, spread.high), spread.likely)


def spoil(model: Causes, line: CostLine, *, pit: bool) -> Draw | None:
    """Return the line of loads that leave."""
    many = loads(model, with_dig=not pit, with_pit=pit)
    return None if many is None else lambda drawn: np.floor(many(drawn) * line.rate_minor + 0.5)


def bought(model: Causes, line: CostLine, item: Item, more: More) -> Draw | None:
    """Return the line of an item that is bought; None where it is bought by other rules than these."""
    if item.ordered <= 0.0 or item.ordered_amount <= 0.0:
        return None
    match item.key.kind:
        case ItemKind.UNITS:
            return _units(model, line, item, item.ordered_amount / item.ordered)
        case ItemKind.MIXED_PACK:
            return _mixed(model, line, item)
        case ItemKind.ENGINEERED_WALL:
            return None
        case _:
            return _packs(model, line, item, more)


def _packs(model: Causes, line: CostLine, item: Item, more: More) -> Draw:
    """Return what comes in packs, bags or by the metre: as many as the need takes."""
    holds = item.ordered_amount / item.ordered
    wanted = _wanted(model, item, more)
    packs = float(np.ceil(item.gross / holds - _WHOLE))
    if item.ordered.is_integer() and item.ordered >= packs:
        # a supplier's smallest order is paid for whatever is needed
        min_packs = item.ordered if item.ordered > packs else 0.0
        model.needs[item.key] = lambda drawn: wanted(drawn) / holds
        return lambda drawn: np.floor(
            np.maximum(np.ceil(wanted(drawn) / holds - _WHOLE), min_packs) * line.rate_minor + 0.5
        )
    return lambda drawn: np.floor(wanted(drawn) / holds * line.rate_minor + 0.5)


def _wanted(model: Causes, item: Item, more: More) -> Draw:
    """Return how much of an item is needed: it moves with levels, days and loads, and goes farther or less far."""
    levels = model.moved(lambda slopes: slopes.items.get(item.key, 0.0), item.gross)
    days = more(item.key)
    need = levels if days is None else lambda drawn: np.maximum(levels(drawn) + days(drawn), 0.0)
    if item.low is None or item.high is None or item.gross <= 0.0:
        return need
    shape = Triangle(min(1.0, item.low / item.gross), 1.0, max(1.0, item.high / item.gross))
    cause = model.shape(CauseKey(Cause.YIELD, item=item.key))
    counted = item.unit is Measure.EACH and float(item.gross).is_integer()  # pieces come whole

    def wanted(drawn: Drawn) -> Row:
        found = need(drawn) * drawn.of(cause, shape, 1.0)
        return np.floor(found + 0.5) if counted else found

    return wanted


def _units(model: Causes, line: CostLine, item: Item, holds: float) -> Draw:
    """Return units: bought before the work, with spares; more are bought where more break than there are spares."""
    shape = _breakages(model, item.key.number, item.net)
    cause = model.shape(CauseKey(Cause.BREAKAGE, item=item.key))
    model.needs[item.key] = lambda drawn: (item.net + drawn.of(cause, shape, item.gross - item.net)) / holds
    return _bought_again(model, line, item, model.needs[item.key], 1)


def _mixed(model: Causes, line: CostLine, item: Item) -> Draw | None:
    """Return mixed packs: as many as the size takes of which most packs are needed, with what breaks of it."""
    job = model.made.job
    parts = next((each.pack.parts for each in sold_packs(job, model.made.laying) if each.key == item.key), None)
    if parts is None or not item.holds:
        return None
    numbers = {unit.name: number for number, unit in enumerate(job.units)}
    sizes = [
        (
            each,
            model.shape(CauseKey(Cause.BREAKAGE, item=of_unit(numbers[each.unit]))),
            _breakages(model, numbers[each.unit], each.needed),
        )
        for each in item.holds
        if each.needed
    ]

    def need(drawn: Drawn) -> Row:
        packs = [
            (each.needed + drawn.of(cause, shape, float(each.with_spares - each.needed))) / each.per_pack
            for each, cause, shape in sizes
        ]
        return np.asarray(np.max(packs, axis=0), dtype=np.float64)

    if parts == 1:
        model.needs[item.key] = need
    return _bought_again(model, line, item, need, parts)


def _breakages(model: Causes, unit: int, needed: float) -> Breakages:
    entered = model.made.job.units[unit].breakage_percent
    percent = model.figures.breakage_percent.value if entered is None else entered
    return Breakages(int(needed), percent / 100.0)


def _bought_again(model: Causes, line: CostLine, item: Item, need: Draw, parts: int) -> Draw:
    """Return what was ordered, and a second order of what is short of it.

    Args:
        model: What is drawn.
        line: Its priced line.
        item: The item.
        need: How many packs are needed.
        parts: Into how many parts a pack is sold.
    """
    again = again_minor(model.made, model.figures, line) or 0

    def at(drawn: Drawn) -> Row:
        packs = np.ceil(need(drawn) * parts - _WHOLE) / parts
        more = np.maximum(packs - item.ordered, 0.0)
        return np.asarray(
            np.floor(line.amount_minor + more * line.rate_minor + again * (more > 0.0) + 0.5), dtype=np.float64
        )

    return at
