"""What may matter in a plan."""

from __future__ import annotations

from enum import StrEnum


class Aim(StrEnum):
    """Something that may matter in a plan."""

    PRICE = "price"
    CUTS = "cuts"
    DAYS = "days"
    CARBON = "carbon"
    CLEARANCE = "clearance"


ALL_AIMS = tuple(Aim)
