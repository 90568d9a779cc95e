"""On which terms the example jobs are sold: payments by what can be seen, retention, rates that settle. Invented."""

from __future__ import annotations

from typing import Any

Document = dict[str, Any]

_STAGES = [
    {"event": "deposit", "percent": 25.0},
    {"event": "base_in", "percent": 25.0},
    {"event": "laid", "percent": 40.0},
    {"event": "complete"},
]
_PLAIN = {"stages": _STAGES, "days_to_pay": 7, "supplier_days": 30, "valid_days": 30}
_RATES = [
    {"name": "Soft ground dug out and filled with stone", "unit": "m3", "rate_minor": 11500},
    {"name": "Buried concrete broken out", "unit": "m3", "rate_minor": 18500},
]


def with_terms(name: str, job: Document) -> Document:
    """Return a job with its terms."""
    terms: Document = dict(_PLAIN)
    if name == "front_drive":
        terms |= {"retention_percent": 5.0, "retention_freed_percent": 50.0, "defects_days": 28, "provisional": _RATES}
    if name == "gully_yard":
        terms |= {"stages": [{"event": "complete"}], "days_to_pay": 14}
    return {**job, "terms": terms}
