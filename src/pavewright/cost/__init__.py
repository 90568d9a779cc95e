"""Cost: the work in hours, what is bought and hired, and the price.

Labour is amount times output, with the output's source and its range. Money is whole minor units throughout. The
margin is a part of the price before tax. What moves the price most is told, and what has no price is listed, not
guessed.
"""

from pavewright.cost._keys import HireKey, LineGroup, LineKey, TaskKey, TaskKind
from pavewright.cost._labour import labour
from pavewright.cost._price import price
from pavewright.cost._sums_cost import SUMS
from pavewright.cost._types import (
    Cost,
    CostLine,
    Hire,
    LabourTask,
    ProvisionalSum,
    ScopeLine,
)

__all__ = [
    "SUMS",
    "Cost",
    "CostLine",
    "Hire",
    "HireKey",
    "LabourTask",
    "LineGroup",
    "LineKey",
    "ProvisionalSum",
    "ScopeLine",
    "TaskKey",
    "TaskKind",
    "labour",
    "price",
]
