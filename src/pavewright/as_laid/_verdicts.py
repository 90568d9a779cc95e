"""Verdicts that own up to the uncertainty of a reading."""

from __future__ import annotations

PASS, FAIL, UNSURE = "pass", "fail", "unsure"
TRUSTED = 2.0
"""A reading is trusted to two standard deviations. [-]"""


def within(off_mm: float, limit_mm: float, sd_mm: float) -> str:
    """Return the verdict on a value that should not be larger than a limit, either way.

    >>> within(3.0, 6.0, 1.5), within(7.0, 6.0, 1.5), within(10.0, 6.0, 1.5)
    ('pass', 'unsure', 'fail')
    """
    if abs(off_mm) <= limit_mm - TRUSTED * sd_mm:
        return PASS
    return FAIL if abs(off_mm) > limit_mm + TRUSTED * sd_mm else UNSURE


def together(verdicts: list[str]) -> str:
    """Return the verdict over several: fail if one fails, unsure if one is unsure.

    >>> together(["pass", "unsure", "pass"])
    'unsure'
    """
    return FAIL if FAIL in verdicts else UNSURE if UNSURE in verdicts else PASS
