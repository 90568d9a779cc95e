"""Limits beyond which chance alone seldom goes."""

from __future__ import annotations

RISK = 0.05
"""How often chance alone may be taken for movement. [-]"""


def t_limit(free: int, risk: float = RISK) -> float:
    """Return what chance alone exceeds, on either side, in this share of cases: Student's t.

    Args:
        free: Readings to spare.
        risk: The share. [-]

    >>> round(t_limit(8), 3)
    2.306
    """
    from scipy.special import stdtrit  # noqa: PLC0415 - slow to load

    return float(stdtrit(free, 1.0 - risk / 2.0))


def normal_limit(risk: float = RISK) -> float:
    """Return what chance alone exceeds, on either side, in this share of cases: the scatter being known.

    Args:
        risk: The share. [-]

    >>> round(normal_limit(), 2)
    1.96
    """
    from scipy.special import ndtri  # noqa: PLC0415 - slow to load

    return float(ndtri(1.0 - risk / 2.0))


def f_limit(many: int, free: int | None, risk: float = RISK) -> float:
    """Return what chance alone exceeds in this share of cases: F of several places together.

    Args:
        many: Movements that are tested together.
        free: Readings to spare; None where the scatter is known.
        risk: The share. [-]

    >>> round(f_limit(3, None), 2), round(f_limit(3, 6), 2)
    (2.6, 4.76)
    """
    from scipy.special import chdtri, fdtri  # noqa: PLC0415 - slow to load

    return float(chdtri(many, risk)) / many if free is None else float(fdtri(many, free, 1.0 - risk))
