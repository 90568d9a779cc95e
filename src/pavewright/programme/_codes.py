"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    COLD_SEASON = "programme.cold_season"
    NO_SKILL = "programme.no_skill"
    NO_SUCH_TASK = "programme.no_such_task"
    OUT_OF_ORDER = "programme.out_of_order"
    PIN_LATE = "programme.pin_late"
    WEATHER_GATE = "programme.weather_gate"
    LEAD_TOO_LONG = "programme.lead_too_long"
    CARRIAGE_AGAIN = "programme.carriage_again"
    DROP_SPACE = "programme.drop_space"
    DROP_SPACE_ASKED = "programme.drop_space_asked"
    CLOCK_CHANGES = "programme.clock_changes"
    TWO_DELIVERIES = "programme.two_deliveries"
    FROST_DAYS = "programme.frost_days"
    NO_HARDENING = "programme.no_hardening"
