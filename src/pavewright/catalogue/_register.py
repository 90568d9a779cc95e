"""All sums by name: whoever asks for them all loads every room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import (
    as_laid,
    bedding,
    buildup,
    cash,
    chance,
    cost,
    earthworks,
    firm,
    flow,
    hold_points,
    laying,
    levels,
    method,
    photo_survey,
    programme,
    quantities,
    record,
    setting_out,
    site_log,
    survey,
    water,
)

if TYPE_CHECKING:
    from pavewright.sums import Sum

ROOMS: dict[str, tuple[Sum, ...]] = {
    "chance": chance.SUMS,
    "firm": firm.SUMS,
    "survey": survey.SUMS,
    "photo_survey": photo_survey.SUMS,
    "flow": flow.SUMS,
    "levels": levels.SUMS,
    "laying": laying.SUMS,
    "buildup": buildup.SUMS,
    "earthworks": earthworks.SUMS,
    "water": water.SUMS,
    "quantities": quantities.SUMS,
    "cost": cost.SUMS,
    "programme": programme.SUMS,
    "cash": cash.SUMS,
    "method": method.SUMS,
    "setting_out": setting_out.SUMS,
    "bedding": bedding.SUMS,
    "as_laid": as_laid.SUMS,
    "hold_points": hold_points.SUMS,
    "record": record.SUMS,
    "site_log": site_log.SUMS,
}
"""The sums that each room registers, in the order of the rooms."""

SUMS: tuple[Sum, ...] = tuple(
    sorted((entry for room in ROOMS.values() for entry in room), key=lambda entry: entry.name)
)
"""Every registered sum, by name."""
