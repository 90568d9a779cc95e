"""The method of a plan, for who asks: no plan waits for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from pavewright.cost import LabourTask
    from pavewright.method import Method
    from pavewright.pipeline._types import Plan
    from pavewright.rules import Rulebook

FOR_METHOD = (Room.LAYING, Room.BUILD_UPS, Room.EARTHWORKS, Room.WATER, Room.QUANTITIES, Room.LABOUR, Room.PROGRAMME)
"""The rooms without which there is no method."""


def method_of(made: Plan, rules: Rulebook, labour: tuple[LabourTask, ...] | None = None) -> Method:
    """Return what the work of a plan does to people, and how near it comes to what hurts them.

    Args:
        made: The plan, with its rooms of the method.
        rules: Its rulebook.
        labour: Its work in hours, where it is asked for of a plan without a price; None for that of its price.
    """
    from pavewright.method import method  # noqa: PLC0415 - loaded when somebody asks for it

    return method(
        made.job,
        made.survey.site,
        made.laying,
        made.build_ups,
        made.quantities,
        made.cost.labour if labour is None else labour,
        made.programme,
        rules,
    )
