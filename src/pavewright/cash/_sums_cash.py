"""Sums of cash."""

from __future__ import annotations

from fractions import Fraction

from pavewright.cash._payments import retained
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_WHOLE = 100.0
_MINOR = 100


def retention(
    payments: tuple[float, ...], complete: float, retention_percent: float, freed_percent: float
) -> dict[str, Value]:
    """Return what is paid of each payment when a part is held back.

    Source: surveyors_retention
    """
    number = int(complete) - 1
    inside = 0.0 <= retention_percent <= _WHOLE and 0.0 <= freed_percent <= _WHOLE
    if not payments or min(payments) < 0.0 or not 0 <= number < len(payments) or not inside:
        message = "Payments are not less than zero, one of them falls at completion, and parts are 0 to 100 per cent."
        raise SumRefusedError(message)
    gross = [round(Fraction(repr(each)) * _MINOR) for each in payments]
    held, freed, left = retained(gross, number, retention_percent, freed_percent)
    due = [one - kept + back for one, kept, back in zip(gross, held, freed, strict=True)]
    return {
        "due": tuple(each / _MINOR for each in due),
        "last": left / _MINOR,
        "total": (sum(due) + left) / _MINOR,
    }


def spending_curve(part_of_time: tuple[float, ...], c: float, k: float) -> dict[str, Value]:
    """Return the part of the value that is done by a part of the time, as on large public jobs: a shape, no forecast.

    Source: dhss_curve
    """
    if not part_of_time or not all(0.0 <= x <= 1.0 for x in part_of_time) or k == 0.0:
        message = "Parts of the time lie within 0 and 1, and K is not zero."
        raise SumRefusedError(message)
    found = tuple(x + c * x**2 - c * x - (6.0 * x**3 - 9.0 * x**2 + 3.0 * x) / k for x in part_of_time)
    return {"part_of_value": found}


SUMS: tuple[Sum, ...] = (
    Sum(
        "retention",
        "Find what is paid of each payment when a part is held back",
        (
            Quantity("payments", "", "payments before anything is held back, any currency", "numbers"),
            Quantity("complete", "", "which of them falls due at completion, from 1"),
            Quantity("retention_percent", "%", "part that is held back", default=5.0),
            Quantity("freed_percent", "%", "part of it that is freed at completion", default=50.0),
        ),
        (
            Quantity("due", "", "what is paid each time", "numbers"),
            Quantity("last", "", "what is paid when all is put right"),
            Quantity("total", "", "all together"),
        ),
        "due = payment − held + freed",
        "surveyors_retention",
        retention,
    ),
    Sum(
        "spending-curve",
        "See the usual shape of spending on a large job: shape only, no forecast for a small one",
        (
            Quantity("part_of_time", "", "parts of the time that are gone, 0 to 1", "numbers"),
            Quantity("c", "", "constant C", default=0.134),
            Quantity("k", "", "constant K", default=3.884),
        ),
        (Quantity("part_of_value", "", "parts of the value that are done by then", "numbers"),),
        "y = x + C x² − C x − (6x³ − 9x² + 3x) / K",
        "dhss_curve",
        spending_curve,
    ),
)
