"""What is noticed on the way: faults of the document and findings, gathered so that all are told at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Fault

if TYPE_CHECKING:
    from pavewright.findings import Finding


class Remarks:
    """Faults and findings in the order in which they were met."""

    def __init__(self) -> None:
        """Start with nothing noticed."""
        self.faults: list[Fault] = []
        self.findings: list[Finding] = []

    def fault(self, path: str, message: str) -> None:
        """Keep a fault of the document."""
        self.faults.append(Fault(path, message))

    def finding(self, finding: Finding) -> None:
        """Keep a finding."""
        self.findings.append(finding)


def metres(length_mm: float) -> str:
    """Return a length or level as a person reads it off a tape or staff.

    >>> metres(3200.0)
    '3.200'
    """
    text = f"{units.mm_to_m(length_mm):.3f}"
    return text.removeprefix("-") if text == "-0.000" else text


def millimetres(length_mm: float, *, sign: bool = False) -> str:
    """Return a small difference in millimetres, to a tenth where it is not whole.

    >>> millimetres(-9.0, sign=True)
    '-9 mm'
    >>> millimetres(2.25)
    '2.2 mm'
    """
    text = f"{length_mm:{'+' if sign else ''}.1f}".removesuffix(".0")
    return f"{'0' if text in {'-0', '+0'} else text} mm"


def place_words(place: tuple[float, float]) -> str:
    """Return a place in plan in words.

    >>> place_words((1450.0, 836.0))
    'x 1.450, y 0.836'
    """
    return f"x {metres(place[0])}, y {metres(place[1])}"
