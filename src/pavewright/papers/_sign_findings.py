"""What is noticed when a plan becomes paper, beside what its rooms noticed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Finding, Severity
from pavewright.job import to_text
from pavewright.papers._codes import Code
from pavewright.papers._signs import MARK, drawable

if TYPE_CHECKING:
    from pavewright.pipeline import Plan, PlanSoFar

_SHOWN = 12
"""So many signs are named by their numbers; the rest are counted."""


def findings_of(plan: Plan | PlanSoFar) -> tuple[Finding, ...]:
    """Return what the rooms noticed, and a note where a name holds a sign that no font of the papers has."""
    lacking = drawable(to_text(plan.job))[1]
    if not lacking:
        return plan.findings
    named = ", ".join(f"U+{ord(sign):04X}" for sign in lacking[:_SHOWN])
    more = f" and {len(lacking) - _SHOWN} more" if len(lacking) > _SHOWN else ""
    words = (
        f"The names and notes of this job hold signs that no font of the papers has ({named}{more}): {MARK} is drawn "
        f"in their place. Write those words in another way if the crew has to read them."
    )
    return (*plan.findings, Finding(Code.SIGNS, Severity.NOTE, "names and notes", words, len(lacking), 0.0, "-"))
