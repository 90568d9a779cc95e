"""Verdicts that own up to the uncertainty of a reading."""

from __future__ import annotations

from enum import StrEnum


class Verdict(StrEnum):
    """What readings say of a limit."""

    PASSES = "pass"
    FAILS = "fail"
    INCONCLUSIVE = "unsure"

    @property
    def words(self) -> str:
        """The verdict as it is shown."""
        return _WORDS[self]


_WORDS = {Verdict.PASSES: "pass", Verdict.FAILS: "fail", Verdict.INCONCLUSIVE: "inconclusive"}
TRUSTED = 2.0
"""A reading is trusted to two standard deviations. [-]"""


def within(off_mm: float, limit_mm: float, sd_mm: float) -> Verdict:
    """Return the verdict on a value that should not be larger than a limit, either way.

    >>> [within(off, 6.0, 1.5).words for off in (3.0, 7.0, 10.0)]
    ['pass', 'inconclusive', 'fail']
    """
    if abs(off_mm) <= limit_mm - TRUSTED * sd_mm:
        return Verdict.PASSES
    return Verdict.FAILS if abs(off_mm) > limit_mm + TRUSTED * sd_mm else Verdict.INCONCLUSIVE


def together(verdicts: list[Verdict]) -> Verdict:
    """Return the verdict over several: fail if one fails, inconclusive if one is.

    >>> together([Verdict.PASSES, Verdict.INCONCLUSIVE, Verdict.PASSES]).words
    'inconclusive'
    """
    worst = (Verdict.FAILS, Verdict.INCONCLUSIVE)
    return next((each for each in worst if each in verdicts), Verdict.PASSES)
