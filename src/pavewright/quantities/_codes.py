"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    DEEP_PIT = "quantities.deep_pit"
    DIG_NOT_MEASURED = "quantities.dig_not_measured"
    NOT_IN_PRICE = "quantities.not_in_price"
    TAKEN_AS_NEW = "quantities.taken_as_new"
