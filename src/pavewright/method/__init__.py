"""Method: what this job does to the people who work it, and how near it comes to what hurts them.

What is lifted and how often, how long a saw is in the stone, what a tool does to hands and ears, how deep the dig goes
beside services, trees and the footway. Every figure unfolds to its sum and its source. What nobody knows is not known,
never zero, and nothing here is ever called safe: local codes and licensed practice decide.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.method._figures import MethodFigures, method_figures
    from pavewright.method._lifting import lift_way
    from pavewright.method._method import lift_plan, method
    from pavewright.method._sums import SUMS
    from pavewright.method._types import (
        Dust,
        Lifted,
        LiftPlan,
        LiftRate,
        LiftWay,
        Method,
        PublicEdge,
        ToolUse,
        ToolVerdict,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "Dust",
    "LiftPlan",
    "LiftRate",
    "LiftWay",
    "Lifted",
    "Method",
    "MethodFigures",
    "PublicEdge",
    "ToolUse",
    "ToolVerdict",
    "lift_plan",
    "lift_way",
    "method",
    "method_figures",
]
