"""The list of what is done, made from the priced lines: each thing with its lines and with what is not in the price."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from pavewright.cost._keys import ChargeKey, ChargeKind, TaskKind
from pavewright.cost._types import ScopeLine
from pavewright.quantities import ScopeKey, ScopeKind, in_reading_order

if TYPE_CHECKING:
    from pavewright.cost._keys import LineKey, TaskKey
    from pavewright.cost._parts import Order
    from pavewright.cost._types import CostLine, LabourTask
    from pavewright.quantities import Gap, Quantities


def scope_of(key: TaskKey) -> ScopeKey:  # noqa: C901, PLR0911, PLR0912 - one line for each kind of work
    """Return what a task is for.

    >>> from pavewright.cost import TaskKey
    >>> scope_of(TaskKey(TaskKind.EDGES_KERB, 1)).text
    'kerb.2'
    """
    area = key.area or 0
    match key.kind:
        case TaskKind.DIG | TaskKind.SIDES | TaskKind.LOAD | TaskKind.CART | TaskKind.EDGE_TRENCH | TaskKind.FILL:
            return ScopeKey(ScopeKind.DIG)
        case TaskKind.BREAK_OUT | TaskKind.DIG_FREE | TaskKind.FOUND_PIPE:
            return ScopeKey(ScopeKind.DIG)
        case TaskKind.TOPSOIL_PROVISIONAL:
            return ScopeKey(ScopeKind.TOPSOIL)
        case TaskKind.CARRY_IN:
            return ScopeKey(ScopeKind.CARRYING)
        case TaskKind.WALL_TRENCH | TaskKind.WALL_FOOTING | TaskKind.WALL:
            return ScopeKey(ScopeKind.LOW_WALL, area)
        case TaskKind.GUARD:
            return ScopeKey(ScopeKind.GUARD, area)
        case TaskKind.DRAINS | TaskKind.CHANNEL_PIPES | TaskKind.CHANNEL_FILL:
            return ScopeKey(ScopeKind.CHANNEL, key.number)
        case TaskKind.GULLIES | TaskKind.GULLY_PIPES | TaskKind.GULLY_FILL | TaskKind.GRATINGS:
            return ScopeKey(ScopeKind.GULLY, key.number)
        case TaskKind.FRAMES:
            return ScopeKey(ScopeKind.COVER, key.number)
        case TaskKind.PIT_DIG | TaskKind.PIT_LOAD | TaskKind.PIT_FILL | TaskKind.SILT_TRAPS:
            return ScopeKey(ScopeKind.SOAKAWAY, key.number)
        case TaskKind.EDGES_KERB:
            return ScopeKey(ScopeKind.KERB, area)
        case TaskKind.EDGES_EDGING:
            return ScopeKey(ScopeKind.EDGING, area)
        case TaskKind.EDGES_HAUNCH:
            return ScopeKey(ScopeKind.HAUNCH, area)
        case TaskKind.STEPS:
            return ScopeKey(ScopeKind.STEPS, key.number)
        case TaskKind.SET_OUT | TaskKind.SUB_BASE | TaskKind.SUB_BASE_LAYER | TaskKind.BASE | TaskKind.CLEAR:
            return ScopeKey(ScopeKind.PAVING, area)
        case TaskKind.CUT | TaskKind.LAY_BORDER | TaskKind.LAY_ZONE | TaskKind.LAY | TaskKind.POINT:
            return ScopeKey(ScopeKind.PAVING, area)
        case _:
            assert_never(key.kind)


def scope_lines(
    tasks: tuple[LabourTask, ...],
    lines: tuple[CostLine, ...],
    quantities: Quantities,
    gaps: tuple[Gap, ...],
    ordered: tuple[Order, ...] = (),
) -> tuple[ScopeLine, ...]:
    """Return what is done, in the order in which a customer reads of it; carriage is for what it brings."""
    serves: dict[LineKey, tuple[ScopeKey, ...]] = {task.key: (scope_of(task.key),) for task in tasks}
    serves |= {item.key: item.scope for item in quantities.items}
    for number, order in enumerate(ordered):
        brought = frozenset(scope for line in order.lines for scope in serves.get(line.item, ()))
        serves[ChargeKey(ChargeKind.CARRIAGE, number)] = in_reading_order(brought)
    by_scope: dict[ScopeKey, list[LineKey]] = {}
    for line in lines:
        for scope in serves.get(line.key, ()):
            by_scope.setdefault(scope, []).append(line.key)
    for gap in gaps:
        for scope in gap.scope:
            by_scope.setdefault(scope, [])
    return tuple(
        ScopeLine(key, tuple(by_scope[key]), tuple(gap for gap in gaps if key in gap.scope))
        for key in in_reading_order(frozenset(by_scope))
    )
