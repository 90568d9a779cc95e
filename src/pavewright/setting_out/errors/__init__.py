"""Errors of setting out: how near each corner comes with the tools at hand, in which order, and what proves it.

Errors are carried from the base line from step to step. What places have in common, such as one tape that is too
long, adds straight or cancels. Each corner is fixed in the way that brings it nearest, and proved by the tape that
shows a slip best; a lost peg comes back by two tapes from things that stay.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.setting_out.errors._comes_back import comes_back, fixed_places
    from pavewright.setting_out.errors._expected import check_limit_mm
    from pavewright.setting_out.errors._order import Ground, order_of_work
    from pavewright.setting_out.errors._spread import Readings
    from pavewright.setting_out.errors._sums_errors import ERROR_SUMS
    from pavewright.setting_out.errors._tool_errors import AssumedTool, ToolErrors, ToolKey, tool_errors
    from pavewright.setting_out.errors._types import (
        ComesBack,
        ExpectedError,
        FixedBy,
        FixedPlace,
        FixedThing,
        StepCheck,
        WorkStep,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "ERROR_SUMS",
    "AssumedTool",
    "ComesBack",
    "ExpectedError",
    "FixedBy",
    "FixedPlace",
    "FixedThing",
    "Ground",
    "Readings",
    "StepCheck",
    "ToolErrors",
    "ToolKey",
    "WorkStep",
    "check_limit_mm",
    "comes_back",
    "fixed_places",
    "order_of_work",
    "tool_errors",
]
