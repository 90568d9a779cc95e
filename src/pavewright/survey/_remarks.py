"""What is noticed on the way: faults of the document and findings, gathered so that all are reported at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Fault

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.job import Wanted


class Remarks:
    """Faults and findings in the order in which they were met."""

    def __init__(self, findings: list[Finding] | None = None) -> None:
        """Start with nothing noticed, or with a list of findings that is kept together with others."""
        self.faults: list[Fault] = []
        self.findings: list[Finding] = [] if findings is None else findings

    def fault(self, path: str, message: str, wanted: Wanted | None = None, place: str = "") -> None:
        """Keep a fault of the document; ``wanted`` where something was not measured yet and nothing is wrong."""
        self.faults.append(Fault(path, message, wanted, place))

    def finding(self, finding: Finding) -> None:
        """Keep a finding."""
        self.findings.append(finding)


metres = units.metres_text
millimetres = units.millimetres_text


def place_words(place: tuple[float, float]) -> str:
    """Return a place in plan in words.

    Args:
        place: The place, x and y. [mm]

    >>> place_words((1450.0, 836.0))
    'x 1.450, y 0.836'
    """
    return f"x {metres(place[0])}, y {metres(place[1])}"
