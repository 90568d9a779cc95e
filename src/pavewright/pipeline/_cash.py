"""The cash of a plan, for who asks: no plan waits for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from pavewright.cash import Cash
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.rules import Rulebook

FOR_CASH = (Room.QUANTITIES, Room.COST, Room.PROGRAMME)
"""The rooms without which there is no curve of cash."""


def cash_of(made: Plan | PlanSoFar, rules: Rulebook) -> Cash | None:
    """Return the payments and the cash of a plan; None where it has no price or no dates.

    Args:
        made: The plan.
        rules: Its rulebook.
    """
    from pavewright.cash import cash  # noqa: PLC0415 - loaded when somebody asks for it

    cost, programme = made.cost, made.programme
    if made.quantities is None or cost is None or programme is None or not cost.lines:
        return None
    return cash(made.job, cost, programme, rules)
