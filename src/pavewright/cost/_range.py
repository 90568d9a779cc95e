"""What the range of a price says: over lines without a price it is no range of what the job costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKey
from pavewright.cost._parts import RangeKind
from pavewright.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.cost._types import CostLine, LabourTask
    from pavewright.findings import Finding
    from pavewright.quantities import Gap


def range_kind(
    tasks: Iterable[LabourTask], lines: Iterable[CostLine], gaps: tuple[Gap, ...], findings: Iterable[Finding]
) -> RangeKind:
    """Return what the range of a price says.

    It says nothing where some labour has no price or nobody knows what goes on the cost; where anything else is not in
    the price both its ends are lower ends.

    Args:
        tasks: The work.
        lines: Priced lines.
        gaps: What is not in the price.
        findings: What was noticed of the price.
    """
    worked = {each.key for each in tasks if each.person_hours > 0.0}
    priced = {each.key for each in lines if isinstance(each.key, TaskKey) and each.rate_minor > 0}
    if not priced or not worked <= priced or any(each.severity is Severity.STOP for each in findings):
        return RangeKind.NOT_KNOWN
    return RangeKind.LOWER if gaps else RangeKind.WHOLE
