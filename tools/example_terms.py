"""On which terms the example jobs are sold: payments, rates that settle, warranty, where they are agreed. Invented."""

from __future__ import annotations

from typing import Any

Document = dict[str, Any]

_STAGES = [
    {"event": "deposit", "percent": 25.0},
    {"event": "base_in", "percent": 25.0},
    {"event": "laid", "percent": 40.0},
    {"event": "complete"},
]
_PLAIN = {
    "stages": _STAGES,
    "days_to_pay": 7,
    "supplier_days": 30,
    "valid_days": 30,
    "warranty_months": 24,
    "complaint_to": "the office, at the address on our letter",
    "complaint_days": 10,
}
_AT_HOME = ("l_terrace", "front_drive")
"""Jobs of which it is known that they are agreed at the customer's home."""
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
    agreed = {"agreement": {"place": "home"}} if name in _AT_HOME else {}
    return {**job, "terms": terms, **agreed}
